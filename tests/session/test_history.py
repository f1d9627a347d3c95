from hypothesis import given
from hypothesis import strategies as st

from tests.session.pilot import turn_count
from tutor.cube.faces import TURNS, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Axis, Move, Rotation, parse_moves
from tutor.session.history import History

moves = st.lists(
    st.sampled_from(TURNS) | st.builds(Rotation, st.sampled_from(Axis), st.sampled_from((1, 2, 3))),
    max_size=12,
)


@given(moves)
def test_undoing_everything_leads_back_to_the_start_and_redoing_to_the_end(made: list[Move]) -> None:
    history = History(HeldCube()).extended(made)
    end = history.cube
    for _ in made:
        history = history.undone()
    assert history.cube == HeldCube()
    assert history.moved_to(len(made)).cube == end


@given(moves)
def test_a_history_is_rebuilt_from_its_start_and_its_notation(made: list[Move]) -> None:
    history = History(HeldCube()).extended(made)
    assert History(history.start).extended(parse_moves(history.notation)) == history


def test_a_new_move_drops_what_could_have_been_made_again() -> None:
    history = History(HeldCube()).extended([Turn.R, Turn.U]).undone().pushed(Turn.F)
    assert history.notation == "R F"
    assert history.moved_to(9) == history


def test_rotations_do_not_count_as_turns() -> None:
    # WCA 12a5: a rotation counts none, a wide turn one.
    assert turn_count(History(HeldCube()).extended(parse_moves("x Rw U y2"))) == 2


def test_undo_at_the_start_brings_back_the_history_put_aside() -> None:
    before = History(HeldCube()).extended([Turn.R])
    after = before.restarted(HeldCube().moved(Turn.F))
    back = after.undone()
    assert (back.start, back.entries, back.cursor) == (before.start, before.entries, before.cursor)


def test_redo_goes_on_to_what_was_begun_anew_and_a_new_move_drops_it() -> None:
    before = History(HeldCube()).extended([Turn.R, Turn.U, Turn.F]).undone()
    begun = before.restarted(HeldCube()).extended([Turn.L]).restarted(HeldCube())
    back = begun.undone().undone().undone()
    assert back.notation == "R U"
    assert back.redone().redone().redone() == begun
    assert not begun.can_redo
    assert back.can_redo
    assert not back.pushed(Turn.D).can_redo


@given(moves, moves)
def test_several_moves_at_once_are_those_moves_one_by_one(first: list[Move], then: list[Move]) -> None:
    history = History(HeldCube()).extended(first).moved_to(len(first) // 2)
    one_by_one = history
    for move in then:
        one_by_one = one_by_one.pushed(move)
    assert history.extended(then) == one_by_one
