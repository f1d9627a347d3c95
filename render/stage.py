"""Draws a ``view.Stage`` into a part of the current framebuffer with OpenGL 3.3."""

from __future__ import annotations

from functools import cached_property

from pyglet import gl

from render.camera import sight
from render.graphics import KeptState, Program, Texture, UniformBuffer, VertexArray
from render.letters import letter_sheet
from render.marks import MARK_WIDTHS, Marks, marks_of
from render.mesh import cube_mesh
from render.palette import load_palette
from render.scene import SCENE, pack
from render.setting import FLOOR_REACH, SETTING_WIDTHS, setting_mesh
from render.theme import StageTheme, Theme
from tutor.session.view import Look, Stage

CUBE_WIDTHS = (3, 3, 3, 2)
GHOST_STRENGTH = 0.32
SHADOW = (1.55, 1.15, 0.42)
"""Half the width of what casts the shadow, its softness, and how much light it takes at its darkest."""

_CLIPS = tuple(gl.GL_CLIP_DISTANCE0 + i for i in range(5))


class StageRenderer:
    """Owns the stage's OpenGL objects. Create, use and delete it with the same context current."""

    def __init__(self) -> None:
        self._scene = UniformBuffer(SCENE.itemsize)
        self._sheet = Texture(letter_sheet())
        near, far = cube_mesh(2, 4), cube_mesh(1, 2)
        self._cube, self._reflected = VertexArray(CUBE_WIDTHS), VertexArray(CUBE_WIDTHS)
        self._cube.upload(near.vertices, near.indices)
        self._reflected.upload(far.vertices, far.indices)
        self._counts = len(near.indices), len(far.indices)
        self._setting = VertexArray(SETTING_WIDTHS)
        self._setting_key: tuple[StageTheme, bool] | None = None
        self._setting_count = 0
        self._marks = VertexArray(MARK_WIDTHS)
        self._marks_key: tuple[object, ...] | None = None
        self._marks_drawn: Marks | None = None
        self._setting_program = Program("setting")
        self._mark_programs = Program("marks"), Program("marks", ("MIRRORED",))
        self._cube_programs = Program("cube"), Program("cube", ("MIRRORED",))

    @cached_property
    def _letter_programs(self) -> tuple[Program, Program]:
        return Program("cube", ("LETTERS",)), Program("cube", ("MIRRORED", "LETTERS"))

    def draw(
        self, stage: Stage, look: Look, theme: Theme | StageTheme, viewport: tuple[int, int, int, int]
    ) -> None:
        """Draw ``stage`` into ``viewport`` (x, y, width, height in framebuffer pixels, y from below).

        Only the viewport is touched. The OpenGL state is as before when this returns, but for the buffer
        bindings and uniform binding point 0. Nothing is drawn when the viewport has no area. Raises
        PaletteError when ``look.palette`` does not exist.
        """
        x, y, width, height = viewport
        if width <= 0 or height <= 0:
            return
        colours = theme.stage if isinstance(theme, Theme) else theme
        self._prepare_setting(colours, look.mirrors)
        marks = self._prepare_marks(stage, colours)
        view = sight(stage.camera, (width, height), look.mirrors)
        self._scene.upload(pack(stage, load_palette(look.palette), colours, view))
        kept = KeptState.taken()
        try:
            self._open(viewport, colours)
            self._draw_setting()
            if look.mirrors:
                self._draw_cube(look, marks, mirrored=True)
            self._draw_cube(look, marks, mirrored=False)
            self._draw_ghost(marks)
        finally:
            kept.restore()

    def delete(self) -> None:
        """Free everything."""
        programs = [self._setting_program, *self._mark_programs, *self._cube_programs]
        programs += self.__dict__.get("_letter_programs", ())
        for owned in (self._scene, self._sheet, self._cube, self._reflected, self._setting, self._marks):
            owned.delete()
        for program in programs:
            program.delete()

    def _prepare_setting(self, theme: StageTheme, mirrors: bool) -> None:
        if self._setting_key != (theme, mirrors):
            mesh = setting_mesh(theme, mirrors)
            self._setting.upload(mesh.vertices, mesh.indices)
            self._setting_count = len(mesh.indices)
            self._setting_key = theme, mirrors

    def _prepare_marks(self, stage: Stage, theme: StageTheme) -> Marks:
        """Build the marks anew only when something about them changed."""
        marked = (stage.outlined, stage.framed, stage.glowing, stage.arrow, stage.trail)
        key = (*marked, stage.camera, stage.turning if any(marked) else None, theme)
        if self._marks_drawn is None or self._marks_key != key:
            self._marks_drawn = marks_of(stage, theme)
            mesh = self._marks_drawn.mesh
            self._marks.upload(mesh.vertices, mesh.indices, gl.GL_DYNAMIC_DRAW)
            self._marks_key = key
        return self._marks_drawn

    def _open(self, viewport: tuple[int, int, int, int], theme: StageTheme) -> None:
        """Clear the viewport and set the state that all parts share."""
        gl.glViewport(*viewport)
        gl.glScissor(*viewport)
        for switch in (gl.GL_SCISSOR_TEST, gl.GL_MULTISAMPLE, gl.GL_CULL_FACE):
            gl.glEnable(switch)
        for switch in (gl.GL_BLEND, gl.GL_DEPTH_TEST, gl.GL_FRAMEBUFFER_SRGB, *_CLIPS):
            gl.glDisable(switch)
        gl.glDepthMask(gl.GL_TRUE)
        gl.glDepthFunc(gl.GL_LEQUAL)
        gl.glDepthRange(0.0, 1.0)
        gl.glFrontFace(gl.GL_CCW)
        gl.glClearColor(*theme.background.rgb, 1.0)
        gl.glClear(gl.GL_COLOR_BUFFER_BIT | gl.GL_DEPTH_BUFFER_BIT)
        # Colours are not multiplied by alpha; the framebuffer's own alpha stays full.
        gl.glBlendFuncSeparate(gl.GL_SRC_ALPHA, gl.GL_ONE_MINUS_SRC_ALPHA, gl.GL_ONE, gl.GL_ONE_MINUS_SRC_ALPHA)
        self._sheet.bind()

    def _draw_setting(self) -> None:
        gl.glEnable(gl.GL_BLEND)
        self._setting_program.use()
        self._setting_program.set("shadow", *SHADOW, FLOOR_REACH)
        self._setting.draw(0, self._setting_count)
        gl.glDisable(gl.GL_BLEND)

    def _draw_cube(self, look: Look, marks: Marks, mirrored: bool) -> None:
        """The cube and its marks, as seen directly or in all mirrors at once.

        The mirrors' pictures get the back half of the depth range: whatever stands before a mirror covers
        them, and they need no second clear.
        """
        gl.glDepthRange(*((0.5, 1.0) if mirrored else (0.0, 0.5)))
        gl.glFrontFace(gl.GL_CW if mirrored else gl.GL_CCW)
        for clip in _CLIPS:
            (gl.glEnable if mirrored else gl.glDisable)(clip)
        gl.glEnable(gl.GL_DEPTH_TEST)
        programs = self._letter_programs if look.letters else self._cube_programs
        programs[mirrored].use()
        instances = 3 if mirrored else 1
        (self._reflected if mirrored else self._cube).draw(0, self._counts[mirrored], instances)
        if not marks.glow + marks.solid:
            return
        gl.glEnable(gl.GL_BLEND)
        self._mark_programs[mirrored].use()
        self._mark_programs[mirrored].set("strength", 1.0)
        if marks.glow:
            gl.glDepthMask(gl.GL_FALSE)
            self._marks.draw(0, marks.glow, instances)
            gl.glDepthMask(gl.GL_TRUE)
        if marks.solid:
            self._marks.draw(marks.glow, marks.solid, instances)
        gl.glDisable(gl.GL_BLEND)

    def _draw_ghost(self, marks: Marks) -> None:
        """The outlines of what is covered, shining faintly through the cube."""
        if not marks.ghost:
            return
        gl.glDisable(gl.GL_DEPTH_TEST)
        gl.glEnable(gl.GL_BLEND)
        self._mark_programs[0].use()
        self._mark_programs[0].set("strength", GHOST_STRENGTH)
        self._marks.draw(marks.glow + marks.solid, marks.ghost)
