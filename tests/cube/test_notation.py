"""Notation, rule by rule of the WCA Regulations of 1 January 2024, Article 12a."""

import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.notation import (
    DEEPEST,
    LONGEST,
    PRIMES,
    Axis,
    Move,
    NotationError,
    Rotation,
    WideTurn,
    format_moves,
    parse_moves,
    parse_turns,
    turns_named,
)

QUARTERS = st.sampled_from((1, 2, 3))
moves = st.one_of(
    st.sampled_from(TURNS),
    st.builds(WideTurn, st.sampled_from(FACES), QUARTERS),
    st.builds(Rotation, st.sampled_from(list(Axis)), QUARTERS),
)
# Text made of what notation is made of goes deeper into the reader than any text does.
crumbs = st.lists(st.sampled_from([*"UDLRFBudlrfbMESmesxyzXYZw0123'’() \t\n", "2'", "Rw", ")2"]), max_size=12)
near_notation = crumbs.map("".join)


def refused(text: str) -> NotationError:
    with pytest.raises(NotationError) as caught:
        parse_moves(text)
    return caught.value


# ------------------------------------------------------------------------------------------------ read


@pytest.mark.parametrize("turn", TURNS)
def test_12a1_face_turns(turn: Turn) -> None:
    text = "UDLRFB"[turn // 3] + ("", "2", "'")[turn % 3]
    assert parse_moves(text) == (turn,)
    assert format_moves([turn]) == text


@pytest.mark.parametrize("face", FACES)
def test_12a2_wide_turns_take_two_layers_named_or_not(face: Face) -> None:
    for suffix, quarters in (("", 1), ("2", 2), ("'", 3)):
        assert parse_moves(f"{face.name}w{suffix}") == (WideTurn(face, quarters),)
        assert parse_moves(f"2{face.name}w{suffix}") == (WideTurn(face, quarters),)


@pytest.mark.parametrize("text", ["1Rw", "3Rw", "0Rw", "4Rw'", "22Rw", "3Rw2", "3Rw2'"])
def test_12a2_other_counts_of_layers_are_not_valid_here(text: str) -> None:
    fault = refused(text)
    assert fault.offending == text
    assert fault.advice == "a wide turn moves two layers on this cube; write Rw or 2Rw"


@pytest.mark.parametrize(("text", "axis"), [("x", Axis.X), ("y", Axis.Y), ("z", Axis.Z)])
def test_12a4_rotations(text: str, axis: Axis) -> None:
    for suffix, quarters in (("", 1), ("2", 2), ("'", 3)):
        assert parse_moves(text + suffix) == (Rotation(axis, quarters),)


def test_12a4_rotations_turn_like_r_u_and_f() -> None:
    assert [Face(axis) for axis in Axis] == [Face.R, Face.U, Face.F]


@pytest.mark.parametrize("text", ["R2'", "R'2", "Rw2'", "2Rw'2", "y2'"])
def test_a_half_turn_with_a_prime_is_not_defined(text: str) -> None:
    right = text.replace("'", "")
    assert refused(text).advice == f"a half turn ends the same both ways; write {right}"


@pytest.mark.parametrize("text", ["M", "E'", "S2", "m"])
def test_slice_turns_are_refused(text: str) -> None:
    assert refused(text).advice.startswith(
        "the standard has no slice turns; turn the two outer layers instead"
    )


@pytest.mark.parametrize("text", ["r", "u'", "f2", "rw"])
def test_small_letters_of_faces_are_refused(text: str) -> None:
    capital = text[0].upper()
    assert (
        refused(text).advice == f"a face is a capital letter; write {capital}, or {capital}w for two layers"
    )


A_MOVE = "start a move with U D L R F B or x y z. Add w for two layers, and put 2 or a prime (') last"


@pytest.mark.parametrize(
    ("text", "column", "offending", "advice"),
    [
        ("R U X", 5, "X", "a rotation is a small letter; write x"),
        ("R2w'", 1, "R2w'", A_MOVE),
        ("U R2w", 3, "R2w", "write Rw2"),
        ("U R'w", 3, "R'w", "write Rw'"),
        ("yw", 1, "yw", "x, y and z turn the whole cube and take no w; write y"),
        ("RU", 1, "RU", "put a space between moves"),
        ("R2U' F", 1, "R2U'", "put a space between moves"),
        ("R U3", 3, "U3", "put nothing, 2 or one prime (') after the letter"),
        ("R''", 1, "R''", "put nothing, 2 or one prime (') after the letter"),
        ("R 2", 3, "2", "put a number right after a closing bracket, or leave it out"),
        ("(R U) 2", 7, "2", "put a number right after a closing bracket, or leave it out"),
        ("R '", 3, "'", "put 2 or a prime (') right after the letter of a move"),
        ("(R U)'", 6, "'", "after a bracket, put only a number"),
        ("2R", 1, "2R", "write Rw or 2Rw"),
        ("  \n R Q", 7, "Q", A_MOVE),
        ("(R U", 1, "(", "nothing closes this bracket; add “)”"),
        ("U (R (U)", 3, "(", "nothing closes this bracket; add “)”"),
        ("R U)", 4, ")", "this bracket closes nothing; add “(” before it, or leave it out"),
        ("R ()", 4, ")", "this bracket is empty; put at least one move into it"),
        ("(R)0", 3, ")0", "a repeat count must be 1 or more"),
        ("(R)00", 3, ")00", "a repeat count must be 1 or more"),
        ("(R U)2Rw", 5, ")2Rw", "put a space after the repeat count"),
        ("(R U)2'", 5, ")2'", "put a space after the repeat count"),
        ("(R)٣", 4, "٣", A_MOVE),
        ("R R2’", 3, "R2’", "a half turn ends the same both ways; write R2"),
    ],
)
def test_an_error_names_the_place_and_what_would_be_right(
    text: str, column: int, offending: str, advice: str
) -> None:
    fault = refused(text)
    assert (fault.text, fault.column, fault.offending) == (text, column, offending)
    assert advice in fault.advice
    assert str(fault) == f"column {column}, “{offending}”: {fault.advice}"


def test_the_error_is_a_value_error_and_short_even_for_a_long_text() -> None:
    fault = refused("Q" * 5000)
    assert isinstance(fault, ValueError)
    assert len(str(fault)) < 200


def test_the_message_carries_no_characters_that_a_screen_would_obey() -> None:
    assert "\x1b" not in str(refused("R \x1b[31m"))


# -------------------------------------------------------------------------------------------- brackets


def test_brackets_repeat_and_nest() -> None:
    assert parse_moves("(R U R' U')3") == parse_moves("R U R' U' R U R' U' R U R' U'")
    assert parse_moves("((R U)2 F)2") == parse_moves("R U R U F R U R U F")
    assert parse_moves("(R U) F") == parse_moves("R U F")
    assert parse_moves("(R)2(U)02") == parse_moves("R R U U")
    assert parse_moves("F(R U)F") == parse_moves("F R U F")


def test_a_number_apart_from_its_bracket_is_never_taken_for_its_count() -> None:
    # "(R U) 2Rw" is a bracket and a wide turn; read as "(R U)2 Rw" it would silently mean something else.
    assert parse_moves("(R U) 2Rw") == (Turn.R, Turn.U, WideTurn(Face.R, 1))


def test_repeats_stop_at_the_longest_sequence() -> None:
    assert len(parse_moves(f"(R){LONGEST}")) == LONGEST
    assert len(parse_moves(f"((R){LONGEST // 10})10")) == LONGEST
    for text in (f"(R){LONGEST + 1}", f"((R){LONGEST})2", "(((R)9999)9999)9999", "(R)" + "9" * 100_000):
        assert refused(text).advice == f"a sequence can have at most {LONGEST} moves"
    assert refused("R " * (LONGEST + 1)).column == 2 * LONGEST + 1
    assert refused(f"U (R){LONGEST}").advice == f"a sequence can have at most {LONGEST} moves"


def test_brackets_nest_only_so_deep() -> None:
    assert parse_moves("(" * DEEPEST + "R" + ")" * DEEPEST) == (Turn.R,)
    assert refused("(" * 5000).column == DEEPEST + 1


# ------------------------------------------------------------------------------------------ conveniences


@pytest.mark.parametrize("prime", list(PRIMES))
def test_typographic_primes_are_understood(prime: str) -> None:
    assert parse_moves(f"R{prime} Uw{prime} y{prime}") == parse_moves("R' Uw' y'")


@pytest.mark.parametrize("text", ["", "  ", "\n\t"])
def test_no_text_is_no_moves(text: str) -> None:
    assert parse_moves(text) == ()


def test_any_white_space_sets_moves_apart() -> None:
    assert parse_moves("  R\tU\n\nF\u00a0B ") == (Turn.R, Turn.U, Turn.F, Turn.B)


@given(st.lists(moves, max_size=40).map(tuple))
def test_what_is_written_reads_back(sequence: tuple[Move, ...]) -> None:
    assert parse_moves(format_moves(sequence)) == sequence


@given(moves)
def test_the_inverse_of_a_move_turns_the_other_way(move: Move) -> None:
    assert move.inverse.inverse == move
    assert (move.quarters + move.inverse.quarters) % 4 == 0


@pytest.mark.parametrize("quarters", [0, 4, -1])
def test_wide_turns_and_rotations_turn_by_one_to_three_quarters(quarters: int) -> None:
    with pytest.raises(ValueError, match="1, 2 or 3 quarters"):
        WideTurn(Face.R, quarters)
    with pytest.raises(ValueError, match="1, 2 or 3 quarters"):
        Rotation(Axis.X, quarters)


@given(st.one_of(st.text(max_size=40), near_notation))
@example("2'2'")
@example("R{0}")
@example("ﬀ ß ſ ǅ")
def test_whatever_is_typed_gives_moves_or_true_advice(text: str) -> None:
    fault = None
    try:
        read = parse_moves(text)
    except NotationError as raised:
        fault = raised
    if fault is None:
        assert parse_moves(format_moves(read)) == read
        return
    assert fault.offending
    assert text[fault.column - 1 :].startswith(fault.offending)
    if "write" in fault.advice:
        found = re.search(r"write ([^ ,]+)(?:,? or ([^ ,]+))?(?: for two layers)?$", fault.advice)
        assert found is not None
        assert all(len(parse_moves(suggestion)) == 1 for suggestion in found.groups() if suggestion)


# ------------------------------------------------------------------------------------------- turns only


def test_turns_alone_are_read_where_nothing_else_makes_sense() -> None:
    assert parse_turns("(R U’)2 F2") == (Turn.R, Turn.U_PRIME, Turn.R, Turn.U_PRIME, Turn.F2)


@pytest.mark.parametrize(("text", "column", "offending"), [("R 2Rw", 3, "2Rw"), ("R (U y’)2", 6, "y’")])
def test_other_moves_are_refused_there_at_their_place(text: str, column: int, offending: str) -> None:
    with pytest.raises(
        NotationError, match="you can only turn single faces here, as in R, U2 or F'"
    ) as caught:
        parse_turns(text)
    assert (caught.value.column, caught.value.offending) == (column, offending)


def test_long_text_that_is_nearly_moves_is_refused_at_once() -> None:
    # A reader that tries the 2 both as the end of a move and as the beginning of the next never comes back.
    with pytest.raises(NotationError):
        parse_moves("Fw2" * 2000 + "?")
    with pytest.raises(NotationError, match="space"):
        parse_moves("Fw2" * 2000)


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Make R U2 R', and then stop.", ("R", "U2", "R'")),
        ("The layer goes with L’ or Rw2.", ("L’", "Rw2")),
        ("Raise both pieces: the FR slot, UF, R3, it's B's.", ()),
        ("(F), F. F; F", ("F", "F", "F", "F")),
    ],
)
def test_turns_are_found_in_sentences_and_letters_of_words_are_none(
    text: str, named: tuple[str, ...]
) -> None:
    assert turns_named(text) == named


@given(st.lists(st.one_of(st.sampled_from(TURNS), st.builds(WideTurn, st.sampled_from(FACES), QUARTERS))))
def test_every_turn_written_is_found_again(made: list[Turn | WideTurn]) -> None:
    assert parse_moves(" ".join(turns_named(f"Turn {format_moves(made)}."))) == tuple(made)
