"""Everything that the application asks of the world, each as it is seen from there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from random import Random
from typing import Protocol, TypeVar

from tutor.cube.position import Position
from tutor.lesson.scenes import Lesson
from tutor.screens.lesson.commands import Carried
from tutor.screens.solve.commands import ShelfEffect, SolveKept, SolvesFound
from tutor.session.commands import Command, Question
from tutor.session.record_commands import RecordsCommand, RecordsEffect
from tutor.session.saving_commands import SavingWish
from tutor.session.settings import Settings
from tutor.solver.task import Task

Q_contra = TypeVar("Q_contra", contravariant=True)


class Service(Protocol[Q_contra]):
    """Whoever is asked and answers later: a process beside the window, or the solver itself in tests."""

    def ask(self, request: int, question: Q_contra) -> None:
        """Ask; what comes of it comes out of ``poll`` later."""

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""

    def poll(self) -> Iterable[Command]:
        """What there is to tell the session since; never waits."""

    def close(self) -> None:
        """End whatever runs."""


class BackgroundThread(Protocol):
    """Does one thing after the other beside the window."""

    @property
    def busy(self) -> bool:
        """Whether something begun has not been handed over by ``poll``."""

    def begin(self, work: Callable[[], Sequence[Command]], replacing: str = "") -> None:
        """Do this after all that was begun before, instead of what waits under the same ``replacing``."""

    def poll(self) -> Iterable[Sequence[Command]]:
        """What has come of what is done, each once; never waits."""

    def close(self) -> None:
        """Wait until all that was begun is done."""

    def abandon(self) -> None:
        """Do nothing more of what waits, and do not wait for what is being done."""


class Keeper(Protocol):
    """Whoever keeps attempts and knows how the learners stand: the recorder over the store."""

    def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
        """Do what is asked; what came of it. May take long."""

    def close(self) -> None:
        """Write what waits, and let go of the file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Services:
    """What an application works with; all of it can be put in place of by a test."""

    clock: Callable[[], float]
    """Seconds, from any moment on."""
    wall: Callable[[], float]
    """The clock on the wall, in seconds since 1970."""
    random: Random
    answers: Service[tuple[Position, Task]]
    advice: Service[Question]
    saving: Service[SavingWish]
    keeper: Keeper | None
    """None: nothing is kept, and nobody asks how a learner stands."""
    shelf: Callable[[ShelfEffect], SolveKept | SolvesFound] | None
    """Saves, reads and deletes whole solves; None: none is kept. May take long."""
    read_lesson: Callable[[str, Carried, Settings], Lesson]
    """A lesson by its name. Raises LessonError."""
    changed_at: Callable[[str], float | None]
    """When a lesson's file was last changed, None for lessons that have none to change."""
    save_settings: Callable[[Settings], None]
    save_places: Callable[[tuple[tuple[str, int], ...]], None]
    save_painting: Callable[[str], None]
    """These three write small files, and raise OSError when they cannot."""
    click: Callable[[], None]
    """The sound of a turn; does not wait."""
    thread: Callable[[str], BackgroundThread]
    """A thread of this name."""
