"""``progress assign``: cases and lessons given to learners, listed, and withdrawn."""

from __future__ import annotations

import argparse
from datetime import date

from tutor.app.cli.case_list import parse_case_list
from tutor.app.cli.standings import learner_named, open_store
from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import progress as words
from tutor.app.terminal import tell
from tutor.lesson.library import lesson_names
from tutor.progress.assigning import assign
from tutor.progress.assignment import AssignedState, Assignment, case_task, lesson_task, to_do
from tutor.progress.attempt import GUEST, now_utc
from tutor.progress.local_zone import LOCAL_ZONE
from tutor.progress.store import AttemptStore
from tutor.progress.study import load_study
from tutor.progress.words import last_day
from tutor.quoting import quotable


def add_assign(parser: argparse.ArgumentParser) -> None:
    """The arguments."""
    who = parser.add_mutually_exclusive_group()
    who.add_argument("--learner", action="append", metavar=words.NAME, help=words.ASSIGN_LEARNER)
    who.add_argument("--all", action="store_true", help=words.ASSIGN_ALL)
    parser.add_argument("--cases", metavar="LIST", help=words.ASSIGN_CASES)
    parser.add_argument("--lesson", action="append", default=[], metavar="LESSON", help=words.ASSIGN_LESSON)
    parser.add_argument("--until", metavar="DAY", help=words.ASSIGN_UNTIL)
    parser.add_argument("--withdraw", action="store_true", help=words.ASSIGN_WITHDRAW)


def run_assign(chosen: argparse.Namespace) -> int:
    """Give, withdraw or list tasks and return the exit status."""
    now = now_utc()
    today = now.astimezone(LOCAL_ZONE).date()
    tasks, until = _tasks(chosen), _day(chosen.until, today)
    with open_store() as store:
        learners = _learners(store, chosen)
        if not tasks:
            if chosen.withdraw or until is not None:
                raise RequestError(words.NAME_A_TASK)
            _list(store, learners or store.learners())
            return 0
        if not learners:
            raise RequestError(words.NAME_A_LEARNER)
        state = AssignedState.WITHDRAWN if chosen.withdraw else AssignedState.GIVEN
        kept = [
            each for task in tasks for each in assign(store, learners, task, now, until=until, state=state)
        ]
    last = "" if until is None else last_day(until, today)
    tell(words.withdrawn(len(kept)) if chosen.withdraw else words.assigned(len(tasks), learners, last))
    return 0


def _tasks(chosen: argparse.Namespace) -> tuple[str, ...]:
    cases = () if chosen.cases is None else parse_case_list(chosen.cases)
    known = lesson_names(chosen.lessons)
    for name in chosen.lesson:
        if name not in known:
            raise RequestError(words.no_such_lesson(quotable(name), known))
    return tuple(dict.fromkeys((*map(case_task, cases), *map(lesson_task, chosen.lesson))))


def _learners(store: AttemptStore, chosen: argparse.Namespace) -> tuple[str, ...]:
    """Those named, or all who have a name; none where neither is asked for."""
    if chosen.all:
        return tuple(name for name in store.learners() if name != GUEST)
    return tuple(dict.fromkeys(learner_named(store, name) for name in chosen.learner or ()))


def _day(text: str | None, today: date) -> date | None:
    if text is None:
        return None
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise RequestError(words.no_day(quotable(text))) from None
    if day < today:
        raise RequestError(words.day_over(quotable(text), today.isoformat()))
    return day


def _list(store: AttemptStore, learners: tuple[str, ...]) -> None:
    now, told = now_utc(), False
    for learner in learners:
        results = load_study(store, learner, now).results
        for each in to_do(store.assignments(learner), results, now, LOCAL_ZONE):
            tell(words.task_line(learner, _named(each.assignment), each.assignment.until, done=each.done))
            told = True
    if not told:
        tell(words.NOTHING_TO_DO)


def _named(assignment: Assignment) -> str:
    case = assignment.case
    return words.lesson_named(assignment.lesson) if case is None else words.case_named(case.number)
