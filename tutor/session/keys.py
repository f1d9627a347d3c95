"""The keys that all rooms have; how a key finds its command, and how buttons and the key sheet print it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from functools import lru_cache

from msgspec.structs import replace

from tutor.cube.faces import FACES, Turn
from tutor.cube.notation import Axis, Rotation
from tutor.session import words
from tutor.session.binding import Binding, Shows, When
from tutor.session.commands import Act, ChooseAnswer, Command, EditKey, LookRound, Make, Zoom
from tutor.session.house import House, Room
from tutor.ui.action import Action
from tutor.ui.focus import Walk
from tutor.ui.inputs import KeyPressed, Modifier

LOOK_STEP = 12.0
"""Degrees the view goes round for one press of an arrow key with Shift."""
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
            says = words.turn(turn.notation)
            bindings.append(Binding(face.name.lower(), Make(turn), says, words.TURNS, _HAND, modifiers))
    for axis in Axis:
        for quarters, modifiers in ((1, Modifier.NONE), (3, Modifier.SHIFT)):
            rotation = Rotation(axis, quarters)
            says = words.rotation(rotation.notation)
            bindings.append(Binding(axis.name.lower(), Make(rotation), says, words.TURNS, _HAND, modifiers))
    return bindings


def answer_keys(room: str) -> tuple[Binding, ...]:
    """The digits that choose answers, for a room that asks questions."""
    return tuple(
        Binding(
            str(digit),
            ChooseAnswer(digit - 1),
            words.ANSWER,
            words.LEARNING,
            when=When.CHOOSING,
            called=words.answer_name(digit),
            room=room,
        )
        for digit in range(1, ANSWERS + 1)
    )


def whole_cube_keys(room: str) -> tuple[Binding, ...]:
    """The keys of a room in which you take any cube in hand and choose any of its pairs."""
    return (
        Binding("bracket right", Act.NEXT_SLOT, words.NEXT_SLOT, words.WHOLE_CUBES, room=room),
        Binding("bracket left", Act.PREVIOUS_SLOT, words.PREVIOUS_SLOT, words.WHOLE_CUBES, room=room),
        Binding("n", Act.SCRAMBLE, words.SCRAMBLE, words.WHOLE_CUBES, room=room),
    )


def _turned(key: str, act: Act, says: str, held: Modifier = Modifier.NONE, former: str = "") -> Binding:
    return Binding(key, act, says, words.TURNS, _HAND, held, former=former)


def _showing(key: str, act: Act, says: str, former: str = "", held: Modifier = Modifier.NONE) -> Binding:
    return Binding(key, act, says, words.WHILE_SHOWING, _HAND, held, when=When.SHOWING, former=former)


def _learning(key: str, act: Act, says: str, former: str = "", where: Shows = _HAND) -> Binding:
    return Binding(key, act, says, words.LEARNING, where, former=former)


def _looking(
    key: str, command: Command, says: str, called: str = "", held: Modifier = Modifier.NONE
) -> Binding:
    return Binding(key, command, says, words.LOOKING, _CUBE, held, called=called)


def _appearance(key: str, act: Act, says: str, held: Modifier = Modifier.NONE) -> Binding:
    return Binding(key, act, says, words.APPEARANCE, modifiers=held)


def _everywhere(
    key: str, command: Command | Walk, says: str, held: Modifier = Modifier.NONE, former: str = ""
) -> Binding:
    return Binding(key, command, says, words.EVERYWHERE, modifiers=held, former=former)


def second_key(key: str, first: Binding) -> Binding:
    """A key with Ctrl that does what one does that many keyboards have only with Fn."""
    return replace(first, key=key, modifiers=_CONTROL, former="", yields=True)


def _second_keys() -> Iterator[Binding]:
    """Ctrl and the digit for the F keys, and a key of its own for what has no digit or stands twice."""
    first = {each.command: each for each in reversed(_AFTER_THE_ROOMS)}
    for digit, act in zip("1234567890", _BY_DIGIT, strict=True):
        yield second_key(digit, first[act])
    others = (("equal", Act.LARGER_TEXT), ("minus", Act.SMALLER_TEXT), ("f", Act.FULL_SCREEN))
    for key, act in (*others, ("l", Act.LOOK_HOME)):
        yield second_key(key, first[act])


_BEFORE_THE_ROOMS = (
    *_turn_bindings(),
    _turned("2", Act.HALVE, words.HALVE),
    _turned("apostrophe", Act.OTHER_WAY, words.OTHER_WAY),
    _turned("slash", Act.WRITE, words.WRITE),
    _turned("backspace", Act.UNDO, words.UNDO, former="take back"),
    _turned("z", Act.UNDO, words.UNDO, _CONTROL),
    _turned("y", Act.REDO, words.REDO, _CONTROL, former="make again"),
    _turned("z", Act.REDO, words.REDO, _CONTROL | _SHIFT),
    Binding("o", Act.FACE_SLOT, words.FACE_SLOT, words.TURNS, _HAND, yields=True),
    _showing("space", Act.PLAY, words.PLAY, former="play or pause"),
    _showing("space", Act.BY_ITSELF, words.BY_ITSELF, held=_SHIFT),
    _showing("right", Act.STEP_ON, words.STEP_ON, former="one turn on"),
    _showing("left", Act.STEP_BACK, words.STEP_BACK),
    _showing("up", Act.FASTER, words.FASTER),
    _showing("down", Act.SLOWER, words.SLOWER),
    _learning("h", Act.HINT, words.HINT, "a hint, deeper each time"),
    Binding("v", Act.REVEAL, words.REVEAL, words.LEARNING, _HAND, yields=True),
    _learning("a", Act.SHOW_AGAIN, words.SHOW_AGAIN, "show again, slowly"),
    _learning("s", Act.SHOW_SLIP, words.SHOW_SLIP, "show the last slip"),
    _learning("p", Act.SHOW_SPLIT, words.SHOW_SPLIT, "show from where your turns part"),
    Binding("e", Act.TELL_MORE, words.TELL_MORE, words.LEARNING, _CUBE, yields=True),
    _learning("space", Act.NEXT, words.NEXT, "go on", _CUBE),
)
_AFTER_THE_ROOMS = (
    # The arrows alone go through what is shown: with Shift they look, so that each means one thing.
    _looking("left", LookRound(-LOOK_STEP, 0.0), words.LOOK_ROUND, words.LOOK_LEFT, _SHIFT),
    _looking("right", LookRound(LOOK_STEP, 0.0), words.LOOK_ROUND, words.LOOK_RIGHT, _SHIFT),
    _looking("up", LookRound(0.0, LOOK_STEP), words.LOOK_FROM_ABOVE, held=_SHIFT),
    _looking("down", LookRound(0.0, -LOOK_STEP), words.LOOK_FROM_BELOW, held=_SHIFT),
    _looking("home", Act.LOOK_HOME, words.LOOK_FROM_FRONT),
    _looking("equal", Zoom(1.0), words.NEARER),
    _looking("minus", Zoom(-1.0), words.FARTHER),
    _appearance("f2", Act.THEME, words.THEME),
    _appearance("f3", Act.LARGER_TEXT, words.LARGER_TEXT),
    _appearance("f3", Act.SMALLER_TEXT, words.SMALLER_TEXT, _SHIFT),
    _appearance("f4", Act.PALETTE, words.PALETTE),
    _appearance("f5", Act.LETTERS, words.LETTERS),
    _appearance("f6", Act.MIRRORS, words.MIRRORS),
    _appearance("f7", Act.MOTION, words.MOTION),
    Binding("f9", Act.READ_ALOUD, words.READ_ALOUD, words.APPEARANCE, yields=True),
    Binding("b", Act.TURN_BUTTONS, words.TURN_BUTTONS, words.APPEARANCE, modifiers=_CONTROL, yields=True),
    Binding("s", Act.SAVE_PICTURE, words.SAVE_PICTURE, words.SAVING, _HAND, _CONTROL),
    Binding("s", Act.SAVE_CLIP, words.SAVE_CLIP, words.SAVING, _HAND, _CONTROL | _SHIFT),
    Binding("period", Act.STOP_SAVING, words.STOP_SAVING, words.SAVING, modifiers=_CONTROL),
    _everywhere("tab", Walk.NEXT, words.NEXT_BUTTON),
    _everywhere("tab", Walk.PREVIOUS, words.PREVIOUS_BUTTON, _SHIFT),
    _everywhere("enter", Walk.PRESS, words.PRESS, former="press the chosen button, or go on"),
    _everywhere("f1", Act.HELP, words.KEYS, former="this sheet"),
    _everywhere("f8", Act.WORDS, words.WORDS),
    Binding("f10", Act.MENU, words.MENU, words.EVERYWHERE, yields=True),
    Binding("f11", Act.FULL_SCREEN, words.FULL_SCREEN, words.EVERYWHERE, yields=True),
    _everywhere("escape", Act.CLOSE, words.CLOSE, former="close what is open, then go home"),
    _everywhere("q", Act.QUIT, words.QUIT, _CONTROL),
)
_BY_DIGIT = (
    *(Act.HELP, Act.THEME, Act.LARGER_TEXT, Act.PALETTE, Act.LETTERS, Act.MIRRORS, Act.MOTION),
    *(Act.WORDS, Act.READ_ALOUD, Act.MENU),
)
"""What F1 to F10 do."""


@lru_cache(maxsize=4)
def table(house: House) -> tuple[Binding, ...]:
    """All keys before anybody changes one: the common ones, and between them those of each room."""
    own = (binding for room in house for binding in room.keys)
    return (*_BEFORE_THE_ROOMS, *own, *_AFTER_THE_ROOMS, *_second_keys())


def holds(binding: Binding, room: Room) -> bool:
    """Whether a key works in a room."""
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
    if pressed == KeyPressed("a", Modifier.CONTROL):
        return EditKey.ALL
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


def key_sign(binding: Binding) -> str:
    """The key as printed on the sheet and on buttons."""
    key = words.KEY_SIGNS.get(binding.key, binding.key.upper())
    signs = words.MODIFIER_SIGNS.get(sys.platform, words.USUAL_MODIFIER_SIGNS)
    flags = (Modifier.CONTROL, Modifier.ALT, Modifier.SHIFT)
    parts = [sign for flag, sign in zip(flags, signs, strict=True) if binding.modifiers & flag]
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
        (group, tuple((words.any_of(signs), says) for says, signs in rows.items()))
        for group, rows in groups.items()
    )
