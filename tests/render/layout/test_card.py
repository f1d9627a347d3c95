from __future__ import annotations

from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from render.window.interface import Interface
from tests.render.named import Named
from tests.render.sample_views import free_play, lesson, shown_lesson
from tutor.ui.inputs import Activated
from tutor.ui.view import Button, ButtonRow, Look, Mark, Text, TextStyle, VerdictNote


def test_a_card_that_scrolls_begins_where_one_that_fits_begins() -> None:
    starts = set()
    for count in (1, 60):
        view = replace(lesson(), card=(Text("Which turn comes next? " * count),))
        card = layout(view, 1280, 800).panel(WindowPart.CARD)
        assert card is not None
        starts.add((card.boxes[0].rect.x - card.rect.x, card.boxes[0].rect.y - card.rect.y))
    # The measure of the looks: 24 px of room round a card's text.
    assert starts == {(24.0, 24.0)}


def test_what_plays_the_turns_stands_at_the_cards_foot() -> None:
    foot = layout(shown_lesson(), 1280, 800).panel(WindowPart.FOOT)
    assert foot is not None
    found = [str(box.action) for box in foot.boxes if box.action]
    assert {"again", "back", "forward", "speed"} <= set(found)


def test_the_foot_covers_nothing_and_scrolls_with_the_rest_where_it_would_take_too_much() -> None:
    foot = ButtonRow((Button(Named("hint"), "Give me a hint"), Button(Named("back"), "Back")))
    view = replace(lesson(), foot=(foot,))
    scene = layout(view, 1280, 800)
    card, panel = scene.panel(WindowPart.CARD), scene.panel(WindowPart.FOOT)
    assert card is not None
    assert panel is not None
    assert card.rect.bottom == panel.rect.y
    assert {"hint", "back"} <= {str(box.action) for box in panel.boxes}
    much = layout(replace(view, foot=(Text("Much. " * 400), foot)), 1280, 800)
    card = much.panel(WindowPart.CARD)
    assert card is not None
    assert "back" in {str(box.action) for box in card.boxes}
    assert card.scroll_limit > 0


def test_a_tall_card_scrolls_and_a_short_one_does_not() -> None:
    tall = layout(lesson(Look(text_scale=2.0)), 960, 640).panel(WindowPart.CARD)
    short = layout(free_play(), 1280, 800).panel(WindowPart.CARD)
    assert tall is not None
    assert short is not None
    assert tall.scroll_limit > 0
    assert short.scroll_limit == 0


def test_four_short_buttons_stand_side_by_side_in_the_smallest_card() -> None:
    row = ButtonRow(
        tuple(Button(Named(name), name, selected=name == "FR") for name in ("FR", "FL", "BL", "BR"))
    )
    card = layout(replace(lesson(), card=(row,)), 960, 640).panel(WindowPart.CARD)
    assert card is not None
    assert len({box.rect.y for box in card.boxes}) == 1


def test_the_main_button_of_a_card_that_scrolls_stays_in_sight_beneath_it() -> None:
    main = Button(Named("next"), "Go on", "Enter", primary=True)
    few = replace(lesson(), card=(Text("Short."), main, Text("After.")))
    many = replace(few, card=(*[Text("A longer paragraph. " * 12)] * 6, main, Text("After.")))
    scene = layout(few, 960, 640)
    assert scene.panel(WindowPart.FOOT) is None
    scene = layout(many, 960, 640)
    card, foot = scene.panel(WindowPart.CARD), scene.panel(WindowPart.FOOT)
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
    card, foot = scene.panel(WindowPart.CARD), scene.panel(WindowPart.FOOT)
    assert card is not None
    assert foot is not None
    assert [str(box.action) for box in foot.boxes if box.action] == ["next"]
    assert [str(box.action) for box in card.boxes if box.action] == ["back"]


def test_over_a_cards_foot_the_wheel_scrolls_the_card() -> None:
    main = Button(Named("next"), "Go on", "Enter", primary=True)
    interface = Interface(None)
    view = replace(lesson(), card=(*[Text("A longer paragraph. " * 12)] * 6, main))
    foot = interface.show(view, 960, 640, 1.0).panel(WindowPart.FOOT)
    assert foot is not None
    middle = foot.rect.x + foot.rect.width / 2, foot.rect.y + foot.rect.height / 2
    interface.wheel(*middle, -2.0)
    assert interface.scrolls[WindowPart.CARD] > 0
    button = next(box.rect for box in foot.boxes if box.action)
    interface.press(button.x + 5, button.y + 5)
    assert interface.release(button.x + 5, button.y + 5) == [Activated(Named("next"))]


def test_choices_have_their_measures_where_there_is_room_and_both_are_in_sight_where_not() -> None:
    """Measures of the pictured look: 368 by 80 px with 16 px between them in the usual window."""
    choices = tuple(Button(Named(each), each, "1", detail="so", choice=True) for each in ("one", "two"))
    note = VerdictNote(Mark.DETOUR, "L: Detour", "What the turn did to the cube and the pairs. " * 4)
    foot = (ButtonRow((Button(Named("hint"), "Hint"),)),)
    view = replace(lesson(), card=(Text("What is asked?", TextStyle.QUESTION), note, *choices), foot=foot)
    for size, measures in (((1280, 800), (368.0, 80.0, 16.0)), ((960, 640), None)):
        card = layout(view, *size).panel(WindowPart.CARD)
        assert card is not None
        assert card.scroll_limit == 0
        first, second = (box.rect for box in card.boxes if str(box.action) in ("one", "two"))
        assert second.bottom <= card.rect.bottom
        assert measures in ((first.width, first.height, second.y - first.bottom), None)
