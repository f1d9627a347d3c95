"""Stickers: what a position shows, reading a position back from colours, and the rules of legality."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from enum import Enum

from msgspec import Struct

from tutor.cube import words
from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import (
    CORNER_FACES,
    CORNER_STICKERS,
    EDGE_FACES,
    EDGE_STICKERS,
    STICKERS,
)
from tutor.cube.position import Position
from tutor.cube.words import COLOUR_NAMES as COLOUR_NAMES
from tutor.quoting import ToldError


class Rule(Enum):
    """The rules a cube must meet to be a legal position."""

    CENTRES = words.RULE_CENTRES
    COUNT = words.RULE_COUNT
    PIECE = words.RULE_PIECE
    ONCE = words.RULE_ONCE
    TWIST = words.RULE_TWIST
    FLIP = words.RULE_FLIP
    SWAP = words.RULE_SWAP


class Fault(Struct, frozen=True):
    """One broken rule, told in words a person can act on, with the sticker places concerned."""

    rule: Rule
    message: str
    stickers: tuple[int, ...] = ()


class IllegalCubeError(ToldError):
    """Stickers or pieces that no sequence of turns can make; ``faults`` holds every one found."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(fault.message for fault in faults))


def faces_shown(position: Position) -> tuple[Face, ...]:
    """For each of the 54 sticker places as held, the face whose colour it shows."""
    shown = [face for _, face in STICKERS]
    for piece, location in enumerate(position.corners):
        place = location - location % 3
        for k in range(3):
            shown[CORNER_STICKERS[place + (location + k) % 3]] = CORNER_FACES[piece][k]
    for piece, location in enumerate(position.edges):
        place = location - location % 2
        for k in range(2):
            shown[EDGE_STICKERS[place + (location + k) % 2]] = EDGE_FACES[piece][k]
    return tuple(shown)


def read_stickers(
    colours: Sequence[int], names: Sequence[str] = COLOUR_NAMES
) -> tuple[Position, tuple[Face, ...]]:
    """The position as held that shows ``colours``, and for each face the colour number of its centre.

    ``colours`` are 54 numbers 0..5. The centres decide which colour belongs to which face, in any
    arrangement. ``names`` are the six colours' names, for the messages.

    Raises ValueError when the numbers are not such, and IllegalCubeError with all faults of the first kind
    found: colours, then pieces, then twist, flip and swap.
    """
    if len(colours) != 54 or any(colour not in range(6) for colour in colours):
        raise ValueError("a cube has 54 stickers with colours numbered 0 to 5")
    centres = tuple(colours[9 * face + 4] for face in FACES)
    _raise_any(_colour_faults(colours, centres, names))
    face_of_colour = {colour: face for face, colour in zip(FACES, centres, strict=True)}
    faces = [face_of_colour[colour] for colour in colours]

    colour_names = [names[centre] for centre in centres]
    corners, corner_faults = _read_pieces(faces, CORNER_FACES, CORNER_STICKERS, colour_names)
    edges, edge_faults = _read_pieces(faces, EDGE_FACES, EDGE_STICKERS, colour_names)
    _raise_any(corner_faults + edge_faults)
    position = Position(tuple(corners), tuple(edges))
    check_legal(position)
    return position, tuple(Face(colour) for colour in centres)


def check_legal(position: Position) -> None:
    """Raise IllegalCubeError unless turns can reach ``position`` from the solved cube.

    Every place must hold one piece. Then the three sums are the textbook conditions: twist modulo three, flip
    modulo two, equal parities.
    """
    corner_places = [location // 3 for location in position.corners]
    edge_places = [location // 2 for location in position.edges]
    if sorted(corner_places) != list(range(8)) or sorted(edge_places) != list(range(12)):
        raise IllegalCubeError([Fault(Rule.ONCE, words.SAME_PLACE)])
    faults = []
    twist = sum(location % 3 for location in position.corners) % 3
    if twist:
        faults.append(Fault(Rule.TWIST, words.corner_twisted(clockwise=twist == 1)))
    if sum(location % 2 for location in position.edges) % 2:
        faults.append(Fault(Rule.FLIP, words.EDGE_FLIPPED))
    if is_odd(corner_places) != is_odd(edge_places):
        faults.append(Fault(Rule.SWAP, words.PIECES_SWAPPED))
    _raise_any(faults)


def _raise_any(faults: Sequence[Fault]) -> None:
    if faults:
        raise IllegalCubeError(faults)


def _colour_faults(colours: Sequence[int], centres: Sequence[int], names: Sequence[str]) -> list[Fault]:
    faults = []
    for colour, count in sorted(Counter(centres).items()):
        if count > 1:
            places = tuple(9 * face + 4 for face in FACES if centres[face] == colour)
            faults.append(Fault(Rule.CENTRES, words.centres_alike(count, names[colour]), places))
    counted = Counter(colours)
    for colour in range(6):
        if counted[colour] != 9:
            places = tuple(place for place, shown in enumerate(colours) if shown == colour)
            faults.append(Fault(Rule.COUNT, words.colour_count(names[colour], counted[colour]), places))
    return faults


def _read_pieces(
    faces: Sequence[Face],
    kinds: Sequence[tuple[Face, ...]],
    stickers: Sequence[int],
    names: Sequence[str],
) -> tuple[list[int], list[Fault]]:
    """Locations by piece (as far as they could be read) and what is wrong with the pieces.

    ``names`` are the colours of the six faces.
    """
    size = len(kinds[0])
    turned = {
        piece[k:] + piece[:k]: (number, (-k) % size)
        for number, piece in enumerate(kinds)
        for k in range(size)
    }
    found: dict[int, list[int]] = {}
    faults = []
    for place in range(len(kinds)):
        sticker_places = tuple(stickers[size * place + k] for k in range(size))
        shown = tuple(faces[sticker] for sticker in sticker_places)
        if shown in turned:
            piece, k = turned[shown]
            found.setdefault(piece, []).append(size * place + k)
        else:
            colours, why = [names[face] for face in shown], why_impossible(shown)
            message = words.piece_impossible(kinds[place], colours, why, letters=True)
            faults.append(Fault(Rule.PIECE, message, sticker_places))
    for piece, locations in sorted(found.items()):
        if len(locations) > 1:
            places = tuple(stickers[location] for location in locations)
            there = [kinds[location // size] for location in locations]
            message = words.piece_repeated(there, [names[face] for face in kinds[piece]], letters=True)
            faults.append(Fault(Rule.ONCE, message, places))
    return [found.get(piece, [0])[0] for piece in range(len(kinds))], faults


def why_impossible(shown: tuple[Face, ...]) -> str:
    """Why no piece shows these colours, told by the faces they belong to; a corner's may be two only."""
    if len(set(shown)) < len(shown):
        return words.COLOUR_TWICE
    if any(face.opposite in shown for face in shown):
        return words.OPPOSITE_COLOURS
    return words.WRONG_WAY_ROUND


def is_odd(order: Sequence[int]) -> bool:
    """Whether a permutation of 0..n-1 is odd: n minus its number of cycles counts the swaps."""
    unseen = set(range(len(order)))
    cycles = 0
    while unseen:
        cycles += 1
        place = unseen.pop()
        while (place := order[place]) in unseen:
            unseen.remove(place)
    return (len(order) - cycles) % 2 == 1
