"""A painted cube as plain text, whole or only begun; colours have the first letters of their usual names."""

from __future__ import annotations

from tutor.cube.legality import BLANK, faults_of
from tutor.cube.sticker_text import format_stickers, parse_stickers
from tutor.cube.stickers import IllegalCubeError, Rule
from tutor.screens.painting import words
from tutor.screens.painting.state import CENTRES, Colours
from tutor.session.cube_text import face_lines, read_start
from tutor.ui.view import Look


def painting_text(colours: Colours, look: Look) -> str:
    """Six lines, a dot where nothing is painted."""
    return format_stickers([BLANK if c == BLANK else look.arrangement[c] for c in colours])


def read_painting(text: str, look: Look) -> Colours:
    """The colours that six faces, each after its letter and a colon, or a scramble describe.

    Stickers need not be a legal cube, but the centres must be those of this one. Raises NotationError,
    StickerTextError or IllegalCubeError, which are all ValueErrors that say what is wrong.
    """
    if ":" not in text:
        return read_start(text).cube.colours
    usual = parse_stickers(face_lines(text), blanks=True)
    colours = tuple(BLANK if c == BLANK else look.arrangement.index(c) for c in usual)
    if any(colours[place] == BLANK for place in CENTRES):
        raise ValueError(words.CENTRE_MISSING)
    wrong = [fault for fault in faults_of(colours) if fault.rule is Rule.CENTRES]
    if wrong:
        raise IllegalCubeError(wrong)
    return colours
