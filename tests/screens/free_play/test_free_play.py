"""Free play through the real application, without a window."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from tests.session.pilot import Pilot, Reading, bearing_of, rail_of, stage_of
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import CROSS_EDGES, SOLVED, Slot
from tutor.screens.free_play.state import FREE
from tutor.session.commands import Act
from tutor.session.saving import Turns, turns_to_save
from tutor.solver.task import Task
from tutor.ui.inputs import (
    KeyPressed,
    LayerDragged,
    LayerReleased,
    Looked,
    LookReleased,
    Modifier,
    Zoomed,
)
from tutor.ui.view import REST_CAMERA, Arrow, Entry, Mark


def test_a_made_pair_is_three_turns_from_home_and_only_one_turn_begins_the_way(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    assert "Insert · three turns to go at best" in Reading(pilot.view).texts
    pilot.turn("R")
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL
    assert "Insert · two turns to go at best" in Reading(pilot.view).texts


def test_a_detour_is_told_and_can_be_taken_back(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.turn("L")
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.DETOUR
    assert note.text
    pilot.key("backspace")
    pilot.settle()
    assert Reading(pilot.view).verdicts == []
    assert "Insert · three turns to go at best" in Reading(pilot.view).texts


def test_one_can_go_on_from_a_detour(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.turn("L R L' U' R'")
    assert FREE.of(pilot.session).cube.position == SOLVED
    assert "The pair is solved." in Reading(pilot.view).texts
    off = [tile.off_rail for tile in rail_of(pilot).own]
    assert off == [False] * 3 + [True, True, False, False, False]


def test_keys_turn_layers_and_a_two_makes_the_last_turn_a_half_turn(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.key("r")
    pilot.key("u", Modifier.SHIFT)
    pilot.key("f")
    pilot.key("2")
    assert FREE.of(pilot.session).history.notation == "R U' F2"
    assert FREE.of(pilot.session).cube.position == SOLVED.after([Turn.R, Turn.U_PRIME, Turn.F2])


def test_the_verdict_is_there_in_the_frame_after_the_turn(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.settle()
    pilot.key("r")
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL


def test_undo_and_redo_go_without_limit_and_any_point_can_be_jumped_to(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.turn("(R U R' U')30")
    for _ in range(120):
        pilot.key("z", Modifier.CONTROL)
    assert FREE.of(pilot.session).cube.position == SOLVED
    for _ in range(120):
        pilot.key("y", Modifier.CONTROL)
    assert FREE.of(pilot.session).history.cursor == 120
    pilot.press("jump:61")
    assert FREE.of(pilot.session).cube.position == SOLVED.after(parse_turns("(R U R' U')15 R"))


def test_reset_and_scramble_can_be_undone(pilot: Pilot) -> None:
    pilot.free_play("R U F")
    before = FREE.of(pilot.session).cube
    pilot.key("n")
    pilot.settle()
    assert FREE.of(pilot.session).cube != before
    pilot.key("0")
    pilot.settle()
    assert FREE.of(pilot.session).cube.position == SOLVED
    pilot.key("z", Modifier.CONTROL)
    pilot.key("z", Modifier.CONTROL)
    assert FREE.of(pilot.session).cube == before


def test_rotations_change_the_words_and_not_the_cube(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    state = FREE.of(pilot.session).cube.state
    pilot.key("y")
    pilot.settle()
    assert FREE.of(pilot.session).cube.state == state
    assert Reading(pilot.view).button("FL").selected
    assert "Insert · three turns to go at best" in Reading(pilot.view).texts


def test_with_the_cross_elsewhere_turns_are_still_judged(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("x")
    pilot.settle()
    # x turns the cube like R, so the right side stays on the right and R is still the way in.
    pilot.key("r")
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL


def test_another_slot_is_another_task(pilot: Pilot) -> None:
    pilot.free_play("R U R' L' U' L")
    pilot.press("slot:FL")
    pilot.settle()
    bearing = bearing_of(pilot)
    assert bearing.task == Task(Slot.FL, frozenset({Slot.BL, Slot.BR}))
    pilot.key("bracket right")
    assert bearing_of(pilot).task.slot is Slot.BL


def test_the_way_is_offered_and_once_shown_offered_again_until_the_cube_changes(pilot: Pilot) -> None:
    def label() -> str:
        buttons = Reading(pilot.view).buttons
        return next(button.label for button in buttons if button.action is Act.SHOW_AGAIN)

    pilot.free_play("R U R'")
    assert label() == "Show me the way"
    pilot.key("a")
    assert label() == "Show again"
    pilot.key("escape")
    assert label() == "Show again"
    pilot.turn("U")
    pilot.settle()
    assert label() == "Show me the way"
    pilot.key("backspace")
    pilot.settle()
    assert label() == "Show again"
    pilot.press("slot:FL")
    pilot.settle()
    assert label() == "Show me the way"


def test_where_there_is_no_way_to_show_none_is_offered(pilot: Pilot) -> None:
    def offered() -> bool:
        buttons = Reading(pilot.view).buttons
        return next(button.enabled for button in buttons if button.action is Act.SHOW_AGAIN)

    pilot.free_play()
    pilot.press("slot:FL")
    pilot.settle()
    assert not offered()
    pilot.free_play("R U R'")
    assert offered()


def test_until_the_cross_is_solved_the_card_says_how_far_it_is(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.press(Reading(pilot.view).button("Scramble all").action)
    pilot.settle()
    edges = FREE.of(pilot.session).cube.position.edges
    solved = ("no", "one", "two", "three")[sum(edges[piece] == 2 * piece for piece in CROSS_EDGES)]
    verb = "is" if solved == "one" else "are"
    said = f"Of the four cross edges, {solved} {verb} solved. Solve all four to choose a slot."
    assert said in Reading(pilot.view).texts


def test_until_the_cross_is_home_no_step_is_told(pilot: Pilot) -> None:
    pilot.free_play("F2 D R")
    pilot.press(Reading(pilot.view).button("Scramble all").action)
    pilot.settle()
    assert FREE.of(pilot.session).aim is None
    assert "Solve the cross first" in Reading(pilot.view).texts
    pilot.turn("R")
    assert Reading(pilot.view).verdicts == []


def test_written_moves_are_made_and_a_mistake_keeps_the_text_and_names_the_column(pilot: Pilot) -> None:
    pilot.free_play("U")
    pilot.key("slash")
    pilot.write("R U M")
    pilot.key("enter")
    entry = next(block for block in Reading(pilot.view).blocks if isinstance(block, Entry))
    assert entry.text == "R U M"
    assert entry.error_column == 4
    assert "M" in entry.error
    pilot.key("backspace")
    pilot.write("Rw' y")
    pilot.key("enter")
    assert FREE.of(pilot.session).history.notation == "U R U Rw' y"
    assert not pilot.session.writing.open


def test_what_is_written_before_anything_was_turned_is_a_set_up(pilot: Pilot) -> None:
    """A set-up of two pairs: nothing of it is judged or shown in a clip, and Undo leads back."""
    setup = "R U R' L' U' L"
    pilot.free_play()
    pilot.press(Reading(pilot.view).button("Write a set-up").action)
    entry = next(block for block in Reading(pilot.view).blocks if isinstance(block, Entry))
    assert entry.label == "A set-up such as R U R': it is not judged. Then press Enter"
    pilot.write(setup)
    pilot.key("enter")
    pilot.settle()
    history = FREE.of(pilot.session).history
    assert history.start.position == SOLVED.after(parse_turns(setup))
    assert history.entries == ()
    assert pilot.view.notice == "You begin here. Undo brings the cube before it back."
    assert Reading(pilot.view).verdicts == []
    assert rail_of(pilot).own == ()
    assert bearing_of(pilot).task == Task(Slot.FR, frozenset({Slot.BL, Slot.BR}))
    assert Reading(pilot.view).button("Write a set-up")
    pilot.turn("U")
    assert len(Reading(pilot.view).verdicts) == 1
    saved = turns_to_save(pilot.session, FREE.of(pilot.session))
    assert isinstance(saved, Turns)
    assert (saved.start, saved.turns) == (history.start, parse_turns("U"))
    assert Reading(pilot.view).button("Write moves")
    pilot.key("backspace")
    pilot.key("backspace")
    assert FREE.of(pilot.session).cube.position == SOLVED


def test_a_mistake_in_a_set_up_keeps_the_text_and_names_the_column(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.key("slash")
    pilot.write("R U M")
    pilot.key("enter")
    entry = next(block for block in Reading(pilot.view).blocks if isinstance(block, Entry))
    assert (entry.text, entry.error_column) == ("R U M", 4)
    assert FREE.of(pilot.session).cube.position == SOLVED


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_the_verdict_is_in_sight_in_the_smallest_window(pilot: Pilot, scale: float) -> None:
    pilot.free_play("R U R'")
    pilot.turn("L")
    (note,) = Reading(pilot.view).verdicts
    view = replace(pilot.view, look=replace(pilot.view.look, text_scale=scale))
    (card,) = [panel for panel in layout(view, 960, 640).panels if panel.place is WindowPart.CARD]
    lines = [line for box in card.boxes for line in box.lines if line.text in note.title]
    assert lines
    assert all(card.rect.y <= line.baseline <= card.rect.y + card.rect.height for line in lines)


def test_letters_typed_into_the_field_turn_nothing(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.key("slash")
    pilot.key("r")
    pilot.key("n")
    pilot.key("2")
    assert FREE.of(pilot.session).history.entries == ()
    assert FREE.of(pilot.session).cube.position == SOLVED


@pytest.mark.parametrize(
    ("angle", "expected"),
    [
        # Half a sticker of the three along an edge: an arc of 0.5 at a radius of 1.5 stickers.
        (0.32, ""),
        (-0.32, ""),
        (0.34, "R"),
        (-0.34, "R'"),
        (0.9, "R"),
        (-0.9, "R'"),
        (pi / 2 + 0.9, "R2"),
        (-pi + 0.3, "R2"),
        (2 * pi, ""),
    ],
)
def test_a_dragged_layer_snaps_to_the_nearest_quarter(pilot: Pilot, angle: float, expected: str) -> None:
    pilot.free_play()
    pilot.give(LayerDragged(Face.R, angle / 2), LayerDragged(Face.R, angle))
    turning = stage_of(pilot).turning
    assert turning is not None
    assert turning.angle == pytest.approx(angle)
    pilot.wait(0.5)
    pilot.give(LayerReleased(Face.R, angle))
    assert FREE.of(pilot.session).history.notation == expected
    pilot.wait(2.0)
    assert stage_of(pilot).turning is None
    assert stage_of(pilot).colours == FREE.of(pilot.session).cube.colours


@pytest.mark.parametrize("angle", [0.3, -0.7, 0.9, -1.3, 1.9, -pi + 0.3])
def test_a_layer_let_go_glides_from_the_hands_angle_and_never_jumps(pilot: Pilot, angle: float) -> None:
    pilot.free_play()
    before = stage_of(pilot).colours
    pilot.give(LayerDragged(Face.R, angle))
    pilot.wait(0.5)
    pilot.give(LayerReleased(Face.R, angle))
    angles = []
    while pilot.moving:
        stage = stage_of(pilot)
        assert stage.colours == before
        assert stage.turning is not None
        angles.append(stage.turning.angle)
        pilot.wait(0.01)
    assert angles[0] == pytest.approx(angle)
    assert abs(np.diff(angles)).max() < 0.2
    end = {0.3: 0, -0.7: -1, 0.9: 1, -1.3: -1, 1.9: 1}.get(angle, -2) * pi / 2
    assert angles[-1] == pytest.approx(end, abs=0.2)


@pytest.mark.parametrize(("seconds", "expected"), [(0.1, "R"), (0.5, "")])
def test_a_flick_makes_the_turn_and_a_slow_short_drag_does_not(
    pilot: Pilot, seconds: float, expected: str
) -> None:
    pilot.free_play()
    pilot.give(LayerDragged(Face.R, 0.05))
    pilot.wait(seconds)
    pilot.give(LayerDragged(Face.R, 0.2), LayerReleased(Face.R, 0.2))
    assert FREE.of(pilot.session).history.notation == expected


def test_a_touch_is_no_flick(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.give(LayerDragged(Face.R, 0.03), LayerReleased(Face.R, 0.03))
    assert FREE.of(pilot.session).history.notation == ""


def test_the_first_layer_that_springs_back_is_explained_and_no_other(pilot: Pilot) -> None:
    said = "That was too short for a turn. Drag half a sticker's length, or flick."
    pilot.free_play()
    for notice in (said, ""):
        pilot.give(LayerDragged(Face.R, 0.2))
        pilot.wait(0.5)
        pilot.give(LayerReleased(Face.R, 0.2))
        assert pilot.view.notice == notice
        pilot.wait(0.5)
        pilot.press("open:FREE_PLAY")


def test_with_reduced_motion_a_layer_let_go_is_in_its_place_at_once(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.press("choose:MOTION:1")
    pilot.give(LayerDragged(Face.R, 1.2), LayerReleased(Face.R, 1.2))
    assert not pilot.moving
    assert stage_of(pilot).turning is None
    assert FREE.of(pilot.session).history.notation == "R"


def test_looking_round_lets_go_back_and_zoom_has_limits(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.give(Looked(30.0, -10.0))
    assert stage_of(pilot).camera.yaw == pytest.approx(REST_CAMERA.yaw + 30.0)
    pilot.give(LookReleased())
    assert stage_of(pilot).camera == REST_CAMERA
    pilot.give(Zoomed(2.0), Looked(30.0, -10.0), LookReleased())
    assert stage_of(pilot).camera == replace(REST_CAMERA, zoom=1.1**2.0)
    pilot.key("home")
    assert stage_of(pilot).camera == REST_CAMERA
    pilot.give(*[Zoomed(3.0)] * 20)
    assert stage_of(pilot).camera.zoom <= 1.8
    pilot.key("left", Modifier.SHIFT)
    assert stage_of(pilot).camera.yaw < REST_CAMERA.yaw


def test_the_way_is_shown_from_the_cube_as_it_is_and_the_view_is_left_alone(pilot: Pilot) -> None:
    pilot.free_play("R U2 R' U R U' R'")
    pilot.press("slot:FR")
    pilot.settle()
    pilot.turn("L")
    camera = pilot.session.camera
    pilot.key("a")
    assert rail_of(pilot).scrubs_route
    start = stage_of(pilot).colours
    assert start == FREE.of(pilot.session).cube.colours
    pilot.settle()
    pilot.wait(240.0)
    assert not pilot.moving
    assert pilot.session.demonstration is not None
    end = pilot.session.demonstration.pose(pilot.now).cube
    assert Task(Slot.FR).done(end.position)
    assert pilot.session.camera == camera
    pilot.key("escape")
    assert FREE.of(pilot.session).history.notation == "R U2 R' U R U' R' L"


def test_what_is_shown_can_be_paused_stepped_and_slowed(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("a")
    pilot.wait(0.8)
    assert pilot.moving
    pilot.key("space")
    assert not pilot.moving
    pilot.key("right")
    pilot.wait(10.0)
    assert rail_of(pilot).playhead == 1.0
    assert not pilot.moving
    pilot.key("left")
    assert rail_of(pilot).playhead == 0.0
    pilot.key("down")
    assert pilot.session.demonstration is not None
    assert pilot.session.demonstration.speed < 1.0


def test_a_hint_goes_one_rung_deeper_each_time_and_is_for_the_position_now(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("h")
    assert stage_of(pilot).glowing
    assert "Hint 1 of 3. Press H for more" in Reading(pilot.view).texts
    pilot.key("h")
    pilot.key("h")
    assert stage_of(pilot).arrow == Arrow(Turn.R)
    pilot.turn("L")
    pilot.wait(1.0)
    assert stage_of(pilot).arrow is None
    for _ in range(3):
        pilot.key("h")
    assert stage_of(pilot).arrow == Arrow(Turn.L_PRIME)


def test_the_target_pair_is_outlined_and_its_slot_framed(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    stage = stage_of(pilot)
    assert len(stage.outlined) == 2
    assert len(stage.framed) == 2
    assert stage.dimmed
    assert not stage.dimmed & stage.outlined
    # What merely fills the slot is dimmed, so that the slot looks empty (design, Stage).
    assert stage.framed <= stage.dimmed


def test_escape_closes_one_thing_at_a_time_and_then_goes_home(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("slash")
    pilot.key("f1")
    assert pilot.view.overlay
    pilot.key("escape")
    assert not pilot.view.overlay
    pilot.key("escape")
    assert not pilot.session.writing.open
    shown = [pilot.session.screen]
    pilot.key("escape")
    assert [*shown, pilot.session.screen] == ["free play", "home"]


def test_tab_and_enter_reach_every_button(pilot: Pilot) -> None:
    pilot.free_play()
    seen = set()
    for _ in range(40):
        pilot.key("tab")
        seen.add(pilot.focus)
    assert {"act:SCRAMBLE", "free:RESET", "slot:BR", "act:HELP"} <= seen
    while pilot.focus != "slot:BR":
        pilot.give(KeyPressed("tab", Modifier.SHIFT))
    pilot.key("enter")
    assert bearing_of(pilot).task.slot is Slot.BR


def test_an_exception_becomes_a_card_and_the_session_goes_on(pilot: Pilot) -> None:
    pilot.free_play("R")
    pilot.application.failed(RuntimeError("no luck"))
    assert any("no luck" in text for text in Reading(pilot.view).texts)
    pilot.key("escape")
    assert not pilot.view.overlay
    assert FREE.of(pilot.session).history.notation == "R"


def test_control_q_closes_the_window(pilot: Pilot) -> None:
    pilot.key("q", Modifier.CONTROL)
    assert pilot.closed


def test_turns_that_set_a_case_up_say_when_turns_are_judged(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.turn("R U")
    assert any("setting up a case" in text for text in Reading(pilot.view).texts)
    assert not Reading(pilot.view).verdicts
    pilot.turn("R'")
    assert not any("setting up a case" in text for text in Reading(pilot.view).texts)
    pilot.turn("U")
    assert Reading(pilot.view).verdicts
