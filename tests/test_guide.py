"""What the contributor's guide names is there, and the screen that it adds as an example works."""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
GUIDE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
DIFF = re.findall(r"^```diff\n(.*?)^```", GUIDE, re.MULTILINE | re.DOTALL)
TEXT = re.sub(r"^```.*?^```", "", GUIDE, flags=re.MULTILINE | re.DOTALL)
SPANS = sorted(set(re.findall(r"`([^`\n]+)`", TEXT)))
PATHS = [span for span in SPANS if re.fullmatch(r"[\w.]+(/[\w.-]+)+", span) and "NAME" not in span]
MEMBERS = [span for span in SPANS if re.fullmatch(r"[\w./]+\.py: [\w.]+", span)]
COMMANDS = [span for span in SPANS if span.startswith(("python -m ", "pairwright "))]
NAMES = [span for span in SPANS if re.fullmatch(r"[A-Za-z_]+(\.[a-z_]+)?", span)]
ROOMS_FILES = {"commands.py", "state.py", "keys.py", "update.py", "view.py", "room.py"}


@cache
def defined_in(path: str) -> frozenset[str]:
    """The names of a module's top level, and of its classes' members as ``Class.member``."""
    names = set()
    for node in ast.parse((ROOT / path).read_text("utf-8")).body:
        if isinstance(node, ast.ClassDef | ast.FunctionDef):
            names.add(node.name)
        if isinstance(node, ast.ClassDef):
            names |= {f"{node.name}.{each.name}" for each in node.body if isinstance(each, ast.FunctionDef)}
    return frozenset(names)


@cache
def words_of_the_source() -> frozenset[str]:
    """Every word of the program's source and of what describes it to tools."""
    files = [path for folder in ("tutor", "render") for path in (ROOT / folder).rglob("*.py")]
    text = "\n".join(path.read_text("utf-8") for path in (*files, ROOT / "pyproject.toml"))
    return frozenset(re.findall(r"\w+", text))


def test_there_is_something_of_each_kind_to_check() -> None:
    assert min(map(len, (PATHS, MEMBERS, COMMANDS, NAMES))) >= 8
    assert len(DIFF) == 1


@pytest.mark.parametrize("path", PATHS)
def test_a_path_leads_somewhere(path: str) -> None:
    # What lies in the application's rooms is also named from there.
    assert (ROOT / path).exists() or (ROOT / "tutor" / path).is_dir()


@pytest.mark.parametrize("member", MEMBERS)
def test_what_a_module_is_said_to_have_is_in_it(member: str) -> None:
    path, _, name = member.partition(": ")
    assert name in defined_in(path)


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_names_a_module_that_is_there(command: str) -> None:
    program, *words = command.split()
    module = f"tutor.app.cli.{words[0]}" if program == "pairwright" else words[1]
    assert find_spec(module) is not None


@pytest.mark.parametrize("name", NAMES)
def test_a_name_is_one_of_the_source(name: str) -> None:
    assert set(name.split(".")) <= words_of_the_source()


def test_the_files_of_a_room_are_those_that_rooms_have() -> None:
    named = {span for span in SPANS if re.fullmatch(r"\w+\.py", span)}
    assert named == ROOMS_FILES
    assert all((ROOT / "tutor" / "screens" / "lesson" / file).is_file() for file in named)


def apply(diff: str, folder: Path) -> list[str]:
    """Change the files in a folder as a unified diff says; their paths."""
    changed = []
    for part in re.split(r"^--- .*\n", diff, flags=re.MULTILINE)[1:]:
        head, *hunks = re.split(r"^@@ .*\n", part, flags=re.MULTILINE)
        path = head.strip().removeprefix("+++ b/")
        file = folder / path
        file.parent.mkdir(exist_ok=True)
        text = file.read_text("utf-8") if file.exists() else ""
        for hunk in hunks:
            lines = hunk.splitlines(keepends=True)
            old = "".join(line[1:] for line in lines if line[0] != "+")
            assert not old or text.count(old) == 1, (path, old)
            new = "".join(line[1:] for line in lines if line[0] != "-")
            text = text.replace(old, new) if old else new
        file.write_text(text, "utf-8")
        changed.append(path)
    return changed


def test_the_screen_that_is_added_as_an_example_works(tmp_path: Path) -> None:
    for name in ("tutor", "tests"):
        shutil.copytree(ROOT / name, tmp_path / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("render", "lessons", "assets", "pyproject.toml"):
        (tmp_path / name).symlink_to(ROOT / name)
    changed = apply(DIFF[0], tmp_path)
    # One folder and its line in the table are all that the program needs.
    rooms = {path.rpartition("/")[0] for path in changed if path.startswith("tutor/")}
    assert rooms == {"tutor/screens", "tutor/screens/versions"}
    (test,) = (path for path in changed if path.startswith("tests/"))
    house = "tests/test_house.py::test_every_screen_has_a_room_and_one_line_in_the_table"
    ended = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", test, house],
        cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(tmp_path)}, capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert ended.returncode == 0, ended.stdout
    assert "2 passed" in ended.stdout
