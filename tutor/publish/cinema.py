"""Films as files: which format a name asks for, and writing it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tutor.publish import words
from tutor.publish.encode_gif import encode_gif
from tutor.publish.encode_mp4 import check_mp4, encode_mp4
from tutor.publish.encode_png import encode_png
from tutor.publish.encode_webp import encode_webp
from tutor.publish.files import PublishError, written
from tutor.publish.film import Film
from tutor.publish.lettering import Inks, Lettering
from tutor.publish.projector import Progress, Projector
from tutor.publish.subject import Draw

MP4 = ".mp4"
ENCODERS: dict[str, Callable[[Path, Projector], None]] = {
    ".gif": encode_gif,
    ".webp": encode_webp,
    ".png": encode_png,
    MP4: encode_mp4,
}
"""How to write each kind of file, by the end of its name."""

LEAST_STAGE = 60
"""Pixels that the cube needs each way to be seen at all."""


def check_film(suffix: str, size: tuple[int, int]) -> None:
    """Raise PublishError when no film of this kind and size can be written here."""
    if suffix.lower() not in ENCODERS:
        raise PublishError(words.no_kind_of_film(suffix, ENCODERS))
    if suffix.lower() == MP4:
        check_mp4(size, tuple(kind for kind in ENCODERS if kind != MP4))


def write_film(
    target: Path,
    film: Film,
    draw: Draw,
    inks: Inks,
    *,
    force: bool = False,
    captions: bool = True,
    progress: Progress = lambda _: None,
) -> None:
    """Draw and write a film; the end of the name says in which format.

    ``captions`` says whether they are drawn. For GIF, WebP and APNG the same film gives the same bytes.
    Raises PublishError.
    """
    check_film(target.suffix, film.shot.size)
    with written(target, force=force) as beside:
        encode_film(beside, target.suffix, film, draw, inks, progress, captions=captions)


def encode_film(
    path: Path,
    suffix: str,
    film: Film,
    draw: Draw,
    inks: Inks,
    progress: Progress = lambda _: None,
    *,
    captions: bool = True,
) -> None:
    """Write a film to this very path, in the format that ``suffix`` names."""
    lettering = Lettering.of(film, inks, captions=captions)
    if min(lettering.stage.width, lettering.stage.height) < LEAST_STAGE:
        raise PublishError(words.no_room(*film.shot.size))
    ENCODERS[suffix.lower()](path, Projector(film, draw, lettering, progress))
