"""A task for a general-purpose planner: one boolean per piece and sticker place, one action per turn."""

from __future__ import annotations

import re
import time
from contextlib import chdir
from tempfile import TemporaryDirectory

from msgspec import Struct
from unified_planning.engines import PlanGenerationResultStatus
from unified_planning.environment import get_environment
from unified_planning.model import Fluent, InstantaneousAction, Problem
from unified_planning.shortcuts import BoolType, OneshotPlanner

from tests.solver.plain_search import CORNER_STEPS, EDGE_STEPS
from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import CROSS_EDGES, SOLVED, Position
from tutor.solver.task import Task


class Planned(Struct, frozen=True):
    """What the planner found, and the seconds that it says its search alone took."""

    turns: tuple[Turn, ...]
    search_seconds: float
    wall_seconds: float


def _pieces(task: Task) -> list[tuple[str, int]]:
    slots = sorted(task.keep | {task.slot})
    edges = [*CROSS_EDGES, *(slot.edge for slot in slots)]
    return [("corner", slot.corner) for slot in slots] + [("edge", edge) for edge in edges]


def planning_problem(position: Position, task: Task) -> Problem:
    """The position, the goal and the 18 turns, with a conditional effect for each sticker that moves."""
    problem = Problem("pair")
    at: dict[tuple[str, int, int], Fluent] = {}
    for kind, piece in _pieces(task):
        here = (position.corners if kind == "corner" else position.edges)[piece]
        goal = (SOLVED.corners if kind == "corner" else SOLVED.edges)[piece]
        for location in range(24):
            at[kind, piece, location] = Fluent(f"{kind}{piece}_at_{location}", BoolType())
            problem.add_fluent(at[kind, piece, location], default_initial_value=location == here)
        problem.add_goal(at[kind, piece, goal])
    for turn in TURNS:
        action = InstantaneousAction(f"turn_{turn.name.lower()}")
        for (kind, piece, location), fluent in at.items():
            moved = int((CORNER_STEPS if kind == "corner" else EDGE_STEPS)[turn, location])
            if moved != location:
                action.add_effect(at[kind, piece, moved], True, fluent)
                action.add_effect(fluent, False, fluent)
        problem.add_action(action)
    return problem


def plan(position: Position, task: Task) -> Planned:
    """A shortest plan by blind A*; the planner calls its answer satisficing, but this search is optimal."""
    get_environment().credits_stream = None
    started = time.perf_counter()
    options = {
        "fast_downward_search_config": "astar(blind())",
        # Looking for groups of facts that exclude each other takes it half a minute and finds no other plan.
        "fast_downward_translate_options": ["--invariant-generation-max-time", "0"],
    }
    # It leaves a file where it is started.
    with (
        TemporaryDirectory() as folder,
        chdir(folder),
        OneshotPlanner(name="fast-downward", params=options) as planner,
    ):
        result = planner.solve(planning_problem(position, task))
    wall = time.perf_counter() - started
    if result.status not in (
        PlanGenerationResultStatus.SOLVED_SATISFICING,
        PlanGenerationResultStatus.SOLVED_OPTIMALLY,
    ):
        raise AssertionError(f"the planner found nothing: {result}")
    names = {f"turn_{turn.name.lower()}": turn for turn in TURNS}
    turns = tuple(names[item.action.name] for item in result.plan.actions)
    log = "\n".join(message.message for message in result.log_messages or ())
    found = re.search(r"Search time: ([0-9.]+)s", log)
    if found is None:
        raise AssertionError(f"the planner does not say how long it searched:\n{log}")
    return Planned(turns, float(found[1]), wall)
