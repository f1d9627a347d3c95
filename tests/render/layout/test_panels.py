from __future__ import annotations

import subprocess
import sys
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from render.layout.blocks import place_blocks
from render.layout.boxes import UNIT, Box, BoxKind, Panel, Rect, Scene, WindowPart
from render.layout.buttons import Metrics
from render.layout.panels import layout
from render.text.typefaces import ascent, descent
from render.text.typesetting import width
from tests.render.named import Named
from tests.render.sample_views import (
    case_book,
    every_view,
    home,
    lesson,
    route_rail,
)
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Entry,
    Gap,
    Group,
    Look,
    Mark,
    Progress,
    Table,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
    View,
)

SIZES = ((960, 640), (1024, 768), (1280, 800), (1366, 768), (1920, 1080), (2560, 1440), (3840, 2160))
SCALES = (1.0, 1.25, 1.5, 2.0)
CONTAINERS = (BoxKind.GROUP, BoxKind.BAY, BoxKind.NOTE)
"""Boxes on which others may lie."""
SLACK = 0.51
"""Half a pixel: sizes of text are adjusted to whole pixels, boxes are not."""


def within(inner: Rect, outer: Rect, slack: float = SLACK) -> bool:
    return (
        inner.x >= outer.x - slack
        and inner.y >= outer.y - slack
        and inner.right <= outer.right + slack
        and inner.bottom <= outer.bottom + slack
    )


def overlap(one: Rect, two: Rect) -> bool:
    across = min(one.right, two.right) - max(one.x, two.x)
    down = min(one.bottom, two.bottom) - max(one.y, two.y)
    return across > SLACK and down > SLACK


def text_rects(box: Box) -> list[Rect]:
    rects = []
    for line in box.lines:
        high, low = ascent(line.font.face) * line.font.size, descent(line.font.face) * line.font.size
        wide = width(line.font, line.text.rstrip())
        rects.append(Rect(line.x, line.baseline - high, wide, high + low))
    return rects


def check_boxes(boxes: tuple[Box, ...], room: Rect) -> None:
    for box in boxes:
        assert within(box.rect, room), (box.kind, box.rect, room, [line.text for line in box.lines])
        for rect in text_rects(box):
            assert within(rect, box.rect, 1.01), (box, rect)
        for part in (*(sign.rect for sign in box.signs), box.keycap, box.caret, box.underline):
            if part:
                assert within(part, box.rect, 2.01), (box, part)
        if box.action:
            # WCAG 2.2, 2.5.8: pointer targets of at least 24 by 24 px.
            assert box.rect.height >= 24 - SLACK, box
            assert box.rect.width >= 24 - SLACK, box
    leaves = [box for box in boxes if box.kind not in (*CONTAINERS, BoxKind.PATH)]
    for one, two in combinations(leaves, 2):
        assert not overlap(one.rect, two.rect), (one, two)
    for box in leaves:
        texts = text_rects(box)
        for one_text, two_text in combinations(texts, 2):
            assert not overlap(one_text, two_text), (box, one_text, two_text)


def check_panel(panel: Panel) -> None:
    check_boxes(panel.boxes, replace(panel.rect, height=max(panel.rect.height, panel.content)))
    if panel.place in (WindowPart.BAR, WindowPart.NOTICE):
        assert panel.scroll_limit <= SLACK


def check_scene(scene: Scene) -> None:
    whole = Rect(0, 0, scene.width, scene.height)
    over = [WindowPart.OVERLAY]
    notice = scene.panel(WindowPart.NOTICE)
    if scene.stage and notice:
        # It lies over a corner of the stage, and moves nothing.
        over.append(WindowPart.NOTICE)
        assert within(notice.rect, scene.stage)
        assert notice.rect.height <= 0.5 * scene.stage.height + UNIT
    areas = [panel.rect for panel in scene.panels if panel.place not in over]
    areas += [scene.stage] if scene.stage else []
    for one, two in combinations(areas, 2):
        assert not overlap(one, two)
    assert sum(area.width * area.height for area in areas) == pytest.approx(scene.width * scene.height)
    for panel in scene.panels:
        assert within(panel.rect, whole)
        check_panel(panel)


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("scale", SCALES)
def test_nothing_overlaps_or_overflows(size: tuple[int, int], scale: float) -> None:
    for view in every_view(Look(text_scale=scale)):
        check_scene(layout(view, *size))


@pytest.mark.parametrize("ratio", [1.25, 1.5, 2.0])
def test_nothing_overlaps_at_other_pixel_ratios(ratio: float) -> None:
    for view in every_view(Look(text_scale=1.5)):
        check_scene(layout(view, 960, 640, ratio))


