"""The one table that binds keys to commands; the key sheet on screen is printed from it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from tutor.cube.faces import FACES, Turn
from tutor.cube.notation import Axis, Rotation
from tutor.cube.stickers import COLOUR_NAMES
from tutor.session.commands import Act, ChooseAnswer, Command, EditKey, Look, Make, Zoom
from tutor.session.painting.commands import MoveCursor, Paint, PaintNamed, PaintNumbered
from tutor.session.painting.state import Heading
from tutor.session.solve.commands import SolveAct
from tutor.ui.action import Action
from tutor.ui.focus import Walk
from tutor.ui.inputs import KeyPressed, Modifier
from tutor.ui.view import Screen

STAGE_SCREENS = frozenset({Screen.LESSON, Screen.FREE_PLAY, Screen.PRACTICE, Screen.CASE_BOOK, Screen.SOLVE})
"""The screens that show a cube in hand."""
CUBE_SCREENS = STAGE_SCREENS | {Screen.LOOKING_AHEAD}
"""Those and the one on which the cube turns by itself."""
ALL_SCREENS = frozenset(Screen)
LOOK_STEP = 12.0
"""Degrees the view goes round for one press of an arrow key."""


class When(Enum):
    """What must be on the screen for a key to hold."""

    ANY = "any time"
    SHOWING = "turns are being shown"
    CHOOSING = "there are answers to choose from"


@dataclass(frozen=True, slots=True)
class Binding:
    """A key with what it does, where.

    A binding with a ``when`` holds only then, and goes before the others; ``group`` heads the part of the key
    sheet it is printed in.
    """

    key: str
    command: Command | Walk
    says: str
    group: str
    screens: frozenset[Screen] = ALL_SCREENS
    modifiers: Modifier = Modifier.NONE
    when: When = When.ANY
    called: str = ""
    """Its name in the settings where ``says`` does not tell it from others."""

    @property
    def name(self) -> str:
        """The name by which the settings give it another key."""
        return self.called or self.says


def _turn_bindings() -> list[Binding]:
    bindings = []
    for face in FACES:
        for quarters, modifiers in ((1, Modifier.NONE), (3, Modifier.SHIFT)):
            turn = Turn.of(face, quarters)
            says = f"turn {turn.notation}"
            key = face.name.lower()
            bindings.append(Binding(key, Make(turn), says, "Turns", STAGE_SCREENS, modifiers))
    for axis in Axis:
        for quarters, modifiers in ((1, Modifier.NONE), (3, Modifier.SHIFT)):
            rotation = Rotation(axis, quarters)
            says = f"turn the whole cube: {rotation.notation}"
            key = axis.name.lower()
            bindings.append(Binding(key, Make(rotation), says, "Turns", STAGE_SCREENS, modifiers))
    return bindings


_CONTROL = Modifier.CONTROL
_SHIFT = Modifier.SHIFT
_FREE = frozenset({Screen.FREE_PLAY})
_CUBES = _FREE | {Screen.SOLVE}
_LESSON = frozenset({Screen.LESSON})
_PAINTING = frozenset({Screen.PAINTING})
_AHEAD = frozenset({Screen.LOOKING_AHEAD})
_PROGRESS = frozenset({Screen.PROGRESS})
_CHOICES = frozenset({Screen.LESSON, Screen.PRACTICE}) | _AHEAD


def _painting_bindings() -> list[Binding]:
    def painting(key: str, command: Command, says: str, held: Modifier = Modifier.NONE) -> Binding:
        return Binding(key, command, says, "Painting", _PAINTING, held, called=f"painting: {says}")

    return [
        *(painting(name[0], PaintNamed(name), f"paint {name} and go on") for name in COLOUR_NAMES),
        *(
            painting(str(place + 1), PaintNumbered(place), f"paint with colour {place + 1} and go on")
            for place in range(len(COLOUR_NAMES))
        ),
        painting("space", Paint.HERE, "paint with the colour in hand and go on"),
        painting("delete", Paint.ERASE, "erase"),
        painting("backspace", Paint.ERASE_BEFORE, "go back and erase"),
        *(painting(way.name.lower(), MoveCursor(way), f"go {way.name.lower()}") for way in Heading),
        painting("z", Paint.UNDO, "take back", _CONTROL),
        painting("y", Paint.REDO, "make again", _CONTROL),
        painting("z", Paint.REDO, "make again", _CONTROL | _SHIFT),
        painting("c", Paint.COPY, "copy as text", _CONTROL),
        painting("v", Act.WRITE, "write or paste", _CONTROL),
    ]


BINDINGS: tuple[Binding, ...] = (
    *_turn_bindings(),
    Binding("2", Act.HALVE, "make the last turn a half turn", "Turns", STAGE_SCREENS),
    Binding("slash", Act.WRITE, "write moves", "Turns", STAGE_SCREENS),
    Binding("backspace", Act.UNDO, "take back", "Turns", STAGE_SCREENS),
    Binding("z", Act.UNDO, "take back", "Turns", STAGE_SCREENS, _CONTROL),
    Binding("z", Act.REDO, "make again", "Turns", STAGE_SCREENS, _CONTROL | _SHIFT),
    Binding("y", Act.REDO, "make again", "Turns", STAGE_SCREENS, _CONTROL),
    Binding("space", Act.PLAY, "play or pause", "While showing", STAGE_SCREENS, when=When.SHOWING),
    Binding("right", Act.STEP_ON, "one turn on", "While showing", STAGE_SCREENS, when=When.SHOWING),
    Binding("left", Act.STEP_BACK, "one turn back", "While showing", STAGE_SCREENS, when=When.SHOWING),
    Binding("up", Act.FASTER, "faster", "While showing", STAGE_SCREENS, when=When.SHOWING),
    Binding("down", Act.SLOWER, "slower", "While showing", STAGE_SCREENS, when=When.SHOWING),
    Binding("h", Act.HINT, "a hint, deeper each time", "Learning", STAGE_SCREENS),
    Binding("a", Act.SHOW_AGAIN, "show again, slowly", "Learning", STAGE_SCREENS),
    Binding("s", Act.SHOW_SLIP, "show the last slip", "Learning", STAGE_SCREENS),
    Binding("p", Act.SHOW_PARTING, "show from where your turns part", "Learning", STAGE_SCREENS),
    Binding("space", Act.NEXT, "go on", "Learning", CUBE_SCREENS),
    Binding("up", SolveAct.QUICKER, "more turns a minute", "Looking ahead", _AHEAD, when=When.SHOWING),
    Binding("down", SolveAct.CALMER, "fewer turns a minute", "Looking ahead", _AHEAD, when=When.SHOWING),
    Binding("page down", Act.SKIP, "go on without answering", "Learning", _LESSON),
    Binding("page up", Act.BACK, "go back", "Learning", _LESSON),
    *(
        Binding(
            str(digit),
            ChooseAnswer(digit - 1),
            "choose an answer",
            "Learning",
            _CHOICES,
            when=When.CHOOSING,
            called=f"choose answer {digit}",
        )
        for digit in range(1, 9)
    ),
    Binding("t", Act.TRY, "try the case", "Case book", frozenset({Screen.CASE_BOOK})),
    Binding("bracket right", Act.NEXT_SLOT, "next slot", "Whole cubes", _CUBES),
    Binding("bracket left", Act.PREVIOUS_SLOT, "previous slot", "Whole cubes", _CUBES),
    Binding("n", Act.SCRAMBLE, "a new scramble", "Whole cubes", _CUBES),
    Binding("c", Act.COPY_POSITION, "copy the position", "Whole cubes", frozenset({Screen.SOLVE}), _CONTROL),
    Binding("0", Act.RESET, "a solved cube", "Free play", _FREE),
    *_painting_bindings(),
    Binding("left", Look(-LOOK_STEP, 0.0), "look round", "Looking", CUBE_SCREENS, called="look left"),
    Binding("right", Look(LOOK_STEP, 0.0), "look round", "Looking", CUBE_SCREENS, called="look right"),
    Binding("up", Look(0.0, LOOK_STEP), "look from above", "Looking", CUBE_SCREENS),
    Binding("down", Look(0.0, -LOOK_STEP), "look from below", "Looking", CUBE_SCREENS),
    Binding("home", Act.LOOK_HOME, "look from the front", "Looking", CUBE_SCREENS),
    Binding("equal", Zoom(1.0), "nearer", "Looking", CUBE_SCREENS),
    Binding("minus", Zoom(-1.0), "farther", "Looking", CUBE_SCREENS),
    Binding("f2", Act.THEME, "light or dark", "Looks"),
    Binding("f3", Act.LARGER_TEXT, "larger text", "Looks"),
    Binding("f3", Act.SMALLER_TEXT, "smaller text", "Looks", modifiers=_SHIFT),
    Binding("f4", Act.PALETTE, "other sticker colours", "Looks"),
    Binding("f5", Act.LETTERS, "letters on the stickers", "Looks"),
    Binding("f6", Act.MIRRORS, "mirrors on or off", "Looks"),
    Binding("f7", Act.MOTION, "fade instead of turning", "Looks"),
    Binding("s", Act.SAVE_PICTURE, "save a picture of the cube", "Saving", STAGE_SCREENS, _CONTROL),
    Binding("s", Act.SAVE_CLIP, "save a clip of the turns", "Saving", STAGE_SCREENS, _CONTROL | _SHIFT),
    Binding("s", Act.SAVE_PICTURE, "save a picture of this page", "Saving", _PROGRESS, _CONTROL),
    Binding("s", Act.SAVE_TABLE, "save the cases as a table", "Saving", _PROGRESS, _CONTROL | _SHIFT),
    Binding("period", Act.STOP_SAVING, "stop saving", "Saving", modifiers=_CONTROL),
    Binding("tab", Walk.NEXT, "next button", "Everywhere"),
    Binding("tab", Walk.PREVIOUS, "previous button", "Everywhere", modifiers=_SHIFT),
    Binding("enter", Walk.PRESS, "press the chosen button, or go on", "Everywhere"),
    Binding("f1", Act.HELP, "this sheet", "Everywhere"),
    Binding("f8", Act.WORDS, "words and their meanings", "Everywhere"),
    Binding("escape", Act.CLOSE, "close what is open, then go home", "Everywhere"),
    Binding("q", Act.QUIT, "quit", "Everywhere", modifiers=_CONTROL),
)

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
    pressed: KeyPressed, screen: Screen, when: frozenset[When], bindings: tuple[Binding, ...] = BINDINGS
) -> Command | Walk | None:
    """The command bound to a key on a screen in these circumstances, or None."""
    fitting = [
        binding
        for binding in bindings
        if (binding.key, binding.modifiers) == (pressed.key, pressed.modifiers)
        and screen in binding.screens
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


def sign_for(command: Action, screen: Screen, bindings: tuple[Binding, ...] = BINDINGS) -> str:
    """The key that gives a command on a screen, as printed; empty when none does."""
    for binding in bindings:
        if binding.command == command and screen in binding.screens:
            return key_sign(binding)
    return ""


def key_sheet(
    screen: Screen, bindings: tuple[Binding, ...] = BINDINGS
) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    """The keys of a screen by group, as (keys, what they do); keys that do the same share a row."""
    groups: dict[str, dict[str, list[str]]] = {}
    for binding in bindings:
        if screen in binding.screens:
            groups.setdefault(binding.group, {}).setdefault(binding.says, []).append(key_sign(binding))
    return tuple(
        (group, tuple(("  ".join(signs), says) for says, signs in rows.items()))
        for group, rows in groups.items()
    )
