"""What is said after a wrong answer: every sentence is read back against the stickers, for every case."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cached_property

import pytest
from msgspec import Struct

from tutor.coach.catalogue import sentences
from tutor.coach.sight import SpokenPosition
from tutor.counting import number
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS, STICKERS, Vector, cubie_number
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves, parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.stickers import COLOUR_NAMES, faces_shown
from tutor.lesson.questions import Answerer, QuestionSubject, place_words, subject_of
from tutor.lesson.scenes import Sought
from tutor.lesson.script import LONGEST_TEXT
from tutor.lesson.variation import PLAIN
from tutor.lesson.wrong_answers import place_reply, step_reply
from tutor.method.cases import ALIGNMENTS, CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS, ready
from tutor.solver.task import Task

COLOURS = tuple(COLOUR_NAMES[HeldCube().colour_of(face)] for face in Face)
FACE_OF = {word: face for face, word in zip(Face, COLOURS, strict=True)}
SIDES = {"front": Face.F, "back": Face.B, "left": Face.L, "right": Face.R, "top": Face.U}
NUMBERS = {number(count): count for count in range(20)}
SUBJECTS = ("turn", "step", "count", "joint", "corner", "edge")
SLOTS_SEEN = [(slot, alignment) for slot in SLOTS for alignment in ALIGNMENTS]


class Stickers(Struct, frozen=True, dict=True):
    """A position as its 54 stickers show it, and nothing else of it."""

    position: Position
    task: Task
    answers: Answerer

    @cached_property
    def cubies(self) -> dict[Vector, dict[Face, str]]:
        """The colours of each cubie by the faces they show on."""
        shown: dict[Vector, dict[Face, str]] = {}
        for (cubie, face), colour in zip(STICKERS, faces_shown(self.position), strict=True):
            shown.setdefault(cubie, {})[face] = COLOURS[colour]
        return shown

    def find(self, *colours: str) -> Vector:
        """Where the piece with these colours is."""
        return next(at for at, shown in self.cubies.items() if set(shown.values()) == set(colours))

    @property
    def sides(self) -> tuple[str, str]:
        """The colours of the centres beside the slot."""
        first, second = (COLOURS[Face[letter]] for letter in self.task.slot.name)
        return first, second

    @property
    def corner(self) -> Vector:
        """Where the corner is."""
        return self.find(COLOURS[Face.D], *self.sides)

    @property
    def edge(self) -> Vector:
        """Where the edge is."""
        return self.find(*self.sides)

    @property
    def touch(self) -> bool:
        """Whether the two lie side by side."""
        return sum(abs(a - b) for a, b in zip(self.corner, self.edge, strict=True)) == 1

    @property
    def joint(self) -> dict[Face, tuple[str, str]]:
        """On each side where both show a colour: the corner's and the edge's."""
        corner, edge = self.cubies[self.corner], self.cubies[self.edge]
        return {face: (corner[face], edge[face]) for face in edge if face in corner}

    @property
    def line_up(self) -> bool:
        """Whether they touch and their colours agree on both sides."""
        return self.touch and all(one == other for one, other in self.joint.values())

    @property
    def settled(self) -> bool:
        """Whether cross and kept pairs show the colour of their centres throughout."""
        kept = [vector(Face.D, side) for side in (Face.F, Face.R, Face.B, Face.L)]
        for slot in self.task.keep:
            kept += [vector(*(Face[letter] for letter in slot.name), *low) for low in ((), (Face.D,))]
        return all(self.right(cubie) for cubie in kept)

    def right(self, cubie: Vector) -> bool:
        """Whether a cubie shows the colours of the centres."""
        return all(COLOURS[face] == colour for face, colour in self.cubies[cubie].items())

    def turned(self, turn: str) -> Stickers:
        """After a turn."""
        return Stickers(self.position.turned(parse_turns(turn)[0]), self.task, self.answers)

    @property
    def needs(self) -> int:
        """The fewest turns, as asked of the solver at this position itself."""
        return self.answers(self.position, self.task).to_go


def vector(*faces: Face) -> Vector:
    """The place between faces."""
    x, y, z = (sum(NORMALS[face][axis] for face in faces) for axis in range(3))
    return (x, y, z)


def place(words: str, piece: str) -> Vector:
    """A place in words, as coordinates."""
    sides = [SIDES[word] for word in re.findall(r"front|back|left|right", words)]
    low = [Face.D] if "slot" in words and piece == "corner" else []
    return vector(*sides, *([Face.U] if words.startswith("on top") else low))


Check = Callable[["Reply", re.Match[str]], bool]


class Reply(Struct, frozen=True):
    """A reply to be read back: what was claimed about which stickers."""

    about: str
    claimed: str
    stickers: Stickers

    def two_places(self, corner: str, edge: str) -> bool:
        return (place(corner, "corner"), place(edge, "edge")) == (self.stickers.corner, self.stickers.edge)

    def wrong_piece(self, colours: str, kind: str) -> bool:
        """The piece at the claimed place has these colours; it is not the one asked for."""
        faces = [Face[letter] for letter in self.claimed]
        found = self.stickers.cubies[vector(*faces)]
        return sorted(found.values()) == sorted(colours.split("-")) and kind == self.about

    def wanted(self, colours: str) -> bool:
        own = set(re.findall(r"[a-z]+", colours)) - {"and"}
        cross = {COLOURS[Face.D]} if self.about == "corner" else set()
        return own == {*self.stickers.sides, *cross}

    def moved(self, corner: bool, edge: bool) -> bool:
        """Which of the two the claimed turn moves, by where it has gone."""
        after = self.stickers.turned(self.claimed)
        return (corner, edge) == (after.corner != self.stickers.corner, after.edge != self.stickers.edge)

    def costs(self, after: str, before: str) -> bool:
        turned = self.stickers.turned(self.claimed)
        return (NUMBERS[before], NUMBERS[after]) == (self.stickers.needs, turned.needs)

    def still_to_do(self, steps: str) -> bool:
        """The steps of the route that is taught, of which the first is under way."""
        route = self.stickers.answers(self.stickers.position, self.stickers.task).routes[0]
        names = re.findall(r"Raise|Part|Join|Insert", steps)
        return names == [step.capitalize() for step in dict.fromkeys(route.steps)]

    def takes_out(self, words: str) -> bool:
        """Exactly so many cross edges, and these pairs, show the centres' colours before and not after."""
        before, after = self.stickers, self.stickers.turned(self.claimed)
        gone = {cubie for cubie in before.cubies if before.right(cubie) and not after.right(cubie)}
        edges = len([cubie for cubie in gone if cubie[1] == -1 and cubie.count(0) == 1])
        sides = {slot: [Face[letter] for letter in slot.name] for slot in before.task.keep}
        slots = {slot for slot, own in sides.items() if {vector(*own), vector(Face.D, *own)} & gone}
        named = {slot for slot in SLOTS if _SIDES_OF[slot] in words}
        counted = re.search(r"(\w+) pairs", words)
        pairs_told = named == slots if named or not counted else NUMBERS.get(counted[1]) == len(slots)
        found = re.search(r"(\w+) cross edge", words)
        edges_told = 4 if "the cross" in words else NUMBERS[found[1]] if found else 0
        return pairs_told and edges == edges_told

    def good_layer(self) -> bool:
        """Another turn of the layer begins a shortest way."""
        answer = self.stickers.answers(self.stickers.position, self.stickers.task)
        face = parse_turns(self.claimed)[0].face
        return any(
            each.turn.face is face and each.verdict is Verdict.OPTIMAL for each in answer.continuations
        )

    def under_way(self, step: str) -> bool:
        return self.stickers.answers(self.stickers.position, self.stickers.task).step == step


