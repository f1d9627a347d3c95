"""Where turning itself is taught: turns are read, and nothing is said of a pair."""

from __future__ import annotations

import re

from msgspec.structs import replace

from tests.screens.lesson.answering import best_turn, scene_of, solve, told_off
from tests.session.held import held
from tests.session.pilot import Pilot, Reading, stage_of
from tests.words.shown import texts_shown
from tutor.lesson.scenes import Alone, Ask, Recap
from tutor.screens.lesson import words
from tutor.screens.lesson.keeping import whole_case
from tutor.screens.lesson.scene_look import asked
from tutor.screens.lesson.state import LESSON
from tutor.screens.lesson.update import settled
from tutor.ui.view import Mark


def test_a_pair_solved_by_other_turns_than_those_to_be_read_is_not_what_was_asked(pilot: Pilot) -> None:
    scenes = pilot.lessons["notation"].scenes
    index = next(n for n, scene in enumerate(scenes) if isinstance(scene, Alone))
    pilot.press(f"lesson:{index}:0:notation")
    # A longer way that leaves the top turned otherwise (worked out with the solver).
    pilot.turn("U B U B'")
    while (turn := best_turn(pilot)) is not None:
        pilot.turn(turn)
    assert not settled(pilot.session)
    assert told_off(pilot) == [words.OTHER_TURNS]


LATER_WORDS = re.compile(
    r"\b(?:pair|slot|match|join|raise|lift|insert|case|optimal|acceptable|detour|shortest)", re.IGNORECASE
)
"""What the lessons after the first explain."""


def said_of_turns(pilot: Pilot) -> str:
    """All that the card, the rail and the line at the foot say, the scene's own text aside."""
    own = {scene_of(pilot).card_text, getattr(scene_of(pilot), "afterwards", "")}
    view = replace(pilot.view, bar=(), more=())
    return " | ".join(text for text in texts_shown(view) if text not in own)


def test_where_turning_itself_is_taught_nothing_is_said_of_a_pair(pilot: Pilot) -> None:
    scenes = pilot.lessons["notation"].scenes
    asking = [number for number, scene in enumerate(scenes) if isinstance(scene, Ask | Alone)]
    assert asking
    for number in asking:
        scene = scenes[number]
        assert isinstance(scene, Ask | Alone)
        for tried in ("", "D", "U", *(turn.notation for turn in scene.accept[0][:1])):
            pilot.press(f"lesson:{number}:0:notation")
            pilot.key("v")
            pilot.turn(tried)
            for key in ("h", "s", "a", "space", "escape"):
                pilot.key(key)
                pilot.settle()
                assert not LATER_WORDS.search(said_of_turns(pilot)), (number, tried, key)
        pilot.press(f"lesson:{number}:0:notation")
        solve(pilot, scene)
        pilot.key("p")
        assert settled(pilot.session)
        assert not LATER_WORDS.search(said_of_turns(pilot)), number


def test_where_turning_itself_is_taught_each_turn_asked_for_is_read_out(pilot: Pilot) -> None:
    scenes = pilot.lessons["notation"].scenes
    index = next(n for n, each in enumerate(scenes) if isinstance(each, Ask) and len(each.accept[0]) == 3)
    pilot.press(f"lesson:{index}:0:notation")
    read = []
    for turn in ("R", "U", "R'"):
        pilot.turn(turn)
        read += Reading(pilot.view).verdicts
    assert [(note.mark, note.title, note.text) for note in read] == [
        (Mark.OPTIMAL, "R: Yes", "R turns the right layer clockwise."),
        (Mark.OPTIMAL, "U: Yes", "U turns the top layer clockwise."),
        (Mark.OPTIMAL, "R': Yes", "R' turns the right layer anticlockwise."),
    ]


def test_reading_turns_counts_as_no_case(pilot: Pilot) -> None:
    pilot.press("lesson:0:0:notation")
    for scene in pilot.lessons["notation"].scenes[:-1]:
        solve(pilot, scene)
        assert whole_case(held(LESSON.of(pilot.session))) is None
        pilot.key("enter")
    assert isinstance(scene_of(pilot), Recap)
    # Nobody has met a case by reading turns, so that practice begins each with its full guidance.
    assert pilot.session.guidance == ()
    assert words.ALL_DONE in Reading(pilot.view).texts
    assert not any("case" in text for text in Reading(pilot.view).texts)


def test_where_turning_itself_is_taught_every_sticker_has_its_colour(pilot: Pilot) -> None:
    """A layer that is to come back must be seen whole, also where a pair would be in question elsewhere."""
    for index, scene in enumerate(pilot.lessons["notation"].scenes):
        pilot.press(f"lesson:{index}:0:notation")
        pilot.settle()
        stage = stage_of(pilot)
        assert not stage.dimmed | stage.framed, scene.text


def test_where_turning_itself_is_taught_the_way_shown_has_the_turns_asked_for_alone(pilot: Pilot) -> None:
    for number, scene in enumerate(pilot.lessons["notation"].scenes):
        if not isinstance(scene, Ask | Alone):
            continue
        pilot.press(f"lesson:{number}:0:notation")
        pilot.key("v")
        assert asked(scene, scene.card_text) in Reading(pilot.view).texts
        pilot.key("a")
        shown = held(pilot.session.demonstration)
        assert (shown.start, shown.turns) == (scene.cube, scene.accept[0])
        assert set(shown.steps) == {None}


def test_without_a_rail_turns_that_are_not_dictated_are_judged_as_ever(pilot: Pilot) -> None:
    """A teacher's scene may leave the rail out and yet ask for a pair."""
    scenes = pilot.lessons["made-pair"].scenes
    index = next(index for index, scene in enumerate(scenes) if isinstance(scene, Ask) and not scene.accept)
    pilot.press(f"lesson:{index}:0:made-pair")
    played = held(LESSON.of(pilot.session))
    bare = replace(scenes[index], rail=False)
    lesson = replace(played.lesson, scenes=(*scenes[:index], bare, *scenes[index + 1 :]))
    pilot.application.session = LESSON.put(pilot.session, replace(played, lesson=lesson))
    pilot.settle()
    assert pilot.view.rail is None
    pilot.turn(held(best_turn(pilot)))
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL
