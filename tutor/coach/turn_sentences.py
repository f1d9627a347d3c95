"""Sentences about a turn: the words of their fields and the claims of its events."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from tutor.coach.change import Change, Event
from tutor.coach.claims import (
    AllKept,
    Claim,
    ComesHomeBy,
    InLayer,
    LiftsSlot,
    Matching,
    Moved,
    OnTop,
    PairHome,
    PutBack,
    Settled,
    SettledBy,
    StepDone,
    TakenOut,
    Touching,
)
from tutor.coach.claims_of_ways import Later
from tutor.coach.phrase import Phrase, tell, tell_from
from tutor.coach.scene import Moment, Piece
from tutor.coach.sight import SpokenPosition
from tutor.cube.faces import Face

_CORNER, _EDGE = Piece.CORNER, Piece.EDGE
_BEFORE, _AFTER = Moment.BEFORE, Moment.AFTER


def variant_of(change: Change) -> int:
    """A number by which to vary the wording: the same for the same turn at the same place."""
    slot = change.task.slot
    return change.position.corners[slot.corner] + change.position.edges[slot.edge] + change.turn


class TurnFields(Struct, frozen=True):
    """The fields of the catalogue's texts about a turn."""

    change: Change
    seen: Moment = Moment.AFTER
    """The position that the learner sees while reading: mirrors are named as they show it."""

    @property
    def _looked_at(self) -> SpokenPosition:
        return self.change.after if self.seen is Moment.AFTER else self.change.before

    def __call__(self, name: str) -> Phrase:
        """The words of the field ``name``. Raises KeyError for a field that turns do not have."""
        if name.startswith("was_"):
            return _SIGHT_FIELDS[name.removeprefix("was_")](self.change.before)
        if name in _LOOKED_AT:
            return _LOOKED_AT[name](self._looked_at)
        if name in _SIGHT_FIELDS:
            return _SIGHT_FIELDS[name](self.change.after)
        return _TURN_FIELDS[name](self.change)


_LOOKED_AT: dict[str, Callable[[SpokenPosition], Phrase]] = {
    "corner": lambda sight: sight.named(_CORNER),
    "edge": lambda sight: sight.named(_EDGE),
    "c": lambda sight: sight.brief(_CORNER),
    "e": lambda sight: sight.brief(_EDGE),
    "both": lambda sight: sight.both("brief.both"),
    "two": lambda sight: sight.both("brief.two"),
    "pair": lambda sight: sight.both("brief.pair"),
}


def _lifted(sight: SpokenPosition) -> Phrase:
    if sight.settling_face is None:
        raise KeyError("lifted")
    return Phrase(sight.layer(sight.settling_face).text, (SettledBy(sight.when, sight.settling_face),))


_SIGHT_FIELDS: dict[str, Callable[[SpokenPosition], Phrase]] = {
    "corner_place": lambda sight: sight.place(_CORNER),
    "edge_place": lambda sight: sight.place(_EDGE),
    "corner_spot": lambda sight: sight.spot(_CORNER),
    "edge_spot": lambda sight: sight.spot(_EDGE),
    "points": lambda sight: sight.cross_points(),
    "edge_up": lambda sight: sight.edge_colour_up(),
    "lifted": _lifted,
    "kept": lambda sight: sight.kept(),
    "all_kept": lambda sight: sight.all_kept(),
}


def _next_layer(change: Change) -> Phrase:
    if change.next_face is None:
        raise KeyError("next")
    return change.after.layer(change.next_face)


def _taken_out(change: Change) -> Phrase:
    out = change.taken_out
    return Phrase(out.words, (TakenOut(out.pairs, out.edges),))


def _put_back(change: Change) -> Phrase:
    back = change.put_back
    return Phrase(back.words, (PutBack(back.pairs, back.edges),))


_TURN_FIELDS: dict[str, Callable[[Change], Phrase]] = {
    "turn": lambda change: change.after.turn(change.turn, made=True),
    "layer": lambda change: change.after.layer(change.turn.face),
    "next": _next_layer,
    "slot": lambda change: change.after.slot(),
    "cross": lambda change: Phrase(change.after.cross),
    "taken_out": _taken_out,
    "were": lambda change: tell("was.one" if change.taken_out.single else "was.more"),
    "put_back": _put_back,
}

# ------------------------------------------------------------------------------------ claims of events


def _up(*pieces: Piece) -> tuple[Claim, ...]:
    return tuple(OnTop(when, piece, when is _AFTER) for piece in pieces for when in (_BEFORE, _AFTER))


def _down(*pieces: Piece) -> tuple[Claim, ...]:
    return tuple(OnTop(when, piece, when is _BEFORE) for piece in pieces for when in (_BEFORE, _AFTER))


