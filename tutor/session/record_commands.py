"""Commands and effects about a learner's records; ``commands`` joins them to all others."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from msgspec import Struct

from tutor.coach.guidance import Guidance
from tutor.method.terms import Family
from tutor.progress.attempt import AttemptRecord, Mode
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


class RecordsOpened(Action, Struct, frozen=True, eq=False):
    """The records of a learner were read, as asked for with OpenRecords; ``guidance`` by the case's slug."""

    standing: Standing
    guidance: Mapping[str, Guidance]


class LearnerRefused(Action, Struct, frozen=True):
    """The store could not add a learner: why, and what would be right."""

    message: str


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


class HardestFound(Action, Struct, frozen=True):
    """The cases that slip most from all learners by their slugs, the hardest first."""

    slugs: tuple[str, ...]


class ClockSet(Action, Struct, frozen=True):
    """The wall clock: seconds since 1970 in UTC at the session's time 0."""

    epoch: float


_Kept = RecordsOpened | LearnerRefused | Recorded | AttemptUndone | OwnWordsKept
StoreAnswer = _Kept | Proposed | Summarised | HardestFound
"""What the store answers."""
RecordsCommand = ChooseLearner | StoreAnswer | ClockSet

# --------------------------------------------------------------------------------------------- effects


class OpenRecords(Effect, Struct, frozen=True):
    """Read a learner's study; it comes back as RecordsOpened. ``new``: add the learner first."""

    learner: str
    new: bool = False


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
    """Make a summary of a learner; it comes back as Summarised."""

    learner: str


class FindHardest(Effect, Struct, frozen=True):
    """Find the cases that slip most from all learners; they come back as HardestFound."""


RecordsEffect = OpenRecords | Record | UndoAttempt | KeepOwnWords | Propose | Summarise | FindHardest
