from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from msgspec.structs import replace

from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.answer import answer
from tutor.method.cases import CASES, Case
from tutor.method.steps import Step
from tutor.session.beats import LEAD_IN, SLOW, Beat, Phase, Reading, reading_seconds
from tutor.session.demonstration import Demonstration, next_speed, step_ends
from tutor.session.timeline import seconds
from tutor.solver.search import Solver
from tutor.solver.task import Task

TURNS = parse_turns("R U R' U2 R U R'")
STEPS = (Step.RAISE,) * 3 + (Step.PART,) + (Step.INSERT,) * 3
COUNT = len(TURNS)
WORDED = (Reading(2.0, 1.5),) * COUNT
FRAME = 0.05
LEAST_PACE = 250.0
"""Words a minute for which a sentence stays at least (issue 17)."""


def shown(*, twice: bool = True) -> Demonstration:
    return Demonstration(HeldCube(), TURNS, STEPS, step_ends(STEPS), since=10.0, twice=twice)


def worded(*, twice: bool = False, waits: bool = False) -> Demonstration:
    return replace(shown(twice=twice), readings=WORDED, waits=waits)


def watched(demonstration: Demonstration, since: float = 10.0) -> Iterator[tuple[float, Beat]]:
    """The beats of a whole demonstration that plays by itself, picture by picture."""
    now = since
    while demonstration.moving(now):
        yield now, demonstration.beat(now)
        now += FRAME
    yield now, demonstration.beat(now)


def lasting(demonstration: Demonstration) -> dict[tuple[int, Phase, bool], float]:
    """For how long each phase of each turn is seen, as counted from outside."""
    found: dict[tuple[int, Phase, bool], float] = {}
    for _, beat in watched(demonstration):
        key = (beat.turn, beat.phase, beat.real)
        found[key] = found.get(key, 0.0) + FRAME
    return found


def test_it_rests_at_the_end_of_every_step_where_nothing_is_said() -> None:
    assert step_ends(STEPS) == {3, 4, 7}
    rests = lasting(shown(twice=False))
    assert [turn + 1 for turn in range(COUNT - 1) if rests[turn, Phase.DONE, False] > 0.5] == [3, 4]


def test_it_goes_slowly_and_then_once_at_full_speed() -> None:
    for real, speed in ((False, SLOW), (True, 1.0)):
        lasts = lasting(shown())[0, Phase.TURNING, real]
        assert lasts == pytest.approx(seconds(TURNS[0], speed), abs=1.1 * FRAME)
    *_, (end, _) = watched(shown())
    assert shown().finished(end)
    assert shown().pose(end).cube == HeldCube().after(TURNS)


def test_every_turn_comes_is_made_and_is_done_in_this_order() -> None:
    beats = [(beat.turn, beat.phase) for _, beat in watched(worded())]
    changes = [beats[0], *(after for before, after in pairwise(beats) if after != before)]
    assert changes == [(turn, phase) for turn in range(COUNT) for phase in Phase]


@pytest.mark.parametrize("speed", [0.1, 0.5, 1.0, 3.0])
def test_what_is_said_stays_for_its_time_at_any_speed(speed: float) -> None:
    lasts = lasting(worded().at_speed(speed, 10.0))
    for turn in range(COUNT):
        assert lasts[turn, Phase.COMING, False] >= WORDED[turn].before - FRAME
        if turn + 1 < COUNT:
            assert lasts[turn, Phase.DONE, False] >= WORDED[turn].after - FRAME


def test_a_sentence_can_be_read_at_the_pace_that_was_promised() -> None:
    for count in range(1, 41):
        lasts = reading_seconds(" ".join(["word"] * count))
        assert lasts >= 60.0 * count / LEAST_PACE
        assert lasts >= 1.2
    assert reading_seconds("") == 0.0


def test_the_cube_is_exact_at_every_count_of_turns() -> None:
    for count in range(COUNT + 1):
        pose = shown().stopped_at(float(count)).pose(0.0)
        assert pose.cube == HeldCube().after(TURNS[:count])
        assert pose.turning is None


def route_of(solver: Solver, case: Case) -> Demonstration:
    task = Task(Slot.FR, frozenset(set(Slot) - {Slot.FR}))
    cube = HeldCube().after(case.setup())
    route = answer(solver, cube.position, task).routes[0]
    readings = tuple(Reading(1.3 + 0.1 * index, 1.3) for index in range(len(route.turns)))
    return Demonstration(cube, route.turns, route.steps, step_ends(route.steps), 10.0, readings=readings)


@pytest.mark.parametrize("case", CASES, ids=[case.slug for case in CASES])
def test_at_every_moment_of_every_route_the_cube_is_where_the_beat_says(solver: Solver, case: Case) -> None:
    demonstration = route_of(solver, case)
    cubes = [demonstration.start.after(demonstration.turns[:count]) for count in range(12)]
    turning, before = 0, -1.0
    for now, beat in watched(demonstration):
        pose = demonstration.pose(now)
        # Coming: not yet made. Under way: made in part, from before it. Done: made, and no more than it.
        assert pose.cube == cubes[beat.turn + (beat.phase is Phase.DONE)]
        assert beat.phase is Phase.TURNING or pose.turning is None
        if pose.turning is not None:
            turning += 1
            assert pose.turning.face is demonstration.turns[beat.turn].face
        assert beat.playhead >= before or (beat.real and beat.playhead == 0.0)
        before = beat.playhead
    assert turning > 10 * len(demonstration.turns)
    assert demonstration.pose(now).cube.position.home_pairs == set(Slot)


