"""What lessons show and ask, held against the definitions of the method."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise, product

import pytest

from tutor.coach.sight import SpokenPosition
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.position import Position
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.questions import Answerer, subject_of
from tutor.lesson.scenes import Alone, Ask, Extent, Scene, Show, accepted, astray, step_answered
from tutor.lesson.variation import PLAIN, Variation
from tutor.method.continuations import Verdict
from tutor.method.cutting import cut, step_under_way
from tutor.method.pairs import both_on_top, match, pair_locations
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.method.ticks import ticked
from tutor.solver.task import Task

NAMES = curriculum_names()


def scenes_of(name: str, answers: Answerer, variation: Variation = PLAIN) -> tuple[Scene, ...]:
    return load_lesson(name, LessonSetting(answers, variation)).scenes


def shown(name: str, answers: Answerer, variation: Variation = PLAIN) -> Iterator[tuple[Show, Task]]:
    """The demonstrations of a lesson that are about a pair."""
    for scene in scenes_of(name, answers, variation):
        if isinstance(scene, Show) and scene.task is not None:
            yield scene, scene.task


def slips(scene: Show) -> bool:
    return any(segment.slip for segment in scene.segments)


def labels(scene: Show) -> tuple[Step | None, ...]:
    return tuple(segment.step for segment in scene.segments for _ in segment.turns)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("variation", [PLAIN, Variation(mirrored=True), Variation(2)], ids=str)
def test_labels_are_those_of_the_cut(name: str, variation: Variation, answers: Answerer) -> None:
    for scene, task in shown(name, answers, variation):
        assert labels(scene) == cut(scene.cube.position, task, scene.turns)


@pytest.mark.parametrize("name", NAMES)
def test_each_step_shown_ends_where_its_condition_holds(name: str, answers: Answerer) -> None:
    for scene, task in shown(name, answers):
        if slips(scene):
            continue
        position = scene.cube.position
        made = iter(scene.turns)
        for step, own in groupby(labels(scene)):
            assert step is not None
            turns = [next(made) for _ in own]
            position = position.after(turns)
            assert ends(step, position, task), (scene.text, step)
            # Four turns for a step; Raise four for each slot that holds a piece (a definition of the method).
            assert len(turns) <= 4, (scene.text, step)
            assert any(turn.face is not Face.U for turn in turns)


def ends(step: Step, position: Position, task: Task) -> bool:
    """Whether a step may end here, by what it is for: written here without the conditions of the method."""
    where = pair_locations(position, task.slot)
    on_top = both_on_top(position, task.slot)
    return {
        Step.RAISE: on_top and task.settled(position),
        Step.PART: on_top and task.settled(position),
        Step.JOIN: on_top and match(task.slot, *where),
        Step.INSERT: position.pair_home(task.slot) and task.settled(position),
    }[step]


@pytest.mark.parametrize("name", NAMES)
def test_a_demonstration_is_a_route_of_the_program_or_as_short(name: str, answers: Answerer) -> None:
    for scene, task in shown(name, answers):
        if slips(scene):
            continue
        now = answers(scene.cube.position, task)
        assert len(scene.turns) == len(now.routes[0].turns), scene.text
        assert task.done(scene.end.position)


@pytest.mark.parametrize("name", NAMES)
def test_no_far_layer_turns_in_a_lesson(name: str, answers: Answerer) -> None:
    for scene in scenes_of(name, answers):
        if scene.task is None:
            continue
        turned: list[Turn] = []
        if isinstance(scene, Show):
            turned += scene.turns
        if isinstance(scene, Ask | Alone):
            turned += [turn for turns in scene.accept for turn in turns]
            turned += answers(scene.cube.position, scene.task).lines[0]
        assert {turn.face for turn in turned} <= scene.task.working_faces, scene.text


@pytest.mark.parametrize("name", NAMES)
def test_no_demonstration_turns_a_side_twice_in_one(name: str, answers: Answerer) -> None:
    # A half turn of a side in a demonstration would be a lower and a lift in one; only a slip is mended so.
    for scene, _ in shown(name, answers):
        assert slips(scene) or all(turn.face is Face.U or turn.quarters != 2 for turn in scene.turns)


# ------------------------------------------------------------------------------------------ what is asked


@pytest.mark.parametrize("name", NAMES)
def test_what_is_asked_for_can_be_done_by_good_turns(name: str, answers: Answerer) -> None:
    for scene in scenes_of(name, answers):
        if not isinstance(scene, Ask | Alone):
            continue
        for turns in scene.accept or way_asked_for(scene, answers):
            cube = scene.cube
            for turn in turns:
                verdict = answers(cube.position, scene.task).continuations[turn].verdict
                assert verdict is not Verdict.DETOUR, (scene.text, turn)
                cube = cube.moved(turn)
            if isinstance(scene, Ask) and scene.extent is Extent.STEP:
                assert step_answered(scene.step, cube.position, scene.task)
            if isinstance(scene, Alone) or scene.extent is Extent.CASE:
                assert scene.task.done(cube.position)


def way_asked_for(scene: Ask | Alone, answers: Answerer) -> list[tuple[Turn, ...]]:
    """The route to show and a shortest line, as far as they are asked for."""
    now = answers(scene.cube.position, scene.task)
    if not isinstance(scene, Ask) or scene.extent is Extent.CASE:
        return [now.lines[0], *(route.turns for route in now.routes[:1])]
    if scene.extent is Extent.TURN:
        return [now.lines[0][:1]]
    route = now.routes[0].turns
    counts = range(1, len(route) + 1)
    ended = next(n for n in counts if DONE_WHEN[scene.step](scene.cube.position.after(route[:n]), scene.task))
    return [route[:ended]]


@pytest.mark.parametrize("name", NAMES)
def test_where_one_thing_is_asked_for_nothing_else_answers(name: str, answers: Answerer) -> None:
    for scene in scenes_of(name, answers):
        if not isinstance(scene, Ask | Alone) or not scene.accept:
            continue
        assert all(accepted(scene, scene.cube.after(turns)) for turns in scene.accept)
        first = {turns[0].face for turns in scene.accept}
        for turn in TURNS:
            cube = scene.cube.moved(turn)
            assert accepted(scene, cube) is ((turn,) in scene.accept)
            if turn.face not in first:
                assert astray(scene, cube)
        assert not astray(scene, scene.cube)
        # However the cube is held, and however many turns made it so.
        around = scene.cube.after(scene.accept[0])
        assert accepted(scene, around.moved(Turn.R).moved(Turn.R_PRIME))


def test_the_hidden_corner_is_asked_for_by_its_layer_alone(answers: Answerer) -> None:
    # “Begin: hide the corner in the right layer” is not done by U, though U is no Detour.
    [scene] = [
        each for each in scenes_of("hide-the-corner", answers) if isinstance(each, Ask) and each.accept
    ]
    assert scene.accept == ((Turn.R,),)
    u = answers(scene.cube.position, scene.task).continuations[Turn.U]
    assert u.verdict is Verdict.ACCEPTABLE
    assert not accepted(scene, scene.cube.moved(Turn.U))


@pytest.mark.parametrize("name", NAMES)
def test_true_turns_of_questions_are_good_ones(name: str, answers: Answerer) -> None:
    for scene in scenes_of(name, answers):
        if scene.task is None or scene.task.done(scene.cube.position):
            continue
        seen = SpokenPosition(scene.cube.position, scene.task, COLOUR_NAMES)
        subject = subject_of("turn", seen, PLAIN, answers)
        now = answers(scene.cube.position, scene.task)
        good = {turn.notation for turn in TURNS if now.continuations[turn].verdict is not Verdict.DETOUR}
        assert subject.true == good
        assert not subject.offered or len(set(subject.offered) & good) == 1


# -------------------------------------------------------------------------------------- steps that are done


def slip_starts(answers: Answerer) -> list[tuple[tuple[Position, ...], Task]]:
    """The positions passed up to every moment of every slip scene."""
    found = []
    for name in NAMES:
        for scene, task in shown(name, answers):
            if slips(scene):
                passed = [scene.cube.position]
                for turn in scene.turns:
                    passed.append(passed[-1].turned(turn))
                    found.append((tuple(passed), task))
                found.append((tuple(passed[:1]), task))
    return found


def check_ticks(passed: tuple[Position, ...], task: Task) -> None:
    now = passed[-1]
    done = ticked(passed, task)
    true = {step for step in TURNING_STEPS if DONE_WHEN[step](now, task)}
    if task.settled(now):
        # With the pair in its slot all is done, whatever came before.
        assert done == (set(TURNING_STEPS) if task.done(now) else true)
        under_way = step_under_way(now, task)
        assert under_way is (Step.DONE if task.done(now) else next(s for s in TURNING_STEPS if s not in true))
        return
    # A lifted slot: only what was done before it was lifted, and Join by the colours on top.
    before = next((at for at in reversed(passed) if task.settled(at)), None)
    held = set() if before is None else {step for step in TURNING_STEPS if DONE_WHEN[step](before, task)}
    if before is not None and task.done(before):
        held = set(TURNING_STEPS)
    assert done <= held | ({Step.JOIN} if Step.JOIN in true else set())
    if not done:
        return
    assert any(task.settled(now.after(rest)) for rest in BACK), "ticked in disorder"


BACK = [(), *((turn,) for turn in TURNS), *product(TURNS, repeat=2)]


def test_slips_tick_nothing_that_is_not_so(answers: Answerer) -> None:
    starts = slip_starts(answers)
    assert len(starts) > 10
    for passed, task in starts:
        check_ticks(passed, task)
        for turn in TURNS:
            check_ticks((*passed, passed[-1].turned(turn)), task)


@pytest.mark.slow
def test_three_wrong_turns_from_a_slip_tick_nothing_that_is_not_so(answers: Answerer) -> None:
    for passed, task in slip_starts(answers):
        for turns in product(TURNS, repeat=3):
            if any(one.face is other.face for one, other in pairwise(turns)):
                continue
            path = list(passed)
            for turn in turns:
                path.append(path[-1].turned(turn))
            check_ticks(tuple(path), task)
