"""A whole solve as a small text for a file: where it began, its moves, and the time of each.

For example::

    Pairwright whole solve, form 2
    cross: w
    scramble: R U2 F'
    start: U: www www www D: yyy ... (six faces, as ``tutor.cube.sticker_text`` writes them)
    moves: z2 F R' D2
    times: 0.50 3.10 4.00 5.25
    pairs: - - go go

Times are in seconds from the beginning, one for each move. Pairs are those that the moves were made for, by
the letters of their two side colours; ``-`` stands for the cross. Form 1 had none.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypeVar

from msgspec import Struct

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube, length
from tutor.cube.notation import Move, format_moves, parse_moves
from tutor.cube.sticker_text import COLOUR_LETTERS, format_stickers, parse_stickers
from tutor.quoting import ToldError
from tutor.screens.solve import words
from tutor.session.cube_text import face_lines, read_cube
from tutor.session.target import Pair, cross_hold

HEADING = "Pairwright whole solve, form 2"
FORMER_HEADING = "Pairwright whole solve, form 1"
"""Without pairs."""
MOST_MOVES = 5000
_KEYS = ("cross", "scramble", "start", "moves", "times", "pairs")
_FOR_CROSS = "-"
_T = TypeVar("_T")


class SavedSolveError(ToldError):
    """A text that is no whole solve; ``line`` counts from 1."""

    def __init__(self, line: int, message: str) -> None:
        self.line, self.message = line, message
        super().__init__(words.line_problem(line, message))


class SavedSolve(Struct, frozen=True):
    """A whole solve: the cube it began from, the cross colour, how the start came about, moves and times.

    ``pairs`` are those that the moves were made for, None for the cross; empty where they are not known.
    """

    start: HeldCube
    cross: Face
    scramble: str
    moves: tuple[Move, ...]
    times: tuple[float, ...]
    pairs: tuple[Pair | None, ...] = ()

    @property
    def turns(self) -> int:
        """Turns made; rotations count none (WCA 12a5)."""
        return length(self.moves)

    @property
    def seconds(self) -> float:
        """From the beginning to the last move."""
        return self.times[-1] if self.times else 0.0

    @property
    def two_layers_home(self) -> bool:
        """Whether two layers are solved at its end."""
        cube = self.start.after(self.moves)
        return cube.rotated(cross_hold(cube, self.cross)).position.two_layers_home


class ShelfEntry(Struct, frozen=True):
    """A saved solve with the name of its file and when it was saved, as people write it."""

    name: str
    when: str
    solve: SavedSolve


class Shelf(Struct, frozen=True):
    """The saved solves, the latest first, and the names of files that could not be read."""

    entries: tuple[ShelfEntry, ...] = ()
    damaged: tuple[str, ...] = ()
    choosing: bool = False
    """Whether the learner is choosing solves to delete."""
    asked: str = ""
    """The one that the learner is about to delete; empty when there is none."""

    def named(self, name: str) -> ShelfEntry | None:
        """The entry of this name."""
        return next((entry for entry in self.entries if entry.name == name), None)


def format_saved(solve: SavedSolve) -> str:
    """The text of a solve."""
    faces = " ".join(format_stickers(solve.start.colours).splitlines())
    values = (
        COLOUR_LETTERS[solve.cross],
        solve.scramble,
        faces,
        format_moves(solve.moves),
        " ".join(f"{time:.2f}" for time in solve.times),
        " ".join(map(_pair_text, solve.pairs)),
    )
    lines = [f"{key}: {value}".rstrip() for key, value in zip(_KEYS, values, strict=True)]
    return "\n".join((HEADING, *lines, ""))


def parse_saved(text: str) -> SavedSolve:
    """The solve in a text.

    Raises SavedSolveError, which names the line and what would be right.
    """
    lines = text.splitlines()
    if not lines or lines[0] not in (HEADING, FORMER_HEADING):
        raise SavedSolveError(1, words.begins_with(HEADING))
    keys = _KEYS if lines[0] == HEADING else _KEYS[:-1]
    values: list[str] = []
    for number, key in enumerate(keys, start=2):
        line = lines[number - 1] if number <= len(lines) else ""
        name, colon, value = line.partition(":")
        if name != key or not colon:
            raise SavedSolveError(number, words.expected(key))
        values.append(value.strip())
    if any(line.strip() for line in lines[len(keys) + 1 :]):
        raise SavedSolveError(len(keys) + 2, words.nothing_follows(keys[-1]))
    return _checked(*values)


def _checked(cross: str, scramble: str, start: str, moves: str, times: str, pairs: str = "") -> SavedSolve:
    """The solve of these values, with one time for each move and a pair for each or for none."""
    read = SavedSolve(
        _read(4, lambda: read_cube(parse_stickers(face_lines(start)))),
        _read(2, lambda: _colour(cross)),
        _read(3, lambda: format_moves(parse_moves(scramble)) if scramble else ""),
        _read(5, lambda: _moves(moves)),
        _read(6, lambda: _times(times)),
        _read(7, lambda: tuple(map(_pair, pairs.split()))),
    )
    if len(read.times) != len(read.moves):
        raise SavedSolveError(6, words.times_and_moves(len(read.times), len(read.moves)))
    if read.pairs and len(read.pairs) != len(read.moves):
        raise SavedSolveError(7, words.pairs_and_moves(len(read.pairs), len(read.moves)))
    return read


def _read(line: int, value: Callable[[], _T]) -> _T:
    try:
        return value()
    except ValueError as error:
        raise SavedSolveError(line, str(error)) from error


def _pair_text(pair: Pair | None) -> str:
    return _FOR_CROSS if pair is None else "".join(COLOUR_LETTERS[face] for face in sorted(pair))


def _pair(text: str) -> Pair | None:
    if text == _FOR_CROSS:
        return None
    pair = frozenset(map(_colour, text))
    if len(pair) != 2:
        raise ValueError(words.PAIR_LETTERS)
    return pair


def _colour(letter: str) -> Face:
    if len(letter) != 1 or letter not in COLOUR_LETTERS:
        raise ValueError(words.colour_letter(COLOUR_LETTERS))
    return Face(COLOUR_LETTERS.index(letter))


def _moves(text: str) -> tuple[Move, ...]:
    moves = parse_moves(text) if text else ()
    if len(moves) > MOST_MOVES:
        raise ValueError(words.too_many_moves(MOST_MOVES, len(moves)))
    return moves


def _times(text: str) -> tuple[float, ...]:
    times = tuple(float(part) for part in text.split())
    if any(not math.isfinite(time) or time < 0 for time in times) or list(times) != sorted(times):
        raise ValueError(words.TIMES_WRONG)
    return times
