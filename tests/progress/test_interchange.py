"""Attempts written and read back."""

import csv
import io
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.progress.tables import parse_table
from tutor.cube.faces import Turn
from tutor.method.cases import CASES
from tutor.method.terms import Step, Verdict
from tutor.progress import interchange
from tutor.progress.attempt import LONGEST_WAY, MOST_TURNS, AttemptError, HintTaken, TurnMade
from tutor.progress.interchange import COLUMNS, format_line, format_table, parse_line


@given(data=st.data())
def test_a_json_line_reads_back_as_the_same_attempt(data: st.DataObject, any_attempt: Any) -> None:
    attempt = data.draw(any_attempt)
    line = format_line(attempt)
    assert "\n" not in line
    assert parse_line(line) == attempt


@given(data=st.data())
def test_a_table_reads_back_as_the_same_attempts(data: st.DataObject, any_attempt: Any) -> None:
    attempts = data.draw(st.lists(any_attempt, max_size=3))
    table = "".join(format_table(attempts))
    assert list(parse_table(io.StringIO(table, newline=""))) == attempts


def test_the_longest_attempt_reads_back_and_so_does_what_stands_around_it(attempt: Any) -> None:
    usual = csv.field_size_limit()
    # No float of its kind is written with more characters.
    turn = TurnMade(Turn.R2, 2.2250738585072014e-308, Verdict.ACCEPTABLE, LONGEST_WAY, Step.INSERT)
    hint = HintTaken(3, turn.at)
    made = [attempt(), attempt(turns=(turn,) * MOST_TURNS, hints=(hint,) * MOST_TURNS), attempt()]
    table = "".join(format_table(made))
    assert list(parse_table(io.StringIO(table, newline=""))) == made
    assert csv.field_size_limit() == usual


def test_a_line_is_plain_json_with_the_documented_keys(attempt: Any) -> None:
    # Python's own json module reads it (RFC 8259).
    read = json.loads(format_line(attempt(hints=(HintTaken(1, 0.5),))))
    assert tuple(read) == COLUMNS
    assert read["time"] == "2026-03-03T18:30:00Z"
    assert read["keep"] == ["FL", "BL", "BR"]
    assert read["turns"][2] == {"turn": "R'", "at": 3.5, "verdict": "optimal", "cost": 0, "step": "insert"}
    assert read["hints"] == [{"rung": 1, "at": 0.5}]


def test_the_table_has_the_documented_columns(attempt: Any) -> None:
    turns = (TurnMade(Turn.F2, 1.25), TurnMade(Turn.U_PRIME, 2.5))
    rows = list(csv.reader(format_table([attempt(turns=turns, route=None)])))
    cells = dict(zip(rows[0], rows[1], strict=True))
    assert tuple(rows[0]) == COLUMNS
    assert cells["turns"] == "F2 1.25 - - -; U' 2.5 - - -"
    assert (cells["route"], cells["mirror"], cells["keep"]) == ("", "false", "FL BL BR")


def older(attempt: Any) -> dict[str, Any]:
    """What a file from before ``by_hand`` was kept says of an attempt; see also ``before_by_hand``."""
    line: dict[str, Any] = json.loads(format_line(attempt))
    del line["by_hand"]
    return {("shortest" if name == "at_all" else name): value for name, value in line.items()}


def test_a_line_without_the_figure_by_hand_is_read_as_it_is(attempt: Any) -> None:
    made = attempt(by_hand=None, at_all=5, route=None)
    read = parse_line(json.dumps(older(made)))
    assert read == made
    assert (read.by_hand, read.at_all, read.fewest) == (None, 5, 5)


def test_a_table_without_the_figure_by_hand_is_read_as_it_is(attempt: Any) -> None:
    made = [attempt(by_hand=None, at_all=5), attempt(by_hand=None, at_all=2, route=None, first_turn=None)]
    rows = list(csv.DictReader("".join(format_table(made)).splitlines()))
    out = io.StringIO()
    before = ["shortest" if name == "at_all" else name for name in COLUMNS if name != "by_hand"]
    writer = csv.DictWriter(out, before)
    writer.writeheader()
    for row in rows:
        row["shortest"] = row.pop("at_all")
        assert row.pop("by_hand") == ""
        writer.writerow(row)
    assert list(parse_table(io.StringIO(out.getvalue(), newline=""))) == made


