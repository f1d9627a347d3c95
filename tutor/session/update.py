"""The one way a session changes: ``update(session, command, now)`` gives the next session and its effects."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from tutor.cube.faces import TURNS
from tutor.cube.notation import NotationError, parse_moves
from tutor.method.cases import parse_case
from tutor.session import case_book, clocks, dragging, lesson_play, play, saving, screens, showing, turning
from tutor.session.acts import ACTS
from tutor.session.answers import Key
from tutor.session.commands import (
    Act,
    Answered,
    Choose,
    ChooseAnswer,
    ChooseSlot,
    Click,
    Command,
    DragLayer,
    Drawn,
    DropLayer,
    EditKey,
    Effect,
    Failed,
    JumpTo,
    KeepPlaces,
    LessonFailed,
    LessonLoaded,
    LoadLesson,
    Look,
    Make,
    Notice,
    Open,
    OpenCase,
    PointAt,
    SaveSettings,
    Scrub,
    StartLesson,
    Type,
    Zoom,
)
from tutor.session.painting import brush as painting
from tutor.session.places import proposed
from tutor.session.practice import learners, practising, sitting_down
from tutor.session.records import keeping as records
from tutor.session.records import progressing
from tutor.session.saving_commands import NotSaved, Saved, SavingTold
from tutor.session.solve import looking_ahead, solving
from tutor.session.solve import upkeep as solve_upkeep
from tutor.session.solve.acts import SOLVE_HANDLERS
from tutor.session.state import Session, Sheet, Writing, answer_at, judged_turns
from tutor.session.writing import edited, typed
from tutor.ui.view import Camera, Screen

Update = tuple[Session, tuple[Effect, ...]]


def update(session: Session, command: Command, now: float) -> Update:
    """The session after a command at the time ``now`` (seconds), and what it asks of the world. Pure."""
    after, effects = _dispatch(session, command, now)
    after = clocks.kept_up(after, now)
    after, kept = solve_upkeep.kept_up(session, after, now)
    after, filed = records.kept_up(after, now)
    after = sitting_down.kept_up(session, after, filed, now)
    filed += progressing.asked(session, after)
    advices, advised = after.advices.wanting(solving.questions(after))
    if advices is not after.advices:
        after = replace(after, advices=advices)
    answers, asked = after.answers.wanting(_wanted(after))
    if answers is not after.answers:
        after = replace(after, answers=answers)
    if after.settings != session.settings:
        effects = (*effects, SaveSettings(after.settings))
    if after.places != session.places:
        effects = (*effects, KeepPlaces(after.places))
    if after.settings.sound and (_turned(session, after) or not session.settings.sound):
        effects = (*effects, Click())
    return after, effects + kept + filed + asked + advised + painting.kept(session, after)


def _turned(before: Session, after: Session) -> bool:
    """Whether one move was made or taken back on the cube in hand."""
    if before.attempt is None or after.attempt is None or before.screen is not after.screen:
        return False
    if after.run is not None and after.run.beat is not None and after.screen is Screen.PRACTICE:
        # There the metronome is heard, and nothing beside it.
        return False
    old, new = before.attempt.history, after.attempt.history
    return old.start == new.start and abs(old.cursor - new.cursor) <= 1 and old.cube != new.cube


def _dispatch(session: Session, command: Command, now: float) -> Update:
    if command is Act.ENTER:
        return _dispatch(session, _meant_by_enter(session), now)
    if isinstance(command, Act):
        return _act(session, command, now)
    if isinstance(command, EditKey):
        return _edit(session, command, now)
    after = _HANDLERS[type(command)](session, command, now)
    return after if isinstance(after, tuple) else (after, ())


def _opened(session: Session, screen: Screen, now: float) -> Session:
    if screen is Screen.LEARNERS:
        return learners.opened(session, now)
    return screens.opened(session, screen, now)


def _make(session: Session, command: Make, now: float) -> Session:
    return turning.make(session, command.move, now)


def _edit(session: Session, key: EditKey, now: float) -> Update:
    if key is EditKey.SUBMIT:
        after = _submit(session, now)
        return after if isinstance(after, tuple) else (after, ())
    return replace(session, writing=edited(session.writing, key)), ()


def _choose_slot(session: Session, command: ChooseSlot, _now: float) -> Session:
    if session.screen is Screen.SOLVE:
        return solving.taken_on(session, command)
    if session.screen is not Screen.FREE_PLAY:
        return session
    return play.taken_on(session, command.slot)


def _case_opened(session: Session, command: OpenCase, now: float) -> Session:
    if session.screen is not Screen.CASE_BOOK:
        session = screens.opened(session, Screen.CASE_BOOK, now)
    return case_book.opened(session, parse_case(command.slug), command.slot, command.alignment)


def _chosen(session: Session, index: int, now: float) -> Session:
    if session.screen is Screen.PRACTICE:
        return practising.answered(session, index)
    if session.screen is Screen.LOOKING_AHEAD:
        return looking_ahead.chosen(session, index, now)
    return lesson_play.choose(session, index)


def _pointed(session: Session, command: PointAt, now: float) -> Session:
    if session.screen is Screen.LOOKING_AHEAD:
        return looking_ahead.pointed(session, command.sticker, now)
    if session.screen is Screen.PAINTING:
        return painting.pointed(session, command)
    return lesson_play.point(session, command.sticker)


def _jump(session: Session, command: JumpTo, now: float) -> Session:
    return turning.go_to(session, command.index, now)


def _answered(session: Session, command: Answered, now: float) -> Session:
    answers = session.answers.received(command.request, command.answer)
    return turning.checked(replace(session, answers=answers), now)


def _drawn(session: Session, command: Drawn, now: float) -> Session:
    if command.request != session.draw_request:
        return session
    if session.screen is Screen.SOLVE:
        return solving.drawn(session, command, now)
    if session.screen is Screen.LOOKING_AHEAD:
        return looking_ahead.drawn(session, play.held_by_choice(command.position, session.settings), now)
    return screens.restarted(session, play.held_by_choice(command.position, session.settings), now)


_HANDLERS: dict[type, Callable[[Session, Any, float], Session | Update]] = {
    **painting.PAINTING_HANDLERS,
    Make: _make,
    Type: lambda session, command, _now: replace(session, writing=typed(session.writing, command.text)),
    Open: lambda session, command, now: _opened(session, command.screen, now),
    StartLesson: lambda session, command, _now: lesson_play.wanted(
        session, LoadLesson(command.name, command.scene, command.carried)
    ),
    ChooseSlot: _choose_slot,
    OpenCase: _case_opened,
    **practising.HANDLERS,
    ChooseAnswer: lambda session, command, now: _chosen(session, command.index, now),
    Choose: lambda session, command, _now: screens.chosen(session, command),
    JumpTo: _jump,
    Scrub: lambda session, command, now: showing.scrubbed(session, command.position, now),
    PointAt: _pointed,
    DragLayer: lambda session, command, now: dragging.dragged(session, command, now),
    DropLayer: lambda session, command, now: dragging.dropped(session, command, now),
    Look: lambda session, command, _now: replace(session, camera=_looked(session.camera, command)),
    Zoom: lambda session, command, _now: replace(session, camera=_looked(session.camera, command)),
    **SOLVE_HANDLERS,
    Answered: _answered,
    **records.HANDLERS,
    **learners.HANDLERS,
    **progressing.HANDLERS,
    Drawn: _drawn,
    LessonLoaded: lesson_play.loaded,
    LessonFailed: lambda session, command, _now: lesson_play.failed(session, command),
    Notice: lambda session, command, _now: replace(session, notice=command.text),
    **dict.fromkeys((SavingTold, Saved, NotSaved), saving.told),
    Failed: lambda session, command, _now: replace(session, failure=command.message),
}
"""What each kind of command does; those that ask nothing of the world give just the session."""


def _meant_by_enter(session: Session) -> Command:
    """What Enter does where nothing has the focus."""
    if session.failure or session.sheet is not Sheet.NONE:
        return Act.CLOSE
    return proposed(session) if session.screen is Screen.HOME else Act.NEXT


def _act(session: Session, act: Act, now: float) -> Update:
    after = ACTS[act](session, now)
    return after if isinstance(after, tuple) else (after, ())


def _submit(session: Session, now: float) -> Session | Update:
    """Make the moves written; with a mistake in them nothing is made and the text stays."""
    if session.screen is Screen.SOLVE and session.solve is None:
        return solving.submitted(session, now)
    if session.screen is Screen.PAINTING:
        return painting.submitted(session)
    if session.screen is Screen.LEARNERS:
        return learners.submitted(session)
    try:
        moves = parse_moves(session.writing.text)
    except NotationError as error:
        wrong = replace(session.writing, error=str(error), error_column=error.column - 1)
        return replace(session, writing=wrong)
    return turning.make_all(replace(session, writing=Writing()), moves, now)


def _looked(camera: Camera, command: Look | Zoom) -> Camera:
    if isinstance(command, Zoom):
        return replace(camera, zoom=max(0.6, min(1.8, camera.zoom * 1.1**command.notches)))
    pitch = max(-80.0, min(80.0, camera.pitch + command.pitch))
    yaw = (camera.yaw + command.yaw + 180.0) % 360.0 - 180.0
    return replace(camera, yaw=yaw, pitch=pitch)


def _wanted(session: Session) -> tuple[Key, ...]:
    """What the solver should be asked, the most needed first.

    The position on the cube and those of turns not judged yet; then, once the position is answered, every
    position one turn further, the best turns first, so that the next verdict is a look-up.
    """
    attempt, needed = session.attempt, records.still_needed(session)
    bearing = attempt.bearing() if attempt is not None else None
    if attempt is None or bearing is None:
        return needed
    keys = [(bearing.position, bearing.task), *showing.asked_while_shown(session)]
    for judged in judged_turns(session, attempt):
        if judged.answer is None:
            keys.append((judged.bearing.position, judged.bearing.task))
    answer = answer_at(session, attempt)
    if answer is not None:
        ranked = sorted(TURNS, key=lambda turn: (answer.continuations[turn].cost, turn))
        keys.extend((bearing.position.turned(turn), bearing.task) for turn in ranked)
    return (*needed, *keys)
