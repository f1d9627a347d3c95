"""The Progress screen: what it tells is worked out beside, whenever it is open and there is news."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from tutor.progress.attempt import GUEST
from tutor.session.records.commands import Summarise, Summarised
from tutor.session.saving_commands import ONE_AT_A_TIME, Kind, SaveSheet, SaveTable, Saving
from tutor.session.state import Session
from tutor.ui.view import Screen


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


def sheet_wanted(session: Session, _now: float = 0.0) -> tuple[Session, tuple[SaveSheet, ...]]:
    """Save the page as a picture."""
    if not session.records.practised:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=ONE_AT_A_TIME), ()
    # Imported here: no start has to wait for the figures.
    from tutor.session.views.progress import sheet

    session = begun(session, Kind.PICTURE)
    return session, (SaveSheet(session.saving.request, _name(session), sheet(session)),)


def table_wanted(session: Session, _now: float = 0.0) -> tuple[Session, tuple[SaveTable, ...]]:
    """Save how the cases stand as a table."""
    summary = session.records.summary
    if session.screen is not Screen.PROGRESS or summary is None or not session.records.practised:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=ONE_AT_A_TIME), ()
    from tutor.progress.summary import format_standing

    session = begun(session, Kind.TABLE)
    text = "".join(format_standing(summary))
    return session, (SaveTable(session.saving.request, _name(session), text),)


def begun(session: Session, kind: Kind) -> Session:
    """With something being saved under a number of its own."""
    return replace(session, saving=Saving(session.saving.request + 1, kind), notice="")


def _name(session: Session) -> str:
    """What a file of this screen is called: the learner, and the day it tells of."""
    records = session.records
    day = "" if records.summary is None else f"-{records.summary.week[0].day.isoformat()}"
    if records.learner == GUEST:
        return f"progress{day}"
    letters = "".join(letter if letter.isalnum() else "-" for letter in records.learner.lower())
    return f"progress-{letters}{day}"


HANDLERS: dict[type, Callable[[Session, Any, float], Session]] = {Summarised: told}
"""What each kind of command does."""
