"""The real application put together, without a window."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutor.app.compose import make_application
from tutor.app.files.settings import Loaded
from tutor.session.settings import Settings

SCRIPT = 'title = "Mine"\ngoal = "A goal."\n[[scene]]\nkind = "tell"\ntext = "Hello."\n'


def test_home_says_which_lessons_of_a_teachers_folder_are_not_listed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    for number in range(201):
        (tmp_path / f"club-{number:03}.toml").write_text(SCRIPT, encoding="utf-8")
    application = make_application(Loaded(Settings(), "The settings are the usual ones."), tmp_path)
    said = application.view(0.0)[0].notice
    application.close()
    assert said.startswith("The settings are the usual ones. ")
    assert said.endswith("You see the first 200 by name: 1 is not listed. Move some to another folder.")
