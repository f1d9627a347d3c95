from itertools import pairwise

import pytest

from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_turns
from tutor.method.steps import Step
from tutor.session.demonstration import LEAD_IN, SLOW, Demonstration, next_speed, step_ends
from tutor.session.timeline import seconds

TURNS = parse_turns("R U R' U2 R U R'")
STEPS = (Step.RAISE,) * 3 + (Step.PART,) + (Step.INSERT,) * 3


def shown(*, twice: bool = True) -> Demonstration:
    return Demonstration(HeldCube(), TURNS, STEPS, step_ends(STEPS), since=10.0, twice=twice)


def test_it_rests_at_the_end_of_every_step() -> None:
    assert step_ends(STEPS) == {3, 4, 7}
    stretches = shown(twice=False).schedule()
    pauses = [after.begin - before.end for before, after in pairwise(stretches)]
    assert [index + 1 for index, pause in enumerate(pauses) if pause > 0.5] == [3, 4]


def test_it_goes_slowly_and_then_once_at_full_speed() -> None:
    stretches = shown().schedule()
    slow, full = stretches[: len(TURNS)], stretches[len(TURNS) :]
    assert slow[0].end - slow[0].begin == pytest.approx(seconds(TURNS[0], SLOW))
    assert full[0].end - full[0].begin == pytest.approx(seconds(TURNS[0], 1.0))
    assert shown().finished(10.01 + full[-1].end)
    assert shown().pose(10.01 + full[-1].end).cube == HeldCube().after(TURNS)


def test_the_cube_is_exact_at_every_count_of_turns() -> None:
    for count in range(len(TURNS) + 1):
        pose = shown().stopped_at(float(count)).pose(0.0)
        assert pose.cube == HeldCube().after(TURNS[:count])
        assert pose.turning is None


def test_it_pauses_where_it_is_and_plays_on_from_there() -> None:
    moment = 10.0 + LEAD_IN + seconds(TURNS[0], SLOW) / 2
    paused = shown().paused(moment)
    assert paused.playhead(moment + 100.0) == pytest.approx(0.5)
    resumed = paused.resumed(moment + 100.0)
    assert resumed.playhead(moment + 100.0) == pytest.approx(0.5)
    assert resumed.playhead(moment + 100.2) > 0.5


def test_steps_go_to_whole_turns() -> None:
    halfway = shown().stopped_at(2.5)
    assert halfway.stepped(1, 0.0).playhead(0.0) == 3.0
    assert halfway.stepped(-1, 0.0).playhead(0.0) == 2.0
    assert shown().stopped_at(0.0).stepped(-1, 0.0).playhead(0.0) == 0.0
    assert shown().stopped_at(7.0).stepped(1, 0.0).playhead(0.0) == 7.0


def test_another_speed_does_not_jump() -> None:
    moment = 12.0
    faster = shown().at_speed(3.0, moment)
    assert faster.playhead(moment) == pytest.approx(shown().playhead(moment))
    assert next_speed(1.0, 1) > 1.0 > next_speed(1.0, -1)
    assert next_speed(0.1, -1) == 0.1
    assert next_speed(3.0, 1) == 3.0


def test_at_its_end_it_plays_from_the_start_again() -> None:
    ended = shown().stopped_at(7.0).resumed(50.0)
    assert ended.playhead(50.0) == 0.0
    assert ended.moving(50.0)
