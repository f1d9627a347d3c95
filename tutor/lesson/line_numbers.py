"""Lines of a TOML text: where each key and each list element is written.

TOML is read by the standard library, which forgets the lines. This scanner only walks over a text already
known to be good TOML (https://toml.io/en/v1.0.0) and notes on which line every key path begins.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import lru_cache

from tutor.lesson.problems import Path

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_KEY = re.compile(r"""[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'""")
_STRING = re.compile(
    r'"""(?:[^"\\]|\\[\s\S]|"(?!""))*"{3,5}' r"|'''[\s\S]*?'{3,5}" r'|"(?:[^"\\\n]|\\.)*"' r"|'[^'\n]*'"
)
_SCALAR = re.compile(r"[^,\]}\s#]+(?: [0-9][^,\]}\s#]*)?")


@lru_cache(maxsize=2)
def key_lines(text: str) -> dict[Path, int]:
    """The line, counted from 1, of every table, key and list element in ``text``, which must be good TOML."""
    return _Scanner(text).lines


def line_of(lines: Mapping[Path, int], path: Path) -> int:
    """The line of ``path``, or of the nearest thing around it that is written."""
    for end in range(len(path), 0, -1):
        if path[:end] in lines:
            return lines[path[:end]]
    return 1


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.lines: dict[Path, int] = {}
        self._counts: dict[Path, int] = {}
        self._line, self._counted_to = 1, 0
        table: Path = ()
        self._skip(_BLANK)
        while self.at < len(text):
            if text[self.at] == "[":
                table = self._header()
            else:
                self._entry(table)
            self._skip(_BLANK)

    def _skip(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self.text, self.at)
        if found is None:
            raise ValueError(f"no TOML at character {self.at}")
        self.at = found.end()
        return found[0]

    def _note(self, path: Path) -> None:
        self._line += self.text.count("\n", self._counted_to, self.at)
        self._counted_to = self.at
        self.lines.setdefault(path, self._line)

    def _dotted(self) -> tuple[str, ...]:
        parts = []
        while True:
            self._skip(_SPACE)
            parts.append(_plain(self._skip(_KEY)))
            self._skip(_SPACE)
            if self.text[self.at] != ".":
                return tuple(parts)
            self.at += 1

    def _header(self) -> Path:
        """A table's header; what a path means depends on the lists of tables opened before it."""
        opening = self.at
        several = self.text.startswith("[[", self.at)
        self.at += 2 if several else 1
        names = self._dotted()
        after, self.at = self.at + (2 if several else 1), opening
        path: Path = ()
        for depth, name in enumerate(names, start=1):
            path = (*path, name)
            self._note(path)
            if several and depth == len(names):
                self._counts[path] = self._counts.get(path, -1) + 1
            if path in self._counts:
                path = (*path, self._counts[path])
                self._note(path)
        self.at = after
        return path

    def _entry(self, table: Path) -> None:
        start = self.at
        names = self._dotted()
        after, self.at = self.at, start
        for depth in range(1, len(names) + 1):
            self._note((*table, *names[:depth]))
        self.at = after + 1
        self._value((*table, *names))

    def _value(self, path: Path) -> None:
        self._skip(_SPACE)
        opening = self.text[self.at]
        if opening == "[":
            self._array(path)
        elif opening == "{":
            self._inline(path)
        elif opening in "\"'":
            self._skip(_STRING)
        else:
            self._skip(_SCALAR)

    def _array(self, path: Path) -> None:
        self.at += 1
        count = 0
        self._skip(_BLANK)
        while self.text[self.at] != "]":
            self._note((*path, count))
            self._value((*path, count))
            count += 1
            self._skip(_BLANK)
            if self.text[self.at] == ",":
                self.at += 1
                self._skip(_BLANK)
        self.at += 1

    def _inline(self, path: Path) -> None:
        self.at += 1
        self._skip(_BLANK)
        while self.text[self.at] != "}":
            self._entry(path)
            self._skip(_BLANK)
            if self.text[self.at] == ",":
                self.at += 1
                self._skip(_BLANK)
        self.at += 1


def _plain(key: str) -> str:
    if key[0] not in "\"'":
        return key
    return next(iter(tomllib.loads(f"{key} = 0")))
