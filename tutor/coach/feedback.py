"""What is said after a turn: what it did, and what it costs when it is not optimal."""

from __future__ import annotations

from dataclasses import dataclass

from tutor.coach.aims import prospect
from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.claims import Claim, PairHome, StepDone
from tutor.coach.claims_of_ways import Costs
from tutor.coach.phrase import Phrase, finished, tell
from tutor.coach.scene import When
from tutor.coach.slips import Made, Slip, slips
from tutor.coach.turn_words import tell_event
from tutor.cube.faces import Turn
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.steps import DONE_WHEN, Step


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


_LOSSES = (Event.TAKEN_OUT, Event.SPLIT, Event.CORNER_DOWN, Event.EDGE_DOWN)
_LEADING_ON = (
    Event.MOVED_BOTH, Event.MOVED_CORNER, Event.MOVED_EDGE, Event.MOVED_NONE,
    Event.PUT_BACK, Event.OPENED, Event.CARRIED_CORNER, Event.CARRIED_EDGE,
)  # fmt: skip
"""The events that mean little by themselves: there the next turn's work is named too."""


def feedback(
    before: Answer,
    turn: Turn,
    colours: tuple[str, ...],
    step: Step | None = None,
    previous: Turn | None = None,
) -> Remark:
    """The remark on ``turn``, made at the position of ``before``.

    ``colours`` are the colour words of the faces U D L R F B as held; ``step`` is the step of the route being
    followed (the one under way when None).
    """
    # A turn of the same layer as the one before is judged as one with it before it comes here.
    del previous
    change = Change(before.position, before.task, turn, colours, _following(before, turn))
    made = Made(before, change)
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
    return Remark(ENGLISH.say("title.solved"), None, phrase.text, phrase.claims)


def _gain(made: Made) -> Event:
    """What is told of a turn that is no detour: never a loss, since it is needed on the way."""
    return next(event for event in made.change.events if event not in _LOSSES)


def _optimal(made: Made, slip: Slip | None, step: Step) -> Phrase:
    """Praise that names what could be seen and what changed."""
    del slip
    event = _gain(made)
    done = tell_event(made.change, event)
    if made.own.after == 0:
        return done
    to_go = made.change.after.to_go(made.own.after)
    if event in _LEADING_ON:
        ahead = prospect(made.change)
        if ahead is not None:
            key = "cost.next" if ahead[0] == 1 else "cost.later"
            return done + tell(key, to_go=to_go, prospect=ahead[1])
    if _ends(made, step):
        name = ENGLISH.say(f"step.{step.value}")
        return done + tell("cost.step", StepDone(When.AFTER, step.value), step=name, to_go=to_go)
    return done + tell("cost.optimal", to_go=to_go)


def _ends(made: Made, step: Step) -> bool:
    """Whether the turn ends the step."""
    done, task = DONE_WHEN.get(step), made.before.task
    if done is None:
        return False
    return done(made.change.after.position, task) and not done(made.before.position, task)


def _acceptable(made: Made, slip: Slip | None, step: Step) -> Phrase:
    """Neutral: what changed, and how much longer this way is."""
    del slip, step
    cost = made.own.cost
    longer = Phrase(ENGLISH.count("turns", cost), (Costs(cost),))
    return tell_event(made.change, _gain(made)) + tell("cost.acceptable", longer=longer)


def _detour(made: Made, slip: Slip | None, step: Step) -> Phrase:
    """The slip if one is recognised, else what the turn did; and the price."""
    del step
    cost = made.own.cost
    price = tell("cost.detour", extra=Phrase(ENGLISH.count("extra", cost), (Costs(cost),)))
    if slip is not None:
        return slip.phrase + price
    event = next((loss for loss in _LOSSES if loss in made.change.events), made.change.events[0])
    return tell_event(made.change, event) + price


_TOLD = {Verdict.OPTIMAL: _optimal, Verdict.ACCEPTABLE: _acceptable, Verdict.DETOUR: _detour}
