"""Measuring and breaking text, without a window: what the layout stands on."""

from __future__ import annotations

from enum import Enum
from functools import cache, lru_cache

from msgspec import Struct

from render.text.typefaces import Typeface, advance, ascent, crisp_size, descent

ELLIPSIS = "…"


class TextSetting(Enum):
    """The ways text is set: face, size in px at 100 % and line height in parts of the size."""

    TITLE = (Typeface.TITLE, 28.0, 1.25)
    BAR = (Typeface.TITLE, 18.0, 1.3)
    HEADING = (Typeface.TITLE, 20.0, 1.3)
    QUESTION = (Typeface.TITLE, 24.0, 4 / 3)
    VERDICT = (Typeface.STRONG, 18.0, 28 / 18)
    CHOICE = (Typeface.STRONG, 20.0, 1.4)
    STRONG = (Typeface.STRONG, 16.0, 1.45)
    BODY = (Typeface.BODY, 16.0, 1.45)
    SMALL = (Typeface.BODY, 14.0, 1.35)
    SMALL_STRONG = (Typeface.STRONG, 14.0, 1.35)
    KEY = (Typeface.BODY, 13.0, 1.3)
    TILE = (Typeface.STRONG, 15.0, 1.4)
    SHOWN_TILE = (Typeface.STRONG, 18.0, 1.4)


class Font(Struct, frozen=True):
    """A face at a size; ``size`` and ``line_height`` in logical px."""

    face: Typeface
    size: float
    line_height: float

    @property
    def baseline(self) -> float:
        """From the top of a line to its base line: letters sit in the middle of the line."""
        high, low = ascent(self.face) * self.size, descent(self.face) * self.size
        return (self.line_height - high - low) / 2 + high


@cache
def font(setting: TextSetting, scale: float = 1.0, pixel_ratio: float = 1.0) -> Font:
    """The font of a setting at a text scale, its size adjusted to whole pixels of x height."""
    face, size, leading = setting.value
    crisp = crisp_size(face, size * scale * pixel_ratio) / pixel_ratio
    return Font(face, crisp, round(size * scale * leading))


@lru_cache(maxsize=4096)
def _ems(face: Typeface, text: str) -> float:
    return sum(advance(face, character) for character in text)


def width(style: Font, text: str) -> float:
    """Width of one line of text in logical px."""
    return _ems(style.face, text) * style.size


def _pieces(style: Font, word: str, available: float) -> list[str]:
    """A word that is wider than a line, cut where the line is full; at least one character each."""
    pieces, start = [], 0
    for end in range(1, len(word) + 1):
        if end - start > 1 and width(style, word[start:end]) > available:
            pieces.append(word[start : end - 1])
            start = end - 1
    pieces.append(word[start:])
    return pieces


@lru_cache(maxsize=1024)
def wrap(style: Font, text: str, available: float) -> tuple[str, ...]:
    """The lines of a text no wider than ``available``; line ends in the text are kept."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in paragraph.split():
            longer = f"{line} {word}" if line else word
            if width(style, longer) <= available:
                line = longer
                continue
            if line:
                lines.append(line)
            *full, line = _pieces(style, word, available)
            lines.extend(full)
        lines.append(line)
    return tuple(lines)


@lru_cache(maxsize=256)
def slices(style: Font, text: str, available: float) -> tuple[tuple[int, str], ...]:
    """Lines that keep every character, each with the index it starts at: for a field being typed into.

    Breaks come after a space where there is one; spaces at a line's end may hang over its width.
    """
    lines: list[tuple[int, str]] = []
    start = 0
    while True:
        end, space = start, -1
        while end < len(text) and (text[end] == " " or width(style, text[start : end + 1]) <= available):
            space = end + 1 if text[end] == " " else space
            end += 1
        if end >= len(text):
            lines.append((start, text[start:]))
            return tuple(lines)
        cut = space if space > start else max(end, start + 1)
        lines.append((start, text[start:cut]))
        start = cut


@lru_cache(maxsize=1024)
def ellipsise(style: Font, text: str, available: float) -> str:
    """The text if it fits, otherwise as much of its start as fits with an ellipsis."""
    text = " ".join(text.split())
    if width(style, text) <= available:
        return text
    end = len(text)
    while end and width(style, text[:end].rstrip() + ELLIPSIS) > available:
        end -= 1
    return text[:end].rstrip() + ELLIPSIS if end or width(style, ELLIPSIS) <= available else ""
