"""A whole solve looked back on: its legs against the fewest turns, turns judged, pauses, what to practise.

A leg is the cross, or the way from where a pair was begun to where it, and with it all that was home before,
is home. All positions and turns are named in one frame, with the cross down.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from tutor.coach.change import Change
from tutor.coach.slips import Made, SlipKind, slips
from tutor.cube.faces import Turn
from tutor.cube.position import Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.advice import read_cross
from tutor.method.answer import answer
from tutor.method.cases import CaseSighting, case_of
from tutor.method.continuations import Verdict
from tutor.method.lines import fewest_together, shortest_lines
from tutor.method.terms import Step
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task

MOST_JUDGED = 300
"""Turns judged in one solve; those after them are counted only."""
SHORTEST_PAUSE = 2.0
"""Seconds; a shorter gap between turns is no pause."""
PAUSES_TOLD = 3
DRILLS = 3
"""The most useful things to practise that are named."""


class SolveQuestion(Struct, frozen=True):
    """How well was a solve done? The position it began from, cross down, and its turns in that frame.

    ``tasks`` says, for each turn, which pair it was made for: None for the cross, and where nobody chose.
    """

    position: Position
    turns: tuple[Turn, ...]
    tasks: tuple[Task | None, ...] = ()


class Leg(Struct, frozen=True):
    """From the turn count ``begin`` to ``end``; ``slots`` are the pairs it brought home, none for the cross.

    ``kept`` are the pairs that were home when it began. The last leg of an unfinished solve is not ``done``
    and has no slots either.
    """

    begin: int
    end: int
    slots: tuple[Slot, ...] = ()
    kept: frozenset[Slot] = frozenset()
    cross: bool = False
    done: bool = True

    @property
    def made(self) -> int:
        """Turns made in it."""
        return self.end - self.begin

    @property
    def task(self) -> Task:
        """What it did, as a task. Raises ValueError for a leg that brought no pair home."""
        if not self.slots:
            raise ValueError("a leg without a pair has no task")
        return Task(self.slots[0], self.kept | set(self.slots[1:]))


class LegReading(Struct, frozen=True):
    """A leg with the fewest turns it could have had from where it was begun, and a line of that length.

    For one pair they are by hand. For the cross, and for pairs that came home with one turn, they are of all
    turns; the line of such pairs is by hand, None when none is known.
    """

    leg: Leg
    fewest: int
    line: tuple[Turn, ...] | None

    @property
    def lost(self) -> int:
        """Turns beyond the fewest; none for a way with far layers that is shorter than any by hand."""
        return max(0, self.leg.made - self.fewest)


class TurnReading(Struct, frozen=True):
    """A turn judged: what it lost (0 to 2), its slip if it was one, and the step and case it was made in.

    ``sighting`` is the case at the latest position before it, within its leg, at which all was settled; or
    the first after it, when a piece had to be brought out of another slot before.
    """

    verdict: Verdict
    lost: int
    slip: SlipKind | None = None
    step: Step | None = None
    sighting: CaseSighting | None = None


class SolveReading(Struct, frozen=True):
    """All legs, and the turns judged in order, from the first on."""

    legs: tuple[LegReading, ...]
    turns: tuple[TurnReading, ...]

    @property
    def lost_in_cross(self) -> int:
        """Turns of the cross beyond the fewest."""
        return sum(each.lost for each in self.legs if each.leg.cross)

    @property
    def slips(self) -> tuple[tuple[SlipKind, int], ...]:
        """The kinds of slips with how often each was made, the most frequent first."""
        found = Counter(turn.slip for turn in self.turns if turn.slip is not None)
        return tuple(sorted(found.items(), key=lambda item: (-item[1], list(SlipKind).index(item[0]))))


class Pause(Struct, frozen=True):
    """A gap of ``seconds`` before the turn with this index."""

    index: int
    seconds: float


class Drill(Struct, frozen=True):
    """A case worth practising: the turns lost in it, the step that lost most, and the slip made most."""

    sighting: CaseSighting
    lost: int
    step: Step | None
    slip: SlipKind | None


def positions_of(position: Position, turns: Sequence[Turn]) -> tuple[Position, ...]:
    """The position before each turn, and the one at the end."""
    reached = [position]
    for turn in turns:
        reached.append(reached[-1].turned(turn))
    return tuple(reached)


def legs(position: Position, turns: Sequence[Turn]) -> tuple[Leg, ...]:
    """The legs of a solve, up to where two layers are home; what comes after belongs to none."""
    reached = positions_of(position, turns)
    last = len(turns)
    begin = next((count for count, each in enumerate(reached) if each.cross_home), None)
    if begin is None:
        return (Leg(0, last, cross=True, done=False),)
    found = [Leg(0, begin, cross=True)] if begin else []
    while not reached[begin].two_layers_home:
        kept = frozenset(reached[begin].home_pairs)
        end = next((count for count in range(begin + 1, last + 1) if _further(reached[count], kept)), None)
        if end is None:
            return (*found, Leg(begin, last, kept=kept, done=False)) if begin < last else tuple(found)
        slots = tuple(sorted(reached[end].home_pairs - kept))
        found.append(Leg(begin, end, slots, kept))
        begin = end
    return tuple(found)


def _further(position: Position, kept: frozenset[Slot]) -> bool:
    """Whether everything kept is home, and more than that."""
    return position.cross_home and kept < position.home_pairs


# ------------------------------------------------------------------------------------------ the reading


def read_solve(solver: Solver, question: SolveQuestion) -> SolveReading:
    """All there is to say about the turns of a solve, exact."""
    reached = positions_of(question.position, question.turns)
    read: list[LegReading] = []
    judged: list[TurnReading] = []
    for leg in legs(question.position, question.turns):
        if not leg.done:
            break
        if leg.cross:
            read.append(_cross_leg(CrossSolver(solver.tables), reached[leg.begin], leg))
            judged += _judged_for_cross(solver, reached, question.turns, leg)
        else:
            read.append(_pair_leg(solver, reached[leg.begin], leg))
            judged += _judged_for_pairs(solver, reached, question, leg)
    return SolveReading(tuple(read), tuple(judged))


def _cross_leg(crosses: CrossSolver, start: Position, leg: Leg) -> LegReading:
    line = read_cross(crosses, start).lines[0]
    return LegReading(leg, len(line), line)


def _pair_leg(solver: Solver, start: Position, leg: Leg) -> LegReading:
    if len(leg.slots) > 1:
        return LegReading(leg, *fewest_together(solver, start, leg.task))
    line = shortest_lines(solver, start, leg.task)[0]
    return LegReading(leg, len(line), line)


def _judged_for_cross(
    solver: Solver, reached: Sequence[Position], turns: Sequence[Turn], leg: Leg
) -> list[TurnReading]:
    crosses = CrossSolver(solver.tables)
    judged = []
    for index in range(leg.begin, min(leg.end, MOST_JUDGED)):
        reading, turn = read_cross(crosses, reached[index]), turns[index]
        lost = reading.after[turn] + 1 - reading.distance
        judged.append(TurnReading(reading.verdict(turn), lost))
    return judged


def _judged_for_pairs(
    solver: Solver, reached: Sequence[Position], question: SolveQuestion, leg: Leg
) -> list[TurnReading]:
    judged: list[TurnReading] = []
    sighting: CaseSighting | None = None
    for index in range(leg.begin, min(leg.end, MOST_JUDGED)):
        position, task = reached[index], _task_at(question, reached[index], index, leg)
        sighting = case_of(position, task) or sighting
        judged.append(_judged_for(solver, position, task, question.turns[index], leg, sighting))
    first = next((turn.sighting for turn in judged if turn.sighting is not None), None)
    return [turn if turn.sighting is not None else replace(turn, sighting=first) for turn in judged]


def _task_at(question: SolveQuestion, position: Position, index: int, leg: Leg) -> Task:
    """The pair that a turn was made for: the one chosen then, else the one that its leg solved."""
    chosen = question.tasks[index] if index < len(question.tasks) else None
    return leg.task if chosen is None or chosen.done(position) else chosen


def _judged_for(
    solver: Solver, position: Position, task: Task, turn: Turn, leg: Leg, sighting: CaseSighting | None
) -> TurnReading:
    before = answer(solver, position, task)
    # Only the kind of a slip is wanted here, so that any colour words will do.
    made = Made(before, Change(position, task, turn, COLOUR_NAMES))
    found = slips(made)
    lost = made.lost if len(leg.slots) == 1 else made.own.cost
    kind = found[0].kind if found else None
    return TurnReading(made.own.verdict, lost, kind, before.step, sighting)


# ------------------------------------------------------------------------------------- time and practice


def pauses(times: Sequence[float]) -> tuple[Pause, ...]:
    """The longest gaps between turns, the longest first; ``times`` is when each turn was made.

    What went before the first turn is planning and no pause.
    """
    gaps = [Pause(index, after - before) for index, (before, after) in enumerate(pairwise(times), start=1)]
    long = [pause for pause in gaps if pause.seconds >= SHORTEST_PAUSE]
    return tuple(sorted(long, key=lambda pause: -pause.seconds)[:PAUSES_TOLD])


def drills(reading: SolveReading) -> tuple[Drill, ...]:
    """The most useful things to practise: the cases in which most turns were lost."""
    met: dict[str, CaseSighting] = {}
    lost: dict[str, Counter[Step | None]] = {}
    kinds: dict[str, Counter[SlipKind]] = {}
    for turn in reading.turns:
        if turn.sighting is None or not turn.lost:
            continue
        slug = turn.sighting.case.slug
        met.setdefault(slug, turn.sighting)
        lost.setdefault(slug, Counter())[turn.step] += turn.lost
        kinds.setdefault(slug, Counter()).update([turn.slip] if turn.slip is not None else [])
    order = sorted(met, key=lambda slug: -lost[slug].total())[:DRILLS]
    return tuple(
        Drill(met[slug], lost[slug].total(), lost[slug].most_common(1)[0][0], _most(kinds[slug]))
        for slug in order
    )


def _most(kinds: Counter[SlipKind]) -> SlipKind | None:
    return kinds.most_common(1)[0][0] if kinds else None
