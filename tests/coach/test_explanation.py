"""Sequences taken apart, held against a replay on stickers that shares nothing with the program."""

from __future__ import annotations

import re
from itertools import pairwise
from random import Random

import pytest

from tests.coach import sticker_replay as stickers
from tests.coach.table import COLOURS, Table
from tutor.coach.catalogue import sentences
from tutor.coach.explanation import Explanation, asked_for, explained
from tutor.coach.explanation_sentences import brief, more
from tutor.coach.sight import InPlace
from tutor.counting import counted
from tutor.cube.faces import TURNS, Turn, inverse
from tutor.cube.merging import merged
from tutor.cube.notation import format_moves, parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot, every_other_slot
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.ergonomics import Discomfort
from tutor.method.steps import Step
from tutor.solver.task import Task

WORDS_AT_ONCE = 60
"""The most words that a card says before it is asked for more (a rule of this project)."""
WORDS_A_SENTENCE = 20
"""The same for one sentence."""
FR_ALONE = Task(Slot.FR, every_other_slot(Slot.FR))


def explain(table: Table, position: Position, task: Task, turns: tuple[Turn, ...]) -> Explanation:
    """The explanation, with every claim in it checked and every sentence measured."""
    found = explained(position, task, turns, table.answer, COLOURS)
    assert words(told(found)) <= WORDS_AT_ONCE, told(found)
    scene = table.scene(found.start, None)
    for phrase in (*brief(found), *more(found)):
        assert table.false_claims(phrase.claims, scene) == [], phrase.text
        assert all(words(each) <= WORDS_A_SENTENCE for each in sentences(phrase.text)), phrase.text
    for each, at in zip(found.each, asked_for(position, turns), strict=False):
        scene = table.at_turn(at, task, each.turn)
        assert table.false_claims(each.said.claims, scene) == [], each.said.text
        assert "mirror" not in each.said.text
    return found


def words(text: str) -> int:
    """How many words a text has, turns left out."""
    return len(re.sub(r"\b[UDLRFB][2']?(?![a-z])", "", text).split())


def solving(table: Table, notation: str, slot: Slot = Slot.FR) -> Explanation:
    """The explanation of a sequence for the case that it solves."""
    turns = parse_turns(notation)
    position = SOLVED.after(inverse(turns))
    return explain(table, position, Task.at(position, slot), turns)


def from_setup(table: Table, setup: str, notation: str, task: Task = FR_ALONE) -> Explanation:
    return explain(table, SOLVED.after(parse_turns(setup)), task, parse_turns(notation))


def told(found: Explanation) -> str:
    return " ".join(phrase.text for phrase in brief(found))


def listed(pieces: InPlace) -> tuple[set[str], set[str]]:
    return {slot.name for slot in pieces.pairs}, {side.name for side in pieces.edges}


# ------------------------------------------------------------------------------------- routes and lines


@pytest.mark.parametrize("number", range(len(CASES)))
def test_every_route_and_line_is_explained_and_the_steps_are_those_of_the_route(
    table: Table, number: int
) -> None:
    slot = SLOTS[number % 4]
    position, task = CASES[number].position(slot, number % 3), Task(slot, every_other_slot(slot))
    start = table.answer(position, task)
    for route in start.routes[:2]:
        found = explain(table, position, task, route.turns)
        assert found.solves
        assert found.wrong is None
        assert found.way.segments == route.segments
        assert Verdict.DETOUR not in {each.verdict for each in found.each}
        shown = route == start.routes[0]
        assert ("These are the turns of the route." in told(found)) is shown
        assert ("It goes step by step, in as many turns as the route." in told(found)) is not shown
    for line in start.lines[:2]:
        found = explain(table, position, task, line)
        assert found.solves
        assert found.wrong is None
        assert "No way by hand is shorter." in told(found)
        assert found.shortcut is not None
        assert found.shortcut.saved == len(start.routes[0].turns) - len(line)


# ------------------------------------------------------------------------------- against the stickers


def random_turns(random: Random, most: int) -> tuple[Turn, ...]:
    """A sequence that has a turn left when neighbours of one layer are made one."""
    turns: tuple[Turn, ...] = ()
    while not turns:
        turns = merged(random.choice(TURNS) for _ in range(random.randint(1, most)))
    return turns


