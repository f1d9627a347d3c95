"""When something goes wrong inside: it is told on a card, and the program goes on."""

from __future__ import annotations

import logging
from typing import Any

import pytest

from render.layout.panels import layout
from tests.screens.solve.test_solving import written
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading
from tests.workers.direct import DirectService, Silence
from tutor.app import application
from tutor.screens.free_play import view as free_view
from tutor.screens.free_play.state import FREE
from tutor.session.commands import Advised, Command, TellAtFoot
from tutor.session.house import Session, Update
from tutor.session.update import update
from tutor.ui.inputs import Activated


def fails(*_: Any) -> Any:
    raise RuntimeError("the layer\nslipped")


@pytest.fixture
def broken(pilot: Pilot, monkeypatch: pytest.MonkeyPatch) -> Pilot:
    """A program whose free play cannot be shown."""
    monkeypatch.setattr(free_view, "free_play", fails)
    return pilot


def test_the_card_says_what_happened_and_where_the_log_is(
    pilot: Pilot, caplog: pytest.LogCaptureFixture
) -> None:
    pilot.application.log_place = lambda: "/home/ilva/.local/state/pairwright/pairwright.log"
    pilot.press("open:FREE_PLAY")
    pilot.turn("R U")
    before = FREE.of(pilot.session)
    with caplog.at_level(logging.ERROR):
        pilot.application.failed(RuntimeError("the layer\nslipped"))
    texts = Reading(pilot.view).texts
    assert "RuntimeError: the layer slipped" in texts
    assert "More about it is in the log: /home/ilva/.local/state/pairwright/pairwright.log" in texts
    assert caplog.records[-1].exc_info is not None
    assert FREE.of(pilot.session) == before
    pilot.key("escape")
    assert not pilot.view.overlay
    pilot.turn("F")
    assert len(FREE.of(pilot.session).history.entries) == 3


def test_a_screen_that_cannot_be_made_gives_a_card_with_the_way_home(broken: Pilot) -> None:
    broken.press("open:FREE_PLAY")
    reading = Reading(broken.view)
    assert "RuntimeError: the layer slipped" in reading.texts
    broken.give(Activated(reading.button("Go to Home").action))
    assert broken.session.screen == "home"
    assert not broken.view.overlay


def test_the_way_home_is_found_with_keys_alone(broken: Pilot) -> None:
    broken.press("open:FREE_PLAY")
    for key in ("tab", "tab"):
        assert broken.view.overlay
        broken.key(key)
    assert broken.focus == "open:HOME"
    broken.key("enter")
    assert broken.session.screen == "home"
    assert not broken.view.overlay


def test_going_on_where_it_fails_again_tells_it_again(broken: Pilot) -> None:
    broken.press("open:FREE_PLAY")
    assert broken.view.overlay
    broken.key("escape")
    assert broken.view.overlay


def test_when_the_card_cannot_be_drawn_over_the_screen_it_comes_alone(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.application.failed(RuntimeError("the cube cannot be drawn"))
    assert pilot.view.stage is not None
    pilot.application.failed(RuntimeError("the cube cannot be drawn"))
    assert pilot.view.stage is None
    assert pilot.view.overlay
    pilot.key("escape")
    assert pilot.view.stage is not None
    assert not pilot.view.overlay


@pytest.mark.parametrize("size", [(960, 640), (1280, 800)])
def test_the_card_of_a_screen_that_cannot_be_made_can_be_laid_out(
    broken: Pilot, size: tuple[int, int]
) -> None:
    broken.press("open:FREE_PLAY")
    assert any(action_name(box.action) == "open:HOME" for _, box in layout(broken.view, *size).boxes())


@pytest.mark.parametrize("screen", ["cross", "pairs", "review", "ahead"])
def test_what_could_not_be_worked_out_says_so_and_can_be_asked_again(
    pilot: Pilot, monkeypatch: pytest.MonkeyPatch, screen: str
) -> None:
    advice, asked = pilot.application.services.advice, list[int]()
    assert isinstance(advice, DirectService)

    def dies() -> tuple[Advised, ...]:
        """As when the process that works it out has died of every question."""
        lost = tuple(Advised(request, None) for request, _ in advice.waiting)
        asked.extend(each.request for each in lost)
        advice.waiting.clear()
        return lost

    with monkeypatch.context() as broken:
        broken.setattr(advice, "poll", dies)
        match screen:
            case "cross":
                pilot.press("open:SOLVE")
                pilot.press("act:SCRAMBLE")
            case "pairs":
                written(pilot, "R U R'")
            case "review":
                written(pilot, "U")
                pilot.turn("R R'")
            case "ahead":
                pilot.press("ahead:ANEW")
        pilot.settle()
        reading, count = Reading(pilot.view), len(asked)
        assert any(text.startswith("The program could not work this out.") for text in reading.texts)
        assert not any(text.endswith("…") or text.startswith("One moment") for text in reading.texts)
        pilot.settle()
        assert len(asked) == count > 0, "it is asked for over and over"
    pilot.press(reading.button("Try again").action)
    pilot.settle()
    assert not any(text.startswith("This could not be") for text in Reading(pilot.view).texts)


class TellsThree(Silence):
    """A service with three reports at once, of which the session cannot take in the first."""

    def __init__(self) -> None:
        self.reports = [TellAtFoot(text) for text in ("slips", "second", "third")]

    def poll(self) -> tuple[TellAtFoot, ...]:
        given, self.reports = tuple(self.reports), []
        return given


def test_reports_that_came_with_one_that_fails_are_told_all_the_same(
    pilot: Pilot, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []

    def hears(session: Session, command: Command, now: float) -> Update:
        if isinstance(command, TellAtFoot):
            told.append(command.text)
            if command.text == "slips":
                raise RuntimeError("the layer slipped")
        return update(session, command, now)

    monkeypatch.setattr(application, "update", hears)
    pilot.rewire(answers=TellsThree())
    with pytest.raises(RuntimeError, match="slipped"):
        pilot.application.poll()
    pilot.settle()
    assert told == ["slips", "second", "third"]
    assert pilot.session.notice == "third"
