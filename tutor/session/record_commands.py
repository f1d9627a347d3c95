"""Commands and effects about a learner's records; ``commands`` joins them to all others."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime, tzinfo
from enum import Enum
from uuid import UUID

from msgspec import Struct

from tutor.coach.guidance import Guidance
from tutor.method.terms import Family
from tutor.progress.assignment import AssignedState, Assignment
from tutor.progress.attempt import AttemptRecord, Mode
from tutor.progress.group import GroupReport
from tutor.progress.presence import Live
from tutor.progress.schedule import Proposal
from tutor.progress.study import Study
from tutor.progress.summary import Summary
from tutor.session.effect import Effect
from tutor.ui.action import Action

# -------------------------------------------------------------------------------------------- commands


class ChooseLearner(Action, Struct, frozen=True):
    """Another learner begins."""

    name: str


# ------------------------------------------------------------------------- answers from the world


class Standing(Struct, frozen=True, eq=False):
    """A learner's study by the store, and its messages; compared by identity."""

    learner: str
    learners: tuple[str, ...]
    study: Study
    notices: tuple[str, ...] = ()
    own_words: Mapping[str, str] = {}
    """What the learner says of cases in their own words, by the case's slug."""
    backups: str = ""
    """The folder of the backups; empty where the program saves nothing."""
    assigned: tuple[Assignment, ...] = ()
    """What the learner has to do, with what was done and withdrawn."""
    zone: tzinfo = UTC
    """The time zone of the learner, with its changes of clocks; it says when a day begins."""


class RecordsOpened(Action, Struct, frozen=True, eq=False):
    """The records of a learner were read, as asked for with OpenRecords; ``guidance`` by the case's slug."""

    standing: Standing
    guidance: Mapping[str, Guidance]


class LearnerRefused(Action, Struct, frozen=True):
    """The store could not add a learner: why, and what would be right."""

    message: str


class LearnerChange(Enum):
    """What can be done to a learner as a whole."""

    RENAME = "another name"
    JOIN = "one learner of two"
    REMOVE = "removed, with a copy kept"
    PUT_BACK = "there again, from the copy"


class LearnerChanged(Action, Struct, frozen=True, eq=False):
    """A learner was changed as asked with ChangeLearner, or, with a ``problem``, was not.

    ``standing`` and ``guidance`` are those of whoever learns now. ``new`` is the name as the store has it;
    ``copy`` the file in which all is kept as it was before.
    """

    change: LearnerChange
    old: str
    new: str
    standing: Standing
    guidance: Mapping[str, Guidance]
    copy: str = ""
    problem: str = ""


class Recorded(Action, Struct, frozen=True, eq=False):
    """An attempt was handed to the store; ``saved``: it is on the disk."""

    uuid: UUID
    saved: bool
    standing: Standing


class AttemptUndone(Action, Struct, frozen=True, eq=False):
    """An attempt counts no more, or, with a ``problem``, it still does."""

    uuid: UUID
    standing: Standing
    problem: str = ""


class OwnWordsKept(Action, Struct, frozen=True, eq=False):
    """The learner's own words for a case are kept, or, with a ``problem``, they are not."""

    standing: Standing
    problem: str = ""


class Proposed(Action, Struct, frozen=True):
    """What to practise next, for a request; None when there is nothing, or, with a ``problem``, it failed."""

    request: int
    proposal: Proposal | None
    problem: str = ""


class Summarised(Action, Struct, frozen=True, eq=False):
    """A summary of a learner; compared by identity."""

    learner: str
    summary: Summary


class GroupReported(Action, Struct, frozen=True, eq=False):
    """How the group is doing; compared by identity."""

    report: GroupReport
    assigned: tuple[Assignment, ...]
    """What everybody has to do."""


class AssignedKept(Action, Struct, frozen=True, eq=False):
    """Tasks are kept, or, with a ``problem``, they are not; ``assigned`` is what everybody has to do."""

    standing: Standing
    assigned: tuple[Assignment, ...]
    problem: str = ""


class HardestFound(Action, Struct, frozen=True):
    """The cases that slip most from all learners by their slugs, the hardest first."""

    slugs: tuple[str, ...]


class Exchanged(Action, Struct, frozen=True):
    """What has come of a look at the shared ``folder``.

    ``learners`` are those of whom there is news; ``others`` is the live view of the other windows;
    ``refused`` counts lines that cannot be read; a ``problem`` says why nothing was exchanged.
    """

    folder: str
    learners: tuple[str, ...] = ()
    others: tuple[Live, ...] = ()
    refused: int = 0
    problem: str = ""
    away: bool = False
    """Whether the problem is that the folder cannot be used."""


class ClockSet(Action, Struct, frozen=True):
    """The wall clock: seconds since 1970 in UTC at the session's time 0."""

    epoch: float


StoreAnswer = (
    RecordsOpened
    | LearnerRefused
    | LearnerChanged
    | Recorded
    | AttemptUndone
    | OwnWordsKept
    | Proposed
    | Summarised
    | GroupReported
    | AssignedKept
    | HardestFound
)
"""What the store answers."""
RecordsCommand = ChooseLearner | StoreAnswer | Exchanged | ClockSet

# --------------------------------------------------------------------------------------------- effects


class OpenRecords(Effect, Struct, frozen=True):
    """Read a learner's study; it comes back as RecordsOpened. ``new``: add the learner first."""

    learner: str
    new: bool = False


class ChangeLearner(Effect, Struct, frozen=True):
    """Change a learner as a whole; it comes back as LearnerChanged. ``seated`` is who learns now.

    ``new`` is the new name, or who takes over all; ``copy`` the file from which somebody is put back.
    """

    change: LearnerChange
    old: str
    seated: str
    new: str = ""
    copy: str = ""


class Record(Effect, Struct, frozen=True):
    """Keep an attempt for good; it comes back as Recorded."""

    attempt: AttemptRecord


class UndoAttempt(Effect, Struct, frozen=True):
    """Forget an attempt of a learner for good; it comes back as AttemptUndone."""

    uuid: UUID
    learner: str


class KeepOwnWords(Effect, Struct, frozen=True):
    """Keep what a learner says of a case, or remove it (empty); it comes back as OwnWordsKept."""

    learner: str
    slug: str
    text: str


class Propose(Effect, Struct, frozen=True):
    """Choose what the learner should practise next; it comes back as Proposed."""

    request: int
    learner: str
    mode: Mode
    family: Family | None = None


class Summarise(Effect, Struct, frozen=True):
    """Make a summary of a learner as of a moment, in UTC; it comes back as Summarised."""

    learner: str
    at: datetime


class ReportGroup(Effect, Struct, frozen=True):
    """Find out how all learners are doing; it comes back as GroupReported."""


class Assign(Effect, Struct, frozen=True):
    """Give learners a task, or note that it is done or withdrawn; it comes back as AssignedKept.

    ``learner`` is the one who sits here.
    """

    learner: str
    learners: tuple[str, ...]
    task: str
    state: AssignedState = AssignedState.GIVEN


class FindHardest(Effect, Struct, frozen=True):
    """Find the cases that slip most from all learners; they come back as HardestFound."""


RecordsEffect = (
    OpenRecords
    | ChangeLearner
    | Record
    | UndoAttempt
    | KeepOwnWords
    | Propose
    | Summarise
    | ReportGroup
    | Assign
    | FindHardest
)
