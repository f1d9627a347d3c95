"""The part of a stage's picture that differs from the one before, so that nothing else need be drawn anew.

While a layer turns under a resting camera, most of the picture stays: only where the layer was and is,
directly and in the mirrors, can it have changed.
"""

from __future__ import annotations

from itertools import product

import numpy as np
import numpy.typing as npt

from render.geometry import CUBIE_PLACES, STICKER_CUBIES, turned_cubies, turning_matrix
from render.linear import Array, transform, vector
from render.mirrors import mirrors
from render.sight import Sight
from tutor.ui.view import Stage

Region = tuple[int, int, int, int]
"""x, y from below, width and height in pixels."""

REACH = 0.15
"""How far outlines and frames reach beyond a cubie's cell."""
REACH_GLOWING = 0.3
"""The same with the glow round the cubie's stickers."""
JOINED = 1.1
"""Regions are made one when the whole is at most so many times as large as they are."""
_PIXELS = 2
"""For the smoothing at edges."""
Mask = npt.NDArray[np.bool_]
"""Shape (27,): which cubies."""

_CORNERS: Array = vector(list(product((-0.5, 0.5), repeat=3)))
_REACHED: Array = 2 * 2.25 * _CORNERS
"""Corners of a box that holds the cube with any layer half turned: it reaches 1.5 times the root of 2."""
_STICKER_CUBIES = np.array(STICKER_CUBIES)


def changed_regions(
    before: Stage, after: Stage, view: Sight, with_mirrors: bool
) -> tuple[Region, ...] | None:
    """Where the two pictures may differ, seen the same way; None when that may be anywhere."""
    same = (before.camera, before.arrow) == (after.camera, after.arrow)
    if not same:
        return None
    points = _points(before, after)
    if not len(points):
        return ()
    boxes = [_box(view.to_viewport(points))]
    for mirror in mirrors() if with_mirrors else ():
        if mirror.faces(view.eye):
            seen = _box(view.to_viewport(transform(mirror.matrix, points)))
            pane = _box(view.to_viewport(mirror.corners()))
            boxes.append((np.maximum(seen[0], pane[0]), np.minimum(seen[1], pane[1])))
    found = [_whole(low, high, view) for low, high in boxes]
    return _joined([region for region in found if region[2] > 0 and region[3] > 0])


def cube_box(view: Sight) -> Region:
    """What the cube covers of the picture, however its layers are turned."""
    low, high = _box(view.to_viewport(_REACHED))
    return _whole(low, high, view)


def mirrors_met(region: Region, view: Sight) -> range:
    """The numbers of the mirrors that a region touches, and of those between them."""
    panes = [_whole(*_box(view.to_viewport(mirror.corners())), view) for mirror in mirrors()]
    met = [number for number, pane in enumerate(panes) if meet(region, pane)]
    return range(met[0], met[-1] + 1) if met else range(0)


def _whole(low: Array, high: Array, view: Sight) -> Region:
    """The pixels of a box, with those beside it, inside the picture."""
    left, bottom = np.maximum(np.floor(low) - _PIXELS, 0).astype(int)
    right, top = np.minimum(np.ceil(high) + _PIXELS, (view.width, view.height)).astype(int)
    return int(left), int(bottom), max(0, int(right - left)), max(0, int(top - bottom))


def meet(one: Region, other: Region) -> bool:
    """Whether two regions have a pixel in common."""
    return all(
        one[axis] < other[axis] + other[axis + 2] and other[axis] < one[axis] + one[axis + 2]
        for axis in (0, 1)
    )


def _joined(regions: list[Region]) -> tuple[Region, ...]:
    """The regions, with those made one that cover hardly more together than each by itself."""
    done: list[Region] = []
    for region in regions:
        for other in list(done):
            both = around(region, other)
            if _area(both) <= JOINED * (_area(region) + _area(other)):
                done.remove(other)
                region = both
        done.append(region)
    return tuple(done)


def _area(region: Region) -> int:
    return region[2] * region[3]


def around(*regions: Region) -> Region:
    """The least region that holds them all."""
    lefts, bottoms, widths, heights = np.array(regions).T
    left, bottom = int(lefts.min()), int(bottoms.min())
    return left, bottom, int((lefts + widths).max()) - left, int((bottoms + heights).max()) - bottom


def _box(points: Array) -> tuple[Array, Array]:
    return points.min(axis=0), points.max(axis=0)


def _points(before: Stage, after: Stage) -> Array:
    """Corners of the cells of all cubies that differ, where they are in both, shape (n, 3)."""
    differ = _otherwise(before, after)
    for stage in (before, after):
        if stage.turning is not None and before.turning != after.turning:
            differ |= _turned(stage)
    reach = REACH_GLOWING if before.glowing or after.glowing else REACH
    corners = CUBIE_PLACES[:, None, :] + (1.0 + 2.0 * reach) * _CORNERS
    found = []
    for stage in (before, after):
        turned = _turned(stage)
        found.append(corners[differ & ~turned].reshape(-1, 3))
        found.append(corners[differ & turned].reshape(-1, 3) @ turning_matrix(stage.turning).T)
    return np.concatenate(found)


def _turned(stage: Stage) -> Mask:
    """The cubies that the stage's turning carries."""
    if stage.turning is None:
        return np.zeros(27, dtype=bool)
    return np.asarray(turned_cubies(stage.turning), dtype=bool)


def _otherwise(before: Stage, after: Stage) -> Mask:
    """Which cubies differ in colour or marks."""
    differ = np.zeros(27, dtype=bool)
    marks = ("dimmed", "outlined", "framed", "glowing")
    for name in marks:
        differ[list(getattr(before, name) ^ getattr(after, name))] = True
    colours = np.array([before.colours, after.colours])
    pictures = [colours, *(np.array([stage.crossfade or stage.colours] * 2) for stage in (before, after))]
    changed = np.any([picture != colours[0] for picture in pictures], axis=(0, 1))
    differ[_STICKER_CUBIES[changed]] = True
    return differ
