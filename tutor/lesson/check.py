"""The checker: everything wrong with a script in one go, held against the cube.

Besides what keeps a lesson from being played it finds shown Detours that are not marked, slips that are none,
scenes that ask when nothing is left to do, texts too long for the card, and words that would be false when
the lesson is played in another slot or mirrored.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path as FilePath

from tutor.lesson.assemble import Setting, try_scenes
from tutor.lesson.library import read_file
from tutor.lesson.problems import LessonError, Path, Problem
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import ReadScript, Report
from tutor.lesson.resolve import Alone, Ask, Choose, Find, Recap, Scene, Segment, Show
from tutor.lesson.script import (
    LONGEST_ANSWER,
    LONGEST_CAPTION,
    LONGEST_TEXT,
    MOST_SHOWN_IN_ALL,
    LessonScript,
    SceneScript,
    ShowScript,
)
from tutor.lesson.start import near_settled
from tutor.lesson.variation import PLAIN, Variation
from tutor.method.steps import Step
from tutor.method.continuations import Verdict

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
    scenes = try_scenes(script, Setting(answers), report)
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
        if isinstance(scene, Ask | Alone) and scene.task.done(scene.cube.position):
            report.add(path, "the case is already done here", "start where the pair is not home yet")
    if shown > MOST_SHOWN_IN_ALL:
        report.add((), f"{shown} turns are shown in all", f"show at most {MOST_SHOWN_IN_ALL} in one lesson")
    if not script.fixed:
        _check_words(script, report)
    _check_lengths(script, Setting(answers), report)
    return LessonError(report.problems).problems if report.problems else ()


def _check_ideas(script: LessonScript, report: Report) -> None:
    if len(script.ideas) < 2:
        return
    about = {scene.idea for scene in script.scene}
    for number, idea in enumerate(script.ideas):
        if idea not in about:
            report.add(
                ("ideas", number),
                f"no scene is about “{idea}”",
                "name it in a scene with idea, or leave it out",
            )


# ------------------------------------------------------------------------------------------- shown turns


def _check_show(written: ShowScript, scene: Show, path: Path, answers: Answerer, report: Report) -> None:
    _check_step_texts(written, scene, path, report)
    if scene.task is None:
        if any(segment.slip for segment in scene.segments):
            report.add(path, "without a pair no turn is a slip", "name the slot, or leave slip out")
        return
    position = scene.cube.position
    for number, segment in enumerate(scene.segments):
        at = (*path, "parts", number, "turns") if written.parts else (*path, "turns")
        detours = []
        for turn in segment.turns:
            if not near_settled(position, scene.task):
                report.add(
                    at, "too much is out of place to judge the turns from here on", "show a shorter slip"
                )
                return
            if answers(position, scene.task).continuations[turn].verdict is Verdict.DETOUR:
                detours.append(turn.notation)
            position = position.turned(turn)
        _judge_segment(segment, detours, at, report)


def _judge_segment(segment: Segment, detours: list[str], path: Path, report: Report) -> None:
    if detours and not segment.slip:
        noun = "is a Detour" if len(detours) == 1 else "are Detours"
        advice = "show a better turn, or mark a slip on purpose with slip = true"
        report.add(path, f"{' '.join(detours)} {noun}", advice)
    if segment.slip and not detours:
        report.add(path, "none of these turns is a slip", "leave slip out")


def _check_step_texts(written: ShowScript, scene: Show, path: Path, report: Report) -> None:
    if written.steps is None:
        return
    present = {segment.step for segment in scene.segments}
    texts = {
        Step.RAISE: written.steps.raising,
        Step.PART: written.steps.part,
        Step.JOIN: written.steps.join,
        Step.INSERT: written.steps.insert,
    }
    for step, text in texts.items():
        if text is not None and step not in present:
            message = f"the {written.turns} has no {step.value.capitalize()} here, so this is never said"
            report.add((*path, "steps", step.value), message, "leave it out")


# ------------------------------------------------------------------------------------------------ texts

_PLACEHOLDER = re.compile(r"\{[^{}]*\}")
_SIDE = re.compile(r"\b(left|right|front|the back|clockwise|anticlockwise|counterclockwise)\b", re.IGNORECASE)
_NOTATION = re.compile(r"(?<![\w'’])[UDLRFB]w?(?:2|['’])?(?![\w'’])")


def _written_texts(scene: SceneScript, path: Path) -> Iterator[tuple[Path, str]]:
    """Every text of a scene as written, with where it stands."""
    for key in ("text", "caption", "afterwards", "because"):
        text = getattr(scene, key, None)
        if text is not None:
            yield (*path, key), text
    for key in ("parts", "answers"):
        for number, item in enumerate(getattr(scene, key, ())):
            if item.text is not None:
                yield (*path, key, number, "text"), item.text
    for number, point in enumerate(getattr(scene, "points", ())):
        yield (*path, "points", number), point
    steps = getattr(scene, "steps", None)
    if steps is not None:
        for key, text in (
            ("raise", steps.raising),
            ("part", steps.part),
            ("join", steps.join),
            ("insert", steps.insert),
        ):
            if text is not None:
                yield (*path, "steps", key), text


def _check_words(script: LessonScript, report: Report) -> None:
    """Words that hold only in the slot as written."""
    fixed = "or write fixed = true at the top if the lesson is played only as written"
    for number, scene in enumerate(script.scene):
        for path, text in _written_texts(scene, ("scene", number)):
            plain = _PLACEHOLDER.sub("", text)
            if found := _SIDE.search(plain):
                message = f"“{found[0]}” is not true in every slot and in the mirror"
                report.add(path, message, f"write for example {{side:R}}, {fixed}")
            if found := _NOTATION.search(plain):
                message = f"“{found[0]}” is another turn in another slot"
                report.add(path, message, f"write {{turn:{found[0]}}}, {fixed}")


def _check_lengths(script: LessonScript, setting: Setting, report: Report) -> None:
    """The longest filled-in form of every text over all variations, against the room it has."""
    longest: dict[Path, tuple[int, int]] = {}
    for variation in (PLAIN,) if script.fixed else VARIATIONS:
        # What is wrong besides was noted when the script was resolved as written.
        aside = Report(report.file, report.lines)
        varied = Setting(setting.answers, variation, setting.colour_names)
        for number, scene in enumerate(try_scenes(script, varied, aside)):
            if scene is None:
                continue
            for path, text, limit in _said_texts(scene, script.scene[number], ("scene", number)):
                length = max(len(text), longest.get(path, (0, 0))[0])
                longest[path] = (length, limit)
    for path, (length, limit) in longest.items():
        if length > limit:
            report.add(path, f"filled in, the text has {length} characters", f"the card has room for {limit}")


def _said_texts(scene: Scene, written: SceneScript, path: Path) -> Iterator[tuple[Path, str, int]]:
    """Every text of a resolved scene with where it is written and how long it may be."""
    yield (*path, "text"), scene.text, LONGEST_TEXT
    yield (*path, "caption"), scene.caption, LONGEST_CAPTION
    if isinstance(scene, Ask | Alone | Find):
        yield (*path, "afterwards"), scene.afterwards, LONGEST_TEXT
    if isinstance(scene, Show):
        in_parts = isinstance(written, ShowScript) and bool(written.parts)
        for number, segment in enumerate(scene.segments):
            own: Path = ("parts", number, "text") if in_parts else ("steps", segment.step or "text")
            yield (*path, *own), segment.text, LONGEST_TEXT
    if isinstance(scene, Choose):
        yield (*path, "because"), scene.because, LONGEST_TEXT
        for number, choice in enumerate(scene.answers):
            yield (*path, "answers", number, "text"), choice.text, LONGEST_ANSWER
    if isinstance(scene, Recap):
        for number, point in enumerate(scene.points):
            yield (*path, "points", number), point, LONGEST_ANSWER
