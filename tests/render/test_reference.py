"""Pictures of the stage and of whole screens beside pictures kept from before.

They are compared where Mesa's llvmpipe draws, which the README's test command installs; another driver rounds
otherwise. After the looks have changed on purpose, ``python -m tests.render.test_reference`` makes them anew.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from numpy.typing import NDArray
from PIL import Image

from render.offscreen import render_stage, shared_context
from render.picture import picture_of
from tests.render import sample_views
from tutor.ui.view import Arrow, Camera, Face, Look, Stage, Turn, Turning

FOLDER = Path(__file__).parent / "reference"
SIZE = (400, 300)
MIXED = tuple((5 * sticker + sticker // 7) % 6 for sticker in range(54))
SOLVED = tuple(face for face in range(6) for _ in range(9))
MARKED = Stage(
    SOLVED, dimmed=frozenset(range(0, 27, 2)), outlined=frozenset({25, 26}), framed=frozenset({20, 23})
)
LIGHT, DARK = Look(), Look(theme="dark")

Picture = NDArray[np.uint8]
PICTURES: dict[str, Callable[[], Picture]] = {
    "solved": lambda: render_stage(Stage(SOLVED), LIGHT, SIZE),
    "mixed-dark": lambda: render_stage(Stage(MIXED), DARK, SIZE),
    "marked": lambda: render_stage(MARKED, LIGHT, SIZE),
    "turning": lambda: render_stage(
        replace(MARKED, turning=Turning(Face.R, 0.6), arrow=Arrow(Turn.U)), DARK, SIZE
    ),
    "letters": lambda: render_stage(
        Stage(MIXED, camera=Camera(-20.0, 40.0, 1.2)), Look(palette="colour-blind", letters=True), SIZE
    ),
    "no-mirrors": lambda: render_stage(Stage(MIXED), Look(palette="high-contrast", mirrors=False), SIZE),
    "home": lambda: picture_of(sample_views.home(), 960, 640),
    "lesson-dark": lambda: picture_of(sample_views.lesson(DARK), 960, 640),
}
NEAR, FEW = 24, 0.002
"""A colour value may differ by this much; this share of the pixels, at edges, by more."""


def renderer() -> str:
    with shared_context().current():
        from pyglet import gl

        return str(gl.gl_info.get_renderer())


def different(one: Picture, two: Picture) -> float:
    """The share of pixels that differ visibly."""
    apart = np.abs(one[..., :3].astype(np.int16) - two[..., :3].astype(np.int16)).max(axis=-1)
    return float((apart > NEAR).mean())


def kept(name: str) -> Picture:
    return np.asarray(Image.open(FOLDER / f"{name}.png").convert("RGB"))


@pytest.mark.parametrize("name", PICTURES)
def test_what_is_drawn_looks_as_before(name: str) -> None:
    drawn = PICTURES[name]()
    assert drawn.shape[:2] == kept(name).shape[:2]
    if "llvmpipe" in renderer():
        assert different(drawn, kept(name)) <= FEW


def test_a_changed_sticker_or_a_missing_arrow_is_noticed() -> None:
    # What the comparison must be able to see, whatever the driver.
    one = render_stage(Stage(SOLVED), LIGHT, SIZE)
    changed = Stage((*SOLVED[:4], 2, *SOLVED[5:]))
    assert different(one, render_stage(changed, LIGHT, SIZE)) > FEW
    assert different(one, render_stage(Stage(SOLVED, arrow=Arrow(Turn.U)), LIGHT, SIZE)) > FEW


def test_no_picture_is_kept_that_nothing_is_compared_with() -> None:
    assert {path.stem for path in FOLDER.iterdir()} == set(PICTURES)


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for each, draw in PICTURES.items():
        Image.fromarray(draw()[..., :3]).save(FOLDER / f"{each}.png", optimize=True)
