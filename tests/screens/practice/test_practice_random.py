"""Whatever is pressed in practice, in whatever order: no exception, and what is kept adds up."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from tests.screens.practice.sitting import on_disk, practised_before, sits_down
from tests.session.names import actions_in
from tests.session.pilot import Pilot
from tutor.progress.attempt import AttemptRecord
from tutor.screens.practice.state import RUN
from tutor.solver.search import Solver
from tutor.ui.inputs import KEY_NAMES, Modifier

EVENTS = 1500
KEYS = (*"udlrfbxyz21345hasp", *KEY_NAMES)
WAYS_IN = ("open:PRACTICE", "practise:TODAY:", "practise:GLANCE:", "practise:STEADY:", "practise:SLIPPING:")


def press_something(pilot: Pilot, random: Random) -> None:
    kind = random.random()
    if kind < 0.45:
        pilot.key(random.choice(KEYS), random.choice([Modifier.NONE] * 5 + [Modifier.SHIFT]))
        return
    # Turns come from keys; from their many buttons they would lead ever farther from the case.
    offered = [
        action for action in actions_in(pilot.view) if not action.startswith(("act:QUIT", "choose:", "make:"))
    ]
    pilot.press(random.choice(offered if offered and kind < 0.9 else WAYS_IN))


@pytest.mark.parametrize("seed", range(2))
def test_random_practice_keeps_in_order(solver: Solver, tmp_path: Path, seed: int) -> None:
    practised_before(tmp_path)
    before = len(on_disk(tmp_path))
    random, pilot = Random(seed), sits_down(solver, tmp_path)
    counted: set[str] = set()
    ways: set[str] = set()
    for _ in range(EVENTS):
        press_something(pilot, random)
        pilot.now += random.choice((0.0, 0.3, 2.0, 30.0, 400.0))
        if random.random() < 0.7:
            pilot.settle()
        assert pilot.view.screen is pilot.session.screen
        assert not pilot.session.failure
        run = RUN.of(pilot.session)
        if run is not None and pilot.session.screen == "practice":
            ways.add(run.mode.name)
            if run.filed is not None:
                counted.add(str(run.filed))
    pilot.settle()
    assert {"GLANCE", "STEADY", "SLIPPING", "SINGLE"} <= ways
    kept = on_disk(tmp_path)
    taken_back = before + len(counted) - len(kept)
    study = pilot.session.records.study
    assert study is not None
    mine: list[AttemptRecord] = [
        attempt for attempt in kept if attempt.learner == pilot.session.records.learner
    ]
    assert len(study.results) == len(mine)
    assert 0 <= taken_back < len(counted)
