"""What the commands of whole solves do beyond turning: save, show, reopen, go to other screens."""

from __future__ import annotations

from typing import Literal, assert_never

from msgspec.structs import replace

from tutor.screens.free_play.commands import PlayFrom
from tutor.screens.looking_ahead.commands import LookAheadFrom
from tutor.screens.solve import solving, words
from tutor.screens.solve.commands import (
    NAME,
    ChooseCross,
    DeleteSolve,
    DropSolve,
    Own,
    Reopen,
    ShowFewest,
    ShowTurns,
    SolveAct,
    SolveFrom,
    SolveKept,
    SolvesFound,
)
from tutor.screens.solve.review import fewest_shown, notation_text, reopened, saved, shown_slowly
from tutor.screens.solve.state import SHELF, SOLVE, SolvePlay
from tutor.screens.solve.upkeep import keep
from tutor.session.commands import Copy
from tutor.session.cube_text import position_text
from tutor.session.house import Session, Update
from tutor.session.navigation import opened
from tutor.session.playback import put_on
from tutor.session.state import Writing
from tutor.session.update import done as carried_out
from tutor.ui.view import REST_CAMERA


def done(session: Session, command: Own, now: float) -> Update:
    """Carry out a command of whole solves."""
    match command:
        case SolveFrom(cube):
            return solving.begun(opened(session, NAME, now), cube, "", now), ()
        case SolveAct():
            return _act(session, command, now)
        case ChooseCross():
            return solving.cross_chosen(session, command, now), ()
        case ShowTurns():
            return solving.turns_shown(session, command, now), ()
        case ShowFewest():
            return _fewest(session, command, now), ()
        case Reopen():
            return _reopened(session, command, now), ()
        case DeleteSolve():
            return _deleted(session, command)
        case SolveKept():
            return _kept(session, command)
        case SolvesFound():
            return _found(session, command), ()
        case _:
            assert_never(command)


def _act(session: Session, act: SolveAct, now: float) -> Update:
    if act is SolveAct.DELETE_SOME:
        return _deleting(session), ()
    solve = solving.in_hand(session)
    if solve is None:
        return session, ()
    match act:
        case SolveAct.KEEP:
            return keep(session, solve)
        case SolveAct.NEW_SOLVE:
            return SOLVE.put(replace(session, demonstration=None, writing=Writing(), notice=""), None), ()
        case SolveAct.CROSS_LINES:
            return SOLVE.put(session, replace(solve, lines_shown=not solve.lines_shown)), ()
        case SolveAct.MORE_CHOICES:
            return SOLVE.put(session, replace(solve, choices_open=not solve.choices_open)), ()
        case SolveAct.LEAVE_PAIR:
            return solving.left(session), ()
        case SolveAct.COPY_POSITION | SolveAct.COPY_SCRAMBLE | SolveAct.COPY_NOTATION:
            return _copied(session, solve, act)
        case SolveAct.SHOW_SLOWLY:
            return put_on(session, solve.attempt, shown_slowly(solve, now), now), ()
        case SolveAct.TO_FREE_PLAY:
            return carried_out(session, PlayFrom(solve.attempt.cube), now)
        case SolveAct.LOOK_AHEAD:
            return carried_out(session, LookAheadFrom(solve.attempt.cube, solve.cross), now)
        case _:
            assert_never(act)


Copies = Literal[SolveAct.COPY_POSITION, SolveAct.COPY_SCRAMBLE, SolveAct.COPY_NOTATION]


def _copied(session: Session, solve: SolvePlay, act: Copies) -> Update:
    """A text of the solve on the clipboard; without one nothing happens."""
    match act:
        case SolveAct.COPY_POSITION:
            text = position_text(solve.attempt.cube, session.settings.look.arrangement)
        case SolveAct.COPY_SCRAMBLE:
            text = solve.scramble
        case SolveAct.COPY_NOTATION:
            text = notation_text(session, solve)
        case _:
            assert_never(act)
    return (replace(session, notice=words.COPIED), (Copy(text),)) if text else (session, ())


def _fewest(session: Session, command: ShowFewest, now: float) -> Session:
    solve = solving.in_hand(session)
    if solve is None:
        return session
    return put_on(session, solve.attempt, fewest_shown(session, solve, command.leg, now), now)


def _reopened(session: Session, command: Reopen, now: float) -> Session:
    entry = SHELF.of(session).named(command.name)
    if entry is None:
        return session
    session = replace(opened(session, NAME, now), writing=Writing(), camera=REST_CAMERA)
    return SOLVE.put(session, reopened(entry, now))


def _kept(session: Session, command: SolveKept) -> Update:
    """The answer for a solve; one that came to its end meanwhile is saved once more, as it is now."""
    solve = SOLVE.of(session)
    if solve is None or solve.began != command.began:
        return replace(session, notice=command.problem or session.notice), ()
    ended = solve.ended is not None and solve.saving not in (None, saved(solve))
    solve = replace(solve, name=command.name or solve.name, saving=None)
    session = SOLVE.put(replace(session, notice=command.problem or words.KEPT), solve)
    return keep(session, solve) if ended else (session, ())


def _deleting(session: Session) -> Session:
    """The saved solves to choose from, or to open again."""
    shelf = SHELF.of(session)
    return SHELF.put(session, replace(shelf, choosing=not shelf.choosing, asked=""))


def _deleted(session: Session, command: DeleteSolve) -> Update:
    """Ask about a saved solve; asked about already, delete it when that is sure, else it stays."""
    shelf = SHELF.of(session)
    asked = command.name == shelf.asked
    if not shelf.choosing or shelf.named(command.name) is None or (command.sure and not asked):
        return session, ()
    session = SHELF.put(session, replace(shelf, asked="" if asked else command.name))
    return session, (DropSolve(command.name, session.records.learner),) if asked and command.sure else ()


def _found(session: Session, command: SolvesFound) -> Session:
    if command.learner != session.records.learner:
        return session
    choosing = SHELF.of(session).choosing and bool(command.shelf.entries)
    asked = SHELF.of(session).asked if command.shelf.named(SHELF.of(session).asked) is not None else ""
    session = SHELF.put(session, replace(command.shelf, choosing=choosing, asked=asked))
    return replace(session, notice=command.problem) if command.problem else session
