from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace
from numpy.typing import NDArray

from render.layout.boxes import Box, BoxKind, Panel, Rect, WindowPart
from render.layout.panels import layout
from render.paint.boxes import paint_box
from render.paint.glyph_atlas import Atlas
from render.paint.painter import FLOATS, Painter, Pointer
from render.paint.scene_painter import SPOT, ScenePainter, paint_panel, scrollbar
from render.text.typefaces import Typeface, rasterise
from render.text.typesetting import TextSetting, font
from render.theme import load_theme
from tests.render.named import Named
from tests.render.sample_views import every_view, help_overlay, lesson
from tutor.ui.view import Look

LIGHT = load_theme("light")


def painted(painter: ScenePainter, *given: Any) -> NDArray[np.float32]:
    """All shapes of a scene in the order of drawing."""
    shapes = painter.paint(*given)
    return np.concatenate([shapes.below, shapes.above])


@pytest.mark.parametrize("ratio", [1.0, 1.25, 2.0])
def test_shapes_are_finite_numbers_in_rows(ratio: float) -> None:
    painter = ScenePainter(Atlas())
    for view in every_view():
        shapes = painted(painter, layout(view, 1280, 800, ratio), LIGHT, ratio, {}, Pointer())
        assert shapes.shape[1] == FLOATS
        assert shapes.dtype == np.float32
        assert np.isfinite(shapes).all()
        assert len(shapes) > 100


def test_glyphs_sit_on_whole_pixels_and_show_their_letter() -> None:
    atlas, style = Atlas(), font(TextSetting.BODY)
    run = atlas.run(style, "Raise", 1.0)
    assert (run[:, :6] == np.rint(run[:, :6])).all()
    glyph = rasterise(Typeface.BODY, style.size, "R")
    assert glyph is not None
    _, _, width, height, column, row = run[0].astype(int)
    assert (atlas.coverage[row : row + height, column : column + width] == glyph.coverage).all()


def test_the_atlas_grows_and_keeps_the_places_it_gave() -> None:
    atlas, large = Atlas(), font(TextSetting.TITLE, 2.0, 2.0)
    first = atlas.run(large, "Pair", 2.0).copy()
    pictures = [atlas.coverage[r : r + h, c : c + w].copy() for _, _, w, h, c, r in first.astype(int)]
    generation = atlas.generation
    atlas.run(large, "".join(chr(code) for code in range(33, 400)), 2.0)
    assert atlas.generation > generation
    for (_, _, w, h, c, r), picture in zip(first.astype(int), pictures, strict=True):
        assert (atlas.coverage[r : r + h, c : c + w] == picture).all()


def test_glyphs_never_share_a_place() -> None:
    atlas = Atlas()
    seen = np.zeros((4096, atlas.coverage.shape[1]), int)
    places = set()
    for setting in TextSetting:
        run = atlas.run(font(setting), "Find Raise Part Join Insert", 1.0)
        places |= {tuple(row[2:].astype(int)) for row in run}
    for width, height, column, row in places:
        seen[row : row + height, column : column + width] += 1
    assert seen.max() == 1


def test_an_unchanged_scene_is_not_painted_anew_while_the_playhead_moves() -> None:
    painter, scene = ScenePainter(Atlas()), layout(lesson(), 1280, 800)
    assert scene.playhead is not None
    first = painter.paint(scene, LIGHT, 1.0, {}, Pointer())
    moved = replace(scene, playhead=replace(scene.playhead, position=2.0))
    second = painter.paint(moved, LIGHT, 1.0, {}, Pointer())
    assert second.painting == first.painting
    assert second.below is first.below
    assert first.above.shape == second.above.shape
    assert (first.above != second.above).any()
    assert painter.paint(scene, LIGHT, 1.0, {}, Pointer(hover=Named("continue"))).painting != first.painting


