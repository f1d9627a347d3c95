"""Shown turns: written, in parts, and computed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tutor.cube.notation import format_moves
from tutor.lesson.assembly import Setting, assemble
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import read_script
from tutor.lesson.scenes import Choose, Find, Recap, Show, Sought
from tutor.lesson.variation import Variation
from tutor.method.steps import Step

Showing = Callable[..., Show]


@pytest.fixture
def shown(answers: Answerer) -> Showing:
    def run(lines: str, variation: Variation | None = None) -> Show:
        text = f'title = "t"\ngoal = "g"\n[[scene]]\nkind = "show"\ntext = "T."\n{lines}\n'
        setting = Setting(answers, variation or Variation())
        [scene] = assemble(read_script(text, "file.toml"), "file", setting).scenes
        assert isinstance(scene, Show)
        return scene

    return run


def segments(scene: Show) -> list[tuple[Step | None, str, str]]:
    return [(segment.step, format_moves(segment.turns), segment.text) for segment in scene.segments]


CASE = 'case = "corner-right-edge-right-right-up"\nslot = "FR"\n'


def test_a_route_is_cut_at_its_steps_and_each_has_its_text(shown: Showing) -> None:
    scene = shown(CASE + 'turns = "route"\nsteps = { part = "P {turn:R}.", join = "J.", insert = "I." }')
    assert segments(scene) == [
        (Step.PART, "R U' R'", "P R."),
        (Step.JOIN, "U2 F'", "J."),
        (Step.INSERT, "U' F", "I."),
    ]
    assert scene.task is not None
    assert scene.task.done(scene.end.position)


def test_a_route_in_the_mirror_is_the_mirrored_route(shown: Showing) -> None:
    scene = shown(CASE + 'turns = "route"', Variation(mirrored=True))
    assert format_moves(scene.turns) == "L' U L U2 F U F'"


def test_a_line_is_as_long_as_the_distance(shown: Showing, answers: Answerer) -> None:
    scene = shown('case = "corner-up-edge-in-straight"\nslot = "BR"\nturns = "line"')
    assert scene.task is not None
    assert len(scene.turns) == answers(scene.cube.position, scene.task).by_hand == 7
    assert all(segment.step is not None for segment in scene.segments)


def test_parts_keep_their_texts_slips_and_steps(shown: Showing) -> None:
    parts = """parts = [{ turns = "R U'", text = "A." }, { turns = "R'" }, { turns = "D", slip = true }]"""
    scene = shown(CASE + parts)
    assert segments(scene) == [(Step.PART, "R U'", "A."), (Step.PART, "R'", ""), (Step.JOIN, "D", "")]
    assert [segment.slip for segment in scene.segments] == [False, False, True]


def test_texts_of_parts_are_filled_in_where_the_part_begins(shown: Showing) -> None:
    parts = (
        """parts = [{ turns = "R U'", text = "{turns.left}." }, { turns = "R'", text = "{turns.left}." }]"""
    )
    assert [segment.text for segment in shown(CASE + parts).segments] == ["Seven turns.", "Five turns."]


def test_without_a_pair_turns_have_no_step(shown: Showing) -> None:
    scene = shown('''turns = "(R U R' U')6"''')
    assert len(scene.turns) == 24
    assert scene.segments[0].step is None
    # R U R' U' has order 6 (independent computation, see the tests of the cube).
    assert scene.end == scene.cube


def test_camera_speed_caption_and_highlight_are_carried(shown: Showing) -> None:
    lines = (
        CASE
        + 'turns = "R"\nspeed = 0.5\ncaption = "{slot}"\ncamera = { yaw = 20 }\nhighlight = ["UFR", "edge"]'
    )
    plain, mirrored = shown(lines), shown(lines, Variation(mirrored=True))
    assert plain.camera is not None
    assert mirrored.camera is not None
    assert (plain.camera.yaw, mirrored.camera.yaw) == (20, -20)
    assert (plain.speed, plain.caption, mirrored.caption) == (0.5, "Front-right slot", "Front-left slot")
    # Cubies count 9 (x + 1) + 3 (y + 1) + (z + 1): UFR is 26, UR 25; mirrored UFL 8, UL 7.
    assert set(plain.highlight) == {26, 25}
    assert set(mirrored.highlight) == {8, 7}
    assert shown(lines, Variation(quarters=1)).camera is None


def test_other_scenes_are_worked_out_too(answers: Answerer) -> None:
    text = (
        'title = "t"\ngoal = "g"\nideas = ["one"]\n'
        '[[scene]]\nkind = "find"\ntext = "F."\nwhat = "edge"\n' + CASE + 'afterwards = "{edge.place}."\n'
        '[[scene]]\nkind = "choose"\ntext = "C."\nabout = "joint"\nbecause = "B."\n'
        '[[scene]]\nkind = "recap"\ntext = "R."\npoints = ["{slot}"]\n'
    )
    find, choose, recap = assemble(read_script(text, "file.toml"), "file", Setting(answers)).scenes
    assert isinstance(find, Find)
    assert (find.what, find.afterwards) == (Sought.EDGE, "On top at the right.")
    assert set(find.answer) == {25}
    assert isinstance(choose, Choose)
    assert [(choice.text, choice.true) for choice in choose.answers] == [
        ("Apart", False),
        ("Touching", True),
        ("Joined", False),
    ]
    assert isinstance(recap, Recap)
    assert (recap.points, recap.idea) == (("Front-right slot",), "one")


def test_a_fixed_script_is_played_only_as_written(answers: Answerer) -> None:
    text = 'title = "t"\ngoal = "g"\nfixed = true\n[[scene]]\nkind = "show"\ntext = "T."\n'
    read = read_script(text + CASE + 'turns = "R"', "file.toml")
    [plain] = assemble(read, "file", Setting(answers)).scenes
    [varied] = assemble(read, "file", Setting(answers, Variation(1, True))).scenes
    assert plain == varied
