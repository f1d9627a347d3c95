"""The session's whole state as one immutable value."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import TYPE_CHECKING
from uuid import UUID

from tutor.cube.held_cube import HeldCube, reduced
from tutor.cube.notation import Rotation
from tutor.progress.attempt import Mode
from tutor.session.answers import Answers
from tutor.session.commands import AS_WRITTEN, Carried, LoadLesson
from tutor.session.history import History
from tutor.session.practice.state import Beat, Flash, Practice
from tutor.session.records.state import Records
from tutor.session.saving_commands import Saving
from tutor.session.solve.advices import Advices
from tutor.session.solve.saved import Shelf
from tutor.session.timeline import Timeline
from tutor.ui.view import Camera, Screen, Turning

if TYPE_CHECKING:
    from tutor.coach.guidance import Guidance, Help
    from tutor.coach.why import Question
    from tutor.cube.faces import Face, Turn
    from tutor.cube.position import Slot
    from tutor.lesson.scenes import Lesson
    from tutor.method.answer import Answer
    from tutor.method.cases import Case
    from tutor.session.aim import Aim, Bearing
    from tutor.session.demonstration import Demonstration
    from tutor.session.painting.state import Painting
    from tutor.session.records.taken import HintUse, TurnTaken
    from tutor.session.settings import Settings
    from tutor.session.solve.looking_ahead_state import LookingAhead


@dataclass(frozen=True, slots=True)
class Attempt:
    """A cube in hand, and, when something is aimed at, what and since which move."""

    history: History
    aim: Aim | None = None
    since: int = 0
    rung: int = 0
    """The hint now given for the position at the cursor: 0 none, 1 to 3 deeper and deeper."""

    @property
    def cube(self) -> HeldCube:
        """The cube now."""
        return self.history.cube

    @property
    def turns_made(self) -> int:
        """Turns since the aim was taken; rotations count none."""
        made = self.history.entries[self.since : self.history.cursor]
        return sum(not isinstance(entry.move, Rotation) for entry in made)

    def done_at(self, index: int) -> bool:
        """Whether the pair aimed at was home, and all that is kept whole, after so many moves."""
        bearing = self.bearing(index)
        return bearing is not None and bearing.task.done(bearing.position)

    def bearing(self, index: int | None = None) -> Bearing | None:
        """The aim as it looks now, or after so many moves; None without one."""
        if self.aim is None:
            return None
        return self.aim.bearing(self.history.cube if index is None else self.history.cube_at(index))


@dataclass(frozen=True, slots=True)
class Writing:
    """The field for typed moves."""

    open: bool = False
    text: str = ""
    caret: int = 0
    error: str = ""
    error_column: int | None = None


@dataclass(frozen=True, slots=True)
class LessonPlay:
    """A lesson being played: the scene, the learner's attempt in it, and what is settled about it."""

    lesson: Lesson
    scene: int
    attempt: Attempt
    carried: Carried = AS_WRITTEN
    solved: bool = False
    """Whether the scene's question has been answered."""
    chosen: tuple[int, ...] = ()
    """Answers of a choice tried so far."""
    pointed: tuple[int, ...] = ()
    """Sticker places pointed at in a Find question."""
    revealed: bool = False
    """Alone: the learner asked to see the verdicts before the end."""
    began: float = 0.0
    """When the scene was entered, later by the time it was out of sight."""
    left: float | None = None
    """When it was answered, or went out of sight before; None while its time runs."""
    made: tuple[TurnTaken, ...] = ()
    """Every turn made in the scene, those taken back included."""
    hints: tuple[HintUse, ...] = ()
    filed: bool = False
    """Whether the scene, once answered, was handed to the store if it is one that is kept."""
    problems: tuple[str, ...] = ()
    """What is wrong with the script since its file was changed; the lesson goes on as it was."""


class Phase(Enum):
    """Where a run of a case stands."""

    WAITING = "the answer is being worked out"
    SHOWING = "the first part is shown"
    TURNING = "the learner turns"
    OVER = "home, given up, or watched"


@dataclass(frozen=True, slots=True)
class CaseRun:
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
    phase: Phase = Phase.WAITING
    shown: int = 0
    hints: tuple[HintUse, ...] = ()
    made: tuple[TurnTaken, ...] = ()
    home: float | None = None
    """When the pair came home, perhaps before all turns are judged; None while it is not."""
    finished: bool = False
    seconds: float = 0.0
    question: Question | None = None
    chosen: tuple[int, ...] = ()
    """Answers to the question tried so far."""
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
    """Whether it does not count: the learner took it out of the store again, or did not see it to its end."""
    unseen: bool = False
    """Whether it was to be watched, and the learner went on before its end."""
    why: str = ""
    """Why the schedule proposed it; empty when it was picked by hand."""
    flash: Flash | None = None
    """In a flash: what was named so far."""
    beat: Beat | None = None
    """With one turn for each beat: the metronome."""

    @property
    def over(self) -> bool:
        """Whether it came to its end."""
        return self.phase is Phase.OVER

    @property
    def counts_for(self) -> Case:
        """The case whose card the run counts for."""
        return self.case.mirror if self.mirror else self.case


@dataclass(frozen=True, slots=True)
class BookPage:
    """A case of the case book, looked at in a slot with the top turned to an alignment."""

    case: Case
    slot: Slot
    alignment: int
    attempt: Attempt


