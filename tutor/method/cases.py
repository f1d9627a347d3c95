"""The 41 cases: where a pair can be, with the cross and the other slots kept, turns of the top not counted.

A case is described with the cube held so that its slot is at the front right; "front colour" and "right
colour" are the colours of the two centres beside the slot. In another slot the same case is seen once the
whole cube is turned until that slot is at the front right. A mirror image is another case, unless the case
is its own mirror image.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import cache

from msgspec import Struct

from tutor.cube.faces import Face, Turn, inverse
from tutor.cube.geometry import CORNER_FACES, CORNER_MOVE, EDGE_FACES, EDGE_MOVE
from tutor.cube.position import SLOTS, SOLVED, Position, Slot, every_other_slot
from tutor.cube.symmetry import quarter_about
from tutor.method import words
from tutor.method.pairs import TOP_CORNER, TOP_EDGE, pair_locations
from tutor.method.routes import Route, routes
from tutor.method.slot_view import slot_mirror
from tutor.method.terms import ALIGNMENTS as ALIGNMENTS
from tutor.method.terms import Family as Family
from tutor.quoting import ToldError, quotable
from tutor.solver.task import Task

_SLOT = Slot.FR
_HOME = (3 * _SLOT.corner, 2 * _SLOT.edge)
_ABOVE_SLOT = 0
"""The corner place above the slot."""

_AROUND = ("front", "left", "back", "right")
"""The sides in the order in which the slots FR, FL, BL and BR come to the front right."""
_SIDE = re.compile(rf"\b({'|'.join(_AROUND)})\b(?! way)")
"""A side in a case's name; “the right way round” names none."""

Placement = tuple[int, int]
"""The locations of FR's corner and edge."""


class UnknownCaseError(ToldError):
    """There is no case of this name; ``text`` as given, ``near`` the slugs most like it."""

    def __init__(self, text: str, near: tuple[str, ...]) -> None:
        self.text, self.near = text, near
        super().__init__(words.unknown_case(quotable(text, 60), near, len(CASES), CASES[0].slug))


class Case(Struct, frozen=True):
    """One of the 41 cases; ``corner`` and ``edge`` are the locations of FR's pair at alignment 0.

    At alignment 0 a corner on top is above its slot; if only the edge is on top, its side colour is above
    the centre of that colour.
    """

    name: str
    slug: str
    family: Family
    corner: int
    edge: int

    @property
    def number(self) -> int:
        """The case's number in the book, 1 to 41: its place in CASES."""
        return _numbers()[self.corner, self.edge]

    def short_name(self, slot: Slot = _SLOT, cross: str = "white", alignment: int = 0) -> str:
        """The name for screens, as the case looks in ``slot``; ``cross`` names the cross colour."""
        seen = quarter_about(Face.U, slot).faces
        corner, edge = self.placement(alignment)
        return words.short_case_name(
            cross,
            seen[_points(corner)],
            corner_on_top=bool(TOP_CORNER[self.corner]),
            edge_side=seen[_edge_side(edge)] if TOP_EDGE[self.edge] else None,
            edge_straight=self.edge % 2 == 0,
            tops_alike=self._tops_alike(),
            up=seen[_colour_up(self.edge)],
        )

    def name_lines(self, slot: Slot) -> tuple[str, str]:
        """Where the corner is and where the edge is, as it looks with the case in a slot.

        The case's own name tells of the slot at the front right; in another slot its sides go round with it.
        """
        seen = {side: _AROUND[(place + slot) % 4] for place, side in enumerate(_AROUND)}
        name = _SIDE.sub(lambda found: seen[found[0]], self.name)
        corner, edge = name.split("; ")
        return corner, f"{edge[:1].upper()}{edge[1:]}"

    def _tops_alike(self) -> bool | None:
        """Whether corner and edge show the same colour on top; None unless the corner's other colours do."""
        cross_sticker = self.corner % 3
        if not (TOP_CORNER[self.corner] and TOP_EDGE[self.edge]) or cross_sticker == 0:
            return None
        # A corner's stickers go clockwise from its cross colour, on top and on its place alike.
        on_top = CORNER_FACES[_SLOT.corner][-cross_sticker % 3]
        return on_top == _colour_up(self.edge)

    @property
    def mirror(self) -> Case:
        """The case that this one is in the mirror, once its slot is at the front right again."""
        return _by_placement()[_mirrored((self.corner, self.edge))][0]

    def placement(self, alignment: int = 0) -> Placement:
        """The locations of FR's corner and edge with the top turned by ``alignment`` quarters from 0."""
        return _turned_top((self.corner, self.edge), alignment)

    def setup(self, slot: Slot = _SLOT, alignment: int = 0) -> tuple[Turn, ...]:
        """Turns that make the case in ``slot`` from the solved cube: the reverse of the route shown there."""
        return inverse(self.route(slot, alignment).turns)

    def route(self, slot: Slot = _SLOT, alignment: int = 0) -> Route:
        """The route that is shown for the case in ``slot``, all other slots kept."""
        return _route(self.placement(alignment), slot)

    def position(
        self, slot: Slot = _SLOT, alignment: int = 0, keep: frozenset[Slot] | None = None
    ) -> Position:
        """The case in ``slot``, by turning the whole cube (not by mirroring), made by ``setup`` from solved.

        ``keep`` are the slots to be left solved, by default all others; from each slot that is neither kept
        nor ``slot`` the pair is exchanged for pieces of the top layer, so that the slot is plainly free.
        """
        position = SOLVED.after(self.setup(slot, alignment))
        free = [] if keep is None else [other for other in SLOTS if other not in keep and other != slot]
        return _emptied(position, free)


