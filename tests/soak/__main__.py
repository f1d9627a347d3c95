"""``python -m tests.soak``: 50,000 random commands, or, with ``--minutes 20``, that much random real input.

Raises AssertionError with the first rule that is broken, and tells the seed with which it happens again.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path

from tests.soak import walk, window
from tests.virtual_screen import virtual_screen
from tutor.solver.search import Solver


def say(text: str) -> None:
    """How far it is."""
    print(f"{time.strftime('%H:%M:%S')}  {text}", flush=True)


def walked(commands: int, seed: int, folder: Path) -> None:
    """So many random commands through the program without a window."""
    solver = Solver.open()
    walking = walk.Walk(solver, walk.all_lessons(solver), folder, seed)
    walking.go(commands, say)
    walking.close()
    for screen, count in walking.screens.most_common():
        say(f"{count:6} commands on the screen of {screen}")
    grown = walking.growth()
    say(f"{walking.attempts} attempts kept, {walking.restarts} restarts; the process grew by {grown:.1f} MiB")
    assert grown < walk.MOST_GROWTH, f"it grew by {grown:.1f} MiB, more than {walk.MOST_GROWTH:.0f}"


def pressed(minutes: float, seed: int, folder: Path) -> None:
    """So many minutes of random real input."""
    pressing = window.Pressing(folder, seed)
    with virtual_screen() as screen:
        pressing.go(screen, 60.0 * minutes, say)
    kinds = ", ".join(f"{count} {kind}" for kind, count in pressing.kinds.most_common())
    say(f"{pressing.done} inputs ({kinds}), {pressing.starts} starts")
    for name, count in pressing.screens.most_common():
        say(f"{count:6} visits to the screen of {name}")
    if len(pressing.held) >= 8:
        grown = pressing.growth()
        most = max(pressing.held)
        say(f"its own process grew by {grown:.1f} MiB; it and all it started held {most:.0f} MiB at most")
        assert grown < window.MOST_GROWTH, f"more than {window.MOST_GROWTH:.0f} MiB"
        assert most < window.MOST_HELD, f"more than {window.MOST_HELD:.0f} MiB"


def main() -> int:
    """Run it from the command line."""
    parser = argparse.ArgumentParser(prog="python -m tests.soak", description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--commands", type=int, default=50_000, help="without a window, usually 50000")
    parser.add_argument("--minutes", type=float, help="instead: minutes of real input in a window")
    parser.add_argument("--seed", type=int, default=int(time.time()), help="to make a walk again")
    chosen = parser.parse_args()
    say(f"seed {chosen.seed}")
    with tempfile.TemporaryDirectory() as folder:
        if chosen.minutes is None:
            walked(chosen.commands, chosen.seed, Path(folder))
        else:
            pressed(chosen.minutes, chosen.seed, Path(folder))
    say("all as it should be")
    return 0


if __name__ == "__main__":
    sys.exit(main())
