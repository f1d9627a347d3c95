"""Speech on macOS."""

from __future__ import annotations

from tutor.speech import words
from tutor.speech.system_voice import SystemVoice

SAY = SystemVoice(
    "say",
    ("-f", "-"),
    lambda file: ("-o", str(file), "--file-format=WAVE", "--data-format=LEI16@22050", "-f", "-"),
    words.SAY_INSTALL,
)
