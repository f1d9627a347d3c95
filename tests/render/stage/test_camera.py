import numpy as np
import pytest

from render.stage.camera import camera_axes, camera_direction, eye_position
from render.stage.linear import vector
from render.stage.mirrors import mirrors
from render.stage.sight import sight
from tutor.ui.view import REST_CAMERA, Camera

SIZES = [(850, 560), (640, 400), (2560, 1600), (820, 640)]


def corners() -> np.ndarray:
    return vector([(x, y, z) for x in (-1.5, 1.5) for y in (-1.5, 1.5) for z in (-1.5, 1.5)])


def test_the_rest_view_shows_front_right_and_top() -> None:
    assert (camera_direction(REST_CAMERA) > 0.3).all()


def test_a_larger_yaw_shows_more_of_the_right_side() -> None:
    assert camera_direction(Camera(50.0, 28.0))[0] > camera_direction(REST_CAMERA)[0]


def test_right_and_up_in_the_picture_are_right_and_up() -> None:
    view = sight(Camera(0.0, 0.0), (800, 600), mirrors=False)
    middle, right, up = view.to_viewport(vector([(0, 0, 0), (1, 0, 0), (0, 1, 0)]))
    assert right[0] > middle[0] + 20
    assert up[1] > middle[1] + 20


@pytest.mark.parametrize("size", SIZES)
def test_everything_is_in_the_picture_and_the_cube_is_large_and_centred(size: tuple[int, int]) -> None:
    view = sight(REST_CAMERA, size, mirrors=True)
    shown = view.to_viewport(
        np.concatenate([corners(), *(mirror.corners(0.07) for mirror in mirrors(REST_CAMERA))])
    )
    assert (shown >= 0.0).all()
    assert (shown <= size).all()
    cube = view.to_viewport(corners())
    assert abs((cube[:, 0].min() + cube[:, 0].max()) / 2 - size[0] / 2) < 0.03 * size[0]
    assert np.ptp(cube[:, 1]) > 0.5 * min(size[1], size[0] / 1.5)


@pytest.mark.parametrize("size", SIZES)
def test_without_mirrors_the_cube_fills_more(size: tuple[int, int]) -> None:
    alone, beside = (sight(REST_CAMERA, size, mirrors=m).to_viewport(corners()) for m in (False, True))
    assert np.ptp(alone[:, 1]) > 1.2 * np.ptp(beside[:, 1])


def test_zoom_enlarges_the_picture() -> None:
    near, usual = (
        sight(Camera(32.0, 28.0, zoom), (800, 600), False).to_viewport(corners()) for zoom in (1.5, 1.0)
    )
    assert np.ptp(near[:, 0]) == pytest.approx(1.5 * np.ptp(usual[:, 0]))


@pytest.mark.parametrize("pitch", [-89.9, -90.0, 0.0, 90.0])
def test_a_view_from_straight_above_or_below_is_no_special_case(pitch: float) -> None:
    view = sight(Camera(20.0, pitch), (800, 600), mirrors=False)
    assert np.isfinite(view.matrix).all()
    assert np.isfinite(view.to_viewport(corners())).all()


def test_a_ray_goes_through_the_point_it_was_asked_for() -> None:
    view = sight(Camera(70.0, 15.0, 1.2), (900, 500), mirrors=True)
    point = vector((0.7, -0.3, 1.1))
    ray = view.ray(*view.to_viewport(point))
    assert np.allclose(np.cross(ray, point - eye_position(Camera(70.0, 15.0))), 0.0, atol=1e-6)


def test_a_viewport_without_area_is_refused() -> None:
    with pytest.raises(ValueError, match="0 by 600"):
        sight(REST_CAMERA, (0, 600), mirrors=True)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("pitch", [-60.0, -10.0, 28.0, 60.0, 80.0])
def test_the_middle_of_every_pane_stays_in_the_picture_and_still_while_one_looks_round(
    size: tuple[int, int], pitch: float
) -> None:
    at_rest = [sight(REST_CAMERA, size, True).to_viewport(mirror.centre) for mirror in mirrors(REST_CAMERA)]
    for yaw in range(-180, 180, 15):
        camera = Camera(yaw, pitch)
        view = sight(camera, size, mirrors=True)
        for mirror, place in zip(mirrors(camera), at_rest, strict=True):
            middle = view.to_viewport(mirror.centre)
            assert (middle >= 0.0).all()
            assert (middle <= vector(size)).all()
            assert np.linalg.norm(middle - place) < 0.06 * size[0]


def test_the_cube_keeps_its_size_while_one_looks_round() -> None:
    def height(camera: Camera) -> float:
        view = sight(camera, (850, 610), mirrors=True)
        up = camera_axes(camera)[1]
        return float(np.ptp(view.to_viewport(vector([1.5 * up, -1.5 * up]))[:, 1]))

    heights = [height(Camera(yaw, 40.0)) for yaw in np.arange(-180.0, 180.0, 5.0)]
    assert np.ptp(heights) < 1e-6
