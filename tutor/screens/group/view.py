"""The Group screen: learners by cases as one map, a case across the group, and the last evening."""

from __future__ import annotations

from functools import lru_cache

from msgspec.structs import replace

from tutor.method.cases import CASES, Case
from tutor.progress.assignment import case_task
from tutor.progress.group import GroupMember, GroupReport, MemberCase, told
from tutor.progress.summary import Memory
from tutor.screens.group import words
from tutor.screens.group.commands import GroupAct, SeeLearner, ShowAcross
from tutor.screens.group.now import now_at_work
from tutor.screens.group.state import LOOK, REPORT
from tutor.screens.group.to_do import lessons, shown_task
from tutor.screens.parts.badges import BADGES
from tutor.screens.parts.case_names import case_title
from tutor.screens.parts.frame import screen_view
from tutor.session.house import Session
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    CaseMap,
    Group,
    Legend,
    MapCell,
    MapColumn,
    MapRow,
    Text,
    TextStyle,
    Tone,
    View,
)

_HOW_TO_PRESS = Text(words.HOW_TO_PRESS, TextStyle.SMALL, Tone.MUTED)


@lru_cache(maxsize=2)
def group(session: Session) -> View:
    """The Group screen."""
    report = REPORT.of(session)
    place = "" if report is None or report.evening is None else words.learners(len(report.members))
    return screen_view(session, words.TITLE, place=place, page=(_page(session),))


def sheet(session: Session) -> View:
    """The same as a sheet to hand out: with the day, and without what only a window needs."""
    report = REPORT.of(session)
    now = now_at_work(session)
    shown = (block for block in _page(session)[len(now) :] if not _pressed(block) and block != _HOW_TO_PRESS)
    blocks = tuple(map(_unpressable, shown))
    day = "" if report is None else f", {report.day.isoformat()}"
    return View(session.screen, f"Pairwright{day}", page=(blocks,), look=session.settings.look)


def _unpressable(block: Block) -> Block:
    match block:
        case CaseMap(rows, columns):
            still = tuple(replace(row, action=None) for row in rows)
            return replace(
                block, rows=still, columns=tuple(replace(each, action=None, tip=()) for each in columns)
            )
        case Group(inner):
            return Group(tuple(each for each in inner if not _pressed(each)))
        case _:
            return block


def _pressed(block: Block) -> bool:
    return isinstance(block, Button | ButtonRow)


def _page(session: Session) -> tuple[Block, ...]:
    report = REPORT.of(session)
    title = Text(words.WHO, TextStyle.TITLE)
    now = now_at_work(session)
    if report is None:
        return *now, title, Text(words.LOADING, tone=Tone.MUTED)
    if report.evening is None:
        return *now, title, Text(words.NOBODY)
    task = shown_task(session, report)
    return (*now, title, *_map(session, report), *lessons(session), *task, *_evening(report))


def _map(session: Session, report: GroupReport) -> tuple[Block, ...]:
    look = LOOK.of(session)
    sort = ButtonRow(
        (
            Button(GroupAct.BY_NEED, words.BY_NEED, selected=not look.by_number),
            Button(GroupAct.BY_NUMBER, words.BY_NUMBER, selected=look.by_number),
        )
    )
    cases = CASES if look.by_number else report.cases
    rows = tuple(_row(member) for member in report.members)
    columns = tuple(_column(session, report, case, selected=case_task(case) == look.task) for case in cases)
    # Where nobody finds any case hard, the order is the book's and says nothing.
    told = not look.by_number and report.hard_for(report.cases[0]) > 0
    ends = (words.HARDEST, words.EASIEST) if told else ("", "")
    legend = tuple((each.sign, *BADGES[each], each.word) for each in Memory)
    return (
        sort,
        CaseMap(rows, columns, ends),
        Legend(legend),
        Text(words.HOW_TO_READ, TextStyle.SMALL, Tone.MUTED),
        _HOW_TO_PRESS,
    )


def _row(member: GroupMember) -> MapRow:
    return MapRow(SeeLearner(member.learner), member.learner, str(member.slipping))


def _column(session: Session, report: GroupReport, case: Case, *, selected: bool) -> MapColumn:
    cells = tuple(_cell(member.of(case)) for member in report.members)
    hard = words.hard_for(report.hard_for(case), len(report.members))
    tip = (case_title(session, case), hard)
    return MapColumn(ShowAcross(case.slug), str(case.number), cells, selected, tip)


def _cell(known: MemberCase) -> MapCell:
    tone, solid = BADGES[known.memory]
    return MapCell(known.memory.sign, tone, solid, known.today)


def _evening(report: GroupReport) -> tuple[Block, ...]:
    lines = tuple(Text(words.line(index, line)) for index, line in enumerate(told(report), start=1))
    return Text(words.EVENING, TextStyle.HEADING), *lines
