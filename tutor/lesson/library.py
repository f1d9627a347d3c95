"""The library: the lessons that come with the program, in the curriculum's order, and a teacher's own."""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Iterable
from functools import cache
from importlib import resources
from itertools import accumulate, takewhile
from pathlib import Path

from msgspec import Struct, convert
from msgspec.structs import replace

import lessons
from tutor.cube.position import Slot
from tutor.lesson.assembly import LessonSetting, assemble
from tutor.lesson.problems import LessonError, Problem
from tutor.lesson.reading import LARGEST_FILE, ReadScript, read_script
from tutor.lesson.scene_start import unsolved
from tutor.lesson.scenes import Lesson
from tutor.lesson.script import ASKING, SceneScript
from tutor.lesson.variation import Facing
from tutor.lesson.words import faults_of_form as words
from tutor.plain_file import read_plain

SUFFIX = ".toml"
CURRICULUM = "curriculum.toml"
MOST_LESSONS = 200
"""Most scripts listed from a teacher's folder."""
MOST_BYTES = 2**20
"""Most bytes read for the list, since whoever opens the window waits for it."""
_CASE = re.compile(r'^case = "([^"]+)"$', re.MULTILINE)
_START = re.compile(r'^(case|setup|slot) = "([^"]*)"$', re.MULTILINE)
_TURNING = re.compile(r'^kind = "(?:show|ask|alone)"$', re.MULTILINE)
_ASKING = re.compile(r'^kind = "(?:ask|alone|find|choose)"$', re.MULTILINE)


class LessonEntry(Struct, frozen=True):
    """A lesson in the list; ``problem`` says why it cannot be opened, empty when it can be read."""

    name: str
    title: str
    goal: str
    problem: str = ""
    group: str = ""
    """The heading of the curriculum it stands under; empty for a lesson of one's own."""
    start: SceneScript | None = None
    """Where the scene in its small picture starts; None where no scene has a cube that is not solved."""
    tasks: int = 0
    """How many scenes ask something of the learner."""


class Taught(Struct, frozen=True):
    """The ideas of a lesson, and the cases that its scenes name: all, and those that are turned at once."""

    ideas: tuple[str, ...]
    named: tuple[str, ...]
    turned: tuple[str, ...]


class LessonList(Struct, frozen=True):
    """The lessons to choose from; ``left_out`` says which scripts of the folder are not among them, or why
    the folder itself cannot be read, and is empty when all is there."""

    entries: tuple[LessonEntry, ...]
    left_out: str = ""


def lesson_names(folder: Path | None = None) -> tuple[str, ...]:
    """The names of all lessons: the curriculum in its order, then those of a teacher's folder by name.

    A script in the folder with the name of a lesson of the curriculum takes its place.
    """
    return _all_names(_own_scripts(folder)[0])


def _all_names(own: Iterable[str]) -> tuple[str, ...]:
    known = curriculum_names()
    return known + tuple(name for name in own if name not in known)


def curriculum_names() -> tuple[str, ...]:
    """The lessons that come with the program, in the order of the curriculum."""
    return tuple(curriculum_groups())


def curriculum_groups() -> dict[str, str]:
    """The lessons that come with the program, in their order, each with the heading it stands under."""
    data = tomllib.loads(resources.files(lessons).joinpath(CURRICULUM).read_text(encoding="utf-8"))
    return {str(entry["name"]): str(entry["group"]) for entry in data["lesson"]}


def lesson_list(folder: Path | None = None) -> LessonList:
    """Name, title and goal of every lesson, in the order of ``lesson_names``.

    A script that cannot be read is listed with why. The folder is looked through once.
    """
    own, left_out = _own_scripts(folder)
    groups = curriculum_groups()
    entries = (
        _own_entry(own[name]) if name in own else _shipped_entry(name)
        for name in (*groups, *(name for name in own if name not in groups))
    )
    return LessonList(tuple(replace(each, group=groups.get(each.name, "")) for each in entries), left_out)


