"""What fails beside the session while somebody practises: it is said, and the learner can go on."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest

from tests.screens.practice import sitting
from tests.screens.practice.sitting import DAY, begin, finish, go_on, on_disk, practised_before, sits_down
from tests.session.held import held
from tests.session.pilot import EPOCH, Pilot, Reading
from tutor.app.files.painting import FILE as PAINTING
from tutor.app.files.painting import save_painting
from tutor.app.files.places import PlacesFile
from tutor.app.files.settings import FILE as SETTINGS
from tutor.app.files.settings import save_settings
from tutor.progress.attempt import AttemptRecord
from tutor.screens.practice.state import PRACTICE, RUN, RunPhase
from tutor.session.commands import TellAtFoot
from tutor.solver.search import Solver
from tutor.workers import recorder
from tutor.workers.words import NOTHING_CHOSEN


def fails(*_: Any, **__: Any) -> Any:
    raise RuntimeError("the layer slipped")


@pytest.fixture
def regular(solver: Solver, tmp_path: Path) -> Pilot:
    """Somebody who has practised six cases for ten days; all of them are back by the time of the pilot."""
    practised_before(tmp_path)
    return sits_down(solver, tmp_path)


def test_when_the_first_case_cannot_be_chosen_it_is_said_and_one_can_try_again(
    regular: Pilot, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as broken:
        broken.setattr(recorder, "next_up", fails)
        begin(regular)
        assert RUN.of(regular.session) is None
        assert NOTHING_CHOSEN in regular.view.notice
        assert not PRACTICE.of(regular.session).asked
    begin(regular)
    assert RUN.of(regular.session) is not None
    assert NOTHING_CHOSEN not in regular.view.notice


def test_when_the_next_case_cannot_be_chosen_the_attempt_is_kept_and_one_can_go_on(
    regular: Pilot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    begin(regular)
    finish(regular)
    count = len(on_disk(tmp_path))
    with monkeypatch.context() as broken:
        broken.setattr(recorder, "next_up", fails)
        go_on(regular)
        assert NOTHING_CHOSEN in regular.view.notice
        assert "Saved." in Reading(regular.view).texts
        assert len(on_disk(tmp_path)) == count
    go_on(regular)
    assert RUN.of(regular.session) is not None
    assert held(RUN.of(regular.session)).phase is not RunPhase.OVER
    assert regular.session.screen == "practice"


def test_settings_that_cannot_be_kept_hold_and_the_file_is_named(pilot: Pilot, tmp_path: Path) -> None:
    # A file in the place of the folder refuses the superuser, too.
    folder = tmp_path / "folder"
    folder.write_text("in the way")
    pilot.rewire(save_settings=partial(save_settings, folder))
    before = pilot.session.settings.look.theme
    pilot.press("act:THEME")
    pilot.settle()
    assert pilot.session.settings.look.theme != before
    assert f"The program cannot save what you chose ({folder / SETTINGS}: " in pilot.view.notice


def test_a_painting_and_a_place_that_cannot_be_kept_are_told_once(pupil: Pilot, tmp_path: Path) -> None:
    folder = tmp_path / "folder"
    folder.write_text("in the way")
    pupil.rewire(
        save_painting=lambda _, text: save_painting(folder, text), save_places=PlacesFile(folder).save
    )

    def told(*keys: str) -> str:
        pupil.application.give(TellAtFoot(""))
        pupil.give_keys(*keys)
        pupil.settle()
        return pupil.view.notice

    pupil.press("lesson:0:0:made-pair")
    pupil.settle()
    assert f"cannot save where you left the lessons ({folder}: " in pupil.view.notice
    assert told("enter") == ""
    pupil.press("open:PAINTING")
    assert f"cannot save what you painted ({folder / PAINTING}: " in told("w")
    assert told("r") == ""
    folder.unlink()
    assert told("o") == ""
    folder.joinpath(PAINTING).unlink()
    folder.rmdir()
    folder.write_text("in the way again")
    assert "cannot save what you painted" in told("y")


def test_a_clock_set_back_between_two_attempts_keeps_both_and_their_lengths(
    regular: Pilot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    count = len(on_disk(tmp_path))
    begin(regular)
    first = finish(regular)
    # Both the window's clock on the wall and the one that the schedule looks at.
    regular.rewire(wall=lambda: regular.now + EPOCH - DAY)
    monkeypatch.setattr(sitting, "EPOCH", EPOCH - DAY)
    regular.settle()
    go_on(regular)
    second = finish(regular)
    assert second.case != first.case
    made = on_disk(tmp_path)
    assert len(made) == count + 2
    # In the order of time, by which the second now comes before the first.
    by_run: dict[UUID | None, AttemptRecord] = {}
    by_run |= {run.filed: attempt for run in (first, second) for attempt in made if attempt.uuid == run.filed}
    assert by_run[second.filed].time < by_run[first.filed].time
    assert by_run[first.filed].seconds == first.seconds
    assert by_run[second.filed].seconds == second.seconds
    go_on(regular)
    assert RUN.of(regular.session) is not None
    assert held(RUN.of(regular.session)).case != second.case
