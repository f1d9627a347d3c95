from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from render.layout.boxes import BoxKind, Place
from render.layout.panels import layout
from render.offscreen import render_stage
from render.paint.gallery import SIDE, Gallery
from render.picture import picture_of
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


def test_places_do_not_overlap_and_lie_on_the_large_picture() -> None:
    gallery = Gallery()
    count = (SIDE // 300) ** 2
    places = [gallery.spot(stage(i), LOOK, 300) for i in range(count)]
    assert len(set(places)) == count
    assert all(column % 300 == row % 300 == 0 and max(column, row) + 300 <= SIDE for column, row in places)


def test_when_all_places_are_taken_the_one_not_asked_for_longest_gives_way() -> None:
    gallery = Gallery()
    count = (SIDE // 300) ** 2
    places = [gallery.spot(stage(i), LOOK, 300) for i in range(count)]
    gallery.spot(stage(0), LOOK, 300)
    assert gallery.spot(stage(count), LOOK, 300) == places[1]
    assert len({(each.column, each.row) for each in gallery.wanted}) == len(gallery.wanted)


def test_another_theme_palette_or_size_is_another_picture() -> None:
    gallery = Gallery()
    place = gallery.spot(stage(1), LOOK, 100)
    assert gallery.spot(stage(1), replace(LOOK, theme="dark"), 100) != place
    assert gallery.spot(stage(1), replace(LOOK, letters=True), 100) != place
    gallery.wanted.clear()
    gallery.spot(stage(1), LOOK, 120)
    assert len(gallery.wanted) == 1


def test_a_small_cube_is_drawn_as_the_stage_draws_it() -> None:
    view = case_book()
    page = layout(view, 1280, 800).panel(Place.PAGE)
    assert page is not None
    box = next(box for box in page.boxes if box.kind is BoxKind.MINIATURE)
    assert box.picture is not None
    assert box.stage is not None
    side = int(box.picture.width)
    alone = render_stage(box.stage, replace(view.look, mirrors=False), (side, side))
    x, y = int(box.picture.x), int(box.picture.y)
    shown = picture_of(view)[y : y + side, x : x + side]
    # The corners are rounded off; the rest is the same.
    inner = slice(8, side - 8)
    assert (shown[inner, inner, :3] == alone[inner, inner, :3]).all()
    assert np.ptp(shown[inner, inner, :3]) > 100
