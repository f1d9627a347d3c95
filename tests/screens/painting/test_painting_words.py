"""What is said about a painted cube that cannot be, and how a button mends it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.painting.easel import colours_of, mixed, net_of, pasted, warnings
from tests.session.names import action_name, actions_in
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.cube.geometry import EDGE_STICKERS
from tutor.cube.held_cube import HeldCube
from tutor.cube.legality import FaultKind as PieceKind
from tutor.cube.repairs import Exchange, Repaint, Reseat, corrected
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
    assert SOLVE.of(painter.session) is None
    (offer,) = [
        block
        for block in Reading(painter.view).blocks
        if isinstance(block, Button) and action_name(block.action) == "painting:MEND"
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
