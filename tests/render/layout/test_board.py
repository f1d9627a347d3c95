"""The board's letters, measured: large enough for the back of the room, and nothing over anything."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from render.layout.boxes import BoxKind, Scene, WindowPart
from render.layout.panels import layout
from tests.render.layout.test_panels import check_scene, overlap
from tutor.ui.view import Look, View

SIZES = ((960, 640), (1280, 800), (1920, 1080), (3840, 2160))


@pytest.fixture(scope="module")
def boards(views: dict[str, View]) -> dict[str, View]:
    """All views of the board with a cube."""
    found = {name: view for name, view in views.items() if view.board is not None and not view.overlay}
    assert len(found) >= 9
    return found


def read_by_all(scene: Scene, *, answers: bool = False) -> list[float]:
    """The sizes of the letters that the group reads; the main button is for whoever stands at the board."""
    return [
        line.font.size
        for panel, box in scene.boxes()
        if panel.place in (WindowPart.LINE, WindowPart.ASIDE)
        and not box.primary
        and bool(box.action) is answers
        for line in box.lines
    ]


@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("size", SIZES, ids=str)
def test_letters_are_a_sixteenth_of_the_window_or_larger(
    boards: dict[str, View], size: tuple[int, int], scale: float
) -> None:
    for name, view in boards.items():
        scene = layout(replace(view, look=Look(text_scale=scale)), *size)
        assert min(read_by_all(scene)) >= size[1] / 16, name
        # Long answers are smaller, so that all of them are in sight.
        assert min(read_by_all(scene, answers=True), default=size[1]) >= size[1] / 28, name


def test_short_answers_are_as_large_as_all_else(boards: dict[str, View]) -> None:
    for size in SIZES:
        answers = read_by_all(layout(boards["board, hands"], *size), answers=True)
        assert min(answers) >= size[1] / 16


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_a_turn_is_three_times_as_large(boards: dict[str, View], size: tuple[int, int]) -> None:
    assert max(read_by_all(layout(boards["board, turn"], *size))) >= 3 * size[1] / 16


@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)], ids=str)
def test_the_cube_has_most_of_the_window_and_stays_where_it_is(
    boards: dict[str, View], size: tuple[int, int]
) -> None:
    stages = {layout(boards[f"board, {name}"], *size).stage for name in ("hidden", "pieces", "step", "turn")}
    assert len(stages) == 1
    stage = stages.pop()
    assert stage is not None
    assert stage.height >= 0.7 * size[1]
    assert stage.width >= 0.6 * size[0]


@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize("size", SIZES, ids=str)
def test_question_and_answers_are_all_in_sight(
    boards: dict[str, View], size: tuple[int, int], scale: float
) -> None:
    questions = {name: view for name, view in boards.items() if len(view.card) > 1}
    assert len(questions) >= 4
    for name, view in questions.items():
        scene = layout(replace(view, look=Look(text_scale=scale)), *size)
        aside = scene.panel(WindowPart.ASIDE)
        assert aside is not None
        assert aside.scroll_limit == 0.0, name


def test_the_menu_stands_on_the_bar_at_the_foot(views: dict[str, View]) -> None:
    scene = layout(views["board, more"], 1280, 800)
    menu, bar = scene.panel(WindowPart.OVERLAY), scene.panel(WindowPart.BAR)
    assert menu is not None
    assert bar is not None
    assert bar.rect.bottom == 800
    assert not overlap(menu.rect, bar.rect)
    assert menu.rect.y >= 0


def test_what_is_hidden_is_framed_and_nothing_of_it_is_laid_out(boards: dict[str, View]) -> None:
    boxes = [box for _, box in layout(boards["board, hidden"], 1920, 1080).boxes()]
    assert [box.lines[0].text for box in boxes if box.kind is BoxKind.HIDDEN] == ["Answer hidden"]
    said = {line.text for box in boxes for line in box.lines}
    assert not said & {"Raise", "Part", "Join", "Insert", "U", "U'", "U2", "R", "R'", "F", "F'"}


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_nothing_overlaps_in_the_smallest_window(boards: dict[str, View], scale: float) -> None:
    for view in boards.values():
        check_scene(layout(replace(view, look=Look(text_scale=scale)), 960, 640))
