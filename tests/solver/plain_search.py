"""A plain breadth-first search that shares nothing with the solver: the cube as stickers in space.

A placement is the tuple of locations of the pieces that matter: four cross edges, then the corners and the
edges of the tracked slots. Turns rotate stickers by a quarter with a matrix; nothing is pruned but turning
one face twice in a row, and nothing is estimated. With fewer faces some placements never come home: those in
which a piece is missing from a place that none of the faces moves. What else is said to come home was found
to do so.
"""

from __future__ import annotations

from itertools import product

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES, NORMALS
from tutor.cube.position import SOLVED, Position, Slot

Keys = NDArray[np.int64]
UNKNOWN = 99
NEVER = 98
_BITS = 5  # for a location, 0 to 23
_CHUNK = 1 << 18

Sticker = tuple[tuple[int, ...], tuple[int, ...]]


def _stickers(places: tuple[tuple[object, ...], ...]) -> list[Sticker]:
    """The cubie and the normal of each location, in the order of locations."""
    found: list[Sticker] = []
    for faces in places:
        normals = [NORMALS[face] for face in faces]  # type: ignore[index]
        cubie = tuple(int(total) for total in np.sum(normals, axis=0))
        found.extend((cubie, normal) for normal in normals)
    return found


def _quarter(normal: tuple[int, ...], vector: tuple[int, ...]) -> tuple[int, ...]:
    """The vector turned by a quarter clockwise, seen from where the normal points to: n (n.v) - n x v."""
    along = int(np.dot(normal, vector))
    return tuple(int(value) for value in along * np.array(normal) - np.cross(normal, vector))


def _moved(stickers: list[Sticker], turn: Turn) -> list[int]:
    normal = NORMALS[turn.face]
    numbers = {sticker: number for number, sticker in enumerate(stickers)}
    moved = []
    for cubie, facing in stickers:
        place, direction = cubie, facing
        if int(np.dot(cubie, normal)) == 1:
            for _ in range(turn.quarters):
                place, direction = _quarter(normal, place), _quarter(normal, direction)
        moved.append(numbers[place, direction])
    return moved


CORNER_STEPS = np.array([_moved(_stickers(CORNER_FACES), turn) for turn in TURNS], dtype=np.int64)
EDGE_STEPS = np.array([_moved(_stickers(EDGE_FACES), turn) for turn in TURNS], dtype=np.int64)


