"""The curriculum: what it covers, and that every lesson can be played from start to end."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from importlib import resources
from itertools import pairwise

import pytest

import lessons
from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Position, Slot
from tutor.cube.symmetry import SYMMETRIES
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.checker import VARIATIONS, check_script
from tutor.lesson.library import curriculum_names, find_script, load_lesson
from tutor.lesson.questions import Answerer
from tutor.lesson.scenes import (
    Alone,
    Ask,
    Extent,
    Find,
    Lesson,
    Quiz,
    Recap,
    Scene,
    Show,
    Tell,
    accepted,
    step_answered,
)
from tutor.lesson.variation import Variation
from tutor.method.cases import CASES, Case, case_of
from tutor.method.continuations import Verdict
from tutor.method.pairs import pair_locations
from tutor.method.steps import TURNING_STEPS, Step
from tutor.solver.task import Task, carried_slot

NAMES = curriculum_names()
MOVABLE = [name for name in NAMES if not find_script(name).script.fixed]
"""All but the lesson about the letters themselves."""
ONE_WAY = ("notation", "slot-and-pair", "three-turn-join")
"""Lessons of single turns and three-turn joins, where only one way is good."""
Chooser = Callable[[Position, Task, int], Turn]
"""Picks the next turn; the number counts the turns already made in the scene."""


def lesson_of(name: str, answers: Answerer, variation: Variation | None = None) -> Lesson:
    return load_lesson(name, LessonSetting(answers, variation or Variation()))


def asked(lesson: Lesson) -> list[Ask | Alone]:
    return [scene for scene in lesson.scenes if isinstance(scene, Ask | Alone)]


# ---------------------------------------------------------------------------------------- what is there


def test_there_are_nineteen_lessons_each_with_its_reason() -> None:
    assert len(NAMES) == 19
    assert len(set(NAMES)) == len(NAMES)
    data = tomllib.loads(resources.files(lessons).joinpath("curriculum.toml").read_text("utf-8"))
    assert all(len(entry["why"]) > 40 for entry in data["lesson"])


def test_every_script_in_the_folder_is_in_the_curriculum() -> None:
    files = {file.name for file in resources.files(lessons).iterdir() if file.name.endswith(".toml")}
    assert files == {f"{name}.toml" for name in NAMES} | {"curriculum.toml"}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_wrong_with_a_lesson(name: str, answers: Answerer) -> None:
    assert check_script(find_script(name), answers) == ()


@pytest.mark.parametrize("name", NAMES)
def test_a_lesson_asks_often_and_ends_alone_with_a_recap(name: str, answers: Answerer) -> None:
    scenes = lesson_of(name, answers).scenes
    alone = [isinstance(scene, Alone) for scene in scenes]
    assert isinstance(scenes[-1], Recap)
    assert 2 <= sum(alone) <= 4
    assert all(alone[-1 - sum(alone) : -1])
    active = sum(isinstance(scene, Ask | Find | Quiz | Alone) for scene in scenes)
    passive = sum(isinstance(scene, Tell | Show) for scene in scenes)
    assert active >= passive
    # Never more than three scenes in a row in which the learner only looks on.
    looking = "".join("l" if isinstance(scene, Tell | Show) else "a" for scene in scenes)
    assert "llll" not in looking


@pytest.mark.parametrize("name", MOVABLE)
def test_a_lesson_can_be_played_in_every_slot_mirrored_and_with_any_cross(
    name: str, answers: Answerer
) -> None:
    plain = lesson_of(name, answers)
    for number, variation in enumerate(VARIATIONS):
        varied = Variation(variation.quarters, variation.mirrored, Face(number % 6))
        for scene, other in zip(plain.scenes, lesson_of(name, answers, varied).scenes, strict=True):
            assert other.cube.colour_of(Face.D) is varied.cross
            assert other.cube.position == scene.cube.position.carried(varied.symmetry)
            if scene.task is not None and other.task is not None:
                assert other.task.slot is carried_slot(scene.task.slot, varied.symmetry)
            if isinstance(scene, Show) and isinstance(other, Show):
                assert other.turns == varied.symmetry.turns(scene.turns)


def test_the_five_steps_come_first_and_each_later_lesson_opens_by_naming_its_own(answers: Answerer) -> None:
    begin = NAMES.index("five-steps") + 1
    assert NAMES[:begin] == ("notation", "five-steps")
    steps = {step.value.capitalize() for step in (Step.FIND, *TURNING_STEPS)}
    silent = [
        name
        for name in NAMES[begin:]
        # The capital names a step only where no sentence begins.
        if not set(re.findall(r"(?<=[a-z,] )[A-Z][a-z]+", lesson_of(name, answers).scenes[0].text)) & steps
    ]
    assert silent == []


# --------------------------------------------------------------------------------------------- coverage


def test_every_one_of_the_41_cases_is_asked(answers: Answerer) -> None:
    found = {
        sighting.case.slug
        for name in NAMES
        for scene in asked(lesson_of(name, answers))
        if (sighting := case_of(scene.cube.position, scene.task)) is not None
    }
    # 41 cases are common practice; they are counted in tests/method.
    assert {case.slug for case in CASES} - found == set()


def ideas_of(lesson: Lesson) -> dict[str, list[Ask | Alone]]:
    return {idea: [scene for scene in asked(lesson) if scene.idea == idea] for idea in lesson.ideas}


@pytest.mark.parametrize("name", NAMES)
def test_every_idea_is_asked_in_two_slots_and_mirrored(name: str, answers: Answerer) -> None:
    ideas = ideas_of(lesson_of(name, answers))
    assert 1 <= len(ideas) <= 3
    for idea, scenes in ideas.items():
        slots = {scene.task.slot for scene in scenes}
        assert len(slots) >= 2, idea
        assert any(is_mirrored(one, other) for one in scenes for other in scenes if one is not other), idea


def is_mirrored(one: Ask | Alone, other: Ask | Alone) -> bool:
    """Whether a mirror carries what one scene asks to what the other asks, the top turned freely."""
    first, second = seen_case(one), seen_case(other)
    if first is not None and second is not None:
        return first.mirror is second and (first is not second or one.task.slot != other.task.slot)
    return any(carries(symmetry.faces, one, other) for symmetry in SYMMETRIES if symmetry.mirrors)


def seen_case(scene: Ask | Alone) -> Case | None:
    sighting = case_of(scene.cube.position, scene.task)
    return None if sighting is None else sighting.case


def carries(faces: tuple[Face, ...], one: Ask | Alone, other: Ask | Alone) -> bool:
    symmetry = next(s for s in SYMMETRIES if s.faces == faces)
    if symmetry.faces[Face.D] is not Face.D or carried_slot(one.task.slot, symmetry) is not other.task.slot:
        return False
    carried = one.cube.position.carried(symmetry)
    return any(
        pair_locations(turned, other.task.slot) == pair_locations(other.cube.position, other.task.slot)
        for turned in (carried, *(carried.turned(Turn.of(Face.U, n)) for n in (1, 2, 3)))
    )


# ---------------------------------------------------------------------------------------------- playing


def finished(scene: Ask | Alone, cube: HeldCube, last: Verdict) -> bool:
    if scene.accept:
        return accepted(scene, cube)
    if scene.task.done(cube.position):
        return True
    if isinstance(scene, Alone) or scene.extent is Extent.CASE:
        return False
    if scene.extent is Extent.TURN:
        return last is not Verdict.DETOUR
    return step_answered(scene.step, cube.position, scene.task)


def play(scene: Scene, answers: Answerer, choose: Chooser) -> list[Verdict]:
    """Play one scene with a chooser; the verdicts met. Fails when it does not come to an end.

    Where only certain turns are accepted, the first of them are made instead.
    """
    if isinstance(scene, Find):
        assert scene.answer
    if isinstance(scene, Quiz):
        assert sum(choice.true for choice in scene.answers) == 1
        assert len({choice.text for choice in scene.answers}) == len(scene.answers) >= 2
    if not isinstance(scene, Ask | Alone):
        return []
    cube = scene.cube
    verdicts: list[Verdict] = []
    while True:
        assert len(verdicts) < 40, scene
        made = len(verdicts)
        turn = scene.accept[0][made] if scene.accept else choose(cube.position, scene.task, made)
        verdicts.append(answers(cube.position, scene.task).continuations[turn].verdict)
        cube = cube.moved(turn)
        if finished(scene, cube, verdicts[-1]):
            return verdicts


def turn_with(answers: Answerer, position: Position, task: Task, wanted: Verdict) -> Turn:
    """The first turn with a verdict, or a shortest way's when there is none."""
    now = answers(position, task)
    return next(iter(now.turns(wanted)), now.lines[0][0])


