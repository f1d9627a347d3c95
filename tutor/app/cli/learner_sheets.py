"""What each learner of the store should practise next, as a sheet: what slips, and what was given."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from tutor.app.cli.standings import open_store
from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import sheet as words
from tutor.cube.faces import Face
from tutor.cube.position import Slot
from tutor.lesson.library import lesson_entries
from tutor.method.cases import parse_case
from tutor.progress.assignment import Assignment, open_cases, to_do
from tutor.progress.attempt import now_utc
from tutor.progress.local_zone import LOCAL_ZONE
from tutor.progress.store import AttemptStore
from tutor.progress.study import Study, load_study
from tutor.progress.summary import Memory, summarise
from tutor.progress.words import last_day
from tutor.publish.case_sheet import CaseSheet
from tutor.publish.words import given_cases, given_lesson, practice_title


def sheets_of_learners(
    lessons: Path | None, slot: Slot, cross: Face, columns: int
) -> tuple[tuple[CaseSheet, ...], tuple[str, ...]]:
    """A sheet for each learner who has something to practise, and the names of the others.

    Raises RequestError when nobody has anything.
    """
    titles = {lesson.name: lesson.title for lesson in lesson_entries(lessons)}
    sheets, without = [], []
    with open_store() as store:
        for learner in store.learners():
            study = load_study(store, learner, now_utc())
            sheet = _sheet(store, learner, study, titles, (slot, cross, columns))
            if sheet is not None:
                sheets.append(sheet)
            elif len(study.results):
                without.append(learner)
    if not sheets:
        raise RequestError(words.NOBODY_PRACTISES)
    return tuple(sheets), tuple(without)


def _sheet(
    store: AttemptStore, learner: str, study: Study, titles: dict[str, str], look: tuple[Slot, Face, int]
) -> CaseSheet | None:
    now, assigned = now_utc(), store.assignments(learner)
    given = map(parse_case, open_cases(assigned, study.results, now))
    slipping = summarise(study, now, LOCAL_ZONE).remembered(Memory.SLIPPING)
    tasks = to_do(assigned, study.results, now, LOCAL_ZONE)
    today = now.astimezone(LOCAL_ZONE).date()
    told = tuple(_told(tuple(each.assignment for each in tasks if not each.done), titles, today))
    cases = tuple(dict.fromkeys((*given, *slipping)))
    if not cases and not told:
        return None
    own = {each.case: each.text for each in store.own_words(learner) if each.text}
    slot, cross, columns = look
    return CaseSheet(cases, slot, cross, practice_title(learner), learner, columns, own, told)


def _told(given: tuple[Assignment, ...], titles: dict[str, str], today: date) -> Iterator[str]:
    """What a teacher has given: the cases of each last day together, then each lesson."""
    days = dict.fromkeys(each.until for each in given if each.case is not None)
    for day in days:
        numbers = (each.case.number for each in given if each.until == day and each.case is not None)
        yield given_cases(sorted(numbers), _last_day(day, today))
    for each in given:
        if each.lesson:
            yield given_lesson(titles.get(each.lesson, each.lesson), _last_day(each.until, today))


def _last_day(day: date | None, today: date) -> str:
    return "" if day is None else last_day(day, today)
