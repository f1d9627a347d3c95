"""What a check finds: one thing looked at, how it is, and that in words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class State(Enum):
    """How a result is to be taken."""

    FINE = "fine"
    NOTE = "note"
    MISSING = "missing"
    WRONG = "wrong"


@dataclass(frozen=True, slots=True)
class CheckResult:
    """``about`` names the thing, ``told`` is what there is to say."""

    about: str
    state: State
    told: str


def fine(about: str, told: str) -> CheckResult:
    """All is as it should be."""
    return CheckResult(about, State.FINE, told)


def note(about: str, told: str) -> CheckResult:
    """Worth knowing; nothing needs mending."""
    return CheckResult(about, State.NOTE, told)


def missing(about: str, told: str) -> CheckResult:
    """Nothing is broken, and still something cannot be done here."""
    return CheckResult(about, State.MISSING, told)


def wrong(about: str, told: str) -> CheckResult:
    """Something does not work, or soon will not."""
    return CheckResult(about, State.WRONG, told)
