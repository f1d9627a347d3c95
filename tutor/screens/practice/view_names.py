"""What the cards of a run have in common: the case's name, how it is met, and a way to try it."""

from __future__ import annotations

from tutor.coach.guidance import Help
from tutor.method.words import case_title
from tutor.progress.attempt import Mode
from tutor.screens.practice import words
from tutor.screens.practice.commands import PracticeAct, TryCase
from tutor.screens.practice.state import PRACTICE, CaseRun
from tutor.session.house import Session
from tutor.ui.view import Block, Button, Text, TextStyle

_HOW = {
    Help.WATCH: words.WATCH,
    Help.LAST_TURN: words.LAST_TURN,
    Help.LAST_STEP: words.LAST_STEP,
    Help.WITH_HINTS: words.WITH_HINTS,
    Help.ALONE: words.ALONE,
}


def name_blocks(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The case by number and name, as it was seen in its slot when the run began."""
    cross = session.settings.colour_names[session.settings.cross]
    name = run.case.short_name(run.slot, cross, run.alignment)
    return (Text(case_title(run.case.number, name), TextStyle.HEADING),)


def caption(run: CaseRun) -> str:
    """How the case is met; once it is solved, its number, since the card then has no name above."""
    how = _HOW[run.help]
    if run.glance is not None:
        how = words.GLANCE
    elif run.mode is Mode.STEADY:
        how = words.STEADY
    how = words.case(run.case.number) if run.over and run.finished and run.glance is None else how
    return words.caption(how, run.slot, run.counts_for.number if run.mirror else None)


def way_out(session: Session) -> tuple[Button, ...]:
    """The way out of a run: to the end of the sitting, or back to the screen where its case was picked.

    The way to the first room stands in the bar.
    """
    practice, house = PRACTICE.of(session), session.house
    if practice.mode is not None:
        return (Button(PracticeAct.END, words.END),)
    if practice.came_from in ("", house.first.name) or practice.came_from not in house:
        return ()
    door = house[practice.came_from].door(session)
    return () if door is None else (Button(PracticeAct.BACK, words.back_to(door.label)),)


def try_button(run: CaseRun, help: Help, label: str) -> Button:
    """A button that begins the run's case with so much help."""
    return Button(TryCase(run.case.slug, run.slot, run.alignment, help), label)
