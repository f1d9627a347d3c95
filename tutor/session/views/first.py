"""What a start shows: Home with nothing over it, made without what the other screens need."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from tutor.session.saving_commands import Saving
from tutor.session.state import Session, Sheet
from tutor.session.views.home import home
from tutor.session.views.keys import with_own_keys
from tutor.ui.view import Screen, View


@lru_cache(maxsize=4)
def home_alone(session: Session) -> View | None:
    """Home as the session stands; None while another screen is shown, or something lies over Home."""
    if session.screen is not Screen.HOME or session.sheet is not Sheet.NONE or session.failure:
        return None
    return with_own_keys(home(session), session.settings)


def home_view(session: Session) -> View:
    """Home as the next start will show it to this person."""
    afresh = replace(
        session,
        screen=Screen.HOME,
        lesson=None,
        sheet=Sheet.NONE,
        notice="",
        saving=Saving(),
        failure="",
    )
    view = home_alone(afresh)
    assert view is not None
    return view
