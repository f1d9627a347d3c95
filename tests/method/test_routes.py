"""Routes and the step under way, held against a plain search that follows the definition word by word."""

from __future__ import annotations

from collections import Counter
from itertools import cycle, islice, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.method.placements import (
    all_kept,
    carried_task,
    first_step_not_done,
    placements,
    sampled,
    sequences,
    tasks,
)
from tests.method.plain_routes import Turns, counted, named, parts_of, plain_routes, shortest
from tutor.cube.faces import TURNS, Face, Turn, inverse
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.symmetry import (
    IDENTITY,
    MIRROR_FRONT_BACK,
    MIRROR_LEFT_RIGHT,
    SYMMETRIES,
    Symmetry,
    quarter_about,
)
from tutor.method.ergonomics import comfort
from tutor.method.hand_ways import turn_aways
from tutor.method.routes import Route, RouteLengths, route_lengths, routes
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.solver.task import Task

FR = Slot.FR
KEPT = all_kept(FR)
# By the definition of the route that is shown, and the mirror that exchanges the slot's own two faces.
FROM_FR = {
    Slot.FR: IDENTITY,
    Slot.FL: MIRROR_LEFT_RIGHT,
    Slot.BL: quarter_about(Face.U, 2),
    Slot.BR: MIRROR_FRONT_BACK,
}
OWN_MIRROR = next(
    symmetry for symmetry in SYMMETRIES if symmetry.faces == (Face.U, Face.D, Face.B, Face.F, Face.R, Face.L)
)


# ------------------------------------------------------------------------------------ the plain search


def check_against_plain_search(position: Position, task: Task) -> None:
    step, every, of_step = plain_routes(task).answer(position)
    found = routes(position, task, limit=None)
    expected = RouteLengths(step, tuple(every[turn][0] if turn in every else None for turn in TURNS))
    assert found.lengths == route_lengths(position, task) == expected, (position, task)
    assert {route.turns for route in found.routes} == shortest(of_step), (position, task)


def test_every_placement_in_front_right_agrees_with_the_plain_search() -> None:
    for position, task in placements(FR):
        check_against_plain_search(position, task)


def test_harder_positions_with_all_kept_agree_with_the_plain_search() -> None:
    for position, task in sampled(5, 48):
        check_against_plain_search(position, task)


@pytest.mark.slow
@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_every_placement_agrees_with_the_plain_search(slot: Slot) -> None:
    """And with two of seven turns made, which come in rotation (all seven passed when this was written)."""
    spoiling = cycle(named("R F' L' F U B D2"))
    for position, task in placements(slot):
        check_against_plain_search(position, task)
        for turn in islice(spoiling, 2):
            check_against_plain_search(position.turned(turn), task)


@pytest.mark.slow
@pytest.mark.parametrize(("free", "number"), [(0, 900), (1, 120), (2, 30), (3, 12)])
def test_large_samples_of_any_kept_slots_agree_with_the_plain_search(free: int, number: int) -> None:
    for position, task in sampled(6, number, free):
        check_against_plain_search(position, task)


# ------------------------------------------------------------------------------------ what a route is


def is_hand_way(task: Task, turns: Turns) -> bool:
    """Whether turns of the top and blocks, and at the end a block or a turn-away, come to these turns."""

    def grown(made: Turns) -> bool:
        merged = counted(made)
        if merged == turns:
            return True
        for part in parts_of(task):
            longer = counted(made + part.turns)
            if longer is None or len(longer) > len(turns) or (part.away and len(longer) < len(turns)):
                continue
            # The last turn may still merge with the next of its face.
            begun = longer[:-1] == turns[: len(longer) - 1]
            if begun and longer[-1].face is turns[len(longer) - 1].face and grown(made + part.turns):
                return True
        return False

    return grown(())


