"""The five steps on rail and card while a lesson is played."""

from __future__ import annotations

from itertools import takewhile

import pytest

from tests.screens.lesson.answering import go_to, solve
from tests.session.held import held
from tests.session.pilot import Pilot, Reading, rail_of
from tutor.cube.notation import format_moves, parse_turns
from tutor.lesson.library import curriculum_names
from tutor.lesson.scenes import Alone, Ask, Find, Quiz, Show
from tutor.screens.lesson.state import LESSON
from tutor.screens.lesson.update import settled
from tutor.session.judging import answer_at
from tutor.ui.view import BayState


def test_turns_shown_on_a_solved_cube_are_given_no_step(pilot: Pilot) -> None:
    scene = pilot.scene(Show, "notation")
    assert isinstance(scene, Show)
    assert scene.task is None
    assert {segment.step for segment in scene.segments} == {None}
    pilot.wait(1.5)
    texts = Reading(pilot.view).texts
    assert "R" in texts
    assert not any(text.startswith("Done") for text in texts)


def test_where_turning_itself_is_taught_there_is_no_rail(pilot: Pilot) -> None:
    asking = [
        (index, type(scene))
        for index, scene in enumerate(pilot.lessons["notation"].scenes)
        if isinstance(scene, Ask | Alone | Quiz | Find)
    ]
    assert {kind for _, kind in asking} == {Ask, Alone, Quiz, Find}
    for index, _ in asking:
        pilot.press(f"lesson:{index}:0:notation")
        pilot.settle()
        assert pilot.view.rail is None
    go_to(pilot, Ask)
    assert pilot.view.rail is not None


def test_before_the_lesson_of_the_five_steps_no_step_is_on_a_rail(pilot: Pilot) -> None:
    for name in takewhile(lambda name: name != "five-steps", curriculum_names()):
        for index, _ in enumerate(pilot.lessons[name].scenes):
            pilot.press(f"lesson:{index}:0:{name}")
            pilot.settle()
            assert pilot.view.rail is None or pilot.view.rail.bays == ()


def test_a_longer_way_that_the_lesson_dictates_is_first_of_all_what_it_asked_for(pilot: Pilot) -> None:
    """The one such scene: the first Raise has three turns, where another way through the steps is shorter."""
    index = next(
        index
        for index, scene in enumerate(pilot.lessons["five-steps"].scenes)
        if isinstance(scene, Ask) and scene.accept == (parse_turns("R U2 R'"),)
    )
    pilot.press(f"lesson:{index}:0:five-steps")
    pilot.settle()
    for turn in ("R", "U2"):
        pilot.turn(turn)
        (note,) = Reading(pilot.view).verdicts
        assert note.title == f"{turn}: Acceptable"
        assert note.text.startswith("You made the turn that the lesson asks for. ")
    pilot.key("backspace")
    pilot.turn("U")
    (note,) = Reading(pilot.view).verdicts
    assert "asks for" not in note.text


def test_find_is_ticked_once_both_pieces_are_found(pilot: Pilot) -> None:
    found = []
    for index, scene in enumerate(pilot.lessons["five-steps"].scenes):
        if isinstance(scene, Find):
            pilot.press(f"lesson:{index}:0:five-steps")
            pilot.settle()
            solve(pilot, scene)
            assert settled(pilot.session)
            found.append(rail_of(pilot).bays[0].state)
    assert found == [BayState.CURRENT, BayState.DONE]


def test_each_of_the_five_steps_has_a_scene_in_which_its_bay_alone_is_lit(pilot: Pilot) -> None:
    lit = []
    for index, scene in enumerate(pilot.lessons["five-steps"].scenes[:8]):
        if isinstance(scene, Find | Ask):
            pilot.press(f"lesson:{index}:0:five-steps")
            pilot.settle()
            lit += [[bay.title for bay in rail_of(pilot).bays if bay.state is BayState.CURRENT]]
            assert lit[-1][0] in f"{scenes_before(pilot, index)} {scene.text}"
    assert lit == [["Find"], ["Find"], ["Raise"], ["Part"], ["Join"], ["Insert"]]


def scenes_before(pilot: Pilot, index: int) -> str:
    """What was read in the lesson of the five steps up to a scene."""
    return " ".join(scene.text for scene in pilot.lessons["five-steps"].scenes[:index])


def test_the_steps_come_together_in_one_case_that_is_shown_through_all_of_them(pilot: Pilot) -> None:
    scene = pilot.scene(Show, "five-steps")
    assert isinstance(scene, Show)
    told = [segment.step.value.capitalize() for segment in scene.segments if segment.step is not None]
    assert told == ["Raise", "Part", "Join", "Insert"]
    assert "Find" in scene.text
    assert all(name in segment.text for name, segment in zip(told, scene.segments, strict=True))


@pytest.mark.parametrize("by_the_step", [True, False])
def test_what_is_said_of_a_step_is_said_where_the_step_was_made(pilot: Pilot, by_the_step: bool) -> None:
    """Whoever solves the whole pair where Raise is asked for has not brought both pieces to the top."""
    scenes = pilot.lessons["both-in-slot"].scenes
    said = "You have brought both pieces to the top, and everything else is back in place."
    index, scene = next(pair for pair in enumerate(scenes) if getattr(pair[1], "afterwards", "") == said)
    assert isinstance(scene, Ask)
    pilot.press(f"lesson:{index}:0:both-in-slot")
    pilot.settle()
    start = held(answer_at(pilot.session, held(LESSON.of(pilot.session)).attempt))
    raising = [
        turn for turn, step in zip(start.way.turns, start.way.steps, strict=True) if step is scene.step
    ]
    pilot.turn(format_moves(raising if by_the_step else start.lines[0]))
    assert settled(pilot.session)
    assert (said in Reading(pilot.view).texts) is by_the_step


def test_find_is_under_way_until_both_pieces_are_found(pilot: Pilot) -> None:
    pilot.press("lesson:0:0:five-steps")
    pilot.settle()
    states = [bay.state for bay in rail_of(pilot).bays]
    assert states == [BayState.CURRENT, *[BayState.AHEAD] * 4]


def test_on_ones_own_turns_stand_in_a_row_without_steps(pilot: Pilot) -> None:
    scene = go_to(pilot, Alone, "five-steps")
    start = scene.cube
    pilot.turn("F'")
    pilot.turn("U'")
    rail = rail_of(pilot)
    assert rail.bays == ()
    assert [tile.label for tile in rail.own] == ["F'", "U'"]
    assert held(LESSON.of(pilot.session)).attempt.cube != start
    pilot.key("backspace")
    pilot.key("backspace")
    solve(pilot, scene)
    assert len(rail_of(pilot).bays) == 5
