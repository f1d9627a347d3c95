"""A club's practice evenings, invented: what a few learners did over some weeks, as the program keeps it.

``python -m tests.make_history FOLDER`` fills a store in a folder, which then can be looked at with
``PAIRWRIGHT_HOME=FOLDER python -m tutor``. The same seed gives the same history. Every verdict is the
solver's; the learners are made up, and so is how they learn:

- A case is remembered after d days with the chance 2 ** (-d / h). At first h is about a day and a half; every
  time it is remembered h grows, the more the longer it had been; forgotten, it halves.
- What is remembered is done by shortest lines, but for a slip now and then, more often in Part and Join. What
  is forgotten takes hints, and more slips.
- The time to the first turn shrinks with every try towards what the learner is capable of.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import lru_cache, partial
from pathlib import Path
from uuid import UUID

import msgspec
from msgspec import Struct

from tutor.cube.position import Position, every_other_slot
from tutor.method.answer import Answer, answer
from tutor.method.cases import parse_case
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.progress.attempt import AttemptRecord, HintTaken, Mode, Outcome, TurnMade
from tutor.progress.schedule import Proposal, next_up
from tutor.progress.store import AttemptStore
from tutor.progress.study import Study
from tutor.solver.search import Solver
from tutor.solver.task import Task

FIRST_EVENING = datetime(2026, 9, 28, 17, 0, tzinfo=UTC)
WEEKS = 8
SLIPS = {Step.RAISE: 0.5, Step.PART: 1.6, Step.JOIN: 1.3, Step.INSERT: 0.4}
"""How likely a slip is in each step, relative to the learner's own chance of one."""
MOST_TURNS = 40

Ask = Callable[[Position, Task], Answer]


class Member(Struct, frozen=True):
    """A member of the club: weekdays of practice (0 is Monday), minutes an evening, seconds to see a case."""

    name: str
    days: tuple[int, ...]
    minutes: float
    sees_in: float
    slips: float
    """Chance of a slip for each turn."""
    grows: float
    """How strongly remembering strengthens."""
    shows_up: float = 0.9
    """Chance to be there on one of these days."""


CLUB = (
    Member("Ilva", (0, 2, 3, 5), 22.0, 1.4, 0.04, 5.0),
    Member("Bastian", (0, 3), 18.0, 2.2, 0.07, 4.0),
    Member("Meret", (0, 1, 3, 4, 6), 12.0, 1.1, 0.05, 6.0, 0.75),
)


@dataclass
class Memory:
    """What a member knows of the cases: half-life in days, when seen last, and how often."""

    half_life: dict[str, float] = field(default_factory=dict)
    last: dict[str, datetime] = field(default_factory=dict)
    tries: dict[str, int] = field(default_factory=dict)

    def chance(self, case: str, now: datetime) -> float:
        """The chance that the case is remembered; 0 if it was never met."""
        if case not in self.last:
            return 0.0
        return float(2.0 ** (-(now - self.last[case]) / timedelta(days=self.half_life[case])))

    def meets(self, case: str, now: datetime, *, remembered: bool, grows: float) -> None:
        """The case was met."""
        known = self.half_life.get(case, 0.0)
        stronger = known * (1.0 + grows * (1.0 - self.chance(case, now))) if remembered else 0.5 * known
        self.half_life[case] = max(1.5, stronger)
        self.last[case] = now
        self.tries[case] = self.tries.get(case, 0) + 1


def history(
    ask: Ask, member: Member, weeks: int = WEEKS, begins: datetime = FIRST_EVENING, seed: int = 11
) -> Iterator[AttemptRecord]:
    """A member's attempts, in the order of time; the cases are those that the schedule proposes."""
    drawn = random.Random(f"{seed} {member.name}")
    study, memory = Study.of([], begins), Memory()
    for day in range(7 * weeks):
        now = begins + timedelta(days=day, minutes=drawn.uniform(0.0, 50.0))
        if now.weekday() not in member.days or drawn.random() > member.shows_up:
            continue
        ends = now + timedelta(minutes=member.minutes * drawn.uniform(0.7, 1.2))
        while now < ends:
            proposal = next_up(study, now, Mode.TODAY) or next_up(study, now, Mode.SLIPPING)
            if proposal is None:
                break
            made = _tried(ask, member, memory, proposal, now, drawn)
            now = made.time + timedelta(seconds=drawn.uniform(8.0, 25.0))
            study = study.after(made, now)
            yield made


