"""What the machine offers the program, and whether the saved data is sound.

Nothing is changed by looking: files are read where they lie or in a copy, and folders are not made.
"""

from __future__ import annotations

import os
import platform
import shutil
import sys
import tempfile
from collections.abc import Iterator
from importlib import metadata
from pathlib import Path, PureWindowsPath

from tutor.app.checkup import words
from tutor.app.checkup.check_result import CheckResult, fine, missing, note, wrong
from tutor.app.checkup.graphics_probe import PICTURE, WINDOW, Graphics, probe
from tutor.app.checkup.progress_checks import of_progress
from tutor.app.files.folders import (
    clips_folder,
    config_folder,
    data_folder,
    pictures_folder,
    state_folder,
    tables_folder,
)
from tutor.app.files.log import FILE as LOG_FILE
from tutor.app.files.log import LARGEST as LARGEST_LOG
from tutor.app.files.log import version
from tutor.app.files.settings import FILE as SETTINGS_FILE
from tutor.app.files.settings import load_settings
from tutor.plain_file import read_plain
from tutor.publish.extras import in_bundle
from tutor.solver.store import TableError, default_folder, read_table
from tutor.solver.tables import LARGE_TABLES, TABLES

NEEDED = (
    "numpy", "pyglet", "pyrr", "msgspec", "rich", "platformdirs", "tomlkit", "pillow",
    "font-source-sans-pro", "font-source-serif-pro",
)  # fmt: skip
"""The packages that the program cannot do without, as in pyproject.toml."""
EXTRAS = {"film": ("av", words.MP4_FILMS), "sheet": ("fpdf2", words.PDF_SHEETS)}
"""What is installed only when wanted: the extra's name, its package, and what it is for."""
LITTLE_ROOM = 200 * 2**20
"""Bytes: the tables need about 150 MB."""


def check_everything() -> Iterator[CheckResult]:
    """Everything there is to find out, as it is found."""
    yield from of_program()
    yield from of_libraries()
    yield from of_graphics(probe(WINDOW), probe(PICTURE))
    yield of_fonts()
    yield from of_folders()
    yield from of_tables(default_folder())
    yield from of_progress(data_folder())
    yield of_settings(config_folder())
    yield of_lessons()
    yield of_log(state_folder())


def of_program() -> Iterator[CheckResult]:
    """The program and what it runs on."""
    yield fine(words.PROGRAM, version())
    yield fine(words.PYTHON, f"{platform.python_version()}, {sys.executable}")
    yield fine(words.SYSTEM, platform.platform())
    if (
        kept := store_folder(PureWindowsPath(sys.base_prefix), os.environ.get("LOCALAPPDATA", ""))
    ) is not None:
        yield note(words.STORE_PYTHON, words.kept_in(kept))


def store_folder(python: PureWindowsPath, local: str) -> PureWindowsPath | None:
    """Where Python from Microsoft's store keeps what other programs keep in the folder ``local``.

    None for another Python. The store names a package NAME_VERSION_MACHINE__MAKER, its folder NAME_MAKER.
    """
    package = next((part for part in python.parts if part.startswith("PythonSoftwareFoundation.")), "")
    if not package:
        return None
    name, *_, maker = package.split("_")
    return PureWindowsPath(local, "Packages", f"{name}_{maker}", "LocalCache", "Local")


def of_libraries() -> Iterator[CheckResult]:
    """Versions of the packages needed, and what else could be installed."""
    there = {name: _version(name) for name in NEEDED}
    yield fine(words.LIBRARIES, ", ".join(f"{name} {found}" for name, found in there.items() if found))
    for name in (name for name, found in there.items() if not found):
        yield wrong(name, words.not_installed(_install(name)))
    for extra, (name, purpose) in EXTRAS.items():
        if found := _version(name):
            yield fine(words.extra(extra), words.extra_installed(f"{name} {found}", purpose))
        else:
            command = "" if in_bundle() else _install(name)
            yield note(words.extra(extra), words.extra_not_installed(name, purpose, command))


def _version(name: str) -> str:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return ""


def _install(package: str) -> str:
    return f"{sys.executable} -m pip install {package}"


def of_graphics(window: Graphics, picture: Graphics) -> Iterator[CheckResult]:
    """OpenGL in a window and without one, as probed; where one does not work, what does all the same."""
    drawn, shown = not _problem(picture), not _problem(window)
    if shown:
        yield fine(words.WINDOW, words.opengl(window.version, window.renderer))
    else:
        found = missing if window.no_display else wrong
        yield found(words.WINDOW, words.no_window(_problem(window), pictures=drawn))
    if drawn:
        yield fine(words.PICTURES, words.opengl(picture.version, picture.renderer))
    else:
        yield wrong(words.PICTURES, words.no_pictures(_problem(picture)))


def _problem(found: Graphics) -> str:
    """What keeps from drawing, as a sentence; empty when nothing does."""
    if found.problem:
        return f"{found.problem.rstrip('.')}."
    if _numbers(found.version) < (3, 3):
        return words.old_driver(found.renderer, found.version)
    return ""


