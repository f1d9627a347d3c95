"""The one way a session changes: ``update(session, command, now)`` gives the next session and its effects."""

from __future__ import annotations

from typing import Literal, assert_never

from msgspec.structs import replace

from tutor.cube.notation import NotationError, parse_moves
from tutor.progress.attempt import DEEPEST_RUNG
from tutor.session import (
    detours,
    dragging,
    navigation,
    playback,
    saving,
    settings_options,
    shift_key,
    turning,
    words,
)
from tutor.session import recording as records
from tutor.session.commands import (
    Act,
    Advised,
    Answered,
    Choose,
    ChooseAnswer,
    ChooseSlot,
    Command,
    DragLayer,
    Drawn,
    DropLayer,
    EditKey,
    Failed,
    JumpTo,
    KernelCommand,
    LookRound,
    Make,
    Open,
    PointAt,
    Quit,
    RoomCommand,
    Scrub,
    TellAtFoot,
    Type,
    Zoom,
)
from tutor.session.house import Session, Update
from tutor.session.keymap import bindings_of
from tutor.session.keys import sign_for
from tutor.session.passes import PASSES
from tutor.session.record_commands import RecordsCommand
from tutor.session.saving_commands import NotSaved, Saved, SavingReport, SavingTold
from tutor.session.settings import TurnButtons
from tutor.session.state import Sheet, Writing
from tutor.session.writing import capital_reading, edited, opened, typed
from tutor.ui.view import Camera


def update(session: Session, command: Command, now: float) -> Update:
    """The session after a command at the time ``now`` (seconds), and what it asks of the world. Pure."""
    after, effects = done(session, command, now)
    for follow in PASSES:
        after, more = follow(session, after, effects, now)
        effects = (*effects, *more)
    return after, effects


def done(session: Session, command: Command, now: float) -> Update:
    """What the command itself does."""
    if session.sheet is Sheet.MENU and isinstance(command, Act | RoomCommand) and command not in _KEEP_MENU:
        # Whoever has chosen from the menu is done with it.
        session = replace(session, sheet=Sheet.NONE)
    if isinstance(command, RoomCommand):
        known = command.room in session.house
        return session.house[command.room].does(session, command, now) if known else (session, ())
    return _done_by_all(session, command, now)


_KEEP_MENU = (Act.MENU, Act.CLOSE)
"""What sees to the menu itself."""
_OnCube = Make | ChooseSlot | ChooseAnswer | JumpTo | Scrub | PointAt | DragLayer | DropLayer
_FromWorld = Answered | Advised | Drawn | TellAtFoot | Failed | RecordsCommand | SavingReport


def _done_by_all(session: Session, command: KernelCommand, now: float) -> Update:
    match command:
        case Act():
            return _act(session, command, now)
        case EditKey.SUBMIT:
            return _submitted(session, now)
        case EditKey():
            return replace(session, writing=edited(session.writing, command)), ()
        case Type(text):
            return replace(session, writing=typed(session.writing, text)), ()
        case Open(screen):
            return navigation.opened(session, screen, now), ()
        case Choose():
            return navigation.chosen(session, command), ()
        case LookRound() | Zoom():
            return replace(session, camera=_looked(session.camera, command)), ()
        case (
            Make()
            | ChooseSlot()
            | ChooseAnswer()
            | JumpTo()
            | Scrub()
            | PointAt()
            | DragLayer()
            | DropLayer()
        ):
            return _on_cube(session, command, now), ()
        case _:
            return _told(session, command, now)


def _on_cube(session: Session, command: _OnCube, now: float) -> Session:
    room = session.room
    match command:
        case Make(move, shifted):
            made = turning.make(session, move, now)
            return shift_key.noted(session, made) if shifted else made
        case ChooseSlot(slot):
            return room.slot_chosen(session, slot)
        case ChooseAnswer(index):
            return room.chosen(session, index, now)
        case JumpTo(index):
            return turning.go_to(session, index, now)
        case Scrub(position):
            return playback.scrubbed(session, position, now)
        case PointAt(sticker):
            return room.pointed(session, sticker, now)
        case DragLayer():
            return dragging.dragged(session, command, now)
        case DropLayer():
            return dragging.dropped(session, command, now)
        case _:
            assert_never(command)


def _told(session: Session, command: _FromWorld, now: float) -> Update:
    """With an answer or a report from the world."""
    match command:
        case Answered(request, answer):
            known = replace(session, answers=session.answers.received(request, answer))
            return known.room.checked(known, now), ()
        case Advised(request, answer):
            return replace(session, advices=session.advices.received(request, answer)), ()
        case Drawn(request, position):
            asked = request == session.draw_request
            return session.room.drawn(session, position, now) if asked else session, ()
        case TellAtFoot(text):
            return replace(session, notice=text), ()
        case Failed(message):
            return replace(session, failure=message), ()
        case SavingTold() | Saved() | NotSaved():
            return saving.told(session, command), ()
        case _:
            return records.told(session, command, now)


