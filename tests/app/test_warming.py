import pytest

from tutor.app import warming
from tutor.app.warming import Warming


@pytest.mark.parametrize(("seconds", "pieces"), [(0.0, [1, 2, 3]), (3600.0, [3])])
def test_a_piece_ends_with_the_first_module_past_its_time(
    monkeypatch: pytest.MonkeyPatch, seconds: float, pieces: list[int]
) -> None:
    brought: list[str] = []
    monkeypatch.setattr(warming, "import_module", brought.append)
    monkeypatch.setattr(warming, "PIECE", seconds)
    going, counts = Warming(("one", "two", "three")), []
    while going.go_on():
        counts.append(len(brought))
    assert counts == pieces
    assert brought == ["one", "two", "three"]
