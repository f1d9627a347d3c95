"""Saving what is on the screen as a picture, or the turns that belong to it as a clip."""

from __future__ import annotations

from typing import Literal, assert_never

from msgspec import Struct
from msgspec.structs import replace

from tutor.coach.feedback import Shown
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.method.steps import Step
from tutor.session import playback, words
from tutor.session.commands import Act
from tutor.session.house import Session, Update
from tutor.session.judging import answer_at
from tutor.session.saving_commands import (
    NotSaved,
    SaveClip,
    Saved,
    SavedKind,
    SavePicture,
    Saving,
    SavingReport,
    SavingTold,
    StopSaving,
)
from tutor.session.state import Attempt


class Turns(Struct, frozen=True):
    """The turns of a clip: from where, which, the step of each, and a word for the file's name."""

    start: HeldCube
    turns: tuple[Move, ...]
    steps: tuple[Step | None, ...]
    word: str
    speed: float
    twice: bool = True
    said: tuple[Shown, ...] = ()
    """What the room says of each turn; empty where the coach tells of them."""


def picture_wanted(session: Session, now: float) -> Update:
    """Save the stage exactly as it is on the screen, or what else the room has to save."""
    own = session.room.picture(session)
    if own is not None:
        return own
    stage = session.room.view(session, now).stage
    if stage is None:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=words.ONE_AT_A_TIME), ()
    session = begun(session, SavedKind.PICTURE)
    wish = SavePicture(session.saving.request, name_of(session), stage, session.settings.look)
    return session, (wish,)


def clip_wanted(session: Session) -> Update:
    """Save as a clip what is shown, else the learner's own turns, else the way for the case."""
    attempt = session.attempt
    if attempt is None:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=words.ONE_AT_A_TIME), ()
    shown = turns_to_save(session, attempt)
    if isinstance(shown, str):
        return replace(session, notice=shown), ()
    session = begun(session, SavedKind.CLIP)
    wish = SaveClip(
        request=session.saving.request,
        name=f"{name_of(session)}-{shown.word}",
        title=session.room.title(session),
        case=session.room.shown_case(session),
        start=shown.start,
        aim=attempt.aim,
        turns=shown.turns,
        steps=shown.steps,
        look=session.settings.look,
        camera=session.camera,
        speed=shown.speed,
        twice=shown.twice,
        said=shown.said,
        colour_names=session.settings.colour_names,
    )
    return session, (wish,)


def stopped(session: Session) -> Update:
    """Stop saving; a report says when it has ended."""
    saving = session.saving
    return session, () if saving.under_way is None else (StopSaving(saving.request),)


def told(session: Session, report: SavingReport) -> Session:
    """With how far saving is, or how it ended; a late report changes nothing."""
    saving = session.saving
    if saving.under_way is None or report.request != saving.request:
        return session
    if isinstance(report, SavingTold):
        return replace(session, saving=replace(saving, share=report.share))
    return replace(session, saving=Saving(saving.request), notice=_ended(saving.under_way, report))


def _ended(kind: SavedKind, report: Saved | NotSaved) -> str:
    if isinstance(report, Saved):
        return words.saved(report.name, report.folder)
    if report.reason:
        return words.not_saved(kind.value, report.reason)
    return words.saving_stopped(kind.value)


def turns_to_save(session: Session, attempt: Attempt) -> Turns | str:
    """What a clip shows, or why there is none to save."""
    shown, speed = session.demonstration, session.settings.speed
    if shown is not None:
        word = "turns" if None in shown.steps else session.room.shown_word(session, shown)
        own = tuple(session.room.said(session, index) for index in range(len(shown.turns)))
        # A room that says nothing of its own about one turn leaves all of them to the coach.
        said = tuple(told for told in own if told is not None) if None not in own else ()
        return Turns(shown.start, shown.turns, shown.steps, word, shown.speed, shown.twice, said)
    history = attempt.history
    first = (
        session.room.rail_from(session, attempt)
        if attempt.aim is None
        else min(attempt.since, history.cursor)
    )
    made = tuple(entry.move for entry in history.entries[first : history.cursor])
    if made:
        return Turns(history.cube_at(first), made, (None,) * len(made), "own-turns", speed)
    if session.room.hides(session):
        return words.STILL_TO_FIND
    return _way(session, attempt, speed)


def _way(session: Session, attempt: Attempt, speed: float) -> Turns | str:
    """The route for the case, or a shortest line where no route leads on."""
    bearing, answer = attempt.bearing(), answer_at(session, attempt)
    if bearing is None or bearing.task.done(bearing.position):
        return words.NOTHING_TO_SHOW
    if answer is None:
        return words.ONE_MOMENT
    way = playback.held_route(answer.way, bearing)
    word = "route" if answer.way in answer.routes else "line"
    return Turns(attempt.cube, way.turns, way.steps, word, speed)


def name_of(session: Session) -> str:
    """The name of a file of this screen: the case and slot, what the room says, or its title."""
    case, own = session.room.shown_case(session), session.room.file_name(session)
    if case is not None:
        return f"{case[0].slug}-{case[1].name}"
    if own:
        return own
    bearing = None if session.attempt is None else session.attempt.bearing()
    slot = "" if bearing is None else f"-{bearing.task.slot.name}"
    return f"{session.room.title(session).lower().replace(' ', '-')}{slot}"


def wanted(
    session: Session, act: Literal[Act.SAVE_PICTURE, Act.SAVE_CLIP, Act.STOP_SAVING], now: float
) -> Update:
    """Carry out a command about saving."""
    match act:
        case Act.SAVE_PICTURE:
            return picture_wanted(session, now)
        case Act.SAVE_CLIP:
            return clip_wanted(session)
        case Act.STOP_SAVING:
            return stopped(session)
        case _:
            assert_never(act)


def begun(session: Session, kind: SavedKind) -> Session:
    """With something being saved under a number of its own."""
    return replace(session, saving=Saving(session.saving.request + 1, kind), notice="")