# --------------------------------------------------------------------------- what needs no more said

_Turned = Literal[Act.HALVE, Act.OTHER_WAY, Act.UNDO, Act.REDO, Act.FACE_SLOT, Act.HINT, Act.GO_ON_HERE]
_Shown = Literal[Act.SHOW_AGAIN, Act.SHOW_SLIP, Act.SHOW_SPLIT]
_Played = Literal[Act.PLAY, Act.BY_ITSELF, Act.STEP_ON, Act.STEP_BACK, Act.FASTER, Act.SLOWER]
_InRoom = Literal[Act.NEXT, Act.REVEAL, Act.SCRAMBLE, Act.NEXT_SLOT, Act.PREVIOUS_SLOT, Act.WRITE]
_Buttons = Literal[Act.TURN_BUTTONS, Act.MORE_TURNS]
_Sheets = Literal[Act.HELP, Act.WORDS, Act.MENU]
_Over = _Sheets | Literal[Act.TELL_MORE, Act.FULL_SCREEN, Act.CLOSE, Act.HOME, Act.LOOK_HOME]


def _act(session: Session, act: Act, now: float) -> Update:
    match act:
        case Act.HALVE | Act.OTHER_WAY | Act.UNDO | Act.REDO | Act.FACE_SLOT | Act.HINT | Act.GO_ON_HERE:
            return _turned(session, act, now), ()
        case Act.SHOW_AGAIN | Act.SHOW_SLIP | Act.SHOW_SPLIT:
            return _shown(session, act, now), ()
        case Act.PLAY | Act.BY_ITSELF | Act.STEP_ON | Act.STEP_BACK | Act.FASTER | Act.SLOWER:
            return _played(session, act, now)
        case Act.SAVE_PICTURE | Act.SAVE_CLIP | Act.STOP_SAVING:
            return saving.wanted(session, act, now)
        case (
            Act.MIRRORS
            | Act.THEME
            | Act.LARGER_TEXT
            | Act.SMALLER_TEXT
            | Act.LETTERS
            | Act.PALETTE
            | Act.MOTION
            | Act.READ_ALOUD
        ):
            return navigation.with_settings(session, settings_options.CHANGES[act](session.settings)), ()
        case Act.NEXT | Act.REVEAL | Act.SCRAMBLE | Act.NEXT_SLOT | Act.PREVIOUS_SLOT | Act.WRITE:
            return _in_room(session, act, now)
        case (
            Act.HELP
            | Act.WORDS
            | Act.MENU
            | Act.TELL_MORE
            | Act.FULL_SCREEN
            | Act.CLOSE
            | Act.HOME
            | Act.LOOK_HOME
        ):
            return _over_all(session, act, now), ()
        case Act.ENTER:
            return _act(session, Act.CLOSE if session.covered else Act.NEXT, now)
        case Act.TURN_BUTTONS | Act.MORE_TURNS:
            return _with_turn_buttons(session, act), ()
        case Act.ASK_AGAIN:
            return replace(session, advices=session.advices.anew()), ()
        case Act.QUIT:
            return session, (Quit(),)
        case _:
            assert_never(act)


def _played(session: Session, act: _Played, now: float) -> Update:
    if playback.goes_on_by(session, act, now):
        return session.room.gone_on(session, now)
    return playback.act(session, act, now), ()


def _turned(session: Session, act: _Turned, now: float) -> Session:
    match act:
        case Act.HALVE:
            return turning.halve(session, now)
        case Act.OTHER_WAY:
            return turning.other_way(session, now)
        case Act.UNDO:
            return turning.undo(session, now)
        case Act.REDO:
            return turning.redo(session, now)
        case Act.FACE_SLOT:
            return turning.face_slot(session, now)
        case Act.HINT:
            return turning.hint(session, now)
        case Act.GO_ON_HERE:
            return detours.gone_on(session)
        case _:
            assert_never(act)


def _shown(session: Session, act: _Shown, now: float) -> Session:
    if session.room.silent(session):
        return session
    if refusal := session.room.way_refused(session):
        return replace(session, notice=refusal)
    # Showing the way in the middle of a try counts like the last rung of a hint, which shows the turn.
    shown = playback.begun(session, act, now)
    gives_away = act is not Act.SHOW_SLIP and shown is not session
    return shown.room.hinted(shown, DEEPEST_RUNG, now) if gives_away else shown


