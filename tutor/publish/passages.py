"""What films show: a case by its route, its line or given turns, and the show scenes of a lesson."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from tutor.counting import counted
from tutor.cube.held_cube import face_turns
from tutor.cube.notation import Move, Rotation
from tutor.lesson.scenes import Lesson, Show
from tutor.method.answer import Answer
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.publish.film import FilmPiece, Passage
from tutor.publish.subject import Subject, subject_of
from tutor.ui.view import Camera

CAPTIONS: dict[Step | None, str] = {
    Step.RAISE: "Raise: lift both pieces to the top layer.",
    Step.PART: "Part: set the two apart, so that they can be joined.",
    Step.JOIN: "Join: bring the two together, colour to colour.",
    Step.INSERT: "Insert: slide the pair into its slot.",
}
"""What is said with each step of a route."""
FIND = "Find the corner and its edge."
HOME = "The pair is in its slot."
MOST_CUT = 100
"""Longer sequences are shown without steps: a way for one pair is shorter, and to cut them takes seconds."""


def route_passage(subject: Subject, answer: Answer) -> Passage:
    """The route to show, step by step. Raises ValueError when there is none."""
    _refuse_home(answer)
    if not answer.routes:
        raise ValueError("no route leads on from here; show the line instead")
    route = answer.routes[0]
    return steps_passage(subject, route.turns, route.steps)


def steps_passage(subject: Subject, turns: Sequence[Move], steps: Sequence[Step | None]) -> Passage:
    """Turns with the step of each, and with each step what it is for."""
    pieces = _pieces(turns, steps, lambda step: CAPTIONS.get(step, ""))
    return Passage(subject, pieces, FIND, _ending(subject, turns))


def line_passage(subject: Subject, answer: Answer) -> Passage:
    """The most comfortable shortest line, by hand where there is a way by hand, cut into the steps.

    Raises ValueError when the pair is home.
    """
    _refuse_home(answer)
    turns = answer.lines[0]
    caption = f"A shortest line: {counted(len(turns), 'turn')}."
    return Passage(subject, _pieces(turns, steps_of(subject, turns), lambda _: caption), FIND, HOME)


def turns_passage(subject: Subject, turns: tuple[Move, ...]) -> Passage:
    """Turns as given, with the names of the steps where a pair is in question; nothing else is said of them.

    Raises ValueError when there are none.
    """
    if not turns:
        raise ValueError("there are no turns to show; write some, or choose route or line")
    pieces = _pieces(turns, steps_of(subject, turns), lambda _: "")
    return Passage(subject, pieces, ending=_ending(subject, turns))


def steps_of(subject: Subject, moves: Sequence[Move]) -> tuple[Step | None, ...]:
    """The step of each move, as ``tutor.method.cutting`` cuts them.

    None for all where no pair is in question and in a sequence longer than ``MOST_CUT``. A turn of the whole
    cube goes with the turn after it, at the end with the one before.
    """
    turns, _ = face_turns(moves)
    if subject.aim is None or not 0 < len(turns) <= MOST_CUT:
        return (None,) * len(moves)
    bearing = subject.aim.bearing(subject.cube)
    steps = cut(bearing.position, bearing.task, [bearing.turn_as_judged(turn) for turn in turns])
    return tuple(_step_made(moves[:count], steps) for count in range(len(moves)))


def _step_made(before: Sequence[Move], steps: tuple[Step, ...]) -> Step | None:
    """The step of the move that comes after those before it."""
    turned = sum(not isinstance(move, Rotation) for move in before)
    return steps[min(turned, len(steps) - 1)]


def _pieces(
    turns: Sequence[Move], steps: Sequence[Step | None], said: Callable[[Step | None], str]
) -> tuple[FilmPiece, ...]:
    """The turns put together by steps, with what is said of each step; ``DONE`` is none."""
    named = (None if step is Step.DONE else step for step in steps)
    together = groupby(zip(turns, named, strict=True), key=lambda each: each[1])
    return tuple(FilmPiece(tuple(turn for turn, _ in each), step, said(step)) for step, each in together)


def _ending(subject: Subject, turns: Sequence[Move]) -> str:
    return HOME if subject.done(subject.cube.after(turns)) else ""


def lesson_passages(lesson: Lesson) -> tuple[Passage, ...]:
    """The show scenes of a lesson with its texts as captions. Raises ValueError when it shows nothing."""
    passages: list[Passage] = []
    camera: Camera | None = None
    for scene in lesson.scenes:
        if scene.camera is not None:
            camera = Camera(scene.camera.yaw, scene.camera.pitch, scene.camera.zoom)
        if isinstance(scene, Show):
            subject = subject_of(scene.cube, scene.task, lesson.title)
            pieces = tuple(FilmPiece(part.turns, part.step, part.text) for part in scene.segments)
            passages.append(Passage(subject, pieces, scene.text, camera=camera))
    if not passages:
        raise ValueError(f"no scene of the lesson “{lesson.title}” shows turns, so there is no film of it")
    return tuple(passages)


def _refuse_home(answer: Answer) -> None:
    if answer.distance == 0:
        raise ValueError("the pair is solved already, so there is nothing to show")
