"""Reading aloud beside the window, with a program in place of the system's speech."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest

from tutor.session.commands import TellAtFoot
from tutor.workers.reading_aloud import Reader

SPEAKS = f"""\
#!{sys.executable}
import os, sys, time
text = sys.stdin.read()
with open(os.path.join({{folder!r}}, "part"), "w") as file:
    file.write(f"{{{{os.getpid()}}}} {{{{text}}}}")
os.replace(file.name, os.path.join({{folder!r}}, "said"))
{{then}}
"""
PATIENCE = 60.0


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that alone is on the path, on a system that speaks by espeak-ng."""
    monkeypatch.setattr("tutor.speech.speaking.sys", SimpleNamespace(platform="linux"))
    monkeypatch.setenv("PATH", str(tmp_path))
    return tmp_path


@pytest.fixture
def reader() -> Iterator[Reader]:
    reading = Reader()
    yield reading
    reading.close()


def tells(reader: Reader, told: list[TellAtFoot], count: int) -> Callable[[], bool]:
    """Whether the reader has told so much, once it is asked again."""

    def enough() -> bool:
        told.extend(reader.poll())
        return len(told) == count

    return enough


def put_speech(folder: Path, then: str) -> None:
    """A program that writes down what it is to say, and then does this."""
    path = folder / "espeak-ng"
    path.write_text(SPEAKS.format(folder=str(folder), then=then))
    path.chmod(0o755)


def comes(happened: Callable[[], bool]) -> None:
    end = time.monotonic() + PATIENCE
    while not happened():
        assert time.monotonic() < end
        time.sleep(0.005)


def said(folder: Path, text: str) -> int:
    """The number of the process that says this text, once it does."""
    file = folder / "said"
    comes(lambda: file.is_file() and file.read_text().split(" ", 1)[1] == text)
    return int(file.read_text().split(" ", 1)[0])


def gone(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return True
    return False


def test_what_comes_next_stops_what_is_being_said(reader: Reader, folder: Path) -> None:
    # A program that speaks for ten minutes only goes away when it is stopped.
    put_speech(folder, "time.sleep(600)")
    reader.say("R' lifts the slot.")
    first = said(folder, "right layer, back, lifts the slot.")
    reader.say("U2 moves both.")
    second = said(folder, "top layer, half round, moves both.")
    assert gone(first)
    reader.say("")
    comes(lambda: gone(second))
    reader.say("The end.")
    third = said(folder, "The end.")
    reader.close()
    assert gone(third)
    assert list(reader.poll()) == []


def test_of_texts_that_follow_at_once_only_the_last_is_said(reader: Reader, folder: Path) -> None:
    put_speech(folder, "")
    for number in range(30):
        reader.say(f"Sentence {number}.")
    said(folder, "Sentence 29.")
    assert list(reader.poll()) == []


def test_where_there_is_no_speech_one_line_says_what_to_install(reader: Reader, folder: Path) -> None:
    told: list[TellAtFoot] = []
    reader.say("One.")
    comes(tells(reader, told, 1))
    reader.say("Two.")
    # The same fault once more, which is there and not told.
    comes(lambda: bool(reader._faults))
    assert list(reader.poll()) == []
    assert [each.text for each in told] == [
        "Reading aloud needs espeak-ng, which is not installed here; type “sudo apt-get install espeak-ng”."
    ]


def test_speech_that_fails_says_why(reader: Reader, folder: Path) -> None:
    put_speech(folder, 'sys.exit("no sound card")')
    reader.say("Look.")
    told: list[TellAtFoot] = []
    comes(tells(reader, told, 1))
    assert told == [TellAtFoot("Espeak-ng could not speak a sentence: no sound card.")]
    # Who switches reading on anew is told again.
    reader.forget_faults()
    reader.say("Look again.")
    comes(tells(reader, told, 2))
