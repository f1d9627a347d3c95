"""Speech on Debian and other systems with eSpeak NG."""

from __future__ import annotations

from tutor.speech import words
from tutor.speech.system_voice import SystemVoice

WORDS_A_MINUTE = 150
"""Slow enough to follow a cube at the same time."""

_ENGLISH = ("-v", "en", "-s", str(WORDS_A_MINUTE))

ESPEAK = SystemVoice(
    "espeak-ng",
    (*_ENGLISH, "--stdin"),
    lambda file: (*_ENGLISH, "-w", str(file), "--stdin"),
    words.ESPEAK_INSTALL,
)
