"""Every text for people lies in a ``words`` module, where a translator finds it.

Found is what reads like English; these do not count, whatever file they are in: names of members of an Enum
(they are read by programs and by the file of settings), names that keys have in the settings, what an error
says that only a mistake in the program raises, and the noun that goes with a number (``counted``).
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.words.catalogues import ROOT, texts_of

PACKAGES = ("screens", "session", "app", "publish", "lesson", "progress", "workers", "coach")
OF_PROGRAMMERS = {"ValueError", "TypeError", "KeyError", "LookupError", "NotImplementedError"}
"""Errors of the language itself: what a person wrote is refused with errors of its own kind."""
NAMES_IN_SETTINGS = {"called", "former", "_SKIP", "_BACK"}
"""Keywords and constants that name a key's action in the file of settings, now and in earlier versions."""

SQL = "SQL"
PAGE = "HTML and CSS of the page; its words come from the catalogue"
STYLE = "names of styles of the terminal"
COMMANDS = "commands to type, as they are"
LOG = "lines of the log, read by programmers"
MARKS = "marks and patterns that a program looks for"
KEYS = "names of keys"
ROOM = "the name of a room, in the settings and for programs"

EXCEPTIONS = {
    "tutor/coach/catalogue.py": "errors of the catalogue itself, for whoever edits it",
    "tutor/app/checkup/checks.py": COMMANDS,
    "tutor/app/checkup/command.py": STYLE,
    "tutor/app/checkup/progress_checks.py": SQL,
    "tutor/app/cli/turns_table.py": STYLE,
    "tutor/app/files/log.py": LOG,
    "tutor/lesson/checker.py": MARKS,
    "tutor/lesson/format_page.py": MARKS,
    "tutor/lesson/questions.py": "an article before the coach's name of a slot",
    "tutor/lesson/reading.py": MARKS,
    "tutor/progress/backup.py": SQL,
    "tutor/progress/course.py": "names of ideas, by which lesson scripts say what they teach",
    "tutor/progress/connection.py": SQL,
    "tutor/progress/learner_rows.py": SQL,
    "tutor/progress/names.py": SQL,
    "tutor/progress/notes.py": SQL,
    "tutor/progress/schema.py": SQL,
    "tutor/progress/progress_file.py": SQL,
    "tutor/progress/store.py": SQL,
    "tutor/publish/extras.py": COMMANDS,
    "tutor/publish/document_html.py": PAGE,
    "tutor/publish/page.py": PAGE,
    "tutor/screens/board/keys.py": KEYS,
    "tutor/screens/case_book/commands.py": ROOM,
    "tutor/screens/case_book/state.py": "the name of a holder",
    "tutor/screens/free_play/commands.py": ROOM,
    "tutor/screens/group/state.py": "the names of holders",
    "tutor/screens/lesson/keys.py": KEYS,
    "tutor/screens/lesson/state.py": "the name of a holder",
    "tutor/screens/lesson/telling.py": "an error that no script can cause",
    "tutor/screens/looking_ahead/commands.py": ROOM,
    "tutor/screens/painting/keys.py": "names of painting's keys in the settings",
    "tutor/screens/solve/saved.py": "the first line of a file, read by programs",
    "tutor/session/keys.py": "names of keys, and those that actions had in earlier settings",
}
"""Files that have such texts all the same, and what they are."""


def outside(path: Path) -> Iterator[tuple[int, str]]:
    """Line and text of what reads like English in a module and is not excused by what it is used for."""
    excused = set(_excused(ast.parse(path.read_text("utf-8"))))
    yield from sorted((line, text) for line, text in texts_of(path) if line not in excused)


def _excused(tree: ast.AST) -> Iterator[int]:
    """The lines of members of an Enum, of errors of the language, of names in settings, and of nouns."""
    for node in ast.walk(tree):
        match node:
            case ast.ClassDef(bases=bases, body=body) if any(_last(base).endswith("Enum") for base in bases):
                for member in (each for each in body if isinstance(each, ast.Assign)):
                    yield from _lines(member)
            case ast.Raise(exc=ast.Call(func=error)) if _last(error) in OF_PROGRAMMERS:
                yield from _lines(node)
            case ast.keyword(arg=name) if name in NAMES_IN_SETTINGS:
                yield from _lines(node.value)
            case ast.Call(func=ast.Name(id="counted"), args=[_, noun, *_]):
                yield from _lines(noun)
            case _:
                pass


def _last(node: ast.expr) -> str:
    """The last part of a dotted name."""
    return node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""


def _lines(node: ast.stmt | ast.expr) -> range:
    return range(node.lineno, (node.end_lineno or node.lineno) + 1)


def modules() -> list[Path]:
    """All modules of the packages but the catalogues."""
    found = (path for name in PACKAGES for path in sorted((ROOT / "tutor" / name).rglob("*.py")))
    return [path for path in found if path.name != "words.py" and "words" not in path.parent.parts]


def test_no_text_for_people_lies_outside_the_catalogues() -> None:
    assert len(modules()) > 200
    named = {str(path.relative_to(ROOT)): path for path in modules()}
    found = {name: list(outside(path)) for name, path in named.items() if name not in EXCEPTIONS}
    assert {name: texts for name, texts in found.items() if texts} == {}


@pytest.mark.parametrize("name", EXCEPTIONS)
def test_every_exception_is_still_needed(name: str) -> None:
    assert list(outside(ROOT / name))


def test_a_text_for_people_in_other_code_is_found(tmp_path: Path) -> None:
    module = tmp_path / "view.py"
    module.write_text(
        "class Way(Enum):\n    BACK = 'go back to it'\n"
        "def f(n):\n    raise ValueError('no such thing here')\n"
        "def g(n):\n    raise NameTaken('this name is taken')\n"
        "x = Text('Turn the top layer.')\n"
        "y = counted(3, 'extra turn')\n",
        "utf-8",
    )
    assert list(outside(module)) == [(6, "this name is taken"), (7, "Turn the top layer.")]
