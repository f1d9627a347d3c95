"""The words of a film: its title, the steps with their turns, and a caption, beside the cube or below it.

They lie where they leave the cube most room, and stay where they are all through the film.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache, cached_property
from importlib.resources import files
from io import BytesIO
from math import ceil

from msgspec import Struct
from msgspec.structs import replace
from PIL import Image, ImageDraw, ImageFont

from tutor.publish.film import Film, FilmPiece, TitleCard, Words
from tutor.publish.tile_rows import Grid, TileRow, rows_in_view, tile_rows

Ink = tuple[int, int, int]
"""Red, green and blue, 0 to 255."""

_FILES = {
    False: ("font_source_sans_pro", "SourceSansPro-Regular.ttf"),
    True: ("font_source_sans_pro", "SourceSansPro-Semibold.ttf"),
}


class Inks(Struct, frozen=True):
    """Colours of paper and text, taken from the window's theme."""

    background: Ink
    """Behind the cube."""
    ground: Ink
    """Under the turns and the caption."""
    tile: Ink
    line: Ink
    text: Ink
    muted: Ink
    accent: Ink
    accent_text: Ink
    slip: Ink


@cache
def font_file(strong: bool) -> bytes:
    """The file of the typeface, regular or semibold."""
    package, name = _FILES[strong]
    return files(package).joinpath("files", name).read_bytes()


@cache
def _font(size: int, strong: bool) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(BytesIO(font_file(strong)), size, layout_engine=ImageFont.Layout.BASIC)


LEAST_TEXT = 28
"""The smallest letters are this part of the height of the film."""
_LINE, _TILE, _NAME = 1.3, 1.6, 1.25
"""Heights of a line, of a tile and of a name over tiles, in letters."""
_PAD, _APART = 0.75, 0.25
"""The space round all words, and between title, turns and caption, in letters."""
_PANELS = tuple(share / 100 for share in range(26, 50, 2))
"""Widths that words beside the cube may have, as parts of the film's, the narrowest first."""
_NARROWEST = 10
"""A panel beside the cube is at least so many letters wide."""
_CLEARLY_LARGER = 1.1
"""Words go beside the cube where that makes it larger by this factor at least."""
_MOST_BELOW = 0.56
"""Words below the cube take no more of the height."""
_WITH_MIRRORS, _WITHOUT = (10.8, 8.7), (5.8, 5.6)
"""Width and height that the cube takes, with its mirrors and alone."""


def wrapped(text: str, measure: Callable[[str], float], width: float, most: int) -> tuple[str, ...]:
    """The text in lines no wider than ``width``, at most ``most`` of them; what is left out is marked.

    ``measure`` gives the width of a line. A word wider than a line is broken, after a hyphen if it has one.
    """
    lines: list[str] = []
    for paragraph in text.splitlines():
        line = ""
        for word in paragraph.split():
            line = f"{line} {word}" if line else word
            while len(line) > 1 and measure(line) > width:
                cut = _cut(line, measure, width)
                lines.append(line[:cut].rstrip())
                line = line[cut:]
        lines.append(line)
    if len(lines) > most:
        last = lines[most - 1]
        while last and measure(f"{last} …") > width:
            last = last.rpartition(" ")[0] or last[:-1]
        lines[most - 1 :] = [f"{last} …"]
    return tuple(lines)


def _cut(line: str, measure: Callable[[str], float], width: float) -> int:
    """Where a line breaks whose last word takes it over its width."""
    word = line.rfind(" ") + 1
    if word and measure(line[word:]) <= width:
        return word
    fitting = max((end for end in range(1, len(line)) if measure(line[:end]) <= width), default=1)
    return line.rfind("-", word, fitting) + 1 or word or fitting


def _begun(words: Words | TitleCard) -> Words | TitleCard:
    """The same words before any turn: what takes as much room is measured once."""
    return words if isinstance(words, TitleCard) else replace(words, pace="", done=0, turning=False)


class PixelBox(Struct, frozen=True):
    """A part of a picture, in pixels."""

    left: int
    top: int
    width: int
    height: int


