"""What the machine offers the program, and what is wrong with what the program has kept.

Nothing is changed by looking: files are read where they lie or in a copy, and folders are not made.
"""

from __future__ import annotations

import platform
import shutil
import sys
import tempfile
from collections.abc import Iterator
from importlib import metadata
from pathlib import Path

from tutor.app.checkup.check_result import CheckResult, fine, missing, note, wrong
from tutor.app.checkup.graphics_probe import PICTURE, WINDOW, Graphics, probe
from tutor.app.checkup.progress_checks import of_progress
from tutor.app.files.folders import clips_folder, config_folder, data_folder, pictures_folder, state_folder
from tutor.app.files.log import FILE as LOG_FILE
from tutor.app.files.log import version
from tutor.app.files.settings import FILE as SETTINGS_FILE
from tutor.app.files.settings import load_settings
from tutor.solver.store import TableError, default_folder, read_table
from tutor.solver.tables import LARGE_TABLES

NEEDED = (
    "numpy", "pyglet", "pyrr", "msgspec", "rich", "platformdirs", "tomlkit", "pillow",
    "font-source-sans-pro", "font-source-serif-pro",
)  # fmt: skip
"""The packages that the program cannot do without, as in pyproject.toml."""
EXTRAS = {"film": ("av", "MP4 films"), "sheet": ("fpdf2", "PDF sheets")}
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
    yield fine("Pairwright", version())
    yield fine("Python", f"{platform.python_version()}, {sys.executable}")
    yield fine("System", platform.platform())


def of_libraries() -> Iterator[CheckResult]:
    """Versions of the packages needed, and what else could be installed."""
    there = {name: _version(name) for name in NEEDED}
    yield fine("Libraries", ", ".join(f"{name} {found}" for name, found in there.items() if found))
    for name in (name for name, found in there.items() if not found):
        yield wrong(name, f"is not installed; get it with “{_pip()} install {name}”")
    for extra, (name, purpose) in EXTRAS.items():
        if found := _version(name):
            yield fine(f"Extra “{extra}”", f"{name} {found}, for {purpose}")
        else:
            told = f"{name}, for {purpose}, is not installed; if you want it: “{_pip()} install {name}”"
            yield note(f"Extra “{extra}”", told)


def _version(name: str) -> str:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return ""


def _pip() -> str:
    return f"{sys.executable} -m pip"


def of_graphics(window: Graphics, picture: Graphics) -> Iterator[CheckResult]:
    """OpenGL in a window and without one, as probed; where one does not work, what does all the same."""
    drawn, shown = not _problem(picture), not _problem(window)
    rest = "handouts, pictures, films and all other commands" if drawn else "commands that answer in words"
    if window.no_display:
        yield missing("Window", f"{window.problem} Without one {rest} work")
    elif shown:
        yield fine("Window", f"OpenGL {window.version}, {window.renderer}")
    else:
        yield wrong("Window", f"{_problem(window)} Without it {rest} work")
    if drawn:
        yield fine("Pictures and films", f"OpenGL {picture.version}, {picture.renderer}")
    else:
        yield wrong(
            "Pictures and films", f"{_problem(picture)} Without them commands that answer in words work"
        )


def _problem(found: Graphics) -> str:
    """What keeps from drawing, as a sentence; empty when nothing does."""
    if found.problem:
        return f"{found.problem.rstrip('.')}."
    if _numbers(found.version) < (3, 3):
        return f"OpenGL 3.3 is needed; the driver here, {found.renderer}, offers {found.version}."
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
        return wrong("Fonts", str(problem))
    return fine("Fonts", ", ".join(face.value[1] for face in Typeface))


def of_folders() -> Iterator[CheckResult]:
    """Where things are kept, and whether that can be written."""
    for about, folder in (
        ("Settings folder", config_folder()),
        ("State folder", state_folder()),
        ("Progress folder", data_folder()),
        ("Pictures folder", pictures_folder()),
        ("Clips folder", clips_folder()),
        ("Tables folder", default_folder()),
    ):
        yield of_folder(about, folder)


def of_folder(about: str, folder: Path) -> CheckResult:
    """Whether a folder can be written, or, before it is there, made; and whether there is room."""
    nearest = next(each for each in (folder, *folder.parents) if each.exists())
    try:
        # A file without a name, which is gone when it is closed: rights alone do not tell it all.
        with tempfile.TemporaryFile(dir=nearest):
            room = shutil.disk_usage(nearest).free
    except OSError as error:
        what = "it cannot be written" if nearest == folder else f"it cannot be made in {nearest}"
        return wrong(about, f"{folder}: {what} ({error.strerror or error})")
    if room < LITTLE_ROOM:
        return wrong(about, f"{folder}: the disk is nearly full, {room // 2**20} MB are left")
    if nearest != folder:
        return fine(about, f"{folder}: not there yet; it is made when needed")
    return fine(about, f"{folder}: can be written")


def of_tables(folder: Path) -> Iterator[CheckResult]:
    """The tables kept on the disk, every byte checked."""
    about = "Tables"
    files = sorted(folder.glob("*.table"))
    for file in files:
        try:
            read_table(file, file.stem)
        except (OSError, TableError) as error:
            yield wrong(about, f"{file} cannot be used ({error}); it is made again when next needed")
    missing = len(set(LARGE_TABLES) - {file.stem for file in files})
    if missing:
        told = "not made yet" if not files else f"{missing} of {len(LARGE_TABLES)} large ones not made yet"
        yield note(about, f"{told}; the window makes them beside, in about twenty seconds")
        return
    size = sum(file.stat().st_size for file in files) // 2**20
    yield fine(about, f"{len(files)} files, {size} MB")


def of_settings(folder: Path) -> CheckResult:
    """Whether the settings can be used; a copy is looked at, since a damaged file would be set aside."""
    file = folder / SETTINGS_FILE
    if not file.exists():
        return fine("Settings", "the usual ones")
    with tempfile.TemporaryDirectory() as temporary:
        copy = Path(temporary)
        try:
            shutil.copyfile(file, copy / SETTINGS_FILE)
        except OSError as error:
            return wrong("Settings", f"{file} cannot be read ({error.strerror})")
        told = load_settings(copy).notice
    if told:
        return wrong("Settings", f"{file}: {told.split(';')[0].split('. The usual')[0]}")
    return fine("Settings", str(file))


def of_lessons() -> CheckResult:
    """The lessons that come with the program."""
    from tutor.lesson.library import lesson_entries

    try:
        entries = lesson_entries()
    except (OSError, ValueError, ImportError) as error:
        return wrong("Lessons", f"they cannot be read ({error}); install the program anew")
    bad = [f"{entry.name} ({entry.problem})" for entry in entries if entry.problem]
    if bad:
        return wrong("Lessons", f"{', '.join(bad)}: install the program anew")
    return fine("Lessons", f"{len(entries)} come with the program")


def of_log(folder: Path) -> CheckResult:
    """The log, and when it last had something to tell."""
    file = folder / LOG_FILE
    try:
        lines = file.read_text("utf-8", "replace").splitlines()
    except FileNotFoundError:
        return fine("Log", f"{file}: nothing to tell so far")
    except OSError as error:
        return wrong("Log", f"{file} cannot be read ({error.strerror})")
    told = [line for line in lines if " ERROR " in line or " WARNING " in line]
    if not told:
        return fine("Log", f"{file}: nothing to tell so far")
    return note("Log", f"{file}: {len(told)} entries, the latest: {told[-1]}")
