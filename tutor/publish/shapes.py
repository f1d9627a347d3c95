"""Shapes of films, and whether one can do without the mirrors, so that the cube is larger."""

from __future__ import annotations

from enum import StrEnum

from tutor.publish.film import Passage
from tutor.publish.subject import Shot, cubies_seen, stage_of
from tutor.session.timeline import Pose


class Shape(StrEnum):
    """The shape of a film: for a screen, for a feed, or for a telephone held upright."""

    LANDSCAPE = "landscape"
    SQUARE = "square"
    UPRIGHT = "upright"


SIZES = {Shape.LANDSCAPE: "1280x720", Shape.SQUARE: "1080x1080", Shape.UPRIGHT: "1080x1920"}
SMALL_SIZES = {Shape.LANDSCAPE: "640x480", Shape.SQUARE: "480x480", Shape.UPRIGHT: "540x960"}
"""For many films."""


def does_without_mirrors(passage: Passage, shot: Shot) -> bool:
    """Whether the pair and its slot can be seen before and after every turn without the mirrors."""
    seen = cubies_seen(passage.camera or shot.camera)
    for count in range(len(passage.turns) + 1):
        stage = stage_of(passage.subject, Pose(passage.subject.cube.after(passage.turns[:count])), shot)
        if not stage.outlined or not stage.outlined | stage.framed <= seen:
            return False
    return True
