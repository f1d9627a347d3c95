"""The Group screen through the real application: its figures are those of the store."""

from __future__ import annotations

from datetime import UTC
from pathlib import Path
from uuid import UUID

import msgspec
import pytest

from tests.progress.conftest import AttemptMaker
from tests.progress.drawn_group import NAMES
from tests.screens.group.group_views import ATTEMPTS, NOW, group_pilot
from tests.session.pilot import Pilot, Reading
from tutor.method.cases import CASES
from tutor.progress.group import GroupReport, group_report, told, told_across
from tutor.progress.store import AttemptStore
from tutor.progress.study import load_study
from tutor.screens.group.commands import GroupAct, SeeLearner, ShowAcross
from tutor.screens.group.view import sheet
from tutor.session.record_commands import UndoAttempt
from tutor.session.saving_commands import NotSaved, SavedKind
from tutor.solver.search import Solver
from tutor.ui.focus import pressable
from tutor.ui.inputs import Modifier
from tutor.ui.view import CaseMap, Legend


@pytest.fixture
def pilot(solver: Solver, tmp_path: Path) -> Pilot:
    """At the screen, after two months of the group."""
    pilot = group_pilot(solver, tmp_path, ATTEMPTS)
    pilot.press(Reading(pilot.view).button("Group").action)
    pilot.settle()
    return pilot


def report_in(folder: Path) -> GroupReport:
    with AttemptStore.open(folder, lambda: NOW) as store:
        studies = {name: load_study(store, name, NOW) for name in store.learners()}
    return group_report(studies, NOW, UTC)


def the_map(pilot: Pilot) -> CaseMap:
    (found,) = (block for block in Reading(pilot.view).blocks if isinstance(block, CaseMap))
    return found


def test_the_map_shows_the_figures_of_the_store(pilot: Pilot, tmp_path: Path) -> None:
    report, shown = report_in(tmp_path), the_map(pilot)
    assert [row.name for row in shown.rows] == [member.learner for member in report.members]
    assert [row.figure for row in shown.rows] == [str(member.slipping) for member in report.members]
    assert [column.head for column in shown.columns] == [str(case.number) for case in report.cases]
    for column, case in zip(shown.columns, report.cases, strict=True):
        for cell, member in zip(column.cells, report.members, strict=True):
            assert cell.badge == member.of(case).memory.sign
            assert cell.dotted == member.of(case).today
    (legend,) = (block for block in Reading(pilot.view).blocks if isinstance(block, Legend))
    assert {cell.badge for column in shown.columns for cell in column.cells} <= {e[0] for e in legend.entries}


def test_the_evening_is_told_in_five_numbered_lines(pilot: Pilot, tmp_path: Path) -> None:
    lines = [f"{index}. {line}" for index, line in enumerate(told(report_in(tmp_path)), start=1)]
    assert len(lines) == 5
    assert [text for text in Reading(pilot.view).texts if text in lines] == lines


def test_cases_can_be_put_in_the_books_order(pilot: Pilot) -> None:
    pilot.press(GroupAct.BY_NUMBER)
    assert [column.head for column in the_map(pilot).columns] == [str(case.number) for case in CASES]
    pilot.press(GroupAct.BY_NEED)
    assert [column.head for column in the_map(pilot).columns] != [str(case.number) for case in CASES]


def test_the_ends_are_named_only_where_the_order_says_something(
    pilot: Pilot, solver: Solver, tmp_path: Path
) -> None:
    assert the_map(pilot).ends == ("hardest", "easiest")
    pilot.press(GroupAct.BY_NUMBER)
    assert the_map(pilot).ends == ("", "")
    one = group_pilot(solver, tmp_path / "one", (AttemptMaker()(learner=NAMES[0]),))
    one.press("open:GROUP")
    one.settle()
    assert [row.figure for row in the_map(one).rows] == ["0"] * 4
    assert the_map(one).ends == ("", "")


def test_who_has_never_practised_has_a_row_and_a_dot_means_one_thing(solver: Solver, tmp_path: Path) -> None:
    some = group_pilot(solver, tmp_path, tuple(each for each in ATTEMPTS if each.learner != NAMES[0]))
    some.press("open:GROUP")
    some.settle()
    shown = the_map(some)
    assert sorted(row.name for row in shown.rows) == sorted(NAMES)
    assert shown.rows[-1].name == NAMES[0]
    last = {(column.cells[-1].badge, column.cells[-1].dotted) for column in shown.columns}
    assert last == {("Nm", False)}
    assert any(cell.dotted for column in shown.columns for cell in column.cells)
    (legend,) = (block for block in Reading(some.view).blocks if isinstance(block, Legend))
    assert ("Nm", "not met yet") in [(entry[0], entry[-1]) for entry in legend.entries]
    assert "four learners" in some.view.place


