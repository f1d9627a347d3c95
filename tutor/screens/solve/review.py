"""A look back on the whole solve in hand: its turns in one frame, what is known of them, and as text."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from tutor.coach.solve_review import (
    Leg,
    LegReading,
    Pause,
    SolveQuestion,
    SolveReading,
    legs,
    pauses,
)
from tutor.coach.solve_review_sentences import leg_name
from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube, face_turns
from tutor.cube.notation import Move, Rotation, format_moves
from tutor.cube.position import SLOTS
from tutor.cube.symmetry import Symmetry
from tutor.screens.solve import words
from tutor.screens.solve.saved import SavedSolve, ShelfEntry
from tutor.screens.solve.state import SolvePlay
from tutor.session.cube_text import position_text
from tutor.session.demonstration import Demonstration
from tutor.session.history import History
from tutor.session.house import Session
from tutor.session.state import Attempt
from tutor.session.target import Aim, Pair, aim_at, colours_as_held, cross_hold, pair_of
from tutor.solver.task import Task


class Course(Struct, frozen=True):
    """The turns of a solve, all named as if it had been held as at its start, with the cross down.

    ``hold`` brings the start as held to where the cross is down; ``moves`` holds, for each turn, how many
    moves of the history came before it; ``times`` when it was made, in seconds from the beginning.
    """

    start: HeldCube
    hold: Symmetry
    turns: tuple[Turn, ...]
    moves: tuple[int, ...]
    times: tuple[float, ...]
    written: tuple[str, ...]
    aims: tuple[Aim | None, ...]

    @property
    def cube(self) -> HeldCube:
        """The start with the cross down."""
        return self.start.rotated(self.hold)

    @property
    def question(self) -> SolveQuestion:
        """The question about it for the solver."""
        return SolveQuestion(self.cube.position, self.turns, tuple(map(self._task, self.aims)))

    def _task(self, aim: Aim | None) -> Task | None:
        """An aim as a task in the frame of the turns; None for one that was for another cross."""
        if aim is None or self.cube.face_of(aim.cross) is not Face.D:
            return None
        return aim.bearing(self.cube).task

    @property
    def legs(self) -> tuple[Leg, ...]:
        """Its legs, which need no solver."""
        return legs(self.cube.position, self.turns)

    @property
    def pauses(self) -> tuple[Pause, ...]:
        """Its longest pauses."""
        return pauses(self.times)

    def as_held(self, turns: tuple[Turn, ...]) -> tuple[Turn, ...]:
        """Turns named with the cross down, named as the start is held."""
        return self.hold.inverse.turns(turns)

    def seconds(self, leg: Leg) -> float:
        """From the turn before a leg (or its own first turn, for the first leg) to its last."""
        if not leg.made:
            return 0.0
        return self.times[leg.end - 1] - self.times[max(0, leg.begin - 1)]

    def move_at(self, turn: int) -> int:
        """How many moves of the history come before the turn with this index, or before the end."""
        return self.moves[turn] if turn < len(self.moves) else self.moves[-1] + 1

    def leg_of(self, turn: int) -> Leg | None:
        """The leg that a turn belongs to."""
        return next((leg for leg in self.legs if leg.begin <= turn < leg.end), None)


def moves_counted(solve: SolvePlay) -> int:
    """How many moves of the history belong to the solve: up to its end, or else up to now."""
    return solve.attempt.history.cursor if solve.ended is None else solve.ended


def course_of(solve: SolvePlay) -> Course:
    """The solve's turns in one frame."""
    entries = solve.attempt.history.entries[: moves_counted(solve)]
    start = solve.attempt.history.start
    hold = cross_hold(start, solve.cross)
    turns, _ = face_turns(entry.move for entry in entries)
    moves = tuple(index for index, entry in enumerate(entries) if not isinstance(entry.move, Rotation))
    times = tuple(solve.times[index] - solve.began for index in moves)
    written = tuple(entries[index].move.notation for index in moves)
    aims = tuple(solve.aims[index] for index in moves)
    return Course(start, hold, hold.turns(turns), moves, times, written, aims)


def reading_of(session: Session, course: Course) -> SolveReading | None:
    """The review of a course, once it is known."""
    return session.advices.review(course.question)


def course_colours(session: Session, course: Course) -> tuple[str, ...]:
    """The colour words of the faces in the frame of a course."""
    return colours_as_held(course.cube, session.settings.colour_names)


def end_of(solve: SolvePlay, start: int) -> int | None:
    """After how many moves, ``start`` at least, two layers were solved for the first time."""
    history = solve.attempt.history
    for count in range(start, len(history.entries) + 1):
        cube = history.cube_at(count)
        if cube.rotated(cross_hold(cube, solve.cross)).position.two_layers_home:
            return count
    return None


