from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves
from tutor.session.timeline import MOST_WAITING, Timeline, ease, pose_within, seconds


def test_a_turn_goes_from_its_first_cube_to_the_last() -> None:
    start = HeldCube()
    timeline = Timeline().added(start, Turn.R, now=5.0, speed=1.0)
    final = start.moved(Turn.R)
    first = timeline.sample(5.0, final)
    assert first.cube == start
    assert first.turning is not None
    assert first.turning.angle == 0.0
    half = timeline.sample(5.0 + seconds(Turn.R, 1.0) / 2, final)
    assert half.turning is not None
    assert half.turning.angle == pytest.approx(pi / 4)
    done = timeline.sample(9.0, final)
    assert done.cube == final
    assert done.turning is None
    assert not timeline.moving(9.0)


@given(st.lists(st.tuples(st.sampled_from(TURNS), st.floats(0.0, 0.4)), min_size=1, max_size=12))
def test_fast_input_is_never_dropped_and_never_jumps(made: list[tuple[Turn, float]]) -> None:
    timeline, cube, now = Timeline(), HeldCube(), 0.0
    for turn, pause in made:
        now += pause
        before = timeline.sample(now, cube)
        timeline, cube = timeline.added(cube, turn, now, speed=1.0), cube.moved(turn)
        after = timeline.sample(now, cube)
        assert after.cube == before.cube
        angle_before = 0.0 if before.turning is None else before.turning.angle
        angle_after = 0.0 if after.turning is None else after.turning.angle
        assert angle_after == pytest.approx(angle_before, abs=1e-6)
    waiting = [segment.move for segment in timeline.segments if segment.end > now]
    assert waiting == [turn for turn, _ in made][len(made) - len(waiting) :]
    assert timeline.sample(now + 20.0, cube).cube == cube


def test_a_prime_turns_the_other_way_and_a_wide_turn_takes_two_layers() -> None:
    prime = pose_within(HeldCube(), Turn.U_PRIME, 1.0).turning
    assert prime is not None
    assert prime.angle == pytest.approx(-pi / 2)
    (wide,) = parse_moves("Rw2")
    turning = pose_within(HeldCube(), wide, 1.0).turning
    assert turning is not None
    assert (turning.face, turning.layers) == (Face.R, 2)
    assert turning.angle == pytest.approx(pi)
    (rotation,) = parse_moves("y")
    turning = pose_within(HeldCube(), rotation, 0.5).turning
    assert turning is not None
    assert (turning.face, turning.layers) == (Face.U, 3)


def test_easing_starts_and_ends_still() -> None:
    assert ease(-1.0) == ease(0.0) == 0.0
    assert ease(2.0) == ease(1.0) == 1.0
    assert ease(0.001) < 0.0001


def test_of_very_many_turns_only_the_last_are_still_to_be_seen() -> None:
    timeline, cube = Timeline(), HeldCube()
    for turn in [*TURNS] * 10:
        timeline, cube = timeline.added(cube, turn, 1.0, speed=0.1), cube.moved(turn)
    assert len(timeline.segments) == MOST_WAITING + 1
    assert timeline.segments[0].begin == pytest.approx(1.0)
    assert timeline.segments[-1].cube.moved(timeline.segments[-1].move) == cube
    assert timeline.segments[0].end - timeline.segments[0].begin < 0.002
