"""Nothing false is said: every claim is checked, and the English itself is read back.

Claims are checked by ``holds``, from the stickers; the sentences by a reader with patterns of its own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from random import Random

import pytest

from tests.coach.reader import Cube, already_so, untrue, untrue_ahead, untrue_counts
from tests.coach.reasons_read import LONGEST_SENTENCE, crowded, unreasoned
from tests.coach.table import COLOURS, Start, Table
from tutor.coach.catalogue import sentences
from tutor.coach.feedback import Remark, feedback, shown
from tutor.coach.hints import Hint, Rung, hint, purpose, whereabouts
from tutor.coach.scene import ClaimContext, gone
from tutor.coach.why import why
from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SLOTS, every_other_slot
from tutor.method.answer import Answer
from tutor.method.cases import ALIGNMENTS, CASES
from tutor.method.continuations import Verdict
from tutor.method.ticks import in_the_midst
from tutor.solver.task import Task


def faults_of_text(text: str) -> list[str]:
    """Whether a text is empty, or a sentence of it empty or too long."""
    if not text.strip():
        return ["empty"]
    return [part for part in sentences(text) if not 1 < len(part) <= LONGEST_SENTENCE or wordy(part)]


def wordy(sentence: str) -> bool:
    """Whether a sentence has more than 20 words, those of mirrors left out."""
    return len(re.sub(r" \([^)]*\)", "", sentence).split()) > 20


def faults_of_shown(start: Answer) -> list[object]:
    """Everything wrong with what is said of the first turn of a way that is shown, before it and after."""
    turn, *rest = start.way.turns
    told = shown(start, turn, tuple(rest), COLOURS, None)
    before, after = Cube(start.position, start.task), Cube(start.position.turned(turn), start.task)
    found: list[object] = [*faults_of_text(told.coming), *faults_of_text(told.made)]
    for sentence in sentences(told.coming):
        found += untrue_ahead(sentence, before, after)
    for sentence in sentences(told.made):
        found += untrue(sentence, before, after, after)
    return [(fault, told) for fault in found]


def unsaid(start: Answer, turn: Turn, remark: Remark, scene: ClaimContext) -> Iterator[str]:
    """What a remark owes and does not say: its reason, and all that a detour takes out of place."""
    own, best = start.continuations[turn], scene.is_best(scene.before, turn)
    yield from unreasoned(remark.text, own.verdict)
    yield from crowded(remark.text)
    if (own.verdict is Verdict.OPTIMAL) is not best:
        yield "optimal is what begins a shortest way"
    by_hand, after = scene.by_hand(scene.before), scene.by_hand(scene.after)
    by_hands = by_hand is not None and after == by_hand - 1 and scene.is_beside(turn)
    only_far = best and by_hand is not None and not by_hands
    if only_far is not ("shortest way with far layers" in remark.text):
        yield "whether far layers are needed"
    taken_out = gone(scene.before, scene.after, scene.task)
    if (
        own.verdict is Verdict.DETOUR
        and not scene.is_beside(turn)
        and any(taken_out)
        and "takes out" not in remark.text
    ):
        yield "not all that was lost"


def faults_of_remark(table: Table, start: Answer, turn: Turn) -> list[object]:
    """Everything wrong with what is said about a turn."""
    remark = feedback(start, turn, table.colours)
    scene = table.scene(start, turn)
    before, after = Cube(scene.before, scene.task), Cube(scene.after, scene.task)
    faults: list[object] = [*faults_of_text(remark.text), *table.false_claims(remark.claims, scene)]
    for sentence in sentences(remark.text):
        faults += [(sentence, found) for found in untrue(sentence, before, after, after)]
        faults += [(sentence, found) for found in already_so(sentence, after)]
    faults += unsaid(start, turn, remark, scene)
    faults += untrue_counts(remark.text, scene.to_go(scene.after), scene.cost())
    return [(fault, remark.text) for fault in faults]


def astray(start: Answer, given: Hint) -> Iterator[str]:
    """Whether a hint leads over a far layer that takes no harm back, or stays where hands cannot go on."""
    assert given.best is not None
    after = start.continuations[given.best].by_hand
    firsts = {turns[0] for turns in (*(route.turns for route in start.routes), *start.lines)}
    good = [each for each in start.continuations if each.by_hand is not None and each.turn in firsts]
    to_hand = any(each.verdict is not Verdict.DETOUR for each in good)
    if after is None and (start.by_hand is not None or to_hand):
        yield "hands cannot go on after it"
    if start.continuations[given.best].verdict is Verdict.DETOUR:
        yield "a detour is hinted"
    then = start.position.turned(given.best)
    mends = not start.settled and (start.task.settled(then) or in_the_midst(then, start.task))
    if start.by_hand is not None and given.best.face not in start.task.working_faces and not mends:
        yield "a far layer is hinted"
    names = ("Raise", "Part", "Join", "Insert")
    named = [name for name in names if given.text.startswith(f"{name}: ")]
    led = any(route.turns[0] is given.best for route in start.routes)
    if given.rung is Rung.IDEA and named != ([start.step.value.capitalize()] if led else []):
        yield "the step under way is named"


def faults_of_hints(table: Table, start: Answer) -> list[object]:
    """Everything wrong with the three hints at a position."""
    faults: list[object] = []
    for rung in Rung:
        given = hint(start, table.colours, rung)
        scene = table.scene(start, given.best)
        now = Cube(scene.before, scene.task)
        found: list[object] = [*faults_of_text(given.text), *table.false_claims(given.claims, scene)]
        for sentence in sentences(given.text):
            found += [(sentence, fault) for fault in untrue(sentence, now, now, now) if rung is Rung.LOOK]
            found += [(sentence, fault) for fault in already_so(sentence, now)]
        if (given.turn is not None) is not (rung is Rung.TURN):
            found.append("the arrow belongs to the last rung")
        found += astray(start, given)
        faults += [(fault, given.text) for fault in found]
    return faults


def faults_of_question(table: Table, start: Answer, turn: Turn, seed: int) -> list[object]:
    """Everything wrong with the question about a turn, if there is one."""
    question = why(start, turn, table.colours, seed)
    if question is None:
        return []
    scene = table.scene(start, turn)
    truths = [not table.false_claims(choice.claims, scene) for choice in question.choices]
    faults: list[object] = []
    if truths != [choice.true for choice in question.choices] or sum(truths) != 1:
        faults.append("not exactly one is true")
    if not 3 <= len(question.choices) <= 4 or len({choice.text for choice in question.choices}) < len(truths):
        faults.append("three or four different answers are wanted")
    for choice in question.choices:
        faults += [*faults_of_text(choice.text), *faults_of_text(choice.reply)]
    return [(fault, question) for fault in faults]


def one_turn(number: int) -> Sequence[Turn]:
    """A turn by the place in the row."""
    return (TURNS[number % len(TURNS)],)


def shared_turns(number: int) -> Sequence[Turn]:
    """A fourth of the turns, for ``every_start``, where four alignments follow each other in each of four
    slots: each turn is met in every slot and in every alignment of a case."""
    slot, alignment = number // len(ALIGNMENTS), number % len(ALIGNMENTS)
    return TURNS[(slot + alignment) % 4 :: 4]


def all_faults(
    table: Table, starts: Iterable[Start], turns_of: Callable[[int], Sequence[Turn]] = lambda _: TURNS
) -> list[object]:
    """Everything wrong with what is said at some positions after some turns; the first few."""
    faults: list[object] = []
    for number, (position, task) in enumerate(starts):
        start = table.answer(position, task)
        if not start.distance:
            continue
        for turn in turns_of(number):
            faults += faults_of_remark(table, start, turn)
        faults += faults_of_hints(table, start)
        faults += faults_of_shown(start)
        faults += faults_of_question(table, start, start.lines[0][0], number)
        if len(faults) > 5:
            break
    return faults[:5]


def test_all_that_is_said_on_a_sample_of_cases_is_true(table: Table, sample_of_cases: list[Start]) -> None:
    assert all_faults(table, sample_of_cases) == []


def test_all_that_is_said_on_a_sample_of_deviated_positions_is_true(
    table: Table, sample_of_deviated: list[Start]
) -> None:
    assert all_faults(table, sample_of_deviated) == []


@pytest.mark.slow
def test_all_that_is_said_on_every_case_slot_and_alignment_is_true(
    table: Table, all_cases: list[Start]
) -> None:
    assert len(all_cases) == 41 * 4 * 4
    # All 18 turns of each were gone through when this was written; four alignments share them.
    assert all_faults(table, all_cases, shared_turns) == []


PARTS = 4
"""Several processes can share the positions."""


@pytest.mark.slow
def test_all_that_is_said_one_turn_off_a_start_is_true(table: Table, all_one_turn_off: list[Start]) -> None:
    assert len(all_one_turn_off) == 41 * 4 * 4 * 18
    # All of them were gone through when this was written; a sample keeps the checks short.
    starts = Random(14).sample(all_one_turn_off, 800)
    assert all_faults(table, starts, one_turn) == []


@pytest.mark.slow
@pytest.mark.parametrize("part", range(PARTS))
def test_all_that_is_said_on_many_deviated_positions_is_true(
    table: Table, many_deviated: list[Start], part: int
) -> None:
    # Which turn is spoken about goes by the place in the row, and no part has but some of the turns.
    share = many_deviated[part * len(many_deviated) // PARTS : (part + 1) * len(many_deviated) // PARTS]
    assert all_faults(table, share, one_turn) == []


def test_where_the_two_pieces_are_is_true_of_every_case_in_every_slot(table: Table) -> None:
    told: dict[str, Cube] = {}
    for case in CASES:
        for slot in SLOTS:
            start = table.answer(case.position(slot), Task(slot, every_other_slot(slot)))
            said = whereabouts(start.position, start.task, COLOURS)
            cube = Cube(start.position, start.task)
            assert faults_of_text(said.text) == []
            assert table.false_claims(said.claims, table.scene(start, start.way.turns[0])) == []
            assert list(untrue(said.text, cube, cube, cube)) == [], said.text
            told[said.text] = cube
    texts = list(told)
    # The reader would notice: what is said of one place is false where the pieces are elsewhere.
    assert all(list(untrue(text, *[told[other]] * 3)) for text, other in pairwise(texts))


def test_what_a_group_reads_before_the_first_turn_is_true_and_names_no_layer_to_turn(table: Table) -> None:
    # Sides and letters as WCA Regulations 12a names them; “up to the top layer” is where a piece goes.
    gives_away = re.compile(
        r"\bturn|\b(?:left|right|front|back) layer\b|(?<!\w)[UDLRFB](?!\w)", re.IGNORECASE
    )
    for case in CASES:
        for slot in SLOTS:
            position = case.position(slot, ALIGNMENTS[(case.number + slot) % len(ALIGNMENTS)])
            start = table.answer(position, Task(slot, every_other_slot(slot)))
            said = purpose(start, COLOURS)
            assert faults_of_text(said.text) == []
            assert gives_away.search(said.text) is None, (case.number, said.text)
            assert table.false_claims(said.claims, table.scene(start, start.way.turns[0])) == []
            assert list(already_so(said.text, Cube(start.position, start.task))) == []
    assert gives_away.search("First turn the right layer.")
