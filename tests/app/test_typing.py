"""What keys type into the program's fields: the real window's events, the real session, no display."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from msgspec.structs import replace

from render.offscreen import shared_context
from render.window.window import Frame, Window
from tests.session.pilot import Pilot
from tutor.app.compose import WindowPort
from tutor.screens.free_play.state import FREE
from tutor.solver.search import Solver


@dataclass
class Typist:
    """A person at the keyboard of a window."""

    pilot: Pilot
    library: Any
    real: Any

    def types(self, text: str, held_down: int = 1) -> None:
        """Keys as X11 reports them on an American keyboard; a key held down writes several times."""
        for character in text:
            symbol = ord(character.lower())
            self._tell("on_key_press", symbol, self.library.window.key.MOD_SHIFT * character.isupper())
            for _ in range(held_down):
                self._tell("on_text", character)
            self._tell("on_key_release", symbol, 0)

    def _tell(self, *event: Any) -> None:
        self.library.event.EventDispatcher.dispatch_event(self.real, *event)

    @property
    def field(self) -> str | None:
        writing = self.pilot.session.writing
        return writing.text if writing.open else None


@pytest.fixture
def typist(solver: Solver) -> Iterator[Typist]:
    shared_context()
    import pyglet
    from pyglet import gl

    before = gl.current_context
    real, pilot = pyglet.window.Window(960, 640, visible=False), Pilot(solver)
    window = Window(pyglet, real)
    window.join(WindowPort(pilot.application, Frame))
    yield Typist(pilot, pyglet, real)
    real.close()
    if before is not None:
        before.set_current()


def remapped(typist: Typist, keys: str) -> None:
    settings = replace(typist.pilot.session.settings, keys=(("write moves", keys),))
    typist.pilot.application.session = replace(typist.pilot.session, settings=settings)


@pytest.mark.parametrize("key", ["slash", "m", "comma", "9", "shift+m"])
def test_the_key_that_opens_the_field_is_not_typed_and_is_afterwards(typist: Typist, key: str) -> None:
    remapped(typist, key)
    typist.pilot.free_play()
    stroke = {"slash": "/", "comma": ",", "shift+m": "M"}.get(key, key)
    typist.types(stroke, held_down=3)
    assert typist.field == ""
    typist.types(f"R{stroke}u2")
    assert typist.field == f"R{stroke}u2"
    assert FREE.of(typist.pilot.session).history.entries == ()


def test_a_name_is_typed_with_every_sign_in_it(typist: Typist) -> None:
    typist.pilot.press("open:LEARNERS")
    typist.pilot.press("act:WRITE")
    typist.types("/Ada/[2]=B'")
    assert typist.field == "/Ada/[2]=B'"


def test_a_digit_acts_once_for_each_stroke_of_it(typist: Typist) -> None:
    typist.pilot.free_play()
    typist.types("r2")
    assert FREE.of(typist.pilot.session).history.notation == "R2"
    typist.types("u")
    typist.types("2", held_down=4)
    assert FREE.of(typist.pilot.session).history.notation == "R2 U2"
