"""Written moves: notation of WCA Regulations Article 12a, read and written.

Read: face turns (12a1), wide turns with two layers (12a2), rotations (12a4), and, as a convenience, brackets
with a repeat count as in ``(R U R' U')3``. Moves are set apart by spaces. Typographic primes are understood.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

from tutor.cube.faces import SUFFIXES, Face, Turn
from tutor.cube.symmetry import Symmetry, quarter_about

PRIMES = "'’‘′ʹ´`＇"
"""Characters understood as a prime; the first is the one written."""

LONGEST = 10_000
"""Most moves one text may stand for, repeats counted."""
DEEPEST = 20
"""Most brackets inside one another."""


class NotationError(ValueError):
    """A text that is not notation: where it goes wrong, and what would be right.

    ``text`` is the whole input, ``offending`` the part at fault, ``column`` its first column counted from 1,
    ``advice`` what would be right.
    """

    def __init__(self, text: str, offending: str, column: int, advice: str) -> None:
        self.text, self.offending, self.column, self.advice = text, offending, column, advice
        super().__init__(f"column {column}: “{offending}” is not a move here: {advice}")


class Axis(IntEnum):
    """The axis of a whole-cube rotation; the value is the face it turns like (12a4)."""

    X = Face.R
    Y = Face.U
    Z = Face.F


@dataclass(frozen=True, slots=True)
class WideTurn:
    """Two layers turned together, counted from ``face`` (12a2)."""

    face: Face
    quarters: int

    @property
    def notation(self) -> str:
        """As written, for example ``Rw'``."""
        return f"{self.face.name}w{SUFFIXES[self.quarters - 1]}"

    @property
    def inverse(self) -> WideTurn:
        """The move that takes this one back."""
        return WideTurn(self.face, 4 - self.quarters)


@dataclass(frozen=True, slots=True)
class Rotation:
    """The whole cube turned (12a4)."""

    axis: Axis
    quarters: int

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


Move = Turn | WideTurn | Rotation

_MOVE = re.compile(r"(?P<face>[UDLRFB])(?P<wide>w?)(?P<amount>2?|')|(?P<axis>[xyz])(?P<turned>2?|')")
_TOKEN = re.compile(r"\s*(?P<token>\)\s*\d*|\(|[^\s()]+)")
_QUARTERS = {suffix: count for count, suffix in enumerate(SUFFIXES, start=1)}


def format_moves(moves: Iterable[Move]) -> str:
    """The moves as written, set apart by spaces."""
    return " ".join(move.notation for move in moves)


def parse_moves(text: str) -> tuple[Move, ...]:
    """The moves that ``text`` stands for, brackets written out.

    Raises NotationError, which tells the column and what would be right.
    """
    plain = text.translate({ord(prime): "'" for prime in PRIMES})
    stack: list[tuple[int, list[Move]]] = [(0, [])]
    for found in _TOKEN.finditer(plain):
        token, column = found["token"], found.start("token") + 1
        if token == "(":
            if len(stack) > DEEPEST:
                raise NotationError(text, token, column, f"at most {DEEPEST} brackets inside one another")
            stack.append((column, []))
        elif token.startswith(")"):
            _close(text, token, column, stack)
        else:
            stack[-1][1].append(_move(text, token, column))
        if len(stack[-1][1]) > LONGEST:
            raise NotationError(text, token, column, f"a sequence has at most {LONGEST} moves")
    if len(stack) > 1:
        raise NotationError(text, "(", stack[-1][0], "this bracket is never closed; add “)”")
    return tuple(stack[0][1])


def parse_turns(text: str) -> tuple[Turn, ...]:
    """Like ``parse_moves``, for places where only face turns make sense.

    Raises NotationError for wide turns and rotations too.
    """
    moves = parse_moves(text)
    for move in moves:
        if not isinstance(move, Turn):
            column = max(text.find(move.notation), 0) + 1
            raise NotationError(text, move.notation, column, "only turns of one face are possible here")
    return tuple(move for move in moves if isinstance(move, Turn))


def _close(text: str, token: str, column: int, stack: list[tuple[int, list[Move]]]) -> None:
    if len(stack) == 1:
        raise NotationError(text, ")", column, "there is no open bracket; add “(” before it or leave it out")
    digits = token[1:].strip()
    _, inner = stack.pop()
    if len(digits) > len(str(LONGEST)) or len(inner) * int(digits or 1) > LONGEST:
        raise NotationError(text, token, column, f"a sequence has at most {LONGEST} moves")
    if digits and int(digits) == 0:
        raise NotationError(text, token, column, "a repeat count is 1 or more")
    stack[-1][1].extend(inner * int(digits or 1))


def _move(text: str, token: str, column: int) -> Move:
    body = token[1:] if re.fullmatch(r"2[UDLRFB]w.*", token) else token
    found = _MOVE.fullmatch(body)
    if found is None or (body is not token and not found["wide"]):
        original = text[column - 1 : column - 1 + len(token)]
        raise NotationError(text, original, column, _advice(token))
    if found["axis"]:
        return Rotation(Axis[found["axis"].upper()], _QUARTERS[found["turned"]])
    face, quarters = Face[found["face"]], _QUARTERS[found["amount"]]
    return WideTurn(face, quarters) if found["wide"] else Turn.of(face, quarters)


def _advice(token: str) -> str:
    """What would be right in place of ``token``; tried from the most particular to the general."""
    upper = token[0].upper()
    if re.fullmatch(r".w?(2'|'2)", token):
        return f"a half turn has no direction; write {token.replace(chr(39), '')}"
    if re.fullmatch(r"[UDLRFB][2']*w.*", token):
        return f"the w comes first; write {token[0]}w{token.replace('w', '')[1:]}"
    if re.fullmatch(r"[0-9]+[UDLRFB]w?.*", token):
        face = re.sub(r"[0-9]", "", token)[0]
        return f"on this cube a wide turn has two layers; write {face}w or 2{face}w"
    if token[0] in "MES":
        return "slice turns are not in the standard; turn the two outer layers instead"
    if token[0].islower() and upper in "UDLRFB":
        return f"faces are capital letters; write {upper}, or {upper}w for two layers"
    if token[0] in "XYZ":
        return f"rotations are small letters; write {token[0].lower()}"
    if re.fullmatch(r"[UDLRFBxyz]w?[0-9]+'?", token):
        return "after the letter comes nothing, 2 or a prime"
    if re.match(r"[UDLRFBxyz]w?[2']?[UDLRFBxyz0-9]", token):
        return "put a space between moves"
    if token.isdigit():
        return "a number stands right after a closing bracket; elsewhere it means nothing"
    return "a move is one of U D L R F B (with w for two layers) or x y z, then nothing, 2 or a prime"
