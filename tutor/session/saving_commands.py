"""Commands and effects of saving what is on the screen; ``commands`` joins them to all others."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.coach.feedback import Shown
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.cube.position import Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.cases import Case
from tutor.method.terms import Step
from tutor.session.effect import Effect
from tutor.session.target import Aim
from tutor.ui.action import Action
from tutor.ui.view import Camera, Look, Stage, View


class SavedKind(Enum):
    """What the program saves; the value is its word."""

    PICTURE = "picture"
    CLIP = "clip"
    TABLE = "table"


class Saving(Struct, frozen=True):
    """What is being saved, and how far it is, 0 to 1. ``request`` counts all that was saved so far."""

    request: int = 0
    under_way: SavedKind | None = None
    share: float = 0.0


# ------------------------------------------------------------------------- answers from the world


class SavingTold(Action, Struct, frozen=True):
    """A request is so far done, 0 to 1."""

    request: int
    share: float


class Saved(Action, Struct, frozen=True):
    """A request is done: the file's name and folder, as a person reads them."""

    request: int
    name: str
    folder: str


class NotSaved(Action, Struct, frozen=True):
    """A request came to nothing, and left no file; why, or empty when it was stopped."""

    request: int
    reason: str


SavingReport = SavingTold | Saved | NotSaved

# --------------------------------------------------------------------------------------------- effects


class SavePicture(Effect, Struct, frozen=True):
    """Save the stage as a picture; ``name`` is the file's, without its end."""

    request: int
    name: str
    stage: Stage
    look: Look


class SaveClip(Effect, Struct, frozen=True):
    """Save turns as a moving picture; ``name`` is the file's, without its end.

    ``steps`` names the step of each turn, None where no pair is in question. ``case`` is the case shown,
    its slot and alignment, told in place of ``title``. ``twice``: a pass at full speed follows the slow one.
    ``said`` is what the room says of each turn, empty where the coach tells of them; ``colour_names`` are the
    words for the colours.
    """

    request: int
    name: str
    title: str
    case: tuple[Case, Slot, int] | None
    start: HeldCube
    aim: Aim | None
    turns: tuple[Move, ...]
    steps: tuple[Step | None, ...]
    look: Look
    camera: Camera
    speed: float = 1.0
    twice: bool = True
    said: tuple[Shown, ...] = ()
    colour_names: tuple[str, ...] = COLOUR_NAMES


class SaveSheet(Effect, Struct, frozen=True):
    """Save a page as a picture in its full height; ``name`` is the file's, without its end."""

    request: int
    name: str
    view: View


class SaveTable(Effect, Struct, frozen=True):
    """Save a table, as it is written in a CSV file; ``name`` is the file's, without its end."""

    request: int
    name: str
    text: str


class StopSaving(Effect, Struct, frozen=True):
    """A request is not wanted any more."""

    request: int


SavingWish = SavePicture | SaveClip | SaveSheet | SaveTable
SavingEffect = SavingWish | StopSaving
