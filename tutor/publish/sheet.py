"""What a sheet of cases says of each: route by steps, shortest line, and the mirror image."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves
from tutor.cube.position import Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT
from tutor.lesson.scenes import Lesson
from tutor.method.answer import Answer
from tutor.method.cases import CASES, Case, Family, case_of
from tutor.method.routes import Route
from tutor.publish import words
from tutor.publish.subject import (
    Draw,
    Pixels,
    Shot,
    Subject,
    case_heading,
    case_subject,
    name_lines,
    stage_of,
    usual_camera,
)
from tutor.session.timeline import Pose
from tutor.solver.task import Task, carried_slot
from tutor.ui.view import Look

PICTURE_SIZE, MIRRORED_SIZE = (480, 420), (640, 468)
"""Pixels of a case's picture without and with mirrors: 300 to the inch, and a little more, as printed."""
ZOOM, FADED = 0.97, 0.06
"""Without mirrors: a margin round the cube, and the share of the width in which its shadow fades."""
_WHITE = (255, 255, 255)
_LUMA = (0.2126, 0.7152, 0.0722)
"""Weights of red, green and blue in lightness (ITU-R BT.709)."""

_PALE = 0.45
"""How much of its darkness a dimmed piece keeps in black and white."""
_LIGHTER = 0.7
"""Exponent that lifts the dark tones of a black-and-white picture: it takes less ink and reads better."""


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """A case on the sheet, in its slot, with the turns as held there; ``heading`` has its number.

    ``own`` is what the learner of the sheet says of the case in their own words.
    """

    case: Case
    slot: Slot
    heading: str
    subject: Subject
    route: Route
    line: tuple[Turn, ...]
    own: str = ""

    @property
    def name(self) -> tuple[str, str, str]:
        """The heading, where the corner is, and where the edge is."""
        return (self.heading, *name_lines(self.case, self.slot))

    @property
    def mirror_slot(self) -> Slot:
        """The slot in which a mirror that exchanges left and right shows the case."""
        return carried_slot(self.slot, MIRROR_LEFT_RIGHT)

    @property
    def mirror_line(self) -> tuple[Turn, ...]:
        """The line as the mirror shows it; it solves ``case.mirror`` in ``mirror_slot``."""
        return MIRROR_LEFT_RIGHT.turns(self.line)

    @property
    def facts(self) -> tuple[tuple[str, str], ...]:
        """What is printed under the name: a word and turns in notation."""
        steps = [(words.step_name(step), format_moves(turns)) for step, turns in self.route.segments]
        line = (words.LINE, format_moves(self.line))
        return (*steps, line, (words.mirror_label(self.mirror_slot.name), format_moves(self.mirror_line)))


@dataclass(frozen=True, slots=True)
class Print:
    """How a sheet is printed."""

    slot: Slot = Slot.FR
    cross: Face = Face.D
    palette: str = "usual"
    letters: bool = False
    grey: bool = False
    """Black and white; the letters then say what the colours would."""

    @property
    def look(self) -> Look:
        """How the cubes look: a slot at the back is seen in the mirrors."""
        mirrors = self.slot in (Slot.BL, Slot.BR)
        palette = "high-contrast" if self.grey else self.palette
        return Look("light", palette, mirrors=mirrors, letters=self.letters or self.grey)

    @property
    def picture_size(self) -> tuple[int, int]:
        """Width and height of each picture in pixels."""
        return MIRRORED_SIZE if self.look.mirrors else PICTURE_SIZE


def sheet_entries(
    cases: Iterable[Case], how: Print, answers: Callable[[Position, Task], Answer]
) -> tuple[SheetEntry, ...]:
    """The entries of a sheet, by family and in the order of the cases within one."""
    entries = []
    for case in sorted(dict.fromkeys(cases), key=lambda each: list(Family).index(each.family)):
        subject = case_subject(case, how.slot, cross=how.cross)
        assert subject.task is not None
        found = answers(subject.cube.position, subject.task)
        heading = case_heading(case, how.slot, COLOUR_NAMES[how.cross])
        entries.append(SheetEntry(case, how.slot, heading, subject, found.routes[0], found.lines[0]))
    return tuple(entries)


def lesson_cases(lesson: Lesson) -> tuple[Case, ...]:
    """The cases that a lesson's scenes begin with, each once. Raises ValueError when there are none."""
    found: dict[Case, None] = {}
    for scene in lesson.scenes:
        sighting = None if scene.task is None else case_of(scene.cube.position, scene.task)
        if sighting is not None:
            found[sighting.case] = None
    if not found:
        raise ValueError(words.begins_with_no_case(lesson.title))
    return tuple(case for case in CASES if case in found)


def picture_of(entry: SheetEntry, how: Print, draw: Draw) -> Pixels:
    """The case as the learner sees it, on white paper."""
    look = how.look
    camera = replace(usual_camera(entry.slot, look.mirrors), zoom=1.0 if look.mirrors else ZOOM)
    shot = Shot(look, how.picture_size, camera)
    stage = stage_of(entry.subject, Pose(entry.subject.cube), shot)
    pixels = draw(stage, look, shot.size, _WHITE)
    if how.grey:
        full = draw(replace(stage, dimmed=frozenset()), look, shot.size, _WHITE)
        _drain(pixels, (full != pixels).any(axis=2))
    if not look.mirrors:
        _fade_edges(pixels)
    return pixels


def _drain(pixels: Pixels, dimmed: NDArray[np.bool_]) -> None:
    """Take the colour away; what does not matter, told from the rest by hue until now, becomes pale."""
    lightness = ((pixels[..., :3] @ _LUMA) / 255.0).clip(0.0, 1.0) ** _LIGHTER
    lightness[dimmed] = 1.0 - _PALE * (1.0 - lightness[dimmed])
    pixels[..., :3] = np.rint(255.0 * lightness)[..., None]


def _fade_edges(pixels: Pixels) -> None:
    """Let the shadow end in white paper before the picture does."""
    height, width = pixels.shape[:2]
    rows, columns = (np.minimum(np.arange(side), np.arange(side)[::-1]) for side in (height, width))
    paper = 1.0 - np.clip(np.minimum(rows[:, None], columns[None, :]) / (FADED * width), 0.0, 1.0)
    pixels[..., :3] = np.rint(pixels[..., :3] + (255.0 - pixels[..., :3]) * paper[..., None])