def _tried(
    ask: Ask, member: Member, memory: Memory, proposal: Proposal, now: datetime, drawn: random.Random
) -> AttemptRecord:
    """One try at what was proposed."""
    case, slot, seen = parse_case(proposal.slug), proposal.slot, proposal.shown
    remembered = drawn.random() < memory.chance(case.slug, now)
    tries = memory.tries.get(case.slug, 0)
    first = member.sees_in * (1.0 + 3.0 / (1.0 + tries)) * drawn.lognormvariate(0.0, 0.25)
    first *= 1.0 if remembered else 2.0
    task = Task(slot, every_other_slot(slot))
    position = seen.position(slot, proposal.alignment)
    hints = _hints(remembered=remembered, tries=tries, first=first, drawn=drawn)
    slip = member.slips if remembered else 4.0 * member.slips
    turns, undone = _turns(ask, position, task, first, slip, drawn)
    told = ask(position, task)
    seconds = turns[-1].at + drawn.uniform(0.3, 0.8)
    ended = now + timedelta(seconds=seconds)
    memory.meets(case.slug, now, remembered=remembered, grows=member.grows)
    return AttemptRecord(
        member.name,
        ended,
        case.slug,
        slot,
        proposal.alignment,
        Mode.TODAY,
        Outcome.SOLVED,
        len(turns) - undone,
        told.distance,
        seconds,
        mirror=proposal.mirror,
        keep=task.keep,
        turns=turns,
        hints=hints,
        by_hand=told.by_hand,
        route=len(told.routes[0].turns) if told.routes else None,
        first_turn=turns[0].at,
        uuid=UUID(int=drawn.getrandbits(128)),
    )


def _hints(*, remembered: bool, tries: int, first: float, drawn: random.Random) -> tuple[HintTaken, ...]:
    """Hints are taken before the first turn: for what is new all three, later fewer."""
    if remembered:
        return (HintTaken(1, 0.8 * first),) if drawn.random() < 0.06 else ()
    deepest = 3 if tries == 0 else drawn.choice((1, 2, 2, 3))
    return tuple(HintTaken(rung, first * (0.4 + 0.15 * rung)) for rung in range(1, deepest + 1))


def _turns(
    ask: Ask, position: Position, task: Task, first: float, slip: float, drawn: random.Random
) -> tuple[tuple[TurnMade, ...], int]:
    """Turns until the pair is home, with what the solver says of each, and how many of them are undone.

    A slip that the same layer would put right is undone: turned on, the two would be one turn.
    """
    made: list[TurnMade] = []
    way: list[int] = []
    start, at = position, first
    while not task.done(position):
        told = ask(position, task)
        last = made[way[-1]].turn.face if way else None
        worse = [one.turn for one in told.continuations if one.lost and one.turn.face is not last]
        slips = len(made) < MOST_TURNS and drawn.random() < slip * SLIPS.get(told.step, 1.0)
        turn = drawn.choice(worse) if slips and worse else told.lines[0][0]
        judged, after = told.continuations[turn], position.turned(turn)
        made.append(TurnMade(turn, at, judged.verdict, judged.lost, told.step))
        if task.done(after) or ask(after, task).lines[0][0].face is not turn.face:
            way.append(len(made) - 1)
            position = after
        at += drawn.uniform(0.5, 1.1)
    for place, step in zip(way, cut(start, task, [made[each].turn for each in way]), strict=True):
        made[place] = msgspec.structs.replace(made[place], step=step)
    return tuple(made), len(made) - len(way)


def asker(solver: Solver) -> Ask:
    """Answers of the solver, remembered."""
    return lru_cache(maxsize=None)(partial(answer, solver))


def fill(
    store: AttemptStore,
    ask: Ask,
    weeks: int = WEEKS,
    begins: datetime = FIRST_EVENING,
    members: tuple[Member, ...] = CLUB,
) -> datetime:
    """Keep what the members did, each independently, and tell when the last attempt ended."""
    last = begins
    for member in members:
        store.add_learner(member.name)
        attempts = tuple(history(ask, member, weeks, begins))
        store.merge(attempts)
        last = max(last, attempts[-1].time)
    return last


def main() -> None:
    """Fill a folder's store with a history that ended yesterday."""
    parser = argparse.ArgumentParser(description="Fill a store with a club's invented practice evenings.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--weeks", type=int, default=WEEKS)
    chosen = parser.parse_args()
    begins = datetime.now(UTC) - timedelta(weeks=chosen.weeks)
    with AttemptStore.open(chosen.folder) as store:
        fill(store, asker(Solver.open()), chosen.weeks, begins)
        for learner in store.learners():
            print(f"{learner}: {len(store.attempts(learner))} attempts")


if __name__ == "__main__":
    main()
