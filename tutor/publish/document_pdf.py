"""A handout as a PDF file, by fpdf2, which comes with the extra ``sheet``."""

from __future__ import annotations

from enum import StrEnum
from typing import assert_never

from msgspec import Struct

from tutor.publish import words
from tutor.publish.document import (
    AnswerList,
    BoxedText,
    Boxes,
    Cell,
    Cells,
    Chapter,
    ColourKey,
    Document,
    DocumentBlock,
    Paragraph,
    SignCell,
    SignTable,
    Subheading,
)
from tutor.publish.extras import installing
from tutor.publish.files import PublishError
from tutor.publish.pdf_cells import RULED, CellPrinter, Printed
from tutor.publish.pen import (
    DETAIL,
    GREY,
    HEADING,
    LEAD,
    MARGIN,
    NAME,
    PARAGRAPH,
    SMALL,
    STRONG,
    TEXT,
    TITLE,
    Pen,
    TypeSize,
    new_pdf,
)

GUTTER, GAP = 6.0, 4.0
"""Millimetres between cells, beside and below each other."""
KEY, NUMBER, PAD = 3.6, 9.0, 3.0
"""Side of a field of the key, width of an answer's number, room within a frame; all in millimetres."""
SIGN, SIGN_ROW, SIGN_LABEL = 6.9, 5.6, 30.0
"""Width and height of a sign of a table, and width of what a row is about."""
MOST_SIGNS, MOST_TOGETHER = 21, 16
"""Signs in a row of a page, and rows that are not parted from their header."""
NAME_WIDTH, DATE_WIDTH = 56.0, 36.0
"""Millimetres for a name of usual length, and for a date."""
ANSWERS_BEGIN = 20.0
"""So much room at least there must be for a heading with its first answer."""


class Paper(StrEnum):
    """Sizes of paper: ISO 216 A4, and the American Letter."""

    A4 = "A4"
    LETTER = "Letter"


class PageNumbers(Struct, frozen=True):
    """On which page each chapter begins, and how many pages there are."""

    chapters: tuple[int, ...]
    count: int


def check_pdf() -> None:
    """Raise PublishError when fpdf2 is absent."""
    try:
        import fpdf  # noqa: F401
    except ImportError:
        raise PublishError(words.no_pdf(installing("sheet"))) from None


def document_pdf(document: Document, paper: Paper, printed: Printed | None) -> bytes:
    """The whole document; a document without pictures needs no ``printed``.

    It is laid out twice, since contents and feet say what is known at the end.
    """
    unknown = PageNumbers((0,) * len(document.chapters), 0)
    pages = _Layout(document, paper, unknown, None).lay_out()
    layout = _Layout(document, paper, pages, printed)
    layout.lay_out()
    return layout.output()


