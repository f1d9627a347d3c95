"""Positions and scrambles as plain text: read from a field, written for the clipboard."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from tutor.cube.faces import FACES
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Axis, NotationError, Rotation, format_moves, parse_moves
from tutor.cube.sticker_text import format_stickers, parse_stickers
from tutor.cube.stickers import Fault, IllegalCubeError, Rule, read_stickers
from tutor.cube.symmetry import ROTATIONS
from tutor.session import words

WHITE_ON_TOP = Rotation(Axis.Z, 2)
"""From the first hold (white down, green in front) to the one in which scrambles are made (WCA 4d1)."""

_FACE_NAME = re.compile(r"\s*([UDLRFBudlrfb])\s*:")


def face_lines(text: str) -> str:
    """A text of faces, each after its letter and a colon, with every face on a line of its own."""
    return _FACE_NAME.sub(r"\n\1:", text).strip()


class Start(Struct, frozen=True):
    """A cube that a text describes, as held, and the scramble when it is one."""

    cube: HeldCube
    scramble: str = ""


def for_scramble() -> HeldCube:
    """The solved cube held for a scramble: white on top, green in front (WCA 4d1)."""
    return HeldCube().moved(WHITE_ON_TOP)


def read_start(text: str, arrangement: Sequence[int] = FACES) -> Start:
    """A scramble in notation, or the stickers of six faces, each after its letter and a colon.

    A field has one line, so faces may follow each other in it. The letters are those of the usual names of
    the colours; ``arrangement`` says which of them each colour number has (see ``view.Look``).

    Raises NotationError, StickerTextError or IllegalCubeError, all ValueErrors that say what is wrong.
    """
    if ":" in text:
        usual = parse_stickers(face_lines(text))
        return Start(read_cube(tuple(arrangement.index(colour) for colour in usual)))
    moves = parse_moves(text)
    if not moves:
        raise NotationError(text, "", 1, words.NO_SCRAMBLE)
    return Start(for_scramble().after(moves), format_moves(moves))


def read_cube(colours: tuple[int, ...]) -> HeldCube:
    """The cube that shows 54 colour numbers, held as it shows them.

    Raises IllegalCubeError for stickers that this cube cannot show, its centres included.
    """
    position, centres = read_stickers(colours)
    for viewpoint in ROTATIONS:
        if all(viewpoint.faces[colour] is face for face, colour in zip(FACES, centres, strict=True)):
            return HeldCube(position, viewpoint)
    places = tuple(9 * face + 4 for face in FACES)
    raise IllegalCubeError([Fault(Rule.CENTRES, words.CENTRES_ELSEWHERE, places)])


def position_text(cube: HeldCube, arrangement: Sequence[int] = FACES) -> str:
    """The stickers of a cube as six lines, in letters as ``read_start`` reads them."""
    return format_stickers([arrangement[colour] for colour in cube.colours])
