"""A line held against a route: what it skips, what it does at once."""

from __future__ import annotations

import pytest

from tests.method.placements import placements
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.method.cases import parse_case
from tutor.method.routes import routes
from tutor.method.shortcut import Shortcut, compare
from tutor.method.steps import DONE_WHEN, Step
from tutor.solver.search import Solver
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})


def test_a_line_that_is_a_route_skips_nothing_and_ends_its_steps_where_the_route_does() -> None:
    position = SOLVED.after(parse_turns("F' U F U2 R U R'"))
    route = routes(position, TASK).routes[0]
    found = compare(position, TASK, route.turns, route)
    assert found == Shortcut(0, ((Step.PART, 3), (Step.JOIN, 5), (Step.INSERT, 7)))
    assert (found.skipped, found.merged) == ((), ())


def test_a_line_that_never_brings_both_pieces_up_settled_skips_the_steps_between() -> None:
    # From a corner above its slot, cross colour up, with the edge home: half turns of R and quarters of U.
    position = parse_case("corner-up-edge-in-straight").position()
    line = parse_turns("R2 U R2 U R2 U2 R2")
    found = compare(position, TASK, line, routes(position, TASK).routes[0])
    assert found.saved == 3
    assert found.skipped == (Step.RAISE, Step.PART, Step.JOIN)
    assert found.ends[-1] == (Step.INSERT, 7)


def test_steps_finished_by_one_turn_are_merged() -> None:
    ends = ((Step.RAISE, 3), (Step.PART, 3), (Step.JOIN, None), (Step.INSERT, 6))
    assert Shortcut(2, ends).merged == ((Step.RAISE, Step.PART),)
    assert Shortcut(2, ends).skipped == (Step.JOIN,)


def test_a_sequence_that_does_not_bring_the_pair_home_is_refused() -> None:
    position = SOLVED.after(parse_turns("R U R'"))
    with pytest.raises(ValueError, match="does not bring the pair home"):
        compare(position, TASK, parse_turns("R U"), routes(position, TASK).routes[0])


def test_a_shortest_line_by_hand_is_never_longer_than_a_route(solver: Solver) -> None:
    """And what it is said to do, it does."""
    saved = []
    for position, task in placements(Slot.FR)[::2]:
        found_routes = routes(position, task, limit=None).routes
        for line in solver.hand_lines(position, task, 3):
            found = compare(position, task, line, found_routes[0])
            assert found.saved == len(found_routes[0].turns) - len(line) >= 0
            assert found.ends[-1] == (Step.INSERT, len(line))
            if line in {route.turns for route in found_routes}:
                assert not found.saved
                assert not found.skipped
            saved.append(found.saved)
            reached = [end for _, end in found.ends if end is not None]
            assert reached == sorted(reached)
            for step, end in found.ends:
                assert found.saved == 0 or end is None or DONE_WHEN[step](position.after(line[:end]), task)
    assert any(saved)
