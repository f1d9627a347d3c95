"""The keys that all rooms have, and how keys are looked up, printed on buttons and on the key sheet."""

from __future__ import annotations

from functools import lru_cache

from tutor.cube.faces import FACES, Turn
from tutor.cube.notation import Axis, Rotation
from tutor.session.binding import Binding, Shows, When
from tutor.session.commands import Act, ChooseAnswer, Command, EditKey, LookRound, Make, Zoom
from tutor.session.house import House, Room
from tutor.ui.action import Action
from tutor.ui.focus import Walk
from tutor.ui.inputs import KeyPressed, Modifier

LOOK_STEP = 12.0
"""Degrees the view goes round for one press of an arrow key."""
ANSWERS = 8
"""Answers that have a key."""
_CONTROL = Modifier.CONTROL
_SHIFT = Modifier.SHIFT
_HAND = Shows.CUBE_IN_HAND
_CUBE = Shows.CUBE


def _turn_bindings() -> list[Binding]:
    bindings = []
    for face in FACES:
        for quarters, modifiers in ((1, Modifier.NONE), (3, Modifier.SHIFT)):
            turn = Turn.of(face, quarters)
            says = f"turn {turn.notation}"
            bindings.append(Binding(face.name.lower(), Make(turn), says, "Turns", _HAND, modifiers))
    for axis in Axis:
        for quarters, modifiers in ((1, Modifier.NONE), (3, Modifier.SHIFT)):
            rotation = Rotation(axis, quarters)
            says = f"turn the whole cube: {rotation.notation}"
            bindings.append(Binding(axis.name.lower(), Make(rotation), says, "Turns", _HAND, modifiers))
    return bindings


def answer_keys(room: str) -> tuple[Binding, ...]:
    """The digits that choose answers, for a room that asks questions."""
    return tuple(
        Binding(
            str(digit),
            ChooseAnswer(digit - 1),
            "choose an answer",
            "Learning",
            when=When.CHOOSING,
            called=f"choose answer {digit}",
            room=room,
        )
        for digit in range(1, ANSWERS + 1)
    )


def whole_cube_keys(room: str) -> tuple[Binding, ...]:
    """The keys of a room in which any cube can be taken in hand, and any of its pairs taken on."""
    return (
        Binding("bracket right", Act.NEXT_SLOT, "next slot", "Whole cubes", room=room),
        Binding("bracket left", Act.PREVIOUS_SLOT, "previous slot", "Whole cubes", room=room),
        Binding("n", Act.SCRAMBLE, "a new scramble", "Whole cubes", room=room),
    )


_BEFORE_THE_ROOMS = (
    *_turn_bindings(),
    Binding("2", Act.HALVE, "make the last turn a half turn", "Turns", _HAND),
    Binding("slash", Act.WRITE, "write moves", "Turns", _HAND),
    Binding("backspace", Act.UNDO, "take back", "Turns", _HAND),
    Binding("z", Act.UNDO, "take back", "Turns", _HAND, _CONTROL),
    Binding("z", Act.REDO, "make again", "Turns", _HAND, _CONTROL | _SHIFT),
    Binding("y", Act.REDO, "make again", "Turns", _HAND, _CONTROL),
    Binding("space", Act.PLAY, "play or pause", "While showing", _HAND, when=When.SHOWING),
    Binding("right", Act.STEP_ON, "one turn on", "While showing", _HAND, when=When.SHOWING),
    Binding("left", Act.STEP_BACK, "one turn back", "While showing", _HAND, when=When.SHOWING),
    Binding("up", Act.FASTER, "faster", "While showing", _HAND, when=When.SHOWING),
    Binding("down", Act.SLOWER, "slower", "While showing", _HAND, when=When.SHOWING),
    Binding("h", Act.HINT, "a hint, deeper each time", "Learning", _HAND),
    Binding("a", Act.SHOW_AGAIN, "show again, slowly", "Learning", _HAND),
    Binding("s", Act.SHOW_SLIP, "show the last slip", "Learning", _HAND),
    Binding("p", Act.SHOW_PARTING, "show from where your turns part", "Learning", _HAND),
    Binding("space", Act.NEXT, "go on", "Learning", _CUBE),
)
_AFTER_THE_ROOMS = (
    Binding("left", LookRound(-LOOK_STEP, 0.0), "look round", "Looking", _CUBE, called="look left"),
    Binding("right", LookRound(LOOK_STEP, 0.0), "look round", "Looking", _CUBE, called="look right"),
    Binding("up", LookRound(0.0, LOOK_STEP), "look from above", "Looking", _CUBE),
    Binding("down", LookRound(0.0, -LOOK_STEP), "look from below", "Looking", _CUBE),
    Binding("home", Act.LOOK_HOME, "look from the front", "Looking", _CUBE),
    Binding("equal", Zoom(1.0), "nearer", "Looking", _CUBE),
    Binding("minus", Zoom(-1.0), "farther", "Looking", _CUBE),
    Binding("f2", Act.THEME, "light or dark", "Looks"),
    Binding("f3", Act.LARGER_TEXT, "larger text", "Looks"),
    Binding("f3", Act.SMALLER_TEXT, "smaller text", "Looks", modifiers=_SHIFT),
    Binding("f4", Act.PALETTE, "other sticker colours", "Looks"),
    Binding("f5", Act.LETTERS, "letters on the stickers", "Looks"),
    Binding("f6", Act.MIRRORS, "mirrors on or off", "Looks"),
    Binding("f7", Act.MOTION, "fade instead of turning", "Looks"),
    Binding("s", Act.SAVE_PICTURE, "save a picture of the cube", "Saving", _HAND, _CONTROL),
    Binding("s", Act.SAVE_CLIP, "save a clip of the turns", "Saving", _HAND, _CONTROL | _SHIFT),
    Binding("period", Act.STOP_SAVING, "stop saving", "Saving", modifiers=_CONTROL),
    Binding("tab", Walk.NEXT, "next button", "Everywhere"),
    Binding("tab", Walk.PREVIOUS, "previous button", "Everywhere", modifiers=_SHIFT),
    Binding("enter", Walk.PRESS, "press the chosen button, or go on", "Everywhere"),
    Binding("f1", Act.HELP, "this sheet", "Everywhere"),
    Binding("f8", Act.WORDS, "words and their meanings", "Everywhere"),
    Binding("escape", Act.CLOSE, "close what is open, then go home", "Everywhere"),
    Binding("q", Act.QUIT, "quit", "Everywhere", modifiers=_CONTROL),
)


