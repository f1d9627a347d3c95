"""WebP films, encoded by Pillow, one picture in memory at a time."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import Any

from PIL import Image

from tutor.publish.projector import Projector

QUALITY = 82
METHOD = 2
"""Between speed and size: 0 quick, 6 small."""
KEY_FRAMES = (60, 120)
"""A whole picture at least and at most so often."""


def encode_webp(path: Path, projector: Projector) -> None:
    """Write the film; delays are in thousandths of a second and add up to the film's length."""
    film = projector.film
    starts = [0]
    for frame in film.frames:
        starts.append(starts[-1] + frame.ticks)
    moments = [round(1000 * start / film.rate) for start in starts]
    durations = [end - begin for begin, end in pairwise(moments)]
    reel = _Reel(projector)
    options: dict[str, Any] = {"kmin": KEY_FRAMES[0], "kmax": KEY_FRAMES[1]}
    with path.open("wb") as file:
        # A film of one picture is written as such.
        reel.save(
            file,
            "WEBP",
            save_all=len(film.frames) > 1,
            duration=durations,
            loop=0,
            quality=QUALITY,
            method=METHOD,
            **options,
        )


class _Reel(Image.Image):
    """The film as Pillow looks at one: a picture that can be wound on, once and only forwards."""

    def __init__(self, projector: Projector) -> None:
        super().__init__()
        self._images = projector.images()
        self.n_frames = len(projector.film.frames)
        self._number = -1
        self._mode, self._size = "RGB", projector.film.shot.size
        self.seek(0)

    def seek(self, frame: int) -> None:
        """Wind on to a picture; winding back to the first at the end does nothing."""
        while self._number < frame:
            image, _ = next(self._images)
            self.im = image.im
            self._number += 1

    def tell(self) -> int:
        """The number of the first picture, to which Pillow would wind back."""
        return 0
