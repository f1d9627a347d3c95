"""The answers to all questions about whole solves, for whoever runs them beside the session."""

from __future__ import annotations

from collections.abc import Callable

from tutor.coach.solve_review import SolveQuestion, read_solve
from tutor.method.advice import advise as advise_on_position
from tutor.session.commands import Question
from tutor.solver.search import Solver


def _go_on() -> None:
    """The interrupt that never is one."""


def advise(solver: Solver, question: Question, interrupt: Callable[[], None] = _go_on) -> object:
    """The answer to a question; what ``interrupt`` raises, called now and then, ends the work."""
    if isinstance(question, SolveQuestion):
        return read_solve(solver, question)
    return advise_on_position(solver, question, interrupt)
