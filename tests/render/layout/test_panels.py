from __future__ import annotations

import subprocess
import sys
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from render.layout.blocks import place_blocks
from render.layout.boxes import CONTAINERS, UNIT, Box, BoxKind, Panel, Place, Rect, Scene
from render.layout.buttons import Metrics
from render.layout.panels import layout
from render.text.typefaces import ascent, descent
from render.text.typesetting import width
from render.window.interface import Interface
from tests.render.named import Named
from tests.render.sample_views import (
    case_book,
    every_view,
    free_play,
    help_overlay,
    home,
    lesson,
    route_rail,
    shown_lesson,
)
from tutor.ui.inputs import Activated
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Chevron,
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
    if panel.place in (Place.BAR, Place.NOTICE):
        assert panel.scroll_limit <= SLACK


def check_scene(scene: Scene) -> None:
    whole = Rect(0, 0, scene.width, scene.height)
    over = [Place.OVERLAY]
    notice = scene.panel(Place.NOTICE)
    if scene.stage and notice:
        # It lies over a corner of the stage, and moves nothing.
        over.append(Place.NOTICE)
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
            assert [each for each in scene.panels if each.place is not Place.NOTICE] == list(without.panels)
            assert (scene.stage, scene.playhead) == (without.stage, without.playhead)
            check_scene(scene)


def test_a_card_that_scrolls_begins_where_one_that_fits_begins() -> None:
    starts = set()
    for count in (1, 60):
        view = replace(lesson(), card=(Text("Which turn comes next? " * count),))
        card = layout(view, 1280, 800).panel(Place.CARD)
        assert card is not None
        starts.add((card.boxes[0].rect.x - card.rect.x, card.boxes[0].rect.y - card.rect.y))
    # The measure of the looks: 24 px of room round a card's text.
    assert starts == {(24.0, 24.0)}


def test_rail_and_card_have_their_measures_in_the_usual_window() -> None:
    scene = layout(replace(lesson(), notice=""), 1280, 800)
    rail, card, bar = (scene.panel(place) for place in (Place.RAIL, Place.CARD, Place.BAR))
    assert rail is not None
    assert card is not None
    assert bar is not None
    assert rail.rect == Rect(0, 728, 864, 72)
    assert (card.rect.x, card.rect.width, card.rect.y) == (864, 416, bar.rect.bottom)
    widths = [
        layout(lesson(Look(text_scale=scale)), 1280, 800).panel(Place.CARD) for scale in (1.25, 1.5, 2.0)
    ]
    assert [panel.rect.width for panel in widths if panel] == [512, 512, 640]


def test_what_plays_the_turns_stands_at_the_cards_foot() -> None:
    foot = layout(shown_lesson(), 1280, 800).panel(Place.FOOT)
    assert foot is not None
    found = [str(box.action) for box in foot.boxes if box.action]
    assert {"again", "back", "forward", "speed"} <= set(found)


def test_the_foot_covers_nothing_and_scrolls_with_the_rest_where_it_would_take_too_much() -> None:
    foot = ButtonRow((Button(Named("hint"), "Give me a hint"), Button(Named("back"), "Back")))
    view = replace(lesson(), foot=(foot,))
    scene = layout(view, 1280, 800)
    card, panel = scene.panel(Place.CARD), scene.panel(Place.FOOT)
    assert card is not None
    assert panel is not None
    assert card.rect.bottom == panel.rect.y
    assert {"hint", "back"} <= {str(box.action) for box in panel.boxes}
    much = layout(replace(view, foot=(Text("Much. " * 400), foot)), 1280, 800)
    card = much.panel(Place.CARD)
    assert card is not None
    assert "back" in {str(box.action) for box in card.boxes}
    assert card.scroll_limit > 0


def test_the_usual_rail_does_not_scroll_at_any_text_scale() -> None:
    for scale in SCALES:
        rail = layout(lesson(Look(text_scale=scale)), 960, 640).panel(Place.RAIL)
        assert rail is not None
        assert rail.scroll_limit == 0


def test_text_grows_with_the_text_scale() -> None:
    def card_text(scale: float) -> float:
        card = layout(lesson(Look(text_scale=scale)), 1280, 800).panel(Place.CARD)
        assert card is not None
        keys = [box.lines[-1] for box in card.boxes if box.keycap]
        return min(line.font.size for box in card.boxes for line in box.lines if line not in keys)

    assert card_text(2.0) == pytest.approx(2 * card_text(1.0), rel=0.08)


def words(boxes: tuple[Box, ...]) -> str:
    return "".join("".join(line.text for line in box.lines) for box in boxes).replace(" ", "")


def test_no_word_of_a_card_or_page_is_lost() -> None:
    for scale in SCALES:
        card = layout(lesson(Look(text_scale=scale)), 960, 640).panel(Place.CARD)
        assert card is not None
        assert "L lifts the pair in the left slot, which was home.".replace(" ", "") in words(card.boxes)
        page = layout(home(Look(text_scale=scale)), 960, 640).panel(Place.PAGE)
        assert page is not None
        assert "Why a pair that touches the wrong way must be taken apart first.".replace(" ", "") in words(
            page.boxes
        )


