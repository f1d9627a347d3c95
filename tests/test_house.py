"""The house keeps its order: who imports whom, and what lies where.

Each package is imported in a fresh process, so that nothing another test has imported can hide or cause a
fault; imports inside functions, which such a process does not see, are read from the source.
"""

import ast
import json
import os
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from graphlib import TopologicalSorter
from importlib import metadata
from pathlib import Path

import pytest

from tutor.screens.table import SCREENS

ROOT = Path(__file__).parent.parent
FROM_THE_GROUND_UP = (
    "cube", "solver", "method", "coach", "lesson", "progress", "speech", "ui", "session", "screens",
    "publish", "workers", "app",
)  # fmt: skip
PACKAGES = [name for name in FROM_THE_GROUND_UP if (ROOT / "tutor" / name).is_dir()]
TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "pyproject.toml", "tutor", "render", "lessons", "assets", "tests",
}  # fmt: skip
LEFT_BY_BUILDING = {"build", "dist"}  # not in the repository
RENDER_MAY_SEE = {
    "tutor.ui.view",
    "tutor.ui.inputs",
    "tutor.cube.faces",
    "tutor.cube.words",
    "tutor.counting",
}
WITH_WHAT_THOSE_NEED = RENDER_MAY_SEE | {
    "tutor", "tutor.ui", "tutor.ui.action", "tutor.ui.plots", "tutor.cube", "tutor.cube.faces",
}  # fmt: skip

IMPORT_ALL = """
import importlib, json, pkgutil, sys
package = importlib.import_module(sys.argv[1])
for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
    importlib.import_module(module.name)
json.dump(sorted(sys.modules), sys.stdout)
"""


