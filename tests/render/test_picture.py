from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from render.paint.painter import Pointer
from render.picture import picture_of
from render.theme import load_theme
from tests.render.named import Named
from tests.render.sample_views import every_view, help_overlay, home, lesson
from tutor.ui.view import Look


def test_a_picture_has_the_size_in_pixels() -> None:
    assert picture_of(home(), 960, 640).shape == (640, 960, 4)
    assert picture_of(home(), 960, 640, 1.25).shape == (800, 1200, 4)


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_page_has_the_themes_ground_and_is_opaque(theme: str) -> None:
    picture = picture_of(home(Look(theme=theme)))
    ground = [round(255 * channel) for channel in load_theme(theme).ground.rgb]
    assert picture[-2, 2, :3].tolist() == ground
    assert (picture[:, :, 3] == 255).all()


def test_the_same_view_gives_the_same_picture() -> None:
    for view in every_view():
        assert (picture_of(view, 960, 640) == picture_of(view, 960, 640)).all()


def test_the_cube_stands_on_the_stage_and_the_overlay_dims_it() -> None:
    stage = layout(lesson(), 1280, 800).stage
    assert stage is not None
    rows, columns = slice(int(stage.y), int(stage.bottom)), slice(0, int(stage.width))
    bright = picture_of(lesson())[rows, columns, :3].astype(int)
    dim = picture_of(help_overlay())[rows, columns, :3].astype(int)
    spread = bright.max(axis=2) - bright.min(axis=2)
    assert (spread > 120).mean() > 0.05
    assert dim[4, 4].sum() < 0.7 * bright[4, 4].sum()


def test_the_picture_changes_only_where_the_view_did() -> None:
    view = lesson()
    assert view.rail is not None
    before = picture_of(view).astype(int)
    after = picture_of(replace(view, notice="Another notice")).astype(int)
    notice = layout(view, 1280, 800).panel(WindowPart.NOTICE)
    assert notice is not None
    changed = np.flatnonzero((before != after).any(axis=(1, 2)))
    assert changed.size > 0
    assert changed.min() >= notice.rect.y


def test_the_pointer_is_seen() -> None:
    assert (picture_of(home()) != picture_of(home(), pointer=Pointer(hover=Named("lesson 2")))).any()
