"""What a layout is made of: rectangles, lines of text, signs and boxes, all in logical px, y downwards."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from msgspec import Struct
from msgspec.structs import replace

from render.text.typesetting import Font
from tutor.ui.view import Action, Stage

UNIT = 8.0
"""The step of the spacing grid."""


class Rect(Struct, frozen=True):
    """A rectangle from its upper left corner."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The x of the right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The y of the lower edge."""
        return self.y + self.height

    def contains(self, x: float, y: float) -> bool:
        """Whether a point lies inside; the right and lower edge do not."""
        return self.x <= x < self.right and self.y <= y < self.bottom

    def moved(self, x: float, y: float) -> Rect:
        """The same rectangle elsewhere."""
        return Rect(self.x + x, self.y + y, self.width, self.height)

    def inset(self, left: float, top: float | None = None) -> Rect:
        """Smaller by ``left`` on both sides and ``top`` (or the same) above and below; negative grows."""
        by = left if top is None else top
        return Rect(self.x + left, self.y + by, self.width - 2 * left, self.height - 2 * by)


class Ink(Enum):
    """A colour by its use; the value is its name in ``theme.Theme``."""

    TEXT = "text"
    MUTED = "muted"
    DISABLED = "disabled"
    ACCENT = "accent"
    ON_ACCENT = "accent_text"
    GOOD = "good"
    NEUTRAL = "neutral"
    WARNING = "warning"


class BoxKind(Enum):
    """What a box is, which decides how it is painted."""

    PLAIN = "plain"
    """Text or signs alone."""
    BUTTON = "button"
    QUIET = "quiet button"
    """A button of the top bar, without an outline."""
    LINK = "link"
    """A button of the card's foot, in the accent and without an outline."""
    FIELD = "field"
    TILE = "tile"
    BAY = "bay"
    GROUP = "group"
    HIDDEN = "hidden"
    """A dashed frame round what is not shown yet."""
    NOTE = "note"
    """A verdict, with a stripe in its tone."""
    MINIATURE = "miniature"
    STICKER = "sticker"
    """A sticker of a net; ``selected`` has the cursor."""
    SWATCH = "swatch"
    """A colour of a palette."""
    CELL = "cell"
    """A small cube of a map, over a band in its tone."""
    CHIP = "chip"
    """A badge of a legend."""
    PLOT = "plot"
    TIP = "tip"
    """A slip of paper beside what is pointed at."""
    COLUMN = "column"
    """A column of a map, with a chip for each of its cells."""
    TRACK = "track"
    RULE = "rule"
    PATH = "path"
    """A piece of the rail's line, in the ink of its state."""


class Line(Struct, frozen=True):
    """One line of text: where its pen starts, its base line, and how it is set."""

    x: float
    baseline: float
    text: str
    font: Font
    ink: Ink = Ink.TEXT

    def moved(self, x: float, y: float) -> Line:
        """The same line elsewhere."""
        return replace(self, x=self.x + x, baseline=self.baseline + y)


class Sign(Struct, frozen=True):
    """An icon of ``render.paint.icons`` in a square."""

    rect: Rect
    icon: str
    ink: Ink


class Drawing(Struct, frozen=True):
    """The picture in a plot: hair lines, bars, and dots joined by a line."""

    rules: tuple[Rect, ...] = ()
    bars: tuple[Rect, ...] = ()
    dots: tuple[tuple[float, float], ...] = ()

    def moved(self, x: float, y: float) -> Drawing:
        """The same drawing elsewhere."""
        return Drawing(
            tuple(rule.moved(x, y) for rule in self.rules),
            tuple(bar.moved(x, y) for bar in self.bars),
            tuple((dot[0] + x, dot[1] + y) for dot in self.dots),
        )


class Chip(Struct, frozen=True):
    """The ground of a sign, full of its tone when ``solid``; with a dot in its corner."""

    rect: Rect
    ink: Ink
    solid: bool = False
    dot: Rect | None = None

    def moved(self, x: float, y: float) -> Chip:
        """The same chip elsewhere."""
        return replace(self, rect=self.rect.moved(x, y), dot=self.dot and self.dot.moved(x, y))


