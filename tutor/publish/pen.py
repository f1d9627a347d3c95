"""Text and strokes on the pages of a PDF file, or only how much room they need."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import files
from typing import TYPE_CHECKING

from msgspec import Struct

from tutor.publish import words
from tutor.publish.files import PublishError
from tutor.publish.lettering import wrapped

if TYPE_CHECKING:
    from fpdf import FPDF

LEADING = 0.46
"""Height of a line in millimetres for each point of its type."""
MARGIN = 13.0
"""Millimetres on all four sides of a page."""
MOST_LINES = 60
BLACK, GREY, RULE = 0, 80, 150
_FACES = {
    "body": ("font_source_sans_pro", "SourceSansPro-Regular.ttf"),
    "strong": ("font_source_sans_pro", "SourceSansPro-Semibold.ttf"),
    "serif": ("font_source_serif_pro", "SourceSerifPro-Semibold.ttf"),
}


class TypeSize(Struct, frozen=True):
    """A typeface and its size in points."""

    face: str
    points: float

    @property
    def line(self) -> float:
        """Height of a line in millimetres."""
        return self.points * LEADING


TITLE, HEADING = TypeSize("serif", 22.0), TypeSize("serif", 13.0)
LEAD, PARAGRAPH = TypeSize("body", 11.5), TypeSize("body", 10.5)
TEXT, DETAIL, SMALL = TypeSize("body", 9.5), TypeSize("body", 8.5), TypeSize("body", 8.0)
NAME, STRONG, TURNS = TypeSize("strong", 10.0), TypeSize("strong", 9.5), TypeSize("strong", 11.0)


def new_pdf(title: str, paper: str) -> FPDF:
    """An empty file with the typefaces."""
    from fpdf import FPDF

    pdf = FPDF(format=paper)
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    pdf.c_margin = 0.0
    pdf.set_title(title)
    pdf.set_creator(words.PROGRAM)
    pdf.set_lang("en")
    for name, (package, file) in _FACES.items():
        pdf.add_font(name, fname=str(files(package).joinpath("files", file)))
    return pdf


class Pen:
    """Writes and draws; all measures are in millimetres. While it is ``dry`` it only measures."""

    def __init__(self, pdf: FPDF) -> None:
        self.pdf = pdf
        self.dry = False

    @contextmanager
    def measuring(self) -> Iterator[None]:
        """A block in which nothing is printed."""
        before, self.dry = self.dry, True
        try:
            yield
        finally:
            self.dry = before

    def width(self, kind: TypeSize, text: str) -> float:
        """How wide a text is in one line."""
        self.pdf.set_font(kind.face, size=kind.points)
        return float(self.pdf.get_string_width(text))

    def lines(self, kind: TypeSize, text: str, width: float) -> tuple[str, ...]:
        """A text in lines no wider than ``width``."""
        self.pdf.set_font(kind.face, size=kind.points)
        return wrapped(text, self.pdf.get_string_width, width, MOST_LINES)

    def write(self, kind: TypeSize, text: str, x: float, y: float, width: float, ink: int = BLACK) -> float:
        """Write a text in lines, and return how high it is."""
        lines = self.lines(kind, text, width)
        for number, line in enumerate(lines):
            self.word(kind, line, x, y + number * kind.line, ink)
        return len(lines) * kind.line

    def word(self, kind: TypeSize, text: str, x: float, y: float, ink: int = BLACK) -> None:
        """Write a text in one line. Raises PublishError where the typeface lacks a letter of it."""
        if self.dry or not text:
            return
        if lacking := self._lacking(kind, text):
            raise PublishError(words.no_letters(lacking))
        self.pdf.set_font(kind.face, size=kind.points)
        self.pdf.set_text_color(ink)
        self.pdf.set_xy(x, y)
        self.pdf.cell(h=kind.line, text=text)

    def _lacking(self, kind: TypeSize, text: str) -> str:
        """The letters of a text for which the typeface has no form, each once."""
        from fpdf.fonts import TTFFont

        typeface = self.pdf.fonts[kind.face]
        assert isinstance(typeface, TTFFont)
        return "".join(dict.fromkeys(letter for letter in text if ord(letter) not in typeface.cmap))

    def word_up_to(self, kind: TypeSize, text: str, right: float, y: float, ink: int = BLACK) -> None:
        """Write a text in one line that ends at the right."""
        self.word(kind, text, right - self.width(kind, text), y, ink)

    def line(self, left: float, y: float, right: float) -> None:
        """Draw a level line."""
        if not self.dry:
            self.pdf.set_draw_color(RULE)
            self.pdf.set_line_width(0.25)
            self.pdf.line(left, y, right, y)

    def outline(
        self, x: float, y: float, width: float, height: float, *, corner: float = 2.0, dashed: bool = False
    ) -> None:
        """Draw a frame with round corners."""
        if self.dry:
            return
        self.pdf.set_draw_color(GREY)
        self.pdf.set_line_width(0.25)
        if dashed:
            self.pdf.set_dash_pattern(dash=1.0, gap=0.8)
        self.pdf.rect(x, y, width, height, round_corners=True, corner_radius=corner)
        self.pdf.set_dash_pattern()

    def swatch(self, x: float, y: float, side: float, ink: tuple[int, int, int]) -> None:
        """Draw a square in a colour."""
        if not self.dry:
            self.pdf.set_fill_color(*ink)
            self.pdf.set_draw_color(GREY)
            self.pdf.set_line_width(0.2)
            self.pdf.rect(x, y, side, side, style="DF")

    def ground(self, x: float, y: float, width: float, height: float, ink: tuple[int, int, int]) -> None:
        """Fill a field with round corners."""
        if not self.dry:
            self.pdf.set_fill_color(*ink)
            self.pdf.rect(x, y, width, height, style="F", round_corners=True, corner_radius=0.8)

    def dot(self, x: float, y: float, radius: float) -> None:
        """Draw a dot about a point, with a rim that shows on every ground."""
        if not self.dry:
            self.pdf.set_fill_color(BLACK)
            self.pdf.set_draw_color(255)
            self.pdf.set_line_width(0.15)
            self.pdf.ellipse(x - radius, y - radius, 2 * radius, 2 * radius, style="DF")
