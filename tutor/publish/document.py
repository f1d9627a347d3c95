"""A handout as plain values: chapters of blocks, which one writer puts on paper and another on a page."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from tutor.publish.captions import Caption
from tutor.ui.view import Look, Stage

SMALL, WITH_MIRRORS = (480, 420), (640, 468)
"""Pixels of a picture without and with mirrors: about 300 to the inch, as printed."""


class CubePicture(Struct, frozen=True):
    """A cube, and what is written under it and read to those who cannot see it."""

    stage: Stage
    look: Look
    alt: str
    caption: str = ""

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in pixels."""
        return WITH_MIRRORS if self.look.mirrors else SMALL


class Stop(Struct, frozen=True):
    """The cube after so many turns, the next one marked by its arrow, and what is said of both.

    ``halfway`` shows that next turn half made; after the last turn there is none.
    """

    picture: CubePicture
    said: tuple[Caption, ...]
    halfway: CubePicture | None = None

    @property
    def seconds(self) -> float:
        """How long the stop lasts where the turns play by themselves."""
        return sum(caption.seconds for caption in self.said)


class Stepping(Struct, frozen=True):
    """Turns with the stops before, between and after them."""

    turns: tuple[str, ...]
    stops: tuple[Stop, ...]


class TurnRow(Struct, frozen=True):
    """A line of a table: what it is about, and one text for each column."""

    label: str
    cells: tuple[str, ...]


class TurnTable(Struct, frozen=True):
    """Rows under a header; the header has one text for each column of cells."""

    header: tuple[str, ...]
    rows: tuple[TurnRow, ...]


class Cell(Struct, frozen=True):
    """Pictures with what belongs to them: a sign, a heading, turns, texts, and room to answer."""

    pictures: tuple[CubePicture, ...] = ()
    sign: str = ""
    """A word in a frame above all, such as the name of a step."""
    heading: str = ""
    turns: tuple[str, ...] = ()
    texts: tuple[str, ...] = ()
    details: tuple[str, ...] = ()
    """Smaller texts after the others."""
    options: tuple[str, ...] = ()
    """Answers to tick."""
    label: str = ""
    """Before the lines to write on."""
    lines: int = 0
    """So many lines to write on."""
    table: TurnTable | None = None
    stepping: Stepping | None = None
    """On a page for the browser, what takes the place of the first picture."""

    @property
    def count(self) -> int:
        """So many texts, details and options there are."""
        return len(self.texts) + len(self.details) + len(self.options)

    def parted(self, count: int) -> tuple[Cell, Cell]:
        """The cell up to so many of its texts, details and options, and the rest of it."""
        details = max(0, count - len(self.texts))
        options = max(0, details - len(self.details))
        first = replace(
            self,
            texts=self.texts[:count],
            details=self.details[:details],
            options=self.options[:options],
            label="",
            lines=0,
            table=None,
        )
        rest = Cell(
            texts=self.texts[count:],
            details=self.details[details:],
            options=self.options[options:],
            label=self.label,
            lines=self.lines,
            table=self.table,
        )
        return first, rest


class Subheading(Struct, frozen=True):
    """A heading within a chapter."""

    text: str
    own_page: bool = False
    """Whether it begins a page: what comes before it would give away what comes after it."""


class Paragraph(Struct, frozen=True):
    """A text across the page."""

    text: str


class Cells(Struct, frozen=True):
    """Cells side by side in so many columns; the picture is above what belongs to it, or ``beside`` it.

    ``on_paper``: another cell steps through the same, so a page shows these only in print.
    """

    cells: tuple[Cell, ...]
    columns: int = 1
    beside: bool = True
    on_paper: bool = False


class BoxedText(Struct, frozen=True):
    """A text and points in a frame, with so many free lines; what is for the learner's pen is ``dashed``."""

    title: str
    text: str = ""
    points: tuple[str, ...] = ()
    lines: int = 0
    dashed: bool = False


class Boxes(Struct, frozen=True):
    """Framed texts side by side."""

    boxes: tuple[BoxedText, ...]


class QuestionAnswer(Struct, frozen=True):
    """The answer to a question, by its number."""

    number: int
    texts: tuple[str, ...]


class AnswerList(Struct, frozen=True):
    """Answers under the title of the lesson whose questions they belong to."""

    title: str
    answers: tuple[QuestionAnswer, ...]


class ColourKey(Struct, frozen=True):
    """The colours of the stickers with their names, so that they can be told apart in grey print too."""

    title: str
    colours: tuple[tuple[tuple[int, int, int], str, str], ...]
    """Each with its letter, empty where the stickers have none, and its name."""


class SignCell(Struct, frozen=True):
    """A sign on a ground, white where the ground is dark; ``dotted``: with a dot in its corner."""

    sign: str
    ground: tuple[int, int, int] | None = None
    white: bool = False
    dotted: bool = False


class SignRow(Struct, frozen=True):
    """A row of signs with what it is about, and a figure at its end."""

    label: str
    cells: tuple[SignCell, ...]
    figure: str


class SignTable(Struct, frozen=True):
    """Signs under a header; on paper, columns that do not fit beside the others go on below."""

    header: tuple[str, ...]
    rows: tuple[SignRow, ...]


DocumentBlock = Subheading | Paragraph | Cells | Boxes | AnswerList | ColourKey | SignTable


class Chapter(Struct, frozen=True):
    """What begins on a page of its own."""

    title: str
    lead: str
    blocks: tuple[DocumentBlock, ...]
    sign: str = ""
    """Above the title, such as the number of the lesson."""
    form: bool = False
    """Whether it has room for a name and a date."""
    answers: bool = False
    """Whether it has the answers to the others."""


class Document(Struct, frozen=True):
    """A whole handout. ``legend`` is printed on every page; more than one lesson has its ``contents``."""

    title: str
    chapters: tuple[Chapter, ...]
    legend: tuple[str, ...]
    day: date
    learner: str = ""
    contents: bool = False

    @property
    def pictures(self) -> tuple[CubePicture, ...]:
        """All pictures in their order, each once."""
        return tuple(dict.fromkeys(picture for chapter in self.chapters for picture in _pictures(chapter)))


def _pictures(chapter: Chapter) -> Iterator[CubePicture]:
    for block in chapter.blocks:
        if isinstance(block, Cells):
            for cell in block.cells:
                yield from cell.pictures
