"""What the learner is at, as the windows on a shared folder tell each other."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from tutor.method.terms import Step, Verdict
from tutor.progress.presence import Engaged, Presence, missed_step
from tutor.session.house import Session
from tutor.session.judging import judged_turns

NOWHERE = Engaged()


@dataclass(frozen=True, slots=True)
class Watch:
    """What the learner was found at last, since when, and when anything was pressed last."""

    engaged: Engaged = NOWHERE
    since: float = 0.0
    pressed: float = 0.0

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
    """How many detours were made in each step of the try in hand."""
    attempt = session.attempt
    found: Counter[Step] = Counter()
    for judged in () if attempt is None else judged_turns(session, attempt):
        answer = judged.answer
        if answer is not None and answer.continuations[judged.turn].verdict is Verdict.DETOUR:
            found[answer.step] += 1
    return found
