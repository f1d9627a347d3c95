"""What is said of each wrong answer to a question of practice is true, at every position of all 41 cases.

The replies are read back by patterns written here by hand; what they find is looked up on the 54 stickers.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

import pytest

from tests.coach.reader import Cube, slot_words, untrue, untrue_counts
from tests.coach.table import COLOURS, Table
from tutor.coach.catalogue import sentences
from tutor.coach.change import Change
from tutor.coach.denials import denied, step_denied, turn_denied
from tutor.coach.why import why
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.geometry import NORMALS
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.answer import Answer
from tutor.method.cases import ALIGNMENTS, CASES, Case
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS, Step
from tutor.solver.task import Task

LAYERS = {
    "top": Face.U,
    "bottom": Face.D,
    "left": Face.L,
    "right": Face.R,
    "front": Face.F,
    "back": Face.B,
}
MOST_WORDS = 20
"""No sentence on a screen has more words."""

Reading = Callable[["Seen", re.Match[str]], bool]


class Seen:
    """A position before and after a turn, by its stickers."""

    def __init__(self, position: Position, task: Task, turn: Turn | None) -> None:
        self.task, self.turn = task, turn
        self.before = Cube(position, task)
        self.after = Cube(position if turn is None else position.turned(turn), task)

    def kept(self, cube: Cube) -> bool:
        pairs, sides = cube.in_place()
        return set(self.task.keep) <= pairs and len(sides) == 4

    def kept_by(self, cube: Cube, face: Face, *, pair: bool = False) -> bool:
        """Whether a turn of a layer puts the cross and the kept pairs in place, and the pair too."""
        ends = [Cube(cube.position.turned(Turn.of(face, quarters)), self.task) for quarters in (1, 2, 3)]
        return any(self.kept(end) and (end.home() or not pair) for end in ends)

    def moves(self, kind: str) -> bool:
        return self.before.faces(kind) != self.after.faces(kind)

    def lifts(self) -> bool:
        """Whether the turn carries what lies in the slot to the top."""
        assert self.turn is not None
        solved = Cube(SOLVED.turned(self.turn), self.task)
        return solved.on_top("corner") and solved.on_top("edge")


def inside(cube: Cube, kind: str, layer: str) -> bool:
    """Whether the piece is in the layer, by its coordinates."""
    axes = range(3)
    return (
        sum(NORMALS[face][axis] * NORMALS[LAYERS[layer]][axis] for face in cube.faces(kind) for axis in axes)
        == 1
    )


ASIDE = r"(?: \(in the (?:left|right|lower)(?: and the (?:left|right|lower))? mirror\))?"
PIECE = rf"[Tt]he (?P<kind>corner|edge){ASIDE}"
OTHER = rf"the (?P<other>corner|edge){ASIDE}"
PLACE = r"(?P<place>(?:on top|in the|at the bottom)[a-z -]*?)"
PLACE_TOO = r"(?P<place_too>(?:on top|in the|at the bottom)[a-z -]*?)"
TURN = r"(?P<turn>[UDLRFB][2']?)"
LAYER = r"(?P<layer>top|bottom|left|right|front|back) layer"
KEPT = r"(?:the cross and the other pairs)"
UNSOLVED = rf"{TURN} does not solve the pair\. After it, {PIECE} is {PLACE}, {OTHER} {PLACE_TOO}\."

REASONS: dict[str, Reading] = {
    UNSOLVED: lambda seen, said: (
        seen.after.is_at(said["kind"], said["place"])
        and seen.after.is_at(said["other"], said["place_too"])
        and not seen.after.home()
    ),
    rf"After {TURN}, no turn of the {LAYER} solves the pair\.": lambda seen, said: (
        not seen.kept_by(seen.after, LAYERS[said["layer"]], pair=True)
    ),
    r"The two match already, before the turn\.": lambda seen, _: seen.before.matching(),
    r"The two do not match now, so there is no joined pair to separate\.": lambda seen, _: (
        not seen.before.matching()
    ),
    rf"After {TURN}, the two touch, but their colours do not line up\.": lambda seen, _: (
        seen.after.touching() and not seen.after.matching()
    ),
    rf"After {TURN}, the two do not even touch\.": lambda seen, _: not seen.after.touching(),
    rf"After {TURN}, the two still match\.": lambda seen, _: seen.before.matching() and seen.after.matching(),
    r"The two do not touch now, so you need not separate them\.": lambda seen, _: not seen.before.touching(),
    rf"After {TURN}, the two still touch\.": lambda seen, _: seen.before.touching() and seen.after.touching(),
    rf"{PIECE} is in the top layer already\.": lambda seen, said: seen.before.on_top(said["kind"]),
    rf"{PIECE} is {PLACE} now, not on top\.": lambda seen, said: (
        seen.before.is_at(said["kind"], said["place"]) and not seen.before.on_top(said["kind"])
    ),
    rf"After {TURN}, {PIECE} is {PLACE}, not on top\.": lambda seen, said: (
        seen.after.is_at(said["kind"], said["place"]) and not seen.after.on_top(said["kind"])
    ),
    rf"After {TURN}, {PIECE} is still in the top layer\.": lambda seen, said: (
        seen.before.on_top(said["kind"]) and seen.after.on_top(said["kind"])
    ),
    rf"{PIECE} is (?P<no>not )?in the {LAYER} now\.": lambda seen, said: (
        inside(seen.before, said["kind"], said["layer"]) is not bool(said["no"])
    ),
    rf"After {TURN}, {PIECE} is (?P<no>not )?in the {LAYER}\.": lambda seen, said: (
        inside(seen.after, said["kind"], said["layer"]) is not bool(said["no"])
    ),
    r"The cross and the other pairs are solved already, so no layer has to turn back\.": lambda seen, _: (
        seen.kept(seen.before)
    ),
    rf"{TURN} does not put {KEPT} back in place\.": lambda seen, _: not seen.kept(seen.after),
    rf"After {TURN}, no turn of the {LAYER} puts {KEPT} back in place\.": lambda seen, said: (
        seen.kept(seen.after) or not seen.kept_by(seen.after, LAYERS[said["layer"]])
    ),
    rf"Now, no turn of the {LAYER} puts {KEPT} back in place\.": lambda seen, said: (
        not seen.kept(seen.before) and not seen.kept_by(seen.before, LAYERS[said["layer"]])
    ),
    rf"{TURN} does not lift the (?P<slot>[a-z-]+ slot)\.": lambda seen, said: (
        not seen.lifts() and said["slot"] == slot_words(seen.task.slot)
    ),
    rf"{TURN} moves {PIECE}\.": lambda seen, said: seen.moves(said["kind"]),
    rf"{TURN} leaves {PIECE} where it is\.": lambda seen, said: not seen.moves(said["kind"]),
    # The wrong step: the conditions are those of the definitions of the steps.
    rf"{PIECE} is {PLACE}, so bring it to the top first\.": lambda seen, said: (
        seen.before.is_at(said["kind"], said["place"])
        and [seen.before.on_top(kind) for kind in ("corner", "edge")].count(True) == 1
        and not seen.before.on_top(said["kind"])
    ),
    rf"Both pieces{ASIDE} are {PLACE}, so bring them to the top first\.": lambda seen, said: (
        seen.before.is_at("corner", said["place"])
        and seen.before.is_at("edge", said["place"])
        and not seen.before.on_top("corner")
        and not seen.before.on_top("edge")
    ),
    r"Both pieces are in the top layer already, so Raise is done\.": lambda seen, _: (
        seen.before.on_top("corner") and seen.before.on_top("edge") and seen.kept(seen.before)
    ),
    r"The two match already, so only Insert is left\.": lambda seen, _: (
        seen.before.matching() and seen.before.on_top("corner") and seen.kept(seen.before)
    ),
    r"The two touch, but their colours do not line up\. Separate them first\.": lambda seen, _: (
        seen.before.touching() and not seen.before.matching()
    ),
    r"The two are apart, but they are not ready to join\.": lambda seen, _: not seen.before.touching(),
    r"The two are ready to join, so Part is done\.": lambda seen, _: not seen.before.matching(),
    r"The two are ready to join, but they do not match yet\.": lambda seen, _: not seen.before.matching(),
}
LOOKS = (
    r"Look where the two are now, and follow both through the turn\.",
    r"Look where the two meet, at both colours of the edge\.",
    r"Look at the cross and at the other pairs\.",
    rf"Look where {PIECE} is now, and follow it through {TURN}\.",
    rf"Look which pieces are in the {LAYER}\.",
    r"Look in the slots: is one of the two there\?",
    r"Look at the colours of the two on top and at the sides\.",
    r"Look how far apart the two are, and which colours they show on top\.",
    r"Look at the joined pair and at its slot\.",
)


def reason_in(reply: str) -> str:
    """The reason in a reply, which ends with where to look and has no sentence too long to read."""
    *told, look = sentences(reply)
    assert any(re.fullmatch(pattern, look) for pattern in LOOKS), look
    assert max(len(sentence.split()) for sentence in (*told, look)) <= MOST_WORDS, reply
    return " ".join(told)


def is_true(seen: Seen, reason: str) -> bool:
    """Whether exactly one pattern reads the reason, and finds it so."""
    read = [(check, found) for pattern, check in REASONS.items() if (found := re.fullmatch(pattern, reason))]
    assert len(read) == 1, reason
    ((check, said),) = read
    if "turn" in said.groupdict():
        assert seen.turn is not None
        assert said["turn"] == seen.turn.notation
    return check(seen, said)


def along_the_route(table: Table, case: Case, slot: Slot, alignment: int) -> Iterator[tuple[Answer, Turn]]:
    """Each turn of the case's route with the answer for where it is made."""
    position, task = case.position(slot, alignment), Task(slot, frozenset(SLOTS) - {slot})
    for turn in case.route(slot, alignment).turns:
        yield table.answer(position, task), turn
        position = position.turned(turn)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.slug)
