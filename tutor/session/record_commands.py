"""Commands and effects about what is kept of a learner; ``commands`` joins them to all others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from uuid import UUID

from tutor.coach.guidance import Guidance
from tutor.method.terms import Family
from tutor.progress.attempt import AttemptRecord, Mode
from tutor.progress.schedule import Proposal
from tutor.progress.study import Study
from tutor.progress.summary import Summary
from tutor.session.effect import Effect
from tutor.ui.action import Action

# -------------------------------------------------------------------------------------------- commands


@dataclass(frozen=True, slots=True)
class ChooseLearner(Action):
    """Another learner sits down."""

    name: str


# ------------------------------------------------------------------------- answers from the world


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """Where a learner stands by the store, and what it has to tell; compared by identity."""

    learner: str
    learners: tuple[str, ...]
    study: Study
    notices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class RecordsOpened(Action):
    """The records of a learner were read, as asked for with OpenRecords; ``guidance`` by the case's slug."""

    standing: Standing
    guidance: Mapping[str, Guidance]


@dataclass(frozen=True, slots=True)
class LearnerRefused(Action):
    """A learner could not be added; why, and what would be right."""

    message: str


@dataclass(frozen=True, slots=True, eq=False)
class Recorded(Action):
    """An attempt was handed to the store; ``saved``: it is on the disk."""

    uuid: UUID
    saved: bool
    standing: Standing


@dataclass(frozen=True, slots=True, eq=False)
class TakenBack(Action):
    """An attempt counts no more, or, with a ``problem``, it still does."""

    uuid: UUID
    standing: Standing
    problem: str = ""


@dataclass(frozen=True, slots=True)
class Proposed(Action):
    """What to practise next, for a request; None when there is nothing, or, with a ``problem``, it failed."""

    request: int
    proposal: Proposal | None
    problem: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Summarised(Action):
    """How it goes with a learner; compared by identity."""

    learner: str
    summary: Summary


@dataclass(frozen=True, slots=True)
class ClockSet(Action):
    """The wall clock: seconds since 1970 in UTC at the session's time 0."""

    epoch: float


StoreAnswer = RecordsOpened | LearnerRefused | Recorded | TakenBack | Proposed | Summarised
"""What the store answers."""
RecordsCommand = ChooseLearner | StoreAnswer | ClockSet

# --------------------------------------------------------------------------------------------- effects


@dataclass(frozen=True, slots=True)
class OpenRecords(Effect):
    """Read where a learner stands; it comes back as RecordsOpened. ``new``: add the learner first."""

    learner: str
    new: bool = False


@dataclass(frozen=True, slots=True)
class Record(Effect):
    """Keep an attempt for good; it comes back as Recorded."""

    attempt: AttemptRecord


@dataclass(frozen=True, slots=True)
class TakeBack(Effect):
    """Forget an attempt of a learner for good; it comes back as TakenBack."""

    uuid: UUID
    learner: str


@dataclass(frozen=True, slots=True)
class Propose(Effect):
    """Choose what the learner should practise next; it comes back as Proposed."""

    request: int
    learner: str
    mode: Mode
    family: Family | None = None


@dataclass(frozen=True, slots=True)
class Summarise(Effect):
    """Work out how it goes with a learner; it comes back as Summarised."""

    learner: str


RecordsEffect = OpenRecords | Record | TakeBack | Propose | Summarise
