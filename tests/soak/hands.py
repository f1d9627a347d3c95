"""Hands that press whatever there is: keys, text, buttons, the cube, the pointer over the real layout."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from render.layout.boxes import Rect, Scene
from render.stage.picking import StageHand
from render.window.interface import Interface
from tests.session.names import actions_in, command_of
from tests.session.pilot import Pilot
from tutor.cube.faces import FACES
from tutor.cube.position import Position
from tutor.method.answer import answer
from tutor.session.commands import Answered
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.inputs import (
    KEY_NAMES,
    Activated,
    CloseRequested,
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

KEYS = (*"abcdefghijklmnopqrstuvwxyz0123456789", *KEY_NAMES)
TURN_KEYS = "udlrfb"
TEXTS = (
    "R",
    "U'",
    " ",
    "2",
    "(",
    ")3",
    "x",
    "ü",
    "Rw",
    "R2'",
    "R U R' U'",
    "Ilva",
    "yyy yyy yyy",
    "U: w",
    "9" * 50,
    "3, 14",
    "9-7; 41",
    "slipping",
)
SIZES = ((960.0, 640.0), (1280.0, 800.0), (1920.0, 1080.0), (3840.0, 2160.0))
RESTART = 0.0005
"""How often the window is closed, of all inputs; the walk starts the program anew then."""


class Forgetful:
    """Answers what is near home and leaves the rest waiting, as a worker does that is never done in time."""

    def __init__(self, solver: Solver) -> None:
        self._solver, self._crosses = solver, CrossSolver(solver.tables)
        self._waiting: list[tuple[int, tuple[Position, Task]]] = []

    def ask(self, request: int, question: tuple[Position, Task]) -> None:
        if self._crosses.distance(question[0]) <= 1:
            self._waiting.append((request, question))

    def forget(self, requests: Sequence[int]) -> None:
        self._waiting = [item for item in self._waiting if item[0] not in requests]

    def poll(self) -> tuple[Answered, ...]:
        found, self._waiting = self._waiting[:2], self._waiting[2:]
        return tuple(Answered(request, answer(self._solver, *question)) for request, question in found)

    def close(self) -> None:
        return


class Pointer:
    """A pointer over the real layout: presses on boxes, on the cube and anywhere, drags and the wheel."""

    def __init__(self, random: Random) -> None:
        self._random = random
        self._interface, self._size = Interface(StageHand()), SIZES[0]

    def act(self, pilot: Pilot) -> None:
        """A click, a drag, or some notches of the wheel."""
        random, interface = self._random, self._interface
        self._size = random.choice(SIZES)
        x, y = self._point(self._shown(pilot))
        if random.random() < 0.1:
            pilot.give(*interface.wheel(x, y, random.uniform(-3.0, 3.0)))
            return
        pilot.give(*interface.press(x, y))
        for _ in range(random.choice((0, 0, 3))):
            x, y = x + random.uniform(-80.0, 80.0), y + random.uniform(-80.0, 80.0)
            pilot.give(*interface.drag(x, y))
            self._shown(pilot)
        pilot.give(*interface.release(x, y))

    def _shown(self, pilot: Pilot) -> Scene:
        return self._interface.show(pilot.view, *self._size, 1.0)

    def _point(self, scene: Scene) -> tuple[float, float]:
        boxes = [box.rect for _, box in scene.boxes() if box.action]
        if boxes and self._random.random() < 0.5:
            rect = self._random.choice(boxes)
            return rect.x + rect.width / 2, rect.y + rect.height / 2
        area = scene.stage or Rect(0, 0, *self._size)
        return area.x + self._random.random() * area.width, area.y + self._random.random() * area.height


def random_input(random: Random, pilot: Pilot) -> Input | None:
    """One input of any kind; None when there was nothing to press."""
    kind = random.random()
    if kind < RESTART:
        return CloseRequested()
    if kind < 0.35:
        modifiers = random.choice(
            [Modifier.NONE] * 12 + [Modifier.SHIFT] * 4 + [Modifier.CONTROL, Modifier.ALT]
        )
        key = random.choice(KEYS)
        return None if key == "q" and modifiers is Modifier.CONTROL else KeyPressed(key, modifiers)
    if kind < 0.42:
        return TextEntered(random.choice(TEXTS))
    if kind < 0.8:
        return random_press(random, pilot)
    if kind < 0.86:
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


def random_press(random: Random, pilot: Pilot) -> Input | None:
    """One of the buttons there are, each kind as likely as the others; None when there is none."""
    actions = actions_in(pilot.view)
    kinds = sorted({action.partition(":")[0] for action in actions})
    if not kinds:
        return None
    kind = random.choice(kinds)
    name = random.choice([action for action in actions if action.partition(":")[0] == kind])
    command = command_of(name)
    assert command is not None, name
    return Activated(command)


def good_turn(random: Random, pilot: Pilot) -> Input | None:
    """The key of a turn that leads home, when one is known, else of any turn."""
    attempt = pilot.session.attempt
    bearing = None if attempt is None else attempt.bearing()
    known = None if bearing is None else pilot.session.answers.get(bearing.position, bearing.task)
    if bearing is None or known is None or not known.distance:
        return KeyPressed(random.choice(TURN_KEYS), random.choice((Modifier.NONE, Modifier.SHIFT)))
    turn = known.lines[0][0]
    if turn.quarters == 2:
        return KeyPressed(turn.face.name.lower())
    return KeyPressed(turn.face.name.lower(), Modifier.SHIFT if turn.quarters == 3 else Modifier.NONE)
