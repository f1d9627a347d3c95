"""What is wrong with a painted cube, whole or only begun.

A cube that shows all pieces can be reached by turns when three sums are right: twists of corners are nothing
modulo three, flips of edges nothing modulo two, and corners and edges are permuted alike, both evenly or both
oddly (the cube's three laws, common knowledge; Joyner, Adventures in Group Theory, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube import words
from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import (
    CORNER_FACES,
    CORNER_STICKERS,
    EDGE_FACES,
    EDGE_STICKERS,
    place_name,
)
from tutor.cube.position import Position
from tutor.cube.stickers import (
    COLOUR_NAMES,
    Fault,
    IllegalCubeError,
    Rule,
    check_legal,
    why_impossible,
)
from tutor.cube.symmetry import ROTATIONS

BLANK = -1
"""The colour of a sticker that is not painted yet."""

Mask = NDArray[np.bool_]


class FaultKind(Enum):
    """The pieces that turns move."""

    CORNER = "corner"
    EDGE = "edge"


class Pieces(Struct, frozen=True, eq=False):
    """Corners or edges: how they look in every place and way round."""

    kind: FaultKind
    faces: tuple[tuple[Face, ...], ...]
    stickers: NDArray[np.intp]
    """The sticker places of each place; shape (places, size)."""
    turned: NDArray[np.intp]
    """``turned[piece, k, j]`` is the face shown on the j-th sticker of a place by a piece whose first sticker
    is on the k-th; shape (pieces, size, size)."""

    @property
    def size(self) -> int:
        """Stickers on a piece."""
        return int(self.stickers.shape[1])

    def name(self, place: int) -> str:
        """A place by its faces, such as UF."""
        return place_name(self.faces[place])

    def in_words(self, place: int) -> str:
        """A place in words, such as "the top front edge"."""
        return words.place_in_words(self.faces[place])

    def stickers_at(self, places: Sequence[int]) -> tuple[int, ...]:
        """The sticker places of some places, one after the other."""
        return tuple(int(sticker) for place in places for sticker in self.stickers[place])


def _pieces(kind: FaultKind, faces: tuple[tuple[Face, ...], ...], stickers: tuple[int, ...]) -> Pieces:
    size = len(faces[0])
    turned = [[[piece[(j - k) % size] for j in range(size)] for k in range(size)] for piece in faces]
    return Pieces(kind, faces, np.array(stickers).reshape(-1, size), np.array(turned))


PIECES = {
    FaultKind.CORNER: _pieces(FaultKind.CORNER, CORNER_FACES, CORNER_STICKERS),
    FaultKind.EDGE: _pieces(FaultKind.EDGE, EDGE_FACES, EDGE_STICKERS),
}
"""The two kinds, corners first."""
_CENTRES = tuple(9 * face + 4 for face in FACES)
_HELD = frozenset(tuple(int(face) for face in rotation.inverse.faces) for rotation in ROTATIONS)
"""The colour numbers of the six centres in every hold of the one cube there is."""


def faults_of(colours: tuple[int, ...], names: tuple[str, ...] = COLOUR_NAMES) -> tuple[Fault, ...]:
    """What is wrong with 54 colour numbers 0..5, BLANK where nothing is painted; centres are always painted.

    ``names`` are the six colours' names, for the messages. Faults come with what one sees first in front:
    centres, impossible pieces, pieces there more than once, counts; twist, flip and swap only when a whole
    cube has none of these. Raises ValueError when the numbers are not such.
    """
    if len(colours) != 54 or any(colour not in range(BLANK, 6) for colour in colours):
        raise ValueError("a cube has 54 stickers with colours numbered 0 to 5, or -1 for none yet")
    centres = tuple(colours[place] for place in _CENTRES)
    if BLANK in centres:
        raise ValueError("the six centres are always painted; they say which colour belongs to which face")
    counts = _count_faults(colours, names)
    wrong = _centre_faults(centres, names)
    if wrong:
        return wrong + counts
    faults: list[Fault] = []
    for kind in FaultKind:
        faults += _piece_faults(PIECES[kind], colours, names)
    faults += counts
    if faults or BLANK in colours:
        return tuple(faults)
    try:
        check_legal(position_of(colours))
    except IllegalCubeError as error:
        return error.faults
    return ()


def _centre_faults(centres: tuple[int, ...], names: tuple[str, ...]) -> tuple[Fault, ...]:
    doubled = [colour for colour in range(6) if centres.count(colour) > 1]
    if not doubled and centres not in _HELD:
        return (Fault(Rule.CENTRES, words.OTHER_CENTRES, _CENTRES),)
    return tuple(
        Fault(
            Rule.CENTRES,
            words.centres_alike(centres.count(colour), names[colour]),
            tuple(place for place, shown in zip(_CENTRES, centres, strict=True) if shown == colour),
        )
        for colour in doubled
    )


def _count_faults(colours: tuple[int, ...], names: tuple[str, ...]) -> tuple[Fault, ...]:
    """Colours that are there too often; on a whole cube also those that are there too seldom."""
    faults = []
    for colour in range(6):
        count = colours.count(colour)
        if count > 9 or (count < 9 and BLANK not in colours):
            places = tuple(place for place, shown in enumerate(colours) if shown == colour)
            faults.append(Fault(Rule.COUNT, words.colour_count(names[colour], count), places))
    return tuple(faults)


def shown_faces(colours: tuple[int, ...]) -> NDArray[np.intp]:
    """The face that each sticker's colour belongs to, BLANK where nothing is painted; shape (54,)."""
    faces = np.full(7, BLANK)
    for face, place in zip(FACES, _CENTRES, strict=True):
        faces[colours[place]] = face
    return np.asarray(faces[np.array(colours)])


