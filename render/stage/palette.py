"""The six sticker colours, read from the palette files in assets/palettes and checked on the way in."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

import msgspec
import numpy as np

from render import words
from render.stage.linear import Array
from render.theme import Colour, ThemeError, parse_colour


class PaletteError(ValueError):
    """A palette that does not exist or whose file is wrong; the message names the place."""


class StickerPalette(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Colours of the stickers, named by the face each has on a solved cube as first held."""

    U: Colour
    D: Colour
    L: Colour
    R: Colour
    F: Colour
    B: Colour
    letter_dark: Colour
    """Letters on light stickers."""
    letter_light: Colour
    """Letters on dark stickers."""
    letters: tuple[int, ...] = (0, 1, 2, 3, 4, 5)
    """Whose colour's letter each has, in the order of Face."""

    @property
    def stickers(self) -> tuple[Colour, ...]:
        """The six sticker colours in the order of Face."""
        return self.U, self.D, self.L, self.R, self.F, self.B

    def arranged(self, arrangement: tuple[int, ...]) -> StickerPalette:
        """The same colours on other faces: ``arrangement`` has, in the order of Face, where each is from."""
        names = ("U", "D", "L", "R", "F", "B")
        stickers = self.stickers
        moved = {name: stickers[source] for name, source in zip(names, arrangement, strict=True)}
        return msgspec.structs.replace(self, letters=tuple(arrangement), **moved)


def _decode(kind: type[object], value: object) -> Colour:
    if kind is Colour and isinstance(value, str):
        return parse_colour(value)
    raise PaletteError(words.not_a_colour(value, alpha=False))


def parse_palette(source: str) -> StickerPalette:
    """The palette written as TOML. Raises PaletteError naming the entry that is missing, unknown or wrong."""
    try:
        return msgspec.toml.decode(source, type=StickerPalette, dec_hook=_decode)
    except (msgspec.DecodeError, ThemeError) as error:
        raise PaletteError(str(error)) from error


def palette_names() -> tuple[str, ...]:
    """The names of the palettes that are shipped, in alphabetical order."""
    names = (entry.name for entry in files("assets").joinpath("palettes").iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


@cache
def load_palette(name: str) -> StickerPalette:
    """The palette of that name in assets/palettes. Raises PaletteError when there is none or it is wrong."""
    if name not in palette_names():
        raise PaletteError(words.no_palette(name, palette_names()))
    source = files("assets").joinpath("palettes", f"{name}.toml").read_text(encoding="utf-8")
    try:
        return parse_palette(source)
    except PaletteError as error:
        raise PaletteError(words.wrong_palette(name, str(error))) from error


def to_linear(srgb: Array) -> Array:
    """Linear light of sRGB values from 0 to 1 (IEC 61966-2-1)."""
    values = np.asarray(srgb, dtype=np.float64)
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def to_srgb(linear: Array) -> Array:
    """sRGB values of linear light from 0 to 1 (IEC 61966-2-1)."""
    values = np.asarray(linear, dtype=np.float64)
    return np.where(values <= 0.0031308, values * 12.92, 1.055 * np.maximum(values, 0.0) ** (1 / 2.4) - 0.055)
