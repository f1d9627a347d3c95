"""Draws a ``view.Stage`` into a part of the current framebuffer with OpenGL 3.3."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from pyglet import gl

from render.opengl import Area, Program, Texture, UniformBuffer, VertexArray
from render.stage.label_sheet import label_sheet
from render.stage.letter_sheet import letter_sheet
from render.stage.mark_mesh import MARK_WIDTHS
from render.stage.marks import Marks, marks_key, marks_of
from render.stage.mesh import cube_mesh, cut_behind
from render.stage.mirrors import mirrors
from render.stage.palette import load_palette
from render.stage.scene_block import SCENE, pack
from render.stage.sight import sight
from render.stage.surroundings import (
    LABEL_WIDTHS,
    SETTING_WIDTHS,
    faces_of_hidden_slot,
    label_mesh,
    setting_mesh,
)
from render.theme import StageTheme, Theme
from tutor.ui.view import REST_CAMERA, Look, Stage

CUBE_WIDTHS = (3, 3, 3, 2)
Sheet = NDArray[np.uint8]


class Cube:
    """The triangles of a cube in the card's memory, and which of them each turn needs."""

    def __init__(self, segments: int, corner_segments: int) -> None:
        """As for ``cube_mesh``."""
        made = cube_mesh(segments, corner_segments)
        self.array, self.ranges = VertexArray(CUBE_WIDTHS), made.ranges
        self.array.upload(made.mesh.vertices, made.mesh.indices)