def test_one_press_shows_a_case_across_the_group_and_one_closes_it(pilot: Pilot, tmp_path: Path) -> None:
    report = report_in(tmp_path)
    case = report.cases[0]
    said = " ".join(told_across(report, case))
    assert said not in Reading(pilot.view).texts
    pilot.press(ShowAcross(case.slug))
    assert said in Reading(pilot.view).texts
    assert [column.head for column in the_map(pilot).columns if column.selected] == [str(case.number)]
    pilot.press(ShowAcross(case.slug))
    assert said not in Reading(pilot.view).texts


def test_one_press_opens_the_progress_of_a_learner(pilot: Pilot) -> None:
    name = NAMES[1]
    assert SeeLearner(name) in pressable(pilot.view)
    assert (
        Reading(pilot.view).texts.count(
            "Press a name to choose who is learning and see their progress. "
            "Press a column to see a case across the group."
        )
        == 1
    )
    pilot.press(SeeLearner(name))
    pilot.settle()
    assert pilot.view.screen == "progress"
    assert f"Progress of {name}" in Reading(pilot.view).texts
    assert pilot.view.notice == f"{name} is learning now."


def test_what_another_window_writes_is_there_when_the_screen_opens_again(
    pilot: Pilot, tmp_path: Path
) -> None:
    last = max(ATTEMPTS, key=lambda each: each.time)
    before = the_map(pilot)
    with AttemptStore.open(tmp_path, lambda: NOW) as other:
        for each in other.attempts(last.learner)[-40:]:
            other.undo(each.uuid)
    pilot.press("open:HOME")
    pilot.press("open:GROUP")
    pilot.settle()
    after, report = the_map(pilot), report_in(tmp_path)
    assert after != before
    assert [row.figure for row in after.rows] == [str(member.slipping) for member in report.members]


def test_as_many_other_attempts_of_another_window_change_the_figures(pilot: Pilot, tmp_path: Path) -> None:
    last = max(ATTEMPTS, key=lambda each: each.time)
    with AttemptStore.open(tmp_path, lambda: NOW) as other:
        for each in other.attempts(last.learner)[-40:]:
            other.undo(each.uuid)
            other.record(msgspec.structs.replace(each, uuid=UUID(int=each.uuid.int ^ 1), case=CASES[-1].slug))
    pilot.press("open:HOME")
    pilot.press("open:GROUP")
    pilot.settle()
    shown, report = the_map(pilot), report_in(tmp_path)
    for column, case in zip(shown.columns, report.cases, strict=True):
        badges = [member.of(case).memory.sign for member in report.members]
        assert [cell.badge for cell in column.cells] == badges


def test_an_attempt_taken_back_here_changes_the_figures(pilot: Pilot, tmp_path: Path) -> None:
    own = [each for each in ATTEMPTS if each.learner == NAMES[0]]
    pilot.press(SeeLearner(NAMES[0]))
    pilot.settle()
    pilot.application.services.keeper.carry_out(UndoAttempt(own[-1].uuid, NAMES[0]))  # type: ignore[union-attr]
    pilot.press("open:GROUP")
    pilot.settle()
    assert [row.figure for row in the_map(pilot).rows] == [
        str(member.slipping) for member in report_in(tmp_path).members
    ]


def test_the_page_is_saved_as_a_picture_and_as_a_table(pilot: Pilot) -> None:
    begun: list[SavedKind | None] = []
    for held in (Modifier.CONTROL, Modifier.CONTROL | Modifier.SHIFT):
        pilot.key("s", held)
        begun.append(pilot.session.saving.under_way)
        pilot.application.give(NotSaved(len(begun), ""))
    assert begun == [SavedKind.PICTURE, SavedKind.TABLE]


def test_the_sheet_has_nothing_to_press_and_says_nothing_of_pressing(pilot: Pilot) -> None:
    page = sheet(pilot.session)
    assert pressable(page) == ()
    assert not any("Press" in text for text in Reading(page).texts)
    assert page.title == f"Pairwright, {NOW.date().isoformat()}"
