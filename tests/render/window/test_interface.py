from __future__ import annotations

from dataclasses import dataclass

import pytest
from msgspec.structs import replace

from render.layout.boxes import Box, Panel, Rect, WindowPart
from render.stage.picking import StageHand
from render.window.interface import Interface
from render.window.scrolling import scroll_to_show, words_of
from tests.render.named import Named
from tests.render.sample_views import free_play, help_overlay, home, lesson
from tutor.ui.inputs import (
    Activated,
    LayerDragged,
    LayerReleased,
    Looked,
    LookReleased,
    Scrubbed,
    StickerPressed,
    Zoomed,
)
from tutor.ui.view import (
    Board,
    Button,
    Entry,
    Face,
    Look,
    Mark,
    Miniature,
    MiniatureGrid,
    Progress,
    Stage,
    Text,
    TextStyle,
    VerdictNote,
    View,
)

CUBE = 300, 300
"""A point of the stage on the cube, for the hand below."""
BACKGROUND = 20, 560


@dataclass
class Grip:
    sticker: int = 38

    def drag(self, x: float, y: float) -> tuple[Face, float] | None:
        return Face.F, (x - 300) / 100

    def decided(self, x: float, y: float) -> bool:
        return abs(x - 300) > 20

    def holds_still(self, x: float, y: float) -> bool:
        return False


class Hand:
    """Holds sticker 38 everywhere but near the stage's left edge."""

    def grip(self, stage: Stage, look: Look, size: tuple[float, float], x: float, y: float) -> Grip | None:
        return Grip() if x > 100 else None


def shown(view: View, width: int = 1280, height: int = 800) -> Interface:
    interface = Interface(Hand())
    interface.show(view, width, height, 1.0)
    return interface


def box_of(interface: Interface, action: str) -> Box:
    assert interface.scene is not None
    return next(box for _, box in interface.scene.boxes() if box.action == Named(action))


def middle(interface: Interface, action: str) -> tuple[float, float]:
    rect = box_of(interface, action).rect
    return rect.x + rect.width / 2, rect.y + rect.height / 2


def test_a_click_reports_the_buttons_action() -> None:
    interface = shown(home())
    point = middle(interface, "lesson 2")
    assert interface.press(*point) == []
    assert interface.pointer.pressed == Named("lesson 2")
    assert interface.release(*point) == [Activated(Named("lesson 2"))]


def test_letting_go_elsewhere_takes_the_click_back() -> None:
    interface = shown(home())
    interface.press(*middle(interface, "lesson 2"))
    assert interface.release(*middle(interface, "lesson 3")) == []


def test_what_is_disabled_does_not_answer() -> None:
    interface = shown(home())
    point = middle(interface, "progress")
    assert interface.press(*point) == interface.release(*point) == []


def test_an_overlay_keeps_what_is_beneath_from_the_pointer() -> None:
    interface = shown(help_overlay())
    beneath = middle(interface, "undo")
    interface.press(*beneath)
    assert interface.release(*beneath) == []
    assert interface.wheel(300, 300, 1) == []
    point = middle(interface, "close help")
    interface.press(*point)
    assert interface.release(*point) == [Activated(Named("close help"))]


def test_hovering_changes_the_picture_only_when_another_box_is_reached() -> None:
    interface = shown(home())
    x, y = middle(interface, "lesson 2")
    assert interface.move(x, y)
    assert not interface.move(x + 3, y)
    assert interface.cursor(x, y) == "hand"
    assert interface.move(5, 790)
    assert interface.cursor(5, 790) == ""


def test_over_a_field_the_pointer_is_that_of_text() -> None:
    interface = shown(free_play())
    assert interface.cursor(*middle(interface, "scramble")) == "text"


def test_a_click_on_the_cube_reports_the_sticker() -> None:
    interface = shown(lesson())
    interface.press(*CUBE)
    assert interface.release(*CUBE) == [StickerPressed(38)]


