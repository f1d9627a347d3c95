"""MP4 films with H.264, and AAC where there is sound, by PyAV, which comes with the extra ``film``."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import numpy as np
from PIL import Image

from tutor.publish import words
from tutor.publish.extras import installing
from tutor.publish.files import PublishError
from tutor.publish.projector import Projector
from tutor.publish.sounds import SoundTrack

_OPTIONS = {"crf": "18", "preset": "veryfast", "tune": "animation", "rc-lookahead": "10"}
_THREADS = 2
"""More would each keep pictures in memory."""
_BT_709 = 1
"""Number of the colours that players take high-resolution video to have (ITU-T H.273, table 2)."""


def check_mp4(size: tuple[int, int], others: tuple[str, ...]) -> None:
    """Raise PublishError when PyAV is absent, or when the size does not suit the format.

    ``others`` are the ends of names that need no PyAV.
    """
    try:
        import av  # noqa: F401
    except ImportError:
        raise PublishError(words.no_mp4(installing("film"), others)) from None
    if size[0] % 2 or size[1] % 2:
        raise PublishError(words.odd_sides(*size))


def encode_mp4(path: Path, projector: Projector) -> None:
    """Write the film at a constant rate, so that any editing program takes it."""
    import av
    from av.video.reformatter import Colorspace

    film = projector.film
    with av.open(str(path), "w", format="mp4", options={"movflags": "+faststart"}) as container:
        stream = container.add_stream("libx264", rate=film.rate, options=_OPTIONS)
        stream.width, stream.height = film.shot.size
        stream.pix_fmt = "yuv420p"
        codec = stream.codec_context
        codec.time_base, codec.thread_count = Fraction(1, film.rate), _THREADS
        codec.color_primaries = codec.color_trc = codec.colorspace = _BT_709
        sound = SoundTrack(container, film.sounds, film.rate, film.seconds) if film.sounds else None
        moment = 0
        for image, ticks in projector.images():
            frame = av.VideoFrame.from_ndarray(np.asarray(image), format="rgb24")
            frame = frame.reformat(format="yuv420p", dst_colorspace=Colorspace.ITU709)
            for _ in range(ticks):
                frame.pts, frame.time_base = moment, Fraction(1, film.rate)
                moment += 1
                container.mux(stream.encode(frame))
            if sound is not None:
                sound.up_to(moment / film.rate)
        container.mux(stream.encode(None))
        if sound is not None:
            sound.end()


def first_of_mp4(path: Path) -> Image.Image:
    """The first picture of a film."""
    import av

    with av.open(str(path)) as container:
        return Image.fromarray(next(container.decode(video=0)).to_ndarray(format="rgb24"))
