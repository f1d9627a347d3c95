"""Home: what to do next, today's list, and the lessons in their groups."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from msgspec.structs import replace

from render.layout.panels import layout
from tests.screens.learners.learner_views import CLUB
from tests.screens.practice.sitting import sits_down
from tests.session.pilot import EPOCH, Pilot, Reading
from tutor.app.compose import lesson_title
from tutor.cube.faces import Face
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves
from tutor.cube.position import Slot
from tutor.cube.sticker_text import format_stickers
from tutor.lesson.library import curriculum_groups, find_script, lesson_entries, pictured
from tutor.lesson.script import ASKING
from tutor.method.cases import CASES
from tutor.progress.assignment import Assignment, ToDo
from tutor.progress.attempt import GUEST, AttemptRecord, Mode, Outcome
from tutor.progress.store import AttemptStore
from tutor.screens.home.view import CASES_AT_HOME, home, home_at
from tutor.screens.lesson.commands import StartLesson
from tutor.screens.practice.commands import Practise, TryCase
from tutor.screens.table import SCREENS
from tutor.session.beginning import new_session
from tutor.session.keymap import command_names
from tutor.session.settings import Settings
from tutor.solver.search import Solver
from tutor.ui.view import Block, Button, Group, Miniature, MiniatureGrid, Stage, Text, TextStyle, View

TODAY = date(2026, 12, 6)


@pytest.fixture
def beginner(solver: Solver) -> Pilot:
    return Pilot(solver, titles=True)


def blocks(view: View) -> Iterator[Block]:
    for column in view.page:
        for block in column:
            yield from block.blocks if isinstance(block, Group) else (block,)


def pictures(view: View, kind: type[StartLesson] | type[TryCase]) -> list[Miniature]:
    grids = (block for block in blocks(view) if isinstance(block, MiniatureGrid))
    return [cell for grid in grids for cell in grid.miniatures if isinstance(cell.action, kind)]


def test_the_lessons_stand_in_their_groups_with_a_picture_each(beginner: Pilot) -> None:
    headings = [each.text for each in blocks(beginner.view) if isinstance(each, Text)]
    in_order = list(dict.fromkeys(curriculum_groups().values()))
    assert [text for text in headings if text in in_order] == in_order
    shown = pictures(beginner.view, StartLesson)
    assert [cell.label.partition(". ")[0] for cell in shown] == [str(n) for n in range(1, 20)]
    # A picture has the pair's two pieces and the six centres in colour. The last lesson is about all pairs.
    assert [len(cell.stage.dimmed) for cell in shown] == [*[18] * 18, 0]


def solved_to_the_eye(stage: Stage) -> bool:
    """Whether each piece in colour shows the colour of the centre beside each of its stickers."""
    return all(
        colour == stage.colours[9 * face + 4]
        for (cubie, face), colour in zip(STICKERS, stage.colours, strict=True)
        if cubie_number(cubie) not in stage.dimmed
    )


@pytest.mark.parametrize("cross", Face)
def test_no_lesson_has_a_solved_cube_for_its_picture(cross: Face) -> None:
    titles = tuple(lesson_title(entry) for entry in lesson_entries())
    view = home_at(new_session(SCREENS, Settings(cross=cross), titles), 0.0)
    shown = pictures(view, StartLesson)
    assert len(shown) == 19
    assert [cell.label for cell in shown if solved_to_the_eye(cell.stage)] == []


TOLD = """title = "Mine"
goal = "A goal."
[[scene]]
kind = "tell"
text = "A cube."
setup = "x"
slot = "none"
[[scene]]
kind = "tell"
text = "A turn."
setup = "U"
slot = "FL"
"""
ASKED = '[[scene]]\nkind = "ask"\ntext = "Solve it."\n'
STICKERS_TOLD = format_stickers(HeldCube().after(parse_moves("L' U' L")).colours)


@pytest.mark.parametrize("start", ["setup = \"L' U' L\"", f'stickers = """\n{STICKERS_TOLD}\n"""'])
def test_a_lesson_of_ones_own_has_its_first_unsolved_cube_for_its_picture(start: str, tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(TOLD + ASKED + start, encoding="utf-8")
    (tmp_path / "told.toml").write_text(TOLD, encoding="utf-8")
    titles = tuple(lesson_title(entry) for entry in lesson_entries(tmp_path))
    mine, told = pictures(home_at(new_session(SCREENS, Settings(), titles), 0.0), StartLesson)[-2:]
    assert not solved_to_the_eye(mine.stage)
    # Its slot is turned to the front right: the corner at the right, bottom and front, the edge above it.
    assert mine.stage.framed == {cubie_number((1, -1, 1)), cubie_number((1, 0, 1))}
    # Where a lesson has no such cube, there is no other picture of it.
    assert solved_to_the_eye(told.stage)


def test_one_button_is_the_main_one_and_enter_presses_it(beginner: Pilot) -> None:
    mains = [each for each in blocks(beginner.view) if isinstance(each, Button) and each.primary]
    assert [(each.label, each.key) for each in mains] == [("Start the first lesson", "Enter")]
    assert mains[0].action == StartLesson("notation")


def test_todays_list_shows_three_cases_and_leads_to_all_of_them(beginner: Pilot) -> None:
    slugs = tuple(case.slug for case in CASES[:7])
    view = home(beginner.session, slugs, TODAY)
    assert [cell.action for cell in pictures(view, TryCase)] == [
        TryCase(slug) for slug in slugs[:CASES_AT_HOME]
    ]
    texts = [each.text for each in blocks(view) if isinstance(each, Text)]
    assert "You have seven cases to practise." in texts
    assert [each.label for each in blocks(view) if isinstance(each, Button)].count(
        "Practise today's list"
    ) == 1
    assert "Practise today's list" not in [
        each.label for each in blocks(beginner.view) if isinstance(each, Button)
    ]


@pytest.mark.parametrize(("width", "height", "scale"), [(960, 640, 1.0), (1280, 800, 1.25)])
def test_the_way_to_todays_list_is_in_sight(beginner: Pilot, width: int, height: int, scale: float) -> None:
    view = home(beginner.session, tuple(case.slug for case in CASES[:7]), TODAY)
    view = replace(view, look=replace(view.look, text_scale=scale))
    boxes = [box for panel in layout(view, width, height).panels for box in panel.boxes]
    (found,) = (box.rect for box in boxes if box.action == Practise(Mode.TODAY))
    assert found.bottom < height


@pytest.mark.parametrize("size", [(960, 640), (1280, 800)], ids=str)
@pytest.mark.parametrize(
    ("others", "listed", "given"), [((), 7, 0), ((), 0, 3), (("Ilva", "Tova"), 7, 3), (CLUB[:7], 0, 0)]
)
def test_all_rooms_and_names_are_in_sight(
    beginner: Pilot, others: tuple[str, ...], listed: int, given: int, size: tuple[int, int]
) -> None:
    slugs = tuple(case.slug for case in CASES[:listed])
    day = datetime.fromtimestamp(EPOCH, UTC)
    tasks = (ToDo(Assignment(GUEST, f"case:{case.slug}", day, day), done=False) for case in CASES[:given])
    records = replace(beginner.session.records, learners=(GUEST, *others))
    view = home(replace(beginner.session, records=records), slugs, TODAY, tuple(tasks))
    boxes = [box for panel in layout(view, *size).panels for box in panel.boxes]
    rooms = ["Free play", "Practice", "Whole solves", "Progress", "Case book", "Board"]
    several = ["Group", *records.learners] if others else []
    for label in (*rooms, *several, "Start the first lesson", "Choose another learner"):
        action = Reading(view).button(label).action
        found = min(box.rect.bottom for box in boxes if box.action == action)
        assert found < size[1], action


def test_what_is_looked_up_for_home_is_what_the_whole_script_says() -> None:
    for entry in lesson_entries():
        scenes = find_script(entry.name).script.scene
        assert entry.tasks == sum(isinstance(scene, ASKING) for scene in scenes)
        assert entry.start == pictured(scenes)


def test_the_rest_is_advised_at_home(beginner: Pilot) -> None:
    assert any("rest when they feel tired" in text for text in Reading(beginner.view).texts)
    assert any(isinstance(each, Text) and each.style is TextStyle.TITLE for each in blocks(beginner.view))


def test_without_any_key_home_says_how_to_get_them_back() -> None:
    def told(settings: Settings) -> list[str]:
        view = home_at(new_session(SCREENS, settings, ()), 0.0)
        return [each.text for each in blocks(view) if isinstance(each, Text)]

    off = tuple((name, "") for name in command_names(SCREENS))
    assert [text for text in told(Settings(keys=off)) if "[keys]" in text] == [
        "Every key is switched off. To get them back, delete the lines under [keys] in the settings file. "
        "Then look at letter and number keys in Settings."
    ]
    assert not [text for text in told(Settings(keys=off[1:])) if "[keys]" in text]


def test_a_case_met_in_a_lesson_counts_as_met_here_as_in_progress(solver: Solver, tmp_path: Path) -> None:
    made = datetime.fromtimestamp(EPOCH - 3600.0, UTC)
    with AttemptStore.open(tmp_path) as store:
        for case, mode in zip(CASES, (Mode.LESSON, Mode.TODAY), strict=False):
            store.record(AttemptRecord(GUEST, made, case.slug, Slot.FR, 0, mode, Outcome.SOLVED, 3, 3, 9.0))
    pilot = sits_down(solver, tmp_path)
    assert "You have finished no lessons and met two cases." in Reading(pilot.view).texts
    pilot.press("open:PROGRESS")
    pilot.settle()
    assert Reading(pilot.view).texts[1].startswith("You have met 2 of the 41 cases. ")