def test_each_wrong_answer_about_a_turn_is_told_why_it_is_wrong_here(table: Table, case: Case) -> None:
    # Every slot and alignment is met by some case.
    slot, alignment = SLOTS[case.number % 4], ALIGNMENTS[case.number // 4 % 4]
    asked = 0
    for answer, turn in along_the_route(table, case, slot, alignment):
        for seed in range(4):
            question = why(answer, turn, COLOURS, seed)
            if question is None:
                continue
            seen = Seen(answer.position, answer.task, turn)
            for choice in question.choices:
                if not choice.true:
                    asked += 1
                    assert is_true(seen, reason_in(choice.reply)), (choice.text, choice.reply)
    assert asked >= 8


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.slug)
def test_each_wrong_step_is_told_why_it_is_wrong_here(table: Table, case: Case) -> None:
    # Every slot is met by some case.
    slot = SLOTS[case.number % 4]
    for alignment in ALIGNMENTS:
        position, task = case.position(slot, alignment), Task(slot, frozenset(SLOTS) - {slot})
        answer = table.answer(position, task)
        told = {}
        for step in TURNING_STEPS:
            if step is not answer.step:
                phrase = step_denied(answer, step, COLOURS)
                assert table.false_claims(phrase.claims, table.scene(answer, None)) == []
                told[step] = reason_in(phrase.text)
                assert is_true(Seen(position, task, None), told[step]), (step, told[step])
        # What speaks against a step that comes later is what the step under way has still to do.
        if answer.step is Step.RAISE:
            assert all("to the top first" in reason for reason in told.values())
        elif answer.step is Step.PART:
            assert told[Step.RAISE].endswith("so Raise is done.")
            assert "ready" in told[Step.JOIN] or "Separate" in told[Step.JOIN]
        elif answer.step is Step.JOIN:
            assert told[Step.PART].endswith("so Part is done.")
            assert told[Step.INSERT].endswith("they do not match yet.")


