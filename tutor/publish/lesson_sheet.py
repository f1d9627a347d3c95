"""Lessons on paper: what they tell and show, then questions and tasks with room to answer, the answers last.

What is said and marked is what the window says and marks; see ``tutor/screens/lesson``. But there one thing
goes before the next comes. On paper, what is told of a cube would stand beside a question about it and answer
it. So questions come after all that is told, and tasks after them; each from a new page where they share a
cube with what is before them.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby, starmap
from math import ceil

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.questions import Answerer
from tutor.lesson.scenes import Alone, Ask, Find, Lesson, LessonSegment, Quiz, Recap, Scene, Show, Tell
from tutor.method.steps import TURNING_STEPS
from tutor.publish import words
from tutor.publish.document import (
    AnswerList,
    BoxedText,
    Boxes,
    Cell,
    Cells,
    Chapter,
    CubePicture,
    Document,
    DocumentBlock,
    Paragraph,
    QuestionAnswer,
    Subheading,
)
from tutor.publish.lesson_answers import answer_texts
from tutor.publish.passages import scene_passage
from tutor.publish.printing import Print, mirrored_picture, pictures_of, usual_view
from tutor.publish.stepping import stepping_of
from tutor.screens.lesson import words as lesson_words
from tutor.screens.lesson.questions import options
from tutor.screens.lesson.scene_look import asked, camera_at, framed_alone, marks_the_pair, turns_said
from tutor.screens.lesson.telling import slips, told_one_by_one
from tutor.screens.parts.stage import marked
from tutor.session.target import aim_of
from tutor.session.telling import ShownTurns
from tutor.ui.view import REST_CAMERA, Arrow, Stage

PARTS_IN_A_ROW, MOST_PARTS_IN_A_ROW, SCENES_IN_A_ROW = 4, 5, 2
"""Parts stand a little closer than usual where that saves a row."""
OWN_LINES = 3
"""Lines for the learner's own words."""

AskingScene = Ask | Alone | Quiz | Find


class NumberedLesson(Struct, frozen=True):
    """A lesson with its place in the course; 0 for one that has none."""

    number: int
    lesson: Lesson


def lesson_document(
    lessons: tuple[NumberedLesson, ...],
    how: Print,
    solutions: Answerer,
    day: date,
    learner: str = "",
    *,
    steps: bool = False,
) -> Document:
    """One lesson, or a booklet of several, with the answers at its end.

    On a page that ``steps`` you go through each demonstration turn by turn.
    """
    chapters = [_chapter(each, how, solutions, steps=steps) for each in lessons]
    answers = tuple(_answers(each.lesson, solutions) for each in lessons)
    if any(each.answers for each in answers):
        asked = tuple(each for each in answers if each.answers)
        lead = _answers_lead(asked, _cross(lessons[0].lesson))
        chapters.append(Chapter(words.ANSWERS, lead, asked, answers=True))
    legend = f"{words.MARKS_LEGEND} {words.ARROWS_LEGEND}"
    several = len(lessons) > 1
    return Document(
        words.BOOKLET if several else lessons[0].lesson.title,
        tuple(chapters),
        (words.TURNS_LEGEND, words.STEPS_LEGEND, legend),
        day,
        learner,
        contents=several,
    )


def _chapter(numbered: NumberedLesson, how: Print, solutions: Answerer, *, steps: bool) -> Chapter:
    lesson = numbered.lesson
    sign = lesson_words.number(numbered.number) if numbered.number else ""
    blocks = tuple(_Scenes(lesson, how, solutions, steps=steps).blocks())
    return Chapter(lesson.title, lesson.goal, blocks, sign, form=True)


def _answers(lesson: Lesson, solutions: Answerer) -> AnswerList:
    texts, seen = [], set()
    for _, scene in _asked(lesson):
        same = isinstance(scene, Quiz | Find) and scene.cube in seen
        texts.append(answer_texts(scene, solutions, same_cube=same))
        if any(text.startswith(words.SET_UP) for text in texts[-1]):
            seen.add(scene.cube)
    return AnswerList(lesson.title, tuple(starmap(QuestionAnswer, enumerate(texts, start=1))))


