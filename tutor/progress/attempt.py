"""An attempt: one meeting of a learner with a case, from first look to end, as the program keeps it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from enum import StrEnum
from functools import cache
from time import time as clock
from uuid import UUID, uuid4

from msgspec import Struct, field

from tutor.cube.faces import Turn
from tutor.cube.position import Slot
from tutor.method.cases import Case, parse_case
from tutor.method.terms import ALIGNMENTS, Step, Verdict
from tutor.progress import words
from tutor.quoting import ToldError

GUEST = "Guest"
"""The learner when nobody has given a name."""
LONGEST_NAME = 40
DEEPEST_RUNG = 3
"""The rung of a hint that shows the turn."""
MOST_TURNS = 5000
"""More turns than this are no attempt at one case."""
LONGEST_SECONDS = 1e7
"""More seconds, about four months, are no attempt at one case; nor can figures be made of 1e308 of them."""
FIRST_YEAR, LAST_YEAR = 1980, 2200
"""Years in which attempts are made; a clock that says another one is wrong."""
LONGEST_WAY = 20
"""The whole cube takes at most 20 turns of any face (Rokicki and others 2014); a case by hand takes fewer."""


class AttemptError(ToldError):
    """Something that cannot be true of an attempt; the message names it and says what would be right."""


class Mode(StrEnum):
    """What the learner was doing when the case came up."""

    SINGLE = "single"
    """A case picked by hand."""
    LESSON = "lesson"
    TODAY = "today"
    """A case from today's list."""
    SLIPPING = "slipping"
    """The case that the learner is most likely to forget."""
    FAMILY = "family"
    GLANCE = "glance"
    """The learner sees the case and names its step and first turn, and turns nothing."""
    STEADY = "steady"
    """One turn for each beat."""

    @classmethod
    def _missing_(cls, value: object) -> Mode | None:
        """The mode by the name that files up to form 3 give it."""
        return {"due": cls.TODAY, "weakest": cls.SLIPPING, "flash": cls.GLANCE}.get(str(value))


class Outcome(StrEnum):
    """How it ended."""

    SOLVED = "solved"
    """The pair is in its slot, and the cross and all kept pairs are solved."""
    GIVEN_UP = "given up"
    WATCHED = "watched"
    """The case was shown from beginning to end."""
    NAMED = "named"
    """At a glance: the learner named step and first turn right."""
    MISNAMED = "misnamed"

    @classmethod
    def _missing_(cls, value: object) -> Outcome | None:
        """The outcome by the name that files up to form 3 give it."""
        return {"home": cls.SOLVED}.get(str(value))


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
        if not 0.0 <= self.at <= LONGEST_SECONDS:
            raise AttemptError(words.no_turn_time(LONGEST_SECONDS, self.at))
        if self.cost is not None and not 0 <= self.cost <= LONGEST_WAY:
            raise AttemptError(words.cost_out_of_range(LONGEST_WAY, self.cost))


class HintTaken(Struct, frozen=True, gc=False):
    """A hint: its rung, 1 to 3 deeper and deeper, and when, in seconds as for turns."""

    rung: int
    at: float

    def __post_init__(self) -> None:
        if not 0.0 <= self.at <= LONGEST_SECONDS:
            raise AttemptError(words.no_hint_time(LONGEST_SECONDS, self.at))
        if not 1 <= self.rung <= DEEPEST_RUNG:
            raise AttemptError(words.rung_out_of_range(DEEPEST_RUNG, self.rung))


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
    ``seconds`` are seconds from the start of the learner's part to the first turn (at a glance: to
    the answer; None without one) and to the end.

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
        check_time(self.time)
        slug = _case(self.case).slug
        if slug != self.case:
            raise AttemptError(words.not_the_slug(slug))
        if self.alignment not in ALIGNMENTS:
            raise AttemptError(words.no_alignment(self.alignment))
        if self.slot in self.keep:
            raise AttemptError(words.target_kept(self.slot.name))
        for name, count in ((words.TURNS_USED, self.turns_used), (words.TURNS_SHOWN, self.shown)):
            if not 0 <= count <= MOST_TURNS:
                raise AttemptError(words.turns_out_of_range(name, MOST_TURNS, count))
        lengths = ((words.BY_HAND, self.fewest), (words.AT_ALL, self.at_all), (words.ROUTE, self.route or 0))
        for name, length in lengths:
            if not 0 <= length <= LONGEST_WAY:
                raise AttemptError(words.turns_out_of_range(name, LONGEST_WAY, length))
        if self.fewest < self.at_all:
            raise AttemptError(words.by_hand_below_at_all(self.fewest, self.at_all))
        if len(self.turns) > MOST_TURNS or len(self.hints) > MOST_TURNS:
            raise AttemptError(words.too_many_turns_or_hints(MOST_TURNS))
        if not 0.0 <= (self.first_turn or 0.0) <= LONGEST_SECONDS:
            raise AttemptError(words.no_first_turn_time(LONGEST_SECONDS, self.first_turn))
        if not 0.0 <= self.seconds <= LONGEST_SECONDS:
            raise AttemptError(words.no_whole_time(LONGEST_SECONDS, self.seconds))

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
    def taught(self) -> int:
        """The turns of the way that is taught from there: the route, or the fewest where those are more."""
        return max(self.fewest, self.route or 0)

    @property
    def deepest_hint(self) -> int:
        """The deepest rung taken, 0 without any."""
        return max((hint.rung for hint in self.hints), default=0)


def check_learner(name: str) -> str:
    """The name, if it can be one. Raises AttemptError.

    It begins with a letter or a figure, also so that no spreadsheet takes it for a formula.
    """
    if not name or name != name.strip() or not name[0].isalnum() or not name.isprintable():
        raise AttemptError(words.no_learner_name(name[:LONGEST_NAME]))
    if len(name) > LONGEST_NAME:
        raise AttemptError(words.learner_name_too_long(LONGEST_NAME, len(name)))
    return name


def check_time(time: datetime) -> datetime:
    """The time, if something can have been done then. Raises AttemptError."""
    if time.utcoffset() != timedelta(0):
        raise AttemptError(words.time_not_in_utc(time.isoformat()))
    if not FIRST_YEAR <= time.year <= LAST_YEAR:
        raise AttemptError(words.no_such_year(FIRST_YEAR, LAST_YEAR, time.year))
    return time


def read_time(time: datetime) -> datetime:
    """A time that was read, in UTC. Raises AttemptError for one without a zone or of another age."""
    if time.tzinfo is None:
        raise AttemptError(words.NO_ZONE)
    # Looked at before it is put into UTC too: the first and the last year cannot be.
    if not FIRST_YEAR - 1 <= time.year <= LAST_YEAR + 1:
        raise AttemptError(words.no_such_year(FIRST_YEAR, LAST_YEAR, time.year))
    return check_time(time.astimezone(UTC))


def time_of(epoch: float) -> datetime:
    """The time so many seconds after 1970 in UTC; of a wrong clock the nearest time that can be."""
    return datetime.fromtimestamp(min(max(epoch, _EARLIEST), _LATEST), UTC)


_EARLIEST = datetime(FIRST_YEAR, 1, 1, tzinfo=UTC).timestamp()
_LATEST = datetime(LAST_YEAR, 12, 31, tzinfo=UTC).timestamp()


def now_utc() -> datetime:
    """The wall clock, in UTC."""
    return time_of(clock())
