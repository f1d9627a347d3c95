"""The library: the lessons that come with the program, in the curriculum's order, and a teacher's own."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

import lessons
from tutor.lesson.problems import LessonError, Problem

if TYPE_CHECKING:
    from tutor.lesson.assemble import Setting
    from tutor.lesson.reading import ReadScript
    from tutor.lesson.resolve import Lesson

SUFFIX = ".toml"
CURRICULUM = "curriculum.toml"
MOST_LESSONS = 200
"""Most scripts taken from a teacher's folder."""


@dataclass(frozen=True, slots=True)
class LessonEntry:
    """A lesson in the list; ``problem`` tells why it cannot be opened, empty when it can be read."""

    name: str
    title: str
    goal: str
    problem: str = ""


def lesson_names(folder: Path | None = None) -> tuple[str, ...]:
    """The names of all lessons: the curriculum in its order, then those of a teacher's folder by name.

    A script in the folder with the name of a lesson of the curriculum takes its place.
    """
    known = curriculum_names()
    return known + tuple(name for name in _folder_names(folder) if name not in known)


def curriculum_names() -> tuple[str, ...]:
    """The lessons that come with the program, in the order of the curriculum."""
    data = tomllib.loads(resources.files(lessons).joinpath(CURRICULUM).read_text(encoding="utf-8"))
    return tuple(str(entry["name"]) for entry in data["lesson"])


def lesson_entries(folder: Path | None = None) -> tuple[LessonEntry, ...]:
    """Name, title and goal of every lesson, for a list; a script that cannot be read is listed with why."""
    return tuple(_entry(name, folder) for name in lesson_names(folder))


def load_lesson(name: str, setting: Setting, folder: Path | None = None) -> Lesson:
    """The lesson of this name, or of the script at this path, ready to be played.

    Raises LessonError with everything wrong.
    """
    # Assembling and reading are imported when a lesson is opened: the list of lessons needs neither.
    from tutor.lesson.assemble import assemble

    read = find_script(name, folder)
    return assemble(read, Path(name).stem, setting)


def find_script(name: str, folder: Path | None = None) -> ReadScript:
    """The script of this name in the folder or the curriculum, or at this path when it ends in .toml.

    Raises LessonError when there is none or when its form is wrong.
    """
    from tutor.lesson.reading import read_script

    if name.endswith(SUFFIX):
        return read_file(Path(name))
    if name in _folder_names(folder) and folder is not None:
        return read_file(folder / f"{name}{SUFFIX}")
    if name in curriculum_names():
        file = f"{name}{SUFFIX}"
        return read_script(resources.files(lessons).joinpath(file).read_text(encoding="utf-8"), file)
    advice = f"lessons are {', '.join(lesson_names(folder))}"
    raise LessonError([Problem(name, 1, "", "there is no lesson of this name", advice)])


def read_file(path: Path) -> ReadScript:
    """The script in a file.

    Raises LessonError when it cannot be opened, is too large, is not text, or when its form is wrong.
    """
    from tutor.lesson.reading import LARGEST_FILE, read_script

    try:
        with path.open("rb") as file:
            # One byte more than allowed is enough to know that a file is too large, however large it is.
            content = file.read(LARGEST_FILE + 1)
    except OSError as error:
        message = f"the file cannot be read: {error.strerror}"
        raise LessonError(
            [Problem(str(path), 1, "", message, "check its name and who may read it")]
        ) from None
    if len(content) > LARGEST_FILE:
        advice = f"a script has at most {LARGEST_FILE} bytes"
        raise LessonError([Problem(str(path), 1, "", "the file is too large", advice)])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        problem = Problem(str(path), line, "", "this is not UTF-8 text", "save the file as UTF-8")
        raise LessonError([problem]) from None
    return read_script(text, str(path))


def _folder_names(folder: Path | None) -> tuple[str, ...]:
    if folder is None or not folder.is_dir():
        return ()
    files = [path for path in folder.glob(f"*{SUFFIX}") if path.is_file() and path.name != CURRICULUM]
    return tuple(sorted(path.stem for path in files)[:MOST_LESSONS])


def _entry(name: str, folder: Path | None) -> LessonEntry:
    if name not in _folder_names(folder):
        return _shipped_entry(name)
    try:
        script = find_script(name, folder).script
    except LessonError as error:
        return LessonEntry(name, name, "", str(error.problems[0]))
    return LessonEntry(name, script.title, script.goal)


def _shipped_entry(name: str) -> LessonEntry:
    """A lesson that comes with the program, which is known to be right: only its head is read.

    In TOML the keys of a file itself stand before its first table, so the text up to there is a whole file.
    """
    text = resources.files(lessons).joinpath(f"{name}{SUFFIX}").read_text(encoding="utf-8")
    head = tomllib.loads(text.partition("\n[[scene]]")[0])
    return LessonEntry(name, str(head["title"]), str(head["goal"]))
