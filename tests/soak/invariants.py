"""What must be true of session, history, timeline, view and store, whatever was done."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from render.layout.panels import layout
from tests.session.names import actions_in, command_of
from tests.session.pilot import EPOCH, Pilot
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.progress.backup import FILE, is_sound
from tutor.progress.store import AttemptStore
from tutor.screens.case_book.state import PAGE
from tutor.screens.free_play.state import FREE
from tutor.screens.lesson.state import LESSON
from tutor.screens.practice.state import RUN
from tutor.screens.solve.state import SOLVE
from tutor.session.history import History
from tutor.session.house import Session
from tutor.session.state import Attempt
from tutor.session.timeline import MOST_WAITING, Segment, Timeline
from tutor.ui.view import HIDDEN

REPLAYED = 40
"""Moves at the end of a history that are made again to see that they lead where it says."""


def attempts_of(session: Session) -> tuple[Attempt, ...]:
    """Every cube in hand on any screen."""
    holders = (LESSON.of(session), RUN.of(session), PAGE.of(session), SOLVE.of(session))
    return (FREE.of(session), *(holder.attempt for holder in holders if holder is not None))


def check_session(pilot: Pilot) -> None:
    """History, timeline and view of the session as it is. Raises AssertionError."""
    session = pilot.session
    assert not session.failure, session.failure
    for attempt in attempts_of(session):
        check_history(attempt.history)
    check_timeline(session, pilot.now)
    check_view(pilot)


def check_history(history: History) -> None:
    """The cursor is in range, the cube is what a replay gives, and undo and redo are each other's inverse."""
    assert 0 <= history.cursor <= len(history.entries)
    first = max(0, len(history.entries) - REPLAYED)
    replayed = history.cube_at(first)
    for index, entry in enumerate(history.entries[first:], start=first):
        assert history.cube_at(index) == replayed
        replayed = replayed.moved(entry.move)
    assert history.cube_at(len(history.entries)) == replayed
    if history.cursor:
        undone = history.undone()
        assert undone.cube.moved(history.entries[undone.cursor].move) == history.cube
        assert undone.moved_to(undone.cursor + 1) == history
    elif history.can_undo:
        assert history.undone().redone().cube == history.cube


def check_timeline(session: Session, now: float) -> None:
    """Segments stand in order of time, few wait, and the last one leads to the cube in hand."""
    timeline: Timeline = session.timeline
    assert len(timeline.segments) <= MOST_WAITING + 1
    for segment in timeline.segments:
        assert segment.begin < segment.end
    for one, two in zip(timeline.segments, timeline.segments[1:], strict=False):
        assert one.end <= two.begin + 1e-9
    attempt = session.attempt
    if attempt is not None and timeline.moving(now) and session.demonstration is None:
        assert timeline.sample(timeline.segments[-1].end, attempt.cube).cube == attempt.cube
        assert end_of(timeline.segments[-1]) == attempt.cube


def end_of(segment: Segment) -> HeldCube:
    """The cube at the end of a segment, which may go some quarters on, or back to where it began."""
    move = segment.move
    if not isinstance(move, Turn):
        return segment.cube.moved(move)
    signed = move.quarters if move.quarters < 3 else -1
    quarters = round(segment.last * signed) % 4
    return segment.cube.moved(Turn.of(move.face, quarters)) if quarters else segment.cube


def check_view(pilot: Pilot) -> None:
    """What is shown is what is so; every button does something, and the chosen one is there."""
    session, view = pilot.session, pilot.view
    assert view.screen is session.screen
    for action in actions_in(view):
        assert command_of(action) is not None, action
    still = session.demonstration is None and session.dragged is None and not pilot.moving
    # A question about a turn shows the moment before it, with the turn as an arrow.
    asked = session.screen == "practice" and view.stage is not None and view.stage.arrow is not None
    if still and not asked and session.attempt is not None and view.stage is not None:
        hides = session.screen == "looking ahead"
        for shown, colour in zip(view.stage.colours, session.attempt.cube.colours, strict=True):
            assert shown == colour or (hides and shown == HIDDEN)


def check_layout(pilot: Pilot, width: int, height: int) -> None:
    """The view finds room in a window of this size."""
    scene = layout(pilot.view, width, height)
    actions = {box.action for _, box in scene.boxes() if box.action}
    assert actions or not actions_in(pilot.view)


def check_store(pilot: Pilot, folder: Path) -> None:
    """The file is sound, nothing waits to be written, and what is on the disk is what the session counts."""
    pilot.settle()
    records = pilot.session.records
    assert not records.waiting
    assert not records.unsaved
    assert is_sound(folder / FILE, thorough=True)
    with AttemptStore.open(folder, lambda: datetime.fromtimestamp(EPOCH + pilot.now, UTC)) as store:
        mine = store.attempts(records.learner)
        numbers = [attempt.uuid for attempt in store.attempts()]
    assert len(numbers) == len(set(numbers))
    assert records.study is not None
    assert len(records.study.results) == len(mine)