@cache
def modules_after_importing(package: str) -> set[str]:
    """Every module loaded in a fresh process once all modules of the package are imported."""
    done = subprocess.run(
        [sys.executable, "-c", IMPORT_ALL, package],
        cwd=ROOT,
        env={**os.environ, "PYGLET_HEADLESS": "true"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return set(json.loads(done.stdout))


def imports_written_in(path: Path) -> Iterator[str]:
    """Every module named in an import anywhere in the file, also inside functions."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written from the root, not relative"
            yield node.module or ""
            # "from tutor import app" and "from tutor.session import state" name modules too.
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def is_within(module: str, package: str) -> bool:
    return module == package or module.startswith(package + ".")


def python_files(*folders: str) -> list[Path]:
    return sorted(path for folder in folders for path in (ROOT / folder).rglob("*.py"))


def later_than(package: str) -> tuple[str, ...]:
    later = FROM_THE_GROUND_UP[FROM_THE_GROUND_UP.index(package) + 1 :]
    return (*(f"tutor.{name}" for name in later), *(("render",) if package != "app" else ()))


def test_every_package_of_tutor_has_its_place_in_the_order() -> None:
    found = {path.name for path in (ROOT / "tutor").iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert found <= set(FROM_THE_GROUND_UP)
    assert {"cube", "solver", "method", "ui", "session", "app"} <= found


@pytest.mark.parametrize("package", PACKAGES)
def test_a_package_loads_only_what_lies_below_it(package: str) -> None:
    loaded = modules_after_importing(f"tutor.{package}")
    assert f"tutor.{package}" in loaded
    wrong = {module for module in loaded if any(is_within(module, later) for later in later_than(package))}
    assert not wrong


@pytest.mark.parametrize("package", PACKAGES)
def test_a_package_names_only_what_lies_below_it_even_inside_functions(package: str) -> None:
    for path in python_files(f"tutor/{package}"):
        wrong = {m for m in imports_written_in(path) if any(is_within(m, p) for p in later_than(package))}
        assert not wrong, path


@pytest.mark.parametrize("package", PACKAGES)
def test_nothing_in_tutor_loads_pyglet_by_being_imported(package: str) -> None:
    loaded = modules_after_importing(f"tutor.{package}")
    assert not {module for module in loaded if is_within(module, "pyglet")}


@pytest.mark.parametrize("package", [name for name in PACKAGES if name != "app"])
def test_pyglet_is_named_nowhere_in_tutor_but_in_app(package: str) -> None:
    for path in python_files(f"tutor/{package}"):
        assert not {m for m in imports_written_in(path) if is_within(m, "pyglet")}, path


def test_render_sees_of_tutor_only_the_view_and_the_inputs() -> None:
    modules = modules_after_importing("render")
    assert {module for module in modules if is_within(module, "tutor")} == WITH_WHAT_THOSE_NEED
    for path in python_files("render"):
        named = {module for module in imports_written_in(path) if is_within(module, "tutor")}
        assert all(any(is_within(m, seen) for seen in WITH_WHAT_THOSE_NEED - {"tutor"}) for m in named), path


@pytest.mark.parametrize(
    ("room", "unseen"), [("files", ("cli", "checkup")), ("checkup", ("cli",)), ("", ("cli",))]
)
def test_arrows_between_the_rooms_of_app_run_one_way(room: str, unseen: tuple[str, ...]) -> None:
    files = sorted((ROOT / "tutor" / "app" / room).glob("*.py"))
    assert files
    for path in files:
        named = list(imports_written_in(path))
        assert not [m for m in named for other in unseen if is_within(m, f"tutor.app.{other}")], path


def arrows_between_rooms(package: str) -> dict[str, set[str]]:
    """What each room of a package, and each module beside them, imports of the others, also in functions."""
    folder = ROOT / package
    found = {path.stem for path in folder.iterdir() if path.is_dir() or path.suffix == ".py"} - {"__init__"}
    arrows: dict[str, set[str]] = {room: set() for room in found}
    for path in python_files(package):
        here = path.relative_to(folder).parts[0].removesuffix(".py")
        named = {m.split(".")[1] for m in imports_written_in(path) if m.startswith(f"{package}.")}
        arrows.setdefault(here, set()).update(named & found - {here})
    return arrows


@pytest.mark.parametrize("package", ["render"])
def test_arrows_between_the_rooms_of_a_package_run_one_way(package: str) -> None:
    arrows = arrows_between_rooms(package)
    assert any(arrows.values())
    order = list(TopologicalSorter(arrows).static_order())  # raises CycleError, which names the rooms
    assert set(order) == set(arrows)


@pytest.mark.parametrize("name", ["atomic_file", "counting", "plain_file", "quoting"])
def test_what_every_package_may_use_lies_below_them_all(name: str) -> None:
    path = ROOT / "tutor" / f"{name}.py"
    assert not {module for module in imports_written_in(path) if is_within(module, "tutor")}


def test_a_public_class_has_a_name_of_its_own() -> None:
    named: dict[str, list[str]] = {}
    for path in python_files("tutor", "render"):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                named.setdefault(node.name, []).append(str(path.relative_to(ROOT)))
    assert len(named) > 300
    assert {name: places for name, places in named.items() if len(places) > 1} == {}


def words_modules() -> list[Path]:
    return [path for path in python_files("tutor", "render") if path.stem == "words"]


@pytest.mark.parametrize("path", words_modules(), ids=lambda path: path.parent.name)
def test_a_catalogue_of_words_knows_no_logic(path: Path) -> None:
    """It names values of the cube and the method, counts, makes visible, and quotes catalogues below it."""
    for module in imports_written_in(path):
        ground = is_within(module, "tutor.counting") or is_within(module, "tutor.quoting")
        if is_within(module, "tutor") and not ground:
            assert module.endswith(".words") or module.split(".")[:2] in (
                ["tutor", "cube"],
                ["tutor", "method"],
            )


def rooms() -> list[str]:
    """The folders of the screens, but for what several of them share."""
    folders = (path for path in (ROOT / "tutor" / "screens").iterdir() if path.is_dir())
    return sorted(path.name for path in folders if path.name not in {"parts", "__pycache__"})


def test_every_screen_has_a_room_and_one_line_in_the_table() -> None:
    table = ROOT / "tutor" / "screens" / "table.py"
    named = [module for module in imports_written_in(table) if module.endswith(".room")]
    assert named == [f"tutor.screens.{room}.room" for room in rooms()]
    assert sorted(room.name for room in SCREENS) == sorted(room.replace("_", " ") for room in rooms())


@pytest.mark.parametrize("room", rooms())
def test_a_room_knows_of_other_rooms_only_what_can_be_asked_of_them(room: str) -> None:
    for path in python_files(f"tutor/screens/{room}"):
        others = {m for m in imports_written_in(path) if m.startswith("tutor.screens.")}
        others = {m for m in others if m.split(".")[2] not in (room, "parts")}
        assert all(m.split(".")[3:4] == ["commands"] for m in others), (path, others)


def test_what_rooms_share_knows_no_room() -> None:
    for path in python_files("tutor/screens/parts"):
        named = {m for m in imports_written_in(path) if m.startswith("tutor.screens.")}
        assert {m.split(".")[2] for m in named} <= {"parts"}, path


@pytest.mark.parametrize(
    "path", python_files("tutor/session", "tutor/screens/parts"), ids=lambda path: path.stem
)
def test_nothing_outside_a_room_names_it(path: Path) -> None:
    # A key of every keyboard is called home, too.
    names = {room.name for room in SCREENS} - {"home"}
    said = {
        each.value for each in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(each, ast.Constant)
    }
    assert not names & said


def test_lessons_and_assets_hold_data_only() -> None:
    assert {path.name for path in python_files("lessons", "assets")} <= {"__init__.py"}
    assert all(not list(imports_written_in(path)) for path in python_files("lessons", "assets"))


def test_the_top_level_holds_what_it_should_and_nothing_else() -> None:
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found - LEFT_BY_BUILDING == TOP_LEVEL


def test_the_text_of_the_licence_is_in_the_wheel() -> None:
    told = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert told["project"]["license"] == "MIT"
    (path,) = told["project"]["license-files"]
    assert Path(path).parts[0] in told["tool"]["hatch"]["build"]["targets"]["wheel"]["packages"]
    # The same words as in a package by other people under the same licence.
    (other,) = (file for file in metadata.files("tomlkit") or () if file.name == "LICENSE")
    granted = [
        text[text.index("Permission is hereby granted") :].split()
        for text in ((ROOT / path).read_text(encoding="utf-8"), other.read_text(encoding="utf-8"))
    ]
    assert granted[0] == granted[1]


def test_the_check_of_a_fresh_clone_asks_for_style_layout_and_types() -> None:
    lines = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    asked = [line.removeprefix(".venv/bin/python -m ") for line in lines if line.startswith(".venv/")]
    elsewhere = [
        f"mypy --platform {system} --cache-dir .mypy_cache/{system} tutor render &"
        for system in ("win32", "darwin")
    ]
    assert asked[:5] == ["ruff check .", "ruff format --check .", *elsewhere, "mypy"]


def test_no_module_is_a_drawer_for_everything() -> None:
    vague = {"utils", "util", "helpers", "helper", "common", "misc"}
    assert not {path for path in python_files("tutor", "render", "tests") if path.stem in vague}


def test_tests_need_no_packages() -> None:
    # Pytest's importlib mode imports each test file by its path; a stray package would change its name.
    assert not [path for path in python_files("tests") if path.name == "__init__.py"]
