"""Why an answer in practice is wrong here: the fact that speaks against it, and where to look for that fact.

Every sentence is made from the position and carries the claims that it makes.
"""

from __future__ import annotations

from msgspec import Struct

from tutor.coach.change import Change
from tutor.coach.claims import (
    Claim,
    ComesHomeBy,
    InLayer,
    LiftsSlot,
    Matching,
    Moved,
    OnTop,
    PairHome,
    Settled,
    SettledBy,
    StepDone,
    TakenOut,
    Touching,
)
from tutor.coach.claims_of_ways import Best, Costs
from tutor.coach.phrase import Phrase, finished, tell
from tutor.coach.scene import ClaimContext, Moment, Piece
from tutor.coach.sight import SpokenPosition
from tutor.coach.slips import Made
from tutor.coach.words import denials as words
from tutor.counting import counted
from tutor.cube.faces import Face, Turn
from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.method.pairs import match, pair_locations, touch
from tutor.method.steps import Step, parted, raised
from tutor.solver.task import Task

_BEFORE, _AFTER = Moment.BEFORE, Moment.AFTER


class Denied(Struct, frozen=True):
    """That another claim is false."""

    claim: Claim

    def holds(self, scene: ClaimContext) -> bool:
        """Whether the other claim is false of the scene."""
        return not self.claim.holds(scene)


def denied(change: Change, claims: tuple[Claim, ...], scene: ClaimContext) -> Phrase:
    """What speaks against the first of the claims that is false of the turn, and where to look.

    Raises ValueError when all claims are true.
    """
    false = next((claim for claim in claims if not claim.holds(scene)), None)
    if false is None:
        raise ValueError(f"nothing speaks against {claims}")
    return finished(_against(change, false) + Phrase(_look(change, false)))


def _brief(change: Change, piece: Piece) -> Phrase:
    """The piece, with the mirror that shows it before the turn, while the learner looks at it."""
    return change.before.brief(piece)


def _facts(text: str, *parts: Phrase | Claim) -> Phrase:
    """A text with the claims of its parts."""
    claims: tuple[Claim, ...] = ()
    for part in parts:
        claims += part.claims if isinstance(part, Phrase) else (part,)
    return Phrase(text, claims)


def _against(change: Change, claim: Claim) -> Phrase:
    """The fact that makes a false claim false."""
    match claim:
        case PairHome() | ComesHomeBy():
            return _unsolved(change, claim)
        case Matching() | Touching():
            return _facts(_apart_or_not(change, claim), Denied(claim))
        case OnTop():
            return _high_or_low(change, claim)
        case InLayer(when, piece, face, inside):
            name, layer = _brief(change, piece), change.before.layer(face).text
            if when is _BEFORE:
                text = words.in_layer_now(name.text, layer, inside=not inside)
            else:
                text = words.in_layer_after(change.turn.notation, name.text, layer, inside=not inside)
            return _facts(text, name, Denied(claim))
        case Settled() | SettledBy():
            return _kept_or_not(change, claim)
        case LiftsSlot():
            text = words.lifts_nothing(change.turn.notation, change.before.slot().text)
            return _facts(text, Denied(claim))
        case Moved(piece, moved):
            name = _brief(change, piece)
            text = words.moves(change.turn.notation, name.text, moved=not moved)
            return _facts(text, name, Denied(claim))
        case _:
            raise ValueError(f"no words against {claim}")


def _unsolved(change: Change, claim: PairHome | ComesHomeBy) -> Phrase:
    turn = change.turn.notation
    if isinstance(claim, ComesHomeBy):
        return _facts(words.not_solved_by(turn, change.after.layer(claim.face).text), Denied(claim))
    corner, edge = change.after.place(Piece.CORNER), change.after.place(Piece.EDGE)
    return _facts(words.not_solved(turn, corner.text, edge.text), corner, edge, Denied(claim))


def _apart_or_not(change: Change, claim: Matching | Touching) -> str:
    turn, now = change.turn.notation, claim.when is _BEFORE
    match claim:
        case Matching(matching=True):
            return words.NO_MATCH_YET if now else words.no_match_after(turn, touching=change.touch)
        case Matching():
            return words.MATCH_ALREADY if now else words.match_still(turn)
        case Touching():
            return words.NO_TOUCH_NOW if now else words.touch_still(turn)


def _high_or_low(change: Change, claim: OnTop) -> Phrase:
    name, turn, now = _brief(change, claim.piece), change.turn.notation, claim.when is _BEFORE
    if not claim.on_top:
        text = words.on_top_already(name.text) if now else words.on_top_still(turn, name.text)
        return _facts(text, name, Denied(claim))
    place = (change.before if now else change.after).place(claim.piece)
    if now:
        return _facts(words.not_on_top_now(name.text, place.text), name, place, Denied(claim))
    return _facts(words.not_on_top_after(turn, name.text, place.text), name, place, Denied(claim))


