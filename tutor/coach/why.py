"""“Why this turn?”: a question with computed answers, exactly one of them true.

Explaining a step to oneself makes it stick (Aleven and Koedinger, Cognitive Science 26(2), 2002). The wrong
answers are true of a neighbour: of another turn here, or of this turn from a position one turn away. The
reply to a wrong answer names the fact that speaks against it here, and where to look for that fact.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from random import Random

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH
from tutor.coach.change import Change, Event
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
    Touching,
)
from tutor.coach.denials import denied
from tutor.coach.phrase import finished, tell_from
from tutor.coach.scene import ClaimContext, Moment, Piece
from tutor.coach.turn_sentences import TurnFields, tell_event, variant_of
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.position import Position
from tutor.method.answer import Answer

WRONG_ANSWERS = 3
"""The most wrong answers beside the true one; two are enough for a question."""
_FEWEST_WRONG = 2

_CORNER, _EDGE = Piece.CORNER, Piece.EDGE
_BEFORE, _AFTER = Moment.BEFORE, Moment.AFTER


class Choice(Struct, frozen=True):
    """One answer: its text, what it claims of the turn asked about, and what is said once it is chosen."""

    text: str
    claims: tuple[Claim, ...]
    reply: str
    true: bool = False


class TurnQuestion(Struct, frozen=True):
    """A question about a turn with three or four answers, exactly one of them true."""

    text: str
    turn: Turn
    choices: tuple[Choice, ...]

    @property
    def right(self) -> int:
        """The index of the true answer."""
        return next(index for index, choice in enumerate(self.choices) if choice.true)


def _comes(*claims: Callable[[Moment, bool], Claim]) -> tuple[Claim, ...]:
    """Claims that become true with the turn."""
    return tuple(make(when, when is _AFTER) for make in claims for when in (_BEFORE, _AFTER))


def _goes(make: Callable[[Moment, bool], Claim]) -> tuple[Claim, ...]:
    """A claim that ceases to be true with the turn."""
    return (make(_BEFORE, True), make(_AFTER, False))


def _top(piece: Piece) -> Callable[[Moment, bool], Claim]:
    return lambda when, value: OnTop(when, piece, value)


def _seated(change: Change) -> tuple[Claim, ...] | None:
    face = change.after.settling_face
    return None if face is None else (ComesHomeBy(_AFTER, face), SettledBy(_AFTER, face))


def _spared(piece: Piece) -> Callable[[Change], tuple[Claim, ...] | None]:
    def claims(change: Change) -> tuple[Claim, ...] | None:
        face = change.before.settling_face
        if face is None or face is Face.D:
            return None
        return (SettledBy(_BEFORE, face), InLayer(_BEFORE, piece, face), InLayer(_AFTER, piece, face, False))

    return claims


def _lifting(corner: bool, edge: bool) -> Callable[[Change], tuple[Claim, ...] | None]:
    def claims(change: Change) -> tuple[Claim, ...] | None:
        if not change.was_settled:
            return None
        return (LiftsSlot(change.task.slot), Moved(_CORNER, corner), Moved(_EDGE, edge))

    return claims


def _ready(corner: bool, edge: bool) -> Callable[[Change], tuple[Claim, ...] | None]:
    def claims(change: Change) -> tuple[Claim, ...] | None:
        face = change.next_face
        if face is None or face is Face.U or change.turn.face is not Face.U:
            return None
        return (InLayer(_AFTER, _CORNER, face, corner), InLayer(_AFTER, _EDGE, face, edge))

    return claims


STATEMENTS: dict[str, Callable[[Change], tuple[Claim, ...] | None]] = {
    "home": lambda change: _comes(lambda when, value: PairHome(when, change.task.slot, value)),
    "seated": _seated,
    "joined": lambda _: _comes(Matching),
    "both_up": lambda _: _comes(_top(_CORNER), _top(_EDGE)),
    "corner_up": lambda _: _comes(_top(_CORNER)),
    "edge_up": lambda _: _comes(_top(_EDGE)),
    "apart": lambda _: (Matching(_BEFORE, False), *_goes(Touching)),
    "corner_spared": _spared(_CORNER),
    "edge_spared": _spared(_EDGE),
    "settled": lambda _: _comes(Settled),
    "opened": _lifting(False, False),
    "carried_corner": _lifting(True, False),
    "carried_edge": _lifting(False, True),
    "carried_both": _lifting(True, True),
    "cleared": _ready(False, False),
    "set_corner": _ready(True, False),
    "set_edge": _ready(False, True),
    "split": lambda _: _goes(Matching),
    "corner_down": lambda _: _goes(_top(_CORNER)),
    "edge_down": lambda _: _goes(_top(_EDGE)),
}
"""What can be said of a turn: the claims that make it true; None where it is not to be said. The weightiest
come first; the last three are good only as wrong answers."""

_ONLY_WRONG = ("split", "corner_down", "edge_down")
_KIND = {"edge_down": "corner_down", "edge_spared": "corner_spared"}
"""Statements too much alike to appear together; all others are kinds of their own."""
_TOLD_BY = {"settled": (Event.RAISED, Event.LOWERED), "apart": (Event.PARTED, Event.APART)}
"""The events that explain a true statement; the event of the same name explains any other."""


def why(answer: Answer, turn: Turn, colours: tuple[str, ...], seed: int) -> TurnQuestion | None:
    """A question about ``turn`` at the position of ``answer``, the same for the same ``seed``.

    None when there is nothing worth asking: the turn begins no shortest route or line or does nothing that
    can be told in a word, or too few wrong answers are near.
    """
    ways = (*(route.turns for route in answer.routes), *answer.lines)
    following = next((way[1:] for way in ways if way and way[0] is turn), None)
    if following is None:
        return None
    change = Change(answer.position, answer.task, turn, colours, following)
    true = next((key for key in _true_statements(change) if key not in _ONLY_WRONG), None)
    if true is None:
        return None
    random = Random(seed)
    wrong = _wrong_choices(change, random)
    if len(wrong) < _FEWEST_WRONG:
        return None
    choices = [_right_choice(change, true), *wrong]
    random.shuffle(choices)
    text = ENGLISH.say("why.question", variant_of(change), turn=turn.notation)
    return TurnQuestion(text, turn, tuple(choices))


def _scene(change: Change) -> ClaimContext:
    return ClaimContext(
        change.before.position, change.after.position, change.task, _no_distance, _no_distance, change.turn
    )


def _no_distance(position: Position) -> int:
    raise ValueError(f"answers to “why” make no claims about distances, yet one was asked for {position}")


def _true_statements(change: Change) -> Iterator[str]:
    scene = _scene(change)
    for key, claims_of in STATEMENTS.items():
        claims = claims_of(change)
        if claims and all(claim.holds(scene) for claim in claims):
            yield key


def _words(change: Change, key: str) -> str:
    return finished(tell_from(f"why.{key}", TurnFields(change, Moment.BEFORE))).text


def _right_choice(change: Change, key: str) -> Choice:
    events = _TOLD_BY.get(key, tuple(event for event in Event if event.value == key))
    event = next((event for event in change.events if event in events), change.events[0])
    reply = finished(tell_event(change, event, seen=Moment.BEFORE)).text
    return Choice(_words(change, key), STATEMENTS[key](change) or (), reply, true=True)


def _wrong_choices(change: Change, random: Random) -> list[Choice]:
    """Statements true of a neighbour and not of the turn asked about; at most one of each kind."""
    scene = _scene(change)
    found: dict[str, Choice] = {}
    for near in _neighbours(change, random):
        for key in _true_statements(near):
            claims = STATEMENTS[key](near) or ()
            kind = _KIND.get(key, key)
            if kind not in found and not all(claim.holds(scene) for claim in claims):
                reply = denied(change, claims, scene).text
                found[kind] = Choice(_neighbour_words(change, near, key), claims, reply)
                break
        if len(found) == WRONG_ANSWERS:
            break
    return list(found.values())


def _neighbours(change: Change, random: Random) -> Iterator[Change]:
    """Other turns here, nearest kin first, then this turn from one turn away."""
    turn = change.turn
    others = [other for other in TURNS if other.face is not turn.face.opposite and other is not turn]
    random.shuffle(others)
    for other in others:
        yield Change(change.position, change.task, other, change.colours, change.following)
    starts = [other for other in TURNS if other.face is not turn.face]
    random.shuffle(starts)
    for other in starts:
        yield Change(change.position.turned(other), change.task, turn, change.colours, change.following)


def _neighbour_words(change: Change, near: Change, key: str) -> str:
    """The statement in the neighbour's layers, with the pieces where they are here."""
    here, there = TurnFields(change, Moment.BEFORE), TurnFields(near, Moment.BEFORE)
    own = ("lifted", "was_lifted", "next")
    return finished(tell_from(f"why.{key}", lambda name: (there if name in own else here)(name))).text
