"""Why a turn is judged as it is, in words: what it did, and what it costs; each verdict with its reason."""

from __future__ import annotations

from tutor.coach.aims import main_event, prospect
from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.claims import LiftsSlot, Matching, Moved, StepDone
from tutor.coach.claims_of_ways import BackIsBest, ByHand, Costs, ShortestOfAll, SlidesIn
from tutor.coach.phrase import NOTHING, Phrase, tell
from tutor.coach.scene import Moment, Piece
from tutor.coach.slips import Made, Slip, SlipKind
from tutor.coach.turn_sentences import tell_event
from tutor.counting import counted
from tutor.cube.position import Slot
from tutor.method.continuations import Reason
from tutor.method.steps import DONE_WHEN, Step

_OF_PIECES = (Event.SPLIT, Event.BOTH_DOWN, Event.CORNER_DOWN, Event.EDGE_DOWN)
LOSSES = (Event.TAKEN_OUT, *_OF_PIECES)
"""The events that the coach names for a detour alone."""
_PLAIN = (Event.MOVED_BOTH, Event.MOVED_CORNER, Event.MOVED_EDGE, Event.MOVED_NONE)
_LEADING_ON = (*_PLAIN, Event.PUT_BACK, Event.OPENED, Event.CARRIED_CORNER, Event.CARRIED_EDGE)
"""The events that mean little by themselves: there the next turn's work is named too."""
_EXPLAINED = (SlipKind.WRONG_WAY, SlipKind.TOO_EARLY, SlipKind.BOTH_LIFTED)
"""Slips of the layers beside the slot: a good turn of those takes out the same, so it is no loss."""


# ----------------------------------------------------------------------------------- turns that lead on


def tell_optimal(made: Made, step: Step) -> Phrase:
    """What could be seen and what changed, and how much is left."""
    event = gain(made.change, step)
    done = tell_event(made.change, event)
    if made.own.after == 0:
        return done
    if made.own.reason is Reason.WITH_FAR_LAYERS:
        return done + _with_far_layers(made)
    to_go = made.change.after.to_go(made.own.to_go)
    if event in _LEADING_ON:
        ahead = prospect(made.change)
        if ahead is not None:
            key = "cost.next" if ahead[0] == 1 else "cost.later"
            return done + tell(key, to_go=to_go, prospect=ahead[1])
    if _ends(made, step):
        name = ENGLISH.say(f"step.{step.value}")
        return done + tell("cost.step", StepDone(Moment.AFTER, step.value), step=name, to_go=to_go)
    return done + tell("cost.optimal", to_go=to_go)


def gain(change: Change, step: Step) -> Event:
    """What to name for a turn that is no detour: never a loss, since the way needs it."""
    event = main_event(change, step if step is Step.PART else None)
    return event if event not in LOSSES else next(each for each in change.events if each not in LOSSES)


def _with_far_layers(made: Made) -> Phrase:
    """That the turn is best only because far layers count too, and what that means by hand."""
    to_go = made.change.after.to_go(made.own.to_go)
    if made.before.by_hand is None:
        return tell("cost.optimal" if made.own.by_hand is not None else "cost.far", to_go=to_go)
    if made.own.by_hand is None:
        return tell("cost.far_only", ShortestOfAll(), ByHand(Moment.AFTER, False))
    return tell("cost.far_also", ShortestOfAll(), ByHand(Moment.AFTER), to_go=to_go)


def _ends(made: Made, step: Step) -> bool:
    """Whether the turn ends the step."""
    done, task = DONE_WHEN.get(step), made.before.task
    if done is None:
        return False
    return done(made.change.after.position, task) and not done(made.before.position, task)


def tell_acceptable(made: Made, step: Step) -> Phrase:
    """What changed, what kind of way this is, and how much longer."""
    longer = Phrase(counted(made.lost, "turn"), (Costs(made.lost),))
    key = "cost.route" if made.own.reason is Reason.ROUTE else "cost.another_way"
    return tell_event(made.change, gain(made.change, step)) + tell(key, longer=longer)


# ------------------------------------------------------------------------------------- turns that lose


