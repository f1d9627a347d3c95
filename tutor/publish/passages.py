"""What films show: a case by its route, its line or given turns, and the show scenes of a lesson."""

from __future__ import annotations

from tutor.cube.notation import Move
from tutor.lesson.resolve import Lesson, Show
from tutor.method.answer import Answer
from tutor.method.steps import Step
from tutor.publish.film import Passage, Piece
from tutor.publish.subject import Subject, subject_of
from tutor.session.view import Camera

CAPTIONS = {
    Step.RAISE: "Raise: bring both pieces to the top layer.",
    Step.PART: "Part: move the two away from each other.",
    Step.JOIN: "Join: make the two a pair.",
    Step.INSERT: "Insert: bring the pair into its slot.",
}
"""What is said with each step of a route."""
FIND = "Find the corner and the edge."
HOME = "The pair is home."


def route_passage(subject: Subject, answer: Answer) -> Passage:
    """The most comfortable shortest route, step by step. Raises ValueError when there is none."""
    _refuse_home(answer)
    if not answer.routes:
        raise ValueError("no route leads on from here; show the line instead")
    pieces = tuple(Piece(turns, step, CAPTIONS[step]) for step, turns in answer.routes[0].segments)
    return Passage(subject, pieces, FIND, HOME)


def line_passage(subject: Subject, answer: Answer) -> Passage:
    """The most comfortable shortest line. Raises ValueError when the pair is home."""
    _refuse_home(answer)
    turns = answer.lines[0]
    count = "1 turn" if len(turns) == 1 else f"{len(turns)} turns"
    return Passage(subject, (Piece(turns, None, f"A shortest line: {count}."),), FIND, HOME)


def turns_passage(subject: Subject, turns: tuple[Move, ...]) -> Passage:
    """Turns as given; nothing is said about them. Raises ValueError when there are none."""
    if not turns:
        raise ValueError("there are no turns to show; write some, or choose route or line")
    return Passage(subject, (Piece(turns),), ending=HOME if subject.done(subject.cube.after(turns)) else "")


def lesson_passages(lesson: Lesson) -> tuple[Passage, ...]:
    """The show scenes of a lesson with its texts as captions. Raises ValueError when it shows nothing."""
    passages: list[Passage] = []
    camera: Camera | None = None
    for scene in lesson.scenes:
        if scene.camera is not None:
            camera = Camera(scene.camera.yaw, scene.camera.pitch, scene.camera.zoom)
        if isinstance(scene, Show):
            subject = subject_of(scene.cube, scene.task, lesson.title)
            pieces = tuple(Piece(part.turns, part.step, part.text) for part in scene.segments)
            passages.append(Passage(subject, pieces, scene.text, camera=camera))
    if not passages:
        raise ValueError(f"no scene of the lesson “{lesson.title}” shows turns, so there is no film of it")
    return tuple(passages)


def _refuse_home(answer: Answer) -> None:
    if answer.distance == 0:
        raise ValueError("the pair is home already, so there is nothing to show")
