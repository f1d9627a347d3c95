"""From a film's plan to its pictures, one at a time, each drawn once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from PIL import Image

from tutor.publish.film import Film, FilmFrame, Words
from tutor.publish.lettering import Lettering
from tutor.publish.subject import Draw
from tutor.ui.view import Stage

MOST_KEPT = 48 << 20
"""Bytes of pictures kept because they come again; further ones are drawn again."""

Progress = Callable[[float], None]
"""Told the share of a film that is finished, 0 to 1; may raise to stop the work."""

Prepare = Callable[[Image.Image], Image.Image]
"""Brings a part of a picture into the form that an encoder takes."""


class Projector:
    """Draws the pictures of a film and puts the words round them."""

    def __init__(
        self, film: Film, draw: Draw, lettering: Lettering, progress: Progress = lambda _: None
    ) -> None:
        """For one film; ``lettering`` was made for it."""
        self.film, self.lettering = film, lettering
        self._draw, self._progress = draw, progress
        self._times = Counter(frame.stage for frame in film.frames)

    def samples(self, count: int) -> list[Image.Image]:
        """Some pictures from all over the film, as RGB."""
        frames = self.film.frames
        chosen = sorted({round(step * (len(frames) - 1) / max(1, count - 1)) for step in range(count)})
        return [self._whole(frames[number]) for number in chosen]

    def images(self, prepare: Prepare = lambda part: part) -> Iterator[tuple[Image.Image, int]]:
        """Each picture of the film with the ticks it stays.

        ``prepare`` is applied to parts before they are put together, and must give one mode (and palette).
        """
        kept: dict[Stage, Image.Image] = {}
        room = MOST_KEPT
        words: Words | None = None
        for number, frame in enumerate(self.film.frames):
            self._progress(number / len(self.film.frames))
            if frame.words != words:
                words = frame.words
                head, foot = prepare(self.lettering.head(words)), prepare(self.lettering.foot(words))
            middle = kept.get(frame.stage)
            if middle is None:
                middle = prepare(self._stage(frame.stage))
                size = len(middle.getbands()) * middle.width * middle.height
                if self._times[frame.stage] > 1 and size <= room:
                    kept[frame.stage] = middle
                    room -= size
            yield self._put_together(head, middle, foot), frame.ticks

    def _whole(self, frame: FilmFrame) -> Image.Image:
        head, foot = self.lettering.head(frame.words), self.lettering.foot(frame.words)
        return self._put_together(head, self._stage(frame.stage), foot)

    def _stage(self, stage: Stage) -> Image.Image:
        pixels = self._draw(stage, self.film.shot.look, self.lettering.stage_size, None)
        return Image.fromarray(pixels).convert("RGB")

    def _put_together(self, head: Image.Image, middle: Image.Image, foot: Image.Image) -> Image.Image:
        whole = Image.new(middle.mode, self.film.shot.size)
        if middle.mode == "P":
            whole.putpalette(middle.getpalette() or [])
        whole.paste(middle, (0, self.lettering.head_height))
        if self.lettering.head_height:
            whole.paste(head, (0, 0))
        whole.paste(foot, (0, self.film.shot.size[1] - self.lettering.foot_height))
        return whole
