"""One's own cube painted, through the real application: by keys, by clicks, as text, and mended."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import product
from random import Random

import pytest

from render.interface import Interface
from render.layout import layout
from render.layout_box import Rect
from render.layout_net import FACE_GAP, place_net
from render.picking import StageHand, pick
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import EDGE_STICKERS, STICKERS
from tutor.cube.held import HeldCube
from tutor.cube.legality import BLANK
from tutor.cube.legality import Kind as PieceKind
from tutor.cube.mending import Exchange, Repaint, Reseat, corrected
from tutor.cube.notation import parse_moves
from tutor.cube.random_position import random_position
from tutor.cube.sticker_text import format_stickers, parse_stickers
from tutor.session.actions import actions_in
from tutor.session.inputs import Modifier, StickerPressed
from tutor.session.painting import painting_of, with_text
from tutor.session.painting_state import CENTRES, PATH, Colours, Heading, neighbour
from tutor.session.painting_text import painting_text, read_painting
from tutor.session.solving import Stand, cross_down, stand
from tutor.session.view import HIDDEN, Button, Entry, Look, Net, Palette, Screen, Tone

KEYS = "ywrogb"
"""The first letters of the colours numbered 0 to 5."""
SIZES = ((1280.0, 800.0), (960.0, 640.0))


def mixed(seed: int) -> Colours:
    return HeldCube(random_position(Random(seed))).colours


def text_of(colours: Colours) -> str:
    """As a field gets it: its one line has spaces for line ends."""
    return format_stickers(colours).replace("\n", " ")


@pytest.fixture
def painter(pilot: Pilot) -> Pilot:
    pilot.press("open:SOLVE")
    pilot.press(Reading(pilot.view).button("Paint your cube").action)
    return pilot


def colours_of(pilot: Pilot) -> Colours:
    colours = painting_of(pilot.session).colours
    assert stage_of(pilot).colours == colours
    assert net_of(pilot).colours == colours
    return colours


def net_of(pilot: Pilot) -> Net:
    return next(block for block in pilot.view.card if isinstance(block, Net))


def pasted(pilot: Pilot, colours: Colours) -> None:
    pilot.key("v", Modifier.CONTROL)
    pilot.write(text_of(colours))
    pilot.key("enter")


def warnings(pilot: Pilot) -> list[str]:
    blocks = Reading(pilot.view).blocks
    return [block.text for block in blocks if getattr(block, "tone", None) is Tone.WARNING]  # type: ignore[union-attr]


# ------------------------------------------------------------------------------------------------- keys


def test_only_the_middles_are_there_at_first(painter: Pilot) -> None:
    assert painter.view.screen is Screen.PAINTING
    solved = HeldCube().colours
    assert colours_of(painter) == tuple(solved[place] if place in CENTRES else HIDDEN for place in range(54))
    assert "48 stickers to go." in Reading(painter.view).texts


def test_a_cube_painted_by_letters_alone_can_be_solved(painter: Pilot) -> None:
    cube = mixed(1)
    for sticker in PATH:
        painter.key(KEYS[cube[sticker]])
    assert colours_of(painter) == cube
    painter.press(Reading(painter.view).button("Solve this cube").action)
    painter.settle()
    solve = painter.session.solve
    assert painter.view.screen is Screen.SOLVE
    assert solve is not None
    down = cross_down(solve)
    assert down.cube.face_of(painter.session.settings.cross) is Face.D
    assert solve.attempt.cube.state == HeldCube(random_position(Random(1))).state
    assert stand(solve) is Stand.CROSS


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
    free = painter.session.free
    painter.give_keys("r", "R", "b", "U", "x")
    assert painter.session.free is free
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
    net = Net((HIDDEN,) * 54, tuple(map(str, range(54))))
    rects = {int(box.action): box.rect for box in place_net(net, Rect(0.0, 0.0, 380.0, 0.0)).boxes}
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
    boxes = {box.action: box for _, box in layout(painter.view, *size).boxes() if box.action}
    for colour in range(6):
        for action in (f"colour:{colour}", *(f"paint:{s}" for s in PATH if cube[s] == colour)):
            rect = boxes[action].rect
            click(painter, interface, size, rect.x + rect.width / 2, rect.y + rect.height / 2)
    assert colours_of(painter) == cube


def test_the_middles_cannot_be_painted_and_that_is_said(painter: Pilot) -> None:
    before = colours_of(painter)
    painter.give(StickerPressed(9 * Face.F + 4))
    assert colours_of(painter) == before
    assert "fixed" in painter.view.notice


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


# ---------------------------------------------------------------------------------------- nothing is lost


def test_going_away_and_coming_back_loses_nothing(painter: Pilot) -> None:
    painter.give_keys(*"wrg")
    before = painter.session.painting
    painter.key("escape")
    assert painter.view.screen is Screen.SOLVE
    assert "3 of 48" in Reading(painter.view).button("Paint your cube").detail
    painter.press("open:SETTINGS")
    painter.press("open:FREE_PLAY")
    painter.turn("R U")
    painter.press("open:PAINTING")
    assert painter.session.painting is before


def test_what_was_painted_is_there_after_its_solve(painter: Pilot) -> None:
    pasted(painter, mixed(5))
    painter.key("enter")
    assert painter.session.solve is not None
    painter.turn("R U F")
    painter.press("act:NEW_SOLVE")
    painter.press(Reading(painter.view).button("Paint your cube").action)
    assert colours_of(painter) == mixed(5)


def test_every_change_is_kept_for_the_next_start(painter: Pilot) -> None:
    kept: list[str] = []
    painter.application._save_painting = kept.append
    painter.give_keys(*"wr")
    painter.key("right")
    assert len(kept) == 2
    again = Pilot(painter.solver)
    again.application.session = with_text(again.session, kept[-1])
    again.press("open:PAINTING")
    assert colours_of(again) == colours_of(painter)


@pytest.mark.parametrize("text", ["", "U: yyy", "nonsense", "R U Q", text_of(mixed(1)).replace("y", "w")])
def test_a_file_that_is_no_painting_counts_as_none(pilot: Pilot, text: str) -> None:
    assert with_text(pilot.session, text) is pilot.session


# --------------------------------------------------------------------------------------------------- text


def test_a_painting_only_begun_goes_out_and_in_as_text(painter: Pilot) -> None:
    copied: list[str] = []
    painter.application.copy_text = copied.append
    painter.give_keys(*"wroygb")
    before = colours_of(painter)
    painter.key("c", Modifier.CONTROL)
    assert copied[0].splitlines()[0] == "U: wro yyg b.."
    painter.press(Reading(painter.view).button("Erase all").action)
    pasted(painter, parse_stickers(copied[0], blanks=True))
    assert colours_of(painter) == before


def test_a_scramble_is_taken_over_as_it_would_look(painter: Pilot) -> None:
    painter.key("v", Modifier.CONTROL)
    painter.write("R U2 F'")
    painter.key("enter")
    # Scrambles are made with white on top and green in front (WCA 4d1).
    expected = HeldCube().after(parse_moves("z2 R U2 F'")).colours
    assert colours_of(painter) == expected


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("U: yyy", "9|nine"),
        ("R U Q", "Q"),
        (text_of(HeldCube().colours).replace("U: yyy yyy", "U: yyy y.y"), "middle"),
        (text_of(tuple({2: 3, 3: 2}.get(c, c) for c in HeldCube().colours)), "centres"),
    ],
)
def test_a_text_with_a_mistake_changes_nothing_and_stays(painter: Pilot, text: str, words: str) -> None:
    painter.give_keys(*"wr")
    before = painter.session.painting
    painter.key("v", Modifier.CONTROL)
    painter.write(text)
    painter.key("enter")
    (entry,) = [block for block in Reading(painter.view).blocks if isinstance(block, Entry)]
    assert entry.text == text
    assert any(word in entry.error for word in words.split("|")), entry.error
    assert painter.session.painting is before


def test_text_and_painting_are_each_others_inverse_in_any_arrangement() -> None:
    random = Random(6)
    for arrangement in ((0, 1, 2, 3, 4, 5), (1, 0, 3, 2, 4, 5), (4, 5, 0, 1, 2, 3)):
        look = Look(arrangement=arrangement)
        for seed in range(5):
            part = tuple(
                c if place in CENTRES or random.random() < 0.5 else BLANK
                for place, c in enumerate(mixed(seed))
            )
            assert read_painting(painting_text(part, look).replace("\n", " "), look) == part


def test_letters_mean_the_colours_that_a_person_has_chosen(painter: Pilot) -> None:
    names = ("blue", "green", "yellow", "white", "red", "orange")
    settings = painter.session.settings
    look = replace(settings.look, arrangement=(5, 4, 0, 1, 2, 3))
    painter.application.session = replace(
        painter.session, settings=replace(settings, look=look, colour_names=names)
    )
    assert Reading(painter.view).texts[0] == "Blue on top, red in front"
    painter.key("w")
    assert colours_of(painter)[PATH[0]] == 3
    copied: list[str] = []
    painter.application.copy_text = copied.append
    painter.key("c", Modifier.CONTROL)
    assert copied[0].splitlines()[0] == "U: w.. .b. ..."


# ---------------------------------------------------------------------------------- what is wrong with it


def test_an_impossible_piece_is_noticed_at_once_and_marked(painter: Pilot) -> None:
    front, right = EDGE_STICKERS[8], EDGE_STICKERS[9]
    painter.press("colour:0")
    painter.press(f"paint:{front}")
    assert warnings(painter) == []
    painter.press("colour:1")
    painter.press(f"paint:{right}")
    (said,) = warnings(painter)
    assert said.startswith("The edge at FR shows yellow-white")
    assert net_of(painter).marked == {front, right}
    assert len(stage_of(painter).outlined) == 1


def mendings() -> Iterator[tuple[Colours, Repaint | Reseat | Exchange, str]]:
    """Cubes with one thing wrong, what mends them, and what the button says."""
    cube, solved = mixed(7), HeldCube().colours
    wrong = next(colour for colour in range(6) if colour not in (cube[0], cube[4]))
    yield (*cube[:0], wrong, *cube[1:]), Repaint(0, cube[0]), "Paint the top of the corner at UBL"
    yield corrected(solved, Reseat(PieceKind.CORNER, 5, 1)), Reseat(PieceKind.CORNER, 5, 2), "DFL counter"
    yield corrected(solved, Reseat(PieceKind.EDGE, 7)), Reseat(PieceKind.EDGE, 7), "Flip the edge at BR"
    swap = Exchange(PieceKind.EDGE, 4, 6)
    yield corrected(solved, swap), swap, "Swap the edges at FR and BL"
    swap = Exchange(PieceKind.CORNER, 0, 1)
    yield corrected(solved, swap), swap, "Swap the corners at UFR and UFL"


@pytest.mark.parametrize(("cube", "correction", "words"), list(mendings()))
def test_a_single_fault_is_refused_explained_and_mended_by_a_button(
    painter: Pilot, cube: Colours, correction: Repaint | Reseat | Exchange, words: str
) -> None:
    pasted(painter, cube)
    assert warnings(painter)
    painter.press("painting:SOLVE")
    assert painter.session.solve is None
    (offer,) = [
        block
        for block in Reading(painter.view).blocks
        if isinstance(block, Button) and block.action == "painting:MEND"
    ]
    assert words in offer.label
    assert offer.primary
    painter.press(offer.action)
    assert colours_of(painter) == corrected(cube, correction)
    assert Reading(painter.view).button("Solve this cube")


def test_where_any_corner_would_do_it_is_said_and_the_cursor_chooses(painter: Pilot) -> None:
    cube = corrected(mixed(8), Reseat(PieceKind.CORNER, 2, 1))
    pasted(painter, cube)
    assert any("any one corner would do" in text for text in Reading(painter.view).texts)
    assert net_of(painter).marked == set()
    painter.give_keys("delete", "z")  # an erased sticker makes the cube unfinished: nothing is offered then
    assert "painting:MEND" not in actions_in(painter.view)
    painter.key("z", Modifier.CONTROL)
    offer = Reading(painter.view).button("Twist the corner at UBL counterclockwise")
    assert not offer.primary
    painter.press(offer.action)
    assert colours_of(painter) == corrected(cube, Reseat(PieceKind.CORNER, 2, 2))


def test_where_any_swap_would_do_none_is_offered(painter: Pilot) -> None:
    pasted(painter, corrected(mixed(9), Exchange(PieceKind.EDGE, 0, 7)))
    assert any("any two edges or any two corners would do" in text for text in Reading(painter.view).texts)
    assert "painting:MEND" not in actions_in(painter.view)


def test_where_no_single_change_helps_that_is_said(painter: Pilot) -> None:
    cube = corrected(corrected(mixed(9), Exchange(PieceKind.EDGE, 0, 7)), Reseat(PieceKind.EDGE, 2))
    pasted(painter, cube)
    assert any(text.startswith("No single change") for text in Reading(painter.view).texts)
    assert len(warnings(painter)) == 2


def test_with_a_cross_of_another_colour_it_is_held_that_way(pilot: Pilot) -> None:
    pilot.press("choose:CROSS:4")
    pilot.press("open:PAINTING")
    assert colours_of(pilot)[9 * Face.D + 4] == Face.F
    assert len({colours_of(pilot)[9 * face + 4] for face in FACES}) == 6
