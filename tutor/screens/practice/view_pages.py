"""The Practice screen without a cube: what you can practise, an empty list, the end of a sitting."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from tutor.method.cases import CASES, Family
from tutor.progress.attempt import Mode
from tutor.progress.schedule import next_back, steady_cases
from tutor.progress.sitting import farewell
from tutor.screens.learners.commands import NAME as LEARNERS
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.words import OTHER_LEARNER
from tutor.screens.practice import words
from tutor.screens.practice.commands import PracticeAct, Practise, SetGoal
from tutor.screens.practice.sitting import reached
from tutor.screens.practice.state import GOALS, PRACTICE, Practice, PracticePage
from tutor.screens.practice.view_modes import goal_blocks, pace_blocks
from tutor.session.commands import Command, Open
from tutor.session.house import Session
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Gap,
    Group,
    Text,
    TextStyle,
    Tone,
    View,
)

Column = tuple[Block, ...]
_TO_CHOOSE_FROM = 2
"""A way to practise needs so many cases, since none comes twice in a row."""
_UNITS = ((24 * 60, "day"), (60, "hour"), (1, "minute"))
"""Minutes in each unit of time, the longest first."""


def practice_page(session: Session, now: float) -> View:
    """The Practice screen while no run is on it; ``now`` decides what is on the list."""
    return screen_view(session, words.TITLE, page=columns(session, now))


def columns(session: Session, now: float) -> tuple[Column, ...]:
    """The columns of the page."""
    match PRACTICE.of(session).stand:
        case PracticePage.START:
            return _start(session, now), _goals(session)
        case PracticePage.NOTHING:
            return (_nothing(session, now),)
        case PracticePage.FAREWELL:
            return (_farewell(session, now),)


# ----------------------------------------------------------------------------------------------- start


def _start(session: Session, now: float) -> Column:
    study = session.records.study
    met = 0 if study is None else len(study.cards)
    blocks: list[Block] = [
        Text(words.TITLE, TextStyle.TITLE),
        *_who(session),
        Text(list_words(session, now)),
        *_modes(met, 0 if study is None else len(steady_cases(study))),
        Text(words.ONE_FAMILY, TextStyle.HEADING),
        *(_family(family) for family in Family),
    ]
    if PRACTICE.of(session).asked:
        blocks.insert(2, Text(words.CHOOSING, tone=Tone.MUTED))
    return tuple(blocks)


def _who(session: Session) -> Column:
    """Who learns, where there are several."""
    if len(session.records.learners) < 2:
        return ()
    other = Button(Open(LEARNERS), OTHER_LEARNER)
    return (Text(words.learner(session.records.learner)), ButtonRow((other,)))


def _modes(met: int, solved: int) -> Column:
    """The ways to practise; one that needs cases says what unlocks it, and how far the learner is."""
    unmet = "" if met >= _TO_CHOOSE_FROM else words.unlocks_when_met(met)
    too_few = "" if solved >= _TO_CHOOSE_FROM else words.unlocks_when_solved(solved)
    return (
        _mode(Mode.TODAY, words.TODAY, words.TODAY_DETAIL, primary=True),
        _mode(Mode.SLIPPING, words.SLIPPING, words.SLIPPING_DETAIL, unmet),
        _mode(Mode.GLANCE, words.GLANCE, words.GLANCE_DETAIL, unmet),
        _mode(Mode.STEADY, words.STEADY, words.STEADY_DETAIL, too_few),
    )


def _mode(mode: Mode, label: str, detail: str, locked: str = "", *, primary: bool = False) -> Button:
    key = "Enter" if primary else ""
    detail = f"{detail} {locked}" if locked else detail
    return Button(Practise(mode), label, key, primary, not locked, detail=detail)


def _family(family: Family) -> Button:
    count = sum(case.family is family for case in CASES)
    return Button(Practise(Mode.FAMILY, family), words.family(family), detail=words.cases(count))


def list_words(session: Session, now: float) -> str:
    """How many cases of the list practice can give now, or when the next one comes back."""
    study = session.records.study
    if study is None:
        return words.LOADING
    listed, waiting = session.records.listed(now)
    if ready := len(listed) - len(waiting):
        return words.ready_now(ready)
    if not len(study.results):
        return words.BEGINNER
    wall = session.records.wall(now)
    following = next_back(study, wall, session.records.zone)
    if following is None:
        return words.NOTHING_READY
    return words.nothing_ready_until(in_words(wall, following))


def in_words(now: datetime, then: datetime) -> str:
    """How long it is till then, in words that need no calendar."""
    minutes = max(1, round((then - now).total_seconds() / 60))
    # A day and a half counts in hours, an hour and a half in minutes.
    length, unit = next(each for each in _UNITS if minutes >= 2 * each[0] or each[0] == 1)
    return words.after(round(minutes / length), unit)


def _goals(session: Session) -> Column:
    practice = PRACTICE.of(session)
    blocks: list[Block] = []
    if practice.mode is not None and practice.sitting is not None and practice.sitting.attempts:
        end = Button(PracticeAct.END, words.END)
        blocks += [Group((Text(words.UNDER_WAY, TextStyle.HEADING), *goal_blocks(practice), end)), Gap(1)]
    blocks += [
        Text(words.STOP_WHEN, TextStyle.HEADING),
        _goal_row(practice, GOALS[:1]),
        _goal_row(practice, (goal for goal in GOALS if goal[0] == "attempts")),
        _goal_row(practice, (goal for goal in GOALS if goal[0] == "minutes")),
        Gap(1),
        Text(words.BEAT, TextStyle.HEADING),
        *pace_blocks(practice.pace),
        Gap(1),
        Text(words.caution(session.settings.rest_minutes), TextStyle.SMALL, Tone.MUTED),
    ]
    return tuple(blocks)


def _goal_row(practice: Practice, goals: Iterable[tuple[str, int]]) -> ButtonRow:
    return ButtonRow(
        tuple(Button(SetGoal(*goal), words.goal(*goal), selected=goal == practice.goal) for goal in goals)
    )


# ------------------------------------------------------------------------------------------ nothing, end


def _nothing(session: Session, now: float) -> Column:
    study = session.records.study
    mode, met = PRACTICE.of(session).mode, 0 if study is None else len(study.cards)
    said = {Mode.STEADY: words.NO_STEADY, Mode.GLANCE: words.NO_GLANCE}
    why = said[mode] if mode in said else list_words(session, now)
    blocks: list[Block] = [Text(words.NO_CASE, TextStyle.TITLE), Text(why)]
    if met > 1:
        blocks.append(_button(Practise(Mode.SLIPPING), words.SLIPPING_INSTEAD, "Enter", primary=True))
    else:
        blocks.append(_button(Practise(Mode.TODAY), words.TODAY_INSTEAD, "Enter", primary=True))
    return (*blocks, _button(PracticeAct.STOP, words.STOP))


def _farewell(session: Session, now: float) -> Column:
    practice = PRACTICE.of(session)
    title = words.GOAL_REACHED if reached(practice) else words.DONE
    blocks: list[Block] = [Text(title, TextStyle.TITLE)]
    if practice.sitting is not None:
        blocks += [
            Text(farewell(practice.sitting)),
            Text(words.time_spent(int(practice.sitting.spent // 60))),
        ]
    blocks += [Text(words.NEXT_HEADING, TextStyle.HEADING), Text(list_words(session, now)), Gap(1)]
    blocks.append(_button(PracticeAct.STOP, words.STOP, "Enter", primary=True))
    further: list[Button] = []
    if practice.mode is not None and not practice.dry:
        further.append(_button(PracticeAct.GO_ON, words.MORE))
    if practice.mode is not Mode.SLIPPING:
        further.append(_button(Practise(Mode.SLIPPING), words.MORE_SLIPPING))
    return (*blocks, ButtonRow(tuple(further)))


def _button(command: Command, label: str, key: str = "", *, primary: bool = False) -> Button:
    return Button(command, label, key, primary=primary)
