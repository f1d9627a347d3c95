"""Speech on Windows: System.Speech, reached by PowerShell."""

from __future__ import annotations

from tutor.speech import words
from tutor.speech.system_voice import SystemVoice

FILE = "PAIRWRIGHT_SPEECH_FILE"
"""The variable that carries the file's name, so that nothing in it is taken for a command."""
_BEGIN = """\
Add-Type -AssemblyName System.Speech
$voice = New-Object System.Speech.Synthesis.SpeechSynthesizer
"""
_TO_FILE = f"$voice.SetOutputToWaveFile($env:{FILE})\n"
_SPEAK = """\
$in = New-Object IO.StreamReader([Console]::OpenStandardInput(), [Text.Encoding]::UTF8)
$voice.Speak($in.ReadToEnd())
$voice.Dispose()
"""
_RUN = ("-NoProfile", "-NonInteractive", "-Command")

SYSTEM_SPEECH = SystemVoice(
    "powershell",
    (*_RUN, f"{_BEGIN}{_SPEAK}"),
    lambda _: (*_RUN, f"{_BEGIN}{_TO_FILE}{_SPEAK}"),
    words.POWERSHELL_INSTALL,
    lambda file: {FILE: str(file)},
)
"""Tested as far as the command that is run; the system itself is needed for more."""
