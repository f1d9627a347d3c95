"""Setups, slots and slots to keep, as scripts and people write them."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.app.cli.task_request import RequestError, request_in_line, task_request
from tutor.app.cli.words.requests import EXAMPLE_LINE
from tutor.cube.faces import TURNS, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import format_moves, parse_moves
from tutor.cube.position import SOLVED, Slot

setups = st.lists(st.sampled_from(TURNS), max_size=12)


def test_a_setup_turns_the_solved_cube() -> None:
    asked = task_request("R U R'", "FR", None)
    assert asked.setup == "R U R'"
    assert asked.position == SOLVED.after([Turn.R, Turn.U, Turn.R_PRIME])
    assert asked.task.slot is Slot.FR


@given(setups, st.sampled_from(list(Slot)))
def test_without_keep_every_other_pair_that_is_home_is_kept(setup: list[Turn], slot: Slot) -> None:
    asked = task_request(format_moves(setup), slot.name, None)
    assert asked.task.keep == {
        other for other in Slot if other is not slot and asked.position.pair_home(other)
    }


def test_keep_may_name_fewer_slots_none_and_slots_that_are_not_solved() -> None:
    assert task_request("", "FR", ["BL"]).task.keep == {Slot.BL}
    assert task_request("", "FR", []).task.keep == frozenset()
    assert task_request("L", "FR", ["FL"]).task.keep == {Slot.FL}


def test_after_a_rotation_slots_are_named_as_held() -> None:
    # y carries the right side to the front (WCA 12a4b), so the pair of FR is then at the front left.
    asked = task_request("R U R' y", "FL", None)
    assert asked.position == SOLVED.after([Turn.F, Turn.U, Turn.F_PRIME])
    assert asked.task.keep == {Slot.FR, Slot.BL, Slot.BR}


def test_wide_turns_and_rotations_are_welcome_while_the_cross_comes_down_again() -> None:
    # Rw is x and L (WCA 12a2, 12a4a); between them U turns what was the front.
    assert task_request("Rw U Rw'", "FR", None).position == SOLVED.after([Turn.L, Turn.F, Turn.L_PRIME])
    assert task_request("x2 U x2", "FR", None).position == SOLVED.after([Turn.D])


@pytest.mark.parametrize(
    ("setup", "where"),
    [
        ("x2", "on top"), ("x", "in front"), ("x'", "at the back"), ("z", "on the left"),
        ("z'", "on the right"), ("R Rw U", "in front"),
    ],
)  # fmt: skip
def test_a_cube_whose_cross_is_not_down_is_refused_with_a_way_to_mend_it(setup: str, where: str) -> None:
    with pytest.raises(RequestError) as caught:
        task_request(setup, "FR", None)
    message = str(caught.value)
    told, advised = message.removesuffix(" at the end of the setup").rsplit(" ", 1)
    assert told == f"after this setup the cross is {where}, and it must be down; write"
    task_request(f"{setup} {advised}", "FR", None)


@pytest.mark.parametrize(
    ("setup", "slot", "keep", "message"),
    [
        (
            "R2'",
            "FR",
            None,
            "the setup has a mistake at column 1, “R2'”: a half turn ends the same both ways; write R2",
        ),
        ("", "RF", None, "“RF” is not a slot; write FR, FL, BL or BR"),
        ("", "fr", None, "“fr” is not a slot; write FR, FL, BL or BR"),
        ("", "FR", ["UF"], "“UF” is not a slot; write FR, FL, BL or BR"),
        (
            "",
            "FR",
            ["FL", "FR"],
            "FR is the slot to solve, so you cannot keep it as it is; leave it out of the slots to keep",
        ),
        ("", "\x1b[31m", None, "“\\x1b[31m” is not a slot; write FR, FL, BL or BR"),
    ],
)
def test_each_wrong_part_is_named_with_what_would_be_right(
    setup: str, slot: str, keep: list[str] | None, message: str
) -> None:
    with pytest.raises(RequestError) as caught:
        task_request(setup, slot, keep)
    assert str(caught.value) == message


# ------------------------------------------------------------------------------------------- batch lines


def test_the_example_line_is_one() -> None:
    assert request_in_line(EXAMPLE_LINE.encode()) == task_request("R U R'", "FR", ["FL", "BL", "BR"])


def test_a_line_may_leave_keep_out() -> None:
    assert request_in_line(b'{"slot": "BL", "setup": "L"}') == task_request("L", "BL", None)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (b"", ("the line is empty",)),
        (b"  \t", ("the line is empty",)),
        (b"R U R' FR", ("malformed", "(byte ")),
        (b"[]", ("`object`", "`array`")),
        (b"null", ("`object`", "`null`")),
        (b"{}", ("missing", "`setup`")),
        (b'{"setup": ""}', ("missing", "`slot`")),
        (b'{"setup": 3, "slot": "FR"}', ("`str`", "`int`", "`$.setup`")),
        (b'{"setup": "", "slot": null}', ("`str`", "`null`", "`$.slot`")),
        (b'{"setup": "", "slot": "FR", "keep": "FL"}', ("`array`", "`str`", "`$.keep`")),
        (b'{"setup": "", "slot": "FR", "keep": null}', ("`array`", "`null`", "`$.keep`")),
        (b'{"setup": "", "slot": "FR", "keep": [1]}', ("`str`", "`int`", "`$.keep[0]`")),
        (b'{"setup": "", "slot": "FR", "depth": 3}', ("unknown", "`depth`")),
        (b'{"setup": "", "slot": "FR"} {}', ("trailing", "(byte ")),
        (b'{"setup": "\xff", "slot": "FR"}', ("the line is not UTF-8 text",)),
        (b"[" * 60_000, ("`object`", "`array`")),
    ],
)
def test_a_bad_line_is_told_with_the_place_and_what_a_line_looks_like(
    line: bytes, told: tuple[str, ...]
) -> None:
    """What is wrong and where; the sentence round it is the JSON library's, and changes with its versions."""
    with pytest.raises(RequestError) as caught:
        request_in_line(line)
    assert [each for each in told if each not in str(caught.value)] == []
    assert str(caught.value).endswith(f"; write a JSON object, for instance {EXAMPLE_LINE}")


@given(st.binary(max_size=60))
def test_any_bytes_give_a_question_or_a_reason(line: bytes) -> None:
    try:
        asked = request_in_line(line)
    except RequestError as fault:
        reason = str(fault)
    else:
        reason = asked.task.slot.name
    assert reason


@given(setups, st.sampled_from(list(Slot)), st.frozensets(st.sampled_from(list(Slot))))
def test_a_written_line_asks_what_was_meant(setup: list[Turn], slot: Slot, keep: frozenset[Slot]) -> None:
    others = keep - {slot}
    text = format_moves(setup)
    line = json.dumps({"setup": text, "slot": slot.name, "keep": [other.name for other in others]})
    asked = request_in_line(line.encode())
    assert asked.position == HeldCube().after(parse_moves(text)).position
    assert (asked.task.slot, asked.task.keep) == (slot, others)
