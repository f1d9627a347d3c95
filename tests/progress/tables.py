"""A table of attempts read as a whole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tutor.progress.assignment import Assignment
from tutor.progress.attempt import AttemptError, AttemptRecord
from tutor.progress.interchange import table_rows
from tutor.progress.own_words import OwnWords


def parse_table(text: Iterable[str]) -> Iterator[AttemptRecord | OwnWords | Assignment]:
    """The attempts and notes of a CSV table. Raises AttemptError, which names the line."""
    for _, read in table_rows(text):
        if isinstance(read, AttemptError):
            raise read
        yield read
