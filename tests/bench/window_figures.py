"""The program's window and a bare one of the library, each measured in processes of their own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from pathlib import Path
from statistics import median
from typing import Any

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Environment = dict[str, str]
"""What the processes find around them: a virtual screen, and a home of their own."""


def with_home(environment: Environment, folder: Path) -> Environment:
    """The environment with a home in that folder.

    Modules are compiled when a program is installed, not at its start; so they are there, once.
    """
    compiled = {"PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": str(folder / "compiled")}
    return {**environment, **compiled, "PAIRWRIGHT_HOME": str(folder / "home")}


def probe(environment: Environment, *arguments: str) -> tuple[float, Any]:
    """When a process of ``window_probe`` was started, and what it told."""
    begun = time.time()
    command = [sys.executable, "-m", "tests.bench.window_probe", *arguments]
    told = subprocess.run(command, env=environment, check=True, stdout=subprocess.PIPE, text=True).stdout
    return begun, json.loads(told.splitlines()[-1])


class Starts(Struct, frozen=True):
    """Medians of several starts: seconds from the process's start, and the most MiB held."""

    bare: float
    seen: float
    """When Home was on the screen."""
    answered: float
    """When a key pressed in that moment had done what it does."""
    bare_memory: float
    memory: float


def starts(environment: Environment, rounds: int) -> Starts:
    """A bare window and the program's in turn, so that what else the machine does meets both."""
    # The first run makes what later ones find: compiled modules, and files of the program's own.
    probe(environment, "program")
    rows = []
    for _ in range(rounds):
        begun, bare = probe(environment, "bare")
        again, mine = probe(environment, "program")
        seconds = [bare["shown"] - begun, *(mine[name] - again for name in ("shown", "answered"))]
        rows.append((*seconds, bare["memory"], mine["memory"]))
    return Starts(*(median(column) for column in zip(*rows, strict=True)))


class Frames(Struct, frozen=True, eq=False):
    """Milliseconds of each frame, and of processor time a frame, of a bare window and of the program's."""

    bare: NDArray[np.float64]
    bare_work: float
    mine: NDArray[np.float64]
    work: float
    memory: float
    """The most MiB that the process held which drew the program's; about 12 are the solver's, which the
    program has in another process."""
    renderer: str


def frames(environment: Environment, seconds: float) -> Frames:
    """Frames of so many seconds in which one turn follows the other, with mirrors, marks and arrow."""
    _, told = probe(environment, "frames", str(seconds))
    (bare, bare_work), (mine, work) = told["bare"], told["program"]
    return Frames(np.array(bare), bare_work, np.array(mine), work, told["memory"], told["renderer"])


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


def idle(environment: Environment, command: list[str], *keys: str, seconds: float) -> float:
    """The share of a core that a program uses while nobody does anything for so long."""
    with subprocess.Popen([sys.executable, "-m", *command], env=environment) as process:
        time.sleep(4.0)
        for key in keys:
            subprocess.run(["xdotool", "key", key], env=environment, check=True)
            time.sleep(0.2)
        time.sleep(6.0 if keys else 0.0)
        before, begun = used(process.pid), time.perf_counter()
        time.sleep(seconds)
        share = (used(process.pid) - before) / (time.perf_counter() - begun)
        process.kill()
    return share


BARE_LOOP = ["tests.bench.window_probe", "idle"]
PROGRAM = ["tutor"]
INTO_FREE_PLAY = ("Tab", "Tab", "Tab", "Return", "r")
"""Keys that lead from Home to a cube in hand."""
