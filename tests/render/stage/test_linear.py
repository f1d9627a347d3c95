import numpy as np
import pytest
from pyrr import matrix33, quaternion

from render.stage.linear import look_at, normalised, perspective, reflection, rotation, transform, vector


def test_an_axis_written_in_integers_turns_as_one_in_floats() -> None:
    assert np.allclose(rotation([0, 1, 0], 0.7), rotation([0.0, 1.0, 0.0], 0.7))


@pytest.mark.parametrize("axis", [(1, 0, 0), (0, 1, 0), (0, 0, 1), (1, 2, -3)])
@pytest.mark.parametrize("angle", [-3.0, -0.4, 0.0, 1e-9, 0.4, np.pi / 2, np.pi, 5.0])
def test_rotation_agrees_with_the_quaternions_of_a_library(axis: tuple[int, int, int], angle: float) -> None:
    unit = np.array(axis) / np.linalg.norm(axis)
    expected = matrix33.create_from_quaternion(quaternion.create_from_axis_rotation(unit, angle))
    assert np.allclose(rotation(axis, angle), expected, atol=1e-12)


def test_a_quarter_about_z_carries_x_to_y() -> None:
    assert np.allclose(rotation((0, 0, 1), np.pi / 2) @ vector((1, 0, 0)), (0, 1, 0))


def test_a_vector_of_length_zero_has_no_direction() -> None:
    with pytest.raises(ValueError, match="length 0"):
        normalised((0, 0, 0))


def test_the_view_matrix_puts_the_target_before_the_eye() -> None:
    view = look_at((3, 4, 5), (1, 0, -1), (0, 1, 0))
    distance = float(np.linalg.norm(vector((2, 4, 6))))
    assert np.allclose(transform(view, (1, 0, -1)), (0, 0, -distance))
    assert np.allclose(transform(view, (3, 4, 5)), (0, 0, 0), atol=1e-12)
    assert transform(view, (1, 1, -1))[1] > 0


def test_the_projection_maps_near_and_far_to_the_ends_of_the_depth() -> None:
    matrix = perspective(2.0, 1.5, 3.0, 30.0)
    assert transform(matrix, (0, 0, -3.0))[2] == pytest.approx(-1.0)
    assert transform(matrix, (0, 0, -30.0))[2] == pytest.approx(1.0)
    # Half the picture's height at distance d is d / focal, its width that times the aspect.
    assert np.allclose(transform(matrix, (1.5 * 5.0, 5.0, -10.0))[:2], (1.0, 1.0))


def test_a_reflection_is_its_own_inverse_and_keeps_its_plane() -> None:
    matrix = reflection((1, 2, 2), 3.0)
    assert np.allclose(matrix @ matrix, np.eye(4))
    on_plane = vector((1, 2, 2)) / 3 * 3.0
    assert np.allclose(transform(matrix, on_plane), on_plane)
    assert np.linalg.det(matrix[:3, :3]) == pytest.approx(-1.0)
