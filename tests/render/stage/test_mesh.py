from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from render.stage.linear import Array
from render.stage.mesh import NO_STICKER, CubeMesh, cube_mesh, cut_behind, rounded_box, sticker_mesh
from tutor.ui.view import Face, Turning


@pytest.fixture(scope="module")
def cube() -> CubeMesh:
    return cube_mesh()


def corners_of(positions: npt.NDArray[Any], indices: npt.NDArray[Any]) -> Array:
    return np.asarray(positions[indices.reshape(-1, 3)].astype(np.float64))


def test_triangles_turn_the_way_their_normals_point(cube: CubeMesh) -> None:
    corners = corners_of(cube.mesh.vertices, cube.mesh.indices)
    faced = np.cross(corners[:, 1, :3] - corners[:, 0, :3], corners[:, 2, :3] - corners[:, 0, :3])
    assert (np.einsum("ij,ij->i", faced, corners[:, :, 3:6].mean(axis=1)) > 0.0).all()


def test_normals_have_length_one(cube: CubeMesh) -> None:
    assert np.allclose(np.linalg.norm(cube.mesh.vertices[:, 3:6], axis=1), 1.0, atol=1e-5)


def test_a_rounded_box_keeps_its_size_and_encloses_its_volume() -> None:
    half, radius = np.array([0.5, 0.4, 0.3]), 0.1
    positions, _, indices = rounded_box(half, radius, 12)
    assert np.allclose(np.abs(positions).max(axis=0), half)
    a, b, c = corners_of(positions, indices).transpose(1, 0, 2)
    volume = np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0
    # Steiner's formula for a box rounded by r: V + S r + (r^2 pi / 4) * edges + 4/3 pi r^3.
    x, y, z = 2 * (half - radius)
    expected = x * y * z + 2 * radius * (x * y + y * z + z * x) + np.pi * radius**2 * (x + y + z)
    expected += 4 / 3 * np.pi * radius**3
    assert volume == pytest.approx(expected, rel=2e-3)


def test_every_cubie_has_a_body_and_every_sticker_a_plate(cube: CubeMesh) -> None:
    body = cube.mesh.vertices[:, 7] == NO_STICKER
    assert set(cube.mesh.vertices[body, 6].astype(int)) == set(range(27)) - {13}
    assert set(cube.mesh.vertices[~body, 7].astype(int)) == set(range(54))


def test_stickers_rise_above_the_body_of_their_face() -> None:
    mesh = sticker_mesh(9 * Face.R + 4, 4)
    assert mesh.vertices[:, 0].max() == pytest.approx(1.522)
    assert mesh.vertices[:, 0].min() == pytest.approx(1.5)


def test_the_closed_cube_shows_no_triangle_deep_inside(cube: CubeMesh) -> None:
    first, count = cube.ranges[None]
    corners = corners_of(cube.mesh.vertices, cube.mesh.indices[first : first + count])
    assert np.abs(corners[:, :, :3].mean(axis=1)).max(axis=1).min() > 1.3


@pytest.mark.parametrize("face", list(Face))
def test_a_cut_lays_the_two_sides_behind_the_layer_open(face: Face, cube: CubeMesh) -> None:
    first, count = cube.ranges[face]
    corners = corners_of(cube.mesh.vertices, cube.mesh.indices[first : first + count])
    middles = corners[:, :, :3].mean(axis=1)
    axis, sign = [1, 1, 0, 0, 2, 2][face], [1, -1, -1, 1, 1, -1][face]
    inside = np.abs(middles[:, [a for a in range(3) if a != axis]]).max(axis=1) < 1.3
    on_cut = np.abs(sign * middles[:, axis] - 0.5) < 0.1
    normals = sign * corners[:, :, 3 + axis].mean(axis=1)
    assert (normals[inside & on_cut] > 0.9).sum() >= 18
    assert (normals[inside & on_cut] < -0.9).sum() >= 18


def test_the_cut_lies_behind_the_turning_layers() -> None:
    assert cut_behind(None) is None
    assert cut_behind(Turning(Face.R, 0.1)) is Face.R
    assert cut_behind(Turning(Face.R, 0.1, 2)) is Face.L
    assert cut_behind(Turning(Face.R, 0.1, 3)) is None