def tell_detour(made: Made, slip: Slip | None) -> Phrase:
    """All that was lost, or else why the turn does not help; and the price."""
    lost = _losses(made, slip)
    if slip is not None and slip.kind is not SlipKind.PUT_OUT:
        return lost + slip.phrase + _price(made)
    if lost.text:
        return lost + _price_alone(made)
    if made.change.lifted is not None:
        return _useless_lift(made, made.change.lifted) + _price_alone(made)
    event = made.change.events[0]
    manner = "plain" if event in _PLAIN else "but"
    told = tell_event(made.change, event)
    if _back_is_best(made):
        return told + tell(f"idle.{manner}") + _price_alone(made)
    if not made.lost:
        return told + _costs_nothing_by_hand(made, manner)
    turns = Phrase(counted(made.lost, "turn"), (Costs(made.lost),))
    return told + tell("cost.shorter" if manner == "plain" else "cost.shorter_but", turns=turns)


def _losses(made: Made, slip: Slip | None) -> Phrase:
    """All that the turn takes out of place, and what it undoes of the pair."""
    working = made.turn.face in made.before.task.working_faces
    events = made.change.events
    if made.change.lifted is not None or (slip is not None and slip.kind in _EXPLAINED and working):
        return tell_event(made.change, Event.SPLIT) if Event.SPLIT in events else NOTHING
    out = tell_event(made.change, Event.TAKEN_OUT) if made.change.taken_out else NOTHING
    undone = [event for event in _OF_PIECES if event in events]
    if not undone or (slip is not None and slip.kind is not SlipKind.PUT_OUT):
        return out
    return out + tell_event(made.change, undone[0], "also" if out.text else "did")


def _useless_lift(made: Made, slot: Slot) -> Phrase:
    """That a lift does not help and, where the pair is joined, why not."""
    change = made.change
    own, lifts = slot is change.task.slot, LiftsSlot(slot)
    name, pair = tell(f"slot.{slot.name}"), change.after.both("brief.pair")
    turn = change.after.turn(change.turn, made=True)
    if own and change.match and all(change.moved(piece) for piece in Piece):
        goes = Matching(Moment.AFTER), Moved(Piece.CORNER), Moved(Piece.EDGE)
        return tell("lift.with_pair", lifts, *goes, turn=turn, slot=name, pair=pair)
    if own and change.match:
        return tell("lift.no_way_in", lifts, SlidesIn(False), turn=turn, slot=name, pair=pair)
    return tell("lift.useless", lifts, turn=turn, slot=name)


def _back_is_best(made: Made) -> bool:
    """Whether nothing is shorter after the turn than to take it back: by hand, where both ways are."""
    before, after = made.before.by_hand, made.own.by_hand
    if before is None or after is None:
        return made.own.cost == 2
    return after == before + 1 and (made.own.cost == 2 or made.turn.face in made.before.task.working_faces)


def _costs_nothing_by_hand(made: Made, manner: str) -> Phrase:
    """Of a far layer that made the way by hand no longer: what was shorter, and what is left."""
    to_go = made.change.after.to_go(made.own.to_go)
    return tell(f"cost.far_shorter.{manner}", Costs(0), ShortestOfAll(False), to_go=to_go)


def _price(made: Made) -> Phrase:
    if not made.lost:
        return _costs_nothing_by_hand(made, "but")
    return tell("cost.detour", extra=Phrase(counted(made.lost, "extra turn"), (Costs(made.lost),)))


def _price_alone(made: Made) -> Phrase:
    """What a turn costs that no slip explains, with what to do about it."""
    if not made.lost:
        return _costs_nothing_by_hand(made, "but")
    costs = Costs(made.lost)
    if _back_is_best(made):
        turns = Phrase(counted(made.lost, "turn"), (costs, BackIsBest()))
        return tell("cost.back", turns=turns)
    if made.before.by_hand is not None and made.own.by_hand is None:
        extra = Phrase(counted(made.lost, "extra turn"), (costs, ByHand(Moment.AFTER, False)))
        return tell("cost.cannot", extra=extra)
    return _price(made)
