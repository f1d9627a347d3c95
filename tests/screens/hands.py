"""Two hands that do the same at the program: one has only a keyboard, the other only a pointer.

The pointer clicks where the layout of the real window puts a thing, turns the wheel until it is in sight, and
turns layers by dragging stickers. All that was given is kept, so that a test sees it was nothing else.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from functools import cache
from itertools import product
from math import dist
from typing import ClassVar

from render.layout.boxes import Box, Panel, Scene
from render.stage.geometry import sticker_centre, turning_matrix
from render.stage.picking import StageHand
from render.stage.sight import sight
from render.window.interface import Interface
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.session.commands import ChooseAnswer
from tutor.ui.action import Action
from tutor.ui.focus import main_button
from tutor.ui.inputs import (
    Activated,
    Input,
    KeyPressed,
    LayerDragged,
    LayerReleased,
    Modifier,
    StickerPressed,
    TextEntered,
)
from tutor.ui.view import Camera, Look, Stage, Turning

SIZE = (1280.0, 800.0)
DRAG_ANGLES = (0.0, 0.2, 0.6, 1.0, 1.3)
"""Radians through which a layer is dragged; let go there, it goes on to the quarter."""
MOST_TABS = 120
MOST_NOTCHES = 60
Point = tuple[float, float]


class Hand(ABC):
    """What a person does at the program, whatever they do it with."""

    HAS: ClassVar[tuple[type, ...]]
    """The kinds of input that come from it."""

    def __init__(self, pilot: Pilot) -> None:
        self.pilot = pilot
        self.given: list[Input] = []

    @abstractmethod
    def press(self, action: Action) -> None:
        """Press the button, tile or field on the screen that does this."""

    @abstractmethod
    def find(self, cubie: int, number: int) -> None:
        """Say where a piece is: by pointing at it, or by the number of the answer, from 0."""

    @abstractmethod
    def _turn(self, turn: Turn) -> None:
        """Turn a layer, and do not wait for what the program says of it."""

    def only_its_own(self) -> bool:
        """Whether nothing was given but what this hand has."""
        return bool(self.given) and all(isinstance(each, self.HAS) for each in self.given)

    def main(self) -> None:
        """Press the main button of the screen."""
        button = main_button(self.pilot.view)
        assert button is not None, self.pilot.view.screen
        self.press(button.action)

    def label(self, label: str) -> None:
        """Press the button that says this, in the bar or beneath it."""
        view = self.pilot.view
        named = [each for each in (*view.bar, *Reading(view).buttons) if each.label == label]
        assert named, f"no button says {label!r}"
        self.press(named[0].action)

    def answer(self, number: int) -> None:
        """Give the answer of this number, from 0."""
        self.press(ChooseAnswer(number))

    def turn(self, *turns: Turn) -> None:
        """Turn layers of the cube in hand one after the other, and wait for what the program says."""
        for turn in turns:
            self._turn(turn)
        self.pilot.wait(1.0)

    def _give(self, *inputs: Input) -> None:
        self.given += inputs
        self.pilot.give(*inputs)


class KeyboardHand(Hand):
    """Keys alone: Tab and Enter, letters and digits, and what is typed."""

    HAS = (KeyPressed, TextEntered)

    def key(self, name: str, held: Modifier = Modifier.NONE) -> None:
        """A key."""
        self._give(KeyPressed(name, held))
        self.pilot.settle()

    def write(self, text: str) -> None:
        """Type into the field that is open."""
        self._give(TextEntered(text))

    def press(self, action: Action) -> None:
        """Enter, where that is what it presses at once; else Tab until the focus is there."""
        main = main_button(self.pilot.view)
        if self.pilot.view.focus is not None or main is None or main.action != action:
            for _ in range(MOST_TABS):
                self.key("tab")
                if self.pilot.view.focus == action:
                    break
            else:
                raise AssertionError(f"Tab never reaches {action_name(action)}")
        self.key("enter")

    def answer(self, number: int) -> None:
        """The answer's digit."""
        self.key(str(number + 1))

    def find(self, cubie: int, number: int) -> None:
        """The digit of the place."""
        self.answer(number)

    def _turn(self, turn: Turn) -> None:
        """The face's letter; with Shift the other way, and 2 after it for a half turn."""
        shift = Modifier.SHIFT if turn.quarters == 3 else Modifier.NONE
        self._give(KeyPressed(turn.face.name.lower(), shift))
        if turn.quarters == 2:
            self._give(KeyPressed("2"))


