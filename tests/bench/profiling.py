"""In which functions the processor time of an act goes."""

from __future__ import annotations

import cProfile
import pstats
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

MOST = 10

Costs = dict[str, Any]
"""``whole`` and ``library`` in ms, and ``largest``: names of functions, calls, and ms of their own."""


def costs_of(act: Callable[[], object], times: int = 1) -> Costs:
    """The functions in which an act spends most; for an act made several ``times``, the mean.

    The clock is the processor time of all threads, so what the driver's threads do meanwhile counts for the
    function in which the thread that calls it was.
    """
    with cProfile.Profile(time.process_time) as profile:
        act()
    rows = [
        (_name(*place), calls / times, 1000 * own / times)
        for place, (_, calls, own, *_) in pstats.Stats(profile).stats.items()  # type: ignore[attr-defined]
    ]
    rows.sort(key=lambda row: -row[2])
    library = sum(own for name, _, own in rows if name.startswith("pyglet/"))
    return {"whole": sum(row[2] for row in rows), "library": library, "largest": rows[:MOST]}


def _name(file: str, line: int, function: str) -> str:
    """``render/layout/buttons.py: font``; of what is no Python only the function."""
    if not line:
        return function.strip("<>").removeprefix("built-in method ").removeprefix("builtins.")
    parts = Path(file).parts
    for root in ("tutor", "render", "tests", "site-packages", "lib"):
        if root in parts:
            after = len(parts) - parts[::-1].index(root) - (root not in ("site-packages", "lib"))
            return f"{'/'.join(parts[after:])}: {function}"
    return f"{file}: {function}"
