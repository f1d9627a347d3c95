"""What is said when a whole solve is looked back on: legs, pauses, slips by kind, and what to practise."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.coach.slips import SlipKind
from tutor.coach.solve_review import Drill, Leg, Pause, SolveReading
from tutor.counting import counted, number
from tutor.cube.faces import Face
from tutor.cube.geometry import EDGE_FACES
from tutor.cube.position import Slot

MOST_IN_SECONDS = 90.0
"""Longer times are given in minutes."""


def time_words(seconds: float) -> str:
    """A length of time, for instance ``6.2 s`` or ``2 min 5 s``."""
    if seconds < 10.0:
        return ENGLISH.say("time.seconds", seconds=f"{seconds:.1f}")
    if seconds < MOST_IN_SECONDS:
        return ENGLISH.say("time.seconds", seconds=str(round(seconds)))
    minutes, rest = divmod(round(seconds), 60)
    return ENGLISH.say("time.minutes", minutes=str(minutes), seconds=str(rest))


def pair_name(slot: Slot, colours: Sequence[str]) -> str:
    """A pair by the colours of its sides, for instance ``green-orange``; the front or back comes first."""
    sides = sorted(EDGE_FACES[slot.edge], key=lambda face: face not in (Face.F, Face.B))
    return "-".join(colours[face] for face in sides)


def leg_name(leg: Leg, colours: Sequence[str]) -> str:
    """What a leg was about, short; ``colours`` are the colour words of its frame."""
    if leg.cross:
        return ENGLISH.say("leg.cross")
    if not leg.slots:
        return ENGLISH.say("leg.open")
    return " + ".join(pair_name(slot, colours) for slot in leg.slots)


def leg_phrase(leg: Leg, colours: Sequence[str]) -> str:
    """A leg inside a sentence, for instance ``the green-orange pair``."""
    if leg.cross:
        return ENGLISH.say("leg.the_cross")
    key = "leg.the_pair" if len(leg.slots) == 1 else "leg.the_pairs"
    return ENGLISH.say(key, name=leg_name(leg, colours))


def total_words(turns: int, seconds: float) -> str:
    """Turns and time of all, from the first turn to the last."""
    return ENGLISH.say("solve.total", turns=counted(turns, "turn"), time=time_words(seconds))


def lost_words(reading: SolveReading) -> str:
    """How many turns were beyond the fewest, leg by leg."""
    lost = sum(each.lost for each in reading.legs)
    if not lost:
        return ENGLISH.say("solve.none_lost")
    return ENGLISH.say("solve.lost", extra=counted(lost, "turn"))


def pause_words(pause: Pause, leg: Leg, turn: str, colours: Sequence[str]) -> str:
    """A pause and where it was; ``turn`` is the turn after it, as written."""
    seconds = time_words(pause.seconds)
    if pause.index == leg.begin:
        return ENGLISH.say("pause.before", seconds=seconds, leg=leg_phrase(leg, colours))
    return ENGLISH.say("pause.within", seconds=seconds, leg=leg_phrase(leg, colours), turn=turn)


def kind_words(kind: SlipKind) -> str:
    """A kind of slip, in a few words."""
    return ENGLISH.say(f"slip_kind.{kind.name.lower()}")


def slip_words(kind: SlipKind, count: int) -> str:
    """A kind of slip and how often it was made."""
    return capitalised(ENGLISH.say("slip_kind.times", kind=kind_words(kind), times=times_words(count)))


def cross_slip_words(lost: int) -> str:
    """How many turns the cross took beyond the fewest."""
    return ENGLISH.say("slip_kind.cross", count=number(lost))


def times_words(count: int) -> str:
    """How often, for instance ``once``."""
    if count == 1:
        return ENGLISH.say("slip_kind.once")
    return ENGLISH.say("slip_kind.often", count=number(count))


def drill_words(drill: Drill) -> str:
    """Why a case is worth practising."""
    extra = capitalised(counted(drill.lost, "extra turn"))
    if drill.step is not None:
        extra = ENGLISH.say("drill.in_step", extra=extra, step=drill.step.value.capitalize())
    if drill.slip is None:
        return extra
    return ENGLISH.say("drill.slipped", extra=extra, kind=kind_words(drill.slip))
