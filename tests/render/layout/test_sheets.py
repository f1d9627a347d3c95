from __future__ import annotations

import pytest
from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from tests.render.named import Named
from tests.render.sample_views import help_overlay, lesson
from tutor.ui.view import Button, Look, Table, Text

SCALES = (1.0, 1.25, 1.5, 2.0)


def test_an_overlay_is_the_last_panel_and_in_the_middle() -> None:
    scene = layout(help_overlay(), 1280, 800)
    rect = scene.panels[-1].rect
    assert scene.panels[-1].place is WindowPart.OVERLAY
    assert rect.x + rect.width / 2 == pytest.approx(640, abs=1)
    assert rect.y + rect.height / 2 == pytest.approx(400, abs=1)


def test_many_tables_on_a_sheet_stand_in_two_columns_in_line_with_each_other() -> None:
    rows = tuple((f"Ctrl+{letter}", f"do {letter}") for letter in "abcdef")
    tables = [Table((f"Group {number}", ""), (*rows, ("F" * number, "more"))) for number in range(1, 7)]
    sheet = layout(replace(lesson(), overlay=(Text("Keys"), *tables)), 1280, 800).panel(WindowPart.OVERLAY)
    assert sheet is not None
    said = {line.text: line.x for box in sheet.boxes for line in box.lines}
    # Each column has its own two left edges, one for the keys and one for what they do.
    assert len({said[f"Group {number}"] for number in range(1, 7)}) == 2
    assert len({line.x for box in sheet.boxes for line in box.lines if line.text.startswith("do ")}) == 2
    narrow = layout(replace(lesson(Look(text_scale=2.0)), overlay=tuple(tables)), 960, 640)
    panel = narrow.panel(WindowPart.OVERLAY)
    assert panel is not None
    assert len({line.x for box in panel.boxes for line in box.lines if line.text.startswith("Group")}) == 1


def test_a_sheet_of_buttons_alone_hangs_from_the_bars_right_end() -> None:
    menu = tuple(Button(Named(name), name) for name in ("Light / dark", "Settings", "Close"))
    for scale in SCALES:
        scene = layout(replace(lesson(Look(text_scale=scale)), overlay=menu), 960, 640)
        sheet, bar = scene.panel(WindowPart.OVERLAY), scene.panel(WindowPart.BAR)
        assert sheet is not None
        assert bar is not None
        assert sheet.rect.y == bar.rect.bottom
        assert 960 - 16 <= sheet.rect.right <= 960
        assert sheet.scroll_limit == 0
