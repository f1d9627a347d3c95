from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from render.text.typesetting import ELLIPSIS, TextSetting, ellipsise, font, slices, width, wrap

BODY = font(TextSetting.BODY)
TEXTS = st.text(st.sampled_from("abc WRU'2 .\u4e2d"), max_size=60)
WIDTHS = st.floats(40, 300)


@given(TEXTS, WIDTHS)
def test_wrapping_keeps_every_letter_in_order_and_within_the_width(text: str, available: float) -> None:
    lines = wrap(BODY, text, available)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width(BODY, line) <= available + 1e-6 for line in lines)


def test_wrapping_breaks_between_words_and_at_line_ends() -> None:
    assert wrap(BODY, "one two\nthree", 1000) == ("one two", "three")
    assert wrap(BODY, "one two three", width(BODY, "one two") + 1) == ("one two", "three")


@given(TEXTS, WIDTHS)
def test_slices_keep_every_character(text: str, available: float) -> None:
    lines = slices(BODY, text, available)
    assert "".join(piece for _, piece in lines) == text
    assert all(text[start : start + len(piece)] == piece for start, piece in lines)
    assert all(width(BODY, piece.rstrip(" ")) <= available + 1e-6 for _, piece in lines)


@given(TEXTS, st.floats(0, 300))
def test_an_ellipsised_text_fits_and_begins_like_the_whole(text: str, available: float) -> None:
    shown = ellipsise(BODY, text, available)
    whole = " ".join(text.split())
    assert width(BODY, shown) <= available + 1e-6
    assert shown == whole or whole.startswith(shown.removesuffix(ELLIPSIS))


def test_what_fits_is_not_shortened() -> None:
    assert ellipsise(BODY, "Insert", 200) == "Insert"
    assert ellipsise(BODY, "Insert the pair", 60).endswith(ELLIPSIS)


@pytest.mark.parametrize("setting", list(TextSetting))
def test_sizes_follow_the_text_scale(setting: TextSetting) -> None:
    once, twice = font(setting, 1.0), font(setting, 2.0)
    assert twice.size == pytest.approx(2 * once.size, rel=0.1)
    assert twice.line_height == pytest.approx(2 * once.line_height, abs=1)


def test_a_line_is_as_wide_as_its_letters_together() -> None:
    assert width(BODY, "R U R'") == pytest.approx(sum(width(BODY, letter) for letter in "R U R'"))
