from pathlib import Path

import pytest

from tutor.app.files.settings import FILE, save_settings
from tutor.app.start import first_theme
from tutor.session.looks import THEMES
from tutor.session.settings import Settings
from tutor.ui.view import Look


@pytest.mark.parametrize("theme", THEMES)
def test_the_empty_window_has_the_chosen_theme(tmp_path: Path, theme: str) -> None:
    save_settings(tmp_path, Settings(look=Look(theme=theme)))
    assert first_theme(tmp_path) == theme


@pytest.mark.parametrize(
    "content",
    [b"", b"look = 3", b"[look]\ntheme = 4", b"[look]\ntheme = 'pink'", b"\xff", b"a = " + b"[" * 999],
)
def test_settings_that_cannot_be_used_give_the_usual_theme(tmp_path: Path, content: bytes) -> None:
    (tmp_path / FILE).write_bytes(content)
    assert first_theme(tmp_path) == "light"


def test_without_settings_the_empty_window_has_the_usual_theme(tmp_path: Path) -> None:
    assert first_theme(tmp_path) == "light"
