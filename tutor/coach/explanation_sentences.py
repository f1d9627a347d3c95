"""Sentences about a sequence that is taken apart, with claims about the position that it starts from."""

from __future__ import annotations

from collections.abc import Iterator

from tutor.coach.catalogue import ENGLISH
from tutor.coach.claims import StepDone
from tutor.coach.claims_of_ways import (
    AllBeside,
    ByHand,
    Later,
    LeadsTo,
    Mirrored,
    OutBetween,
    Spoils,
    StaysShortest,
    ToGo,
    Unsolved,
)
from tutor.coach.explanation import Explanation
from tutor.coach.phrase import NOTHING, Phrase, finished, tell
from tutor.coach.reasons import counted_reasons
from tutor.coach.review import listed, merging, ordinal, skipping
from tutor.coach.scene import Moment
from tutor.counting import counted
from tutor.cube.notation import format_moves
from tutor.method.continuations import Verdict
from tutor.method.shortcut import Shortcut


def brief(found: Explanation) -> tuple[Phrase, ...]:
    """What matters most."""
    told = _solved(found) if found.solves else _failed(found)
    return tuple(finished(phrase) for phrase in told if phrase.text)


def more(found: Explanation) -> tuple[Phrase, ...]:
    """What else there is to know, beside what is said of the single turns."""
    told = (_missing(found), *_on_the_way(found), _of_hands(found), _in_the_mirror(found))
    return tuple(finished(phrase) for phrase in told if phrase.text)


def _solved(found: Explanation) -> Iterator[Phrase]:
    """That it solves the pair, how long it is beside the best ways, and what it needs free."""
    made, beside = found.way.turns, {turn.face for turn in found.way.turns} <= found.start.task.working_faces
    where = ENGLISH.say("review.beside" if beside else "review.far")
    claims = (LeadsTo(made, 0), AllBeside(made, beside))
    yield tell("explain.solves", *claims, made=counted(len(made), "turn"), where=where)
    yield _shortest(found)
    yield from _beside_route(found)
    if found.spoils:
        yield _spoils(found)


def _shortest(found: Explanation) -> Phrase:
    start = found.start
    claims = (ToGo(Moment.BEFORE, start.to_go), ByHand(Moment.BEFORE, start.by_hand is not None))
    if start.by_hand == len(found.way.turns):
        return tell("explain.shortest", *claims)
    key = "review.shortest" if start.by_hand is not None else "review.shortest_far"
    return tell(key, *claims, fewest=counted(start.to_go, "turn"))


def _beside_route(found: Explanation) -> Iterator[Phrase]:
    """The route shown, and what the sequence merges or skips of it."""
    route, made = found.route, found.way.turns
    if route is None or found.shortcut is None:
        return
    claim = LeadsTo(route.turns, 0)
    if found.same_route:
        yield tell("explain.is_route" if route.turns == made else "explain.like_route", claim)
        return
    turns = counted(len(route.turns), "turn")
    yield tell("explain.route", claim, turns=turns, route=format_moves(route.turns))
    told = merging(made, found.shortcut, "explain.merges")
    told += skipping(made, found.shortcut, "explain.skips")
    yield told if told.text else _one_by_one(found, found.shortcut)


def _one_by_one(found: Explanation, shortcut: Shortcut) -> Phrase:
    """That it does each step of the route, none at once with another and none before its first turn."""
    ends = [(step, end) for step, end in shortcut.ends if end]
    if len(ends) < len(shortcut.ends):
        return NOTHING
    done = (Later(found.way.turns[:end], StepDone(Moment.AFTER, step.value)) for step, end in ends)
    return tell("explain.one_by_one", *done)


def _failed(found: Explanation) -> Iterator[Phrase]:
    """That it does not solve the pair, the first turn that went wrong with why, and how much is left."""
    yield from _went_wrong(found)
    claim = LeadsTo(found.way.turns, found.left)
    yield tell("explain.left", claim, left=counted(found.left, "more turn"))


def _missing(found: Explanation) -> Phrase:
    """What is unsolved at the end."""
    if found.solves:
        return NOTHING
    missing = found.missing
    verb = ENGLISH.say("verb.one" if missing.single else "verb.more")
    claim = Later(found.way.turns, Unsolved(Moment.AFTER, missing.pairs, missing.edges))
    return tell("explain.missing", claim, missing=missing.words, verb=verb)


def _went_wrong(found: Explanation) -> Iterator[Phrase]:
    made = found.way.turns
    if found.wrong is None:
        yield tell("explain.early", StaysShortest(made))
        return
    turns, each = made[: found.wrong + 1], found.each[found.wrong]
    nth, turn = ordinal(len(turns)), turns[-1].notation
    if each.verdict is None:
        yield tell("explain.undone", LeadsTo(turns[:-1], 0), nth=nth, turn=turn)
    elif each.verdict is Verdict.DETOUR:
        yield tell("explain.wrong", nth=nth, turn=turn)
        yield Phrase(each.said.text, tuple(Later(turns, claim) for claim in each.said.claims))
    else:
        claims = StaysShortest(turns[:-1]), StaysShortest(turns, False)
        yield tell("explain.longer" if each.by_hand else "explain.longer_far", *claims, nth=nth, turn=turn)


def _spoils(found: Explanation) -> Phrase:
    """The other pairs and the cross edges that it takes out, or that it takes out none."""
    spoilt = found.spoils
    claim = Spoils(found.way.turns, spoilt.pairs, spoilt.edges)
    if not spoilt:
        return tell("explain.spares", claim)
    key = "explain.spoils.one" if spoilt.single else "explain.spoils.more"
    return tell(key, claim, spoilt=spoilt.words)


def _on_the_way(found: Explanation) -> Iterator[Phrase]:
    """What it takes out and puts back; what a way that solves the pair spoils is said before."""
    out = found.between
    if out:
        key = "explain.between.one" if out.single else "explain.between.more"
        yield tell(key, OutBetween(found.way.turns, out.pairs, out.edges), out=out.words)
    if not found.spoils:
        yield _spoils(found)


def _of_hands(found: Explanation) -> Phrase:
    """What it asks of the hands."""
    if not found.hands.reasons:
        return tell("explain.easy")
    asked = [counted_reasons(count, reason) for reason, count in found.hands.reasons]
    return tell("explain.hands", asked=listed(asked))


def _in_the_mirror(found: Explanation) -> Phrase:
    """The same with left and right exchanged."""
    return tell(
        "explain.mirror",
        Mirrored(found.mirror, found.mirror_slot, found.solves),
        turns=format_moves(found.mirror),
        slot=ENGLISH.say(f"slot.{found.mirror_slot.name}"),
    )
