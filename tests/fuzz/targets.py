"""Everything that reads what people and other programs write, each as a function of bytes.

A target returns when the input was read, or refused with an error of our own; it raises AssertionError when a
rule is broken, and whatever else comes up is a fault too.
"""

from __future__ import annotations

import io
import json
import sqlite3
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import cache, partial
from pathlib import Path

from tests.fuzz.watch import at_home, watched
from tests.progress.tables import parse_table
from tests.session.names import action_name, command_of
from tutor.app.cli.case_list import parse_case_list
from tutor.app.cli.command_line import main
from tutor.app.cli.task_request import RequestError, TaskRequest
from tutor.app.cli.turns import answer_lines
from tutor.app.files.painting import FILE as PAINTING_FILE
from tutor.app.files.painting import load_painting
from tutor.app.files.places import FILE as PLACES_FILE
from tutor.app.files.places import MOST, load_places
from tutor.app.files.settings import FILE as SETTINGS_FILE
from tutor.app.files.settings import load_settings
from tutor.app.files.solves import load_shelf
from tutor.cube.notation import LONGEST, NotationError, format_moves, parse_moves
from tutor.cube.position import Slot
from tutor.cube.repairs import examine
from tutor.cube.sticker_text import StickerTextError, format_stickers, parse_stickers
from tutor.lesson.checker import check_file
from tutor.lesson.library import lesson_entries
from tutor.method.answer import Answer, answer
from tutor.method.cases import CASES
from tutor.progress.attempt import AttemptError, AttemptRecord, Mode, Outcome
from tutor.progress.backup import FILE as STORE_FILE
from tutor.progress.connection import loaded
from tutor.progress.interchange import format_line, format_table, parse_line, parse_record
from tutor.progress.notes import format_note
from tutor.progress.own_words import OwnWords
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import AttemptStore
from tutor.publish.captions import captions_of
from tutor.publish.files import PublishError
from tutor.publish.sounds import recording
from tutor.screens.board.list_text import BoardListError, LessonScenes, SlippingCases, parse_list
from tutor.session.keymap import KeysError, parse_key
from tutor.session.settings import Settings
from tutor.session.state import LessonTitle
from tutor.solver.nodes import CLASSES
from tutor.solver.search import Solver
from tutor.solver.store import TableError, read_table

_TITLES = tuple(LessonTitle(entry.name, entry.title, entry.goal) for entry in lesson_entries())
LARGEST = 64 * 1024
"""Bytes of an input at most."""
LONGEST_MESSAGE = 2_000
"""Characters of an error at most: it quotes what is wrong, not the whole of it."""


@contextmanager
def folder_with(name: str, content: bytes) -> Iterator[Path]:
    """A folder of its own with one file."""
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        (folder / name).write_bytes(content)
        yield folder


@cache
def solver() -> Solver:
    """One solver for all inputs, with every table made: what an input touches is watched."""
    opened = Solver.open()
    opened.tables.cross_distances()
    for index in range(len(CLASSES)):
        assert opened.tables.engine(index).bound is not None
    return opened


@cache
def club() -> bytes:
    """A file of progress in which somebody is who can be given something."""
    case, time = CASES[0].slug, datetime(2026, 3, 3, tzinfo=UTC)
    attempt = AttemptRecord("Ilva", time, case, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 5, 5, 9.0)
    with tempfile.TemporaryDirectory() as folder, AttemptStore.open(Path(folder)) as store:
        store.record(attempt)
        return store.back_up().read_bytes()


def told(fault: Exception) -> None:
    """An error of our own says something, and not too much."""
    assert 0 < len(str(fault)) < LONGEST_MESSAGE, str(fault)[:LONGEST_MESSAGE]


def text_of(content: bytes) -> str:
    """Any text, lone surrogates included, as a command line may hold it."""
    return content.decode("utf-8", "surrogateescape")


def notation(content: bytes) -> None:
    """Moves as people type them."""
    text = text_of(content)
    with watched():
        try:
            moves = parse_moves(text)
        except NotationError as fault:
            told(fault)
            return
    assert len(moves) <= LONGEST
    assert parse_moves(format_moves(moves)) == moves


def stickers(content: bytes) -> None:
    """A cube as text, and what is wrong with it."""
    text = text_of(content)
    with watched():
        try:
            colours = parse_stickers(text)
        except StickerTextError as fault:
            told(fault)
            return
        examine(colours)
    assert parse_stickers(format_stickers(colours)) == colours


def script(content: bytes) -> None:
    """A lesson script, read and checked."""
    with folder_with("lesson.toml", content) as folder:
        found: Callable[..., Answer] = partial(answer, solver())
        with watched():
            problems = check_file(folder / "lesson.toml", found)
        for problem in problems:
            assert 0 < len(str(problem)) < LONGEST_MESSAGE, str(problem)
        assert [path.name for path in folder.iterdir()] == ["lesson.toml"]


def settings(content: bytes) -> None:
    """The settings file; one that cannot be used is kept under another name."""
    with folder_with(SETTINGS_FILE, content) as folder:
        with watched(folder):
            loaded = load_settings(folder)
        (kept,) = folder.iterdir()
        assert kept.read_bytes() == content
        assert (kept.name == SETTINGS_FILE) == (not loaded.notice)
        assert isinstance(loaded.settings, Settings)
        assert len(loaded.notice) < LONGEST_MESSAGE, loaded.notice


