"""The Progress screen: what it tells is worked out beside, whenever it is open and there is news."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from tutor.session.records_commands import Summarise, Summarised
from tutor.session.state import Session
from tutor.session.view import Screen


def asked(before: Session, after: Session) -> tuple[Summarise, ...]:
    """What is asked when the screen opens, and again when there is more to tell while it is open."""
    known = after.records
    if after.screen is not Screen.PROGRESS or known.study is None:
        return ()
    opened = before.screen is not Screen.PROGRESS
    return (Summarise(known.learner),) if opened or known.study is not before.records.study else ()


def told(session: Session, command: Summarised, _now: float) -> Session:
    """How it goes was worked out."""
    return replace(session, records=replace(session.records, summarised=command))


HANDLERS: dict[type, Callable[[Session, Any, float], Session]] = {Summarised: told}
"""What each kind of command does."""
