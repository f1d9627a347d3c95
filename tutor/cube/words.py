"""What is said about the cube itself, in English: its places, written moves, stickers, and what cannot be."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import counted, figured, number
from tutor.cube.faces import Face

COLOUR_NAMES = ("yellow", "white", "red", "orange", "green", "blue")
"""Colours of the faces U D L R F B in the first hold: white down, green in front. That white is opposite
yellow, blue opposite green and red opposite orange is common practice; WCA 3a3 prescribes no arrangement."""
COLOUR_LETTERS = "".join(name[0] for name in COLOUR_NAMES)
"""The letter of each colour number, in texts and on stickers."""

# ------------------------------------------------------------------------------------------------- places

SIDES = {
    Face.U: "top",
    Face.D: "bottom",
    Face.L: "left",
    Face.R: "right",
    Face.F: "front",
    Face.B: "back",
}
"""Each face as a word."""
_IN_ORDER = (Face.U, Face.D, Face.F, Face.B, Face.L, Face.R)
_KINDS = {1: "centre", 2: "edge", 3: "corner"}


def place_in_words(faces: tuple[Face, ...], *, letters: bool = False) -> str:
    """The place on these faces, for instance "the top front edge" or "the bottom front-right corner".

    With ``letters`` the name in letters follows in brackets.
    """
    return places_in_words((faces,), letters=letters)


def places_in_words(places: Sequence[tuple[Face, ...]], *, letters: bool = False) -> str:
    """Some places of one kind, for instance "the top front and front-right edges"."""
    ending = f"{_KINDS[len(places[0])]}{'s' if len(places) > 1 else ''}"
    if letters and len(places) == 1:
        return f"the {_where(places[0])} {ending} ({_letters(places[0])})"
    names = [f"{_where(faces)} ({_letters(faces)})" if letters else _where(faces) for faces in places]
    return f"the {_listed(names)} {ending}"


def _where(faces: tuple[Face, ...]) -> str:
    """Up or down first, then the sides, for instance "top front-right"."""
    ordered = sorted(faces, key=_IN_ORDER.index)
    sides = "-".join(SIDES[face] for face in ordered if face not in (Face.U, Face.D))
    return " ".join(filter(None, (*(SIDES[face] for face in ordered if face in (Face.U, Face.D)), sides)))


def _letters(faces: tuple[Face, ...]) -> str:
    return "".join(face.name for face in sorted(faces, key=_IN_ORDER.index))


def _listed(names: Sequence[str]) -> str:
    """Names with commas, and "and" before the last."""
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


# ------------------------------------------------------------------------------------------ written moves


def notation_problem(column: int, quoted: str, advice: str) -> str:
    """What is wrong in written moves, where, and what would be right."""
    return f"column {column}, “{quoted}”: {advice}"


def too_many_moves(most: int) -> str:
    """A text that stands for more moves than the program takes."""
    return f"a sequence can have at most {most} moves"


def too_many_brackets(most: int) -> str:
    """Brackets too deep inside one another."""
    return f"you can put at most {most} brackets inside one another"


NEVER_CLOSED = "nothing closes this bracket; add “)”"
CLOSES_NOTHING = "this bracket closes nothing; add “(” before it, or leave it out"
EMPTY_BRACKET = "this bracket is empty; put at least one move into it"
SPACE_AFTER_COUNT = "put a space after the repeat count"
COUNT_TOO_SMALL = "a repeat count must be 1 or more"
SPACE_BETWEEN_MOVES = "put a space between moves"
ONLY_FACE_TURNS = "you can only turn single faces here, as in R, U2 or F'"
AFTER_THE_LETTER = "put nothing, 2 or one prime (') after the letter"
NO_SLICE_TURNS = "the standard has no slice turns; turn the two outer layers instead"
NUMBER_ASTRAY = "put a number right after a closing bracket, or leave it out"
SUFFIX_ASTRAY = "put 2 or a prime (') right after the letter of a move; after a bracket, put only a number"
A_MOVE = "start a move with U D L R F B or x y z. Add w for two layers, and put 2 or a prime (') last"


def half_turn(move: str) -> str:
    """A half turn with a prime."""
    return f"a half turn ends the same both ways; write {move}2"


def wide_sign_first(move: str, suffix: str) -> str:
    """The w after the 2 or the prime."""
    return f"the w comes right after the letter; write {move}w{suffix}"


def two_layers(face: str) -> str:
    """A wide turn of another number of layers."""
    return f"a wide turn moves two layers on this cube; write {face}w or 2{face}w"


def capital_face(face: str) -> str:
    """A face in small letters."""
    return f"a face is a capital letter; write {face}, or {face}w for two layers"


def small_rotation(axis: str) -> str:
    """A rotation in capital letters."""
    return f"a rotation is a small letter; write {axis}"


def no_wide_rotation(axis: str) -> str:
    """A rotation with a w."""
    return f"x, y and z turn the whole cube and take no w; write {axis}"


# -------------------------------------------------------------------------------------- stickers as lines


def sticker_text_problem(line: int, message: str, advice: str) -> str:
    """What is wrong in the lines of stickers, where, and what would be right."""
    return f"line {line}: {message}; {advice}"


def not_a_face(quoted: str) -> str:
    """A line that does not begin with a face."""
    return f"“{quoted}” is not a face"


START_WITH_A_FACE = "start the line with U: D: L: R: F: or B:"


def face_twice(face: Face) -> str:
    """A second line for one face."""
    return f"face {face.name} already has a line"


ONE_LINE_EACH = "give each face one line"


def faces_missing(faces: Sequence[Face]) -> str:
    """Faces without a line."""
    return f"there is no line for {_listed([face.name for face in faces])}"


ALL_SIX_FACES = "give all six faces a line"


def not_a_colour(letter: str) -> str:
    """A letter that belongs to no colour."""
    return f"“{letter}” is not a colour"


def colour_letters(names: Sequence[str]) -> str:
    """The letters that belong to colours."""
    return f"use {', '.join(f'{name[0]} ({name})' for name in names)}"


def colours_in_line(count: int) -> str:
    """A line of too few or too many colours."""
    return f"this line has {figured(count, 'colour')}"


NINE_COLOURS = "give each face nine"

# --------------------------------------------------------------------------------- cubes that cannot exist

RULE_CENTRES = "six centres have six colours"
RULE_COUNT = "each colour is on nine stickers"
RULE_PIECE = "a cube has no such piece"
RULE_ONCE = "a cube has each piece once"
RULE_TWIST = "turns cannot twist a single corner"
RULE_FLIP = "turns cannot flip a single edge"
RULE_SWAP = "turns cannot swap just two pieces"

OTHER_CENTRES = "the centres are arranged differently on this program's cube"
SAME_PLACE = "two pieces are in the same place; each place has room for one"
EDGE_FLIPPED = "one edge is flipped in its place; take it out and flip it"
PIECES_SWAPPED = "two pieces are swapped; swap any two edges or any two corners"


def corner_twisted(*, clockwise: bool) -> str:
    """One corner is twisted."""
    way = "clockwise" if clockwise else "anticlockwise"
    return f"one corner is twisted {way} in its place; twist it back"


def centres_alike(count: int, colour: str) -> str:
    """Several centres have one colour."""
    return f"{number(count)} centres are {colour}; each centre needs a colour of its own"


def colour_count(colour: str, count: int) -> str:
    """A colour is there too often or too seldom."""
    return (
        f"{colour} is on {figured(count, 'sticker')}; {'a cube has only' if count > 9 else 'it must be on'} 9"
    )


def piece_impossible(faces: tuple[Face, ...], colours: Sequence[str], why: str, *, letters: bool) -> str:
    """A piece that no cube has, in the place on these faces."""
    return f"{place_in_words(faces, letters=letters)} shows {'-'.join(colours)}: {why}"


COLOUR_TWICE = "no piece has the same colour twice"
OPPOSITE_COLOURS = "no piece has the colours of two opposite faces"
WRONG_WAY_ROUND = "its colours go round the wrong way; swap two of them"


def piece_repeated(places: Sequence[tuple[Face, ...]], colours: Sequence[str], *, letters: bool) -> str:
    """The same piece in several places."""
    together = "both" if len(places) == 2 else "all"
    return (
        f"{places_in_words(places, letters=letters)} are {together} {'-'.join(colours)}; a cube has only one"
    )


_MOST_NAMED = 4
"""Places that a sentence names before it only counts them."""


def too_many_alike(places: Sequence[tuple[Face, ...]], left: int) -> str:
    """Places that together need more pieces with their colours than a cube has."""
    named = [_where(faces) for faces in places]
    if len(named) > _MOST_NAMED:
        named = [*named[: _MOST_NAMED - 1], f"{number(len(named) - _MOST_NAMED + 1)} more"]
    kind = _KINDS[len(places[0])]
    return (
        f"a cube has only {counted(left, kind)} with these colours, "
        f"but you painted {number(len(places))}: {_listed(named)}"
    )
