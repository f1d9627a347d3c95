"""Changing how things look, one key or button at a time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tutor.session.commands import Act
from tutor.session.settings import Settings

THEMES = ("light", "dark")
PALETTES = ("usual", "high-contrast", "colour-blind")
TEXT_SCALES = (1.0, 1.25, 1.5, 1.75, 2.0)


def _next(values: tuple[str, ...], value: str) -> str:
    return values[(values.index(value) + 1) % len(values)] if value in values else values[0]


def _scaled(settings: Settings, step: int) -> Settings:
    scales = TEXT_SCALES
    nearest = min(range(len(scales)), key=lambda index: abs(scales[index] - settings.look.text_scale))
    scale = scales[max(0, min(len(scales) - 1, nearest + step))]
    return replace(settings, look=replace(settings.look, text_scale=scale))


def _theme(settings: Settings) -> Settings:
    return replace(settings, look=replace(settings.look, theme=_next(THEMES, settings.look.theme)))


def _palette(settings: Settings) -> Settings:
    return replace(settings, look=replace(settings.look, palette=_next(PALETTES, settings.look.palette)))


def _letters(settings: Settings) -> Settings:
    return replace(settings, look=replace(settings.look, letters=not settings.look.letters))


def _mirrors(settings: Settings) -> Settings:
    return replace(settings, look=replace(settings.look, mirrors=not settings.look.mirrors))


def _motion(settings: Settings) -> Settings:
    return replace(settings, reduced_motion=not settings.reduced_motion)


CHANGES: dict[Act, Callable[[Settings], Settings]] = {
    Act.THEME: _theme,
    Act.PALETTE: _palette,
    Act.LETTERS: _letters,
    Act.MIRRORS: _mirrors,
    Act.MOTION: _motion,
    Act.LARGER_TEXT: lambda settings: _scaled(settings, 1),
    Act.SMALLER_TEXT: lambda settings: _scaled(settings, -1),
}
"""What each of the commands about looks makes of the settings."""