def test_a_line_has_the_figure_at_all_once(attempt: Any) -> None:
    told = "either at_all or, in older files, shortest"
    both, none = older(attempt()) | {"at_all": 3}, older(attempt())
    del none["shortest"]
    for line in (both, none):
        with pytest.raises(AttemptError, match=told):
            parse_line(json.dumps(line))


def test_the_number_stands_beside_the_slug_for_people_and_the_slug_decides(attempt: Any) -> None:
    made = attempt(case=CASES[13].slug)
    line, (heads, row) = json.loads(format_line(made)), csv.reader(format_table([made]))
    assert (line["number"], line["case"]) == (14, CASES[13].slug)
    assert (row[heads.index("number")], row[heads.index("case")]) == ("14", CASES[13].slug)
    # A later book may number the cases otherwise, and files up to form 3 have no numbers.
    assert parse_line(json.dumps(line | {"number": 3})) == made
    assert parse_line(json.dumps({key: each for key, each in line.items() if key != "number"})) == made
    without = io.StringIO()
    writer = csv.DictWriter(without, [name for name in COLUMNS if name != "number"], extrasaction="ignore")
    writer.writeheader()
    writer.writerow(dict(zip(heads, row, strict=True)))
    assert list(parse_table(io.StringIO(without.getvalue(), newline=""))) == [made]


def test_every_column_is_documented() -> None:
    lines = (interchange.__doc__ or "").splitlines()
    documented = [line.split("|")[1].strip() for line in lines if line.startswith("|")]
    assert tuple(documented[2:]) == COLUMNS


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"slot": "XX"}, "“XX” is not a slot"),
        ({"case": "corner-nowhere"}, "there is no case"),
        ({"mode": "dreaming"}, r"\$\.mode"),
        ({"time": "2026-03-03T18:30:00"}, "no zone"),
        ({"turns_used": "three"}, r"\$\.turns_used"),
        ({"by_hand": "three"}, r"\$\.by_hand"),
        ({"by_hand": 2}, "by hand: 2 turns, but with far layers too it takes 3"),
        ({"seconds": -1}, "the time of the attempt"),
        ({"turns": [{"turn": "Q", "at": 1.0}]}, "“Q” is not a turn"),
        ({"extra": 1}, "extra"),
    ],
)
def test_a_wrong_line_is_refused_with_the_reason(attempt: Any, change: dict[str, Any], told: str) -> None:
    line = json.dumps(json.loads(format_line(attempt())) | change)
    with pytest.raises(AttemptError, match=told):
        parse_line(line)


@pytest.mark.parametrize("line", ["", "{", "[]", b"\xff\xfe", "[" * 100_000])
def test_a_line_that_is_no_object_is_refused(line: str | bytes) -> None:
    with pytest.raises(AttemptError):
        parse_line(line)


@pytest.mark.parametrize(
    ("written", "instead", "told"),
    [
        ("R 1.5 optimal", "Rx 1.5 optimal", "line 2: “Rx” is not a turn"),
        ("R 1.5 optimal 0 insert", "R soon optimal 0 insert", "line 2"),
        (
            "R 1.5 optimal 0 insert",
            "R optimal",
            "line 2: “R optimal” is not a turn: it has turn, at, verdict",
        ),
        (",mirror,", ",mirrored,", "line 1: the column mirror is missing"),
        (",Ilva,", ",Ilva,Ravi,", "line 2: the number of cells differs"),
        (",Ilva,", ",", "line 2: the number of cells differs"),
        (",Ilva,", ',"Il"va,', "line 2"),
    ],
)
def test_a_wrong_row_is_refused_with_its_line(attempt: Any, written: str, instead: str, told: str) -> None:
    table = "".join(format_table([attempt()]))
    assert written in table
    with pytest.raises(AttemptError, match=told):
        list(parse_table(table.replace(written, instead).splitlines(keepends=True)))
