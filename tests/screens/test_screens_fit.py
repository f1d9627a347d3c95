"""Every real screen, laid out at every size and text scale: nothing overlaps, overflows or is too small."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import get_args

import pytest

from render.layout.boxes import BoxKind, Place
from render.layout.panels import layout
from tests.render.layout.test_panels import check_scene
from tests.screens.practice.practice_views import practice_views
from tests.screens.progress.progress_views import progress_views
from tests.screens.solve.solve_views import solve_views
from tests.session.names import action_name, actions_in, command_of
from tests.session.pilot import Pilot, Reading, all_blocks
from tutor.coach.guidance import Help
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.scenes import Lesson, Scene
from tutor.method.answer import answer
from tutor.method.cases import CASES
from tutor.screens.case_book.commands import BookAct, OpenCase
from tutor.screens.practice.commands import TryCase
from tutor.screens.solve.state import SOLVE
from tutor.screens.table import SCREENS
from tutor.session.commands import Act, Quit, SaveSettings
from tutor.session.house import Session
from tutor.session.keys import sign_for, table
from tutor.session.saving_commands import NotSaved
from tutor.session.update import update
from tutor.solver.search import Solver
from tutor.ui.focus import main_button
from tutor.ui.inputs import Modifier
from tutor.ui.view import Look, View

# WCAG 2.2, 1.4.4: text up to 200 %; the window's sizes are the product's own.
SIZES = ((960, 640), (1280, 800), (1920, 1080), (3840, 2160))
SCALES = (1.0, 1.5, 2.0)


@pytest.fixture(scope="module")
def lessons(solver: Solver) -> dict[str, Lesson]:
    setting = LessonSetting(partial(answer, solver))
    return {name: load_lesson(name, setting) for name in curriculum_names()}


@pytest.fixture(scope="module")
def walk(solver: Solver, lessons: dict[str, Lesson]) -> dict[str, tuple[View, Session]]:
    """The screens that one walk through the program leads to, each with its session."""
    pilot = Pilot(solver, lessons)
    return {name: (view, pilot.session) for name, view in screens(pilot)}


@pytest.fixture(scope="module")
def views(
    solver: Solver, walk: dict[str, tuple[View, Session]], tmp_path_factory: pytest.TempPathFactory
) -> dict[str, View]:
    sitting = practice_views(solver, tmp_path_factory.mktemp("club"), tmp_path_factory.mktemp("nobody"))
    solves = solve_views(solver, tmp_path_factory.mktemp("solves"))
    progress = progress_views(solver, tmp_path_factory.mktemp("progress"))
    return {name: view for name, (view, _) in walk.items()} | dict(sitting) | dict(progress) | dict(solves)


def screens(pilot: Pilot) -> Iterator[tuple[str, View]]:
    """What a person gets to see, one after the other."""
    yield "home", pilot.view
    for number, (name, lesson) in enumerate(pilot.lessons.items()):
        for scene in range(number % 3, len(lesson.scenes), 3):
            pilot.press(f"lesson:{scene}:0:{name}")
            pilot.wait(2.0)
            yield f"{name} {scene}", pilot.view
    yield from in_free_play(pilot)
    yield from in_the_case_book(pilot)
    yield from in_practice(pilot)
    yield from in_painting(pilot)
    pilot.press("open:SETTINGS")
    yield "settings", pilot.view


def in_free_play(pilot: Pilot) -> Iterator[tuple[str, View]]:
    pilot.free_play("R U R'")
    yield "free play", pilot.view
    pilot.turn("L F2 D' B")
    pilot.key("h")
    pilot.key("slash")
    pilot.write("R U Q' something that is wrong")
    pilot.key("enter")
    yield "free play, all at once", pilot.view
    for key in ("f1", "f8", "f10"):
        pilot.key(key)
        yield f"sheet {key}", pilot.view
        pilot.key("escape")
    pilot.application.failed(RuntimeError("words " * 30))
    yield "failure", pilot.view
    pilot.key("escape")
    pilot.key("escape")
    pilot.key("n")
    yield "scrambled", pilot.view
    pilot.turn("(R U R' U')20")
    yield "long history", pilot.view
    pilot.free_play("R U R'")
    pilot.turn("R F")
    pilot.key("i")
    pilot.settle()
    yield "turns explained", pilot.view
    pilot.key("e")
    yield "turns explained in full", pilot.view


def in_the_case_book(pilot: Pilot) -> Iterator[tuple[str, View]]:
    pilot.press("open:CASE_BOOK")
    yield "case book", pilot.view
    pilot.press(action_name(OpenCase(CASES[5].slug)))
    pilot.settle()
    yield "case page", pilot.view
    pilot.key("i")
    pilot.write("R U R' U' R U' R'")
    yield "case page, writing another way", pilot.view
    pilot.key("enter")
    pilot.settle()
    pilot.key("e")
    yield "case page, another way explained", pilot.view
    pilot.key("i")
    pilot.key("a")
    pilot.wait(3.0)
    yield "case page, shown", pilot.view
    pilot.press("act:SAVE_CLIP")
    pilot.press("act:SAVE_PICTURE")
    yield "a clip being saved", pilot.view
    pilot.application.give(NotSaved(1, "Read-only file system (/media/club/a folder with a long name)."))
    yield "a clip not saved", pilot.view


def in_painting(pilot: Pilot) -> Iterator[tuple[str, View]]:
    pilot.press("open:PAINTING")
    yield "painting, empty", pilot.view
    pilot.give_keys(*"wwyyrroo", "down")
    yield "painting, much wrong", pilot.view
    pilot.press("painting:FILL")
    yield "painting, right", pilot.view
    pilot.give_keys("right", *"gg")
    yield "painting, two stickers wrong", pilot.view
    pilot.key("z", Modifier.CONTROL)
    yield "painting, one sticker wrong", pilot.view
    pilot.key("v", Modifier.CONTROL)
    pilot.write("U: yyy www")
    pilot.key("enter")
    yield "painting, written", pilot.view


def in_practice(pilot: Pilot) -> Iterator[tuple[str, View]]:
    pilot.press("open:PRACTICE")
    yield "practice", pilot.view
    for help in Help:
        pilot.press(action_name(TryCase(CASES[3].slug, help=help)))
        pilot.wait(2.0)
        yield f"run {help.name}", pilot.view
        pilot.wait(60.0)
        pilot.key("enter")
        pilot.turn("D")
        yield f"run {help.name}, astray", pilot.view
        pilot.press("practice:GIVE_UP")
        yield f"run {help.name}, over", pilot.view


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
        controls = view.rail.controls if view.rail else ()
        for button in (*view.bar, *view.more, *Reading(view).buttons, *controls):
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


def test_scenes_of_every_kind_are_among_them(views: dict[str, View], lessons: dict[str, Lesson]) -> None:
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
            and (not view.overlay or panel.place is Place.OVERLAY)
            # Stickers of a net have a cursor of their own, which the arrow keys move (test_painting).
            and box.kind is not BoxKind.STICKER
        }
        assert to_press <= set(actions), name
