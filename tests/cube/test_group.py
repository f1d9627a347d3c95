"""The group of the cube's turns, held against published counts and against SymPy."""

from collections.abc import Sequence

import numpy as np
import pytest
from numpy.typing import NDArray
from sympy.combinatorics import Permutation, PermutationGroup

from tutor.cube.faces import FACES, TURNS, Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE, turn_sticker_map
from tutor.cube.notation import parse_turns
from tutor.cube.position import SOLVED

QUARTER_TURNS = [turn for turn in TURNS if turn.quarters != 2]
ALL_PIECES, CORNERS, CROSS = slice(0, 20), slice(0, 8), slice(16, 20)
TABLES = np.concatenate(
    [np.repeat(CORNER_MOVE[:, None], 8, axis=1), np.repeat(EDGE_MOVE[:, None], 12, axis=1)], axis=1
)
"""``TABLES[turn, piece, location]`` is where a turn carries a piece; shape (18, 20, 24)."""

# Generators written by hand, without the program's tables. Corners 0-7 are UFR UFL UBL UBR DFR DFL DBL DBR
# and edges 0-11 UF UL UB UR FR FL BL BR DF DL DB DR. A turn clockwise carries the pieces along the cycle; a
# corner's U or D sticker goes, at each step, to the sticker this many thirds clockwise of the place's own U
# or D sticker; F and B flip the four edges they move. The letters of WCA 12a1 define the directions.
HAND_WRITTEN: dict[str, tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...], int]] = {
    "U": ((0, 1, 2, 3), (0, 0, 0, 0), (0, 1, 2, 3), 0),
    "D": ((4, 7, 6, 5), (0, 0, 0, 0), (8, 11, 10, 9), 0),
    "R": ((0, 3, 7, 4), (1, 2, 1, 2), (3, 7, 11, 4), 0),
    "L": ((2, 1, 5, 6), (1, 2, 1, 2), (1, 5, 9, 6), 0),
    "F": ((1, 0, 4, 5), (1, 2, 1, 2), (0, 4, 8, 5), 1),
    "B": ((3, 2, 6, 7), (1, 2, 1, 2), (2, 6, 10, 7), 1),
}


def hand_written(letter: str) -> Permutation:
    """One turn on 24 corner stickers and 24 edge stickers."""
    corners, twists, edges, flip = HAND_WRITTEN[letter]
    image = list(range(48))
    for step in range(4):
        here, there = corners[step], corners[(step + 1) % 4]
        for k in range(3):
            image[3 * here + k] = 3 * there + (k + twists[step]) % 3
        here, there = edges[step], edges[(step + 1) % 4]
        for k in range(2):
            image[24 + 2 * here + k] = 24 + 2 * there + (k + flip) % 2
    return Permutation(image)


def from_stickers(turn: Turn) -> Permutation:
    return Permutation(turn_sticker_map(turn).tolist())


def product(text: str, generators: dict[str, Permutation]) -> Permutation:
    """The sequence's permutation; SymPy multiplies from left to right."""
    result = Permutation(generators["U"].size - 1)
    for turn in parse_turns(text):
        result = result * generators[turn.face.name] ** turn.quarters
    return result


OWN = {face.name: from_stickers(Turn.of(face, 1)) for face in FACES}
BY_HAND = {letter: hand_written(letter) for letter in HAND_WRITTEN}
GENERATORS = pytest.mark.parametrize("generators", [BY_HAND, OWN], ids=["by hand", "own stickers"])


def order_by_turning(turns: Sequence[Turn]) -> int:
    position, count = SOLVED.after(turns), 1
    while position != SOLVED:
        position, count = position.after(turns), count + 1
    return count


@GENERATORS
def test_the_group_of_face_turns_has_the_known_order(generators: dict[str, Permutation]) -> None:
    # 8! x 3^7 x 12! x 2^11 / 2; SymPy, and GAP says the same.
    assert PermutationGroup(list(generators.values())).order() == 43252003274489856000


