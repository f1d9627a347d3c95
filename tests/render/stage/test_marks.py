import numpy as np
import pytest

from render.stage.arrows import arrow_angles, turn_arrow
from render.stage.geometry import CUBIE_PLACES, cubie_number, normal
from render.stage.mark_mesh import STAYS
from render.stage.marks import covered_cubies, marks_key, marks_of, slot_frame
from render.theme import load_theme
from tutor.ui.view import REST_CAMERA, Arrow, Camera, Face, Stage, Turn, Turning

THEME = load_theme("light").stage
SOLVED = tuple(face for face in range(6) for _ in range(9))


def number(x: int, y: int, z: int) -> int:
    return cubie_number((x, y, z))


FRONT, BACK = number(1, 1, 1), number(-1, -1, -1)


def test_a_bare_stage_has_no_marks() -> None:
    marks = marks_of(Stage(SOLVED), THEME)
    assert (marks.glow, marks.solid, marks.ghost) == (0, 0, 0)


def test_only_the_cubie_without_a_sticker_towards_the_eye_is_covered() -> None:
    assert covered_cubies(frozenset({FRONT, BACK}), None, REST_CAMERA) == {BACK}
    assert covered_cubies(frozenset({FRONT, BACK}), None, Camera(212.0, -28.0)) == {FRONT}


def test_a_half_turn_brings_a_covered_cubie_to_light() -> None:
    cubie = number(-1, -1, -1)
    turning = Turning(Face.D, np.pi)
    assert covered_cubies(frozenset({cubie}), turning, REST_CAMERA) == frozenset()


def test_a_covered_cubie_gets_a_ghost_besides_its_outline() -> None:
    both = marks_of(Stage(SOLVED, outlined=frozenset({FRONT, BACK})), THEME)
    rows = both.mesh.vertices[both.mesh.indices[both.glow + both.solid :]]
    assert len(rows) == both.ghost > 0
    assert set(rows[:, 10]) == {BACK}
    assert np.abs(rows[:, :3] - CUBIE_PLACES[BACK]).max() <= 0.5
    assert both.solid == 2 * marks_of(Stage(SOLVED, outlined=frozenset({FRONT})), THEME).solid


def test_outlines_travel_and_frames_stay() -> None:
    outline = marks_of(Stage(SOLVED, outlined=frozenset({FRONT})), THEME).mesh
    assert set(outline.vertices[:, 10]) == {FRONT}
    assert set(slot_frame(frozenset({FRONT}), THEME.frame).vertices[:, 10]) == {STAYS}


def test_the_bars_of_an_outline_show_their_outsides() -> None:
    mesh = marks_of(Stage(SOLVED, outlined=frozenset({FRONT})), THEME).mesh
    boxes = mesh.vertices[mesh.indices, :3].astype(np.float64).reshape(12, 12, 3, 3)
    outward = boxes.mean(axis=2) - boxes.mean(axis=(1, 2))[:, None]
    faced = np.cross(boxes[:, :, 1] - boxes[:, :, 0], boxes[:, :, 2] - boxes[:, :, 0])
    assert (np.einsum("ijk,ijk->ij", outward, faced) > 0.0).all()


def test_the_frame_goes_round_both_places_of_the_slot() -> None:
    frame = slot_frame(frozenset({number(1, -1, 1), number(1, 0, 1)}), THEME.frame).vertices[:, :3]
    assert np.allclose(frame.max(axis=0), (1.615, 0.615, 1.615))
    assert np.allclose(frame.min(axis=0), (0.385, -1.615, 0.385))


@pytest.mark.parametrize("turn", list(Turn))
def test_the_arrow_goes_the_way_of_its_turn(turn: Turn) -> None:
    start, end = arrow_angles(turn, REST_CAMERA)
    # Angles grow counter-clockwise; a plain turn is clockwise (WCA 12a1a), a prime is not.
    assert (end < start) is (turn.quarters != 3)
    quarter = arrow_angles(Turn.of(turn.face, 1), REST_CAMERA)
    assert (abs(end - start) > 1.3 * abs(quarter[1] - quarter[0])) is (turn.quarters == 2)


@pytest.mark.parametrize("turn", list(Turn))
def test_the_arrow_stays_beside_its_layer_and_off_the_cube(turn: Turn) -> None:
    points = turn_arrow(turn, REST_CAMERA, THEME.arrow).vertices[:, :3].astype(np.float64)
    outward = normal(turn.face)
    heights = points @ outward
    assert (abs(heights - 1.0) < 0.36).all()
    radii = np.abs(points - heights[:, None] * outward).max(axis=1)
    assert radii.min() > 1.5


def test_an_arrow_stays_while_the_eye_moves_a_little() -> None:
    keys = [marks_key(Stage(SOLVED, camera=Camera(yaw, 28.0), arrow=Arrow(Turn.U))) for yaw in (30.0, 34.0)]
    assert keys[0] == keys[1]
    assert keys[0] != marks_key(Stage(SOLVED, camera=Camera(120.0, 28.0), arrow=Arrow(Turn.U)))
