"""A group's attempts of all kinds, drawn: quick to make, since no solver is asked."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SLOTS
from tutor.method.cases import CASES
from tutor.method.terms import Step, Verdict
from tutor.progress.attempt import AttemptRecord, HintTaken, Mode, Outcome, TurnMade

NAMES = ("Ilva", "Bastian", "Meret", "Oda")
EVENINGS = (0, 1, 3, 4, 8, 9, 15, 16, 24, 40, 41, 43)
"""Days on which the club meets; all within two months."""


def drawn_group(make: Callable[..., AttemptRecord]) -> dict[str, list[AttemptRecord]]:
    """Attempts of all kinds, drawn."""
    drawn, found = random.Random(19), {}
    for name in NAMES:
        made = []
        for day in EVENINGS:
            if drawn.random() < 0.75 or day == EVENINGS[-1]:
                at = day + drawn.uniform(0.0, 0.01)
                for _ in range(drawn.randint(4, 20)):
                    at += drawn.uniform(0.0005, 0.002)
                    made.append(_one(make, drawn, name, at))
        found[name] = made
    return found


def _one(make: Callable[..., AttemptRecord], drawn: random.Random, name: str, day: float) -> AttemptRecord:
    """One attempt, as often as not a good one."""
    case, slot = drawn.choice(CASES[:12]).slug, drawn.choice(SLOTS)
    kept: dict[str, Any] = {"learner": name, "slot": slot, "mirror": drawn.random() < 0.2}
    match drawn.randrange(12):
        case 0:
            kept |= {"outcome": Outcome.WATCHED, "shown": 4, "turns": ()}
        case 1:
            kept |= {"outcome": Outcome.GIVEN_UP}
        case 2:
            kept |= {"mode": Mode.GLANCE, "outcome": Outcome.NAMED, "turns": ()}
        case 3:
            kept |= {"hints": (HintTaken(drawn.randint(1, 3), 0.5),)}
        case 4:
            kept |= {"shown": 2}
        case 5 | 6 | 7:
            steps = (Step.RAISE, Step.PART, Step.JOIN)
            astray = TurnMade(drawn.choice(TURNS), 1.0, Verdict.DETOUR, 2, drawn.choice(steps))
            kept |= {"turns": (TurnMade(Turn.U, 0.5, Verdict.OPTIMAL, 0, Step.PART), astray), "turns_used": 6}
        case 8:
            kept |= {"turns_used": 5}
    return make(case, day, **kept)