class StageRenderer:
    """Owns the stage's OpenGL objects. Create, use and delete it with the same context current."""

    def __init__(self) -> None:
        self._scene = UniformBuffer(SCENE.itemsize)
        self._sheets: dict[Callable[[], Sheet], Texture] = {}
        self._setting, self._labels = VertexArray(SETTING_WIDTHS), VertexArray(LABEL_WIDTHS)
        self._setting_key: tuple[object, ...] | None = None
        self._setting_counts = 0, 0
        self._marks = VertexArray(MARK_WIDTHS)
        self._marks_key: tuple[object, ...] | None = None
        self._marks_drawn: Marks | None = None
        self._programs: dict[tuple[str, ...], Program] = {}
        self._cubes: dict[bool, Cube] = {}

    def _program(self, stem: str, *defines: str) -> Program:
        """A program, compiled when something is first drawn with it."""
        name = (stem, *defines)
        if name not in self._programs:
            self._programs[name] = Program(stem, defines)
        return self._programs[name]

    def _bind(self, sheet: Callable[[], Sheet]) -> None:
        """Have a sheet drawn from, which is drawn itself at its first use."""
        if sheet not in self._sheets:
            self._sheets[sheet] = Texture(sheet())
        self._sheets[sheet].bind()

    def _cube(self, mirrored: bool) -> Cube:
        """The cube, or the plainer one for the mirrors, made when it is first drawn."""
        if mirrored not in self._cubes:
            self._cubes[mirrored] = Cube(*((1, 2) if mirrored else (2, 4)))
        return self._cubes[mirrored]

    def draw(
        self,
        stage: Stage,
        look: Look,
        theme: Theme | StageTheme,
        viewport: Area,
        *,
        small: bool = False,
        setting: bool = True,
        cube: bool = True,
    ) -> None:
        """Draw ``stage`` into ``viewport``, and touch no colour elsewhere in the framebuffer.

        ``small`` says that it is a picture of an inch, whose marks have to be bolder. The ``setting`` is the
        background, the floor and the mirrors with nothing in them, of which a turn changes nothing; the rest
        belongs to the ``cube`` and is drawn over what is there.

        Whoever draws next sets the state of OpenGL anew; the scissor test is off, for whoever copies. Nothing
        is drawn when the viewport has no area. Raises PaletteError when ``look.palette`` is unknown.
        """
        width, height = viewport[2:]
        if width <= 0 or height <= 0:
            return
        colours = theme.stage if isinstance(theme, Theme) else theme
        self._prepare_setting(stage, colours, look)
        marks = self._prepare_marks(stage, colours, small=small)
        palette = load_palette(look.palette).arranged(look.arrangement)
        view = sight(stage.camera, (width, height), look.mirrors, look.mirror_below)
        self._scene.upload(pack(stage, palette, colours, view, look.mirrors))
        self._open(viewport)
        if setting:
            self._draw_setting(colours)
            self._draw_labels(look)
        if cube:
            self._draw_cubes(stage, look)
            self._draw_marks(marks, look)
            self._draw_arrow(marks)
        # Nothing is copied or cleared where the scissors do not reach.
        gl.glDisable(gl.GL_SCISSOR_TEST)

    def delete(self) -> None:
        """Free everything."""
        owned: list[UniformBuffer | VertexArray | Texture | Program] = [self._scene]
        owned += self._setting, self._labels, self._marks
        owned += (cube.array for cube in self._cubes.values())
        owned += (*self._sheets.values(), *self._programs.values())
        for each in owned:
            each.delete()

    def _prepare_setting(self, stage: Stage, theme: StageTheme, look: Look) -> None:
        below = look.mirror_below
        key = theme, look.mirrors, below, stage.camera, stage.framed, look.text_scale
        if self._setting_key != key:
            mesh = setting_mesh(theme, stage.camera, look.mirrors, below)
            self._setting.upload(mesh.vertices, mesh.indices, changing=True)
            self._setting_counts = len(mesh.indices), 0
            if look.mirrors:
                slot_faces = faces_of_hidden_slot(stage)
                labels = label_mesh(theme, stage.camera, slot_faces, look.text_scale, below=below)
                self._labels.upload(labels.vertices, labels.indices, changing=True)
                self._setting_counts = len(mesh.indices), len(labels.indices)
            self._setting_key = key

    def _prepare_marks(self, stage: Stage, theme: StageTheme, *, small: bool) -> Marks:
        """Build the marks anew only when something about them changed."""
        key = (marks_key(stage), theme, small)
        if self._marks_drawn is None or self._marks_key != key:
            self._marks_drawn = marks_of(stage, theme, small=small)
            mesh = self._marks_drawn.mesh
            self._marks.upload(mesh.vertices, mesh.indices, changing=True)
            self._marks_key = key
        return self._marks_drawn

    def _open(self, viewport: Area) -> None:
        """Set the state that all parts share."""
        gl.glViewport(*viewport)
        gl.glScissor(*viewport)
        for switch in (gl.GL_SCISSOR_TEST, gl.GL_MULTISAMPLE, gl.GL_CULL_FACE):
            gl.glEnable(switch)
        for switch in (gl.GL_BLEND, gl.GL_DEPTH_TEST, gl.GL_FRAMEBUFFER_SRGB):
            gl.glDisable(switch)
        gl.glFrontFace(gl.GL_CCW)
        # Colours are not multiplied by alpha; the framebuffer's own alpha stays full.
        gl.glBlendFuncSeparate(
            gl.GL_SRC_ALPHA, gl.GL_ONE_MINUS_SRC_ALPHA, gl.GL_ONE, gl.GL_ONE_MINUS_SRC_ALPHA
        )

    def _side(self, mirrored: bool) -> None:
        """Set the state for drawing directly or into mirrors.

        The mirrors' pictures get the back half of the depth range: whatever stands before a mirror covers
        them, and they need no second clear.
        """
        gl.glDepthRange(*((0.5, 1.0) if mirrored else (0.0, 0.5)))
        gl.glFrontFace(gl.GL_CW if mirrored else gl.GL_CCW)

    def _use(self, stem: str, mirrored: bool, look: Look, *defines: str) -> int:
        """Draw directly or into the mirrors from now on; how many instances that takes."""
        self._side(mirrored)
        self._program(stem, *(("MIRRORED",) if mirrored else ()), *defines).use()
        return len(mirrors(REST_CAMERA, look.mirror_below)) if mirrored else 1

    def _draw_setting(self, theme: StageTheme) -> None:
        """Clear the viewport to the background, and draw the floor and the mirrors over it."""
        gl.glClearColor(*theme.background.rgb, 1.0)
        gl.glClear(gl.GL_COLOR_BUFFER_BIT)
        self._program("setting").use()
        self._setting.draw(0, self._setting_counts[0])

    def _draw_labels(self, look: Look) -> None:
        """What each mirror shows, in words."""
        if not look.mirrors:
            return
        gl.glEnable(gl.GL_BLEND)
        self._bind(label_sheet)
        self._program("label").use()
        self._labels.draw(0, self._setting_counts[1])
        gl.glDisable(gl.GL_BLEND)

    def _draw_cubes(self, stage: Stage, look: Look) -> None:
        """The cube and its reflections."""
        gl.glEnable(gl.GL_DEPTH_TEST)
        gl.glDepthMask(gl.GL_TRUE)
        gl.glDepthFunc(gl.GL_LEQUAL)
        # A driver without a card clears all of the depth in half the time that a part of it takes.
        gl.glDisable(gl.GL_SCISSOR_TEST)
        gl.glClear(gl.GL_DEPTH_BUFFER_BIT)
        gl.glEnable(gl.GL_SCISSOR_TEST)
        if look.letters:
            self._bind(letter_sheet)
        for mirrored in (False, True) if look.mirrors else (False,):
            instances = self._use("cube", mirrored, look, *(("LETTERS",) if look.letters else ()))
            cube = self._cube(mirrored)
            cube.array.draw(*cube.ranges[cut_behind(stage.turning)], instances)

    def _draw_marks(self, marks: Marks, look: Look) -> None:
        """The glow and the solid marks in the mirrors, if there are any, and directly."""
        if not marks.glow + marks.solid:
            return
        gl.glEnable(gl.GL_BLEND)
        for mirrored in (True, False) if look.mirrors else (False,):
            instances = self._use("marks", mirrored, look)
            if marks.glow:
                gl.glDepthMask(gl.GL_FALSE)
                self._marks.draw(0, marks.glow, instances)
                gl.glDepthMask(gl.GL_TRUE)
            if marks.solid:
                self._marks.draw(marks.glow, marks.solid, instances)
        gl.glDisable(gl.GL_BLEND)

    def _draw_arrow(self, marks: Marks) -> None:
        """The arrow of the coming turn, over everything."""
        if not marks.arrow:
            return
        self._side(mirrored=False)
        gl.glDisable(gl.GL_DEPTH_TEST)
        self._program("marks").use()
        self._marks.draw(marks.glow + marks.solid, marks.arrow)
        gl.glEnable(gl.GL_DEPTH_TEST)