def _in_room(session: Session, act: _InRoom, now: float) -> Update:
    room = session.room
    match act:
        case Act.NEXT if detours.to_choose(session) is not None:
            return detours.gone_on(session), ()
        case Act.NEXT:
            return room.gone_on(session, now)
        case Act.REVEAL:
            return (room.revealed if room.silent(session) else _help_is_on)(session, now), ()
        case Act.SCRAMBLE:
            return room.scrambled(session)
        case Act.NEXT_SLOT:
            return room.slot_stepped(session, 1), ()
        case Act.PREVIOUS_SLOT:
            return room.slot_stepped(session, -1), ()
        case Act.WRITE:
            return replace(session, writing=opened(session.writing)) if room.writes(session) else session, ()
        case _:
            assert_never(act)


def _with_turn_buttons(session: Session, act: _Buttons) -> Session:
    """With or without turn buttons, or with buttons for more or fewer turns."""
    if act is Act.MORE_TURNS:
        return replace(session, all_turns=not session.all_turns)
    there = turning.has_buttons(session)
    chosen = TurnButtons.NEVER if there else TurnButtons.ALWAYS
    return navigation.with_settings(session, replace(session.settings, turn_buttons=chosen))


def _help_is_on(session: Session, _now: float) -> Session:
    key = sign_for(Act.HINT, session.room, bindings_of(session))
    return replace(session, notice=words.help_is_on(key))


def _over_all(session: Session, act: _Over, now: float) -> Session:
    match act:
        case Act.HELP:
            return _with_sheet(session, Sheet.KEYS)
        case Act.WORDS:
            return _with_sheet(session, Sheet.WORDS)
        case Act.MENU:
            return _with_sheet(session, Sheet.MENU)
        case Act.TELL_MORE:
            return replace(session, told_more_at=None if session.tells_more else session.place)
        case Act.FULL_SCREEN:
            return replace(session, full_screen=not session.full_screen)
        case Act.CLOSE:
            return navigation.closed(session, now)
        case Act.HOME:
            return navigation.opened(session, session.house.first.name, now)
        case Act.LOOK_HOME:
            return _looked_home(session)
        case _:
            assert_never(act)


def _with_sheet(session: Session, sheet: Sheet) -> Session:
    """Lay a sheet over the screen, or take it away when it lies there."""
    return replace(session, sheet=Sheet.NONE if session.sheet is sheet else sheet)


def _looked_home(session: Session) -> Session:
    """The view goes back, as near as it is; once it is back, the key brings the usual size too."""
    camera, rest = session.camera, session.room.rest_camera(session)
    back = (camera.yaw, camera.pitch) == (rest.yaw, rest.pitch)
    return replace(session, camera=rest if back else replace(rest, zoom=camera.zoom))


def _submitted(session: Session, now: float) -> Update:
    """Take what was written, or what was offered for it. With a mistake in it the text stays."""
    if session.writing.offer:
        return _taken(replace(session, writing=Writing(True, session.writing.offer)), now)
    after, effects = _taken(session, now)
    offered = _offered(session, now) if after.writing.error else None
    return (after, effects) if offered is None else (offered, ())


def _taken(session: Session, now: float) -> Update:
    """Take what was written as the room does; where that is moves, make them."""
    taken = session.room.submitted(session, now)
    if taken is not None:
        return taken
    try:
        moves = parse_moves(session.writing.text)
    except NotationError as error:
        wrong = replace(session.writing, error=str(error), error_column=error.column - 1)
        return replace(session, writing=wrong), ()
    if len(moves) > turning.MOST_AT_ONCE and not session.room.many_together(session):
        told = words.too_many_at_once(len(moves), turning.MOST_AT_ONCE)
        return replace(session, writing=replace(session.writing, error=told, error_column=None)), ()
    return turning.make_all(replace(session, writing=Writing()), moves, now), ()


def _offered(session: Session, now: float) -> Session | None:
    """With the capital reading of what was written offered, where that reading can be taken; else None."""
    reading = capital_reading(session.writing.text)
    if reading is None:
        return None
    taken, _ = _taken(replace(session, writing=replace(session.writing, text=reading)), now)
    if taken.writing.error:
        return None
    told = words.did_you_mean(reading)
    return replace(session, writing=replace(session.writing, offer=reading, error=told, error_column=None))


def _looked(camera: Camera, command: LookRound | Zoom) -> Camera:
    if isinstance(command, Zoom):
        return replace(camera, zoom=max(0.6, min(1.8, camera.zoom * 1.1**command.notches)))
    pitch = max(-80.0, min(80.0, camera.pitch + command.pitch))
    yaw = (camera.yaw + command.yaw + 180.0) % 360.0 - 180.0
    return replace(camera, yaw=yaw, pitch=pitch)
