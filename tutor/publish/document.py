"""A handout as plain values: chapters of blocks, which one writer puts on paper and another on a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from tutor.publish.captions import Caption
from tutor.ui.view import Look, Stage

SMALL, WITH_MIRRORS = (480, 420), (640, 468)
"""Pixels of a picture without and with mirrors: about 300 to the inch, as printed."""


@dataclass(frozen=True, slots=True)
class CubePicture:
    """A cube, and what is written under it and read to those who cannot see it."""

    stage: Stage
    look: Look
    alt: str
    caption: str = ""

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in pixels."""
        return WITH_MIRRORS if self.look.mirrors else SMALL


@dataclass(frozen=True, slots=True)
class Stop:
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


@dataclass(frozen=True, slots=True)
class Stepping:
    """Turns with the stops before, between and after them."""

    turns: tuple[str, ...]
    stops: tuple[Stop, ...]


@dataclass(frozen=True, slots=True)
class TurnRow:
    """A line of a table: what it is about, and one text for each column."""

    label: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TurnTable:
    """Rows under a header; the header has one text for each column of cells."""

    header: tuple[str, ...]
    rows: tuple[TurnRow, ...]


@dataclass(frozen=True, slots=True)
class Cell:
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


@dataclass(frozen=True, slots=True)
class Subheading:
    """A heading within a chapter."""

    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A text across the page."""

    text: str


@dataclass(frozen=True, slots=True)
class Cells:
    """Cells side by side in so many columns; the picture is above what belongs to it, or ``beside`` it.

    ``on_paper``: another cell steps through the same, so a page shows these only in print.
    """

    cells: tuple[Cell, ...]
    columns: int = 1
    beside: bool = True
    on_paper: bool = False


@dataclass(frozen=True, slots=True)
class BoxedText:
    """A text and points in a frame, with so many free lines; what is for the learner's pen is ``dashed``."""

    title: str
    text: str = ""
    points: tuple[str, ...] = ()
    lines: int = 0
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Boxes:
    """Framed texts side by side."""

    boxes: tuple[BoxedText, ...]


@dataclass(frozen=True, slots=True)
class QuestionAnswer:
    """The answer to a question, by its number."""

    number: int
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AnswerList:
    """Answers under the title of the lesson whose questions they belong to."""

    title: str
    answers: tuple[QuestionAnswer, ...]


@dataclass(frozen=True, slots=True)
class ColourKey:
    """The colours of the stickers with their names, so that they can be told apart in grey print too."""

    title: str
    colours: tuple[tuple[tuple[int, int, int], str, str], ...]
    """Each with its letter, empty where the stickers have none, and its name."""


@dataclass(frozen=True, slots=True)
class SignCell:
    """A sign on a ground, white where the ground is dark; ``dotted``: with a dot in its corner."""

    sign: str
    ground: tuple[int, int, int] | None = None
    white: bool = False
    dotted: bool = False


@dataclass(frozen=True, slots=True)
class SignRow:
    """A row of signs with what it is about, and a figure at its end."""

    label: str
    cells: tuple[SignCell, ...]
    figure: str


@dataclass(frozen=True, slots=True)
class SignTable:
    """Signs under a header; on paper, columns that do not fit beside the others go on below."""

    header: tuple[str, ...]
    rows: tuple[SignRow, ...]


DocumentBlock = Subheading | Paragraph | Cells | Boxes | AnswerList | ColourKey | SignTable


@dataclass(frozen=True, slots=True)
class Chapter:
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


@dataclass(frozen=True, slots=True)
class Document:
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
