"""What the tests of painting share."""

from __future__ import annotations

from random import Random

from tests.session.pilot import Pilot, Reading, stage_of
from tutor.cube.held_cube import HeldCube
from tutor.cube.random_position import random_position
from tutor.cube.sticker_text import format_stickers
from tutor.screens.painting.state import Colours
from tutor.screens.painting.update import painting_of
from tutor.ui.inputs import Modifier
from tutor.ui.view import Net, Tone

KEYS = "ywrogb"
"""The first letters of the colours numbered 0 to 5."""


def mixed(seed: int) -> Colours:
    return HeldCube(random_position(Random(seed))).colours


def text_of(colours: Colours) -> str:
    """As a field gets it: its one line has spaces for line ends."""
    return format_stickers(colours).replace("\n", " ")


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
