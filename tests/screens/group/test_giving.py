"""What a teacher gives in the Group screen stands on the learner's Home, and is ticked when it is done."""

from __future__ import annotations

from datetime import UTC, timedelta
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.progress.drawn_group import NAMES
from tests.screens.group.group_views import ATTEMPTS, NOW, group_pilot
from tests.screens.practice.sitting import finish, run_of
from tests.session.held import held
from tests.session.pilot import EPOCH, Pilot, Reading
from tests.workers.direct import answers_of
from tutor.counting import counted
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.method.cases import CASES
from tutor.progress.assigning import assign
from tutor.progress.assignment import AssignedState, Assignment, case_task, lesson_task
from tutor.progress.attempt import GUEST, Mode
from tutor.progress.group import GroupMember
from tutor.progress.store import AttemptStore
from tutor.screens.group.commands import Give, GroupAct, ShowAcross, ShowTask
from tutor.screens.group.state import REPORT
from tutor.screens.practice.commands import Practise
from tutor.session.places import with_place
from tutor.session.record_commands import ChooseLearner
from tutor.session.state import LessonPlace
from tutor.solver.search import Solver
from tutor.ui.view import Text, Tone
from tutor.workers.recorder import Recorder

CASE, LESSON = CASES[13], "three-turn-join"
ILVA, BASTIAN = NAMES[:2]


@pytest.fixture
def pilot(solver: Solver, tmp_path: Path) -> Pilot:
    """At the Group screen, with a case shown across the group."""
    with AttemptStore.open(tmp_path, lambda: NOW) as store:
        store.merge(ATTEMPTS)
    lesson = load_lesson(LESSON, LessonSetting(answers_of(solver)))
    pilot = Pilot(solver, {LESSON: lesson}, keeper=Recorder(tmp_path, lambda: NOW, UTC))
    # The session's clock and the store's are one.
    pilot.now = NOW.timestamp() - EPOCH
    assert pilot.view.screen == "home"
    pilot.settle()
    pilot.press("open:GROUP")
    pilot.settle()
    pilot.press(ShowAcross(CASE.slug))
    return pilot


def kept(folder: Path) -> tuple[Assignment, ...]:
    with AttemptStore.open(folder, lambda: NOW) as store:
        return store.assignments()


def chosen(pilot: Pilot) -> list[str]:
    """The names of those who have what is shown to do."""
    return [
        button.label
        for button in Reading(pilot.view).buttons
        if button.selected and isinstance(button.action, Give)
    ]


def test_a_case_is_given_to_one_to_several_and_to_all_and_taken_back(pilot: Pilot, tmp_path: Path) -> None:
    pilot.press(Reading(pilot.view).button(BASTIAN).action)
    assert chosen(pilot) == [BASTIAN]
    pilot.press(Reading(pilot.view).button("Give it to everyone").action)
    assert chosen(pilot) == sorted(NAMES)
    assert {each.learner for each in kept(tmp_path)} == set(NAMES)
    pilot.press(Reading(pilot.view).button(BASTIAN).action)
    assert chosen(pilot) == sorted({*NAMES} - {BASTIAN})
    pilot.press(Reading(pilot.view).button("Take it back from everyone").action)
    assert chosen(pilot) == []
    assert {each.state for each in kept(tmp_path)} == {AssignedState.WITHDRAWN}
    report = held(REPORT.of(pilot.session))
    pilot.press(ShowAcross(report.cases[0].slug))
    pilot.press(Reading(pilot.view).button("Give it to the four who find it hard").action)
    assert len(chosen(pilot)) == report.hard_for(report.cases[0])


def test_what_was_given_stands_on_home_and_first_on_todays_list_until_it_is_done(
    pilot: Pilot, tmp_path: Path
) -> None:
    pilot.press(Give((ILVA,)))
    pilot.application.give(ChooseLearner(ILVA))
    pilot.settle()
    button = Reading(pilot.view).button(f"Case 14: {CASE.short_name()}")
    assert button.detail == "From your teacher"
    pilot.press(Practise(Mode.TODAY))
    pilot.settle()
    assert run_of(pilot).case is CASE
    for _ in range(4):
        finish(pilot)
        pilot.press("open:HOME")
        pilot.settle()
        ticked = [
            each for each in Reading(pilot.view).blocks if isinstance(each, Text) and ": done" in each.text
        ]
        if ticked:
            break
        pilot.press(f"try:FR:0:ALONE:{CASE.slug}")
        pilot.settle()
    assert [(each.text, each.tone) for each in ticked] == [(f"Case 14: {CASE.short_name()}: done", Tone.GOOD)]