def test_a_page_has_columns_side_by_side_only_where_they_are_wide_enough() -> None:
    def lefts(width_: int, scale: float) -> set[float]:
        page = layout(home(Look(text_scale=scale)), width_, 800).panel(Place.PAGE)
        assert page is not None
        return {
            box.rect.x
            for box in page.boxes
            if box.kind is BoxKind.GROUP or str(box.action).startswith("lesson")
        }

    assert len(lefts(1280, 1.0)) == 2
    assert len(lefts(960, 2.0)) == 1


def test_lines_of_a_page_stay_readable_on_a_huge_screen() -> None:
    page = layout(home(), 3840, 2160).panel(Place.PAGE)
    assert page is not None
    assert max(len(line.text) for box in page.boxes for line in box.lines) <= 100


def test_a_tall_card_scrolls_and_a_short_one_does_not() -> None:
    tall = layout(lesson(Look(text_scale=2.0)), 960, 640).panel(Place.CARD)
    short = layout(free_play(), 1280, 800).panel(Place.CARD)
    assert tall is not None
    assert short is not None
    assert tall.scroll_limit > 0
    assert short.scroll_limit == 0


def test_an_overlay_is_the_last_panel_and_in_the_middle() -> None:
    scene = layout(help_overlay(), 1280, 800)
    rect = scene.panels[-1].rect
    assert scene.panels[-1].place is Place.OVERLAY
    assert rect.x + rect.width / 2 == pytest.approx(640, abs=1)
    assert rect.y + rect.height / 2 == pytest.approx(400, abs=1)


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
    page = layout(case_book(), 1280, 800).panel(Place.PAGE)
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


def test_four_short_buttons_stand_side_by_side_in_the_smallest_card() -> None:
    row = ButtonRow(
        tuple(Button(Named(name), name, selected=name == "FR") for name in ("FR", "FL", "BL", "BR"))
    )
    card = layout(replace(lesson(), card=(row,)), 960, 640).panel(Place.CARD)
    assert card is not None
    assert len({box.rect.y for box in card.boxes}) == 1


def test_the_main_button_of_a_card_that_scrolls_stays_in_sight_beneath_it() -> None:
    main = Button(Named("next"), "Go on", "Enter", primary=True)
    few = replace(lesson(), card=(Text("Short."), main, Text("After.")))
    many = replace(few, card=(*[Text("A longer paragraph. " * 12)] * 6, main, Text("After.")))
    scene = layout(few, 960, 640)
    assert scene.panel(Place.FOOT) is None
    scene = layout(many, 960, 640)
    card, foot = scene.panel(Place.CARD), scene.panel(Place.FOOT)
    assert card is not None
    assert foot is not None
    assert card.scroll_limit > 0
    assert [str(box.action) for box in foot.boxes if box.action] == ["next"]
    assert "next" not in {str(box.action) for box in card.boxes}
    assert card.rect.bottom == foot.rect.y
    assert all(foot.rect.y <= box.rect.y and box.rect.bottom <= foot.rect.bottom for box in foot.boxes)


def test_a_main_button_in_a_row_stays_in_sight_and_the_others_stay_in_their_row() -> None:
    row = ButtonRow((Button(Named("back"), "Back"), Button(Named("next"), "Go on", "Enter", primary=True)))
    view = replace(lesson(), card=(Text("words " * 300), row))
    scene = layout(view, 960, 640)
    card, foot = scene.panel(Place.CARD), scene.panel(Place.FOOT)
    assert card is not None
    assert foot is not None
    assert [str(box.action) for box in foot.boxes if box.action] == ["next"]
    assert [str(box.action) for box in card.boxes if box.action] == ["back"]


def test_over_a_cards_foot_the_wheel_scrolls_the_card() -> None:
    main = Button(Named("next"), "Go on", "Enter", primary=True)
    interface = Interface(None)
    view = replace(lesson(), card=(*[Text("A longer paragraph. " * 12)] * 6, main))
    foot = interface.show(view, 960, 640, 1.0).panel(Place.FOOT)
    assert foot is not None
    middle = foot.rect.x + foot.rect.width / 2, foot.rect.y + foot.rect.height / 2
    interface.wheel(*middle, -2.0)
    assert interface.scrolls[Place.CARD] > 0
    button = next(box.rect for box in foot.boxes if box.action)
    interface.press(button.x + 5, button.y + 5)
    assert interface.release(button.x + 5, button.y + 5) == [Activated(Named("next"))]


def test_many_tables_on_a_sheet_stand_in_two_columns_in_line_with_each_other() -> None:
    rows = tuple((f"Ctrl+{letter}", f"do {letter}") for letter in "abcdef")
    tables = [Table((f"Group {number}", ""), (*rows, ("F" * number, "more"))) for number in range(1, 7)]
    sheet = layout(replace(lesson(), overlay=(Text("Keys"), *tables)), 1280, 800).panel(Place.OVERLAY)
    assert sheet is not None
    said = {line.text: line.x for box in sheet.boxes for line in box.lines}
    # Each column has its own two left edges, one for the keys and one for what they do.
    assert len({said[f"Group {number}"] for number in range(1, 7)}) == 2
    assert len({line.x for box in sheet.boxes for line in box.lines if line.text.startswith("do ")}) == 2
    narrow = layout(replace(lesson(Look(text_scale=2.0)), overlay=tuple(tables)), 960, 640)
    panel = narrow.panel(Place.OVERLAY)
    assert panel is not None
    assert len({line.x for box in panel.boxes for line in box.lines if line.text.startswith("Group")}) == 1


