"""Whom the application works with: who answers, advises, keeps and saves, each as it is seen from there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from tutor.cube.position import Position
    from tutor.method.answer import Answer
    from tutor.screens.solve.commands import ShelfEffect, SolveKept, SolvesFound
    from tutor.session.commands import Question
    from tutor.session.records.commands import (
        RecordsCommand,
        RecordsEffect,
    )
    from tutor.session.saving_commands import (
        SavingReport,
        SavingWish,
    )
    from tutor.solver.task import Task


class Oracle(Protocol):
    """Whoever works out answers: a worker process in the window, the solver itself in tests."""

    def request(self, request: int, position: Position, task: Task) -> None:
        """Ask; the answer comes out of ``poll`` later."""

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""

    def poll(self) -> tuple[tuple[int, Answer], ...]:
        """The answers that have come since; never waits."""

    def notice(self) -> str:
        """What there is to say about the tables, in one line; empty when nothing."""

    def close(self) -> None:
        """End whatever runs."""


class Advisor(Protocol):
    """Whoever works out advice about whole solves: a process of its own in the window."""

    def request(self, request: int, question: Question) -> None:
        """Ask; the answer comes out of ``poll`` later."""

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""

    def poll(self) -> tuple[tuple[int, object], ...]:
        """The answers that have come since; never waits."""

    def close(self) -> None:
        """End whatever runs."""


class Saver(Protocol):
    """Whoever saves pictures and clips: a process for each in the window."""

    def begin(self, wish: SavingWish) -> None:
        """Begin to save; what comes of it comes out of ``poll`` later."""

    def stop(self, request: int) -> None:
        """This need not be saved any more."""

    def poll(self) -> tuple[SavingReport, ...]:
        """What there is to report since; never waits."""

    def close(self) -> None:
        """End what is under way, and leave no half file."""


class Keeper(Protocol):
    """Whoever keeps attempts and knows how the learners stand: the recorder over the store."""

    def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
        """Do what is asked; what came of it. May take long."""

    def close(self) -> None:
        """Write what waits, and let go of the file."""


class SolvesShelf(Protocol):
    """Whoever saves, reads and deletes whole solves: files, in a thread of its own."""

    def carry_out(self, effect: ShelfEffect) -> None:
        """Begin; what comes of it comes out of ``poll`` later."""

    def poll(self) -> tuple[SolveKept | SolvesFound, ...]:
        """What has come of what was asked; never waits."""

    def close(self) -> None:
        """Finish what was begun."""
