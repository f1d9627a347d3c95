"""Buttons and rows of them, and the measures that all of the layout shares."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from render.layout.boxes import UNIT, Box, BoxKind, Ink, Line, Rect
from render.text.typesetting import Font, TextSetting, font, width, wrap
from tutor.ui.view import Action, Button, Tone

TONE_INKS = {
    Tone.PLAIN: Ink.TEXT,
    Tone.MUTED: Ink.MUTED,
    Tone.GOOD: Ink.GOOD,
    Tone.NEUTRAL: Ink.NEUTRAL,
    Tone.WARNING: Ink.WARNING,
}
BUTTON_HEIGHT = 32.0
LINK_HEIGHT = 28.0
LEAST_WIDTH = 7 * UNIT
"""Four short buttons stand side by side in the card of the smallest window."""
PADDING = 12.0
LINK_PADDING = 6.0
GAP = UNIT
CHOICE_HEIGHT = 80.0
CHOICE_GAP = 2 * UNIT
LARGE_TEXT = 1.5
"""From this text scale on, what can be left out gives way: keys on buttons, bays of the rail."""


HEADING_GROWTH = 0.6
"""How much of the text's growth a heading takes part in: at twice the size both are 32 px."""


class Metrics(Struct, frozen=True):
    """What every measure depends on: the text scale, the pixel ratio, and which action has the focus."""

    scale: float = 1.0
    pixel_ratio: float = 1.0
    focus: Action | None = None
    first_column: float = 0.0
    """The least width of the first column of a table of two, so that tables on one sheet are in line."""
    buttons: BoxKind = BoxKind.BUTTON
    """How buttons are drawn, apart from the main one."""
    roomy: bool = True
    """Whether there is room for choices in their full size."""
    keyed: bool = False
    """Whether names of keys stay where text is large."""

    def font(self, setting: TextSetting) -> Font:
        """The font of a setting at this scale.

        Headings and questions are large as they are: they grow less, so that they leave room for what they
        stand above, and at 200 % are no smaller than the text.
        """
        large = setting in (TextSetting.TITLE, TextSetting.HEADING, TextSetting.QUESTION)
        scale = 1.0 + HEADING_GROWTH * (self.scale - 1.0) if large else self.scale
        return font(setting, scale, self.pixel_ratio)


class Placed(Struct, frozen=True):
    """Boxes of a block and the height they take, from the y they were placed at."""

    boxes: tuple[Box, ...]
    height: float


def set_lines(texts: Sequence[str], style: Font, x: float, y: float, ink: Ink = Ink.TEXT) -> tuple[Line, ...]:
    """Lines of text below each other, the first one's top at ``y``; empty lines take room only."""
    return tuple(
        Line(x, y + index * style.line_height + style.baseline, text, style, ink)
        for index, text in enumerate(texts)
        if text
    )


def key_width(button: Button, metrics: Metrics) -> float:
    """Room that the key's name takes beside the label, with its outline and gap; 0 without one.

    Large text needs that room for the label, as a rule; the sheet of keys has them all.
    """
    if not button.key or (metrics.scale >= LARGE_TEXT and not metrics.keyed):
        return 0.0
    return width(metrics.font(TextSetting.KEY), button.key) + 10 + GAP


def label_font(button: Button, metrics: Metrics) -> Font:
    """Set strong: the primary and a selected button, and a link; colour is not their only sign."""
    strong = button.primary or button.selected or metrics.buttons is BoxKind.LINK
    return metrics.font(TextSetting.STRONG if strong else TextSetting.BODY)


def _padding(button: Button, metrics: Metrics) -> float:
    """Room at both ends of a label."""
    return LINK_PADDING if button_kind(button, metrics) is BoxKind.LINK else PADDING


def natural_width(button: Button, metrics: Metrics) -> float:
    """The width at which nothing on the button has to wrap."""
    label = width(label_font(button, metrics), button.label) + key_width(button, metrics)
    detail = width(metrics.font(TextSetting.SMALL), button.detail) if button.detail else 0.0
    return max(LEAST_WIDTH, max(label, detail) + 2 * _padding(button, metrics) + 1)


