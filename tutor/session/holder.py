"""Where a room keeps what is its own: in the session, which need not know what it is."""

from __future__ import annotations

from types import MappingProxyType
from typing import Generic, TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

from tutor.session.house import Session

V = TypeVar("V")


class Holder(Struct, Generic[V], frozen=True):
    """A place in the session for one value, under a name that no other holder has."""

    name: str
    empty: V
    """What is there as long as nothing was put."""

    def of(self, session: Session) -> V:
        """The value."""
        return cast(V, session.held.get(self.name, self.empty))

    def filled(self, session: Session) -> bool:
        """Whether a value was ever put."""
        return self.name in session.held

    def put(self, session: Session, value: V) -> Session:
        """The session with another value."""
        return replace(session, held=MappingProxyType({**session.held, self.name: value}))
