"""``checkup``: what the machine offers, and what is wrong, told in words with nothing changed."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import sqlite3
import subprocess
import sys
import tomllib
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from uuid import UUID

import numpy as np
import pytest

from tutor.app.checkup import checks, graphics_probe
from tutor.app.checkup.check_result import CheckResult, State
from tutor.app.checkup.checks import (
    EXTRAS,
    NEEDED,
    of_folder,
    of_folders,
    of_graphics,
    of_libraries,
    of_log,
    of_settings,
    of_tables,
)
from tutor.app.checkup.graphics_probe import Graphics, probe, read_told
from tutor.app.checkup.progress_checks import of_progress
from tutor.app.cli.command_line import main
from tutor.cube.position import Slot
from tutor.progress.attempt import AttemptRecord, Mode, Outcome, now_utc
from tutor.progress.backup import BACKUPS, FILE
from tutor.progress.store import AttemptStore
from tutor.solver.store import write_table
from tutor.solver.tables import LARGE_TABLES

ROOT = Path(__file__).parents[3]
WELL = Graphics("4.5", "a driver")


def states(results: list[CheckResult]) -> list[State]:
    return [result.state for result in results]


def attempt(days: float) -> AttemptRecord:
    slug = "corner-up-edge-left-front-up"
    time = now_utc() + timedelta(days=days)
    return AttemptRecord(
        "Ilva", time, slug, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 9.0, uuid=UUID(int=1)
    )


def everything_in(folder: Path) -> dict[str, bytes]:
    return {str(file): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


@pytest.fixture
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path


# ---------------------------------------------------------------------------------------------- the command


def test_without_a_display_all_is_told_and_what_works_all_the_same(own_folders: Path) -> None:
    environment = {name: value for name, value in os.environ.items() if name != "DISPLAY"}
    command = [sys.executable, "-m", "tutor", "checkup", "--json"]
    done = subprocess.run(command, env=environment, cwd=ROOT, capture_output=True, text=True, check=False)
    results = {each["about"]: each for each in json.loads(done.stdout)}
    assert (done.returncode, done.stderr) == (3, "")
    assert results["Window"]["state"] == "missing"
    assert "DISPLAY is not set" in results["Window"]["told"]
    assert "You can still use handouts, pictures, films and all other commands." in results["Window"]["told"]
    assert results["Pictures and films"]["state"] == "fine"
    assert results["Python"]["told"].startswith("3.")
    assert "numpy " in results["Libraries"]["told"]
    assert [each["about"] for each in results.values() if each["state"] == "wrong"] == []
    # Mesa, the driver, may keep shaders in the cache folder; that is not the program's.
    left = [path for path in own_folders.rglob("*") if "mesa" not in str(path)]
    assert left in ([], [own_folders / "cache"])


def test_the_table_counts_what_is_wrong_and_the_status_tells_it(
    own_folders: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(checks, "probe", lambda _kind: WELL)
    assert main(["checkup"]) == 0
    assert "Nothing is wrong." in capsys.readouterr().out
    broken = Graphics(problem="the screen [red]fell down[/red]")
    monkeypatch.setattr(checks, "probe", lambda _kind: broken)
    assert main(["checkup"]) == 1
    written = capsys.readouterr().out
    assert "Two things are wrong." in written
    assert "[red]fell down[/red]" in written
    away = Graphics(problem="There is no display.", no_display=True)
    monkeypatch.setattr(checks, "probe", lambda kind: away if kind == graphics_probe.WINDOW else WELL)
    assert main(["checkup"]) == 3
    assert "Nothing is wrong. Without a display you cannot open the window." in capsys.readouterr().out


# --------------------------------------------------------------------------------------------------- OpenGL


def test_drawing_without_a_window_tells_version_and_driver() -> None:
    found = probe(graphics_probe.PICTURE)
    assert found.problem == ""
    assert re.fullmatch(r"\d+\.\d+", found.version)
    assert found.renderer


def test_a_driver_that_ends_the_process_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    assert read_told(-signal.SIGSEGV, "", "").problem == "The graphics driver crashed (SIGSEGV)."
    # A real process that ends so: Python itself instead of the probe.
    crash = "import os, signal; os.kill(os.getpid(), signal.SIGSEGV)"
    real = subprocess.run
    monkeypatch.setattr(
        subprocess, "run", lambda _command, **given: real([sys.executable, "-c", crash], **given)
    )
    assert "SIGSEGV" in probe(graphics_probe.WINDOW).problem


def test_a_driver_that_complains_in_another_encoding_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    # As a code page of Windows has “größer”; five bytes of cp1252 are no letters at all.
    complain = r"import sys; sys.stderr.buffer.write(b'gr\xf6\xdfer \x81'); sys.exit(1)"
    real = subprocess.run
    monkeypatch.setattr(
        subprocess, "run", lambda _command, **given: real([sys.executable, "-c", complain], **given)
    )
    assert "gr\ufffd\ufffder \ufffd" in probe(graphics_probe.WINDOW).problem


def test_a_driver_that_hangs_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def hangs(_command: object, **_given: object) -> None:
        raise subprocess.TimeoutExpired("probe", 60.0)

    monkeypatch.setattr(subprocess, "run", hangs)
    assert "did not answer" in probe(graphics_probe.WINDOW).problem


def test_an_old_driver_is_told_with_its_name() -> None:
    window, picture = of_graphics(Graphics("2.1", "Mesa on an old chip"), Graphics("3.3", "new enough"))
    assert window.state is State.WRONG
    assert "Mesa on an old chip, offers 2.1" in window.told
    assert "pictures, films" in window.told
    assert picture.state is State.FINE


def test_where_nothing_can_be_drawn_what_answers_in_words_still_works() -> None:
    away = Graphics(problem="There is no display.", no_display=True)
    window, picture = of_graphics(away, Graphics(problem="The graphics driver crashed (SIGSEGV)."))
    assert window.told == "There is no display. You can still use commands that answer in words."
    assert picture.state is State.WRONG


@pytest.mark.parametrize("told", ["", "nonsense", "[]", '{"colour": 3}'])
def test_a_probe_that_tells_nonsense_is_told(told: str) -> None:
    assert "The program could not try it: oh no." in read_told(1, told, "Traceback\noh no\n").problem


# ------------------------------------------------------------------------------------------------ libraries


def test_the_packages_looked_for_are_those_the_program_asks_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    named = [re.split(r"[<>=]", each)[0] for each in project["dependencies"]]
    assert tuple(named) == NEEDED
    for extra, (name, _) in EXTRAS.items():
        assert re.split(r"[<>=]", project["optional-dependencies"][extra][0])[0] == name


def test_a_missing_library_is_told_with_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(checks, "NEEDED", ("numpy", "no-such-library"))
    monkeypatch.setattr(checks, "EXTRAS", {"film": ("no-such-extra", "films")})
    found = list(of_libraries())
    assert states(found) == [State.FINE, State.WRONG, State.NOTE]
    assert "-m pip install no-such-library" in found[1].told
    assert "-m pip install no-such-extra" in found[2].told


# -------------------------------------------------------------------------------------------------- folders


def test_a_folder_that_is_not_there_yet_is_not_made(tmp_path: Path) -> None:
    assert of_folder("State folder", tmp_path / "a" / "b").state is State.FINE
    assert list(tmp_path.iterdir()) == []


def test_the_folder_of_saved_tables_is_told_apart_from_the_cache(own_folders: Path) -> None:
    (own_folders / "home").mkdir()
    (own_folders / "home" / "tables").write_text("in the way")
    found = {each.about: each for each in of_folders()}
    assert found["Tables folder"].state is State.WRONG
    assert str(own_folders / "home" / "tables") in found["Tables folder"].told
    assert found["Cache folder"].state is State.FINE
    assert str(own_folders / "cache" / "pairwright" / "tables") in found["Cache folder"].told


def test_a_file_in_the_place_of_a_folder_is_wrong(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    found = of_folder("State folder", tmp_path / "file" / "state")
    assert found.state is State.WRONG
    assert "The program cannot make" in found.told


LOCKED = """
import os, sys
from pathlib import Path
from tutor.app.checkup.checks import of_folder, of_log, of_settings, of_tables
from tutor.app.checkup.progress_checks import of_progress
locked, within = Path(sys.argv[1], "locked"), Path(sys.argv[1], "locked", "folder")
within.mkdir(parents=True)
locked.chmod(0)
if os.getuid() == 0:
    os.setuid(65534)  # rights do not bind the superuser