def most_turns(position: Position, task: Task, step: Step) -> int:
    """Four, for Raise four for each slot that holds one of the two pieces."""
    corner, edge = position.corners[task.slot.corner], position.edges[task.slot.edge]
    low = {corner // 3} if corner >= 12 else set()
    low |= {edge // 2} if edge >= 8 else set()
    return 4 * max(1, len(low)) if step is Step.RAISE else 4


def check_steps(position: Position, task: Task, route: Route) -> None:
    """Each step ends where it is done, Raise and Part perhaps within the half turn that begins the next; it
    has a turn of a side, and a turn of the top belongs to the step that it prepares."""
    made = 0
    for step, turns in route.segments:
        before, made = position.after(route.turns[:made]), made + len(turns)
        after, spent = position.after(route.turns[:made]), len(turns)
        assert not DONE_WHEN[step](before, task)
        if not DONE_WHEN[step](after, task):
            assert step in (Step.RAISE, Step.PART)
            meeting = route.turns[made]
            assert meeting.quarters == 2
            quarters = (Turn.of(meeting.face, 1), Turn.of(meeting.face, 3))
            assert any(DONE_WHEN[step](after.turned(quarter), task) for quarter in quarters)
            spent += 1
        else:
            assert turns[-1].face is not Face.U
        assert spent <= most_turns(before, task, step)
        assert any(turn.face is not Face.U for turn in turns)


@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_from_every_placement_a_hand_way_leads_home_in_steps_of_four_turns(slot: Slot) -> None:
    """Check values: from each of the 149 unsolved placements there is a route, and none of the shortest needs
    more than 11 turns (independent search); each step needs at most four turns (common practice).
    """
    lengths: Counter[int | None] = Counter()
    near = {Face.U, *(Face[letter] for letter in slot.name)}
    for position, task in placements(slot):
        found = routes(position, task, limit=None)
        assert found.routes
        assert found.step is found.routes[0].steps[0] is first_step_not_done(position, task)
        assert {route.turns[0] for route in found.routes} == found.starts(0)
        for route in found.routes:
            assert task.done(position.after(route.turns))
            assert len(route.turns) == len(route.steps) == found.length
            assert {turn.face for turn in route.turns} <= near
            assert all(a.face is not b.face for a, b in pairwise(route.turns))
            assert list(route.steps) == sorted(route.steps, key=TURNING_STEPS.index)
            assert is_hand_way(task, route.turns)
            check_steps(position, task, route)
        lengths[found.length] += 1
    assert lengths.total() == 149
    assert max(length or 0 for length in lengths) == 11
    # The plain search of these tests, apart from the program's, counts the same.
    assert lengths == {3: 6, 4: 10, 6: 9, 7: 45, 8: 62, 10: 6, 11: 11}


def test_turns_that_meet_where_part_ends_merge_and_count_once() -> None:
    # With front left free too: its block ends with F', and a block of front right begins with F'.
    task = Task(FR, frozenset({Slot.BL, Slot.BR}))
    seen = 0
    for position, _ in placements(FR):
        for route in routes(position, task, limit=None).routes:
            for step, turns in route.segments[:-1]:
                made = route.steps.index(step) + len(turns)
                if not DONE_WHEN[step](position.after(route.turns[:made]), task):
                    seen += 1
                    assert step in (Step.RAISE, Step.PART)
                    check_steps(position, task, route)
    assert seen


def test_join_ends_where_one_sees_the_pair_made() -> None:
    # A hand way, but within its half turn of R nobody sees the pair: U2 R U R' makes it, R' F R F' turns it
    # away. So the routes here go on from the pair as it is made.
    way = named("U2 R U R2 F R F'")
    position = SOLVED.after(inverse(way))
    assert is_hand_way(KEPT, way)
    found = routes(position, KEPT, limit=None)
    assert found.length == 8
    assert {route.turns[:4] for route in found.routes} == {named("U2 R U R'")}


def test_seams_without_a_merge_are_where_the_steps_are_done() -> None:
    position = SOLVED.after(named("F' U F U2 R U R'"))
    route = routes(position, KEPT).routes[0]
    assert [step for step, _ in route.segments] == [Step.PART, Step.JOIN, Step.INSERT]
    check_steps(position, KEPT, route)


def test_a_pair_joined_on_top_only_needs_to_be_inserted() -> None:
    found = routes(SOLVED.after(named("R U R'")), KEPT)
    assert (found.step, found.length, found.starts(0)) == (Step.INSERT, 3, frozenset({Turn.R}))
    assert found.routes[0] == Route(named("R U' R'"), (Step.INSERT,) * 3)


def test_a_solved_pair_has_no_route_and_no_starts() -> None:
    found = routes(SOLVED, KEPT)
    assert (found.step, found.length, found.starts(), found.routes) == (Step.DONE, 0, frozenset(), ())


def test_pieces_in_two_slots_are_raised_in_at_most_four_turns_for_each() -> None:
    task = Task(FR, frozenset({Slot.FL, Slot.BR}))
    corners = list(SOLVED.corners)
    corners[FR.corner], corners[Slot.BL.corner] = corners[Slot.BL.corner], corners[FR.corner]
    position = Position(tuple(corners), SOLVED.edges)
    found = routes(position, task, limit=None)
    assert found.step is Step.RAISE
    assert found.routes
    for route in found.routes:
        check_steps(position, task, route)
        assert 6 <= len(dict(route.segments)[Step.RAISE]) <= 8
    check_against_plain_search(position, task)


# ------------------------------------------------------------------------------------ in the midst


@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_in_the_midst_of_a_block_a_route_first_finishes_it(slot: Slot) -> None:
    """A turn of the top or none, then the lower; whatever the case."""
    for position, task in placements(slot)[::5]:
        for lift in [turn for turn in TURNS if turn.face is not Face.U and _lifts(turn, slot)]:
            lifted = position.turned(lift)
            for route in routes(lifted, task, limit=None).routes:
                first = route.turns[1 if route.turns[0].face is Face.U else 0]
                # A lower that meets the next turn of its face has merged with it.
                assert first.face is lift.face
                assert first is lift.inverse or first.quarters == 2


def _lifts(turn: Turn, slot: Slot) -> bool:
    moved = SOLVED.turned(turn)
    return moved.corners[slot.corner] < 12 and moved.edges[slot.edge] < 8


def test_in_the_midst_of_a_turn_away_a_route_finishes_it() -> None:
    for away in ("R' F R F'", "F R' F' R"):
        position = SOLVED.after(inverse(named(away)))
        for made in (1, 2, 3):
            begun = position.after(named(away)[:made])
            found = routes(begun, KEPT, limit=None)
            assert found.step is Step.INSERT
            assert [route.turns for route in found.routes] == [named(away)[made:]]


@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_a_wrong_turn_of_a_far_layer_costs_its_taking_back(slot: Slot) -> None:
    far = [turn for turn in TURNS if turn.face.name not in "U" + slot.name]
    for number, (position, task) in enumerate(placements(slot)):
        wrong = far[number % len(far)]
        here, there = routes(position, task), routes(position.turned(wrong), task)
        assert there.length is not None
        assert there.length <= (here.length or 0) + 1
        # A face of the same axis may turn first, since the two do not touch each other.
        assert wrong.inverse in there.routes[0].turns[:2]


def test_without_a_way_of_four_turns_to_settle_there_is_no_route() -> None:
    position = SOLVED.after(named("B2 D L2 B D' R2 F2 L B"))
    found = routes(position, KEPT)
    assert not KEPT.settled(position)
    assert (found.step, found.length, found.starts(), found.routes) == (Step.RAISE, None, frozenset(), ())


def test_more_slack_never_loses_a_start() -> None:
    for position, task in placements(FR)[::10]:
        lengths = route_lengths(position, task)
        assert lengths.starts(0) <= lengths.starts(1) <= lengths.starts(2) <= lengths.starts(9)
        assert lengths.starts(0)


# ------------------------------------------------------------------------------------ images


@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_the_route_shown_in_another_slot_is_the_image_of_that_of_front_right(slot: Slot) -> None:
    symmetry = FROM_FR[slot]
    for position, task in placements(FR):
        here = routes(position, task, limit=1).routes[0]
        there = routes(position.carried(symmetry), carried_task(task, symmetry), limit=1).routes[0]
        assert there == Route(symmetry.turns(here.turns), here.steps)


def test_the_route_of_a_mirror_case_is_the_image_in_the_mirror_of_the_slot() -> None:
    """Unless the placement is its own image: then comfort has chosen."""
    own = 0
    for position, task in placements(FR):
        image = position.carried(OWN_MIRROR)
        shown = routes(position, task, limit=1).routes[0]
        mirrored = routes(image, task, limit=1).routes[0]
        if _pair(image) == _pair(position):
            own += 1
            every = routes(position, task, limit=None).routes
            assert comfort(shown.turns).cost == min(comfort(route.turns).cost for route in every)
            assert shown == mirrored
        else:
            assert mirrored == Route(OWN_MIRROR.turns(shown.turns), shown.steps)
    # Counting: the corner's cross colour up or down along the mirror, the edge where the mirror leaves it.
    assert own == sum(
        _pair(position.carried(OWN_MIRROR)) == _pair(position) for position, _ in placements(FR)
    )
    assert own


def _pair(position: Position) -> tuple[int, int]:
    return position.corners[FR.corner], position.edges[FR.edge]


@settings(max_examples=30)
@given(sequences, tasks, st.sampled_from((*FROM_FR.values(), OWN_MIRROR)))
def test_routes_are_carried_along_by_rotations_and_mirrors(
    turns: list[Turn], task: Task, symmetry: Symmetry
) -> None:
    position = SOLVED.after(turns)
    here = routes(position, task, limit=None)
    there = routes(position.carried(symmetry), carried_task(task, symmetry), limit=None)
    assert there.step is here.step
    assert there.lengths.by_turn == tuple(here.lengths.by_turn[symmetry.inverse.turn(turn)] for turn in TURNS)
    carried = {(symmetry.turns(route.turns), route.steps) for route in here.routes}
    assert carried == {(route.turns, route.steps) for route in there.routes}


@settings(max_examples=40)
@given(sequences, tasks)
def test_every_route_found_leads_home_through_its_steps(turns: list[Turn], task: Task) -> None:
    position = SOLVED.after(turns)
    found = routes(position, task, limit=None)
    for route in found.routes:
        assert task.done(position.after(route.turns))
        assert len(route.turns) == len(route.steps) == found.length
        assert all(a.face is not b.face for a, b in pairwise(route.turns))
        assert list(route.steps) == sorted(route.steps, key=TURNING_STEPS.index)
        assert route.steps[0] in TURNING_STEPS[TURNING_STEPS.index(found.step) :]


@settings(max_examples=20)
@given(sequences, tasks)
def test_the_first_few_routes_are_the_first_of_all(turns: list[Turn], task: Task) -> None:
    position = SOLVED.after(turns)
    every = routes(position, task, limit=None).routes
    assert routes(position, task, limit=2).routes == every[:2]


@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_on_a_shortest_route_no_turn_leaves_more_than_what_is_left_of_it(slot: Slot) -> None:
    """It may leave less: after a turn of the top another step may fit that with it has five turns."""
    for position, task in placements(slot):
        route = routes(position, task, limit=1).routes[0]
        for made in range(len(route.turns) + 1):
            length = route_lengths(position.after(route.turns[:made]), task).length
            assert length is not None
            assert length <= len(route.turns) - made


def test_with_every_slot_open_the_route_in_the_midst_of_a_turn_away_is_what_is_left_of_it() -> None:
    for turns in turn_aways(Slot.FR):
        for made in range(1, len(turns)):
            midst = SOLVED.after(inverse(turns[made:]))
            assert [route.turns for route in routes(midst, Task(Slot.FR, frozenset())).routes] == [
                turns[made:]
            ]
