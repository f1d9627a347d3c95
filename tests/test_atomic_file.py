"""Files are written whole or not at all, and links and permissions stay."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from tutor.atomic_file import creating, replacing, write_new, write_whole


def fill_the_full_device(beside: Path) -> None:
    # Linux has a device that is always full (man 4 full).
    beside.symlink_to("/dev/full")
    beside.write_bytes(b"too much")


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_file_is_written_with_its_folder_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    for content in (b"first", b"second"):
        write_whole(tmp_path / "new" / "folder" / "a", content)
        assert (tmp_path / "new" / "folder" / "a").read_bytes() == content
        assert names(tmp_path / "new" / "folder") == ["a"]


def test_a_link_stays_and_the_file_it_leads_to_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "one").symlink_to("two")
    (tmp_path / "two").symlink_to("elsewhere/three")
    for content in (b"first", b"second"):
        write_whole(tmp_path / "one", content)
        assert (tmp_path / "elsewhere" / "three").read_bytes() == content
    assert (tmp_path / "one").readlink() == Path("two")
    assert (tmp_path / "two").readlink() == Path("elsewhere/three")
    assert names(tmp_path / "elsewhere") == ["three"]


def test_a_link_to_a_folder_that_is_gone_is_refused_and_the_folder_not_made(tmp_path: Path) -> None:
    # A disk that is not there now must not get its settings below the place where it belongs.
    (tmp_path / "one").symlink_to("gone/two")
    with pytest.raises(FileNotFoundError, match="one"):
        write_whole(tmp_path / "one", b"content")
    assert names(tmp_path) == ["one"]


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o666])
def test_permissions_stay(tmp_path: Path, mode: int) -> None:
    (tmp_path / "a").write_bytes(b"first")
    (tmp_path / "a").chmod(mode)
    write_whole(tmp_path / "a", b"second")
    assert (tmp_path / "a").stat().st_mode & 0o777 == mode


def test_what_cannot_be_written_is_named_and_what_was_there_stays(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"first")
    with pytest.raises(OSError, match="No space left"), replacing(tmp_path / "a") as beside:
        fill_the_full_device(beside)
    assert (tmp_path / "a").read_bytes() == b"first"
    with pytest.raises(FileExistsError) as told:
        write_whole(tmp_path / "a" / "b", b"")
    assert told.value.filename == str(tmp_path / "a" / "b")
    assert names(tmp_path) == ["a"]


@pytest.mark.parametrize("on_disk", [True, False])
def test_the_disk_has_it_before_it_takes_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, on_disk: bool
) -> None:
    seen: list[bool] = []
    flush = os.fsync

    def flushed(handle: int) -> None:
        seen.append((tmp_path / "a").exists())
        flush(handle)

    monkeypatch.setattr(os, "fsync", flushed)
    write_whole(tmp_path / "a", b"content", on_disk=on_disk)
    assert seen == ([False] if on_disk else [])


THERE_BY_THEN: dict[str, Callable[[Path], object]] = {
    "file": lambda target: target.write_bytes(b"theirs"),
    "folder": Path.mkdir,
    "link": lambda target: target.symlink_to("nowhere"),
}


@pytest.mark.parametrize("there", THERE_BY_THEN)
def test_what_is_created_replaces_nothing(tmp_path: Path, there: str) -> None:
    def create(target: Path) -> None:
        with creating(target) as beside:
            beside.write_bytes(b"mine")
            THERE_BY_THEN[there](target)

    with pytest.raises(FileExistsError):
        create(tmp_path / "a")
    assert names(tmp_path) == ["a"]
    assert not (tmp_path / "a").is_file() or (tmp_path / "a").read_bytes() == b"theirs"


def test_a_new_file_takes_a_name_that_is_free(tmp_path: Path) -> None:
    (tmp_path / "new" / "case-2.png").mkdir(parents=True)
    made = []
    for content in (b"1", b"2"):
        made.append(write_new(tmp_path / "new", "case", ".png", writing(content)))
    assert [path.name for path in made] == ["case.png", "case-3.png"]
    assert [path.read_bytes() for path in made] == [b"1", b"2"]
    assert len(list((tmp_path / "new").iterdir())) == 3


def test_a_name_taken_in_the_last_moment_is_left_alone(tmp_path: Path) -> None:
    def write(beside: Path) -> None:
        beside.write_bytes(b"mine")
        (tmp_path / "case.png").write_bytes(b"theirs")

    assert write_new(tmp_path, "case", ".png", write).name == "case-2.png"
    assert (tmp_path / "case.png").read_bytes() == b"theirs"


def test_where_there_are_no_links_a_new_file_is_renamed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(self: Path, _: Path) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(Path, "hardlink_to", refuse)
    write_new(tmp_path, "case", ".png", writing(b"whole"))
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("case.png", b"whole")]


def test_a_new_file_that_fails_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="No space left"):
        write_new(tmp_path, "case", ".gif", fill_the_full_device)
    assert not list(tmp_path.iterdir())


def writing(content: bytes) -> Callable[[Path], None]:
    def write(beside: Path) -> None:
        beside.write_bytes(content)

    return write