def is_true_of_turn(table: Table, answer: Answer, turn: Turn, text: str) -> bool:
    """Whether what is said against a first turn is so, by the stickers and by the distances of the solver."""
    scene, seen = table.scene(answer, turn), Seen(answer.position, answer.task, turn)
    reason, price = sentences(text)
    if list(untrue_counts(price, 0, scene.cost())) or not price.startswith("That costs "):
        return False
    if found := re.fullmatch(rf"You can turn the {LAYER} here, but as {TURN}\.", reason):
        best = next(each for each in TURNS if each.notation == found["turn"])
        return best.face is turn.face is LAYERS[found["layer"]] and scene.is_best(scene.before, best)
    if reason.startswith(f"{turn.notation} takes out "):
        return not list(untrue(reason, seen.before, seen.after, seen.after))
    if reason == f"{turn.notation} separates the two, although they match.":
        return seen.before.matching() and not seen.after.matching()
    found = re.fullmatch(rf"After {TURN}, {PIECE} is {PLACE}, {OTHER} {PLACE_TOO}\.", reason)
    assert found is not None, reason
    return (
        found["turn"] == turn.notation
        and seen.after.is_at(found["kind"], found["place"])
        and seen.after.is_at(found["other"], found["place_too"])
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.slug)
def test_each_first_turn_that_is_a_detour_is_told_why(table: Table, case: Case) -> None:
    slot, alignment = SLOTS[case.number % 4], ALIGNMENTS[case.number // 4 % 4]
    answer = table.answer(case.position(slot, alignment), Task(slot, frozenset(SLOTS) - {slot}))
    wrong = [turn for turn in TURNS if answer.continuations[turn].verdict is Verdict.DETOUR]
    assert len(wrong) >= 8
    for turn in wrong:
        phrase = turn_denied(answer, turn, COLOURS)
        assert table.false_claims(phrase.claims, table.scene(answer, turn)) == []
        assert is_true_of_turn(table, answer, turn, phrase.text), (turn, phrase.text)


def test_nothing_is_said_against_what_is_true(table: Table) -> None:
    answer = table.at("R U' R'")
    question = why(answer, Turn.R, COLOURS, 1)
    assert question is not None
    right = question.choices[question.right]
    change = Change(answer.position, answer.task, Turn.R, COLOURS)
    with pytest.raises(ValueError, match="nothing speaks against"):
        denied(change, right.claims, table.scene(answer, Turn.R))


def test_a_false_reason_is_noticed(table: Table) -> None:
    answer = table.at("R U' R'")
    seen = Seen(answer.position, answer.task, Turn.R)
    assert is_true(seen, "The edge is in the top layer already.")
    assert not is_true(seen, "The two match already, before the turn.")
    assert not is_true(seen, "R leaves the corner where it is.")
