"""What can be asked of a session, and what a session asks of the world: both plain data."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from tutor.cube.position import Position, Slot
from tutor.session.painting.commands import KeepPainting, PaintCommand
from tutor.session.practice.commands import PracticeCommand
from tutor.session.records.commands import RecordsCommand, RecordsEffect
from tutor.session.saving_commands import SavingEffect, SavingReport
from tutor.session.solve.commands import SolveCommand, SolveEffect

if TYPE_CHECKING:
    from tutor.coach.guidance import Help
    from tutor.cube.faces import Face
    from tutor.cube.notation import Move
    from tutor.lesson.scenes import Lesson
    from tutor.method.answer import Answer
    from tutor.session.settings import Settings
    from tutor.solver.task import Task
    from tutor.ui.view import Screen


@dataclass(frozen=True, slots=True)
class Carried:
    """How a lesson is carried over: by clockwise quarters round the upright axis, and mirrored first."""

    quarters: int = 0
    mirrored: bool = False


AS_WRITTEN = Carried()

# -------------------------------------------------------------------------------------------- commands


@dataclass(frozen=True, slots=True)
class Make:
    """Make a move on the cube."""

    move: Move


class Act(Enum):
    """Commands that need nothing more said."""

    HALVE = "make the last turn a half turn"
    UNDO = "take back"
    REDO = "make again"
    RESET = "start from a solved cube"
    SCRAMBLE = "scramble"
    NEXT = "go on"
    SKIP = "go on without answering"
    BACK = "go back"
    HINT = "hint"
    REVEAL = "show the verdicts after all"
    SHOW_SLIP = "show the slip"
    SHOW_PARTING = "show from the parting"
    WORDS = "words and their meanings"
    SHOW_LINE = "show a shortest line"
    TRY = "try the case"
    SAME_CASE = "the same case once more"
    GIVE_UP = "give up"
    UNCOUNT = "do not count this"
    ALL_CASES = "all cases"
    SHOW_AGAIN = "show again"
    PLAY = "play or pause"
    STEP_ON = "one turn on"
    STEP_BACK = "one turn back"
    FASTER = "faster"
    SLOWER = "slower"
    CLOSE = "close"
    HELP = "help"
    HOME = "home"
    WRITE = "write moves"
    FOCUS_NEXT = "next button"
    FOCUS_PREVIOUS = "previous button"
    PRESS_FOCUSED = "press the chosen button"
    LOOK_HOME = "look from the front"
    NEXT_SLOT = "next slot"
    PREVIOUS_SLOT = "previous slot"
    MIRRORS = "mirrors on or off"
    THEME = "light or dark"
    LARGER_TEXT = "larger text"
    SMALLER_TEXT = "smaller text"
    LETTERS = "letters on the stickers"
    PALETTE = "next palette"
    MOTION = "less motion"
    QUIT = "quit"
    SAVE_PICTURE = "save a picture"
    SAVE_CLIP = "save a clip"
    SAVE_TABLE = "save a table"
    STOP_SAVING = "stop saving"
    NEW_SOLVE = "another whole solve"
    COPY_POSITION = "copy the position"
    COPY_SCRAMBLE = "copy the scramble"
    CROSS_LINES = "shortest lines of the cross"
    LEAVE_PAIR = "choose another pair"
    TO_FREE_PLAY = "free play from here"


@dataclass(frozen=True, slots=True)
class Open:
    """Show a screen."""

    screen: Screen


@dataclass(frozen=True, slots=True)
class StartLesson:
    """Open a lesson at a scene, as written or in another slot or mirrored."""

    name: str
    scene: int = 0
    carried: Carried = AS_WRITTEN


@dataclass(frozen=True, slots=True)
class ChooseSlot:
    """Take on the pair of this slot as held."""

    slot: Slot


@dataclass(frozen=True, slots=True)
class OpenCase:
    """Open the case book at a case (by its slug) in a slot."""

    slug: str
    slot: Slot = Slot.FR
    alignment: int = 0


@dataclass(frozen=True, slots=True)
class TryCase:
    """Begin a run of a case (by its slug) in a slot; ``help`` None leaves it to the guidance."""

    slug: str
    slot: Slot = Slot.FR
    alignment: int = 0
    help: Help | None = None


@dataclass(frozen=True, slots=True)
class ChooseAnswer:
    """Choose this answer of a question, counted from 0."""

    index: int


@dataclass(frozen=True, slots=True)
class Choose:
    """Give a setting (by its name) the value at this place among its values, counted from 0."""

    setting: str
    index: int


@dataclass(frozen=True, slots=True)
class JumpTo:
    """Go to the position after so many moves of the history."""

    index: int


@dataclass(frozen=True, slots=True)
class Scrub:
    """Put the playhead of what is shown at this count of turns."""

    position: float


@dataclass(frozen=True, slots=True)
class Type:
    """Characters for the field that is being written in."""

    text: str


class EditKey(Enum):
    """Keys that edit the field."""

    ERASE = "erase"
    ERASE_AHEAD = "erase ahead"
    LEFT = "left"
    RIGHT = "right"
    START = "start"
    END = "end"
    SUBMIT = "submit"


@dataclass(frozen=True, slots=True)
class Look:
    """Look round the cube by these degrees."""

    yaw: float
    pitch: float


@dataclass(frozen=True, slots=True)
class Zoom:
    """Nearer (positive) or farther, in notches."""

    notches: float


@dataclass(frozen=True, slots=True)
class PointAt:
    """A sticker place was pointed at."""

    sticker: int


@dataclass(frozen=True, slots=True)
class DragLayer:
    """A layer follows the hand, in radians clockwise seen from outside."""

    face: Face
    angle: float


@dataclass(frozen=True, slots=True)
class DropLayer:
    """The hand let the layer go."""

    face: Face
    angle: float


@dataclass(frozen=True, slots=True)
class Press:
    """A button or tile with this action was pressed."""

    action: str


# ------------------------------------------------------------------------- answers from the world


@dataclass(frozen=True, slots=True)
class Answered:
    """The solver's answer to a request."""

    request: int
    answer: Answer