def lesson_entries(folder: Path | None = None) -> tuple[LessonEntry, ...]:
    """The entries of ``lesson_list``."""
    return lesson_list(folder).entries


def curriculum_facing() -> dict[str, Facing]:
    """For each lesson that comes with the program, where the slot faces while it is learnt."""
    data = tomllib.loads(resources.files(lessons).joinpath(CURRICULUM).read_text(encoding="utf-8"))
    return {str(entry["name"]): Facing(entry.get("facing", "")) for entry in data["lesson"]}


def load_facing_lesson(name: str, setting: LessonSetting, folder: Path | None = None) -> Lesson:
    """The lesson as a learner plays it: in early lessons the whole cube is turned so that the slot faces you.

    A teacher's own lesson is played as written, and so is one that was carried to another slot on purpose.
    """
    own = name.endswith(SUFFIX) or _own_script(name, folder) is not None
    written = own or setting.variation.quarters % 4
    facing = Facing.AS_WRITTEN if written else curriculum_facing().get(name, Facing.AS_WRITTEN)
    return load_lesson(name, replace(setting, facing=facing), folder)


def load_lesson(name: str, setting: LessonSetting, folder: Path | None = None) -> Lesson:
    """The lesson of this name, or of the script at this path, ready to be played.

    Raises LessonError with everything wrong.
    """
    read = find_script(name, folder)
    return assemble(read, Path(name).stem, setting)


def find_script(name: str, folder: Path | None = None) -> ReadScript:
    """The script of this name in the folder or the curriculum, or at this path when it ends in .toml.

    Raises LessonError when there is none or when its form is wrong.
    """
    own = _own_script(name, folder)
    if own is not None:
        return _read_own(own)
    if name.endswith(SUFFIX):
        return read_file(Path(name))
    if name in curriculum_names():
        file = f"{name}{SUFFIX}"
        return read_script(resources.files(lessons).joinpath(file).read_text(encoding="utf-8"), file)
    raise LessonError([Problem(name, 0, "", *words.no_such_lesson(lesson_names(folder)))])


def read_file(path: Path) -> ReadScript:
    """The script in a file.

    Raises LessonError when it cannot be opened, is too large, is not text, or when its form is wrong.
    """
    try:
        # One byte more than allowed is enough to know that a file is too large, however large it is.
        content = read_plain(path, LARGEST_FILE + 1)
    except OSError as error:
        # On Windows a folder is refused like a file that one may not read.
        folder = isinstance(error, IsADirectoryError | PermissionError) and path.is_dir()
        fault = words.A_FOLDER if folder else words.unreadable_file(str(error.strerror))
        raise LessonError([Problem(str(path), 0, "", *fault)]) from None
    if len(content) > LARGEST_FILE:
        raise LessonError([Problem(str(path), 0, "", *words.large_file(LARGEST_FILE))])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise LessonError([Problem(str(path), line, "", *words.NOT_TEXT)]) from None
    return read_script(text, str(path))


def _own_scripts(folder: Path | None) -> tuple[dict[str, Path], str]:
    """The scripts to list from a folder, sorted by name, and a sentence about those that are left out."""
    if folder is None:
        return {}, ""
    try:
        with os.scandir(folder) as found:
            files = [
                entry.name
                for entry in found
                if _is_script(entry.name) and not entry.is_dir(follow_symlinks=False)
            ]
    except FileNotFoundError:
        return {}, ""
    except OSError as error:
        return {}, words.folder_unreadable(str(folder), str(error.strerror))
    first = [folder / file for file in sorted(files, key=_name_of)[:MOST_LESSONS]]
    read = takewhile(lambda total: total <= MOST_BYTES, accumulate(map(_bytes_read, first)))
    own = {_name_of(path.name): path for path, _ in zip(first, read, strict=False)}
    more = len(files) > len(own)
    return own, words.more_than_listed(str(folder), len(files), len(own)) if more else ""


