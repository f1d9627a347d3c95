"""Typing five turns a second on lesson cases: how often a verdict was not there at once.

Run it with ``python -m tests.bench.bench_typing``. It plays cases with the real worker process and the real
clock, as the window does: a turn every fifth of a second, the worker's answers taken in sixty times a second.
"""

from __future__ import annotations

import time
from random import Random

from tests.workers.direct import direct_services
from tutor.app.application import Application
from tutor.coach.guidance import Help
from tutor.cube.faces import TURNS
from tutor.cube.position import SLOTS
from tutor.method.cases import CASES
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.state import RUN
from tutor.screens.table import SCREENS
from tutor.session.beginning import new_session
from tutor.session.commands import Make
from tutor.session.judging import judged_turns
from tutor.session.settings import Settings
from tutor.solver.search import Solver
from tutor.workers.answers import AnswerService

TURNS_A_SECOND = 5.0
POLLS_A_SECOND = 60.0


def main(rounds: int = 12, turns: int = 12) -> None:
    """Half of the turns follow a shortest line, the others are random, as of one who errs a lot."""
    random = Random(4)
    services = direct_services(Solver.open(), answers=AnswerService())
    application = Application(new_session(SCREENS, Settings(), ()), services)
    made = waited = 0
    try:
        for number in range(rounds):
            case, slot = random.choice(CASES), random.choice(SLOTS)
            application.give(TryCase(case.slug, slot, 0, Help.WITH_HINTS))
            _pass(application, 3.0 if number == 0 else 1.0)
            for _ in range(turns):
                run = RUN.of(application.session)
                assert run is not None
                bearing = run.attempt.bearing()
                assert bearing is not None
                known = application.session.answers.get(bearing.position, bearing.task)
                if known is not None and known.distance == 0:
                    break
                line = (
                    known.lines[0][0] if known is not None and random.random() < 0.5 else random.choice(TURNS)
                )
                application.give(Make(line))
                made += 1
                run = RUN.of(application.session)
                assert run is not None
                judged = judged_turns(application.session, run.attempt)
                waited += bool(judged) and judged[-1].answer is None
                _pass(application, 1 / TURNS_A_SECOND)
    finally:
        application.close()
    print(f"{made} turns, {TURNS_A_SECOND:g} a second, on {rounds} cases: {waited} waited for their verdict")


def _pass(application: Application, seconds: float) -> None:
    end = time.perf_counter() + seconds
    while time.perf_counter() < end:
        application.poll()
        time.sleep(1 / POLLS_A_SECOND)


if __name__ == "__main__":
    main()
