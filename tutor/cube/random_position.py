"""Random positions, uniform over all legal ones (WCA 4b3)."""

from __future__ import annotations

from random import Random

from tutor.cube.position import CROSS_EDGES, SOLVED, TURN_POSITIONS, Position
from tutor.cube.stickers import is_odd


def random_position(random: Random) -> Position:
    """A position drawn uniformly from the legal positions that need at least two turns (WCA 4b3)."""
    while True:
        position = _draw(random)
        if position != SOLVED and position not in TURN_POSITIONS:
            return position


def random_with_cross(random: Random) -> Position:
    """A position drawn uniformly from those with the cross home that need at least two turns."""
    while True:
        position = _draw(random, frozenset(CROSS_EDGES))
        if position != SOLVED and position not in TURN_POSITIONS:
            return position


def _draw(random: Random, kept: frozenset[int] = frozenset()) -> Position:
    """A legal position, each as likely as any other in which the edges ``kept`` are home."""
    corner_places = list(range(8))
    moved = [edge for edge in range(12) if edge not in kept]
    places = list(moved)
    random.shuffle(corner_places)
    random.shuffle(places)
    if is_odd(corner_places) != is_odd([moved.index(place) for place in places]):
        # Half of all pairs of arrangements are legal; one swap maps the other half onto them one to one.
        places[0], places[1] = places[1], places[0]
    twists = [random.randrange(3) for _ in range(7)]
    turned = [random.randrange(2) for _ in moved[1:]]
    twists.append(-sum(twists) % 3)
    turned.append(sum(turned) % 2)
    edge_places, flips = list(range(12)), [0] * 12
    for edge, place, flip in zip(moved, places, turned, strict=True):
        edge_places[edge], flips[edge] = place, flip
    return Position(
        tuple(3 * place + twist for place, twist in zip(corner_places, twists, strict=True)),
        tuple(2 * place + flip for place, flip in zip(edge_places, flips, strict=True)),
    )