def _kept_or_not(change: Change, claim: Settled | SettledBy) -> Phrase:
    kept, turn = change.before.kept().text, change.turn.notation
    if claim.when is _BEFORE and change.was_settled:
        told = change.before.all_kept()
        return _facts(words.settled_already(told.text), told, Denied(claim))
    if isinstance(claim, Settled):
        return _facts(words.not_settled_after(turn, kept), Denied(claim))
    layer = change.before.layer(claim.face).text
    if claim.when is _AFTER:
        return _facts(words.not_settled_by(turn, layer, kept), Denied(claim))
    return _facts(words.not_the_lifted_layer(layer, kept), Denied(claim))


def _look(change: Change, claim: Claim) -> str:
    """Where to look for the fact."""
    match claim:
        case PairHome():
            return words.LOOK_FOR_THE_TWO
        case Matching() | Touching():
            return words.LOOK_AT_THE_JOINT
        case Settled() | SettledBy() | ComesHomeBy():
            return words.LOOK_AT_THE_CROSS
        case OnTop(piece=piece) | InLayer(piece=piece):
            return words.look_at_the_piece(tell(f"brief.{piece.value}").text, change.turn.notation)
        case _:
            return words.look_at_the_layer(change.before.layer(change.turn.face).text)


# -------------------------------------------------------------------------------------------- the wrong step


def step_denied(answer: Answer, named: Step, colours: tuple[str, ...]) -> Phrase:
    """Why a step is not the one under way in a settled position, and where to look."""
    sight = SpokenPosition(answer.position, answer.task, colours, _BEFORE)
    told, look = _step_against(answer.position, answer.task, named, sight)
    return finished(told + Phrase(look))


def _step_against(position: Position, task: Task, named: Step, sight: SpokenPosition) -> tuple[Phrase, str]:
    if not raised(position, task):
        return _low(sight), words.LOOK_LOW
    if named is Step.RAISE:
        up = tuple(OnTop(_BEFORE, piece) for piece in Piece)
        return Phrase(words.BOTH_ON_TOP, (*up, Settled(_BEFORE))), words.LOOK_AT_COLOURS
    corner, edge = pair_locations(position, task.slot)
    if match(task.slot, corner, edge):
        return Phrase(words.MATCH, (Matching(_BEFORE),)), words.LOOK_AT_SLOT
    if not parted(position, task):
        unready = StepDone(_BEFORE, "part", False)
        if touch(corner, edge):
            facts = (Touching(_BEFORE), Matching(_BEFORE, False), unready)
            return Phrase(words.TOUCH_WRONG, facts), words.LOOK_AT_THE_JOINT
        return Phrase(words.NOT_READY, (Touching(_BEFORE, False), unready)), words.LOOK_HOW_APART
    ready = StepDone(_BEFORE, "part")
    if named is Step.PART:
        return Phrase(words.READY, (ready,)), words.LOOK_HOW_APART
    return Phrase(words.READY_NOT_JOINED, (ready, Matching(_BEFORE, False))), words.LOOK_AT_COLOURS


def _low(sight: SpokenPosition) -> Phrase:
    """That not both pieces are on top."""
    low = [piece for piece in Piece if Face.U not in sight.faces(piece)]
    up = tuple(OnTop(_BEFORE, piece, piece not in low) for piece in Piece)
    places = [sight.place(piece) for piece in low]
    if len(low) == 1:
        name = sight.brief(low[0])
        return _facts(words.low(name.text, places[0].text), name, places[0], *up)
    if sight.share_a_slot:
        both = sight.both()
        return _facts(words.low_together(both.text, places[0].text), both, *places, *up)
    corner, edge = sight.brief(Piece.CORNER), sight.brief(Piece.EDGE)
    text = words.low_both(corner.text, places[0].text, edge.text, places[1].text)
    return _facts(text, corner, edge, *places, *up)


# -------------------------------------------------------------------------------------- the wrong first turn


def turn_denied(answer: Answer, turn: Turn, colours: tuple[str, ...]) -> Phrase:
    """Why a turn that is a detour is not the one to begin with, and what it costs by hand."""
    made = Made(answer, Change(answer.position, answer.task, turn, colours))
    if not made.lost:
        return finished(_turn_against(made))
    extra = Phrase(counted(made.lost, "extra turn"), (Costs(made.lost),))
    return finished(_turn_against(made) + _facts(words.costs(extra.text), extra))


def _turn_against(made: Made) -> Phrase:
    change, notation = made.change, made.turn.notation
    best = next((each for each in made.best if each.face is made.turn.face), None)
    if best is not None:
        layer = change.before.layer(best.face).text
        return Phrase(words.turn_it_otherwise(layer, best.notation), (Best(best),))
    if change.taken_out and made.turn.face not in change.task.working_faces:
        out = change.taken_out
        return Phrase(words.takes_out(notation, out.words), (TakenOut(out.pairs, out.edges),))
    if change.matched and not change.match:
        return Phrase(words.separates(notation), (Matching(_BEFORE), Matching(_AFTER, False)))
    corner, edge = change.after.place(Piece.CORNER), change.after.place(Piece.EDGE)
    return _facts(words.leaves_them(notation, corner.text, edge.text), corner, edge)
