"""Practice as a plain value: the learner's choices, the sitting so far, and what a run asks."""

from __future__ import annotations

from enum import Enum
from uuid import UUID

from msgspec import Struct

from tutor.coach.guidance import Guidance, Help
from tutor.coach.scene import Piece
from tutor.coach.why import TurnQuestion
from tutor.cube.faces import Face, Turn
from tutor.cube.position import Slot
from tutor.method.cases import Case
from tutor.method.terms import Family, Step, Verdict
from tutor.progress.attempt import Mode
from tutor.progress.sitting import Sitting
from tutor.session.holder import Holder
from tutor.session.state import Attempt
from tutor.session.turns_taken import HintUse, TurnTaken

MODES = (Mode.TODAY, Mode.SLIPPING, Mode.FAMILY, Mode.GLANCE, Mode.STEADY)
"""The modes in which the program chooses the cases."""
GOALS = (
    ("today", 0),
    ("attempts", 5),
    ("attempts", 10),
    ("attempts", 20),
    ("minutes", 5),
    ("minutes", 10),
    ("minutes", 20),
)
"""What a sitting can be to come to: the name of a ``GoalKind`` and its amount."""
PACES = tuple(range(10, 65, 5))
"""Beats a minute to choose from; the fastest is one a second, far below the three a second of WCAG 2.3.1."""
USUAL_PACE = 30
STEPS_NAMED = (Step.RAISE, Step.PART, Step.JOIN, Step.INSERT)
"""The steps that a glance asks for; Find is what the learner does to answer."""
GLANCE_SECONDS = 15
"""When the clock of a glance is full; nothing happens then."""


class PracticePage(Enum):
    """What the Practice screen shows while no run is on it."""

    START = "what can be practised"
    NOTHING = "nothing is to be practised now"
    FAREWELL = "the end of a sitting"


class Practice(Struct, frozen=True):
    """What is practised.

    ``mode`` is None while cases are picked by hand. ``before``: the sitting before the attempt counted last.
    ``beyond``: the goal was reached and the learner goes on. ``request`` numbers what was asked of the
    schedule last; ``asked``: whether its answer is waited for.
    """

    mode: Mode | None = None
    family: Family | None = None
    goal: tuple[str, int] = GOALS[0]
    pace: int = USUAL_PACE
    stand: PracticePage = PracticePage.START
    sitting: Sitting | None = None
    before: Sitting | None = None
    beyond: bool = False
    request: int = 0
    asked: bool = False
    dry: bool = False
    """Whether the schedule had nothing more in this mode when it was asked last."""
    came_from: str = ""
    """The room in which the case was picked by hand, and to which it leads back; empty for none."""


class Glance(Struct, frozen=True):
    """What the learner has named so far at a glance: a step, then a first turn as the cube is held.

    ``at``: when the turn was named, in seconds from the start; ``seconds``: whole ones that have gone by.
    ``step_right`` and ``verdict`` (on the turn) are known once it is over, ``verdict`` None without a turn.
    """

    step: Step | None = None
    turn: Turn | None = None
    at: float | None = None
    seconds: int = 0
    step_right: bool = False
    verdict: Verdict | None = None

    @property
    def named(self) -> bool:
        """Whether step and turn are right: the turn begins a way, the shortest or one nearly so."""
        return self.step_right and self.verdict in (Verdict.OPTIMAL, Verdict.ACCEPTABLE)


class Timing(Enum):
    """How a turn was in time."""

    EARLY = "early"
    ON_BEAT = "on the beat"
    LATE = "late"


Colours = frozenset[Face]
"""A piece by its colour numbers."""


class Metronome(Struct, frozen=True):
    """The metronome of a run: ``pace`` beats a minute, the first at ``since``.

    Times are in seconds from the start of the learner's part. ``count``: beats that have been; ``last``: the
    beat that the last turn was taken for; ``timings``: how each turn was in time; ``followed``: the two
    pieces to keep an eye on, by their colours.
    """

    pace: int
    since: float = 0.0
    count: int = 0
    last: int | None = None
    timings: tuple[Timing, ...] = ()
    followed: tuple[Colours, ...] = ()

    @property
    def period(self) -> float:
        """Seconds from beat to beat."""
        return 60.0 / self.pace


class RunPhase(Enum):
    """Where a run of a case stands."""

    WAITING = "the answer is being worked out"
    LOOKING = "the learner says what there is to see"
    SHOWING = "the first part is shown"
    TURNING = "the learner turns"
    OVER = "solved, given up, or watched"


class Seen(Struct, frozen=True):
    """What the learner has seen of a new case: the pieces found, and the steps named for the first one.

    ``pointed`` is the cubie taken for a piece last, where it was wrong; ``tried`` are all such cubies since a
    piece was found.
    """

    found: frozenset[Piece] = frozenset()
    pointed: int | None = None
    tried: frozenset[int] = frozenset()
    steps: tuple[Step, ...] = ()


class CaseRun(Struct, frozen=True):
    """One run of one case.

    ``shown`` turns were played first. Times are in seconds from ``started``, when the learner's part began;
    ``made`` holds every turn made, those taken back included.
    """

    case: Case
    slot: Slot
    alignment: int
    help: Help
    attempt: Attempt
    started: float
    phase: RunPhase = RunPhase.WAITING
    shown: int = 0
    hints: tuple[HintUse, ...] = ()
    made: tuple[TurnTaken, ...] = ()
    solved: float | None = None
    """When the pair was solved, perhaps before all turns are judged; None while it is not."""
    finished: bool = False
    seconds: float = 0.0
    question: TurnQuestion | None = None
    asked_at: int | None = None
    """How many moves had been made when the question was asked; None while none was."""
    chosen: tuple[int, ...] = ()
    """Answers to the question tried so far."""
    first_unaided: bool = False
    """Whether it is the learner's first solve of the case without help."""
    lit_until: float | None = None
    """Until when the two pieces are lit to celebrate; None when they are not."""
    revealed: bool = False
    """Alone: the learner asked for the verdicts after all."""
    mode: Mode = Mode.SINGLE
    mirror: bool = False
    """Whether the case is met as the mirror image of the one that the run counts for."""
    before: Guidance | None = None
    """The guidance before the run was over; None when the case had not been met."""
    filed: UUID | None = None
    """The number of the attempt in the store, once the run is over and handed to it."""
    left: float | None = None
    """When it went out of sight; None while it is on the screen."""
    uncounted: bool = False
    """Whether it does not count: the learner took it out of the store again, or did not see it to its end, or
    it is too long to be kept."""
    unseen: bool = False
    """Whether it was to be watched, and the learner went on before its end."""
    why: str = ""
    """Why the schedule proposed it; empty when it was picked by hand."""
    glance: Glance | None = None
    """At a glance: what was named so far."""
    replayed: bool = False
    """Whether turns were shown since it was over."""
    beat: Metronome | None = None
    """With one turn for each beat: the metronome."""
    look: Seen | None = None
    """Of a new case: what the learner has seen before turning."""

    @property
    def over(self) -> bool:
        """Whether it came to its end."""
        return self.phase is RunPhase.OVER

    @property
    def only_watched(self) -> bool:
        """Whether it was there to be watched, and is over."""
        return self.over and self.help is Help.WATCH and not self.made

    @property
    def counts_for(self) -> Case:
        """The case whose card the run counts for."""
        return self.case.mirror if self.mirror else self.case


RUN: Holder[CaseRun | None] = Holder("run", None)
"""The run of a case on the screen; None shows what can be practised."""
PRACTICE: Holder[Practice] = Holder("practice", Practice())
