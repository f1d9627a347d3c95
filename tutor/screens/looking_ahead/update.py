"""What the commands of looking ahead do to a session."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.catalogue import capitalised
from tutor.cube.faces import Face
from tutor.cube.geometry import (
    CORNER_CUBIES,
    CORNER_FACES,
    EDGE_CUBIES,
    EDGE_FACES,
    STICKERS,
    cubie_number,
)
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import SLOTS
from tutor.method.advice import PlanQuestion
from tutor.screens.looking_ahead import words
from tutor.screens.looking_ahead.commands import NAME
from tutor.screens.looking_ahead.state import LOOKING, PACES, LookingAhead, RoundPhase
from tutor.session import attempts
from tutor.session.commands import Draw
from tutor.session.demonstration import Demonstration
from tutor.session.house import Session, Update
from tutor.session.navigation import opened
from tutor.ui.view import REST_CAMERA

FEWEST_PAIRS = 2
"""Unsolved pairs that looking ahead needs."""


def begun(session: Session, cube: HeldCube, cross: Face, now: float) -> Session:
    """The exercise from a cube, turned so that the cross is down.

    Without a cross and two unsolved pairs, a notice says what is missing.
    """
    held = cube.held_for(cross)
    if not held.position.cross_home:
        return replace(session, notice=words.cross_missing(held.position.cross_edges_home))
    open_pairs = len(SLOTS) - len(held.position.home_pairs)
    if open_pairs < FEWEST_PAIRS:
        return replace(session, notice=words.pairs_missing(open_pairs))
    before = LOOKING.of(session)
    pace = LookingAhead(held).pace if before is None else before.pace
    shown = replace(opened(session, NAME, now), camera=REST_CAMERA)
    return LOOKING.put(shown, LookingAhead(held, pace))


def from_chance(session: Session) -> Update:
    """Ask for a random position with the cross made, to look ahead from."""
    request = session.draw_request + 1
    session = replace(session, draw_request=request, screen=NAME, demonstration=None)
    return session, (Draw(request, cross_made=True),)


def question(session: Session) -> PlanQuestion | None:
    """What the program must know before it can play anything."""
    looking = in_hand(session)
    if looking is None or looking.watch is not RoundPhase.WAITING:
        return None
    return PlanQuestion(looking.cube.position)


def in_hand(session: Session) -> LookingAhead | None:
    """The exercise on the screen."""
    return LOOKING.of(session) if session.screen == NAME else None


def made_ready(session: Session) -> Session:
    """The session with the pair to follow on the screen, once a plan is known."""
    asked, waiting = question(session), LOOKING.of(session)
    reading = None if asked is None else session.advices.plan(asked)
    if waiting is None or reading is None:
        return session
    looking = replace(waiting, stages=reading.plan.stages, watch=RoundPhase.READY)
    if looking.followed is None:
        looking = replace(looking, watch=RoundPhase.OVER)
    return LOOKING.put(session, looking)


# ------------------------------------------------------------------------------------------ one round


def gone_on(session: Session, now: float) -> Session:
    """The session after Space: started, paused, played on, or in the next round."""
    looking, playing = in_hand(session), session.demonstration
    if looking is None:
        return session
    if looking.watch is RoundPhase.READY or (looking.watch is RoundPhase.PLAYING and playing is None):
        return _played(session, looking, now)
    if looking.watch is RoundPhase.PLAYING and playing is not None and not playing.finished(now):
        changed = playing.paused(now) if playing.moving(now) else playing.resumed(now)
        return replace(session, demonstration=changed)
    if looking.watch is RoundPhase.TOLD:
        return _next_round(session, looking)
    return session


def _played(session: Session, looking: LookingAhead, now: float) -> Session:
    shown = Demonstration(
        looking.cube,
        looking.turns,
        (None,) * len(looking.turns),
        frozenset(),
        now,
        twice=False,
        pace=float(looking.pace),
    )
    session = attempts.at_once(session, looking.cube, now)
    looking = replace(looking, watch=RoundPhase.PLAYING, pointed=())
    return LOOKING.put(replace(session, faded_from=None, demonstration=shown), looking)


def _next_round(session: Session, looking: LookingAhead) -> Session:
    following = replace(
        looking, cube=looking.end, stages=looking.stages[1:], watch=RoundPhase.READY, pointed=(), again=False
    )
    if following.followed is None:
        following = replace(following, watch=RoundPhase.OVER)
    return LOOKING.put(replace(session, demonstration=None), following)


def seen_again(session: Session, now: float) -> Session:
    """The session with the round played once more; its answers do not count."""
    looking = in_hand(session)
    if looking is None or looking.watch is not RoundPhase.TOLD:
        return session
    return _played(session, replace(looking, again=True), now)


def paced(session: Session, step: int, now: float) -> Session:
    """The session with more or fewer turns a minute, also while they are being played."""
    looking, playing = in_hand(session), session.demonstration
    if looking is None:
        return session
    place = max(0, min(len(PACES) - 1, PACES.index(looking.pace) + step))
    session = LOOKING.put(session, replace(looking, pace=PACES[place]))
    if playing is None or playing.finished(now):
        return session
    return replace(session, demonstration=playing.at_pace(float(PACES[place]), now))


def asking(session: Session, now: float) -> str:
    """The piece that the question is about now, ``corner`` or ``edge``; empty without a question."""
    looking, playing = in_hand(session), session.demonstration
    if looking is None:
        return ""
    if looking.watch is RoundPhase.EDGE:
        return "edge"
    over = playing is not None and playing.finished(now)
    return "corner" if looking.watch is RoundPhase.PLAYING and over else ""


def pointed(session: Session, sticker: int, now: float) -> Session:
    """The session with a sticker as the answer; one of the wrong kind of piece is no answer."""
    cubie = cubie_number(STICKERS[sticker][0])
    kind = asking(session, now)
    kinds = {"corner": CORNER_CUBIES, "edge": EDGE_CUBIES}
    return _answered(session, cubie) if kind and cubie in kinds[kind] else session


def chosen(session: Session, index: int, now: float) -> Session:
    """The session with one of the places offered, counted from 0, as the answer."""
    offered = places(session, now)
    return _answered(session, offered[index][1]) if 0 <= index < len(offered) else session


def _answered(session: Session, cubie: int) -> Session:
    looking = in_hand(session)
    pieces = None if looking is None else looking.pieces(looking.end)
    if looking is None or pieces is None:
        return session
    given = len(looking.pointed)
    looking = replace(
        looking,
        watch=RoundPhase.TOLD if given else RoundPhase.EDGE,
        pointed=(*looking.pointed, cubie),
        asked=looking.asked + (not looking.again),
        right=looking.right + (cubie == pieces[given] and not looking.again),
    )
    return LOOKING.put(replace(session, demonstration=None), looking)


def places(session: Session, now: float) -> tuple[tuple[str, int], ...]:
    """Where the piece asked for can be, in words, with the cubie: on top, or in an unsolved slot."""
    looking, kind = in_hand(session), asking(session, now)
    if looking is None or not kind:
        return ()
    corner = kind == "corner"
    cubies, faces = (CORNER_CUBIES, CORNER_FACES) if corner else (EDGE_CUBIES, EDGE_FACES)
    open_slots = [slot for slot in SLOTS if not looking.end.position.pair_home(slot)]
    numbers = [*range(4), *(slot.corner if corner else slot.edge for slot in open_slots)]
    return tuple((capitalised(words.place(faces[number])), cubies[number]) for number in numbers)
