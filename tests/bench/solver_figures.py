"""Positions to ask the solver about, and the start of a process that asks it."""

from __future__ import annotations

import json
import random
import subprocess
import sys
from pathlib import Path

from tests.solver.plain_search import unsolved_placements
from tutor.cube.faces import FACES, TURNS, Face
from tutor.cube.position import SLOTS, Position, Slot
from tutor.solver.search import Solver
from tutor.solver.task import Task

KEPT = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
"""The task asked about: one pair, with all others kept."""


def wandered(
    position: Position, wrong: int, chooser: random.Random, faces: frozenset[Face] = frozenset(FACES)
) -> Position:
    """Some wrong turns of those faces, no two in a row on one face."""
    turns = [turn for turn in TURNS if turn.face in faces]
    made = [chooser.choice(turns)] if wrong else []
    while len(made) < wrong:
        made.append(chooser.choice([turn for turn in turns if turn.face is not made[-1].face]))
    return position.after(made)


def on_the_way(solver: Solver, chooser: random.Random) -> list[Position]:
    """Positions along a shortest line from each of the 149 unsolved placements."""
    found = []
    for position in unsolved_placements(Slot.FR):
        line = chooser.choice(solver.lines(position, KEPT))
        found += [position.after(line[:made]) for made in range(len(line))]
    return found


def positions_off(solver: Solver, wrong: int) -> list[Position]:
    chooser = random.Random(wrong)
    every = on_the_way(solver, chooser) if wrong < 2 else unsolved_placements(Slot.FR)
    count = 600 if wrong < 4 else 149
    return [wandered(chooser.choice(every), wrong, chooser) for _ in range(count)]


START = """
import json, sys, time
begun = time.perf_counter()
from pathlib import Path
def resident():
    return int(Path("/proc/self/statm").read_text().split()[1]) * 4096 / 1e6
import numpy
from tutor.cube.faces import TURNS
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.solver.search import Solver
from tutor.solver.task import Task
before = resident()
solver = Solver.open(Path(sys.argv[1]))
task = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
first = solver.distances(SOLVED.after(TURNS[9:14:2]), task)
by_hand = solver.hand_distances(SOLVED.after(TURNS[9:14:2]), task)
seconds = time.perf_counter() - begun
import random
chooser = random.Random(1)
for _ in range(int(sys.argv[2])):
    position = SOLVED.after([chooser.choice(TURNS) for _ in range(chooser.randrange(1, 10))])
    solver.distances(position, task), solver.hand_distances(position, task)
print(json.dumps([seconds, resident() - before]))
"""


def start(folder: Path, more: int = 0, environment: dict[str, str] | None = None) -> tuple[float, float]:
    """Seconds from process start to the first answer, and megabytes resident more than before the tables."""
    command = [sys.executable, "-c", START, str(folder), str(more)]
    result = subprocess.run(
        command, capture_output=True, text=True, check=True, cwd=Path.cwd(), env=environment
    )
    seconds, grown = json.loads(result.stdout)
    return seconds, grown
