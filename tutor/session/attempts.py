"""Making moves, undoing them, and choosing what to aim at: the same in every room with a cube."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube, first_hold
from tutor.cube.merging import merged
from tutor.cube.notation import Move
from tutor.cube.position import SLOTS, Position, Slot, every_other_slot
from tutor.method.cases import Case
from tutor.session.history import History
from tutor.session.house import Session
from tutor.session.making import goes_on
from tutor.session.settings import Settings
from tutor.session.state import Attempt
from tutor.session.target import aim_at, aim_of, cross_hold, pair_of
from tutor.session.timeline import Timeline
from tutor.solver.task import Task


def held_by_choice(position: Position, settings: Settings) -> HeldCube:
    """A position as held with the chosen cross colour down."""
    return HeldCube(position, first_hold(settings.cross))


def with_move_shown(session: Session, cube: HeldCube, move: Move, now: float) -> Session:
    """The session with a move, made from ``cube``, put on the timeline; or a fade, with reduced motion."""
    if session.settings.reduced_motion:
        return replace(session, faded_from=(cube, now), timeline=Timeline(), dragged=None)
    timeline = session.timeline.added(cube, move, now, session.settings.speed)
    return replace(session, timeline=timeline, dragged=None)


def make(session: Session, move: Move, now: float, *, with_last: bool = False) -> Session:
    """Make a move on the cube of the screen shown; ``with_last`` it is one turn with the move made last."""
    attempt = session.attempt
    if attempt is None:
        return session
    session = replace(session, demonstration=None)
    session = with_move_shown(session, attempt.cube, move, now)
    history = attempt.history.gone_on(move) if with_last else attempt.history.pushed(move)
    return session.room.with_attempt(session, followed(session, replace(attempt, history=history)))


def make_together(session: Session, moves: Sequence[Move], now: float) -> Session:
    """Make moves on the cube of the screen shown, with nothing to be seen but where they lead."""
    attempt = session.attempt
    if attempt is None or not moves:
        return session
    session = replace(at_once(session, attempt.cube, now), demonstration=None)
    left = merged(moves)
    while left and goes_on(session, attempt, left[0]):
        attempt, left = replace(attempt, history=attempt.history.gone_on(left[0])), left[1:]
    return session.room.with_attempt(
        session, followed(session, replace(attempt, history=attempt.history.extended(left)))
    )


def go_to(session: Session, history: History, now: float) -> Session:
    """Move the cursor; one step is shown as a turn, a jump at once."""
    attempt = session.attempt
    if attempt is None or history is attempt.history:
        return session
    before = attempt.history
    if history.entries is before.entries and history.cursor == before.cursor - 1:
        move = before.entries[history.cursor].move.inverse
        session = with_move_shown(session, before.cube, move, now)
    elif history.entries is before.entries and history.cursor == before.cursor + 1:
        session = with_move_shown(session, before.cube, before.entries[before.cursor].move, now)
    elif history.cube != before.cube:
        session = at_once(session, before.cube, now)
    session = replace(session, demonstration=None)
    attempt = replace(attempt, history=history)
    if history.start != before.start or history.entries is not before.entries:
        # Another cube altogether: what was aimed at on the one that is left means nothing here.
        attempt = replace(attempt, aim=None, since=history.cursor)
    return session.room.with_attempt(session, followed(session, attempt))


def at_once(session: Session, cube: HeldCube, now: float) -> Session:
    """The session with nothing on the way; with reduced motion what was shown fades out."""
    faded = (cube, now) if session.settings.reduced_motion else None
    return replace(session, timeline=Timeline(), faded_from=faded, dragged=None)


def followed(session: Session, attempt: Attempt) -> Attempt:
    """The attempt after its history changed: hints fall away, and the room may take another aim."""
    since = min(attempt.since, attempt.history.cursor)
    return session.room.followed(session, replace(attempt, rung=0, went_on=False, since=since))


def followed_freely(attempt: Attempt, cross: Face) -> Attempt:
    """In free play, turns that take a solved pair out set a case up; it begins once all else is solved."""
    if attempt.aim is None:
        return aimed(attempt, cross)
    last = max(attempt.since, attempt.history.cursor - 1)
    if attempt.done_at(last):
        attempt = replace(attempt, since=last)
    if not setting_up(attempt):
        return attempt
    now = attempt.bearing()
    settled = now is not None and now.task.settled(now.position) and not now.task.done(now.position)
    return aimed(attempt, cross, chosen_slot(attempt, cross)) if settled else attempt


def setting_up(attempt: Attempt) -> bool:
    """Whether the turns since the aim was taken set a case up: the pair was solved then. None is judged."""
    return attempt.history.cursor > attempt.since and attempt.done_at(attempt.since)


def aimed(attempt: Attempt, cross: Face, slot: Slot | None = None) -> Attempt:
    """The attempt with the pair of ``slot`` (or of the first unsolved slot) as its aim from here.

    While the cross is unsolved the attempt has no aim.
    """
    held = attempt.cube.rotated(cross_hold(attempt.cube, cross))
    if not held.position.cross_home:
        return replace(attempt, aim=None, since=attempt.history.cursor, rung=0, shown=None, went_on=False)
    if slot is None:
        open_slots = [slot for slot in SLOTS if not held.position.pair_home(slot)]
        slot = open_slots[0] if open_slots else Slot.FR
    aim = aim_at(attempt.cube, cross, slot)
    return replace(attempt, aim=aim, since=attempt.history.cursor, rung=0, shown=None, went_on=False)


def chosen_slot(attempt: Attempt, cross: Face) -> Slot | None:
    """The slot of the aim, as held with the cross down."""
    if attempt.aim is None:
        return None
    held = attempt.cube.rotated(cross_hold(attempt.cube, cross))
    return next(slot for slot in SLOTS if pair_of(held, slot) == attempt.aim.pair)


def case_attempt(case: Case, slot: Slot, alignment: int, settings: Settings) -> Attempt:
    """A case in a slot, held with the chosen cross colour down, its pair the aim."""
    cube = held_by_choice(case.position(slot, alignment), settings)
    return Attempt(History(cube), aim_of(cube, settings.cross, Task(slot, every_other_slot(slot))))
