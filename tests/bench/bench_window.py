"""Start, memory, frames and idle cost of the window, each as a ratio to a bare window in the same run.

Not collected by a plain run of the tests. Run it with ``python -m pytest tests/bench/bench_window.py``; it
takes about two minutes and needs Debian's xvfb. The baseline is a window of the library (pyglet) of the same
size that clears itself and does nothing else.
"""

from __future__ import annotations

import os
from collections.abc import Iterator

import numpy as np
import pytest

from tests.bench.window_figures import (
    BARE_LOOP,
    INTO_FREE_PLAY,
    PROGRAM,
    Environment,
    frames,
    idle,
    starts,
    with_home,
)
from tests.virtual_screen import virtual_screen

ROUNDS = 9
SECONDS_OF_TURNS = 60.0
SECONDS_OF_REST = 15.0
LINES: list[str] = []


@pytest.fixture(scope="module")
def environment(
    tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest
) -> Iterator[Environment]:
    """A virtual screen and a home of its own; the table is printed at the end."""
    with virtual_screen() as screen:
        yield with_home(screen.environment, tmp_path_factory.mktemp("window"))
    capture = request.config.pluginmanager.getplugin("capturemanager")
    with capture.global_and_fixture_disabled():
        print("", *LINES, sep="\n")


def test_start_and_memory(environment: Environment) -> None:
    told = starts(environment, ROUNDS)
    LINES.append(f"bare window on the screen: {told.bare:.2f} s, {told.bare_memory:.0f} MiB")
    for name, seconds in (
        ("Home on the screen", told.seen),
        ("a key pressed in that moment answered", told.answered),
    ):
        LINES.append(f"{name}: {seconds:.2f} s, {seconds / told.bare:.2f} times")
    LINES.append(f"memory with Home: {told.memory:.0f} MiB, {told.memory / told.bare_memory:.2f} times")


def test_frames_while_layers_turn(environment: Environment) -> None:
    told = frames(environment, SECONDS_OF_TURNS)
    mine, middle = told.mine, float(np.median(told.mine))
    LINES.append(
        f"{len(mine)} frames of turns with mirrors, marks and arrow, 1280x800, {told.renderer}: median "
        f"{middle:.1f} ms, p99 {np.percentile(mine, 99):.1f}, worst {mine.max():.1f}, "
        f"{int((mine > 33).sum())} over 33 ms; bare median {np.median(told.bare):.2f} ms, "
        f"worst {told.bare.max():.1f}: {middle / float(np.median(told.bare)):.0f} times"
    )
    LINES.append(
        f"processor time a frame, all threads: {told.work:.1f} ms, bare {told.bare_work:.2f} ms; "
        f"load of the machine {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores"
    )


def test_idle(environment: Environment) -> None:
    bare = idle(environment, BARE_LOOP, seconds=SECONDS_OF_REST)
    home = idle(environment, PROGRAM, seconds=SECONDS_OF_REST)
    cube = idle(environment, PROGRAM, *INTO_FREE_PLAY, seconds=SECONDS_OF_REST)
    LINES.append(
        f"idle, of one core: Home {home:.1%}, a cube in hand {cube:.1%}, bare loop {bare:.1%}: "
        f"{home / bare:.2f} and {cube / bare:.2f} times"
    )
