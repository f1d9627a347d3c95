"""Drawing only what changed must give the very picture that drawing everything gives."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from render.offscreen import Picture, shared_context
from render.region import Region, changed_regions
from render.sight import sight
from render.theme import load_theme
from tutor.ui.view import Arrow, Camera, Face, Look, Stage, Turn, Turning

SIZE = (420, 300)
SOLVED = tuple(sticker // 9 for sticker in range(54))
OTHER = tuple((colour + 1) % 6 for colour in SOLVED)
STAGE = Stage(
    SOLVED,
    dimmed=frozenset((0, 1, 2)),
    outlined=frozenset((26, 17)),
    framed=frozenset((24, 25)),
    arrow=Arrow(Turn.F),
)
STEPS = {
    "a turn begins": (STAGE, replace(STAGE, turning=Turning(Face.U, 0.2))),
    "a turn goes on": (
        replace(STAGE, turning=Turning(Face.R, 0.2)),
        replace(STAGE, turning=Turning(Face.R, 0.9)),
    ),
    "a turn ends": (replace(STAGE, turning=Turning(Face.L, 1.4)), replace(STAGE, colours=OTHER)),
    "another layer": (
        replace(STAGE, turning=Turning(Face.D, pi / 3, 2)),
        replace(STAGE, turning=Turning(Face.B, -0.4)),
    ),
    "glow": (STAGE, replace(STAGE, glowing=frozenset((26, 8)), outlined=frozenset((8,)))),
    "a fade": (STAGE, replace(STAGE, crossfade=OTHER, crossfade_mix=0.4)),
    "a fade goes on": (
        replace(STAGE, crossfade=OTHER, crossfade_mix=0.4),
        replace(STAGE, crossfade=OTHER, crossfade_mix=0.6),
    ),
    "the camera moves": (STAGE, replace(STAGE, camera=Camera(10, 40, 1.2))),
    "another arrow": (STAGE, replace(STAGE, arrow=Arrow(Turn.U2))),
}


def drawn(*stages: Stage, look: Look, smooth: bool = True) -> Picture:
    """The last of the stages, drawn after the others on one kept picture, with one sample a pixel or four."""
    theme, viewport = load_theme("light"), (0, 0, *SIZE)

    def paint() -> None:
        from render.kept_stage import KeptStage
        from render.stage import StageRenderer
        from render.surface import Surface

        renderer, screen = StageRenderer(), Surface(smooth=False)
        kept = KeptStage(renderer, smooth)

        def all_stages() -> None:
            for stage in stages:
                kept.draw(stage, look, theme, viewport)

        screen.draw(SIZE, all_stages)
        screen.copy_to(viewport)
        for owned in (kept, renderer, screen):
            owned.delete()

    return shared_context().picture(SIZE, paint)


@pytest.mark.parametrize("mirrors", [True, False])
@pytest.mark.parametrize("step", STEPS)
def test_what_changed_drawn_over_what_was_is_the_whole_picture(step: str, mirrors: bool) -> None:
    look = Look(mirrors=mirrors)
    before, after = STEPS[step]
    assert np.array_equal(drawn(before, after, look=look), drawn(after, look=look))
    assert not np.array_equal(drawn(before, look=look), drawn(after, look=look))


TURN = [replace(STAGE, turning=Turning(Face.R, angle)) for angle in (0.1, 0.5, 0.9)]
MARKED_OTHERWISE = [
    TURN[0],
    replace(TURN[1], arrow=None, framed=frozenset((6,))),
    replace(TURN[2], arrow=None, outlined=frozenset((8,)), glowing=frozenset((20,))),
]
ANOTHER_LAYER = [*TURN[:2], replace(STAGE, turning=Turning(Face.D, 0.3)), TURN[2]]
ANOTHER_CUBE = [*TURN[:2], replace(TURN[2], colours=OTHER)]
SEEN_OTHERWISE = [*TURN[:2], replace(TURN[2], camera=Camera(10, 40, 1.2)), TURN[2]]


@pytest.mark.parametrize("smooth", [True, False], ids=["four samples", "one sample"])
@pytest.mark.parametrize("stages", [TURN, MARKED_OTHERWISE, ANOTHER_LAYER, ANOTHER_CUBE, SEEN_OTHERWISE])
def test_the_layer_drawn_over_what_rests_is_the_whole_picture(stages: list[Stage], smooth: bool) -> None:
    # The frame before the last one is shown twice, so that with one sample, too, it is a kept one.
    shown = [*stages[:-1], stages[-2], stages[-1]]
    afresh = drawn(stages[-1], look=Look(), smooth=smooth)
    assert np.array_equal(drawn(*shown, look=Look(), smooth=smooth), afresh)


def regions_of(before: Stage, after: Stage) -> tuple[Region, ...] | None:
    """What is to be drawn anew, in a viewport of SIZE with mirrors."""
    return changed_regions(before, after, sight(after.camera, SIZE, True), True)


def test_a_turn_of_one_layer_leaves_most_of_the_picture_alone() -> None:
    regions = regions_of(*STEPS["a turn goes on"])
    assert regions is not None
    assert 0 < sum(width * height for *_, width, height in regions) < 0.5 * SIZE[0] * SIZE[1]


def test_the_same_stage_needs_nothing_drawn() -> None:
    assert regions_of(STAGE, STAGE) == ()


def test_when_the_camera_moves_everything_is_drawn() -> None:
    assert regions_of(*STEPS["the camera moves"]) is None


def test_what_turns_need_is_freed_and_made_anew() -> None:
    theme, look = load_theme("light"), Look()

    def paint() -> None:
        from render.kept_stage import KeptStage
        from render.stage import StageRenderer
        from render.surface import Surface

        renderer, screen = StageRenderer(), Surface(smooth=False)
        kept = KeptStage(renderer)

        def all_stages() -> None:
            for stage in TURN[:2]:
                kept.draw(stage, look, theme, (0, 0, 200, 150))
            kept.spare()
            for stage in TURN:
                kept.draw(stage, look, theme, (0, 0, *SIZE))

        screen.draw(SIZE, all_stages)
        screen.copy_to((0, 0, *SIZE))
        for owned in (kept, renderer, screen):
            owned.delete()

    assert np.array_equal(shared_context().picture(SIZE, paint), drawn(TURN[-1], look=look))
