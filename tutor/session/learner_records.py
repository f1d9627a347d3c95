"""The session's records: who learns, what their study is, and what is on its way to the disk."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime, tzinfo
from uuid import UUID

from msgspec import Struct, field
from msgspec.structs import replace

from tutor.progress.assignment import Assignment, ToDo, open_cases, to_do
from tutor.progress.attempt import GUEST, time_of
from tutor.progress.cards import Card
from tutor.progress.schedule import on_list, ready
from tutor.progress.study import Study
from tutor.progress.summary import Summary
from tutor.session.record_commands import Exchanged, Standing, Summarised

NO_MARK = UUID(int=0)


class Records(Struct, frozen=True, eq=False):
    """What the session knows of the store. Compared by identity."""

    learner: str = GUEST
    learners: tuple[str, ...] = (GUEST,)
    study: Study | None = None
    """The learner's study; None until the store has read it."""
    epoch: float = 0.0
    """Seconds since 1970, in UTC, at the session's time 0."""
    mark: UUID = NO_MARK
    """Drawn once for each run of the program: the attempts' numbers follow from it."""
    count: int = 0
    """Attempts of this run of the program."""
    waiting: frozenset[UUID] = frozenset()
    """Attempts the store has not answered for yet."""
    unsaved: frozenset[UUID] = frozenset()
    """Attempts that could not be written; the store tries again."""
    notices: tuple[str, ...] = ()
    """Messages of the store."""
    own_words: Mapping[str, str] = field(default_factory=dict)
    """What the learner says of cases in their own words, by the case's slug."""
    backups: str = ""
    """The folder of the backups, once the store is open."""
    assigned: tuple[Assignment, ...] = ()
    """What the learner has to do, with what was done and withdrawn."""
    zone: tzinfo = UTC
    """The time zone of the learner, with its changes of clocks; it says when a day begins."""
    exchanged: Exchanged | None = None
    """The latest look at the shared folder; None where none is shared."""
    summarised: Summarised | None = None
    """The latest summary of a learner."""

    @property
    def summary(self) -> Summary | None:
        """The summary of the present learner; None until it is ready."""
        known = self.summarised
        return known.summary if known is not None and known.learner == self.learner else None

    @property
    def practised(self) -> bool:
        """Whether the summary of the present learner has attempts."""
        return self.summary is not None and any(each.attempts for each in self.summary.cases)

    def today(self, now: float) -> date:
        """The day where the learner is, at the session's time ``now``."""
        return self.wall(now).astimezone(self.zone).date()

    def wall(self, now: float) -> datetime:
        """The time of day, in UTC, at the session's time ``now``."""
        return time_of(self.epoch + now)

    def standing(self, standing: Standing) -> Records:
        """With a standing from the store; from one of another learner only the names and notices."""
        known = replace(self, learners=standing.learners, notices=standing.notices, backups=standing.backups)
        if standing.learner != self.learner:
            return known
        return replace(
            known,
            study=standing.study,
            own_words=standing.own_words,
            assigned=standing.assigned,
            zone=standing.zone,
        )

    def on_list(self, now: float) -> tuple[Card, ...]:
        """The cases that are back on today's list at the session's time ``now``."""
        return () if self.study is None else on_list(self.study, self.wall(now), self.zone)

    def listed(self, now: float) -> tuple[tuple[str, ...], frozenset[str]]:
        """Today's list by slug, what a teacher has given first, and the cases of it that practice cannot give
        at once."""
        if self.study is None:
            return (), frozenset()
        wall, back = self.wall(now), self.on_list(now)
        given = open_cases(self.assigned, self.study.results, wall)
        now_back = {card.slug for card in ready(self.study, back, wall, self.zone)}
        slugs = tuple(card.slug for card in back)
        return tuple(dict.fromkeys((*given, *slugs))), frozenset(slugs) - now_back

    def to_do(self, now: float) -> tuple[ToDo, ...]:
        """What the learner has to do at the session's time ``now``, done things last."""
        if self.study is None:
            return ()
        return to_do(self.assigned, self.study.results, self.wall(now), self.zone)
