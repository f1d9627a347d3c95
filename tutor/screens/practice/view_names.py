"""What the cards of a run have in common: the case's name, how it is met, and a way to try it."""

from __future__ import annotations

from tutor.coach.guidance import Help
from tutor.method.terms import Family
from tutor.method.words import case_title
from tutor.progress.attempt import Mode
from tutor.screens.practice import words
from tutor.screens.practice.commands import PracticeAct, TryCase
from tutor.screens.practice.state import CaseRun
from tutor.session.house import Session
from tutor.ui.view import Block, Button, Text, TextStyle, Tone

END_BUTTON = Button(PracticeAct.END, words.END)
_HOW = {
    Help.WATCH: words.WATCH,
    Help.LAST_TURN: words.LAST_TURN,
    Help.LAST_STEP: words.LAST_STEP,
    Help.WITH_HINTS: words.WITH_HINTS,
    Help.ALONE: words.ALONE,
}


def name_blocks(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The case by number and name, seen in its slot; where the top is turned further, what the name fits."""
    cross = session.settings.colour_names[session.settings.cross]
    title = case_title(run.case.number, run.case.short_name(run.slot, cross))
    name = Text(title, TextStyle.HEADING)
    if not run.alignment or run.case.family is Family.BOTH_IN_SLOT:
        return (name,)
    corner_up = run.case.family is not Family.EDGE_ON_TOP
    fits = words.NAMED_CORNER_ABOVE if corner_up else words.NAMED_EDGE_ABOVE
    return name, Text(fits, TextStyle.SMALL, Tone.MUTED)


def caption(run: CaseRun) -> str:
    """How the case is met; once it is over, its number."""
    how = _HOW[run.help]
    if run.glance is not None:
        how = words.GLANCE
    elif run.mode is Mode.STEADY:
        how = words.STEADY
    how = words.case(run.case.number) if run.over else how
    return words.caption(how, run.slot, run.counts_for.number if run.mirror else None)


def try_button(run: CaseRun, help: Help, label: str) -> Button:
    """A button that begins the run's case with so much help."""
    return Button(TryCase(run.case.slug, run.slot, run.alignment, help), label)
