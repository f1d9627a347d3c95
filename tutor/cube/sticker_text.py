"""A cube's stickers as text: six lines, one for each face as held, of nine colours each.

For example, the solved cube in its first hold::

    U: yyy yyy yyy
    D: www www www
    L: rrr rrr rrr
    R: ooo ooo ooo
    F: ggg ggg ggg
    B: bbb bbb bbb

A line names the face, then three rows of three colours, rows downwards and columns to the right as the face
is seen from outside, with B above U, F above D and U above the four sides. A colour is its first letter;
a dot stands for a sticker without one, where only a part of a cube is told.
The lines may come in any order; spaces, capitals and empty lines do not matter when read.
"""

from __future__ import annotations

from collections.abc import Sequence

from tutor.cube import words
from tutor.cube.faces import FACES, Face
from tutor.cube.words import COLOUR_LETTERS as COLOUR_LETTERS
from tutor.cube.words import COLOUR_NAMES
from tutor.quoting import ToldError

BLANK_LETTER = "."
"""Stands for the number -1: no colour."""


class StickerTextError(ToldError):
    """A text that does not describe stickers; ``line`` counted from 1, ``advice`` what would be right."""

    def __init__(self, line: int, message: str, advice: str) -> None:
        self.line, self.message, self.advice = line, message, advice
        super().__init__(words.sticker_text_problem(line, message, advice))


def format_stickers(colours: Sequence[int]) -> str:
    """The six lines for 54 colour numbers (0..5, or -1), sticker places numbered as in ``geometry``."""
    lines = []
    signs = COLOUR_LETTERS + BLANK_LETTER
    for face in FACES:
        letters = "".join(signs[colour] for colour in colours[9 * face : 9 * face + 9])
        lines.append(f"{face.name}: {letters[:3]} {letters[3:6]} {letters[6:]}")
    return "\n".join(lines)


def parse_stickers(text: str, blanks: bool = False) -> tuple[int, ...]:
    """The 54 colour numbers that the six lines describe; whether they make a cube is not looked at.

    With ``blanks`` a dot is no mistake but the number -1. Raises StickerTextError.
    """
    rows: dict[Face, tuple[int, ...]] = {}
    lines = text.splitlines()
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        name, _, letters = line.partition(":")
        face = Face.__members__.get(name.strip().upper())
        if face is None:
            told = words.not_a_face(name.strip()[:20])
            raise StickerTextError(number, told, words.START_WITH_A_FACE)
        if face in rows:
            raise StickerTextError(number, words.face_twice(face), words.ONE_LINE_EACH)
        rows[face] = _colours(letters, number, blanks)
    missing = [face for face in FACES if face not in rows]
    if missing:
        told = words.faces_missing(missing)
        raise StickerTextError(max(len(lines), 1), told, words.ALL_SIX_FACES)
    return tuple(colour for face in FACES for colour in rows[face])


def _colours(letters: str, line: int, blanks: bool) -> tuple[int, ...]:
    plain = "".join(letters.split()).lower()
    for letter in plain:
        if letter not in COLOUR_LETTERS and not (blanks and letter == BLANK_LETTER):
            raise StickerTextError(line, words.not_a_colour(letter), words.colour_letters(COLOUR_NAMES))
    if len(plain) != 9:
        raise StickerTextError(line, words.colours_in_line(len(plain)), words.NINE_COLOURS)
    # What is not found is a dot, and -1 says so.
    return tuple(COLOUR_LETTERS.find(letter) for letter in plain)
