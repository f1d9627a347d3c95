"""What a Detour put out of order, and in one sentence how it comes back."""

from __future__ import annotations

from tutor.coach.change import Change, Event
from tutor.coach.claims import TakenOut
from tutor.coach.phrase import Phrase, finished, tell, tell_from
from tutor.coach.sight import InPlace
from tutor.coach.turn_sentences import EVENT_CLAIMS, TurnFields
from tutor.cube.faces import Turn
from tutor.method.answer import Answer

_OF_PIECES = (Event.SPLIT, Event.BOTH_DOWN, Event.CORNER_DOWN, Event.EDGE_DOWN)


def damage(before: Answer, turn: Turn) -> InPlace:
    """The pairs and the cross edges that a turn takes out; where there are none, the pair to solve."""
    out = Change(before.position, before.task, turn, ()).taken_out
    return out if out else InPlace(frozenset({before.task.slot}), frozenset())


def mending(before: Answer, turn: Turn, colours: tuple[str, ...]) -> Phrase:
    """What has to come back after ``turn``, and the turn that brings it back."""
    change = Change(before.position, before.task, turn, colours)
    back = Phrase(turn.inverse.notation)
    if change.taken_out:
        out = change.taken_out
        told = Phrase(out.words, (TakenOut(out.pairs, out.edges),))
        return finished(tell("mend.taken_out", taken_out=told, back=back))
    undone = next((event for event in _OF_PIECES if event in change.events), None)
    if undone is None:
        return finished(tell("mend.nothing", TakenOut(frozenset(), frozenset()), back=back))
    fields = TurnFields(change)
    return finished(
        tell_from(
            f"mend.{undone.value}",
            lambda name: back if name == "back" else fields(name),
            *EVENT_CLAIMS[undone](change),
        )
    )
