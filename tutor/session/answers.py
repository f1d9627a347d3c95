"""What the solver has said so far, and what is still to be asked."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from msgspec import Struct, field
from msgspec.structs import replace

from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.session.commands import Effect, Forget, Solve
from tutor.session.target import Bearing
from tutor.solver.task import Task

Key = tuple[Position, Task]
REMEMBERED = 2000
"""Answers kept; the oldest are forgotten first."""


class Answers(Struct, frozen=True):
    """Answers known by position and task, and the requests on their way."""

    known: MappingProxyType[Key, Answer] = field(default_factory=lambda: MappingProxyType({}))
    asked: Mapping[Key, int] = field(default_factory=lambda: MappingProxyType({}))
    last_request: int = 0

    def get(self, position: Position, task: Task) -> Answer | None:
        """The answer, or None while it is not known."""
        return self.known.get((position, task))

    def at(self, bearing: Bearing | None) -> Answer | None:
        """The answer for a bearing; None while it is not known, or without a bearing."""
        return None if bearing is None else self.get(bearing.position, bearing.task)

    def before(self, position: Position, task: Task) -> Answer | None:
        """The answer a turn is judged by; None while it is not known or where nothing was left to judge."""
        answer = self.get(position, task)
        return answer if answer is not None and answer.distance else None

    def wanting(self, keys: tuple[Key, ...]) -> tuple[Answers, tuple[Effect, ...]]:
        """Ask for the keys that are neither known nor asked, in their order; drop requests for others."""
        wanted = dict.fromkeys(key for key in keys if key not in self.known)
        asked = {key: number for key, number in self.asked.items() if key in wanted}
        dropped = tuple(number for key, number in self.asked.items() if key not in asked)
        effects: list[Effect] = [Forget(dropped)] if dropped else []
        request = self.last_request
        for key in wanted:
            if key not in asked:
                request += 1
                asked[key] = request
                effects.append(Solve(request, *key))
        if not effects:
            return self, ()
        return replace(self, asked=MappingProxyType(asked), last_request=request), tuple(effects)

    def received(self, request: int, answer: Answer) -> Answers:
        """With an answer, unless nothing waits for it any more."""
        key = (answer.position, answer.task)
        if self.asked.get(key) != request:
            return self
        known = self.known | {key: answer}  # hashes no key anew, as dict(self.known) would
        while len(known) > REMEMBERED:
            del known[next(iter(known))]
        asked = {other: number for other, number in self.asked.items() if other != key}
        return replace(self, known=MappingProxyType(known), asked=MappingProxyType(asked))
