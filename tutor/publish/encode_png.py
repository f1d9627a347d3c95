"""APNG films (Portable Network Graphics, Third Edition, W3C 2025), one picture in memory at a time.

Pillow compresses each picture, or the part of it that changed; here they are strung together.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from struct import pack, unpack
from zlib import crc32

from PIL import Image, ImageChops

from tutor.publish.projector import Projector

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_RGB_8_BIT = (8, 2, 0, 0, 0)


def encode_png(path: Path, projector: Projector) -> None:
    """Write the film; delays are exact."""
    film = projector.film
    with path.open("wb") as file:
        file.write(_SIGNATURE)
        file.write(_chunk(b"IHDR", pack(">IIBBBBB", *film.shot.size, *_RGB_8_BIT)))
        file.write(_chunk(b"acTL", pack(">II", len(film.frames), 0)))
        number = 0
        before: Image.Image | None = None
        for image, ticks in projector.images():
            box = None if before is None else ImageChops.difference(image, before).getbbox()
            left, top, right, bottom = box or ((0, 0, 1, 1) if before else (0, 0, *image.size))
            shape = right - left, bottom - top, left, top
            file.write(_chunk(b"fcTL", pack(">IIIIIHHBB", number, *shape, ticks, film.rate, 0, 0)))
            number += 1
            for data in _compressed(image.crop((left, top, right, bottom))):
                if before is None:
                    file.write(_chunk(b"IDAT", data))
                else:
                    file.write(_chunk(b"fdAT", pack(">I", number) + data))
                    number += 1
            before = image
        file.write(_chunk(b"IEND", b""))


def _chunk(kind: bytes, data: bytes) -> bytes:
    return pack(">I", len(data)) + kind + data + pack(">I", crc32(kind + data))


def _compressed(image: Image.Image) -> Iterator[bytes]:
    """The data of a PNG that Pillow writes."""
    written = BytesIO()
    image.save(written, "PNG", compress_level=6)
    whole = written.getvalue()
    at = len(_SIGNATURE)
    while at < len(whole):
        (length,) = unpack(">I", whole[at : at + 4])
        if whole[at + 4 : at + 8] == b"IDAT":
            yield whole[at + 8 : at + 8 + length]
        at += length + 12
