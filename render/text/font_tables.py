"""Advances straight from a font's own tables (OpenType 1.9: ``head``, ``hhea``, ``hmtx``, ``cmap`` format 4).

Pillow gives advances after the font's hinting program has run, and in some faces that spoils those of a few
characters at any size, the ellipsis and the quotation marks among them.
"""

from __future__ import annotations

from bisect import bisect_left
from struct import unpack_from

from render import words

_UNICODE = ((3, 1), (0, 3))
"""Platform and encoding of the character maps of Unicode's first plane."""


class FontTables:
    """The tables of one font file."""

    def __init__(self, content: bytes) -> None:
        """``content`` is a TrueType or OpenType file. Raises ValueError when it maps no characters."""
        self._content = content
        count = unpack_from(">H", content, 4)[0]
        records = (unpack_from(">4sLLL", content, 12 + 16 * number) for number in range(count))
        starts = {tag: start for tag, _, start, _ in records}
        self._units = unpack_from(">H", content, starts[b"head"] + 18)[0]
        self._metrics = unpack_from(">H", content, starts[b"hhea"] + 34)[0]
        self._widths = starts[b"hmtx"]
        self._read_map(starts[b"cmap"])

    def _read_map(self, start: int) -> None:
        """The map's segments: last and first code, what is added, and where glyphs are listed."""
        content = self._content
        for number in range(unpack_from(">H", content, start + 2)[0]):
            platform, encoding, offset = unpack_from(">HHL", content, start + 4 + 8 * number)
            at = start + offset
            if (platform, encoding) in _UNICODE and unpack_from(">H", content, at)[0] == 4:
                break
        else:
            raise ValueError(words.NO_CHARACTER_MAP)
        segments = unpack_from(">H", content, at + 6)[0] // 2
        self._ends = unpack_from(f">{segments}H", content, at + 14)
        self._firsts = unpack_from(f">{segments}H", content, at + 16 + 2 * segments)
        self._shifts = unpack_from(f">{segments}H", content, at + 16 + 4 * segments)
        self._lists = at + 16 + 6 * segments

    def _glyph(self, code: int) -> int:
        """The number of the glyph; 0 for one that is missing."""
        segment = bisect_left(self._ends, code)
        if segment == len(self._ends) or code < self._firsts[segment]:
            return 0
        place = self._lists + 2 * segment
        distance = unpack_from(">H", self._content, place)[0]
        if not distance:
            return int(code + self._shifts[segment]) % 65536
        listed = place + distance + 2 * (code - self._firsts[segment])
        glyph = int(unpack_from(">H", self._content, listed)[0])
        return (glyph + self._shifts[segment]) % 65536 if glyph else 0

    def advance(self, character: str) -> float:
        """How far the pen moves for the character, in parts of the em."""
        row = min(self._glyph(ord(character)), self._metrics - 1)
        return float(unpack_from(">H", self._content, self._widths + 4 * row)[0]) / float(self._units)
