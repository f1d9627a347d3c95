"""Sentences spoken aloud or as sound files, each by a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tutor.speech import words
from tutor.speech.espeak import ESPEAK
from tutor.speech.say import SAY
from tutor.speech.spoken_text import spoken_text
from tutor.speech.system_speech import SYSTEM_SPEECH
from tutor.speech.system_voice import SystemVoice

PATIENCE = 60.0
"""Seconds that a sentence may take to be written; the slowest machine needs a few."""
_NO_CONSOLE = getattr(subprocess, "CREATE_NO_WINDOW", 0)
"""On Windows the speech opens no window of its own."""
_VOICES = {"win32": SYSTEM_SPEECH, "darwin": SAY}


class SpeechError(ValueError):
    """The system cannot speak; the message says why, and what to install."""


def system_voice() -> SystemVoice:
    """The speech of a system. Raises SpeechError where it is not installed."""
    voice = _VOICES.get(sys.platform, ESPEAK)
    if voice.found is None:
        raise SpeechError(words.no_speech(voice.program, voice.install))
    return voice


def begin_to_speak(voice: SystemVoice) -> subprocess.Popen[bytes]:
    """Start the process that is to speak aloud; ``speak_with`` gives it the text. Raises SpeechError."""
    try:
        return subprocess.Popen(
            [voice.found or voice.program, *voice.aloud],
            stdin=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            creationflags=_NO_CONSOLE,
        )
    except OSError as fault:
        raise SpeechError(words.failed(voice.program, fault.strerror or str(fault))) from fault


def speak_with(process: subprocess.Popen[bytes], text: str, voice: SystemVoice) -> None:
    """Let a process speak a text to its end, its turns as words. Raises SpeechError unless it is killed."""
    _, told = process.communicate(spoken_text(text).encode("utf-8"))
    if process.returncode > 0:
        raise SpeechError(words.failed(voice.program, _first_line(told)))


def _first_line(told: bytes) -> str:
    lines = told.decode("utf-8", "replace").strip().splitlines()
    return lines[0] if lines else words.NO_SOUND


def speak_to_file(text: str, target: Path, voice: SystemVoice, patience: float = PATIENCE) -> None:
    """Write a sentence as a WAVE file, its turns as words. Raises SpeechError."""
    command = [voice.found or voice.program, *voice.arguments(target)]
    environment = {**os.environ, **voice.environment(target)}
    try:
        done = subprocess.run(
            command,
            input=spoken_text(text).encode("utf-8"),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            env=environment,
            timeout=patience,
            check=False,
        )
    except subprocess.TimeoutExpired:
        raise SpeechError(words.too_slow(voice.program, patience)) from None
    except OSError as fault:
        raise SpeechError(words.failed(voice.program, fault.strerror or str(fault))) from fault
    if done.returncode or not target.is_file():
        raise SpeechError(words.failed(voice.program, _first_line(done.stderr)))
