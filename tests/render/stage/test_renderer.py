"""What the stage looks like, asserted on pixels of pictures drawn without a display."""

from functools import cache

import numpy as np
import numpy.typing as npt
import pytest
from msgspec.structs import replace

from render.offscreen import OffscreenError, render_stage, shared_context
from render.stage.geometry import (
    STICKER_CUBIES,
    cubie_number,
    normal,
    sticker_centre,
    sticker_face,
    turning_matrix,
)
from render.stage.linear import Array, transform, vector
from render.stage.marks import FRAME_RISE, RING_HALF, RING_RISE
from render.stage.mirrors import mirrors
from render.stage.palette import PaletteError, load_palette, to_linear
from render.stage.sight import sight
from render.stage.surroundings import faces_of_hidden_slot
from render.theme import load_theme
from tutor.ui.view import HIDDEN, REST_CAMERA, Arrow, Camera, Face, Look, Stage, Turn, Turning

SIZE = (850, 560)
THEME = load_theme("light").stage
LOOK = Look()
PLAIN = Look(mirrors=False)
MIXED = tuple((5 * sticker + sticker // 7) % 6 for sticker in range(54))
SOLVED = tuple(face for face in range(6) for _ in range(9))
Picture = npt.NDArray[np.uint8]


@cache
def picture(stage: Stage, look: Look = LOOK) -> Picture:
    return render_stage(stage, look, SIZE)


def pixel(stage: Stage, point: Array, look: Look = LOOK) -> Array:
    """The colour, 0 to 1 in sRGB, in the middle of a 5 x 5 square round a world point."""
    x, y = sight(stage.camera, SIZE, look.mirrors).to_viewport(point)
    column, row = int(x), SIZE[1] - 1 - int(y)
    square = picture(stage, look)[row - 2 : row + 3, column - 2 : column + 3, :3]
    return np.asarray(np.median(square.reshape(-1, 3), axis=0) / 255.0)


def nearest_colour(rgb: Array, palette: str = "usual") -> int:
    """The palette colour of the most similar hue: light and shade stretch linear light along a line."""
    colours = to_linear(vector([colour.rgb for colour in load_palette(palette).stickers]))
    light = to_linear(rgb)
    return int((colours @ light / np.linalg.norm(colours, axis=1)).argmax())


def in_mirror(stage: Stage, sticker: int, number: int) -> Array:
    """The colour of a sticker in a mirror, with the glass' tint taken out."""
    seen = pixel(stage, transform(mirrors(REST_CAMERA)[number].matrix, sticker_centre(sticker)))
    alpha = THEME.mirror_tint[3]
    return np.clip((seen - alpha * vector(THEME.mirror_tint.rgb)) / (1.0 - alpha), 0.0, 1.0)


@pytest.mark.parametrize("arrangement", [(1, 0, 3, 2, 4, 5), (4, 5, 0, 1, 2, 3), (2, 0, 1, 5, 3, 4)])
def test_any_arrangement_of_the_colours_is_drawn(arrangement: tuple[int, ...]) -> None:
    look = replace(LOOK, arrangement=arrangement)
    for face in (Face.U, Face.R, Face.F):
        seen = pixel(Stage(SOLVED), sticker_centre(9 * face + 4), look)
        assert nearest_colour(seen) == arrangement[face]


@pytest.mark.parametrize("face", [Face.U, Face.R, Face.F])
def test_each_sticker_that_faces_the_eye_has_its_colour_at_its_place(face: Face) -> None:
    stage = Stage(MIXED)
    for sticker in range(9 * face, 9 * face + 9):
        assert nearest_colour(pixel(stage, sticker_centre(sticker))) == MIXED[sticker]


@pytest.mark.parametrize("number", [0, 1, 2])
def test_each_hidden_sticker_has_its_colour_in_its_mirror(number: int) -> None:
    stage = Stage(MIXED)
    face = mirrors(REST_CAMERA)[number].face
    for sticker in range(9 * face, 9 * face + 9):
        assert nearest_colour(in_mirror(stage, sticker, number)) == MIXED[sticker]


@pytest.mark.parametrize("name", ["usual", "high-contrast", "colour-blind"])
def test_all_six_colours_of_a_palette_are_told_apart_at_rest(name: str) -> None:
    look = Look(palette=name)
    seen = [nearest_colour(pixel(Stage(SOLVED), sticker_centre(9 * f + 4), look), name) for f in (0, 3, 4)]
    assert seen == [0, 3, 4]


def test_a_lit_face_is_close_to_the_colour_of_its_palette() -> None:
    # Conversion to sRGB twice, or not at all, would be off by 0.2 and more.
    seen = pixel(Stage(SOLVED), sticker_centre(9 * Face.F + 4))
    assert np.allclose(seen, load_palette("usual").F.rgb, atol=0.06)


@pytest.mark.parametrize("angle", [0.35, -0.6, np.pi / 2])
@pytest.mark.parametrize("face", [Face.U, Face.R, Face.F])
def test_a_turning_layer_carries_its_colours(face: Face, angle: float) -> None:
    turning = Turning(face, angle)
    stage = Stage(MIXED, turning)
    turn = turning_matrix(turning)
    for sticker in range(9 * face, 9 * face + 9):
        assert nearest_colour(pixel(stage, turn @ sticker_centre(sticker))) == MIXED[sticker]


@pytest.mark.parametrize("layers", [2, 3])
def test_two_and_three_layers_turn_together(layers: int) -> None:
    stage = Stage(MIXED, Turning(Face.U, 0.4, layers))
    turn = turning_matrix(stage.turning)
    eye = sight(stage.camera, SIZE, True).eye
    for sticker in range(27, 45):
        outward = normal(sticker_face(sticker))
        moves = sticker_centre(sticker)[1] > 1.4 - layers
        matrix = turn if moves else np.eye(3)
        if layers == 2 and not moves:
            continue  # partly covered by the layers above
        point = matrix @ sticker_centre(sticker)
        if (eye - point) @ (matrix @ outward) > 3.0:
            assert nearest_colour(pixel(stage, point)) == MIXED[sticker]


def test_a_quarter_turn_of_the_whole_cube_about_u_shows_the_right_side_in_front() -> None:
    stage = Stage(SOLVED, Turning(Face.U, np.pi / 2, 3))
    assert nearest_colour(pixel(stage, sticker_centre(9 * Face.F + 4))) == Face.R


def test_hidden_stickers_are_bare_plastic() -> None:
    colours = list(SOLVED)
    colours[9 * Face.F + 4] = HIDDEN
    red, green, blue = pixel(Stage(tuple(colours)), sticker_centre(9 * Face.F + 4))
    assert max(red, green, blue) - min(red, green, blue) < 0.05


def test_a_crossfade_goes_from_the_old_colours_to_the_new() -> None:
    old = tuple((colour + 1) % 6 for colour in SOLVED)
    middle = sticker_centre(9 * Face.F + 4)
    stage = Stage(SOLVED, crossfade=old)
    begin, half, end = (pixel(replace(stage, crossfade_mix=mix), middle) for mix in (0.0, 0.5, 1.0))
    assert nearest_colour(begin) == 5
    assert nearest_colour(end) == 4
    assert np.allclose(to_linear(half), (to_linear(begin) + to_linear(end)) / 2, atol=0.02)


def test_a_dimmed_sticker_is_grey_and_the_others_stay() -> None:
    dim, other = sticker_centre(9 * Face.F), sticker_centre(9 * Face.F + 4)
    plain = Stage(SOLVED)
    dimmed = replace(plain, dimmed=frozenset({STICKER_CUBIES[9 * Face.F]}))
    assert np.ptp(pixel(dimmed, dim)) < 0.06 < np.ptp(pixel(plain, dim))
    assert np.allclose(pixel(dimmed, other), pixel(plain, other))


def luminance(rgb: Array) -> float:
    return float(to_linear(rgb) @ vector((0.2126, 0.7152, 0.0722)))


@pytest.mark.parametrize("name", ["light", "dark"])
def test_a_cubie_of_the_pair_has_a_light_ring_in_a_dark_casing_and_keeps_its_colours(name: str) -> None:
    look, theme = Look(theme=name), load_theme(name).stage
    plain, ringed = Stage(SOLVED), Stage(SOLVED, outlined=frozenset({cubie_number((1, 1, 1))}))
    middle = sticker_centre(9 * Face.F + 2)
    assert np.allclose(pixel(ringed, middle, look), pixel(plain, middle, look))
    ring = nearest_pixel(ringed, middle + vector((0.0, RING_HALF, RING_RISE)), look, theme.ring)
    assert np.allclose(ring, theme.ring.rgb, atol=0.06)
    casing = nearest_pixel(
        ringed, middle + vector((0.0, RING_HALF + 0.035, RING_RISE)), look, theme.ring_casing
    )
    assert np.allclose(casing, theme.ring_casing.rgb, atol=0.15)


def nearest_pixel(stage: Stage, point: Array, look: Look, wanted: tuple[float, ...]) -> Array:
    """Of the pixels within two of a world point, the one most like the colour that is wanted there."""
    x, y = sight(stage.camera, SIZE, look.mirrors).to_viewport(point)
    column, row = int(x), SIZE[1] - 1 - int(y)
    square = picture(stage, look)[row - 2 : row + 3, column - 2 : column + 3, :3].reshape(-1, 3) / 255.0
    return np.asarray(square[np.abs(square - vector(wanted[:3])).sum(axis=1).argmin()])


def test_nothing_shines_through_the_cube() -> None:
    hidden = Stage(SOLVED, outlined=frozenset({cubie_number((-1, -1, -1))}))
    assert (picture(hidden, PLAIN) == picture(Stage(SOLVED), PLAIN)).all()
    assert (picture(hidden) != picture(Stage(SOLVED))).any()


def test_the_frame_of_the_slot_stays_while_its_layer_turns() -> None:
    slot = frozenset({cubie_number((1, -1, 1)), cubie_number((1, 0, 1))})
    bar = vector((1.0, 0.5 - 0.03, 1.5 + FRAME_RISE))
    for turning in (None, Turning(Face.U, 0.7), Turning(Face.R, 0.02)):
        stage = Stage(SOLVED, turning, framed=slot, filled=True)
        assert np.allclose(nearest_pixel(stage, bar, LOOK, THEME.frame), THEME.frame.rgb, atol=0.06)


def test_a_slot_out_of_sight_is_named_at_the_mirrors_that_show_it() -> None:
    def faces(*places: tuple[int, int, int]) -> frozenset[Face]:
        return faces_of_hidden_slot(Stage(SOLVED, framed=frozenset(cubie_number(place) for place in places)))

    assert faces((-1, -1, -1), (-1, 0, -1)) == {Face.L, Face.B}
    assert faces((1, -1, 1), (1, 0, 1)) == faces((-1, -1, 1), (-1, 0, 1)) == frozenset()
    shown = Stage(SOLVED, framed=frozenset({cubie_number((-1, -1, -1)), cubie_number((-1, 0, -1))}))
    names = np.abs(picture(shown).astype(int) - picture(Stage(SOLVED)).astype(int)).max(axis=2) > 60
    corner = mirrors(REST_CAMERA)[0].corners(0.07)[0]
    x, y = sight(REST_CAMERA, SIZE, True).to_viewport(corner)
    row, column = SIZE[1] - 1 - int(y), int(x)
    assert names[row + 20 : row + 60, column : column + 70].any()


@pytest.mark.parametrize("turn", [Turn.U, Turn.R_PRIME, Turn.F2, Turn.L, Turn.D, Turn.B])
def test_the_arrow_of_a_coming_turn_is_on_its_layer(turn: Turn) -> None:
    stage = Stage(SOLVED, arrow=Arrow(turn))
    changed = np.abs(picture(stage, PLAIN).astype(int) - picture(Stage(SOLVED), PLAIN).astype(int)).max(
        axis=2
    )
    rows, columns = np.nonzero(changed > 20)
    assert len(rows) > 600
    view = sight(stage.camera, SIZE, False)
    layer = vector([normal(turn.face) * 0.5 + corner for corner in _square(turn.face)])
    seen = view.to_viewport(np.concatenate([layer, layer + normal(turn.face)]))
    low, high = seen.min(axis=0) - 25, seen.max(axis=0) + 25
    assert (columns >= low[0]).all()
    assert (columns <= high[0]).all()
    assert (SIZE[1] - rows >= low[1]).all()
    assert (SIZE[1] - rows <= high[1]).all()


def test_in_the_middle_of_a_turn_the_whole_arrow_is_drawn() -> None:
    """The layer that sticks out hides nothing of it: the same pixels have its ink as on the cube at rest."""

    def inked(turning: Turning | None) -> npt.NDArray[np.bool_]:
        bare = Stage(SOLVED, turning)
        pictures = (picture(replace(bare, arrow=arrow), PLAIN) for arrow in (Arrow(Turn.R), None))
        with_arrow, without = (each.astype(int) for each in pictures)
        ink = with_arrow[..., :3].max(axis=2) < 60
        return np.asarray(ink & (with_arrow != without).any(axis=2))

    at_rest, turned = inked(None), inked(Turning(Face.U, 0.8))
    assert at_rest.sum() > 600
    assert (at_rest & turned).sum() > 0.85 * at_rest.sum()


def _square(face: Face) -> Array:
    """The corners of a square of half edge 1.75 across a face's axis."""
    corners = vector([(x, y, z) for x in (-1.75, 1.75) for y in (-1.75, 1.75) for z in (-1.75, 1.75)])
    flat = corners - np.outer(corners @ normal(face), normal(face))
    return np.unique(flat, axis=0)


def test_plain_prime_and_half_turn_have_different_arrows() -> None:
    pictures = [picture(Stage(SOLVED, arrow=Arrow(turn))) for turn in (Turn.U, Turn.U2, Turn.U_PRIME)]
    areas = [(p.astype(int) != picture(Stage(SOLVED)).astype(int)).any(axis=2).sum() for p in pictures]
    assert areas[1] > 1.2 * max(areas[0], areas[2])
    assert (pictures[0] != pictures[2]).any(axis=2).sum() > 300


def test_glow_lightens_the_cubie_and_what_lies_around() -> None:
    stage = Stage(SOLVED, glowing=frozenset({cubie_number((0, 0, 1))}))
    beside = vector((-0.62, 0.0, 1.52))
    assert luminance(pixel(stage, beside)) > 1.2 * luminance(pixel(Stage(SOLVED), beside))


def test_letters_are_written_on_the_stickers_and_not_on_hidden_ones() -> None:
    colours = (*SOLVED[:44], HIDDEN, *SOLVED[45:])
    plain, lettered = (picture(Stage(colours), look).astype(int) for look in (LOOK, Look(letters=True)))
    changed = np.abs(plain - lettered).max(axis=2) > 60
    view = sight(Stage(colours).camera, SIZE, True)
    for sticker in (*range(27, 45), *range(9)):
        x, y = view.to_viewport(sticker_centre(sticker))
        row, column = SIZE[1] - 1 - int(y), int(x)
        assert changed[row - 9 : row + 10, column - 9 : column + 10].any() == (sticker != 44)


def test_without_mirrors_no_reflection_is_drawn() -> None:
    hidden = Stage(tuple(Face.F if face in (Face.L, Face.B, Face.D) else face for face in SOLVED))
    assert (picture(hidden, PLAIN) == picture(Stage(SOLVED), PLAIN)).all()
    assert (picture(hidden) != picture(Stage(SOLVED))).any()


def test_the_same_stage_gives_the_same_bytes() -> None:
    stage = Stage(MIXED, Turning(Face.R, 0.3), outlined=frozenset({26}), arrow=Arrow(Turn.U))
    first = render_stage(stage, LOOK, SIZE)
    render_stage(Stage(SOLVED), PLAIN, (200, 300))
    assert render_stage(stage, LOOK, SIZE).tobytes() == first.tobytes()


def test_edges_are_smoothed() -> None:
    # Along the silhouette several shades between plastic and background are found.
    row = picture(Stage(SOLVED), PLAIN)[100:460, :, 0].astype(int)
    background, plastic = (round(255 * colour[0]) for colour in (THEME.background, THEME.plastic))
    between = (row > plastic + 30) & (row < background - 30)
    assert len(np.unique(row[between])) > 40


def test_only_the_viewport_is_touched_and_what_is_copied_next_is_copied_whole() -> None:
    from pyglet import gl

    from render.stage.renderer import StageRenderer

    scissored = []

    def paint() -> None:
        renderer = StageRenderer()
        gl.glClearColor(1.0, 0.0, 1.0, 1.0)
        gl.glClear(gl.GL_COLOR_BUFFER_BIT)
        renderer.draw(Stage(SOLVED), Look(letters=True), load_theme("light"), (40, 30, 200, 150))
        scissored.append(bool(gl.glIsEnabled(gl.GL_SCISSOR_TEST)))
        renderer.delete()

    drawn = shared_context().picture((300, 200), paint)
    assert scissored == [False]
    outside = np.ones((200, 300), dtype=bool)
    outside[20:170, 40:240] = False
    assert (drawn[outside] == (255, 0, 255, 255)).all()
    assert (drawn[20:170, 40:240, :3] != (255, 0, 255)).any(axis=2).all()
    assert (drawn[:, :, 3] == 255).all()


@pytest.mark.parametrize("stage", [Stage(SOLVED), Stage(MIXED, Turning(Face.R, 0.5), arrow=Arrow(Turn.F))])
def test_whatever_state_was_set_before_the_picture_is_the_same(stage: Stage) -> None:
    from pyglet import gl

    from render.stage.renderer import StageRenderer

    def paint() -> None:
        renderer, colours, viewport = StageRenderer(), load_theme("light"), (0, 0, *SIZE)
        renderer.draw(Stage(MIXED, outlined=frozenset({25})), Look(letters=True), colours, (40, 30, 20, 15))
        gl.glEnable(gl.GL_BLEND)
        gl.glBlendFunc(gl.GL_ONE, gl.GL_ONE)
        gl.glFrontFace(gl.GL_CW)
        gl.glDepthMask(gl.GL_FALSE)
        gl.glDepthFunc(gl.GL_NEVER)
        gl.glDepthRange(0.2, 0.3)
        gl.glDisable(gl.GL_MULTISAMPLE)
        renderer.draw(stage, LOOK, colours, viewport)
        renderer.delete()

    assert (shared_context().picture(SIZE, paint) == picture(stage)).all()


def test_the_camera_can_look_from_anywhere() -> None:
    for camera in (Camera(180.0, 10.0), Camera(-60.0, -80.0), Camera(32.0, 90.0)):
        assert picture(Stage(SOLVED, camera=camera)).std() > 5.0


def test_at_most_ten_draw_calls_are_made(monkeypatch: pytest.MonkeyPatch) -> None:
    render_stage(Stage(SOLVED), LOOK, SIZE)
    from render.opengl import VertexArray

    calls: list[int] = []
    draw = VertexArray.draw

    def counted(array: VertexArray, first: int, count: int, instances: int = 1) -> None:
        calls.append(count)
        draw(array, first, count, instances)

    monkeypatch.setattr(VertexArray, "draw", counted)
    everything = frozenset({cubie_number((1, 1, 1)), cubie_number((-1, -1, -1))})
    stage = Stage(SOLVED, Turning(Face.U, 0.2), outlined=everything, framed=everything, glowing=everything)
    render_stage(replace(stage, arrow=Arrow(Turn.R)), LOOK, SIZE)
    assert 6 <= len(calls) <= 10


def test_an_impossible_size_is_refused() -> None:
    with pytest.raises(OffscreenError, match="0 by 10"):
        render_stage(Stage(SOLVED), LOOK, (0, 10))


def test_an_unknown_palette_is_refused() -> None:
    with pytest.raises(PaletteError, match="neon"):
        render_stage(Stage(SOLVED), Look(palette="neon"), SIZE)


@pytest.mark.parametrize("letters", [False, True])
def test_the_whole_stage_takes_at_most_ten_draw_calls(monkeypatch: pytest.MonkeyPatch, letters: bool) -> None:
    with shared_context().current():
        from render.opengl import VertexArray

    calls, draw = [], VertexArray.draw

    def counted(array: VertexArray, first: int, count: int, instances: int = 1) -> None:
        calls.append(count)
        draw(array, first, count, instances)

    monkeypatch.setattr(VertexArray, "draw", counted)
    stage = Stage(
        MIXED,
        turning=Turning(Face.R, 0.4),
        dimmed=frozenset({0, 5}),
        outlined=frozenset({0, 1}),
        framed=frozenset({20, 23}),
        glowing=frozenset({8}),
        arrow=Arrow(Turn.F),
    )
    render_stage(stage, replace(LOOK, letters=letters), SIZE)
    assert 6 <= len(calls) <= 10
