"""Sentences as sound files: each is spoken by a process of its own, with a time limit."""

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
_VOICES = {"win32": SYSTEM_SPEECH, "darwin": SAY}


class SpeechError(ValueError):
    """The system cannot speak; the message says why, and what to install."""


def system_voice() -> SystemVoice:
    """The speech of a system. Raises SpeechError where it is not installed."""
    voice = _VOICES.get(sys.platform, ESPEAK)
    if voice.found is None:
        raise SpeechError(words.no_speech(voice.program, voice.install))
    return voice


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
        told = done.stderr.decode("utf-8", "replace").strip().splitlines()
        raise SpeechError(words.failed(voice.program, told[0] if told else words.NO_SOUND))