@pytest.mark.parametrize("scale", SCALES)
def test_the_stage_keeps_a_fair_part_of_the_smallest_window(scale: float) -> None:
    stage = layout(lesson(Look(text_scale=scale)), 960, 640).stage
    assert stage is not None
    assert stage.width >= 0.5 * 960
    assert stage.height >= 0.4 * 640


def test_the_stage_takes_about_two_thirds_of_the_usual_window() -> None:
    stage = layout(lesson(), 1280, 800).stage
    assert stage is not None
    assert stage.width / 1280 == pytest.approx(2 / 3, abs=0.03)


def test_the_stage_stays_where_it_is_when_rail_and_notice_come_and_go() -> None:
    for size in SIZES:
        for scale in SCALES:
            view = lesson(Look(text_scale=scale))
            others = (
                replace(view, notice=""),
                replace(view, rail=None),
                replace(view, rail=None, notice=""),
                replace(view, rail=route_rail()),
                replace(view, foot=(Button(Named("hint"), "Hint"),)),
            )
            stages = {layout(each, *size).stage for each in (view, *others)}
            assert len(stages) == 1


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_a_notice_however_long_moves_nothing(size: tuple[int, int]) -> None:
    for said in ("Saved.", "The program cannot use a folder with a long name. " * 9):
        for scale in SCALES:
            view = lesson(Look(text_scale=scale))
            scene = layout(replace(view, notice=said), *size)
            without = layout(replace(view, notice=""), *size)
            assert [each for each in scene.panels if each.place is not WindowPart.NOTICE] == list(
                without.panels
            )
            assert (scene.stage, scene.playhead) == (without.stage, without.playhead)
            check_scene(scene)


def test_rail_and_card_have_their_measures_in_the_usual_window() -> None:
    scene = layout(replace(lesson(), notice=""), 1280, 800)
    rail, card, bar = (scene.panel(place) for place in (WindowPart.RAIL, WindowPart.CARD, WindowPart.BAR))
    assert rail is not None
    assert card is not None
    assert bar is not None
    assert rail.rect == Rect(0, 728, 864, 72)
    assert (card.rect.x, card.rect.width, card.rect.y) == (864, 416, bar.rect.bottom)
    widths = [
        layout(lesson(Look(text_scale=scale)), 1280, 800).panel(WindowPart.CARD) for scale in (1.25, 1.5, 2.0)
    ]
    assert [panel.rect.width for panel in widths if panel] == [512, 512, 640]


def test_the_usual_rail_does_not_scroll_at_any_text_scale() -> None:
    for scale in SCALES:
        rail = layout(lesson(Look(text_scale=scale)), 960, 640).panel(WindowPart.RAIL)
        assert rail is not None
        assert rail.scroll_limit == 0


def test_text_grows_with_the_text_scale() -> None:
    def card_text(scale: float) -> float:
        card = layout(lesson(Look(text_scale=scale)), 1280, 800).panel(WindowPart.CARD)
        assert card is not None
        keys = [box.lines[-1] for box in card.boxes if box.keycap]
        return min(line.font.size for box in card.boxes for line in box.lines if line not in keys)

    assert card_text(2.0) == pytest.approx(2 * card_text(1.0), rel=0.08)


def words(boxes: tuple[Box, ...]) -> str:
    return "".join("".join(line.text for line in box.lines) for box in boxes).replace(" ", "")


def test_no_word_of_a_card_or_page_is_lost() -> None:
    for scale in SCALES:
        card = layout(lesson(Look(text_scale=scale)), 960, 640).panel(WindowPart.CARD)
        assert card is not None
        assert "L lifts the pair in the left slot, which was home.".replace(" ", "") in words(card.boxes)
        page = layout(home(Look(text_scale=scale)), 960, 640).panel(WindowPart.PAGE)
        assert page is not None
        assert "Why a pair that touches the wrong way must be taken apart first.".replace(" ", "") in words(
            page.boxes
        )


def test_a_page_has_columns_side_by_side_only_where_they_are_wide_enough() -> None:
    def lefts(width_: int, scale: float) -> set[float]:
        page = layout(home(Look(text_scale=scale)), width_, 800).panel(WindowPart.PAGE)
        assert page is not None
        return {
            box.rect.x
            for box in page.boxes
            if box.kind is BoxKind.GROUP or str(box.action).startswith("lesson")
        }

    assert len(lefts(1280, 1.0)) == 2
    assert len(lefts(960, 2.0)) == 1


def test_lines_of_a_page_stay_readable_on_a_huge_screen() -> None:
    page = layout(home(), 3840, 2160).panel(WindowPart.PAGE)
    assert page is not None
    assert max(len(line.text) for box in page.boxes for line in box.lines) <= 100


def test_a_gap_adds_to_the_space_between_two_blocks() -> None:
    def height(*between: Block) -> float:
        return place_blocks([Text("One"), *between, Button(Named("a"), "Two")], 0, 0, 300, Metrics()).height

    assert height(Gap(3)) - height() == 24
    assert height(Gap(1), Gap(2)) == height(Gap(3))


