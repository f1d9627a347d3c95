"""Every real screen, laid out at every size and text scale: nothing overlaps, overflows or is too small."""

from __future__ import annotations

from typing import get_args

import pytest
from msgspec.structs import replace

from render.layout.boxes import BoxKind, WindowPart
from render.layout.panels import layout
from tests.render.layout.test_panels import check_scene
from tests.screens.all_views import every_lesson
from tests.session.names import action_name, actions_in, command_of
from tests.session.pilot import Pilot, Reading, all_blocks
from tutor.lesson.scenes import Scene
from tutor.method.cases import CASES
from tutor.screens.case_book.commands import BookAct, OpenCase
from tutor.screens.looking_ahead.commands import AheadAct
from tutor.screens.progress.commands import ProgressAct
from tutor.screens.solve.state import SOLVE
from tutor.screens.table import SCREENS
from tutor.session.commands import Act, Make, Quit, SaveSettings
from tutor.session.house import Session
from tutor.session.keys import sign_for, table
from tutor.session.update import update
from tutor.solver.search import Solver
from tutor.ui.focus import main_button
from tutor.ui.view import Look, View

# WCAG 2.2, 1.4.4: text up to 200 %; the window's sizes are the product's own.
SIZES = ((960, 640), (1280, 800), (1920, 1080), (3840, 2160))
SCALES = (1.0, 1.5, 2.0)


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("size", SIZES, ids=str)
def test_every_screen_fits(views: dict[str, View], size: tuple[int, int], scale: float) -> None:
    assert len(views) > 100
    for name, view in views.items():
        try:
            check_scene(layout(replace(view, look=Look(text_scale=scale)), *size))
        except AssertionError as error:
            raise AssertionError(f"{name} at {size} and {scale:.0%}: {error}") from error


def test_whatever_has_a_key_shows_it_on_its_button(views: dict[str, View]) -> None:
    seen = set()
    for name, view in views.items():
        room = SCREENS[view.screen]
        for button in (*view.bar, *Reading(view).buttons, *(view.rail.controls if view.rail else ())):
            # In a small window the keys of what saves would take a second row of the bar.
            if button.action in (Act.SAVE_PICTURE, Act.SAVE_CLIP, ProgressAct.SAVE_TABLE):
                continue
            # A button for a turn says its key; the pace of a round can be changed only while it waits.
            if isinstance(button.action, Make | AheadAct):
                continue
            if sign := sign_for(button.action, room, table(SCREENS)):
                assert button.key, (name, button.label, sign)
                seen.add(button.action)
    assert {Act.HINT, Act.UNDO, Act.SHOW_AGAIN, Act.STEP_ON, Act.HELP, BookAct.TRY} <= seen


def test_enter_presses_the_main_button_of_every_screen(views: dict[str, View]) -> None:
    """Nothing is louder on a screen than its main button, so that is what Enter means (common practice)."""
    with_one = 0
    for name, view in views.items():
        main = [button for button in Reading(view).buttons if button.primary and button.enabled]
        if view.overlay:
            main = [button for button in main if button in all_blocks(view.overlay)]
        elif view.rail is not None:
            main += [button for button in view.rail.controls if button.primary]
        shown = [button for button in Reading(view).buttons if button.enabled and button.key == "Enter"]
        main = ([] if view.overlay else shown) or main
        found = main_button(view)
        assert found == (main[0] if main else None), name
        if found is not None:
            with_one += 1
            assert found.key, name  # whatever key it shows, one of them presses it
    assert with_one > 40


def test_enter_presses_the_main_button_in_the_application(pilot: Pilot) -> None:
    pilot.press("open:SOLVE")
    pilot.key("enter")
    pilot.settle()
    assert SOLVE.of(pilot.session) is not None
    pilot.press("open:CASE_BOOK")
    pilot.press(action_name(OpenCase(CASES[5].slug)))
    pilot.settle()
    pilot.key("enter")
    assert pilot.session.demonstration is not None
    pilot.press("open:PRACTICE")
    pilot.key("enter")
    assert Reading(pilot.view).texts
    pilot.key("f1")
    pilot.key("enter")
    assert not pilot.view.overlay


def test_where_there_is_no_main_button_enter_changes_nothing(walk: dict[str, tuple[View, Session]]) -> None:
    without = 0
    for name, (view, session) in walk.items():
        if main_button(view) is not None or session.writing.open:
            continue
        without += 1
        after, effects = update(session, Act.ENTER, 1000.0)
        assert after.screen == session.screen, name
        assert after.attempt == session.attempt, name
        assert not any(isinstance(effect, Quit | SaveSettings) for effect in effects), name
    assert without > 10


def test_scenes_of_every_kind_are_among_them(solver: Solver, views: dict[str, View]) -> None:
    lessons = every_lesson(solver)
    kinds = {
        type(lessons[name.rsplit(" ", 1)[0]].scenes[int(name.rsplit(" ", 1)[1])])
        for name in views
        if name.rsplit(" ", 1)[0] in lessons
    }
    assert kinds == set(get_args(Scene))


def test_whatever_tab_reaches_is_drawn_and_marked_when_it_has_the_focus(views: dict[str, View]) -> None:
    # WCAG 2.2, 2.4.7: the focus is visible; 2.1.1: what the pointer can press, the keyboard reaches.
    for name, view in views.items():
        actions = actions_in(view)
        for action in {*actions[:4], *actions[len(actions) // 2 :: 9], *actions[-4:]}:
            boxes = [box for _, box in layout(replace(view, focus=command_of(action)), 960, 640).boxes()]
            marked = [box.enabled for box in boxes if box.focused and action_name(box.action) == action]
            assert marked == [True], (name, action)
        to_press = {
            action_name(box.action)
            for panel, box in layout(view, 960, 640).boxes()
            if box.action
            and box.enabled
            and (not view.overlay or panel.place is WindowPart.OVERLAY)
            # Stickers of a net have a cursor of their own, which the arrow keys move (test_painting).
            and box.kind is not BoxKind.STICKER
        }
        assert to_press <= set(actions), name
