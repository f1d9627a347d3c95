"""Stickers read back to positions, and every kind of fault found and named."""

from itertools import product
from math import factorial
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import FACES, TURNS, Face
from tutor.cube.geometry import CORNER_STICKERS, EDGE_STICKERS
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import SOLVED, Position
from tutor.cube.random_position import random_position
from tutor.cube.stickers import (
    COLOUR_NAMES,
    Fault,
    IllegalCubeError,
    Rule,
    check_legal,
    faces_shown,
    is_odd,
    read_stickers,
)
from tutor.cube.symmetry import ROTATIONS, Symmetry

positions = st.integers(0, 2**32).map(lambda seed: random_position(Random(seed)))


def faults_of(colours: list[int]) -> tuple[Fault, ...]:
    with pytest.raises(IllegalCubeError) as caught:
        read_stickers(colours)
    return caught.value.faults


def solved_colours() -> list[int]:
    return list(HeldCube().colours)


def exchange(colours: list[int], *stickers: int) -> list[int]:
    """Each sticker gets the colour of the one before it, the first that of the last."""
    changed = list(colours)
    for here, before in zip(stickers, (stickers[-1], *stickers[:-1]), strict=True):
        changed[here] = colours[before]
    return changed


def assembled(position: Position, twist: int, flip: int, swap: bool) -> Position:
    """The position with a corner twisted, an edge flipped, two edges exchanged, as after taking it apart."""
    corners, edges = list(position.corners), list(position.edges)
    corners[0] = corners[0] - corners[0] % 3 + (corners[0] + twist) % 3
    edges[0] = edges[0] - edges[0] % 2 + (edges[0] + flip) % 2
    if swap:
        edges[5], edges[9] = edges[9], edges[5]
    return Position(tuple(corners), tuple(edges))


# ------------------------------------------------------------------------------------------ round trip


@given(positions, st.sampled_from(ROTATIONS))
def test_any_cube_in_any_hold_reads_back(position: Position, viewpoint: Symmetry) -> None:
    cube = HeldCube(position, viewpoint)
    read, centres = read_stickers(cube.colours)
    assert read == position
    assert centres == tuple(cube.colour_of(face) for face in FACES)


@given(positions, st.permutations(range(6)))
def test_any_arrangement_of_the_colours_reads_back(position: Position, colouring: list[int]) -> None:
    # WCA 3a3 asks for six colours and prescribes no arrangement.
    read, centres = read_stickers([colouring[face] for face in faces_shown(position)])
    assert read == position
    assert centres == tuple(Face(colour) for colour in colouring)


def test_a_turned_face_shows_what_one_sees() -> None:
    shown = faces_shown(SOLVED.turned(TURNS[9]))  # R carries the right column of the front to the top
    assert [shown[9 * Face.U + index] for index in range(9)] == [Face.U, Face.U, Face.F] * 3
    assert [shown[9 * Face.F + index] for index in range(9)] == [Face.F, Face.F, Face.D] * 3


def test_the_colours_lie_as_is_common() -> None:
    # Common practice: white opposite yellow, blue opposite green, red opposite orange; white down (as in
    # this program) and green in front puts orange to the right.
    named = dict(zip(COLOUR_NAMES, FACES, strict=True))
    for first, second in (("white", "yellow"), ("blue", "green"), ("red", "orange")):
        assert named[first].opposite is named[second]
    assert (named["white"], named["green"], named["orange"]) == (Face.D, Face.F, Face.R)


# ----------------------------------------------------------------------------------------------- faults


@pytest.mark.parametrize("colours", [[0] * 53, [], [0] * 55, [*[0] * 53, 6], [*[0] * 53, -1]])
def test_other_than_54_colours_are_refused(colours: list[int]) -> None:
    with pytest.raises(ValueError, match="54 stickers with colours numbered 0 to 5"):
        read_stickers(colours)


def test_one_sticker_too_many_is_counted() -> None:
    colours = solved_colours()
    colours[0] = 2
    few, many = faults_of(colours)
    assert few.rule is many.rule is Rule.COUNT
    assert few.message == "yellow is on 8 stickers; it must be on 9"
    assert many.message == "red is on 10 stickers; a cube has only 9"
    assert many.stickers == (0, *range(18, 27))


def test_two_centres_of_one_colour_are_named() -> None:
    colours = exchange(solved_colours(), 9 * Face.U + 4, 9 * Face.F)
    fault = faults_of(colours)[0]
    assert fault.rule is Rule.CENTRES
    assert fault.message == "two centres are green; each centre needs a colour of its own"
    assert fault.stickers == (4, 9 * Face.F + 4)


def test_names_of_the_colours_can_be_given() -> None:
    colours = solved_colours()
    colours[0] = 2
    with pytest.raises(IllegalCubeError, match="rose is on 10 stickers"):
        read_stickers(colours, ("lemon", "snow", "rose", "amber", "leaf", "sky"))


def test_a_corner_and_an_edge_that_no_cube_has() -> None:
    top_left, left_top = 9 * Face.U + 3, 9 * Face.L + 1
    down_left, left_down = 9 * Face.D + 3, 9 * Face.L + 7
    # Exchange the top colour of one edge with the side colour of another: UL becomes red-red.
    fault, other = faults_of(exchange(solved_colours(), top_left, left_down))
    assert fault.rule is Rule.PIECE
    assert fault.message == "the top left edge (UL) shows red-red: no piece has the same colour twice"
    assert set(fault.stickers) == {top_left, left_top}
    assert other.message == (
        "the bottom left edge (DL) shows white-yellow: no piece has the colours of two opposite faces"
    )
    assert set(other.stickers) == {down_left, left_down}


