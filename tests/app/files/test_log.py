"""The log: made when there is something to tell, never large, and never in the way."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tutor.app.files.log import FILE, LARGEST, LogFile, start_log, stop_log

log = logging.getLogger("tutor.tests")


@pytest.fixture
def begin() -> Iterator[Callable[[Path], LogFile]]:
    begun: list[LogFile] = []

    def beginning(folder: Path) -> LogFile:
        begun.append(start_log(folder))
        return begun[-1]

    yield beginning
    for each in begun:
        stop_log(each)


def test_a_run_without_a_fault_leaves_no_log_and_no_folder(
    tmp_path: Path, begin: Callable[[Path], LogFile]
) -> None:
    begin(tmp_path / "state")
    log.info("nothing worth keeping")
    assert not (tmp_path / "state").exists()


def test_the_log_says_what_ran_and_what_happened(tmp_path: Path, begin: Callable[[Path], LogFile]) -> None:
    begun = begin(tmp_path / "state")
    try:
        raise RuntimeError("the layer slipped")
    except RuntimeError:
        log.exception("an exception came up")
    written = (tmp_path / "state" / FILE).read_text("utf-8")
    first, second, *rest = written.splitlines()
    assert "Pairwright" in first
    assert "Python 3." in first
    assert "ERROR tutor.tests: an exception came up" in second
    assert "RuntimeError: the layer slipped" in rest[-1]
    assert begun.place == str(tmp_path / "state" / FILE)


def test_what_cannot_be_written_in_utf_8_is_written_in_other_words(tmp_path: Path) -> None:
    # Handed over directly: the test run's own reports could not carry it.
    file = LogFile(tmp_path)
    file.handle(logging.LogRecord("tutor", logging.ERROR, "", 0, "half a pair: \ud800", None, None))
    file.close()
    assert "half a pair: \\ud800" in (tmp_path / FILE).read_text("utf-8")


def test_the_log_stays_small(tmp_path: Path, begin: Callable[[Path], LogFile]) -> None:
    begin(tmp_path)
    for number in range(1000):
        log.warning("%d %s", number, "x" * 1000)
    files = sorted(tmp_path.iterdir())
    assert [file.name for file in files] == [FILE, f"{FILE}.1"]
    assert all(file.stat().st_size <= LARGEST for file in files)
    assert "999 x" in (tmp_path / FILE).read_text("utf-8")


def test_a_log_that_cannot_be_written_goes_to_standard_error_and_stops_nothing(
    tmp_path: Path, begin: Callable[[Path], LogFile], capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("in the way")
    begun = begin(tmp_path / "file" / "state")
    log.warning("the tables are slow today")
    assert "the tables are slow today" in capsys.readouterr().err
    assert begun.place == "the program cannot write it (Not a directory)"


def test_once_it_can_be_written_the_log_is(tmp_path: Path, begin: Callable[[Path], LogFile]) -> None:
    (tmp_path / "state").write_text("in the way")
    begun = begin(tmp_path / "state")
    log.warning("first")
    (tmp_path / "state").unlink()
    log.warning("second")
    assert "second" in (tmp_path / "state" / FILE).read_text("utf-8")
    assert begun.place == str(tmp_path / "state" / FILE)


def test_a_full_disk_stops_nothing(
    tmp_path: Path, begin: Callable[[Path], LogFile], capsys: pytest.CaptureFixture[str]
) -> None:
    # /dev/full takes nothing: every write fails as on a full disk (full(4)).
    (tmp_path / FILE).symlink_to("/dev/full")
    begun = begin(tmp_path)
    log.warning("no room")
    assert "no room" in capsys.readouterr().err
    assert "No space left" in begun.place