def _numbers(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split(".") if part.isdigit())


def of_fonts() -> CheckResult:
    """The typefaces, which come as packages."""
    from render.errors import NoWindow
    from render.text.typefaces import Typeface, check_typefaces

    try:
        check_typefaces()
    except NoWindow as problem:
        return wrong(words.FONTS, str(problem))
    return fine(words.FONTS, ", ".join(face.value[1] for face in Typeface))


def of_folders() -> Iterator[CheckResult]:
    """Where things are kept, and whether that can be written."""
    for about, folder in (
        (words.SETTINGS_FOLDER, config_folder()),
        (words.STATE_FOLDER, state_folder()),
        (words.PROGRESS_FOLDER, data_folder()),
        (words.PICTURES_FOLDER, pictures_folder()),
        (words.CLIPS_FOLDER, clips_folder()),
        (words.TABLES_FOLDER, tables_folder()),
        (words.CACHE_FOLDER, default_folder()),
    ):
        yield of_folder(about, folder)


def of_folder(about: str, folder: Path) -> CheckResult:
    """Whether a folder can be written, or, before it is there, made; and whether there is room."""
    nearest = next(each for each in (folder, *folder.parents) if _seen(each))
    try:
        # A file without a name, which is gone when it is closed: rights alone do not tell it all.
        with tempfile.TemporaryFile(dir=nearest):
            room = shutil.disk_usage(nearest).free
    except OSError as error:
        reason = error.strerror or str(error)
        if nearest == folder:
            return wrong(about, words.not_writable(folder, reason))
        return wrong(about, words.not_makable(folder, nearest, reason))
    if room < LITTLE_ROOM:
        return wrong(about, words.nearly_full(folder, room // 2**20, LITTLE_ROOM // 2**20))
    if nearest != folder:
        return fine(about, words.made_when_needed(folder))
    return fine(about, words.writable(folder))


def _seen(path: Path) -> bool:
    """Whether something can be seen there; unlike Path.exists, no where its folder may not be looked into."""
    try:
        return path.exists()
    except OSError:
        return False


def of_tables(folder: Path) -> Iterator[CheckResult]:
    """The tables kept on the disk, every byte checked."""
    try:
        files = sorted(file for file in folder.iterdir() if file.suffix == ".table" and file.stem in TABLES)
    except FileNotFoundError:
        files = []
    except OSError as error:
        yield wrong(words.TABLES, words.unreadable(folder, error.strerror or str(error)))
        return
    size = 0
    for file in files:
        try:
            read_table(file, file.stem)
            size += file.stat().st_size
        except (OSError, TableError) as error:
            yield wrong(words.TABLES, words.bad_table(file, str(error)))
    missing = len(set(LARGE_TABLES) - {file.stem for file in files})
    if missing:
        yield note(words.TABLES, words.tables_missing(missing, len(LARGE_TABLES)))
        return
    yield fine(words.TABLES, words.tables_there(len(files), size // 2**20))


def of_settings(folder: Path) -> CheckResult:
    """Whether the settings can be used; a copy is looked at, since a damaged file would be set aside."""
    file = folder / SETTINGS_FILE
    with tempfile.TemporaryDirectory() as temporary:
        copy = Path(temporary)
        try:
            shutil.copyfile(file, copy / SETTINGS_FILE)
        except FileNotFoundError:
            return fine(words.SETTINGS, words.USUAL_SETTINGS)
        except OSError as error:
            return wrong(words.SETTINGS, words.unreadable(file, error.strerror or str(error)))
        problem = load_settings(copy).problem
    if problem:
        return wrong(words.SETTINGS, words.bad_settings(file, problem))
    return fine(words.SETTINGS, str(file))


def of_lessons() -> CheckResult:
    """The lessons that come with the program."""
    from tutor.lesson.library import lesson_entries

    try:
        entries = lesson_entries()
    except (OSError, ValueError, ImportError) as error:
        return wrong(words.LESSONS, words.no_lessons(str(error)))
    bad = [(entry.name, entry.problem) for entry in entries if entry.problem]
    if bad:
        return wrong(words.LESSONS, words.bad_lessons(bad))
    return fine(words.LESSONS, words.lessons_there(len(entries)))


def of_log(folder: Path) -> CheckResult:
    """The log, and its latest warning."""
    file = folder / LOG_FILE
    try:
        lines = read_plain(file, LARGEST_LOG).decode("utf-8", "replace").splitlines()
    except FileNotFoundError:
        return fine(words.LOG, words.log_quiet(file))
    except OSError as error:
        return wrong(words.LOG, words.unreadable(file, error.strerror or str(error)))
    told = [line for line in lines if " ERROR " in line or " WARNING " in line]
    if not told:
        return fine(words.LOG, words.log_quiet(file))
    return note(words.LOG, words.log_entries(file, len(told), told[-1]))
