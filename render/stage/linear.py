"""Matrices and vectors for the stage; the only module that knows pyrr.

Everything here is float64 and acts on column vectors (``matrix @ vector``), whatever pyrr's own habit is.
Turns are kept as an axis and an angle, so quaternions are never interpolated.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt
from pyrr import matrix44

Array = npt.NDArray[np.float64]
"""Vectors of shape (3,) or (4,), matrices of shape (3, 3) or (4, 4)."""


def vector(values: Any) -> Array:
    """``values`` as a fresh float64 array."""
    return np.array(values, dtype=np.float64)


def normalised(values: Any) -> Array:
    """The vector of length 1 in the direction of ``values``. Raises ValueError for a vector of length 0."""
    array = vector(values)
    length = float(np.linalg.norm(array))
    if length == 0.0:
        raise ValueError("a vector of length 0 has no direction; give at least one component other than 0")
    return array / length


def rotation(axis: Any, angle: float) -> Array:
    """The (3, 3) matrix turning by ``angle`` radians about ``axis``, counter-clockwise seen from its tip.

    By the formula of Rodrigues: a layer that turns needs one for every frame.
    """
    x, y, z = normalised(axis)
    cross = vector([(0.0, -z, y), (z, 0.0, -x), (-y, x, 0.0)])
    return np.asarray(np.eye(3) + np.sin(angle) * cross + (1.0 - np.cos(angle)) * (cross @ cross))


def look_at(eye: Any, target: Any, up: Any) -> Array:
    """The (4, 4) view matrix of an eye at ``eye`` looking at ``target``: x right, y up, z towards the eye."""
    return vector(matrix44.create_look_at(vector(eye), vector(target), vector(up)).T)


def perspective(focal: float, aspect: float, near: float, far: float) -> Array:
    """The (4, 4) projection onto OpenGL's clip space.

    ``focal`` is the cotangent of half the vertical angle of view, ``aspect`` width over height, ``near`` and
    ``far`` the distances (above 0) that map to depth -1 and 1 (OpenGL 3.3 core specification, 2.13).
    """
    top = near / float(focal)
    right = top * float(aspect)
    matrix = matrix44.create_perspective_projection_from_bounds(
        -right, right, -top, top, float(near), float(far), dtype=np.float64
    )
    return vector(matrix.T)


def reflection(normal: Any, offset: float) -> Array:
    """The (4, 4) matrix that mirrors in the plane ``normal . x = offset``; ``normal`` is made unit length.

    A Householder reflection: Golub and Van Loan, Matrix Computations, 5.1.
    """
    unit = normalised(normal)
    matrix = np.eye(4)
    matrix[:3, :3] -= 2.0 * np.outer(unit, unit)
    matrix[:3, 3] = 2.0 * float(offset) * unit
    return matrix


def homogeneous(linear: Array) -> Array:
    """The (4, 4) matrix of a (3, 3) one."""
    matrix = np.eye(4)
    matrix[:3, :3] = linear
    return matrix


def transform(matrix: Array, points: Any) -> Array:
    """Points of shape (..., 3) sent through a (4, 4) matrix, divided by the last coordinate."""
    array = vector(points)
    carried = array @ matrix[:3, :3].T + matrix[:3, 3]
    weight = array @ matrix[3, :3] + matrix[3, 3]
    return np.asarray(carried / weight[..., None])