@dataclass(frozen=True, slots=True)
class SolvePlay:
    """A whole cube being solved, as far as its first two layers go."""

    attempt: Attempt
    cross: Face
    """The cross colour, by its colour number."""
    scramble: str = ""
    """The turns that made the start, as typed; empty when it came another way."""
    began: float = 0.0
    times: tuple[float, ...] = ()
    """When each move of the history was made, earlier by the time the solve was out of sight before."""
    away: float = 0.0
    """Seconds for which it has been out of sight."""
    left: float | None = None
    """When it went out of sight; None while it is on the screen."""
    lines_shown: bool = False
    """Whether the shortest lines of the cross were asked for, at the position now on the cube."""
    ended: int | None = None
    """After how many moves two layers were home; None before."""
    name: str = ""
    """The name under which it is saved; empty when it is not."""

    @property
    def over(self) -> bool:
        """Whether it has ended and the cube stands at its end: then there is nothing left to turn."""
        return self.ended is not None and self.attempt.history.cursor >= self.ended


@dataclass(frozen=True, slots=True)
class LessonTitle:
    """A lesson in the list of lessons."""

    name: str
    title: str
    goal: str


class Sheet(Enum):
    """What may lie over a screen."""

    NONE = "nothing"
    KEYS = "keys"
    WORDS = "words"


@dataclass(frozen=True, slots=True, eq=False)
class Session:
    """Everything the program knows while it runs. Compared by identity: every change makes a new one."""

    settings: Settings
    lessons: tuple[LessonTitle, ...]
    free: Attempt
    screen: Screen = Screen.HOME
    lesson: LessonPlay | None = None
    run: CaseRun | None = None
    practice: Practice = field(default_factory=Practice)
    page: BookPage | None = None
    """The case book's open page; None shows all cases."""
    solve: SolvePlay | None = None
    """The whole solve in hand; None shows how one can begin."""
    shelf: Shelf = field(default_factory=Shelf)
    """The whole solves that are saved."""
    looking: LookingAhead | None = None
    """The exercise of looking ahead, on its own screen."""
    painting: Painting | None = None
    """One's own cube as far as it is painted; None before anything is."""
    advices: Advices = field(default_factory=Advices)
    records: Records = field(default_factory=Records)
    guidance: tuple[tuple[str, Guidance], ...] = ()
    """Where the learner stands with each case met, by the case's slug."""
    places: tuple[tuple[str, int], ...] = ()
    """Where each lesson was left, by each learner; see ``places.places_of``."""
    timeline: Timeline = field(default_factory=Timeline)
    demonstration: Demonstration | None = None
    answers: Answers = field(default_factory=Answers)
    camera: Camera = field(default_factory=Camera)
    dragged: Turning | None = None
    """The layer that follows the hand."""
    faded_from: tuple[HeldCube, float] | None = None
    """With reduced motion: the cube faded from, and when the fade began."""
    writing: Writing = field(default_factory=Writing)
    sheet: Sheet = Sheet.NONE
    focus: str = ""
    notice: str = ""
    saving: Saving = field(default_factory=Saving)
    failure: str = ""
    """What went wrong inside, told on a card; empty when nothing did."""
    lesson_awaited: LoadLesson | None = None
    """The lesson asked for and not read yet; forgotten when one goes elsewhere."""
    draw_request: int = 0
    """Number of the random position asked for last; 0 before the first."""

    @property
    def attempt(self) -> Attempt | None:
        """The attempt on the screen shown, if it has one."""
        if self.screen is Screen.FREE_PLAY:
            return self.free
        if self.screen is Screen.LESSON and self.lesson is not None:
            return self.lesson.attempt
        if self.screen is Screen.PRACTICE and self.run is not None:
            return self.run.attempt
        if self.screen is Screen.CASE_BOOK and self.page is not None:
            return self.page.attempt
        if self.screen is Screen.SOLVE and self.solve is not None:
            return self.solve.attempt
        if self.screen is Screen.LOOKING_AHEAD and self.looking is not None:
            return Attempt(History(self.looking.shown))
        return None


def answer_at(session: Session, attempt: Attempt, index: int | None = None) -> Answer | None:
    """The solver's answer for the attempt's position now, or after so many moves, if it is known."""
    return session.answers.at(attempt.bearing(index))


JUDGED_BACK = 200
"""Turns further back than this are not judged any more; a case takes far fewer."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A turn of an attempt with the answer of the position it was made in."""

    index: int
    """Moves before it."""
    bearing: Bearing
    turn: Turn
    """Named in the bearing's frame."""
    answer: Answer | None


def judged_turns(session: Session, attempt: Attempt) -> tuple[Judged, ...]:
    """The turns since the aim was taken, in order, each with what the solver said before it."""
    judged = []
    start = attempt.bearing(attempt.since)
    if start is not None and start.task.done(start.position):
        # Turns that lead away from a pair at home set a case up; there is nothing to judge.
        return ()
    first = max(attempt.since, attempt.history.cursor - JUDGED_BACK)
    for index in range(first, attempt.history.cursor):
        move = attempt.history.entries[index].move
        bearing = attempt.bearing(index)
        if isinstance(move, Rotation) or bearing is None:
            continue
        turn = bearing.turn_as_judged(reduced(move))
        judged.append(Judged(index, bearing, turn, session.answers.get(bearing.position, bearing.task)))
    return tuple(judged)
