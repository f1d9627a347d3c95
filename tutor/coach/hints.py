"""Hints in three rungs for the position now on the cube: where to look, the idea, the turn."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from tutor.coach.aims import aim
from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.claims import Claim, Matching, OnTop, PairHome, Settled, StepDone, Touching
from tutor.coach.claims_of_ways import Best
from tutor.coach.phrase import Phrase, finished, tell, tell_from
from tutor.coach.scene import Piece, When
from tutor.coach.sight import Sight, place_cubie, places_of_slot
from tutor.coach.turn_words import TurnWords, tell_event
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS, STICKERS, cubie_number
from tutor.method.answer import Answer
from tutor.method.pairs import pair_locations, touch
from tutor.method.steps import joined
from tutor.solver.task import slot_sides


class Rung(IntEnum):
    """The rungs of the ladder. ``TURN`` is never refused; once it is used the turn counts as shown."""

    LOOK = 1
    IDEA = 2
    TURN = 3


@dataclass(frozen=True, slots=True)
class Hint:
    """One rung: its text, every fact in it, and what to mark on the cube.

    ``glowing`` are the cubies to look at and ``framed`` the places of the target slot, both numbered as in
    views; ``turn`` is the one to draw as an arrow (last rung only). Claims are about the position before and
    after ``best``, the turn that the hint leads to (None when the task is done).
    """

    rung: Rung
    text: str
    claims: tuple[Claim, ...]
    glowing: frozenset[int]
    framed: frozenset[int]
    turn: Turn | None
    best: Turn | None


def hint(answer: Answer, colours: tuple[str, ...], rung: int, following: tuple[Turn, ...] = ()) -> Hint:
    """The hint of ``rung`` (1 to 3) for the position of ``answer``.

    ``following`` are the turns still to come of a line or route that the learner is being led along; without
    them the hint leads along the most comfortable shortest line. Raises ValueError for another rung.
    """
    wanted = Rung(rung)
    framed = places_of_slot(answer.task.slot)
    if answer.distance == 0:
        key = {Rung.LOOK: "look.done", Rung.IDEA: "idea.done", Rung.TURN: "turn.done"}[wanted]
        pair = Sight(answer.position, answer.task, colours, When.BEFORE).both("brief.pair")
        phrase = finished(tell(key, PairHome(When.BEFORE, answer.task.slot), pair=pair))
        return Hint(wanted, phrase.text, phrase.claims, frozenset(), framed, None, None)
    change = _coming(answer, colours, following or answer.lines[0])
    if wanted is Rung.LOOK:
        told, glowing = _look(answer, change)
    elif wanted is Rung.IDEA:
        told, glowing = _idea(change), _pair(change)
    else:
        told, glowing = _show(answer, change), _pair(change)
    phrase = finished(told)
    turn = change.turn if wanted is Rung.TURN else None
    return Hint(wanted, phrase.text, phrase.claims, glowing, framed, turn, change.turn)


def _coming(answer: Answer, colours: tuple[str, ...], turns: tuple[Turn, ...]) -> Change:
    return Change(answer.position, answer.task, turns[0], colours, turns[1:])


def _pair(change: Change) -> frozenset[int]:
    return frozenset(change.before.cubie(piece) for piece in Piece)


def layer_cubies(face: Face) -> frozenset[int]:
    """The numbers of the nine cubies in a layer, as views count them."""
    normal = NORMALS[face]
    return frozenset(
        cubie_number(cubie)
        for cubie, _ in STICKERS
        if sum(a * b for a, b in zip(cubie, normal, strict=True)) == 1
    )


# ---------------------------------------------------------------------------------------- where to look


def _look(answer: Answer, change: Change) -> tuple[Phrase, frozenset[int]]:
    """What to look at, and the cubies that glow."""
    words = TurnWords(change, When.BEFORE)
    if joined(answer.position, answer.task):
        told = tell_from("look.pair", words, StepDone(When.BEFORE, "join"), Matching(When.BEFORE))
        return told, _pair(change)
    if not answer.settled:
        return _look_at_disorder(change, words)
    low = [piece for piece in Piece if Face.U not in change.before.faces(piece)]
    if low:
        both = "look.low_together" if change.before.share_a_slot else "look.low_both"
        key = both if len(low) == 2 else f"look.{low[0].value}_low"
        told = tell_from(key, words, *(OnTop(When.BEFORE, piece, False) for piece in low))
        return told, frozenset(change.before.cubie(piece) for piece in low)
    touching = touch(*pair_locations(answer.position, answer.task.slot))
    key = "look.touching" if touching else "look.apart"
    return tell_from(key, words, Touching(When.BEFORE, touching)), _pair(change)


def _look_at_disorder(change: Change, words: TurnWords) -> tuple[Phrase, frozenset[int]]:
    """What is out of place, then where the pair is."""
    where = tell_from("look.together" if change.before.share_a_slot else "look.where", words)
    lifted = change.before.lifted
    not_settled = Settled(When.BEFORE, False)
    if lifted is not None:
        layer = words("was_lifted")
        return tell("look.lifted", not_settled, was_lifted=layer, place=where), layer_cubies(lifted) | _pair(
            change
        )
    out = {piece for piece in range(8, 12) if change.position.edges[piece] != 2 * piece}
    cross = frozenset(place_cubie(change.before.edge_faces(piece)) for piece in out)
    return tell("look.mixed", not_settled, place=where), cross | _pair(change)


# --------------------------------------------------------------------------------------------- the idea

_TOLD = frozenset(Event) - {
    Event.TAKEN_OUT, Event.SPLIT, Event.CORNER_DOWN, Event.EDGE_DOWN,
    Event.MOVED_BOTH, Event.MOVED_CORNER, Event.MOVED_EDGE, Event.MOVED_NONE,
}  # fmt: skip
"""The events that make an idea; the others only tell what moves."""


def _idea(change: Change) -> Phrase:
    """What the coming turn is for."""
    event = change.events[0]
    words = TurnWords(change, When.BEFORE)
    best = Best(change.turn)
    if event is Event.HOME and not (change.matched and change.turn.face in slot_sides(change.task.slot)):
        return tell_from("idea.home_other", words, best)
    if event is Event.SEATED and not (
        change.matched and change.before.lifted in slot_sides(change.task.slot)
    ):
        event = Event.MOVED_BOTH
    if event in _TOLD:
        return tell_event(change, event, "idea", When.BEFORE)
    towards = aim(change)
    if towards is None:
        return tell_from("idea.layer", words, best)
    return tell("idea.first", best, aim=towards, layer=words("layer"))


# --------------------------------------------------------------------------------------------- the turn


def _show(answer: Answer, change: Change) -> Phrase:
    """The turn itself: as written, and how it goes."""
    turn = change.turn
    if turn.quarters == 2:
        way = ENGLISH.say("way.half", layer=change.before.layer(turn.face).text)
    else:
        way = ENGLISH.say(f"way.{turn.notation}")
    best = answer.continuations[turn].cost == 0
    return tell("turn.show", *((Best(turn),) if best else ()), turn=turn.notation, way=way)
