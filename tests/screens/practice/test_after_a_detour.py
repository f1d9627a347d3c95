"""After a Detour in practice: figures that can be compared, one step for all who name it, and its record."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.practice.sitting import on_disk, run_of, sits_down
from tests.session.pilot import Pilot
from tutor.coach.guidance import Help
from tutor.cube.position import Slot
from tutor.method.cases import parse_case
from tutor.method.steps import Step
from tutor.screens.parts.rail import step_marked
from tutor.screens.practice.commands import TryCase
from tutor.session.commands import Act
from tutor.solver.search import Solver
from tutor.ui.view import Button


@pytest.fixture
def learner(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


def tries(learner: Pilot, number: str, slot: Slot) -> None:
    learner.application.give(TryCase(parse_case(number).slug, slot, 0, Help.WITH_HINTS))
    learner.settle()


def turns(learner: Pilot, notation: str) -> None:
    for each in notation.split():
        learner.turn(each)
        learner.wait(2.0)
        learner.settle()


def offered(learner: Pilot) -> dict[str, str]:
    card = learner.view.card
    return {each.label: each.detail for each in card if isinstance(each, Button) and each.choice}


def test_where_far_layers_are_shorter_a_figure_by_hand_says_so(learner: Pilot) -> None:
    tries(learner, "27", Slot.FR)
    turns(learner, "R L'")
    # Without "by hand", going on would look better than undoing.
    assert offered(learner) == {
        "Undo it": "L, then nine turns to go by hand",
        "Go on from here": "Eight turns to go, and far layers have to help",
    }
    tries(learner, "28", Slot.FL)
    turns(learner, "F L")
    assert offered(learner) == {
        "Undo it": "L', then nine turns to go by hand",
        "Go on from here": "Ten turns to go by hand. Next: put what is out back in place",
    }


def test_a_detour_belongs_to_the_step_of_the_way_that_it_left(learner: Pilot, tmp_path: Path) -> None:
    tries(learner, "34", Slot.FR)
    turns(learner, "F' L")
    learner.press(Act.SHOW_SLIP)
    shown = learner.session.demonstration
    assert shown is not None
    assert (shown.turns[0].notation, shown.steps[0]) == ("L'", Step.RAISE)
    learner.key("escape")
    learner.key("backspace")
    turns(learner, "U2 F R U2 R'")
    assert run_of(learner).finished
    (kept,) = on_disk(tmp_path)
    steps = [(each.turn.notation, each.step) for each in kept.turns]
    assert steps[:4] == [
        ("F'", Step.RAISE),
        ("L", Step.RAISE),
        ("U2", Step.RAISE),
        ("F", Step.RAISE),
    ]


def test_while_the_cross_is_out_no_step_is_marked(learner: Pilot) -> None:
    tries(learner, "34", Slot.FR)
    for notation in ("D", "U", "R"):
        turns(learner, notation)
        assert step_marked(learner.session, run_of(learner).attempt) is None, notation
