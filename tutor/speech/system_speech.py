"""Speech on Windows: System.Speech, reached by PowerShell."""

from __future__ import annotations

from tutor.speech import words
from tutor.speech.system_voice import SystemVoice

FILE = "PAIRWRIGHT_SPEECH_FILE"
"""The variable that carries the file's name, so that nothing in it is taken for a command."""
_SCRIPT = f"""\
Add-Type -AssemblyName System.Speech
$voice = New-Object System.Speech.Synthesis.SpeechSynthesizer
$voice.SetOutputToWaveFile($env:{FILE})
$voice.Speak([Console]::In.ReadToEnd())
$voice.Dispose()
"""

SYSTEM_SPEECH = SystemVoice(
    "powershell",
    lambda _: ("-NoProfile", "-NonInteractive", "-Command", _SCRIPT),
    words.POWERSHELL_INSTALL,
    lambda file: {FILE: str(file)},
)
"""Tested as far as the command that is run; the system itself is needed for more."""
