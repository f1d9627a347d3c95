"""Thousands of random inputs: no exception, and whatever happened the session is in order."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from random import Random

import pytest

from render.interface import Interface
from render.layout import layout
from render.layout_box import Rect, Scene
from render.picking import StageHand
from tests.session.pilot import Pilot
from tutor.cube.faces import FACES
from tutor.cube.position import Position
from tutor.lesson.assemble import Setting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.resolve import Lesson
from tutor.method.answer import Answer, answer
from tutor.session.actions import actions_in
from tutor.session.history import History
from tutor.session.inputs import (
    KEY_NAMES,
    Activated,
    Input,
    KeyPressed,
    LayerDragged,
    LayerReleased,
    Looked,
    LookReleased,
    Modifier,
    Scrubbed,
    StickerPressed,
    TextEntered,
    Zoomed,
)
from tutor.session.view import HIDDEN, Screen
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task

EVENTS = 10_000
KEYS = (*"udlrfbxyz2hastnp0q1346", *KEY_NAMES)
TEXTS = ("R", "U'", " ", "2", "(", ")3", "x", "ü", "Rw", "R2'")


class Forgetful:
    """Answers what is near home and leaves the rest waiting, as a worker does that is never done in time."""

    def __init__(self, solver: Solver) -> None:
        self._solver, self._crosses = solver, CrossSolver(solver.tables)
        self._waiting: list[tuple[int, Position, Task]] = []

    def request(self, request: int, position: Position, task: Task) -> None:
        if self._crosses.distance(position) <= 1:
            self._waiting.append((request, position, task))

    def forget(self, requests: Sequence[int]) -> None:
        self._waiting = [item for item in self._waiting if item[0] not in requests]

    def poll(self) -> tuple[tuple[int, Answer], ...]:
        found, self._waiting = self._waiting[:2], self._waiting[2:]
        return tuple((request, answer(self._solver, position, task)) for request, position, task in found)

    def notice(self) -> str:
        return ""

    def close(self) -> None:
        return


@pytest.fixture(scope="module")
def lessons(solver: Solver) -> dict[str, Lesson]:
    setting = Setting(partial(answer, solver))
    return {name: load_lesson(name, setting) for name in curriculum_names()[:6]}


class Mouse:
    """A pointer over the real layout: presses on boxes, on the cube and anywhere, drags and the wheel."""

    def __init__(self, random: Random, pilot: Pilot) -> None:
        self._random, self._pilot = random, pilot
        self._interface, self._size = Interface(StageHand()), (960.0, 640.0)

    def _shown(self) -> Scene:
        return self._interface.show(self._pilot.view, *self._size, 1.0)

    def _point(self, scene: Scene) -> tuple[float, float]:
        boxes = [box.rect for _, box in scene.boxes() if box.action]
        if boxes and self._random.random() < 0.5:
            rect = self._random.choice(boxes)
            return rect.x + rect.width / 2, rect.y + rect.height / 2
        area = scene.stage or Rect(0, 0, *self._size)
        return area.x + self._random.random() * area.width, area.y + self._random.random() * area.height

    def act(self) -> None:
        """A click, a drag, or a notch of the wheel."""
        self._size = self._random.choice(((960.0, 640.0), (1280.0, 800.0), (1920.0, 1080.0)))
        interface, give, scene = self._interface, self._pilot.give, self._shown()
        x, y = self._point(scene)
        if self._random.random() < 0.1:
            give(*interface.wheel(x, y, self._random.uniform(-3.0, 3.0)))
            return
        give(*interface.press(x, y))
        for _ in range(self._random.choice((0, 0, 3))):
            x, y = x + self._random.uniform(-80.0, 80.0), y + self._random.uniform(-80.0, 80.0)
            give(*interface.drag(x, y))
            self._shown()
        give(*interface.release(x, y))


def random_input(random: Random, pilot: Pilot) -> Input | None:
    """One input of any kind; None when there was nothing to press."""
    kind = random.random()
    if kind < 0.5:
        modifiers = random.choice([Modifier.NONE] * 6 + [Modifier.SHIFT] * 3 + [Modifier.CONTROL])
        return KeyPressed(random.choice(KEYS), modifiers)
    if kind < 0.56:
        return TextEntered(random.choice(TEXTS))
    if kind < 0.76:
        actions = actions_in(pilot.view)
        return Activated(random.choice(actions)) if actions else None
    if kind < 0.8:
        return StickerPressed(random.randrange(54))
    return random.choice(
        (
            LayerDragged(random.choice(FACES), random.uniform(-4.0, 4.0)),
            LayerReleased(random.choice(FACES), random.uniform(-4.0, 4.0)),
            Looked(random.uniform(-90.0, 90.0), random.uniform(-90.0, 90.0)),
            LookReleased(),
            Zoomed(random.uniform(-3.0, 3.0)),
            Scrubbed(random.uniform(-2.0, 30.0)),
        )
    )


def check(pilot: Pilot) -> None:
    """The invariants of history, timeline and view."""
    session = pilot.session
    attempts = [session.free]
    attempts += [session.lesson.attempt] if session.lesson is not None else []
    attempts += [session.run.attempt] if session.run is not None else []
    attempts += [session.page.attempt] if session.page is not None else []
    for attempt in attempts:
        check_history(attempt.history)
    still = session.demonstration is None and session.dragged is None and not pilot.moving
    if still and session.attempt is not None:
        stage = pilot.view.stage
        assert stage is not None
        hides = session.screen is Screen.LOOKING_AHEAD
        for shown, colour in zip(stage.colours, session.attempt.cube.colours, strict=True):
            assert shown == colour or (hides and shown == HIDDEN)


def check_history(history: History) -> None:
    """The cursor is in range, the cube is what a replay gives, and undo and redo are each other's inverse."""
    assert 0 <= history.cursor <= len(history.entries)
    first = max(0, len(history.entries) - 40)
    replayed = history.cube_at(first)
    for index, entry in enumerate(history.entries[first:], start=first):
        assert history.cube_at(index) == replayed
        replayed = replayed.moved(entry.move)
    assert history.cube_at(len(history.entries)) == replayed
    if history.cursor:
        undone = history.undone()
        assert undone.cube.moved(history.entries[undone.cursor].move) == history.cube
        assert undone.moved_to(undone.cursor + 1) == history


@pytest.mark.parametrize("seed", [1, 2])
def test_no_input_breaks_the_session(solver: Solver, lessons: dict[str, Lesson], seed: int) -> None:
    random, pilot = Random(seed), Pilot(solver, lessons, seed=seed)
    pilot.application._oracle = Forgetful(solver)
    visited, mouse = set(), Mouse(random, pilot)
    for number in range(EVENTS // 2):
        if random.random() < 0.15:
            mouse.act()
        elif (given := random_input(random, pilot)) is not None:
            pilot.give(given)
        if random.random() < 0.3:
            pilot.now += random.expovariate(2.0)
        if random.random() < 0.5:
            pilot.application.poll()
        visited.add(pilot.session.screen)
        if number % 10 == 0:
            check(pilot)
        if number % 200 == 0:
            layout(pilot.view, random.choice((960, 1280, 1920)), random.choice((640, 800, 1080)))
    assert not pilot.session.failure
    assert len(visited) >= 6
