"""Hints in three rungs for the position now on the cube: where to look, the idea, the turn."""

from __future__ import annotations

from enum import IntEnum

from msgspec import Struct

from tutor.coach.aims import aim, main_event
from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
from tutor.coach.claims import Claim, Matching, OnTop, PairHome, Settled, StepDone, Touching
from tutor.coach.claims_of_ways import Best
from tutor.coach.phrase import NOTHING, Phrase, finished, tell, tell_from
from tutor.coach.scene import Moment, Piece
from tutor.coach.sight import SpokenPosition, place_cubie, places_of_slot
from tutor.coach.turn_sentences import EVENT_CLAIMS, TurnFields, tell_event
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS, STICKERS, cubie_number
from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.pairs import pair_locations, touch
from tutor.method.steps import Step, joined
from tutor.solver.task import Task, slot_sides


class Rung(IntEnum):
    """The rungs of the ladder. ``TURN`` is never refused; once it is used the turn counts as shown."""

    LOOK = 1
    IDEA = 2
    TURN = 3


class Hint(Struct, frozen=True):
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


def hint(answer: Answer, colours: tuple[str, ...], rung: int, step: Step | None = None) -> Hint:
    """The hint of ``rung`` (1 to 3) for the position of ``answer``, along the way that it shows.

    ``step`` is the step under way, where it is kept from before; None takes the answer's own. Raises
    ValueError for another rung.
    """
    wanted = Rung(rung)
    framed = places_of_slot(answer.task.slot)
    if answer.distance == 0:
        key = {Rung.LOOK: "look.done", Rung.IDEA: "idea.done", Rung.TURN: "turn.done"}[wanted]
        pair = SpokenPosition(answer.position, answer.task, colours, Moment.BEFORE).both("brief.pair")
        phrase = finished(tell(key, PairHome(Moment.BEFORE, answer.task.slot), pair=pair))
        return Hint(wanted, phrase.text, phrase.claims, frozenset(), framed, None, None)
    change = _change(answer, colours)
    if wanted is Rung.LOOK:
        told, glowing = _look(answer, change)
    elif wanted is Rung.IDEA:
        told, glowing = _idea(answer, change, answer.step if step is None else step), _pair(change)
    else:
        told, glowing = _show(answer, change), _pair(change)
    phrase = finished(told)
    turn = change.turn if wanted is Rung.TURN else None
    return Hint(wanted, phrase.text, phrase.claims, glowing, framed, turn, change.turn)


def whereabouts(position: Position, task: Task, colours: tuple[str, ...]) -> Phrase:
    """Where the two pieces are, in one short sentence for many who look at one cube."""
    seen = SpokenPosition(position, task, colours, Moment.BEFORE)
    corner, edge = (seen.place(piece) for piece in (Piece.CORNER, Piece.EDGE))
    if seen.share_a_slot:
        told = tell("look.board_both", *edge.claims, both=seen.both(), place=corner)
    else:
        c, e = (seen.brief(piece) for piece in (Piece.CORNER, Piece.EDGE))
        told = tell("look.board_each", c=c, corner=corner, e=e, edge=edge)
    return finished(told)


def purpose(answer: Answer, colours: tuple[str, ...]) -> Phrase:
    """What the coming turns are for, in one sentence for many who are to find the first of them."""
    told = aim(_change(answer, colours), answer.step, own=True)
    return NOTHING if told is None else finished(tell("idea.board", aim=told))


def _change(answer: Answer, colours: tuple[str, ...]) -> Change:
    """The first turn of the way that is shown."""
    first, *following = answer.way.turns
    return Change(answer.position, answer.task, first, colours, tuple(following))


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
    words = TurnFields(change, Moment.BEFORE)
    if joined(answer.position, answer.task):
        told = tell_from("look.pair", words, StepDone(Moment.BEFORE, "join"), Matching(Moment.BEFORE))
        return told, _pair(change)
    if not answer.settled:
        return _look_at_disorder(change, words)
    low = [piece for piece in Piece if Face.U not in change.before.faces(piece)]
    if low:
        both = "look.low_together" if change.before.share_a_slot else "look.low_both"
        key = both if len(low) == 2 else f"look.{low[0].value}_low"
        told = tell_from(key, words, *(OnTop(Moment.BEFORE, piece, False) for piece in low))
        return told, frozenset(change.before.cubie(piece) for piece in low)
    touching = touch(*pair_locations(answer.position, answer.task.slot))
    key = "look.touching" if touching else "look.apart"
    return tell_from(key, words, Touching(Moment.BEFORE, touching)), _pair(change)


def _look_at_disorder(change: Change, words: TurnFields) -> tuple[Phrase, frozenset[int]]:
    """What is out of place, then where the pair is."""
    where = tell_from("look.together" if change.before.share_a_slot else "look.where", words)
    lifted = change.before.settling_face
    not_settled = Settled(Moment.BEFORE, False)
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
    Event.TAKEN_OUT, Event.SPLIT, Event.BOTH_DOWN, Event.CORNER_DOWN, Event.EDGE_DOWN,
    Event.MOVED_BOTH, Event.MOVED_CORNER, Event.MOVED_EDGE, Event.MOVED_NONE,
}  # fmt: skip
"""The events that make an idea; the others only say what moves."""


def _idea(answer: Answer, change: Change, step: Step) -> Phrase:
    """What the coming turn is for, with the step that it belongs to where it is of a route."""
    led = any(route.turns[0] is change.turn for route in answer.routes)
    told = _purpose(change, step if led else None, _best(answer, change.turn))
    if not led:
        return told
    return tell("idea.step", step=ENGLISH.say(f"step.{step.value}"), idea=told)


def _best(answer: Answer, turn: Turn) -> tuple[Claim, ...]:
    """The claim that a turn is optimal, where it is; turns of a route need not be."""
    return (Best(turn),) if answer.continuations[turn].verdict is Verdict.OPTIMAL else ()


def _purpose(change: Change, step: Step | None, best: tuple[Claim, ...]) -> Phrase:
    event = main_event(change, step)
    words = TurnFields(change, Moment.BEFORE)
    if event is Event.HOME and not (change.matched and change.turn.face in slot_sides(change.task.slot)):
        return tell_from("idea.home_other", words, *best)
    if event is Event.SEATED and not (
        change.matched and change.before.settling_face in slot_sides(change.task.slot)
    ):
        event = Event.MOVED_BOTH
    if event is Event.BOTH_UP and change.before.share_a_slot:
        return tell_from("idea.both_up_together", words, *EVENT_CLAIMS[event](change))
    if event in _TOLD:
        return tell_event(change, event, "idea", Moment.BEFORE)
    towards = aim(change, step)
    if towards is None:
        return tell_from("idea.layer", words, *best)
    return tell("idea.first", *best, aim=towards, layer=words("layer"))


# --------------------------------------------------------------------------------------------- the turn


def _show(answer: Answer, change: Change) -> Phrase:
    """The turn itself: as written, and how it goes."""
    turn = change.turn
    if turn.quarters == 2:
        direction = ENGLISH.say("way.half", layer=change.before.layer(turn.face).text)
    else:
        direction = ENGLISH.say(f"way.{turn.notation}")
    return tell("turn.show", *_best(answer, turn), turn=turn.notation, way=direction)