_SIDES_OF = {Slot.FR: "front-right", Slot.FL: "front-left", Slot.BL: "back-left", Slot.BR: "back-right"}


def low(reply: Reply) -> list[str]:
    """Which of the two are not on top."""
    at = {"corner": reply.stickers.corner, "edge": reply.stickers.edge}
    return [piece for piece, cubie in at.items() if cubie[1] != 1]


def nothing(reply: Reply, found: re.Match[str]) -> bool:
    """A sentence that says only where to look."""
    return True


WORDS = r"(.+)"
READ: dict[str, Check] = {
    # where is it
    rf"That is the {WORDS} (corner|edge)": lambda r, m: r.wrong_piece(m[1], m[2]),
    rf"Look for the (corner|edge) with {WORDS}": lambda r, m: m[1] == r.about and r.wanted(m[2]),
    # how do they lie
    rf"The corner is {WORDS}, and the edge is {WORDS}": lambda r, m: r.two_places(m[1], m[2]),
    rf"Both are {WORDS}": lambda r, m: r.two_places(m[1], m[1]),
    r"Two pieces touch when they lie side by side": nothing,
    r"These two do not": lambda r, m: not r.stickers.touch,
    r"Two joined pieces lie side by side": lambda r, m: not r.stickers.touch,
    r"Look whether these two do": nothing,
    r"They lie side by side": lambda r, m: r.stickers.touch,
    r"Compare their colours where they meet": lambda r, m: r.stickers.touch,
    r"They touch, but you can say more": lambda r, m: r.stickers.line_up,
    r"Compare the edge with the corner on both sides, colour by colour": nothing,
    r"Look at the (\w+)(?: side)?, where they meet": lambda r, m: SIDES[m[1]] in r.stickers.joint,
    r"The corner shows (\w+) there, and the edge shows (\w+)": lambda r, m: (
        m[1] != m[2] and (m[1], m[2]) in r.stickers.joint.values()
    ),
    # which step
    r"(\w+) comes when both pieces are on top, and here the (corner|edge) is not": lambda r, m: (
        [m[2]] == low(r) and m[1].lower() == r.claimed
    ),
    r"(\w+) comes when both pieces are on top, and here neither is": lambda r, m: (
        len(low(r)) == 2 and m[1].lower() == r.claimed
    ),
    r"Look where each of the two lies": nothing,
    r"Both pieces are on top, and everything that should be solved is solved": lambda r, m: (
        not low(r) and r.stickers.settled
    ),
    r"So nothing is left to raise": lambda r, m: r.claimed == "raise",
    r"Look at how the two lie": nothing,
    r"The two touch, but their colours do not line up": lambda r, m: (
        r.stickers.touch and not r.stickers.line_up
    ),
    # What is ready is asked of the method: it is defined by ways on, not by what one sees.
    r"From here the two would meet the wrong way round": lambda r, m: (
        not r.stickers.touch and not ready(r.stickers.position, r.stickers.task)
    ),
    r"Something has to happen before they can join": lambda r, m: r.claimed == "join",
    r"Part is for two pieces that would meet the wrong way round": lambda r, m: r.claimed == "part",
    r"These two would not": lambda r, m: ready(r.stickers.position, r.stickers.task),
    r"Look whether they have met yet": nothing,
    r"The two match: they touch, and their colours line up on both sides": lambda r, m: r.stickers.line_up,
    r"Look where they have to go now": nothing,
    r"You insert a joined pair": lambda r, m: r.claimed == "insert",
    r"Here the colours of the two do not line up yet": lambda r, m: not r.stickers.line_up,
    r"Look how they lie": nothing,
    # how many turns
    r"(\w+) turns? (?:is|are) not enough here": lambda r, m: (
        NUMBERS[m[1].lower()] == int(r.claimed) < r.stickers.needs
    ),
    r"You need fewer than (\w+) turns? here": lambda r, m: NUMBERS[m[1]] == int(r.claimed) > r.stickers.needs,
    rf"Count the turns of {WORDS}": lambda r, m: r.still_to_do(m[1]),
    r"Think the turns through one by one, and count them": nothing,
    r"Look for a turn that does the work of two": lambda r, m: (
        len(r.stickers.answers(r.stickers.position, r.stickers.task).routes[0].turns) > r.stickers.needs
    ),
    # which turn
    r"(\S+) moves both pieces of the pair": lambda r, m: m[1] == r.claimed and r.moved(True, True),
    r"(\S+) moves the corner and leaves the edge in place": lambda r, m: (
        m[1] == r.claimed and r.moved(True, False)
    ),
    r"(\S+) moves the edge and leaves the corner in place": lambda r, m: (
        m[1] == r.claimed and r.moved(False, True)
    ),
    r"(\S+) moves neither the corner nor the edge": lambda r, m: m[1] == r.claimed and r.moved(False, False),
    rf"(\S+) takes {WORDS} out of place": lambda r, m: m[1] == r.claimed and r.takes_out(m[2]),
    r"After it the pair still needs (\w+) turns?": lambda r, m: r.costs(m[1], m[1]),
    r"After it the pair needs (\w+) turns? instead of (\w+)": lambda r, m: r.costs(m[1], m[2]),
    r"This layer is a good choice, but look which way it has to turn, and how far": lambda r, m: (
        r.good_layer()
    ),
    r"Look at the top and at the layers beside the slot": lambda r, m: (
        parse_turns(r.claimed)[0].face.name not in {"U", *r.stickers.task.slot.name}
    ),
    r"You want both pieces on top": lambda r, m: r.under_way("raise"),
    r"You want to set the two apart": lambda r, m: r.under_way("part"),
    r"You want the two to meet, colour to colour": lambda r, m: r.under_way("join"),
    r"You want to slide the pair into its slot": lambda r, m: r.under_way("insert"),
    r"Look which layer can bring them there": nothing,
    r"Look which of them should move and which should stay": nothing,
    r"Look which of them should move, and where to": nothing,
    r"Look where it lies, and which layer lifts the slot": nothing,
}
PATTERNS = [(re.compile(rf"{pattern}\."), check) for pattern, check in READ.items()]


