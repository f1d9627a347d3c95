"""The clock of a flash and the metronome: when their next stroke is due, and what it does."""

from __future__ import annotations

from dataclasses import replace
from math import floor

from tutor.session.commands import Click, Effect
from tutor.session.practice import steady
from tutor.session.practice.commands import Tick
from tutor.session.practice.state import FLASH_SECONDS
from tutor.session.state import CaseRun, Phase, Session, Sheet
from tutor.ui.view import Screen


def tick_due(session: Session, now: float) -> bool:
    """Whether a stroke is due; while something lies over the screen none is."""
    run = session.run
    if session.screen is not Screen.PRACTICE or run is None or run.phase is not Phase.TURNING:
        return False
    if session.sheet is not Sheet.NONE or session.failure:
        return False
    return _stricken(run, now) is not run


def ticked(session: Session, _command: Tick, now: float) -> tuple[Session, tuple[Effect, ...]]:
    """After a stroke; that of the metronome is heard by those who want to hear turns."""
    if not tick_due(session, now) or session.run is None:
        return session, ()
    run = _stricken(session.run, now)
    heard = run.beat is not None and session.settings.sound
    return replace(session, run=run), (Click(),) if heard else ()


def _stricken(run: CaseRun, now: float) -> CaseRun:
    """The run with the strokes up to now; the same run when there is none."""
    at = max(0.0, now - run.started)
    if run.flash is not None:
        seconds = min(FLASH_SECONDS, floor(at))
        return (
            run if seconds == run.flash.seconds else replace(run, flash=replace(run.flash, seconds=seconds))
        )
    if run.beat is not None and run.home is None:
        count = steady.beats_at(run.beat, at)
        return run if count == run.beat.count else replace(run, beat=replace(run.beat, count=count))
    return run
