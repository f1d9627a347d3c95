"""A cell of a handout on the page of a PDF file: pictures, and what is beside or below them."""

from __future__ import annotations

from collections.abc import Callable

from PIL import Image

from tutor.publish.document import Cell, CubePicture, TurnTable
from tutor.publish.pen import DETAIL, GREY, NAME, SMALL, STRONG, TEXT, TURNS, Pen
from tutor.publish.subject import Pixels

Printed = Callable[[CubePicture], Pixels]
"""Makes a picture."""

PICTURE, WITH_MIRRORS = 35.0, 50.0
"""Width of a picture, and of one with mirrors, where there is room for it; in millimetres like all."""
BESIDE, BESIDE_WITH_MIRRORS = 0.42, 0.56
"""The most of a cell's width that a picture beside its text takes."""
NARROW = 45.0
"""A table needs so much room; with less it goes below the picture."""
TILE, BOX, RULED, LABEL = 6.6, 3.4, 8.5, 12.0
"""Heights of a tile with a turn, of a box to tick, of a line to write on; width of a table's first column."""


class CellPrinter:
    """Prints cells with a pen; while that is dry, or without ``printed``, no picture is made."""

    def __init__(self, pen: Pen, printed: Printed | None) -> None:
        self._pen, self._printed = pen, printed

    def cell(self, cell: Cell, x: float, y: float, width: float, *, beside: bool) -> float:
        """Print a cell, and return how high it is."""
        top = y
        if cell.sign:
            y += self._sign(cell.sign, x, y)
        if beside and cell.pictures:
            return y + self._beside(cell, x, y, width) - top
        y += self._pictures(cell.pictures, x, y, _across(cell, 1.0, width))
        return y + self._told(cell, x, y, width) + self._table(cell.table, x, y, width) - top

    def _beside(self, cell: Cell, x: float, y: float, width: float) -> float:
        across = _across(cell, BESIDE_WITH_MIRRORS if _mirrored(cell) else BESIDE, width)
        left, pictures = x + across + 2.5, self._pictures(cell.pictures, x, y, across)
        room = x + width - left
        told = self._told(cell, left, y, room)
        if room < NARROW:
            below = max(pictures, told)
            return below + self._table(cell.table, x, y + below, width)
        return max(pictures, told + self._table(cell.table, left, y + told, room))

    def _sign(self, text: str, x: float, y: float) -> float:
        height = 5.4
        self._pen.outline(x, y, self._pen.width(STRONG, text) + 6.0, height, corner=2.6)
        self._pen.word(STRONG, text, x + 3.0, y + 0.5)
        return height + 1.5

    def _pictures(self, pictures: tuple[CubePicture, ...], x: float, y: float, width: float) -> float:
        top = y
        for picture in pictures:
            if not self._pen.dry and self._printed is not None:
                image = Image.fromarray(self._printed(picture)).convert("RGB")
                self._pen.pdf.image(image, x, y, w=width, alt_text=picture.alt)
            y += width * picture.size[1] / picture.size[0]
            if picture.caption:
                y += self._pen.write(SMALL, picture.caption, x, y, width, GREY)
        return y - top

    def _told(self, cell: Cell, x: float, y: float, width: float) -> float:
        """All but the table, from the top."""
        pen, top = self._pen, y
        if cell.heading:
            y += pen.write(NAME, cell.heading, x, y, width) + 0.8
        if cell.turns:
            y += self._turns(cell.turns, x, y, width)
        for text in cell.texts:
            y += pen.write(TEXT, text, x, y, width) + 0.4
        for text in cell.details:
            y += pen.write(DETAIL, text, x, y, width, GREY) + 0.4
        for option in cell.options:
            pen.outline(x, y + 1.1, BOX, BOX, corner=0.5)
            y += 1.8 + pen.write(TEXT, option, x + BOX + 2.0, y + 0.5, width - BOX - 2.0)
        return y + self._lines(cell, x, y, width) - top

    def _turns(self, turns: tuple[str, ...], x: float, y: float, width: float) -> float:
        """Tiles with a turn each, in as many rows as they need."""
        pen, left, top = self._pen, x, y
        for turn in turns:
            letters = pen.width(TURNS, turn)
            across = max(8.0, letters + 3.6)
            if left > x and left + across > x + width:
                left, y = x, y + TILE + 1.2
            pen.outline(left, y, across, TILE, corner=1.2)
            pen.word(TURNS, turn, left + (across - letters) / 2, y + 0.8)
            left += across + 1.4
        return y + TILE + 1.6 - top

    def _lines(self, cell: Cell, x: float, y: float, width: float) -> float:
        """Lines to write on, the first after its label."""
        if not cell.lines:
            return 0.0
        self._pen.word(TEXT, cell.label, x, y + 3.2, GREY)
        start = x + self._pen.width(TEXT, cell.label) + 2.0
        for number in range(cell.lines):
            self._pen.line(x if number else start, y + RULED * (number + 1) - 1.0, x + width)
        return RULED * cell.lines

    def _table(self, table: TurnTable | None, x: float, y: float, width: float) -> float:
        """A word, and turns in each column; turns that are too many for a line go on in the next."""
        if table is None:
            return 0.0
        top, across = y, (width - LABEL) / len(table.header)
        y += 0.8
        for column, head in enumerate(table.header):
            self._pen.word(SMALL, head, x + LABEL + column * across, y, GREY)
        y += 4.0
        for row in table.rows:
            self._pen.word(DETAIL, row.label, x, y + 0.2, GREY)
            y += max(
                self._pen.write(STRONG, turns, x + LABEL + column * across, y, across - 1.5)
                for column, turns in enumerate(row.cells)
            )
        return y - top + 0.8


def _across(cell: Cell, share: float, width: float) -> float:
    """The width of a cell's pictures, which take at most a share of its width."""
    return min(WITH_MIRRORS if _mirrored(cell) else PICTURE, share * width)


def _mirrored(cell: Cell) -> bool:
    return any(picture.look.mirrors for picture in cell.pictures)
