"""The sound of a film: recordings read by PyAV, and all of them put one after the other on one track."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from tutor.plain_file import refuse_odd
from tutor.publish import words
from tutor.publish.files import PublishError
from tutor.publish.film import Recording, Sound

if TYPE_CHECKING:
    from av.audio.frame import AudioFrame

SAMPLE_RATE = 48_000
"""Samples a second, as in most films."""
BLOCK = 1024
"""Samples that AAC takes at a time (ISO/IEC 14496-3)."""

Samples = NDArray[np.float32]


def recording(path: Path) -> Recording:
    """A sound file and its length. Raises PublishError when it cannot be read."""
    return Recording(path, sum(len(part) for part in samples(path)) / SAMPLE_RATE)


def samples(path: Path) -> Iterator[Samples]:
    """The sound of a file in parts, one channel. Raises PublishError when it cannot be read."""
    import av
    from av.audio.resampler import AudioResampler

    try:
        refuse_odd(path)
        with av.open(str(path)) as container:
            if not container.streams.audio:
                raise PublishError(words.no_sound(str(path), words.NO_SOUND_IN_IT))
            resampler = AudioResampler("flt", "mono", SAMPLE_RATE)
            for frame in container.decode(container.streams.audio[0]):
                yield from _plain(resampler.resample(frame))
            yield from _plain(resampler.resample(None))
    except (OSError, av.FFmpegError) as fault:
        reason = getattr(fault, "strerror", None) or str(fault)
        raise PublishError(words.no_sound(str(path), reason)) from fault


def _plain(frames: list[AudioFrame]) -> Iterator[Samples]:
    return (frame.to_ndarray()[0].astype(np.float32) for frame in frames)


def track(sounds: tuple[Sound, ...], rate: int, seconds: float) -> Iterator[Samples]:
    """Blocks of the whole sound of a film that lasts so long, silent where nothing is heard."""
    waiting: Samples = np.zeros(0, np.float32)
    for part in _parts(sounds, rate, round(seconds * SAMPLE_RATE)):
        waiting = np.concatenate([waiting, part])
        whole = len(waiting) // BLOCK * BLOCK
        yield from waiting[:whole].reshape(-1, BLOCK)
        waiting = waiting[whole:]
    if len(waiting):
        yield np.pad(waiting, (0, BLOCK - len(waiting)))


def _parts(sounds: tuple[Sound, ...], rate: int, length: int) -> Iterator[Samples]:
    """What is heard and the silence between, so many samples in all."""
    done = 0
    for sound in sounds:
        begin = round(sound.begin * SAMPLE_RATE / rate)
        yield from _silence(begin - done)
        done = max(done, begin)
        for part in samples(sound.recording.path):
            yield part[: length - done]
            done = min(length, done + len(part))
    yield from _silence(length - done)


def _silence(count: int) -> Iterator[Samples]:
    while count > 0:
        yield np.zeros(min(count, SAMPLE_RATE), np.float32)
        count -= SAMPLE_RATE


class SoundTrack:
    """Encodes the sound of a film beside its pictures, no further than those have come."""

    def __init__(self, container: Any, sounds: tuple[Sound, ...], rate: int, seconds: float) -> None:
        """Add a stream to a container that is being written."""
        self._container = container
        self._stream = container.add_stream("aac", rate=SAMPLE_RATE, layout="mono")
        self._blocks = track(sounds, rate, seconds)
        self._done = 0

    def up_to(self, seconds: float) -> None:
        """Encode all that is heard before a moment."""
        from av.audio.frame import AudioFrame

        while self._done < seconds * SAMPLE_RATE:
            block = next(self._blocks, None)
            if block is None:
                return
            frame = AudioFrame.from_ndarray(block[None], format="fltp", layout="mono")
            frame.sample_rate, frame.pts = SAMPLE_RATE, self._done
            self._done += BLOCK
            self._container.mux(self._stream.encode(frame))

    def end(self) -> None:
        """Encode the rest."""
        self.up_to(float("inf"))
        self._container.mux(self._stream.encode(None))
