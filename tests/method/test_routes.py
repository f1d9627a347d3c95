"""Routes and the step under way, held against a plain search that follows the definition word by word."""

from __future__ import annotations

import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.method.plain_routes import plain_routes
from tutor.cube.faces import TURNS, Face, Turn, inverse
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT, Symmetry, quarter_about
from tutor.method.cases import ALIGNMENTS, CASES, Case
from tutor.method.routes import Route, RouteLengths, route_lengths, routes
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.solver.task import Task

FR = Slot.FR
ALL_KEPT = Task(FR, frozenset(SLOTS) - {FR})
KEEP_SETS = [
    frozenset(kept) for count in range(4) for kept in combinations((Slot.FL, Slot.BL, Slot.BR), count)
]

# ------------------------------------------------------------------------------------ the plain search


def check_against_plain_search(position: Position, task: Task) -> None:
    step, lengths = plain_routes(task).answer(position)
    expected = RouteLengths(step, tuple(lengths.get(turn) for turn in TURNS))
    assert route_lengths(position, task) == expected


def random_settled(draw: random.Random, task: Task) -> Position:
    """Cross and kept pairs home, the pair anywhere: by a few short sequences that keep them."""
    position = SOLVED
    movers = [inverse(case.setup()) for case in CASES]
    for _ in range(6):
        position = position.after(draw.choice(movers)).turned(draw.choice((Turn.U, Turn.U2, Turn.U_PRIME)))
    assert task.settled(position)
    return position


def random_unsettled(draw: random.Random, task: Task) -> Position:
    """In the midst of a route, with a wrong turn now and then."""
    position = random_settled(draw, task)
    while task.settled(position):
        for route in routes(position, task).routes[:1]:
            position = position.after(route.turns[: draw.randrange(len(route.turns))])
        if draw.random() < 0.4 or task.settled(position):
            position = position.turned(draw.choice(TURNS))
    return position


def test_settled_positions_agree_with_the_plain_search() -> None:
    draw = random.Random(5)
    for _ in range(4):
        check_against_plain_search(random_settled(draw, ALL_KEPT), ALL_KEPT)


def test_positions_in_the_midst_of_a_step_agree_with_the_plain_search() -> None:
    draw = random.Random(6)
    for _ in range(8):
        check_against_plain_search(random_unsettled(draw, ALL_KEPT), ALL_KEPT)


@pytest.mark.slow
@pytest.mark.parametrize("keep", KEEP_SETS)
def test_any_kept_slots_agree_with_the_plain_search(keep: frozenset[Slot]) -> None:
    task = Task(FR, keep)
    draw = random.Random(len(keep))
    for _ in range(12):
        check_against_plain_search(random_settled(draw, task), task)
        check_against_plain_search(random_unsettled(draw, task), task)
        check_against_plain_search(SOLVED.after(draw.choices(TURNS, k=draw.randint(1, 9))), task)


@pytest.mark.slow
def test_the_other_slots_agree_with_the_plain_search() -> None:
    draw = random.Random(7)
    for slot in (Slot.FL, Slot.BL, Slot.BR):
        task = Task(slot, frozenset(SLOTS) - {slot})
        for _ in range(10):
            check_against_plain_search(SOLVED.after(draw.choices(TURNS, k=draw.randint(1, 6))), task)


# ------------------------------------------------------------------------------------ what a route is


def placements() -> list[tuple[str, int]]:
    """The 149 unsolved placements: each case in every alignment that makes a difference."""
    return [
        (case.slug, alignment)
        for case in CASES
        for alignment in ALIGNMENTS
        if alignment == 0 or case.placement(alignment) != case.placement()
    ]


def check_route(position: Position, task: Task, route: Route) -> None:
    """Followed turn by turn, each step is done in its order and takes at most four turns."""
    assert task.done(position.after(route.turns))
    assert len(route.turns) == len(route.steps)
    assert all(a.face is not b.face for a, b in zip(route.turns, route.turns[1:], strict=False))
    assert list(route.steps) == sorted(route.steps, key=TURNING_STEPS.index)
    for _, turns in route.segments:
        assert len(turns) <= 4
    assert tuple(turn for _, turns in route.segments for turn in turns) == route.turns


@pytest.mark.parametrize("slot", SLOTS)
def test_every_placement_has_a_route_of_at_most_ten_turns_and_four_a_step(slot: Slot) -> None:
    # Each of the five steps needs at most four turns: common practice. That all 149 unsolved placements have
    # a route and none needs more than 10 turns: independent search.
    task = Task(slot, frozenset(SLOTS) - {slot})
    by_slug = {case.slug: case for case in CASES}
    lengths = []
    for slug, alignment in placements():
        position = by_slug[slug].position(slot, alignment)
        found = routes(position, task, limit=None)
        assert found.routes
        for route in found.routes:
            check_route(position, task, route)
            assert len(route.turns) == found.length
            assert route.turns[0] in found.starts(0)
        assert {route.turns[0] for route in found.routes} == found.starts(0)
        lengths.append(found.length or 0)
    assert len(lengths) == 149
    assert max(lengths) == 10


def test_seams_without_a_merge_are_where_the_steps_are_done() -> None:
    position = SOLVED.after(parse_turns("F' U F U2 R U R'"))
    route = routes(position, ALL_KEPT).routes[0]
    done = 0
    for step, turns in route.segments:
        assert not DONE_WHEN[step](position.after(route.turns[:done]), ALL_KEPT)
        done += len(turns)
        assert DONE_WHEN[step](position.after(route.turns[:done]), ALL_KEPT)
    assert [step for step, _ in route.segments] == [Step.PART, Step.JOIN, Step.INSERT]


