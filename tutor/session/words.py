"""What the program says on every screen: keys, settings, saving, and why something does not happen."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import figured

# ------------------------------------------------------------------------------------ the sheet of keys
# What a key does is also the name by which a settings file gives it another key. So a name that changes
# stays on its binding as ``former``, and files written with it are read as before.


def any_of(signs: Sequence[str]) -> str:
    """Keys of which any will do."""
    *others, last = signs
    return f"{', '.join(others)} or {last}" if others else last


TURNS = "Turns"
HALVE = "make the last turn a half turn"
OTHER_WAY = "make the last turn go the other way"
WRITE = "write moves"
UNDO = "undo"
REDO = "redo"
FACE_SLOT = "turn the cube so that the slot faces you, or back"
FACES_YOU = "The slot faces you already."
NO_SLOT_TO_FACE = "No slot is in question here."

WHILE_SHOWING = "While turns are shown"
PLAY = "play, pause, or continue step by step"
BY_ITSELF = "play by itself, or step by step"
STEP_ON = "next turn"
STEP_BACK = "one turn back"
FASTER = "faster"
SLOWER = "slower"

LEARNING = "Learning"
ANSWER = "choose an answer"
HINT = "a hint, more each time"
REVEAL = "turn help on"
SHOW_AGAIN = "show me the way, slowly"
SHOW_SLIP = "show me why this turn is a Detour"
SHOW_SPLIT = "show where our ways split"
NEXT = "continue"
TELL_MORE = "tell me more, or less"

WHOLE_CUBES = "Whole cubes"
NEXT_SLOT = "next slot"
PREVIOUS_SLOT = "previous slot"
SCRAMBLE = "a new scramble"

LOOKING = "Looking at the cube"
LOOK_ROUND = "look round"
LOOK_LEFT = "look left"
LOOK_RIGHT = "look right"
LOOK_FROM_ABOVE = "look from above"
LOOK_FROM_BELOW = "look from below"
LOOK_FROM_FRONT = "look from the front"
NEARER = "nearer"
FARTHER = "farther"

APPEARANCE = "Appearance"
THEME = "light or dark"
LARGER_TEXT = "larger text"
SMALLER_TEXT = "smaller text"
PALETTE = "other sticker colours"
LETTERS = "letters on the stickers"
MIRRORS = "mirrors on or off"
MOTION = "fade instead of turning"
TURN_BUTTONS = "turn buttons on or off"
READ_ALOUD = "read aloud, or stop"

SAVING = "Saving"
SAVE_PICTURE = "save a picture of the cube"
SAVE_CLIP = "save a clip of the turns"
STOP_SAVING = "stop saving"

EVERYWHERE = "Everywhere"
NEXT_BUTTON = "next button"
PREVIOUS_BUTTON = "previous button"
PRESS = "press the chosen button, or continue"
KEYS = "show the keys"
WORDS = "words and their meanings"
MENU = "more buttons"
FULL_SCREEN = "full screen on or off"
CLOSE = "close or go back"
QUIT = "quit"

KEY_SIGNS = {
    "slash": "/",
    "apostrophe": "'",
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
"""Keys as printed on buttons and on the sheet; any other key is printed in capitals."""
USUAL_MODIFIER_SIGNS = ("Ctrl", "Alt", "Shift")
MODIFIER_SIGNS = {"darwin": ("Cmd", "Option", "Shift")}
"""What is printed on the keys held down with another, by the system where it is not the usual."""


def turn(notation: str) -> str:
    """What the key of a turn does."""
    return f"turn {notation}"


def rotation(notation: str) -> str:
    """What the key of a rotation does."""
    return f"turn the whole cube: {notation}"


def answer_name(number: int) -> str:
    """The name of the key of an answer in settings files."""
    return f"choose answer {number}"


# ---------------------------------------------------------------------------- keys in the settings file


def wrong_modifier(key: str) -> str:
    """Something else than a modifier before the last plus sign."""
    return f"“{key}” is not a key: only ctrl, alt and shift can come before the last +"


def unknown_key(key: str, names: tuple[str, ...]) -> str:
    """A key that does not exist."""
    return f"“{key}” is not a key: it must end with a letter, a digit, or one of {', '.join(names)}"


def needless_shift(key: str, name: str) -> str:
    """Shift with a key that is known by what it types."""
    return f"“{key}” is not a key: “{name}” is the key that types it, with or without shift; leave shift out"


def unknown_name(name: str, nearest: str) -> str:
    """A key for something that does not exist."""
    return f"keys: nothing is called “{name}”; the nearest name is “{nearest}”"


def in_keys(name: str, wrong: str) -> str:
    """What is wrong with the key of one command."""
    return f"keys, “{name}”: {wrong}"


def two_things(key: str, one: str, other: str) -> str:
    """A key that two commands share."""
    return (
        f"keys: “{key}” would do two things, “{one}” and “{other}”; "
        'give one of them another key, or "" for no key'
    )


# ------------------------------------------------------------------------------------ Settings, by rows

THEME_ROW = "Light or dark"
TEXT_ROW = "Size of text"
PALETTE_ROW = "Sticker colours"
LETTERS_ROW = "Letters on stickers"
MIRRORS_ROW = "Mirrors"
MOTION_ROW = "How turns are shown"
SPEED_ROW = "Speed of your turns"
STEPS_ROW = "Show turns step by step"
CROSS_ROW = "Cross colour"
SOUND_ROW = "Sound of your turns"
READ_ALOUD_ROW = "Read the card aloud"
KEYS_ROW = "Letter and number keys"
TURN_BUTTONS_ROW = "Turn buttons"
REST_ROW = "Minutes until a rest reminder"

ON = "on"
OFF = "off"
TURNING = "turning"
FADING = "fading"
NEVER = "never"
IN_LESSON_ONE = "in lesson 1"


def speed(factor: float) -> str:
    """A speed beside the usual one."""
    return f"{factor:g}x"


# ------------------------------------------------------------------------------------- cubes as texts

NO_SCRAMBLE = "write the turns of a scramble, for instance R U2 F'"
CENTRES_ELSEWHERE = "the centres are arranged differently from those of the program's cube"

# ------------------------------------------------------------------------ why something does not happen

NOT_NOW = "You cannot turn the cube here."
DRAG_FARTHER = "That was too short for a turn. Drag half a sticker's length, or flick."
NO_HINT_HERE = "A hint needs a cube in your hands, and there is none here yet."
NO_HINT_WHILE_SHOWING = "Turns are being shown. Press Esc, then ask for a hint."
NO_HINT_WITHOUT_PAIR = "A hint is about one pair. Solve the cross and choose a pair first."
NO_HINT_WHEN_SOLVED = "The pair is solved, so you need no hint."
LAST_HINT = "This was the last hint. Make the turn that the arrow shows."


def help_is_off(key: str) -> str:
    """Why a hint is refused to a learner who works alone, and the key that brings help, if there is one."""
    return f"Help is off. Press {key} to turn it on." if key else "Help is off."


def help_is_on(key: str) -> str:
    """To somebody who turns help on where it is on, and the key of a hint, if there is one."""
    return f"Help is on. Press {key} for a hint." if key else "Help is on."


# ------------------------------------------------------------------------------------------- writing


def did_you_mean(moves: str) -> str:
    """A text in small letters, read with capitals."""
    return f"Did you mean {moves}? Press Enter."


def too_many_at_once(count: int, most: int) -> str:
    """More moves in one text than the program judges one by one."""
    return f"These are {figured(count, 'move')}. Write at most {most:,} at once."


def too_long_to_keep(most: int) -> str:
    """A try is over that is longer than an attempt can be."""
    return f"A try with more than {figured(most, 'turn')} or hints is not kept, so this one does not count."


# ------------------------------------------------------------------------------------------- saving

ONE_AT_A_TIME = "The program saves one thing at a time."
STILL_TO_FIND = "A clip would give the answer away. Answer first."
NOTHING_TO_SHOW = "A clip shows turns, and there are none here yet."
ONE_MOMENT = "The program is still working out the way. Try again in a moment."


def saved(name: str, folder: str) -> str:
    """A file is written."""
    return f"Saved {name} in {folder}"


def not_saved(kind: str, reason: str) -> str:
    """A file could not be written."""
    return f"The program could not save the {kind}: {reason}"


def saving_stopped(kind: str) -> str:
    """The learner stopped it."""
    return f"You stopped it, so the {kind} was not saved."


# ------------------------------------------------------------------------------------ a shared folder


def folder_is_back(folder: str) -> str:
    """The shared folder can be read and written again."""
    return f"The shared folder {folder} is back. Everything done meanwhile is there now."
