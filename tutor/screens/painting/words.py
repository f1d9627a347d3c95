"""Every text of the painting screen."""

from __future__ import annotations

from tutor.counting import counted, figured, noun
from tutor.cube.faces import Face
from tutor.cube.legality import FaultKind
from tutor.cube.words import SIDES, place_in_words

# --------------------------------------------------------------------------------- the way to this screen

TITLE = "Paint your cube"
NOTHING_PAINTED = "Copy the cube in your hand, sticker by sticker."


def painted(count: int) -> str:
    """How much of a cube is painted already."""
    return f"You have painted {'all' if count == 48 else f'{count} of'} 48 stickers."


# --------------------------------------------------------------------------------------- down the card


def hold(up: str, front: str) -> str:
    """How to hold the cube, by the colours of its centres."""
    return f"Hold your cube with {up} on top and {front} in front"


HOW = (
    "Click a sticker to paint it, here or on the cube. "
    "Or move with the arrow keys and press a colour’s letter."
)
ENTRY = "Six faces or a scramble, then press Enter"
COUNTS = "Each colour needs 9 stickers. You have:"
ERASER = "Erase"


def colour_count(name: str, count: int) -> str:
    """A colour of the palette by its letter, which is its key, and how many stickers have it."""
    return f"{name[0].upper()} {count}"


CAN_BE_SOLVED = "Every piece is there. This cube can be solved."
SOLVE = "Solve this cube"


def more_faults(count: int) -> str:
    """How many faults come after those that are named."""
    return f"There {noun(count, 'is', 'are')} {counted(count, 'more fault')}."


def left_to_paint(count: int) -> str:
    """How many stickers are not painted yet."""
    return f"You have {figured(count, 'sticker')} left to paint."


UNDO = "Undo"
REDO = "Redo"
ERASE_ALL = "Erase all"
PAINT_SOLVED = "Paint it solved"
WRITE = "Write or paste"
COPY = "Copy"

# ----------------------------------------------------------------------------- what would put it right

NO_SINGLE_CHANGE = "No single change puts this right. Compare it with the cube in your hand, piece by piece."
ONE_CHANGE = "Only one change puts it right."
COMPARE = "Compare it with the cube in your hand."
_TURNED = {FaultKind.CORNER: "twist", FaultKind.EDGE: "flip"}


def which_is_turned(kind: FaultKind) -> str:
    """The colours fit whichever piece of a kind is turned in its place."""
    return f"The colours do not show which {kind.value} you must {_TURNED[kind]}."


WHICH_ARE_SWAPPED = "The colours do not show which two edges or two corners you must swap."
WHICH_STICKER = "More than one sticker could be the wrong one."


def go_to_piece(kind: FaultKind) -> str:
    """How to choose the piece; a button offers to turn it once the cursor is on one of its kind."""
    return (
        f"Move with the arrow keys to the {kind.value} that looks different. "
        f"Then press the button here to {_TURNED[kind]} it."
    )


def most_likely(kind: FaultKind, faces: tuple[Face, ...]) -> str:
    """The one piece that would come right, where most of the others are right."""
    return (
        f"Most likely it is {place_in_words(faces)}. "
        f"If you {_TURNED[kind]} any other {kind.value}, that one is wrong afterwards."
    )


def most_likely_swap(first: tuple[Face, ...], second: tuple[Face, ...]) -> str:
    """The two pieces that would both come right, where most of the others are right."""
    return (
        f"Most likely you must swap {place_in_words(first)} and {place_in_words(second)}. "
        "Any other swap leaves one of its pieces wrong."
    )


def paint_sticker(face: Face, faces: tuple[Face, ...], colour: str) -> str:
    """The button that gives a sticker of the place on these faces another colour."""
    if len(faces) == 1:
        return f"Paint {place_in_words(faces)} {colour}"
    return f"Paint the {SIDES[face]} of {place_in_words(faces)} {colour}"


def flip(faces: tuple[Face, ...]) -> str:
    """The button that flips an edge."""
    return f"Flip {place_in_words(faces)}"


def twist(faces: tuple[Face, ...], *, clockwise: bool) -> str:
    """The button that twists a corner."""
    return f"Twist {place_in_words(faces)} {'clockwise' if clockwise else 'anticlockwise'}"


def swap(first: tuple[Face, ...], second: tuple[Face, ...]) -> str:
    """The button that swaps two pieces of a kind."""
    return f"Swap {place_in_words(first)} and {place_in_words(second)}"


# ------------------------------------------------------------------------------------ at the window's foot

COPIED = "Copied. You can paste it anywhere as plain text."
FIXED = "The centres are fixed. They show which colour belongs on which face."
CENTRE_MISSING = "a centre has no colour; write the colours of all six centres"

# -------------------------------------------------------------------------------------- on the key sheet

KEYS = "Painting"
KEY_BRUSH = "paint with the colour in hand and go on"
KEY_ERASE = "erase"
KEY_ERASE_BEFORE = "go back and erase"
KEY_UNDO = "undo"
KEY_REDO = "redo"
KEY_COPY = "copy as text"
KEY_WRITE = "write or paste"


def key_colour(name: str) -> str:
    """The key that paints in the colour of this name."""
    return f"paint {name} and go on"


def key_place(number: int) -> str:
    """The key that paints in the colour with this number on the palette, from 1."""
    return f"paint with colour {number} and go on"


def key_heading(name: str) -> str:
    """The key that moves the cursor that way."""
    return f"go {name}"
