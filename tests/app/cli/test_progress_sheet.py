"""``progress show --png``: the Progress screen of a learner as a file."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image

from tutor.app.cli.command_line import main
from tutor.app.drawing import PAGE_WIDTH, PIXEL_RATIO
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.store import AttemptStore


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with two attempts of an invented learner."""
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path))
    with AttemptStore.open(tmp_path) as store:
        for days, case in ((1, CASES[0]), (0, CASES[30])):
            time = datetime.now(UTC) - timedelta(days=days)
            store.record(
                AttemptRecord(
                    "Ilva", time, case.slug, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 5, 4, 9.0, first_turn=2.0
                )
            )
    return tmp_path


def test_the_screen_of_a_learner_becomes_a_picture(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = home / "ilva.png"
    assert main(["progress", "show", "--learner", "ilva", "--png", str(target)]) == 0
    assert capsys.readouterr().out.strip() == str(target)
    with Image.open(target) as picture:
        assert picture.width == PAGE_WIDTH * PIXEL_RATIO
        assert picture.height > picture.width / 2


@pytest.mark.parametrize(
    ("chosen", "said"),
    [
        (["--png", "ilva.png"], "--learner"),
        (["--learner", "Ilva", "--png", "ilva.jpg"], "must end in .png"),
        (["--learner", "Ilva", "--png", "nowhere/ilva.png"], "there is no folder"),
    ],
)
def test_what_cannot_be_drawn_is_told(
    home: Path,
    chosen: list[str],
    said: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(home)
    assert main(["progress", "show", *chosen]) != 0
    assert said in capsys.readouterr().err
    assert not list(home.glob("*.jpg"))
    assert not list(home.glob("*.png"))


def test_a_picture_that_is_there_stays_unless_it_may_be_replaced(
    home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    target = home / "ilva.png"
    target.write_bytes(b"another")
    assert main(["progress", "show", "--learner", "Ilva", "--png", str(target)]) != 0
    assert target.read_bytes() == b"another"
    assert "--force" in capsys.readouterr().err
    assert main(["progress", "show", "--learner", "Ilva", "--png", str(target), "--force"]) == 0
    assert target.read_bytes().startswith(b"\x89PNG")
