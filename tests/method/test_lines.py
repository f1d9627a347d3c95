"""Lines and turns to go: by hand where there is a way by hand, else with far layers too."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.method.placements import all_kept, placements, sequences, tasks
from tests.method.plain_routes import named
from tutor.cube.faces import Turn
from tutor.cube.position import SOLVED, Slot
from tutor.method.ergonomics import comfort
from tutor.method.lines import shortest_lines, to_go
from tutor.method.routes import route_lengths
from tutor.solver.search import Solver
from tutor.solver.task import Task

KEPT = all_kept(Slot.FR)


def test_where_far_layers_are_shorter_lines_are_still_by_hand(solver: Solver) -> None:
    position = SOLVED.after(named("R B U2 B' R'"))
    assert solver.distance(position, KEPT) == 5
    # Check value: by hand none of the placements needs 5 turns (independent search). Here it is seven.
    assert to_go(solver, position, KEPT) == 7
    for line in shortest_lines(solver, position, KEPT):
        assert len(line) == 7
        assert {turn.face for turn in line} <= KEPT.working_faces
        assert KEPT.done(position.after(line))


def test_without_a_way_by_hand_lines_are_of_all_turns(solver: Solver) -> None:
    position = SOLVED.after(named("R U R' B"))
    assert solver.hand_distance(position, KEPT) is None
    assert to_go(solver, position, KEPT) == 4
    assert shortest_lines(solver, position, KEPT) == (named("B' R U' R'"),)


def test_when_the_pair_is_home_there_is_one_line_of_no_turns(solver: Solver) -> None:
    assert to_go(solver, SOLVED, KEPT) == 0
    assert shortest_lines(solver, SOLVED, KEPT) == ((),)


@settings(max_examples=40)
@given(sequences, tasks, st.integers(1, 5))
def test_lines_are_as_short_as_can_be_and_the_most_comfortable_comes_first(
    solver: Solver, turns: list[Turn], task: Task, limit: int
) -> None:
    position = SOLVED.after(turns)
    found = shortest_lines(solver, position, task, limit)
    assert 1 <= len(found) <= limit
    assert len(set(found)) == len(found)
    assert {len(line) for line in found} == {to_go(solver, position, task)}
    assert all(task.done(position.after(line)) for line in found)
    costs = [comfort(line).cost for line in found]
    assert costs == sorted(costs)


def test_no_line_by_hand_is_longer_than_a_route(solver: Solver) -> None:
    """A route is made of turns of working faces, so a line can at most be as long."""
    for position, task in placements(Slot.FR):
        length = route_lengths(position, task).length
        assert length is not None
        assert to_go(solver, position, task) <= length
