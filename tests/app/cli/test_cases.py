"""``cases``: the list of the 41 cases, held against figures from outside."""

import json
from collections import Counter
from typing import Any

import pytest

from tutor.app.cli.command_line import main
from tutor.cube.faces import Face, Turn, inverse
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.method.cases import ALIGNMENTS, CASES, Case, case_of, parse_case
from tutor.solver.search import Solver
from tutor.solver.task import Task

KEYS = ["number", "name", "short_name", "slug", "family"]
KEYS += ["setup", "shortest", "fewest", "at_all", "route", "mirror"]
TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
BY_HAND = {Face.U, Face.R, Face.F}


def faces(turns: tuple[Turn, ...]) -> set[Face]:
    return {turn.face for turn in turns}


@pytest.fixture
def listed(capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    assert main(["cases", "--json"]) == 0
    written = capsys.readouterr()
    assert written.err == ""
    found: list[dict[str, Any]] = json.loads(written.out)
    return found


def best_by_hand(solver: Solver, case: Case) -> int:
    """The fewest turns by hand of a case with the top turned as suits it."""
    found = [solver.hand_distance(case.position(alignment=top), TASK) for top in ALIGNMENTS]
    return min(length for length in found if length is not None)


def test_there_are_41_cases_in_four_families(listed: list[dict[str, Any]]) -> None:
    # Common practice; counting gives 24 + 6 + 6 + 5.
    assert len({case["name"] for case in listed}) == len(listed) == 41
    assert sorted(Counter(case["family"] for case in listed).values()) == [5, 6, 6, 24]
    assert all(list(case) == KEYS for case in listed)


def test_lengths_are_those_an_independent_search_found(listed: list[dict[str, Any]], solver: Solver) -> None:
    # Independent search: best alignment of the top, none of length 1, 2 or 4, the longest is 9; of the
    # placements by hand none needs 1, 2, 5 or more than 9; no route needs more than 11 turns.
    assert [case["fewest"] for case in listed] == [best_by_hand(solver, case) for case in CASES]
    assert {case["fewest"] for case in listed} <= {3, 6, 7, 8, 9}
    assert max(case["fewest"] for case in listed) == 9
    assert {case["shortest"] for case in listed} <= {3, 4, 6, 7, 8, 9}
    assert all(case["fewest"] <= case["shortest"] <= case["fewest"] + 1 for case in listed)
    assert all(case["shortest"] <= case["route"]["length"] <= 11 for case in listed)


def test_a_setup_makes_its_case_and_the_figures_hold_for_it(
    listed: list[dict[str, Any]], solver: Solver
) -> None:
    for case in listed:
        position = SOLVED.after(parse_turns(case["setup"]))
        sighting = case_of(position, TASK)
        assert sighting is not None
        assert (sighting.case.name, sighting.alignment) == (case["name"], 0)
        assert Task.at(position, Slot.FR) == TASK
        assert solver.hand_distance(position, TASK) == case["shortest"]
        assert solver.distance(position, TASK) == case["at_all"]["length"]


def test_with_far_layers_too_a_case_is_told_with_its_sequence(listed: list[dict[str, Any]]) -> None:
    saved = 0
    for case in listed:
        length, turns = case["at_all"]["length"], parse_turns(case["at_all"]["notation"])
        assert list(case["at_all"]) == ["length", "notation"]
        assert len(turns) == length <= case["shortest"]
        assert TASK.done(SOLVED.after(parse_turns(case["setup"])).after(turns))
        # Where far layers save nothing the sequence is by hand; where they save some it turns one.
        assert bool(faces(turns) - BY_HAND) == (length < case["shortest"])
        saved += length < case["shortest"]
    assert saved > 10


def test_the_route_is_told_by_steps_and_undone_by_the_setup(listed: list[dict[str, Any]]) -> None:
    for case in listed:
        route = case["route"]
        assert list(route) == ["notation", "length", "steps"]
        turns = parse_turns(route["notation"])
        assert len(turns) == route["length"]
        assert " ".join(route["steps"].values()) == route["notation"]
        assert [step for step in ("raise", "part", "join", "insert") if step in route["steps"]] == list(
            route["steps"]
        )
        assert all(1 <= len(parse_turns(step)) <= 4 for step in route["steps"].values())
        assert faces(turns) <= BY_HAND
        assert parse_turns(case["setup"]) == inverse(turns)


def test_a_mirror_image_is_as_long_and_its_mirror_is_the_case_itself(listed: list[dict[str, Any]]) -> None:
    by_name = {case["name"]: case for case in listed}
    for case in listed:
        mirror = by_name[case["mirror"]]
        assert mirror["mirror"] == case["name"]
        assert [mirror[key] for key in ("family", "shortest", "fewest")] == [
            case[key] for key in ("family", "shortest", "fewest")
        ]
        assert mirror["at_all"]["length"] == case["at_all"]["length"]
        assert mirror["route"]["length"] == case["route"]["length"]
        assert list(mirror["route"]["steps"]) == list(case["route"]["steps"])


def test_the_table_lists_every_family_and_case(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "240")
    assert main(["cases"]) == 0
    written = capsys.readouterr().out
    assert written.count("As set up") == 4
    assert written.count("Setup ") == written.count("Route ") - 4 == 41
    assert "Both in the slot" in written
    assert (
        written.count("Corner on top at its slot, cross colour up; edge on top at the front, front colour up")
        == 1
    )


def test_cases_have_their_numbers_in_order_and_short_names(listed: list[dict[str, Any]]) -> None:
    assert [case["number"] for case in listed] == list(range(1, 42))
    assert [case["short_name"] for case in listed] == [case.short_name() for case in CASES]
    for case in listed:
        found = parse_case(str(case["number"]))
        assert found is parse_case(case["slug"]) is parse_case(case["name"])


def test_the_table_has_number_and_short_name_beside_the_full_one(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "240")
    assert main(["cases"]) == 0
    rows = [line.split("│")[1].strip() for line in capsys.readouterr().out.splitlines() if "│" in line]
    at = rows.index("Case 14: white right, edge behind, tops alike")
    assert rows[at + 1 : at + 4] == [
        "Corner on top at its slot, cross colour to the right; edge on top at the back, right colour up",
        "corner-right-edge-back-right-up",
        "mirror 19 corner-front-edge-left-front-up",
    ]
    assert [row.split(":")[0] for row in rows if row.startswith("Case ")][1:3] == ["Case 2", "Case 3"]


def test_the_table_tells_once_of_far_layers_where_they_save_turns(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, listed: list[dict[str, Any]]
) -> None:
    monkeypatch.setenv("COLUMNS", "240")
    assert main(["cases"]) == 0
    written = capsys.readouterr().out
    saving = [case for case in listed if case["at_all"]["length"] < case["shortest"]]
    assert written.count("If far layers may turn too, it takes ") == len(saving)
    assert "If far layers may turn too, it takes five turns: R B U2 B' R'" in written


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