# ----------------------------------------------------------------------------------- shown, kept, written


def shown_slowly(solve: SolvePlay, now: float) -> Demonstration | None:
    """The whole solve shown again, held as at its start, with a rest at the end of each leg."""
    course = course_of(solve)
    if not course.turns:
        return None
    rests = frozenset(leg.end for leg in course.legs)
    held = course.as_held(course.turns)
    return Demonstration(course.start, held, (None,) * len(held), rests, now, twice=False)


def fewest_shown(session: Session, solve: SolvePlay, number: int, now: float) -> Demonstration | None:
    """A shortest line from where a leg was begun; None where none is known, or the review not yet."""
    course = course_of(solve)
    reading = reading_of(session, course)
    if reading is None or not 0 <= number < len(reading.legs):
        return None
    each = reading.legs[number]
    if each.line is None:
        return None
    start, held = leg_start(solve, course, each.leg), best_turns(solve, course, each)
    return Demonstration(start, held, (None,) * len(held), frozenset({len(held)}), now, twice=False)


def leg_start(solve: SolvePlay, course: Course, leg: Leg) -> HeldCube:
    """The cube where a leg was begun, as it was held then."""
    return solve.attempt.history.cube_at(course.move_at(leg.begin))


def best_turns(solve: SolvePlay, course: Course, reading: LegReading) -> tuple[Turn, ...]:
    """The best turns of a leg, named as the cube was held where it was begun; none where none are known."""
    start = leg_start(solve, course, reading.leg)
    return tuple(
        Turn.of(start.face_of(course.cube.colour_of(turn.face)), turn.quarters) for turn in reading.line or ()
    )


def saved(solve: SolvePlay) -> SavedSolve:
    """The solve as the program saves it."""
    count = moves_counted(solve)
    history = solve.attempt.history
    moves: tuple[Move, ...] = tuple(entry.move for entry in history.entries[:count])
    times = tuple(max(0.0, time - solve.began) for time in solve.times[:count])
    pairs = tuple(None if aim is None else aim.pair for aim in solve.aims[:count])
    return SavedSolve(history.start, solve.cross, solve.scramble, moves, times, pairs)


def reopened(entry: ShelfEntry, now: float) -> SolvePlay:
    """A saved solve in hand again, at its end; its time continues from its last move."""
    kept = entry.solve
    history = History(kept.start).extended(kept.moves)
    began = now - kept.seconds
    times = tuple(began + time for time in kept.times)
    aims = _aims(history, kept)
    solve = SolvePlay(Attempt(history), kept.cross, kept.scramble, began, times, aims, name=entry.name)
    return replace(solve, ended=end_of(solve, 0))


def _aims(history: History, kept: SavedSolve) -> tuple[Aim | None, ...]:
    """What the moves were made for: each pair as it was chosen before the first of its moves."""
    aims: list[Aim | None] = []
    for index in range(len(kept.moves)):
        pair = kept.pairs[index] if kept.pairs else None
        same = index > 0 and kept.pairs[index - 1] == pair if pair else False
        aims.append(aims[-1] if same else _aim(history.cube_at(index), kept.cross, pair))
    return tuple(aims)


def _aim(cube: HeldCube, cross: Face, pair: Pair | None) -> Aim | None:
    """The pair as an aim on the cube before its first move; None where it could not be chosen there."""
    held = cube.rotated(cross_hold(cube, cross))
    if pair is None or not held.position.cross_home:
        return None
    slot = next((each for each in SLOTS if pair_of(held, each) == pair), None)
    return None if slot is None or held.position.pair_home(slot) else aim_at(cube, cross, slot)


def notation_text(session: Session, solve: SolvePlay) -> str:
    """The solve as plain text: where it began, then leg by leg the moves as they were made."""
    course = course_of(solve)
    colours = course_colours(session, course)
    lines = [words.text_title(session.settings.colour_names[solve.cross])]
    if solve.scramble:
        lines.append(words.text_scramble(solve.scramble))
    lines += [words.TEXT_START, position_text(course.start)]
    entries = solve.attempt.history.entries[: moves_counted(solve)]
    done = 0
    for leg in course.legs:
        end = course.move_at(leg.end - 1) + 1 if leg.made else done
        moves = format_moves(entry.move for entry in entries[done:end])
        lines.append(words.text_leg(leg_name(leg, colours), leg.made, moves))
        done = end
    lines.append(words.text_total(len(course.turns)))
    return "\n".join(lines) + "\n"
