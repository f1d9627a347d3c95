"""What is said after a turn: what it did, and what it costs when it is not optimal."""

from __future__ import annotations

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change
from tutor.coach.claims import Claim, PairHome
from tutor.coach.phrase import finished, tell, without_asides
from tutor.coach.scene import Moment
from tutor.coach.slips import Made, Slip, slips
from tutor.coach.turn_sentences import tell_event
from tutor.coach.verdict_sentences import gain, tell_acceptable, tell_detour, tell_optimal
from tutor.cube.faces import Turn
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.steps import Step


class Remark(Struct, frozen=True):
    """What is said about a turn.

    ``verdict`` is None when the task was done before the turn, so that there was nothing to judge.
    ``text`` is one or two short sentences, ``claims`` every fact in them.
    """

    title: str
    verdict: Verdict | None
    text: str
    claims: tuple[Claim, ...]
    slip: Slip | None = None


def feedback(
    before: Answer,
    turn: Turn,
    colours: tuple[str, ...],
    step: Step | None = None,
) -> Remark:
    """The remark on ``turn``, made at the position of ``before``.

    ``colours`` are the colour words of the faces U D L R F B as held; ``step`` is the step of the route being
    followed (the one under way when None).
    """
    change = Change(before.position, before.task, turn, colours, _following(before, turn))
    made = Made(before, change)
    if before.distance == 0:
        return _nothing_to_judge(change)
    slip = next(iter(slips(made)), None)
    under_way = before.step if step is None else step
    if made.own.verdict is Verdict.OPTIMAL:
        told = tell_optimal(made, under_way)
    elif made.own.verdict is Verdict.ACCEPTABLE:
        told = tell_acceptable(made, under_way)
    else:
        told = tell_detour(made, slip)
    phrase = finished(told)
    title = ENGLISH.say(f"title.{made.own.verdict.value}")
    return Remark(title, made.own.verdict, phrase.text, phrase.claims, slip)


class Shown(Struct, frozen=True):
    """What is said of a turn that is shown: what it is about to do, and, once it is made, what it changed."""

    coming: str
    made: str

    @property
    def unmirrored(self) -> Shown:
        """The same beside pictures without mirrors."""
        return Shown(without_asides(self.coming), without_asides(self.made))


def shown(
    before: Answer, turn: Turn, following: tuple[Turn, ...], colours: tuple[str, ...], step: Step | None
) -> Shown:
    """What is said of ``turn`` when it is shown with the turns ``following`` it; no figures, no verdict."""
    change = Change(before.position, before.task, turn, colours, following)
    event = gain(change, before.step if step is None else step)
    made = finished(tell_event(change, event))
    coming = finished(tell_event(change, event, "coming", Moment.BEFORE))
    return Shown(coming.text, made.text)


def _following(before: Answer, turn: Turn) -> tuple[Turn, ...]:
    """The turns that a shortest line or route through ``turn`` makes after it."""
    routes = (route.turns for route in before.routes if len(route.turns) == before.to_go)
    return next((line[1:] for line in (*before.lines, *routes) if line and line[0] is turn), ())


def _nothing_to_judge(change: Change) -> Remark:
    home = PairHome(Moment.BEFORE, change.task.slot)
    phrase = finished(tell("cost.nothing", home, pair=change.after.both("brief.pair")))
    return Remark(ENGLISH.say("title.solved"), None, phrase.text, phrase.claims)
