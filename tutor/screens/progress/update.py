"""The Progress screen: its figures come from a thread beside, whenever it is open and there is news."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.progress.attempt import GUEST
from tutor.progress.summary import format_standing
from tutor.screens.progress.commands import NAME
from tutor.screens.progress.state import ASKED
from tutor.screens.progress.view import sheet
from tutor.session import words as session_words
from tutor.session.house import Session, Update
from tutor.session.record_commands import Summarise
from tutor.session.saving import begun
from tutor.session.saving_commands import SavedKind, SaveSheet, SaveTable


def asked(before: Session, after: Session, now: float) -> Update:
    """What is asked when the screen opens, and again when there is news while it is open."""
    known = after.records
    if after.screen != NAME or known.study is None:
        return after, ()
    opened = before.screen != NAME
    return _asked(after, now) if opened or known.study is not before.records.study else (after, ())


def new_day(session: Session, now: float) -> bool:
    """Whether a day has begun for which no figures were asked for yet."""
    return ASKED.of(session) not in (None, session.records.today(now))


def day_begun(session: Session, now: float) -> Update:
    """Ask for the figures of the new day."""
    return _asked(session, now) if new_day(session, now) else (session, ())


def _asked(session: Session, now: float) -> Update:
    records = session.records
    asked = Summarise(records.learner, records.wall(now))
    return ASKED.put(session, records.today(now)), (asked,)


def sheet_wanted(session: Session) -> Update:
    """Save the page as a picture."""
    if not session.records.practised:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=session_words.ONE_AT_A_TIME), ()
    session = begun(session, SavedKind.PICTURE)
    return session, (SaveSheet(session.saving.request, _name(session), sheet(session)),)


def table_wanted(session: Session) -> Update:
    """Save how well the learner remembers the cases as a table."""
    summary = session.records.summary
    if session.screen != NAME or summary is None or not session.records.practised:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=session_words.ONE_AT_A_TIME), ()
    session = begun(session, SavedKind.TABLE)
    text = "".join(format_standing(summary))
    return session, (SaveTable(session.saving.request, _name(session), text),)


def _name(session: Session) -> str:
    """The name of a file of this screen: the learner, and the day."""
    records = session.records
    day = "" if records.summary is None else f"-{records.summary.week[0].day.isoformat()}"
    if records.learner == GUEST:
        return f"progress{day}"
    letters = "".join(letter if letter.isalnum() else "-" for letter in records.learner.lower())
    return f"progress-{letters}{day}"
