"""The checker: everything wrong with a script in one go, held against the cube.

Besides what keeps a lesson from being played it finds shown Detours that are not marked, slips that are none,
turns of far layers, scenes that ask when nothing is left to do or accept what does not do it, steps that the
words name and the turns do not have, texts too long for the card, and words that would be false when the
lesson is played in another slot or mirrored.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import groupby
from pathlib import Path as FilePath

from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves, turns_named
from tutor.cube.position import Position
from tutor.lesson.assembly import LessonSetting, try_scenes
from tutor.lesson.library import read_file
from tutor.lesson.problems import LessonError, Path, Problem
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import ReadScript, Report
from tutor.lesson.scene_start import near_settled
from tutor.lesson.scenes import Alone, Ask, Extent, Find, Quiz, Recap, Scene, Show, step_answered
from tutor.lesson.script import (
    LONGEST_ANSWER,
    LONGEST_CAPTION,
    LONGEST_TEXT,
    MOST_SHOWN_IN_ALL,
    ChooseScript,
    LessonScript,
    SceneScript,
    ShowScript,
    StepTexts,
)
from tutor.lesson.segments import step_texts
from tutor.lesson.variation import PLAIN, Variation
from tutor.lesson.words import faults_found as words
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS, Step
from tutor.solver.task import Task

VARIATIONS = tuple(Variation(quarters, mirrored) for mirrored in (False, True) for quarters in range(4))
"""Every slot, as written and mirrored."""


def check_file(path: FilePath, answers: Answerer) -> tuple[Problem, ...]:
    """What is wrong with the script in a file, in the order of lines; empty when nothing is."""
    try:
        read = read_file(path)
    except LessonError as error:
        return error.problems
    return check_script(read, answers)


def check_script(read: ReadScript, answers: Answerer) -> tuple[Problem, ...]:
    """What is wrong with a script whose form is good, in the order of lines."""
    answers = lru_cache(maxsize=4096)(answers)
    report = read.report()
    script = read.script
    scenes = try_scenes(script, LessonSetting(answers), report)
    _check_ideas(script, report)
    shown = 0
    for number, (written, scene) in enumerate(zip(script.scene, scenes, strict=True)):
        path: Path = ("scene", number)
        if scene is None:
            continue
        if isinstance(scene, Show) and isinstance(written, ShowScript):
            shown += len(scene.turns)
            if shown <= MOST_SHOWN_IN_ALL:
                _check_show(written, scene, path, answers, report)
        if isinstance(scene, Ask | Alone):
            _check_asked(scene, path, answers, report)
        if isinstance(written, ChooseScript):
            _check_replies(written, path, report)
        _check_step_names(written, scene, path, answers, report)
    if shown > MOST_SHOWN_IN_ALL:
        report.add((), *words.many_turns(shown, MOST_SHOWN_IN_ALL))
    if not script.fixed:
        _check_words(script, report)
    _check_words_on_paper(script, report)
    _check_lengths(script, LessonSetting(answers), report)
    return LessonError(report.problems).problems if report.problems else ()


def _check_ideas(script: LessonScript, report: Report) -> None:
    if len(script.ideas) < 2:
        return
    about = {scene.idea for scene in script.scene}
    for number, idea in enumerate(script.ideas):
        if idea not in about:
            report.add(("ideas", number), *words.unused_idea(idea))


# ------------------------------------------------------------------------------------------- shown turns


def _check_show(written: ShowScript, scene: Show, path: Path, answers: Answerer, report: Report) -> None:
    _check_step_texts(written, scene, path, report)
    if scene.task is None:
        if any(segment.slip for segment in scene.segments):
            report.add(path, *words.SLIP_WITHOUT_PAIR)
        return
    position = scene.cube.position
    for number, segments in groupby(scene.segments, key=lambda segment: segment.part):
        part = tuple(segments)
        at = (*path, "parts", number, "turns") if written.parts else (*path, "turns")
        judged: list[tuple[Turn, Answer]] = []
        for turn in (turn for segment in part for turn in segment.turns):
            if not near_settled(position, scene.task):
                report.add(at, *words.TOO_FAR_TO_JUDGE)
                return
            judged.append((turn, answers(position, scene.task)))
            position = position.turned(turn)
        _judge_part(judged, part[0].slip, at, report)


def _judge_part(judged: list[tuple[Turn, Answer]], slip: bool, path: Path, report: Report) -> None:
    detours = [turn for turn, now in judged if now.continuations[turn].verdict is Verdict.DETOUR]
    if slip and not detours:
        report.add(path, *words.NO_SLIP)
    if slip:
        return
    if detours:
        report.add(path, *words.detours(format_moves(detours), len(detours)))
    far = [turn for turn, now in judged if now.by_hand is not None and _is_far(turn, now.task)]
    if far := [turn for turn in far if turn not in detours]:
        report.add(path, *words.far_layers(format_moves(far), len(far)))


def _is_far(turn: Turn, task: Task) -> bool:
    """Whether a turn is of a layer that hands leave alone for this task."""
    return turn.face not in task.working_faces


# ------------------------------------------------------------------------------------------- asked turns


def _check_asked(scene: Ask | Alone, path: Path, answers: Answerer, report: Report) -> None:
    if scene.task.done(scene.cube.position):
        report.add(path, *words.SOLVED_HERE)
        return
    if _step_done(scene, scene.cube.position):
        report.add((*path, "until"), *words.STEP_DONE_HERE)
    for number, turns in enumerate(scene.accept):
        _check_accepted(scene, turns, (*path, "accept", number), answers, report)


def _check_replies(written: ChooseScript, path: Path, report: Report) -> None:
    """Where the program does not know what the answers claim, the script says why a wrong one is wrong."""
    if written.about is not None:
        return
    for number, answer in enumerate(written.answers):
        if not answer.true and answer.why is None:
            report.add((*path, "answers", number), *words.NO_WHY, minor=True)


def _step_done(scene: Ask | Alone, position: Position) -> bool:
    """Whether a step is asked for and done."""
    if not isinstance(scene, Ask) or scene.extent is not Extent.STEP:
        return False
    return step_answered(scene.step, position, scene.task)


def _check_accepted(
    scene: Ask | Alone, turns: tuple[Turn, ...], path: Path, answers: Answerer, report: Report
) -> None:
    """Turns that a scene accepts are good ones, and enough of them for what is asked."""
    position = scene.cube.position
    for turn in turns:
        if answers(position, scene.task).continuations[turn].verdict is Verdict.DETOUR:
            report.add(path, *words.accepted_detour(turn.notation))
            return
        position = position.turned(turn)
    extent = Extent.CASE if isinstance(scene, Alone) else scene.extent
    if extent is Extent.TURN and len(turns) > 1:
        report.add(path, *words.ONE_TURN_ASKED)
    if extent is Extent.STEP and not _step_done(scene, position):
        report.add(path, *words.STEP_NOT_DONE)
    if extent is Extent.CASE and not scene.task.done(position):
        report.add(path, *words.PAIR_NOT_SOLVED)


# ---------------------------------------------------------------------------------------- names of steps

_STEP_NAME = re.compile(r"\b(Raise|Part|Join|Insert)\b")


def _check_step_names(
    written: SceneScript, scene: Scene, path: Path, answers: Answerer, report: Report
) -> None:
    """Steps named in the words of turns shown or asked for, against the steps that these turns have."""
    for at, text, steps in _texts_with_steps(written, scene, path, answers):
        for name in dict.fromkeys(_STEP_NAME.findall(text)):
            if Step(name.lower()) not in steps:
                report.add(at, *words.other_step(name, _in_order(steps)))


def _asked_steps(scene: Ask, under_way: Step) -> frozenset[Step]:
    return frozenset({under_way, scene.step}) if scene.extent is Extent.STEP else frozenset({under_way})


def _in_order(steps: frozenset[Step]) -> tuple[str, ...]:
    return tuple(step.capitalize() for step in TURNING_STEPS if step in steps)


def _texts_with_steps(
    written: SceneScript, scene: Scene, path: Path, answers: Answerer
) -> Iterator[tuple[Path, str, frozenset[Step]]]:
    """Each text about turns as written, where it stands, and the steps it may name."""
    if isinstance(scene, Show) and isinstance(written, ShowScript):
        yield (*path, "text"), written.text, frozenset(each.step for each in scene.segments if each.step)
        for number, part in enumerate(written.parts):
            own = frozenset(each.step for each in scene.segments if each.step and each.part == number)
            yield (*path, "parts", number, "text"), part.text or "", own
        for step, text in step_texts(written.steps or StepTexts()).items():
            yield (*path, "steps", str(step)), text or "", frozenset({step})
    if isinstance(scene, Ask | Alone) and not scene.task.done(scene.cube.position):
        now = answers(scene.cube.position, scene.task)
        whole = frozenset(now.routes[0].steps) if now.routes else frozenset({now.step})
        asked = whole
        if isinstance(scene, Ask) and scene.extent is not Extent.CASE:
            asked = _asked_steps(scene, now.step)
        yield (*path, "text"), written.text, asked
        yield (*path, "afterwards"), getattr(written, "afterwards", None) or "", whole


def _check_step_texts(written: ShowScript, scene: Show, path: Path, report: Report) -> None:
    if written.steps is None:
        return
    present = {segment.step for segment in scene.segments}
    for step, text in step_texts(written.steps).items():
        if text is not None and step not in present:
            fault = words.unsaid_step(str(written.turns), step.value.capitalize())
            report.add((*path, "steps", step.value), *fault)


# ------------------------------------------------------------------------------------------------ texts

_PLACEHOLDER = re.compile(r"\{[^{}]*\}")
# “The right way round” names no side.
_SIDE = re.compile(
    r"\b(left|right(?! way\b)|front|the back|clockwise|anticlockwise|counterclockwise)\b", re.IGNORECASE
)


def _written_texts(scene: SceneScript, path: Path) -> Iterator[tuple[Path, str]]:
    """Every text of a scene as written, with where it stands."""
    for key in ("text", "on_screen", "caption", "afterwards", "because"):
        text = getattr(scene, key, None)
        if text is not None:
            yield (*path, key), text
    for key in ("parts", "answers"):
        for number, item in enumerate(getattr(scene, key, ())):
            for own in ("text", "why"):
                if getattr(item, own, None) is not None:
                    yield (*path, key, number, own), getattr(item, own)
    for number, point in enumerate(getattr(scene, "points", ())):
        yield (*path, "points", number), point
    steps = getattr(scene, "steps", None)
    if steps is not None:
        for step, text in step_texts(steps).items():
            if text is not None:
                yield (*path, "steps", str(step)), text


def _check_words(script: LessonScript, report: Report) -> None:
    """Words that hold only in the slot as written."""
    for number, scene in enumerate(script.scene):
        for path, text in _written_texts(scene, ("scene", number)):
            plain = _PLACEHOLDER.sub("", text)
            if found := _SIDE.search(plain):
                report.add(path, *words.side_word(found[0]))
            if turns := turns_named(plain):
                report.add(path, *words.turn_letter(turns[0]))


_AT_THE_SCREEN = re.compile(
    r"\b(click|drag|mouse|keyboard|press|type (?!of\b)|screen|mirrors|a mirror|Shift|F1[0-2]?|F[3-9])\b",
    re.IGNORECASE,
)


def _check_words_on_paper(script: LessonScript, report: Report) -> None:
    """Words about the screen where a sheet prints them; it prints neither reasons nor ``on_screen``."""
    for number, scene in enumerate(script.scene):
        for path, text in _written_texts(scene, ("scene", number)):
            if path[-1] not in ("on_screen", "why") and (found := _AT_THE_SCREEN.search(text)):
                report.add(path, *words.screen_word(found[0].strip()), minor=True)


def _check_lengths(script: LessonScript, setting: LessonSetting, report: Report) -> None:
    """The longest filled-in form of every text over all variations, against the room it has."""
    longest: dict[Path, tuple[int, int]] = {}
    for variation in (PLAIN,) if script.fixed else VARIATIONS:
        # What is wrong besides was noted when the script was resolved as written.
        aside = Report(report.file, report.text)
        varied = LessonSetting(setting.answers, variation, setting.colour_names)
        for number, scene in enumerate(try_scenes(script, varied, aside)):
            if scene is None:
                continue
            for path, text, limit in _said_texts(scene, script.scene[number], ("scene", number)):
                length = max(len(text), longest.get(path, (0, 0))[0])
                longest[path] = (length, limit)
    for path, (length, limit) in longest.items():
        if length > limit:
            report.add(path, *words.long_text(length, limit))


def _said_texts(scene: Scene, written: SceneScript, path: Path) -> Iterator[tuple[Path, str, int]]:
    """Every text of a resolved scene with where it is written and how long it may be."""
    yield (*path, "text"), scene.card_text, LONGEST_TEXT
    yield (*path, "caption"), scene.caption, LONGEST_CAPTION
    if isinstance(scene, Ask | Alone | Find):
        yield (*path, "afterwards"), scene.afterwards, LONGEST_TEXT
    if isinstance(scene, Show):
        in_parts = isinstance(written, ShowScript) and bool(written.parts)
        for segment in scene.segments:
            own: Path = ("parts", segment.part, "text") if in_parts else ("steps", segment.step or "text")
            yield (*path, *own), segment.text, LONGEST_TEXT
    if isinstance(scene, Quiz):
        yield (*path, "because"), scene.because, LONGEST_TEXT
        for number, choice in enumerate(scene.answers):
            yield (*path, "answers", number, "text"), choice.text, LONGEST_ANSWER
            yield (*path, "answers", number, "why"), choice.why, LONGEST_TEXT
    if isinstance(scene, Recap):
        for number, point in enumerate(scene.points):
            yield (*path, "points", number), point, LONGEST_ANSWER
