"""Slips: six ways in which a turn goes wrong, each a predicate with its explanation."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from functools import cached_property

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.claims import Claim, ColourOn, Matching, Moved, Settled, Touching
from tutor.coach.claims_of_ways import Best, BestInOrder, OnlyBest
from tutor.coach.phrase import Phrase, tell, tell_from
from tutor.coach.scene import Moment, Piece
from tutor.coach.turn_sentences import TurnFields, tell_event
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES
from tutor.method.answer import Answer
from tutor.method.continuations import Continuation, Reason, Verdict
from tutor.method.hand_ways import is_lift
from tutor.method.pairs import pair_locations, touch
from tutor.solver.task import slot_sides


class SlipKind(StrEnum):
    """The slips, the most useful to hear about first."""

    WRONG_WAY = "wrong way"
    """The right layer, turned the wrong way or too far or not far enough."""
    LEFT_LIFTED = "left lifted"
    """A layer left out of place while going on."""
    TOO_EARLY = "too early"
    """The slot lifted before the top layer was in place."""
    BOTH_LIFTED = "both lifted"
    """Both pieces carried together where they should be parted."""
    WRONG_JOIN = "wrong join"
    """The pieces brought together the wrong way round."""
    PUT_OUT = "put out"
    """Pairs or edges of the cross put out."""


class Slip(Struct, frozen=True):
    """A slip: its explanation and, where seeing helps, turns to show from the position before.

    ``marked`` is the index in ``replay`` of the turn that matters; None without a replay.
    """

    kind: SlipKind
    phrase: Phrase
    replay: tuple[Turn, ...] = ()
    marked: int | None = None


class Made(Struct, frozen=True, dict=True):
    """A turn made: the answer before it and what the turn changes."""

    before: Answer
    change: Change

    @property
    def turn(self) -> Turn:
        """The turn made."""
        return self.change.turn

    @cached_property
    def own(self) -> Continuation:
        """How the turn is judged."""
        return self.before.continuations[self.turn]

    @property
    def lost(self) -> int:
        """How many turns it costs: by hand, where there was a way by hand."""
        return self.own.lost

    @property
    def detour(self) -> bool:
        """Whether the turn is a detour."""
        return self.own.verdict is Verdict.DETOUR

    @cached_property
    def best(self) -> tuple[Turn, ...]:
        """The turns that begin a shortest line, in order: by hand where there is a way by hand."""
        far = self.before.by_hand is None
        optimal = (self.before.continuations[turn] for turn in self.before.turns(Verdict.OPTIMAL))
        return tuple(entry.turn for entry in optimal if far or entry.reason is Reason.BY_HAND)

    def is_only_best(self, face: Face) -> bool:
        """Whether no turn of another face is optimal, with far layers or without."""
        return all(turn.face is face for turn in self.before.turns(Verdict.OPTIMAL))

    def tell(self, key: str, *claims: Claim) -> Phrase:
        """A sentence about the turn."""
        return tell_from(key, TurnFields(self.change), *claims)


def slips(made: Made) -> tuple[Slip, ...]:
    """Every slip in a turn, the most useful to hear about first; only a detour has any."""
    found = (predicate(made) for predicate in PREDICATES.values())
    return tuple(slip for slip in found if slip is not None)


def wrong_way(made: Made) -> Slip | None:
    """Another turn of the same face would have been optimal."""
    better = [turn for turn in made.best if turn.face is made.turn.face]
    if not made.detour or not better:
        return None
    best = min(better, key=lambda turn: (turn is not made.turn.inverse, turn))
    key = "wrong_way"
    if made.turn.quarters == 2:
        key = "too_far"
    elif best.quarters == 2:
        key = "too_short"
    phrase = _only_or_one(made, key, made.turn.face, Best(best), Best(made.turn, False))
    return Slip(SlipKind.WRONG_WAY, phrase, (best,), 0)


def _only_or_one(made: Made, key: str, face: Face, *claims: Claim) -> Phrase:
    """The sentence about the one face to turn; another one where turns of other faces are as good."""
    if made.is_only_best(face):
        return made.tell(f"slip.{key}", *claims, OnlyBest(face))
    return made.tell(f"slip.{key}_too", *claims)


def left_lifted(made: Made) -> Slip | None:
    """One turn would have set all back in place, and that was optimal; the turn made was another layer's."""
    face = made.change.before.settling_face
    if not made.detour or face is None or face is made.turn.face or made.change.settled:
        return None
    mending = [
        turn
        for turn in made.best
        if turn.face is face and made.before.task.settled(made.before.position.turned(turn))
    ]
    if not mending:
        return None
    claims = (Settled(Moment.BEFORE, False), Settled(Moment.AFTER, False), Best(mending[0]))
    return Slip(SlipKind.LEFT_LIFTED, made.tell("slip.left_lifted", *claims), (mending[0],), 0)


