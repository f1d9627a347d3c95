"""The map of a group: cells under their column's number and beside their row's name, in any width."""

from __future__ import annotations

import pytest

from render.layout.blocks import place_blocks
from render.layout.boxes import Box, BoxKind, Rect
from render.layout.buttons import Metrics
from tests.render.layout.test_panels import check_boxes
from tests.render.named import Named
from tutor.ui.view import CaseMap, MapCell, MapColumn, MapRow, Tone

TONES = (Tone.MUTED, Tone.NEUTRAL, Tone.WARNING, Tone.GOOD)
SIGNS = ("·", "Se", "Sl", "St")
ROWS = tuple(
    MapRow(Named(f"see {n}"), "A name of forty letters " * (n == 3) + str(n), str(n)) for n in range(12)
)
COLUMNS = tuple(
    MapColumn(
        Named(f"case {number}"),
        str(number),
        tuple(
            MapCell(SIGNS[n % 4], TONES[n % 4], n % 4 == 2, n % 3 == 0) for n in range(number, number + 12)
        ),
        selected=number == 8,
        tip=("Case", "Hard for three of twelve"),
    )
    for number in range(1, 42)
)
MAP = CaseMap(ROWS, COLUMNS, ("hardest", "easiest"))


def placed(wide: float, scale: float = 1.0, focus: str = "") -> tuple[Box, ...]:
    result = place_blocks([MAP], 0, 0, wide, Metrics(scale, focus=Named(focus)))
    check_boxes(result.boxes, Rect(0, 0, wide, result.height))
    return result.boxes


@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("wide", [340, 896, 1216])
def test_nothing_overlaps_and_every_case_and_name_can_be_pressed_once(wide: float, scale: float) -> None:
    pressed = sorted(str(box.action) for box in placed(wide, scale) if box.action)
    wanted = [str(row.action) for row in ROWS] + [str(column.action) for column in COLUMNS]
    assert pressed == sorted(wanted)


def test_all_cases_stand_side_by_side_in_the_usual_window() -> None:
    columns = [box for box in placed(1216) if box.kind is BoxKind.COLUMN]
    assert len({box.rect.y for box in columns}) == 1
    assert len({box.rect.y for box in placed(896) if box.kind is BoxKind.COLUMN}) == 2


@pytest.mark.parametrize("wide", [340, 896, 1216])
def test_the_ends_stand_over_the_first_and_the_last_column(wide: float) -> None:
    boxes = placed(wide)
    columns = [box.rect for box in boxes if box.kind is BoxKind.COLUMN]
    at = {box.lines[0].text: box.rect for box in boxes if box.lines and not box.action}
    first, last = at["hardest"], at["easiest"]
    assert (first.x, first.bottom) == (columns[0].x, columns[0].y)
    assert last.right == pytest.approx(columns[-1].right)
    assert last.bottom == columns[-1].y


def test_signs_stand_beside_their_names() -> None:
    boxes = placed(1216)
    names = [box.rect for box in boxes if str(box.action).startswith("see")]
    column = next(box for box in boxes if str(box.action) == "case 8")
    assert column.selected
    _, *signs = column.lines
    assert [line.text for line in signs] == [cell.badge for cell in COLUMNS[7].cells]
    for line, name in zip(signs, names, strict=True):
        assert name.y < line.baseline < name.bottom
    met = [cell for cell in COLUMNS[7].cells if cell.tone is not Tone.MUTED]
    assert [(chip.solid, chip.dot is not None) for chip in column.chips] == [(c.solid, c.dotted) for c in met]


def test_what_has_the_focus_is_marked_once() -> None:
    assert [str(box.action) for box in placed(896, focus="case 30") if box.focused] == ["case 30"]
    assert [str(box.action) for box in placed(896, focus="see 2") if box.focused] == ["see 2"]
