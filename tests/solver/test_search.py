"""Distances, direct turns and lines, held against a plain search that shares nothing with the solver."""

from __future__ import annotations

import random
from functools import cache
from itertools import chain, combinations
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.solver.plain_search import PlainSearch, unsolved_placements
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.merging import merged
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.symmetry import SYMMETRIES, Symmetry
from tutor.solver.search import Solver, TurnDistances
from tutor.solver.store import Array, Store
from tutor.solver.tables import LARGE_TABLES, SCREEN_TABLE, TABLES
from tutor.solver.task import Task, slot_sides

SLOT_SETS = tuple(chain.from_iterable(combinations(SLOTS, size) for size in (1, 2, 3, 4)))
UPRIGHT = tuple(symmetry for symmetry in SYMMETRIES if symmetry.faces[Face.D] is Face.D)

turns = st.lists(st.sampled_from(TURNS), max_size=9)
tasks = st.builds(
    lambda slot, keep: Task(slot, frozenset(keep) - {slot}),
    st.sampled_from(SLOTS),
    st.sets(st.sampled_from(SLOTS)),
)


@cache
def plain(slots: tuple[Slot, ...], depth: int) -> PlainSearch:
    return PlainSearch(slots, depth)


def tracked(task: Task) -> tuple[Slot, ...]:
    return tuple(sorted(task.keep | {task.slot}))


def sampled(seed: int, count: int) -> list[tuple[Position, Task]]:
    """A fixed sample of unsolved placements and what becomes of them by one wrong turn."""
    chooser = random.Random(seed)
    sample = []
    for _ in range(count):
        slots = chooser.choice(SLOT_SETS)
        slot = chooser.choice(slots)
        position = chooser.choice(unsolved_placements(slot))
        wrong = [chooser.choice(TURNS) for _ in range(chooser.choice((0, 1)))]
        sample.append((position.after(wrong), Task(slot, frozenset(slots) - {slot})))
    return sample


def test_distances_of_a_sample_agree_with_a_plain_search(solver: Solver, quick_solver: Solver) -> None:
    for position, task in sampled(3, 25):
        expected = TurnDistances(*plain(tracked(task), 5).around(position))
        assert solver.distances(position, task) == expected, (position, task)
        assert quick_solver.distances(position, task) == expected, (position, task)


def test_distances_are_the_same_with_and_without_the_large_tables(
    solver: Solver, quick_solver: Solver
) -> None:
    for position, task in sampled(4, 30):
        assert solver.distances(position, task) == quick_solver.distances(position, task)


