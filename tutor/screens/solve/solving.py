"""Whole solves: how one begins, which questions go to the solver, and what the learner can do in it."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube, first_hold, reduced
from tutor.cube.notation import NotationError, Rotation, parse_turns, rotations_to
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.symmetry import Symmetry
from tutor.method.advice import CrossQuestion, PairsQuestion, PlanQuestion, ProofQuestion
from tutor.method.plan import PairCost
from tutor.screens.solve import words
from tutor.screens.solve.commands import NAME, ChooseCross, ShowTurns
from tutor.screens.solve.review import course_of
from tutor.screens.solve.state import SOLVE, SolvePlay
from tutor.session import attempts
from tutor.session.commands import Draw, Question
from tutor.session.cube_text import WHITE_ON_TOP, read_start
from tutor.session.demonstration import Demonstration
from tutor.session.history import History
from tutor.session.house import Session, Update
from tutor.session.playback import put_on
from tutor.session.state import Attempt, Writing
from tutor.session.target import Bearing, aim_at, colours_as_held, cross_hold
from tutor.ui.view import REST_CAMERA


class SolveStand(Enum):
    """How far a whole solve is."""

    CROSS = "the learner solves the cross"
    CHOOSING = "the learner chooses a pair"
    PAIR = "the learner solves a pair"
    DONE = "two layers are solved"


class CrossDown(Struct, frozen=True):
    """The cube of a solve as it looks with the cross down: ``hold`` brings it there."""

    hold: Symmetry
    cube: HeldCube

    @property
    def position(self) -> Position:
        """The position with the cross down."""
        return self.cube.position

    def as_held(self, turns: tuple[Turn, ...]) -> tuple[Turn, ...]:
        """Turns named with the cross down, named for the cube as it is held."""
        return self.hold.inverse.turns(turns)


def cross_down(solve: SolvePlay, index: int | None = None) -> CrossDown:
    """The cube now, or after so many moves, with the cross down."""
    cube = solve.attempt.cube if index is None else solve.attempt.history.cube_at(index)
    hold = cross_hold(cube, solve.cross)
    return CrossDown(hold, cube.rotated(hold))


def colour_words(session: Session, down: CrossDown) -> tuple[str, ...]:
    """The colour words of the six faces with the cross down."""
    return colours_as_held(down.cube, session.settings.colour_names)


def stand(solve: SolvePlay) -> SolveStand:
    """How far the solve is. Once it has ended, that stays so, wherever in it the learner looks."""
    if solve.ended is not None:
        return SolveStand.DONE
    position, bearing = cross_down(solve).position, solve.attempt.bearing()
    if bearing is not None and not bearing.task.done(bearing.position):
        return SolveStand.PAIR
    if not position.cross_home:
        return SolveStand.CROSS
    return SolveStand.DONE if len(position.home_pairs) == len(SLOTS) else SolveStand.CHOOSING


def in_hand(session: Session) -> SolvePlay | None:
    """The solve on the screen, if there is one."""
    return SOLVE.of(session) if session.screen == NAME else None


# ------------------------------------------------------------------------------------------- beginning


def begun(session: Session, cube: HeldCube, scramble: str, now: float) -> Session:
    """The session with a solve from a cube, turned to have the cross at the bottom."""
    cross = session.settings.cross
    solve = SolvePlay(Attempt(History(cube.held_for(cross))), cross, scramble, now)
    shown = attempts.at_once(session, cube, now)
    return SOLVE.put(
        replace(shown, demonstration=None, writing=Writing(), notice="", camera=REST_CAMERA), solve
    )


def drawn(session: Session, position: Position, now: float) -> Session:
    """A solve from a random position, held as a scramble is (WCA 4d1) and then with the cross down."""
    return begun(session, HeldCube(position).rotated(WHITE_ON_TOP.symmetry), "", now)


def scrambled(session: Session) -> Update:
    """Ask for a random position."""
    request = session.draw_request + 1
    return replace(session, draw_request=request), (Draw(request),)


def submitted(session: Session, now: float) -> Session:
    """Begin from what was written: a scramble or stickers; with a mistake in it the text stays."""
    try:
        start = read_start(session.writing.text, session.settings.look.arrangement)
    except ValueError as error:
        column = error.column - 1 if isinstance(error, NotationError) else None
        wrong = replace(session.writing, error=str(error), error_column=column)
        return replace(session, writing=wrong)
    return begun(session, start.cube, start.scramble, now)


# ------------------------------------------------------------------------------------- what is asked


def questions(session: Session) -> tuple[Question, ...]:
    """The questions about the solve on the screen, the most needed first."""
    solve = in_hand(session)
    if solve is None:
        return ()
    position = cross_down(solve).position
    match stand(solve):
        case SolveStand.CROSS:
            before = cross_turn(solve)
            asked = () if before is None else (CrossQuestion(before.position),)
            return (CrossQuestion(position), *asked)
        case SolveStand.CHOOSING:
            return (PairsQuestion(position), PlanQuestion(position), ProofQuestion(position))
        case SolveStand.DONE:
            return (course_of(solve).question,)
        case _:
            return ()


def run_of(solve: SolvePlay, index: int) -> Attempt:
    """The attempt as it was while the move with this index was made: its pair, and since when."""
    aim, since = solve.aims[index], index
    while since and solve.aims[since - 1] == aim:
        since -= 1
    return replace(solve.attempt, aim=aim, since=since)


def run_made_last(solve: SolvePlay) -> Attempt:
    """The attempt as it was while the last move was made."""
    last = solve.attempt.history.cursor - 1
    return solve.attempt if last < 0 else run_of(solve, last)


def aimed_as_made(solve: SolvePlay, attempt: Attempt) -> Attempt:
    """The attempt gone back or on: it aims at the pair of the move made last, unless that is solved."""
    last = attempt.history.cursor - 1
    same = attempt.history.entries is solve.attempt.history.entries
    made = run_of(replace(solve, attempt=attempt), last) if same and last >= 0 else attempt
    if made.aim is None or made.done_at(made.history.cursor):
        return replace(attempt, aim=None)
    return made


class CrossTurn(Struct, frozen=True):
    """A turn made for the cross, named in the frame of ``position``, the position before it, cross down."""

    position: Position
    turn: Turn
    cube: HeldCube


def cross_turn(solve: SolvePlay, index: int | None = None) -> CrossTurn | None:
    """The last turn made (or that of an index), when it was one for the cross."""
    history = solve.attempt.history
    last = history.cursor - 1 if index is None else index
    if last < 0 or solve.aims[last] is not None:
        return None
    move = history.entries[last].move
    before = cross_down(solve, last)
    if isinstance(move, Rotation) or before.position.cross_home:
        return None
    return CrossTurn(before.position, before.hold.turn(reduced(move)), before.cube)


# --------------------------------------------------------------------------------- what one can do


def taken_on(session: Session, slot: Slot) -> Session:
    """The session with the pair of a slot chosen."""
    solve = in_hand(session)
    if solve is None or solve.ended is not None:
        return session
    aimed = attempts.aimed(solve.attempt, solve.cross, slot)
    if aimed.aim is None:
        return replace(session, notice=words.cross_first(cross_down(solve).position.cross_edges_home))
    return session.room.with_attempt(replace(session, notice="", demonstration=None), aimed)


def next_slot(session: Session, step: int) -> Session:
    """The session with the next unsolved pair chosen."""
    solve = in_hand(session)
    if solve is None:
        return session
    position = cross_down(solve).position
    slot = attempts.chosen_slot(solve.attempt, solve.cross)
    start = SLOTS.index(slot) if slot is not None else (-1 if step > 0 else 0)
    order = [SLOTS[(start + step * number) % 4] for number in range(1, 5)]
    wanted = next((each for each in order if not position.pair_home(each)), None)
    return session if wanted is None else taken_on(session, wanted)


def costs_now(session: Session) -> tuple[PairCost, ...]:
    """What each unsolved pair costs, the cheapest first; empty while unknown or with nothing to choose."""
    solve = in_hand(session)
    if solve is None or stand(solve) is not SolveStand.CHOOSING:
        return ()
    reading = session.advices.pairs(PairsQuestion(cross_down(solve).position))
    return () if reading is None else reading.costs


def taken_on_by_number(session: Session, index: int) -> Session:
    """The session with the pair chosen that stands at this place of the advice, counted from 0."""
    costs = costs_now(session)
    return taken_on(session, costs[index].slot) if index < len(costs) else session


def cheapest_bearing(session: Session) -> Bearing | None:
    """The pair that costs least, on the cube as it is; None while it is unknown."""
    solve, costs = in_hand(session), costs_now(session)
    if solve is None or not costs:
        return None
    cube = solve.attempt.cube
    return aim_at(cube, solve.cross, costs[0].slot).bearing(cube)


def left(session: Session) -> Session:
    """The session with no pair chosen any more."""
    solve = in_hand(session)
    if solve is None or solve.attempt.aim is None:
        return session
    attempt = replace(solve.attempt, aim=None, since=solve.attempt.history.cursor, rung=0)
    return session.room.with_attempt(replace(session, demonstration=None), attempt)


def cross_chosen(session: Session, command: ChooseCross, now: float) -> Session:
    """The session with another cross colour, and the cube turned to have it at the bottom."""
    solve = in_hand(session)
    if solve is None:
        return session
    attempt = replace(solve.attempt, aim=None, since=solve.attempt.history.cursor, rung=0)
    session = SOLVE.put(session, replace(solve, cross=Face(command.colour), attempt=attempt))
    there = first_hold(Face(command.colour)) @ attempt.cube.viewpoint.inverse
    for rotation in rotations_to(there):
        session = attempts.make(session, rotation, now)
    return session


def turns_shown(session: Session, command: ShowTurns, now: float) -> Session:
    """The session with these turns shown slowly from the cube as it is now."""
    solve = in_hand(session)
    if solve is None:
        return session
    turns = parse_turns(command.turns)
    rests = frozenset({len(turns)})
    shown = Demonstration(solve.attempt.cube, turns, (None,) * len(turns), rests, now, twice=False)
    return put_on(session, solve.attempt, shown, now)
