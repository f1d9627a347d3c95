"""The positions one turn on are asked for before anyone turns, so that the next verdict is a look-up."""

from __future__ import annotations

from tests.session.pilot import Pilot, bearing_of
from tutor.cube.faces import TURNS
from tutor.session.answers import Key
from tutor.session.passes import wanted_now
from tutor.solver.search import Solver


def one_turn_on(pilot: Pilot) -> list[Key]:
    here = bearing_of(pilot)
    return [(here.position.turned(turn), here.task) for turn in TURNS]


def test_once_the_position_is_answered_all_one_turn_on_are(solver: Solver) -> None:
    pilot = Pilot(solver, ahead=True)
    pilot.free_play("R U R'")
    ahead = one_turn_on(pilot)
    assert all(pilot.session.answers.get(*key) is not None for key in ahead)
    # Nothing is polled from here on: the answer is there before anyone could ask for it.
    pilot.key("u")
    (there, *_) = wanted_now(pilot.session)
    assert there in ahead
    assert pilot.session.answers.get(*there) is not None


def test_what_nobody_waits_for_yet_is_asked_best_first_and_dropped_when_one_turns(solver: Solver) -> None:
    pilot = Pilot(solver)
    pilot.free_play("R U R'")
    here, ahead, answers = bearing_of(pilot), one_turn_on(pilot), pilot.session.answers
    assert set(answers.asked) == {key for key in ahead if answers.get(*key) is None}
    found = answers.get(here.position, here.task)
    assert found is not None
    costs = [found.continuations[TURNS[ahead.index(key)]].cost for key in answers.asked]
    assert costs == sorted(costs)
    assert len(costs) > 10
    pilot.turn("F")
    assert set(pilot.session.answers.asked) <= set(one_turn_on(pilot))
