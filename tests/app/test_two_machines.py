"""Two windows of two machines at one evening: a folder joins them that goes away and comes back."""

from __future__ import annotations

import json
import signal
from collections.abc import Iterator
from contextlib import ExitStack
from functools import partial
from pathlib import Path

import pytest

from tests.app.test_drills import Program
from tests.progress.conftest import AttemptMaker
from tests.virtual_screen import PATIENCE, VirtualScreen, virtual_screen
from tutor.app.files.settings import FILE as SETTINGS
from tutor.progress.presence_files import ENDING
from tutor.progress.store import AttemptStore


@pytest.fixture
def screens() -> Iterator[tuple[VirtualScreen, VirtualScreen]]:
    with virtual_screen() as one, virtual_screen() as two:
        yield one, two


def at_work(shared: Path) -> dict[str, str]:
    """Who is at what, by the files of the windows."""
    told = [json.loads(file.read_text()) for file in shared.glob(f"*{ENDING}")]
    return {each["learner"]: each["engaged"]["at"] for each in told}


def holds(home: Path, numbers: list[str]) -> bool:
    """Whether a machine has these attempts, each once, and no others."""
    with AttemptStore.open(home) as store:
        return sorted(each.uuid.hex for each in store.attempts()) == numbers


def test_two_windows_share_an_evening_over_a_folder_that_goes_away(
    screens: tuple[VirtualScreen, VirtualScreen], tmp_path: Path
) -> None:
    shared, away, make = tmp_path / "shared", tmp_path / "away", AttemptMaker()
    shared.mkdir()
    homes = {"Ode": tmp_path / "hers", "Ilva": tmp_path / "his"}
    made = {}
    for name, home in homes.items():
        home.mkdir()
        (home / SETTINGS).write_text(f'learner = "{name}"\n')
        with AttemptStore.open(home) as store:
            store.record(earlier := make(learner=name))
        made[name] = [earlier.uuid.hex]
    with ExitStack() as ending:
        programs = []
        for screen, home in zip(screens, homes.values(), strict=True):
            program = Program(screen, home, "-m", "tutor", "--shared", str(shared))
            ending.callback(program.process.wait, PATIENCE)
            ending.callback(program.process.kill)
            programs.append(program)
        both = sorted(number for own in made.values() for number in own)
        for program, home in zip(programs, homes.values(), strict=True):
            program.until(partial(holds, home, both))
        programs[0].until(lambda: at_work(shared) == {"Ode": "elsewhere", "Ilva": "elsewhere"})
        # In the middle of the evening the stick is pulled out, and both go on.
        shared.rename(away)
        for name, home in homes.items():
            with AttemptStore.open(home) as store:
                store.record(later := make(learner=name))
            made[name].append(later.uuid.hex)
        screens[0].press("2")
        assert not shared.exists()
        away.rename(shared)
        all_four = sorted(number for own in made.values() for number in own)
        for program, home in zip(programs, homes.values(), strict=True):
            program.until(partial(holds, home, all_four))
        for program in programs:
            program.process.send_signal(signal.SIGTERM)
            program.process.wait(PATIENCE)
            assert "Traceback" not in program.said
    lines = [line for file in shared.glob("*.jsonl") for line in file.read_text().splitlines()]
    assert sorted(json.loads(line)["uuid"].replace("-", "") for line in lines) == all_four