def replayed(setup: list[str], turns: list[str]) -> list[stickers.Cube]:
    """The cubes that turns pass after a setup, the one before them first."""
    start = stickers.after(stickers.solved(), setup)
    return [stickers.after(start, turns[:made]) for made in range(len(turns) + 1)]


def check(found: Explanation, setup: list[str]) -> None:
    """Hold an explanation against the stickers of every cube it passes."""
    turns, slot = [turn.notation for turn in found.way.turns], found.start.task.slot.name
    keep = {kept.name for kept in found.start.task.keep}
    cubes = replayed(setup, turns)
    spoilt = stickers.after(stickers.solved(), turns)
    assert listed(found.spoils) == (stickers.pairs_out(spoilt) - {slot}, stickers.cross_out(spoilt))
    outs = [(stickers.pairs_out(cube) & keep, stickers.cross_out(cube)) for cube in cubes]
    assert [listed(each.out) for each in found.each] == outs[1:]
    for kind, between in enumerate(listed(found.between)):
        assert between == set().union(*(out[kind] for out in outs)) - outs[0][kind] - outs[-1][kind]
    missing = stickers.pairs_out(cubes[-1]) & {*keep, slot}, stickers.cross_out(cubes[-1])
    assert listed(found.missing) == missing
    assert found.solves is (missing == (set(), set()))
    assert found.wrong is None or not found.solves
    assert [turn.notation for turn in found.mirror] == stickers.mirrored(turns)
    assert found.mirror_slot.name == stickers.mirrored_slot(slot)
    mirror = replayed(stickers.mirrored(setup), stickers.mirrored(turns))[-1]
    wanted = {stickers.mirrored_slot(each) for each in {*keep, slot}}
    assert found.solves is not bool(stickers.pairs_out(mirror) & wanted or stickers.cross_out(mirror))


def test_of_200_random_sequences_the_slots_spoilt_and_the_mirror_are_what_the_stickers_show(
    table: Table,
) -> None:
    random, explained_so_far = Random(1), 0
    while explained_so_far < 200:
        turns = random_turns(random, 8)
        setup = [turn.notation for turn in inverse(turns)]
        out = stickers.pairs_out(stickers.after(stickers.solved(), setup))
        if out:
            found = solving(table, format_moves(turns), Slot[random.choice(sorted(out))])
            assert found.solves
            check(found, setup)
            explained_so_far += 1


def test_what_random_turns_leave_unsolved_is_what_the_stickers_show(table: Table) -> None:
    random, failures = Random(2), 0
    for _ in range(40):
        case, turns = random.choice(CASES), random_turns(random, 3)
        found = explain(table, case.position(), FR_ALONE, turns)
        check(found, [turn.notation for turn in case.setup()])
        failures += not found.solves
    assert failures > 30


# ------------------------------------------------------------------------------------- single sentences


def test_a_way_shorter_than_the_route_is_told_with_what_it_does_at_once_or_skips(table: Table) -> None:
    merging, skipping = 0, 0
    for case in CASES:
        route, line = case.route(), table.answer(case.position(), FR_ALONE).lines[0]
        if len(line) < len(route.turns):
            found = explain(table, case.position(), FR_ALONE, line)
            assert f"The route takes {counted(len(route.turns), 'turn')}: " in told(found)
            assert found.shortcut is not None
            merging += " at once." in told(found)
            skipping += " without finishing " in told(found)
            assert (" at once." in told(found)) is any(found.shortcut.merged)
            assert (" without finishing " in told(found)) is bool(found.shortcut.skipped)
    assert merging + skipping


def test_a_longer_way_is_told_beside_the_best(table: Table) -> None:
    found = solving(table, "R U' R' U R U' R'")
    assert told(found) == (
        "This solves the pair in seven turns, all by hand. The shortest way by hand takes six turns. "
        "The route takes six turns: F' U2 F R U2 R'. It does the steps of the route one by one, too."
    )
    assert [phrase.text for phrase in more(found)] == [
        "On the way it takes out the back-right pair and one cross edge and puts them back.",
        "Any other pair that was solved is solved at the end, and the cross too.",
        "It is easy on the hands, without a new grip or a half turn.",
        "Swap left and right, and it becomes L' U L U' L' U L, for the front-left slot.",
    ]


