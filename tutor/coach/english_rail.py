"""The words of the rail, in English; part of the catalogue in ``english``."""

from __future__ import annotations

from collections.abc import Mapping

RAIL_TEXTS: Mapping[str, tuple[str, ...]] = {
    "rail.lifted": ("{slot} lifted: bring it back",),
    "rail.line": ("Shortest by hand: {line}",),
}
