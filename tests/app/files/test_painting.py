from pathlib import Path

import pytest

from tutor.app.files.painting import FILE, load_painting, save_painting


def test_a_painting_comes_back_as_it_was_kept(tmp_path: Path) -> None:
    text = "U: yyy yyy yyy\nD: ... .w. ..."
    save_painting(tmp_path / "new", text)
    assert load_painting(tmp_path / "new") == text
    assert [path.name for path in (tmp_path / "new").iterdir()] == [FILE]


@pytest.mark.parametrize("content", [b"\xff\xfe", b""])
def test_a_file_that_is_no_text_counts_as_none(tmp_path: Path, content: bytes) -> None:
    (tmp_path / FILE).write_bytes(content)
    assert load_painting(tmp_path) == ""


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(OSError, match=FILE):
        save_painting(tmp_path / "file", "U:")
    assert load_painting(tmp_path / "file") == ""
