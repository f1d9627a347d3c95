"""In which functions the processor time of an act goes."""

from __future__ import annotations

import cProfile
import pstats
import time
from collections.abc import Callable
from pathlib import Path

import msgspec
from msgspec import Struct

MOST = 10


class Costs(Struct, frozen=True):
    """What an act cost, in ms: all of it, what the window's library spent itself, and the largest parts."""

    whole: float
    library: float
    largest: tuple[tuple[str, float, float], ...]
    """Names of functions, calls, and ms of their own."""


def costs_of(act: Callable[[], object], times: int = 1) -> Costs:
    """The functions in which an act spends most; for an act made several ``times``, the mean.

    The clock is the processor time of all threads, so what others do meanwhile, the driver's and the
    program's own, counts for the function in which the thread that calls it was.
    """
    with cProfile.Profile(time.process_time) as profile:
        act()
    rows = [
        (place_name(*place), calls / times, 1000 * own / times)
        for place, (_, calls, own, *_) in pstats.Stats(profile).stats.items()  # type: ignore[attr-defined]
    ]
    rows.sort(key=lambda row: -row[2])
    library = sum(own for name, _, own in rows if name.startswith("pyglet/"))
    return Costs(sum(row[2] for row in rows), library, tuple(rows[:MOST]))


def tell(costs: Costs) -> None:
    """Print them as JSON, for ``tests.bench.costs``."""
    print(msgspec.json.encode(costs).decode())


def place_name(file: str, line: int, function: str) -> str:
    """A function by file and name, ``render/layout/buttons.py: font``; of what is no Python only the name."""
    if not line:
        return function.strip("<>").removeprefix("built-in method ").removeprefix("builtins.")
    package = file.rpartition("/site-packages/")[2]
    library = package.rpartition("/lib/")[2]
    tree = f"{Path.cwd()}/"
    return f"{package.removeprefix(tree) if package.startswith(tree) else library}: {function}"
