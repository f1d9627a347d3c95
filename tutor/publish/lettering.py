"""The words of a film: a line above the cube, and below it the steps, their turns and a caption."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from io import BytesIO
from itertools import accumulate

from PIL import Image, ImageDraw, ImageFont

from tutor.publish import words as said
from tutor.publish.film import Film, FilmPiece, Words

Ink = tuple[int, int, int]
"""Red, green and blue, 0 to 255."""

_FILES = {
    False: ("font_source_sans_pro", "SourceSansPro-Regular.ttf"),
    True: ("font_source_sans_pro", "SourceSansPro-Semibold.ttf"),
}


@dataclass(frozen=True, slots=True)
class Inks:
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


@cache
def font_file(strong: bool) -> bytes:
    """The file of the typeface, regular or semibold."""
    package, name = _FILES[strong]
    return files(package).joinpath("files", name).read_bytes()


@cache
def _font(size: int, strong: bool) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(BytesIO(font_file(strong)), size, layout_engine=ImageFont.Layout.BASIC)


def wrapped(text: str, measure: Callable[[str], float], width: float, most: int) -> tuple[str, ...]:
    """The text in lines no wider than ``width``, at most ``most`` of them; what is left out is marked.

    ``measure`` gives the width of a line.
    """
    lines: list[str] = []
    for paragraph in text.splitlines():
        line = ""
        for word in paragraph.split():
            if line and measure(f"{line} {word}") > width:
                lines.append(line)
                line = ""
            line = f"{line} {word}" if line else word
        lines.append(line)
    if len(lines) > most:
        last = f"{lines[most - 1]} …"
        while measure(last) > width and " " in last[:-2]:
            last = f"{last[:-2].rpartition(' ')[0]} …"
        lines[most - 1 :] = [last]
    return tuple(lines)


@dataclass(frozen=True, slots=True)
class Lettering:
    """Sizes of the strips above and below the cube, in pixels, for one film."""

    width: int
    height: int
    scale: float
    title_lines: int
    caption_lines: int
    inks: Inks

    @classmethod
    def of(cls, film: Film, inks: Inks) -> Lettering:
        """Strips with room for all that is said in the film, so that the cube never moves."""
        width, height = film.shot.size
        scale = min(width / 640, height / 480)
        plain = cls(width, height, scale, 2, 8, inks)
        every = {frame.words for frame in film.frames}
        titles = max(len(plain._title(words)) for words in every)
        captions = max(len(plain._caption(words)) for words in every)
        return cls(width, height, scale, titles, min(captions, plain.most_caption_lines), inks)

    @property
    def most_caption_lines(self) -> int:
        """So many lines leave more than half of the picture to the cube."""
        return max(1, int((0.47 * self.height - self.px(88)) // self.px(21)))

    def px(self, size: float) -> int:
        """A size of the design, drawn for 640 by 480, in pixels of this film."""
        return max(1, round(size * self.scale))

    @property
    def head_height(self) -> int:
        """Of the strip above the cube."""
        return self.px(10) + self.title_lines * self.px(18) if self.title_lines else 0

    @property
    def foot_height(self) -> int:
        """Of the strip below the cube."""
        captions = self.px(6) + self.caption_lines * self.px(21) if self.caption_lines else 0
        return self.px(64) + captions

    @property
    def stage_size(self) -> tuple[int, int]:
        """What is left for the cube: width and height."""
        return self.width, self.height - self.head_height - self.foot_height

    def head(self, words: Words) -> Image.Image:
        """The strip above the cube: what is shown, and at which pace."""
        image = Image.new("RGB", (self.width, max(1, self.head_height)), self.inks.background)
        draw, pad = ImageDraw.Draw(image), self.px(12)
        for number, line in enumerate(self._title(words)):
            y = self.px(8) + self.px(14) + number * self.px(18)
            draw.text((pad, y), line, self.inks.text, _font(self.px(15), number == 0), anchor="ls")
        right = self.width - pad, self.px(8) + self.px(14)
        draw.text(right, words.pace, self.inks.muted, _font(self.px(14), False), anchor="rs")
        return image

    def foot(self, words: Words) -> Image.Image:
        """The strip below the cube: the steps with their turns, and the caption."""
        image = Image.new("RGB", (self.width, self.foot_height), self.inks.ground)
        draw = ImageDraw.Draw(image)
        draw.rectangle((0, 0, self.width, self.px(1) - 1), self.inks.line)
        self._draw_turns(draw, words)
        font = _font(self.px(16), False)
        for number, line in enumerate(self._caption(words)[: self.caption_lines]):
            y = self.px(64) + self.px(15) + number * self.px(21)
            draw.text((self.width / 2, y), line, self.inks.text, font, anchor="ms")
        return image

    def _title(self, words: Words) -> tuple[str, ...]:
        room = self.width - 3 * self.px(12) - _font(self.px(14), False).getlength(said.AT_REAL_SPEED)
        return wrapped(words.title, _font(self.px(15), True).getlength, room, 2)

    def _caption(self, words: Words) -> tuple[str, ...]:
        most = min(self.caption_lines, self.most_caption_lines)
        return wrapped(words.caption, _font(self.px(16), False).getlength, self.width - 2 * self.px(20), most)

    # ------------------------------------------------------------------------------------------ the turns

    def _widths(self, pieces: tuple[FilmPiece, ...], tile: int) -> list[float]:
        """Width of each piece: its turns, and no less than the name of its step."""
        name = _font(self.px(13), True)
        titles = [name.getlength(title) for title in step_names(pieces)]
        return [
            max(len(piece.turns) * (tile + self.px(4)) - self.px(4), title)
            for piece, title in zip(pieces, titles, strict=True)
        ]

    def _tile_width(self, pieces: tuple[FilmPiece, ...]) -> int:
        """As wide as fits, between a good and a still readable width."""
        gaps = (len(pieces) - 1) * self.px(16) + 2 * self.px(12)
        fits = [
            wide
            for wide in range(self.px(36), self.px(26), -1)
            if sum(self._widths(pieces, wide)) + gaps <= self.width
        ]
        return fits[0] if fits else self.px(26)

    def _draw_turns(self, draw: ImageDraw.ImageDraw, words: Words) -> None:
        """The tiles in the middle; a row too long for the picture moves along with the turn under way."""
        pieces = tuple(piece for piece in words.pieces if piece.turns)
        tile, gap = self._tile_width(pieces), self.px(16)
        widths = self._widths(pieces, tile)
        lefts = [0.0, *accumulate(width + gap for width in widths)]
        whole, room = lefts[-1] - gap, self.width - 2 * self.px(12)
        offset, first = (self.width - whole) / 2, 0
        if whole > room:
            now = self._left_of(pieces, lefts, words.done, tile)
            offset = self.px(12) - min(max(0.0, now - room / 2), whole - room)
        for piece, name, left in zip(pieces, step_names(pieces), lefts, strict=False):
            done = words.done - first
            self._draw_piece(draw, piece, name, round(left + offset), tile, done, words.turning)
            first += len(piece.turns)

    def _left_of(self, pieces: tuple[FilmPiece, ...], lefts: list[float], turn: int, tile: int) -> float:
        for piece, left in zip(pieces, lefts, strict=False):
            if turn < len(piece.turns):
                return left + turn * (tile + self.px(4))
            turn -= len(piece.turns)
        return lefts[-1]

    def _draw_piece(
        self,
        draw: ImageDraw.ImageDraw,
        piece: FilmPiece,
        name: str,
        left: int,
        tile: int,
        done: int,
        turning: bool,
    ) -> None:
        here = 0 <= done < len(piece.turns) and (turning or done > 0)
        ink = self.inks.accent if here else self.inks.text if done >= len(piece.turns) else self.inks.muted
        draw.text((left, self.px(18)), name, ink, _font(self.px(13), True), anchor="ls")
        for number, turn in enumerate(piece.turns):
            x, y = left + number * (tile + self.px(4)), self.px(24)
            box = (x, y, x + tile, y + self.px(30))
            current = number == done and turning
            fill = self.inks.accent if current else self.inks.tile
            edge = self.inks.accent if current else self.inks.text if number < done else self.inks.line
            draw.rounded_rectangle(box, self.px(5), fill, edge, max(1, self.px(1)))
            text = self.inks.accent_text if current else self.inks.text
            middle = (x + tile / 2, y + self.px(21))
            draw.text(middle, turn.notation, text, _font(self.px(17), number < done or current), anchor="ms")


def step_names(pieces: tuple[FilmPiece, ...]) -> list[str]:
    """The names written over the pieces' turns, once where a step goes on from piece to piece.

    Empty where no pair is in question.
    """
    before = [None, *(piece.step for piece in pieces)]
    return [
        "" if piece.step in (None, last) else said.step_name(piece.step)
        for piece, last in zip(pieces, before, strict=False)
    ]
