"""Home with a large folder of lessons of one's own, as a ratio: ``python -m tests.bench.bench_folder``.

Baseline, in the same run: the same with ten scripts. Each is a lesson of usual size. Processor time from the
look into the folder to Home laid out, the least of several runs.
"""

from __future__ import annotations

import os
import tempfile
import time
from importlib import resources
from pathlib import Path

import lessons
from render.layout.panels import layout
from tutor.app.compose import lesson_title
from tutor.lesson.library import lesson_list
from tutor.screens.table import SCREENS
from tutor.session.beginning import new_session
from tutor.session.settings import Settings

SIZES = (10, 200, 10_000)
ROUNDS = 5


def filled(folder: Path, count: int) -> None:
    """So many scripts in a folder: one file under as many names."""
    folder.mkdir()
    script = resources.files(lessons).joinpath("slot-and-pair.toml").read_bytes()
    (folder / "lesson-00000.toml").write_bytes(script)
    for number in range(1, count):
        os.link(folder / "lesson-00000.toml", folder / f"lesson-{number:05}.toml")


def home_of(folder: Path) -> float:
    """Seconds of processor time for Home with the lessons of a folder."""
    begin = time.process_time()
    titles = tuple(map(lesson_title, lesson_list(folder).entries))
    session = new_session(SCREENS, Settings(), titles)
    layout(SCREENS["home"].view(session, 0.0), 1280, 800)
    return time.process_time() - begin


def main() -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as temporary:
        taken = {}
        for count in SIZES:
            folder = Path(temporary) / str(count)
            filled(folder, count)
            taken[count] = min(home_of(folder) for _ in range(ROUNDS))
    for count, seconds in taken.items():
        more, ratio = seconds - taken[SIZES[0]], seconds / taken[SIZES[0]]
        print(f"{count:6} scripts: {seconds:.3f} s, {more:.3f} s more, {ratio:.1f} times the first")


if __name__ == "__main__":
    main()
