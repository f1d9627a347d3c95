"""The picture shown first must be the very screen that follows it."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import pytest

from render.first_sight import show_picture, take_picture
from render.offscreen import shared_context
from render.picture import picture_of
from tests.render.sample_views import home
from tutor.ui.view import View

SIZE = (960, 640)


@dataclass
class Kept:
    """Holds what it is given."""

    shown: View | None = field(default_factory=home)
    pixels: bytes = b""

    def kept(self, size: tuple[int, int], ratio: float) -> bytes | None:
        return self.pixels or None

    def view(self) -> View | None:
        return self.shown

    def keep(self, size: tuple[int, int], ratio: float, pixels: bytes) -> None:
        self.pixels = pixels


def taken(kept: Kept) -> bytes:
    with shared_context().current():
        import pyglet

        from render.screen import Screen

        screen = Screen()
        take_picture(pyglet, screen, kept, SIZE, 1.0)
        screen.delete()
    return kept.pixels


def test_the_picture_is_the_screen_that_it_stands_for() -> None:
    rows = np.frombuffer(taken(Kept()), np.uint8).reshape(SIZE[1], SIZE[0], 3)[::-1]
    assert np.array_equal(rows, picture_of(home(), *SIZE)[..., :3])


def test_when_it_is_not_known_what_comes_first_no_picture_is_taken() -> None:
    assert taken(Kept(None)) == b""


def test_a_view_that_cannot_be_drawn_stops_nobody(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    kept = Kept()

    def fails() -> View:
        raise KeyError("no such lesson")

    monkeypatch.setattr(kept, "view", fails)
    assert taken(kept) == b""
    assert "no such lesson" in caplog.text


def test_a_picture_of_the_wrong_size_is_refused() -> None:
    with shared_context().current():
        import pyglet

        with pytest.raises(ValueError, match="has 24 bytes, not 3"):
            show_picture(pyglet, (4, 2), b"abc")