class Lettering(Struct, frozen=True, dict=True):
    """Where the words of one film lie and how they are drawn; ``captions`` says whether those are drawn.

    ``em`` is the size of the letters. ``rows`` of turns and ``lines`` of a caption are seen at most.
    """

    size: tuple[int, int]
    panel: PixelBox
    em: int
    rows: int
    lines: int
    inks: Inks
    captions: bool = True

    @classmethod
    def of(cls, film: Film, inks: Inks, *, captions: bool = True) -> Lettering:
        """The lettering that leaves the cube most room, with room for all that is said in the film."""
        every = tuple({_begun(frame.words) for frame in film.frames})
        beside = (cls._beside(film, share, inks, captions) for share in _PANELS)
        wide = (each for each in beside if each.panel.width >= _NARROWEST * each.em)
        needs = _WITH_MIRRORS if film.shot.look.mirrors else _WITHOUT
        below = cls._below(film, every, inks, captions)
        # The narrowest leaves the cube most room.
        best = next((each for each in wide if each._height(every) <= each.panel.height), below)
        if best._scale(needs) < _CLEARLY_LARGER * below._scale(needs):
            return below
        return best._enlarged(every) if best.beside else best

    @classmethod
    def _beside(cls, film: Film, share: float, inks: Inks, captions: bool) -> Lettering:
        width, height = film.shot.size
        panel = PixelBox(width - round(share * width), 0, round(share * width), height)
        return cls(film.shot.size, panel, ceil(height / LEAST_TEXT), 8, 12, inks, captions)

    @classmethod
    def _below(
        cls, film: Film, every: tuple[Words | TitleCard, ...], inks: Inks, captions: bool
    ) -> Lettering:
        """Words below the cube: with fewer rows and lines where there is not room for all."""
        width, height = film.shot.size
        most = round(_MOST_BELOW * height)
        for rows, lines in ((3, 8), (2, 8), *((1, lines) for lines in range(8, 0, -1))):
            made = cls(
                film.shot.size,
                PixelBox(0, 0, width, height),
                ceil(height / LEAST_TEXT),
                rows,
                lines,
                inks,
                captions,
            )
            needed = made._height(every)
            if needed <= most or (rows, lines) == (1, 1):
                break
        needed = min(needed, most)
        return replace(made, panel=PixelBox(0, height - needed, width, needed))

    def _enlarged(self, every: tuple[Words | TitleCard, ...]) -> Lettering:
        """With the largest letters for which the panel has room."""
        sizes = (round(self.em * tenths / 10) for tenths in range(14, 10, -1))
        larger = (replace(self, em=size) for size in sizes)
        return next((each for each in larger if each._height(every) <= each.panel.height), self)

    @property
    def beside(self) -> bool:
        """Whether the words lie beside the cube."""
        return self.panel.top == 0 and self.panel.left > 0

    @property
    def stage(self) -> PixelBox:
        """What is left for the cube."""
        width, height = self.size
        return (
            PixelBox(0, 0, self.panel.left, height) if self.beside else PixelBox(0, 0, width, self.panel.top)
        )

    def _scale(self, needs: tuple[float, float]) -> float:
        """Pixels of a cubie on the stage."""
        return min(self.stage.width / needs[0], self.stage.height / needs[1])

    def drawn(self, words: Words | TitleCard) -> Image.Image:
        """All words of a moment, as large as the panel."""
        image = Image.new("RGB", (self.panel.width, self.panel.height), self.inks.ground)
        draw, rule = ImageDraw.Draw(image), max(1, self.em // 16)
        edge = (0, 0, rule - 1, self.panel.height) if self.beside else (0, 0, self.panel.width, rule - 1)
        draw.rectangle(edge, self.inks.line)
        y = self._px(_PAD)
        if isinstance(words, TitleCard):
            self._draw_card(draw, words, y)
            return image
        for line in self._title(words):
            y = self._draw_line(draw, y, line, strong=True)
        y = self._draw_turns(draw, words, y + self._px(_APART))
        self._draw_caption(draw, words, y + self._px(_APART))
        return image

    # -------------------------------------------------------------------------------------------- measures

    def _px(self, ems: float) -> int:
        return max(1, round(ems * self.em))

    @property
    def _room(self) -> float:
        return self.panel.width - 2 * self._px(_PAD)

    def _height(self, every: Iterable[Words | TitleCard]) -> int:
        """Of all that is said at a time, at most."""
        line, most = self._px(_LINE), 0
        for words in every:
            if isinstance(words, TitleCard):
                height = len(self._card_lines(words)) * line
            else:
                rows = min(self.rows, len(self._tile_rows(words.pieces)))
                height = len(self._title(words)) * line + rows * self._row_height(words.pieces)
                height += self._caption_height(words) + 2 * self._px(_APART)
            most = max(most, height)
        return most + 2 * self._px(_PAD)

    def _caption_height(self, words: Words) -> int:
        """Of the caption under its heading; without one the pace takes a line."""
        if not self.captions or not words.caption.text:
            return self._px(_LINE)
        heading = self._px(_LINE) if words.caption.heading else 0
        return heading + len(self._caption(words)) * self._px(_LINE)

    def _title(self, words: Words) -> tuple[str, ...]:
        title = words.title.split("\n")[0]
        return wrapped(title, self._strong.getlength, self._room, 4 if self.beside else 2)

    def _caption(self, words: Words) -> tuple[str, ...]:
        if not words.caption.text:
            return ()
        return wrapped(words.caption.text, self._plain.getlength, self._room, self.lines)

    def _card_lines(self, card: TitleCard) -> list[tuple[str, bool]]:
        """The lines of a card, and whether each is of the heading."""
        heading = wrapped(card.heading, self._strong.getlength, self._room, 4)
        told = (wrapped(line, self._plain.getlength, self._room, self.lines) for line in card.lines)
        return [*((line, True) for line in heading), *((line, False) for each in told for line in each)]

    @cached_property
    def _plain(self) -> ImageFont.FreeTypeFont:
        return _font(self.em, False)

    @cached_property
    def _strong(self) -> ImageFont.FreeTypeFont:
        return _font(self.em, True)

    def _tile_rows(self, pieces: tuple[FilmPiece, ...]) -> tuple[TileRow, ...]:
        grid = Grid(self._room, self._tile_width(pieces), self._px(0.2), self._px(0.8))
        return tile_rows(pieces, grid, self._strong.getlength)

    def _tile_width(self, pieces: tuple[FilmPiece, ...]) -> int:
        widths = (self._strong.getlength(turn.notation) for piece in pieces for turn in piece.turns)
        return max(self._px(1.7), ceil(max(widths, default=0.0)) + self._px(0.5))

    def _row_height(self, pieces: tuple[FilmPiece, ...]) -> int:
        named = any(piece.name for piece in pieces)
        return self._px(_TILE) + self._px(0.45) + (self._px(_NAME) if named else 0)

    # --------------------------------------------------------------------------------------------- drawing

    def _left(self, width: float) -> float:
        """Where something so wide begins: beside the cube at the left, below it in the middle."""
        return self._px(_PAD) if self.beside else (self.panel.width - width) / 2

    def _draw_line(
        self, draw: ImageDraw.ImageDraw, y: int, text: str, *, strong: bool = False, ink: Ink | None = None
    ) -> int:
        font = self._strong if strong else self._plain
        place = self._left(font.getlength(text)), y + self._px(1.0)
        draw.text(place, text, ink or self.inks.text, font, anchor="ls")
        return y + self._px(_LINE)

    def _draw_card(self, draw: ImageDraw.ImageDraw, card: TitleCard, y: int) -> None:
        lines = self._card_lines(card)
        y = max(y, (self.panel.height - len(lines) * self._px(_LINE)) // 2) if not self.beside else y
        for text, strong in lines:
            y = self._draw_line(draw, y, text, strong=strong)

    def _draw_turns(self, draw: ImageDraw.ImageDraw, words: Words, y: int) -> int:
        rows = self._tile_rows(words.pieces)
        for row in rows_in_view(rows, words.done, self.rows) if rows else ():
            left = self._left(row.width)
            for away, piece, name in row.names:
                ink = self._ink_of(words, piece)
                draw.text((left + away, y + self._px(1.05)), name, ink, self._strong, anchor="ls")
            top = y + (self._px(_NAME) if any(piece.name for piece in words.pieces) else 0)
            self._draw_row(draw, row, words, left, top + self._px(0.1))
            y += self._row_height(words.pieces)
        return y

    def _ink_of(self, words: Words, number: int) -> Ink:
        """The colour of a piece's name: whether it is over, under way, or comes."""
        piece = words.pieces[number]
        first = sum(len(each.turns) for each in words.pieces[:number])
        if piece.slip:
            return self.inks.slip
        if words.done >= first + len(piece.turns):
            return self.inks.text
        here = words.done >= first and (words.turning or words.done > 0)
        return self.inks.accent if here else self.inks.muted

    def _draw_row(self, draw: ImageDraw.ImageDraw, row: TileRow, words: Words, left: float, y: int) -> None:
        wide = self._tile_width(words.pieces)
        for each in row.tiles:
            x = left + each.left
            box = (x, y, x + wide, y + self._px(_TILE))
            current = each.turn == words.done and words.turning
            accent = self.inks.slip if words.pieces[each.piece].slip else self.inks.accent
            fill = accent if current else self.inks.tile
            past = self.inks.text if each.turn < words.done else self.inks.line
            edge = accent if current or words.pieces[each.piece].slip else past
            draw.rounded_rectangle(box, self._px(0.28), fill, edge, self._px(0.06))
            ink = self.inks.accent_text if current else self.inks.text
            font = self._strong if current or each.turn < words.done else self._plain
            draw.text((x + wide / 2, y + self._px(1.15)), each.notation, ink, font, anchor="ms")

    def _draw_caption(self, draw: ImageDraw.ImageDraw, words: Words, y: int) -> None:
        if not self.captions or not words.caption.text:
            self._draw_line(draw, y, words.pace, ink=self.inks.muted)
            return
        if words.caption.heading:
            y = self._draw_line(draw, y, words.caption.heading, strong=True)
        for line in self._caption(words):
            y = self._draw_line(draw, y, line)
