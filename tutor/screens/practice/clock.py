"""The clocks of a glance, the metronome and a celebration: when a stroke is due, and what it does."""

from __future__ import annotations

from math import floor

from msgspec.structs import replace

from tutor.screens.practice import metronome
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import GLANCE_SECONDS, RUN, CaseRun, RunPhase
from tutor.session.commands import Click, Effect
from tutor.session.house import Session


def tick_due(session: Session, now: float) -> bool:
    """Whether a stroke is due; while something lies over the screen none is."""
    run = RUN.of(session)
    if session.screen != NAME or run is None or session.covered:
        return False
    return _stricken(run, now) is not run


def ticked(session: Session, now: float) -> tuple[Session, tuple[Effect, ...]]:
    """After a stroke; that of the metronome is heard by those who want to hear turns."""
    before = RUN.of(session)
    if before is None or not tick_due(session, now):
        return session, ()
    run = _stricken(before, now)
    heard = run.beat is not None and not run.over and session.settings.sound
    return RUN.put(session, run), (Click(),) if heard else ()


def _stricken(run: CaseRun, now: float) -> CaseRun:
    """The run with the strokes up to now; the same run when there is none."""
    if run.lit_until is not None and now >= run.lit_until:
        return replace(run, lit_until=None)
    if run.phase is not RunPhase.TURNING:
        return run
    at = max(0.0, now - run.started)
    if run.glance is not None:
        seconds = min(GLANCE_SECONDS, floor(at))
        return (
            run
            if seconds == run.glance.seconds
            else replace(run, glance=replace(run.glance, seconds=seconds))
        )
    if run.beat is not None and run.solved is None:
        count = metronome.beats_at(run.beat, at)
        return run if count == run.beat.count else replace(run, beat=replace(run.beat, count=count))
    return run
