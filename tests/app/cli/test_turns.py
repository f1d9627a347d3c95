"""``turns``: one position with JSON or a table, and many line by line."""

import io
import json
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.console import Console

from tests.solver.plain_search import PlainSearch
from tutor.app.cli.command_line import main
from tutor.app.cli.task_request import TaskRequest, task_request
from tutor.app.cli.turns import LONGEST_LINE, answer_lines
from tutor.app.cli.turns_table import show_answer
from tutor.coach.feedback import feedback
from tutor.cube.faces import TURNS, Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves, parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import answer
from tutor.method.cases import case_of
from tutor.solver.search import Solver
from tutor.solver.task import Task

KEYS = ["setup", "slot", "keep", "settled", "distance", "by_hand", "to_go", "case", "step", "turns"]
KEYS += ["lines", "routes"]
FAR_CASE = "R U R' U' R U' R' U2"
"""From here by hand seven turns are the fewest, and with far layers too five."""
LINE = b"""{"setup": "R U R'", "slot": "FR"}\n"""


def turns(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert main(["turns", *arguments, "--json"]) == 0
    written = capsys.readouterr()
    assert written.err == ""
    assert written.out.count("\n") == 1
    found: dict[str, Any] = json.loads(written.out)
    return found


def by_verdict(found: dict[str, Any], verdict: str) -> set[str]:
    return {one["turn"] for one in found["turns"] if one["verdict"] == verdict}


def test_the_example_has_distance_3_and_one_optimal_turn(capsys: pytest.CaptureFixture[str]) -> None:
    found = turns(capsys, "--setup", "R U R'", "--slot", "FR")
    assert list(found) == KEYS
    assert (found["setup"], found["slot"], found["keep"]) == ("R U R'", "FR", ["FL", "BL", "BR"])
    assert found["settled"] is True
    assert (found["distance"], found["by_hand"], found["to_go"]) == (3, 3, 3)
    assert by_verdict(found, "optimal") == {"R"}
    assert found["step"] == "insert"
    assert "Corner on top at its slot" in found["case"]
    assert found["lines"] == ["R U' R'"]
    assert found["routes"][0] == {"notation": "R U' R'", "length": 3, "steps": {"insert": "R U' R'"}}


@pytest.mark.parametrize(("setup", "back"), [("R U R'", "U'"), ("R U R' U'", ""), ("R U R' U2", "U")])
def test_a_case_with_its_top_turned_is_told_with_the_turn_that_makes_its_name_true(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, setup: str, back: str
) -> None:
    monkeypatch.setenv("COLUMNS", "240")
    assert main(["turns", "--setup", setup, "--slot", "FR"]) == 0
    written = capsys.readouterr().out
    assert (" it looks like this. " in written) is bool(back)
    position = SOLVED.after(parse_turns(f"{setup} {back}"))
    sighting = case_of(position, Task.at(position, Slot.FR))
    assert sighting is not None
    assert sighting.alignment == 0
    assert not back or f" After {back} it looks like this. Corner on top" in written


def test_all_eighteen_turns_are_judged_in_figures_that_agree(capsys: pytest.CaptureFixture[str]) -> None:
    found = turns(capsys, "--setup", "F' U2 F U R U2 R'", "--slot", "FR")
    assert len({one["turn"] for one in found["turns"]}) == 18
    for one in found["turns"]:
        assert list(one) == ["turn", "after", "cost", "by_hand", "lost", "verdict", "why", "says"]
        assert one["cost"] == one["after"] + 1 - found["distance"]
        nearer_by_hand = one["by_hand"] == found["by_hand"] - 1 and one["turn"][0] in "URF"
        assert (one["verdict"] == "optimal") == (one["cost"] == 0 or nearer_by_hand)
        assert one["verdict"] in {"optimal", "acceptable", "detour"}
        assert one["why"]
        assert one["says"]


def plain_distance(position: Position, faces: frozenset[Face]) -> int:
    """The fewest turns of these faces to the cross and all four pairs, by a search of the tests' own."""
    search = PlainSearch(tuple(SLOTS), 3, faces)
    return int(search.distances(np.array([search.key(position)]))[0])


def test_by_hand_and_at_all_are_told_beside_each_other(capsys: pytest.CaptureFixture[str]) -> None:
    found = turns(capsys, "--setup", FAR_CASE, "--slot", "FR")
    position = SOLVED.after(parse_turns(FAR_CASE))
    task = Task.at(position, Slot.FR)
    assert (found["distance"], found["by_hand"], found["to_go"]) == (5, 7, 7)
    assert plain_distance(position, frozenset(Face)) == 5
    assert plain_distance(position, frozenset({Face.U, Face.R, Face.F})) == 7
    assert all(len(parse_turns(line)) == 7 and set(line) <= set("URF'2 ") for line in found["lines"])
    assert all(task.done(position.after(parse_turns(line))) for line in found["lines"])
    by_turn = {one["turn"]: one for one in found["turns"]}
    # R begins a shortest line by hand and R B U2 B' R'; B leads off the faces beside the slot.
    assert (by_turn["R"]["after"], by_turn["R"]["by_hand"], by_turn["R"]["verdict"]) == (4, 6, "optimal")
    assert (by_turn["B"]["by_hand"], by_turn["B"]["verdict"]) == (None, "detour")
    for route in found["routes"]:
        assert set(route["notation"]) <= set("URF'2 ")


def test_without_a_way_by_hand_the_key_is_null_and_all_turns_count(
    capsys: pytest.CaptureFixture[str],
) -> None:
    found = turns(capsys, "--setup", "B", "--slot", "FR", "--keep", "FL,BL,BR")
    assert (found["distance"], found["by_hand"], found["to_go"]) == (1, None, 1)
    assert found["lines"] == ["B'"]
    by_turn = {one["turn"]: one for one in found["turns"]}
    # U, R and F never mend what B did: the back edges of the cross and of two pairs are out of their reach.
    assert {turn for turn, one in by_turn.items() if one["by_hand"] is not None} == {"B'"}
    assert by_turn["B'"]["by_hand"] == 0
    assert by_verdict(found, "optimal") == {"B'"}


def test_slots_that_are_not_kept_lend_their_faces(capsys: pytest.CaptureFixture[str]) -> None:
    found = turns(capsys, "--setup", "B", "--slot", "FR")
    # B took both back pairs out, so they are not kept, and B is a face to work with.
    assert (found["keep"], found["distance"], found["by_hand"], found["to_go"]) == (["FL"], 1, 1, 1)


def test_each_turn_is_told_as_in_the_window_with_its_usual_colours(
    capsys: pytest.CaptureFixture[str],
) -> None:
    said = {one["turn"]: one["says"] for one in turns(capsys, "--setup", "R U R'", "--slot", "FR")["turns"]}
    # The usual colours are white down and green in front (tutor/cube/stickers.py).
    position = SOLVED.after(parse_turns("R U R'"))
    found = answer(Solver.open(), position, Task.at(position, Slot.FR))
    assert said == {turn.notation: feedback(found, turn, COLOUR_NAMES).text for turn in TURNS}
    assert "white" in " ".join(said.values())


def test_colours_go_along_when_the_cube_is_held_another_way(capsys: pytest.CaptureFixture[str]) -> None:
    # After y the orange side is in front and the green one at the left (WCA 12a4b).
    found = turns(capsys, "--setup", "R U R' y", "--slot", "FL")
    held = HeldCube().after(parse_moves("R U R' y"))
    as_held = ("yellow", "white", "green", "blue", "orange", "red")
    told = answer(Solver.open(), held.position, Task.at(held.position, Slot.FL))
    assert [one["says"] for one in found["turns"]] == [feedback(told, turn, as_held).text for turn in TURNS]


@pytest.mark.parametrize(
    ("setup", "slot"), [("R U R'", "FR"), ("L' U2 L U' F' U F", "FL"), ("R2 U B2 U'", "BR")]
)
def test_lines_and_routes_lead_home(capsys: pytest.CaptureFixture[str], setup: str, slot: str) -> None:
    found = turns(capsys, "--setup", setup, "--slot", slot)
    position = SOLVED.after(parse_turns(setup))
    task = Task.at(position, Slot[slot])
    assert found["lines"]
    for line in found["lines"]:
        assert len(parse_turns(line)) == found["to_go"]
        assert task.done(position.after(parse_turns(line)))
    for route in found["routes"]:
        assert task.done(position.after(parse_turns(route["notation"])))
        assert len(parse_turns(route["notation"])) == route["length"] >= found["to_go"]
        assert " ".join(route["steps"].values()) == route["notation"]
        assert all(len(parse_turns(step)) <= 4 for step in route["steps"].values())


def test_the_words_change_with_the_viewpoint(capsys: pytest.CaptureFixture[str]) -> None:
    # y carries the right side to the front (WCA 12a4b): what was R at FR is F at FL.
    found = turns(capsys, "--setup", "R U R' y", "--slot", "FL")
    assert found["distance"] == 3
    assert by_verdict(found, "optimal") == {"F"}


def test_what_is_kept_decides(capsys: pytest.CaptureFixture[str]) -> None:
    assert turns(capsys, "--setup", "L U L' R U R'", "--slot", "FR", "--keep", "BL, BR")["keep"] == [
        "BL",
        "BR",
    ]
    assert turns(capsys, "--setup", "", "--slot", "BL", "--keep", "")["keep"] == []


def test_the_solved_cube_is_done(capsys: pytest.CaptureFixture[str]) -> None:
    found = turns(capsys, "--setup", "", "--slot", "FR")
    assert (found["distance"], found["by_hand"], found["to_go"]) == (0, 0, 0)
    assert (found["step"], found["case"]) == ("done", None)
    assert (found["lines"], found["routes"]) == ([], [])


def test_an_unsettled_position_has_no_case(capsys: pytest.CaptureFixture[str]) -> None:
    found = turns(capsys, "--setup", "R", "--slot", "FR", "--keep", "FL,BL,BR")
    assert (found["settled"], found["case"], found["distance"]) == (False, None, 1)


# ----------------------------------------------------------------------------------------------- tables


def shown(setup: str, slot: str, width: int = 100) -> str:
    return table(task_request(setup, slot, None), width)


def table(asked: TaskRequest, width: int = 100) -> str:
    console = Console(file=io.StringIO(), width=width)
    show_answer(answer(Solver.open(), asked.position, asked.task), asked.setup, console)
    written = console.file.getvalue()  # type: ignore[attr-defined]
    assert isinstance(written, str)
    return written


def test_the_table_tells_the_facts_and_the_best_turns_first() -> None:
    written = shown("R U R'", "FR", 200)
    told = (
        "R U R'",
        "FR, keeping FL BL BR",
        "Cross and kept pairs  solved",
        "Case 23",
        "White left, edge in front, tops alike. After U' it looks like this. Corner on top at its slot",
        "3 turns by hand",
        "Insert",
        "Corner on top at its slot",
        "R U' R'",
    )
    for fact in told:
        assert fact in written
    rows = [line.split("│")[1].strip() for line in written.splitlines() if line.startswith("│")]
    turns_in_order = [row for row in rows if row]
    assert len(turns_in_order) == 18
    assert turns_in_order[0] == "R"


def rows_of(written: str) -> dict[str, list[str]]:
    """The columns beside each turn of the table."""
    cells = [[cell.strip() for cell in line.split("│")[1:-1]] for line in written.splitlines() if "│" in line]
    return {first: rest for first, *rest in cells if first}


def test_the_table_counts_by_hand_and_tells_once_of_far_layers() -> None:
    written = shown(FAR_CASE, "FR")
    assert "7 turns by hand" in written
    assert written.count("far layers") == 1
    assert "With far layers too  five turns: R B U2 B' R'" in written
    rows = rows_of(written)
    assert rows["R"][:3] == ["6", "0", "Optimal"]
    # Without a way by hand the turn has to be taken back: two turns are lost.
    assert rows["B"][:3] == ["no way", "2", "Detour"]
    # U turned again at once comes to U2, so one turn is lost.
    assert rows["U"][:2] == ["7", "1"]


def test_the_table_says_when_there_is_no_way_by_hand() -> None:
    asked = task_request("B", "FR", ["FL", "BL", "BR"])
    written = table(asked)
    assert "1 turn with far layers; there is no way by hand" in written
    assert rows_of(written)["B'"][:3] == ["0", "0", "Optimal"]
    assert "With far layers too" not in written


def test_the_table_says_what_is_out_and_that_the_figures_count_it() -> None:
    # D carries all four cross edges on (WCA 12a1). One turn mends it, though no turn by hand reaches D.
    written = shown("D", "FR", 160)
    first = "You put that right first, and every figure here counts the turns for it."
    assert f"Cross and kept pairs  the cross is not solved. {first}" in written
    assert "Insert, which begins by putting back what is out" in written
    assert "Route, 1 turn with far layers  Insert: D'" in written
    rows = rows_of(written)
    assert rows["D'"] == ["0", "0", "Optimal", "it starts a shortest way that turns far layers too"]
    assert rows["D"][2:] == ["Detour", "it turns a far layer and starts no shortest way"]
    # L' lifts a slot, and the top carries its pair away before L lowers it.
    asked = table(task_request("L' U L", "FR", ["FL", "BL", "BR"]), 160)
    assert f"a kept pair is out of its slot. {first}" in asked


def test_the_table_says_which_slot_is_lifted() -> None:
    written = shown("F", "FR", 160)
    assert "Cross and kept pairs  not all solved, because the slot FL is lifted" in written
    assert "which begins by putting back" not in written


def test_the_table_of_a_solved_pair_says_so() -> None:
    written = shown("", "FR")
    assert "none: the solved cube" in written
    assert "done: the pair is in its slot" in written
    assert "Shortest" not in written


def test_in_a_narrow_terminal_nothing_is_cut_off() -> None:
    written = shown("R U R'", "FR", width=60)
    assert "…" not in written


def test_the_table_in_a_pipe_carries_no_colour_codes(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["turns", "--setup", "R U R'", "--slot", "FR"]) == 0
    written = capsys.readouterr().out
    assert "Optimal" in written
    assert "\x1b" not in written


# ------------------------------------------------------------------------------------------------ batch


def echo(asked: TaskRequest) -> dict[str, object]:
    return {"setup": asked.setup}


def replies(source: bytes) -> tuple[int, list[dict[str, Any]]]:
    target = io.StringIO()
    status = answer_lines(io.BytesIO(source), target, echo)
    return status, [json.loads(line) for line in target.getvalue().splitlines()]


def test_lines_are_answered_in_their_order() -> None:
    lines = [json.dumps({"setup": "U " * count, "slot": "FR"}) for count in range(1, 6)]
    status, answered = replies("\n".join(lines).encode())
    assert status == 0
    assert [one["setup"] for one in answered] == ["U " * count for count in range(1, 6)]


def test_a_bad_line_is_told_by_its_number_and_the_rest_goes_on() -> None:
    status, answered = replies(LINE + b"nonsense\n" + LINE + b'{"setup": "Q", "slot": "FR"}\r\n\n' + LINE)
    assert status == 1
    assert [list(one) for one in answered] == [
        ["setup"], ["error"], ["setup"], ["error"], ["error"], ["setup"],
    ]  # fmt: skip
    assert answered[1]["error"].startswith("line 2: JSON is malformed")
    assert answered[3]["error"].startswith("line 4: the setup has a mistake at column 1, “Q”")
    assert answered[4]["error"].startswith("line 5: the line is empty")


def test_no_lines_are_answered_with_none() -> None:
    assert replies(b"") == (0, [])


def test_lines_may_end_as_on_any_system_or_not_at_all() -> None:
    status, answered = replies(LINE.rstrip() + b"\r\n" + LINE.rstrip())
    assert (status, len(answered)) == (0, 2)


class Narrow(io.BytesIO):
    """A source that notices when more of it is asked for at once than a line may have."""

    def readline(self, size: int | None = -1, /) -> bytes:
        assert size is not None
        assert 0 < size <= LONGEST_LINE + 1
        return super().readline(size)


def test_a_line_that_is_too_long_is_read_past_and_never_held() -> None:
    target = io.StringIO()
    full = LINE.rstrip().ljust(LONGEST_LINE)
    source = Narrow(b"x" * 10 * LONGEST_LINE + b"\n" + full + b"\n" + full + b" \n" + LINE)
    assert answer_lines(source, target, echo) == 1
    answered = [json.loads(line) for line in target.getvalue().splitlines()]
    assert [list(one) for one in answered] == [["error"], ["setup"], ["error"], ["setup"]]
    for number in (1, 3):
        error = answered[number - 1]["error"]
        assert (
            error
            == f"line {number}: the line is longer than {LONGEST_LINE} bytes; write one request on each line"
        )


@given(st.lists(st.one_of(st.binary(max_size=30), st.just(LINE.strip())), max_size=8))
def test_whatever_comes_in_every_line_gets_one_line(lines: list[bytes]) -> None:
    source = b"".join(line.replace(b"\n", b" ") + b"\n" for line in lines)
    status, answered = replies(source)
    assert len(answered) == len(lines)
    bad = [number for number, one in enumerate(answered, start=1) if "error" in one]
    assert all(answered[number - 1]["error"].startswith(f"line {number}: ") for number in bad)
    assert status == bool(bad)
