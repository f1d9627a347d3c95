"""Names and folders that no command can use: one sentence, and nothing is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutor.app.cli.command_line import main

LONG = "x" * 300
"""More bytes than a file's name may have where this runs (pathconf(3), NAME_MAX)."""
TOO_LONG = (
    ("picture", "3", "--out", f"{LONG}.png"), ("film", "3", "--out", f"{LONG}.gif"),
    ("film", "--all", "--out", LONG), ("film", "--lesson", LONG, "--out", "a.gif"),
    ("film", "3", "--voice-folder", LONG, "--out", "a.mp4"), ("sheet", "--out", f"{LONG}.html"),
    ("--lessons", LONG), ("--lessons", ".", "lesson", "text", LONG), ("lesson", "check", f"{LONG}.toml"),
    ("lesson", "new", "a", "--case", "3", "--folder", LONG), ("progress", "export", f"{LONG}.csv"),
    ("progress", "import", f"{LONG}.csv"), ("progress", "merge", f"{LONG}.csv", "--into", "a.csv"),
    ("progress", "backup", f"{LONG}.sqlite"), ("progress", "restore", f"{LONG}.sqlite", "--yes"),
    ("progress", "group", "--out", f"{LONG}.html"),
    ("progress", "show", "--learner", "Guest", "--png", f"{LONG}.png"),
)  # fmt: skip


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    (tmp_path / "work").mkdir()
    monkeypatch.chdir(tmp_path / "work")
    return tmp_path / "work"


def test_names_that_are_too_long_are_told(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for command in TOO_LONG:
        assert main(command) == (1 if "check" in command else 2)
        out, err = capsys.readouterr()
        assert len((out + err).splitlines()) == 1, command
        assert "File name too long" in out + err or "There is no lesson of this name" in err, command
    assert not list(folder.iterdir())


@pytest.mark.parametrize(
    "command",
    [
        ("progress", "export", "link.csv"),
        ("progress", "backup", "link.sqlite"),
    ],
)
def test_a_link_that_leads_nowhere_is_replaced_only_with_force(
    command: tuple[str, ...], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    link = folder / command[-1]
    link.symlink_to("nowhere")
    assert main(command) == 2
    err = capsys.readouterr().err
    assert "exists" in err
    assert "--force" in err
    assert [each.name for each in folder.iterdir()] == [link.name]
    assert main([*command, "--force"]) == 0
    assert (folder / "nowhere").stat().st_size > 0
    assert link.is_symlink()


def test_a_home_of_somebody_unknown_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PAIRWRIGHT_HOME", "~nobody-is-called-so/x")
    asked = ((), "pairwright"), (("--shared", "evening"), "pairwright"), (("checkup",), "pairwright checkup")
    for arguments, called in (*asked, (("progress", "show"), "pairwright")):
        assert main(arguments) == 2
        assert capsys.readouterr().err == (
            f"{called}: PAIRWRIGHT_HOME is ~nobody-is-called-so/x, and this computer knows nobody of that "
            "name; write a whole path\n"
        )