def test_scrolling_moves_the_card_and_nothing_else() -> None:
    scene = layout(lesson(Look(text_scale=2.0)), 960, 640)
    card = scene.panel(WindowPart.CARD)
    assert card is not None
    painter = ScenePainter(Atlas())
    still = painted(painter, scene, LIGHT, 1.0, {}, Pointer())
    moved = painted(painter, scene, LIGHT, 1.0, {WindowPart.CARD: 40.0}, Pointer())
    card_clip = np.array([card.rect.x, card.rect.y, card.rect.right, card.rect.bottom], np.float32)

    def others(shapes: np.ndarray) -> set[bytes]:
        inside = (np.abs(shapes[:, 20:24] - card_clip) < 1).all(axis=1) | (
            shapes[:, 0] > card.rect.right - 12
        )
        return {row.tobytes() for row in shapes[~inside]}

    assert others(still) == others(moved)
    assert {row.tobytes() for row in still} != {row.tobytes() for row in moved}


def test_the_overlay_is_painted_after_all_else() -> None:
    shapes = painted(ScenePainter(Atlas()), layout(help_overlay(), 1280, 800), LIGHT, 1.0, {}, Pointer())
    shade = np.flatnonzero((shapes[:, 2] == 1280) & (shapes[:, 3] == 800))
    assert len(shade) == 1
    assert shade[0] > len(layout(lesson(), 1280, 800).panels)
    assert len(shapes) - shade[0] > 50


def states(**changes: object) -> bytes:
    box = Box(Rect(0, 0, 120, 32), BoxKind.BUTTON, action=Named("go"))
    pointer = Pointer(hover=Named(changes.pop("hover", "")), pressed=Named(changes.pop("pressed", "")))
    painter = Painter(LIGHT, Atlas(), 1.0, pointer)
    paint_box(replace(box, **changes), painter, raised=False)  # type: ignore[arg-type]
    return painter.shapes().tobytes()


def test_every_state_of_a_button_is_seen() -> None:
    looks = [
        states(),
        states(hover="go"),
        states(hover="go", pressed="go"),
        states(selected=True),
        states(primary=True),
        states(enabled=False),
        states(focused=True),
    ]
    assert len(set(looks)) == len(looks)


def test_the_scrollbar_reaches_both_ends() -> None:
    panel = Panel(WindowPart.CARD, Rect(0, 100, 300, 400), (), 1000)
    top, bottom = scrollbar(panel, 0), scrollbar(panel, panel.scroll_limit)
    assert top is not None
    assert bottom is not None
    assert top[1].y == top[0].y
    assert bottom[1].bottom == pytest.approx(bottom[0].bottom)
    assert scrollbar(replace(panel, content=400), 0) is None


@pytest.mark.parametrize(
    ("content", "scroll", "shaded"),
    [(400, 0, []), (1000, 0, ["below"]), (1000, 300, ["above", "below"]), (1000, 600, ["above"])],
)
def test_a_panel_is_in_shadow_where_there_is_more_to_read(
    content: float, scroll: float, shaded: list[str]
) -> None:
    panel, painter = Panel(WindowPart.CARD, Rect(0, 100, 300, 400), (), content), Painter(LIGHT, Atlas(), 1.0)
    paint_panel(panel, painter, scroll, Rect(0, 0, 900, 600))
    shapes = painter.shapes()
    shadows = shapes[(shapes[:, 4:8] == np.array(LIGHT.shadow, np.float32)).all(axis=1)]
    middles = {"above": 100, "below": 500}
    assert [name for name, y in middles.items() if (shadows[:, 1] + shadows[:, 3] / 2 == y).any()] == shaded
    assert len(shadows) == len(shaded)
    # What hides nothing of its neighbours is cut off where the panel ends.
    assert (shadows[:, 20:24] == np.array([0, 100, 300, 500], np.float32)).all()


def test_a_spotlight_shades_all_but_a_disc_and_leaves_the_rest_as_it_is() -> None:
    painter, scene = ScenePainter(Atlas()), layout(lesson(), 1280, 800)
    dark = painter.paint(scene, LIGHT, 1.0, {}, Pointer())
    first = painter.paint(scene, LIGHT, 1.0, {}, Pointer(light=(300.0, 200.0)))
    second = painter.paint(scene, LIGHT, 1.0, {}, Pointer(light=(310.0, 200.0)))
    assert dark.painting == first.painting == second.painting
    assert len(first.above) == len(dark.above) + 1
    x, y, wide, high = first.above[0, :4]
    assert (x + wide / 2, y + high / 2) == (300.0, 200.0)
    outer, ring = first.above[0, 12:14]
    assert outer - ring == pytest.approx(SPOT * 800)
    assert outer >= 1280 + 300
    assert second.above[0, 0] == x + 10
