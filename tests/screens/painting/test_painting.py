"""One's own cube painted, through the real application: by keys and by clicks."""

from __future__ import annotations

from functools import cache
from itertools import product
from random import Random

import pytest

from render.layout.boxes import Rect
from render.layout.net import FACE_GAP, place_net
from render.layout.panels import layout
from render.stage.picking import StageHand, pick
from render.window.interface import Interface
from tests.screens.painting.easel import KEYS, colours_of, mixed, pasted
from tests.session.names import action_name, actions_in
from tests.session.pilot import Pilot, Reading
from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import STICKERS
from tutor.cube.held_cube import HeldCube
from tutor.cube.random_position import random_position
from tutor.screens.free_play.state import FREE
from tutor.screens.painting.commands import PaintSticker
from tutor.screens.painting.state import CENTRES, PATH, Heading, neighbour
from tutor.screens.painting.update import painting_of
from tutor.screens.solve.solving import SolveStand, cross_down, stand
from tutor.screens.solve.state import SOLVE
from tutor.ui.inputs import Modifier, StickerPressed
from tutor.ui.view import HIDDEN, Net, Palette, Tone

SIZES = ((1280.0, 800.0), (960.0, 640.0))


# ------------------------------------------------------------------------------------------------- keys


def test_only_the_middles_are_there_at_first(painter: Pilot) -> None:
    assert painter.view.screen == "painting"
    solved = HeldCube().colours
    assert colours_of(painter) == tuple(solved[place] if place in CENTRES else HIDDEN for place in range(54))
    assert "You have 48 stickers left to paint." in Reading(painter.view).texts
    assert "act:SAVE_CLIP" not in actions_in(painter.view)


def test_a_cube_painted_by_letters_alone_can_be_solved(painter: Pilot) -> None:
    cube = mixed(1)
    for sticker in PATH:
        painter.key(KEYS[cube[sticker]])
    assert colours_of(painter) == cube
    painter.press(Reading(painter.view).button("Solve this cube").action)
    painter.settle()
    solve = SOLVE.of(painter.session)
    assert painter.view.screen == "solve"
    assert solve is not None
    down = cross_down(solve)
    assert down.cube.face_of(painter.session.settings.cross) is Face.D
    assert solve.attempt.cube.state == HeldCube(random_position(Random(1))).state
    assert stand(solve) is SolveStand.CROSS


def test_the_cursor_goes_through_all_stickers_once_and_comes_back(painter: Pilot) -> None:
    seen = []
    for _ in range(48):
        seen.append(painting_of(painter.session).cursor)
        painter.key("g")
    assert sorted((*seen, *CENTRES)) == list(range(54))
    assert painting_of(painter.session).cursor == seen[0]


def test_numbers_paint_in_the_order_of_the_palette(painter: Pilot) -> None:
    painter.give_keys(*"123456")
    assert [colours_of(painter)[sticker] for sticker in PATH[:6]] == [0, 1, 2, 3, 4, 5]


def test_space_paints_with_the_colour_in_hand(painter: Pilot) -> None:
    palette = next(block for block in painter.view.card if isinstance(block, Palette))
    painter.press(palette.swatches[3].action)
    painter.key("space")
    assert colours_of(painter)[PATH[0]] == 3
    assert painting_of(painter.session).cursor == PATH[1]


def test_backspace_erases_the_one_before_and_delete_the_one_here(painter: Pilot) -> None:
    painter.give_keys("w", "r", "backspace")
    assert [colours_of(painter)[sticker] for sticker in PATH[:2]] == [1, HIDDEN]
    painter.give_keys("left", "delete")
    assert set(colours_of(painter)) == {*range(6), HIDDEN}
    assert painting_of(painter.session).painted == 0


def test_letters_never_turn_a_layer_here(painter: Pilot) -> None:
    free = FREE.of(painter.session)
    painter.give_keys("r", "R", "b", "U", "x")
    assert FREE.of(painter.session) is free
    assert painting_of(painter.session).painted == 2


@pytest.mark.parametrize("heading", list(Heading))
def test_every_step_of_the_cursor_can_be_followed_on_the_cube(heading: Heading) -> None:
    for sticker in range(54):
        there = neighbour(sticker, heading)
        (cubie, face), (other, other_face) = STICKERS[sticker], STICKERS[there]
        apart = sum(abs(a - b) for a, b in zip(cubie, other, strict=True))
        # One step on the face, or over an edge of the cube to another sticker of the same piece.
        assert (apart == 1) if face is other_face else (apart == 0)


def test_on_the_net_the_cursor_goes_as_it_is_drawn() -> None:
    net = Net((HIDDEN,) * 54, tuple(map(PaintSticker, range(54))))
    rects = {
        int(action_name(box.action).removeprefix("paint:")): box.rect
        for box in place_net(net, Rect(0.0, 0.0, 380.0, 0.0)).boxes
    }
    side, followed = rects[0].width, 0
    for sticker, heading in product(rects, Heading):
        down, right = heading.value
        x, y = rects[sticker].x + (right + 0.5) * side, rects[sticker].y + (down + 0.5) * side
        # The next sticker, be it across the narrow gap between two faces.
        beside = [other for other, rect in rects.items() if rect.inset(-FACE_GAP).contains(x, y)]
        if beside:
            followed += 1
            assert neighbour(sticker, heading) in beside
    # 54 stickers with four ways each, less the 14 outer sides of three stickers that a net of six faces has.
    assert followed == 4 * 54 - 14 * 3


