"""The letters on the stickers: the initial of the colour, in small letters, which name no turn."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest

from render.stage.letter_sheet import CELL, letter_sheet
from render.stage.palette import load_palette
from render.stage.scene_block import NO_LETTER, sticker_rows
from render.theme import load_theme
from tutor.cube.faces import FACES
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.sticker_text import COLOUR_LETTERS
from tutor.cube.stickers import COLOUR_NAMES
from tutor.ui.view import HIDDEN, Look, Stage

SOLVED = tuple(face for face in range(6) for _ in range(9))


def test_each_colour_has_its_initial_and_none_is_the_letter_of_a_turn() -> None:
    # WCA 12a: turns are named by the capitals U D L R F B.
    assert tuple(COLOUR_LETTERS) == tuple(name[0] for name in COLOUR_NAMES)
    assert len(set(COLOUR_LETTERS)) == 6
    assert not set(COLOUR_LETTERS) & {face.name for face in FACES}


def test_the_sheet_has_six_different_letters_whole_in_their_cells() -> None:
    cells = np.split(letter_sheet(), 6, axis=1)
    for cell in cells:
        assert cell.shape == (CELL, CELL)
        assert cell.max() == 255
        border = np.concatenate([cell[0], cell[-1], cell[:, 0], cell[:, -1]])
        assert border.max() == 0
    assert all((one != two).any() for one, two in permutations(cells, 2))


@pytest.mark.parametrize("arrangement", [(0, 1, 2, 3, 4, 5), (1, 0, 2, 3, 5, 4), (5, 4, 3, 2, 1, 0)])
def test_a_sticker_has_the_letter_of_the_colour_that_it_shows(arrangement: tuple[int, ...]) -> None:
    look = Look(arrangement=arrangement)
    palette = load_palette(look.palette).arranged(look.arrangement)
    colours = (*SOLVED[:44], HIDDEN, *SOLVED[45:])
    numbers = sticker_rows(Stage(colours), palette, load_theme("light").stage)[:, 3]
    expected = [-1 if colour == HIDDEN else arrangement[colour] for colour in colours]
    assert numbers.tolist() == expected


def test_a_dimmed_sticker_stands_for_any_piece_and_has_no_letter() -> None:
    # A corner has three stickers and an edge has two.
    theme, palette = load_theme("light").stage, load_palette("usual")
    dimmed = frozenset({cubie_number((-1, -1, -1)), cubie_number((0, 1, 1))})
    for crossfade in (None, SOLVED):
        stage = Stage(SOLVED, dimmed=dimmed, crossfade=crossfade, crossfade_mix=0.2)
        letters = sticker_rows(stage, palette, theme)[:, 3]
        silent = [index for index, letter in enumerate(letters) if letter == NO_LETTER]
        assert len(silent) == 5
        assert {cubie_number(STICKERS[index][0]) for index in silent} == dimmed