def _asked(lesson: Lesson) -> tuple[tuple[int, AskingScene], ...]:
    """The scenes that ask, with their places in the lesson: questions come before tasks."""
    asked = [(index, scene) for index, scene in enumerate(lesson.scenes) if isinstance(scene, AskingScene)]
    return tuple(sorted(asked, key=lambda each: isinstance(each[1], Ask | Alone)))


def _cubes_told(scene: Scene) -> tuple[HeldCube, ...]:
    """The cubes of which a scene tells something; those that turns lead through too."""
    if not isinstance(scene, Tell | Show):
        return ()
    turns = scene.turns if isinstance(scene, Show) else ()
    return tuple(scene.cube.after(turns[:count]) for count in range(len(turns) + 1))


def _answers_lead(asked: tuple[AnswerList, ...], cross: str) -> str:
    """How to use the answers; of set-ups only where there are any."""
    texts = (text for each in asked for answer in each.answers for text in answer.texts)
    set_up = any(text.startswith(words.SET_UP) for text in texts)
    return f"{words.ANSWERS_LEAD} {words.set_up_lead(cross)}" if set_up else words.ANSWERS_LEAD


def _cross(lesson: Lesson) -> str:
    """The cross colour by name; a cube without a pair in question may be held otherwise."""
    scene = next((scene for scene in lesson.scenes if scene.task is not None), lesson.scenes[0])
    return COLOUR_NAMES[scene.cube.colour_of(Face.D)]


