"""Whatever names, files and arguments hold, a terminal is given nothing to obey but the ends of lines."""

from __future__ import annotations

import csv
import json
import logging
import re
import sqlite3
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest

from tutor.app.checkup.checks import of_folder, of_log, of_settings
from tutor.app.cli.command_line import main
from tutor.app.files.log import FILE as LOG
from tutor.app.files.log import start_log, stop_log
from tutor.app.files.settings import FILE as SETTINGS
from tutor.app.files.settings import load_settings
from tutor.progress.backup import FILE as STORE

EVIL = "x\x1b[31m\x1b]0;t\x07\x7f\x9b2J\u202e\u2067\u2028y\r\nFORGED"
OBEYED = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")
"""All that visible text must not have, but for the line feed."""
RECORDS = Path(__file__).parents[2] / "progress" / "form_3"
SCRIPT = """
title = "A title"
goal = "A goal."
{more}
[[scene]]
kind = "tell"
text = "See {{case.name}}."
case = "3"
"""
Said = Callable[..., str]


def checked(said: str) -> str:
    """What was said, which is fit for a terminal and forges no line."""
    assert OBEYED.search(said) is None, repr(said)
    assert not [line for line in said.splitlines() if line.startswith("FORGED")], repr(said)
    return said


@pytest.fixture
def evil_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home, and a folder to work in, with hostile names."""
    folder = tmp_path / EVIL
    folder.mkdir()
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(folder / "home"))
    monkeypatch.chdir(folder)
    return folder


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str]) -> Said:
    """Runs the command line in this process and gives all that it has said."""

    def running(*arguments: str) -> str:
        # A help text or a refused argument ends the process.
        with suppress(SystemExit):
            main(arguments)
        out, err = capsys.readouterr()
        return checked(out) + checked(err)

    return running


ARGUMENTS = (
    (EVIL,), (f"--{EVIL}",), ("--lessons", EVIL), ("cases", EVIL), ("cases", f"--{EVIL}"),
    ("turns", "--setup", EVIL, "--slot", "FR"), ("turns", "--setup", "R", "--slot", EVIL),
    ("turns", "--setup", "R", "--slot", "FR", "--keep", EVIL), ("explain", EVIL, "--slot", "FR"),
    ("explain", "R U", "--slot", EVIL), ("explain", "R U", "--slot", "FR", "--setup", EVIL),
    ("lesson", EVIL), ("lesson", "check", EVIL), ("lesson", "text", EVIL),
    ("lesson", "new", EVIL, "--case", "3"), ("lesson", "new", "a", "--case", EVIL),
    ("lesson", "new", "a", "--case", "3", "--slot", EVIL),
    ("lesson", "new", "a", "--case", "3", "--folder", f"{EVIL}/sub"),
    ("picture", EVIL, "--out", "a.png"), ("picture", "3", "--out", EVIL), ("picture", "3", "--size", EVIL),
    ("picture", "3", "--out", f"no{EVIL}/a.png"), ("picture", "3", "--out", "a.png", "--camera", EVIL),
    ("picture", "3", "--out", "a.png", "--size", EVIL), ("picture", "--setup", EVIL, "--out", "a.png"),
    ("picture", "3", "--out", "a.png", "--theme", EVIL), ("film", "3", "--out", EVIL),
    ("film", "3", "--out", "a.gif", "--show", EVIL), ("film", "--lesson", EVIL, "--out", "a.gif"),
    ("film", "3", "--out", "a.mp4", "--voice-folder", EVIL), ("film", "--all", "--out", "a", "--slots", EVIL),
    ("film", "3", "--script", "--title", EVIL, "--note", EVIL),
    ("film", "3", "--out", "a.gif", "--rate", EVIL),
    ("sheet", EVIL, "--out", "a.html"), ("sheet", "--cases", EVIL, "--out", "a.html"),
    ("sheet", "--lesson", EVIL, "--out", "a.html"), ("sheet", "--learner", EVIL, "--out", "a.html"),
    ("sheet", "--out", EVIL), ("sheet", "--each-learner", "--out", EVIL),
    ("progress", EVIL), ("progress", "show"), ("progress", "show", "--learner", EVIL),
    ("progress", "show", "--learner", "Guest", "--csv"), ("progress", "group"),
    ("progress", "group", "--out", f"{EVIL}.pdf2"), ("progress", "export", f"{EVIL}.csv"),
    ("progress", "export", f"{EVIL}.csv"), ("progress", "export", EVIL),
    ("progress", "import", EVIL), ("progress", "import", f"no{EVIL}.csv"),
    ("progress", "merge", f"no{EVIL}.csv", "--into", "a.csv"), ("progress", "backup"),
    ("progress", "backup", f"{EVIL}.sqlite"), ("progress", "backup", f"{EVIL}.sqlite"),
    ("progress", "restore", f"{EVIL}.sqlite", "--yes"), ("progress", "restore", EVIL, "--yes"),
    ("progress", "reset", "--yes"), ("progress", "reset", "--learner", EVIL),
    ("progress", "assign", "--learner", EVIL, "--cases", EVIL),
    ("progress", "assign", "--learner", EVIL, "--lesson", EVIL),
    ("progress", "assign", "--learner", "Guest", "--cases", "3", "--until", EVIL),
    ("progress", "assign", "--learner", "Guest", "--cases", "3"), ("progress", "assign"),
    ("progress", "--help"),
)  # fmt: skip


@pytest.mark.usefixtures("evil_home")
def test_no_argument_reaches_the_terminal_as_it_is(said: Said) -> None:
    told = [said(*each) for each in ARGUMENTS]
    assert all(told)
    # Most quote what was written, and so that it can be read.
    assert sum(r"x\x1b[31m" in each for each in told) > len(ARGUMENTS) / 2


@pytest.mark.usefixtures("evil_home")
def test_no_file_of_attempts_reaches_the_terminal_as_it_is(said: Said) -> None:
    line = json.loads((RECORDS / "attempts.jsonl").read_text().splitlines()[0])
    rows = list(csv.reader((RECORDS / "attempts.csv").read_text().splitlines()[:2]))
    bad_lines = [json.dumps({**line, name: EVIL}) for name in line]
    bad_lines += [
        json.dumps({**line, EVIL: 1}),
        f'{{"{EVIL}',
        json.dumps({**line, "turns": [{"turn": EVIL}]}),
    ]
    bad_lines += [json.dumps({"learner": EVIL, "time": EVIL, "case": EVIL, "own_words": EVIL})]
    bad_lines += [json.dumps({"learner": "A", "assigned": EVIL, "time": EVIL, "state": EVIL})]
    Path("a.jsonl").write_text("".join(f"{each}\n" for each in bad_lines))
    bad_rows = [
        [EVIL if n == place else cell for n, cell in enumerate(rows[1])] for place in range(len(rows[1]))
    ]
    with Path("a.csv").open("w", newline="") as file:
        csv.writer(file).writerows([rows[0], *bad_rows])
    with Path("b.csv").open("w", newline="") as file:
        csv.writer(file).writerows([[EVIL, *rows[0][1:]], rows[1]])
    Path(f"{EVIL}.jsonl").write_bytes((RECORDS / "attempts.jsonl").read_bytes())
    for command in (
        ("import", "a.jsonl"), ("import", "a.jsonl", "--lines"), ("import", "a.csv"),
        ("import", "a.csv", "--lines"), ("import", "b.csv"), ("import", f"{EVIL}.jsonl", "--lines"),
        ("merge", "a.jsonl", f"{EVIL}.jsonl", "--lines", "--into", "m.csv"),
        ("merge", f"{EVIL}.jsonl", "--into", f"m{EVIL}.csv"),
    ):  # fmt: skip
        assert said("progress", *command)


def test_no_lesson_reaches_the_terminal_as_it_is(evil_home: Path, said: Said) -> None:
    written = json.dumps(EVIL)
    scripts = {
        "title": SCRIPT.format(more="").replace('"A title"', written),
        "goal": SCRIPT.format(more="").replace('"A goal."', written),
        "text": SCRIPT.format(more="").replace(
            "See {case.name}.", f"{{{EVIL}}}".encode("unicode_escape").decode()
        ),
        "key": SCRIPT.format(more=f"{written} = 1"),
        "ideas": SCRIPT.format(more=f"ideas = [{written}]"),
        "kind": SCRIPT.format(more="").replace('"tell"', written),
        "case": SCRIPT.format(more="").replace('"3"', written),
        "raw": SCRIPT.format(more=EVIL),
    }
    for name, script in scripts.items():
        (evil_home / f"{name}.toml").write_text(script, "utf-8", newline="")
        told = said("lesson", "check", str(evil_home / f"{name}.toml"))
        assert "nothing wrong" not in told
        assert said("--lessons", str(evil_home), "lesson", "text", name)
    title = said("lesson", "check", "title.toml")
    assert title == r"title.toml:2: title: This text has the control character \x1b. Leave it out." + "\n"


def test_names_in_the_progress_file_do_not_reach_the_terminal_as_they_are(
    said: Said, evil_home: Path
) -> None:
    assert said("progress", "show")
    with sqlite3.connect(evil_home / "home" / STORE) as connection:
        connection.execute("UPDATE learners SET name = ?", (EVIL,))
    for command in (("show",), ("show", "--json"), ("group",), ("assign",), ("export", "a.jsonl")):
        assert said("progress", *command)


def test_settings_and_log_are_told_so_that_they_can_be_read(evil_home: Path) -> None:
    settings = evil_home / SETTINGS
    for text in (f'"{EVIL}" = 1', f"learner = {json.dumps(EVIL)}", f"[keys]\n{json.dumps(EVIL)} = \"a\"",
                 f'[keys]\n"undo" = {json.dumps(EVIL)}', f"cross = {json.dumps(EVIL)}"):  # fmt: skip
        settings.write_text(text, "utf-8", newline="")
        checked(of_settings(evil_home).told)
        assert "\n" not in checked(load_settings(evil_home).notice)
    log = start_log(evil_home)
    try:
        logging.getLogger("tests").warning("%s", EVIL)
        try:
            raise ValueError(EVIL.replace("\n", ""))
        except ValueError:
            logging.getLogger("tests").exception(EVIL)
    finally:
        stop_log(log)
    lines = checked((evil_home / LOG).read_text("utf-8"))
    assert r"tests: x\x1b[31m" in lines
    for result in (of_log(evil_home), of_folder("Folder", evil_home)):
        assert "\n" not in checked(result.told)