@lru_cache(maxsize=4)
def table(house: House) -> tuple[Binding, ...]:
    """All keys as they are at first: common ones, and between them those of each room."""
    own = (binding for room in house for binding in room.keys)
    return (*_BEFORE_THE_ROOMS, *own, *_AFTER_THE_ROOMS)


def holds(binding: Binding, room: Room) -> bool:
    """Whether a key means something in a room."""
    return binding.room == room.name if binding.room else room.shows >= binding.where


_EDIT_KEYS = {
    "backspace": EditKey.ERASE,
    "delete": EditKey.ERASE_AHEAD,
    "left": EditKey.LEFT,
    "right": EditKey.RIGHT,
    "home": EditKey.START,
    "end": EditKey.END,
    "enter": EditKey.SUBMIT,
}


def edit_command(pressed: KeyPressed) -> Command | None:
    """What a key does while moves are being written, or None when it is left to the typed text."""
    if pressed.key in _EDIT_KEYS and not pressed.modifiers & (Modifier.CONTROL | Modifier.ALT):
        return _EDIT_KEYS[pressed.key]
    return None


def bound_command(
    pressed: KeyPressed, room: Room, when: frozenset[When], bindings: tuple[Binding, ...]
) -> Command | Walk | None:
    """The command bound to a key in a room in these circumstances, or None."""
    fitting = [
        binding
        for binding in bindings
        if (binding.key, binding.modifiers) == (pressed.key, pressed.modifiers)
        and holds(binding, room)
        and (binding.when is When.ANY or binding.when in when)
    ]
    fitting.sort(key=lambda binding: binding.when is When.ANY)
    return fitting[0].command if fitting else None


_KEY_SIGNS = {
    "slash": "/",
    "period": ".",
    "minus": "−",
    "equal": "+",
    "bracket left": "[",
    "bracket right": "]",
    "left": "←",
    "right": "→",
    "up": "↑",
    "down": "↓",
    "backspace": "Backspace",
    "escape": "Esc",
    "space": "Space",
    "page up": "Page Up",
    "page down": "Page Down",
    "tab": "Tab",
    "enter": "Enter",
    "home": "Home",
}


def key_sign(binding: Binding) -> str:
    """The key as printed on the sheet and on buttons."""
    key = _KEY_SIGNS.get(binding.key, binding.key.upper())
    parts = [
        name
        for flag, name in ((Modifier.CONTROL, "Ctrl"), (Modifier.ALT, "Alt"), (Modifier.SHIFT, "Shift"))
        if binding.modifiers & flag
    ]
    return "+".join((*parts, key))


def sign_for(command: Action, room: Room, bindings: tuple[Binding, ...]) -> str:
    """The key that gives a command in a room, as printed; empty when none does."""
    for binding in bindings:
        if binding.command == command and holds(binding, room):
            return key_sign(binding)
    return ""


def key_sheet(
    room: Room, bindings: tuple[Binding, ...]
) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    """The keys of a room by group, as (keys, what they do); keys that do the same share a row."""
    groups: dict[str, dict[str, list[str]]] = {}
    last = [binding.group for binding in _AFTER_THE_ROOMS]
    for binding in sorted(bindings, key=lambda each: each.group in last):
        if holds(binding, room):
            groups.setdefault(binding.group, {}).setdefault(binding.says, []).append(key_sign(binding))
    return tuple(
        (group, tuple(("  ".join(signs), says) for says, signs in rows.items()))
        for group, rows in groups.items()
    )
