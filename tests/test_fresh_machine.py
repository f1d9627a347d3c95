"""The program installed where it has never been, as ``tests/fresh_machine.py`` does it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fresh_machine import USES, commands_of, keys_of, whole


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