def usual_bar() -> tuple[Button, ...]:
    return (
        Button(Named("home"), "Home", chevron=Chevron.BACK),
        Button(Named("words"), "Words", "F8"),
        Button(Named("keys"), "Keys", "F1"),
        Button(Named("more"), "More", "F10", chevron=Chevron.MENU),
    )


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("wide", [960, 1280])
def test_the_bar_is_one_row_with_the_way_back_at_its_left(wide: int, scale: float) -> None:
    buttons = usual_bar() if scale < 1.5 else (usual_bar()[0], usual_bar()[-1])
    title = "A title that is rather long for a bar of any width, and still goes on and on and on"
    view = replace(lesson(Look(text_scale=scale)), title=title, place="Lesson 4", bar=usual_bar())
    view = replace(view, more=tuple(button for button in usual_bar() if button not in buttons))
    bar = layout(view, wide, 640).panel(Place.BAR)
    assert bar is not None
    assert bar.content == {1.0: 48, 1.25: 48, 1.5: 54, 2.0: 72}[scale]
    actions = [str(box.action) for box in sorted(bar.boxes, key=lambda box: box.rect.x) if box.action]
    assert actions == [str(button.action) for button in buttons]
    titles = [line.text for box in bar.boxes for line in box.lines if line.text.startswith("A title")]
    assert len(titles) == 1
    icons = [sign.icon for box in bar.boxes for sign in box.signs]
    assert icons == ["back", "menu"]
    named = [box for box in bar.boxes if box.action or words((box,)).startswith("Atitle")]
    assert {box.rect.y + box.rect.height / 2 for box in named} == {bar.content / 2}


def test_the_place_stands_beside_a_title_that_leaves_room_for_it() -> None:
    def said(title: str) -> set[str]:
        view = replace(lesson(), title=title, place="Lesson 4", bar=usual_bar())
        bar = layout(view, 1280, 800).panel(Place.BAR)
        assert bar is not None
        return {line.text for box in bar.boxes for line in box.lines}

    assert {"Short", "Lesson 4"} <= said("Short")
    assert "Lesson 4" not in said("A long title " * 12)


def test_from_150_per_cent_on_buttons_beneath_the_bar_have_no_keys() -> None:
    def keys(scale: float) -> int:
        scene = layout(lesson(Look(text_scale=scale)), 1280, 800)
        return sum(box.keycap is not None for panel, box in scene.boxes() if panel.place is not Place.BAR)

    assert keys(1.25) > 0
    assert keys(1.5) == keys(2.0) == 0


def test_a_sheet_of_buttons_alone_hangs_from_the_bars_right_end() -> None:
    menu = tuple(Button(Named(name), name) for name in ("Light / dark", "Settings", "Close"))
    for scale in SCALES:
        scene = layout(replace(lesson(Look(text_scale=scale)), overlay=menu), 960, 640)
        sheet, bar = scene.panel(Place.OVERLAY), scene.panel(Place.BAR)
        assert sheet is not None
        assert bar is not None
        assert sheet.rect.y == bar.rect.bottom
        assert 960 - 16 <= sheet.rect.right <= 960
        assert sheet.scroll_limit == 0


def test_choices_have_their_measures_where_there_is_room_and_both_are_in_sight_where_not() -> None:
    """Measures of the pictured look: 368 by 80 px with 16 px between them in the usual window."""
    choices = tuple(Button(Named(each), each, "1", detail="so", choice=True) for each in ("one", "two"))
    note = VerdictNote(Mark.DETOUR, "L: Detour", "What the turn did to the cube and the pairs. " * 4)
    foot = (ButtonRow((Button(Named("hint"), "Hint"),)),)
    view = replace(lesson(), card=(Text("What is asked?", TextStyle.QUESTION), note, *choices), foot=foot)
    for size, measures in (((1280, 800), (368.0, 80.0, 16.0)), ((960, 640), None)):
        card = layout(view, *size).panel(Place.CARD)
        assert card is not None
        assert card.scroll_limit == 0
        first, second = (box.rect for box in card.boxes if str(box.action) in ("one", "two"))
        assert second.bottom <= card.rect.bottom
        assert measures in ((first.width, first.height, second.y - first.bottom), None)


def test_where_text_is_large_the_title_gives_way_to_the_place() -> None:
    view = lesson(Look(text_scale=2.0))
    view = replace(view, bar=view.bar[:1], title="A very long title " * 4, place="12 of 18")
    # However much room the letters leave that still fit.
    for wide in range(960, 1000):
        bar = layout(view, wide, 640).panel(Place.BAR)
        assert bar is not None
        assert "12 of 18" in [line.text for box in bar.boxes for line in box.lines], wide