class _Scenes:
    """The scenes of one lesson as blocks."""

    def __init__(self, lesson: Lesson, how: Print, solutions: Answerer, *, steps: bool) -> None:
        self._lesson, self._how, self._solutions, self._steps = lesson, how, solutions, steps

    def blocks(self) -> Iterator[DocumentBlock]:
        """How to hold the cube and what its colours are; then what is told, what is asked, and the end."""
        yield Paragraph(words.hold_lead(_cross(self._lesson)))
        yield self._how.key
        yield from self._told()
        yield from self._asking()
        for scene in self._lesson.scenes:
            if isinstance(scene, Recap):
                points = BoxedText(words.REMEMBER, scene.text, scene.points)
                yield Boxes((points, BoxedText(words.OWN_WORDS, lines=OWN_LINES, dashed=True)))

    # ------------------------------------------------------------------------------- what is told and asked

    def _told(self) -> Iterator[DocumentBlock]:
        """What tells and shows, short scenes side by side."""
        scenes = [each for each in enumerate(self._lesson.scenes) if isinstance(each[1], Tell | Show)]
        for short, group in groupby(scenes, key=lambda each: isinstance(each[1], Tell)):
            if short:
                yield Cells(tuple(self._short(*each) for each in group), SCENES_IN_A_ROW)
                continue
            for each in group:
                yield from self._show(*each)

    def _asking(self) -> Iterator[DocumentBlock]:
        """Questions, then tasks; on a page of their own where a cube before them would answer one."""
        seen = {cube for scene in self._lesson.scenes for cube in _cubes_told(scene)}
        asked = enumerate(_asked(self._lesson), start=1)
        for tasks, group in groupby(asked, key=lambda each: isinstance(each[1][1], Ask | Alone)):
            numbered = tuple(group)
            own = {scene.cube for _, (_, scene) in numbered}
            yield Subheading(words.TASKS if tasks else words.QUESTIONS, own_page=bool(seen & own))
            cells = tuple(self._question(number, *scene) for number, scene in numbered)
            yield Cells(cells, SCENES_IN_A_ROW)
            seen |= own

    def _short(self, index: int, scene: Scene) -> Cell:
        pictures = self._pictures(index, scene.cube, words.at_scene(index + 1))
        return Cell(pictures, texts=(scene.text,), details=(scene.caption,) if scene.caption else ())

    def _question(self, number: int, index: int, scene: AskingScene) -> Cell:
        told = self._short(index, scene)
        if isinstance(scene, Quiz | Find):
            heading = words.question(number, f"{scene.text} {words.TICK_ONE}")
            return replace(told, heading=heading, texts=(), options=tuple(text for text, _ in options(scene)))
        task = replace(told, heading=words.question(number, _task(scene)))
        return task if turns_said(scene, scene.text) else replace(task, label=words.YOUR_TURNS, lines=1)

    # ---------------------------------------------------------------------------------------- turns shown

    def _show(self, index: int, scene: Scene) -> Iterator[DocumentBlock]:
        assert isinstance(scene, Show)
        yield Subheading(words.WATCH)
        yield Paragraph(scene.text)
        if self._steps:
            yield Cells((self._stepped(index, scene),))
        parts = *self._parts(index, scene), self._end(index, scene)
        yield Cells(parts, _in_a_row(len(parts)), beside=False, on_paper=self._steps)

    def _stepped(self, index: int, scene: Show) -> Cell:
        """All turns of the scene to step through; its text stands above."""
        pictures = self._pictures(index, scene.cube, words.at_scene(index + 1))
        passage = replace(scene_passage(self._lesson, index, self._solutions), opening="")
        return Cell(pictures[:1], stepping=stepping_of(passage, pictures[0]))

    def _parts(self, index: int, scene: Show) -> Iterator[Cell]:
        made, told = 0, -1
        for segment in scene.segments:
            cube, turns = scene.cube.after(scene.turns[:made]), _notations(segment.turns)
            arrow = Arrow(segment.turns[0])
            yield Cell(
                self._pictures(index, cube, words.before_turns(" ".join(turns)), arrow),
                sign=_sign(scene, segment),
                turns=turns,
                # A part in which a step ends is told once.
                texts=(segment.text,) if segment.text and segment.part != told else (),
                details=self._coach(scene, segment, made),
            )
            made, told = made + len(segment.turns), segment.part

    def _coach(self, scene: Show, segment: LessonSegment, first: int) -> tuple[str, ...]:
        """What the coach says of each turn before it is made, where the script tells several together."""
        if scene.task is None or not told_one_by_one(segment):
            return ()
        steps = tuple(each.step for each in scene.segments for _ in each.turns)
        aim = aim_of(scene.cube, scene.cube.colour_of(Face.D), scene.task)
        shown = ShownTurns(scene.cube, scene.turns, steps, aim)
        found = []
        for turn in range(first, first + len(segment.turns)):
            before = shown.bearing(turn)
            told = shown.told(turn, self._solutions(before.position, before.task), COLOUR_NAMES)
            found.append("" if told is None else told.unmirrored.coming)
        return tuple(text for text in found if text)

    def _end(self, index: int, scene: Show) -> Cell:
        home = scene.task is not None and scene.task.done(scene.end.position)
        sign = words.SOLVED if home else words.AFTERWARDS
        return Cell(self._pictures(index, scene.end, words.AT_THE_END), sign=sign)

    # ------------------------------------------------------------------------------------------- pictures

    def _pictures(
        self, index: int, cube: HeldCube, alt: str, arrow: Arrow | None = None
    ) -> tuple[CubePicture, ...]:
        """A cube of a scene, marked as in the window and seen from where the scene wants it."""
        scene, camera = self._lesson.scenes[index], camera_at(self._lesson, index)
        glowing = scene.highlight if cube == scene.cube else frozenset()
        stage = Stage(cube.colours, camera=camera, glowing=glowing, arrow=arrow, framed=framed_alone(scene))
        slot = None if scene.task is None else scene.task.slot
        if slot is None and not isinstance(scene, Show):
            return (mirrored_picture(stage, self._how, alt),)
        if camera == REST_CAMERA:
            stage = replace(stage, camera=usual_view(slot))
        if scene.task is not None and marks_the_pair(scene):
            aim = aim_of(scene.cube, scene.cube.colour_of(Face.D), scene.task)
            stage = marked(stage, aim.bearing(cube))
        return pictures_of(stage, slot, self._how, alt)


def _in_a_row(parts: int) -> int:
    """How many of so many parts stand side by side."""
    rows = ceil(parts / MOST_PARTS_IN_A_ROW)
    return max(PARTS_IN_A_ROW, ceil(parts / rows))


def _sign(scene: Show, segment: LessonSegment) -> str:
    if slips(scene, segment):
        return lesson_words.SLIP_SIGN
    return segment.step.value.capitalize() if segment.step in TURNING_STEPS else ""


def _task(scene: Ask | Alone) -> str:
    """What is to be done; no question where the text answers it."""
    if isinstance(scene, Ask) and turns_said(scene, scene.text):
        return words.TURN_YOUR_CUBE
    return asked(scene, scene.text)


def _notations(turns: tuple[Turn, ...]) -> tuple[str, ...]:
    return tuple(turn.notation for turn in turns)
