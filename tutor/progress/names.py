"""When two names are one learner: everywhere names are compared, they are compared here."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from typing import TypeVar
from unicodedata import normalize

from msgspec.structs import replace

from tutor.progress.assignment import Assignment
from tutor.progress.attempt import AttemptRecord
from tutor.progress.own_words import OwnWords

Kept = TypeVar("Kept", bound=AttemptRecord | OwnWords | Assignment)


def folded(name: str) -> str:
    """The form that all ways to write a learner's name share, whatever their capitals and Unicode form.

    It is the compatibility caseless match of the Unicode Standard (section 3.13, D146).
    """
    once = normalize("NFKD", normalize("NFD", name.strip()).casefold())
    return normalize("NFKD", once.casefold())


def same_learner(one: str, other: str) -> bool:
    """Whether both are names of one learner."""
    return one == other or folded(one) == folded(other)


def known_as(name: str, known: Iterable[str]) -> str | None:
    """How the learner of this name is written among those known; None when there is none."""
    wanted = folded(name)
    return next((each for each in known if folded(each) == wanted), None)


def known_names(connection: sqlite3.Connection) -> dict[str, str]:
    """How each learner of the progress file is written, by the form that all ways to write the name share."""
    names = (row[0] for row in connection.execute("SELECT name FROM learners").fetchall())
    return {folded(name): name for name in names if isinstance(name, str)}


def named_once(kept: Kept, names: dict[str, str]) -> Kept:
    """What is kept of a learner, under the name known already; a new name is known from now on."""
    name = names.setdefault(folded(kept.learner), kept.learner)
    return kept if name == kept.learner else replace(kept, learner=name)
