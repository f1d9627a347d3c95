"""A quiet click for every turn, made by computing it; silent where there is no way to hear it."""

from __future__ import annotations

import logging
from collections.abc import Callable
from concurrent.futures import Executor, Future
from io import BytesIO

import numpy as np

from tutor.app import words

RATE = 44_100
SECONDS = 0.03
PARTIALS = ((1150.0, 0.008, 0.7), (2650.0, 0.004, 0.3))
"""Frequency in hertz, time constant of the decay in seconds, and share, of each partial tone."""
LOUDNESS = 0.12
"""Of full scale, at most."""

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
    envelope = np.minimum(1.0, time / 0.001) * np.linspace(1.0, 0.0, len(time))
    samples = np.rint(32767 * LOUDNESS * np.sum(tones, axis=0) * envelope).astype("<i2")
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
    import pyglet.media

    source = pyglet.media.load("click.wav", file=BytesIO(click_wave()), streaming=False)
    return lambda: source.play()


class Clicker:
    """Plays clicks once the sound is there; a computer without sound stays silent, and nothing fails."""

    def __init__(self, beside: Executor, load: Callable[[], Play] = load_click) -> None:
        """``load`` runs ``beside`` when a click is first asked for, so that no frame waits for it."""
        self._beside, self._load = beside, load
        self._loading: Future[Play] | None = None

    def click(self) -> None:
        """A click now; what is asked for while the sound is being loaded is left out."""
        if self._loading is None:
            self._loading = self._beside.submit(self._load)
        if not self._loading.done():
            return
        try:
            self._loading.result()()
        except Exception as error:
            log.warning("%s", words.no_sound(str(error)))
            self._loading = Future()
