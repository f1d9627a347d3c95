"""Sentences as they are spoken, and the programs that speak them."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from tutor.cube.faces import Turn
from tutor.speech.espeak import ESPEAK
from tutor.speech.say import SAY
from tutor.speech.speaking import SpeechError, speak_to_file, system_voice
from tutor.speech.spoken_text import spoken_text
from tutor.speech.system_speech import FILE, SYSTEM_SPEECH


@pytest.mark.parametrize(
    ("written", "spoken"),
    [
        ("R'", "right layer, back"),
        ("R' brings the corner up.", "right layer, back, brings the corner up."),
        ("Raise: U2. It goes on.", "Raise: top layer, half round. It goes on."),
        ("R U R' lifts it.", "right layer, then top layer, then right layer, back, lifts it."),
        ("Turn the R layer back.", "Turn the right layer back."),
        ("Rw2 moves both.", "two right layers, half round, moves both."),
        ("Slot FR: Front and Back, a DUll BLUR.", "Slot front right: Front and Back, a DUll BLUR."),
        ("Slot FR U: R", "Slot front right top layer: right layer"),
        ("Case 2 R2 U2.", "Case 2 right layer, half round, then top layer, half round."),
        ("y' R", "turn the whole cube like the top layer, back, then right layer"),
        ("Join: x2. U goes.", "Join: turn the whole cube like the right layer, half round. top layer goes."),
        ("F z", "front layer, then turn the whole cube like the front layer"),
        ("the slot's pair", "the slot's pair"),
    ],
)
def test_turns_are_spoken_as_words(written: str, spoken: str) -> None:
    assert spoken_text(written) == spoken


def test_no_letter_of_a_turn_is_left() -> None:
    for turn in Turn:
        told = spoken_text(f"{turn.notation} is a turn, and {turn.notation}.")
        assert not any(word.strip("'2.,") == turn.notation.strip("'2") for word in told.split())
    assert len({spoken_text(turn.notation) for turn in Turn}) == 18


PROGRAM = """\
#!{python}
import os, sys, time
{does}
"""
WRITES = """\
text = sys.stdin.read()
target = os.environ.get("PAIRWRIGHT_SPEECH_FILE") or sys.argv[sys.argv.index({option!r}) + 1]
open(target, "w").write(text)
"""


def put_program(folder: Path, name: str, does: str) -> None:
    path = folder / name
    path.write_text(PROGRAM.format(python=sys.executable, does=does))
    path.chmod(0o755)


@pytest.fixture
def programs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that alone is on the path."""
    folder = tmp_path / "bin"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    return folder


# The options are those of espeak-ng(1), of macOS say(1), and of PowerShell's documentation (from memory).
@pytest.mark.parametrize(
    ("platform", "voice", "option"),
    [("linux", ESPEAK, "-w"), ("darwin", SAY, "-o"), ("win32", SYSTEM_SPEECH, "")],
)
def test_each_system_speaks_by_its_own_program(
    platform: str, voice: object, option: str, programs: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tutor.speech.speaking.sys", SimpleNamespace(platform=platform))
    with pytest.raises(SpeechError, match="which is not installed here"):
        system_voice()
    name = {"linux": "espeak-ng", "darwin": "say", "win32": "powershell"}[platform]
    put_program(programs, name, WRITES.format(option=option))
    assert system_voice() is voice
    target = tmp_path / "it's a sound.wav"
    speak_to_file("R' lifts the slot.", target, system_voice())
    assert target.read_text() == "right layer, back, lifts the slot."


def test_a_name_is_never_part_of_the_script_that_windows_runs() -> None:
    name = Path("a'; Remove-Item b.wav")
    assert not any(str(name) in argument for argument in SYSTEM_SPEECH.arguments(name))
    assert SYSTEM_SPEECH.environment(name) == {FILE: str(name)}


def test_windows_reads_what_is_spoken_as_it_is_written() -> None:
    # [Console]::In has the console's code page, by which ’ and ő are other letters (vendor's documents of
    # Console.InputEncoding, from memory).
    for arguments in (SYSTEM_SPEECH.aloud, SYSTEM_SPEECH.arguments(Path("a.wav"))):
        assert "[Console]::OpenStandardInput(), [Text.Encoding]::UTF8" in arguments[-1]
        assert "[Console]::In." not in arguments[-1]


def test_speech_that_fails_says_why(programs: Path, tmp_path: Path) -> None:
    put_program(programs, "espeak-ng", 'print("no such voice", file=sys.stderr); sys.exit(1)')
    with pytest.raises(SpeechError, match=r"^espeak-ng could not speak a sentence: no such voice$"):
        speak_to_file("Look.", tmp_path / "a.wav", ESPEAK)
    put_program(programs, "espeak-ng", "pass")
    with pytest.raises(SpeechError, match=r"^espeak-ng could not speak a sentence: it made no sound$"):
        speak_to_file("Look.", tmp_path / "a.wav", ESPEAK)


def test_speech_that_hangs_is_ended(programs: Path, tmp_path: Path) -> None:
    put_program(
        programs, "espeak-ng", f'open({str(tmp_path / "id")!r}, "w").write(str(os.getpid())); time.sleep(600)'
    )
    with pytest.raises(SpeechError, match=r"^espeak-ng did not finish a sentence in 2 seconds; try it alone"):
        speak_to_file("Look.", tmp_path / "a.wav", ESPEAK, patience=2.0)
    with pytest.raises(ProcessLookupError):
        os.kill(int((tmp_path / "id").read_text()), 0)
