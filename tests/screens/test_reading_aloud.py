"""What is read aloud, and when: by the application itself, with a listener in place of the speech."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.session.pilot import Pilot, Reading
from tutor.lesson.scenes import Ask, Quiz, Show
from tutor.screens.reading_aloud import new_sentences
from tutor.session.commands import Act, Command


class Listener:
    """Hears everything that is to be said."""

    def __init__(self) -> None:
        self.heard: list[str] = []

    def say(self, text: str) -> None:
        self.heard.append(text)

    def after(self, pupil: Pilot, *keys: str) -> str:
        """What is said last once these keys are pressed and a frame is drawn."""
        for key in keys:
            pupil.key(key)
            pupil.settle()
            assert pupil.view.title
        return self.heard[-1] if self.heard else ""

    def forget_faults(self) -> None:
        pass

    def poll(self) -> Sequence[Command]:
        return ()

    def close(self) -> None:
        pass


@pytest.fixture
def listener(pupil: Pilot) -> Listener:
    listening = Listener()
    pupil.rewire(speech=listening)
    return listening


@pytest.mark.parametrize(
    ("before", "now", "new"),
    [
        ((), ("a", "b"), ("a", "b")),
        (("a",), ("a", "b"), ("b",)),
        (("a", "b"), ("a", "c"), ("c",)),
        (("a", "b"), ("a",), ()),
        (("a", "b"), ("c", "b"), ("c", "b")),
    ],
)
def test_a_card_that_changes_is_read_from_what_is_new(
    before: tuple[str, ...], now: tuple[str, ...], new: tuple[str, ...]
) -> None:
    assert new_sentences(before, now) == new


def test_nothing_is_read_before_one_asks_for_it(pupil: Pilot, listener: Listener) -> None:
    pupil.scene(Ask)
    assert listener.after(pupil, "h") == ""
    assert listener.heard == []


def test_the_card_then_the_hint_and_the_verdict_are_read(pupil: Pilot, listener: Listener) -> None:
    scene = pupil.scene(Ask)
    assert listener.after(pupil, "f9").startswith(f"{scene.text} ")
    assert pupil.session.settings.read_aloud
    # The hint alone comes next, and then the verdict on a turn in its place.
    hint = listener.after(pupil, "h")
    assert hint == Reading(pupil.view).texts[-1]
    assert hint not in scene.text
    verdict = listener.after(pupil, "b")
    (note,) = Reading(pupil.view).verdicts
    # What was asked is asked again, above the verdict.
    assert verdict.startswith(f"Your turn: bring the pair into its slot. {note.title}. {note.text}")
    assert note.title == "B: Detour"
    assert listener.after(pupil, "f9") == ""
    heard = len(listener.heard)
    listener.after(pupil, "h")
    assert len(listener.heard) == heard


def test_answers_to_choose_are_read_with_their_keys(pupil: Pilot, listener: Listener) -> None:
    scene = pupil.scene(Quiz)
    said = listener.after(pupil, "f9")
    assert said.startswith(f"{scene.text} 1: ")
    assert " 2: " in said


def test_what_is_no_longer_on_the_card_is_stopped(pupil: Pilot, listener: Listener) -> None:
    pupil.scene(Ask)
    assert listener.after(pupil, "f9")
    pupil.press(Act.HOME)
    assert pupil.view.screen == "home"
    assert listener.heard[-1] == ""


def test_turns_that_are_shown_stay_until_their_sentences_are_heard(pupil: Pilot, listener: Listener) -> None:
    pupil.scene(Show)
    shown = pupil.session.demonstration
    listener.after(pupil, "f9")
    heard = pupil.session.demonstration
    assert shown is not None
    assert heard is not None
    assert shown.readings is not None
    assert heard.readings is not None
    for read, spoken in zip(shown.readings, heard.readings, strict=True):
        assert read is not None
        assert spoken is not None
        assert spoken.before > read.before


def test_more_has_a_button_for_it(pupil: Pilot, listener: Listener) -> None:
    pupil.key("f10")
    assert Reading(pupil.view).button("Read aloud").action is Act.READ_ALOUD
    pupil.press(Act.READ_ALOUD)
    pupil.key("f10")
    assert Reading(pupil.view).button("Stop reading aloud").key == "F9"
