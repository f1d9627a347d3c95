from itertools import product

import numpy as np
import pytest

from render.stage.camera import eye_position
from render.stage.geometry import (
    FRAMES,
    HALF_CUBE,
    STICKER_CUBIES,
    normal,
    sticker_centre,
    sticker_face,
    turned_cubies,
    turning_matrix,
)
from render.stage.linear import Array, transform, vector
from render.stage.mesh import STICKER_HALF
from render.stage.mirrors import Mirror, mirrors
from render.stage.sight import sight
from render.stage.surroundings import RIM_WIDTH
from tutor.ui.view import REST_CAMERA, Camera, Face, Turning

CAMERAS = [
    REST_CAMERA,
    *(Camera(yaw, pitch) for yaw, pitch in product((-150, -60, 0, 90, 180), (-70, 0, 50))),
]
TURNINGS = [None, *(Turning(face, angle) for face in Face for angle in np.linspace(0.1, np.pi / 2, 6))]
CORNERS = np.array([
    np.stack([
        sticker_centre(sticker) + STICKER_HALF * (across * vector(frame.right) + down * vector(frame.down))
        for across, down in product((-1, 1), repeat=2)
    ])
    for sticker in range(54)
    for frame in [FRAMES[sticker_face(sticker)]]
])  # fmt: skip
"""The corners of every sticker; shape (54, 4, 3)."""
NORMALS = np.array([normal(sticker_face(sticker)) for sticker in range(54)])


def visible_corners(mirror: Mirror, eye: Array, turning: Turning | None) -> Array:
    """The corners, reflected, of every sticker whose reflection faces the eye; shape (n, 3).

    With a layer in mid-turn those of the layer alone: all others are where they are at rest.
    """
    moved = np.ones(27, dtype=bool) if turning is None else turned_cubies(turning)
    shown = moved[list(STICKER_CUBIES)]
    matrix = turning_matrix(turning)
    images = transform(mirror.matrix, (CORNERS[shown] @ matrix.T).reshape(-1, 3)).reshape(-1, 4, 3)
    outward = NORMALS[shown] @ (mirror.matrix[:3, :3] @ matrix).T
    facing = np.einsum("ni,ni->n", eye - images[:, 0], outward) > 0.0
    return np.asarray(images[facing].reshape(-1, 3))


@pytest.mark.parametrize("camera", CAMERAS, ids=lambda camera: f"{camera.yaw:g}-{camera.pitch:g}")
def test_every_visible_sticker_of_a_reflection_lies_inside_its_pane(camera: Camera) -> None:
    """At rest, with each layer in mid-turn, and while one looks round."""
    eye = eye_position(camera)
    for mirror, turning in product(mirrors(camera), TURNINGS):
        images = visible_corners(mirror, eye, turning)
        assert len(images) or turning is not None
        for image in images:
            assert mirror.crossing(eye, image - eye) is not None, (mirror.face, turning)


def test_at_rest_the_mirrors_show_the_three_faces_that_are_turned_away() -> None:
    assert [mirror.face for mirror in mirrors(REST_CAMERA)] == [Face.L, Face.B, Face.D]


@pytest.mark.parametrize("camera", CAMERAS[1:], ids=str)
def test_a_mirror_shows_a_face_that_is_turned_away(camera: Camera) -> None:
    eye = eye_position(camera)
    for mirror in mirrors(camera):
        assert eye @ normal(mirror.face) <= 1.5
        image = transform(mirror.matrix, 1.5 * normal(mirror.face))
        assert (eye - image) @ (mirror.matrix[:3, :3] @ normal(mirror.face)) > 0.0


@pytest.mark.parametrize("mirror", mirrors(REST_CAMERA), ids=lambda mirror: mirror.face.name)
def test_a_turning_layer_does_not_touch_the_mirror(mirror: Mirror) -> None:
    # The farthest point of a turning cube is a corner, sqrt(3) * 1.5 from the middle.
    assert -mirror.offset > 1.5 * np.sqrt(3.0)


def test_the_cube_covers_no_sticker_of_a_hidden_face_in_its_mirror() -> None:
    # A point outside a convex outline sees it within half a circle.
    view = sight(REST_CAMERA, (850, 560), mirrors=True)
    cube = view.to_viewport(
        vector([(x, y, z) for x in (-1.5, 1.5) for y in (-1.5, 1.5) for z in (-1.5, 1.5)])
    )
    for mirror in mirrors(REST_CAMERA):
        for sticker in range(9 * mirror.face, 9 * mirror.face + 9):
            seen = view.to_viewport(transform(mirror.matrix, sticker_centre(sticker)))
            angles = np.sort(np.arctan2(*(cube - seen).T[::-1]))
            gaps = np.diff(np.append(angles, angles[0] + 2 * np.pi))
            assert gaps.max() > np.pi


def test_panes_do_not_cover_each_other_in_the_rest_view() -> None:
    view = sight(REST_CAMERA, (850, 560), mirrors=True)
    left, back, below = (view.to_viewport(mirror.corners()) for mirror in mirrors(REST_CAMERA))
    assert left[:, 0].max() < back[:, 0].min()
    assert below[:, 1].max() < min(left[:, 1].min(), back[:, 1].min())


def test_a_ray_beside_the_pane_or_away_from_it_does_not_meet_it() -> None:
    mirror, eye = mirrors(REST_CAMERA)[0], eye_position(REST_CAMERA)
    assert mirror.crossing(eye, eye) is None
    assert mirror.crossing(eye, mirror.corners(0.2)[0] - eye) is None
    assert mirror.crossing(eye, mirror.centre - eye) is not None


@pytest.mark.parametrize("size", [(1229, 808), (819, 560), (560, 640)], ids=str)
def test_without_the_mirror_below_the_cube_is_larger_and_the_others_stay_whole(size: tuple[int, int]) -> None:
    cube = HALF_CUBE * np.array(list(product((-1, 1), repeat=3)))
    usual, larger = (sight(REST_CAMERA, size, True, below) for below in (True, False))
    spans = [np.ptp(view.to_viewport(cube)[:, 1]) for view in (usual, larger)]
    assert spans[1] >= spans[0]
    assert mirrors(REST_CAMERA, False) == mirrors(REST_CAMERA)[:2]
    for mirror in mirrors(REST_CAMERA, False):
        corners = larger.to_viewport(mirror.corners(RIM_WIDTH))
        assert (corners >= 0).all()
        assert (corners <= size).all()
