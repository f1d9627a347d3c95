"""What a check finds: the thing, its state, and a line of words."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.quoting import visible


class State(Enum):
    """How serious a result is."""

    FINE = "fine"
    NOTE = "note"
    MISSING = "missing"
    WRONG = "wrong"


class CheckResult(Struct, frozen=True):
    """``about`` names the thing, ``told`` says how it is."""

    about: str
    state: State
    told: str


def fine(about: str, told: str) -> CheckResult:
    """The thing is as it should be."""
    return CheckResult(about, State.FINE, visible(told))


def note(about: str, told: str) -> CheckResult:
    """Worth knowing; nothing needs repair."""
    return CheckResult(about, State.NOTE, visible(told))


def missing(about: str, told: str) -> CheckResult:
    """Nothing is broken, but this machine lacks something."""
    return CheckResult(about, State.MISSING, visible(told))


def wrong(about: str, told: str) -> CheckResult:
    """Something does not work, or soon will not."""
    return CheckResult(about, State.WRONG, visible(told))
