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
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PIL import Image

from tutor.app.publishing import draw_stage, inks_of
from tutor.cube.position import Slot
from tutor.method.answer import answer
from tutor.method.cases import parse_case
from tutor.publish.cinema import ENCODERS, write_film
from tutor.publish.film import Film, film_of
from tutor.publish.lettering import Lettering
from tutor.publish.passages import route_passage
from tutor.publish.projector import Prepare, Projector
from tutor.publish.subject import Shot, case_subject
from tutor.solver.search import Solver

CASE = "corner-right-edge-front-front-up"
SIZE = (1280, 720)
LINES: list[str] = []


class FromMemory(Projector):
    """Gives pictures drawn beforehand instead of drawing them."""

    def __init__(self, film: Film, drawn: list[Image.Image], lettering: Lettering) -> None:
        super().__init__(film, draw_stage, lettering)
        self._drawn = drawn

    def samples(self, count: int) -> list[Image.Image]:
        step = max(1, len(self._drawn) // count)
        return self._drawn[::step][:count]

    def images(self, prepare: Prepare = lambda part: part) -> Iterator[tuple[Image.Image, int]]:
        for image, frame in zip(self._drawn, self.film.frames, strict=True):
            yield prepare(image), frame.ticks


@pytest.fixture(scope="module")
def film(request: pytest.FixtureRequest) -> Iterator[Film]:
    subject = case_subject(parse_case(CASE), Slot.FR)
    assert subject.task is not None
    found = answer(Solver.open(), subject.cube.position, subject.task)
    yield film_of((route_passage(subject, found),), Shot(size=SIZE))
    capture = request.config.pluginmanager.getplugin("capturemanager")
    with capture.global_and_fixture_disabled():
        print("", *LINES, sep="\n")


def timed(act: Callable[[], object]) -> float:
    begun = time.perf_counter()
    act()
    return time.perf_counter() - begun


@pytest.mark.parametrize("suffix", ENCODERS)
def test_film(suffix: str, film: Film, tmp_path: Path) -> None:
    inks = inks_of("light")
    lettering = Lettering.of(film, inks)
    draw_stage(film.frames[0].stage, film.shot.look, lettering.stage_size, None)
    different = {frame.stage for frame in film.frames}
    drawing = timed(
        lambda: [draw_stage(stage, film.shot.look, lettering.stage_size, None) for stage in different]
    )
    drawn = [image for image, _ in Projector(film, draw_stage, lettering).images()]
    kept = FromMemory(film, drawn, lettering)
    encoding = timed(lambda: ENCODERS[suffix](tmp_path / f"kept{suffix}", kept))
    whole = timed(lambda: write_film(tmp_path / f"film{suffix}", film, draw_stage, inks))
    LINES.append(
        f"film {SIZE[0]}x{SIZE[1]} {suffix:6}{film.seconds:5.1f} s long, {len(film.frames)} pictures: "
        f"{whole:5.2f} s; encoding alone {encoding:5.2f} s, drawing once {drawing:5.2f} s: "
        f"{whole / (encoding + drawing):.2f} times"
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
