"""Which one change would make a painted cube right: a sticker repainted, a piece turned, two exchanged."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations

import numpy as np
from msgspec import Struct

from tutor.cube.legality import BLANK, PIECES, FaultKind, Mask, faults_of, position_of, shown_faces
from tutor.cube.stickers import COLOUR_NAMES, Fault, Rule

MOSTLY_HOME = 10
"""Of the 20 pieces, so many must be home for one that is not to tell anything. A cube mixed at random has
8/24 corners and 12/24 edges home on average."""


class Repaint(Struct, frozen=True):
    """Give one sticker another colour."""

    sticker: int
    colour: int


class Reseat(Struct, frozen=True):
    """Turn one piece in its place, by so many steps clockwise: a corner by one or two, an edge by one."""

    kind: FaultKind
    place: int
    steps: int = 1


class Swap(Struct, frozen=True):
    """Exchange the pieces of two places."""

    kind: FaultKind
    first: int
    second: int


Correction = Repaint | Reseat | Swap


class Finding(Struct, frozen=True):
    """What is to be said about 54 stickers.

    ``blanks`` counts those not painted. ``corrections`` are all single changes of one kind (``Repaint``,
    ``Reseat`` or ``Exchange``) that make a fully painted cube right; empty when none does. ``likeliest`` is
    the one of them that the other pieces speak for, when there is such a one among several.
    """

    faults: tuple[Fault, ...] = ()
    blanks: int = 0
    corrections: tuple[Correction, ...] = ()
    likeliest: Correction | None = None

    @property
    def legal(self) -> bool:
        """Whether turns can reach this cube."""
        return not self.faults and not self.blanks

    @property
    def only(self) -> Correction | None:
        """The correction, when one alone will do."""
        return self.corrections[0] if len(self.corrections) == 1 else None


@lru_cache(maxsize=64)
def examine(colours: tuple[int, ...], names: tuple[str, ...] = COLOUR_NAMES) -> Finding:
    """What is wrong with 54 colours, and what would mend it; takes and raises what ``faults_of`` does."""
    faults = faults_of(colours, names)
    blanks = colours.count(BLANK)
    if blanks or not faults:
        return Finding(faults, blanks)
    corrections = _corrections(colours, faults)
    return Finding(faults, 0, corrections, _likeliest(colours, corrections))


def corrected(colours: tuple[int, ...], correction: Correction) -> tuple[int, ...]:
    """The 54 colours after a correction."""
    changed = list(colours)
    match correction:
        case Repaint(sticker, colour):
            changed[sticker] = colour
        case Reseat(kind, place, steps):
            stickers = PIECES[kind].stickers_at([place])
            for k, sticker in enumerate(stickers):
                changed[stickers[(k + steps) % len(stickers)]] = colours[sticker]
        case Swap(kind, first, second):
            pieces = PIECES[kind]
            for here, there in zip(pieces.stickers_at([first]), pieces.stickers_at([second]), strict=True):
                changed[here], changed[there] = colours[there], colours[here]
    return tuple(changed)


def stickers_of(correction: Correction) -> tuple[int, ...]:
    """The sticker places that a correction concerns."""
    match correction:
        case Repaint(sticker):
            return (sticker,)
        case Reseat(kind, place):
            return PIECES[kind].stickers_at([place])
        case Swap(kind, first, second):
            return PIECES[kind].stickers_at([first, second])


def _corrections(colours: tuple[int, ...], faults: tuple[Fault, ...]) -> tuple[Correction, ...]:
    """All single changes of the one kind that can help: each law that is broken asks for another kind."""
    counts = [colours.count(colour) for colour in range(6)]
    if sorted(counts) == [8, 9, 9, 9, 9, 10]:
        return _repaints(colours, counts.index(10), counts.index(8))
    match [fault.rule for fault in faults]:
        case [Rule.TWIST]:
            steps = -sum(location % 3 for location in position_of(colours).corners) % 3
            return tuple(Reseat(FaultKind.CORNER, place, steps) for place in range(8))
        case [Rule.FLIP]:
            return tuple(Reseat(FaultKind.EDGE, place) for place in range(12))
        case [Rule.SWAP]:
            return tuple(
                Swap(kind, *places)
                for kind, pieces in PIECES.items()
                for places in combinations(range(len(pieces.faces)), 2)
            )
        case _:
            return ()


def _repaints(colours: tuple[int, ...], many: int, few: int) -> tuple[Correction, ...]:
    """Of the stickers whose colour is there too often, those that have the missing colour on a legal cube."""
    tried = [Repaint(sticker, few) for sticker in range(54) if colours[sticker] == many]
    return tuple(each for each in tried if not faults_of(corrected(colours, each)))


def _likeliest(colours: tuple[int, ...], corrections: tuple[Correction, ...]) -> Correction | None:
    """The one of several that alone brings its own pieces home, where most of the others are home too."""
    if len(corrections) < 2 or isinstance(corrections[0], Repaint):
        return None
    standing_out = []
    for each in corrections:
        after = corrected(colours, each)
        home = _home(after)
        if home.sum() >= MOSTLY_HOME and home[_pieces_of(each)].all():
            standing_out.append(each)
    return standing_out[0] if len(standing_out) == 1 else None


def _home(colours: tuple[int, ...]) -> Mask:
    """For every place whether its own piece is home in it: corners, then edges; shape (20,)."""
    shown = shown_faces(colours)
    return np.concatenate(
        [(shown[pieces.stickers] == pieces.turned[:, 0]).all(axis=1) for pieces in PIECES.values()]
    )


def _pieces_of(correction: Correction) -> list[int]:
    """The places a correction concerns, corners from 0 and edges from 8."""
    match correction:
        case Reseat(kind, place):
            places = [place]
        case Swap(kind, first, second):
            places = [first, second]
        case Repaint():
            return []
    return [place + (0 if kind is FaultKind.CORNER else 8) for place in places]
