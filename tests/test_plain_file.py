"""Pipes, sockets, devices and links in a circle, wherever a file is read: refused at once, in one sentence.

SIGALRM ends after ten seconds what a pipe keeps waiting: no measure of speed, for a pipe keeps it for ever.
"""

from __future__ import annotations

import logging
import os
import signal
import socket
import stat
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tutor.app.checkup.checks import of_log
from tutor.app.checkup.progress_checks import of_progress
from tutor.app.cli.command_line import main
from tutor.app.files import log, painting, places, settings, solves
from tutor.lesson.library import lesson_entries
from tutor.plain_file import NOT_A_FILE, open_plain, read_plain
from tutor.progress import backup
from tutor.progress.connection import open_or_remember
from tutor.publish.files import PublishError
from tutor.publish.sounds import recording
from tutor.session.settings import Settings
from tutor.solver.store import Store

CIRCLE = "Too many levels of symbolic links"
NOW = datetime(2026, 3, 3, 18, 30, tzinfo=UTC)


def pipe_at(path: Path) -> None:
    os.mkfifo(path)


def socket_at(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as made:
        # The name of a socket may be short only (unix(7)), so it is made from within its folder.
        before = Path.cwd()
        os.chdir(path.parent)
        made.bind(path.name)
        os.chdir(before)


def endless_at(path: Path) -> None:
    """A device that gives zeros for ever, never a link to the machine's own.

    Whoever may write in /dev and follows a link there could rename or overwrite what all programs need.
    """
    if os.geteuid() == 0:
        os.mknod(path, stat.S_IFCHR | 0o666, os.makedev(1, 5))
    else:
        # Without rights in /dev, nobody can harm what the link leads to.
        path.symlink_to("/dev/zero")


ODD: dict[str, tuple[Callable[[Path], object], str]] = {
    "pipe": (pipe_at, NOT_A_FILE),
    "socket": (socket_at, NOT_A_FILE),
    "endless device": (endless_at, NOT_A_FILE),
    "circle": (lambda path: path.symlink_to(path.name), CIRCLE),
}


@pytest.fixture(autouse=True)
def never_waits() -> Iterator[None]:
    def stop(*_: object) -> None:
        raise AssertionError("it waits")

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(10)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


@pytest.fixture(params=ODD)
def kind(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def odd(kind: str, tmp_path: Path) -> Callable[[str], Path]:
    """Puts the odd thing at a name in the folder of the test."""

    def put(name: str) -> Path:
        path = tmp_path / name
        ODD[kind][0](path)
        return path

    return put


def test_it_is_refused_before_it_is_opened(kind: str, odd: Callable[[str], Path]) -> None:
    for read in (open_plain, lambda path: read_plain(path, 10)):
        path = odd(f"file-{id(read)}")
        with pytest.raises(OSError, match=ODD[kind][1]):
            read(path)


def test_a_plain_file_is_read_as_far_as_wanted(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"0123456789")
    (tmp_path / "link").symlink_to("file")
    assert read_plain(tmp_path / "link", 4) == b"0123"
    with open_plain(tmp_path / "file") as file:
        assert file.read() == b"0123456789"
    with pytest.raises(FileNotFoundError):
        read_plain(tmp_path / "gone", 4)
    with pytest.raises(IsADirectoryError):
        read_plain(tmp_path, 4)


def test_settings_stay_the_usual_ones_and_the_odd_thing_stays_in_its_place(
    kind: str, odd: Callable[[str], Path], tmp_path: Path
) -> None:
    path = odd(settings.FILE)
    loaded = settings.load_settings(tmp_path)
    assert loaded.settings == Settings()
    assert loaded.problem == ODD[kind][1]
    with pytest.raises(OSError, match=ODD[kind][1]):
        settings.save_settings(tmp_path, Settings(speed=2.0))
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


def test_small_files_count_as_none_and_the_log_says_why(
    kind: str, odd: Callable[[str], Path], tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (tmp_path / "solves").mkdir()
    for name in (places.FILE, painting.FILE, "solves/2026-03-03-183000.txt"):
        odd(name)
    assert places.load_places(tmp_path) == ()
    assert painting.load_painting(tmp_path) == ""
    assert solves.load_shelf(tmp_path / "solves").damaged == ("2026-03-03-183000.txt",)
    assert [ODD[kind][1] in record.getMessage() for record in caplog.records] == [True] * 3


def test_a_lesson_of_ones_own_is_listed_with_why(
    kind: str, odd: Callable[[str], Path], tmp_path: Path
) -> None:
    path = odd("mine.toml")
    (tmp_path / "other.toml").write_text('title = "t"\ngoal = "g"\n[[scene]]\nkind = "tell"\ntext = "x"\n')
    listed = {entry.name: entry.problem for entry in lesson_entries(tmp_path)}
    assert listed["mine"] == (
        f"{path}: The file cannot be read: {ODD[kind][1]}. Check its name, and whether you may read it."
    )
    assert listed["other"] == ""


def test_commands_refuse_it_in_one_sentence(
    kind: str, odd: Callable[[str], Path], capsys: pytest.CaptureFixture[str]
) -> None:
    script, lines, table = odd("mine.toml"), odd("club.jsonl"), odd("club.csv")
    assert main(["lesson", "check", str(script)]) == 1
    assert f"cannot be read: {ODD[kind][1]}." in capsys.readouterr().out
    for arguments in (["import", lines], ["import", table], ["merge", lines, "--into", "new.csv"]):
        assert main(["progress", *map(str, arguments)]) == 2
        said = capsys.readouterr().err
        assert said.count("\n") == 1
        assert ODD[kind][1] in said


def test_attempts_are_kept_in_memory_and_the_odd_thing_stays(
    kind: str, odd: Callable[[str], Path], tmp_path: Path
) -> None:
    path = odd(backup.FILE)
    opened = open_or_remember(tmp_path, NOW)
    opened.connection.close()
    assert opened.reason == ODD[kind][1]
    assert os.path.lexists(path)
    assert not path.is_file()
    assert [result.told for result in of_progress(tmp_path) if ODD[kind][1] in result.told]


def test_backups_that_are_odd_are_passed_over(odd: Callable[[str], Path], tmp_path: Path) -> None:
    (tmp_path / backup.BACKUPS).mkdir()
    odd(f"{backup.BACKUPS}/progress-2026-03-02.sqlite")
    opened = open_or_remember(tmp_path, NOW)
    opened.connection.close()
    assert opened.reason == ""
    assert (tmp_path / backup.FILE).is_file()


def test_a_stored_table_that_is_odd_is_made_again(odd: Callable[[str], Path], tmp_path: Path) -> None:
    odd("small.table")
    store = Store(tmp_path)
    assert store.load("small") is None


def test_a_recording_that_is_odd_is_refused(kind: str, odd: Callable[[str], Path]) -> None:
    with pytest.raises(PublishError, match=ODD[kind][1]):
        recording(odd("1.wav"))


def test_a_log_that_is_a_pipe_keeps_nothing_waiting(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pipe_at(tmp_path / log.FILE)
    assert NOT_A_FILE in of_log(tmp_path).told
    begun = log.start_log(tmp_path)
    try:
        logging.getLogger(__name__).warning("a word")
    finally:
        log.stop_log(begun)
    assert "a word" in capsys.readouterr().err
    assert NOT_A_FILE in begun.place
