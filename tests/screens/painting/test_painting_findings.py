"""What is wrong with a painted cube that cannot be, and how a button puts it right."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from tests.screens.painting.easel import colours_of, mixed, net_of, pasted, warnings
from tests.session.names import action_name, actions_in
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.cube.geometry import EDGE_STICKERS
from tutor.cube.held_cube import HeldCube
from tutor.cube.legality import FaultKind as PieceKind
from tutor.cube.repairs import Repaint, Reseat, Swap, corrected, examine, stickers_of
from tutor.cube.stickers import COLOUR_NAMES
from tutor.screens.painting.findings import advice
from tutor.screens.painting.state import Colours
from tutor.screens.solve.state import SOLVE
from tutor.ui.inputs import Modifier
from tutor.ui.view import Button

# ---------------------------------------------------------------------------------- what is wrong with it


def test_an_impossible_piece_is_noticed_at_once_and_marked(painter: Pilot) -> None:
    front, right = EDGE_STICKERS[8], EDGE_STICKERS[9]
    painter.press("colour:0")
    painter.press(f"paint:{front}")
    assert warnings(painter) == []
    painter.press("colour:1")
    painter.press(f"paint:{right}")
    (said,) = warnings(painter)
    assert said.startswith("The front-right edge shows yellow-white")
    assert net_of(painter).marked == {front, right}
    assert len(stage_of(painter).outlined) == 1


def mendings() -> Iterator[tuple[Colours, Repaint | Reseat | Swap, str]]:
    """Cubes with one thing wrong, what mends them, and what the button says."""
    cube, solved = mixed(7), HeldCube().colours
    wrong = next(colour for colour in range(6) if colour not in (cube[0], cube[4]))
    label = f"Paint the top of the top back-left corner {COLOUR_NAMES[cube[0]]}"
    yield (*cube[:0], wrong, *cube[1:]), Repaint(0, cube[0]), label
    label = "Twist the bottom front-left corner anticlockwise"
    yield corrected(solved, Reseat(PieceKind.CORNER, 5, 1)), Reseat(PieceKind.CORNER, 5, 2), label
    yield corrected(solved, Reseat(PieceKind.EDGE, 7)), Reseat(PieceKind.EDGE, 7), "Flip the back-right edge"
    swap = Swap(PieceKind.EDGE, 4, 6)
    yield corrected(solved, swap), swap, "Swap the front-right edge and the back-left edge"
    swap = Swap(PieceKind.CORNER, 0, 1)
    yield corrected(solved, swap), swap, "Swap the top front-right corner and the top front-left corner"


@pytest.mark.parametrize(("cube", "correction", "words"), list(mendings()))
def test_a_single_fault_is_refused_explained_and_mended_by_a_button(
    painter: Pilot, cube: Colours, correction: Repaint | Reseat | Swap, words: str
) -> None:
    pasted(painter, cube)
    assert warnings(painter)
    painter.press("painting:SOLVE")
    assert SOLVE.of(painter.session) is None
    (offer,) = [
        block
        for block in Reading(painter.view).blocks
        if isinstance(block, Button) and action_name(block.action) == "painting:MEND"
    ]
    assert offer.label == words
    assert offer.primary
    painter.press(offer.action)
    assert colours_of(painter) == corrected(cube, correction)
    assert Reading(painter.view).button("Solve this cube")


def test_where_any_corner_would_do_it_is_said_and_the_cursor_chooses(painter: Pilot) -> None:
    cube = corrected(mixed(8), Reseat(PieceKind.CORNER, 2, 1))
    pasted(painter, cube)
    said = "The colours do not show which corner you must twist. Compare it with the cube in your hand."
    assert any(text.startswith(said) for text in Reading(painter.view).texts)
    assert net_of(painter).marked == set()
    painter.give_keys("delete", "z")  # an erased sticker makes the cube unfinished: nothing is offered then
    assert "painting:MEND" not in actions_in(painter.view)
    painter.key("z", Modifier.CONTROL)
    offer = Reading(painter.view).button("Twist the top back-left corner anticlockwise")
    assert not offer.primary
    painter.press(offer.action)
    assert colours_of(painter) == corrected(cube, Reseat(PieceKind.CORNER, 2, 2))


def test_where_any_swap_would_do_none_is_offered(painter: Pilot) -> None:
    pasted(painter, corrected(mixed(9), Swap(PieceKind.EDGE, 0, 7)))
    assert (
        "The colours do not show which two edges or two corners you must swap. "
        "Compare it with the cube in your hand."
    ) in Reading(painter.view).texts
    assert "painting:MEND" not in actions_in(painter.view)


def test_where_no_single_change_helps_that_is_said(painter: Pilot) -> None:
    cube = corrected(corrected(mixed(9), Swap(PieceKind.EDGE, 0, 7)), Reseat(PieceKind.EDGE, 2))
    pasted(painter, cube)
    assert any(text.startswith("No single change") for text in Reading(painter.view).texts)
    assert len(warnings(painter)) == 2


def likely() -> list[Colours]:
    """Solved cubes on which one piece was turned, or two were swapped."""
    changes: list[Reseat | Swap] = [Reseat(PieceKind.CORNER, place, 1) for place in range(8)]
    changes += [Reseat(PieceKind.EDGE, place) for place in range(12)]
    changes += [Swap(PieceKind.CORNER, 0, 5), Swap(PieceKind.EDGE, 3, 11)]
    return [corrected(HeldCube().colours, change) for change in changes]


@pytest.mark.parametrize("cube", likely())
def test_the_likeliest_change_alone_leaves_its_own_pieces_right(cube: Colours) -> None:
    finding, solved = examine(cube), HeldCube().colours
    assert finding.likeliest is not None
    for each in finding.corrections:
        after = corrected(cube, each)
        right = all(after[sticker] == solved[sticker] for sticker in stickers_of(each))
        assert right == (each == finding.likeliest)


@pytest.mark.parametrize("cube", [*likely(), *(cube for cube, _, _ in mendings())])
def test_no_place_is_named_by_letters_alone(cube: Colours) -> None:
    """A person who paints a cube need not know what U or F stands for."""
    for cursor in range(54):
        given = advice(examine(cube), cursor, COLOUR_NAMES)
        assert given is not None
        assert not re.search(r"\b[UDLRFB]{1,3}\b", f"{given.text} {given.label}")
