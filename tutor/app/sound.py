"""A quiet click for every turn and a chime for a solved pair, computed; silent where nothing can be heard."""

from __future__ import annotations

import logging
from collections.abc import Callable
from concurrent.futures import Executor, Future
from io import BytesIO

import numpy as np
from numpy.typing import NDArray

from tutor.app import words

RATE = 44_100
SECONDS = 0.03
PARTIALS = ((1150.0, 0.008, 0.7), (2650.0, 0.004, 0.3))
"""Frequency in hertz, time constant of the decay in seconds, and share, of each partial tone."""
LOUDNESS = 0.12
"""Of full scale, at most."""
CHIME_SECONDS = 0.5
CHIME = ((587.3, 0.0), (880.0, 0.12))
"""Frequency in hertz and beginning in seconds of the notes of the chime: a fifth upwards."""
CHIME_FADE = 0.12
"""Time constant of a note's decay, in seconds."""

log = logging.getLogger(__name__)

Play = Callable[[], object]


def click_wave() -> bytes:
    """The click as a WAV file: mono, 16 bits, ``RATE`` samples a second.

    A sum of decaying sines, faded in over a millisecond and out to nothing, so that neither end cracks.
    """
    time = np.arange(int(RATE * SECONDS)) / RATE
    tones = [
        share * np.sin(2 * np.pi * pitch * time) * np.exp(-time / fade) for pitch, fade, share in PARTIALS
    ]
    return _file(time, np.sum(tones, axis=0))


def chime_wave() -> bytes:
    """The chime as a WAV file of the same kind: two notes, the second higher."""
    time = np.arange(int(RATE * CHIME_SECONDS)) / RATE
    notes = [_note(pitch, time - since) for pitch, since in CHIME]
    return _file(time, np.sum(notes, axis=0) / len(CHIME))


def _note(pitch: float, time: NDArray[np.float64]) -> NDArray[np.float64]:
    """A sine that swells for five milliseconds and decays; nothing before its time 0."""
    sounding = np.maximum(time, 0.0)
    swell = np.minimum(1.0, sounding / 0.005)
    return swell * np.sin(2 * np.pi * pitch * sounding) * np.exp(-sounding / CHIME_FADE)


def _file(time: NDArray[np.float64], tone: NDArray[np.float64]) -> bytes:
    """A tone as a WAV file, with smooth ends."""
    envelope = np.minimum(1.0, time / 0.001) * np.linspace(1.0, 0.0, len(time))
    samples = np.rint(32767 * LOUDNESS * tone * envelope).astype("<i2")
    # Only those who want to hear turns need it.
    import wave

    content = BytesIO()
    with wave.open(content, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(samples.tobytes())
    return content.getvalue()


def load_click() -> Play:
    """What plays the click; takes up to a second, since it looks for a device. Any exception may come."""
    return _player("click.wav", click_wave())


def load_chime() -> Play:
    """What plays the chime, as ``load_click``."""
    return _player("chime.wav", chime_wave())


def _player(name: str, content: bytes) -> Play:
    import pyglet.media

    source = pyglet.media.load(name, file=BytesIO(content), streaming=False)
    return lambda: source.play()


class Clicker:
    """Plays a sound once it is there; a computer without sound stays silent, and nothing fails."""

    def __init__(
        self, beside: Executor, load: Callable[[], Play] = load_click, followed_by: Clicker | None = None
    ) -> None:
        """``load`` runs ``beside`` when the sound is first asked for, so that no frame waits for it.

        After it ``followed_by`` loads its own, so that a rare sound is there when its moment comes.
        """
        self._beside, self._load, self._followed_by = beside, load, followed_by
        self._loading: Future[Play] | None = None

    def click(self) -> None:
        """The sound now; what is asked for while the sound is being loaded is left out."""
        if self._prepared().done():
            self._play()

    def _prepared(self) -> Future[Play]:
        if self._loading is None:
            self._loading = self._beside.submit(self._load)
            if self._followed_by is not None:
                self._followed_by._prepared()
        return self._loading

    def _play(self) -> None:
        try:
            self._prepared().result()()
        except Exception as error:
            log.warning("%s", words.no_sound(str(error)))
            self._loading = Future()
