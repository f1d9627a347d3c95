"""How notation is spoken, and what is said where there is no speech."""

from __future__ import annotations

LAYERS = {
    "U": "top layer",
    "D": "bottom layer",
    "L": "left layer",
    "R": "right layer",
    "F": "front layer",
    "B": "back layer",
}
"""The layer that a letter turns."""
WIDE = "two {} layers"
WHOLE_CUBE = "turn the whole cube like the {}"
TURNS_LIKE = {"x": "R", "y": "U", "z": "F"}
"""The layer like which a turn of the whole cube goes."""
SUFFIXES = {"": "", "'": ", back", "’": ", back", "2": ", half round"}
"""What is said after the layer: which way or how far."""
SLOTS = {"FR": "front right", "FL": "front left", "BL": "back left", "BR": "back right"}


def no_speech(program: str, install: str) -> str:
    """The system's speech is absent."""
    return f"reading aloud needs {program}, which is not installed here; {install}"


ESPEAK_INSTALL = "type “sudo apt-get install espeak-ng”"
SAY_INSTALL = "it comes with macOS, so see that /usr/bin is on your PATH"
POWERSHELL_INSTALL = "it comes with Windows, so see that PowerShell is on your PATH"


def too_slow(program: str, seconds: float) -> str:
    """The speech did not end."""
    return f"{program} did not finish a sentence in {seconds:.0f} seconds; try it alone in a terminal"


def failed(program: str, reason: str) -> str:
    """The speech ended without a sound."""
    return f"{program} could not speak a sentence: {reason}"


NO_SOUND = "it made no sound"