def _turned_back(change: Change) -> tuple[Claim, ...]:
    """The turn's layer was turned before; now it is back, and with it all that was out."""
    back = change.put_back
    return (
        Settled(_BEFORE, False),
        SettledBy(_BEFORE, change.turn.face),
        PutBack(back.pairs, back.edges),
        AllKept(_AFTER, change.task.keep),
    )


def _spared(change: Change, piece: Piece) -> tuple[Claim, ...]:
    face = change.before.settling_face
    if face is None:
        return ()
    return (
        SettledBy(_BEFORE, face),
        InLayer(_BEFORE, piece, face),
        InLayer(_AFTER, piece, face, False),
        OnTop(_AFTER, piece),
    )


def _ready(change: Change, corner: bool, edge: bool) -> tuple[Claim, ...]:
    face = Face.U if change.next_face is None else change.next_face
    lift = (
        (Later((change.turn, change.following[0]), LiftsSlot(change.task.slot)),) if change.following else ()
    )
    return (
        *lift,
        InLayer(_AFTER, _CORNER, face, corner),
        InLayer(_AFTER, _EDGE, face, edge),
        Settled(_AFTER),
    )


def _lift(change: Change, corner: bool, edge: bool) -> tuple[Claim, ...]:
    slot = change.task.slot
    return (Settled(_BEFORE), LiftsSlot(slot), Moved(_CORNER, corner), Moved(_EDGE, edge))


def _moved(corner: bool, edge: bool) -> Callable[[Change], tuple[Claim, ...]]:
    return lambda _: (Moved(_CORNER, corner), Moved(_EDGE, edge))


_TOUCHED_WRONGLY = (Touching(_BEFORE), Matching(_BEFORE, False))

EVENT_CLAIMS: dict[Event, Callable[[Change], tuple[Claim, ...]]] = {
    Event.HOME: lambda change: (
        StepDone(_AFTER, "insert"),
        PairHome(_AFTER, change.task.slot),
        AllKept(_AFTER, change.task.keep),
    ),
    Event.JOINED: lambda _: (StepDone(_AFTER, "join"), Matching(_BEFORE, False), Matching(_AFTER)),
    Event.SEATED: lambda change: (
        Matching(_AFTER),
        *(
            (ComesHomeBy(_AFTER, change.after.settling_face),)
            if change.after.settling_face is not None
            else ()
        ),
    ),
    Event.PARTED: lambda _: (StepDone(_BEFORE, "part", False), StepDone(_AFTER, "part")),
    Event.RAISED: lambda change: (StepDone(_AFTER, "raise"), *_turned_back(change)),
    Event.BOTH_UP: lambda _: _up(_CORNER, _EDGE),
    Event.CORNER_UP: lambda _: _up(_CORNER),
    Event.EDGE_UP: lambda _: _up(_EDGE),
    Event.APART: lambda _: (*_TOUCHED_WRONGLY, Touching(_AFTER, False)),
    Event.CORNER_SPARED: lambda change: _spared(change, _CORNER),
    Event.EDGE_SPARED: lambda change: _spared(change, _EDGE),
    Event.LOWERED: _turned_back,
    Event.PUT_BACK: lambda change: _put_back(change).claims,
    Event.OPENED: lambda change: _lift(change, False, False),
    Event.CARRIED_CORNER: lambda change: _lift(change, True, False),
    Event.CARRIED_EDGE: lambda change: _lift(change, False, True),
    Event.CLEARED: lambda change: _ready(change, False, False),
    Event.SET_CORNER: lambda change: _ready(change, True, False),
    Event.SET_EDGE: lambda change: _ready(change, False, True),
    Event.TAKEN_OUT: lambda change: _taken_out(change).claims,
    Event.SPLIT: lambda _: (Matching(_BEFORE), Matching(_AFTER, False)),
    Event.BOTH_DOWN: lambda _: _down(_CORNER, _EDGE),
    Event.CORNER_DOWN: lambda _: _down(_CORNER),
    Event.EDGE_DOWN: lambda _: _down(_EDGE),
    Event.MOVED_BOTH: _moved(True, True),
    Event.MOVED_CORNER: _moved(True, False),
    Event.MOVED_EDGE: _moved(False, True),
    Event.MOVED_NONE: _moved(False, False),
}
"""What a sentence about an event claims of the positions before and after, in whatever words."""


def tell_event(change: Change, event: Event, group: str = "did", seen: Moment = Moment.AFTER) -> Phrase:
    """The sentence of the catalogue's ``group`` for an event of a turn."""
    claims = EVENT_CLAIMS[event](change)
    return tell_from(f"{group}.{event.value}", TurnFields(change, seen), *claims, variant=variant_of(change))