def test_a_way_with_far_layers_says_so_and_counts_what_the_hands_need(table: Table) -> None:
    found = solving(table, "R B U2 B' R'")
    assert told(found).startswith(
        "This solves the pair in five turns, with the help of far layers. "
        "The shortest way by hand takes seven turns."
    )
    # By the way it is written: one 2 and two Bs; taking hold anew is common practice.
    assert dict(found.hands.reasons) == {Discomfort.HOLD: 2, Discomfort.BACK: 2, Discomfort.HALF: 1}
    needed = "Your hands need two new grips, two turns of the back and one half turn."
    assert needed in [phrase.text for phrase in more(found)]


def test_a_way_that_needs_a_slot_free_says_which(table: Table) -> None:
    found = solving(table, "U F2 L F2 L'")
    assert found.spoils.pairs == {Slot.FL}
    assert "Use it only while the front-left pair is unsolved, because it takes that out." in told(found)


def test_the_first_turn_that_went_wrong_is_named_with_why_and_what_is_missing(table: Table) -> None:
    found = from_setup(table, "R U R'", "R F U' R'")
    assert found.wrong == 1
    assert told(found) == (
        "This does not solve the pair. Its second turn, F, is a Detour. F takes out the front-left pair and "
        "one cross edge, which were already solved. It also takes the edge down from the top. Turn it back. "
        "This detour costs two turns. At the end you need five more turns."
    )
    missing = "At the end three pairs and two cross edges are unsolved."
    assert more(found)[0].text == missing
    for before, after in pairwise(found.each[: found.wrong]):
        assert Verdict.DETOUR not in {before.verdict, after.verdict}


def test_a_way_that_ends_too_early_has_no_wrong_turn(table: Table) -> None:
    found = from_setup(table, "R U R'", "R U'")
    assert (found.solves, found.wrong, found.left) == (False, None, 1)
    assert told(found) == (
        "This does not solve the pair yet. Every turn is on a shortest way, but it ends too early. "
        "At the end you need one more turn."
    )


def test_a_way_that_ends_too_early_and_is_no_shortest_names_the_turn_that_left_it(table: Table) -> None:
    case = CASES[14]
    found = explain(table, case.position(), FR_ALONE, parse_turns("R U R'"))
    assert (found.solves, found.wrong, found.left) == (False, 0, 8)
    assert told(found) == (
        "This does not solve the pair yet. Its first turn, R, begins a longer way by hand, "
        "and it ends too early. At the end you need eight more turns."
    )
    best = table.solver.hand_distance(case.position(), FR_ALONE)
    assert best is not None
    assert table.solver.hand_distance(case.position().turned(Turn.R), FR_ALONE) != best - 1


def test_a_pair_that_is_taken_apart_again_is_told_with_the_turn_that_did_it(table: Table) -> None:
    found = from_setup(table, "R U R'", "R U' R' D L")
    assert found.wrong == 3
    assert told(found).startswith(
        "This does not solve the pair. It was solved before the fourth turn, and D takes it apart again."
    )
    assert found.each[3].said.text == "D takes out four pairs and the cross, which were already solved."


def test_turns_after_the_pair_is_solved_belong_to_no_step(table: Table) -> None:
    found = from_setup(table, "R U R'", "R U' R' U")
    assert found.solves
    assert [each.step for each in found.each] == [*[Step.INSERT] * 3, Step.DONE]
    assert found.each[3].verdict is None


def test_neighbouring_turns_of_one_layer_count_as_one(table: Table) -> None:
    found = from_setup(table, "R U R'", "R U U U R'")
    assert format_moves(found.way.turns) == "R U' R'"


@pytest.mark.parametrize(("setup", "turns"), [("R U R'", "R R'"), ("", "R U R'")])
def test_nothing_is_explained_where_no_turn_is_left_or_the_pair_is_solved(
    table: Table, setup: str, turns: str
) -> None:
    with pytest.raises(ValueError, match="unsolved before them"):
        from_setup(table, setup, turns)
