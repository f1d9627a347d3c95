from __future__ import annotations

from pathlib import Path

import pytest

from tutor.app.files import folders


def test_files_go_to_a_persons_own_folders(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path))
    assert folders.pictures_folder() == tmp_path / "pictures"
    assert folders.clips_folder() == tmp_path / "clips"
    # Freedesktop's xdg-user-dirs: these variables and ~/.config/user-dirs.dirs name a person's folders.
    monkeypatch.delenv("PAIRWRIGHT_HOME")
    monkeypatch.setenv("XDG_PICTURES_DIR", str(tmp_path / "Bilder"))
    monkeypatch.setenv("XDG_VIDEOS_DIR", str(tmp_path / "Videos"))
    assert folders.pictures_folder() == tmp_path / "Bilder" / "Pairwright"
    assert folders.clips_folder() == tmp_path / "Videos" / "Pairwright"
