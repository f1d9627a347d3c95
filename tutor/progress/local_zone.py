"""The time zone of this computer, with the difference to UTC that it has at each moment."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, tzinfo


class LocalZone(tzinfo):
    """The zone by the rules of the system.

    A difference to UTC that is taken once is wrong after the next change of clocks, and for each day beyond
    one; here each moment has its own.
    """

    def utcoffset(self, at: datetime | None, /) -> timedelta | None:
        """The difference to UTC at a moment of this zone."""
        return None if at is None else at.replace(tzinfo=None).astimezone().utcoffset()

    def dst(self, _at: datetime | None, /) -> timedelta | None:
        """How much of it is summer time: the system does not say."""
        return None

    def tzname(self, at: datetime | None, /) -> str | None:
        """What the zone is called at a moment of this zone."""
        return None if at is None else at.replace(tzinfo=None).astimezone().tzname()

    def fromutc(self, at: datetime, /) -> datetime:
        """A moment that is written in UTC, in this zone."""
        whole = at.replace(microsecond=0, tzinfo=UTC).timestamp()
        return datetime.fromtimestamp(whole).replace(microsecond=at.microsecond, tzinfo=self)


LOCAL_ZONE = LocalZone()
"""The one place that knows when a day begins where the program runs."""
