"""What stands under the rail."""

from __future__ import annotations

from collections.abc import Mapping

RAIL_TEXTS: Mapping[str, tuple[str, ...]] = {
    "rail.lifted": ("The {slot} is lifted.",),
    "rail.cross_out": ("The cross is not solved now.",),
    "rail.pair_out": ("A pair that was solved is out of its slot.",),
}
"""Every text by its key."""
