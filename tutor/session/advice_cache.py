"""Questions about whole solves: their answers, and the requests on their way."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import cast

from msgspec import Struct, field
from msgspec.structs import replace

from tutor.coach.solve_review import SolveQuestion, SolveReading
from tutor.method.advice import (
    CrossQuestion,
    CrossReading,
    PairsQuestion,
    PairsReading,
    PlanQuestion,
    PlanReading,
    Proof,
    ProofQuestion,
)
from tutor.session.commands import Advise, Question, Unadvise
from tutor.session.effect import Effect

REMEMBERED = 300
"""Answers kept; the oldest are forgotten first."""


class Advices(Struct, frozen=True):
    """Answers by question, and the numbers of the requests on their way."""

    known: Mapping[Question, object] = field(default_factory=lambda: MappingProxyType({}))
    asked: Mapping[Question, int] = field(default_factory=lambda: MappingProxyType({}))
    last_request: int = 0

    def cross(self, question: CrossQuestion) -> CrossReading | None:
        """What is known about a cross."""
        return cast("CrossReading | None", self.known.get(question))

    def pairs(self, question: PairsQuestion) -> PairsReading | None:
        """What each unsolved pair costs."""
        return cast("PairsReading | None", self.known.get(question))

    def plan(self, question: PlanQuestion) -> PlanReading | None:
        """The plan found."""
        return cast("PlanReading | None", self.known.get(question))

    def proof(self, question: ProofQuestion) -> Proof | None:
        """The fewest turns, when they were found in time."""
        return cast("Proof | None", self.known.get(question))

    def review(self, question: SolveQuestion) -> SolveReading | None:
        """What a whole solve looks like afterwards."""
        return cast("SolveReading | None", self.known.get(question))

    def failed(self, question: Question) -> bool:
        """Whether there is no answer and none is on its way."""
        return question in self.known and self.known[question] is None

    def anew(self) -> Advices:
        """Without failed answers, so that a room that needs them asks again.

        A proof without an answer is one whose time ran out; it would again.
        """
        known = {
            question: answer
            for question, answer in self.known.items()
            if answer is not None or isinstance(question, ProofQuestion)
        }
        return replace(self, known=MappingProxyType(known))

    def wanting(self, questions: tuple[Question, ...]) -> tuple[Advices, tuple[Effect, ...]]:
        """Ask what is neither known nor asked, in this order; drop requests for anything else."""
        wanted = [question for question in questions if question not in self.known]
        asked = {question: number for question, number in self.asked.items() if question in wanted}
        dropped = tuple(number for question, number in self.asked.items() if question not in asked)
        effects: list[Effect] = [Unadvise(dropped)] if dropped else []
        request = self.last_request
        for question in wanted:
            if question not in asked:
                request += 1
                asked[question] = request
                effects.append(Advise(request, question))
        if not effects:
            return self, ()
        return replace(self, asked=MappingProxyType(asked), last_request=request), tuple(effects)

    def received(self, request: int, answer: object) -> Advices:
        """With an answer, unless nothing waits for it any more."""
        question = next((asked for asked, number in self.asked.items() if number == request), None)
        if question is None:
            return self
        known = {**self.known, question: answer}
        while len(known) > REMEMBERED:
            del known[next(iter(known))]
        asked = {other: number for other, number in self.asked.items() if other != question}
        return replace(self, known=MappingProxyType(known), asked=MappingProxyType(asked))
