"""An attempt: one meeting of a learner with a case, from first look to end, as it is kept for good."""

from __future__ import annotations

import math
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from functools import cache
from uuid import UUID, uuid4

from msgspec import Struct, field

from tutor.cube.faces import Turn
from tutor.cube.position import Slot
from tutor.method.cases import Case, parse_case
from tutor.method.terms import ALIGNMENTS, Step, Verdict

GUEST = "Guest"
"""The learner when nobody has given a name."""
LONGEST_NAME = 40
DEEPEST_RUNG = 3
MOST_TURNS = 5000
"""More turns than this are no attempt at one case."""
LONGEST_WAY = 20
"""The whole cube takes at most 20 turns of any face (Rokicki and others 2014); a case by hand takes fewer."""


class AttemptError(ValueError):
    """Something that cannot be true of an attempt; the message names it and says what would be right."""


class Mode(StrEnum):
    """What the learner was doing when the case came up."""

    SINGLE = "single"
    """A case picked by hand."""
    LESSON = "lesson"
    DUE = "due"
    WEAKEST = "weakest"
    FAMILY = "family"
    FLASH = "flash"
    """The case is seen, and its step and first turn are named; nothing is turned."""
    STEADY = "steady"
    """One turn for each beat."""


class Outcome(StrEnum):
    """How it ended."""

    HOME = "home"
    """The pair came home and all that was to be kept is whole."""
    GIVEN_UP = "given up"
    WATCHED = "watched"
    """The case was shown from beginning to end."""
    NAMED = "named"
    """In a flash: step and first turn were named rightly."""
    MISNAMED = "misnamed"


# Attempts and what is in them are Structs, which are made in a third of the time: a history has a hundred
# thousand turns. None of them leads back to itself, so that the garbage collector need not look at them.


class TurnMade(Struct, frozen=True, gc=False):
    """A turn of the learner, those taken back included.

    ``turn`` is named as the cube was held, ``at`` in seconds from the start of the learner's part.
    ``verdict`` and ``cost`` (how many turns longer it made the way) are those of the moment, ``step`` is the
    one it belongs to; None where nothing was judged.
    """

    turn: Turn
    at: float
    verdict: Verdict | None = None
    cost: int | None = None
    step: Step | None = None

    def __post_init__(self) -> None:
        if not 0.0 <= self.at < math.inf:
            raise _no_time("the time of a turn", self.at)
        if self.cost is not None and not 0 <= self.cost <= LONGEST_WAY:
            raise AttemptError(f"a turn costs from 0 to {LONGEST_WAY} turns, not {self.cost}")


class HintTaken(Struct, frozen=True, gc=False):
    """A hint: its rung, 1 to 3 deeper and deeper, and when, in seconds as for turns."""

    rung: int
    at: float

    def __post_init__(self) -> None:
        if not 0.0 <= self.at < math.inf:
            raise _no_time("the time of a hint", self.at)
        if not 1 <= self.rung <= DEEPEST_RUNG:
            raise AttemptError(f"a hint has a rung from 1 to {DEEPEST_RUNG}, not {self.rung}")


@cache
def _case(slug: str) -> Case:
    # The cases are worked out when an attempt is met, not when a window starts.
    return parse_case(slug)


class AttemptRecord(Struct, frozen=True, gc=False):
    """One meeting with a case.

    ``time`` is when it ended, in UTC. ``case`` is the slug of the case that the attempt counts for; with
    ``mirror`` its mirror image was met instead (see ``seen``). ``keep`` are the slots that had to stay whole.
    ``turns_used`` are the turns of the way that was kept, those taken back left out. ``by_hand`` and
    ``at_all`` are the fewest turns from where the learner began, with the working faces alone and with far
    layers too; ``by_hand`` is None in attempts from before it was kept. ``route`` are the turns of the
    shortest route (None without one), ``shown`` the turns played for the learner before. ``first_turn`` and
    ``seconds`` are seconds from the start of the learner's part to the first turn (in a flash: to the
    answer; None without one) and to the end.

    Raises AttemptError for what cannot be.
    """

    learner: str
    time: datetime
    case: str
    slot: Slot
    alignment: int
    mode: Mode
    outcome: Outcome
    turns_used: int
    at_all: int
    seconds: float
    mirror: bool = False
    keep: frozenset[Slot] = frozenset()
    turns: tuple[TurnMade, ...] = ()
    hints: tuple[HintTaken, ...] = ()
    by_hand: int | None = None
    route: int | None = None
    shown: int = 0
    first_turn: float | None = None
    uuid: UUID = field(default_factory=uuid4)

    def __post_init__(self) -> None:
        check_learner(self.learner)
        if self.time.utcoffset() != timedelta(0):
            raise AttemptError(f"the time {self.time.isoformat()} is not in UTC")
        slug = _case(self.case).slug
        if slug != self.case:
            raise AttemptError(f"a case is named by its slug, here “{slug}”")
        if self.alignment not in ALIGNMENTS:
            raise AttemptError(f"an alignment is 0, 1, 2 or 3, not {self.alignment}")
        if self.slot in self.keep:
            raise AttemptError(f"slot {self.slot.name} is the target, so it cannot be kept")
        for name, count in (("turns used", self.turns_used), ("turns shown", self.shown)):
            if not 0 <= count <= MOST_TURNS:
                raise AttemptError(f"{name}: from 0 to {MOST_TURNS}, not {count}")
        for name, length in (("by hand", self.fewest), ("at all", self.at_all), ("route", self.route or 0)):
            if not 0 <= length <= LONGEST_WAY:
                raise AttemptError(f"{name}: from 0 to {LONGEST_WAY} turns, not {length}")
        if self.fewest < self.at_all:
            raise AttemptError(f"by hand: {self.fewest} turns, though at all it takes {self.at_all}")
        if len(self.turns) > MOST_TURNS or len(self.hints) > MOST_TURNS:
            raise AttemptError(f"an attempt has at most {MOST_TURNS} turns and as many hints")
        if not 0.0 <= (self.first_turn or 0.0) < math.inf:
            raise _no_time("the time to the first turn", self.first_turn)
        if not 0.0 <= self.seconds < math.inf:
            raise _no_time("the time in all", self.seconds)

    @property
    def seen(self) -> Case:
        """The case that was on the table: the one counted for, or its mirror image."""
        case = _case(self.case)
        return case.mirror if self.mirror else case

    @property
    def fewest(self) -> int:
        """The fewest turns that the learner's are counted against: by hand, where that was kept."""
        return self.at_all if self.by_hand is None else self.by_hand

    @property
    def deepest_hint(self) -> int:
        """The deepest rung taken, 0 without any."""
        return max((hint.rung for hint in self.hints), default=0)


def check_learner(name: str) -> str:
    """The name, if it can be one. Raises AttemptError.

    It begins with a letter or a figure, also so that no spreadsheet takes it for a formula.
    """
    if not name or name != name.strip() or not name[0].isalnum() or not name.isprintable():
        raise AttemptError(
            f"“{name[:LONGEST_NAME]}” is no name for a learner: it begins with a letter or a figure, "
            "stands on one line, and has no spaces at its ends"
        )
    if len(name) > LONGEST_NAME:
        raise AttemptError(
            f"a learner's name has at most {LONGEST_NAME} characters, this one has {len(name)}"
        )
    return name


def now_utc() -> datetime:
    """The wall clock, in UTC."""
    return datetime.now(UTC)


def _no_time(what: str, value: float | None) -> AttemptError:
    return AttemptError(f"{what} is a number of seconds from 0 on, not {value}")