class CaseSighting(Struct, frozen=True):
    """A case as it is met: its slot, and how many clockwise quarters the top is away from alignment 0."""

    case: Case
    slot: Slot
    alignment: int


def _turned_top(placement: Placement, quarters: int) -> Placement:
    corner, edge = placement
    for _ in range(quarters % 4):
        corner, edge = int(CORNER_MOVE[Turn.U, corner]), int(EDGE_MOVE[Turn.U, edge])
    return corner, edge


def _mirrored(placement: Placement) -> Placement:
    """The placement as the mirror shows it."""
    corner, edge = placement
    mirror = slot_mirror()
    # The edge's first sticker becomes its second in the mirror, so its location is that of the other sticker.
    return mirror.corner_locations[corner], mirror.edge_locations[edge] ^ 1


@cache
def _route(placement: Placement, slot: Slot) -> Route:
    corners, edges = list(SOLVED.corners), list(SOLVED.edges)
    corners[_SLOT.corner], edges[_SLOT.edge] = placement
    # Routes look at cross and pairs only, so what else is where does not matter here.
    position = Position(tuple(corners), tuple(edges)).carried(quarter_about(Face.U, slot))
    return routes(position, Task(slot, every_other_slot(slot)), limit=1).routes[0]


def _emptied(position: Position, free: list[Slot]) -> Position:
    """The position with the pairs of the free slots exchanged for top-layer pieces that are still on top.

    Each exchange swaps two corners and two edges, so the cube stays legal.
    """
    corners, edges = list(position.corners), list(position.edges)
    for other in free:
        corner = next(piece for piece in range(4) if TOP_CORNER[corners[piece]])
        edge = next(piece for piece in range(4) if TOP_EDGE[edges[piece]])
        corners[other.corner], corners[corner] = corners[corner], corners[other.corner]
        edges[other.edge], edges[edge] = edges[edge], edges[other.edge]
    return Position(tuple(corners), tuple(edges))


# ------------------------------------------------------------------------------------ the list and its names

_DIRECTION = {
    Face.U: "up",
    Face.D: "down",
    Face.F: "front",
    Face.R: "right",
    Face.B: "back",
    Face.L: "left",
}


def _colour_up(edge: int) -> Face:
    """Which colour of FR's edge is up, for an edge on top."""
    return EDGE_FACES[_SLOT.edge][edge % 2]


