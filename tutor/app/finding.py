"""What an examination finds: one thing looked at, how it is, and that in words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class State(Enum):
    """How a finding is to be taken."""

    FINE = "fine"
    NOTE = "note"
    MISSING = "missing"
    WRONG = "wrong"


@dataclass(frozen=True, slots=True)
class Finding:
    """``about`` names the thing, ``told`` is what there is to say."""

    about: str
    state: State
    told: str


def fine(about: str, told: str) -> Finding:
    """All is as it should be."""
    return Finding(about, State.FINE, told)


def note(about: str, told: str) -> Finding:
    """Worth knowing; nothing needs mending."""
    return Finding(about, State.NOTE, told)


def missing(about: str, told: str) -> Finding:
    """Nothing is broken, and still something cannot be done here."""
    return Finding(about, State.MISSING, told)


def wrong(about: str, told: str) -> Finding:
    """Something does not work, or soon will not."""
    return Finding(about, State.WRONG, told)