def test_the_caret_stands_between_the_letters() -> None:
    def caret(at: int) -> float:
        boxes = place_blocks([Entry(Named("a"), "", "R U R'", at, True)], 0, 0, 300, Metrics()).boxes
        found = next(box.caret for box in boxes if box.caret)
        return found.x

    assert [caret(i) for i in range(7)] == sorted({caret(i) for i in range(7)})


def test_a_mistake_is_underlined_where_it_is_even_on_the_second_line() -> None:
    typed = "R U R' U' " * 6
    boxes = place_blocks(
        [Entry(Named("a"), "", typed + "Q", 0, True, "Q is no turn.", len(typed))], 0, 0, 260, Metrics()
    ).boxes
    field = next(box for box in boxes if box.kind is BoxKind.FIELD)
    assert field.underline is not None
    last = field.lines[-1]
    assert field.underline.x == pytest.approx(last.x + width(last.font, last.text[:-1]), abs=0.5)
    assert field.underline.y > field.lines[-2].baseline


def test_layout_needs_neither_a_window_nor_its_library() -> None:
    code = "import sys, render.layout.panels; sys.exit('pyglet' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


# ------------------------------------------------------------------------------ anything a session may say

TEXTS = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "Zs", "S")), max_size=60)
LABELS = TEXTS.filter(lambda text: bool(text.strip()))
BUTTONS = st.builds(
    Button,
    LABELS,
    LABELS,
    st.sampled_from(("", "Enter", "Ctrl+Z")),
    st.booleans(),
    detail=st.just("") | LABELS,
)
SIMPLE = (
    st.builds(Text, LABELS, st.sampled_from(TextStyle), st.sampled_from(Tone))
    | BUTTONS
    | st.builds(ButtonRow, st.lists(BUTTONS, max_size=4).map(tuple))
    | st.builds(VerdictNote, st.sampled_from(Mark), LABELS, TEXTS)
    | st.builds(
        Entry, LABELS, TEXTS, TEXTS, st.integers(0, 60), st.booleans(), TEXTS, st.none() | st.integers(0, 60)
    )
    | st.builds(Progress, TEXTS, st.floats(0, 1))
    | st.builds(
        Table,
        st.tuples(TEXTS, TEXTS),
        st.lists(st.tuples(TEXTS, TEXTS), max_size=3).map(tuple),
    )
)
BLOCKS: st.SearchStrategy[Block] = SIMPLE | st.builds(Group, st.lists(SIMPLE, max_size=3).map(tuple))


@settings(max_examples=60, deadline=None)
@given(st.lists(BLOCKS, max_size=4), st.floats(280, 700), st.sampled_from(SCALES))
def test_any_blocks_fit_in_their_column(blocks: list[Block], available: float, scale: float) -> None:
    placed = place_blocks(blocks, 0, 0, available, Metrics(scale))
    check_boxes(placed.boxes, Rect(0, 0, available, placed.height))


@settings(max_examples=25, deadline=None)
@given(st.lists(BUTTONS, max_size=9), TEXTS, TEXTS, st.sampled_from(SIZES[:4]), st.sampled_from(SCALES))
def test_any_bar_and_notice_fit(
    buttons: list[Button], title: str, notice: str, size: tuple[int, int], scale: float
) -> None:
    short = tuple(replace(button, label=button.label[:14], detail="", key="") for button in buttons)
    view: View = replace(home(Look(text_scale=scale)), bar=short, title=title, notice=notice)
    for panel in layout(view, *size).panels[:2]:
        check_boxes(panel.boxes, replace(panel.rect, height=max(panel.rect.height, panel.content)))


def test_small_cubes_stand_in_rows_of_one_height_with_their_names_beneath() -> None:
    page = layout(case_book(), 1280, 800).panel(WindowPart.PAGE)
    assert page is not None
    cubes = [box for box in page.boxes if box.kind is BoxKind.MINIATURE]
    rows = {box.rect.y: [each for each in cubes if each.rect.y == box.rect.y] for box in cubes}
    assert len(rows) == 4
    for row in rows.values():
        assert len({box.rect.height for box in row}) == 1
    for box in cubes:
        assert box.picture is not None
        assert within(box.picture, box.rect)
        names = [line for line in box.lines if line.text != "✓"]
        assert min(line.baseline for line in names) > box.picture.bottom


def test_from_150_per_cent_on_buttons_beneath_the_bar_have_no_keys() -> None:
    def keys(scale: float) -> int:
        scene = layout(lesson(Look(text_scale=scale)), 1280, 800)
        return sum(
            box.keycap is not None for panel, box in scene.boxes() if panel.place is not WindowPart.BAR
        )

    assert keys(1.25) > 0
    assert keys(1.5) == keys(2.0) == 0
