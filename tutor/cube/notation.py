"""Written moves: notation of WCA Regulations Article 12a, read and written.

Read: face turns (12a1), wide turns with two layers (12a2), rotations (12a4), and, as a convenience, brackets
with a repeat count as in ``(R U R' U')3``. Moves are set apart by spaces. Typographic primes are understood.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from enum import IntEnum
from typing import TypeVar

from msgspec import Struct

from tutor.cube import words
from tutor.cube.faces import SUFFIXES, Face, Turn
from tutor.cube.symmetry import IDENTITY, Symmetry, quarter_about
from tutor.quoting import ToldError, quotable

PRIMES = "'’‘′ʹ´`＇"
"""Characters understood as a prime; the first is the one written."""

LONGEST = 10_000
"""Most moves one text may stand for, repeats counted."""
DEEPEST = 20
"""Most brackets inside one another."""


class NotationError(ToldError):
    """A text that is not notation: where it goes wrong, and what would be right.

    ``text`` is the whole input, ``offending`` the part at fault, ``column`` its first column counted from 1,
    ``advice`` what would be right.
    """

    def __init__(self, text: str, offending: str, column: int, advice: str) -> None:
        self.text, self.offending, self.column, self.advice = text, offending, column, advice
        super().__init__(words.notation_problem(column, quotable(offending), advice))


class Axis(IntEnum):
    """The axis of a whole-cube rotation; the value is the face it turns like (12a4)."""

    X = Face.R
    Y = Face.U
    Z = Face.F


class WideTurn(Struct, frozen=True):
    """Two layers turned together by 1, 2 or 3 clockwise quarters, counted from ``face`` (12a2)."""

    face: Face
    quarters: int

    def __post_init__(self) -> None:
        _check_quarters(self.quarters)

    @property
    def notation(self) -> str:
        """As written, for example ``Rw'``."""
        return f"{self.face.name}w{SUFFIXES[self.quarters - 1]}"

    @property
    def inverse(self) -> WideTurn:
        """The move that takes this one back."""
        return WideTurn(self.face, 4 - self.quarters)


class Rotation(Struct, frozen=True):
    """The whole cube turned by 1, 2 or 3 clockwise quarters (12a4)."""

    axis: Axis
    quarters: int

    def __post_init__(self) -> None:
        _check_quarters(self.quarters)

    @property
    def notation(self) -> str:
        """As written, for example ``y2``."""
        return self.axis.name.lower() + SUFFIXES[self.quarters - 1]

    @property
    def inverse(self) -> Rotation:
        """The move that takes this one back."""
        return Rotation(self.axis, 4 - self.quarters)

    @property
    def symmetry(self) -> Symmetry:
        """What the rotation does to the cube as held."""
        return quarter_about(Face(self.axis), self.quarters)


def rotations_to(symmetry: Symmetry) -> tuple[Rotation, ...]:
    """The fewest rotations of the whole cube, two at most, that bring it about; it must be no reflection."""
    single = tuple(Rotation(axis, quarters) for axis in Axis for quarters in (1, 2, 3))
    ways: tuple[tuple[Rotation, ...], ...] = (
        (),
        *((one,) for one in single),
        *((one, two) for one in single for two in single),
    )
    return next(way for way in ways if _together(way) == symmetry)


def _together(rotations: tuple[Rotation, ...]) -> Symmetry:
    reached = IDENTITY
    for rotation in rotations:
        reached = rotation.symmetry @ reached
    return reached


def _check_quarters(quarters: int) -> None:
    if quarters not in (1, 2, 3):
        raise ValueError(f"a move turns by 1, 2 or 3 quarters, not by {quarters}")


Move = Turn | WideTurn | Rotation
Read = TypeVar("Read", bound=Move)

_MOVE = re.compile(r"(?:2?(?P<wide>[UDLRFB])w|(?P<face>[UDLRFB])|(?P<axis>[xyz]))(?P<suffix>2|'|)")
# Atomic, because the 2 in Fw2Fw may end one move or begin the next: trying both ways doubles with every move.
_RUN_TOGETHER = re.compile(r"(?>(?:2?[UDLRFB]w|[UDLRFBxyz])[2']?)+")
_TOKEN = re.compile(r"\)(?:[0-9]+[^\s()]*)?|\(|[^\s()]+")
# A letter that belongs to a word, such as the R of “Raise” or what an apostrophe ties to one, is no turn.
_IN_TEXT = re.compile(rf"(?<![\w{PRIMES}])[UDLRFB]w?(?:2|[{PRIMES}])?(?![\w{PRIMES}])")
_QUARTERS = {suffix: count for count, suffix in enumerate(SUFFIXES, start=1)}


def format_moves(moves: Iterable[Move]) -> str:
    """The moves as written, set apart by spaces."""
    return " ".join(move.notation for move in moves)


def turns_named(text: str) -> tuple[str, ...]:
    """The face and wide turns that sentences name, in their order, each as it is written there."""
    return tuple(_IN_TEXT.findall(text))