class PointerHand(Hand):
    """A pointer alone, over the layout of the real window: clicks, drags and the wheel."""

    HAS = (Activated, StickerPressed, LayerDragged, LayerReleased)

    def __init__(self, pilot: Pilot) -> None:
        super().__init__(pilot)
        self._interface = Interface(StageHand())

    def press(self, action: Action) -> None:
        """Click the middle of its box, once the wheel has brought it into sight."""
        x, y = self._middle(action)
        before = len(self.given)
        self._click(x, y)
        assert self.given[before:] == [Activated(action)], (action_name(action), self.given[before:])

    def find(self, cubie: int, number: int) -> None:
        """Click the piece wherever one of its stickers is seen, also in a mirror."""
        self._click(*self._on_stage(*_seen(stage_of(self.pilot), self.pilot.view.look, self._size(), cubie)))

    def _turn(self, turn: Turn) -> None:
        """Drag a sticker of the layer: a quarter at a time, twice for a half turn."""
        for _ in range(2 if turn.quarters == 2 else 1):
            self._drag(turn.face, -1 if turn.quarters == 3 else 1)
            self.pilot.now += 1.0

    def _drag(self, face: Face, way: int) -> None:
        self._shown()
        way_over = _drag(stage_of(self.pilot).camera, self.pilot.view.look, self._size(), face, way)
        begun, *onward = (self._on_stage(*point) for point in way_over)
        self._give(*self._interface.press(*begun))
        for point in onward:
            self.pilot.now += 0.2
            self._give(*self._interface.drag(*point))
            self._shown()
        self._give(*self._interface.release(*onward[-1]))

    def _click(self, x: float, y: float) -> None:
        self._give(*self._interface.press(x, y))
        self._shown()
        self._give(*self._interface.release(x, y))
        self.pilot.settle()

    def _middle(self, action: Action) -> Point:
        """Where its box is, in sight."""
        for _ in range(MOST_NOTCHES):
            panel, box = self._box(action)
            assert box.enabled, action_name(action)
            scroll = self._interface.scrolls.get(panel.place, 0.0)
            x, y = box.rect.x + box.rect.width / 2, box.rect.y + box.rect.height / 2 - scroll
            if panel.rect.contains(x, y):
                return x, y
            over = panel.rect.x + panel.rect.width / 2, panel.rect.y + panel.rect.height / 2
            self._give(*self._interface.wheel(*over, -1.0 if y > over[1] else 1.0))
        raise AssertionError(f"the wheel never brings {action_name(action)} into sight")

    def _box(self, action: Action) -> tuple[Panel, Box]:
        found = [(panel, box) for panel, box in self._shown().boxes() if box.action == action]
        assert found, f"{action_name(action)} is not drawn"
        return found[-1]

    def _shown(self) -> Scene:
        return self._interface.show(self.pilot.view, *SIZE, 1.0)

    def _size(self) -> Point:
        stage = self._shown().stage
        assert stage is not None
        return stage.width, stage.height

    def _on_stage(self, x: float, y: float) -> Point:
        stage = self._shown().stage
        assert stage is not None
        return stage.x + x, stage.y + y


HANDS: tuple[type[Hand], ...] = (KeyboardHand, PointerHand)


def _seen(stage: Stage, look: Look, size: Point, cubie: int) -> Point:
    """A point of the stage at which a piece is seen."""
    for point in _points(stage.camera, look, size):
        grip = StageHand().grip(stage, look, size, *point)
        if grip is not None and cubie_number(STICKERS[grip.sticker][0]) == cubie:
            return point
    raise AssertionError(f"piece {cubie} is seen nowhere on the stage")


@cache
def _points(camera: Camera, look: Look, size: Point) -> tuple[Point, ...]:
    """Where to look for a piece: the middles of all stickers first, then everywhere, for the mirrors."""
    return (*_middles(camera, look, size), *product(range(4, int(size[0]), 14), range(4, int(size[1]), 14)))


def _middles(camera: Camera, look: Look, size: Point) -> list[Point]:
    seen = sight(camera, size, look.mirrors)
    middles = (seen.to_viewport(sticker_centre(number)) for number in range(len(STICKERS)))
    return [(float(x), size[1] - float(y)) for x, y in middles]


@cache
def _drag(camera: Camera, look: Look, size: Point, face: Face, way: int) -> tuple[Point, ...]:
    """The way of a sticker's middle while its layer turns clockwise (1) or not (-1), the longest of all."""
    ways = (_way(number, camera, look, size, face, way) for number in range(len(STICKERS)))
    return max((points for points in ways if points), key=lambda points: dist(points[0], points[-1]))


def _way(number: int, camera: Camera, look: Look, size: Point, face: Face, way: int) -> tuple[Point, ...]:
    """Nothing where the sticker is not seen, or where a hand that goes this way would turn no such layer."""
    seen, middle = sight(camera, size, look.mirrors), sticker_centre(number)
    turnings = [turning_matrix(Turning(face, way * angle)) for angle in DRAG_ANGLES]
    places = [seen.to_viewport(matrix @ middle) for matrix in turnings]
    points = tuple((float(x), size[1] - float(y)) for x, y in places)
    grip = StageHand().grip(Stage((0,) * len(STICKERS), camera=camera), look, size, *points[0])
    if grip is None or grip.sticker != number or any(grip.holds_still(*point) for point in points[1:]):
        return ()
    turned = [grip.drag(*point) for point in points[1:]]
    wanted = all(each is not None and each[0] is face and each[1] * way > 0.0 for each in turned)
    return points if wanted else ()