def test_dragging_a_sticker_turns_its_layer_and_lets_it_go() -> None:
    interface = shown(lesson())
    interface.press(*CUBE)
    assert interface.drag(302, 300) == []
    assert interface.drag(340, 300) == [LayerDragged(Face.F, 0.4)]
    assert interface.holding
    assert interface.release(340, 300) == [LayerReleased(Face.F, 0.4)]
    assert not interface.holding


def test_once_a_layer_moves_the_hand_keeps_it(monkeypatch: pytest.MonkeyPatch) -> None:
    interface = shown(lesson())
    interface.press(*CUBE)
    interface.drag(340, 300)
    monkeypatch.setattr(Grip, "drag", lambda self, x, y: (Face.U, 0.9))
    assert interface.drag(340, 400) == [LayerDragged(Face.F, 0.4)]
    assert interface.release(340, 400) == [LayerReleased(Face.F, 0.4)]


def test_a_click_that_trembles_still_points_at_the_sticker() -> None:
    interface = shown(lesson())
    interface.press(*CUBE)
    assert interface.drag(304, 300) == [LayerDragged(Face.F, 0.04)]
    assert interface.release(304, 300) == [LayerReleased(Face.F, 0.04), StickerPressed(38)]
    interface.press(*CUBE)
    interface.drag(340, 300)
    interface.drag(301, 300)
    assert interface.release(301, 300) == [LayerReleased(Face.F, 0.01)]


