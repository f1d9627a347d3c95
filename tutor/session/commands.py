"""The commands of a session, and the effects that it asks of the world: both plain data.

A command that one screen alone understands is a ``RoomCommand`` of its room.
"""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.coach.solve_review import SolveQuestion
from tutor.cube.faces import Face
from tutor.cube.notation import Move
from tutor.cube.position import Position, Slot
from tutor.method.advice import PositionQuestion
from tutor.method.answer import Answer
from tutor.session.effect import Effect as Effect
from tutor.session.record_commands import RecordsCommand
from tutor.session.saving_commands import SavingReport
from tutor.session.settings import Settings
from tutor.session.state import LessonPlace
from tutor.solver.task import Task
from tutor.ui.action import Action

Question = PositionQuestion | SolveQuestion
"""A question about a whole solve."""


class RoomCommand(Action):
    """A command that one room alone understands."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        raise NotImplementedError

    @property
    def goes_back(self) -> bool:
        """Whether it undoes something."""
        return False


# -------------------------------------------------------------------------------------------- commands


class Make(Action, Struct, frozen=True):
    """Make a move on the cube; ``shifted`` by its key with Shift."""

    move: Move
    shifted: bool = False


class Act(Action, Enum):
    """Commands without a value."""

    HALVE = "make the last turn a half turn"
    OTHER_WAY = "make the last turn go the other way"
    UNDO = "undo"
    REDO = "redo"
    SCRAMBLE = "scramble"
    NEXT = "continue"
    HINT = "hint"
    REVEAL = "show the verdicts after all"
    GO_ON_HERE = "go on from here"
    SHOW_SLIP = "show why the last turn is a Detour"
    SHOW_SPLIT = "show where the ways split"
    WORDS = "words and their meanings"
    MENU = "more buttons"
    TELL_MORE = "tell me more, or less"
    SHOW_AGAIN = "show the way"
    PLAY = "play or pause"
    BY_ITSELF = "play by itself"
    STEP_ON = "next turn"
    STEP_BACK = "one turn back"
    FASTER = "faster"
    SLOWER = "slower"
    CLOSE = "close"
    HELP = "help"
    HOME = "home"
    WRITE = "write moves"
    ENTER = "close what lies over the screen, or continue"
    LOOK_HOME = "look from the front"
    FACE_SLOT = "turn the cube so that the slot faces you, or back"
    NEXT_SLOT = "next slot"
    PREVIOUS_SLOT = "previous slot"
    MIRRORS = "mirrors on or off"
    THEME = "light or dark"
    LARGER_TEXT = "larger text"
    SMALLER_TEXT = "smaller text"
    LETTERS = "letters on the stickers"
    PALETTE = "next palette"
    MOTION = "less motion"
    TURN_BUTTONS = "turn buttons on or off"
    READ_ALOUD = "read aloud, or stop"
    MORE_TURNS = "buttons for all turns, or for those of the working faces"
    FULL_SCREEN = "full screen"
    QUIT = "quit"
    ASK_AGAIN = "try again to work it out"
    SAVE_PICTURE = "save a picture"
    SAVE_CLIP = "save a clip"
    STOP_SAVING = "stop saving"


class Open(Action, Struct, frozen=True):
    """Show a screen, by the name of its room."""

    screen: str


class ChooseSlot(Action, Struct, frozen=True):
    """Choose the pair of this slot, as held, to solve."""

    slot: Slot


class ChooseAnswer(Action, Struct, frozen=True):
    """Choose this answer of a question, counted from 0."""

    index: int


class Choose(Action, Struct, frozen=True):
    """Give a setting (by its name) the value at this place among its values, counted from 0."""

    setting: str
    index: int


class JumpTo(Action, Struct, frozen=True):
    """Go to the position after so many moves of the history."""

    index: int


class Scrub(Action, Struct, frozen=True):
    """Put the playhead of what is shown at this count of turns."""

    position: float


class Type(Action, Struct, frozen=True):
    """Characters for the field that is being written in."""

    text: str


class EditKey(Action, Enum):
    """Keys that edit the field."""

    ALL = "choose all"
    ERASE = "erase"
    ERASE_AHEAD = "erase ahead"
    LEFT = "left"
    RIGHT = "right"
    START = "start"
    END = "end"
    SUBMIT = "submit"


class LookRound(Action, Struct, frozen=True):
    """Look round the cube by these degrees."""

    yaw: float
    pitch: float


class Zoom(Action, Struct, frozen=True):
    """Nearer (positive) or farther, in notches."""

    notches: float


class PointAt(Action, Struct, frozen=True):
    """The learner pointed at the place of a sticker."""

    sticker: int


class DragLayer(Action, Struct, frozen=True):
    """A layer follows the hand, in radians clockwise seen from outside."""

    face: Face
    angle: float


class DropLayer(Action, Struct, frozen=True):
    """The hand let the layer go."""

    face: Face
    angle: float


# ------------------------------------------------------------------------- answers from the world


class Answered(Action, Struct, frozen=True):
    """The solver's answer to a request."""

    request: int
    answer: Answer


class Advised(Action, Struct, frozen=True):
    """The answer about a whole solve; None when its time ran out or it failed."""

    request: int
    answer: object


class Drawn(Action, Struct, frozen=True):
    """A random position, for a request."""

    request: int
    position: Position


class TellAtFoot(Action, Struct, frozen=True):
    """Something to say at the foot of the window; empty takes it away."""

    text: str


class Failed(Action, Struct, frozen=True):
    """Something went wrong inside; the window stays."""

    message: str


KernelCommand = (
    Make
    | Act
    | Open
    | ChooseSlot
    | ChooseAnswer
    | Choose
    | JumpTo
    | Scrub
    | Type
    | EditKey
    | LookRound
    | Zoom
    | PointAt
    | DragLayer
    | DropLayer
    | Answered
    | Advised
    | Drawn
    | TellAtFoot
    | Failed
    | RecordsCommand
    | SavingReport
)
Command = KernelCommand | RoomCommand


def as_command(action: Action) -> Command | None:
    """The action as a command; None when it is no command."""
    return action if isinstance(action, Command) else None


# --------------------------------------------------------------------------------------------- effects


class Solve(Effect, Struct, frozen=True):
    """Ask the solver; the answer comes back as Answered."""

    request: int
    position: Position
    task: Task


class Forget(Effect, Struct, frozen=True):
    """These requests need not be answered any more."""

    requests: tuple[int, ...]


class Advise(Effect, Struct, frozen=True):
    """Answer a question about a whole solve; the answer comes back as Advised."""

    request: int
    question: Question


class Unadvise(Effect, Struct, frozen=True):
    """These requests for advice need not be answered any more."""

    requests: tuple[int, ...]


class Copy(Effect, Struct, frozen=True):
    """Put a text on the clipboard."""

    text: str


class Draw(Effect, Struct, frozen=True):
    """Draw a random position, with the cross made or any at all; it comes back as Drawn."""

    request: int
    cross_made: bool = False


class SaveSettings(Effect, Struct, frozen=True):
    """Keep the settings."""

    settings: Settings


class Chime(Effect, Struct, frozen=True):
    """Sound two quiet notes: a pair is solved."""


class Click(Effect, Struct, frozen=True):
    """Sound a click for a turn, for those who want to hear it."""


class KeepPlaces(Effect, Struct, frozen=True):
    """Keep where the learners left their lessons, the latest last."""

    places: tuple[LessonPlace, ...]


class FillScreen(Effect, Struct, frozen=True):
    """Have the window fill the screen, or take it back to its size."""

    full: bool


class Quit(Effect, Struct, frozen=True):
    """Close the window."""
