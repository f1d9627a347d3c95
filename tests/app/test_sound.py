"""The click is read back with the standard library's ``wave``."""

from __future__ import annotations

import subprocess
import sys
import wave
from concurrent.futures import Executor, Future
from io import BytesIO
from typing import Any

import numpy as np
import pytest

from tutor.app import words
from tutor.app.sound import RATE, Clicker, Play, chime_wave, click_wave


class Later(Executor):
    """Runs what was submitted when told to."""

    def __init__(self) -> None:
        self.waiting: list[tuple[Future[Any], Any]] = []

    def submit(self, task: Any, /, *arguments: Any, **named: Any) -> Future[Any]:
        future: Future[Any] = Future()
        self.waiting.append((future, task))
        return future

    def run(self) -> None:
        for future, task in self.waiting:
            try:
                future.set_result(task())
            except Exception as error:
                future.set_exception(error)
        self.waiting.clear()


def test_the_click_is_short_quiet_and_has_smooth_ends() -> None:
    with wave.open(BytesIO(click_wave())) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, RATE)
        samples = np.frombuffer(file.readframes(file.getnframes()), "<i2") / 32767
    assert len(samples) / RATE < 0.05
    assert 0.03 < np.abs(samples).max() <= 0.13
    assert np.abs(samples[[0, 1, -1]]).max() < 0.005


def test_the_chime_is_quiet_ends_smoothly_and_rises_by_a_fifth() -> None:
    with wave.open(BytesIO(chime_wave())) as file:
        samples = np.frombuffer(file.readframes(file.getnframes()), "<i2") / 32767
    assert len(samples) / RATE <= 0.5
    assert 0.03 < np.abs(samples).max() <= 0.13
    assert np.abs(samples[[0, 1, -1]]).max() < 0.005

    def strongest(begin: float, end: float) -> float:
        part = samples[int(begin * RATE) : int(end * RATE)]
        power = np.abs(np.fft.rfft(part, 8 * RATE))
        return float(np.argmax(power)) / 8

    assert strongest(0.2, 0.5) / strongest(0.0, 0.11) == pytest.approx(1.5, rel=0.03)


def test_a_rare_sound_is_loaded_with_the_usual_one() -> None:
    later, heard = Later(), []
    chime = Clicker(later, lambda: lambda: heard.append("chime"))
    Clicker(later, lambda: lambda: heard.append("click"), chime).click()
    later.run()
    chime.click()
    assert heard == ["chime"]


def test_nothing_waits_for_the_sound_to_be_loaded() -> None:
    later, heard = Later(), []
    clicker = Clicker(later, lambda: lambda: heard.append(1))
    clicker.click()
    clicker.click()
    assert heard == []
    later.run()
    clicker.click()
    clicker.click()
    assert heard == [1, 1]


def test_without_sound_nothing_fails_and_it_is_tried_once() -> None:
    tried = []

    def load() -> Play:
        tried.append(1)
        raise OSError("no device")

    later = Later()
    clicker = Clicker(later, load)
    for _ in range(4):
        clicker.click()
        later.run()
    assert tried == [1]


def test_a_device_that_goes_away_is_told_once_in_the_log_and_asked_for_no_more(
    caplog: pytest.LogCaptureFixture,
) -> None:
    asked = []

    def play() -> None:
        asked.append(1)
        raise RuntimeError("gone")

    later = Later()
    clicker = Clicker(later, lambda: play)
    clicker.click()
    later.run()
    clicker.click()
    clicker.click()
    assert asked == [1]
    assert [record.message for record in caplog.records] == [words.no_sound("gone")]


def test_the_real_click_loads_and_plays_on_a_machine_without_a_device() -> None:
    # In a process of its own: the library looks for devices once, and has no window here.
    code = (
        "import pyglet; pyglet.options.headless = True; pyglet.options.audio = ('silent',)\n"
        "from tutor.app.sound import load_click\n"
        "load_click()()\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)
