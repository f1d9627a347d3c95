"""The unfolded cube and its palette: where stickers lie, how they look, and the cursor in sight."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from render.layout.boxes import Box, BoxKind, Rect, WindowPart
from render.layout.buttons import Metrics
from render.layout.net import LEAST_CELL, NET_WIDTH, place_net, place_palette
from render.layout.panels import layout
from render.picture import picture_of
from render.stage.palette import load_palette, palette_names
from render.theme import load_theme, theme_names
from render.window.interface import Interface
from tests.render.named import Named
from tests.render.sample_views import SOLVED
from tests.render.test_theme import contrast
from tutor.ui.view import HIDDEN, Face, Look, Net, Palette, Stage, Swatch, View

ACTIONS = tuple(None if place % 9 == 4 else Named(f"paint:{place}") for place in range(54))
NAMES = ("Y 9", "W 10", "R 9", "O 9", "G 9", "B 8", "Erase")
COLOURS = Palette(
    tuple(Swatch(Named(f"colour:{i}"), i if i < 6 else HIDDEN, name, i == 2) for i, name in enumerate(NAMES))
)


def view_of(net: Net, look: Look | None = None) -> View:
    return View("painting", "Paint", stage=Stage(net.colours), card=(COLOURS, net), look=look or Look())


def stickers(view: View, wide: float = 1280.0, high: float = 800.0) -> dict[int, Box]:
    """The boxes of the stickers that can be pressed, by number."""
    boxes = [box for _, box in layout(view, wide, high).boxes() if box.kind is BoxKind.STICKER and box.action]
    return {int(str(box.action).removeprefix("paint:")): box for box in boxes}


def test_the_faces_lie_as_those_of_an_unfolded_cube() -> None:
    boxes = place_net(Net(SOLVED, tuple(Named(i) for i in range(54))), Rect(0.0, 0.0, 400.0, 0.0)).boxes
    middles = {int(str(box.action)) // 9: box.rect for box in boxes if int(str(box.action)) % 9 == 4}
    u, d, left, r, f, b = (middles[face] for face in Face)
    assert u.x == f.x == d.x
    assert left.y == f.y == r.y == b.y
    assert u.y < f.y < d.y
    assert left.x < f.x < r.x < b.x


@pytest.mark.parametrize("available", [NET_WIDTH, 320.0, 379.0, 900.0])
def test_stickers_are_squares_that_a_pointer_hits_and_fit(available: float) -> None:
    for box in place_net(Net(SOLVED, ACTIONS), Rect(10.0, 0.0, available, 0.0)).boxes:
        assert box.rect.width == box.rect.height >= LEAST_CELL
        assert box.rect.x >= 10.0
        assert box.rect.right <= 10.0 + available


@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
def test_the_smallest_window_has_room_for_net_and_cube(scale: float) -> None:
    scene = layout(view_of(Net(SOLVED, ACTIONS), Look(text_scale=scale)), 960, 640)
    card = scene.panel(WindowPart.CARD)
    assert card is not None
    assert scene.stage is not None
    assert scene.stage.width >= 0.5 * 960
    for box in card.boxes:
        assert card.rect.x <= box.rect.x
        assert box.rect.right <= card.rect.right


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_the_palette_stands_in_as_few_rows_as_its_words_allow(scale: float) -> None:
    boxes = place_palette(COLOURS, Rect(0.0, 0.0, 300.0, 0.0), Metrics(scale)).boxes
    rows = sorted({box.rect.y for box in boxes})
    assert len(rows) == (1 if scale == 1.0 else 2)
    assert len(boxes) == 7


@pytest.mark.parametrize("theme", theme_names())
@pytest.mark.parametrize("palette", palette_names())
def test_every_sticker_is_drawn_in_its_colour_by_the_chosen_arrangement(theme: str, palette: str) -> None:
    colours = tuple(HIDDEN if place % 7 == 3 else place * 5 % 6 for place in range(54))
    look = Look(theme=theme, palette=palette, arrangement=(1, 0, 4, 5, 2, 3))
    view = view_of(Net(colours, ACTIONS), look)
    picture = picture_of(view)
    expected = [255 * np.array(colour.rgb) for colour in load_palette(palette).stickers]
    for sticker, box in stickers(view).items():
        shown = picture[round(box.rect.y + 9), round(box.rect.x + 9), :3].astype(float)
        if colours[sticker] != HIDDEN:
            np.testing.assert_allclose(shown, expected[look.arrangement[colours[sticker]]], atol=1.01)
        else:
            assert all(np.abs(shown - each).max() > 12 for each in expected)


def test_letters_marks_and_the_cursor_change_the_picture_where_they_are() -> None:
    net = Net(SOLVED, ACTIONS)
    plain = picture_of(view_of(net)).astype(int)

    def changed(other: View, sticker: int) -> bool:
        rect = stickers(other)[sticker].rect
        rows, columns = (slice(round(start), round(start + rect.width)) for start in (rect.y, rect.x))
        return bool(np.abs(picture_of(other).astype(int)[rows, columns] - plain[rows, columns]).max() > 60)

    assert changed(view_of(net, Look(letters=True)), 12)
    assert changed(view_of(replace(net, marked=frozenset({12}))), 12)
    assert not changed(view_of(replace(net, marked=frozenset({12}))), 14)
    assert changed(view_of(replace(net, cursor=12)), 12)


@pytest.mark.parametrize("name", theme_names())
def test_the_ring_of_the_cursor_is_seen_beside_every_sticker(name: str) -> None:
    # WCAG 2.2, 1.4.11: 3:1; the ring has a rim in the ground's colour, so only that one must differ from it.
    theme = load_theme(name)
    assert contrast(theme.focus, theme.ground) >= 3.0


def test_the_cursor_comes_into_sight_when_it_moves() -> None:
    net, interface = Net(SOLVED, ACTIONS, cursor=0), Interface()
    look = Look(text_scale=2.0)
    interface.show(view_of(net, look), 960, 640, 1.0)
    interface.show(view_of(replace(net, cursor=17), look), 960, 640, 1.0)
    scene = interface.scene
    assert scene is not None
    card = scene.panel(WindowPart.CARD)
    assert card is not None
    (box,) = [box for box in card.boxes if box.kind is BoxKind.STICKER and box.selected]
    top = box.rect.y - interface.scrolls.get(WindowPart.CARD, 0.0)
    assert card.rect.y <= top
    assert top + box.rect.height <= card.rect.bottom