def _edge_side(edge: int) -> Face:
    """The side at which an edge on top is."""
    return EDGE_FACES[edge // 2][1]


def _is_canonical(placement: Placement) -> bool:
    """Whether the top is turned as at alignment 0 (see ``Case``)."""
    corner, edge = placement
    if TOP_CORNER[corner]:
        return corner // 3 == _ABOVE_SLOT
    if TOP_EDGE[edge]:
        beside = set(EDGE_FACES[_SLOT.edge]) - {_colour_up(edge)}
        return _edge_side(edge) in beside
    return True


def _family(placement: Placement) -> Family:
    corner_up, edge_up = bool(TOP_CORNER[placement[0]]), bool(TOP_EDGE[placement[1]])
    if corner_up:
        return Family.BOTH_ON_TOP if edge_up else Family.CORNER_ON_TOP
    return Family.EDGE_ON_TOP if edge_up else Family.BOTH_IN_SLOT


def _points(corner: int) -> Face:
    """Where the corner's cross colour points."""
    place, sticker = divmod(corner, 3)
    return CORNER_FACES[place][sticker]


def _name(corner: int, edge: int) -> str:
    return words.case_name(
        _points(corner),
        corner_on_top=bool(TOP_CORNER[corner]),
        edge_side=_edge_side(edge) if TOP_EDGE[edge] else None,
        edge_straight=edge % 2 == 0,
        up=_colour_up(edge),
    )


def _slug(corner: int, edge: int) -> str:
    """The name that commands, lessons and the progress file use: it never changes."""
    place = "" if TOP_CORNER[corner] else "in-"
    if TOP_EDGE[edge]:
        way = f"{_DIRECTION[_edge_side(edge)]}-{_DIRECTION[_colour_up(edge)]}-up"
    else:
        way = "in-straight" if edge % 2 == 0 else "in-turned"
    return f"corner-{place}{_DIRECTION[_points(corner)]}-edge-{way}"


def _all_cases() -> tuple[Case, ...]:
    """The placements in the top layer or the slot, one for each up to turns of the top; home left out."""
    corners = [location for location in range(24) if location // 3 in (*range(4), _SLOT.corner)]
    edges = [location for location in range(24) if location // 2 in (*range(4), _SLOT.edge)]
    cases = []
    for placement in ((corner, edge) for corner in corners for edge in edges):
        if placement == _HOME or not _is_canonical(placement):
            continue
        cases.append(Case(_name(*placement), _slug(*placement), _family(placement), *placement))
    return tuple(sorted(cases, key=lambda case: list(Family).index(case.family)))


CASES: tuple[Case, ...] = _all_cases()
"""The 41 cases, by family."""

_BY_SLUG = {case.slug: case for case in CASES}
_BY_NAME = {case.name.casefold(): case for case in CASES}
_BY_FORMER_NAME = {words.former_case_name(case.name).casefold(): case for case in CASES}


@cache
def _numbers() -> dict[Placement, int]:
    """The number of each case by its placement."""
    return {(case.corner, case.edge): number for number, case in enumerate(CASES, start=1)}


@cache
def _by_placement() -> dict[Placement, tuple[Case, int]]:
    """Case and alignment of each of the 149 placements of FR's pair that are not home."""
    found: dict[Placement, tuple[Case, int]] = {}
    for case in CASES:
        for alignment in ALIGNMENTS:
            found.setdefault(case.placement(alignment), (case, alignment))
    return found


def parse_case(text: str) -> Case:
    """The case of this number, slug or name, or of an earlier name; capitals and outer spaces do not matter.

    Raises UnknownCaseError, which names the nearest slugs.
    """
    given = text.strip().casefold()
    if given.isdecimal() and 1 <= int(given) <= len(CASES):
        return CASES[int(given) - 1]
    if given in _BY_SLUG:
        return _BY_SLUG[given]
    if found := _BY_NAME.get(given) or _BY_FORMER_NAME.get(given):
        return found
    near = get_close_matches(given, _BY_SLUG, n=3) or [
        _BY_NAME[name].slug for name in get_close_matches(given, _BY_NAME, n=3)
    ]
    raise UnknownCaseError(text, tuple(near))


def case_of(position: Position, task: Task) -> CaseSighting | None:
    """The case the target pair is in.

    None when the position is not settled, when a piece is in another slot, or when the pair is home.
    """
    if not task.settled(position):
        return None
    to_front_right = quarter_about(Face.U, -task.slot)
    found = _by_placement().get(pair_locations(position.carried(to_front_right), _SLOT))
    return None if found is None else CaseSighting(found[0], task.slot, found[1])
