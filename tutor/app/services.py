"""Interfaces to the services that the application uses."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from random import Random
from typing import Protocol, TypeVar

from msgspec import Struct

from tutor.cube.position import Position
from tutor.lesson.scenes import Lesson
from tutor.progress.presence import Presence
from tutor.screens.lesson.commands import Carried
from tutor.screens.solve.commands import ShelfEffect, SolveKept, SolvesFound
from tutor.session.commands import Command, Question
from tutor.session.record_commands import RecordsCommand, RecordsEffect
from tutor.session.saving_commands import SavingWish
from tutor.session.settings import Settings
from tutor.session.state import LessonPlace
from tutor.solver.task import Task

Q_contra = TypeVar("Q_contra", contravariant=True)


class Service(Protocol[Q_contra]):
    """Answers questions later: a process beside the window, or the solver itself in tests."""

    def ask(self, request: int, question: Q_contra) -> None:
        """Ask a question; ``poll`` gives its answer later."""

    def forget(self, requests: Sequence[int]) -> None:
        """Drop these requests."""

    def poll(self) -> Iterable[Command]:
        """Commands for the session that have come since the last call; never waits."""

    def close(self) -> None:
        """End what runs."""


class Speech(Protocol):
    """Reads texts aloud."""

    def say(self, text: str) -> None:
        """Stop what is being said, and say this; with an empty text, only stop. Never waits."""

    def forget_faults(self) -> None:
        """Tell anew why nothing is heard, if that is so."""

    def poll(self) -> Iterable[Command]:
        """Commands that say why nothing is heard, each reason once."""

    def close(self) -> None:
        """Stop, for good."""


class BackgroundThread(Protocol):
    """A thread beside the window that does its work in order."""

    @property
    def busy(self) -> bool:
        """Whether some work is not finished, or ``poll`` has not given its result."""

    def begin(self, work: Callable[[], Sequence[Command]], replacing: str = "") -> None:
        """Put this work last; it replaces work that still waits under the same ``replacing``."""

    def poll(self) -> Iterable[Sequence[Command]]:
        """The results of finished work, each once; never waits."""

    def close(self) -> None:
        """Wait until all work is done."""

    def abandon(self) -> None:
        """Drop the work that waits, and do not wait for the rest."""


class Keeper(Protocol):
    """Saves attempts and knows each learner's progress: the recorder over the store."""

    def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
        """Carry an effect out and give its result. May take long."""

    def close(self) -> tuple[str, ...]:
        """Write what waits, and close the file; what there is to say, above all where attempts are now."""


class Exchanger(Protocol):
    """Exchanges attempts with other windows over a shared folder."""

    def carry_out(self, presence: Presence) -> Sequence[Command]:
        """Tell what the learner is at, and exchange; commands for the session. May take long."""

    def close(self) -> None:
        """Write what the folder lacks, and leave it."""


class Services(Struct, frozen=True, kw_only=True):
    """The services of an application; a test can replace each."""

    clock: Callable[[], float]
    """Seconds, from any moment on."""
    wall: Callable[[], float]
    """The time of day, in seconds since 1970."""
    random: Random
    answers: Service[tuple[Position, Task]]
    advice: Service[Question]
    saving: Service[SavingWish]
    keeper: Keeper | None
    """None: the program saves no attempts and asks for no progress."""
    sharing: Exchanger | None
    """The shared folder; None: none is shared."""
    shelf: Callable[[ShelfEffect], SolveKept | SolvesFound] | None
    """Saves, reads and deletes whole solves; None: there are none. May take long."""
    read_lesson: Callable[[str, Carried, Settings], Lesson]
    """A lesson by its name. Raises LessonError."""
    changed_at: Callable[[str], float | None]
    """When a lesson's file last changed; None for lessons without a file of their own."""
    save_settings: Callable[[Settings], None]
    save_places: Callable[[tuple[LessonPlace, ...]], None]
    save_painting: Callable[[str, str], None]
    """These three write small files, and raise OSError when they cannot."""
    load_painting: Callable[[str], str]
    """What a learner has painted, as text; empty for nothing. ``save_painting`` takes the learner first."""
    click: Callable[[], None]
    """The sound of a turn; does not wait."""
    chime: Callable[[], None]
    """The sound of a solved pair; does not wait."""
    speech: Speech
    thread: Callable[[str], BackgroundThread]
    """A thread of this name."""
