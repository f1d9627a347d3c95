"""What stands under the rail."""

from __future__ import annotations

from collections.abc import Mapping

RAIL_TEXTS: Mapping[str, tuple[str, ...]] = {
    "rail.lifted": ("The {slot} is lifted.",),
}
"""Every text by its key."""
