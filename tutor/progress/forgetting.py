"""How a memory fades and is strengthened: the formulas of FSRS, version 6, in plain arithmetic.

Formulas and parameters are those that the authors of the model publish with their library ``fsrs`` (6.3, MIT
licence; its documentation tells what each parameter is for). The library goes through a long history five
times slower; the tests hold every figure against it to the last digit, so the order of the operations stays
as it is there.

A rating is 1, again, 2, hard, or 3, good; the library's fourth, easy, is never given. Days are whole ones.
"""

from __future__ import annotations

from math import e

PARAMETERS = (
    0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796,
    1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
)  # fmt: skip
WANTED_CHANCE = 0.9
"""A case comes back when the chance to remember it falls to this."""
AGAIN, HARD, GOOD = 1, 2, 3

_EASY = 4
_LEAST_LASTING = 0.001
_LONGEST_INTERVAL = 36_500
_W = PARAMETERS
_DECAY = -_W[20]
_FACTOR = 0.9 ** (1 / _DECAY) - 1


def chance_to_remember(lasting: float, days: int) -> float:
    """The chance, from 0 to 1, that something is remembered so many days after it was last met."""
    return float((1 + _FACTOR * days / lasting) ** _DECAY)


def interval(lasting: float) -> int:
    """After how many days the chance to remember falls to ``WANTED_CHANCE``: 1 to 36,500."""
    days = (lasting / _FACTOR) * ((WANTED_CHANCE ** (1 / _DECAY)) - 1)
    return int(min(max(round(days), 1), _LONGEST_INTERVAL))


def first_lasting(rating: int) -> float:
    """The days until 90 % are left, after the first meeting."""
    return max(_W[rating - 1], _LEAST_LASTING)


def first_difficulty(rating: int) -> float:
    """How hard something is by its first meeting, from 1 to 10."""
    return _from_1_to_10(_unbounded_difficulty(rating))


def next_difficulty(difficulty: float, rating: int) -> float:
    """How hard it is by one meeting more, from 1 to 10."""
    change = -(_W[6] * (rating - 3))
    damped = difficulty + (10.0 - difficulty) * change / 9.0
    return _from_1_to_10(_W[7] * _unbounded_difficulty(_EASY) + (1 - _W[7]) * damped)


def next_lasting(lasting: float, difficulty: float, rating: int, days: int) -> float:
    """The days until 90 % are left, after one meeting more, so many days after the last one."""
    if days < 1:
        found = _within_a_day(lasting, rating)
    elif rating == AGAIN:
        found = _forgotten(lasting, difficulty, chance_to_remember(lasting, days))
    else:
        found = _remembered(lasting, difficulty, chance_to_remember(lasting, days), rating)
    return max(found, _LEAST_LASTING)


def _unbounded_difficulty(rating: int) -> float:
    return float(_W[4] - (e ** (_W[5] * (rating - 1))) + 1)


def _from_1_to_10(difficulty: float) -> float:
    return min(max(difficulty, 1.0), 10.0)


def _within_a_day(lasting: float, rating: int) -> float:
    growth = (e ** (_W[17] * (rating - 3 + _W[18]))) * (lasting ** -_W[19])
    return float(lasting * (growth if rating == AGAIN else max(growth, 1.0)))


def _forgotten(lasting: float, difficulty: float, remembered: float) -> float:
    long_term = (
        _W[11]
        * (difficulty ** -_W[12])
        * (((lasting + 1) ** (_W[13])) - 1)
        * (e ** ((1 - remembered) * _W[14]))
    )
    return float(min(long_term, lasting / (e ** (_W[17] * _W[18]))))


def _remembered(lasting: float, difficulty: float, remembered: float, rating: int) -> float:
    penalty = _W[15] if rating == HARD else 1
    return float(
        lasting
        * (
            1
            + (e ** (_W[8]))
            * (11 - difficulty)
            * (lasting ** -_W[9])
            * ((e ** ((1 - remembered) * _W[10])) - 1)
            * penalty
        )
    )