class _Layout:
    """Where on which page things are; ``_y`` is where it goes on. Without ``printed`` it is for the pages."""

    def __init__(self, document: Document, paper: Paper, pages: PageNumbers, printed: Printed | None) -> None:
        self._document, self._pages = document, pages
        self._pdf = new_pdf(document.title, paper.value)
        self._pen = Pen(self._pdf)
        self._cells = CellPrinter(self._pen, printed)
        self._width, self._right = self._pdf.w - 2 * MARGIN, self._pdf.w - MARGIN
        self._y = self._bottom = 0.0
        chapters = zip(pages.chapters, document.chapters, strict=True)
        self._answers_page = next((page for page, each in chapters if each.answers), 0)

    def lay_out(self) -> PageNumbers:
        """Contents, if there are any, then each chapter from a page of its own."""
        if self._document.contents:
            self._new_page()
            self._contents()
        starts = []
        for chapter in self._document.chapters:
            self._new_page()
            starts.append(self._pdf.page)
            self._chapter(chapter)
        self._foot()
        return PageNumbers(tuple(starts), self._pdf.page)

    def output(self) -> bytes:
        """The file."""
        return bytes(self._pdf.output())

    # ---------------------------------------------------------------------------------------------- pages

    def _new_page(self) -> None:
        if self._pdf.page:
            self._foot()
        self._pdf.add_page()
        with self._pen.measuring():
            self._y, self._bottom = MARGIN, self._foot() - 3.0

    def _foot(self) -> float:
        """The legend, and below it the day, the answers' page and the page; returns where it begins."""
        pen, base = self._pen, self._pdf.h - MARGIN - SMALL.line
        pen.word(SMALL, words.program_and_day(self._document.day), MARGIN, base)
        if self._pdf.page < self._answers_page:
            pen.word(SMALL, words.answers_on(self._answers_page), MARGIN + 0.42 * self._width, base)
        pen.word_up_to(SMALL, words.page_number(self._pdf.page, self._pages.count), self._right, base)
        legend = self._document.legend
        lines = [line for text in legend for line in pen.lines(SMALL, text, self._width)]
        top = base - 1.5 - len(lines) * SMALL.line
        for number, line in enumerate(lines):
            pen.word(SMALL, line, MARGIN, top + number * SMALL.line, GREY)
        pen.line(MARGIN, top - 1.5, self._right)
        return top - 1.5

    def _contents(self) -> None:
        self._down(self._write(TITLE, self._document.title) + GAP)
        self._down(self._write(HEADING, words.CONTENTS) + GAP)
        for chapter, page in zip(self._document.chapters, self._pages.chapters, strict=True):
            self._make_room(2 * PARAGRAPH.line)
            self._pen.word(PARAGRAPH, words.named_chapter(chapter.sign, chapter.title), MARGIN, self._y)
            self._pen.word_up_to(PARAGRAPH, str(page), self._right, self._y)
            self._down(1.6 * PARAGRAPH.line)

    def _chapter(self, chapter: Chapter) -> None:
        if chapter.form or chapter.sign or self._document.learner:
            self._head(chapter)
        self._down(self._write(TITLE, chapter.title) + 1.5)
        self._down(self._write(LEAD, chapter.lead) + 2.5)
        self._pen.line(MARGIN, self._y, self._right)
        self._down(GAP)
        for index, block in enumerate(chapter.blocks):
            if isinstance(block, Subheading) and block.own_page:
                self._new_page()
            self._make_room(self._needed(chapter.blocks[index:]))
            self._block(block)

    def _head(self, chapter: Chapter) -> None:
        """The number of the lesson, and lines for name and date; where there are none, the learner's name."""
        learner = self._document.learner
        self._pen.word(NAME, chapter.sign, MARGIN, self._y, GREY)
        if chapter.form:
            self._name(learner, MARGIN + self._pen.width(NAME, chapter.sign) + GUTTER)
            self._field(words.DATE, "", self._right - DATE_WIDTH, DATE_WIDTH)
        else:
            self._pen.word_up_to(NAME, learner, self._right, self._y)
        self._down(9.0)

    def _name(self, learner: str, left: float) -> None:
        """The field for the name, which begins at the left at most; a long name has more room."""
        right = self._right - DATE_WIDTH - 4.0
        needed = self._pen.width(TEXT, words.NAME) + 4.0 + self._pen.width(NAME, learner)
        x = max(left, right - max(NAME_WIDTH, needed))
        self._field(words.NAME, learner, x, right - x)

    def _field(self, name: str, text: str, x: float, width: float) -> None:
        """A line after its name; what is on it gets smaller where it would be too long."""
        self._pen.word(TEXT, name, x, self._y, GREY)
        start = x + self._pen.width(TEXT, name) + 2.0
        room = x + width - start - 1.0
        smaller = min(1.0, room / max(room, self._pen.width(NAME, text)))
        self._pen.word(TypeSize(NAME.face, NAME.points * smaller), text, start + 1.0, self._y)
        self._pen.line(start, self._y + 5.0, x + width)

    # ----------------------------------------------------------------------------------------------- room

    def _down(self, height: float) -> None:
        self._y += height

    def _make_room(self, height: float) -> None:
        if self._y + height > self._bottom and self._y > MARGIN:
            self._new_page()

    def _needed(self, blocks: tuple[DocumentBlock, ...]) -> float:
        """The height of what must not be parted: a heading with what it is over, up to a row of cells."""
        height = 0.0
        for block in blocks:
            height += self._least(block)
            if not isinstance(block, Subheading | Paragraph):
                break
        return height

    def _least(self, block: DocumentBlock) -> float:
        if isinstance(block, Cells):
            row = block.cells[: block.columns]
            return self._row_height(block, _begin(row) if self._is_divided(block, row) else row)
        if isinstance(block, AnswerList | SignTable):
            return ANSWERS_BEGIN
        top = self._y
        with self._pen.measuring():
            self._block(block)
        height, self._y = self._y - top, top
        return height

    # --------------------------------------------------------------------------------------------- blocks

    def _block(self, block: DocumentBlock) -> None:
        match block:
            case Subheading(text):
                self._down(2.0)
                self._down(self._write(HEADING, text) + 1.5)
            case Paragraph(text):
                self._down(self._write(PARAGRAPH, text) + 2.5)
            case Cells():
                self._rows(block)
            case Boxes():
                self._boxes(block)
            case AnswerList():
                self._answers(block)
            case ColourKey():
                self._key(block)
            case SignTable():
                self._signs(block)
            case _:
                assert_never(block)

    def _write(self, kind: TypeSize, text: str) -> float:
        return self._pen.write(kind, text, MARGIN, self._y, self._width)

    def _rows(self, block: Cells) -> None:
        for start in range(0, len(block.cells), block.columns):
            row = block.cells[start : start + block.columns]
            while self._is_divided(block, row):
                self._make_room(self._row_height(block, _begin(row)))
                first, row = self._divided(block, row)
                self._put(block, first)
            self._make_room(self._row_height(block, row))
            self._put(block, row)

    def _put(self, block: Cells, row: tuple[Cell, ...]) -> None:
        self._down(self._row(block, row) + GAP)

    def _is_divided(self, block: Cells, row: tuple[Cell, ...]) -> bool:
        """Whether a row is higher than a page, and can be made lower."""
        higher = self._row_height(block, row) > self._bottom - MARGIN
        return higher and any(cell.count > 1 for cell in row)

    def _divided(self, block: Cells, row: tuple[Cell, ...]) -> tuple[tuple[Cell, ...], tuple[Cell, ...]]:
        """The part of a row for which there is room on this page, and the rest."""
        parts = [self._parted(block, cell) for cell in row]
        return tuple(first for first, _ in parts), tuple(rest for _, rest in parts)

    def _parted(self, block: Cells, cell: Cell) -> tuple[Cell, Cell]:
        room = self._bottom - self._y
        if self._row_height(block, (cell,)) <= room:
            return cell, Cell()
        counts = range(cell.count - 1, 1, -1)
        parts = (cell.parted(count) for count in counts)
        fitting = (part for part in parts if self._row_height(block, (part[0],)) <= room)
        return next(fitting, cell.parted(1))

    def _row_height(self, block: Cells, row: tuple[Cell, ...]) -> float:
        with self._pen.measuring():
            return self._row(block, row) + GAP

    def _row(self, block: Cells, row: tuple[Cell, ...]) -> float:
        """A row of cells; how high it is."""
        width = (self._width - GUTTER * (block.columns - 1)) / block.columns
        return max(
            self._cells.cell(cell, MARGIN + column * (width + GUTTER), self._y, width, beside=block.beside)
            for column, cell in enumerate(row)
        )

    def _boxes(self, block: Boxes) -> None:
        """Frames side by side, as high as the highest."""
        width = (self._width - GUTTER * (len(block.boxes) - 1)) / len(block.boxes)
        places = [(box, MARGIN + number * (width + GUTTER)) for number, box in enumerate(block.boxes)]
        height = max(self._boxed(box, x, width) for box, x in places)
        for box, x in places:
            self._pen.outline(x, self._y, width, height, dashed=box.dashed)
        self._down(height + GAP)

    def _boxed(self, box: BoxedText, x: float, width: float) -> float:
        """What is in a frame; how high the frame must be."""
        pen, left, room, y = self._pen, x + PAD, width - 2 * PAD, self._y + PAD
        y += pen.write(NAME, box.title, left, y, room) + 0.5
        if box.text:
            y += pen.write(TEXT, box.text, left, y, room) + 0.5
        for point in box.points:
            pen.word(TEXT, "•", left, y)
            y += pen.write(TEXT, point, left + PAD, y, room - PAD) + 0.5
        for _ in range(box.lines):
            y += RULED
            pen.line(left, y - 1.0, left + room)
        return y + PAD - self._y

    def _answers(self, block: AnswerList) -> None:
        self._down(self._write(HEADING, block.title) + 1.5)
        for answer in block.answers:
            room = self._width - NUMBER
            told = [line for text in answer.texts for line in self._pen.lines(TEXT, text, room)]
            self._make_room(len(told) * TEXT.line)
            self._pen.word(STRONG, words.numbered(answer.number), MARGIN, self._y)
            for line in told:
                self._pen.word(TEXT, line, MARGIN + NUMBER, self._y)
                self._down(TEXT.line)
            self._down(1.5)
        self._down(GAP)

    def _key(self, block: ColourKey) -> None:
        """Fields in the colours of the stickers, each with its name."""
        pen, x = self._pen, MARGIN
        pen.word(DETAIL, block.title, x, self._y, GREY)
        x += pen.width(DETAIL, block.title) + 4.0
        for ink, letter, name in block.colours:
            pen.swatch(x, self._y + 0.2, KEY, ink)
            named = words.letter_and_colour(letter, name)
            pen.word(DETAIL, named, x + KEY + 1.2, self._y)
            x += KEY + pen.width(DETAIL, named) + 6.2
        self._down(6.5)

    def _signs(self, block: SignTable) -> None:
        """Bands of columns, each with all rows; a band that a page has no room for goes on on the next."""
        bands = -(-len(block.header) // MOST_SIGNS)
        count = -(-len(block.header) // max(1, bands))
        for start in range(0, len(block.header), count):
            self._make_room(SIGN_ROW * (min(len(block.rows), MOST_TOGETHER) + 1))
            self._sign_head(block.header[start : start + count])
            for row in block.rows:
                if self._y + SIGN_ROW > self._bottom:
                    self._new_page()
                    self._sign_head(block.header[start : start + count])
                last = start + count >= len(block.header)
                self._sign_row(row.label, row.cells[start : start + count], row.figure if last else "")
            self._down(GAP)

    def _sign_head(self, numbers: tuple[str, ...]) -> None:
        for column, number in enumerate(numbers):
            x = MARGIN + SIGN_LABEL + column * SIGN + (SIGN - self._pen.width(SMALL, number)) / 2
            self._pen.word(SMALL, number, x, self._y, GREY)
        self._down(SMALL.line + 0.6)

    def _sign_row(self, label: str, cells: tuple[SignCell, ...], figure: str) -> None:
        pen, x = self._pen, MARGIN + SIGN_LABEL
        name = next(iter(pen.lines(TEXT, label, SIGN_LABEL - 2.0)), "")
        pen.word(TEXT, name, MARGIN, self._y + 0.4)
        for cell in cells:
            if cell.ground is not None:
                pen.ground(x + 0.3, self._y + 0.3, SIGN - 0.6, SIGN_ROW - 0.6, cell.ground)
            left = x + (SIGN - pen.width(DETAIL, cell.sign)) / 2
            pen.word(DETAIL, cell.sign, left, self._y + 0.7, 255 if cell.white else 0)
            if cell.dotted:
                pen.dot(x + SIGN - 0.9, self._y + 0.9, 0.55)
            x += SIGN
        pen.word_up_to(STRONG, figure, x + 7.0, self._y + 0.4)
        self._down(SIGN_ROW)


def _begin(row: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """The least of a row that may be alone on a page."""
    return tuple(cell.parted(1)[0] for cell in row)
