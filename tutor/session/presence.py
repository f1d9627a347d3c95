"""What the learner is at, as the windows on a shared folder tell each other."""

from __future__ import annotations

from collections import Counter

from msgspec import Struct
from msgspec.structs import replace

from tutor.method.terms import Step, Verdict
from tutor.progress.presence import Engaged, Presence, missed_step
from tutor.session.house import Session
from tutor.session.recording import turns_made


class Watch(Struct, frozen=True):
    """What the learner was found at last, since when, and when anything was pressed last."""

    engaged: Engaged
    since: float
    pressed: float

    def looked(self, session: Session, now: float) -> Watch:
        """The watch after a look at the session."""
        engaged = session.room.engaged(session)
        return self if engaged == self.engaged else replace(self, engaged=engaged, since=now)


def presence_of(session: Session, watch: Watch, now: float) -> Presence:
    """What there is to tell of the learner at the session's time ``now``."""
    records = session.records
    wall = records.wall(now)
    study = records.study
    missed, times = (None, 0) if study is None else missed_step(study.results, _detours(session), wall)
    return Presence(
        records.learner,
        watch.engaged,
        wall,
        max(0.0, now - watch.since),
        max(0.0, now - watch.pressed),
        missed,
        times,
    )


def _detours(session: Session) -> Counter[Step]:
    """How many detours were made in each step of the task in hand, those undone included."""
    attempt = session.attempt
    made = () if attempt is None else turns_made(session, attempt, session.room.turns_tried(session))
    return Counter(each.step for each in made if each.verdict is Verdict.DETOUR and each.step is not None)
