"""Attempts of invented learners of a club, and a clock that is set by hand."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import UUID, uuid5

import pytest
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SLOTS, Slot, every_other_slot
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS
from tutor.progress.attempt import AttemptRecord, HintTaken, Mode, Outcome, TurnMade

CLUB_EVENING = datetime(2026, 3, 3, 18, 30, tzinfo=UTC)
_NAMESPACE = UUID("7a8a3f52-6f0a-4bb4-9d0e-0d3f7a2b9c11")


@dataclass
class ManualClock:
    """A clock that stands still until it is moved."""

    now: datetime = field(default=CLUB_EVENING)

    def __call__(self) -> datetime:
        return self.now

    def go_on(self, **by: float) -> None:
        self.now += timedelta(**by)


@pytest.fixture
def clock() -> ManualClock:
    return ManualClock()


class AttemptMaker:
    """Makes attempts, each with a number of its own, the same in every run of the tests."""

    def __init__(self) -> None:
        self.made = 0

    def __call__(self, case: str = CASES[0].slug, day: float = 0.0, **changes: Any) -> AttemptRecord:
        """A plain attempt, home in the fewest turns without a hint, so many days after the first evening."""
        self.made += 1
        slot = changes.pop("slot", Slot.FR)
        given: dict[str, Any] = {
            "learner": "Ilva",
            "time": CLUB_EVENING + timedelta(days=day),
            "case": case,
            "slot": slot,
            "alignment": 0,
            "mode": Mode.TODAY,
            "outcome": Outcome.SOLVED,
            "turns_used": 3,
            "by_hand": 3,
            "at_all": 3,
            "route": 4,
            "seconds": 4.0,
            "first_turn": 1.5,
            "keep": every_other_slot(slot),
            "uuid": uuid5(_NAMESPACE, str(self.made)),
            "turns": tuple(
                TurnMade(turn, 1.5 + index, Verdict.OPTIMAL, 0, TURNING_STEPS[3])
                for index, turn in enumerate((Turn.R, Turn.U, Turn.R_PRIME))
            ),
        }
        return AttemptRecord(**(given | changes))

    def detour(self, case: str = CASES[0].slug, day: float = 0.0, **changes: Any) -> AttemptRecord:
        """An attempt that came home with a detour of two turns."""
        turns = (TurnMade(Turn.F, 2.0, Verdict.DETOUR, 2, TURNING_STEPS[2]),)
        return self(case, day, turns=turns, turns_used=5, **changes)

    def hinted(self, rung: int, case: str = CASES[0].slug, day: float = 0.0, **changes: Any) -> AttemptRecord:
        """An attempt that came home in the fewest turns with a hint."""
        return self(case, day, hints=(HintTaken(rung, 1.0),), **changes)


@pytest.fixture
def attempt() -> AttemptMaker:
    return AttemptMaker()


@pytest.fixture(scope="session")
def attempt_maker() -> type[AttemptMaker]:
    """For a test that makes attempts anew for each example."""
    return AttemptMaker


_seconds = st.floats(0, 1e5)
_turns = st.builds(
    TurnMade,
    turn=st.sampled_from(TURNS),
    at=_seconds,
    verdict=st.none() | st.sampled_from(Verdict),
    cost=st.none() | st.integers(0, 2),
    step=st.none() | st.sampled_from(TURNING_STEPS),
)
_letters = st.characters(categories=["L", "Nd"])
_inside = st.characters(categories=["L", "Nd", "Pd", "Po", "Sc"], include_characters=" ")
_names = st.builds(lambda first, rest: (first + rest).rstrip(), _letters, st.text(_inside, max_size=30))


@st.composite
def attempts(draw: st.DrawFn) -> AttemptRecord:
    """Any attempt there can be."""
    slot = draw(st.sampled_from(SLOTS))
    at_all = draw(st.integers(0, 20))
    return AttemptRecord(
        learner=draw(_names),
        time=draw(st.datetimes(datetime(1980, 1, 1), datetime(2200, 12, 31), timezones=st.just(UTC))),
        case=draw(st.sampled_from(CASES)).slug,
        slot=slot,
        alignment=draw(st.integers(0, 3)),
        mode=draw(st.sampled_from(Mode)),
        outcome=draw(st.sampled_from(Outcome)),
        turns_used=draw(st.integers(0, 400)),
        at_all=at_all,
        seconds=draw(_seconds),
        mirror=draw(st.booleans()),
        keep=draw(st.frozensets(st.sampled_from(SLOTS))) - {slot},
        turns=tuple(draw(st.lists(_turns, max_size=4))),
        hints=tuple(draw(st.lists(st.builds(HintTaken, rung=st.integers(1, 3), at=_seconds), max_size=3))),
        by_hand=draw(st.none() | st.integers(at_all, 20)),
        route=draw(st.none() | st.integers(0, 16)),
        shown=draw(st.integers(0, 10)),
        first_turn=draw(st.none() | _seconds),
        uuid=draw(st.uuids()),
    )


@pytest.fixture(scope="session")
def any_attempt() -> st.SearchStrategy[AttemptRecord]:
    return attempts()
