"""Showing the way: the case from its start, one beat a turn and then perhaps at full speed."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from tutor.coach.feedback import Shown
from tutor.cube.held_cube import HeldCube
from tutor.method.routes import Route
from tutor.session import attempts, turning
from tutor.session.answers import Key
from tutor.session.beats import Reading, listening_seconds, reading_seconds
from tutor.session.commands import Act
from tutor.session.demonstration import Demonstration, next_speed, step_ends
from tutor.session.detours import why_shown
from tutor.session.house import Session
from tutor.session.looking_back import split_shown
from tutor.session.settings import StepByStep
from tutor.session.state import Attempt
from tutor.session.target import Bearing
from tutor.session.telling import to_read


def act(session: Session, what: Act, now: float) -> Session:
    """Play, pause, step or change the speed of what is being shown."""
    demonstration = session.demonstration
    if demonstration is None:
        return session
    match what:
        case Act.PLAY:
            changed = _played(demonstration, now)
        case Act.BY_ITSELF if demonstration.waits:
            changed = replace(demonstration, waits=False).resumed(now)
        case Act.BY_ITSELF:
            changed = replace(demonstration.paused(now), waits=True)
        case Act.STEP_ON:
            changed = demonstration.stepped_on(now)
        case Act.STEP_BACK:
            changed = demonstration.stepped_back(now)
        case _:
            by = 1 if what is Act.FASTER else -1
            changed = demonstration.at_speed(next_speed(demonstration.speed, by), now)
    return replace(session, demonstration=changed)


def _played(demonstration: Demonstration, now: float) -> Demonstration:
    """One beat on, where it waits for the person; else playing, or paused."""
    if demonstration.waits:
        return demonstration.stepped_on(now)
    return demonstration.paused(now) if demonstration.moving(now) else demonstration.resumed(now)


def goes_on_by(session: Session, what: Act, now: float) -> bool:
    """Whether a command goes on in the room: the last beat of what waits for the person is over."""
    demonstration = session.demonstration
    return (
        what is Act.PLAY and demonstration is not None and demonstration.waits and demonstration.at_end(now)
    )


def asked_while_shown(session: Session) -> tuple[Key, ...]:
    """The positions before each turn shown, where each is explained."""
    shown, attempt = session.demonstration, session.attempt
    if shown is None or attempt is None or attempt.aim is None or None in shown.steps:
        return ()
    keys, cube = [], shown.start
    for turn in shown.turns:
        bearing = attempt.aim.bearing(cube)
        keys.append((bearing.position, bearing.task))
        cube = cube.moved(turn)
    return tuple(keys)


def with_beats(before: Session, session: Session, now: float) -> Session:
    """The session after a command, in which what is shown takes the time that its sentences need.

    What has just begun to be shown waits for the person, or plays by itself, as the room and the settings
    have it.
    """
    shown = session.demonstration
    if shown is None or shown.pace is not None:
        return session
    if shown.readings is None:
        shown = replace(shown, waits=waits_for_person(session))
    elif before.answers is session.answers and before.settings is session.settings:
        return session
    takes = listening_seconds if session.settings.read_aloud else reading_seconds
    readings = tuple(_reading(to_read(session, index), takes) for index in range(len(shown.turns)))
    if readings == shown.readings:
        return session
    return replace(session, demonstration=shown.with_readings(readings, now))


def _reading(said: Shown | None, takes: Callable[[str], float]) -> Reading | None:
    if said is None:
        return None
    # Some turns are told in the same words before and after; nobody reads those twice.
    made = "" if said.made == said.coming else said.made
    return Reading(takes(said.coming), takes(made))


def waits_for_person(session: Session) -> bool:
    """Whether turns are shown step by step here, as the learner chose."""
    match session.settings.step_by_step:
        case StepByStep.IN_LESSONS:
            return session.room.waits
        case StepByStep.ALWAYS:
            return True
        case StepByStep.NEVER:
            return False


def begun(session: Session, what: Act, now: float) -> Session:
    """Begin to show the case from its start, the slip just made, or the way from where the ways split.

    When a scene plays by itself, it begins again.
    """
    attempt = session.attempt
    if attempt is None:
        return session
    if what in (Act.SHOW_SLIP, Act.SHOW_SPLIT) and session.room.turns_to_read(session):
        return session
    if what is Act.SHOW_SLIP:
        demonstration = why_shown(session, attempt, now)
    elif what is Act.SHOW_SPLIT:
        demonstration = split_shown(session, attempt, now)
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
        return session.demonstration.anew(now)
    if turns := session.room.turns_to_read(session):
        nameless = (None,) * len(turns)
        return Demonstration(attempt.history.cube_at(0), turns, nameless, frozenset((len(turns),)), since=now)
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
