"""Maps of cases, legends and plots: where everything lies, and that letters can be read on their grounds."""

from __future__ import annotations

import pytest

from render.layout.blocks import place_blocks
from render.layout.boxes import Box, BoxKind, Rect
from render.layout.buttons import Metrics
from render.paint.plots import TINGE, tip_in_sight
from render.theme import Colour, Theme, load_theme
from tests.render.layout.test_panels import check_boxes
from tests.render.named import Named
from tests.render.sample_views import SOLVED
from tests.render.test_theme import TEXT, contrast
from tutor.ui.plots import Plot
from tutor.ui.view import Block, Legend, Miniature, MiniatureGrid, PlotGrid, Stage, Tone

EXTRA = Plot(
    "Turns over the fewest by hand",
    "on average, without undone turns",
    ((0.0, 4.0), (7.0, 2.0), (28.0, 1.0)),
    ((0.0, "5 Oct"), (14.0, "19 Oct"), (28.0, "2 Nov")),
    ((0.0, "0"), (2.0, "2"), (4.0, "4")),
    told="3.5 at first, 1.2 of late.",
)
WEEK = Plot(
    "To practise this week",
    "cases",
    tuple((float(day), float(count)) for day, count in enumerate((6, 3, 0, 2, 12, 1, 1))),
    tuple((float(day), name) for day, name in enumerate(["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"])),
    ((0.0, ""), (12.0, "")),
    bars=True,
)
CELLS = tuple(
    Miniature(
        Named(f"try {number}"),
        "94%",
        Stage(SOLVED),
        "NLWHF"[number % 5],
        tone=(Tone.MUTED, Tone.NEUTRAL, Tone.WARNING, Tone.GOOD, Tone.GOOD)[number % 5],
        solid=number % 5 in (2, 4),
        dotted=number % 3 == 0,
        tip=(
            "Corner on top at its slot, cross colour up; edge on top at the front, front colour up",
            "On today's list",
        ),
    )
    for number in range(24)
)
LEGEND = Legend(
    tuple((cell.badge, cell.tone, cell.solid, f"settling: {n}") for n, cell in enumerate(CELLS[:5]))
)


def placed(block: Block, wide: float, scale: float = 1.0, focus: str = "") -> tuple[Box, ...]:
    return place_blocks([block], 20, 30, wide, Metrics(scale, focus=Named(focus))).boxes


@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("wide", [340, 584, 896])
def test_nothing_overlaps_in_maps_legends_and_plots(wide: float, scale: float) -> None:
    for block in (MiniatureGrid(CELLS, map=True), LEGEND, PlotGrid((EXTRA, WEEK, EXTRA))):
        result = place_blocks([block], 0, 0, wide, Metrics(scale))
        check_boxes(result.boxes, Rect(0, 0, wide, result.height))


def test_points_lie_where_their_figures_say() -> None:
    (box,) = placed(PlotGrid((EXTRA,)), 400)
    assert box.drawing is not None
    (x0, y0), (x1, y1), (x2, y2) = box.drawing.dots
    nought, two, four = (rule.y for rule in box.drawing.rules)
    assert (y0, y1) == pytest.approx((four, two))
    assert (nought - y2) / (nought - four) == pytest.approx(1 / 4)
    assert (x1 - x0) / (x2 - x0) == pytest.approx(7 / 28)


def test_bars_are_as_high_as_their_figures_and_tell_them() -> None:
    (box,) = placed(PlotGrid((WEEK,)), 400)
    assert box.drawing is not None
    heights = [bar.height for bar in box.drawing.bars]
    assert heights == pytest.approx([heights[0] / 6 * count for count in (6, 3, 2, 12, 1, 1)])
    said = {line.text for line in box.lines}
    assert {"0", "2", "12", "Mon", "Sun", "cases"} <= said


def test_words_under_an_axis_give_way_where_there_is_no_room_for_all() -> None:
    crowded = Plot("A", "b", EXTRA.points, tuple((float(d), f"{d} October") for d in range(1, 29)), EXTRA.up)
    (box,) = placed(PlotGrid((crowded,)), 420, scale=2.0)
    said = [line.text for line in box.lines]
    assert {"1 October", "28 October"} <= set(said)
    assert len(said) < 12


def test_plots_stand_side_by_side_where_there_is_room() -> None:
    def columns(wide: float, scale: float) -> int:
        return len({box.rect.x for box in placed(PlotGrid((EXTRA, WEEK)), wide, scale)})

    assert columns(584, 1.0) == 2
    assert columns(424, 1.0) == 1
    assert columns(896, 2.0) == 1


def test_a_cell_has_its_letter_and_tells_more_in_its_column_when_it_has_the_focus() -> None:
    boxes = placed(MiniatureGrid(CELLS, map=True), 584, focus="try 6")
    assert all(
        box.kind is BoxKind.CELL and box.lines[0].text == CELLS[n].badge for n, box in enumerate(boxes)
    )
    assert [str(box.action) for box in boxes if box.focused] == ["try 6"]
    for box in boxes:
        assert box.tip is not None
        assert box.tip.rect.x >= 20
        assert box.tip.rect.right <= 20 + 584
        assert box.tip.rect.y >= box.rect.bottom


def test_a_tip_without_room_below_lies_above() -> None:
    box = placed(MiniatureGrid(CELLS[:1], map=True), 584)[0]
    assert box.tip is not None
    assert tip_in_sight(box.tip, box.rect, 1e4) == box.tip
    assert tip_in_sight(box.tip, box.rect, box.rect.bottom).rect.bottom <= box.rect.y


def over(colour: Colour, alpha: float, ground: Colour) -> Colour:
    red, green, blue = (alpha * c + (1 - alpha) * g for c, g in zip(colour.rgb, ground.rgb, strict=True))
    return Colour((red, green, blue, 1.0))


@pytest.mark.parametrize("theme", [load_theme("light"), load_theme("dark")], ids=["light", "dark"])
def test_letters_can_be_read_on_every_badge(theme: Theme) -> None:
    # WCAG 2.2, 1.4.3: text 4.5:1.
    for tone in (theme.good, theme.warning, theme.neutral):
        assert contrast(theme.accent_text, tone) >= TEXT
        for ground in (theme.ground, theme.raised, theme.hover):
            assert contrast(theme.text, over(tone, TINGE, ground)) >= TEXT
