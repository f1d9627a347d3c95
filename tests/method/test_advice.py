from random import Random

import pytest

from tests.method.placements import to_go
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.random_position import random_position
from tutor.method.advice import (
    CrossQuestion,
    CrossReading,
    PairsQuestion,
    PairsReading,
    PlanQuestion,
    PlanReading,
    Proof,
    ProofQuestion,
    advise,
    prove,
    read_cross,
)
from tutor.method.continuations import Verdict
from tutor.method.pairs import match, pair_locations
from tutor.method.routes import routes
from tutor.method.savings import SavingKind, joined_by, made_in_raising, savings
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task

WHOLE = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})


@pytest.fixture(scope="module")
def crossed(solver: Solver) -> list[Position]:
    """Random positions with the cross made."""
    random, crosses = Random(23), CrossSolver(solver.tables)
    positions = (random_position(random) for _ in range(15))
    return [position.after(crosses.lines(position)[0]) for position in positions]


def test_a_reading_of_the_cross_agrees_with_trying_every_turn(solver: Solver) -> None:
    random, crosses = Random(4), CrossSolver(solver.tables)
    for _ in range(30):
        position = random_position(random)
        reading = read_cross(crosses, position)
        for turn in TURNS:
            after = position.turned(turn)
            assert reading.after[turn] == crosses.distance(after)
            others = (crosses.distance(after.turned(next_)) for next_ in TURNS if next_.face is not turn.face)
            goes_on = reading.after[turn] == 0 or min(others) == reading.after[turn] - 1
            cost = reading.after[turn] + 1 - reading.distance
            verdict = reading.verdict(turn)
            assert (verdict is Verdict.OPTIMAL) == (cost == 0)
            assert (verdict is Verdict.ACCEPTABLE) == (cost == 1 and goes_on)
        for line in reading.lines:
            assert len(line) == reading.distance
            assert position.after(line).cross_home
        assert {each.colour for each in reading.colours} == set(Face)


def test_a_wrong_quarter_that_only_its_own_face_mends_is_a_detour(solver: Solver) -> None:
    # The bottom layer is out by a clockwise quarter: D' mends it, D makes it two quarters.
    reading = read_cross(CrossSolver(solver.tables), SOLVED.turned(Turn.D))
    assert reading.verdict(Turn.D_PRIME) is Verdict.OPTIMAL
    assert reading.after[Turn.D] == 1
    assert reading.verdict(Turn.D) is Verdict.DETOUR


def test_a_proof_is_the_exact_distance_to_two_whole_layers(solver: Solver) -> None:
    for turns in ("R U R'", "R U R' L' U2 L", "F U2 F' R U' R'"):
        position = SOLVED.after(parse_turns(turns))
        proof = prove(solver, position)
        assert proof is not None
        assert proof.line is not None
        assert proof.fewest == len(proof.line) == solver.distance(position, WHOLE)
        assert position.after(proof.line).home_pairs == set(SLOTS)


def test_no_plan_is_shorter_than_what_is_proven(solver: Solver, crossed: list[Position]) -> None:
    proven = 0
    for position in crossed[:6]:
        reading = advise(solver, PlanQuestion(position))
        assert isinstance(reading, PlanReading)
        start = position.after(reading.plan.stages[0].turns)
        proof = prove(solver, start, seconds=0.4)
        rest = advise(solver, PlanQuestion(start))
        assert isinstance(rest, PlanReading)
        if proof is not None:
            proven += 1
            assert proof.fewest <= rest.plan.length
            assert proof.line is None or start.after(proof.line).home_pairs == set(SLOTS)
    assert proven


def test_a_proof_without_time_says_nothing(solver: Solver, crossed: list[Position]) -> None:
    assert prove(solver, crossed[0], seconds=-1.0) is None


def test_every_question_has_its_kind_of_answer(solver: Solver) -> None:
    position = SOLVED.after(parse_turns("R U R'"))
    assert isinstance(advise(solver, CrossQuestion(position)), CrossReading)
    assert isinstance(advise(solver, PairsQuestion(position)), PairsReading)
    assert isinstance(advise(solver, PlanQuestion(position)), PlanReading)
    assert isinstance(advise(solver, ProofQuestion(position)), Proof)


def pieces_in(position: Position, slot: Slot) -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    """The corner and the edge that stand in a slot, each with how it stands there."""
    return (
        [each for each in enumerate(position.corners) if each[1] // 3 == slot.corner],
        [each for each in enumerate(position.edges) if each[1] // 2 == slot.edge],
    )


def test_every_shortcut_is_true_and_saves_what_it_says(solver: Solver, crossed: list[Position]) -> None:
    seen: set[SavingKind] = set()
    for position in crossed:
        reading = advise(solver, PairsQuestion(position))
        assert isinstance(reading, PairsReading)
        costs = {each.slot: each.cost for each in reading.costs}
        for saving in reading.savings:
            seen.add(saving.kind)
            task = Task.at(position, saving.slot)
            if saving.kind is SavingKind.TWO_PAIRS:
                assert saving.other is not None
                (turn,) = saving.turns
                after = position.turned(turn)
                assert to_go(solver, after, task) == costs[saving.slot] - 1
                other = Task.at(position, saving.other)
                assert to_go(solver, after, other) == costs[saving.other] - 1
                continue
            assert task.done(position.after(saving.turns))
            assert {turn.face for turn in saving.turns} <= task.working_faces
            assert len(saving.turns) == costs[saving.slot]
            if saving.kind is SavingKind.FREE_SLOT:
                after = position.after(saving.turns)
                used = [
                    slot for slot in sorted(task.free) if pieces_in(position, slot) != pieces_in(after, slot)
                ]
                assert saving.other == used[0]
                continue
            by_steps = routes(position, task).length
            assert by_steps is not None
            assert saving.saved == by_steps - costs[saving.slot] > 0
            if saving.kind is SavingKind.ONE_TURN_JOINS:
                after = position.turned(saving.turns[0])
                assert match(saving.slot, *pair_locations(after, saving.slot))
            else:
                assert made_in_raising(position, saving.slot, saving.turns)
    assert seen == set(SavingKind)


def test_room_in_an_open_slot_is_worth_the_turns_it_saves(solver: Solver, crossed: list[Position]) -> None:
    """Against the same pair with the other three pairs put home (its pieces left where they are)."""
    found = 0
    for position in crossed:
        costs = advise(solver, PairsQuestion(position))
        assert isinstance(costs, PairsReading)
        for saving in costs.savings:
            if saving.kind is not SavingKind.FREE_SLOT:
                continue
            corners, edges = list(SOLVED.corners), list(SOLVED.edges)
            corners[saving.slot.corner] = position.corners[saving.slot.corner]
            edges[saving.slot.edge] = position.edges[saving.slot.edge]
            alone = Position(tuple(corners), tuple(edges))
            task = Task(saving.slot, frozenset(SLOTS) - {saving.slot})
            assert saving.saved == to_go(solver, alone, task) - len(saving.turns)
            found += 1
    assert found


def test_a_joined_pair_needs_no_shortcut_for_joining(solver: Solver) -> None:
    position = SOLVED.after(parse_turns("R U R'"))
    reading = advise(solver, PairsQuestion(position))
    assert isinstance(reading, PairsReading)
    assert savings(solver, position, reading.costs) == ()
    assert joined_by(position, Slot.FR, reading.costs[0].line) == 1
