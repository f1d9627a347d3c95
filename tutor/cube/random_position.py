"""Random positions, uniform over all legal ones (WCA 4b3)."""

from __future__ import annotations

from random import Random

from tutor.cube.position import SOLVED, TURN_POSITIONS, Position
from tutor.cube.stickers import is_odd


def random_position(random: Random) -> Position:
    """A position drawn uniformly from the legal positions that need at least two turns (WCA 4b3)."""
    while True:
        position = _draw(random)
        if position != SOLVED and position not in TURN_POSITIONS:
            return position


def _draw(random: Random) -> Position:
    corner_places, edge_places = list(range(8)), list(range(12))
    random.shuffle(corner_places)
    random.shuffle(edge_places)
    if is_odd(corner_places) != is_odd(edge_places):
        # Half of all pairs of arrangements are legal; one swap maps the other half onto them one to one.
        edge_places[0], edge_places[1] = edge_places[1], edge_places[0]
    twists = [random.randrange(3) for _ in range(7)]
    flips = [random.randrange(2) for _ in range(11)]
    twists.append(-sum(twists) % 3)
    flips.append(sum(flips) % 2)
    return Position(
        tuple(3 * place + twist for place, twist in zip(corner_places, twists, strict=True)),
        tuple(2 * place + flip for place, flip in zip(edge_places, flips, strict=True)),
    )
