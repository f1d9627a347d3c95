"""From a film's plan to its pictures, one at a time, each drawn once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from PIL import Image

from tutor.publish.film import Film, FilmFrame, TitleCard, Words
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
    """Draws the pictures of a film and puts the words beside them."""

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
        words: Words | TitleCard | None = None
        for number, frame in enumerate(self.film.frames):
            self._progress(number / len(self.film.frames))
            if frame.words != words:
                words = frame.words
                panel = prepare(self.lettering.drawn(words))
            cube = kept.get(frame.stage)
            if cube is None:
                cube = prepare(self._stage(frame.stage))
                size = len(cube.getbands()) * cube.width * cube.height
                if self._times[frame.stage] > 1 and size <= room:
                    kept[frame.stage] = cube
                    room -= size
            yield self._put_together(cube, panel), frame.ticks

    def _whole(self, frame: FilmFrame) -> Image.Image:
        return self._put_together(self._stage(frame.stage), self.lettering.drawn(frame.words))

    def _stage(self, stage: Stage) -> Image.Image:
        size = self.lettering.stage.width, self.lettering.stage.height
        return Image.fromarray(self._draw(stage, self.film.shot.look, size, None)).convert("RGB")

    def _put_together(self, cube: Image.Image, panel: Image.Image) -> Image.Image:
        whole = Image.new(cube.mode, self.film.shot.size)
        if cube.mode == "P":
            whole.putpalette(cube.getpalette() or [])
        whole.paste(cube, (0, 0))
        whole.paste(panel, (self.lettering.panel.left, self.lettering.panel.top))
        return whole