def small_files(content: bytes) -> None:
    """Places of lessons, the painted cube and saved solves: what cannot be read counts as none."""
    with folder_with(PLACES_FILE, content) as folder, watched():
        assert len(load_places(folder)) <= MOST
    with folder_with(PAINTING_FILE, content) as folder, watched():
        load_painting(folder)
    with folder_with("2026-03-03-183000.txt", content) as folder, watched():
        shelf = load_shelf(folder)
        assert len(shelf.entries) + len(shelf.damaged) == 1


def attempt_line(content: bytes) -> None:
    """An attempt as a line of JSON."""
    with watched():
        try:
            attempt = parse_line(content)
        except AttemptError as fault:
            told(fault)
            return
    assert parse_line(format_line(attempt)) == attempt


def attempt_table(content: bytes) -> None:
    """Attempts as a table."""
    text = content.decode("utf-8", "replace")
    with watched():
        try:
            attempts = list(parse_table(io.StringIO(text, newline="")))
        except AttemptError as fault:
            told(fault)
            return
    made = [each for each in attempts if isinstance(each, AttemptRecord)]
    own = [each for each in attempts if isinstance(each, OwnWords)]
    table = "".join(format_table(made, own))
    assert list(parse_table(table.splitlines(keepends=True))) == [*made, *own]


def note_line(content: bytes) -> None:
    """A line of own words or of something to do, among those of attempts."""
    with watched():
        try:
            record = parse_record(content)
        except AttemptError as fault:
            told(fault)
            return
    if not isinstance(record, AttemptRecord):
        assert parse_record(format_note(record)) == record


def backup(content: bytes) -> None:
    """A backup that is to be put back: the present form of it, or one of the faults that are told."""
    with folder_with("backup.sqlite", content) as folder, watched(folder):
        try:
            loaded(folder / "backup.sqlite").close()
        except (OSError, sqlite3.Error, NewerStoreError) as fault:
            told(fault)


def tables(content: bytes) -> None:
    """A stored table: all that the file holds after its label, or one of the faults that are told."""
    with folder_with("cross.table", content) as folder, watched():
        try:
            table = read_table(folder / "cross.table", "cross")
        except TableError as fault:
            told(fault)
            return
        assert table.tobytes() == content[-table.nbytes :]


def case_lists(content: bytes) -> None:
    """The cases of a sheet or a task, and the list of a board."""
    text = text_of(content)
    with watched():
        try:
            assert set(parse_case_list(text)) <= set(CASES)
        except RequestError as fault:
            told(fault)
        try:
            wanted = parse_list(text, _TITLES)
        except BoardListError as fault:
            told(fault)
            return
    assert isinstance(wanted, LessonScenes | SlippingCases) or set(wanted) <= set(CASES)


def captions(content: bytes) -> None:
    """What is to be read in a film: cut into captions, no word is lost."""
    text = text_of(content)
    with watched():
        parts = captions_of(text)
    assert " ".join(part.text for part in parts).split() == text.split()


def recordings(content: bytes) -> None:
    """A voice: a sound file of any kind."""
    with folder_with("1.wav", content) as folder, watched():
        try:
            assert recording(folder / "1.wav").seconds >= 0.0
        except PublishError as fault:
            told(fault)


def assigning(content: bytes) -> None:
    """Learner, cases, lesson and day of a task, as arguments of the command."""
    given = (*text_of(content).replace("\0", "").split("|"), "", "", "")
    names = ("--learner", "--cases", "--lesson", "--until")
    arguments = [f"{name}={text}" for name, text in zip(names, given, strict=False) if text]
    with folder_with(STORE_FILE, club()) as folder:
        assert commanded(folder, "progress", "assign", *arguments) in (0, 2)


def commanded(home: Path, *arguments: str) -> int:
    """The exit status of a command; of what is wrong it says one line."""
    with at_home(home) as said:
        status = main(arguments)
    assert said.getvalue().count("\n") == int(status == 2), said.getvalue()
    assert len(said.getvalue()) < LONGEST_MESSAGE
    return status


def batch(content: bytes) -> None:
    """Requests line by line: each gets one line of JSON, whatever it is."""
    # What is asked is not worked out here: exact answers to far positions take their time.
    told = io.StringIO()
    with watched():
        status = answer_lines(io.BytesIO(content), told, _echo)
    replies = [json.loads(line) for line in told.getvalue().splitlines()]
    assert len(replies) == len(content.splitlines()) if b"\r" not in content else replies is not None
    assert status == int(any("error" in reply for reply in replies))
    assert all(len(reply.get("error", "")) < LONGEST_MESSAGE for reply in replies)


def _echo(asked: TaskRequest) -> dict[str, object]:
    return {"slot": asked.task.slot.name, "keep": len(asked.task.keep)}


def actions(content: bytes) -> None:
    """Names of buttons: those that mean something are written and read in pairs."""
    with watched():
        command = command_of(text_of(content))
    if command is not None:
        assert command_of(action_name(command)) == command


def key_names(content: bytes) -> None:
    """Keys as the settings file names them."""
    with watched():
        try:
            parse_key(text_of(content))
        except KeysError as fault:
            told(fault)


TARGETS: dict[str, Callable[[bytes], None]] = {
    each.__name__: each
    for each in (
        notation, stickers, script, settings, small_files, attempt_line, attempt_table, note_line, backup,
        tables, case_lists, captions, recordings, assigning, batch, actions, key_names,
    )
}  # fmt: skip
"""All of them by name."""


if __name__ == "__main__":
    # Runs one target on standard input, to look into an input that was found.
    TARGETS[sys.argv[1]](sys.stdin.buffer.read())
