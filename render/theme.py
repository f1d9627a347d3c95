"""Colours of the window, read from the theme files in assets/themes and checked on the way in."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from typing import Any

import msgspec

from render import words

_HEX = re.compile(r"#[0-9a-fA-F]{6}([0-9a-fA-F]{2})?")
_NAME = re.compile(r"[a-z0-9]+([-_ ][a-z0-9]+)*")


class ThemeError(ValueError):
    """A theme that does not exist or whose file is wrong; the message names the place."""


class Colour(tuple[float, float, float, float]):
    """Red, green, blue and alpha from 0 to 1, in sRGB and not multiplied by alpha."""

    __slots__ = ()

    @property
    def rgb(self) -> tuple[float, float, float]:
        """The colour without its alpha."""
        return self[0], self[1], self[2]

    def with_alpha(self, alpha: float) -> Colour:
        """The same colour, ``alpha`` opaque."""
        return Colour((*self.rgb, alpha))


def parse_colour(text: str) -> Colour:
    """The colour written as ``#rrggbb`` or ``#rrggbbaa``. Raises ThemeError for anything else."""
    if _HEX.fullmatch(text) is None:
        raise ThemeError(words.not_a_colour(text, alpha=True))
    channels = [int(text[start : start + 2], 16) / 255 for start in range(1, len(text), 2)]
    red, green, blue, alpha = [*channels, 1.0][:4]
    return Colour((red, green, blue, alpha))


class StageTheme(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Colours of the 3D stage."""

    background: Colour
    """Behind everything."""
    ground: Colour
    """The floor that takes the cube's shadow."""
    plastic: Colour
    """The cubies' body, and stickers that an exercise hides."""
    dimmed_sticker: Colour
    """The grey, without any hue, of stickers that do not matter now."""
    dimmed_body: Colour
    """The grey of the bodies that carry them."""
    ring: Colour
    """Round each sticker of the target pair, on ``ring_casing``."""
    ring_casing: Colour
    frame: Colour
    """Round the target slot, on ``frame_casing``."""
    frame_casing: Colour
    arrow: Colour
    """The arrow of a coming turn, on ``arrow_casing``."""
    arrow_casing: Colour
    glow: Colour
    mirror_rim: Colour
    mirror_tint: Colour
    """Laid over what a mirror shows; its alpha says how strongly."""
    label: Colour
    """Face letters beside the cube."""


class Theme(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Colours of the whole window. Contrasts are held by tests/render/test_theme.py (WCAG 2.2)."""

    ground: Colour
    """The page."""
    raised: Colour
    """Cards, sheets and fields, a shade off the page."""
    pressed: Colour
    """A button under the pointer's press."""
    hover: Colour
    """A button under the pointer."""
    line: Colour
    """Hair lines that only divide; nothing depends on seeing them."""
    edge: Colour
    """Outlines of buttons and fields."""
    text: Colour
    muted: Colour
    """Quieter text, still readable."""
    disabled: Colour
    """Text and marks of what cannot be used now."""
    accent: Colour
    """The one accent: the primary button, the current step, the playhead."""
    accent_hover: Colour
    accent_text: Colour
    """Text on the accent."""
    accent_soft: Colour
    """Ground of what is selected."""
    good: Colour
    neutral: Colour
    warning: Colour
    focus: Colour
    """The ring round what has the keyboard."""
    shade: Colour
    """Laid over the window behind an overlay."""
    shadow: Colour
    """Cast by an overlay's sheet."""
    stage: StageTheme


def _decode(kind: type[Any], value: Any) -> Any:
    if kind is Colour and isinstance(value, str):
        return parse_colour(value)
    raise ThemeError(words.not_a_colour(value, alpha=True))


def parse_theme(source: str) -> Theme:
    """The theme written as TOML. Raises ThemeError naming the entry that is missing, unknown or wrong."""
    try:
        return msgspec.toml.decode(source, type=Theme, dec_hook=_decode)
    except msgspec.DecodeError as error:
        raise ThemeError(str(error)) from error


def theme_names() -> tuple[str, ...]:
    """The names of the themes that are shipped, in alphabetical order."""
    names = (entry.name for entry in files("assets").joinpath("themes").iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


@cache
def load_theme(name: str) -> Theme:
    """The theme of that name in assets/themes. Raises ThemeError when there is none or its file is wrong."""
    if _NAME.fullmatch(name) is None or name not in theme_names():
        raise ThemeError(words.no_theme(name, theme_names()))
    source = files("assets").joinpath("themes", f"{name}.toml").read_text(encoding="utf-8")
    try:
        return parse_theme(source)
    except ThemeError as error:
        raise ThemeError(words.wrong_theme(name, str(error))) from error
