"""What follows every command, in this order, whatever the command was."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from tutor.cube.faces import TURNS
from tutor.session import playback, shift_key
from tutor.session.answers import Key
from tutor.session.commands import Click, FillScreen, KeepPlaces, SaveSettings
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update
from tutor.session.judging import answer_at, judged_turns

Pass = Callable[[Session, Session, tuple[Effect, ...], float], Update]
"""From the session before the command, the one after it, the effects so far and the time."""


def clocks(_before: Session, after: Session, _effects: tuple[Effect, ...], now: float) -> Update:
    """Stop every room's clocks while another room, or something over it, is on the screen."""
    for room in after.house.with_own(Room.clocked):
        seen = room.name == after.screen and not after.covered
        after = room.clocked(after, now, seen=seen)
    return after, ()


def finished(_before: Session, after: Session, _effects: tuple[Effect, ...], now: float) -> Update:
    """Hand finished attempts of every room to the store."""
    filed: tuple[Effect, ...] = ()
    for room in after.house.with_own(Room.finished):
        after, more = room.finished(after, now)
        filed += more
    return after, filed


def kept_up(before: Session, after: Session, effects: tuple[Effect, ...], now: float) -> Update:
    """Let every room see to what is its own."""
    asked: tuple[Effect, ...] = ()
    for room in after.house.with_own(Room.kept_up):
        after, more = room.kept_up(before, after, effects, now)
        asked += more
    return after, asked


def timed(before: Session, after: Session, _effects: tuple[Effect, ...], now: float) -> Update:
    """Give the sentences of what is shown the time that it takes to read them."""
    return playback.with_beats(before, after, now), ()


def advised(_before: Session, after: Session, _effects: tuple[Effect, ...], _now: float) -> Update:
    """Ask what the open room wants to know about a whole solve; drop what nobody waits for."""
    advices, asked = after.advices.wanting(after.room.questions(after))
    return (after if advices is after.advices else replace(after, advices=advices)), asked


def answered(_before: Session, after: Session, _effects: tuple[Effect, ...], _now: float) -> Update:
    """Ask the solver what the rooms need, the most needed first; drop what nobody waits for."""
    answers, asked = after.answers.wanting(_wanted(after))
    return (after if answers is after.answers else replace(after, answers=answers)), asked


def kept(before: Session, after: Session, _effects: tuple[Effect, ...], _now: float) -> Update:
    """Keep changed settings, and where learners left their lessons, for the next time."""
    effects: tuple[Effect, ...] = ()
    if after.settings != before.settings:
        effects += (SaveSettings(after.settings),)
    if after.places != before.places:
        effects += (KeepPlaces(after.places),)
    return after, effects


def filled(before: Session, after: Session, _effects: tuple[Effect, ...], _now: float) -> Update:
    """Have the window fill the screen, or not, whatever changed that."""
    changed = after.full_screen is not before.full_screen
    return after, (FillScreen(after.full_screen),) if changed else ()


def heard(before: Session, after: Session, _effects: tuple[Effect, ...], _now: float) -> Update:
    """Sound a click for a turn, and once when the learner switches the sound on."""
    if not after.settings.sound:
        return after, ()
    return after, (Click(),) if _turned(before, after) or not before.settings.sound else ()


def shift_told(_before: Session, after: Session, _effects: tuple[Effect, ...], _now: float) -> Update:
    """Note that the card says what Shift does, the first time that Shift made a turn go the wrong way."""
    return shift_key.told(after), ()


PASSES: tuple[Pass, ...] = (
    clocks, finished, kept_up, timed, advised, answered, shift_told, kept, filled, heard,
)  # fmt: skip
"""In this order, and why:

clocks, since what is over is kept with its time; finished, since an attempt is filed before anything is built
on it; kept_up, since a room counts what was filed; timed, since by then it is known what is shown; advised
and answered, since what a room has become decides what it wants to know; shift_told, once the answers have
come; kept, since all changes of settings and places have been made by then; filled, which
depends on nothing else; heard, last.
"""


def _turned(before: Session, after: Session) -> bool:
    """Whether one move was made or undone on the cube in hand."""
    if before.screen != after.screen or not after.room.heard(after):
        return False
    if before.attempt is None or after.attempt is None:
        return False
    old, new = before.attempt.history, after.attempt.history
    return old.start == new.start and abs(old.cursor - new.cursor) <= 1 and old.cube != new.cube


def _wanted(session: Session) -> tuple[Key, ...]:
    """What the solver should be asked, the most needed first."""
    return (*wanted_now(session), *_wanted_next(session))


def wanted_now(session: Session) -> tuple[Key, ...]:
    """What somebody waits for: what rooms need, the position on the cube, and turns not judged yet."""
    needed = tuple(key for room in session.house.with_own(Room.needed) for key in room.needed(session))
    attempt = session.attempt
    bearing = attempt.bearing() if attempt is not None else None
    if attempt is None or bearing is None:
        return needed
    keys = [(bearing.position, bearing.task), *playback.asked_while_shown(session)]
    for judged in judged_turns(session, attempt):
        if judged.answer is None:
            keys.append((judged.bearing.position, judged.bearing.task))
    return (*needed, *keys)


def _wanted_next(session: Session) -> tuple[Key, ...]:
    """Once the position is answered, every position one turn further, so that the next verdict is a look-up.

    The best turns come first.
    """
    attempt = session.attempt
    bearing = attempt.bearing() if attempt is not None else None
    if attempt is None or bearing is None:
        return ()
    answer = answer_at(session, attempt)
    if answer is None:
        return ()
    ranked = sorted(TURNS, key=lambda turn: (answer.continuations[turn].cost, turn))
    return tuple((bearing.position.turned(turn), bearing.task) for turn in ranked)