@dataclass(frozen=True, slots=True)
class Drawn:
    """A random position, for a request."""

    request: int
    position: Position


@dataclass(frozen=True, slots=True)
class LessonLoaded:
    """A lesson was read, as asked for with LoadLesson."""

    lesson: Lesson
    scene: int = 0
    carried: Carried = AS_WRITTEN
    again: bool = False


@dataclass(frozen=True, slots=True)
class LessonFailed:
    """A lesson could not be read; one line for each thing wrong."""

    name: str
    problems: tuple[str, ...]
    again: bool = False


@dataclass(frozen=True, slots=True)
class Notice:
    """Something to say at the foot of the window; empty takes it away."""

    text: str


@dataclass(frozen=True, slots=True)
class Failed:
    """Something went wrong inside; the window stays."""

    message: str


Command = (
    Make
    | Act
    | Open
    | StartLesson
    | ChooseSlot
    | OpenCase
    | TryCase
    | ChooseAnswer
    | Choose
    | JumpTo
    | Scrub
    | Type
    | EditKey
    | Look
    | Zoom
    | PointAt
    | DragLayer
    | DropLayer
    | Press
    | SolveCommand
    | Answered
    | Drawn
    | LessonLoaded
    | LessonFailed
    | Notice
    | Failed
    | RecordsCommand
    | PaintCommand
    | PracticeCommand
    | SavingReport
)

# --------------------------------------------------------------------------------------------- effects


@dataclass(frozen=True, slots=True)
class Solve:
    """Ask the solver; the answer comes back as Answered."""

    request: int
    position: Position
    task: Task


@dataclass(frozen=True, slots=True)
class Forget:
    """These requests need not be answered any more."""

    requests: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Draw:
    """Draw a random position, with the cross made or any at all; it comes back as Drawn."""

    request: int
    cross_made: bool = False


@dataclass(frozen=True, slots=True)
class LoadLesson:
    """Read a lesson; it comes back as LessonLoaded or LessonFailed.

    ``again``: the lesson is open and its script was changed; nobody asked to go anywhere.
    """

    name: str
    scene: int = 0
    carried: Carried = AS_WRITTEN
    again: bool = False


@dataclass(frozen=True, slots=True)
class SaveSettings:
    """Keep the settings."""

    settings: Settings


@dataclass(frozen=True, slots=True)
class Click:
    """A turn was made: the sound of it, for those who want one."""


@dataclass(frozen=True, slots=True)
class KeepPlaces:
    """Keep where each lesson was left: names and scenes, the latest last."""

    places: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Quit:
    """Close the window."""


_OfWorld = Draw | LoadLesson | SaveSettings | KeepPlaces | Quit | Click
Effect = Solve | Forget | _OfWorld | SolveEffect | RecordsEffect | SavingEffect | KeepPainting
