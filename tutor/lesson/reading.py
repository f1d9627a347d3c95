"""From the text of a script to its values: every fault of form found in one go, with its line."""

from __future__ import annotations

import re
import tomllib
import types
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cache
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

import msgspec
from msgspec import NODEFAULT, Struct

from tutor.lesson.line_numbers import key_lines, line_of
from tutor.lesson.problems import LessonError, Path, Problem, key_words
from tutor.lesson.script import SCENE_TYPES, LessonScript, SceneScript

LARGEST_FILE = 64 * 1024
"""Most bytes of a script."""
LONGEST_LINE = 2_000
MOST_PROBLEMS = 100
"""Faults told of one file; a file with more needs no longer list."""

AnyStruct = TypeVar("AnyStruct", bound=Struct)


@dataclass(slots=True)
class Report:
    """Collects what is wrong with one file, at the lines of the keys concerned."""

    file: str
    lines: Mapping[Path, int] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def add(self, path: Path, message: str, advice: str) -> None:
        """Note one fault at a key path."""
        if len(self.problems) < MOST_PROBLEMS:
            line = line_of(self.lines, path)
            self.problems.append(Problem(self.file, line, key_words(path), message, advice))

    def raise_any(self) -> None:
        """Raise LessonError when anything was noted."""
        if self.problems:
            raise LessonError(self.problems)


@dataclass(frozen=True, slots=True)
class ReadScript:
    """A script, and where its keys are written."""

    script: LessonScript
    file: str
    lines: Mapping[Path, int]

    def report(self) -> Report:
        """A fresh collector of faults for this file."""
        return Report(self.file, self.lines)


def read_script(text: str, file: str) -> ReadScript:
    """The script in ``text``; ``file`` is what it is called in messages.

    Raises LessonError with every fault of form: syntax, unknown and missing keys, values of the wrong kind.
    """
    data, lines = _read_toml(text, file)
    report = Report(file, lines)
    script = _read_struct(LessonScript, data, (), report)
    report.raise_any()
    assert script is not None
    return ReadScript(script, file, lines)


def _read_toml(text: str, file: str) -> tuple[dict[str, Any], dict[Path, int]]:
    report = Report(file)
    size = len(text.encode("utf-8", errors="replace"))
    if size > LARGEST_FILE:
        report.add((), f"the file has {size} bytes", f"a script has at most {LARGEST_FILE}")
        report.raise_any()
    for number, line in enumerate(text.splitlines(), start=1):
        if len(line) > LONGEST_LINE:
            report.problems.append(
                Problem(
                    file, number, "", f"this line has {len(line)} characters", f"at most {LONGEST_LINE} fit"
                )
            )
    report.raise_any()
    try:
        data = tomllib.loads(text)
        return data, key_lines(text.replace("\r\n", "\n"))
    except tomllib.TOMLDecodeError as error:
        raise LessonError([_syntax_problem(text, file, error)]) from None
    except RecursionError:
        raise LessonError(
            [
                Problem(
                    file,
                    1,
                    "",
                    "lists or tables stand too deep inside one another",
                    "a script needs three levels",
                )
            ]
        ) from None
    except ValueError:
        # A number of thousands of digits is refused by Python itself.
        raise LessonError([Problem(file, 1, "", "a number is too long", "numbers here are short")]) from None


def _syntax_problem(text: str, file: str, error: tomllib.TOMLDecodeError) -> Problem:
    found = re.search(r" \(at (?:line (\d+), column (\d+)|end of document)\)$", str(error))
    message = str(error)[: found.start()] if found else str(error)
    line = int(found[1]) if found and found[1] else text.count("\n") + 1
    column = f", column {found[2]}" if found and found[2] else ""
    return Problem(
        file,
        line,
        "",
        f"this is not TOML{column}: {message}",
        'write key = "value", one a line, texts in quotes',
    )


# ----------------------------------------------------------------------------------------- values by type


@cache
def _fields(kind: type[Struct]) -> dict[str, msgspec.structs.FieldInfo]:
    """The fields of a kind of table by their keys; working them out from the annotations is slow."""
    return {info.encode_name: info for info in msgspec.structs.fields(kind)}


def _read_struct(kind: type[AnyStruct], data: object, path: Path, report: Report) -> AnyStruct | None:
    """The values of one table, or None when anything in it was wrong (and noted)."""
    if not isinstance(data, dict):
        report.add(path, f"{_kind_of(data)} stands here", "write a table of keys")
        return None
    before = len(report.problems)
    fields = _fields(kind)
    tag = kind.__struct_config__.tag_field
    for key in data:
        if key not in fields and key != tag:
            report.add((*path, key), f"“{_short(key)}” is no key here", _nearest(key, fields))
    values: dict[str, Any] = {}
    for key, info in fields.items():
        if key in data:
            values[info.name] = _read_value(info.type, data[key], (*path, key), report)
        elif info.default is NODEFAULT and info.default_factory is NODEFAULT:
            report.add((*path, key), "this key is missing", f"add {key} = {_example(info.type)}")
    return kind(**values) if len(report.problems) == before else None


