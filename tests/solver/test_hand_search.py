"""Distances by hand: turns of the working faces alone, held against a plain search over those faces."""

from __future__ import annotations

import random
from collections import Counter
from functools import cache
from itertools import pairwise
from math import factorial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy.combinatorics import Permutation, PermutationGroup

from tests.solver.plain_search import NEVER, UNKNOWN, PlainSearch, unsolved_placements
from tests.solver.test_search import SLOT_SETS, UPRIGHT, carried_slot, tasks, tracked, turns
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.geometry import turn_sticker_map
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.symmetry import Symmetry
from tutor.solver.search import Solver
from tutor.solver.task import Task

KEPT = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
SIDES = {Slot.FR: "FR", Slot.FL: "FL", Slot.BL: "BL", Slot.BR: "BR"}


def working(task: Task) -> frozenset[Face]:
    """The definition once more: the top and the two sides of every slot that is not kept."""
    return frozenset(Face[name] for slot in set(SLOTS) - task.keep for name in "U" + SIDES[slot])


@cache
def plain(slots: tuple[Slot, ...], faces: frozenset[Face], depth: int) -> PlainSearch:
    return PlainSearch(slots, depth, faces)


def plain_of(task: Task, deeper: int = 0) -> PlainSearch:
    """A plain search whose known placements number some hundred thousand, or more if deeper."""
    faces = working(task)
    return plain(tracked(task), faces, {3: 7, 4: 6, 5: 5}[len(faces)] + deeper)


def wrong(chooser: random.Random, among: frozenset[Face], count: int) -> list[Turn]:
    """Turns of those faces, no two in a row of one face."""
    made: list[Turn] = []
    while len(made) < count:
        turn = chooser.choice([turn for turn in TURNS if turn.face in among])
        if not made or made[-1].face is not turn.face:
            made.append(turn)
    return made


def sampled(seed: int, count: int) -> list[tuple[Position, Task]]:
    """A fixed sample: cases, with a slot lifted, with wrong turns of working faces, of far faces, of any."""
    chooser = random.Random(seed)
    sample = []
    for number in range(count):
        slots = SLOT_SETS[number % len(SLOT_SETS)]
        slot = chooser.choice(slots)
        task = Task(slot, frozenset(slots) - {slot})
        near = working(task)
        sides, far = near - {Face.U}, frozenset(Face) - near
        spoilt = chooser.choice(
            (
                [],
                wrong(chooser, sides, 1),
                wrong(chooser, near, 2),
                wrong(chooser, far, 1),
                wrong(chooser, frozenset(Face), 2),
            )
        )
        sample.append((chooser.choice(unsolved_placements(slot)).after(spoilt), task))
    return sample


def check_against_plain(solver: Solver, position: Position, task: Task, search: PlainSearch, on: int) -> int:
    """Hold a position and its neighbours against a plain search of ``on`` turns beyond the known placements.

    Gives back how many of the 19 were beyond even that; of those the solver must say more turns.
    """
    found = solver.hand_distances(position, task)
    limit = search.depth + on
    distance, after = search.around(position, limit)
    beyond = 0
    for mine, other in zip((found.distance, *found.after), (distance, *after), strict=True):
        if other == UNKNOWN:
            beyond += 1
            assert mine is not None, (position, task)
            assert mine > limit, (position, task)
        else:
            assert mine == (None if other == NEVER else other), (position, task)
    return beyond


def test_working_faces_are_the_top_and_the_sides_of_slots_not_kept() -> None:
    for slots in SLOT_SETS:
        for slot in slots:
            task = Task(slot, frozenset(slots) - {slot})
            assert task.working_faces == working(task)
            assert Face.D not in task.working_faces
    assert KEPT.working_faces == {Face.U, Face.R, Face.F}


@pytest.mark.parametrize(("letters", "corners", "edges"), [("URF", 7, 9), ("URFL", 8, 11), ("ULRFB", 8, 12)])
def test_working_faces_bring_all_that_they_move_anywhere(letters: str, corners: int, edges: int) -> None:
    """Outside program: SymPy. The group is as large as parity, twist and flip allow, so that with pieces to
    spare every placement of those that matter can be reached, and nothing but fixed pieces decides.
    """
    generators = [Permutation(turn_sticker_map(Turn.of(Face[name], 1)).tolist()) for name in letters]
    placements = factorial(corners) * 3 ** (corners - 1) * factorial(edges) * 2 ** (edges - 1)
    assert PermutationGroup(generators).order() == placements // 2


