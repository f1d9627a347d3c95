"""A lesson through the real application, without a window."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.screens.lesson.answering import go_to, scene_of, solve, told_off
from tests.session.held import held
from tests.session.pilot import Pilot, Reading, rail_of, stage_of
from tests.workers.direct import answers_of
from tutor.cube.faces import Turn
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.problems import LessonError
from tutor.lesson.scenes import Alone, Ask, Find, Quiz, Recap, Scene, Show, Tell
from tutor.lesson.words.replies import LOOK_AT_THE_CUBE
from tutor.screens.lesson import words
from tutor.screens.lesson.questions import candidates, options
from tutor.screens.lesson.state import LESSON
from tutor.screens.lesson.update import settled
from tutor.session.commands import Open
from tutor.ui.inputs import StickerPressed
from tutor.ui.view import BayState, Button, Mark, Text, VerdictNote

LESSONS = curriculum_names()


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson_can_be_played_from_its_first_scene_to_its_last_with_keys(pilot: Pilot, name: str) -> None:
    pilot.press(f"lesson:0:0:{name}")
    visited = 0
    while pilot.session.screen == "lesson" and LESSON.of(pilot.session) is not None:
        if held(LESSON.of(pilot.session)).lesson.name != name:
            break
        assert held(LESSON.of(pilot.session)).scene == visited
        assert pilot.view.card
        solve(pilot, scene_of(pilot))
        pilot.key("enter")
        pilot.wait(0.5)
        visited += 1
    assert visited == len(pilot.lessons[name].scenes)


@pytest.mark.parametrize(
    ("kind", "lesson", "said"),
    [
        (Quiz, "made-pair", "This question needs no turns. Choose an answer first."),
        (Find, "slot-and-pair", "This question needs no turns. Click what you found, or choose it."),
    ],
)
def test_a_turn_in_a_question_is_answered_by_what_the_question_wants(
    pilot: Pilot, kind: type[Scene], lesson: str, said: str
) -> None:
    scene = go_to(pilot, kind, lesson)
    pilot.key("r")
    assert pilot.view.notice == said
    # Enter does not go on here, so nothing says that it does.
    pilot.key("enter")
    assert scene_of(pilot) is scene
    solve(pilot, scene)
    assert pilot.view.notice == ""
    pilot.key("r")
    assert pilot.view.notice == "This scene needs no turns from you. Press Enter to go on."
    pilot.key("enter")
    assert scene_of(pilot) is not scene


def test_in_the_last_scene_enter_finishes_the_lesson_as_is_said(pilot: Pilot) -> None:
    pilot.press(f"lesson:{len(pilot.lessons['made-pair'].scenes) - 1}:0:made-pair")
    pilot.key("r")
    assert pilot.view.notice == "This scene needs no turns from you. Press Enter to finish the lesson."
    pilot.key("enter")
    pilot.settle()
    played = LESSON.of(pilot.session)
    assert played is None or played.lesson.name != "made-pair"


def test_the_way_is_shown_first_and_then_again(pilot: Pilot) -> None:
    def labels() -> set[str]:
        return {block.label for block in Reading(pilot.view).blocks if isinstance(block, Button)}

    scene = go_to(pilot, Ask)
    assert words.SHOW_THE_WAY in labels()
    assert words.SHOW_AGAIN not in labels()
    # A hint, and a slip that is shown, are not the way.
    pilot.key("h")
    pilot.turn("B")
    pilot.key("s")
    assert words.SHOW_THE_WAY in labels()
    pilot.key("escape")
    pilot.key("a")
    assert pilot.session.demonstration is not None
    assert pilot.session.demonstration.start == scene.cube
    assert words.SHOW_AGAIN in labels()
    assert words.SHOW_THE_WAY not in labels()
    pilot.key("escape")
    assert pilot.session.demonstration is None
    assert words.SHOW_AGAIN in labels()
    # Another scene has not shown anything yet.
    go_to(pilot, Ask)
    assert words.SHOW_THE_WAY in labels()


def test_a_way_that_begins_elsewhere_than_at_the_cube_in_hand_says_so(pilot: Pilot) -> None:
    told = "You see the whole way, from where you began."
    go_to(pilot, Ask)
    pilot.key("a")
    assert told not in Reading(pilot.view).texts
    pilot.key("escape")
    pilot.turn("R")
    pilot.key("a")
    assert told in Reading(pilot.view).texts


def test_every_button_that_has_a_key_shows_it(pilot: Pilot) -> None:
    wanted = {
        words.BACK: "Page Up", words.SKIP: "Page Down", words.GO_ON: "Enter", words.UNDO: "Backspace",
        words.WRITE: "/", words.SHOW_THE_WAY: "A", words.SHOW_AGAIN: "A", "Hint": "H",
    }  # fmt: skip
    seen = set()
    for kind in (Tell, Show, Ask, Quiz, Alone, Recap):
        go_to(pilot, kind)
        for block in Reading(pilot.view).blocks:
            if isinstance(block, Button) and block.label in wanted:
                assert block.key == wanted[block.label]
                seen.add(block.label)
    assert seen == set(wanted)


def test_every_wrong_answer_of_the_lessons_is_told_why_it_is_wrong(pilot: Pilot) -> None:
    told = 0
    for name, lesson in pilot.lessons.items():
        for index, scene in enumerate(lesson.scenes):
            if not isinstance(scene, Quiz | Find):
                continue
            pilot.press(f"lesson:{index}:0:{name}")
            pilot.settle()
            for number, (text, right) in enumerate(options(scene)):
                if right:
                    continue
                pilot.key(str(number + 1))
                (note,) = Reading(pilot.view).verdicts
                assert (note.mark, note.title) == (Mark.DETOUR, "Not that one")
                assert note.text
                assert note.text != LOOK_AT_THE_CUBE
                if isinstance(scene, Quiz):
                    assert note.text == scene.answers[number].why
                assert not settled(pilot.session), text
                told += 1
    # Questions have two to four answers, and the lessons have more than twenty questions.
    assert told > 40


def test_a_place_chosen_by_key_is_told_of_as_when_it_is_clicked(pilot: Pilot) -> None:
    scene = go_to(pilot, Find, "slot-and-pair")
    assert isinstance(scene, Find)
    number, cubie = next(
        (number, cubie) for number, (_, cubie) in enumerate(candidates(scene)) if cubie not in scene.answer
    )
    pilot.key(str(number + 1))
    by_key = Reading(pilot.view).verdicts[-1].text
    go_to(pilot, Find, "slot-and-pair")
    pilot.give(
        StickerPressed(next(place for place, (at, _) in enumerate(STICKERS) if cubie_number(at) == cubie))
    )
    assert Reading(pilot.view).verdicts[-1].text == by_key


def test_a_question_is_left_only_by_answering_or_skipping(pilot: Pilot) -> None:
    go_to(pilot, Ask)
    assert LESSON.of(pilot.session) is not None
    index = held(LESSON.of(pilot.session)).scene
    pilot.key("enter")
    assert held(LESSON.of(pilot.session)).scene == index
    pilot.key("page down")
    assert held(LESSON.of(pilot.session)).scene == index + 1
    pilot.key("page up")
    assert held(LESSON.of(pilot.session)).scene == index


def test_the_learner_is_judged_and_told_what_a_detour_costs(pilot: Pilot) -> None:
    go_to(pilot, Ask)
    pilot.turn("B")
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.DETOUR
    assert "cost" in note.text
    pilot.key("backspace")
    pilot.settle()
    solve(pilot, scene_of(pilot))
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL
    assert settled(pilot.session)


def test_after_a_case_the_learner_sees_where_the_ways_part_and_can_see_it_from_there(pilot: Pilot) -> None:
    go_to(pilot, Ask)
    # Between them the cube was held another way: so D and D' are two turns, and not one taken back.
    pilot.turn("D y y'")
    solve(pilot, scene_of(pilot))
    assert "Looking back" in Reading(pilot.view).texts
    start = held(LESSON.of(pilot.session)).attempt.history.start if held(LESSON.of(pilot.session)) else None
    pilot.key("p")
    assert pilot.session.demonstration is not None
    assert pilot.session.demonstration.start == start
    end = pilot.session.demonstration.start.after(pilot.session.demonstration.turns)
    assert end.position.home_pairs == {0, 1, 2, 3}


def test_a_wrong_answer_is_marked_and_another_can_be_chosen(pilot: Pilot) -> None:
    scene = go_to(pilot, Quiz)
    wrong = next(index for index, (_, right) in enumerate(options(scene)) if not right)
    pilot.key(str(wrong + 1))
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.DETOUR
    assert not settled(pilot.session)
    solve(pilot, scene)
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL


def test_of_the_answers_the_right_one_alone_is_seen_once_it_is_given(pilot: Pilot) -> None:
    scene = go_to(pilot, Quiz)
    solve(pilot, scene)
    answers = [button for button in Reading(pilot.view).buttons if button.choice]
    right = [true for _, true in options(scene)]
    assert [(each.enabled, each.selected) for each in answers] == [(true, true) for true in right]
    # Chosen again it changes nothing.
    pilot.key(str(right.index(True) + 1))
    assert settled(pilot.session)


def test_where_pieces_and_turns_are_asked_about_no_pair_is_marked_once_they_are_named(pilot: Pilot) -> None:
    asked = [n for n, scene in enumerate(pilot.lessons["notation"].scenes) if isinstance(scene, Quiz)]
    assert len(asked) == 2
    for index in asked:
        pilot.press(f"lesson:{index}:0:notation")
        pilot.settle()
        before = stage_of(pilot)
        solve(pilot, scene_of(pilot))
        assert stage_of(pilot) == before, index


def test_alone_there_are_no_verdicts_before_the_end_unless_asked_for(pilot: Pilot) -> None:
    go_to(pilot, Alone)
    pilot.turn("D")
    assert Reading(pilot.view).verdicts == []
    assert all(tile.mark is Mark.NONE for tile in rail_of(pilot).own)
    pilot.key("h")
    assert not any("Hint" in text for text in Reading(pilot.view).texts)
    pilot.press("act:REVEAL")
    assert Reading(pilot.view).verdicts
    pilot.key("backspace")
    solve(pilot, scene_of(pilot))
    assert "Looking back" in Reading(pilot.view).texts


def test_a_lesson_goes_on_where_it_was_left(pilot: Pilot) -> None:
    pilot.press("lesson:0:0:made-pair")
    pilot.key("enter")
    pilot.key("escape")
    assert pilot.session.screen == "home"
    labels = [block for block in Reading(pilot.view).blocks if getattr(block, "primary", False)]
    assert [getattr(block, "action", None) for block in labels] == [Open("lesson")]
    pilot.press("open:LESSON")
    assert LESSON.of(pilot.session) is not None
    assert held(LESSON.of(pilot.session)).scene == 1


def test_every_scene_shows_its_words(pilot: Pilot) -> None:
    for name, lesson in pilot.lessons.items():
        for index, scene in enumerate(lesson.scenes):
            pilot.press(f"lesson:{index}:0:{name}")
            pilot.settle()
            assert scene.card_text in Reading(pilot.view).texts
            if isinstance(scene, Recap):
                said = " ".join(Reading(pilot.view).texts)
                assert all(point in said for point in scene.points)


@pytest.mark.parametrize("label", ["Again, in the next slot", "Again, mirrored"])
def test_a_lesson_is_carried_over_to_other_slots_and_into_the_mirror(pilot: Pilot, label: str) -> None:
    last = len(pilot.lessons["made-pair"].scenes) - 1
    pilot.press(f"lesson:{last}:0:made-pair")
    pilot.press(Reading(pilot.view).button(label).action)
    pilot.settle()
    assert LESSON.of(pilot.session) is not None
    assert held(LESSON.of(pilot.session)).scene == 0
    first, carried = pilot.lessons["made-pair"].scenes[0], scene_of(pilot)
    assert first.task is not None
    assert carried.task is not None
    assert carried.task.slot is not first.task.slot


def test_what_is_to_be_found_is_not_marked_before_it_is_found(pilot: Pilot) -> None:
    scene = go_to(pilot, Find, "slot-and-pair")
    assert isinstance(scene, Find)
    assert not stage_of(pilot).outlined
    assert not stage_of(pilot).dimmed
    right = next(
        sticker for sticker, (cubie, _) in enumerate(STICKERS) if cubie_number(cubie) in scene.answer
    )
    wrong = next(
        sticker for sticker, (cubie, _) in enumerate(STICKERS) if cubie_number(cubie) not in scene.answer
    )
    pilot.give(StickerPressed(wrong))
    told = Reading(pilot.view).verdicts[-1]
    assert told.mark is Mark.DETOUR
    said = re.match(r"That is the (\S+) (centre|edge|corner)\. ", told.text)
    assert said is not None
    assert (set(said[1].split("-")), said[2]) == named(scene, wrong)
    pilot.give(StickerPressed(right))
    assert Reading(pilot.view).verdicts[-1].mark is Mark.OPTIMAL
    # Only that one: where the other piece of the pair is may be asked next.
    assert stage_of(pilot).outlined == scene.answer


def named(scene: Scene, sticker: int) -> tuple[set[str], str]:
    """The colours of the piece with a sticker, read off the cube, and what kind of piece it is."""
    cubie = cubie_number(STICKERS[sticker][0])
    colours = {
        COLOUR_NAMES[scene.cube.colours[place]]
        for place, (own, _) in enumerate(STICKERS)
        if cubie_number(own) == cubie
    }
    return colours, ("centre", "edge", "corner")[len(colours) - 1]


LEFT_TO_DO = "but the lesson asks for another turn."


@pytest.mark.parametrize(
    ("lesson", "number", "turns", "said"),
    [
        ("notation", 7, "R'", "R' turns the right layer the wrong way."),
        ("notation", 7, "R2", "R2 turns the right layer too far."),
        ("notation", 7, "B", f"B turns the back layer, {LEFT_TO_DO}"),
        ("notation", 8, "L", "L turns the left layer the wrong way."),
        ("notation", 11, "U'", "U' turns the top layer the wrong way."),
        ("notation", 13, "F' U", "U turns the top layer the wrong way."),
        ("notation", 13, "F' D2", f"D2 turns the bottom layer, {LEFT_TO_DO}"),
        ("hide-the-corner", 4, "R'", "R' turns the right layer the wrong way."),
        # Acceptable ones; the second text does not say which turn is asked for.
        ("five-steps", 4, "F'", "F' works too, but here you practise R U2 R'."),
        ("hide-the-corner", 4, "U", "U works too, but the lesson asks for another turn."),
        # With far layers it would be Optimal, but the lesson teaches ways by hand.
        ("both-in-slot", 4, "F2", "F2 turns the front layer too far."),
        # Either of two turns is asked for.
        ("both-in-slot", 4, "F", "F turns the front layer the wrong way."),
        # Held another way, the learner's R is the layer that the scene calls front.
        ("notation", 13, "y' R", "R turns the right layer the wrong way."),
        # A wide turn has two layers, and two turns are more than one.
        ("notation", 7, "Rw", "These are not the turns that the lesson asks for here."),
        ("notation", 7, "F D", "These are not the turns that the lesson asks for here."),
    ],
)
def test_one_turn_that_is_not_asked_for_is_named_with_what_is_wrong_with_it(
    pilot: Pilot, lesson: str, number: int, turns: str, said: str
) -> None:
    pilot.press(f"lesson:{number - 1}:0:{lesson}")
    pilot.turn(turns)
    (text,) = told_off(pilot)
    assert text.startswith(said)
    # No verdict beside it contradicts that.
    assert all(note.mark is Mark.DETOUR for note in Reading(pilot.view).verdicts)


def test_a_scene_that_asks_for_one_turn_is_not_answered_by_another_good_one(pilot: Pilot) -> None:
    scenes = pilot.lessons["hide-the-corner"].scenes
    index = next(n for n, scene in enumerate(scenes) if isinstance(scene, Ask) and scene.accept)
    pilot.press(f"lesson:{index}:0:hide-the-corner")
    # U is Acceptable there, but it does not hide the corner.
    pilot.turn("U")
    assert not settled(pilot.session)
    assert told_off(pilot)
    pilot.key("backspace")
    pilot.settle()
    assert told_off(pilot) == []
    pilot.turn("R")
    assert settled(pilot.session)
    # The turn asked for is made, and the pair is still on its way.
    done = [bay.title for bay in rail_of(pilot).bays if bay.state is BayState.DONE]
    assert done == ["Find", "Raise", "Part"]


def test_off_what_is_asked_nothing_invites_to_turn_on(pilot: Pilot) -> None:
    scenes = pilot.lessons["notation"].scenes
    index = next(n for n, each in enumerate(scenes) if isinstance(each, Ask) and each.accept == ((Turn.R,),))
    pilot.press(f"lesson:{index}:0:notation")
    # R' could go on to R, but a lesson on how turns are written wants R as it is.
    pilot.turn("R'")
    assert told_off(pilot)
    assert not any(isinstance(block, VerdictNote) for block in pilot.view.card)


@pytest.mark.parametrize(("name", "framed"), [("made-pair", True), ("split-pieces", False)])
def test_the_slot_alone_is_framed_where_its_pair_is_asked_about(
    pilot: Pilot, name: str, framed: bool
) -> None:
    for index, scene in enumerate(pilot.lessons[name].scenes):
        if isinstance(scene, Quiz):
            pilot.press(f"lesson:{index}:0:{name}")
            pilot.settle()
            stage = stage_of(pilot)
            assert len(stage.framed) == (2 if framed else 0), scene.text
            assert not stage.dimmed | stage.outlined


@pytest.mark.parametrize("away", ["2", "backspace"])
def test_what_was_reached_is_said_only_while_it_is_so(pilot: Pilot, away: str) -> None:
    scene = go_to(pilot, Ask, "notation")
    assert isinstance(scene, Ask)
    pilot.turn("R")
    assert scene.afterwards in Reading(pilot.view).texts
    pilot.key(away)
    assert settled(pilot.session)
    assert scene.afterwards not in Reading(pilot.view).texts
    assert words.CHANGED_SINCE in Reading(pilot.view).texts
    pilot.turn("R" if away == "backspace" else "R'")
    assert scene.afterwards in Reading(pilot.view).texts


def test_of_a_lesson_that_cannot_be_read_all_that_is_wrong_can_be_read(pilot: Pilot, tmp_path: Path) -> None:
    scene = '[[scene]]\nkind = "tell"\ntext = "A cube."\ntexts = "This key is not known."\n'
    (tmp_path / "mine.toml").write_text('title = "Mine"\ngoal = "A goal."\n' + scene * 6, encoding="utf-8")
    setting = LessonSetting(answers_of(pilot.solver))
    pilot.rewire(read_lesson=lambda name, *_: load_lesson(name, setting, tmp_path))
    with pytest.raises(LessonError) as caught:
        load_lesson("mine", setting, tmp_path)
    told = tuple(str(problem) for problem in caught.value.problems)
    assert len(told) == 6
    pilot.press("lesson:0:0:mine")
    assert pilot.session.screen == "home"
    assert [block.text for block in pilot.view.overlay if isinstance(block, Text)][1:] == [*told]
    pilot.key("enter")
    assert not pilot.view.overlay
    assert pilot.session.screen == "home"


def test_after_a_turn_too_many_the_case_done_alone_is_still_looked_back_on(pilot: Pilot) -> None:
    scene = go_to(pilot, Alone, "made-pair")
    solve(pilot, scene)
    pilot.turn("U")
    texts = Reading(pilot.view).texts
    assert words.CHANGED_SINCE in texts
    assert "Looking back" in texts
