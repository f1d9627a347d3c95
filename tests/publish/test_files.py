"""Files are written whole or not at all."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path

import pytest

from tutor.publish.files import PublishError, write_bytes, written


def write(target: Path, export: Callable[[Path], object]) -> None:
    with written(target) as beside:
        export(beside)


def half_written(beside: Path, fault: BaseException) -> None:
    beside.write_bytes(b"half")
    raise fault


def fill_the_full_device(beside: Path) -> None:
    beside.symlink_to("/dev/full")
    beside.write_bytes(b"too much")


def test_a_file_is_written_and_nothing_else_is_left(tmp_path: Path) -> None:
    write_bytes(tmp_path / "a.png", b"whole")
    assert (tmp_path / "a.png").read_bytes() == b"whole"
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]


def test_a_file_that_is_there_stays_unless_it_may_be_replaced(tmp_path: Path) -> None:
    target = tmp_path / "a.png"
    write_bytes(target, b"first")
    with pytest.raises(PublishError, match=r"already exists; .*--force"):
        write_bytes(target, b"second")
    assert target.read_bytes() == b"first"
    write_bytes(target, b"second", force=True)
    assert target.read_bytes() == b"second"


def test_what_came_to_be_there_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    target = tmp_path / "a.png"
    with pytest.raises(PublishError, match="already exists"):
        write(target, lambda beside: (beside.write_bytes(b"mine"), target.write_bytes(b"theirs")))
    assert target.read_bytes() == b"theirs"
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]


def test_a_file_that_may_be_replaced_stays_behind_the_link_that_leads_to_it(tmp_path: Path) -> None:
    (tmp_path / "shelf").mkdir()
    (tmp_path / "a.png").symlink_to("shelf/a.png")
    write_bytes(tmp_path / "a.png", b"first", force=True)
    assert (tmp_path / "a.png").readlink() == Path("shelf/a.png")
    assert (tmp_path / "shelf" / "a.png").read_bytes() == b"first"


def test_a_full_disk_is_told_and_leaves_no_half_file(tmp_path: Path) -> None:
    target = tmp_path / "a.gif"
    with pytest.raises(PublishError, match=r"No space left.*make room in this one"):
        write(target, lambda beside: half_written(beside, OSError(errno.ENOSPC, "No space left on device")))
    assert not list(tmp_path.iterdir())


def test_a_really_full_device_is_told(tmp_path: Path) -> None:
    # Linux has a device that is always full (man 4 full).
    target = tmp_path / "a.gif"
    with pytest.raises(PublishError, match="No space left on device"):
        write(target, fill_the_full_device)
    assert not list(tmp_path.iterdir())


def test_an_interrupted_export_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(KeyboardInterrupt):
        write(tmp_path / "a.gif", lambda beside: half_written(beside, KeyboardInterrupt()))
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("name", ["none/a.png", "."])
def test_a_place_that_cannot_be_a_file_is_named(name: str, tmp_path: Path) -> None:
    with pytest.raises(PublishError, match="folder"):
        write_bytes(tmp_path / name, b"", force=True)
