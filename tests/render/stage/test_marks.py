import numpy as np
import pytest

from render.stage.arrows import CASING, arrow_angles, turn_arrow
from render.stage.camera import eye_position
from render.stage.geometry import STICKERS_OF_CUBIE, cubie_number, normal, sticker_centre, sticker_face
from render.stage.linear import Array
from render.stage.mark_mesh import STAYS
from render.stage.marks import marks_key, marks_of, slot_frame
from render.stage.mesh import Mesh
from render.theme import load_theme
from tutor.ui.view import REST_CAMERA, Arrow, Camera, Face, Stage, Turn

THEME = load_theme("light").stage
SOLVED = tuple(face for face in range(6) for _ in range(9))


def number(x: int, y: int, z: int) -> int:
    return cubie_number((x, y, z))


FRONT = number(1, 1, 1)
SLOT = frozenset({number(1, -1, 1), number(1, 0, 1)})


def triangles(mesh: Mesh) -> Array:
    """The corners of each triangle, shape (n, 3, 3)."""
    return np.asarray(mesh.vertices[mesh.indices, :3].astype(np.float64).reshape(-1, 3, 3))


def faced(mesh: Mesh) -> Array:
    """The way that each triangle faces, as long as twice its area."""
    corners = triangles(mesh)
    return np.asarray(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]))


def test_a_bare_stage_has_no_marks() -> None:
    marks = marks_of(Stage(SOLVED), THEME)
    assert (marks.glow, marks.solid, marks.arrow) == (0, 0, 0)


def test_each_sticker_of_the_pair_has_a_ring_that_faces_outwards_and_leaves_its_middle_free() -> None:
    mesh = marks_of(Stage(SOLVED, outlined=frozenset({FRONT})), THEME).mesh
    middles, ways = triangles(mesh).mean(axis=1), faced(mesh)
    for sticker in STICKERS_OF_CUBIE[FRONT]:
        outward = normal(sticker_face(sticker))
        on_face = middles @ outward > 1.52
        assert on_face.any()
        assert (ways[on_face] @ outward > 0.0).all()
        away = middles[on_face] - sticker_centre(sticker)
        away -= (away @ outward)[:, None] * outward
        assert (np.abs(away).max(axis=1) > 0.40).all()


def test_rings_travel_and_frames_stay() -> None:
    rings = marks_of(Stage(SOLVED, outlined=frozenset({FRONT})), THEME).mesh
    assert set(rings.vertices[:, 10]) == {FRONT}
    assert set(slot_frame(SLOT, False, THEME.frame_casing, THEME.frame).vertices[:, 10]) == {STAYS}


def test_the_frame_goes_round_what_the_slot_fills_of_each_face() -> None:
    mesh = slot_frame(SLOT, True, THEME.frame_casing, THEME.frame)
    middles, ways = triangles(mesh).mean(axis=1), faced(mesh)
    seen = {face: middles[middles @ normal(face) > 1.53] for face in Face}
    assert {face for face in Face if len(seen[face])} == {Face.F, Face.R, Face.D}
    for face, places in ((Face.F, seen[Face.F]), (Face.R, seen[Face.R])):
        assert places[:, 1].max() == pytest.approx(0.5, abs=0.06)
        assert places[:, 1].min() == pytest.approx(-1.5, abs=0.06)
        assert (ways[middles @ normal(face) > 1.53] @ normal(face) > 0.0).all()


def test_the_frame_is_dashed_until_the_slot_is_filled_and_has_a_halo_then() -> None:
    def area(filled: bool) -> float:
        mesh = slot_frame(SLOT, filled, THEME.frame_casing, THEME.frame)
        return float(np.linalg.norm(faced(mesh), axis=1).sum())

    # Nine parts of ink to six and a half without; the casing fills some of the gaps.
    assert 0.55 < area(False) / area(True) < 0.85
    dashed, whole = (marks_of(Stage(SOLVED, framed=SLOT, filled=filled), THEME) for filled in (False, True))
    assert dashed.glow == 0 < whole.glow


@pytest.mark.parametrize("turn", list(Turn))
def test_the_arrow_goes_the_way_of_its_turn(turn: Turn) -> None:
    start, end = arrow_angles(turn, REST_CAMERA)
    # Angles grow counter-clockwise; a plain turn is clockwise (WCA 12a1a), a prime is not.
    assert (end < start) is (turn.quarters != 3)
    assert abs(end - start) == pytest.approx(2.08 if turn.quarters == 2 else 1.6)


@pytest.mark.parametrize("turn", list(Turn))
def test_the_arrow_lies_on_its_layer_and_faces_the_eye(turn: Turn) -> None:
    mesh = turn_arrow(turn, REST_CAMERA, THEME.arrow, THEME.arrow_casing)
    places, ways = triangles(mesh), faced(mesh)
    if turn.quarters != 2:  # the figure 2 of a half turn is drawn beside its tail
        assert (np.abs(places @ normal(turn.face) - 1.0) < 0.31 + 3 * CASING).all()
    solid = np.linalg.norm(ways, axis=1) > 1e-6
    towards = np.einsum("ij,ij->i", ways, eye_position(REST_CAMERA) - places.mean(axis=1))
    assert (towards[solid] > 0.0).mean() > 0.97


def test_the_middle_of_an_arrow_is_on_the_edge_between_two_sides_or_on_the_only_one_seen() -> None:
    for yaw, middle in ((32.0, 0.25), (3.0, 0.0), (87.0, 0.5)):
        start, end = arrow_angles(Turn.U, Camera(yaw, 28.0))
        # Of U as it lies on the page, right is R and up is B; F is a quarter down.
        assert (start + end) / 2 / np.pi == pytest.approx(middle - 0.5), yaw


def test_an_arrow_stays_while_the_eye_moves_a_little() -> None:
    keys = [marks_key(Stage(SOLVED, camera=Camera(yaw, 28.0), arrow=Arrow(Turn.U))) for yaw in (30.0, 34.0)]
    assert keys[0] == keys[1]
    assert keys[0] != marks_key(Stage(SOLVED, camera=Camera(120.0, 28.0), arrow=Arrow(Turn.U)))