def test_large_tables_are_read_only_for_positions_that_need_them(
    large_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read, load = [], Store.load

    def noted(store: Store, name: str) -> Array | None:
        read.append(name)
        return load(store, name)

    monkeypatch.setattr(Store, "load", noted)
    solver, task = Solver.open(large_folder), Task(Slot.FR, frozenset(SLOTS[1:]))
    near, far = (
        SOLVED.after([Turn.R, Turn.U, Turn.R_PRIME]),
        SOLVED.after([Turn.R, Turn.F, Turn.L, Turn.B] * 3),
    )
    assert (solver.distances(near, task).distance, solver.hand_distances(near, task).distance) == (3, 3)
    assert read
    assert not set(read) & set(LARGE_TABLES)
    assert solver.distance(far, task) >= 8
    assert {SCREEN_TABLE} <= set(read) < set(TABLES)


SHAPES = (SLOTS[:1], SLOTS[1:3], SLOTS[1::2], SLOTS[1:], SLOTS)
"""One set of slots of each shape: turning the whole cube makes the other ten of them, all of which were gone
through when this was written."""


@pytest.mark.slow
@pytest.mark.parametrize("slots", SHAPES, ids=lambda slots: "-".join(slot.name for slot in slots))
def test_distances_of_every_unsolved_placement_agree_with_a_plain_search(
    slots: tuple[Slot, ...], solver: Solver
) -> None:
    """For each set of slots, whichever of them is the target: with the others this is all keep sets."""
    search = plain.__wrapped__(slots, 6)
    for slot in slots:
        task = Task(slot, frozenset(slots) - {slot})
        positions = unsolved_placements(slot)
        assert len(positions) == 149
        keys = np.array([search.key(position) for position in positions], dtype=np.int64)
        expected = search.distances(np.concatenate([keys, *(search.turned(keys, turn) for turn in TURNS)]))
        for position, column in zip(positions, expected.reshape(19, 149).T.tolist(), strict=True):
            found = solver.distances(position, task)
            assert [found.distance, *found.after] == column, (position, task)


def carried_slot(slot: Slot, symmetry: Symmetry) -> Slot:
    sides = frozenset(symmetry.faces[face] for face in slot_sides(slot))
    return next(other for other in SLOTS if slot_sides(other) == sides)


@settings(max_examples=60)
@given(turns, tasks, st.sampled_from(UPRIGHT))
def test_symmetric_positions_have_symmetric_answers(
    solver: Solver, made: list[Turn], task: Task, symmetry: Symmetry
) -> None:
    position = SOLVED.after(made)
    slot, keep = carried_slot(task.slot, symmetry), (carried_slot(kept, symmetry) for kept in task.keep)
    here = solver.distances(position, task)
    there = solver.distances(position.carried(symmetry), Task(slot, frozenset(keep)))
    assert there.distance == here.distance
    assert [there.after[symmetry.turn(turn)] for turn in TURNS] == list(here.after)


@settings(max_examples=60)
@given(turns, tasks, st.sampled_from(TURNS))
def test_a_turn_changes_the_distance_by_at_most_one(
    solver: Solver, made: list[Turn], task: Task, turn: Turn
) -> None:
    position = SOLVED.after(made)
    found = solver.distances(position, task)
    assert all(abs(after - found.distance) <= 1 for after in found.after)
    assert solver.distance(position.turned(turn), task) == found.after[turn]


@settings(max_examples=60)
@given(turns, tasks, st.randoms(use_true_random=False))
def test_following_any_optimal_turn_reaches_home_in_the_stated_number(
    solver: Solver, made: list[Turn], task: Task, chooser: random.Random
) -> None:
    position = SOLVED.after(made)
    for left in range(solver.distance(position, task), 0, -1):
        assert not task.done(position)
        found = solver.distances(position, task)
        assert found.distance == left
        position = position.turned(chooser.choice(sorted(found.optimal)))
    assert task.done(position)


@settings(max_examples=60)
@given(turns, tasks)
def test_lines_are_in_order_reduced_and_of_the_stated_length(
    solver: Solver, quick_solver: Solver, made: list[Turn], task: Task
) -> None:
    position = SOLVED.after(made)
    found = solver.distances(position, task)
    lines = solver.lines(position, task, 500)
    assert lines
    assert list(lines) == sorted(set(lines))
    for line in lines:
        assert len(line) == found.distance
        assert merged(line) == line
        assert task.done(position.after(line))
    if found.distance and len(lines) < 500:
        assert {line[0] for line in lines} == found.optimal
    assert solver.lines(position, task, 3) == lines[:3]
    assert quick_solver.lines(position, task, 5) == lines[:5]


def test_all_lines_of_a_sample_agree_with_trying_every_sequence(solver: Solver) -> None:
    task = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
    position = SOLVED.after([Turn.R, Turn.U, Turn.R_PRIME])
    sequences = ((a, b, c) for a in TURNS for b in TURNS for c in TURNS if a.face != b.face != c.face)
    every = tuple(sequence for sequence in sequences if task.done(position.after(sequence)))
    assert solver.lines(position, task, 500) == every == ((Turn.R, Turn.U_PRIME, Turn.R_PRIME),)
    assert solver.distances(position, task).optimal == {Turn.R}


def test_a_task_that_is_done_has_distance_zero_and_the_empty_line(solver: Solver) -> None:
    task = Task(Slot.BL, frozenset({Slot.FR}))
    found = solver.distances(SOLVED.turned(Turn.U), task)
    assert found.distance == 0
    assert found.optimal == frozenset()
    # Turns of the top leave all that matters where it is; any other must be taken back.
    assert found.after == tuple(0 if turn.face is Face.U else 1 for turn in TURNS)
    assert solver.lines(SOLVED, task) == ((),)


def test_the_lengths_of_the_basic_cases_are_those_of_an_independent_search(solver: Solver) -> None:
    """None of the 41 takes 1, 2 or 4 turns at its best alignment, and the longest takes 9 (check values,
    independent search, two programs agree); their number is common practice, and counting gives it.
    """
    for slot in SLOTS:
        task = Task(slot, frozenset(SLOTS) - {slot})
        shortest: dict[frozenset[tuple[int, int]], int] = {}
        for position in unsolved_placements(slot):
            turned = [position.after([Turn.U] * quarters) for quarters in range(4)]
            orbit = frozenset((other.corners[slot.corner], other.edges[slot.edge]) for other in turned)
            shortest[orbit] = min(shortest.get(orbit, 99), solver.distance(position, task))
        assert len(shortest) == 41
        assert not {1, 2, 4} & set(shortest.values())
        assert max(shortest.values()) == 9


def test_what_interrupts_a_search_ends_it_and_leaves_the_solver_usable(quick_solver: Solver) -> None:
    def stop() -> None:
        raise TimeoutError

    task = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
    far = SOLVED.after([Turn.R, Turn.U, Turn.F, Turn.D2, Turn.L, Turn.B, Turn.R2, Turn.U, Turn.F_PRIME])
    stopped = Solver(quick_solver.tables, stop)
    with pytest.raises(TimeoutError):
        stopped.distances(far, task)
    assert stopped.distance(SOLVED, task) == 0
    assert quick_solver.distance(far, task) == 9
