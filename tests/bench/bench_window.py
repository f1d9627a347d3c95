"""Start, memory, frames and idle cost of the window, each as a ratio to a bare window in the same run.

Not collected by a plain run of the tests. Run it with ``python -m pytest tests/bench/bench_window.py``; it
takes about two minutes and needs Debian's xvfb. The baseline is a window of the library (pyglet) of the same
size that clears itself and does nothing else.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

import numpy as np
import pytest

from tests.virtual_screen import virtual_screen

ROUNDS = 9
SECONDS_OF_TURNS = 60.0
SECONDS_OF_REST = 15.0
LINES: list[str] = []


@pytest.fixture(scope="module")
def environment(
    tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest
) -> Iterator[dict[str, str]]:
    """A virtual screen and a home of its own; the table is printed at the end."""
    with virtual_screen() as screen:
        yield {**screen.environment, "PAIRWRIGHT_HOME": str(tmp_path_factory.mktemp("home"))}
    capture = request.config.pluginmanager.getplugin("capturemanager")
    with capture.global_and_fixture_disabled():
        print("", *LINES, sep="\n")


def probe(environment: dict[str, str], *arguments: str) -> tuple[float, Any]:
    """When the process was started, and what it told."""
    begun = time.time()
    command = [sys.executable, "-m", "tests.bench.window_probe", *arguments]
    told = subprocess.run(command, env=environment, check=True, stdout=subprocess.PIPE, text=True).stdout
    return begun, json.loads(told.splitlines()[-1])


def test_start_and_memory(environment: dict[str, str]) -> None:
    bare, shown, filled, live, memory = [], [], [], [], []
    # The run before leaves the picture of Home that the next one shows at once.
    probe(environment, "program")
    for _ in range(ROUNDS):
        begun, one = probe(environment, "bare")
        again, two = probe(environment, "program")
        bare.append(one["shown"] - begun)
        shown.append(two["shown"] - again)
        filled.append(two["filled"] - again)
        live.append(two["live"] - again)
        memory.append((one["memory"], two["memory"]))
    base, window, full, ready = (median(times) for times in (bare, shown, filled, live))
    held, mine = (median(column) for column in zip(*memory, strict=True))
    LINES.append(f"bare window on the screen: {base:.2f} s, {held:.0f} MiB")
    LINES.append(f"the program's window on the screen: {window:.2f} s, {window / base:.2f} times")
    LINES.append(f"the same filled with Home: {full:.2f} s, {full / base:.2f} times")
    LINES.append(f"Home live, answering to keys: {ready:.2f} s, {ready / base:.2f} times")
    LINES.append(f"memory with Home: {mine:.0f} MiB, {mine / held:.2f} times")


def test_frames_while_layers_turn(environment: dict[str, str]) -> None:
    _, told = probe(environment, "frames", str(SECONDS_OF_TURNS))
    (bare_frames, bare_work), (frames, work) = told["bare"], told["program"]
    bare, mine = np.array(bare_frames), np.array(frames)
    middle = float(np.median(mine))
    LINES.append(
        f"{len(mine)} frames of turns with mirrors, marks and arrow, 1280x800, {told['renderer']}: median "
        f"{middle:.1f} ms, p99 {np.percentile(mine, 99):.1f}, worst {mine.max():.1f}, "
        f"{int((mine > 33).sum())} over 33 ms; bare median {np.median(bare):.2f} ms, worst {bare.max():.1f}: "
        f"{middle / float(np.median(bare)):.0f} times"
    )
    LINES.append(
        f"processor time a frame, all threads: {work:.1f} ms, bare {bare_work:.2f} ms; "
        f"load of the machine {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores"
    )


def used(process: int) -> float:
    """Seconds of processor time that a process and those it started have used (proc(5), stat)."""
    ticks = 0
    for number in (process, *children(process)):
        fields = Path(f"/proc/{number}/stat").read_text().rpartition(")")[2].split()
        ticks += int(fields[11]) + int(fields[12])
    return ticks / os.sysconf("SC_CLK_TCK")


def children(process: int) -> list[int]:
    """The numbers of the processes that this one started."""
    return [int(each) for each in Path(f"/proc/{process}/task/{process}/children").read_text().split()]


def idle(environment: dict[str, str], command: list[str], *keys: str) -> float:
    """The share of a core that a program uses while nobody does anything."""
    with subprocess.Popen([sys.executable, "-m", *command], env=environment) as process:
        time.sleep(4.0)
        for key in keys:
            subprocess.run(["xdotool", "key", key], env=environment, check=True)
            time.sleep(0.2)
        time.sleep(6.0 if keys else 0.0)
        before, begun = used(process.pid), time.perf_counter()
        time.sleep(SECONDS_OF_REST)
        share = (used(process.pid) - before) / (time.perf_counter() - begun)
        process.kill()
    return share


def test_idle(environment: dict[str, str]) -> None:
    bare = idle(environment, ["tests.bench.window_probe", "idle"])
    home = idle(environment, ["tutor"])
    cube = idle(environment, ["tutor"], "Tab", "Tab", "Return", "r")
    LINES.append(
        f"idle, of one core: Home {home:.1%}, a cube in hand {cube:.1%}, bare loop {bare:.1%}: "
        f"{home / bare:.2f} and {cube / bare:.2f} times"
    )