def test_a_corner_with_two_colours_exchanged_runs_the_wrong_way_round() -> None:
    stickers = CORNER_STICKERS[:3]  # the corner UFR
    (fault,) = faults_of(exchange(solved_colours(), stickers[1], stickers[2]))
    assert fault.rule is Rule.PIECE
    assert fault.message == (
        "the top front-right corner (UFR) shows yellow-green-orange: "
        "its colours go round the wrong way; swap two of them"
    )
    assert fault.stickers == tuple(stickers)


def test_a_piece_that_is_there_twice_is_named_with_both_places() -> None:
    colours = solved_colours()
    back, slot_front, slot_back = 9 * Face.B + 1, 9 * Face.F + 5, 9 * Face.B + 3
    colours[back] = Face.F  # UB becomes a second yellow-green edge,
    colours[slot_front] = Face.B  # and FR a second blue-orange one, so that the counts stay right.
    faults = faults_of(colours)
    assert [fault.rule for fault in faults] == [Rule.ONCE, Rule.ONCE]
    assert faults[0].message == (
        "the top front (UF) and top back (UB) edges are both yellow-green; a cube has only one"
    )
    assert set(faults[0].stickers) == {9 * Face.U + 7, 9 * Face.U + 1}
    assert faults[1].message == (
        "the front-right (FR) and back-right (BR) edges are both blue-orange; a cube has only one"
    )
    assert set(faults[1].stickers) == {slot_front, slot_back}


@pytest.mark.parametrize(
    ("stickers", "way"),
    [(CORNER_STICKERS[12:15], "clockwise"), (CORNER_STICKERS[14:11:-1], "anticlockwise")],
)
def test_a_single_twisted_corner_is_named_with_its_direction(stickers: tuple[int, ...], way: str) -> None:
    (fault,) = faults_of(exchange(solved_colours(), *stickers))
    assert fault.rule is Rule.TWIST
    assert fault.message == f"one corner is twisted {way} in its place; twist it back"


def test_a_single_flipped_edge_is_named() -> None:
    (fault,) = faults_of(exchange(solved_colours(), *EDGE_STICKERS[8:10]))
    assert fault.rule is Rule.FLIP
    assert fault.message == "one edge is flipped in its place; take it out and flip it"


@pytest.mark.parametrize(
    ("kind", "first", "second", "size"), [(EDGE_STICKERS, 0, 5, 2), (CORNER_STICKERS, 1, 6, 3)]
)
def test_a_single_exchange_of_two_pieces_is_named(
    kind: tuple[int, ...], first: int, second: int, size: int
) -> None:
    colours = solved_colours()
    for k in range(size):
        colours = exchange(colours, kind[size * first + k], kind[size * second + k])
    (fault,) = faults_of(colours)
    assert fault.rule is Rule.SWAP
    assert fault.message == "two pieces are swapped; swap any two edges or any two corners"


def test_all_faults_of_one_kind_come_together_in_one_sentence() -> None:
    position = assembled(SOLVED, twist=1, flip=1, swap=True)
    with pytest.raises(IllegalCubeError) as caught:
        check_legal(position)
    assert [fault.rule for fault in caught.value.faults] == [Rule.TWIST, Rule.FLIP, Rule.SWAP]
    assert str(caught.value) == "; ".join(fault.message for fault in caught.value.faults)


def test_two_pieces_in_one_place_are_no_position() -> None:
    with pytest.raises(
        IllegalCubeError, match="two pieces are in the same place; each place has room for one"
    ):
        check_legal(Position(SOLVED.corners, (2, *SOLVED.edges[1:])))
    with pytest.raises(
        IllegalCubeError, match="two pieces are in the same place; each place has room for one"
    ):
        check_legal(Position((3, *SOLVED.corners[1:]), SOLVED.edges))


# --------------------------------------------------------------------------------------------- legality


@given(positions)
def test_of_twelve_ways_to_put_a_cube_together_one_is_legal(position: Position) -> None:
    # One in twelve assembled cubes is legal: textbook, and the quotient of the group order (SymPy, GAP).
    legal = []
    for twist, flip, swap in product(range(3), range(2), (False, True)):
        try:
            read_stickers(tuple(faces_shown(assembled(position, twist, flip, swap))))
        except IllegalCubeError as fault:
            rules = {found.rule for found in fault.faults}
            expected = {Rule.TWIST} if twist else set()
            expected |= {Rule.FLIP} if flip else set()
            expected |= {Rule.SWAP} if swap else set()
            assert rules == expected
        else:
            legal.append((twist, flip, swap))
    assert legal == [(0, 0, False)]
    assert factorial(8) * 3**8 * factorial(12) * 2**12 == 12 * 43252003274489856000


@given(st.lists(st.sampled_from(TURNS), max_size=30))
def test_whatever_turns_reach_is_legal(turns: list[int]) -> None:
    check_legal(SOLVED.after(TURNS[turn] for turn in turns))


@given(st.permutations(range(9)))
def test_parity_is_that_of_the_exchanges_counted_one_by_one(order: list[int]) -> None:
    crossings = sum(order[i] > order[j] for i in range(9) for j in range(i + 1, 9))
    assert is_odd(order) == (crossings % 2 == 1)
