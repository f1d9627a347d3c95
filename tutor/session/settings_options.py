"""Everything that a person chooses once: its values, their words, and how a key goes to the next."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import FACES
from tutor.cube.stickers import COLOUR_NAMES
from tutor.session import words
from tutor.session.commands import Act
from tutor.session.demonstration import SPEEDS
from tutor.session.settings import Settings, StepByStep, TurnButtons

THEMES = ("light", "dark")
PALETTES = ("usual", "high-contrast", "colour-blind")
TEXT_SCALES = (1.0, 1.25, 1.5, 1.75, 2.0)
REST_MINUTES = (10, 15, 20, 25, 30, 45, 60)


class Setting(Enum):
    """What a person can choose; the value heads its row on the Settings screen."""

    THEME = words.THEME_ROW
    TEXT = words.TEXT_ROW
    PALETTE = words.PALETTE_ROW
    LETTERS = words.LETTERS_ROW
    MIRRORS = words.MIRRORS_ROW
    MOTION = words.MOTION_ROW
    SPEED = words.SPEED_ROW
    STEPS = words.STEPS_ROW
    CROSS = words.CROSS_ROW
    SOUND = words.SOUND_ROW
    READ_ALOUD = words.READ_ALOUD_ROW
    KEYS = words.KEYS_ROW
    TURN_BUTTONS = words.TURN_BUTTONS_ROW
    REST = words.REST_ROW


class Option(Struct, frozen=True):
    """One value of a setting: its word, the settings with it, and whether given settings have it."""

    word: str
    chosen: Callable[[Settings], Settings]

    def holds(self, settings: Settings) -> bool:
        """Whether choosing it would change nothing."""
        return self.chosen(settings) == settings


def _look(word: str, **values: Any) -> Option:
    return Option(word, lambda settings: replace(settings, look=replace(settings.look, **values)))


def _other(word: str, **values: Any) -> Option:
    return Option(word, lambda settings: replace(settings, **values))


OPTIONS: dict[Setting, tuple[Option, ...]] = {
    Setting.THEME: tuple(_look(theme, theme=theme) for theme in THEMES),
    Setting.TEXT: tuple(_look(f"{scale:.0%}", text_scale=scale) for scale in TEXT_SCALES),
    Setting.PALETTE: tuple(_look(palette.replace("-", " "), palette=palette) for palette in PALETTES),
    Setting.LETTERS: (_look(words.OFF, letters=False), _look(words.ON, letters=True)),
    Setting.MIRRORS: (_look(words.ON, mirrors=True), _look(words.OFF, mirrors=False)),
    Setting.MOTION: (_other(words.TURNING, reduced_motion=False), _other(words.FADING, reduced_motion=True)),
    Setting.SPEED: tuple(_other(words.speed(speed), speed=speed) for speed in SPEEDS),
    Setting.STEPS: tuple(_other(each.value, step_by_step=each) for each in StepByStep),
    Setting.CROSS: tuple(_other(COLOUR_NAMES[face], cross=face) for face in FACES),
    Setting.SOUND: (_other(words.OFF, sound=False), _other(words.ON, sound=True)),
    Setting.READ_ALOUD: (_other(words.OFF, read_aloud=False), _other(words.ON, read_aloud=True)),
    Setting.KEYS: (_other(words.ON, single_keys=True), _other(words.OFF, single_keys=False)),
    Setting.TURN_BUTTONS: (
        _other(words.IN_LESSON_ONE, turn_buttons=TurnButtons.FIRST_LESSON),
        _other(words.ON, turn_buttons=TurnButtons.ALWAYS),
        _other(words.OFF, turn_buttons=TurnButtons.NEVER),
    ),
    Setting.REST: (
        *(_other(f"{minutes}", rest_minutes=minutes) for minutes in REST_MINUTES),
        _other(words.NEVER, rest_minutes=0),
    ),
}
"""The values of each setting, in order."""


def _onward(setting: Setting) -> Callable[[Settings], Settings]:
    """The next value, after the last the first."""

    def change(settings: Settings) -> Settings:
        options = OPTIONS[setting]
        held = [number for number, option in enumerate(options) if option.holds(settings)]
        return options[(held[0] + 1) % len(options) if held else 0].chosen(settings)

    return change


def _scaled(settings: Settings, step: int) -> Settings:
    scales = TEXT_SCALES
    nearest = min(range(len(scales)), key=lambda index: abs(scales[index] - settings.look.text_scale))
    scale = scales[max(0, min(len(scales) - 1, nearest + step))]
    return replace(settings, look=replace(settings.look, text_scale=scale))


CHANGES: dict[Act, Callable[[Settings], Settings]] = {
    Act.THEME: _onward(Setting.THEME),
    Act.PALETTE: _onward(Setting.PALETTE),
    Act.LETTERS: _onward(Setting.LETTERS),
    Act.MIRRORS: _onward(Setting.MIRRORS),
    Act.MOTION: _onward(Setting.MOTION),
    Act.READ_ALOUD: _onward(Setting.READ_ALOUD),
    Act.LARGER_TEXT: lambda settings: _scaled(settings, 1),
    Act.SMALLER_TEXT: lambda settings: _scaled(settings, -1),
}
"""What each of the commands about looks and reading aloud makes of the settings."""
