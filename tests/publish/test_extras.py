"""How to install an extra, by each way in which the program can have been installed."""

from __future__ import annotations

import tomllib
from importlib import metadata
from pathlib import Path

import pytest

from tutor.publish.extras import SOURCE, installing, installing_for


def installed(folder: Path, record: str | None) -> metadata.Distribution:
    """A program that was installed with this record of where it came from, in direct_url.json (PEP 610)."""
    found = folder / "pairwright-0.1.0.dist-info"
    found.mkdir()
    (found / "METADATA").write_text("Metadata-Version: 2.1\nName: pairwright\nVersion: 0.1.0\n")
    if record is not None:
        (found / "direct_url.json").write_text(record)
    return metadata.Distribution.at(found)


@pytest.mark.parametrize(
    ("record", "told"),
    [
        # From an index there is no record (PEP 610, "Specification").
        (None, "type “pip install 'pairwright[film]'”"),
        # The records are in the form of the examples of PEP 610.
        (
            '{"url": "file:///home/user/project", "dir_info": {}}',
            "type “pip install '.[film]'” in the folder /home/user/project",
        ),
        (
            '{"url": "file:///home/user/project", "dir_info": {"editable": false}}',
            "type “pip install '.[film]'” in the folder /home/user/project",
        ),
        (
            '{"url": "file:///home/user/my%20project", "dir_info": {"editable": true}}',
            "type “pip install --editable '.[film]'” in the folder /home/user/my project",
        ),
        (
            '{"url": "file:///tmp/pairwright-0.1.0-py3-none-any.whl", "archive_info": {}}',
            "type “pip install 'pairwright[film] @ file:///tmp/pairwright-0.1.0-py3-none-any.whl'”",
        ),
        (
            '{"url": "https://example.org/pairwright.git", "vcs_info": {"vcs": "git", "commit_id": "7921"}}',
            "type “pip install 'pairwright[film] @ git+https://example.org/pairwright.git'”",
        ),
    ],
)
def test_the_advice_fits_how_the_program_was_installed(record: str | None, told: str, tmp_path: Path) -> None:
    assert installing_for("film", installed(tmp_path, record)) == told


def test_where_nothing_is_installed_it_is_the_folder_of_the_source(monkeypatch: pytest.MonkeyPatch) -> None:
    def none(name: str) -> metadata.Distribution:
        raise metadata.PackageNotFoundError(name)

    monkeypatch.setattr(metadata, "distribution", none)
    assert installing("sheet") == f"type “pip install '.[sheet]'” in the folder {SOURCE}"
    assert (SOURCE / "pyproject.toml").is_file()


def test_the_extras_are_those_of_the_package() -> None:
    read = tomllib.loads((SOURCE / "pyproject.toml").read_text(encoding="utf-8"))
    assert {"film", "sheet"} <= set(read["project"]["optional-dependencies"])
