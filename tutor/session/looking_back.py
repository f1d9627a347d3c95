"""Looking back at turns made: the remark on the last one, its slip shown, and the review after a case."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.coach.feedback import Remark, feedback
from tutor.coach.review import Review, review
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.method.routes import Route
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.method.ticks import ticked
from tutor.session.demonstration import Demonstration
from tutor.session.house import Session
from tutor.session.judging import JUDGED_BACK, Judged, answer_at, judged_turns
from tutor.session.making import SoFar, so_far
from tutor.session.state import Attempt
from tutor.session.target import Bearing, colours_as_held
from tutor.solver.task import Task


def last_judged(session: Session, attempt: Attempt) -> Judged | None:
    """The last move, when it is a turn since the aim was taken."""
    judged = judged_turns(session, attempt)
    return judged[-1] if judged and judged[-1].index == attempt.history.cursor - 1 else None


def colour_words(session: Session, cube: HeldCube, bearing: Bearing) -> tuple[str, ...]:
    """The colour words of the six faces in the frame of a bearing on ``cube``."""
    return colours_as_held(cube.rotated(bearing.hold), session.settings.colour_names)


def step_under_way(session: Session, attempt: Attempt) -> Step | None:
    """The step the learner is at; None while it is not known.

    As long as the turns stay on a route its step is kept until it is done; after a deviation the step is
    worked out afresh (a definition of the method).
    """
    judged, answer = judged_turns(session, attempt), answer_at(session, attempt)
    if in_the_making(session, attempt) is not None:
        # Until it is a whole turn, the learner is at the step that it belongs to.
        judged, answer = judged[:-1], judged[-1].answer
    return steps_under_way(judged, answer)[-1]


def steps_under_way(judged: Sequence[Judged], now: Answer | None) -> tuple[Step | None, ...]:
    """The step before each turn and after the last, where the answer is ``now``; None while not known."""
    step: Step | None = None
    followed: tuple[Route, ...] = ()
    found: list[Step | None] = []
    for each in judged:
        if each.answer is None:
            return (*found, *[None] * (len(judged) + 1 - len(found)))
        found.append(_at(step, each.answer))
        followed = _still_followed(followed or each.answer.routes, each.turn)
        if followed:
            step = followed[0].steps[0] if followed[0].steps else Step.DONE
        elif each.turn in each.answer.route_set.starts():
            after = each.answer.position.turned(each.turn)
            step = _kept_on(step or each.answer.step, after, each.answer.task)
        else:
            step = None
    return (*found, _at(step, now))


def _at(step: Step | None, answer: Answer | None) -> Step | None:
    """The step that was kept, but afresh where none was or where the position is settled."""
    if step is None or answer is None or answer.settled:
        return None if answer is None else answer.step
    return step


def ticked_at(attempt: Attempt, cursor: int) -> frozenset[Step]:
    """The steps done in the position after so many moves, for the aim taken; see ``tutor.method.ticks``."""
    now = attempt.bearing(cursor)
    if now is None:
        return frozenset()
    passed: list[Position] = []
    for index in range(max(attempt.since, cursor - JUDGED_BACK), cursor + 1):
        bearing = attempt.bearing(index)
        if bearing is not None and _same_frame(bearing, now):
            passed.append(bearing.position)
    return ticked(passed, now.task)


def _still_followed(ways: tuple[Route, ...], turn: Turn) -> tuple[Route, ...]:
    """What is left of the routes that begin with a turn."""
    return tuple(Route(way.turns[1:], way.steps[1:]) for way in ways if way.turns and way.turns[0] is turn)


def _kept_on(step: Step, position: Position, task: Task) -> Step:
    """The step, or the first after it that is not done yet."""
    later = TURNING_STEPS[TURNING_STEPS.index(step) :] if step in TURNING_STEPS else ()
    return next((each for each in later if not DONE_WHEN[each](position, task)), Step.DONE)


def in_the_making(session: Session, attempt: Attempt) -> SoFar | None:
    """What the last turn lacks to be a good turn of its layer; None when it is to be judged as it is."""
    last = last_judged(session, attempt)
    if last is None or last.answer is None or not last.answer.distance:
        return None
    continuations = last.answer.continuations
    return so_far(last.turn, lambda turn: continuations[turn].verdict)


def last_remark(session: Session, attempt: Attempt) -> Remark | None:
    """What the coach says about the last turn; None while it cannot be judged, or is still in the making."""
    last = last_judged(session, attempt)
    if last is None or last.answer is None or in_the_making(session, attempt) is not None:
        return None
    colours = colour_words(session, attempt.history.cube_at(last.index), last.bearing)
    return feedback(last.answer, last.turn, colours)


def attempt_review(session: Session, attempt: Attempt) -> Review | None:
    """The review of the turns since the aim was taken; None when there is nothing to look back on.

    The turns must all have been made in one hold, since a review tells them from one viewpoint.
    """
    judged = judged_turns(session, attempt)
    answers: list[Answer] = []
    for each in judged:
        if each.answer is None or not _same_frame(each.bearing, judged[0].bearing):
            return None
        if not each.answer.distance:
            # Turns made after the pair was home belong to no case, even when they lead away from there.
            break
        answers.append(each.answer)
    if not answers:
        return None
    return review(answers, [each.turn for each in judged[: len(answers)]])


def split_shown(session: Session, attempt: Attempt, now: float) -> Demonstration | None:
    """From where the learner's turns left every shortest way: the route on, or a line where there is none."""
    found = attempt_review(session, attempt)
    if found is None or found.split is None:
        return None
    judged = judged_turns(session, attempt)[found.split]
    if judged.answer is None:
        return None
    way = judged.answer.way
    cube = attempt.history.cube_at(judged.index)
    return shown_once(cube, judged.bearing, way, frozenset({len(way.turns)}), now)


def shown_once(
    cube: HeldCube, bearing: Bearing, way: Route, rests: frozenset[int], now: float
) -> Demonstration:
    """Turns shown once, each with the step that it belongs to."""
    held = tuple(bearing.turn_as_held(turn) for turn in way.turns)
    return Demonstration(cube, held, way.steps, rests, since=now, twice=False)


def _same_frame(first: Bearing, second: Bearing) -> bool:
    return first.hold == second.hold and first.task == second.task
