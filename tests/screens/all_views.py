"""All kinds of view that a person meets, by name; tests and the report on words share them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.screens.group.group_views import group_views
from tests.screens.learners.learner_views import learner_views
from tests.screens.practice.practice_views import practice_views
from tests.screens.progress.progress_views import progress_views
from tests.screens.solve.solve_views import solve_views
from tests.session.names import action_name
from tests.session.pilot import Pilot
from tests.workers.direct import answers_of
from tutor.coach.guidance import Help
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.scenes import Lesson
from tutor.method.cases import CASES
from tutor.screens.case_book.commands import OpenCase
from tutor.screens.practice.commands import TryCase
from tutor.session.saving_commands import NotSaved
from tutor.solver.search import Solver
from tutor.ui.inputs import Modifier
from tutor.ui.view import View


def every_lesson(solver: Solver) -> dict[str, Lesson]:
    """The lessons that come with the program, by name."""
    setting = LessonSetting(answers_of(solver))
    return {name: load_lesson(name, setting) for name in curriculum_names()}


def every_view(solver: Solver, folder: Path) -> Iterator[tuple[str, View]]:
    """All kinds of view by name; ``folder`` is empty."""
    yield from screens(Pilot(solver, every_lesson(solver)))
    yield from of_learners(solver, folder)


def of_learners(solver: Solver, folder: Path) -> Iterator[tuple[str, View]]:
    """The views that need learners with a past; ``folder`` is empty."""
    for name in ("club", "nobody", "progress", "group", "solves", "learners"):
        (folder / name).mkdir()
    yield from practice_views(solver, folder / "club", folder / "nobody")
    yield from progress_views(solver, folder / "progress")
    yield from group_views(solver, folder / "group")
    yield from solve_views(solver, folder / "solves")
    yield from learner_views(solver, folder / "learners")


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
    yield from on_the_board(pilot)
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
    pilot.give_keys("escape", "escape", "escape")  # the card, what is written, and the field
    assert not pilot.session.writing.open
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


def on_the_board(pilot: Pilot) -> Iterator[tuple[str, View]]:
    pilot.press("open:BOARD")
    pilot.write("3, 99")
    pilot.key("enter")
    yield "board, the list", pilot.view
    pilot.give_keys("escape", "escape")
    pilot.press("show:14, 20, 3")
    for shown in ("hidden", "pieces", "step", "turn", "route"):
        pilot.settle()
        yield f"board, {shown}", pilot.view
        pilot.key("page down")
    pilot.wait(120.0)
    yield "board, at its end", pilot.view
    pilot.give_keys("page down", "g", "g", "1", "2", "2", "4")
    yield "board, hands", pilot.view
    pilot.key("space")
    yield "board, right answer", pilot.view
    pilot.give_keys("f10")
    yield "board, more", pilot.view
    pilot.give_keys("escape", "escape", "s", "s")
    yield "board, another slot", pilot.view
    pilot.press("show:three-turn-join")
    while "?" not in getattr(pilot.view.board, "line", "?"):
        pilot.key("right")
    yield "board, a lesson's question", pilot.view
    pilot.press("show:made-pair")
    pilot.give_keys("1", "1", "2", "space", "space")
    yield "board, long answers", pilot.view
    pilot.press("board:PREPARE")


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
