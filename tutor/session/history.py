"""What was done to a cube: a start, the moves since, and a cursor among them."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.held_cube import HeldCube
from tutor.cube.merging import together
from tutor.cube.notation import Move, format_moves


class HistoryEntry(Struct, frozen=True):
    """One move and the cube after it."""

    move: Move
    cube: HeldCube


class History(Struct, frozen=True):
    """Undo and redo move the cursor; a new move drops what could have been redone.

    ``earlier`` is the history that a reset or a new scramble put aside; undo at the start goes back to it.
    ``later`` is the one that was left so; redo at the end goes on to it.
    """

    start: HeldCube
    entries: tuple[HistoryEntry, ...] = ()
    cursor: int = 0
    earlier: History | None = None
    later: History | None = None

    @property
    def cube(self) -> HeldCube:
        """The cube now."""
        return self.cube_at(self.cursor)

    def cube_at(self, index: int) -> HeldCube:
        """The cube after the first ``index`` moves."""
        return self.entries[index - 1].cube if index else self.start

    @property
    def made(self) -> tuple[HistoryEntry, ...]:
        """The moves up to the cursor."""
        return self.entries[: self.cursor]

    @property
    def last(self) -> Move | None:
        """The move made last; None at the start."""
        return self.entries[self.cursor - 1].move if self.cursor else None

    def pushed(self, move: Move) -> History:
        """With one more move at the cursor."""
        entry = HistoryEntry(move, self.cube.moved(move))
        return replace(self, entries=(*self.made, entry), cursor=self.cursor + 1, later=None)

    def gone_on(self, move: Move) -> History:
        """With the last move made the one that it and ``move`` come to; without it when they cancel."""
        before = replace(self, entries=self.entries[: self.cursor - 1], cursor=self.cursor - 1, later=None)
        both = together(self.entries[self.cursor - 1].move, move)
        return before if both is None else before.pushed(both)

    def extended(self, moves: Iterable[Move]) -> History:
        """With several more moves; this very history if there are none."""
        entries, cube = list(self.made), self.cube
        for move in moves:
            cube = cube.moved(move)
            entries.append(HistoryEntry(move, cube))
        if len(entries) == self.cursor:
            return self
        return replace(self, entries=tuple(entries), cursor=len(entries), later=None)

    def moved_to(self, index: int) -> History:
        """With the cursor at ``index``, kept within the moves there are; this very history if it is there."""
        cursor = max(0, min(index, len(self.entries)))
        return self if cursor == self.cursor else replace(self, cursor=cursor)

    def undone(self) -> History:
        """One step back: before the last move, or to the earlier history when there is none."""
        if self.cursor == 0 and self.earlier is not None:
            return replace(self.earlier, later=replace(self, earlier=None))
        return self.moved_to(self.cursor - 1)

    def redone(self) -> History:
        """One step on: after the next move, or to the later history when there is none."""
        if self.cursor == len(self.entries) and self.later is not None:
            return replace(self.later, earlier=replace(self, later=None))
        return self.moved_to(self.cursor + 1)

    @property
    def can_undo(self) -> bool:
        """Whether there is a step back."""
        return self.cursor > 0 or self.earlier is not None

    @property
    def can_redo(self) -> bool:
        """Whether there is a step on."""
        return self.cursor < len(self.entries) or self.later is not None

    def restarted(self, cube: HeldCube) -> History:
        """A new history from ``cube`` that remembers this one, without what could have been redone."""
        return History(cube, earlier=replace(self, entries=self.made, later=None))

    @property
    def notation(self) -> str:
        """The moves up to the cursor as written."""
        return format_moves(entry.move for entry in self.made)
