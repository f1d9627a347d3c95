"""Showing the way: the case from its start, slowly and then at full speed, seen from the same side."""

from __future__ import annotations

from dataclasses import replace

from tutor.cube.held_cube import HeldCube
from tutor.method.routes import Route
from tutor.session import attempts, turning
from tutor.session.answers import Key
from tutor.session.commands import Act
from tutor.session.demonstration import Demonstration, next_speed, step_ends
from tutor.session.detours import why_shown
from tutor.session.house import Session
from tutor.session.judging import Judged
from tutor.session.looking_back import parting_shown
from tutor.session.state import Attempt
from tutor.session.target import Bearing


def act(session: Session, what: Act, now: float) -> Session:
    """Play, pause, step or change the speed of what is being shown."""
    demonstration = session.demonstration
    if demonstration is None:
        return session
    match what:
        case Act.PLAY if demonstration.moving(now):
            changed = demonstration.paused(now)
        case Act.PLAY:
            changed = demonstration.resumed(now)
        case Act.STEP_ON | Act.STEP_BACK:
            changed = demonstration.stepped(1 if what is Act.STEP_ON else -1, now)
        case _:
            by = 1 if what is Act.FASTER else -1
            changed = demonstration.at_speed(next_speed(demonstration.speed, by), now)
    return replace(session, demonstration=changed)


def turn_shown(session: Session, index: int) -> Judged | None:
    """A turn of what is shown, with what the solver says of the position before it, if that is known."""
    shown, attempt = session.demonstration, session.attempt
    if shown is None or attempt is None or attempt.aim is None:
        return None
    bearing = attempt.aim.bearing(shown.start.after(shown.turns[:index]))
    return Judged(index, bearing, bearing.turn_as_judged(shown.turns[index]), session.answers.at(bearing))


def asked_while_shown(session: Session) -> tuple[Key, ...]:
    """The positions before each turn shown, in rooms that explain those turns."""
    shown, attempt = session.demonstration, session.attempt
    if shown is None or not session.room.reasoned or attempt is None or attempt.aim is None:
        return ()
    keys, cube = [], shown.start
    for turn in shown.turns:
        bearing = attempt.aim.bearing(cube)
        keys.append((bearing.position, bearing.task))
        cube = cube.moved(turn)
    return tuple(keys)


def begun(session: Session, what: Act, now: float) -> Session:
    """Begin to show the case from its start, the slip just made, or the way from where the ways split.

    When a scene plays by itself, it begins again.
    """
    attempt = session.attempt
    if attempt is None:
        return session
    if what is Act.SHOW_SLIP:
        demonstration = why_shown(session, attempt, now)
    elif what is Act.SHOW_PARTING:
        demonstration = parting_shown(session, attempt, now)
    else:
        demonstration = case_shown(session, attempt, now)
        session = _noted(session, attempt, demonstration)
    return put_on(session, attempt, demonstration, now)


def put_on(session: Session, attempt: Attempt, shown: Demonstration | None, now: float) -> Session:
    """The session with turns being shown on the cube in hand; unchanged when there are none."""
    if shown is None:
        return session
    return replace(attempts.at_once(session, attempt.cube, now), faded_from=None, demonstration=shown)


def _noted(session: Session, attempt: Attempt, shown: Demonstration | None) -> Session:
    """The session that remembers from where the way was shown, for the button that shows it again."""
    if shown is None or session.room.shows_by_itself(session):
        return session
    return session.room.with_attempt(session, replace(attempt, shown=shown.start))


def case_shown(session: Session, attempt: Attempt, now: float) -> Demonstration | None:
    """The case from its start; what a scene or a run shows by itself, from its beginning."""
    if session.demonstration is not None and session.room.shows_by_itself(session):
        return replace(session.demonstration, playing=True, since=now, elapsed=0.0, held_at=0.0)
    found = shown_route(session, attempt)
    if found is None:
        return None
    start, route = found
    return Demonstration(start, route.turns, route.steps, step_ends(route.steps), since=now)


def shown_route(session: Session, attempt: Attempt) -> tuple[HeldCube, Route] | None:
    """Where the attempt's case begins and the way to show, in the turns of the cube as held there."""
    for index in session.room.shown_from(session, attempt):
        bearing = attempt.bearing(index)
        answer = None if bearing is None else session.answers.get(bearing.position, bearing.task)
        # A case that began with its pair home is one the learner set up: then it begins where the cube is.
        if bearing is not None and answer is not None and answer.distance:
            return attempt.history.cube_at(index), held_route(answer.way, bearing)
    return None


def held_route(route: Route, bearing: Bearing) -> Route:
    """The route in the turns of the cube as held."""
    return replace(route, turns=tuple(bearing.turn_as_held(turn) for turn in route.turns))


def scrubbed(session: Session, position: float, now: float) -> Session:
    """With the playhead moved: in what is shown, else among the learner's own moves."""
    if session.demonstration is not None:
        return replace(session, demonstration=session.demonstration.stopped_at(position))
    attempt = session.attempt
    if attempt is None:
        return session
    return turning.go_to(session, session.room.rail_from(session, attempt) + round(position), now)
