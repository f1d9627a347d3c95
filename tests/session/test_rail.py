"""What comes next of the turns shown: the pair's way to the end of the step, and the coming turn's arrow."""

from __future__ import annotations

from dataclasses import replace
from math import floor

import pytest

from render.arrows import TRAIL_SCALE, trail_points
from tests.session.pilot import Pilot, stage_of
from tutor.session.demonstration import Demonstration
from tutor.session.view import Arrow, Stage, Trail
from tutor.session.views.stage import with_way
from tutor.session.views.viewing import view_of


def begin(pilot: Pilot) -> Demonstration:
    pilot.free_play("R U R' U' F' U F")
    pilot.key("a")
    demonstration = pilot.session.demonstration
    assert demonstration is not None
    assert len(demonstration.turns) > 4
    return demonstration


def drawn_end(trail: Trail) -> int:
    return number(tuple(round(float(value) / TRAIL_SCALE) for value in trail_points(trail)[-1]))


def number(place: tuple[int, ...]) -> int:
    x, y, z = place
    return 9 * (x + 1) + 3 * (y + 1) + (z + 1)


def test_trails_lead_the_pair_to_where_it_is_when_the_step_ends(pilot: Pilot) -> None:
    demonstration = begin(pilot)
    pilot.key("space")
    for index in range(len(demonstration.turns)):
        pilot.give_keys(*(["right"] if index else []))
        stage = stage_of(pilot)
        held = pilot.session.demonstration
        assert held is not None
        assert floor(held.playhead(pilot.now)) == index
        ends = {number(trail.start): trail for trail in stage.trails}
        assert set(ends) <= stage.outlined
        end = min(count for count in held.rests if count > index)
        at_end = stage_at(pilot, held.stopped_at(float(end)))
        # The way as it is drawn, by the renderer's own mathematics, ends on the cubies outlined at the end.
        reached = {drawn_end(ends[cubie]) if cubie in ends else cubie for cubie in stage.outlined}
        assert reached == at_end.outlined


def stage_at(pilot: Pilot, demonstration: Demonstration) -> Stage:
    stage = view_of(replace(pilot.session, demonstration=demonstration), pilot.now).stage
    assert stage is not None
    return stage


def test_the_coming_turn_has_its_arrow_while_stopped_and_none_while_moving(pilot: Pilot) -> None:
    demonstration = begin(pilot)
    assert stage_of(pilot).arrow is None
    pilot.key("space")
    assert stage_of(pilot).arrow == Arrow(demonstration.turns[0])
    pilot.key("right")
    assert stage_of(pilot).arrow == Arrow(demonstration.turns[1])
    pilot.key("space")
    assert stage_of(pilot).arrow is None


def test_at_the_end_nothing_comes_any_more(pilot: Pilot) -> None:
    begin(pilot)
    pilot.wait(300.0)
    stage = stage_of(pilot)
    assert stage.trails == ()
    assert stage.arrow is None


@pytest.mark.parametrize("key", ["escape", "r"])
def test_afterwards_the_cube_in_hand_has_no_trail(pilot: Pilot, key: str) -> None:
    begin(pilot)
    assert stage_of(pilot).trails
    pilot.key(key)
    assert stage_of(pilot).trails == ()


def test_turns_that_are_no_case_have_no_trail(pilot: Pilot) -> None:
    demonstration = begin(pilot)
    bare = Demonstration(
        demonstration.start,
        demonstration.turns,
        (None,) * len(demonstration.turns),
        frozenset(),
        since=pilot.now,
    )
    assert with_way(stage_of(pilot), bare, pilot.now).trails == ()