def button_kind(button: Button, metrics: Metrics) -> BoxKind:
    """How a button is drawn; the main one and one with a detail have their ground anywhere."""
    return BoxKind.BUTTON if button.primary or button.selected or button.detail else metrics.buttons


def button_ink(button: Button, kind: BoxKind) -> Ink:
    """The colour of a button's label."""
    if not button.enabled:
        return Ink.DISABLED
    if button.primary and kind is BoxKind.BUTTON:
        return Ink.ON_ACCENT
    return Ink.ACCENT if kind is BoxKind.LINK else Ink.TEXT


class _Words(Struct, frozen=True):
    """A button's texts broken to its width, and how high they are together."""

    label: tuple[str, ...]
    detail: tuple[str, ...]
    keys: float
    height: float


def _words(button: Button, inner: float, metrics: Metrics) -> _Words:
    """Label and detail as lines; the key's name gives way where it would break a word of the label."""
    style, small, keys = (
        label_font(button, metrics),
        metrics.font(TextSetting.SMALL),
        key_width(button, metrics),
    )
    if keys and inner - keys < max((width(style, word) for word in button.label.split()), default=0.0):
        keys = 0.0
    label = wrap(style, button.label, inner - keys)
    detail = wrap(small, button.detail, inner) if button.detail else ()
    return _Words(label, detail, keys, len(label) * style.line_height + len(detail) * small.line_height)


def _keycap(button: Button, x: float, y: float, wide: float, ink: Ink, metrics: Metrics) -> tuple[Rect, Line]:
    """The outline round a key's name in the first line of a label, and the name."""
    style = metrics.font(TextSetting.KEY)
    line_height = label_font(button, metrics).line_height
    cap = Rect(x, y + (line_height - style.line_height - 2) / 2, wide, style.line_height + 2)
    return cap, _key_line(button, cap, ink, metrics)


def _key_line(button: Button, cap: Rect, ink: Ink, metrics: Metrics) -> Line:
    """A key's name in its outline."""
    style = metrics.font(TextSetting.KEY)
    return Line(cap.x + 5, cap.y + 1 + style.baseline, button.key or "", style, ink)


def place_button(button: Button, rect: Rect, metrics: Metrics, centred: bool = True) -> Box:
    """A button of the rectangle's place and width, as high as its text needs and no lower than it."""
    style, small, pad = (
        label_font(button, metrics),
        metrics.font(TextSetting.SMALL),
        _padding(button, metrics),
    )
    inner = rect.width - 2 * pad
    words, kind = _words(button, inner, metrics), button_kind(button, metrics)
    # A label of several lines beside a key's name begins where the labels of its neighbours do.
    centred = centred and (len(words.label) == 1 or not words.keys)
    air = 2 * UNIT if words.detail else UNIT / 2 if kind is BoxKind.LINK else UNIT
    height = max(rect.height, words.height + air)
    ink = button_ink(button, kind)
    quiet = ink if button.primary or not button.enabled else Ink.MUTED
    widest = max(width(style, text) for text in words.label)
    left = rect.x + ((rect.width - widest - words.keys) / 2 if centred else pad)
    top = rect.y + (height - words.height) / 2
    lines = list(set_lines(words.label, style, left, top, ink))
    y = top + len(words.label) * style.line_height
    for text in words.detail:
        shift = (inner - width(small, text)) / 2 if centred else 0.0
        lines += set_lines([text], small, rect.x + pad + shift, y, quiet)
        y += small.line_height
    cap = None
    if words.keys:
        x = left + widest + GAP if centred else rect.right - pad - words.keys + GAP
        cap, name = _keycap(button, x, top, words.keys - GAP, quiet, metrics)
        lines.append(name)
    return Box(
        replace(rect, height=height),
        kind,
        tuple(lines),
        action=button.action,
        enabled=button.enabled,
        primary=button.primary,
        selected=button.selected,
        focused=bool(button.action) and button.action == metrics.focus,
        keycap=cap,
    )


