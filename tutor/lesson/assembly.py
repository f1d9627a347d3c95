"""From a script to a lesson: every scene with its cube, task, texts, turns and answers worked out."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path as FilePath
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import (
    CORNER_FACES,
    EDGE_FACES,
    NORMALS,
    STICKERS,
    Vector,
    cubie_number,
)
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import CROSS_EDGES, Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.placeholders import Facts, PlaceholderError, fill
from tutor.lesson.problems import Path
from tutor.lesson.questions import Answerer, choices_of, subject_of
from tutor.lesson.reading import ReadScript, Report
from tutor.lesson.scene_start import OPENING, SceneBounds, SceneStart, continues, slot_of, start_of
from tutor.lesson.scenes import (
    Accepted,
    Alone,
    Ask,
    CameraSetting,
    Extent,
    Find,
    Lesson,
    Quiz,
    Recap,
    Scene,
    Show,
    Sought,
    Tell,
    step_answered,
)
from tutor.lesson.script import (
    AloneScript,
    AskScript,
    ChooseScript,
    FindScript,
    LessonScript,
    RecapScript,
    SceneScript,
    ShowScript,
)
from tutor.lesson.segments import segments_of, turns_written
from tutor.lesson.variation import PLAIN, Facing, Variation, faced
from tutor.lesson.words import faults_of_scenes as words
from tutor.method.answer import Answer
from tutor.method.cutting import step_under_way
from tutor.method.steps import Step
from tutor.solver.task import Task


class LessonSetting(Struct, frozen=True):
    """What a lesson is resolved for: the source of exact answers, the variation, the words of colours."""

    answers: Answerer
    variation: Variation = PLAIN
    colour_names: tuple[str, ...] = COLOUR_NAMES
    facing: Facing = Facing.AS_WRITTEN
    """Where the whole cube is turned to in each scene."""


def assemble(read: ReadScript, name: str, setting: LessonSetting) -> Lesson:
    """The lesson of a script, in a setting.

    Raises LessonError with everything that keeps it from being played.
    """
    report = read.report()
    scenes = try_scenes(read.script, setting, report)
    report.raise_any()
    script = read.script
    played = tuple(scene for scene in scenes if scene is not None)
    folder = FilePath(read.file).parent
    return Lesson(name, script.title, script.goal, played, script.ideas, script.fixed, folder)


def try_scenes(script: LessonScript, setting: LessonSetting, report: Report) -> tuple[Scene | None, ...]:
    """The scenes in order, None for each that cannot be played; what is wrong is noted.

    A scene that goes on from one whose end is unknown is left out without a word: its fault is the other's.
    """
    answers = lru_cache(maxsize=None)(setting.answers)
    # A fixed script names its sides and letters, so only its colours may change.
    variation = Variation(cross=setting.variation.cross) if script.fixed else setting.variation
    facing = Facing.AS_WRITTEN if script.fixed else setting.facing
    setting = replace(setting, answers=answers, variation=variation)
    before = OPENING
    scenes: list[Scene | None] = []
    following = (*script.scene[1:], None)
    for number, (scene, after) in enumerate(zip(script.scene, following, strict=True)):
        path: Path = ("scene", number)
        setting = replace(setting, variation=faced(variation, slot_of(scene, before), facing))
        start = start_of(scene, path, before, setting.variation, report)
        if start is None:
            scenes.append(None)
            before = SceneBounds(None, None)
            continue
        built = _SceneMaker(script, scene, path, start, setting, report).make()
        scenes.append(built)
        goes_on = after is not None and continues(after)
        before = SceneBounds(start, _end(built, start, setting) if goes_on else start)
    return tuple(scenes)


def _end(scene: Scene | None, start: SceneStart, setting: LessonSetting) -> SceneStart | None:
    """Where a scene ends: after the turns shown, or after the best of those asked for."""
    if scene is None:
        return None
    if isinstance(scene, Show):
        return replace(start, cube=scene.end)
    if not isinstance(scene, Ask | Alone):
        return start
    if scene.accept:
        return replace(start, cube=scene.cube.after(scene.accept[0]))
    answer = _answer_as_written(scene.cube.position, scene.task, setting)
    line = answer.lines[0]
    if isinstance(scene, Ask) and scene.extent is Extent.TURN:
        line = line[:1]
    elif isinstance(scene, Ask) and scene.extent is Extent.STEP and answer.routes:
        line = _first_step(answer, scene.step)
    return replace(start, cube=scene.cube.after(setting.variation.symmetry.turns(line)))


def _first_step(answer: Answer, step: Step) -> tuple[Turn, ...]:
    """The turns of the shortest route up to the end of a step."""
    turns, position = answer.routes[0].turns, answer.position
    for count, turn in enumerate(turns, start=1):
        position = position.turned(turn)
        if step_answered(step, position, answer.task):
            return turns[:count]
    return turns


def _answer_as_written(position: Position, task: Task, setting: LessonSetting) -> Answer:
    """The answer in the script as written: among equally short ways every variation then takes the same."""
    return setting.answers(*setting.variation.written(position, task))


class _SceneMaker:
    """Makes one scene; whatever is wrong with it is noted."""

    def __init__(
        self,
        lesson: LessonScript,
        script: SceneScript,
        path: Path,
        start: SceneStart,
        setting: LessonSetting,
        report: Report,
    ) -> None:
        self.lesson, self.script, self.path, self.start = lesson, script, path, start
        self.setting, self.report = setting, report
        self.noted = len(report.problems)

    def make(self) -> Scene | None:
        """The scene, or None."""
        common = self._common()
        scene = self._made(self.script, common)
        return scene if len(self.report.problems) == self.noted else None

    def _made(self, script: SceneScript, common: dict[str, Any]) -> Scene | None:
        match script:
            case ShowScript():
                return self._show(script, common)
            case AskScript():
                return self._ask(script, common)
            case FindScript():
                return self._find(script, common)
            case ChooseScript():
                return self._choose(script, common)
            case AloneScript():
                return self._alone(script, common)
            case RecapScript():
                return self._recap(script, common)
        return Tell(**common)

    def _common(self) -> dict[str, Any]:
        script = self.script
        return {
            "cube": self.start.cube,
            "task": self.start.task,
            "text": self._said(script.text, "text"),
            "on_screen": self._said(script.on_screen, "on_screen"),
            "camera": self._camera(),
            "highlight": self._highlight(),
            "speed": script.speed,
            "rail": script.rail,
            "caption": self._said(script.caption, "caption"),
            "follows": continues(script) and self.path[-1] != 0,
            "idea": self._idea(),
            "voice": self._voice(),
        }

    # ---------------------------------------------------------------------------------- kinds of scene

    def _show(self, script: ShowScript, common: dict[str, Any]) -> Scene | None:
        task = self.start.task
        answer = None if task is None else _answer_as_written(self.start.cube.position, task, self.setting)
        variation, report = self.setting.variation, self.report
        segments = segments_of(script, self.path, self.start, variation, answer, self._filled, report)
        return None if segments is None else Show(**common, segments=segments)

    def _ask(self, script: AskScript, common: dict[str, Any]) -> Scene | None:
        if not self._needs_task(words.NO_PAIR_TO_TURN):
            return None
        extent = Extent(script.extent)
        if script.until is not None and extent is not Extent.STEP:
            self.report.add((*self.path, "until"), *words.until_without_step(extent))
        task = self.start.task
        assert task is not None
        step = Step(script.until) if script.until else step_under_way(self.start.cube.position, task)
        accept = self._accepted(script.accept)
        afterwards = self._said(script.afterwards, "afterwards")
        return Ask(**common, extent=extent, step=step, accept=accept, afterwards=afterwards)

    def _alone(self, script: AloneScript, common: dict[str, Any]) -> Scene | None:
        if not self._needs_task(words.NO_PAIR_TO_TURN):
            return None
        accept = self._accepted(script.accept)
        return Alone(**common, accept=accept, afterwards=self._said(script.afterwards, "afterwards"))

    def _accepted(self, written: tuple[str, ...]) -> Accepted:
        found = []
        for number, text in enumerate(written):
            path = (*self.path, "accept", number)
            found.append(turns_written(text, path, self.setting.variation, self.report))
        return tuple(found)

    def _find(self, script: FindScript, common: dict[str, Any]) -> Scene | None:
        if not self._needs_task(words.NO_PAIR_TO_FIND):
            return None
        sought, answer = Sought(script.what), self._cubies(script.what)
        return Find(
            **common, what=sought, answer=answer, afterwards=self._said(script.afterwards, "afterwards")
        )

    def _choose(self, script: ChooseScript, common: dict[str, Any]) -> Scene | None:
        subject = None
        if script.about is not None:
            if not self._needs_task(words.NO_PAIR_TO_ASK):
                return None
            seen = self._facts(self.start.cube).sight
            assert seen is not None
            subject = subject_of(script.about, seen, self.setting.variation, self.setting.answers)
        choices = choices_of(script, self.path, subject, self._filled, self.report)
        because = self._said(script.because, "because")
        if choices is None:
            return None
        of_the_slot = script.about not in (None, "slot")
        return Quiz(**common, answers=choices, because=because, of_the_slot=of_the_slot)

    def _recap(self, script: RecapScript, common: dict[str, Any]) -> Scene:
        points = tuple(
            self._filled(point, (*self.path, "points", number)) for number, point in enumerate(script.points)
        )
        return Recap(**common, points=points)

    def _needs_task(self, fault: words.Fault) -> bool:
        if self.start.task is None:
            self.report.add((*self.path, "slot"), *fault)
        return self.start.task is not None

    # -------------------------------------------------------------------------------------- what all have

    def _said(self, text: str | None, key: str) -> str:
        return "" if text is None else self._filled(text, (*self.path, key))

    def _filled(self, text: str, path: Path, cube: HeldCube | None = None) -> str:
        try:
            return fill(text, self._facts(cube or self.start.cube))
        except PlaceholderError as error:
            self.report.add(path, f"{error.placeholder} {error.message}", error.advice)
            return ""

    def _facts(self, at: HeldCube) -> Facts:
        """What texts of the scene are about, on a cube."""
        task, setting = self.start.task, self.setting
        answer = None if task is None else lambda: setting.answers(at.position, task)
        return Facts(at, task, setting.variation.symmetry, setting.colour_names, answer)

    def _camera(self) -> CameraSetting | None:
        camera = self.script.camera
        # A camera is set for the slot as written; carried to another slot it would look past it.
        if camera is None or (self.setting.variation.quarters + self.setting.variation.turned) % 4:
            return None
        yaw = -camera.yaw if self.setting.variation.mirrored else camera.yaw
        return CameraSetting(yaw, camera.pitch, camera.zoom)

    def _idea(self) -> str:
        if self.script.idea is None:
            return self.lesson.ideas[0] if len(self.lesson.ideas) == 1 else ""
        if self.script.idea not in self.lesson.ideas:
            self.report.add((*self.path, "idea"), *words.unknown_idea(self.lesson.ideas))
        return self.script.idea

    def _voice(self) -> str:
        name = self.script.voice or ""
        # A lesson may come from anybody, so it names no file but those that come with it.
        if set(name) & set("/\\:") or name.startswith("."):
            self.report.add((*self.path, "voice"), *words.voice_elsewhere(name))
        return name

    def _highlight(self) -> frozenset[int]:
        cubies: set[int] = set()
        for number, word in enumerate(self.script.highlight):
            found = self._cubies(word)
            if not found:
                self.report.add((*self.path, "highlight", number), *words.unknown_highlight(word))
            cubies |= found
        return frozenset(cubies)

    def _cubies(self, word: str) -> frozenset[int]:
        task, position = self.start.task, self.start.cube.position
        if word == "cross":
            return frozenset(cubie_of(EDGE_FACES[place]) for place in CROSS_EDGES) | {cubie_of((Face.D,))}
        if word == "top":
            return frozenset(cubie_number(cubie) for cubie, face in STICKERS if face is Face.U)
        if word in ("corner", "edge", "pair", "slot"):
            return frozenset() if task is None else _pair_cubies(word, task, position)
        faces = {Face[letter] for letter in word if letter in Face.__members__}
        opposite = any(face.opposite in faces for face in faces)
        if not faces or len(faces) != len(word) or opposite:
            return frozenset()
        return frozenset({cubie_of(tuple(self.setting.variation.symmetry.faces[face] for face in faces))})


def cubie_of(faces: tuple[Face, ...]) -> int:
    """The number of the cubie on these faces."""
    vector: Vector = (
        sum(NORMALS[face][0] for face in faces),
        sum(NORMALS[face][1] for face in faces),
        sum(NORMALS[face][2] for face in faces),
    )
    return cubie_number(vector)


def _pair_cubies(word: str, task: Task, position: Position) -> frozenset[int]:
    slot: Slot = task.slot
    if word == "slot":
        return frozenset({cubie_of(CORNER_FACES[slot.corner]), cubie_of(EDGE_FACES[slot.edge])})
    corner = cubie_of(CORNER_FACES[position.corners[slot.corner] // 3])
    edge = cubie_of(EDGE_FACES[position.edges[slot.edge] // 2])
    return {"corner": frozenset({corner}), "edge": frozenset({edge}), "pair": frozenset({corner, edge})}[word]
