"""Someone at the table who answers for any position and checks any claim; positions to talk about."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product
from random import Random

from tests.workers.direct import answers_of
from tutor.coach.claims import Claim
from tutor.coach.scene import ClaimContext
from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.answer import Answer
from tutor.method.cases import ALIGNMENTS, CASES
from tutor.solver.search import Solver
from tutor.solver.task import Task

COLOURS = ("yellow", "white", "red", "orange", "green", "blue")
Start = tuple[Position, Task]


@dataclass
class Table:
    """Someone at the table who can answer for any position and check any claim."""

    solver: Solver
    colours: tuple[str, ...] = COLOURS
    _distances: dict[Start, int] = field(default_factory=dict)
    _by_hand: dict[Start, int | None] = field(default_factory=dict)

    def answer(self, position: Position, task: Task) -> Answer:
        return answers_of(self.solver)(position, task)

    def at(self, setup: str, slot: Slot = Slot.FR, keep: frozenset[Slot] | None = None) -> Answer:
        """The answer after a setup in notation; every other slot is kept unless told otherwise."""
        kept = frozenset(SLOTS) - {slot} if keep is None else keep
        return self.answer(SOLVED.after(parse_turns(setup)), Task(slot, kept))

    def distance(self, position: Position, task: Task) -> int:
        if (position, task) not in self._distances:
            self._distances[position, task] = self.solver.distance(position, task)
        return self._distances[position, task]

    def by_hand(self, position: Position, task: Task) -> int | None:
        if (position, task) not in self._by_hand:
            self._by_hand[position, task] = self.solver.hand_distance(position, task)
        return self._by_hand[position, task]

    def scene(self, start: Answer, turn: Turn | None) -> ClaimContext:
        return self.at_turn(start.position, start.task, turn)

    def at_turn(self, position: Position, task: Task, turn: Turn | None) -> ClaimContext:
        return ClaimContext(
            position,
            position if turn is None else position.turned(turn),
            task,
            lambda position: self.distance(position, task),
            lambda position: self.by_hand(position, task),
            turn,
        )

    def false_claims(self, claims: tuple[Claim, ...], scene: ClaimContext) -> list[Claim]:
        return [claim for claim in claims if not claim.holds(scene)]


def every_start() -> Iterator[Start]:
    """All 41 cases in every slot and alignment, with the other slots kept."""
    for case, slot, alignment in product(CASES, SLOTS, ALIGNMENTS):
        yield case.position(slot, alignment), Task(slot, frozenset(SLOTS) - {slot})


def one_turn_off() -> Iterator[Start]:
    """Every start of ``every_start`` with one wrong turn made, whichever."""
    for (position, task), turn in product(every_start(), TURNS):
        yield position.turned(turn), task


def deviated(count: int, seed: int) -> list[Start]:
    """Random positions one to four turns off a case, with random slots kept."""
    random = Random(seed)
    found = []
    for _ in range(count):
        case, slot = random.choice(CASES), random.choice(SLOTS)
        others = [other for other in SLOTS if other is not slot]
        keep = frozenset(random.sample(others, random.choice((3, 3, 3, 2, 1, 0))))
        position = case.position(slot, random.choice(ALIGNMENTS))
        wrong = [random.choice(TURNS) for _ in range(random.randint(1, 4))]
        found.append((position.after(wrong), Task(slot, keep)))
    return found
