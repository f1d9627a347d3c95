"""Files of attempts as the ``progress`` command reads and writes them: tables, and lines of JSON."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from pathlib import Path

from msgspec import Struct

from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import progress as words
from tutor.plain_file import open_plain
from tutor.progress.attempt import AttemptError, AttemptRecord
from tutor.progress.interchange import format_line, format_table, parse_record, table_rows
from tutor.progress.notes import Note, format_note
from tutor.publish.files import PublishError, write_bytes

TABLE, LINES = ".csv", ".jsonl"
LARGEST = 64 * 2**20
"""Bytes of a file that is taken in, at most: some hundred thousand attempts."""

Records = tuple[list[AttemptRecord], list[Note]]
Record = AttemptRecord | Note


class ReadLine(Struct, frozen=True):
    """A line of a file, and what it says or what is wrong with it."""

    file: Path
    number: int
    says: Record | AttemptError


def check_suffix(file: Path) -> None:
    """Raise RequestError for a name that does not say the file's form."""
    if file.suffix not in (TABLE, LINES):
        raise RequestError(words.no_attempt_form(file, TABLE, LINES))


def sorted_out(lines: Iterable[ReadLine]) -> Records:
    """The attempts and the notes of lines. Raises RequestError at the first that is wrong."""
    attempts: list[AttemptRecord] = []
    notes: list[Note] = []
    for line in lines:
        match line.says:
            case AttemptRecord():
                attempts.append(line.says)
            case AttemptError():
                raise RequestError(f"{line.file}: {line.says}") from line.says
            case _:
                notes.append(line.says)
    return attempts, notes


def read_lines(file: Path) -> list[ReadLine]:
    """The lines of a file, whether they are right or wrong.

    Raises RequestError, which names the file, when it cannot be read as a whole.
    """
    check_suffix(file)
    try:
        content = _content(file)
        # A spreadsheet may have put a byte order mark before the first column.
        text = io.StringIO(content.decode("utf-8-sig"), newline="")
        if file.suffix == TABLE:
            return [ReadLine(file, number, says) for number, says in table_rows(text)]
        numbered = ((number, line) for number, line in enumerate(text, 1) if line.strip())
        return [ReadLine(file, number, _line(line, number)) for number, line in numbered]
    except AttemptError as fault:
        raise RequestError(f"{file}: {fault}") from fault
    except UnicodeDecodeError as fault:
        raise RequestError(words.not_utf8(file)) from fault
    except OSError as fault:
        raise RequestError(words.cannot_read(file, fault.strerror)) from fault


def _content(file: Path) -> bytes:
    """All of a file, read piece by piece, so that nothing larger than allowed is ever in memory."""
    content = bytearray()
    with open_plain(file) as opened:
        while piece := opened.read(1 << 20):
            content += piece
            if len(content) > LARGEST:
                raise RequestError(words.too_large(file, LARGEST >> 20))
    return bytes(content)


def _line(line: str, number: int) -> Record | AttemptError:
    try:
        return parse_record(line)
    except AttemptError as fault:
        return AttemptError(words.in_line(number, str(fault)))


def write_records(
    file: Path, attempts: Sequence[AttemptRecord], notes: Sequence[Note], *, force: bool
) -> None:
    """Write a file whole, or not at all. Raises RequestError; one that is there is replaced by ``force``."""
    if file.suffix == TABLE:
        # Without the mark spreadsheets take names for those of an older code page.
        content = "\ufeff" + "".join(format_table(attempts, notes))
    else:
        lines = (*map(format_line, attempts), *map(format_note, notes))
        content = "".join(f"{line}\n" for line in lines)
    try:
        write_bytes(file, content.encode("utf-8"), force=force)
    except PublishError as fault:
        raise RequestError(str(fault)) from fault
