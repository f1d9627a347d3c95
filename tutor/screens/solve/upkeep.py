"""What follows any change to a whole solve: when moves were made, whether it has ended, what to save."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.cube.position import SLOTS
from tutor.screens.solve import words
from tutor.screens.solve.commands import NAME, KeepSolve, LookForSolves
from tutor.screens.solve.review import end_of, saved
from tutor.screens.solve.saved import MOST_MOVES
from tutor.screens.solve.solving import SolveStand, cross_down, stand
from tutor.screens.solve.state import SHELF, SOLVE, SolvePlay
from tutor.session import attempts
from tutor.session.effect import Effect
from tutor.session.house import Session, Update
from tutor.session.target import Aim


def kept_up(before: Session, after: Session, now: float) -> Update:
    """The session after a command with all this noted, and the effects that it asks for."""
    solve, old = SOLVE.of(after), SOLVE.of(before)
    effects: tuple[Effect, ...] = ()
    if solve is not None and solve is not old:
        solve = _with_last_pair(_followed(old, solve, now))
        after = SOLVE.put(after, solve)
        if _came_to_its_end(old, solve):
            after, effects = keep(after, solve)
    after = _noted_as_shown(before, after)
    if _on_start_page(after) and not _on_start_page(before):
        effects = (*effects, LookForSolves(after.records.learner))
        after = SHELF.put(after, replace(SHELF.of(after), choosing=False, asked=""))
    return after, effects


def keep(session: Session, solve: SolvePlay) -> Update:
    """Have the solve saved, unless that is under way; a notice says where it is too long to be read again."""
    if solve.saving is not None:
        return session, ()
    whole = saved(solve)
    if len(whole.moves) > MOST_MOVES:
        return replace(session, notice=words.not_saved(MOST_MOVES, len(whole.moves))), ()
    effect = KeepSolve(solve.began, solve.name, whole, session.records.learner)
    return SOLVE.put(session, replace(solve, saving=whole)), (effect,)


def _noted_as_shown(before: Session, after: Session) -> Session:
    """The session after a command, with the pair noted for which turns have just begun to be shown."""
    solve, playing = SOLVE.of(after), after.demonstration
    begins = playing is not None and before.demonstration is None and after.screen == NAME
    if solve is None or not begins or solve.shown == solve.attempt.aim:
        return after
    return SOLVE.put(after, replace(solve, shown=solve.attempt.aim))


def _on_start_page(session: Session) -> bool:
    return session.screen == NAME and SOLVE.of(session) is None


def _came_to_its_end(old: SolvePlay | None, solve: SolvePlay) -> bool:
    """Whether this very solve has just ended, by a turn and not by being opened."""
    same = old is not None and old.began == solve.began and old.ended is None
    return same and solve.ended is not None and solve.ended > 0


def _followed(old: SolvePlay | None, solve: SolvePlay, now: float) -> SolvePlay:
    """The solve with the moment of every move, and whether it has ended."""
    if old is None or old.began != solve.began:
        return replace(solve, ended=end_of(solve, 0))
    if old.attempt.history is not solve.attempt.history:
        solve = replace(solve, lines_shown=False)
    entries, earlier = solve.attempt.history.entries, old.attempt.history.entries
    kept = 0 if old.cross is not solve.cross else len(entries)
    if entries is not earlier:
        pairs = zip(entries, earlier, strict=False)
        same = next((number for number, (new, was) in enumerate(pairs) if new is not was), len(earlier))
        same = min(same, len(entries), len(solve.times))
        solve = replace(
            solve,
            times=(*solve.times[:same], *[now - solve.away] * (len(entries) - same)),
            aims=(*solve.aims[:same], *_aims_from(same, old, solve)),
        )
        kept = min(kept, same)
    unchanged = entries is earlier and old.cross is solve.cross
    if unchanged or (solve.ended is not None and solve.ended <= kept):
        return solve
    if solve.ended is not None:
        # Turned anew from before its end: another solve from here on, and the saved one stays as it is.
        solve = replace(solve, name="")
    return replace(solve, ended=end_of(solve, kept))


def _aims_from(first: int, old: SolvePlay, solve: SolvePlay) -> tuple[Aim | None, ...]:
    """What the moves from ``first`` on were made for: the pair chosen before them, or before the command."""
    attempt = solve.attempt
    return tuple(
        attempt.aim if index >= attempt.since else old.attempt.aim
        for index in range(first, len(attempt.history.entries))
    )


def _with_last_pair(solve: SolvePlay) -> SolvePlay:
    """The solve with its last pair in hand: there is nothing to choose any more."""
    if stand(solve) is not SolveStand.CHOOSING:
        return solve
    position = cross_down(solve).position
    left = [slot for slot in SLOTS if not position.pair_home(slot)]
    if len(left) > 1:
        return solve
    return replace(solve, attempt=attempts.aimed(solve.attempt, solve.cross, left[0]))


def clocked(session: Session, now: float, *, seen: bool) -> Session:
    """The session with the solve's clock stopped while the solve is not on the screen."""
    solve = SOLVE.of(session)
    if solve is None:
        return session
    if not seen and solve.left is None:
        return SOLVE.put(session, replace(solve, left=now))
    if seen and solve.left is not None:
        return SOLVE.put(session, replace(solve, away=solve.away + now - solve.left, left=None))
    return session
