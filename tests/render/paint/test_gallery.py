from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from render.offscreen import render_stage
from render.paint.gallery import ACROSS, LARGEST, Gallery
from render.paint.glyph_atlas import Atlas
from render.paint.painter import Pointer
from render.paint.scene_painter import ScenePainter
from render.picture import picture_of
from render.theme import load_theme
from tests.render.sample_views import SOLVED, case_book
from tutor.ui.view import Face, Look, Stage, Turning

LOOK = Look()


def stage(number: int) -> Stage:
    return Stage(SOLVED, Turning(Face.U, 0.001 * number))


def test_a_picture_is_drawn_once_and_found_again() -> None:
    gallery = Gallery()
    first = gallery.spot(stage(1), LOOK, 100)
    assert gallery.spot(stage(2), LOOK, 100) != first
    assert gallery.spot(stage(1), LOOK, 100) == first
    assert len(gallery.wanted) == 2


def filled(gallery: Gallery, size: int) -> list[tuple[int, int]]:
    """The places of as many pictures of this size as there is room for."""
    count = min(ACROSS, LARGEST // min(size, LARGEST)) ** 2
    return [gallery.spot(stage(number), LOOK, size) for number in range(count)]


@pytest.mark.parametrize("size", [56, 112, 300, LARGEST, LARGEST + 1])
def test_places_do_not_overlap_and_lie_on_the_large_picture(size: int) -> None:
    gallery = Gallery()
    places = filled(gallery, size)
    assert len(set(places)) == len(places)
    drawn = min(size, LARGEST)
    assert all(column % drawn == row % drawn == 0 for column, row in places)
    assert max(max(place) for place in places) + drawn == gallery.side <= LARGEST


def test_when_all_places_are_taken_the_one_not_asked_for_longest_gives_way() -> None:
    gallery = Gallery()
    places = filled(gallery, 300)
    gallery.spot(stage(0), LOOK, 300)
    assert gallery.spot(stage(len(places)), LOOK, 300) == places[1]
    assert len({(each.column, each.row) for each in gallery.wanted}) == len(gallery.wanted)


def test_another_theme_palette_arrangement_or_size_is_another_picture() -> None:
    gallery = Gallery()
    place = gallery.spot(stage(1), LOOK, 100)
    assert gallery.spot(stage(1), replace(LOOK, theme="dark"), 100) != place
    assert gallery.spot(stage(1), replace(LOOK, letters=True), 100) != place
    assert gallery.spot(stage(1), replace(LOOK, arrangement=(3, 4, 5, 0, 1, 2)), 100) != place
    gallery.wanted.clear()
    gallery.spot(stage(1), LOOK, 120)
    assert len(gallery.wanted) == 1


@pytest.mark.parametrize("text_scale", [1.0, 1.25, 1.75])
@pytest.mark.parametrize("ratio", [1.0, 1.25, 1.75])
def test_all_small_cubes_of_a_frame_have_one_size_wherever_they_lie(text_scale: float, ratio: float) -> None:
    sizes: set[int] = set()

    class Asked(Gallery):
        def spot(self, stage: Stage, look: Look, size: int) -> tuple[int, int]:
            sizes.add(size)
            return super().spot(stage, look, size)

    view = case_book()
    view = replace(view, look=replace(view.look, text_scale=text_scale))
    scene, painter = layout(view, 1111, 777, ratio), ScenePainter(Atlas(), Asked(), look=view.look)
    for scrolled in (0.0, 7.0, 40.4, 111.0):
        painter.paint(scene, load_theme(view.look.theme), ratio, {WindowPart.PAGE: scrolled}, Pointer())
    assert len(sizes) == 1


@pytest.mark.parametrize("text_scale", [1.0, 1.25])
def test_a_small_cube_is_drawn_as_the_stage_draws_it_at_every_size_in_turn(text_scale: float) -> None:
    view = case_book()
    view = replace(view, look=replace(view.look, text_scale=text_scale))
    for ratio in (1.0, 1.75, 1.0):
        page = layout(view, 1280, 800, ratio).panel(WindowPart.PAGE)
        assert page is not None
        cubes = [(box.picture, box.stage) for box in page.boxes if box.picture and box.picture.bottom < 600]
        shown = picture_of(view, pixel_ratio=ratio)
        for rect, drawn in (cubes[0], cubes[-1]):
            assert drawn is not None
            side, x, y = int(rect.width * ratio), round(rect.x * ratio), round(rect.y * ratio)
            alone = render_stage(drawn, replace(view.look, mirrors=False), (side, side))
            # The corners are rounded off; the rest is the same.
            margin = round(8 * ratio)
            inner = slice(margin, side - margin)
            there = shown[y : y + side, x : x + side]
            assert (there[inner, inner, :3] == alone[inner, inner, :3]).all()
            assert np.ptp(there[inner, inner, :3]) > 100
