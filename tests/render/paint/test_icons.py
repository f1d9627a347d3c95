from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray

from render.paint.icons import ICONS, Disc
from tutor.ui.view import Mark

SIZE = 24
GRID = (np.arange(SIZE) + 0.5) / SIZE


def drawn(name: str) -> NDArray[np.bool_]:
    """The sign in black and white: what is left of it without colour."""
    x, y = np.meshgrid(GRID, GRID)
    picture = np.zeros((SIZE, SIZE), bool)
    for shape in ICONS[name]:
        if isinstance(shape, Disc):
            distance = np.hypot(x - shape.x, y - shape.y)
            inside = distance <= shape.radius
            picture |= inside & (distance >= shape.radius - shape.ring) if shape.ring else inside
        else:
            along = np.array([shape.x1 - shape.x0, shape.y1 - shape.y0])
            t = np.clip(((x - shape.x0) * along[0] + (y - shape.y0) * along[1]) / (along @ along), 0, 1)
            stroke = np.hypot(x - shape.x0 - t * along[0], y - shape.y0 - t * along[1]) <= shape.width / 2
            picture = picture & ~stroke if shape.cut else picture | stroke
    return picture


def alike(one: str, two: str) -> float:
    first, second = drawn(one), drawn(two)
    return float((first & second).sum() / (first | second).sum())


@pytest.mark.parametrize(
    "names",
    [
        ("optimal", "acceptable", "detour", "waiting", "making"),
        ("good", "neutral", "warning"),
        ("done", "current", "ahead"),
    ],
)
def test_signs_of_a_set_differ_by_shape_and_not_by_colour_alone(names: tuple[str, ...]) -> None:
    # WCAG 2.2, 1.4.1: colour is not the only means of telling things apart.
    for one, two in combinations(names, 2):
        assert alike(one, two) < 0.5, (one, two)


def test_every_mark_has_a_sign() -> None:
    assert {mark.value for mark in Mark if mark is not Mark.NONE} <= set(ICONS)


def test_signs_stay_in_their_square() -> None:
    for name, shapes in ICONS.items():
        for shape in shapes:
            if isinstance(shape, Disc):
                ends = [
                    shape.x - shape.radius,
                    shape.x + shape.radius,
                    shape.y - shape.radius,
                    shape.y + shape.radius,
                ]
            else:
                ends = [shape.x0, shape.y0, shape.x1, shape.y1]
            assert min(ends) >= 0, name
            assert max(ends) <= 1, name