def _read_value(kind: Any, value: object, path: Path, report: Report) -> Any:
    inner = _plain_type(kind)
    element = _element(inner)
    if element is not None and isinstance(value, list):
        _check_count(kind, value, path, report)
        read = [
            _read_value(element, item, (*path, n), report) for n, item in enumerate(value[:MOST_PROBLEMS])
        ]
        return tuple(read)
    if _is_scene(inner):
        return _read_scene(value, path, report)
    if isinstance(inner, type) and issubclass(inner, Struct):
        return _read_struct(inner, value, path, report)
    try:
        return msgspec.convert(value, kind)
    except msgspec.ValidationError:
        report.add(path, *_fault(kind, value))
        return None


def _read_scene(data: object, path: Path, report: Report) -> SceneScript | None:
    if not isinstance(data, dict):
        report.add(path, f"{_kind_of(data)} stands here", "begin each scene with [[scene]]")
        return None
    kind = data.get("kind")
    if not isinstance(kind, str) or kind not in SCENE_TYPES:
        message = f"“{_short(kind)}” is no kind of scene" if "kind" in data else "this key is missing"
        report.add((*path, "kind"), message, f"write one of {_list(SCENE_TYPES)}")
        return None
    return _read_struct(SCENE_TYPES[kind], data, path, report)


def _check_count(kind: Any, value: list[object], path: Path, report: Report) -> None:
    for meta in _metas(kind):
        if meta.max_length is not None and len(value) > meta.max_length:
            report.add(path, f"{len(value)} stand here", f"at most {meta.max_length} are possible")
        if meta.min_length is not None and len(value) < meta.min_length:
            report.add(path, "nothing stands here", "write at least one")


# ----------------------------------------------------------------------------------------- types in words


def _plain_type(kind: Any) -> Any:
    """``kind`` without its notes and without None."""
    while get_origin(kind) is Annotated:
        kind = get_args(kind)[0]
    if get_origin(kind) in (Union, types.UnionType):
        members = [member for member in get_args(kind) if member is not type(None)]
        if len(members) == 1:
            return _plain_type(members[0])
    return kind


def _metas(kind: Any) -> list[msgspec.Meta]:
    metas: list[msgspec.Meta] = []
    if get_origin(kind) is Annotated:
        metas += [note for note in get_args(kind)[1:] if isinstance(note, msgspec.Meta)]
        metas += _metas(get_args(kind)[0])
    elif get_origin(kind) in (Union, types.UnionType):
        for member in get_args(kind):
            metas += _metas(member)
    return metas


def _element(kind: Any) -> Any:
    return get_args(kind)[0] if get_origin(kind) is tuple else None


def _is_scene(kind: Any) -> bool:
    members = get_args(kind) if get_origin(kind) in (Union, types.UnionType) else ()
    return bool(members) and all(isinstance(m, type) and issubclass(m, SceneScript) for m in members)


def _fault(kind: Any, value: object) -> tuple[str, str]:
    """What is wrong with a single value, and what would be right."""
    plain = _plain_type(kind)
    if get_origin(plain) is Literal:
        return f"“{_short(value)}” is not possible here", f"write one of {_list(get_args(plain))}"
    limits = _metas(kind)
    if isinstance(value, str) and plain is str:
        most = min(meta.max_length for meta in limits if meta.max_length is not None)
        if not value:
            return "the text is empty", "write something or leave the key out"
        return f"the text has {len(value)} characters", f"at most {most} are possible"
    if isinstance(value, int | float) and not isinstance(value, bool) and plain is float:
        least = max(float(meta.ge) for meta in limits if meta.ge is not None)
        most_value = min(float(meta.le) for meta in limits if meta.le is not None)
        return f"{_short(value)} is out of range", f"write a number from {least:g} to {most_value:g}"
    return f"{_kind_of(value)} stands here", f"write {_wanted(plain)}"


def _wanted(plain: Any) -> str:
    if plain is bool:
        return "true or false"
    if plain is float:
        return "a number"
    if _element(plain) is not None:
        return "a list in square brackets"
    return "a text in quotes"


def _kind_of(value: object) -> str:
    names = {
        bool: "true or false",
        str: "a text",
        int: "a number",
        float: "a number",
        list: "a list",
        dict: "a table",
    }
    return names.get(type(value), "a date or time")


def _example(kind: Any) -> str:
    plain = _plain_type(kind)
    if get_origin(plain) is Literal:
        return f'"{get_args(plain)[0]}"'
    return "[[...]]" if _element(plain) is not None else '"..."'


def _nearest(key: str, names: Iterable[str]) -> str:
    close = get_close_matches(key, list(names), n=1, cutoff=0.6)
    return f"did you mean “{close[0]}”?" if close else f"possible are {_list(sorted(names))}"


def _list(names: Iterable[object]) -> str:
    return ", ".join(f'"{name}"' if name == "" else str(name) for name in names)


def _short(value: object) -> str:
    text = str(value)
    return text if len(text) <= 40 else text[:39] + "…"
