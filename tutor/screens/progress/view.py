"""The Progress screen: the cases as a map by how well the learner remembers them, and figures."""

from __future__ import annotations

from datetime import tzinfo
from functools import lru_cache

from msgspec.structs import replace

from tutor.cube.position import SLOTS
from tutor.method.cases import CASES, Case, Family
from tutor.method.words import case_title
from tutor.progress.attempt import GUEST
from tutor.progress.summary import RECENT, CaseStanding, Memory, SlotStanding, Summary
from tutor.screens.parts.badges import BADGES
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.stage import small_picture
from tutor.screens.practice.commands import NAME as PRACTICE
from tutor.screens.practice.commands import TryCase
from tutor.screens.progress import words
from tutor.screens.progress.plots import forecast, over_time, week
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

DAYS = RECENT.days
_HOW_TO_TRY = Text(words.HOW_TO_TRY, TextStyle.SMALL, Tone.MUTED)


@lru_cache(maxsize=2)
def progress(session: Session) -> View:
    """The Progress screen."""
    return screen_view(session, words.TITLE, page=_page(session))


def sheet(session: Session) -> View:
    """The same as a sheet to hand out: with the day, and without what only a window needs."""
    columns = tuple(
        tuple(
            _unpressable(block) for block in column if not isinstance(block, Button) and block != _HOW_TO_TRY
        )
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
    title = Text(words.title(None if learner == GUEST else learner), TextStyle.TITLE)
    if summary is None:
        return ((title, Text(words.LOADING, tone=Tone.MUTED)),)
    if not any(each.attempts for each in summary.cases):
        return ((title, *_beginning(), *_map(session, summary)),)
    return (
        (title, *_standing(summary), *_map(session, summary)),
        (*_plots(summary), *_steps(summary), *_slots(summary)),
    )


def _beginning() -> tuple[Block, ...]:
    return Text(words.BEGINNING), Button(Open(PRACTICE), words.START, primary=True)


def _standing(summary: Summary) -> tuple[Block, ...]:
    remembered = summary.count(Memory.STICKS) + summary.count(Memory.SURE)
    met, today = len(CASES) - summary.count(Memory.NOT_MET), len(summary.week[0].slugs)
    label = words.PRACTISE_TODAY if today else words.PRACTISE
    practise = Button(Open(PRACTICE), label, primary=bool(today))
    return Text(words.standing(met, remembered, today)), practise, PlotGrid((week(summary),))


# ---------------------------------------------------------------------------------------------- the map


def _map(session: Session, summary: Summary) -> tuple[Block, ...]:
    standings = {each.case.slug: each for each in summary.cases}
    today = frozenset(summary.week[0].slugs)
    legend = tuple(
        (each.sign, *BADGES[each], words.in_legend(each.word, summary.count(each))) for each in Memory
    )
    blocks: list[Block] = [
        Text(words.CASES, TextStyle.HEADING),
        Legend(legend),
        Text(words.HOW_TO_READ, TextStyle.SMALL, Tone.MUTED),
        _HOW_TO_TRY,
    ]
    for family in Family:
        cells = tuple(
            _cell(session, standings[case.slug], case.slug in today)
            for case in CASES
            if case.family is family
        )
        blocks.append(Text(words.family(family), TextStyle.SMALL))
        blocks.append(MiniatureGrid(cells, map=True))
    return tuple(blocks)


def _cell(session: Session, standing: CaseStanding, today: bool) -> Miniature:
    tone, solid = BADGES[standing.memory]
    return Miniature(
        TryCase(standing.case.slug),
        "" if standing.remember is None else words.chance(standing.remember),
        _stage(session, standing.case),
        badge=standing.memory.sign,
        tone=tone,
        solid=solid,
        dotted=today,
        tip=tip(standing, _name(session, standing.case), today, session.records.zone),
        number=str(standing.case.number),
    )


def _stage(session: Session, case: Case) -> Stage:
    attempt = case_attempt(case, SLOTS[0], 0, session.settings)
    bearing, stage = attempt.bearing(), Stage(attempt.cube.colours)
    return stage if bearing is None else small_picture(stage, bearing)


def _name(session: Session, case: Case) -> str:
    """The case by number and name, as its small cube shows it."""
    cross = session.settings.colour_names[session.settings.cross]
    return case_title(case.number, case.short_name(SLOTS[0], cross))


def tip(standing: CaseStanding, name: str, today: bool, zone: tzinfo) -> tuple[str, ...]:
    """What a case says when it is pointed at: its name, how well it is remembered, how it went, and on what
    day of ``zone`` it comes back."""
    lines = [name, words.memory(standing.memory.word, standing.remember)]
    if standing.attempts:
        lines.append(words.tried(standing.attempts, standing.extra, standing.recognition))
    if today:
        lines.append(words.ON_TODAYS_LIST)
    elif standing.next is not None:
        lines.append(words.on_the_list(standing.next.astimezone(zone).date()))
    return tuple(lines)


# ------------------------------------------------------------------------------------------ the figures


def _plots(summary: Summary) -> tuple[Block, ...]:
    plots = over_time(summary)
    if summary.forecast:
        plots = (*plots, forecast(summary))
    return (Text(words.OVER_TIME, TextStyle.HEADING), PlotGrid(plots))


def _steps(summary: Summary) -> tuple[Block, ...]:
    most = max((each.lost for each in summary.steps), default=0.0)
    bars = tuple(
        Progress(
            words.step(each.step.value.capitalize(), each.lost, each.share),
            each.lost / most if most else 0.0,
        )
        for each in summary.steps
    )
    return (
        Text(words.STEPS, TextStyle.HEADING),
        Text(words.steps_since(DAYS), TextStyle.SMALL, Tone.MUTED),
        *bars,
    )


def _slots(summary: Summary) -> tuple[Block, ...]:
    header = (words.SLOT, words.TRIES, words.GOOD, words.EXTRA, words.SECONDS)
    return (
        Text(words.SLOTS, TextStyle.HEADING),
        Text(words.slots_since(DAYS), TextStyle.SMALL, Tone.MUTED),
        Table(header, tuple(_slot_row(each) for each in summary.slots)),
    )


def _slot_row(standing: SlotStanding) -> tuple[str, ...]:
    good = words.UNKNOWN if standing.good is None else words.chance(standing.good)
    return (
        words.slot(standing.slot),
        str(standing.attempts),
        good,
        _figure(standing.extra),
        _figure(standing.recognition),
    )


def _figure(value: float | None) -> str:
    return words.UNKNOWN if value is None else f"{value:.1f}"
