"""The words round the cube."""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise

import numpy as np
import pytest
from msgspec.structs import replace
from PIL import ImageFont

from render.stage.sight import sight
from tests.publish.conftest import INKS
from tutor.coach.feedback import Shown
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.method.steps import Step
from tutor.publish.captions import Caption, captions_of
from tutor.publish.film import Film, FilmPiece, Passage, Words, film_of
from tutor.publish.lettering import Lettering, font_file, wrapped
from tutor.publish.subject import Shot, case_subject
from tutor.publish.tile_rows import Grid, names_over, tile_rows
from tutor.ui.view import REST_CAMERA, Look

SUBJECT = case_subject(CASES[3], Slot.FR)


def film(size: tuple[int, int], turns: str, caption: str = "") -> Film:
    return film_of((Passage(SUBJECT, (FilmPiece(parse_turns(turns), None, caption),)),), Shot(size=size))


def test_lines_are_no_wider_than_asked_and_lose_nothing() -> None:
    font = ImageFont.truetype(BytesIO(font_file(strong=False)), 16)
    text = "the corner waits below while the edge goes round " * 3
    lines = wrapped(text, font.getlength, 200, 20)
    assert " ".join(lines) == " ".join(text.split())
    assert all(font.getlength(line) <= 200 for line in lines)
    assert wrapped("one\ntwo", font.getlength, 200, 5) == ("one", "two")


def test_what_does_not_fit_is_marked() -> None:
    font = ImageFont.truetype(BytesIO(font_file(strong=False)), 16)
    lines = wrapped("word " * 100, font.getlength, 200, 3)
    assert len(lines) == 3
    assert lines[-1].endswith("…")
    assert font.getlength(lines[-1]) <= 200


def test_a_word_wider_than_a_line_is_broken_after_a_hyphen_if_it_has_one() -> None:
    assert wrapped("the yellow-orange-green one", len, 15, 9) == ("the yellow-", "orange-green", "one")
    assert wrapped("the orange-green one", len, 15, 9) == ("the", "orange-green", "one")
    assert wrapped("abcdefgh", len, 3, 9) == ("abc", "def", "gh")
    assert wrapped("abcdefgh", len, 3, 2) == ("abc", "d …")


SHAPES = [(1280, 720), (1080, 1080), (1080, 1920), (640, 480), (480, 800), (320, 240)]


@pytest.mark.parametrize("size", SHAPES)
def test_the_cube_keeps_more_than_two_fifths_of_the_picture(size: tuple[int, int]) -> None:
    lettering = Lettering.of(film(size, "R U R'", "a long story " * 30), INKS)
    stage, panel = lettering.stage, lettering.panel
    assert stage.width * stage.height >= 0.4 * size[0] * size[1]
    assert stage.width * stage.height + panel.width * panel.height == size[0] * size[1]


@pytest.mark.parametrize("size", SHAPES)
def test_letters_are_no_smaller_than_a_twenty_eighth_of_the_height(size: tuple[int, int]) -> None:
    assert Lettering.of(film(size, "R U R'", "said with it"), INKS).em >= size[1] / 28