class PlainSearch:
    """Distances of placements of the cross and the pairs of some slots, by turns of some faces."""

    def __init__(
        self, slots: tuple[Slot, ...], depth: int, faces: frozenset[Face] = frozenset(FACES)
    ) -> None:
        self.slots = slots
        self.turns = tuple(turn for turn in TURNS if turn.face in faces)
        self._steps = [EDGE_STEPS] * 4 + [CORNER_STEPS] * len(slots) + [EDGE_STEPS] * len(slots)
        self._moves = [
            _two_at_once(*self._steps[index : index + 2]) << (_BITS * index)
            for index in range(0, len(self._steps), 2)
        ]
        layers = [np.array([self.key(SOLVED)], dtype=np.int64)]
        known = layers[0]
        for _ in range(depth):
            fresh = _distinct(np.concatenate([self.turned(layers[-1], turn) for turn in self.turns]))
            fresh = fresh[~_among(fresh, known)]
            layers.append(fresh)
            known = np.sort(np.concatenate((known, fresh)))
        self.depth = depth
        self.counts = [len(layer) for layer in layers]
        self._known = known
        self._depths = np.zeros(len(known), dtype=np.int64)
        for turns, layer in enumerate(layers):
            self._depths[known.searchsorted(layer)] = turns

    def key(self, position: Position) -> int:
        """The placement's locations packed into one number."""
        locations = [*position.edges[8:]]
        locations += [position.corners[slot.corner] for slot in self.slots]
        locations += [position.edges[slot.edge] for slot in self.slots]
        return sum(location << (_BITS * index) for index, location in enumerate(locations))

    def turned(self, keys: Keys, turn: Turn) -> Keys:
        """The placements after a turn."""
        result = np.zeros_like(keys)
        for index, moves in enumerate(self._moves):
            result |= moves[turn][(keys >> (2 * _BITS * index)) & 1023]
        return result

    def near(self, keys: Keys) -> NDArray[np.int64]:
        """The distance of those within the depth of home, ``UNKNOWN`` for the others."""
        places = np.minimum(self._known.searchsorted(keys), len(self._known) - 1)
        return np.where(self._known[places] == keys, self._depths[places], UNKNOWN)

    def never(self, keys: Keys) -> NDArray[np.bool_]:
        """Which placements lack a piece in a place that none of the turns moves."""
        home = self.key(SOLVED)
        lacking = np.zeros(len(keys), dtype=np.bool_)
        for index, steps in enumerate(self._steps):
            place = (home >> (_BITS * index)) & 31
            if all(steps[turn][place] == place for turn in self.turns):
                lacking |= (keys >> (_BITS * index)) & 31 != place
        return lacking

    def distances(self, keys: Keys, limit: int = 20) -> NDArray[np.int64]:
        """The distance of every placement, by going forward from each until the known ones are met.

        ``NEVER`` for those that never come home, ``UNKNOWN`` for those beyond the limit.
        """
        unique, back = np.unique(keys, return_inverse=True)
        result = self.near(unique)
        result[self.never(unique)] = NEVER
        frontier = unique[result == UNKNOWN]
        origin = np.flatnonzero(result == UNKNOWN)
        last = np.full(len(frontier), -1)
        forward = 0
        while len(frontier) and self.depth + forward < limit:
            forward += 1
            frontier, origin, last = self._forward(frontier, origin, last, result, forward)
        return result[back]

    def _forward(
        self, frontier: Keys, origin: Keys, last: Keys, result: NDArray[np.int64], forward: int
    ) -> tuple[Keys, Keys, Keys]:
        """One turn further from every origin that has not met the known placements yet."""
        nodes, origins, lasts = [], [], []
        for start, turn in product(range(0, len(frontier), _CHUNK), self.turns):
            part = slice(start, start + _CHUNK)
            wanted = last[part] != turn.face
            children, sources = self.turned(frontier[part][wanted], turn), origin[part][wanted]
            found = self.near(children)
            met = found != UNKNOWN
            np.minimum.at(result, sources[met], found[met] + forward)
            nodes.append(children[~met])
            origins.append(sources[~met])
            lasts.append(np.full(len(nodes[-1]), turn.face))
        frontier, origin, last = np.concatenate(nodes), np.concatenate(origins), np.concatenate(lasts)
        open_ = result[origin] == UNKNOWN
        return frontier[open_], origin[open_], last[open_]

    def around(self, position: Position, limit: int = 20) -> tuple[int, tuple[int, ...]]:
        """The distance of a position and of its 18 neighbours."""
        here = np.array([self.key(position)], dtype=np.int64)
        every = self.distances(np.concatenate([here, *(self.turned(here, turn) for turn in TURNS)]), limit)
        return int(every[0]), tuple(every[1:].tolist())

    def direct(self, position: Position, after: tuple[int, ...], among: frozenset[Turn]) -> frozenset[Turn]:
        """Those of the turns from which a way of ``after`` turns leads home and turns another face next."""
        found = set()
        for turn in among:
            child = self.turned(np.array([self.key(position)], dtype=np.int64), turn)
            others = [other for other in self.turns if other.face is not turn.face]
            grandchildren = np.concatenate([self.turned(child, other) for other in others])
            if after[turn] == 0 or int(self.distances(grandchildren).min()) == after[turn] - 1:
                found.add(turn)
        return frozenset(found)


def _two_at_once(lower: NDArray[np.int64], upper: NDArray[np.int64]) -> NDArray[np.int64]:
    """For each turn where it takes two locations packed into one number of ten bits."""
    both = np.zeros((len(lower), 32, 32), dtype=np.int64)
    count_upper, count_lower = upper.shape[1], lower.shape[1]
    both[:, :count_upper, :count_lower] = upper[:, :, None] << _BITS | lower[:, None, :]
    return both.reshape(len(lower), -1)


def _distinct(keys: Keys) -> Keys:
    """The keys in order, each once: for millions of numbers several times faster than ``np.unique``."""
    ordered = np.sort(keys)
    return ordered[np.concatenate(([True], ordered[1:] != ordered[:-1]))]


def _among(keys: Keys, known: Keys) -> NDArray[np.bool_]:
    places = np.minimum(known.searchsorted(keys), len(known) - 1)
    return np.asarray(known[places] == keys)


def unsolved_placements(slot: Slot) -> list[Position]:
    """The 149 positions with all else home and the slot's pair on top or in its slot, but not home.

    Only the pair is put where it says; whatever was there goes where the pair came from.
    """
    positions = []
    for corner, edge in product((0, 1, 2, 3, slot.corner), (0, 1, 2, 3, slot.edge)):
        for twist, flip in product(range(3), range(2)):
            corners, edges = list(SOLVED.corners), list(SOLVED.edges)
            corners[corner], corners[slot.corner] = corners[slot.corner], 3 * corner + twist
            edges[edge], edges[slot.edge] = edges[slot.edge], 2 * edge + flip
            position = Position(tuple(corners), tuple(edges))
            if not position.pair_home(slot):
                positions.append(position)
    return positions
