"""Stickers as six lines of colours."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.random_position import random_position
from tutor.cube.sticker_text import StickerTextError, format_stickers, parse_stickers
from tutor.cube.stickers import read_stickers

SOLVED = """
U: yyy yyy yyy
D: www www www
L: rrr rrr rrr
R: ooo ooo ooo
F: ggg ggg ggg
B: bbb bbb bbb
"""


def test_solved_cube_is_six_plain_lines() -> None:
    assert parse_stickers(SOLVED) == HeldCube().colours
    assert format_stickers(HeldCube().colours) == SOLVED.strip()


@given(st.integers(0, 2**32))
def test_text_and_stickers_round_trip(seed: int) -> None:
    position = random_position(Random(seed))
    colours = HeldCube(position).colours
    assert parse_stickers(format_stickers(colours)) == colours
    assert read_stickers(parse_stickers(format_stickers(colours)))[0] == position


def test_order_of_lines_spaces_and_capitals_do_not_matter() -> None:
    lines = [line.upper().replace(" ", "") for line in SOLVED.split("\n")]
    assert parse_stickers("\n".join(reversed(lines))) == HeldCube().colours


def test_rows_run_as_the_face_is_seen_with_up_above() -> None:
    # A quarter turn of R clockwise (WCA 12a1a) brings the front's right column up: green on the right of U.
    text = format_stickers(HeldCube().moved(Turn.R).colours)
    assert text.splitlines()[0] == "U: yyg yyg yyg"


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("X: yyy", 1, "“X” is not a face; start the line with U: D: L: R: F: or B:"),
        (SOLVED + "U: yyy yyy yyy", 8, "face U already has a line; give each face one line"),
        (SOLVED.replace("B: bbb bbb bbb", ""), 7, "there is no line for B; give all six faces a line"),
        (
            SOLVED.replace("ggg ggg ggg", "ggg gpg ggg"),
            6,
            "“p” is not a colour; use y .yellow., w .white., r .red., o .orange., g .green., b .blue.",
        ),
        (SOLVED.replace("ggg ggg ggg", "ggg ggg gg"), 6, "this line has 8 colours; give each face nine"),
    ],
)
def test_each_fault_names_its_line(text: str, line: int, words: str) -> None:
    with pytest.raises(StickerTextError, match=words) as caught:
        parse_stickers(text)
    assert caught.value.line == line
    assert caught.value.advice
