"""What is said after a turn: what it did, and what it costs when it is not optimal."""

from __future__ import annotations

from dataclasses import dataclass

from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.claims import Claim, Costs, CrossOut, LeadsTo, MakesOne, PairHome, StepDone
from tutor.coach.phrase import Phrase, finished, tell
from tutor.coach.scene import When
from tutor.coach.slips import Made, Slip, SlipKind, slips
from tutor.coach.turn_words import tell_disorder, tell_event, tell_prospect
from tutor.cube.faces import Turn
from tutor.method.answer import Answer
from tutor.method.steps import Step
from tutor.solver.continuations import Verdict


@dataclass(frozen=True, slots=True)
class Remark:
    """What is said about a turn.

    ``verdict`` is None when the task was done before the turn, so that there was nothing to judge.
    ``text`` is one or two short sentences, ``claims`` every fact in them.
    """

    title: str
    verdict: Verdict | None
    text: str
    claims: tuple[Claim, ...]
    slip: Slip | None = None


_LOSSES = (Event.SPLIT, Event.CORNER_DOWN, Event.EDGE_DOWN)
_GAINS = (
    Event.JOINED, Event.SEATED, Event.PARTED, Event.RAISED, Event.BOTH_UP, Event.CORNER_UP, Event.EDGE_UP,
    Event.APART, Event.CORNER_SPARED, Event.EDGE_SPARED, Event.LOWERED,
    Event.MENDED_PAIR, Event.MENDED_CROSS,
)  # fmt: skip
_PLAIN = (Event.MOVED_BOTH, Event.MOVED_CORNER, Event.MOVED_EDGE, Event.MOVED_NONE)
_LEADING_ON = (
    *_PLAIN, *_LOSSES, Event.MENDED_PAIR, Event.MENDED_CROSS,
    Event.OPENED, Event.CARRIED_CORNER, Event.CARRIED_EDGE,
)  # fmt: skip
"""The events that mean little by themselves: there the next turn's work is named too."""
_ENDED_BY = {Event.RAISED: Step.RAISE, Event.PARTED: Step.PART, Event.JOINED: Step.JOIN}


def feedback(
    before: Answer,
    turn: Turn,
    colours: tuple[str, ...],
    step: Step | None = None,
    previous: Turn | None = None,
) -> Remark:
    """The remark on ``turn``, made at the position of ``before``.

    ``colours`` are the colour words of the faces U D L R F B as held; ``step`` is the step of the route being
    followed (the one under way when None); ``previous`` is the learner's turn just before, if there was one.
    """
    change = Change(before.position, before.task, turn, colours, _following(before, turn))
    made = Made(before, change, previous)
    if before.distance == 0:
        return _nothing_to_judge(change)
    found = slips(made)
    slip = found[0] if found else None
    phrase = finished(_TOLD[made.own.verdict](made, slip, before.step if step is None else step))
    title = ENGLISH.say(f"title.{made.own.verdict.value}")
    return Remark(title, made.own.verdict, phrase.text, phrase.claims, slip)


def _following(before: Answer, turn: Turn) -> tuple[Turn, ...]:
    """The turns that a shortest line through ``turn`` makes after it."""
    return next((line[1:] for line in before.lines if line and line[0] is turn), ())


def _nothing_to_judge(change: Change) -> Remark:
    home = PairHome(When.BEFORE, change.task.slot)
    phrase = finished(tell("cost.nothing", home, pair=change.after.both("brief.pair")))
    return Remark(ENGLISH.say("title.home"), None, phrase.text, phrase.claims)


def _took_back(made: Made) -> Phrase | None:
    """A detour just taken back, or nothing."""
    if made.previous is None or made.turn is not made.previous.inverse:
        return None
    turn, previous = made.change.after.turn(made.turn, made=True), made.previous.notation
    out = made.change.before.cross_edges_out
    if not made.change.settled or not out:
        return tell("did.took_back", MakesOne(None), turn=turn, previous=previous)
    claims = (MakesOne(None), CrossOut(When.BEFORE, out), CrossOut(When.AFTER, 0))
    return tell("did.took_back_whole", *claims, turn=turn, previous=previous)


def _optimal(made: Made, slip: Slip | None, step: Step) -> Phrase:
    """Praise that names what could be seen and what changed; a turn to spare is mentioned in passing."""
    event = made.change.events[0]
    done = _took_back(made) or tell_event(made.change, event)
    if slip is not None and slip.kind is SlipKind.SAME_FACE:
        return done + slip.phrase
    if made.own.after == 0:
        return done
    to_go = made.change.after.to_go(made.own.after)
    if event in _LEADING_ON:
        for later in range(1, len(made.change.following)):
            prospect = tell_prospect(made.change, (made.turn, *made.change.following[:later]))
            if prospect is not None:
                key = "cost.next" if later == 1 else "cost.later"
                return done + tell(key, to_go=to_go, prospect=prospect)
    ended = _ENDED_BY.get(event)
    if ended is not None and ended is step:
        name = ENGLISH.say(f"step.{ended.value}")
        return done + tell("cost.step", StepDone(When.AFTER, ended.value), step=name, to_go=to_go)
    return done + tell("cost.optimal", to_go=to_go)


def _acceptable(made: Made, slip: Slip | None, step: Step) -> Phrase:
    """Neutral: what changed, and how much longer this way is."""
    del slip, step
    cost = made.own.cost
    longer = Phrase(ENGLISH.count("turns", cost), (Costs(cost),))
    number = made.change.after.number_to_go(made.own.after)
    event = tell_event(made.change, made.change.events[0])
    if cost == 2 and made.change.events[0] is Event.MOVED_NONE:
        back = LeadsTo((made.turn, made.turn.inverse), made.before.distance)
        return event + tell("cost.idle", back, longer=longer, number=number, back=made.turn.inverse.notation)
    return event + tell("cost.acceptable", longer=longer, number=number)


def _detour(made: Made, slip: Slip | None, step: Step) -> Phrase:
    """The slip if one is recognised, else what the turn did; and the price."""
    del step
    cost = made.own.cost
    extra = Phrase(ENGLISH.count("extra", cost), (Costs(cost),))
    number = made.change.after.number_to_go(made.own.after)
    if slip is not None:
        return slip.phrase + tell("cost.detour", extra=extra, number=number)
    event = next((loss for loss in _LOSSES if loss in made.change.events), made.change.events[0])
    key = "cost.detour_but" if event in _GAINS else "cost.detour"
    further_apart = made.change.after.cross_edges_out > made.change.before.cross_edges_out
    told = tell_disorder(made.change) if event in _PLAIN and further_apart else tell_event(made.change, event)
    return told + tell(key, extra=extra, number=number)


_TOLD = {Verdict.OPTIMAL: _optimal, Verdict.ACCEPTABLE: _acceptable, Verdict.DETOUR: _detour}
