"""What is kept of a lesson: where one was, what was done, and what Home says of it."""

from __future__ import annotations

from msgspec.structs import replace

from tests.screens.lesson.answering import scene_of, solve
from tests.session.held import held
from tests.session.pilot import Pilot, Reading
from tutor.lesson.library import curriculum_names
from tutor.lesson.scenes import Alone
from tutor.progress.attempt import GUEST, MOST_TURNS
from tutor.screens.lesson import words
from tutor.screens.lesson.commands import StartLesson
from tutor.screens.lesson.state import LESSON
from tutor.session.places import places_of
from tutor.session.record_commands import ChooseLearner
from tutor.session.state import FINISHED, LessonPlace
from tutor.session.turns_taken import HintUse
from tutor.ui.view import Button, Miniature, MiniatureGrid


def lessons_at_home(pilot: Pilot) -> list[Miniature]:
    """The lessons as Home shows them."""
    grids = (block for block in Reading(pilot.view).blocks if isinstance(block, MiniatureGrid))
    cells = (cell for grid in grids for cell in grid.miniatures)
    return [cell for cell in cells if isinstance(cell.action, StartLesson)]


def play(pilot: Pilot, name: str, skipped: tuple[int, ...] = ()) -> None:
    """A lesson from its first scene to its last, with some scenes skipped."""
    pilot.press(f"lesson:0:0:{name}")
    for index in range(len(pilot.lessons[name].scenes) - 1):
        assert held(LESSON.of(pilot.session)).scene == index
        if index in skipped:
            pilot.key("page down")
        else:
            solve(pilot, scene_of(pilot))
            pilot.key("enter")
        pilot.settle()


def test_a_lesson_whose_tasks_are_done_is_ticked_at_home_and_begins_anew(pilot: Pilot) -> None:
    play(pilot, "notation")
    assert words.ALL_DONE in Reading(pilot.view).texts
    pilot.key("enter")
    pilot.settle()
    pilot.press("open:HOME")
    pilot.settle()
    (ticked,) = (lesson for lesson in lessons_at_home(pilot) if lesson.badge == "✓")
    assert pilot.lessons["notation"].title in ticked.label
    pilot.press(ticked.action)
    pilot.settle()
    assert LESSON.of(pilot.session) is not None
    assert (held(LESSON.of(pilot.session)).lesson.name, held(LESSON.of(pilot.session)).scene) == (
        "notation",
        0,
    )


def test_pages_turned_give_no_tick_and_what_was_skipped_is_said_and_can_be_done(pilot: Pilot) -> None:
    play(pilot, "notation", skipped=(3, 8))
    said = "You skipped two tasks. The lesson gets its tick when you have done them."
    assert said in Reading(pilot.view).texts
    assert words.next_lesson(pilot.lessons["five-steps"].title) in Reading(pilot.view).texts
    pilot.key("enter")
    pilot.settle()
    (place,) = (place for place in places_of(pilot.session) if place.lesson == "notation")
    assert (place.ticked, place.scene) == (False, 3)
    for index in (3, 8):
        pilot.press(f"lesson:{index}:0:notation")
        pilot.settle()
        solve(pilot, scene_of(pilot))
    pilot.press(f"lesson:{len(pilot.lessons['notation'].scenes) - 1}:0:notation")
    pilot.settle()
    pilot.key("enter")
    pilot.settle()
    (place,) = (place for place in places_of(pilot.session) if place.lesson == "notation")
    assert place.ticked


def test_a_lesson_finished_before_tasks_were_counted_stays_ticked_when_it_is_opened_again(
    pilot: Pilot,
) -> None:
    pilot.application.session = replace(pilot.session, places=(LessonPlace("notation", FINISHED),))
    pilot.press("lesson:2:0:notation")
    pilot.settle()
    assert places_of(pilot.session) == (LessonPlace("notation", 2, finished=True),)
    assert places_of(pilot.session)[0].ticked


def test_the_last_scene_says_what_was_solved_without_help_and_with_it(pilot: Pilot) -> None:
    scenes = pilot.lessons["made-pair"].scenes
    alone = [index for index, scene in enumerate(scenes) if isinstance(scene, Alone)]
    pilot.press(f"lesson:{alone[0] - 1}:0:made-pair")
    pilot.settle()
    pilot.key("h")
    pilot.key("page down")
    for index in range(alone[0], len(scenes) - 1):
        pilot.settle()
        assert held(LESSON.of(pilot.session)).scene == index
        solve(pilot, scene_of(pilot))
        pilot.key("enter")
    pilot.settle()
    count = {2: "two", 3: "three"}[len(alone)]
    # Both cases of the lesson are new, and one of them comes in two slots.
    told = f"You solved {count} cases without help. You met two new cases. You asked for help once."
    assert told in Reading(pilot.view).texts


def test_a_case_that_took_more_hints_than_can_be_kept_is_solved_without_a_record(pilot: Pilot) -> None:
    scenes = pilot.lessons["made-pair"].scenes
    index = next(index for index, scene in enumerate(scenes) if isinstance(scene, Alone))
    pilot.press(f"lesson:{index}:0:made-pair")
    pilot.settle()
    played = replace(held(LESSON.of(pilot.session)), hints=(HintUse(1, 1.0),) * (MOST_TURNS + 1))
    pilot.application.session = LESSON.put(pilot.session, played)
    solve(pilot, scene_of(pilot))
    assert held(LESSON.of(pilot.session)).solved
    assert not pilot.session.records.count
    told = "A try with more than 5,000 turns or hints is not kept, so this one does not count."
    assert pilot.view.notice == told


def test_another_day_home_offers_to_go_on_where_one_was(pilot: Pilot) -> None:
    kept: list[tuple[LessonPlace, ...]] = []
    pilot.rewire(save_places=kept.append)
    pilot.press("lesson:4:0:made-pair")
    tomorrow = Pilot(pilot.solver, pilot.lessons)
    tomorrow.application.session = replace(tomorrow.session, places=kept[-1])
    button = Reading(tomorrow.view).button("Continue the lesson")
    assert button.primary
    tomorrow.press(button.action)
    assert LESSON.of(tomorrow.session) is not None
    assert held(LESSON.of(tomorrow.session)).scene == 4


def test_enter_at_home_does_what_home_proposes(pilot: Pilot) -> None:
    assert pilot.session.screen == "home"
    pilot.key("enter")
    pilot.settle()
    assert LESSON.of(pilot.session) is not None
    assert (held(LESSON.of(pilot.session)).lesson.name, held(LESSON.of(pilot.session)).scene) == (
        curriculum_names()[0],
        0,
    )


def test_every_learner_has_a_place_of_their_own_in_each_lesson(pilot: Pilot) -> None:
    pilot.press("lesson:4:0:made-pair")
    pilot.settle()
    pilot.application.give(ChooseLearner("Ilva"))
    pilot.press("open:HOME")
    labels = [block.label for block in Reading(pilot.view).blocks if isinstance(block, Button)]
    assert not [label for label in labels if label.startswith("Continue")]
    pilot.press("lesson:2:0:made-pair")
    pilot.settle()
    assert [(place.lesson, place.scene) for place in places_of(pilot.session)] == [("made-pair", 2)]
    pilot.application.give(ChooseLearner(GUEST))
    assert [(place.lesson, place.scene) for place in places_of(pilot.session)] == [("made-pair", 4)]
