"""The program installed where it has never been, as ``tests/fresh_machine.py`` does it."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tests.fresh_machine import LICENCE, ROOT, USES, commands_of, keys_of, whole

MIT = """
Permission is hereby granted, free of charge, to any person obtaining a copy of this software and
associated documentation files (the "Software"), to deal in the Software without restriction,
including without limitation the rights to use, copy, modify, merge, publish, distribute,
sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is
furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial
portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT
NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND
NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES
OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN
CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.
"""
"""The licence as the Open Source Initiative publishes it (from memory)."""


def test_the_whole_licence_goes_into_wheel_and_source_archive() -> None:
    """That the built wheel has it, ``install`` in ``fresh_machine`` looks up in the wheel itself."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    assert project["project"]["license"] == "MIT"
    assert project["project"]["license-files"] == [LICENCE]
    assert Path(LICENCE).parts[0] in project["tool"]["hatch"]["build"]["targets"]["sdist"]["include"]
    title, copyright_line, *text = (ROOT / LICENCE).read_text("utf-8").split("\n\n", maxsplit=2)
    assert title == "MIT License"
    assert copyright_line == "Copyright (c) 2026 The Pairwright authors"
    assert " ".join(text[0].split()) == " ".join(MIT.split())


@pytest.mark.slow
def test_on_a_fresh_machine_everything_works_and_nothing_is_left_astray(tmp_path: Path) -> None:
    whole(tmp_path / "machine")


def test_a_use_of_every_command_is_known(capsys: pytest.CaptureFixture[str]) -> None:
    from tutor.app.cli.command_line import main

    with pytest.raises(SystemExit):
        main(["--help"])
    assert set(commands_of(capsys.readouterr().out)) == set(USES)


def test_turns_are_typed_as_the_key_sheet_says() -> None:
    assert [keys_of(turn) for turn in ("R", "U'", "F2")] == [("r",), ("U",), ("f", "2")]
