"""What is said after a Detour of what has to come back is true of the cube, for every kind of loss."""

from __future__ import annotations

from random import Random

import pytest

from tests.coach.table import COLOURS, Table, deviated, every_start
from tests.coach.test_truth import faults_of_text
from tutor.coach.catalogue import sentences
from tutor.coach.mending import damage, mending
from tutor.coach.scene import gone
from tutor.cube.notation import parse_turns
from tutor.method.continuations import Verdict


def test_every_claim_holds_and_the_turn_back_is_named(table: Table) -> None:
    """Claims are read from the stickers, see ``tutor.coach.scene``."""
    starts = [*Random(5).sample(list(every_start()), 40), *deviated(40, 11)]
    kinds = set()
    for position, task in starts:
        start = table.answer(position, task)
        for entry in start.continuations:
            if entry.verdict is not Verdict.DETOUR or not start.distance:
                continue
            told, scene = mending(start, entry.turn, COLOURS), table.scene(start, entry.turn)
            assert not table.false_claims(told.claims, scene), told
            assert not faults_of_text(told.text), told
            assert len(sentences(told.text)) == 1
            assert entry.turn.inverse.notation in told.text.replace(".", " ").split()
            kinds.add("first" if told.text.startswith("First") else told.text.split()[0])
            lost = gone(scene.before, scene.after, task)
            out = damage(start, entry.turn)
            assert (out.pairs, out.edges) == (lost if any(lost) else (frozenset({task.slot}), frozenset()))
    assert {"first", "This"} < kinds


@pytest.mark.parametrize(
    ("setup", "turn", "said"),
    [
        ("R U R'", "D", "First you have to put three pairs and the cross back, and D' does that."),
        (
            "R U R'",
            "U2",
            "This turn took no solved piece out, so you only have to turn back with U2.",
        ),
    ],
)
def test_the_sentences(table: Table, setup: str, turn: str, said: str) -> None:
    (made,) = parse_turns(turn)
    assert mending(table.at(setup), made, COLOURS).text == said
