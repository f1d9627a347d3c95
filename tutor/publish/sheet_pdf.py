"""The sheet of cases as a PDF file, by fpdf2, which comes with the extra ``sheet``."""

from __future__ import annotations

from enum import StrEnum
from importlib.resources import files
from itertools import groupby
from typing import TYPE_CHECKING

from PIL import Image

from tutor.method.cases import Family
from tutor.publish import words
from tutor.publish.extras import installing
from tutor.publish.files import PublishError
from tutor.publish.lettering import wrapped
from tutor.publish.sheet import Print, SheetEntry, picture_of
from tutor.publish.subject import Draw

if TYPE_CHECKING:
    from fpdf import FPDF

MARGIN, GUTTER = 13.0, 5.0
HEAD, LATER_HEAD, FOOT = 23.0, 18.0, 12.0
PER_INCH = 350.0
"""Pixels of a picture on an inch of paper. All measures are in millimetres, sizes of type in points."""
FACT_HEIGHT, NAME_HEIGHT, HEADING_HEIGHT = 4.9, 4.1, 11.0
CELL_PAD = 5.0
NAME_SIZE = 8.5
MOST_LEAD_LINES = 8
_LABEL = 14.0
_BODY, _STRONG, _TITLE = "body", "strong", "title"
_FACES = {
    _BODY: ("font_source_sans_pro", "SourceSansPro-Regular.ttf"),
    _STRONG: ("font_source_sans_pro", "SourceSansPro-Semibold.ttf"),
    _TITLE: ("font_source_serif_pro", "SourceSerifPro-Semibold.ttf"),
}
_BLACK, _GREY, _RULE = 0, 80, 170


class Paper(StrEnum):
    """Sizes of paper: ISO 216 A4, and the American Letter."""

    A4 = "A4"
    LETTER = "Letter"


def check_pdf() -> None:
    """Raise PublishError when fpdf2 is absent."""
    try:
        import fpdf  # noqa: F401
    except ImportError:
        raise PublishError(words.no_pdf(installing("sheet"))) from None


def sheet_pdf(
    entries: tuple[SheetEntry, ...],
    how: Print,
    draw: Draw,
    paper: Paper,
    title: str,
    lead: str,
) -> bytes:
    """The whole sheet. ``title`` and ``lead`` stand at the top of every page and of the first one."""
    from fpdf import FPDF

    pdf = FPDF(format=paper.value)
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    pdf.set_title(title)
    pdf.set_creator("Pairwright")
    pdf.set_lang("en")
    for name, (package, file) in _FACES.items():
        pdf.add_font(name, fname=str(files(package).joinpath("files", file)))
    _Layout(pdf, title, lead, how, draw).lay_out(entries)
    return bytes(pdf.output())


