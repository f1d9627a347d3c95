"""The first room."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tutor.screens.home import finding, words
from tutor.screens.home.commands import NAME
from tutor.screens.home.view import home_at
from tutor.session.commands import as_command
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update
from tutor.session.record_commands import OpenRecords
from tutor.session.state import Writing
from tutor.session.update import done
from tutor.ui.view import View


class Home(Room):
    """The lessons, and the ways to all other rooms."""

    name = NAME
    bar_label = words.NAME

    def left(self, session: Session) -> Session:
        """A name half typed is not kept."""
        return replace(session, writing=Writing())

    def writes(self, session: Session) -> bool:
        """Part of a name, where Home cannot show all of them."""
        return finding.needed(session)

    def submitted(self, session: Session, now: float) -> Update | None:
        """The first learner found learns now."""
        return finding.submitted(session, now)

    def gone_on(self, session: Session, now: float) -> Update:
        """What Home proposes first."""
        doors = session.house.doors(self, session)
        command = as_command(doors[0].action) if doors else None
        return (session, ()) if command is None else done(session, command, now)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """Whoever comes back here sees what was given and done elsewhere meanwhile, by another window too."""
        back = after.screen == NAME and before.screen not in ("", NAME)
        return after, (OpenRecords(after.records.learner),) if back else ()

    def view(self, session: Session, now: float) -> View:
        """All that you see of it."""
        return home_at(session, now)
