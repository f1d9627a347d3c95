"""What stands where on the rail: the turns of a route and of the learner in columns under the steps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from render.text.typesetting import ELLIPSIS
from tutor.ui.view import Action, BayState, Rail, Tile


class RailCell(Struct, frozen=True):
    """What stands in one column: a turn of the route, one of the learner's, or both where they are alike."""

    route: Tile | None = None
    own: Tile | None = None

    @property
    def tiles(self) -> tuple[Tile, ...]:
        """The turns that stand in it, that of the route first."""
        return tuple(tile for tile in (self.route, self.own) if tile is not None)


RailCells = tuple[tuple[RailCell, ...], ...]


def compares(rail: Rail) -> bool:
    """Whether the learner's turns stand under those of the route."""
    return bool(rail.own) and any(bay.tiles for bay in rail.bays)


def grouped(rail: Rail) -> RailCells:
    """The cells of each bay; without bays all stand in one."""
    if not rail.bays:
        return (tuple(RailCell(own=tile) for tile in rail.own),)
    if compares(rail):
        return _aligned(rail)
    if not rail.own:
        return tuple(tuple(RailCell(tile) for tile in bay.tiles) for bay in rail.bays)
    cells: list[list[RailCell]] = [[] for _ in rail.bays]
    at, unknown = 0, _bay_of_unknown(rail)
    for tile in rail.own:
        # In the order in which they were made, even where a step had to be done once more.
        at = max(at, unknown if tile.bay is None else tile.bay)
        cells[at].append(RailCell(own=tile))
    return tuple(map(tuple, cells))


def _bay_of_unknown(rail: Rail) -> int:
    """Where a turn stands of which no step is known: at the step under way, else at the first to be done."""
    states = [bay.state for bay in rail.bays]
    wanted = BayState.CURRENT if BayState.CURRENT in states else BayState.AHEAD
    return states.index(wanted) if wanted in states else len(states) - 1


def _aligned(rail: Rail) -> RailCells:
    """Route and own turns with equal ones in one column; an own turn more stands where it was made."""
    route = [(number, tile) for number, bay in enumerate(rail.bays) for tile in bay.tiles]
    cells: list[list[RailCell]] = [[] for _ in rail.bays]
    at = next((number for number, _ in route), 0)
    for index, own in _paired([tile.label for _, tile in route], [tile.label for tile in rail.own]):
        tile = None
        if index is not None:
            at, tile = route[index]
        cells[at].append(RailCell(tile, None if own is None else rail.own[own]))
    return tuple(map(tuple, cells))


def _paired(one: Sequence[str], two: Sequence[str]) -> Iterator[tuple[int | None, int | None]]:
    """The places of a longest common subsequence of two side by side; what differs stands together."""
    longest = [[0] * (len(two) + 1) for _ in range(len(one) + 1)]
    for i in reversed(range(len(one))):
        for j in reversed(range(len(two))):
            skipped = max(longest[i + 1][j], longest[i][j + 1])
            longest[i][j] = 1 + longest[i + 1][j + 1] if one[i] == two[j] else skipped
    i = j = 0
    while i < len(one) or j < len(two):
        left = longest[i][j]
        if i < len(one) and j < len(two) and (one[i] == two[j] or longest[i + 1][j + 1] == left):
            yield i, j
            i, j = i + 1, j + 1
        elif i < len(one) and longest[i + 1][j] == left:
            yield i, None
            i += 1
        else:
            yield None, j
            j += 1


def window(cells: Sequence[RailCell], capacity: int, focus: Action | None) -> tuple[int, int]:
    """Which cells are shown: those round the one with the focus or else the current one.

    Without either they are the last ones. The focus must be seen wherever it goes (WCAG 2.2, 2.4.7).
    """
    count = len(cells)
    if count <= capacity:
        return 0, count
    tiles = [cell.tiles for cell in cells]
    focused = (i for i, each in enumerate(tiles) if focus and any(tile.action == focus for tile in each))
    current = next((i for i, each in enumerate(tiles) if any(tile.current for tile in each)), count - 1)
    current = next(focused, current)
    start = min(max(0, current - capacity * 2 // 3), count - capacity)
    return start, start + capacity


DOTS = Tile(ELLIPSIS)
"""Stands for turns that there is no room for."""


def cut_out(cells: RailCells, start: int, end: int) -> RailCells:
    """The cells from one to another, with dots for those before and after."""
    left: list[tuple[RailCell, ...]] = []
    number, count = 0, sum(map(len, cells))
    for bay in cells:
        kept: list[RailCell] = []
        for cell in bay:
            if start <= number < end:
                kept.append(cell)
            elif number in (start - 1, end):
                kept.append(RailCell(DOTS) if cell.own is None else RailCell(own=DOTS))
            number += 1
        left.append(tuple(kept))
    assert number == count
    return tuple(left)