class Box(Struct, frozen=True):
    """A placed part of the interface."""

    rect: Rect
    kind: BoxKind = BoxKind.PLAIN
    lines: tuple[Line, ...] = ()
    signs: tuple[Sign, ...] = ()
    action: Action | None = None
    enabled: bool = True
    primary: bool = False
    selected: bool = False
    played: bool = False
    outlined: bool = False
    """A tile that differs from the one it is compared with."""
    focused: bool = False
    fresh: bool = False
    """Words said just now."""
    ink: Ink = Ink.TEXT
    """Tone of a note's stripe or of a field's error."""
    fraction: float = 0.0
    """How far a track is filled."""
    keycap: Rect | None = None
    """Outline round a key's name."""
    caret: Rect | None = None
    underline: Rect | None = None
    chosen: tuple[Rect, ...] = ()
    """The ground of chosen text."""
    """Under the place of a mistake in a field."""
    picture: Rect | None = None
    """Where ``stage`` is drawn small, or ``colour`` shown."""
    stage: Stage | None = None
    colour: int | None = None
    """A sticker's colour number, or HIDDEN."""
    band: Rect | None = None
    """Ground of a badge: full of the tone when the box is primary, else tinged with it."""
    dot: Rect | None = None
    chips: tuple[Chip, ...] = ()
    drawing: Drawing | None = None
    tip: Box | None = None
    """Lies over everything near while this box is pointed at or has the focus."""

    def moved(self, x: float, y: float) -> Box:
        """The same box elsewhere, with all that is on it."""
        return replace(
            self,
            rect=self.rect.moved(x, y),
            lines=tuple(line.moved(x, y) for line in self.lines),
            signs=tuple(replace(sign, rect=sign.rect.moved(x, y)) for sign in self.signs),
            keycap=self.keycap and self.keycap.moved(x, y),
            caret=self.caret and self.caret.moved(x, y),
            chosen=tuple(each.moved(x, y) for each in self.chosen),
            underline=self.underline and self.underline.moved(x, y),
            picture=self.picture and self.picture.moved(x, y),
            band=self.band and self.band.moved(x, y),
            dot=self.dot and self.dot.moved(x, y),
            chips=tuple(chip.moved(x, y) for chip in self.chips),
            drawing=self.drawing and self.drawing.moved(x, y),
            tip=self.tip and self.tip.moved(x, y),
        )


class WindowPart(Enum):
    """The parts of the window."""

    BAR = "bar"
    PAGE = "page"
    CARD = "card"
    LINE = "line"
    """Above the cube of a board: what is said."""
    ASIDE = "aside"
    """Beside the cube of a board: the answer."""
    FOOT = "foot"
    """Beneath a card that scrolls: its main button, always in sight."""
    RAIL = "rail"
    NOTICE = "notice"
    OVERLAY = "overlay"


class Panel(Struct, frozen=True):
    """A part of the window with its boxes, in window coordinates at scroll 0.

    When ``content`` (the height of all there is) exceeds the rectangle's height, the panel scrolls.
    """

    place: WindowPart
    rect: Rect
    boxes: tuple[Box, ...]
    content: float

    @property
    def scroll_limit(self) -> float:
        """The largest scroll offset; 0 when everything fits."""
        return max(0.0, self.content - self.rect.height)


class Playhead(Struct, frozen=True):
    """The rail's scrubber: for each shown turn its left and right edge, from turn ``first`` on."""

    area: Rect
    """Where a drag scrubs."""
    first: int
    spans: tuple[tuple[float, float], ...]
    position: float | None

    def x_of(self, position: float) -> float:
        """Where a count of turns lies; clamped to what is shown."""
        if not self.spans:
            return self.area.x
        inside = min(max(position - self.first, 0.0), float(len(self.spans)))
        index = min(int(inside), len(self.spans) - 1)
        left, right = self.spans[index]
        return left + (inside - index) * (right - left)

    def position_of(self, x: float) -> float:
        """The count of turns at ``x``; between two tiles it is a whole number."""
        for index, (left, right) in enumerate(self.spans):
            if x < right:
                return self.first + index + max(0.0, (x - left) / (right - left))
        return float(self.first + len(self.spans))


class Scene(Struct, frozen=True):
    """A whole window laid out. Panels are in the order they are painted; the overlay is last."""

    width: float
    height: float
    panels: tuple[Panel, ...]
    stage: Rect | None
    playhead: Playhead | None

    def panel(self, place: WindowPart) -> Panel | None:
        """The panel at a place, if there is one."""
        return next((panel for panel in self.panels if panel.place is place), None)

    def boxes(self) -> Iterator[tuple[Panel, Box]]:
        """All boxes with their panels."""
        for panel in self.panels:
            for box in panel.boxes:
                yield panel, box
