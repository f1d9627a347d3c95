"""Scenes that show turns: one at a time, by themselves, and once more."""

from __future__ import annotations

from tests.screens.lesson.answering import go_to, scene_of
from tests.session.held import held
from tests.session.pilot import Pilot, Reading, rail_of, stage_of
from tutor.lesson.scenes import Show, Tell
from tutor.screens.lesson.state import LESSON
from tutor.session.beats import Phase
from tutor.session.commands import Act
from tutor.ui.inputs import Modifier
from tutor.ui.view import Arrow


def test_a_show_scene_waits_for_the_learner_before_every_turn(pilot: Pilot) -> None:
    scene = go_to(pilot, Show)
    assert isinstance(scene, Show)
    for made, turn in enumerate(scene.turns):
        pilot.wait(60.0)
        assert not pilot.moving
        assert rail_of(pilot).playhead == float(made)
        assert stage_of(pilot).arrow == Arrow(turn)
        pilot.key("space")
        assert pilot.moving
        pilot.wait(0.2)
        assert stage_of(pilot).turning is not None
    pilot.wait(60.0)
    assert stage_of(pilot).colours == scene.end.colours
    # After the last turn Space goes on, as everywhere.
    before = LESSON.of(pilot.session)
    pilot.key("space")
    after = LESSON.of(pilot.session)
    assert before is not None
    assert after is not None
    assert after.scene == before.scene + 1


def test_a_show_scene_can_play_by_itself_with_the_words_of_each_part(pilot: Pilot) -> None:
    scene = go_to(pilot, Show)
    assert isinstance(scene, Show)
    pilot.key("space", Modifier.SHIFT)
    assert pilot.moving
    heard = []
    for _ in range(400):
        for text in Reading(pilot.view).texts:
            if text in [segment.text for segment in scene.segments] and text not in heard:
                heard.append(text)
        pilot.wait(0.1)
    assert heard == [segment.text for segment in scene.segments]
    assert not pilot.moving
    assert pilot.session.demonstration is not None
    assert pilot.session.demonstration.pose(pilot.now).cube == scene.end


def test_going_on_is_the_button_to_press_once_all_turns_were_shown(pilot: Pilot) -> None:
    go_to(pilot, Show, "five-steps")
    while not (shown := held(pilot.session.demonstration)).at_end(pilot.now):
        assert not Reading(pilot.view).button("Go on").primary
        assert [each.primary for each in rail_of(pilot).controls if each.action == Act.STEP_ON] == [True]
        pilot.key("right")
        pilot.wait(60)
    assert shown.seen(pilot.now)
    assert Reading(pilot.view).button("Go on").primary


def test_a_show_scene_can_be_shown_again(pilot: Pilot) -> None:
    go_to(pilot, Show)
    pilot.wait(60.0)
    pilot.key("a")
    assert pilot.moving
    assert rail_of(pilot).playhead == 0.0


def test_turns_are_not_made_where_none_are_asked_for(pilot: Pilot) -> None:
    scene = go_to(pilot, Tell)
    pilot.key("r")
    assert LESSON.of(pilot.session) is not None
    assert held(LESSON.of(pilot.session)).attempt.cube == scene.cube
    assert pilot.view.notice == "This scene needs no turns from you. Press Enter to go on."
    pilot.key("enter")
    assert scene_of(pilot) is not scene


def test_going_step_by_step_a_turn_that_was_made_holds_on_only_where_something_new_is_said(
    pilot: Pilot,
) -> None:
    held_on = turns = 0
    for name, lesson in pilot.lessons.items():
        for index, scene in enumerate(lesson.scenes):
            if not isinstance(scene, Show):
                continue
            pilot.press(f"lesson:{index}:0:{name}")
            pilot.settle()
            while not held(pilot.session.demonstration).at_end(pilot.now):
                before = Reading(pilot.view).texts
                pilot.key("right")
                pilot.wait(60)
                shown = held(pilot.session.demonstration)
                turns += 1
                if shown.beat(pilot.now).phase is Phase.DONE and not shown.at_end(pilot.now):
                    assert Reading(pilot.view).texts != before, (name, index)
                    held_on += 1
    assert 0 < held_on < turns


def test_the_button_that_steps_on_says_what_it_does(pilot: Pilot) -> None:
    scene = go_to(pilot, Show, "five-steps")
    assert isinstance(scene, Show)
    seen = set()
    while not held(pilot.session.demonstration).at_end(pilot.now):
        (button,) = [each for each in rail_of(pilot).controls if each.action == Act.STEP_ON]
        before = held(pilot.session.demonstration).playhead(pilot.now)
        pilot.key("right")
        pilot.wait(60)
        turned = held(pilot.session.demonstration).playhead(pilot.now) > before
        assert button.label == ("Next turn" if turned else "What comes next")
        seen.add(button.label)
    assert len(seen) == 2