def read_back(text: str, reply: Reply) -> None:
    """Every sentence is known, and true; there is room for all of them, and none is long."""
    assert 0 < len(text) <= LONGEST_TEXT
    for sentence in sentences(text):
        assert len(sentence.split()) <= 20, sentence
        found = [(match, check) for pattern, check in PATTERNS if (match := pattern.fullmatch(sentence))]
        assert found, sentence
        assert all(check(reply, match) for match, check in found), (sentence, reply)


def every_wrong_claim(about: str, subject: QuestionSubject) -> list[str]:
    """What may be claimed wrongly: all that is offered, and of turns all eighteen."""
    claims = [turn.notation for turn in Turn] if about == "turn" else subject.offered
    return [claim for claim in claims if claim not in subject.true]


def given_away(about: str, subject: QuestionSubject, text: str, claim: str) -> bool:
    """Whether a reply names the true answer itself."""
    [true, *others] = subject.true
    if about == "turn":
        return bool({turn.notation for turn in Turn if turn.notation in subject.true} & set(text.split()))
    if about == "joint":
        return claim == "joined" and "These two do not" in text
    named = {"step": true.capitalize(), "count": number(int(true)) if about == "count" else ""}
    words = named.get(about) or place_words(true).lower()
    sure = about == "step" or about in ("corner", "edge")
    return not others and sure and re.search(rf"\b{words}\b", text) is not None