def parse_moves(text: str) -> tuple[Move, ...]:
    """The moves that ``text`` stands for, brackets written out.

    Raises NotationError, which tells the column and what would be right.
    """
    return _parse(text, _move)


def parse_turns(text: str) -> tuple[Turn, ...]:
    """Like ``parse_moves``, for places where only face turns make sense.

    Raises NotationError for wide turns and rotations too.
    """
    return _parse(text, _face_turn)


def _parse(text: str, read: Callable[[str, str, int], Read]) -> tuple[Read, ...]:
    plain = text.translate({ord(prime): PRIMES[0] for prime in PRIMES})
    stack: list[tuple[int, list[Read]]] = [(0, [])]
    for found in _TOKEN.finditer(plain):
        token, column = found[0], found.start() + 1
        if token == "(":
            if len(stack) > DEEPEST:
                raise NotationError(text, token, column, words.too_many_brackets(DEEPEST))
            stack.append((column, []))
        elif token.startswith(")"):
            _close(text, token, column, stack)
        else:
            stack[-1][1].append(read(text, token, column))
        if len(stack[-1][1]) > LONGEST:
            raise NotationError(text, token, column, words.too_many_moves(LONGEST))
    if len(stack) > 1:
        raise NotationError(text, "(", stack[-1][0], words.NEVER_CLOSED)
    return tuple(stack[0][1])


def _close(text: str, token: str, column: int, stack: list[tuple[int, list[Read]]]) -> None:
    """Add the bracket that ``token`` closes to what surrounds it, as often as its count says."""
    if len(stack) == 1:
        raise NotationError(text, ")", column, words.CLOSES_NOTHING)
    _, inner = stack.pop()
    if not inner:
        raise NotationError(text, ")", column, words.EMPTY_BRACKET)
    count = token[1:] or "1"
    if re.fullmatch("[0-9]+", count) is None:
        raise NotationError(text, token, column, words.SPACE_AFTER_COUNT)
    significant = count.lstrip("0")
    if not significant:
        raise NotationError(text, token, column, words.COUNT_TOO_SMALL)
    # Digits are counted before they are read: reading a number of a million digits takes long.
    if len(significant) > len(str(LONGEST)) or len(inner) * int(significant) > LONGEST:
        raise NotationError(text, token, column, words.too_many_moves(LONGEST))
    stack[-1][1].extend(inner * int(significant))


def _move(text: str, token: str, column: int) -> Move:
    found = _MOVE.fullmatch(token)
    if found is None:
        raise NotationError(text, _original(text, token, column), column, _advice(token))
    quarters = _QUARTERS[found["suffix"]]
    if found["axis"]:
        return Rotation(Axis[found["axis"].upper()], quarters)
    if found["wide"]:
        return WideTurn(Face[found["wide"]], quarters)
    return Turn.of(Face[found["face"]], quarters)


def _face_turn(text: str, token: str, column: int) -> Turn:
    move = _move(text, token, column)
    if not isinstance(move, Turn):
        raise NotationError(text, _original(text, token, column), column, words.ONLY_FACE_TURNS)
    return move


def _original(text: str, token: str, column: int) -> str:
    """The token as it was typed, before typographic primes were made plain."""
    return text[column - 1 : column - 1 + len(token)]


_MOVE_ASTRAY: tuple[tuple[str, Callable[[str, str], str]], ...] = (
    (r"(?P<move>2?[UDLRFB]w|[UDLRFBxyz])(2'|'2)", lambda move, _: words.half_turn(move)),
    (r"(?P<move>[UDLRFB])(?P<suffix>2|')w", words.wide_sign_first),
    (r"(2?[UDLRFB]w|[UDLRFBxyz])([0-9]+|'')'*", lambda _, __: words.AFTER_THE_LETTER),
    (r"[0-9]+(?P<move>[UDLRFBudlrfb])w?[0-9']*", lambda move, _: words.two_layers(move.upper())),
    (r"[MESmes][0-9']*", lambda _, __: words.NO_SLICE_TURNS),
    (r"(?P<move>[udlrfb])w?[0-9']*", lambda move, _: words.capital_face(move.upper())),
    (r"(?P<move>[XYZ])[0-9']*", lambda move, _: words.small_rotation(move.lower())),
    (r"(?P<move>[xyz])w.*", lambda move, _: words.no_wide_rotation(move)),
    (r"[0-9]+", lambda _, __: words.NUMBER_ASTRAY),
    (r"[0-9']+", lambda _, __: words.SUFFIX_ASTRAY),
)
"""Patterns a whole token may match and what would be right then, from the most particular to the general."""


def _advice(token: str) -> str:
    """What would be right in place of ``token``, which is no move."""
    if _RUN_TOGETHER.fullmatch(token):
        return words.SPACE_BETWEEN_MOVES
    for pattern, advice in _MOVE_ASTRAY:
        if found := re.fullmatch(pattern, token):
            named = found.groupdict()
            return advice(named.get("move") or "", named.get("suffix") or "")
    return words.A_MOVE
