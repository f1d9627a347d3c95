"""From what a person does to commands: the window's inputs read by the key table."""

from __future__ import annotations

from tutor.session import lesson_play
from tutor.session.commands import (
    Act,
    Command,
    DragLayer,
    DropLayer,
    Look,
    PointAt,
    Scrub,
    Type,
    Zoom,
    as_command,
)
from tutor.session.keymap import bindings_of
from tutor.session.keys import When, bound_command, edit_command
from tutor.session.painting.commands import Paint
from tutor.session.state import Session, Sheet
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
from tutor.ui.view import Screen

_GOING_BACK = (Act.UNDO, Act.REDO, Paint.UNDO, Paint.REDO)
"""What a person who presses its keys in a field means of the text: the cube stays as it is."""


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
            return Look(yaw, pitch)
        case LookReleased():
            return Act.LOOK_HOME
        case Zoomed(notches):
            return Zoom(notches)
        case Scrubbed(position):
            return Scrub(position)
        case CloseRequested():
            return Act.QUIT


def _covered(session: Session) -> bool:
    """Whether something lies over the screen."""
    return session.sheet is not Sheet.NONE or bool(session.failure)


def _writing(session: Session) -> bool:
    """Whether what is typed goes into the field for moves."""
    return session.writing.open and not _covered(session)


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
    if _choosing(session):
        when.add(When.CHOOSING)
    if _covered(session):
        return _over_all(pressed, session, frozenset(when))
    command = bound_command(pressed, session.screen, frozenset(when), bindings_of(session.settings))
    return None if _writing(session) and command in _GOING_BACK else command


def _choosing(session: Session) -> bool:
    """Whether digits choose answers."""
    if session.screen is Screen.PRACTICE:
        run = session.run
        if run is not None and run.flash is not None and run.flash.turn is None and not run.over:
            return True
        return run is not None and run.question is not None
    if session.screen is Screen.LOOKING_AHEAD:
        return True
    scene = lesson_play.scene_of(session)
    return scene is not None and bool(lesson_play.options(scene))


def _over_all(pressed: KeyPressed, session: Session, when: frozenset[When]) -> Command | Walk | None:
    """While a sheet lies over the screen, only what concerns the sheet or the window works."""
    command = bound_command(pressed, session.screen, when, bindings_of(session.settings))
    wanted = (Act.HELP, Act.WORDS, Act.CLOSE, Act.QUIT, *Walk)
    looks = (Act.THEME, Act.LARGER_TEXT, Act.SMALLER_TEXT)
    return command if command in wanted or command in looks else None
