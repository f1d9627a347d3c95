"""The Progress screen: the cases as a map by how well they hold, what turns cost, and figures over time."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from tutor.cube.position import SLOTS
from tutor.method.cases import CASES, Case, Family
from tutor.progress.attempt import GUEST
from tutor.progress.summary import RECENT, CaseStanding, Memory, SlotStanding, Summary
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.stage import marked
from tutor.screens.practice.commands import NAME as PRACTICE
from tutor.screens.practice.commands import TryCase
from tutor.screens.progress.plots import day_words, forecast, over_time, week
from tutor.session.attempts import case_attempt
from tutor.session.commands import Open
from tutor.session.house import Session
from tutor.ui.view import (
    Block,
    Button,
    Legend,
    Miniature,
    MiniatureGrid,
    PlotGrid,
    Progress,
    Stage,
    Table,
    Text,
    TextStyle,
    Tone,
    View,
)

BADGES = {
    Memory.NOT_MET: (Tone.MUTED, False),
    Memory.SETTLING: (Tone.NEUTRAL, False),
    Memory.SLIPPING: (Tone.WARNING, True),
    Memory.STICKS: (Tone.GOOD, False),
    Memory.SURE: (Tone.GOOD, True),
}
"""Colour of a badge: its tone, and whether it is full of it."""
DAYS = RECENT.days


@lru_cache(maxsize=2)
def progress(session: Session) -> View:
    """The Progress screen."""
    return screen_view(session, "Progress", page=_page(session))


def sheet(session: Session) -> View:
    """The same as a sheet to hand out: with the day, and without what only a window needs."""
    columns = tuple(
        tuple(_unpressable(block) for block in column if not isinstance(block, Button))
        for column in _page(session)
    )
    day = "" if session.records.summary is None else f", {session.records.summary.week[0].day.isoformat()}"
    return View(session.screen, f"Pairwright{day}", page=columns, look=session.settings.look)


def _unpressable(block: Block) -> Block:
    if not isinstance(block, MiniatureGrid):
        return block
    return replace(block, miniatures=tuple(replace(each, action=None, tip=()) for each in block.miniatures))


def _page(session: Session) -> tuple[tuple[Block, ...], ...]:
    summary, learner = session.records.summary, session.records.learner
    title = Text("Progress" if learner == GUEST else f"Progress of {learner}", TextStyle.TITLE)
    if summary is None:
        return ((title, Text("One moment: going through what you have practised.", tone=Tone.MUTED)),)
    if not any(each.attempts for each in summary.cases):
        return ((title, *_beginning(), *_map(session, summary)),)
    return (
        (title, *_standing(summary), *_map(session, summary)),
        (*_plots(summary), *_steps(summary), *_slots(summary)),
    )


def _beginning() -> tuple[Block, ...]:
    return (
        Text(
            "Here you will see how the 41 cases settle in your hands. "
            "Try one, and it gets its letter on this map."
        ),
        Button(Open(PRACTICE), "Start to practise", primary=True),
    )


def _standing(summary: Summary) -> tuple[Block, ...]:
    kept, due = summary.count(Memory.STICKS) + summary.count(Memory.SURE), len(summary.week[0].slugs)
    waiting = "Nothing is due today." if not due else f"Due today: {due}."
    met = len(CASES) - summary.count(Memory.NOT_MET)
    told = Text(f"Of the 41 cases you have met {met}, and {kept} hold. {waiting}")
    label = "Practise what is due" if due else "Practise"
    practise = Button(Open(PRACTICE), label, primary=bool(due))
    return told, practise, PlotGrid((week(summary),))


# ---------------------------------------------------------------------------------------------- the map


def _map(session: Session, summary: Summary) -> tuple[Block, ...]:
    standings = {each.case.slug: each for each in summary.cases}
    due = frozenset(summary.week[0].slugs)
    legend = tuple((hold.letter, *BADGES[hold], f"{hold.word}: {summary.count(hold)}") for hold in Memory)
    blocks: list[Block] = [
        Text("The cases", TextStyle.HEADING),
        Legend(legend),
        Text(
            "A dot: due today. The figure: the chance that you remember the case. Open one to try it.",
            TextStyle.SMALL,
            Tone.MUTED,
        ),
    ]
    for family in Family:
        cells = tuple(
            _cell(session, standings[case.slug], case.slug in due) for case in CASES if case.family is family
        )
        blocks.append(Text(f"{family.value[:1].upper()}{family.value[1:]}", TextStyle.SMALL))
        blocks.append(MiniatureGrid(cells, map=True))
    return tuple(blocks)


def _cell(session: Session, standing: CaseStanding, due: bool) -> Miniature:
    tone, solid = BADGES[standing.hold]
    return Miniature(
        TryCase(standing.case.slug),
        "" if standing.recall is None else f"{standing.recall:.0%}",
        _stage(session, standing.case),
        badge=standing.hold.letter,
        tone=tone,
        solid=solid,
        dotted=due,
        tip=tip(standing, due),
    )


def _stage(session: Session, case: Case) -> Stage:
    attempt = case_attempt(case, SLOTS[0], 0, session.settings)
    bearing, stage = attempt.bearing(), Stage(attempt.cube.colours)
    return stage if bearing is None else marked(stage, bearing)


def tip(standing: CaseStanding, due: bool) -> tuple[str, ...]:
    """What is told of a case that is pointed at: its name, how it holds, how it went, when it is due."""
    held = standing.hold.word.capitalize()
    if standing.recall is not None:
        held += f": {standing.recall:.0%} to remember it"
    lines = [standing.case.name, held]
    tries = "1 try" if standing.attempts == 1 else f"{standing.attempts} tries"
    if standing.attempts:
        parts = [tries]
        if standing.extra is not None:
            parts.append(f"{standing.extra:.1f} turns over the fewest by hand")
        if standing.recognition is not None:
            parts.append(f"{standing.recognition:.1f} s to the first turn")
        lines.append(", ".join(parts))
    if due:
        lines.append("Due today")
    elif standing.due is not None:
        lines.append(f"Due {day_words(standing.due.date())}")
    return tuple(lines)


# ------------------------------------------------------------------------------------------ the figures


def _plots(summary: Summary) -> tuple[Block, ...]:
    plots = over_time(summary)
    if summary.forecast:
        plots = (*plots, forecast(summary))
    return (Text("Over time", TextStyle.HEADING), PlotGrid(plots))


def _steps(summary: Summary) -> tuple[Block, ...]:
    most = max((each.lost for each in summary.steps), default=0.0)
    bars = tuple(
        Progress(
            f"{each.step.value.capitalize()}: {each.lost:.2f} turns lost on average, "
            f"some in {each.share:.0%} of tries",
            each.lost / most if most else 0.0,
        )
        for each in summary.steps
    )
    return (
        Text("Which step costs turns", TextStyle.HEADING),
        Text(
            f"In the last {DAYS} days. Find is looking, so it costs time alone.", TextStyle.SMALL, Tone.MUTED
        ),
        *bars,
    )


def _slots(summary: Summary) -> tuple[Block, ...]:
    header = (
        "Slot",
        "Tries",
        "Without help, in the fewest turns",
        "Turns over the fewest by hand",
        "Seconds to the first turn",
    )
    return (
        Text("Slot by slot", TextStyle.HEADING),
        Text(f"In the last {DAYS} days.", TextStyle.SMALL, Tone.MUTED),
        Table(header, tuple(_slot_row(each) for each in summary.slots)),
    )


def _slot_row(standing: SlotStanding) -> tuple[str, ...]:
    good = "–" if standing.good is None else f"{standing.good:.0%}"
    return (
        standing.slot.name,
        str(standing.attempts),
        good,
        _figure(standing.extra),
        _figure(standing.recognition),
    )


def _figure(value: float | None) -> str:
    return "–" if value is None else f"{value:.1f}"
