"""The words round the cube."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from PIL import ImageFont

from tests.publish.conftest import INKS
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.method.steps import Step
from tutor.publish.film import Film, FilmPiece, Passage, film_of
from tutor.publish.lettering import Lettering, font_file, step_names, wrapped
from tutor.publish.subject import Shot, Subject, case_subject

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


@pytest.mark.parametrize("size", [(640, 480), (1280, 720), (480, 800), (320, 240)])
def test_the_cube_keeps_more_than_two_fifths_of_the_height(size: tuple[int, int]) -> None:
    lettering = Lettering.of(film(size, "R U R'", "a long story " * 30), INKS)
    assert lettering.stage_size[1] >= 0.4 * size[1]
    assert lettering.stage_size[1] + lettering.head_height + lettering.foot_height == size[1]


def test_the_strips_keep_their_size_all_through() -> None:
    shown = film((640, 480), "R U R'", "said with it")
    lettering = Lettering.of(shown, INKS)
    assert {lettering.head(frame.words).size for frame in shown.frames} == {(640, lettering.head_height)}
    assert {lettering.foot(frame.words).size for frame in shown.frames} == {(640, lettering.foot_height)}


def test_a_long_row_of_turns_moves_along_with_the_turn_under_way() -> None:
    shown = film((640, 480), "R U R' U' " * 8)
    lettering = Lettering.of(shown, INKS)
    accent = np.array(INKS.accent)
    columns = []
    for done in (0, 12, 31):
        words = replace(shown.frames[0].words, done=done, turning=True)
        found = (np.asarray(lettering.foot(words)) == accent).all(axis=2).any(axis=0).nonzero()[0]
        assert found.size > 10
        columns.append(found.mean())
    assert columns[0] < columns[1] < columns[2] < 640


def test_a_film_without_a_title_has_no_strip_above_the_cube() -> None:
    nameless = Subject(SUBJECT.cube, None, "")
    shown = film_of((Passage(nameless, (FilmPiece(parse_turns("R")),)),), Shot(size=(640, 480)))
    assert Lettering.of(shown, INKS).head_height == 0


def test_a_step_is_named_once_over_all_its_pieces() -> None:
    turns = parse_turns("R")
    pieces = [FilmPiece(turns, step) for step in (None, Step.JOIN, Step.JOIN, Step.INSERT, Step.JOIN)]
    assert step_names(tuple(pieces)) == ["", "Join", "", "Insert", "Join"]
