"""What a person chose once: how things look, sound and move."""

from __future__ import annotations

from enum import Enum, StrEnum

from msgspec import Struct, field

from tutor.cube.faces import Face
from tutor.cube.stickers import COLOUR_NAMES
from tutor.progress.attempt import GUEST
from tutor.ui.view import Look


class TurnButtons(Enum):
    """Where the screen has buttons for turns, for those who cannot type."""

    FIRST_LESSON = "first lesson"
    ALWAYS = "always"
    NEVER = "never"


class StepByStep(StrEnum):
    """Where turns that are shown wait for the person at every beat."""

    IN_LESSONS = "in lessons"
    ALWAYS = "always"
    NEVER = "never"


class Settings(Struct, frozen=True):
    """Chosen values; everything has a default that works."""

    look: Look = field(default_factory=Look)
    cross: Face = Face.D
    """The cross colour, by its colour number."""
    speed: float = 1.0
    """Of turns that a person makes, 0.1 to 3; what is shown has a speed of its own, beside the rail."""
    step_by_step: StepByStep = StepByStep.IN_LESSONS
    reduced_motion: bool = False
    """Fade instead of turning."""
    sound: bool = False
    """Whether a turn made is heard."""
    read_aloud: bool = False
    """Whether the system's speech reads out what the card says."""
    rest_minutes: int = 25
    """Minutes of turning after which a rest is suggested; 0 for never."""
    keys: tuple[tuple[str, str], ...] = ()
    """A person's own keys, as ``keymap.remapped`` reads them."""
    single_keys: bool = True
    """Whether keys that type a character do something without Ctrl or Alt."""
    turn_buttons: TurnButtons = TurnButtons.FIRST_LESSON
    learner: str = GUEST
    """Who sat here last."""
    colour_names: tuple[str, ...] = COLOUR_NAMES
    """Words for the colours numbered 0..5."""
