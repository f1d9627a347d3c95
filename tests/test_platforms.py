"""What is said and done for Windows and macOS: start lines, the bundle's recipe, the list to tick.

What each shell understands is common practice: Windows PowerShell 5.1 has no ``&&``, the command prompt keeps
single quotes as letters, and ``py -3`` is the launcher that comes with Python for Windows.
"""

from __future__ import annotations

import re
import runpy
import sys
import tomllib
from importlib.metadata import EntryPoint
from pathlib import Path

import pytest

from render.system.identity import APPLICATION_ID
from tests.test_drill_table import names_in
from tutor import __main__ as entry
from tutor.app.checkup.checks import of_libraries
from tutor.app.cli.command_line import main
from tutor.publish.extras import installing

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
GUIDE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
PAGE = (ROOT / "tests" / "PLATFORMS.md").read_text("utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
FENCED = r"^```\n(.*?)^```"


def test_the_start_lines_work_in_each_systems_shell() -> None:
    start = README[README.index("\n## Start it\n") : README.index("\n## Your first two minutes")]
    posix, windows = re.findall(FENCED, start, re.MULTILINE | re.DOTALL)
    assert posix.strip() == "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/pairwright"
    assert windows.splitlines() == [
        "py -3 -m venv .venv",
        r".venv\Scripts\pip install .",
        r".venv\Scripts\pairwright",
    ]
    assert not re.search(r"[&'$;]", windows)
    needed = PROJECT["project"]["requires-python"].removeprefix(">=")
    assert f"Python {needed} or newer" in start
    # The Mac's own is 3.9 (Apple's Command Line Tools, from memory).
    assert "The Mac's own Python is too old" in start
    # Whoever types an extra in the command prompt needs double quotes, which every shell takes.
    assert 'pip install ".[film]"' in start


def test_the_recipe_takes_every_package_and_gives_the_id() -> None:
    section = GUIDE[GUIDE.index("\n## A bundle\n") : GUIDE.index("\n## How to add\n")]
    (recipe,) = re.findall(FENCED, section, re.MULTILINE | re.DOTALL)
    packages = set(PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]["packages"])
    taken = set(re.findall(r"--collect-all (\S+)", recipe))
    assert taken == packages | {"font_source_sans_pro", "font_source_serif_pro"}
    assert f"--osx-bundle-identifier {APPLICATION_ID} " in recipe
    named = [word for word in recipe.split() if word.endswith((".png", ".py"))]
    assert len(named) == 2
    assert all((ROOT / name).is_file() for name in named)


def test_a_frozen_program_plays_python_for_what_it_starts(monkeypatch: pytest.MonkeyPatch) -> None:
    run: list[tuple[str, list[str]]] = []
    monkeypatch.setattr(runpy, "run_module", lambda name, **_: run.append((name, sys.argv[1:])))

    def played() -> int:
        run.append(("main", sys.argv[1:]))
        return 5

    monkeypatch.setattr(entry, "main", played)
    probe = ["Pairwright", "-m", "tutor.app.checkup.graphics_probe", "window"]
    monkeypatch.setattr(sys, "argv", list(probe))
    assert entry.start() == 5
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    assert entry.start() == 0
    monkeypatch.setattr(sys, "argv", ["Pairwright", "checkup"])
    assert entry.start() == 5
    assert run == [("main", probe[1:]), (probe[2], ["window"]), ("main", ["checkup"])]


def test_of_the_two_scripts_one_has_no_console_and_both_start_the_same() -> None:
    """That an installed wheel has both, ``fresh_machine`` tries."""
    # On Windows a gui_script has no console (packaging.python.org, "Entry points specification").
    scripts, without_console = PROJECT["project"]["scripts"], PROJECT["project"]["gui-scripts"]
    assert [*scripts, *without_console] == ["pairwright", "pairwright-window"]
    started = [EntryPoint("", target, "").load() for target in (scripts | without_console).values()]
    assert started == [main, main]


def test_a_bundle_is_told_of_no_pip(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    monkeypatch.setattr("tutor.app.checkup.checks.EXTRAS", {"film": ("no-such-extra", "MP4 films")})
    assert installing("film") == "install the program with Python, as README.md says, and then this package"
    assert [each.told for each in of_libraries()][1:] == [
        "no-such-extra is not installed. "
        "If you want MP4 films, install the program with Python, as README.md says."
    ]


def test_the_workflow_runs_only_when_it_is_started() -> None:
    text = (ROOT / ".github" / "workflows" / "platforms.yml").read_text("utf-8")
    (triggers,) = re.findall(r"^on:\n((?:  .*\n)+)", text, re.MULTILINE)
    assert triggers == "  workflow_dispatch:\n"
    assert "[windows-latest, macos-latest]" in text
    oldest = PROJECT["project"]["requires-python"].removeprefix(">=")
    assert f'"{oldest}"' in text


def test_every_test_and_file_that_the_page_names_exists() -> None:
    named = re.findall(r"`(tests/[\w/]+\.py)::(test_\w+)`", PAGE)
    assert len(named) == PAGE.count("::") > 20
    assert [f"{path}::{name}" for path, name in named if name not in names_in(path)] == []
    rows = [line.split("|") for line in PAGE.splitlines() if line.startswith("| ") and "::" in line]
    files = [file for row in rows for file in re.findall(r"`([^`]+)`", row[2])]
    assert len(files) >= len(rows)
    assert [file for file in files if not (ROOT / file).is_file()] == []


def test_each_system_has_things_to_tick() -> None:
    for system in ("macOS", "Windows"):
        section = PAGE[PAGE.index(f"\n## {system}\n") :].split("\n## ")[1]
        assert section.count("\n- [ ] ") >= 3
