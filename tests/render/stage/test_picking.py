from itertools import product

import numpy as np
import pytest

from render.stage.geometry import FRAMES, STICKER_CUBIES, normal, sticker_centre, sticker_face, turned_cubies
from render.stage.linear import Array, rotation, transform, vector
from render.stage.mirrors import mirrors
from render.stage.picking import StageHand, pick
from render.stage.sight import sight
from tutor.ui.view import REST_CAMERA, Camera, Face, Look, Stage, Turning

SIZE = (850.0, 560.0)
VIEWS = [REST_CAMERA, Camera(-40.0, 20.0), Camera(130.0, 35.0), Camera(220.0, -30.0), Camera(10.0, 75.0, 1.3)]
LOOK, PLAIN = Look(), Look(mirrors=False)


def on_stage(camera: Camera, point: Array, with_mirrors: bool) -> tuple[float, float]:
    x, y = sight(camera, SIZE, with_mirrors).to_viewport(point)
    return float(x), SIZE[1] - float(y)


def faces_eye(camera: Camera, face: Face) -> bool:
    eye = sight(camera, SIZE, mirrors=False).eye
    return bool((eye - 1.5 * normal(face)) @ normal(face) > 0.3)


def direct_cases() -> list[tuple[Camera, int]]:
    return [(view, s) for view, s in product(VIEWS, range(54)) if faces_eye(view, sticker_face(s))]


def test_the_views_show_all_54_stickers_between_them() -> None:
    assert {sticker for _, sticker in direct_cases()} == set(range(54))


@pytest.mark.parametrize("view", VIEWS)
def test_a_point_on_a_sticker_that_faces_the_eye_picks_it(view: Camera, solved: Stage) -> None:
    stage = Stage(solved.colours, camera=view)
    for camera, sticker in direct_cases():
        if camera is not view:
            continue
        frame = FRAMES[sticker_face(sticker)]
        for across, down in product((-0.4, 0.0, 0.4), repeat=2):
            point = sticker_centre(sticker) + across * vector(frame.right) + down * vector(frame.down)
            hit = pick(stage, False, SIZE, *on_stage(view, point, False))
            assert hit is not None
            assert hit.sticker == sticker
            assert hit.mirror is None
            assert np.allclose(hit.point, point, atol=1e-6)


@pytest.mark.parametrize("number", [0, 1, 2])
def test_every_sticker_of_a_hidden_face_is_picked_through_its_mirror(number: int, solved: Stage) -> None:
    mirror = mirrors(REST_CAMERA)[number]
    for sticker in range(9 * mirror.face, 9 * mirror.face + 9):
        image = transform(mirror.matrix, sticker_centre(sticker))
        hit = pick(solved, True, SIZE, *on_stage(REST_CAMERA, image, True))
        assert hit is not None
        assert (hit.sticker, hit.mirror) == (sticker, mirror)


def test_a_mirror_that_is_switched_off_shows_nothing_to_pick(solved: Stage) -> None:
    image = transform(mirrors(REST_CAMERA)[0].matrix, sticker_centre(9 * Face.L + 4))
    assert pick(solved, False, SIZE, *on_stage(REST_CAMERA, image, False)) is None


def test_the_background_picks_nothing(solved: Stage) -> None:
    for point in ((2.0, 555.0), (848.0, 300.0), (425.0, 2.0)):
        assert pick(solved, True, SIZE, *point) is None


@pytest.mark.parametrize("turning", [Turning(Face.U, 0.5), Turning(Face.R, -0.7), Turning(Face.F, 0.4, 2)])
def test_stickers_of_a_turning_layer_are_picked_where_they_are_seen(turning: Turning, solved: Stage) -> None:
    stage = Stage(solved.colours, turning)
    turn = rotation(normal(turning.face), -turning.angle)
    eye = sight(REST_CAMERA, SIZE, mirrors=False).eye
    moved = turned_cubies(turning)
    found = 0
    for sticker in range(9 * turning.face, 9 * turning.face + 9):
        assert moved[STICKER_CUBIES[sticker]]
        point = turn @ sticker_centre(sticker)
        if (eye - point) @ (turn @ normal(turning.face)) <= 0.0:
            continue
        hit = pick(stage, False, SIZE, *on_stage(REST_CAMERA, point, False))
        assert hit is not None
        assert hit.sticker == sticker
        found += 1
    assert found == 9


def test_the_inside_that_a_turning_layer_lays_open_is_no_sticker(solved: Stage) -> None:
    stage = Stage(solved.colours, Turning(Face.U, np.pi / 4), Camera(0.0, 40.0))
    inside = vector((1.42, 0.5, 1.42))
    assert pick(stage, False, SIZE, *on_stage(stage.camera, inside, False)) is None


