"""Speech on Debian and other systems with eSpeak NG."""

from __future__ import annotations

from tutor.speech import words
from tutor.speech.system_voice import SystemVoice

WORDS_A_MINUTE = 150
"""Slow enough to follow a cube at the same time."""

ESPEAK = SystemVoice(
    "espeak-ng",
    lambda file: ("-v", "en", "-s", str(WORDS_A_MINUTE), "-w", str(file), "--stdin"),
    words.ESPEAK_INSTALL,
)