def _bytes_read(path: Path) -> int:
    """How many bytes of a script are read for the list, at most."""
    try:
        return min(path.stat().st_size, LARGEST_FILE)
    except OSError:
        return 0


def _is_script(file: str) -> bool:
    """Whether a file of this name is a lesson's: hidden ones, such as an editor leaves behind, are none."""
    return file.lower().endswith(SUFFIX) and not file.startswith(".") and file != CURRICULUM


def _name_of(file: str) -> str:
    return file.removesuffix(SUFFIX)


def _own_script(name: str, folder: Path | None) -> Path | None:
    """The script of this name in the folder, listed or not; None when there is none."""
    if folder is None or not name or name != Path(name).name:
        return None
    for file in (f"{name}{SUFFIX}", name):
        # A name that still has the ending belongs to a file named oddly, which is told when it is read.
        if _is_script(file) and _name_of(file) == name and (folder / file).is_file():
            return folder / file
    return None


def _read_own(path: Path) -> ReadScript:
    """A script of a teacher's folder. Raises LessonError, also when the file is named oddly."""
    stem = _name_of(path.name)
    if not stem.lower().endswith(SUFFIX):
        return read_file(path)
    while stem.lower().endswith(SUFFIX):
        stem = stem[: -len(SUFFIX)]
    raise LessonError([Problem(str(path), 0, "", *words.oddly_named(SUFFIX, f"{stem}{SUFFIX}"))])


def _own_entry(path: Path) -> LessonEntry:
    name = _name_of(path.name)
    try:
        script = _read_own(path).script
    except LessonError as error:
        return LessonEntry(name, name, "", str(error.problems[0]))
    tasks = sum(isinstance(scene, ASKING) for scene in script.scene)
    return LessonEntry(name, script.title, script.goal, start=pictured(script.scene), tasks=tasks)


def pictured(scenes: Iterable[SceneScript]) -> SceneScript | None:
    """Where the scene starts that stands for a lesson in a small picture, with the slot it is about.

    That is the first case that a scene names, at the front right as all cases are shown small. Where none is
    named, it is the first cube of which what the scene is about is not solved.
    """
    other, slot = None, None
    for scene in scenes:
        slot = scene.slot or slot
        if scene.case:
            return SceneScript(text="", case=scene.case, slot=Slot.FR.name)
        if other is None and unsolved(scene, slot):
            other = SceneScript(text="", setup=scene.setup, stickers=scene.stickers, slot=slot)
    return other


@cache
def taught(name: str) -> Taught:
    """What a lesson that comes with the program teaches, looked up in its text without reading all of it."""
    text = resources.files(lessons).joinpath(f"{name}{SUFFIX}").read_text(encoding="utf-8")
    head, *scenes = text.split("\n[[scene]]")
    found = [(scene, case[1]) for scene in scenes if (case := _CASE.search(scene)) is not None]
    turned = tuple(case for scene, case in found if _TURNING.search(scene))
    ideas = tuple(map(str, tomllib.loads(head).get("ideas", ())))
    return Taught(ideas, tuple(case for _, case in found), turned)


def _shipped_entry(name: str) -> LessonEntry:
    """A lesson that comes with the program, which is known to be right: only its head is read as TOML.

    In TOML the keys of a file itself stand before its first table, so the text up to there is a whole file.
    Of the scenes two things are looked up in the text, since reading all of them would delay the start.
    """
    text = resources.files(lessons).joinpath(f"{name}{SUFFIX}").read_text(encoding="utf-8")
    first, *scenes = text.split("\n[[scene]]")
    head = tomllib.loads(first)
    starts = (convert({"text": " ", **dict(_START.findall(scene))}, SceneScript) for scene in scenes)
    return LessonEntry(
        name,
        str(head["title"]),
        str(head["goal"]),
        start=pictured(starts),
        tasks=len(_ASKING.findall(text)),
    )
