"""What is wrong with a lesson script: each problem with its place and what would be right."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from tutor.lesson.words.faults_found import WARNING
from tutor.quoting import visible


class Problem(Struct, frozen=True):
    """One thing wrong in a script.

    ``file`` as the reader knows it, ``line`` counted from 1, or 0 where no text was read, ``key`` the path of
    keys such as ``scene 3: turns``. ``message`` says what is wrong and ``advice`` what would be right, in
    sentences. A lesson with ``minor`` problems alone is right, but could be better.
    """

    file: str
    line: int
    key: str
    message: str
    advice: str
    minor: bool = False

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        key = f"{self.key}: " if self.key else ""
        return visible(f"{place}: {key}{WARNING if self.minor else ''}{self.message} {self.advice}")


class LessonError(ValueError):
    """A lesson that cannot be used; ``problems`` holds everything found wrong, in the order of lines."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(
            sorted(set(problems), key=lambda problem: (problem.file, problem.line, problem.key))
        )
        super().__init__("\n".join(str(problem) for problem in self.problems))


Path = tuple[str | int, ...]
"""Where a value stands in a script: keys, and places in lists counted from 0."""


def key_words(path: Path) -> str:
    """The path as a person says it: lists counted from 1, for example ``scene 3: answers 1: text``."""
    words: list[str] = []
    for part in path:
        if isinstance(part, int) and words:
            words[-1] += f" {part + 1}"
        else:
            words.append(str(part))
    return ": ".join(words)
