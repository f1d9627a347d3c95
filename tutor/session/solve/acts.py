"""What the commands of whole solves do beyond turning: keeping, showing, reopening, going elsewhere."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from tutor.session import play, screens
from tutor.session.commands import Draw, Effect
from tutor.session.demonstration import Demonstration
from tutor.session.solve import looking_ahead, solving
from tutor.session.solve.commands import (
    Advised,
    ChooseCross,
    Copy,
    DeleteSolve,
    DropSolve,
    KeepSolve,
    Reopen,
    ShowFewest,
    ShowTurns,
    SolveAct,
    SolveKept,
    SolvesFound,
)
from tutor.session.solve.review import fewest_shown, notation_text, reopened, saved, shown_slowly
from tutor.session.state import Session, SolvePlay, Writing
from tutor.ui.view import REST_CAMERA, Screen

Update = tuple[Session, tuple[Effect, ...]]
KEPT = "This solve is kept: you find it under Whole solves."


def _with_solve(act: Callable[[Session, SolvePlay, float], Session | Update]) -> Any:
    """An act on the solve on the screen; without one nothing happens."""

    def change(session: Session, now: float) -> Session | Update:
        solve = solving.in_hand(session)
        return session if solve is None else act(session, solve, now)

    return change


def _keep(session: Session, solve: SolvePlay, _now: float) -> Update:
    return session, (KeepSolve(solve.began, solve.name, saved(solve)),)


def _copy(session: Session, solve: SolvePlay, _now: float) -> Update:
    return replace(session, notice=solving.COPIED), (Copy(notation_text(session, solve)),)


def _slowly(session: Session, solve: SolvePlay, now: float) -> Session:
    return shown(session, solve, shown_slowly(solve, now), now)


def shown(session: Session, solve: SolvePlay, what: Demonstration | None, now: float) -> Session:
    """The session with turns being shown on the cube of the solve."""
    if what is None:
        return session
    session = play.at_once(session, solve.attempt.cube, now)
    return replace(session, faded_from=None, demonstration=what)


def _fewest(session: Session, command: ShowFewest, now: float) -> Session:
    solve = solving.in_hand(session)
    if solve is None:
        return session
    return shown(session, solve, fewest_shown(session, solve, command.leg, now), now)


def _reopened(session: Session, command: Reopen, now: float) -> Session:
    entry = session.shelf.named(command.name)
    if entry is None:
        return session
    session = screens.opened(session, Screen.SOLVE, now)
    solve = reopened(entry, now)
    return replace(session, solve=solve, writing=Writing(), camera=REST_CAMERA)


def _kept(session: Session, command: SolveKept, _now: float) -> Session:
    solve = session.solve
    if command.problem:
        return replace(session, notice=command.problem)
    if solve is None or solve.began != command.began:
        return session
    return replace(session, solve=replace(solve, name=command.name), notice=KEPT)


def _deleting(session: Session, _now: float) -> Session:
    """The saved solves to choose from, or to open again."""
    shelf = session.shelf
    return replace(session, shelf=replace(shelf, choosing=not shelf.choosing, asked=""))


def _deleted(session: Session, command: DeleteSolve, _now: float) -> Session | Update:
    """Ask about a saved solve; asked about already, delete it when that is sure, else it stays."""
    shelf = session.shelf
    asked = command.name == shelf.asked
    if not shelf.choosing or shelf.named(command.name) is None or (command.sure and not asked):
        return session
    session = replace(session, shelf=replace(shelf, asked="" if asked else command.name))
    return (session, (DropSolve(command.name),)) if asked and command.sure else session


def _found(session: Session, command: SolvesFound, _now: float) -> Session:
    choosing = session.shelf.choosing and bool(command.shelf.entries)
    asked = session.shelf.asked if command.shelf.named(session.shelf.asked) is not None else ""
    session = replace(session, shelf=replace(command.shelf, choosing=choosing, asked=asked))
    return replace(session, notice=command.problem) if command.problem else session


def _from_free_play(session: Session, now: float) -> Session:
    """A whole solve from the cube of free play."""
    if session.screen is not Screen.FREE_PLAY:
        return session
    cube = session.free.cube
    return solving.begun(screens.opened(session, Screen.SOLVE, now), cube, "", now)


def _scramble_all(session: Session, _now: float) -> Session | Update:
    if session.screen is not Screen.FREE_PLAY:
        return session
    request = session.draw_request + 1
    return replace(session, draw_request=request), (Draw(request),)


_ACTS: dict[SolveAct, Callable[[Session, float], Session | Update]] = {
    SolveAct.KEEP: _with_solve(_keep),
    SolveAct.COPY_NOTATION: _with_solve(_copy),
    SolveAct.SHOW_SLOWLY: _with_solve(_slowly),
    SolveAct.SCRAMBLE_ALL: _scramble_all,
    SolveAct.FROM_FREE_PLAY: _from_free_play,
    SolveAct.LOOK_AHEAD: looking_ahead.from_solve,
    SolveAct.LOOK_AHEAD_ANEW: lambda session, _now: looking_ahead.from_chance(session),
    SolveAct.SEE_AGAIN: looking_ahead.seen_again,
    SolveAct.QUICKER: lambda session, now: looking_ahead.paced(session, 1, now),
    SolveAct.ASK_AGAIN: lambda session, _now: replace(session, advices=session.advices.anew()),
    SolveAct.CALMER: lambda session, now: looking_ahead.paced(session, -1, now),
    SolveAct.DELETE_SOME: _deleting,
}

SOLVE_HANDLERS: dict[type, Callable[[Session, Any, float], Session | Update]] = {
    SolveAct: lambda session, command, now: _ACTS[command](session, now),
    ChooseCross: lambda session, command, now: solving.cross_chosen(session, command, now),
    ShowTurns: lambda session, command, now: solving.turns_shown(session, command, now),
    ShowFewest: _fewest,
    Reopen: _reopened,
    DeleteSolve: _deleted,
    Advised: lambda session, command, _now: replace(
        session, advices=session.advices.received(command.request, command.answer)
    ),
    SolveKept: _kept,
    SolvesFound: _found,
}
"""What each kind of command of whole solves does."""