def place_choice(button: Button, x: float, y: float, wide: float, metrics: Metrics) -> Box:
    """A choice across the width, its key in the middle of the right side; large where there is room."""
    style = metrics.font(TextSetting.CHOICE if metrics.roomy else TextSetting.STRONG)
    small, keys, pad = metrics.font(TextSetting.SMALL), key_width(button, metrics), 2 * UNIT
    if keys > wide / 3:
        keys = 0.0
    label = wrap(style, button.label, wide - 2 * pad - keys)
    detail = wrap(small, button.detail, wide - 2 * pad - keys) if button.detail else ()
    text = len(label) * style.line_height + len(detail) * small.line_height
    height = max(CHOICE_HEIGHT if metrics.roomy else button_height(button, metrics), text + 2 * UNIT)
    ink = button_ink(button, BoxKind.BUTTON)
    quiet = ink if button.primary or not button.enabled else Ink.MUTED
    top = y + (height - text) / 2
    lines = list(set_lines(label, style, x + pad, top, ink))
    lines += set_lines(detail, small, x + pad, top + len(label) * style.line_height, quiet)
    cap = None
    if keys:
        high = metrics.font(TextSetting.KEY).line_height + 2
        cap = Rect(x + wide - pad - keys + GAP, y + (height - high) / 2, keys - GAP, high)
        lines.append(_key_line(button, cap, quiet, metrics))
    return Box(
        Rect(x, y, wide, height),
        BoxKind.BUTTON,
        tuple(lines),
        action=button.action,
        enabled=button.enabled,
        primary=button.primary,
        selected=button.selected,
        focused=bool(button.action) and button.action == metrics.focus,
        keycap=cap,
    )


def button_height(button: Button, metrics: Metrics) -> float:
    """The least height of a button: a good target for a pointer at any scale."""
    if metrics.buttons is BoxKind.LINK and not button.primary:
        return max(LINK_HEIGHT, label_font(button, metrics).line_height)
    return max(BUTTON_HEIGHT, label_font(button, metrics).line_height + UNIT)


def _rows(buttons: Sequence[Button], available: float, indent: float, metrics: Metrics) -> list[list[float]]:
    """Widths of the buttons, row by row; the first row starts at ``indent`` and may stay empty."""
    rows: list[list[float]] = [[]]
    x = indent
    for button in buttons:
        wide = min(natural_width(button, metrics), available)
        if x > 0 and x + wide > available + 0.01:
            rows.append([])
            x = 0.0
        rows[-1].append(wide)
        x += wide + GAP
    return rows


def flow_buttons(buttons: Sequence[Button], area: Rect, metrics: Metrics, indent: float = 0.0) -> Placed:
    """Buttons side by side from ``indent`` on, in as many rows as they need; a row shares its height."""
    boxes: list[Box] = []
    y, rest = area.y, iter(buttons)
    rows = _rows(buttons, area.width, indent, metrics)
    for index, widths in enumerate(rows):
        x = area.x + (indent if index == 0 else 0.0)
        row: list[tuple[Button, Rect]] = []
        for wide in widths:
            button = next(rest)
            row.append((button, Rect(x, y, wide, button_height(button, metrics))))
            x += wide + GAP
        tallest = max((place_button(*item, metrics).rect.height for item in row), default=row_height(metrics))
        boxes += [place_button(button, replace(rect, height=tallest), metrics) for button, rect in row]
        y += tallest + GAP
    return Placed(tuple(boxes), y - GAP - area.y)


def row_height(metrics: Metrics) -> float:
    """Height of a row of plain buttons."""
    if metrics.buttons is BoxKind.LINK:
        return max(LINK_HEIGHT, metrics.font(TextSetting.BODY).line_height)
    return max(BUTTON_HEIGHT, metrics.font(TextSetting.BODY).line_height + UNIT)
