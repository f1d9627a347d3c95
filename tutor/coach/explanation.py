"""Any sequence of turns for a pair, taken apart: the steps, what each turn does, and what else it asks.

A sequence that somebody knows by rote becomes a thought: which step each turn belongs to, what the sequence
merges or skips of the route, which other pairs it takes out, and what it is in the mirror. Where it does not
solve the pair, the first turn that went wrong is named, with why.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import reduce
from itertools import accumulate, chain

from msgspec import Struct
from msgspec.structs import replace

from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.feedback import feedback
from tutor.coach.phrase import Phrase, finished, without_asides
from tutor.coach.sight import InPlace, those_in_place
from tutor.coach.turn_sentences import tell_event
from tutor.coach.verdict_sentences import gain
from tutor.cube.faces import Turn
from tutor.cube.merging import merged
from tutor.cube.position import SOLVED, Position, Slot, every_other_slot
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT
from tutor.method.answer import Answer
from tutor.method.continuations import Reason, Verdict
from tutor.method.cutting import cut
from tutor.method.ergonomics import Comfort, comfort
from tutor.method.routes import Route, routes
from tutor.method.shortcut import Shortcut, compare
from tutor.method.steps import Step
from tutor.solver.task import Task, carried_slot

MOST_TURNS = 40
"""The most turns that are taken apart; ways that people learn have far fewer."""

AnswerFor = Callable[[Position, Task], Answer]


class ExplainedTurn(Struct, frozen=True):
    """One turn of a sequence.

    ``step`` is ``DONE`` once the pair is solved for good; ``verdict`` is None where the pair was solved
    before the turn. ``by_hand`` says whether there was a way by hand before it. ``said`` is what it did,
    with claims about the positions before and after it. ``out`` are the kept pairs and the cross edges that
    are unsolved after it.
    """

    turn: Turn
    step: Step
    verdict: Verdict | None
    by_hand: bool
    said: Phrase
    out: InPlace


class Explanation(Struct, frozen=True):
    """A sequence taken apart.

    ``way`` are its turns, each with its step; ``left`` is how many are to go after them. ``same_route`` says
    whether it is one of the shortest routes, and ``shortcut`` what it merges and skips of the route shown;
    None where it does not solve the pair or no route leads on. ``spoils`` are the other pairs and the cross
    edges that are unsolved at the end if they were solved before; ``between`` are the kept ones that are
    taken out on the way and put back. ``missing`` is all of the task that is unsolved at the end.
    ``wrong`` is the index of the first Detour; without one, of the first turn that begins no shortest way.
    It is None where the pair is solved, and where the sequence only ends too early.
    """

    start: Answer
    way: Route
    each: tuple[ExplainedTurn, ...]
    left: int
    same_route: bool
    shortcut: Shortcut | None
    spoils: InPlace
    between: InPlace
    missing: InPlace
    hands: Comfort
    mirror: tuple[Turn, ...]
    mirror_slot: Slot
    wrong: int | None

    @property
    def solves(self) -> bool:
        """Whether the pair is solved at the end, with all that is kept."""
        return not self.left

    @property
    def route(self) -> Route | None:
        """The route shown for the position."""
        return self.start.routes[0] if self.start.routes else None


def explained(
    position: Position, task: Task, turns: Sequence[Turn], answer: AnswerFor, colours: tuple[str, ...]
) -> Explanation:
    """The sequence taken apart; neighbouring turns of one layer count as one.

    ``answer`` is asked for ``asked_for(position, turns)``; ``colours`` are the colour words of the faces
    U D L R F B as held. Raises ValueError where there is nothing to explain: no turn is left, or the task is
    done before them.
    """
    made = merged(turns)
    if not made or task.done(position):
        raise ValueError("a sequence with turns, and a pair that is unsolved before them, can be explained")
    passed = tuple(accumulate(made, Position.turned, initial=position))
    answers = tuple(answer(at, task) for at in passed)
    steps = cut(position, task, made)
    left = answers[-1].to_go
    start, route = answers[0], answers[0].routes[0] if answers[0].routes else None
    return Explanation(
        start=start,
        way=Route(made, steps),
        each=_each(answers, Route(made, steps), colours),
        left=left,
        same_route=any(way.turns == made for way in routes(position, task, limit=None).routes),
        shortcut=None if left or route is None else compare(position, task, made, route),
        spoils=_spoilt(task, made),
        between=_between(passed, task),
        missing=_out(passed[-1], {*task.keep, task.slot}),
        hands=comfort(made),
        mirror=MIRROR_LEFT_RIGHT.turns(made),
        mirror_slot=carried_slot(task.slot, MIRROR_LEFT_RIGHT),
        wrong=_wrong(answers, made) if left else None,
    )


def asked_for(position: Position, turns: Sequence[Turn]) -> tuple[Position, ...]:
    """The positions whose answers an explanation needs."""
    return tuple(accumulate(merged(turns), Position.turned, initial=position))


def _each(answers: tuple[Answer, ...], way: Route, colours: tuple[str, ...]) -> tuple[ExplainedTurn, ...]:
    found: list[ExplainedTurn] = []
    far = _first_far(answers, way.turns)
    for index, (turn, step) in enumerate(zip(way.turns, way.steps, strict=True)):
        before, after = answers[index : index + 2]
        verdict, said = _said(before, turn, way.turns[index + 1 :], colours, step)
        if index == far:
            said = replace(said, text=f"{said.text} {ENGLISH.say('explain.far_turn')}")
        # The cube that is seen meanwhile is not the one after this turn, so no mirror of it is named.
        said = replace(said, text=without_asides(said.text))
        out = _out(after.position, after.task.keep)
        found.append(ExplainedTurn(turn, step, verdict, before.by_hand is not None, said, out))
    return tuple(found)


def _first_far(answers: tuple[Answer, ...], turns: tuple[Turn, ...]) -> int | None:
    """The index of the first turn that is best only where far layers may turn as well."""
    judged = enumerate(zip(answers, turns, strict=False))
    reasons = ((index, at.continuation(turn).reason) for index, (at, turn) in judged if at.distance)
    return next((index for index, reason in reasons if reason is Reason.WITH_FAR_LAYERS), None)


def _said(
    before: Answer, turn: Turn, following: tuple[Turn, ...], colours: tuple[str, ...], step: Step
) -> tuple[Verdict | None, Phrase]:
    """The verdict on a turn and what is said of it: what it did for the turns after it, or what it costs."""
    change = Change(before.position, before.task, turn, colours, following)
    if before.distance and before.continuation(turn).verdict is not Verdict.DETOUR:
        return before.continuation(turn).verdict, finished(tell_event(change, gain(change, step)))
    if not before.distance and change.taken_out:
        return None, finished(tell_event(change, Event.TAKEN_OUT))
    remark = feedback(before, turn, colours, step)
    return remark.verdict, Phrase(remark.text, remark.claims)


def _out(position: Position, slots: frozenset[Slot] | set[Slot]) -> InPlace:
    """The pairs of these slots and the cross edges that are unsolved."""
    return those_in_place(SOLVED, slots) - those_in_place(position, slots)


def _spoilt(task: Task, turns: tuple[Turn, ...]) -> InPlace:
    return _out(SOLVED.after(turns), every_other_slot(task.slot))


def _between(passed: tuple[Position, ...], task: Task) -> InPlace:
    out = [_out(at, task.keep) for at in passed]
    return reduce(InPlace.__or__, out) - out[0] - out[-1]


def _wrong(answers: tuple[Answer, ...], turns: tuple[Turn, ...]) -> int | None:
    """The index of the first Detour; without one, of the first turn that begins no shortest way."""
    judged = [(at.to_go, at.continuation(turn)) for at, turn in zip(answers, turns, strict=False)]
    detours = (index for index, (_, own) in enumerate(judged) if own.verdict is Verdict.DETOUR)
    longer = (index for index, (to_go, own) in enumerate(judged) if own.to_go != to_go - 1)
    return next(chain(detours, longer), None)