def shortest(answers: Answerer) -> Chooser:
    """Plays a shortest line, by hand where there is a way by hand."""
    return lambda position, task, made: answers(position, task).lines[0][0]


def of_the_route(scene: Scene, answers: Answerer) -> set[Verdict]:
    """A scene that asks for the first turns of the route asks for Acceptable ones where a line is shorter."""
    if not isinstance(scene, Ask) or not scene.accept:
        return set()
    found, asked = answers(scene.cube.position, scene.task), scene.accept[0]
    longer = len(found.way.turns) > found.to_go
    return {Verdict.ACCEPTABLE} if longer and found.way.turns[: len(asked)] == asked else set()


@pytest.mark.parametrize("name", NAMES)
def test_a_shortest_line_plays_a_lesson_in_the_turns_it_tells(name: str, answers: Answerer) -> None:
    for scene in lesson_of(name, answers).scenes:
        verdicts = play(scene, answers, shortest(answers))
        assert set(verdicts) <= {Verdict.OPTIMAL} | of_the_route(scene, answers)
        if isinstance(scene, Alone) or (isinstance(scene, Ask) and scene.extent is Extent.CASE):
            assert len(verdicts) == answers(scene.cube.position, scene.task).to_go


@pytest.mark.parametrize("name", NAMES)
def test_acceptable_turns_play_a_lesson_to_its_end(name: str, answers: Answerer) -> None:
    def choose(position: Position, task: Task, made: int) -> Turn:
        # Acceptable turns alone may go round in circles: one may turn the top for ever.
        if made < 2:
            return turn_with(answers, position, task, Verdict.ACCEPTABLE)
        return shortest(answers)(position, task, made)

    met = [play(scene, answers, choose) for scene in lesson_of(name, answers).scenes]
    assert any(Verdict.ACCEPTABLE in verdicts for verdicts in met) is (name not in ONE_WAY)
    assert not any(Verdict.DETOUR in verdicts for verdicts in met)