of_files = *of_tables(within), *of_progress(within), of_settings(within), of_log(within)
for found in (of_folder("Cache folder", within), *of_files):
    print(found.state.value, found.told)
"""


def test_a_folder_that_may_not_be_looked_into_is_told_by_every_check(open_folder: Path) -> None:
    command = [sys.executable, "-c", LOCKED, str(open_folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    told = done.stdout.splitlines()
    assert len(told) == 5, done.stderr
    assert told[0].startswith("wrong The program cannot make")
    for line in told[1:]:
        assert line.startswith(f"wrong The program cannot read {open_folder}")
        assert line.endswith("(Permission denied).")


def test_a_full_disk_is_wrong(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    usage = shutil.disk_usage(tmp_path)._replace(free=3 * 2**20)
    monkeypatch.setattr(shutil, "disk_usage", lambda _path: usage)
    found = of_folder("State folder", tmp_path)
    assert found.state is State.WRONG
    assert "3 MB are left" in found.told


# --------------------------------------------------------------------------------------------------- tables


def test_tables_not_made_yet_are_no_fault(tmp_path: Path) -> None:
    assert states(list(of_tables(tmp_path / "tables"))) == [State.NOTE]


def test_a_damaged_table_is_told_and_left(tmp_path: Path) -> None:
    for name in LARGE_TABLES:
        write_table(tmp_path / f"{name}.table", name, np.arange(9, dtype=np.uint8))
    # Another version's; nothing of this program will ever read or mend it.
    (tmp_path / "of-another-version.table").write_bytes(b"damaged")
    assert states(list(of_tables(tmp_path))) == [State.FINE]
    file = tmp_path / f"{LARGE_TABLES[0]}.table"
    content = bytearray(file.read_bytes())
    content[-1] ^= 1
    file.write_bytes(content)
    before = everything_in(tmp_path)
    found = list(of_tables(tmp_path))
    assert found[0].state is State.WRONG
    assert "its checksum is wrong" in found[0].told
    assert everything_in(tmp_path) == before


# ------------------------------------------------------------------------------------------------- progress


def test_the_progress_file_is_counted_without_being_touched(tmp_path: Path) -> None:
    assert [each.told for each in of_progress(tmp_path)] == ["Nobody has practised here yet."]
    with AttemptStore.open(tmp_path) as store:
        store.record(attempt(-1.0))
        open_too = list(of_progress(tmp_path))
    before = everything_in(tmp_path)
    found = list(of_progress(tmp_path))
    assert everything_in(tmp_path) == before
    assert "is sound: 1 attempt, 2 learners" in found[0].told
    assert found[0] == open_too[0]


def test_damage_in_the_progress_file_is_told_and_left_for_the_program(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path) as store:
        store.record(attempt(-1.0))
    (tmp_path / FILE).write_bytes(b"SQLite format 3\0" + bytes(5000))
    before = everything_in(tmp_path)
    found = list(of_progress(tmp_path))
    assert State.WRONG in states(found)
    assert everything_in(tmp_path) == before


def test_a_progress_file_of_a_newer_version_is_told(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path):
        pass
    with closing(sqlite3.connect(tmp_path / FILE)) as connection:
        connection.execute("PRAGMA user_version = 99")
    assert "newer version of the program" in next(iter(of_progress(tmp_path))).told


def test_a_progress_file_that_is_gone_while_backups_are_there_is_told(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path) as store:
        store.record(attempt(-1.0))
    with AttemptStore.open(tmp_path):
        pass
    assert list((tmp_path / BACKUPS).iterdir())
    (tmp_path / FILE).unlink()
    assert states(list(of_progress(tmp_path))) == [State.WRONG]


def test_attempts_in_the_future_mean_that_the_clock_is_wrong(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path) as store:
        store.record(attempt(2.0))
    assert [each.about for each in of_progress(tmp_path) if each.state is State.WRONG] == ["Clock"]


# --------------------------------------------------------------------------------------- settings and log


def test_settings_that_cannot_be_used_are_told_and_not_set_aside(tmp_path: Path) -> None:
    assert of_settings(tmp_path).state is State.FINE
    (tmp_path / "settings.toml").write_text('cross = "pink"\n')
    before = everything_in(tmp_path)
    found = of_settings(tmp_path)
    assert found.state is State.WRONG
    assert "pink" in found.told
    assert everything_in(tmp_path) == before


def test_the_latest_entry_of_the_log_is_told(tmp_path: Path) -> None:
    assert "no warnings so far" in of_log(tmp_path).told
    (tmp_path / "pairwright.log").write_text(
        "2026-03-03 10:00:00 INFO x: Pairwright\n2026-03-03 10:00:01 ERROR x: it broke\nTraceback: more\n"
    )
    found = of_log(tmp_path)
    assert found.state is State.NOTE
    assert "has 1 entry. The latest: 2026-03-03 10:00:01 ERROR x: it broke" in found.told
