"""The turns of a show scene: written ones, or the pair's route or line, each with its text and step."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import groupby

from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import NotationError, parse_turns
from tutor.lesson.problems import Path
from tutor.lesson.reading import Report
from tutor.lesson.scene_start import SceneStart, add_notation_problem
from tutor.lesson.scenes import LessonSegment
from tutor.lesson.script import MOST_SHOWN, ShowScript, StepTexts
from tutor.lesson.variation import Variation
from tutor.lesson.words import faults_of_scenes as words
from tutor.method.answer import Answer
from tutor.method.cutting import cut
from tutor.method.steps import Step

ROUTE, LINE = "route", "line"
"""What stands for computed turns."""

Part = tuple[tuple[Turn, ...], str | None, bool, Path]
"""Turns as played, their text as written, whether they are a slip, and where the text is written."""
Say = Callable[[str, Path, HeldCube], str]
"""Fills in the placeholders of a text written at a path, from a cube."""


def segments_of(
    scene: ShowScript,
    path: Path,
    start: SceneStart,
    variation: Variation,
    answer: Answer | None,
    say: Say,
    report: Report,
) -> tuple[LessonSegment, ...] | None:
    """The segments with their texts, or None when something is wrong (and noted).

    ``answer`` is the solver's for the start in the script as written, since texts are written for its route;
    None without a task. A part in which a step ends makes several segments, one for each step.
    """
    noted = len(report.problems)
    parts = _parts(scene, path, start, variation, answer, report)
    if scene.steps is not None and scene.turns not in (ROUTE, LINE):
        report.add((*path, "steps"), *words.STEPS_OF_WRITTEN_TURNS)
    if len(report.problems) > noted:
        return None
    if sum(len(turns) for turns, *_ in parts) > MOST_SHOWN:
        report.add((*path, "turns"), *words.turns_to_follow(MOST_SHOWN))
        return None
    return tuple(_segments(parts, start, say))


def _segments(parts: list[Part], start: SceneStart, say: Say) -> Iterator[LessonSegment]:
    """The parts with their texts filled in where they begin, cut where a step ends."""
    steps = iter(_steps_of(start, tuple(turn for turns, *_ in parts for turn in turns)))
    cube = start.cube
    for number, (turns, text, slip, path) in enumerate(parts):
        said = "" if text is None else say(text, path, cube)
        labelled = [(turn, next(steps)) for turn in turns]
        for step, own in groupby(labelled, key=lambda each: each[1]):
            yield LessonSegment(tuple(turn for turn, _ in own), said, step, slip, number)
        cube = cube.after(turns)


def _steps_of(start: SceneStart, turns: tuple[Turn, ...]) -> tuple[Step | None, ...]:
    """The step of each turn shown, by cutting them; None throughout where no pair is in question."""
    return (None,) * len(turns) if start.task is None else cut(start.cube.position, start.task, turns)


def _parts(
    scene: ShowScript,
    path: Path,
    start: SceneStart,
    variation: Variation,
    answer: Answer | None,
    report: Report,
) -> list[Part]:
    if bool(scene.parts) == (scene.turns is not None):
        report.add((*path, "turns"), *words.TURNS_ONCE)
        return []
    if scene.turns in (ROUTE, LINE):
        return _computed(scene, path, start, variation, answer, report)
    if not scene.parts:
        turns = turns_written(scene.turns or "", (*path, "turns"), variation, report)
        return [(turns, None, scene.slip, (*path, "turns"))]
    found: list[Part] = []
    for number, part in enumerate(scene.parts):
        at = (*path, "parts", number)
        turns = turns_written(part.turns, (*at, "turns"), variation, report)
        found.append((turns, part.text, part.slip, (*at, "text")))
    return found


def turns_written(text: str, path: Path, variation: Variation, report: Report) -> tuple[Turn, ...]:
    """The turns of a text as played; empty when it cannot be read (and noted)."""
    try:
        turns = parse_turns(text)
    except NotationError as error:
        add_notation_problem(report, path, error)
        return ()
    if not turns:
        report.add(path, *words.NO_TURNS)
    if len(turns) > MOST_SHOWN:
        report.add(path, *words.turns_to_follow(MOST_SHOWN))
        return ()
    return variation.symmetry.turns(turns)


def _computed(
    scene: ShowScript,
    path: Path,
    start: SceneStart,
    variation: Variation,
    answer: Answer | None,
    report: Report,
) -> list[Part]:
    if answer is None or start.task is None:
        report.add((*path, "turns"), *words.no_way_without_pair(str(scene.turns)))
        return []
    if answer.to_go == 0:
        report.add((*path, "turns"), *words.SOLVED_ALREADY)
        return []
    if scene.turns == ROUTE and not answer.routes:
        report.add((*path, "turns"), *words.NO_ROUTE)
        return []
    written = answer.routes[0].turns if scene.turns == ROUTE else answer.lines[0]
    turns = variation.symmetry.turns(written)
    labelled = zip(turns, cut(start.cube.position, start.task, turns), strict=True)
    texts = step_texts(scene.steps or StepTexts())
    return [
        (tuple(turn for turn, _ in own), texts.get(step), False, (*path, "steps", str(step)))
        for step, own in groupby(labelled, key=lambda each: each[1])
    ]


def step_texts(written: StepTexts) -> dict[Step, str | None]:
    """The texts for the steps of computed turns, by the step."""
    return {
        Step.RAISE: written.raising,
        Step.PART: written.part,
        Step.JOIN: written.join,
        Step.INSERT: written.insert,
    }