def test_arrows_reach_every_sticker(painter: Pilot) -> None:
    reached, waiting = {PATH[0]}, [PATH[0]]
    while waiting:
        sticker = waiting.pop()
        for heading in Heading:
            there = neighbour(sticker, heading)
            if there not in reached:
                reached.add(there)
                waiting.append(there)
    assert reached == set(range(54))
    painter.give_keys("right", "down")
    assert painting_of(painter.session).cursor == 9 * Face.U + 4
    painter.key("w")
    assert colours_of(painter)[9 * Face.U + 4] == 0


# ------------------------------------------------------------------------------------------------ clicks


def click(pilot: Pilot, interface: Interface, size: tuple[float, float], x: float, y: float) -> None:
    interface.show(pilot.view, *size, 1.0)
    pilot.give(*interface.press(x, y))
    pilot.give(*interface.release(x, y))


@cache
def points_on_stage(size: tuple[float, float]) -> dict[int, tuple[float, float]]:
    """For every sticker a point of the window at which it is picked, on the cube or in a mirror."""
    pilot = Pilot(None)  # type: ignore[arg-type]
    pilot.press("open:PAINTING")
    stage, rect = pilot.view.stage, layout(pilot.view, *size).stage
    assert stage is not None
    assert rect is not None
    found: dict[int, tuple[float, float]] = {}
    step = 9
    for y in range(step, int(rect.height), step):
        for x in range(step, int(rect.width), step):
            hit = pick(stage, True, (rect.width, rect.height), x, y)
            if hit is not None:
                found.setdefault(hit.sticker, (rect.x + x, rect.y + y))
    return found


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_the_cube_and_its_mirrors_offer_all_54_stickers(size: tuple[float, float]) -> None:
    assert set(points_on_stage(size)) == set(range(54))


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_a_cube_is_painted_by_clicks_on_the_cube_alone(painter: Pilot, size: tuple[float, float]) -> None:
    cube, interface = mixed(2), Interface(StageHand())
    for colour in range(6):
        painter.press(f"colour:{colour}")
        for sticker in PATH:
            if cube[sticker] == colour:
                click(painter, interface, size, *points_on_stage(size)[sticker])
    assert colours_of(painter) == cube
    assert Reading(painter.view).button("Solve this cube").primary


def test_a_cube_is_painted_by_clicks_on_the_net_and_the_palette(painter: Pilot) -> None:
    cube, interface, size = mixed(3), Interface(StageHand()), (1280.0, 800.0)
    boxes = {action_name(box.action): box for _, box in layout(painter.view, *size).boxes() if box.action}
    for colour in range(6):
        for action in (f"colour:{colour}", *(f"paint:{s}" for s in PATH if cube[s] == colour)):
            rect = boxes[action].rect
            click(painter, interface, size, rect.x + rect.width / 2, rect.y + rect.height / 2)
    assert colours_of(painter) == cube


def test_the_middles_cannot_be_painted_and_that_is_said(painter: Pilot) -> None:
    before = colours_of(painter)
    painter.give(StickerPressed(9 * Face.F + 4))
    assert colours_of(painter) == before
    assert painter.view.notice == "The centres are fixed. They show which colour belongs on which face."


def test_the_eraser_erases(painter: Pilot) -> None:
    painter.press("paint:0")
    assert colours_of(painter)[0] == 1
    painter.press("colour:-1")
    painter.press("paint:0")
    assert colours_of(painter)[0] == HIDDEN


# ---------------------------------------------------------------------------------- counts, undo, filling


def test_the_palette_counts_and_warns(painter: Pilot) -> None:
    painter.give_keys(*"wwwwwwww", *"w")
    palette = next(block for block in painter.view.card if isinstance(block, Palette))
    assert [swatch.label for swatch in palette.swatches] == [
        "Y 1",
        "W 10",
        "R 1",
        "O 1",
        "G 1",
        "B 1",
        "Erase",
    ]
    assert palette.swatches[1].tone is Tone.WARNING


def test_undo_and_redo_go_through_every_change(painter: Pilot) -> None:
    steps = [colours_of(painter)]
    painter.key("w")
    steps.append(colours_of(painter))
    painter.press(Reading(painter.view).button("Paint it solved").action)
    steps.append(colours_of(painter))
    assert steps[-1] == HeldCube().colours
    pasted(painter, mixed(4))
    steps.append(colours_of(painter))
    painter.press(Reading(painter.view).button("Erase all").action)
    steps.append(colours_of(painter))
    assert steps[-1] == steps[0]
    for expected in reversed(steps[:-1]):
        painter.key("z", Modifier.CONTROL)
        assert colours_of(painter) == expected
    painter.key("z", Modifier.CONTROL)
    for expected in steps[1:]:
        painter.key("y", Modifier.CONTROL)
        assert colours_of(painter) == expected


def test_with_a_cross_of_another_colour_it_is_held_that_way(pilot: Pilot) -> None:
    pilot.press("choose:CROSS:4")
    pilot.press("open:PAINTING")
    assert colours_of(pilot)[9 * Face.D + 4] == Face.F
    assert len({colours_of(pilot)[9 * face + 4] for face in FACES}) == 6
