"""The Detour made last: the learner undoes it, goes on from there, or is shown what it put out of order."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.mending import damage, mending
from tutor.cube.faces import Turn
from tutor.method.cutting import cut
from tutor.method.routes import Route
from tutor.method.terms import Verdict
from tutor.session.demonstration import Demonstration, ShownDetour
from tutor.session.house import Session
from tutor.session.judging import Judged, judged_turns
from tutor.session.looking_back import (
    colour_words,
    last_judged,
    last_remark,
    shown_once,
    steps_under_way,
)
from tutor.session.state import Attempt


def detour(session: Session, attempt: Attempt) -> Judged | None:
    """The last turn, when it is a Detour and not still in the making."""
    last, remark = last_judged(session, attempt), last_remark(session, attempt)
    return last if remark is not None and remark.verdict is Verdict.DETOUR else None


def to_choose(session: Session) -> Judged | None:
    """The Detour about which the learner has still to choose what to do."""
    attempt = session.attempt
    shown = session.demonstration
    if attempt is None or attempt.went_on or (shown is not None and shown.detour is None):
        return None
    return detour(session, attempt) if session.room.hints_allowed(session) else None


def gone_on(session: Session) -> Session:
    """The session in which the learner goes on from the Detour; unchanged where there is none."""
    attempt = session.attempt
    if attempt is None or to_choose(session) is None:
        return session
    return session.room.with_attempt(replace(session, demonstration=None), replace(attempt, went_on=True))


def why_shown(session: Session, attempt: Attempt, now: float) -> Demonstration | None:
    """From the cube after the Detour: its turn back, then the turns that show what would have been better."""
    last, remark = detour(session, attempt), last_remark(session, attempt)
    if last is None or last.answer is None or remark is None:
        return None
    better = _better(last.turn, () if remark.slip is None else remark.slip.replay)
    turns = (last.turn.inverse, *better)
    # The turn back leads into the step that was under way before the Detour.
    under_way = steps_under_way(judged_turns(session, attempt), None)[-2] or last.answer.step
    steps = (under_way, *cut(last.bearing.position, last.bearing.task, better))
    before = attempt.history.cube_at(last.index)
    # A wide turn is shown as the face turn that it comes to, so that the cube is held alike in all of it.
    after = before.moved(last.bearing.turn_as_held(last.turn))
    way, rests = Route(turns, steps), frozenset({1, len(turns)})
    out = damage(last.answer, last.turn)
    told = mending(last.answer, last.turn, colour_words(session, before, last.bearing)).text
    shown = shown_once(after, last.bearing, way, rests, now)
    return replace(shown, detour=ShownDetour(last.turn, before, after, out.pairs, out.edges, told))


def _better(made: Turn, replay: tuple[Turn, ...]) -> tuple[Turn, ...]:
    """The turns that a slip's explanation shows, where they do not make the slip again."""
    return () if made in replay[:1] else replay