@pytest.mark.parametrize("size", SHAPES)
def test_nothing_is_written_into_the_margins(size: tuple[int, int]) -> None:
    shown = film(size, "R U R'", "The yellow-orange-green corner and the orange-green edge touch. " * 3)
    lettering = Lettering.of(shown, INKS)
    margin, rule = round(0.75 * lettering.em), max(1, lettering.em // 16)
    for words in {frame.words for frame in shown.frames}:
        # The rule between cube and words lies at the upper or the left edge; a letter may begin 1 px early.
        drawn = np.asarray(lettering.drawn(words))[rule:, rule:]
        for side in (drawn[:, : margin - rule - 1], drawn[:, -margin + 1 :]):
            assert (side == np.array(INKS.ground)).all()


def cubie_pixels(lettering: Lettering, mirrors: bool) -> float:
    """Pixels from the middle of the front's edge to its corner, as the renderer draws it."""
    size = lettering.stage.width, lettering.stage.height
    points = sight(REST_CAMERA, size, mirrors).to_viewport(np.array([(1.5, 0.0, 1.5), (1.5, 1.0, 1.5)]))
    return float(np.hypot(*(points[1] - points[0])))


@pytest.mark.parametrize("mirrors", [True, False])
@pytest.mark.parametrize(
    ("size", "beside"), [((1280, 720), True), ((1080, 1080), False), ((1080, 1920), False)]
)
def test_words_lie_where_the_cube_is_largest(size: tuple[int, int], beside: bool, mirrors: bool) -> None:
    subject = case_subject(CASES[8], Slot.FR)
    said = tuple(Shown("It moves only the edge.", "Now the edge is on top at the right.") for _ in range(8))
    piece = FilmPiece(parse_turns("U F' U2 F U' R U R'"), Step.PART, said=said)
    shown = film_of((Passage(subject, (piece,)),), Shot(Look(mirrors=mirrors), size))
    lettering = Lettering.of(shown, INKS)
    assert lettering.beside is beside
    every = tuple({frame.words for frame in shown.frames})
    other = (
        Lettering._below(shown, every, INKS, True) if beside else Lettering._beside(shown, 0.3, INKS, True)
    )
    # Words in the other place would leave a smaller cube, or one hardly larger, and short lines.
    assert cubie_pixels(lettering, mirrors) > cubie_pixels(other, mirrors) / 1.1


def test_without_captions_the_cube_is_larger_and_nothing_is_written() -> None:
    shown = film((1080, 1080), "R U R'", "said with it")
    plain, bare = Lettering.of(shown, INKS), Lettering.of(shown, INKS, captions=False)
    assert bare.stage.height > plain.stage.height
    told = next(frame.words for frame in shown.frames if frame.caption.text)
    assert isinstance(told, Words)
    # Without its caption a moment looks like one at which nothing is said.
    assert bare.drawn(told) == bare.drawn(replace(told, caption=Caption()))
    assert plain.drawn(told) != plain.drawn(replace(told, caption=Caption()))


def test_the_panel_keeps_its_size_all_through() -> None:
    shown = film((640, 480), "R U R'", "said with it")
    lettering = Lettering.of(shown, INKS)
    sizes = {lettering.drawn(frame.words).size for frame in shown.frames}
    assert sizes == {(lettering.panel.width, lettering.panel.height)}


@pytest.mark.parametrize("size", [(1280, 720), (1080, 1080), (1080, 1920)])
def test_of_many_turns_the_row_under_way_is_seen(size: tuple[int, int]) -> None:
    shown = film(size, "R U R' U' " * 10)
    lettering = Lettering.of(shown, INKS)
    accent = np.array(INKS.accent)
    words = next(frame.words for frame in shown.frames if isinstance(frame.words, Words))
    for done in (0, 12, 25, 39):
        drawn = np.asarray(lettering.drawn(replace(words, done=done, turning=True)))
        assert (drawn == accent).all(axis=2).sum() > lettering.em**2
    pieces = words.pieces
    rows = lettering._tile_rows(pieces)
    assert [tile.turn for row in rows for tile in row.tiles] == list(range(40))
    assert all(row.width <= lettering.panel.width for row in rows)


def test_no_two_tiles_or_names_lie_on_one_another() -> None:
    grid = Grid(300.0, 40.0, 5.0, 20.0)
    steps = (Step.RAISE, Step.PART, Step.JOIN, Step.INSERT)
    pieces = tuple(
        FilmPiece(parse_turns("R U R'"[: 2 * n + 1]), step) for n, step in enumerate(steps, start=0)
    )
    for row in tile_rows(pieces, grid, lambda text: 9.0 * len(text)):
        lefts = [tile.left for tile in row.tiles]
        assert all(b - a >= 45.0 for a, b in pairwise(lefts))
        ends = [left + 9.0 * len(name) for left, _, name in row.names]
        assert all(after[0] > end for end, after in zip(ends, row.names[1:], strict=False))
        assert row.width <= grid.room


def test_a_step_is_named_once_over_all_its_pieces() -> None:
    turns = parse_turns("R")
    pieces = [FilmPiece(turns, step) for step in (None, Step.JOIN, Step.JOIN, Step.INSERT, Step.JOIN)]
    assert list(names_over(tuple(pieces))) == ["", "Join", "", "Insert", "Join"]
    assert list(names_over((*pieces[1:3], FilmPiece(turns, Step.JOIN, slip=True)))) == ["Join", "", "Slip"]


def test_a_long_text_is_told_in_captions_of_whole_sentences() -> None:
    text = "The corner waits below the top. " * 9
    captions = captions_of(text, "Join: R")
    assert " ".join(caption.text for caption in captions) == text.strip()
    assert all(caption.text.endswith(".") and len(caption.text) <= 100 for caption in captions)
    assert len(captions) == 3
    assert captions_of("") == ()
