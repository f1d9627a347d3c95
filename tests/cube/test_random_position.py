"""Random positions: legal, uniform, and repeatable from a seed."""

from collections import Counter
from collections.abc import Hashable, Iterable, MutableSequence
from random import Random

import pytest

from tutor.cube.faces import Turn
from tutor.cube.position import SOLVED, TURN_POSITIONS, Position
from tutor.cube.random_position import random_position
from tutor.cube.stickers import check_legal, is_odd

DRAWS = 4800

# Values of the chi-square distribution passed once in a thousand, by degrees of freedom (standard tables,
# for example the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4). The random seed is fixed, so
# the test gives the same answer every time.
CRITICAL = {1: 10.828, 2: 13.816, 23: 49.728}


@pytest.fixture(scope="module")
def drawn() -> list[Position]:
    random = Random(20240101)
    return [random_position(random) for _ in range(DRAWS)]


def chi_square(values: Iterable[Hashable], kinds: int) -> float:
    counts = Counter(values)
    expected = counts.total() / kinds
    missing = kinds - len(counts)
    return sum((count - expected) ** 2 / expected for count in counts.values()) + missing * expected


def test_every_draw_is_legal(drawn: list[Position]) -> None:
    for position in drawn[:500]:
        check_legal(position)


@pytest.mark.parametrize("piece", range(8))
def test_a_corner_is_in_any_place_turned_any_way_equally_often(drawn: list[Position], piece: int) -> None:
    assert chi_square((position.corners[piece] for position in drawn), 24) < CRITICAL[23]
    assert chi_square((position.corners[piece] % 3 for position in drawn), 3) < CRITICAL[2]


@pytest.mark.parametrize("piece", range(12))
def test_an_edge_is_in_any_place_turned_either_way_equally_often(drawn: list[Position], piece: int) -> None:
    assert chi_square((position.edges[piece] for position in drawn), 24) < CRITICAL[23]
    assert chi_square((position.edges[piece] % 2 for position in drawn), 2) < CRITICAL[1]


def test_even_and_odd_arrangements_are_equally_frequent(drawn: list[Position]) -> None:
    odd = (is_odd([location // 3 for location in position.corners]) for position in drawn)
    assert chi_square(odd, 2) < CRITICAL[1]


def test_the_order_of_two_pieces_is_even_whatever_the_repair_of_parity(drawn: list[Position]) -> None:
    # The repair exchanges the first two edges; were it not one to one, their order would lean one way.
    leaning = (position.edges[0] < position.edges[1] for position in drawn)
    assert chi_square(leaning, 2) < CRITICAL[1]


def test_the_same_seed_draws_the_same_positions() -> None:
    assert [random_position(Random(7)) for _ in range(3)] == [random_position(Random(7)) for _ in range(3)]
    assert random_position(Random(7)) != random_position(Random(8))


class Rigged(Random):
    """A source of chance whose first draw is a given position without twists and flips."""

    def __init__(self, first: Position) -> None:
        super().__init__(1)
        corners = [location // 3 for location in first.corners]
        self.orders = [corners, [location // 2 for location in first.edges]]

    def shuffle(self, x: MutableSequence[int]) -> None:
        if self.orders:
            x[:] = self.orders.pop(0)
        else:
            super().shuffle(x)
            self.drawn_again = True

    drawn_again = False

    def randrange(self, *arguments: int) -> int:  # type: ignore[override]
        return super().randrange(*arguments) if self.drawn_again else 0


@pytest.mark.parametrize("first", [SOLVED, SOLVED.turned(Turn.U), SOLVED.turned(Turn.D2)])
def test_4b3_a_position_of_fewer_than_two_turns_is_drawn_again(first: Position) -> None:
    random = Rigged(first)
    position = random_position(random)
    assert random.drawn_again
    assert position not in (SOLVED, *TURN_POSITIONS)


def test_4b3_two_turns_are_enough() -> None:
    first = SOLVED.after([Turn.U, Turn.D])
    random = Rigged(first)
    assert random_position(random) == first
    assert not random.drawn_again
