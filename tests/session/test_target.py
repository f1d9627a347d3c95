from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.held_cube import HeldCube, first_hold
from tutor.cube.notation import parse_moves
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.cube.symmetry import ROTATIONS, Symmetry
from tutor.session.target import aim_at, colours_as_held

rotations = st.sampled_from(ROTATIONS)
turns = st.lists(st.sampled_from(TURNS), max_size=10)


@given(rotations, turns, st.sampled_from(SLOTS))
def test_an_aim_means_the_same_however_the_cube_is_held(
    rotation: Symmetry, made: list[Turn], slot: Slot
) -> None:
    cube = HeldCube().after(made)
    aim = aim_at(cube, Face.D, slot)
    plain, turned = aim.bearing(cube), aim.bearing(cube.rotated(rotation))
    # The two may be held with another side in front, so compare what does not depend on that.
    assert len(plain.task.keep) == len(turned.task.keep)
    assert plain.task.done(plain.position) == turned.task.done(turned.position)
    assert plain.task.settled(plain.position) == turned.task.settled(turned.position)


def test_after_a_turn_of_the_whole_cube_the_slot_is_named_as_held() -> None:
    cube = HeldCube().after(parse_moves("R U R'"))
    aim = aim_at(cube, Face.D, Slot.FR)
    # y turns the cube like U: the front goes to the left, so front right becomes front left (WCA 12a4b).
    bearing = aim.bearing(cube.after(parse_moves("y")))
    assert bearing.task.slot is Slot.FL
    assert bearing.cross_down


def test_with_the_cross_elsewhere_turns_are_renamed_for_judging_and_back() -> None:
    cube = HeldCube().after(parse_moves("R U R' x"))
    bearing = aim_at(cube, Face.D, Slot.FR).bearing(cube)
    assert not bearing.cross_down
    for turn in Turn:
        assert bearing.turn_as_held(bearing.turn_as_judged(turn)) is turn
        judged = bearing.position.turned(bearing.turn_as_judged(turn))
        assert judged == cube.moved(turn).rotated(bearing.hold).position


@given(st.sampled_from(FACES))
def test_any_colour_can_be_the_cross(cross: Face) -> None:
    cube = HeldCube(SOLVED, first_hold(cross))
    assert cube.colour_of(Face.D) is cross
    bearing = aim_at(cube, cross, Slot.BL).bearing(cube)
    assert bearing.task.done(bearing.position)


def test_colour_words_follow_the_way_the_cube_is_held() -> None:
    names = ("yellow", "white", "red", "orange", "green", "blue")
    assert colours_as_held(HeldCube(), names) == names
    turned = HeldCube().after(parse_moves("z2"))
    assert colours_as_held(turned, names)[0] == "white"
