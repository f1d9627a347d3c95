"""From the text of a script to its values: every fault of form found in one go, with its line."""

from __future__ import annotations

import re
import tomllib
import types
from collections.abc import Iterable
from difflib import get_close_matches
from functools import cache
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

import msgspec
from msgspec import NODEFAULT, Struct, field

from tutor.lesson.line_numbers import key_lines, line_of
from tutor.lesson.problems import LessonError, Path, Problem, key_words
from tutor.lesson.script import SCENE_TYPES, LessonScript, SceneScript
from tutor.lesson.words import faults_of_form as words
from tutor.quoting import obeyed

LARGEST_FILE = 64 * 1024
"""Most bytes of a script."""
LONGEST_LINE = 2_000
_ENDS_OF_LINES = re.compile(r"[\r\n\t]")
MOST_PROBLEMS = 100
"""Faults told of one file; a file with more needs no longer list."""

AnyStruct = TypeVar("AnyStruct", bound=Struct)


class Report(Struct):
    """Collects what is wrong with one file, at the lines of the keys concerned."""

    file: str
    text: str = ""
    """The file's content once it is known to be good TOML; its lines are looked for when there is a fault."""
    problems: list[Problem] = field(default_factory=list)

    def add(self, path: Path, message: str, advice: str, *, minor: bool = False) -> None:
        """Note one fault at a key path; a ``minor`` one does not make the lesson wrong."""
        if len(self.problems) < MOST_PROBLEMS:
            line = line_of(key_lines(self.text), path)
            self.problems.append(Problem(self.file, line, key_words(path), message, advice, minor))

    def raise_any(self) -> None:
        """Raise LessonError when anything was noted."""
        if self.problems:
            raise LessonError(self.problems)


class ReadScript(Struct, frozen=True):
    """A script, and the text in which it is written."""

    script: LessonScript
    file: str
    text: str

    def report(self) -> Report:
        """A fresh collector of faults for this file."""
        return Report(self.file, self.text)


def read_script(text: str, file: str) -> ReadScript:
    """The script in ``text``; ``file`` is what it is called in messages.

    Raises LessonError with every fault of form: syntax, unknown and missing keys, values of the wrong kind.
    """
    data, text = _read_toml(text, file), text.replace("\r\n", "\n")
    report = Report(file, text)
    script = _read_struct(LessonScript, data, (), report)
    report.raise_any()
    assert script is not None
    return ReadScript(script, file, text)


def _read_toml(text: str, file: str) -> dict[str, Any]:
    report = Report(file)
    size = len(text.encode("utf-8", errors="replace"))
    if size > LARGEST_FILE:
        report.add((), *words.large_text(size, LARGEST_FILE))
        report.raise_any()
    for number, line in enumerate(text.splitlines(), start=1):
        if len(line) > LONGEST_LINE:
            report.problems.append(Problem(file, number, "", *words.long_line(len(line), LONGEST_LINE)))
    report.raise_any()
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise LessonError([_syntax_problem(text, file, error)]) from None
    except RecursionError:
        raise LessonError([Problem(file, 1, "", *words.TOO_DEEP)]) from None
    except ValueError:
        # A number of thousands of digits is refused by Python itself.
        raise LessonError([Problem(file, 1, "", *words.LONG_NUMBER)]) from None


def _syntax_problem(text: str, file: str, error: tomllib.TOMLDecodeError) -> Problem:
    found = re.search(r" \(at (?:line (\d+), column (\d+)|end of document)\)$", str(error))
    message = str(error)[: found.start()] if found else str(error)
    line = int(found[1]) if found and found[1] else text.count("\n") + 1
    column = found[2] if found and found[2] else ""
    return Problem(file, line, "", *words.not_toml(column, message))


# ----------------------------------------------------------------------------------------- values by type


@cache
def _fields(kind: type[Struct]) -> dict[str, msgspec.structs.FieldInfo]:
    """The fields of a kind of table by their keys; working them out from the annotations is slow."""
    return {info.encode_name: info for info in msgspec.structs.fields(kind)}