def test_a_layer_follows_from_the_first_pixels_and_may_still_be_the_other(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    interface = shown(lesson())
    interface.press(*CUBE)
    assert interface.drag(303, 300) == [LayerDragged(Face.F, 0.03)]
    monkeypatch.setattr(Grip, "drag", lambda self, x, y: (Face.U, 0.9))
    assert interface.drag(303, 330) == [LayerDragged(Face.U, 0.9)]
    assert interface.drag(330, 330) == [LayerDragged(Face.U, 0.9)]
    monkeypatch.setattr(Grip, "drag", lambda self, x, y: (Face.F, 0.5))
    assert interface.drag(350, 330) == [LayerDragged(Face.U, 0.9)]
    assert interface.release(350, 330) == [LayerReleased(Face.U, 0.9)]


def test_dragging_a_sticker_the_way_nothing_turns_looks_around(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Grip, "drag", lambda self, x, y: None)
    monkeypatch.setattr(Grip, "holds_still", lambda self, x, y: True)
    interface = shown(lesson())
    interface.press(*CUBE)
    (looked,) = interface.drag(CUBE[0] + 20, CUBE[1])
    assert isinstance(looked, Looked)
    assert looked.yaw < 0.0
    assert interface.release(CUBE[0] + 20, CUBE[1]) == [LookReleased()]
    interface.press(*CUBE)
    assert interface.release(*CUBE) == [StickerPressed(38)]


def test_the_real_hand_takes_hold_of_the_cube_where_the_stage_lies() -> None:
    interface = Interface(StageHand())
    view = free_play()
    scene = interface.show(view, 1280, 800, 1.0)
    assert scene.stage is not None
    faces = set()
    for across in range(20, int(scene.stage.width), 24):
        for down in range(20, int(scene.stage.height), 24):
            point = scene.stage.x + across, scene.stage.y + down
            interface.press(*point)
            for event in interface.release(*point):
                assert isinstance(event, StickerPressed)
                faces.add(Face(event.sticker // 9))
    # Three faces are seen straight, the other three in the mirrors.
    assert faces == set(Face)


def test_dragging_the_background_looks_around_and_goes_back() -> None:
    interface = shown(lesson())
    interface.press(*BACKGROUND)
    (first,) = interface.drag(30, 560)
    (second,) = interface.drag(30, 550)
    assert isinstance(first, Looked)
    assert isinstance(second, Looked)
    assert first.yaw < 0 == first.pitch
    assert second.pitch < 0 == second.yaw
    assert interface.release(30, 550) == [LookReleased()]


def test_a_click_on_the_background_is_nothing() -> None:
    interface = shown(lesson())
    interface.press(*BACKGROUND)
    assert interface.release(*BACKGROUND) == []


def test_the_wheel_zooms_on_the_stage_and_scrolls_elsewhere() -> None:
    interface = shown(lesson(Look(text_scale=2.0)), 960, 640)
    assert interface.wheel(100, 300, 2) == [Zoomed(2)]
    before = interface.scrolls.get(WindowPart.CARD, 0.0)
    assert interface.wheel(900, 300, -1) == []
    assert interface.scrolls[WindowPart.CARD] > before


def test_scrolling_stops_at_both_ends() -> None:
    interface = shown(lesson(Look(text_scale=2.0)), 960, 640)
    assert interface.scene is not None
    card = interface.scene.panel(WindowPart.CARD)
    assert card is not None
    interface.wheel(900, 300, -1000)
    assert interface.scrolls[WindowPart.CARD] == card.scroll_limit
    interface.wheel(900, 300, 1000)
    assert interface.scrolls[WindowPart.CARD] == 0


def test_page_keys_scroll_the_page() -> None:
    interface = shown(home(Look(text_scale=2.0)), 960, 640)
    interface.page_key("home")
    assert interface.page_key("page down")
    assert interface.scrolls[WindowPart.PAGE] > 200
    assert not interface.page_key("left")


def test_a_click_finds_a_box_where_scrolling_has_brought_it() -> None:
    interface = shown(home(Look(text_scale=2.0)), 960, 640)
    interface.page_key("end")
    rect = box_of(interface, "weak").rect
    point = rect.x + 20, rect.y + 20 - interface.scrolls[WindowPart.PAGE]
    interface.press(*point)
    assert interface.release(*point) == [Activated(Named("weak"))]


def test_dragging_along_the_rail_scrubs_and_a_click_on_a_tile_jumps() -> None:
    interface = shown(replace(lesson(), notice=""))
    left, right = middle(interface, "own 0"), middle(interface, "own 5")
    interface.press(*right)
    (scrubbed,) = interface.drag(*left)
    assert isinstance(scrubbed, Scrubbed)
    assert scrubbed.position == pytest.approx(0.5)
    assert interface.release(*left) == []
    interface.press(*left)
    assert interface.release(*left) == [Activated(Named("own 0"))]


def test_a_scrollbar_can_be_dragged() -> None:
    interface = shown(lesson(Look(text_scale=2.0)), 960, 640)
    interface.scrolls.clear()
    assert interface.scene is not None
    card = interface.scene.panel(WindowPart.CARD)
    assert card is not None
    x = card.rect.right - 5
    interface.press(x, card.rect.y + 10)
    interface.drag(x, card.rect.bottom)
    assert interface.release(x, card.rect.bottom) == []
    assert interface.scrolls[WindowPart.CARD] > 0.8 * card.scroll_limit


def in_sight(interface: Interface, box: Box, place: WindowPart) -> bool:
    assert interface.scene is not None
    panel = interface.scene.panel(place)
    assert panel is not None
    top = box.rect.y - interface.scrolls.get(place, 0.0)
    return panel.rect.y <= top and top + box.rect.height <= panel.rect.bottom


@pytest.mark.parametrize("action", ["continue", "lesson 3", "weak", "lesson 0"])
def test_what_has_the_focus_is_scrolled_into_sight(action: str) -> None:
    view = home(Look(text_scale=2.0))
    interface = shown(view, 960, 640)
    interface.show(replace(view, focus=Named(action)), 960, 640, 1.0)
    assert in_sight(interface, box_of(interface, action), WindowPart.PAGE)


def test_a_new_verdict_is_scrolled_into_sight() -> None:
    view = lesson()
    interface = shown(view, 960, 640)
    more = replace(view, card=(*view.card, VerdictNote(Mark.OPTIMAL, "The shortest there is")))
    scene = interface.show(more, 960, 640, 1.0)
    box = next(
        box for _, box in scene.boxes() if any(line.text == "The shortest there is" for line in box.lines)
    )
    assert in_sight(interface, box, WindowPart.CARD)


def told(interface: Interface, words: str) -> Box:
    """The box on the card that says this."""
    assert interface.scene is not None
    card = interface.scene.panel(WindowPart.CARD)
    assert card is not None
    return next(box for box in card.boxes if words.replace(" ", "") in words_of(box))


ASKED = View(
    "lesson",
    "Slots and pairs",
    stage=Stage((0,) * 54),
    card=(
        Progress("", 0.5),
        Text("Where is the corner of the back-right slot now?", TextStyle.QUESTION),
        *(Button(Named(f"choice {number}"), f"At place {number}", choice=True) for number in range(8)),
    ),
    look=Look(text_scale=2.0),
)
WRONG = VerdictNote(Mark.DETOUR, "Not that one", "That is another corner. Look for the one with white.")


def test_a_verdict_on_a_choice_is_in_sight_with_what_was_asked() -> None:
    interface = shown(ASKED, 960, 640)
    interface.wheel(900, 300, -1000)
    assert not in_sight(interface, told(interface, "Where is the corner"), WindowPart.CARD)
    interface.show(replace(ASKED, card=(*ASKED.card, WRONG)), 960, 640, 1.0)
    assert in_sight(interface, told(interface, "Not that one"), WindowPart.CARD)
    assert in_sight(interface, told(interface, "Where is the corner"), WindowPart.CARD)
    # Where all of it has room, what is to be chosen stays where it is.
    usual = replace(ASKED, look=Look())
    before = [box_of(shown(usual), f"choice {number}").rect for number in range(4)]
    judged = shown(replace(usual, card=(*usual.card, WRONG)))
    assert [box_of(judged, f"choice {number}").rect for number in range(4)] == before


def test_of_a_verdict_that_leaves_no_room_for_the_question_the_beginning_is_in_sight() -> None:
    interface = shown(ASKED, 960, 640)
    long = replace(WRONG, text=WRONG.text * 6)
    interface.show(replace(ASKED, card=(*ASKED.card, long)), 960, 640, 1.0)
    note = told(interface, "Not that one")
    assert interface.scene is not None
    card = interface.scene.panel(WindowPart.CARD)
    assert card is not None
    assert card.rect.y < note.rect.y - interface.scrolls[WindowPart.CARD] < card.rect.y + 48


def test_a_hint_is_scrolled_into_sight_and_other_words_are_not() -> None:
    view = lesson(Look(text_scale=2.0))
    for fresh in (True, False):
        interface = shown(view, 960, 640)
        interface.wheel(900, 300, 1000)
        hinted = replace(view, card=(*view.card, Text("Look at the white corner.", fresh=fresh)))
        interface.show(hinted, 960, 640, 1.0)
        assert in_sight(interface, told(interface, "Look at the white corner."), WindowPart.CARD) is fresh


def test_a_list_that_changes_stays_where_it_was_scrolled_to() -> None:
    def group(others: int) -> View:
        notes = tuple(VerdictNote(Mark.DETOUR, f"Learner {number} is stuck") for number in range(others))
        return View("group", "Group", page=(notes,))

    interface = shown(group(30), 960, 640)
    interface.wheel(400, 300, -4)
    kept = interface.scrolls[WindowPart.PAGE]
    assert kept > 0
    interface.show(group(31), 960, 640, 1.0)
    assert interface.scrolls[WindowPart.PAGE] == kept


@pytest.mark.parametrize(
    ("scale", "width", "height"), [(1.25, 960, 640), (2.0, 960, 640), (1.0, 700, 500), (1.0, 1280, 640)]
)
def test_what_is_at_the_top_of_a_list_stays_there_when_it_is_laid_out_anew(
    scale: float, width: int, height: int
) -> None:
    def page(at: float) -> View:
        cubes = tuple(
            Miniature(Named(f"cube {n}"), f"{n}. A rather long name", Stage((0,) * 54)) for n in range(60)
        )
        blocks = (Text("A list of small cubes, each with its name. " * 9), MiniatureGrid(cubes))
        return View("case book", "Case book", page=(blocks,), look=Look(text_scale=at))

    def top(interface: Interface) -> float:
        assert interface.scene is not None
        panel = interface.scene.panel(WindowPart.PAGE)
        assert panel is not None
        return box_of(interface, first).rect.y - interface.scrolls[WindowPart.PAGE] - panel.rect.y

    interface = shown(page(1.0), 960, 640)
    interface.wheel(400, 300, -20)
    assert interface.scene is not None
    boxes = [
        box for _, box in interface.scene.boxes() if box.action and in_sight(interface, box, WindowPart.PAGE)
    ]
    first = str(boxes[0].action)
    before, kept = top(interface), interface.scrolls[WindowPart.PAGE]
    interface.show(page(scale), width, height, 1.0)
    assert top(interface) == pytest.approx(before)
    # Nothing wanders off in many steps, though rows of other lengths begin with other cubes.
    for wide in range(width, 960, 20 if width < 960 else -20):
        interface.show(page(1.0), wide, 640, 1.0)
    interface.show(page(1.0), 960, 640, 1.0)
    assert interface.scrolls[WindowPart.PAGE] == kept


def test_larger_text_leaves_the_focus_and_the_newest_words_in_sight() -> None:
    view = home()
    interface = shown(replace(view, focus=Named("continue")), 960, 480)
    interface.show(replace(view, focus=Named("weak")), 960, 480, 1.0)
    larger = replace(view, focus=Named("weak"), look=Look(text_scale=2.0))
    interface.show(larger, 960, 480, 1.0)
    assert in_sight(interface, box_of(interface, "weak"), WindowPart.PAGE)
    judged = replace(ASKED, card=(*ASKED.card, WRONG), look=Look())
    interface = shown(judged, 960, 640)
    for scale in (1.25, 1.5, 1.75, 2.0):
        interface.show(replace(judged, look=Look(text_scale=scale)), 960, 640, 1.0)
        assert in_sight(interface, told(interface, "Not that one"), WindowPart.CARD)


def test_a_card_in_other_measures_is_no_other_card() -> None:
    view = lesson(Look(text_scale=1.5))
    interface = shown(replace(view, focus=None), 960, 640)
    interface.wheel(900, 300, -1000)
    for scale in (1.75, 2.0):
        interface.show(replace(view, focus=None, look=Look(text_scale=scale)), 960, 640, 1.0)
        assert interface.scrolls[WindowPart.CARD] > 200


def test_a_field_pushed_down_while_typing_is_scrolled_into_sight() -> None:
    def learners(count: int) -> View:
        names = tuple(Button(Named(f"learner {number}"), "Name") for number in range(count))
        field = Entry(Named("field"), "Name, then Enter", "", 0, focused=True)
        return View("learners", "Learners", page=((*names, field),))

    interface = shown(learners(12), 960, 640)
    assert interface.scrolls.get(WindowPart.PAGE, 0.0) == 0
    assert in_sight(interface, box_of(interface, "field"), WindowPart.PAGE)
    interface.show(learners(20), 960, 640, 1.0)
    assert in_sight(interface, box_of(interface, "field"), WindowPart.PAGE)
    # A screen that opens with a field far down begins at its top all the same.
    assert shown(learners(20), 960, 640).scrolls.get(WindowPart.PAGE, 0.0) == 0


def test_in_other_measures_a_field_out_of_sight_is_not_scrolled_to() -> None:
    def page(scale: float) -> View:
        names = tuple(Button(Named(f"learner {number}"), "Name") for number in range(40))
        field = Entry(Named("field"), "Name, then Enter", "", 0, focused=True)
        return View("learners", "Learners", page=((field, *names),), look=Look(text_scale=scale))

    def at_top(interface: Interface) -> str:
        assert interface.scene is not None
        boxes = [box for _, box in interface.scene.boxes() if in_sight(interface, box, WindowPart.PAGE)]
        return str(min((box for box in boxes if box.action), key=lambda box: box.rect.y).action)

    interface = shown(page(1.0), 960, 640)
    interface.wheel(400, 300, -20)
    before, kept = at_top(interface), interface.scrolls[WindowPart.PAGE]
    for wide in range(960, 700, -20):
        interface.show(page(1.0), wide, 640, 1.0)
    interface.show(page(1.25), 960, 640, 1.0)
    assert at_top(interface) == before
    interface.show(page(1.0), 960, 640, 1.0)
    assert interface.scrolls[WindowPart.PAGE] == kept


def test_a_new_screen_starts_at_its_top() -> None:
    interface = shown(home(Look(text_scale=2.0)), 960, 640)
    interface.page_key("end")
    interface.show(replace(home(Look(text_scale=2.0)), title="Settings"), 960, 640, 1.0)
    assert interface.scrolls.get(WindowPart.PAGE, 0.0) == 0


def test_a_page_that_one_comes_back_to_is_where_it_was() -> None:
    view = home(Look(text_scale=2.0))
    interface = shown(view, 960, 640)
    interface.wheel(400, 300, -5)
    kept = interface.scrolls[WindowPart.PAGE]
    assert kept > 0
    elsewhere = lesson(Look(text_scale=2.0))
    # Another screen, or a case of the same one that takes the page's place.
    for between in (elsewhere, replace(elsewhere, screen=view.screen, title=view.title)):
        interface.show(between, 960, 640, 1.0)
        interface.show(view, 960, 640, 1.0)
        assert interface.scrolls[WindowPart.PAGE] == kept


def test_another_card_is_read_from_its_top_and_the_same_one_stays_where_it_is() -> None:
    view = lesson(Look(text_scale=2.0))
    interface = shown(view, 960, 640)
    interface.wheel(900, 300, -3)
    kept = interface.scrolls[WindowPart.CARD]
    interface.show(replace(view, card=(*view.card, Button(Named("more"), "More"))), 960, 640, 1.0)
    assert interface.scrolls[WindowPart.CARD] == kept
    interface.show(replace(view, card=view.card[2:]), 960, 640, 1.0)
    assert interface.scrolls.get(WindowPart.CARD, 0.0) == 0


def test_a_moving_cube_and_playhead_need_no_new_layout() -> None:
    view = lesson()
    interface = shown(view)
    assert interface.scene is not None
    panels = interface.scene.panels
    assert view.rail is not None
    assert view.stage is not None
    moved = replace(view, stage=replace(view.stage, turning=None), rail=replace(view.rail, playhead=2.5))
    scene = interface.show(moved, 1280, 800, 1.0)
    assert scene.panels is panels
    assert scene.playhead is not None
    assert scene.playhead.position == 2.5
    other = interface.show(replace(moved, card=(Button(Named("a"), "A"),)), 1280, 800, 1.0)
    assert other.panels is not panels


def test_the_nearest_scroll_offset_is_chosen() -> None:
    panel = Panel(WindowPart.CARD, Rect(0, 0, 300, 400), (), 1000)
    assert scroll_to_show(panel, 0, Rect(0, 100, 300, 50)) == 0
    assert scroll_to_show(panel, 0, Rect(0, 500, 300, 50)) == 174
    assert scroll_to_show(panel, 600, Rect(0, 100, 300, 50)) == 76
    assert scroll_to_show(panel, 0, Rect(0, 500, 300, 450)) == 476


def test_a_spotlight_follows_the_pointer_while_the_board_asks_for_one() -> None:
    interface = Interface()
    board = Board("Find the pair.", spotlight=True)
    view = View("board", "Board", stage=Stage((0,) * 54), board=board)
    interface.show(view, 1280, 800, 1.0)
    assert interface.pointer.light is None
    assert interface.move(300.0, 200.0)
    assert interface.pointer.light == (300.0, 200.0)
    assert interface.move(301.0, 200.0)
    interface.show(replace(view, board=replace(board, spotlight=False)), 1280, 800, 1.0)
    assert interface.pointer.light is None
    assert not interface.move(400.0, 300.0)
    interface.show(view, 1280, 800, 1.0)
    assert interface.pointer.light == (400.0, 300.0)
    assert interface.move(-1.0, -1.0)  # out of the window
    assert interface.pointer.light is None
