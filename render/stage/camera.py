"""From the camera's angles to where the eye is and which way is up; pure functions.

The eye stays at one distance, so that the picture keeps its perspective at every size.
"""

from __future__ import annotations

import numpy as np

from render.stage.linear import Array, vector
from tutor.ui.view import Camera

EYE_DISTANCE = 17.0
"""From the eye to the middle of the cube, in cubies."""


def camera_direction(camera: Camera) -> Array:
    """From the cube's middle towards the eye, of length 1."""
    yaw, pitch = np.radians(camera.yaw), np.radians(camera.pitch)
    return vector((np.sin(yaw) * np.cos(pitch), np.sin(pitch), np.cos(yaw) * np.cos(pitch)))


def eye_position(camera: Camera) -> Array:
    """Where the eye is."""
    return EYE_DISTANCE * camera_direction(camera)


def camera_axes(camera: Camera) -> tuple[Array, Array]:
    """The directions to the right and up in the picture. Straight above, right is still the cube's right."""
    yaw = np.radians(camera.yaw)
    right = vector((np.cos(yaw), 0.0, -np.sin(yaw)))
    return right, np.cross(camera_direction(camera), right)
