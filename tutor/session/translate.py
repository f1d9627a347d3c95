"""From what a person does to commands: the window's inputs read by the key table."""

from __future__ import annotations

from tutor.session.binding import When
from tutor.session.commands import (
    Act,
    Command,
    DragLayer,
    DropLayer,
    LookRound,
    Make,
    PointAt,
    RoomCommand,
    Scrub,
    Type,
    Zoom,
    as_command,
)
from tutor.session.house import Session
from tutor.session.keymap import bindings_of
from tutor.session.keys import bound_command, edit_command
from tutor.ui.focus import Walk
from tutor.ui.inputs import (
    WRITTEN_KEYS,
    Activated,
    CloseRequested,
    Input,
    KeyPressed,
    LayerDragged,
    LayerReleased,
    Looked,
    LookReleased,
    Modifier,
    Scrubbed,
    StickerPressed,
    TextEntered,
    Zoomed,
)


def command_for(session: Session, given: Input) -> Command | Walk | None:
    """The command that an input gives in the session as it is, or None when it means nothing there.

    Where the focus goes, and what it presses, is the window's to say: it knows what is drawn.
    """
    match given:
        case KeyPressed():
            return _key(session, given)
        case TextEntered(text):
            return Type(text) if _writing(session) else None
        case Activated(action):
            return as_command(action)
        case StickerPressed(sticker):
            return PointAt(sticker)
        case LayerDragged(face, angle):
            return DragLayer(face, angle)
        case LayerReleased(face, angle):
            return DropLayer(face, angle)
        case Looked(yaw, pitch):
            return LookRound(yaw, pitch)
        case LookReleased():
            return Act.LOOK_HOME
        case Zoomed(notches):
            return Zoom(notches)
        case Scrubbed(position):
            return Scrub(position)
        case CloseRequested():
            return Act.QUIT


def _writing(session: Session) -> bool:
    """Whether what is typed goes into the field for moves."""
    return session.writing.open and not session.covered


def _key(session: Session, pressed: KeyPressed) -> Command | Walk | None:
    if _writing(session):
        edit = edit_command(pressed)
        plain = not pressed.modifiers & (Modifier.CONTROL | Modifier.ALT)
        # What types a character must not also turn a layer; function keys and Esc still work.
        if edit is not None or (plain and len(pressed.key) <= 1):
            return edit
        if plain and (pressed.key in WRITTEN_KEYS.values() or pressed.key in ("space", "up", "down")):
            return None
    when = set()
    if session.demonstration is not None:
        when.add(When.SHOWING)
    if session.room.choosing(session):
        when.add(When.CHOOSING)
    if session.covered:
        return _over_all(pressed, session, frozenset(when))
    command = bound_command(pressed, session.room, frozenset(when), bindings_of(session))
    if isinstance(command, Make) and pressed.modifiers == Modifier.SHIFT:
        return Make(command.move, shifted=True)
    return None if _writing(session) and goes_back(command) else command


def goes_back(command: Command | Walk | None) -> bool:
    """Whether it undoes something: a person who asks for that in a field means the text."""
    if isinstance(command, RoomCommand):
        return command.goes_back
    return command in (Act.UNDO, Act.REDO)


def _over_all(pressed: KeyPressed, session: Session, when: frozenset[When]) -> Command | Walk | None:
    """While a sheet lies over the screen, only what concerns the sheet or the window works."""
    command = bound_command(pressed, session.room, when, bindings_of(session))
    wanted = (Act.HELP, Act.WORDS, Act.MENU, Act.CLOSE, Act.QUIT, *Walk)
    looks = (Act.THEME, Act.LARGER_TEXT, Act.SMALLER_TEXT, Act.FULL_SCREEN)
    return command if command in wanted or command in looks else None