@pytest.mark.parametrize(("slot", "alignment"), SLOTS_SEEN)
def test_every_reply_to_a_wrong_answer_is_true_of_every_case(
    slot: Slot, alignment: int, answers: Answerer
) -> None:
    told = 0
    for case in CASES:
        position = case.position(slot, alignment)
        task = Task.at(position, slot)
        seen, stickers = SpokenPosition(position, task, COLOURS), Stickers(position, task, answers)
        for about in SUBJECTS:
            subject = subject_of(about, seen, PLAIN, answers)
            for claim in every_wrong_claim(about, subject):
                text = subject.why(claim)
                read_back(text, Reply(about, claim, stickers))
                assert not given_away(about, subject, text, claim), (about, claim, text)
                told += 1
    # Two or three wrong claims for each subject but the turns, of which each case has at least eight.
    assert told > 41 * (8 + 3 + 3 + 2 + 3 + 3)


def test_a_pair_that_is_not_the_nearest_is_told_with_its_turns(answers: Answerer) -> None:
    # The pair of FL went out last, by three turns, and that of FR before it.
    position = HeldCube().after(parse_moves("R U R' L' U' L")).position
    subject = subject_of(
        "slot", SpokenPosition(position, Task.at(position, Slot.FR), COLOURS), PLAIN, answers
    )
    needs = answers(position, Task.at(position, Slot.FR)).to_go
    assert needs > answers(position, Task.at(position, Slot.FL)).to_go == 3
    assert subject.why("FR") == (
        f"The pair of the front-right slot needs {number(needs)} turns, and another pair needs fewer. "
        "Compare where the corner and the edge of each pair lie."
    )
    assert subject.why("BL") == (
        "The pair of the back-left slot is solved already. Choose among the pairs that are not."
    )


