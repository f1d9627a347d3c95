"""Finding a learner at Home by part of a name, where there are more than Home shows."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.progress.names import folded
from tutor.screens.home import words
from tutor.session.house import Session, Update
from tutor.session.record_commands import ChooseLearner
from tutor.session.update import done

NAMES_AT_HOME = 8
"""Home names this many learners; typing finds the others, and the Learners screen names them all.

So many fill about one row at the window's first size.
"""


def needed(session: Session) -> bool:
    """Whether there are more learners than Home shows."""
    return len(session.records.learners) > NAMES_AT_HOME


def shown(session: Session) -> tuple[str, ...]:
    """The learners that Home names: those found, or who learns now and the first of the others."""
    if needed(session) and session.writing.text.strip():
        return _found(session)[:NAMES_AT_HOME]
    here = session.records.learner
    return (here, *(name for name in session.records.learners if name != here))[:NAMES_AT_HOME]


def submitted(session: Session, now: float) -> Update | None:
    """The first learner found learns now; where there is none, that is said at the field."""
    if not needed(session):
        return None
    if not session.writing.text.strip():
        return session, ()
    found = _found(session)
    if found:
        return done(session, ChooseLearner(found[0]), now)
    return replace(session, writing=replace(session.writing, error=words.NOBODY_FOUND)), ()


def _found(session: Session) -> tuple[str, ...]:
    """The learners with the typed text in their names, those first whose names begin with it."""
    part = folded(session.writing.text)
    found = [name for name in session.records.learners if part in folded(name)]
    return tuple(sorted(found, key=lambda name: not folded(name).startswith(part)))
