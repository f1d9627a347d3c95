"""What later turns are for: the first thing that one of them does and that is not so already."""

from __future__ import annotations

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.claims import Claim, Matching, OnTop, OutOfPlace, Settled, StepDone, Touching
from tutor.coach.claims_of_ways import Later
from tutor.coach.phrase import Phrase, tell_from
from tutor.coach.scene import Moment, Piece
from tutor.coach.sight import SpokenPosition
from tutor.coach.turn_sentences import EVENT_CLAIMS, TurnFields
from tutor.cube.faces import Face, Turn
from tutor.method.pairs import match, pair_locations, touch
from tutor.method.steps import Step, parted, raised

_OF_STEP = {
    Step.RAISE: (Event.RAISED, Event.BOTH_UP, Event.CORNER_UP, Event.EDGE_UP),
    Step.PART: (Event.PARTED, Event.APART),
}
"""The events that a step is for. The coach names them before weightier ones that come along with them."""


def main_event(change: Change, step: Step | None) -> Event:
    """The event to name for a turn that belongs to a step."""
    wanted = () if step is None else _OF_STEP.get(step, ())
    return next((event for event in change.events if event in wanted), change.events[0])


def prospect(change: Change) -> tuple[int, Phrase] | None:
    """What a turn after the change can do, and how many turns after it; None when none does what is news.

    Its pieces are named as they are seen after the change; its claims are about the turns to come.
    """
    turns = (change.turn, *change.following)
    for count in range(1, len(turns)):
        told = _told("next", change, turns[: count + 1], Moment.AFTER, None)
        if told is not None:
            return count, told
    return None


def aim(change: Change, step: Step | None, *, own: bool = False) -> Phrase | None:
    """What the turns after the change's own are for, worded before it; None when none brings news.

    With ``own`` the change's own turn counts too. No layer to turn is named.
    """
    turns = (change.turn, *change.following)
    counts = range(0 if own else 1, len(turns))
    told = (_told("aim", change, turns[: count + 1], Moment.BEFORE, step) for count in counts)
    return next((phrase for phrase in told if phrase is not None), None)


def _told(
    group: str, change: Change, turns: tuple[Turn, ...], seen: Moment, step: Step | None
) -> Phrase | None:
    """What the last of ``turns`` does, in the words of a group; None when it has none or it is no news."""
    *first, last = turns
    following = change.following[len(turns) - 1 :]
    later = Change(change.position.after(first), change.task, last, change.colours, following)
    event = main_event(later, step)
    key = f"{group}.{event.value}"
    now = change.after if seen is Moment.AFTER else change.before
    if key not in ENGLISH.texts or not _is_news(later, event, now):
        return None
    claims = (Later(turns, claim) for claim in EVENT_CLAIMS[event](later))
    words = _AimFields(TurnFields(change, seen), TurnFields(later, seen))
    return tell_from(key, words, *claims, *_news_claims(later, event, seen))


class _AimFields(Struct, frozen=True):
    """Fields about an aim: the pieces as they are now, what is out of place as it is then."""

    now: TurnFields
    then: TurnFields

    def __call__(self, name: str) -> Phrase:
        if name == "put_back":
            # Its claim is about the later turn, and made there.
            return Phrase(self.then(name).text)
        return self.now(name)


def _is_news(later: Change, event: Event, now: SpokenPosition) -> bool:
    """Whether what an event of a coming turn brings about is not so already in the position ``now``.

    A piece that goes down and comes up again on the way, say, is on top for who looks now.
    """
    low = {piece for piece in Piece if Face.U not in now.faces(piece)}
    pair = pair_locations(now.position, now.task.slot)
    already = {
        Event.JOINED: lambda: match(now.task.slot, *pair),
        Event.BOTH_UP: lambda: len(low) < len(Piece),
        Event.CORNER_UP: lambda: Piece.CORNER not in low,
        Event.EDGE_UP: lambda: Piece.EDGE not in low,
        Event.APART: lambda: not touch(*pair),
        Event.PARTED: lambda: parted(now.position, now.task),
        Event.RAISED: lambda: raised(now.position, now.task),
        Event.LOWERED: lambda: now.task.settled(now.position),
        Event.PUT_BACK: lambda: later.put_back - now.in_place != later.put_back,
    }
    return event not in already or not already[event]()


def _news_claims(later: Change, event: Event, when: Moment) -> tuple[Claim, ...]:
    """What is claimed of the position looked at by naming an event of a later turn as an aim."""
    back = later.put_back
    claims: dict[Event, tuple[Claim, ...]] = {
        Event.JOINED: (Matching(when, False),),
        Event.BOTH_UP: tuple(OnTop(when, piece, False) for piece in Piece),
        Event.CORNER_UP: (OnTop(when, Piece.CORNER, False),),
        Event.EDGE_UP: (OnTop(when, Piece.EDGE, False),),
        Event.APART: (Touching(when),),
        Event.PARTED: (StepDone(when, "part", False),),
        Event.RAISED: (StepDone(when, "raise", False),),
        Event.LOWERED: (Settled(when, False),),
        Event.PUT_BACK: (OutOfPlace(when, back.pairs, back.edges),),
    }
    return claims.get(event, ())