class _Layout:
    """Where on which page things stand; the place to go on is kept."""

    def __init__(self, pdf: FPDF, title: str, lead: str, how: Print, draw: Draw) -> None:
        self._pdf, self._title, self._lead, self._how, self._draw = pdf, title, lead, how, draw
        self._picture = tuple(25.4 * pixels / PER_INCH for pixels in how.picture_size)
        self._width = (pdf.w - 2 * MARGIN - GUTTER) / 2
        self._top = 0.0

    def lay_out(self, entries: tuple[SheetEntry, ...]) -> None:
        """Families under headings, two cases side by side."""
        self._new_page()
        for family, members in groupby(entries, key=lambda entry: entry.case.family):
            cases = tuple(members)
            rows = [cases[start : start + 2] for start in range(0, len(cases), 2)]
            self._heading(family, self._height(rows[0]))
            for row in rows:
                self._row(row)

    def _new_page(self) -> None:
        pdf = self._pdf
        pdf.add_page()
        if pdf.page == 1:
            self._write(_TITLE, 15, MARGIN, MARGIN - 2, self._title)
            pdf.set_font(_BODY, size=9)
            lines = wrapped(self._lead, pdf.get_string_width, pdf.w - 2 * MARGIN - 2, MOST_LEAD_LINES)
            for number, line in enumerate(lines):
                self._write(_BODY, 9, MARGIN, MARGIN + 5 + number * NAME_HEIGHT, line, _GREY)
            self._top = HEAD + (len(lines) - 1) * NAME_HEIGHT
        else:
            self._write(_BODY, 8, MARGIN, MARGIN - 3, self._title, _GREY)
            self._top = LATER_HEAD
        # The count of pages is put in by fpdf2 when it is known.
        self._write(
            _BODY, 8, MARGIN, pdf.h - FOOT, words.page_number(pdf.page, pdf.str_alias_nb_pages), _GREY
        )

    def _heading(self, family: Family, following: float) -> None:
        self._make_room(HEADING_HEIGHT + following)
        pdf = self._pdf
        pdf.set_draw_color(_RULE)
        pdf.set_line_width(0.25)
        pdf.line(MARGIN, self._top + 1, pdf.w - MARGIN, self._top + 1)
        self._write(_TITLE, 12, MARGIN, self._top + 3, words.family_heading(family))
        self._top += HEADING_HEIGHT

    def _make_room(self, height: float) -> None:
        if self._top + height > self._pdf.h - FOOT - 2:
            self._new_page()

    def _row(self, row: tuple[SheetEntry, ...]) -> None:
        height = self._height(row)
        self._make_room(height)
        for column, entry in enumerate(row):
            self._cell(entry, MARGIN + column * (self._width + GUTTER), self._top)
        self._top += height

    def _height(self, row: tuple[SheetEntry, ...]) -> float:
        told = (len(self._lines(entry)) * NAME_HEIGHT + len(entry.facts) * FACT_HEIGHT + 1 for entry in row)
        return max(self._picture[1], *told) + CELL_PAD

    def _lines(self, entry: SheetEntry) -> list[tuple[str, str]]:
        """The name in lines, each with its face."""
        found: list[tuple[str, str]] = []
        for face, text in zip((_STRONG, _BODY, _BODY), entry.name, strict=True):
            self._pdf.set_font(face, size=NAME_SIZE)
            room = self._width - self._picture[0] - 2
            found += [(face, line) for line in wrapped(text, self._pdf.get_string_width, room, 4)]
        if entry.own:
            text = words.own_words(entry.own)
            found += [(_BODY, line) for line in wrapped(text, self._pdf.get_string_width, room, 4)]
        return found

    def _cell(self, entry: SheetEntry, x: float, y: float) -> None:
        left = x
        image = Image.fromarray(picture_of(entry, self._how, self._draw)).convert("RGB")
        self._pdf.image(image, x, y - 1, w=self._picture[0], alt_text=", ".join(entry.name))
        x += self._picture[0] + 2
        for face, line in self._lines(entry):
            self._write(face, NAME_SIZE, x, y, line)
            y += NAME_HEIGHT
        y += 1
        for word, turns in entry.facts:
            self._write(_BODY, 8, x, y, word, _GREY)
            self._write_turns(turns, x + _LABEL, y, left + self._width)
            y += FACT_HEIGHT

    def _write_turns(self, turns: str, x: float, y: float, right: float) -> None:
        """Turns in one line, smaller where they would not fit."""
        size = 10.5
        self._pdf.set_font(_STRONG, size=size)
        needed = self._pdf.get_string_width(turns) + 1
        self._write(_STRONG, size * min(1.0, (right - x) / needed), x, y, turns)

    def _write(self, face: str, size: float, x: float, y: float, text: str, ink: int = _BLACK) -> None:
        pdf = self._pdf
        pdf.set_font(face, size=size)
        pdf.set_text_color(ink)
        pdf.set_xy(x, y)
        pdf.cell(h=FACT_HEIGHT, text=text)
