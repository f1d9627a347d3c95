"""The sitting that practice belongs to: what counts towards its goal, its end, and rest for the hands."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tutor.progress.attempt import Mode
from tutor.progress.sitting import (
    PAUSE,
    Goal,
    GoalKind,
    GoalStanding,
    Sitting,
    begun,
    busy,
    goal_standing,
    rest_wanted,
    waited,
    with_attempt,
)
from tutor.screens.practice import words
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import PRACTICE, RUN, CaseRun, Practice, PracticePage, RunPhase
from tutor.session.house import Session
from tutor.session.record_commands import Record


def sat_down(session: Session, now: float) -> Session:
    """The sitting that is under way, with the goal now chosen; or a new one."""
    practice, old = PRACTICE.of(session), PRACTICE.of(session).sitting
    kind, amount = practice.goal
    goal = Goal(GoalKind(kind), amount)
    if old is not None and practice.mode is not None:
        sitting = replace(old, goal=goal)
    else:
        sitting = begun(goal, now)
        if old is not None and now - old.last < PAUSE:
            # A new sitting soon after another does not mean that the hands have rested.
            sitting = replace(sitting, unrested=old.unrested, reminders=old.reminders)
    return PRACTICE.put(session, replace(practice, sitting=sitting))


def standing(practice: Practice) -> GoalStanding | None:
    """How far the goal is reached; None without a sitting. Only the schedule knows whether the
    list is done."""
    return None if practice.sitting is None else goal_standing(practice.sitting, more=True)


def reached(practice: Practice) -> bool:
    """Whether the goal is reached and the learner has not chosen to go on beyond it."""
    stands = standing(practice)
    return stands is not None and stands.reached and not practice.beyond


def rested(session: Session, now: float) -> tuple[Session, str]:
    """Between two attempts: the session, and a quiet word when it is time to rest the hands."""
    practice, minutes = PRACTICE.of(session), session.settings.rest_minutes
    sitting = practice.sitting or begun_by_hand(now)
    if minutes <= 0:
        return PRACTICE.put(session, replace(practice, sitting=sitting)), ""
    sitting, due = rest_wanted(sitting, now, minutes)
    session = PRACTICE.put(session, replace(practice, sitting=sitting))
    if not due:
        return session, ""
    return session, words.rest(int(sitting.unrested) // 60)


def begun_by_hand(now: float) -> Sitting:
    """A sitting in which the learner picks the cases, and which has no goal."""
    return begun(Goal(), now)


def kept_up(before: Session, after: Session, filed: Iterable[object], now: float) -> Session:
    """After a command: what was done counts."""
    practice = PRACTICE.of(after)
    if after.screen != NAME and practice.stand is not PracticePage.START:
        practice = replace(practice, stand=PracticePage.START, mode=None)
    practice = _counted(_waited(practice, RUN.of(before), RUN.of(after), now), filed, now)
    if practice.sitting is not None and after.screen == NAME:
        practice = _minded(practice, RUN.of(before), RUN.of(after), now)
    return after if practice is PRACTICE.of(after) else PRACTICE.put(after, practice)


def _waited(practice: Practice, before: CaseRun | None, after: CaseRun | None, now: float) -> Practice:
    """With the wait for the solver left out, when it ends now: before a run, or once its pair is solved."""
    sitting = practice.sitting
    if sitting is None or before is None or after is None:
        return practice
    if before.phase is RunPhase.WAITING and after.phase is not RunPhase.WAITING:
        return replace(practice, sitting=waited(sitting, now))
    if before.phase is RunPhase.TURNING and after.phase is RunPhase.OVER and after.solved is not None:
        return replace(practice, sitting=waited(busy(sitting, after.started + after.seconds), now))
    return practice


def _counted(practice: Practice, filed: Iterable[object], now: float) -> Practice:
    for effect in filed:
        if isinstance(effect, Record) and effect.attempt.mode is not Mode.LESSON:
            sitting = practice.sitting or begun_by_hand(now)
            practice = replace(practice, sitting=with_attempt(sitting, effect.attempt, now), before=sitting)
    return practice


def _minded(practice: Practice, before: CaseRun | None, after: CaseRun | None, now: float) -> Practice:
    """With the time that went by up to something the learner did, and without what was taken back."""
    sitting, then = practice.sitting, practice.before
    if sitting is None or before is after or after is None:
        return practice
    taken_back = after.uncounted and before is not None and before.filed is not None
    if taken_back and then is not None:
        restored = replace(sitting, attempts=then.attempts, good=then.good, cases=then.cases)
        return replace(practice, sitting=busy(restored, now), before=None)
    if before is None or _deeds(before) != _deeds(after):
        return replace(practice, sitting=busy(sitting, now))
    return practice


def _deeds(run: CaseRun) -> tuple[object, ...]:
    """What changes in a run when the learner does something, and not when a clock ticks."""
    told = None if run.glance is None else (run.glance.step, run.glance.turn)
    return run.case.slug, run.phase, run.made, len(run.hints), run.chosen, told