@pytest.mark.parametrize(("days", "year"), [(0, False), (364, False), (366, True), (-1, True)])
def test_the_last_day_has_its_year_where_it_is_not_within_twelve_months(
    pilot: Pilot, tmp_path: Path, days: int, year: bool
) -> None:
    day = NOW.date() + timedelta(days)
    with AttemptStore.open(tmp_path, lambda: NOW) as store:
        assign(store, (ILVA,), case_task(CASE), NOW, until=day)
    pilot.application.give(ChooseLearner(ILVA))
    pilot.settle()
    said = f"Until {day:%A}, {day.day} {day:%B}"
    detail = Reading(pilot.view).button(f"Case 14: {CASE.short_name()}").detail
    assert detail == (f"{said} {day.year}" if year else said)


def test_a_lesson_is_ticked_when_the_learner_comes_to_its_end(pilot: Pilot, tmp_path: Path) -> None:
    pilot.press(GroupAct.LESSONS)
    pilot.press(ShowTask(LESSON))
    pilot.press(Give((BASTIAN,)))
    pilot.application.give(ChooseLearner(BASTIAN))
    pilot.settle()
    last = len(pilot.lessons[LESSON].scenes) - 1
    # All tasks but the end are done.
    place = LessonPlace(LESSON, last, done=tuple(range(last)))
    pilot.application.session = replace(pilot.session, places=with_place(pilot.session, place))
    pilot.press(f"lesson:{last}:0:{LESSON}")
    pilot.settle()
    pilot.key("enter")
    pilot.settle()
    assert pilot.view.screen == "home"
    (task,) = kept(tmp_path)
    assert (task.learner, task.task, task.state) == (BASTIAN, lesson_task(LESSON), AssignedState.DONE)
    assert any(text.endswith(": done") for text in Reading(pilot.view).texts)


def test_what_is_given_counts_on_todays_list_wherever_it_is_counted(pilot: Pilot) -> None:
    name = next(each.learner for each in held(REPORT.of(pilot.session)).members if not each.of(CASE).today)
    before = sum(case.today for case in _member(pilot, name).cases)
    pilot.press(Give((name,)))
    pilot.settle()
    # The map of the group counts it at once.
    assert sum(case.today for case in _member(pilot, name).cases) == before + 1
    pilot.application.give(ChooseLearner(name))
    pilot.settle()
    listed, waiting = pilot.session.records.listed(pilot.now)
    assert (listed[0], len(listed)) == (CASE.slug, before + 1)
    ready = counted(before + 1 - len(waiting), "case")
    assert any(text.startswith(f"You have {ready} to practise.") for text in Reading(pilot.view).texts)
    pilot.press("open:PRACTICE")
    assert f"Today's list has {ready} for you now." in Reading(pilot.view).texts
    pilot.press("open:PROGRESS")
    pilot.settle()
    today = f"You have {counted(before + 1, 'case')} to practise today."
    assert any(text.endswith(today) for text in Reading(pilot.view).texts)


def _member(pilot: Pilot, name: str) -> GroupMember:
    return next(each for each in held(REPORT.of(pilot.session)).members if each.learner == name)


def test_what_cannot_be_saved_is_said(pilot: Pilot, tmp_path: Path) -> None:
    pilot.press(ShowTask("x" * 200))
    pilot.press(Give((ILVA,)))
    assert pilot.view.notice.startswith("This task is not saved: ")
    assert kept(tmp_path) == ()


def test_a_lesson_that_is_not_on_this_computer_is_named_without_a_button(
    pilot: Pilot, tmp_path: Path
) -> None:
    with AttemptStore.open(tmp_path, lambda: NOW) as store:
        store.assign(Assignment(ILVA, lesson_task("of-my-own"), NOW, NOW))
        store.assign(Assignment(ILVA, case_task(CASE), NOW, NOW))
    pilot.application.give(ChooseLearner(ILVA))
    pilot.settle()
    assert "The lesson of-my-own is not on this computer." in Reading(pilot.view).texts


def test_what_another_program_gives_is_there_when_one_comes_back_to_home(
    solver: Solver, tmp_path: Path
) -> None:
    pilot = group_pilot(solver, tmp_path)
    pilot.press("open:SETTINGS")
    with AttemptStore.open(tmp_path, lambda: NOW) as store:
        store.assign(Assignment(GUEST, case_task(CASES[13]), NOW, NOW))
    pilot.key("escape")
    pilot.settle()
    assert [each.task for each in pilot.session.records.assigned] == [case_task(CASES[13])]