def too_early(made: Made) -> Slip | None:
    """The lift is the second turn of a shortest line whose first turns the top."""
    if not made.detour or not made.change.was_settled or not is_lift(made.turn, made.before.task.slot):
        return None
    for line in made.before.lines:
        if len(line) > 1 and line[0].face is Face.U and line[1] is made.turn:
            claims = (Settled(Moment.BEFORE), BestInOrder(line[0], line[1]))
            return Slip(SlipKind.TOO_EARLY, _only_or_one(made, "too_early", Face.U, *claims), line[:2], 0)
    return None


def both_lifted(made: Made) -> Slip | None:
    """A side turn carries both pieces along, which touched without matching, and so they stay."""
    change = made.change
    together = change.moved(Piece.CORNER) and change.moved(Piece.EDGE)
    if not made.detour or not together or not change.touched or change.matched:
        return None
    if made.turn.face not in slot_sides(made.before.task.slot):
        return None
    claims = (
        Moved(Piece.CORNER), Moved(Piece.EDGE),
        Touching(Moment.BEFORE), Matching(Moment.BEFORE, False),
        Touching(Moment.AFTER), Matching(Moment.AFTER, False),
    )  # fmt: skip
    return Slip(SlipKind.BOTH_LIFTED, made.tell("slip.both_lifted", *claims))


def wrong_join(made: Made) -> Slip | None:
    """The pieces touch after the turn, as they did not before, and do not match."""
    change = made.change
    if not made.detour or change.touched or not change.touch or change.match:
        return None
    clash = _clash(change)
    if clash is None:
        return None
    face, corner_colour, edge_colour = clash
    claims = (
        Touching(Moment.BEFORE, False), Touching(Moment.AFTER), Matching(Moment.AFTER, False),
        ColourOn(Moment.AFTER, Piece.CORNER, corner_colour, face),
        ColourOn(Moment.AFTER, Piece.EDGE, edge_colour, face),
    )  # fmt: skip
    phrase = tell(
        "slip.wrong_join",
        *claims,
        joint=ENGLISH.say(f"joint.{face.name}"),
        corner_colour=change.colours[corner_colour],
        edge_colour=change.colours[edge_colour],
        two=change.after.both("brief.two"),
    )
    return Slip(SlipKind.WRONG_JOIN, phrase)


def _clash(change: Change) -> tuple[Face, Face, Face] | None:
    """A face across which the touching pieces differ, and the two colours (by home face) that meet there."""
    slot, sight = change.task.slot, change.after
    if not touch(*pair_locations(sight.position, slot)):
        return None
    corner = {sight.face_of_colour(Piece.CORNER, colour): colour for colour in CORNER_FACES[slot.corner]}
    edge = {sight.face_of_colour(Piece.EDGE, colour): colour for colour in EDGE_FACES[slot.edge]}
    clashes = [(face, corner[face], colour) for face, colour in edge.items() if corner[face] is not colour]
    # The top and the front are the easiest to see.
    return min(clashes, key=lambda clash: (clash[0] not in (Face.U, Face.F, Face.R), clash[0]), default=None)


def put_out(made: Made) -> Slip | None:
    """A turn of a layer that the pair does not need takes pairs or edges of the cross out of place."""
    change = made.change
    needed = made.turn.face in slot_sides(made.before.task.slot) or change.lifted is not None
    if not made.detour or needed or not change.taken_out:
        return None
    return Slip(SlipKind.PUT_OUT, tell_event(change, Event.TAKEN_OUT), (made.turn,), 0)


PREDICATES: dict[SlipKind, Callable[[Made], Slip | None]] = {
    SlipKind.WRONG_WAY: wrong_way,
    SlipKind.LEFT_LIFTED: left_lifted,
    SlipKind.TOO_EARLY: too_early,
    SlipKind.BOTH_LIFTED: both_lifted,
    SlipKind.WRONG_JOIN: wrong_join,
    SlipKind.PUT_OUT: put_out,
}
"""The predicate of each slip, in the order in which the coach names them."""
