"""What is seldom wanted of the bar lies on a small sheet under More."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from tests.session.pilot import Pilot, Reading
from tests.workers.direct import answers_of
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.session.commands import Act
from tutor.session.state import Sheet
from tutor.solver.search import Solver
from tutor.ui.view import Chevron, View


def labels(pilot: Pilot) -> list[str]:
    return [button.label for button in pilot.view.bar]


def test_the_bar_leads_home_and_to_three_sheets(pilot: Pilot) -> None:
    pilot.free_play()
    assert labels(pilot) == ["Home", "Words", "Keys", "More"]
    assert [button.chevron for button in pilot.view.bar] == [
        Chevron.BACK, Chevron.NONE, Chevron.NONE, Chevron.MENU,
    ]  # fmt: skip
    pilot.press("act:HOME")
    assert labels(pilot) == ["Words", "Keys", "More"]


def test_more_offers_the_rest_and_goes_once_something_was_chosen(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.key("f10")
    offered = [button.label for button in Reading(pilot.view).buttons if button in pilot.view.overlay]
    assert offered == ["Light / dark", "Read aloud", "Settings", "Save picture", "Save clip", "Close"]
    before = pilot.view.look.theme
    pilot.press(Reading(pilot.view).button("Light / dark").action)
    assert pilot.view.look.theme != before
    assert not pilot.view.overlay
    pilot.press(Act.MENU)
    pilot.press(Reading(pilot.view).button("Settings").action)
    assert (pilot.view.screen, pilot.view.overlay) == ("settings", ())


@pytest.mark.parametrize("key", ["f10", "escape"])
def test_a_key_puts_more_away(pilot: Pilot, key: str) -> None:
    pilot.free_play()
    pilot.press(Act.MENU)
    assert pilot.session.sheet is Sheet.MENU
    pilot.key(key)
    assert not pilot.session.covered
    assert pilot.view.screen == "free play"


def bar_of(view: View, wide: int) -> tuple[str, ...]:
    """All that is written in the bar, from left to right."""
    bar = layout(view, wide, 640 if wide == 960 else 800).panel(WindowPart.BAR)
    assert bar is not None
    lines = [line for box in bar.boxes for line in box.lines]
    return tuple(line.text for line in sorted(lines, key=lambda line: line.x))


SHEETS = ("Words", "F8", "Keys", "F1", "More", "F10")
LESSON = "Slots and pairs: find the two pieces"


@pytest.mark.parametrize(
    ("scale", "wide", "lesson"),
    [
        (1.0, 960, ("Home", LESSON, "Lesson 1", *SHEETS)),
        (1.25, 960, ("Home", LESSON, "Lesson 1", *SHEETS)),
        (1.5, 1280, ("Home", LESSON, "1 of 16", *SHEETS)),
        (2.0, 1280, ("Home", LESSON, "1 of 16", "Words", "Keys", "More")),
        (1.5, 960, ("Home", LESSON, "1 of 16", "Words", "Keys", "More")),
        (2.0, 960, ("Home", LESSON, "1 of 16", "More")),
    ],
)
def test_names_of_keys_then_words_and_keys_leave_the_bar_only_where_the_title_needs_the_room(
    solver: Solver, scale: float, wide: int, lesson: tuple[str, ...]
) -> None:
    pilot = Pilot(solver, {"slot-and-pair": load_lesson("slot-and-pair", LessonSetting(answers_of(solver)))})
    while pilot.view.look.text_scale < scale:
        pilot.key("f3")
    assert bar_of(pilot.view, wide) == ("Pairwright", *SHEETS)
    pilot.press("lesson:0:0:slot-and-pair")
    assert bar_of(pilot.view, wide) == lesson
    # What the bar has no room for is under More, with its key; Tab shows it in the bar as well.
    pilot.press(Act.MENU)
    sheet = layout(pilot.view, wide, 640).panel(WindowPart.OVERLAY)
    assert sheet is not None
    under_more = {line.text for box in sheet.boxes for line in box.lines}
    assert {word for word in SHEETS[:4] if word not in lesson} <= (under_more if scale >= 1.5 else set())
    pilot.press(Act.MENU)
    assert "Words" in bar_of(replace(pilot.view, focus=Act.WORDS), wide)


def test_with_large_text_words_are_under_more_too(pilot: Pilot) -> None:
    pilot.free_play()
    while pilot.view.look.text_scale < 1.5:
        assert Act.WORDS not in [button.action for button in pilot.view.more]
        pilot.key("f3")
    assert labels(pilot) == ["Home", "Words", "Keys", "More"]
    pilot.press(Act.MENU)
    pilot.press(Reading(pilot.view).button("Words").action)
    assert pilot.session.sheet is Sheet.WORDS