def layers_of(sticker: int) -> list[Face]:
    """Faces other than its own whose turns carry the sticker."""
    place = sticker_centre(sticker)
    return [face for face in Face if face is not sticker_face(sticker) and place @ normal(face) > 0.9]


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("angle", [0.06, -0.06])
def test_a_layer_turns_as_far_as_the_hand_takes_its_sticker(
    view: Camera, angle: float, solved: Stage
) -> None:
    stage = Stage(solved.colours, camera=view)
    for camera, sticker in direct_cases():
        if camera is not view:
            continue
        begin = sticker_centre(sticker)
        held = StageHand().grip(stage, PLAIN, SIZE, *on_stage(view, begin, False))
        assert held is not None
        for face in layers_of(sticker):
            end = rotation(normal(face), -angle) @ begin
            dragged = held.drag(*on_stage(view, end, False))
            assert dragged is not None
            assert dragged[0] is face
            assert dragged[1] == pytest.approx(angle, abs=0.005)


@pytest.mark.parametrize("angle", [0.1, 0.5, 0.9, -0.9])
def test_each_way_of_dragging_is_understood_in_the_rest_view(angle: float, solved: Stage) -> None:
    shown = [s for s in range(54) if sticker_face(s) in (Face.U, Face.R, Face.F)]
    understood = 0
    for sticker in shown:
        begin = sticker_centre(sticker)
        held = StageHand().grip(solved, PLAIN, SIZE, *on_stage(REST_CAMERA, begin, False))
        assert held is not None
        for face in layers_of(sticker):
            end = rotation(normal(face), -angle) @ begin
            dragged = held.drag(*on_stage(REST_CAMERA, end, False))
            assert dragged is not None
            assert dragged[0] is face
            assert dragged[1] == pytest.approx(angle, abs=0.01)
            understood += 1
    assert understood == 36


@pytest.mark.parametrize("number", [0, 1, 2])
@pytest.mark.parametrize("angle", [0.06, -0.06])
def test_a_layer_follows_the_hand_through_a_mirror(number: int, angle: float, solved: Stage) -> None:
    mirror = mirrors(REST_CAMERA)[number]
    understood = 0
    for sticker in range(9 * mirror.face, 9 * mirror.face + 9):
        begin = sticker_centre(sticker)
        start = on_stage(REST_CAMERA, transform(mirror.matrix, begin), True)
        held = StageHand().grip(solved, LOOK, SIZE, *start)
        assert held is not None
        for face in layers_of(sticker):
            end = transform(mirror.matrix, rotation(normal(face), -angle) @ begin)
            dragged = held.drag(*on_stage(REST_CAMERA, end, True))
            assert dragged is not None
            assert dragged[0] is face
            assert dragged[1] == pytest.approx(angle, abs=0.005)
            understood += 1
    assert understood == 12


def test_a_centre_holds_still(solved: Stage) -> None:
    x, y = on_stage(REST_CAMERA, sticker_centre(9 * Face.F + 4), False)
    held = StageHand().grip(solved, PLAIN, SIZE, x, y)
    assert held is not None
    assert held.drag(x + 80.0, y) is None
    assert held.drag(x, y + 80.0) is None


def test_no_way_gone_is_no_turn(solved: Stage) -> None:
    x, y = on_stage(REST_CAMERA, sticker_centre(9 * Face.F), False)
    held = StageHand().grip(solved, PLAIN, SIZE, x, y)
    assert held is not None
    assert held.drag(x, y) is None


@pytest.mark.parametrize("with_mirrors", [True, False])
def test_whichever_way_the_hand_goes_something_follows_it(with_mirrors: bool, solved: Stage) -> None:
    look = Look(mirrors=with_mirrors)
    turned = still = 0
    for sticker in (s for s in range(54) if sticker_face(s) in (Face.U, Face.R, Face.F)):
        x, y = on_stage(REST_CAMERA, sticker_centre(sticker), with_mirrors)
        held = StageHand().grip(solved, look, SIZE, x, y)
        assert held is not None
        for direction in np.linspace(0.0, 2.0 * np.pi, 24, endpoint=False):
            place = x + 40.0 * np.cos(direction), y + 40.0 * np.sin(direction)
            layer = held.drag(*place)
            assert (layer is None) is held.holds_still(*place)
            if layer is not None:
                assert abs(layer[1]) > 0.0
                assert layer[0] in layers_of(sticker)
                turned += 1
            else:
                # A corner always has a layer to turn.
                assert len(layers_of(sticker)) < 2
                still += 1
    # Corners turn whichever way, edges half of them, centres none.
    assert turned > 1.3 * still
