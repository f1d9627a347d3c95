import numpy as np
import pytest

from render.stage.camera import eye_position
from render.stage.geometry import normal, sticker_centre
from render.stage.linear import transform, vector
from render.stage.mirrors import Mirror, mirrors
from render.stage.sight import sight
from tutor.ui.view import REST_CAMERA, Camera, Face

EYE = eye_position(REST_CAMERA)


def test_the_mirrors_show_the_three_faces_that_are_turned_away() -> None:
    assert [mirror.face for mirror in mirrors()] == [Face.L, Face.B, Face.D]
    for mirror in mirrors():
        assert EYE @ normal(mirror.face) < 1.5


@pytest.mark.parametrize("mirror", mirrors(), ids=lambda mirror: mirror.face.name)
def test_a_turning_layer_does_not_touch_the_mirror(mirror: Mirror) -> None:
    # The farthest point of a turning cube is a corner, sqrt(3) * 1.5 from the middle.
    assert -mirror.offset > 1.5 * np.sqrt(3.0)


@pytest.mark.parametrize("mirror", mirrors(), ids=lambda mirror: mirror.face.name)
def test_the_face_is_seen_whole_in_its_mirror_and_from_its_front(mirror: Mirror) -> None:
    outward = mirror.matrix[:3, :3] @ normal(mirror.face)
    for sticker in range(9 * mirror.face, 9 * mirror.face + 9):
        image = transform(mirror.matrix, sticker_centre(sticker))
        assert (EYE - image) @ outward > 0.0
        assert mirror.crossing(EYE, image - EYE) is not None
        assert (mirror.clip_planes(EYE) @ np.append(image, 1.0) > 0.0).all()


def test_the_cube_covers_no_sticker_in_a_mirror() -> None:
    # A point outside a convex outline sees it within half a circle.
    view = sight(REST_CAMERA, (850, 560), mirrors=True)
    cube = view.to_viewport(
        vector([(x, y, z) for x in (-1.5, 1.5) for y in (-1.5, 1.5) for z in (-1.5, 1.5)])
    )
    for mirror in mirrors():
        for sticker in range(9 * mirror.face, 9 * mirror.face + 9):
            seen = view.to_viewport(transform(mirror.matrix, sticker_centre(sticker)))
            angles = np.sort(np.arctan2(*(cube - seen).T[::-1]))
            gaps = np.diff(np.append(angles, angles[0] + 2 * np.pi))
            assert gaps.max() > np.pi


def test_panes_do_not_cover_each_other_in_the_rest_view() -> None:
    view = sight(REST_CAMERA, (850, 560), mirrors=True)
    left, back, below = (view.to_viewport(mirror.corners()) for mirror in mirrors())
    assert left[:, 0].max() < back[:, 0].min()
    assert below[:, 1].max() < min(left[:, 1].min(), back[:, 1].min()) + 60


def test_from_behind_a_mirror_shows_nothing() -> None:
    mirror = mirrors()[0]
    eye = eye_position(Camera(-100.0, 10.0))
    assert not mirror.faces(eye)
    assert mirror.crossing(eye, -eye) is None
    assert (mirror.clip_planes(eye) @ np.append(sticker_centre(22), 1.0) < 0.0).all()