def _read_struct(kind: type[AnyStruct], data: object, path: Path, report: Report) -> AnyStruct | None:
    """The values of one table, or None when anything in it was wrong (and noted)."""
    if not isinstance(data, dict):
        report.add(path, *words.other_kind(_kind_of(data), words.A_TABLE))
        return None
    before = len(report.problems)
    fields = _fields(kind)
    tag = kind.__struct_config__.tag_field
    for key in data:
        if key not in fields and key != tag:
            report.add(
                (*path, key), *words.unknown_key(_short(key), _nearest(key, fields), _list(sorted(fields)))
            )
    values: dict[str, Any] = {}
    for key, info in fields.items():
        if key in data:
            values[info.name] = _read_value(info.type, data[key], (*path, key), report)
        elif info.default is NODEFAULT and info.default_factory is NODEFAULT:
            report.add((*path, key), *words.missing_key(key, _example(info.type)))
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
    if isinstance(value, str) and (found := _obeyed(value, path)):
        report.add(path, *words.control_character(found))
        return None
    try:
        return msgspec.convert(value, kind)
    except msgspec.ValidationError:
        report.add(path, *_fault(kind, value))
        return None


def _obeyed(text: str, path: Path) -> str:
    """What a terminal would obey in a text, as an escape; only a title and a goal are a single line."""
    return obeyed(text if path[-1] in ("title", "goal") else _ENDS_OF_LINES.sub(" ", text))


def _read_scene(data: object, path: Path, report: Report) -> SceneScript | None:
    if not isinstance(data, dict):
        report.add(path, *words.other_kind(_kind_of(data), words.A_SCENE))
        return None
    kind = data.get("kind")
    if not isinstance(kind, str) or kind not in SCENE_TYPES:
        known = _list(SCENE_TYPES)
        fault = words.unknown_scene(_short(kind), known) if "kind" in data else words.missing_kind(known)
        report.add((*path, "kind"), *fault)
        return None
    return _read_struct(SCENE_TYPES[kind], data, path, report)


def _check_count(kind: Any, value: list[object], path: Path, report: Report) -> None:
    for meta in _metas(kind):
        if meta.max_length is not None and len(value) > meta.max_length:
            report.add(path, *words.too_many(len(value), meta.max_length))
        if meta.min_length is not None and len(value) < meta.min_length:
            report.add(path, *words.EMPTY_LIST)


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
        return words.not_offered(_short(value), _list(get_args(plain)))
    limits = _metas(kind)
    if isinstance(value, str) and plain is str:
        most = min(meta.max_length for meta in limits if meta.max_length is not None)
        if not value:
            return words.EMPTY_TEXT
        return words.long_text(len(value), most)
    if isinstance(value, int | float) and not isinstance(value, bool) and plain is float:
        least = max(float(meta.ge) for meta in limits if meta.ge is not None)
        most_value = min(float(meta.le) for meta in limits if meta.le is not None)
        return words.out_of_range(_short(value), least, most_value)
    return words.other_kind(_kind_of(value), _wanted(plain))


def _wanted(plain: Any) -> str:
    if plain is bool:
        return words.FLAG
    if plain is float:
        return words.NUMBER
    return words.QUOTED_TEXT if _element(plain) is None else words.BRACKETED_LIST


def _kind_of(value: object) -> str:
    names = {
        bool: words.FLAG,
        str: words.TEXT,
        int: words.NUMBER,
        float: words.NUMBER,
        list: words.LIST,
        dict: words.TABLE,
    }
    return names.get(type(value), words.DATE)


def _example(kind: Any) -> str:
    plain = _plain_type(kind)
    if get_origin(plain) is Literal:
        return f'"{get_args(plain)[0]}"'
    return "[[...]]" if _element(plain) is not None else '"..."'


def _nearest(key: str, names: Iterable[str]) -> str:
    """The key much like one that was written, or nothing."""
    close = get_close_matches(key, list(names), n=1, cutoff=0.6)
    return close[0] if close else ""


def _list(names: Iterable[object]) -> str:
    return ", ".join(f'"{name}"' if name == "" else str(name) for name in names)


def _short(value: object) -> str:
    text = str(value)
    return text if len(text) <= 40 else text[:39] + "…"
