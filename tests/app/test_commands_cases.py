"""``cases``: the list of the 41 cases, held against figures from outside."""

import json
from collections import Counter
from typing import Any

import pytest

from tutor.app.command_line import main
from tutor.cube.notation import parse_turns
from tutor.cube.position import SOLVED, Slot
from tutor.method.cases import ALIGNMENTS, CASES, Case, case_of, parse_case
from tutor.method.routes import routes
from tutor.solver.search import Solver
from tutor.solver.task import Task


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> str:
    return str(tmp_path_factory.getbasetemp() / "cache")


@pytest.fixture(autouse=True)
def _own_tables(cache: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", cache)


@pytest.fixture
def listed(capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    assert main(["cases", "--json"]) == 0
    written = capsys.readouterr()
    assert written.err == ""
    found: list[dict[str, Any]] = json.loads(written.out)
    return found


def best_length(solver: Solver, case: Case) -> int:
    """The fewest turns of a case with the top turned as suits it."""
    positions = [case.position(alignment=alignment) for alignment in ALIGNMENTS]
    return min(solver.distance(position, Task.at(position, Slot.FR)) for position in positions)


def test_there_are_41_cases_in_four_families(listed: list[dict[str, Any]]) -> None:
    # Common practice; counting gives 24 + 6 + 6 + 5.
    assert len({case["name"] for case in listed}) == len(listed) == 41
    assert sorted(Counter(case["family"] for case in listed).values()) == [5, 6, 6, 24]
    assert all(
        list(case) == ["name", "slug", "family", "setup", "shortest", "route", "mirror"] for case in listed
    )


def test_lengths_are_those_an_independent_search_found(listed: list[dict[str, Any]]) -> None:
    # Independent search, best alignment of the top: none of length 1, 2 or 4, the longest is 9; no route
    # needs more than 10 turns.
    solver = Solver.open()
    assert {best_length(solver, parse_case(case["slug"])) for case in listed} == {3, 5, 6, 7, 8, 9}
    assert all(case["shortest"] <= case["route"] <= 10 for case in listed)


def test_turning_the_top_first_saves_one_turn_of_a_line_at_most_as_the_help_says(
    listed: list[dict[str, Any]],
) -> None:
    solver = Solver.open()
    saved = [case["shortest"] - best_length(solver, parse_case(case["slug"])) for case in listed]
    assert set(saved) == {0, 1}


def test_a_setup_makes_its_case_and_the_lengths_hold_for_it(listed: list[dict[str, Any]]) -> None:
    solver = Solver.open()
    for case in listed:
        position = SOLVED.after(parse_turns(case["setup"]))
        task = Task.at(position, Slot.FR)
        assert len(task.keep) == 3
        sighting = case_of(position, task)
        assert sighting is not None
        assert sighting.case.name == case["name"]
        assert solver.distance(position, task) == case["shortest"]
        assert routes(position, task).length == case["route"]


def test_a_mirror_image_is_as_long_and_its_mirror_is_the_case_itself(listed: list[dict[str, Any]]) -> None:
    by_name = {case["name"]: case for case in listed}
    for case in listed:
        mirror = by_name[case["mirror"]]
        assert mirror["mirror"] == case["name"]
        assert (mirror["family"], mirror["shortest"]) == (case["family"], case["shortest"])


def test_the_table_lists_every_family_and_case(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "240")
    assert main(["cases"]) == 0
    written = capsys.readouterr().out
    assert written.count("Setup") == 4
    assert "Both in the slot" in written
    assert (
        written.count("Corner above its slot, cross colour up; edge on top at the front, front colour up")
        == 1
    )


def test_the_table_names_each_case_as_commands_take_it_even_in_a_narrow_terminal(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["cases"]) == 0
    words = capsys.readouterr().out.split()
    for case in CASES:
        # Once for itself and once as the mirror of another, or twice when it is its own mirror.
        assert words.count(case.slug) == 2
        assert parse_case(case.slug) is case
