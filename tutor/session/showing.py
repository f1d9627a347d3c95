"""Show again: the case from its start, slowly and then at full speed, with the view left where it is."""

from __future__ import annotations

from dataclasses import replace

from tutor.cube.held import HeldCube
from tutor.method.routes import Route
from tutor.session import play
from tutor.session.aim import Bearing
from tutor.session.commands import Act
from tutor.session.demonstration import Demonstration, next_speed, step_ends
from tutor.session.state import Attempt, Session


def act(session: Session, what: Act, now: float) -> Session:
    """Play, pause, step, change the speed, or begin to show."""
    demonstration = session.demonstration
    if what is Act.SHOW_AGAIN:
        return begun(session, now)
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


def begun(session: Session, now: float) -> Session:
    """Show the case of the attempt from its start, or what is being shown from its beginning."""
    if session.demonstration is not None:
        restarted = replace(session.demonstration, playing=True, since=now, elapsed=0.0, held_at=0.0)
        return replace(session, demonstration=restarted)
    attempt = session.attempt
    found = None if attempt is None else shown_route(session, attempt)
    if attempt is None or found is None:
        return session
    start, route = found
    demonstration = Demonstration(start, route.turns, route.steps, step_ends(route.steps), since=now)
    return replace(play.at_once(session, attempt.cube, now), faded_from=None, demonstration=demonstration)


def shown_route(session: Session, attempt: Attempt) -> tuple[HeldCube, Route] | None:
    """Where the attempt's case begins and the route to show, in the turns of the cube as held there."""
    for index in (min(attempt.since, attempt.history.cursor), attempt.history.cursor):
        bearing = attempt.bearing(index)
        answer = None if bearing is None else session.answers.get(bearing.position, bearing.task)
        # A case that began with its pair home is one the learner set up: then it begins where the cube is.
        if bearing is not None and answer is not None and answer.routes:
            return attempt.history.cube_at(index), held_route(answer.routes[0], bearing)
    return None


def held_route(route: Route, bearing: Bearing) -> Route:
    """The route in the turns of the cube as held."""
    return replace(route, turns=tuple(bearing.turn_as_held(turn) for turn in route.turns))


def scrubbed(session: Session, position: float, now: float) -> Session:
    """The playhead put somewhere: in what is shown, else among the learner's own moves."""
    if session.demonstration is not None:
        return replace(session, demonstration=session.demonstration.stopped_at(position))
    attempt = session.attempt
    if attempt is None:
        return session
    return play.go_to(session, attempt.history.moved_to(attempt.since + round(position)), now)
