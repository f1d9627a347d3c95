"""Where scenes start: cases, setups, stickers, and where the scene before began or ended."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves
from tutor.cube.position import SOLVED, Slot
from tutor.cube.sticker_text import format_stickers
from tutor.lesson.assembly import Setting, assemble
from tutor.lesson.problems import LessonError
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import read_script
from tutor.lesson.scene_start import near_settled
from tutor.lesson.scenes import Lesson
from tutor.method.cases import parse_case
from tutor.solver.task import Task

Make = Callable[[str], Lesson]


@pytest.fixture
def make(answers: Answerer) -> Make:
    def run(scenes: str) -> Lesson:
        text = 'title = "t"\ngoal = "g"\n' + scenes
        return assemble(read_script(text, "file.toml"), "file", Setting(answers))

    return run


def tell(lines: str = "", kind: str = "tell") -> str:
    return f'[[scene]]\nkind = "{kind}"\ntext = "Text."\n{lines}\n'


def test_the_first_scene_starts_at_the_solved_cube(make: Make) -> None:
    [scene] = make(tell()).scenes
    assert (scene.cube, scene.task, scene.follows) == (HeldCube(), None, False)


def test_a_case_starts_in_its_slot_with_the_top_as_told(make: Make) -> None:
    [scene] = make(tell('case = "corner-up-edge-in-straight"\nslot = "BL"\ntop = "U\'"')).scenes
    assert scene.cube.position == parse_case("corner-up-edge-in-straight").position(Slot.BL, 3)
    assert scene.task == Task(Slot.BL, frozenset({Slot.FR, Slot.FL, Slot.BR}))


def test_a_case_with_few_kept_slots_leaves_the_others_free(make: Make) -> None:
    [scene] = make(tell('case = "corner-up-edge-in-straight"\nslot = "FR"\nkeep = ["FL"]')).scenes
    assert scene.cube.position.home_pairs == {Slot.FL}
    assert scene.task == Task(Slot.FR, frozenset({Slot.FL}))


def test_a_setup_may_turn_the_whole_cube_and_the_slot_is_named_as_held_then(make: Make) -> None:
    [scene] = make(tell('setup = "R U R\' y"\nslot = "BR"')).scenes
    # y carries the front to the left (WCA 12a4b), so the slot FR is then FL; BR comes to FR.
    assert scene.cube == HeldCube().after(parse_moves("R U R' y"))
    assert scene.cube.position.home_pairs == {Slot.FR, Slot.BL, Slot.BR}
    assert scene.task == Task(Slot.BR, frozenset({Slot.FR, Slot.BL}))


def test_stickers_are_read_with_their_colours(make: Make) -> None:
    cube = HeldCube().after(parse_moves("x2 R U R'"))
    lines = format_stickers(cube.colours)
    [scene] = make(tell(f'stickers = """\n{lines}\n"""\nslot = "FR"')).scenes
    assert scene.cube == cube
    assert scene.cube.colour_of(Face.D) is Face.U


def test_stickers_of_a_mirrored_arrangement_are_refused_with_the_usual_one(make: Make) -> None:
    lines = format_stickers(HeldCube().colours).replace("r", "*").replace("o", "r").replace("*", "o")
    with pytest.raises(LessonError, match="arranged in another way"):
        make(tell(f'stickers = """\n{lines}\n"""'))


def test_scenes_go_on_or_start_again(make: Make) -> None:
    scenes = make(
        tell('setup = "R U R\'"\nslot = "FR"')
        + tell("turns = \"R U' R'\"", "show")
        + tell('from = "start"', "ask")
        + tell('from = "here"')
        + tell('setup = "F"')
    ).scenes
    start = scenes[0].cube
    assert [scene.cube == start for scene in scenes] == [True, True, True, False, False]
    # After an ask scene the case is taken as solved the best way.
    assert scenes[3].cube.position == SOLVED
    assert [scene.follows for scene in scenes] == [False, True, False, True, False]
    assert scenes[3].task == scenes[2].task
    # The slot stays named; the task is worked out anew for the new position.
    assert scenes[4].task is not None
    assert scenes[4].task.slot is Slot.FR


def test_half_done_positions_are_near_and_scrambled_ones_are_not() -> None:
    keep = frozenset({Slot.FL, Slot.BL, Slot.BR})
    lifted = parse_case("corner-up-edge-left-front-up").position(Slot.FR).after((Turn.R, Turn.B, Turn.U2))
    assert near_settled(lifted, Task(Slot.FR, keep))
    scrambled = HeldCube().after(parse_moves("R U F D L B R2 U F D'")).position
    assert not near_settled(scrambled, Task(Slot.FR, keep))
    assert not near_settled(scrambled, Task(Slot.FR))
