"""``explain``: a sequence taken apart, as JSON and as text, and what is said of wrong input."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.coach import sticker_replay as stickers
from tutor.app.cli.command_line import main
from tutor.app.cli.words.explain import EXAMPLE
from tutor.method.cases import CASES

KEYS = ["setup", "slot", "keep", "case", "turns", "length", "solves", "by_hand", "route", "steps", "each"]
KEYS += ["merges", "skips", "spoils", "between", "hands", "mirror", "wrong", "missing", "says"]
OUT = {"pairs": list, "cross_edges": list}
SEQUENCE = "R U' R' U R U R'"


def explain(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert main(["explain", *arguments, "--json"]) == 0
    written = capsys.readouterr()
    assert written.err == ""
    assert written.out.count("\n") == 1
    found: dict[str, Any] = json.loads(written.out)
    return found


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """What is said of wrong arguments, without the name of the program and command."""
    assert main(["explain", *arguments]) == 2
    written = capsys.readouterr()
    assert written.out == ""
    assert written.err.count("\n") == 1
    return written.err.partition("explain: ")[2].strip()


def fits(pieces: dict[str, Any]) -> bool:
    return (
        set(pieces) - {"turns"} == set(OUT)
        and set(pieces["pairs"]) <= set(stickers.SLOTS)
        and set(pieces["cross_edges"]) <= set(stickers.SIDES)
    )


def test_the_json_has_every_key_and_each_of_its_kind(capsys: pytest.CaptureFixture[str]) -> None:
    found = explain(capsys, SEQUENCE, "--slot", "FR")
    assert list(found) == KEYS
    assert (found["slot"], found["keep"], found["solves"], found["length"]) == (
        "FR",
        ["FL", "BL", "BR"],
        True,
        7,
    )
    assert found["turns"] == SEQUENCE
    assert found["setup"].split() == stickers.inverse(SEQUENCE.split())
    assert found["case"] in {case.name for case in CASES}
    assert found["steps"] == {"part": "R U' R'", "join": "U R", "insert": "U R'"}
    assert found["route"] == {"notation": SEQUENCE, "length": 7, "steps": found["steps"]}
    assert [each["turn"] for each in found["each"]] == SEQUENCE.split()
    assert all(list(each) == ["turn", "step", "verdict", "says", "out"] for each in found["each"])
    assert {each["verdict"] for each in found["each"]} == {"optimal"}
    assert all(fits(each["out"]) for each in found["each"])
    assert all(fits(found[key]) for key in ("spoils", "between", "missing"))
    assert found["between"] == {"pairs": ["BR"], "cross_edges": ["R"]}
    assert found["mirror"] == {"turns": " ".join(stickers.mirrored(SEQUENCE.split())), "slot": "FL"}
    assert found["hands"] == {
        "change of hold": 0, "half turn": 0, "turn of the back": 0, "turn of the bottom": 0,
    }  # fmt: skip
    assert (found["wrong"], found["missing"]) == (None, {"pairs": [], "cross_edges": [], "turns": 0})
    assert (found["merges"], found["skips"]) == ([], [])
    assert found["says"][0] == "This solves the pair in seven turns, all by hand."


def test_a_sequence_that_does_not_do_it_names_the_turn_that_went_wrong(
    capsys: pytest.CaptureFixture[str],
) -> None:
    found = explain(capsys, "R F U' R'", "--slot", "FR", "--setup", "R U R'")
    assert found["solves"] is False
    assert found["wrong"] == {"number": 2, "turn": "F"}
    assert found["each"][1]["verdict"] == "detour"
    cube = stickers.after(stickers.solved(), ["R", "U", "R'", "R", "F", "U'", "R'"])
    assert set(found["missing"]["pairs"]) == stickers.pairs_out(cube)
    assert set(found["missing"]["cross_edges"]) == stickers.cross_out(cube)
    assert found["missing"]["turns"] == 5


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        # WCA 12a: Lw' is x and R'; x brings the front to the top, and y the right to the front.
        ("Lw' U' Rw", "R' F' L"),
        ("y L' U' L", "F' U' F"),
        ("y (L' U' L)", "F' U' F"),
        ("R U U U R'", "R U' R'"),
    ],
)
def test_wide_turns_rotations_and_brackets_are_named_as_the_cube_is_held_first(
    capsys: pytest.CaptureFixture[str], written: str, meant: str
) -> None:
    out = stickers.pairs_out(stickers.after(stickers.solved(), meant.split()))
    found = explain(capsys, written, "--slot", sorted(out)[0])
    assert found["turns"] == meant
    assert found["length"] == len(meant.split())


def test_the_slots_to_keep_can_be_chosen(capsys: pytest.CaptureFixture[str]) -> None:
    found = explain(capsys, "R U' R'", "--slot", "FR", "--setup", "R U R'", "--keep", "BL, BR")
    assert found["keep"] == ["BL", "BR"]
    assert found["by_hand"] <= 3


def test_as_text_every_turn_stands_with_its_step_verdict_and_sentence(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "240")
    assert main(["explain", SEQUENCE, "--slot", "FR"]) == 0
    written = capsys.readouterr().out
    for told in explain(capsys, SEQUENCE, "--slot", "FR")["says"]:
        assert told in written
    assert "Sequence  R U' R' U R U R'  (7 turns)" in written
    assert "Part: R U' R'  Join: U R  Insert: U R'" in written
    rows = [line.split("│")[1:5] for line in written.splitlines() if line.startswith("│")]
    assert [tuple(cell.strip() for cell in row[:3]) for row in rows] == [
        (turn, step, "Optimal")
        for turn, step in zip(SEQUENCE.split(), ["Part"] * 3 + ["Join"] * 2 + ["Insert"] * 2, strict=True)
    ]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), f"write a sequence and a slot, for instance {EXAMPLE}"),
        ((SEQUENCE,), f"write a sequence and a slot, for instance {EXAMPLE}"),
        (
            ("R M", "--slot", "FR"),
            "the sequence has a mistake at column 3, “M”: the standard has no slice turns; "
            "turn the two outer layers instead",
        ),
        (
            ("R", "--slot", "FR", "--setup", "Q"),
            "the setup has a mistake at column 1, “Q”: start a move with U D L R F B "
            "or x y z. Add w for two layers, and put 2 or a prime (') last",
        ),
        (("R", "--slot", "UF"), "“UF” is not a slot; write FR, FL, BL or BR"),
        (
            ("R R'", "--slot", "FR"),
            "these turns come to nothing; write a sequence that turns at least one layer",
        ),
        (("(R U)21", "--slot", "FR"), "the sequence has 42 turns; write at most 40"),
        (
            ("R U R'", "--slot", "BL"),
            "these turns leave the BL pair in its slot; write FR, or add a setup",
        ),
        (("R", "--slot", "BL"), "these turns leave the BL pair in its slot; write FR or BR, or add a setup"),
        (("U2", "--slot", "FR"), "these turns bring no pair into its slot"),
        (
            ("R", "--slot", "FR", "--setup", "U"),
            "the FR pair is solved after this setup; write a setup that leaves it unsolved",
        ),
        (
            ("R U R'", "--slot", "FR", "--keep", "FR"),
            "FR is the slot to solve, so you cannot keep it as it is; leave it out of the slots to keep",
        ),
        (
            ("R", "--slot", "FR", "--setup", "x"),
            "after this setup the cross is in front, and it must be down; write x' at the end of the setup",
        ),
    ],
)
def test_wrong_input_is_answered_in_one_sentence_that_says_what_to_write(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], said: str
) -> None:
    assert refused(capsys, *arguments).replace("python -m tutor", "pairwright") == said
