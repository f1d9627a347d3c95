"""Time and memory of films, as a table, with encoding from memory and drawing once as the baseline.

Not collected by a plain run of the tests. Run it with ``python -m pytest tests/bench/bench_publish.py``; it
takes about three minutes. The baseline draws every picture of the film that differs from the others once, and
encodes the same pictures, kept in memory, with the same settings; their sum is what a film cannot do without.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.bench.film_figures import CASE, case_film, film_costs
from tutor.publish.cinema import ENCODERS
from tutor.publish.film import Film

SIZE = (1280, 720)
LINES: list[str] = []


@pytest.fixture(scope="module")
def film(request: pytest.FixtureRequest) -> Iterator[Film]:
    yield case_film(SIZE)
    capture = request.config.pluginmanager.getplugin("capturemanager")
    with capture.global_and_fixture_disabled():
        print("", *LINES, sep="\n")


@pytest.mark.parametrize("suffix", ENCODERS)
def test_film(suffix: str, film: Film, tmp_path: Path) -> None:
    costs = film_costs(film, suffix, tmp_path)
    LINES.append(
        f"film {SIZE[0]}x{SIZE[1]} {suffix:6}{film.seconds:5.1f} s long, {len(film.frames)} pictures: "
        f"{costs.whole:5.2f} s; encoding alone {costs.encoding:5.2f} s, drawing once {costs.drawing:5.2f} s: "
        f"{costs.whole / costs.least:.2f} times"
    )


def held(process: int) -> float:
    """MiB that a process and all it started hold now; what they share counts once (proc(5), Pss)."""
    total = 0
    for folder in [Path(f"/proc/{process}"), *(Path(f"/proc/{child}") for child in children(process))]:
        try:
            lines = (folder / "smaps_rollup").read_text().splitlines()
        except (OSError, ProcessLookupError):
            continue
        total += sum(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
    return total / 1024


def children(process: int) -> Iterator[str]:
    """The numbers of all processes that this one started, and those started."""
    try:
        listed = Path(f"/proc/{process}/task/{process}/children").read_text().split()
    except OSError:
        return
    for child in listed:
        yield child
        yield from children(int(child))


def run(arguments: list[str]) -> str:
    """Run a command; tells its time, and the most memory that it and its workers held together."""
    begun, most = time.perf_counter(), 0.0
    command = [sys.executable, "-m", "tutor", *arguments]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as process:
        while process.poll() is None:
            most = max(most, held(process.pid))
            time.sleep(0.1)
    assert process.returncode == 0
    return f"{time.perf_counter() - begun:.1f} s, {most:.0f} MiB at most in all processes"


@pytest.mark.parametrize("suffix", ENCODERS)
def test_memory_of_one_film(suffix: str, film: Film, tmp_path: Path) -> None:
    told = run(["film", CASE, "--out", str(tmp_path / f"film{suffix}")])
    LINES.append(f"one film {suffix:6}1280x720, as a command: {told}")


def test_all_clips(film: Film, tmp_path: Path) -> None:
    told = run(["film", "--all", "--out", str(tmp_path / "clips")])
    LINES.append(f"all 41 clips, GIF 640x480, {os.cpu_count()} cores: {told}")