def test_the_cases_by_hand_have_the_lengths_of_an_independent_search(solver: Solver) -> None:
    """Check values: by hand, with all other slots kept, of the 149 placements 6 need 3 turns and 10 need 4,
    and none needs 1, 2, 5 or more than 9 (independent search).
    """
    for slot in SLOTS:
        task = Task(slot, frozenset(SLOTS) - {slot})
        counts = Counter(solver.hand_distance(position, task) for position in unsolved_placements(slot))
        assert counts.total() == 149
        assert (counts[3], counts[4]) == (6, 10)
        assert set(counts) == {3, 4, 6, 7, 8, 9}


@pytest.mark.parametrize("which", ["quick_solver", "solver"])
def test_distances_of_a_sample_agree_with_a_plain_search(which: str, request: pytest.FixtureRequest) -> None:
    solver: Solver = request.getfixturevalue(which)
    for position, task in sampled(3, 15):
        check_against_plain(solver, position, task, plain_of(task), 3)


@pytest.mark.slow
@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_every_unsolved_placement_agrees_with_a_plain_search(slot: Slot, solver: Solver) -> None:
    """All other slots kept; and once more with each of the slot's own lifts made."""
    task = Task(slot, frozenset(SLOTS) - {slot})
    search = plain_of(task)
    lifts = [[], *([turn] for turn in TURNS if turn.face in working(task) - {Face.U})]
    for position in unsolved_placements(slot):
        for lift in lifts:
            assert check_against_plain(solver, position.after(lift), task, search, 9) == 0


@pytest.mark.slow
def test_a_large_sample_of_all_kept_slots_agrees_with_a_plain_search(
    solver: Solver, quick_solver: Solver
) -> None:
    within = 0
    for position, task in sampled(11, 300):
        within += 19 - check_against_plain(solver, position, task, plain_of(task), 4)
        assert quick_solver.hand_distances(position, task) == solver.hand_distances(position, task)
    assert within > 300 * 19 * 3 // 4


@pytest.mark.slow
@pytest.mark.parametrize("keep", [(), (Slot.FL,), (Slot.BL,), (Slot.FL, Slot.BR)], ids=str)
def test_far_turns_that_five_faces_must_mend_agree_with_a_plain_search(
    keep: tuple[Slot, ...], solver: Solver
) -> None:
    """A turn of the bottom takes a dozen turns of the others to mend, or more. One placement is looked at."""
    task = Task(Slot.FR, frozenset(keep))
    search = PlainSearch(tracked(task), 7, working(task))
    beyond = sum(
        check_against_plain(solver, position, task, search, 6)
        for position in random.Random(5).sample(unsolved_placements(Slot.FR), 1)
    )
    assert beyond == 0


def test_direct_turns_of_a_sample_agree_with_a_plain_search(solver: Solver, quick_solver: Solver) -> None:
    seen = 0
    for position, task in sampled(4, 45):
        found = solver.hand_distances(position, task)
        assert found == quick_solver.hand_distances(position, task)
        if found.distance is None:
            assert not found.direct
            continue
        near = {turn for turn in TURNS if turn.face in working(task)}
        after = tuple(99 if count is None else count for count in found.after)
        within_one = frozenset(turn for turn in near if after[turn] <= found.distance)
        assert found.optimal == {turn for turn in near if after[turn] == found.distance - 1}
        assert found.optimal <= found.direct <= within_one
        if found.distance <= 8:
            seen += len(within_one) > len(found.optimal)
            assert found.direct == plain_of(task).direct(position, after, within_one)
    assert seen > 10


@settings(max_examples=60)
@given(turns, tasks)
def test_by_hand_is_never_less_than_at_all_and_neighbours_differ_by_at_most_one(
    solver: Solver, made: list[Turn], task: Task
) -> None:
    position = SOLVED.after(made)
    found, at_all = solver.hand_distances(position, task), solver.distances(position, task)
    by_hand = (found.distance, *found.after)
    for mine, least in zip(by_hand, (at_all.distance, *at_all.after), strict=True):
        assert mine is None or mine >= least
    for turn in TURNS:
        if turn.face in working(task):
            after = found.after[turn]
            assert (after is None) == (found.distance is None)
            assert after is None or abs(after - (found.distance or 0)) <= 1