@pytest.mark.parametrize("name", NAMES)
def test_one_who_errs_at_every_question_recovers(name: str, answers: Answerer) -> None:
    def choose(position: Position, task: Task, made: int) -> Turn:
        if made:
            return shortest(answers)(position, task, made)
        return turn_with(answers, position, task, Verdict.DETOUR)

    for scene in lesson_of(name, answers).scenes:
        verdicts = play(scene, answers, choose)
        if verdicts and isinstance(scene, Ask | Alone) and not scene.accept:
            assert verdicts[0] is Verdict.DETOUR
            assert Verdict.DETOUR not in verdicts[1:]


# ------------------------------------------------------------------------------------------- truthfulness


@pytest.mark.parametrize("name", NAMES)
def test_shown_turns_end_where_the_next_scene_goes_on(name: str, answers: Answerer) -> None:
    for one, other in pairwise(lesson_of(name, answers).scenes):
        if isinstance(one, Show) and other.follows:
            assert other.cube == one.end
        elif other.follows and isinstance(one, Tell | Find | Quiz):
            assert other.cube == one.cube


@pytest.mark.parametrize("name", NAMES)
def test_a_shown_case_ends_at_home_unless_it_shows_a_slip(name: str, answers: Answerer) -> None:
    for scene in lesson_of(name, answers).scenes:
        if isinstance(scene, Show) and scene.task is not None and not any(s.slip for s in scene.segments):
            assert scene.task.done(scene.end.position), scene.text


@pytest.mark.parametrize("name", NAMES)
def test_texts_are_whole_sentences_without_leftovers(name: str, answers: Answerer) -> None:
    for scene in lesson_of(name, answers).scenes:
        said = [scene.text, scene.on_screen, scene.caption]
        said += [segment.text for segment in scene.segments] if isinstance(scene, Show) else []
        said += [scene.afterwards] if isinstance(scene, Ask | Find | Alone) else []
        for text in filter(None, said):
            assert "{" not in text
            assert "  " not in text
            assert text[0].isupper() or text[0] in "RULDFB"
            assert text.rstrip('"')[-1] in ".,:!?", text


def test_the_reader_of_the_cube_finds_home_in_every_first_scene(answers: Answerer) -> None:
    for name in NAMES:
        scene = lesson_of(name, answers).scenes[0]
        assert isinstance(scene, Tell)
        assert scene.cube == HeldCube(scene.cube.position)
        assert scene.cube.position.cross_home
        assert scene.task is None or scene.task.slot in tuple(Slot)
