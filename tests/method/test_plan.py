from random import Random

import pytest

from tests.method.placements import to_go
from tutor.cube.faces import Face
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.random_position import random_position
from tutor.cube.symmetry import quarter_about
from tutor.method.plan import Trait, best_plan, in_order, open_pairs, pair_costs, traits
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task


@pytest.fixture(scope="module")
def crossed(solver: Solver) -> list[Position]:
    """Random positions with the cross made."""
    random, crosses = Random(11), CrossSolver(solver.tables)
    positions = (random_position(random) for _ in range(5))
    return [position.after(crosses.lines(position)[0]) for position in positions]


def test_every_cost_is_the_solvers(solver: Solver, crossed: list[Position]) -> None:
    for position in crossed:
        costs = pair_costs(solver, position)
        assert {each.slot for each in costs} == set(open_pairs(position))
        assert [each.cost for each in costs] == sorted(each.cost for each in costs)
        for each in costs:
            task = Task.at(position, each.slot)
            assert each.cost == len(each.line) == to_go(solver, position, task)
            after = position.after(each.line)
            assert task.done(after)
            assert {turn.face for turn in each.line} <= task.working_faces
            for slot, cost in each.others:
                assert cost == to_go(solver, after, Task.at(after, slot))


def test_a_plan_brings_all_pairs_home_and_keeps_what_is_home(solver: Solver, crossed: list[Position]) -> None:
    for start in crossed:
        for plan in (best_plan(solver, start), in_order(solver, start)):
            position = start
            for stage in plan.stages:
                before = position.home_pairs
                position = position.after(stage.turns)
                assert position.cross_home
                assert before | {stage.slot} <= position.home_pairs
            assert position.home_pairs == set(SLOTS)
            assert start.after(plan.turns) == position


def test_the_plan_found_is_no_longer_than_the_slots_as_they_come(
    solver: Solver, crossed: list[Position]
) -> None:
    lengths = [(best_plan(solver, start).length, in_order(solver, start).length) for start in crossed]
    assert all(found <= plain for found, plain in lengths)
    assert sum(found for found, _ in lengths) < 0.9 * sum(plain for _, plain in lengths)


def test_a_search_told_to_stop_still_gives_a_whole_plan(solver: Solver, crossed: list[Position]) -> None:
    plan = best_plan(solver, crossed[0], may_go_on=lambda: False)
    assert crossed[0].after(plan.turns).home_pairs == set(SLOTS)


def test_with_everything_home_there_is_nothing_to_do(solver: Solver) -> None:
    assert pair_costs(solver, SOLVED) == ()
    assert best_plan(solver, SOLVED).turns == ()


@pytest.mark.parametrize(
    ("setup", "slot", "expected"),
    [
        # R U R' lifts the joined pair to the top; a further pair of turns takes it apart there.
        ("R U R'", Slot.FR, {Trait.MADE, Trait.BOTH_ON_TOP}),
        ("R U' R' U2", Slot.FR, {Trait.BOTH_ON_TOP}),
        ("F' U F R U R'", Slot.FR, {Trait.OWN_SLOT}),
        ("R U2 R' U L' U L", Slot.FL, {Trait.BOTH_ON_TOP}),
    ],
)
def test_traits_are_what_one_sees(setup: str, slot: Slot, expected: set[Trait]) -> None:
    assert traits(SOLVED.after(parse_turns(setup)), slot) == expected


def test_traits_turn_with_the_cube() -> None:
    random = Random(5)
    for _ in range(40):
        position = random_position(random)
        turned = position.carried(quarter_about(Face.U, 1))
        for slot in SLOTS:
            # A turn of the whole cube by one quarter carries FR to FL, FL to BL and so on.
            other = Slot((slot + 1) % 4)
            assert traits(position, slot) - {Trait.BEHIND} == traits(turned, other) - {Trait.BEHIND}