@settings(max_examples=60)
@given(st.data())
def test_what_working_faces_made_they_can_mend_and_what_they_cannot_move_decides(
    solver: Solver, data: st.DataObject
) -> None:
    task = data.draw(tasks)
    near = st.sampled_from([turn for turn in TURNS if turn.face in working(task)])
    far = st.sampled_from([turn for turn in TURNS if turn.face not in working(task)])
    made, last, then = data.draw(st.lists(near, max_size=7)), data.draw(far), data.draw(near)
    position = SOLVED.after(made)
    distance = solver.hand_distance(position, task)
    assert distance is not None
    assert distance <= len(made)
    away = position.turned(last)
    if len(working(task)) < 5:
        assert solver.hand_distance(away, task) is None
        assert solver.hand_lines(away.turned(then), task) == ()
        assert solver.hand_distances(away, task).after[last.inverse] == distance


@settings(max_examples=60)
@given(st.data())
def test_lines_by_hand_use_working_faces_and_end_home(solver: Solver, data: st.DataObject) -> None:
    task = data.draw(tasks)
    near = st.sampled_from([turn for turn in TURNS if turn.face in working(task)])
    position = SOLVED.after(data.draw(st.lists(near, max_size=8)))
    found = solver.hand_distances(position, task)
    lines = solver.hand_lines(position, task, 500)
    assert lines
    assert list(lines) == sorted(set(lines))
    for line in lines:
        assert len(line) == found.distance
        assert all(turn.face in working(task) for turn in line)
        assert all(turn.face is not after.face for turn, after in pairwise(line))
        assert task.done(position.after(line))
    if found.distance and len(lines) < 500:
        assert {line[0] for line in lines} == found.optimal
    assert solver.hand_lines(position, task, 3) == lines[:3]


def test_all_lines_of_a_sample_agree_with_trying_every_sequence(solver: Solver) -> None:
    near = [turn for turn in TURNS if turn.face in working(KEPT)]
    position = SOLVED.after([Turn.F_PRIME, Turn.U_PRIME, Turn.F, Turn.U])
    sequences = ((a, b, c, d) for a in near for b in near for c in near for d in near)
    every = tuple(sequence for sequence in sequences if KEPT.done(position.after(sequence)))
    assert solver.hand_distance(position, KEPT) == 4
    assert solver.hand_lines(position, KEPT, 500) == every
    assert (Turn.U_PRIME, Turn.F_PRIME, Turn.U, Turn.F) in every


@settings(max_examples=40)
@given(turns, tasks, st.sampled_from(UPRIGHT))
def test_symmetric_positions_have_symmetric_answers(
    solver: Solver, made: list[Turn], task: Task, symmetry: Symmetry
) -> None:
    position = SOLVED.after(made)
    slot, keep = carried_slot(task.slot, symmetry), (carried_slot(kept, symmetry) for kept in task.keep)
    here = solver.hand_distances(position, task)
    there = solver.hand_distances(position.carried(symmetry), Task(slot, frozenset(keep)))
    assert there.distance == here.distance
    assert [there.after[symmetry.turn(turn)] for turn in TURNS] == list(here.after)
    assert there.direct == {symmetry.turn(turn) for turn in here.direct}


def test_a_task_that_is_done_is_at_zero_by_hand_and_far_turns_lose_it(solver: Solver) -> None:
    found = solver.hand_distances(SOLVED.turned(Turn.U), KEPT)
    assert found.distance == 0
    assert found.optimal == frozenset()
    expected = {Face.U: 0, Face.R: 1, Face.F: 1}
    assert found.after == tuple(expected.get(turn.face) for turn in TURNS)
    assert found.direct == {Turn.U, Turn.U2, Turn.U_PRIME}
    assert solver.hand_lines(SOLVED, KEPT) == ((),)


def test_a_far_turn_that_mends_is_the_only_way_on_from_what_cannot_be_mended_by_hand(solver: Solver) -> None:
    position = SOLVED.after([Turn.R, Turn.U, Turn.R_PRIME, Turn.B])
    found = solver.hand_distances(position, KEPT)
    assert found.distance is None
    assert found.after == tuple(3 if turn is Turn.B_PRIME else None for turn in TURNS)
    assert (found.direct, found.optimal) == (frozenset(), frozenset())
    assert solver.hand_lines(position, KEPT) == ()


def test_what_interrupts_a_search_by_hand_ends_it_and_leaves_the_solver_usable(quick_solver: Solver) -> None:
    def stop() -> None:
        raise TimeoutError

    task = Task(Slot.FR, frozenset({Slot.FL}))
    stopped = Solver(quick_solver.tables, stop)
    with pytest.raises(TimeoutError):
        stopped.hand_distances(SOLVED.turned(Turn.D), task)
    assert stopped.hand_distance(SOLVED, task) == 0