def test_in_the_midst_of_a_step_no_other_step_is_explained_away(answers: Answerer) -> None:
    # R U R' takes the pair out; after the first turn of the way back the slot is lifted.
    position = HeldCube().after(parse_moves("R U")).position
    seen = SpokenPosition(position, Task(Slot.FR, frozenset(SLOTS) - {Slot.FR}), COLOURS)
    under_way = answers(position, seen.task).step
    for step in TURNING_STEPS:
        if step is not under_way:
            assert step_reply(step, seen) == (
                "Something is out of place here, so a step has begun. "
                f"That step is not {step.capitalize()}. Look at what it does with the two."
            )


@pytest.mark.parametrize("slot", SLOTS)
def test_whatever_is_pointed_at_instead_is_named_as_it_shows(slot: Slot, answers: Answerer) -> None:
    position = CASES[7].position(slot)
    seen = SpokenPosition(position, Task.at(position, slot), COLOURS)
    stickers: dict[Vector, dict[Face, str]] = {}
    for (cubie, face), colour in zip(STICKERS, faces_shown(position), strict=True):
        stickers.setdefault(cubie, {})[face] = COLOURS[colour]
    for cubie, shown in stickers.items():
        kind = ("centre", "edge", "corner")[len(shown) - 1]
        for sought, colours in ((Sought.CORNER, seen.corner_name), (Sought.EDGE, seen.edge_name)):
            if set(colours.split("-")) == set(shown.values()):
                continue
            said = place_reply(sought, cubie_number(cubie), seen)
            found = re.fullmatch(
                r"That is the (\S+) (\w+)\.( An? \w+ has \w+ colours\.)? Look for the (\w+) with (.*)\.", said
            )
            assert found is not None, said
            assert (sorted(found[1].split("-")), found[2]) == (sorted(shown.values()), kind)
            assert (found[3] is None) is (kind == sought)
            assert found[4] == sought
            assert set(re.split(", | and ", found[5])) == set(colours.split("-"))


def test_another_slot_is_told_by_the_centres_beside_it() -> None:
    position = CASES[0].position(Slot.FR)
    seen = SpokenPosition(position, Task.at(position, Slot.FR), COLOURS)
    other = cubie_number(vector(Face.B, Face.L))
    # By the colours of the world's most usual cube (common practice), green in front and white down.
    assert {COLOURS[Face.F], COLOURS[Face.R], COLOURS[Face.B], COLOURS[Face.L]} == {
        "green", "orange", "blue", "red",
    }  # fmt: skip
    assert place_reply(Sought.SLOT, other, seen) == (
        "The back-left slot lies between the blue and the red centre. "
        "Look for the slot between green and orange."
    )
    assert place_reply(Sought.SLOT, cubie_number(vector(Face.U, Face.F)), seen) == (
        "That is not a slot. A slot is the upright gap between two sides. "
        "Look for the one between the green and the orange centre."
    )
