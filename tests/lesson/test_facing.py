"""In early lessons the whole cube is turned so that the slot faces the learner; later it stays."""

from __future__ import annotations

import pytest

from tutor.cube.faces import Face
from tutor.cube.position import Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_facing, curriculum_names, load_facing_lesson, load_lesson
from tutor.lesson.questions import Answerer
from tutor.lesson.scenes import Alone, Ask
from tutor.lesson.variation import Facing, Variation

SLOTS_SEEN = {
    Facing.RIGHT: {Slot.FR},
    Facing.FRONT: {Slot.FR, Slot.FL},
}
FACED = [name for name, facing in curriculum_facing().items() if facing is not Facing.AS_WRITTEN]


@pytest.mark.parametrize("name", FACED)
def test_the_slot_faces_you_and_the_cube_is_the_same_one_held_another_way(
    name: str, answers: Answerer
) -> None:
    seen = SLOTS_SEEN[curriculum_facing()[name]]
    written, faced = (load(name, LessonSetting(answers)) for load in (load_lesson, load_facing_lesson))
    assert {scene.task.slot for scene in faced.scenes if scene.task is not None} == seen
    for plain, scene in zip(written.scenes, faced.scenes, strict=True):
        # A rotation of the whole cube changes no state (WCA 12i); the cross stays below.
        assert scene.cube.state == plain.cube.state
        assert scene.cube.colour_of(Face.D) is plain.cube.colour_of(Face.D)
        if isinstance(scene, Ask | Alone) and isinstance(plain, Ask | Alone):
            ends = [[each.cube.after(turns).state for turns in each.accept] for each in (plain, scene)]
            assert ends[0] == ends[1]
        assert "{" not in scene.text


def test_the_front_right_comes_first_then_the_front_then_all_four() -> None:
    order = [Facing.RIGHT, Facing.FRONT, Facing.AS_WRITTEN]
    asked = [facing for name, facing in curriculum_facing().items() if name != "split-pieces"]
    first = asked.index(Facing.RIGHT)
    assert asked[first:] == sorted(asked[first:], key=order.index)
    # From the sixteenth lesson on no slot is turned to the learner.
    assert set(asked[curriculum_names().index("raise-and-part") :]) == {Facing.AS_WRITTEN}


def test_a_lesson_asked_for_in_another_slot_is_played_there(answers: Answerer) -> None:
    setting = LessonSetting(answers, Variation(quarters=1))
    assert load_facing_lesson("made-pair", setting) == load_lesson("made-pair", setting)
