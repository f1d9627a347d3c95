"""Every figure that the advice shows is worked out anew by the solver and compared."""

from __future__ import annotations

import re

import pytest

from tests.screens.solve.test_solving import cross_made, down_of, faces, hands, scrambled, solve_of
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading
from tutor.coach.catalogue import ENGLISH
from tutor.counting import counted, number
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.method.advice import PairsQuestion, prove
from tutor.method.plan import in_order
from tutor.screens.solve.solving import SolveStand, stand
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.view import Button


@pytest.fixture(params=range(6))
def advised(solver: Solver, request: pytest.FixtureRequest) -> Pilot:
    """A random position with the cross made and the advice on the card."""
    pilot = Pilot(solver, seed=100 + request.param)
    scrambled(pilot)
    cross_made(pilot)
    assert stand(solve_of(pilot)) is SolveStand.CHOOSING
    pilot.key("e")
    return pilot


def buttons(pilot: Pilot, kind: str) -> list[Button]:
    found = [block for block in Reading(pilot.view).blocks if isinstance(block, Button)]
    return [block for block in found if action_name(block.action).startswith(kind)]


def before_figures(key: str, field: str) -> str:
    """The words of a sentence that come before what changes in it."""
    return ENGLISH.texts[key][0].partition(f"{{{field}}}")[0]


def by_hand(solver: Solver, position: Position, slot: Slot) -> int:
    """The fewest turns by hand for a pair, with what is home kept."""
    found = solver.hand_distance(position, Task.at(position, slot))
    assert found is not None
    return found


def test_what_taking_a_pair_first_leaves_is_exact(advised: Pilot, solver: Solver) -> None:
    position = down_of(advised).position
    reading = advised.session.advices.pairs(PairsQuestion(position))
    assert reading is not None
    lines = {each.slot: each.line for each in reading.costs}
    told = 0
    texts = Reading(advised.view).texts
    for button in buttons(advised, "slot:"):
        slot = Slot[action_name(button.action).removeprefix("slot:")]
        after = position.after(lines[slot])
        detail = texts[texts.index(button.label) + 1]
        for name, count, change in re.findall(
            r"\b(FR|FL|BL|BR) then needs (\w+) turns?, (as now|\w+ (?:more|fewer) than now)\.", detail
        ):
            other = Slot[name]
            now = by_hand(solver, position, other)
            then = by_hand(solver, after, other)
            assert count == number(then)
            words = {
                "as now"
                if not more
                else f"{number(abs(more))} {'more' if more > 0 else 'fewer'} than now": more
                for more in range(-9, 10)
            }
            difference = words[change]
            assert difference == then - now
            told += 1
    assert told >= len(lines)


def test_the_plan_adds_up_and_the_slots_as_they_come_are_counted_right(
    advised: Pilot, solver: Solver
) -> None:
    position = down_of(advised).position
    texts = " ".join(Reading(advised.view).texts)
    turns = parse_turns(action_name(buttons(advised, "turns:")[0].action).removeprefix("turns:"))
    end = position.after(turns)
    assert end.cross_home
    assert end.home_pairs == set(SLOTS)
    assert f"{counted(len(turns), 'turn')} in all" in texts
    found = re.search(re.escape(before_figures("plan.plain", "turns")) + r"([\w-]+) turns", texts)
    plain = in_order(solver, position).length
    assert (number(plain) == found[1]) if found else plain <= len(turns)


def test_a_line_of_a_proof_is_as_long_as_the_proof_says_and_for_two_hands(
    advised: Pilot, solver: Solver
) -> None:
    plan = in_order(solver, down_of(advised).position)
    position = down_of(advised).position.after(plan.stages[0].turns).after(plan.stages[1].turns)
    proof = prove(solver, position, seconds=60.0)
    assert proof is not None
    assert proof.fewest == solver.distance(position, Task(Slot.FR, frozenset(SLOTS) - {Slot.FR}))
    if proof.line is not None:
        assert len(proof.line) == proof.fewest
        assert faces(proof.line) <= hands(position)
        assert position.after(proof.line).two_layers_home


def test_every_shortcut_saves_what_it_says(advised: Pilot, solver: Solver) -> None:
    position = down_of(advised).position
    reading = advised.session.advices.pairs(PairsQuestion(position))
    assert reading is not None
    costs = {each.slot: each.cost for each in reading.costs}
    for slot, cost in costs.items():
        assert cost == by_hand(solver, position, slot)
    for saving in reading.savings:
        after = position.after(saving.turns)
        if saving.other is not None and len(saving.turns) == 1:
            for slot in (saving.slot, saving.other):
                assert solver.hand_distance(after, Task.at(position, slot)) == costs[slot] - 1
        elif len(saving.turns) == costs[saving.slot]:
            assert Task.at(position, saving.slot).done(after)