@pytest.mark.parametrize("case", CASES, ids=[case.slug for case in CASES])
def test_stopped_at_any_place_of_any_route_the_beat_is_that_place(solver: Solver, case: Case) -> None:
    demonstration = route_of(solver, case)
    count = len(demonstration.turns)
    for quarters in range(4 * count + 1):
        playhead = quarters / 4
        beat = demonstration.stopped_at(playhead).beat(99.0)
        assert beat.playhead == playhead
        assert not beat.real
        if playhead == count:
            assert (beat.turn, beat.phase) == (count - 1, Phase.DONE)
        else:
            assert beat.turn == int(playhead)
            assert beat.phase is (Phase.TURNING if quarters % 4 else Phase.COMING)


def test_it_pauses_where_it_is_and_plays_on_from_there() -> None:
    moment = 10.0 + LEAD_IN + seconds(TURNS[0], SLOW) / 2
    paused = shown().paused(moment)
    assert paused.playhead(moment + 100.0) == pytest.approx(0.5)
    assert paused.pose(moment) == shown().pose(moment)
    resumed = paused.resumed(moment + 100.0)
    assert resumed.playhead(moment + 100.0) == pytest.approx(0.5)
    assert resumed.playhead(moment + 100.2) > 0.5


def test_a_turn_that_was_coming_begins_when_one_plays_on() -> None:
    resumed = worded().paused(10.5).resumed(50.0)
    assert resumed.beat(50.01).phase is Phase.TURNING


def test_who_goes_step_by_step_stops_where_there_is_something_to_read() -> None:
    demonstration, now, stops = worded(waits=True), 10.0, []
    while True:
        now += 60.0
        assert not demonstration.moving(now)
        beat = demonstration.beat(now)
        stops.append((beat.turn, beat.phase))
        if demonstration.at_end(now):
            break
        demonstration = demonstration.stepped_on(now)
        assert demonstration.moving(now) or demonstration.at_end(now)
    assert stops == [(turn, phase) for turn in range(COUNT) for phase in (Phase.COMING, Phase.DONE)]


def test_what_changed_is_no_stop_where_nothing_is_said_of_it() -> None:
    quiet = replace(worded(waits=True), readings=(Reading(2.0, 0.0),) * COUNT)
    made = quiet.stepped_on(70.0)
    assert (made.beat(70.1).turn, made.beat(70.1).phase) == (0, Phase.TURNING)
    assert made.beat(70.1).share == pytest.approx(0.1 / seconds(TURNS[0], SLOW))
    assert (made.beat(99.0).turn, made.beat(99.0).phase) == (1, Phase.COMING)
    assert not made.moving(99.0)


def test_one_beat_more_stops_after_it_and_plays_on_when_asked() -> None:
    one = worded().paused(10.5).stepped_on(20.0)
    assert (one.beat(90.0).turn, one.beat(90.0).phase) == (0, Phase.DONE)
    assert not one.moving(90.0)
    on = one.resumed(90.0)
    assert on.finished(500.0)


def test_stepping_back_shows_the_turn_that_was_made_and_then_the_one_before() -> None:
    made = worded().paused(10.0 + 2.0 + 0.7)
    back = made.stepped_back(50.0)
    assert back.beat(50.0) == Beat(0, Phase.COMING, 0.0)
    assert back.stepped_back(50.0).beat(50.0) == Beat(0, Phase.COMING, 0.0)
    assert worded().stopped_at(3.0).stepped_back(0.0).beat(0.0) == Beat(2, Phase.COMING, 0.0)
    assert worded().stopped_at(7.0).stepped_back(0.0).beat(0.0) == Beat(6, Phase.COMING, 0.0)
    end = worded().stopped_at(7.0)
    assert end.stepped_on(0.0).beat(0.0) == end.beat(0.0)


def test_what_is_not_known_yet_is_waited_for_and_then_read_from_its_beginning() -> None:
    unknown = replace(worded(), readings=(WORDED[0], None, *WORDED[2:]))
    assert (unknown.beat(500.0).turn, unknown.beat(500.0).phase) == (1, Phase.COMING)
    assert not unknown.moving(500.0)
    known = unknown.with_readings(WORDED, 500.0)
    assert known.moving(500.0)
    assert known.beat(501.9).phase is Phase.COMING
    assert known.beat(502.1).phase is Phase.TURNING
    # Whoever does not want to wait goes on all the same.
    assert unknown.stepped_on(500.0).beat(500.1).phase is Phase.TURNING


def test_step_by_step_the_pass_at_full_speed_comes_when_asked_and_in_one_go() -> None:
    at_end = replace(worded(twice=True, waits=True).stopped_at(6.0), since=0.0).stepped_on(10.0)
    assert (at_end.beat(99.0).turn, at_end.beat(99.0).phase, at_end.beat(99.0).real) == (6, Phase.DONE, False)
    assert at_end.seen(99.0)
    assert not at_end.finished(99.0)
    real = at_end.stepped_on(99.0)
    assert all(beat.real for _, beat in watched(real, 99.0))
    assert real.finished(200.0)


def test_another_speed_does_not_jump() -> None:
    for moment in (10.2, 12.0, 14.5, 20.0):
        for speed in (0.1, 0.5, 3.0):
            faster = worded().at_speed(speed, moment)
            assert faster.beat(moment) == worded().beat(moment)
    assert next_speed(1.0, 1) > 1.0 > next_speed(1.0, -1)
    assert next_speed(0.1, -1) == 0.1
    assert next_speed(3.0, 1) == 3.0


def test_at_its_end_it_plays_from_the_start_again() -> None:
    ended = shown().stopped_at(7.0).resumed(50.0)
    assert ended.playhead(50.0) == 0.0
    assert ended.moving(50.0)