def _fits(pieces: Pieces, shown: NDArray[np.intp]) -> Mask:
    """Which piece can be in which place, which way round; shape (places, pieces, size)."""
    there = shown[pieces.stickers][:, None, None, :]
    return np.asarray(((there == BLANK) | (there == pieces.turned)).all(axis=-1))


def _piece_faults(pieces: Pieces, colours: tuple[int, ...], names: tuple[str, ...]) -> list[Fault]:
    """Pieces that no cube has, else those that are there too often."""
    shown = shown_faces(colours)
    can: Mask = np.asarray(_fits(pieces, shown).any(axis=2))
    faults = []
    for place in np.flatnonzero(~can.any(axis=1)).tolist():
        stickers = pieces.stickers_at([place])
        painted = [sticker for sticker in stickers if colours[sticker] != BLANK]
        seen = [names[colours[sticker]] for sticker in painted]
        why = why_impossible(tuple(Face(int(shown[sticker])) for sticker in painted))
        message = words.piece_impossible(pieces.faces[place], seen, why, letters=False)
        faults.append(Fault(Rule.PIECE, message, stickers))
    return faults + _too_often(pieces, can, [names[colours[place]] for place in _CENTRES])


def _too_often(pieces: Pieces, can: Mask, names: Sequence[str]) -> list[Fault]:
    """Pieces seen in two places, else places that together need more pieces than there are.

    ``names`` are the colours of the six faces.
    """
    faults = []
    certain = can.sum(axis=1) == 1
    for piece in range(len(can)):
        places = np.flatnonzero(certain & can[:, piece]).tolist()
        if len(places) > 1:
            there = [pieces.faces[place] for place in places]
            seen = [names[face] for face in pieces.faces[piece]]
            message = words.piece_repeated(there, seen, letters=False)
            faults.append(Fault(Rule.ONCE, message, pieces.stickers_at(places)))
    if faults:
        return faults
    crowd = _crowd(can)
    if not crowd:
        return []
    left = int(can[crowd].any(axis=0).sum())
    message = words.too_many_alike([pieces.faces[place] for place in crowd], left)
    return [Fault(Rule.ONCE, message, pieces.stickers_at(crowd))]


def _crowd(can: Mask) -> list[int]:
    """Places that can hold fewer pieces than they are, as few as are found; empty when each can have its own.

    By Hall's theorem such places exist exactly when a matching fails; those that the search for another way
    reached are such a set (Hall 1935; the search is the usual one by augmenting paths).
    """
    holder: dict[int, int] = {}

    def placed(place: int, seen: set[int]) -> bool:
        for piece in np.flatnonzero(can[place]).tolist():
            if piece not in seen:
                seen.add(piece)
                if piece not in holder or placed(holder[piece], seen):
                    holder[piece] = place
                    return True
        return False

    crowds = []
    for place in np.flatnonzero(can.any(axis=1)).tolist():
        seen: set[int] = set()
        if not placed(place, seen):
            crowds.append(sorted({place, *(holder[piece] for piece in seen)}))
    return min(crowds, key=len, default=[])


def position_of(colours: tuple[int, ...]) -> Position:
    """The position that a whole cube shows on which every piece is there once."""
    found = []
    for pieces in PIECES.values():
        places, which, k = np.nonzero(_fits(pieces, shown_faces(colours)))
        locations = np.zeros(len(places), dtype=np.intp)
        locations[which] = pieces.size * places + k
        found.append(tuple(locations.tolist()))
    return Position(*found)
