"""The answers to a lesson's questions, as the lesson and the solver have them."""

from __future__ import annotations

from collections.abc import Iterator

from tutor.cube.faces import Face, Turn, inverse
from tutor.cube.notation import format_moves
from tutor.cube.position import SLOTS
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.questions import Answerer
from tutor.lesson.scenes import Alone, Ask, Extent, Find, Quiz, Scene, step_answered
from tutor.method.answer import Answer
from tutor.method.routes import Route
from tutor.method.terms import Verdict
from tutor.publish import words
from tutor.screens.lesson.questions import options


def answer_texts(
    scene: Ask | Alone | Quiz | Find, solutions: Answerer, *, same_cube: bool = False
) -> tuple[str, ...]:
    """What answers a question, what is said then, and how its cube is set up.

    Of several questions about the ``same_cube`` only the first says how.
    """
    solution = None if scene.task is None else solutions(scene.cube.position, scene.task)
    if isinstance(scene, Ask | Alone):
        assert solution is not None
        answers, said = tuple(_turns(scene, solution)), scene.afterwards
    else:
        said = scene.because if isinstance(scene, Quiz) else scene.afterwards
        answers = (words.any_of([text for text, right in options(scene) if right]),)
    set_up = "" if solution is None or same_cube else _set_up(scene, solution)
    return tuple(text for text in (*answers, said, set_up) if text)


def _turns(scene: Ask | Alone, solution: Answer) -> Iterator[str]:
    """The turns that answer: those that the lesson asks for, else as the window shows the way."""
    if scene.accept:
        yield words.any_of([format_moves(turns) for turns in scene.accept])
    elif isinstance(scene, Ask) and scene.extent is Extent.TURN:
        yield words.any_of([turn.notation for turn in solution.turns(Verdict.OPTIMAL)])
    elif isinstance(scene, Ask) and scene.extent is Extent.STEP:
        yield format_moves(_to_the_step(scene, solution.way.turns))
    else:
        yield by_steps(solution.way)
        if len(solution.lines[0]) < len(solution.way.turns):
            yield words.shorter_way(format_moves(solution.lines[0]))


def by_steps(route: Route) -> str:
    """The turns of a route, step by step, in one line."""
    return ". ".join(words.step_turns(step.value, format_moves(turns)) for step, turns in route.segments)


def _to_the_step(scene: Ask, way: tuple[Turn, ...]) -> tuple[Turn, ...]:
    """The way up to where the step asked for is done."""
    position = scene.cube.position
    for count, turn in enumerate(way, start=1):
        position = position.turned(turn)
        if step_answered(scene.step, position, scene.task):
            return way[:count]
    return way


def _set_up(scene: Scene, solution: Answer) -> str:
    """How the cube is made from a solved one; empty where the way does not lead to one."""
    way = solution.way.turns
    end = solution.position.after(way)
    if not (end.cross_home and all(end.pair_home(slot) for slot in SLOTS)):
        return ""
    front = COLOUR_NAMES[scene.cube.colour_of(Face.F)]
    return words.set_up(front, format_moves(inverse(way)))
