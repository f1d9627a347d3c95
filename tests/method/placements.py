"""Positions and tasks to hold the method against: all placements, and fixed samples of harder positions."""

from __future__ import annotations

import random
from itertools import combinations

from hypothesis import strategies as st

from tests.method.plain_routes import TOPS, Turns, lifts
from tests.solver.plain_search import unsolved_placements
from tutor.cube.faces import TURNS, Face
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.symmetry import Symmetry
from tutor.method.routes import routes
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.solver.search import Solver
from tutor.solver.task import Task

KEEP_SETS = [frozenset(kept) for count in range(4) for kept in combinations(SLOTS, count)]


def all_kept(slot: Slot) -> Task:
    return Task(slot, frozenset(SLOTS) - {slot})


def placements(slot: Slot) -> list[tuple[Position, Task]]:
    """The 149 unsolved placements of a slot's pair, all other slots kept."""
    return [(position, all_kept(slot)) for position in unsolved_placements(slot)]


def first_step_not_done(position: Position, task: Task) -> Step:
    """The step under way in a settled position, as defined: the first that is not done, or ``DONE``."""
    if task.done(position):
        return Step.DONE
    return next(step for step in TURNING_STEPS if not DONE_WHEN[step](position, task))


def carried_slot(slot: Slot, symmetry: Symmetry) -> Slot:
    faces = {symmetry.faces[Face[letter]].name for letter in slot.name}
    return next(other for other in SLOTS if set(other.name) == faces)


def carried_task(task: Task, symmetry: Symmetry) -> Task:
    """The task once the whole cube is rotated about the vertical or mirrored."""
    return Task(
        carried_slot(task.slot, symmetry), frozenset(carried_slot(kept, symmetry) for kept in task.keep)
    )


def blocks_made(draw: random.Random, task: Task) -> Turns:
    """A few turns of the top and blocks of the slots that are not kept."""
    turns: Turns = ()
    for _ in range(draw.randint(1, 4)):
        lift = draw.choice(lifts(draw.choice([slot for slot in SLOTS if slot not in task.keep])))
        turns += (draw.choice(TOPS), lift, draw.choice(TOPS), lift.inverse)
    return turns


def sampled(seed: int, number: int, free: int = 0) -> list[tuple[Position, Task]]:
    """A fixed sample with so many free slots: settled, lifted, on a route, one and two wrong turns, any."""
    draw = random.Random(seed)
    sample = []
    for count in range(number):
        keep = draw.choice([kept for kept in KEEP_SETS if len(kept) == 3 - free])
        task = Task(draw.choice([slot for slot in SLOTS if slot not in keep]), keep)
        position = SOLVED.after(blocks_made(draw, task))
        match count % 6:
            case 1:
                position = position.after((draw.choice(lifts(task.slot)), draw.choice(TOPS)))
            case 2:
                for route in routes(position, task, 1).routes:
                    position = position.after(route.turns[: draw.randrange(len(route.turns))])
            case 3 | 4:
                position = position.after(draw.choices(TURNS, k=count % 6 - 2))
            case 5:
                position = SOLVED.after(draw.choices(TURNS, k=draw.randint(1, 6)))
        sample.append((position, task))
    return sample


def to_go(solver: Solver, position: Position, task: Task) -> int:
    """Turns to go as defined: by hand where there is a way by hand, else at all."""
    by_hand = solver.hand_distance(position, task)
    return solver.distance(position, task) if by_hand is None else by_hand


sequences = st.lists(st.sampled_from(TURNS), max_size=8)
tasks = st.builds(
    lambda slot, keep: Task(slot, frozenset(keep) - {slot}),
    st.sampled_from(SLOTS),
    st.sets(st.sampled_from(SLOTS)),
)
