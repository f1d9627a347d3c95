"""The 41 cases: how many there are, what they are called, and that each is what its name says."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.method.placements import all_kept, to_go
from tutor.cube.faces import TURNS, Face, Turn, inverse
from tutor.cube.geometry import CORNER_STICKERS, EDGE_STICKERS, STICKERS
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.stickers import check_legal, faces_shown
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT, SYMMETRIES, quarter_about
from tutor.method.cases import (
    ALIGNMENTS,
    CASES,
    Case,
    CaseSighting,
    Family,
    UnknownCaseError,
    case_of,
    parse_case,
)
from tutor.method.ergonomics import comfort
from tutor.method.pairs import TOP_CORNER, TOP_EDGE
from tutor.method.routes import Route, routes
from tutor.solver.search import Solver
from tutor.solver.task import Task

any_case = st.sampled_from(CASES)
any_slot = st.sampled_from(SLOTS)
any_alignment = st.sampled_from(ALIGNMENTS)


SLOT_MIRROR = next(
    symmetry for symmetry in SYMMETRIES if symmetry.faces == (Face.U, Face.D, Face.B, Face.F, Face.R, Face.L)
)


def test_there_are_41_cases_in_four_families() -> None:
    # 41 basic cases: common practice. 24 + 6 + 6 + 5: counting.
    families = Counter(case.family for case in CASES)
    assert [families[family] for family in Family] == [24, 6, 6, 5]
    assert len(CASES) == 41


def test_the_cases_and_home_cover_all_150_placements() -> None:
    # Counting: corner on top or in the slot 15 ways, edge 10 ways.
    placements = {case.placement(alignment) for case in CASES for alignment in ALIGNMENTS}
    home = (3 * Slot.FR.corner, 2 * Slot.FR.edge)
    assert home not in placements
    assert len(placements | {home}) == 150 == 15 * 10


def test_names_and_slugs_are_unique_and_without_numbers() -> None:
    assert len({case.name for case in CASES}) == len({case.slug for case in CASES}) == 41
    assert not any(letter.isdigit() for case in CASES for letter in case.name + case.slug)


@given(any_case)
def test_a_case_is_read_back_from_its_slug_and_from_its_name(case: Case) -> None:
    assert parse_case(case.slug) == case
    assert parse_case(f" {case.name.upper()} ") == case


def test_the_full_names_of_the_version_before_are_still_read() -> None:
    """Copied from what that version printed, one for each way of saying where a piece is."""
    before = {
        "Corner above its slot, cross colour up; edge on top at the front, front colour up": (
            "corner-up-edge-front-front-up"
        ),
        "corner above its slot, cross colour to the right; edge in its slot, turned over": (
            "corner-right-edge-in-turned"
        ),
        "Corner in its slot, cross colour to the front; edge on top at the right, front colour up": (
            "corner-in-front-edge-right-front-up"
        ),
        "Corner in its slot, cross colour down; edge in its slot, turned over": (
            "corner-in-down-edge-in-turned"
        ),
    }
    assert {name: parse_case(name).slug for name in before} == before


def test_a_mistyped_case_is_told_what_is_near() -> None:
    with pytest.raises(UnknownCaseError, match="did you mean corner-up-edge-in-turned") as caught:
        parse_case("corner-up-edge-in-turn")
    assert caught.value.near[0] == "corner-up-edge-in-turned"
    with pytest.raises(UnknownCaseError, match="type a number from 1 to 41, or a name such as corner-"):
        parse_case("???")


def test_each_case_is_read_back_from_its_number_in_the_book() -> None:
    assert [case.number for case in CASES] == list(range(1, 42))
    assert [parse_case(str(case.number)) for case in CASES] == list(CASES)
    with pytest.raises(UnknownCaseError):
        parse_case("42")


@pytest.mark.parametrize("slot", SLOTS)
def test_short_names_are_unique_in_every_slot(slot: Slot) -> None:
    assert len({case.short_name(slot) for case in CASES}) == 41


@pytest.mark.parametrize("alignment", ALIGNMENTS)
@pytest.mark.parametrize("slot", SLOTS)
def test_a_short_name_says_what_the_stickers_show(slot: Slot, alignment: int) -> None:
    """Read from the 54 stickers alone, by the faces that they touch."""
    towards = {
        Face.U: "up",
        Face.D: "down",
        Face.F: "in front",
        Face.B: "behind",
        Face.L: "left",
        Face.R: "right",
    }
    for case in CASES:
        position = case.position(slot, alignment)
        shown = faces_shown(position)
        name = case.short_name(slot, "yellow", alignment)
        corner = CORNER_STICKERS[position.corners[slot.corner] // 3 * 3 :][:3]
        edge = EDGE_STICKERS[position.edges[slot.edge] // 2 * 2 :][:2]
        points = next(STICKERS[sticker][1] for sticker in corner if shown[sticker] is Face.D)
        sides = [STICKERS[sticker][1] for sticker in edge if STICKERS[sticker][1] is not Face.U]
        assert f"yellow {towards[points]}" in name
        corner_up = Face.U in {STICKERS[sticker][1] for sticker in corner}
        if case.family in (Family.CORNER_ON_TOP, Family.BOTH_IN_SLOT):
            # In its slot the edge is the right way round where each sticker is on its own colour's side.
            straight = all(shown[sticker] is STICKERS[sticker][1] for sticker in edge)
            assert name.endswith("right way round" if straight else "turned over")
            assert name.startswith("yellow" if corner_up else "both in slot, yellow")
            continue
        assert f", edge {towards[sides[0]]}" in name
        if case.family is Family.EDGE_ON_TOP:
            assert name == f"corner in slot, yellow {towards[points]}, edge {towards[sides[0]]}"
            continue
        tops = {shown[sticker] for sticker in (*corner, *edge) if STICKERS[sticker][1] is Face.U}
        assert name.startswith(f"yellow {towards[points]}, edge {towards[sides[0]]}, ")
        if points is not Face.U:
            assert name.endswith(f"tops {'alike' if len(tops) == 1 else 'different'}")


def test_stickers_are_where_the_name_says() -> None:
    case = parse_case("corner-right-edge-back-front-up")
    assert case.name == (
        "Corner on top at its slot, cross colour to the right; edge on top at the back, front colour up"
    )
    stickers = faces_shown(case.position())
    # Stickers are numbered by rows as a face is seen: R's first is above the slot, U's second at the back.
    assert stickers[9 * Face.R] == Face.D
    assert stickers[9 * Face.U + 1] == Face.F
    assert stickers[9 * Face.B + 1] == Face.R


@given(any_case, any_slot, any_alignment)
def test_a_case_is_recognised_in_every_slot_and_alignment(case: Case, slot: Slot, alignment: int) -> None:
    position = case.position(slot, alignment)
    sighting = case_of(position, all_kept(slot))
    assert sighting is not None
    assert (sighting.case, sighting.slot) == (case, slot)
    assert case.placement(sighting.alignment) == case.placement(alignment)


@given(any_case, any_slot, any_alignment)
def test_the_setup_makes_the_position_by_hand_and_keeps_the_rest(
    case: Case, slot: Slot, alignment: int
) -> None:
    """It is the route backwards, so one can turn it by hand and learns from it."""
    setup = case.setup(slot, alignment)
    position = case.position(slot, alignment)
    assert SOLVED.after(setup) == position
    assert setup == inverse(case.route(slot, alignment).turns)
    assert {turn.face for turn in setup} <= {Face.U, *(Face[letter] for letter in slot.name)}
    assert position.home_pairs == frozenset(SLOTS) - {slot}
    assert position.cross_home
    # Check value: none of the shortest routes needs more than 11 turns (independent search).
    assert len(setup) <= 11


@given(any_case, any_slot, any_alignment)
def test_the_route_of_a_case_is_the_one_shown_for_its_position(
    case: Case, slot: Slot, alignment: int
) -> None:
    route = case.route(slot, alignment)
    assert route == routes(case.position(slot, alignment), all_kept(slot), limit=1).routes[0]


@given(any_case, any_alignment)
def test_the_route_of_the_mirror_case_is_the_mirror_image(case: Case, alignment: int) -> None:
    """By the mirror through the slot, which exchanges front and right, left and back, and leaves the top."""
    exchanged = {Face.F: Face.R, Face.R: Face.F, Face.L: Face.B, Face.B: Face.L}
    route, mirror = case.route(Slot.FR, alignment), case.mirror
    mirrored = case.position(Slot.FR, alignment).carried(SLOT_MIRROR)
    sighting = case_of(mirrored, all_kept(Slot.FR))
    assert sighting is not None
    assert sighting.case == mirror
    image = tuple(Turn.of(exchanged.get(turn.face, turn.face), -turn.quarters) for turn in route.turns)
    if mirror.placement(sighting.alignment) != case.placement(alignment):
        assert mirror.route(Slot.FR, sighting.alignment) == Route(image, route.steps)
    else:
        assert comfort(route.turns).cost <= comfort(image).cost


@given(any_case, any_slot)
def test_another_slot_is_the_same_case_turned_not_mirrored(case: Case, slot: Slot) -> None:
    """Cross and pairs; what else is on top depends on the route that makes the case."""
    here, there = case.position(slot), case.position().carried(quarter_about(Face.U, slot))
    assert here.edges[4:] == there.edges[4:]
    assert here.corners[4:] == there.corners[4:]


@given(any_case, any_alignment)
def test_the_mirror_image_of_a_case_is_its_mirror(case: Case, alignment: int) -> None:
    mirrored = case.position(Slot.FR, alignment).carried(MIRROR_LEFT_RIGHT)
    sighting = case_of(mirrored, all_kept(Slot.FL))
    assert sighting is not None
    assert sighting.case == case.mirror
    assert case.mirror.mirror == case


def test_only_cases_that_look_the_same_from_both_sides_are_their_own_mirror() -> None:
    own = [case.slug for case in CASES if case.mirror == case]
    assert own == ["corner-up-edge-in-straight", "corner-up-edge-in-turned", "corner-in-down-edge-in-turned"]


@given(any_case, any_slot, any_alignment, st.sets(any_slot))
def test_slots_not_kept_are_emptied_and_the_cube_stays_legal(
    case: Case, slot: Slot, alignment: int, kept: set[Slot]
) -> None:
    keep = frozenset(kept) - {slot}
    position = case.position(slot, alignment, keep)
    assert position.home_pairs == keep
    check_legal(position)
    assert case_of(position, Task(slot, keep)) == CaseSighting(
        case, slot, alignment if _turns_matter(case) else 0
    )


def _turns_matter(case: Case) -> bool:
    return bool(TOP_CORNER[case.corner] or TOP_EDGE[case.edge])


@given(any_case, st.sampled_from(TURNS))
def test_no_case_is_seen_in_a_position_that_is_not_settled(case: Case, turn: Turn) -> None:
    position = case.position().turned(turn)
    task = all_kept(Slot.FR)
    assert (case_of(position, task) is None) == (not task.settled(position))


def test_the_solved_cube_and_a_pair_in_another_slot_are_no_case() -> None:
    assert case_of(SOLVED, all_kept(Slot.FR)) is None
    corners, edges = list(SOLVED.corners), list(SOLVED.edges)
    corners[4], corners[5] = corners[5], corners[4]
    edges[4], edges[5] = edges[5], edges[4]
    swapped = Position(tuple(corners), tuple(edges))
    assert case_of(swapped, Task(Slot.FR)) is None


def test_the_shortest_solutions_have_the_known_lengths(solver: Solver) -> None:
    # With the best alignment of the top none of length 1, 2 or 4, the longest 9: independent search. By hand
    # that is the same: of the 149 placements none needs 1, 2 or 5, and none more than 9.
    task = all_kept(Slot.FR)
    positions = {case: [case.position(Slot.FR, alignment) for alignment in ALIGNMENTS] for case in CASES}
    at_all = {min(solver.distance(position, task) for position in of) for of in positions.values()}
    by_hand = {min(to_go(solver, position, task) for position in of) for of in positions.values()}
    assert at_all.isdisjoint({0, 1, 2, 4})
    assert by_hand.isdisjoint({0, 1, 2, 4, 5})
    assert max(at_all) == max(by_hand) == 9


def test_a_pair_just_taken_out_is_a_case_at_once() -> None:
    sighting = case_of(SOLVED.after(parse_turns("R U R'")), all_kept(Slot.FR))
    assert sighting is not None
    assert sighting.case.slug == "corner-front-edge-right-front-up"
