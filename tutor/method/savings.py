"""What saves turns in a position with several open pairs, each with the exact number of turns saved."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from msgspec import Struct

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SOLVED, Position, Slot, every_other_slot
from tutor.method.lines import shortest_lines, to_go
from tutor.method.pairs import TOP_CORNER, TOP_EDGE, both_on_top, match, pair_locations
from tutor.method.plan import PairCost
from tutor.method.routes import route_lengths
from tutor.solver.search import Solver
from tutor.solver.task import Task


class SavingKind(Enum):
    """Why a way is shorter than the steps one after the other, or than with every other slot solved."""

    MADE_IN_RAISING = "the pieces are joined while one of them is being raised"
    ONE_TURN_JOINS = "one turn joins the pair, and a shortest way begins with it"
    FREE_SLOT = "an unsolved slot gives room to work in"
    TWO_PAIRS = "one turn brings two pairs nearer their slots"


class SavedTurns(Struct, frozen=True):
    """A shortcut for the pair of ``slot``: turns that show it and how many turns it saves.

    For ``TWO_PAIRS`` ``other`` is the second pair and ``turns`` the one turn. For ``FREE_SLOT`` ``other`` is
    an open slot that the line uses.
    """

    kind: SavingKind
    slot: Slot
    saved: int
    turns: tuple[Turn, ...]
    other: Slot | None = None


def savings(solver: Solver, position: Position, costs: tuple[PairCost, ...]) -> tuple[SavedTurns, ...]:
    """Every shortcut there is with the shortest lines known, the greatest saving first."""
    found: list[SavedTurns] = []
    for cost in costs:
        found += _within(solver, position, cost)
    found += _shared(solver, position, costs)
    return tuple(sorted(found, key=lambda saving: -saving.saved))


def _within(solver: Solver, position: Position, cost: PairCost) -> Iterator[SavedTurns]:
    """The shortcuts of one pair."""
    task = Task.at(position, cost.slot)
    by_steps = route_lengths(position, task).length
    if by_steps is not None and by_steps > cost.cost:
        lines = shortest_lines(solver, position, task)
        yield from _of_lines(position, task, lines, by_steps - cost.cost)
    alone = _cost_with_others_whole(solver, position, cost.slot)
    if alone is not None and alone > cost.cost:
        used = _open_slot_used(position, task, cost.line)
        if used is not None:
            yield SavedTurns(SavingKind.FREE_SLOT, cost.slot, alone - cost.cost, cost.line, used)


def _of_lines(
    position: Position, task: Task, lines: tuple[tuple[Turn, ...], ...], saved: int
) -> Iterator[SavedTurns]:
    """Whether a line joins the pair with its first turn, or while a piece is being raised."""
    if match(task.slot, *pair_locations(position, task.slot)):
        return
    first = next((line for line in lines if joined_by(position, task.slot, line) == 1), None)
    if first is not None:
        yield SavedTurns(SavingKind.ONE_TURN_JOINS, task.slot, saved, first)
        return
    if not both_on_top(position, task.slot):
        raising = next((line for line in lines if made_in_raising(position, task.slot, line)), None)
        if raising is not None:
            yield SavedTurns(SavingKind.MADE_IN_RAISING, task.slot, saved, raising)


def joined_by(position: Position, slot: Slot, line: tuple[Turn, ...]) -> int | None:
    """After how many turns of a line the pair matches for the first time; None when never before home."""
    for made, turn in enumerate(line[:-1], start=1):
        position = position.turned(turn)
        if match(slot, *pair_locations(position, slot)):
            return made
    return None


def made_in_raising(position: Position, slot: Slot, line: tuple[Turn, ...]) -> bool:
    """Whether the very turn that brings a piece up from below makes the pair match."""
    for turn in line[:-1]:
        low = _low(position, slot)
        position = position.turned(turn)
        if match(slot, *pair_locations(position, slot)):
            return _low(position, slot) < low
    return False


def _low(position: Position, slot: Slot) -> int:
    """How many of the pair's pieces are below the top layer."""
    corner, edge = pair_locations(position, slot)
    return int(not TOP_CORNER[corner]) + int(not TOP_EDGE[edge])


def _cost_with_others_whole(solver: Solver, position: Position, slot: Slot) -> int | None:
    """What the pair would cost with every other pair home; None when a piece of it is in another slot."""
    corner, edge = pair_locations(position, slot)
    if not (TOP_CORNER[corner] or corner // 3 == slot.corner):
        return None
    if not (TOP_EDGE[edge] or edge // 2 == slot.edge):
        return None
    corners, edges = list(SOLVED.corners), list(SOLVED.edges)
    corners[slot.corner], edges[slot.edge] = corner, edge
    # Distances look at cross and pairs only, so what else is on top does not matter here.
    return to_go(solver, Position(tuple(corners), tuple(edges)), Task(slot, every_other_slot(slot)))


def _open_slot_used(position: Position, task: Task, line: tuple[Turn, ...]) -> Slot | None:
    """An open slot whose content the line changes."""
    after = position.after(line)
    for slot in sorted(task.free):
        if _content(position, slot) != _content(after, slot):
            return slot
    return None


def _content(position: Position, slot: Slot) -> tuple[int | None, int | None]:
    """Which corner and edge, with their twist, are in the slot."""
    corner = next((n for n, at in enumerate(position.corners) if at // 3 == slot.corner), None)
    edge = next((n for n, at in enumerate(position.edges) if at // 2 == slot.edge), None)
    return (
        None if corner is None else 3 * corner + position.corners[corner] % 3,
        None if edge is None else 2 * edge + position.edges[edge] % 2,
    )


def _shared(solver: Solver, position: Position, costs: tuple[PairCost, ...]) -> Iterator[SavedTurns]:
    """Turns that bring two pairs nearer home at once, at most one for two pairs."""
    nearer: dict[Slot, frozenset[Turn]] = {}
    for cost in costs:
        nearer[cost.slot] = solver.hand_distances(position, Task.at(position, cost.slot)).optimal
    slots = sorted(nearer)
    for number, slot in enumerate(slots):
        for other in slots[number + 1 :]:
            both = [turn for turn in TURNS if turn in nearer[slot] & nearer[other]]
            if both:
                yield SavedTurns(SavingKind.TWO_PAIRS, slot, 1, (both[0],), other)
