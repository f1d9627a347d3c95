"""The turns of a film as tiles in rows, each step's name over its first turn."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from msgspec import Struct

from tutor.publish.film import FilmPiece

Measure = Callable[[str], float]
"""The width of a text."""


class TurnTile(Struct, frozen=True):
    """A turn in its row: how far from the left, and the number of the turn and of its piece."""

    left: float
    turn: int
    piece: int
    notation: str


class TileRow(Struct, frozen=True):
    """Tiles beside one another, the names over them with how far from the left, and the whole width."""

    tiles: tuple[TurnTile, ...]
    names: tuple[tuple[float, int, str], ...]
    width: float


class Grid(Struct, frozen=True):
    """The room for rows: its width, that of a tile, between tiles, and between steps."""

    room: float
    tile: float
    gap: float
    step_gap: float


def tile_rows(pieces: tuple[FilmPiece, ...], grid: Grid, measure: Measure) -> tuple[TileRow, ...]:
    """The rows for all turns; a step that fits into a row is not divided."""
    rows: list[TileRow] = []
    tiles: list[TurnTile] = []
    names: list[tuple[float, int, str]] = []
    right, turn = 0.0, 0
    for number, (piece, name) in enumerate(zip(pieces, names_over(pieces), strict=True)):
        left = right + grid.step_gap if right else 0.0
        if left and left + _width(piece, name, grid, measure) > grid.room:
            rows.append(TileRow(tuple(tiles), tuple(names), right))
            tiles, names, left = [], [], 0.0
        if name:
            names.append((left, number, name))
        least = left + measure(name)
        for move in piece.turns:
            if tiles and left + grid.tile > grid.room:
                rows.append(TileRow(tuple(tiles), tuple(names), left - grid.gap))
                tiles, names, left, least = [], [], 0.0, 0.0
            tiles.append(TurnTile(left, turn, number, move.notation))
            left, turn = left + grid.tile + grid.gap, turn + 1
        right = max(left - grid.gap, least)
    return (*rows, TileRow(tuple(tiles), tuple(names), right)) if tiles else tuple(rows)


def _width(piece: FilmPiece, name: str, grid: Grid, measure: Measure) -> float:
    return max(len(piece.turns) * (grid.tile + grid.gap) - grid.gap, measure(name))


def names_over(pieces: tuple[FilmPiece, ...]) -> Iterator[str]:
    """The names written over the pieces' turns, once where a step goes on from piece to piece."""
    last = ""
    for piece in pieces:
        yield "" if piece.name == last else piece.name
        last = piece.name


def rows_in_view(rows: tuple[TileRow, ...], turn: int, most: int) -> tuple[TileRow, ...]:
    """As many rows as there is room for, among them that of a turn."""
    here = next((number for number, row in enumerate(rows) if row.tiles[-1].turn >= turn), len(rows) - 1)
    first = max(0, min(here - most // 2, len(rows) - most))
    return rows[first : first + most]