def test_turns_that_meet_at_a_seam_merge_and_count_once() -> None:
    # The way there ends with a quarter of F and the way in begins with one: together a half turn.
    position = SOLVED.after(inverse(parse_turns("U' F' U2 F2 R' F' R")))
    found = routes(position, ALL_KEPT, limit=None)
    assert found.length == 7
    way = next(route for route in found.routes if route.turns == parse_turns("U' F' U2 F2 R' F' R"))
    assert not DONE_WHEN[Step.JOIN](position.after(way.turns[:3]), ALL_KEPT)
    assert DONE_WHEN[Step.JOIN](position.after((*way.turns[:3], Turn.F)), ALL_KEPT)


def test_a_pair_joined_on_top_only_needs_to_be_inserted() -> None:
    found = routes(SOLVED.after(parse_turns("R U R'")), ALL_KEPT)
    assert found.step is Step.INSERT
    assert found.length == 3
    assert found.starts(0) == {Turn.R}
    assert found.routes[0] == Route(parse_turns("R U' R'"), (Step.INSERT,) * 3)


def test_a_solved_pair_has_no_route_and_no_starts() -> None:
    found = routes(SOLVED, ALL_KEPT)
    assert (found.step, found.length, found.starts(), found.routes) == (Step.DONE, 0, frozenset(), ())


def test_half_way_in_the_step_is_still_insert() -> None:
    position = SOLVED.after(parse_turns("R U"))
    assert not ALL_KEPT.settled(position)
    found = routes(position, ALL_KEPT)
    assert (found.step, found.length) == (Step.INSERT, 2)


def test_when_no_route_leads_on_there_are_no_starts() -> None:
    # Corner and edge stand in opposite slots: four turns cannot raise both.
    task = Task(FR, frozenset({Slot.FL, Slot.BR}))
    corners, edges = list(SOLVED.corners), list(SOLVED.edges)
    edges[Slot.FR.edge], edges[Slot.BL.edge] = edges[Slot.BL.edge], edges[Slot.FR.edge]
    corners[0], corners[1] = corners[1], corners[0]
    position = Position(tuple(corners), tuple(edges))
    found = routes(position, task)
    assert (found.step, found.length, found.starts(), found.routes) == (Step.RAISE, None, frozenset(), ())


def test_more_slack_never_loses_a_start() -> None:
    lengths = route_lengths(SOLVED.after(parse_turns("R U2 R' U R U R'")), ALL_KEPT)
    assert lengths.starts(0) <= lengths.starts(1) <= lengths.starts(2) <= lengths.starts(9)
    assert lengths.starts(0)


sequences = st.lists(st.sampled_from(TURNS), max_size=8)


def carried_task(task: Task, symmetry: Symmetry) -> Task:
    """The task once the whole cube is rotated about the vertical or mirrored."""

    def carried(slot: Slot) -> Slot:
        faces = {symmetry.faces[Face[letter]].name for letter in slot.name}
        return next(other for other in SLOTS if set(other.name) == faces)

    return Task(carried(task.slot), frozenset(map(carried, task.keep)))


@settings(max_examples=60)
@given(
    sequences,
    st.sampled_from(SLOTS),
    st.sets(st.sampled_from(SLOTS)),
    st.sampled_from([MIRROR_LEFT_RIGHT, *(quarter_about(Face.U, quarters) for quarters in (1, 2, 3))]),
)
def test_routes_are_carried_along_by_rotations_and_mirrors(
    turns: list[Turn], slot: Slot, keep: set[Slot], symmetry: Symmetry
) -> None:
    position, task = SOLVED.after(turns), Task(slot, frozenset(keep) - {slot})
    here = routes(position, task, limit=None)
    there = routes(position.carried(symmetry), carried_task(task, symmetry), limit=None)
    assert there.step is here.step
    assert there.lengths.by_turn == tuple(here.lengths.by_turn[symmetry.inverse.turn(turn)] for turn in TURNS)
    carried = {(symmetry.turns(route.turns), route.steps) for route in here.routes}
    assert carried == {(route.turns, route.steps) for route in there.routes}


@settings(max_examples=60)
@given(sequences, st.sampled_from(SLOTS))
def test_every_route_found_leads_home_through_its_steps(turns: list[Turn], slot: Slot) -> None:
    position = SOLVED.after(turns)
    task = Task(slot, frozenset(SLOTS) - {slot})
    found = routes(position, task, limit=None)
    for route in found.routes:
        check_route(position, task, route)
        assert route.steps[0] in TURNING_STEPS[TURNING_STEPS.index(found.step) :]


@pytest.mark.parametrize(
    "case", [case for case in CASES if len(case.setup()) <= 4], ids=lambda case: case.slug
)
def test_on_a_short_route_every_turn_leaves_one_turn_less(case: Case) -> None:
    position = case.position()
    for route in routes(position, ALL_KEPT, limit=None).routes:
        rest = [
            route_lengths(position.after(route.turns[:made]), ALL_KEPT).length
            for made in range(len(route.turns) + 1)
        ]
        assert rest == list(range(len(route.turns), -1, -1))


def test_join_once_done_is_not_gone_on_with() -> None:
    # The shortest route here passes a joined pair half way through Join. Taken afresh from there Join is
    # done, so what is left of it may not be turned, and Insert alone would take more than four.
    position = SOLVED.after(parse_turns("F2 B L' U D B"))
    found = routes(position, ALL_KEPT)
    assert (found.step, found.length) == (Step.JOIN, 6)
    assert route_lengths(position.turned(Turn.B_PRIME), ALL_KEPT).length is None