@GENERATORS
def test_right_and_top_alone_make_a_smaller_group(generators: dict[str, Permutation]) -> None:
    # GAP; SymPy gives the same.
    assert PermutationGroup([generators["R"], generators["U"]]).order() == 73483200


@pytest.mark.parametrize(
    ("text", "order"),
    # Independent computation, repeated here in SymPy; 1260 is the largest order of all (OEIS A338883).
    [("R U", 105), ("R U R' U'", 6), ("R U2 D' B D'", 1260), ("R U'", 63), ("R", 4), ("R2 U2", 6)],
)
def test_sequences_repeat_after_the_known_number_of_rounds(text: str, order: int) -> None:
    assert product(text, BY_HAND).order() == order
    assert product(text, OWN).order() == order
    assert order_by_turning(parse_turns(text)) == order


def test_a_lone_flip_twist_or_exchange_is_no_member_of_the_group() -> None:
    # Textbook; see the group order: one in twelve assembled cubes is legal.
    group = PermutationGroup(list(BY_HAND.values()))
    flip = Permutation(47)(24, 25)
    twist = Permutation(47)(0, 1, 2)
    exchange = Permutation(47)(24, 26)(25, 27)
    assert not any(group.contains(single) for single in (flip, twist, exchange))
    assert group.contains(flip * Permutation(47)(26, 27))


def positions_per_depth(turns: Sequence[Turn], pieces: slice, depth: int) -> list[int]:
    """How many arrangements of these pieces (corners 0-7, edges 8-19) need 0, 1, 2, ... turns."""
    tables = TABLES[:, pieces]
    level = np.array([[*SOLVED.corners, *SOLVED.edges][pieces]], dtype=np.uint8)
    before = level[:0]
    counts = [1]
    for _ in range(depth):
        reached = np.concatenate([tables[turn, np.arange(level.shape[1]), level] for turn in turns])
        found = np.unique(as_keys(reached))
        # A turn changes the depth by at most one, so what is not new is on this level or the one before.
        known = np.sort(as_keys(np.concatenate([before, level])))
        new = known[np.minimum(known.searchsorted(found), len(known) - 1)] != found
        before, level = level, found[new].view(np.uint8).reshape(-1, level.shape[1])
        counts.append(len(level))
    return counts


def as_keys(positions: NDArray[np.uint8]) -> NDArray[np.bytes_]:
    """Each row as one value that can be sorted; all rows are equally long, so no two rows become equal."""
    rows = np.ascontiguousarray(positions)
    return rows.view(f"S{rows.shape[1]}").ravel()


def test_positions_per_depth_with_half_turns_counted_as_one() -> None:
    # OEIS A080601.
    counts = positions_per_depth(TURNS, ALL_PIECES, 5)
    assert counts == [1, 18, 243, 3240, 43239, 574908]


def test_positions_per_depth_in_quarter_turns() -> None:
    # OEIS A080602.
    counts = positions_per_depth(QUARTER_TURNS, ALL_PIECES, 5)
    assert counts == [1, 12, 114, 1068, 10011, 93840]


def test_arrangements_of_the_eight_corners_in_quarter_turns() -> None:
    # OEIS A080630.
    counts = positions_per_depth(QUARTER_TURNS, CORNERS, 5)
    assert counts == [1, 12, 114, 924, 6539, 39528]


def test_placements_of_the_four_cross_edges() -> None:
    # Independent search; that eight turns always do is also common practice. 190080 = 12 x 11 x 10 x 9 x 2^4.
    counts = positions_per_depth(TURNS, CROSS, 9)
    assert counts == [1, 15, 158, 1394, 9809, 46381, 97254, 34966, 102, 0]
    assert sum(counts) == 190080


@pytest.mark.slow
def test_one_depth_further_the_counts_still_agree() -> None:
    # OEIS A080601 and A080602.
    assert positions_per_depth(TURNS, ALL_PIECES, 6)[6] == 7618438
    assert positions_per_depth(QUARTER_TURNS, ALL_PIECES, 6)[6] == 878880
