"""Draws a ``view.Stage`` into a part of the current framebuffer with OpenGL 3.3."""

from __future__ import annotations

from enum import Enum
from functools import cached_property

from pyglet import gl

from render.graphics import KeptState, Program, Texture, UniformBuffer, VertexArray
from render.letters import letter_sheet
from render.mark_mesh import MARK_WIDTHS
from render.marks import Marks, marks_key, marks_of
from render.mesh import Range, cube_mesh, cut_behind
from render.palette import load_palette
from render.region import Region, around, cube_box, meet, mirrors_met
from render.scene import SCENE, pack
from render.setting import LABEL_WIDTHS, SETTING_WIDTHS, label_mesh, setting_mesh
from render.sight import Sight, sight
from render.theme import StageTheme, Theme
from tutor.ui.view import Look, Stage, Turning

CUBE_WIDTHS = (3, 3, 3, 2)
GHOST_STRENGTH = 0.32

_CLIPS = tuple(gl.GL_CLIP_DISTANCE0 + i for i in range(5))


class Part(Enum):
    """What is drawn of a stage. With a layer turning, the last three one over the other give the first."""

    ALL = "all"
    GROUND = "ground"
    """The floor and the mirrors without what they show."""
    RESTING = "resting"
    """What rests of the cube, and its reflections."""
    TURNING = "turning"
    """The layer that turns, its reflections, and all that is marked."""


class StageRenderer:
    """Owns the stage's OpenGL objects. Create, use and delete it with the same context current."""

    def __init__(self) -> None:
        self._scene = UniformBuffer(SCENE.itemsize)
        self._sheet = Texture(letter_sheet())
        near, far = cube_mesh(2, 4), cube_mesh(1, 2)
        self._cube, self._reflected = VertexArray(CUBE_WIDTHS), VertexArray(CUBE_WIDTHS)
        self._cube.upload(near.mesh.vertices, near.mesh.indices)
        self._reflected.upload(far.mesh.vertices, far.mesh.indices)
        self._meshes = near, far
        self._setting, self._labels = VertexArray(SETTING_WIDTHS), VertexArray(LABEL_WIDTHS)
        self._setting_key: tuple[StageTheme, bool] | None = None
        self._setting_counts = 0, 0
        self._marks = VertexArray(MARK_WIDTHS)
        self._marks_key: tuple[object, ...] | None = None
        self._marks_drawn: Marks | None = None
        self._setting_program, self._label_program = Program("setting"), Program("label")
        self._mark_programs = Program("marks"), Program("marks", ("MIRRORED",))
        self._cube_programs = Program("cube"), Program("cube", ("MIRRORED",))

    @cached_property
    def _letter_programs(self) -> tuple[Program, Program]:
        return Program("cube", ("LETTERS",)), Program("cube", ("MIRRORED", "LETTERS"))

    def draw(
        self,
        stage: Stage,
        look: Look,
        theme: Theme | StageTheme,
        viewport: Region,
        regions: tuple[Region, ...] | None = None,
        part: Part = Part.ALL,
    ) -> None:
        """Draw ``stage`` into ``viewport`` (x, y, width, height in framebuffer pixels, y from below).

        Only the viewport is touched, and of it only ``regions`` when they are given. ``part`` other than ALL
        is for a stage with a layer turning; RESTING and TURNING are drawn over what is there. The state of
        OpenGL is as before when this returns, but for the buffer bindings and uniform binding point 0.
        Nothing is drawn when the viewport has no area. Raises PaletteError when ``look.palette`` is unknown.
        """
        width, height = viewport[2:]
        if width <= 0 or height <= 0:
            return
        colours = theme.stage if isinstance(theme, Theme) else theme
        self._prepare_setting(colours, look.mirrors)
        marks = self._prepare_marks(stage, colours)
        view = sight(stage.camera, (width, height), look.mirrors)
        palette = load_palette(look.palette).arranged(look.arrangement)
        self._scene.upload(pack(stage, palette, colours, view))
        kept = KeptState.taken()
        try:
            self._open(viewport, colours)
            if part is Part.TURNING:
                self._draw_turning(stage, look, marks, view, regions or (viewport,))
                return
            for region in (viewport,) if regions is None else regions:
                gl.glScissor(*region)
                cube, shown = (True, range(3)) if regions is None else _met(region, view)
                self._draw_part(part, stage, look, marks, cube, shown if look.mirrors else range(0))
        finally:
            kept.restore()

    def _draw_part(
        self, part: Part, stage: Stage, look: Look, marks: Marks, cube: bool, shown: range
    ) -> None:
        """Draw the cube itself, if it is in what is drawn, and what the mirrors of these numbers show."""
        if part is not Part.RESTING:
            gl.glClear(gl.GL_COLOR_BUFFER_BIT | gl.GL_DEPTH_BUFFER_BIT)
        if part is not Part.GROUND:
            self._draw_cubes(stage, look, part, cube, shown)
        if part is not Part.RESTING:
            self._draw_setting()
        if part is Part.ALL:
            self._draw_labels(look)
            self._draw_marks(marks, shown)
            self._draw_ghost(marks, cube)

    def _draw_turning(
        self, stage: Stage, look: Look, marks: Marks, view: Sight, regions: tuple[Region, ...]
    ) -> None:
        """The turning layer, which is nowhere else, at once; in each region all that is laid over it."""
        box, none = around(*regions), range(0)
        for region in regions:
            gl.glScissor(*region)
            self._draw_labels(look)
        gl.glScissor(*box)
        cube, shown = _met(box, view)
        self._draw_cubes(stage, look, Part.TURNING, cube, shown if look.mirrors else none)
        for region in (box,) if marks.opaque else regions:
            gl.glScissor(*region)
            self._draw_marks(marks, _met(region, view)[1] if look.mirrors else none)
        for region in regions:
            gl.glScissor(*region)
            self._draw_ghost(marks, _met(region, view)[0])

    def _draw_cubes(self, stage: Stage, look: Look, part: Part, cube: bool, shown: range) -> None:
        """The cube and its reflections."""
        if cube:
            self._draw_cube(stage, look, part, None)
        if shown:
            self._draw_cube(stage, look, part, shown)

    def delete(self) -> None:
        """Free everything."""
        programs = [self._setting_program, self._label_program, *self._mark_programs, *self._cube_programs]
        programs += self.__dict__.get("_letter_programs", ())
        buffers = self._cube, self._reflected, self._setting, self._labels, self._marks
        for owned in (self._scene, self._sheet, *buffers):
            owned.delete()
        for program in programs:
            program.delete()

    def _prepare_setting(self, theme: StageTheme, mirrors: bool) -> None:
        if self._setting_key != (theme, mirrors):
            mesh = setting_mesh(theme, mirrors)
            self._setting.upload(mesh.vertices, mesh.indices)
            labels = label_mesh(theme)
            self._labels.upload(labels.vertices, labels.indices)
            self._setting_counts = len(mesh.indices), len(labels.indices)
            self._setting_key = theme, mirrors

    def _prepare_marks(self, stage: Stage, theme: StageTheme) -> Marks:
        """Build the marks anew only when something about them changed."""
        key = (marks_key(stage), theme)
        if self._marks_drawn is None or self._marks_key != key:
            self._marks_drawn = marks_of(stage, theme)
            mesh = self._marks_drawn.mesh
            self._marks.upload(mesh.vertices, mesh.indices, changing=True)
            self._marks_key = key
        return self._marks_drawn

    def _open(self, viewport: Region, theme: StageTheme) -> None:
        """Set the state that all parts share."""
        gl.glViewport(*viewport)
        for switch in (gl.GL_SCISSOR_TEST, gl.GL_MULTISAMPLE, gl.GL_CULL_FACE, gl.GL_DEPTH_TEST):
            gl.glEnable(switch)
        for switch in (gl.GL_BLEND, gl.GL_FRAMEBUFFER_SRGB, *_CLIPS):
            gl.glDisable(switch)
        gl.glDepthMask(gl.GL_TRUE)
        gl.glDepthFunc(gl.GL_LEQUAL)
        gl.glDepthRange(0.0, 1.0)
        gl.glFrontFace(gl.GL_CCW)
        gl.glClearColor(*theme.background.rgb, 1.0)
        # Colours are not multiplied by alpha; the framebuffer's own alpha stays full.
        gl.glBlendFuncSeparate(
            gl.GL_SRC_ALPHA, gl.GL_ONE_MINUS_SRC_ALPHA, gl.GL_ONE, gl.GL_ONE_MINUS_SRC_ALPHA
        )
        self._sheet.bind()

    def _side(self, mirrored: bool) -> None:
        """Set the state for drawing directly or into mirrors.

        The mirrors' pictures get the back half of the depth range: whatever stands before a mirror covers
        them, and they need no second clear.
        """
        gl.glDepthRange(*((0.5, 1.0) if mirrored else (0.0, 0.5)))
        gl.glFrontFace(gl.GL_CW if mirrored else gl.GL_CCW)
        for clip in _CLIPS:
            (gl.glEnable if mirrored else gl.glDisable)(clip)

    def _use(self, programs: tuple[Program, Program], shown: range | None) -> int:
        """Draw directly from now on, or into the mirrors of these numbers; how many instances that takes."""
        mirrored = shown is not None
        self._side(mirrored)
        programs[mirrored].use()
        if shown is None:
            return 1
        programs[mirrored].set("first_mirror", float(shown.start))
        return len(shown)

    def _draw_cube(self, stage: Stage, look: Look, part: Part, shown: range | None) -> None:
        programs = self._letter_programs if look.letters else self._cube_programs
        instances, mirrored = self._use(programs, shown), shown is not None
        triangles = self._triangles(stage.turning, part, mirrored)
        (self._reflected if mirrored else self._cube).draw(*triangles, instances)

    def _triangles(self, turning: Turning | None, part: Part, mirrored: bool) -> Range:
        mesh, cut = self._meshes[mirrored], cut_behind(turning)
        if turning is None or cut is None or part is Part.ALL:
            return mesh.ranges[cut]
        layer, rest = mesh.halves[cut]
        return layer if (turning.face is cut) == (part is Part.TURNING) else rest

    def _draw_setting(self) -> None:
        """Fill in what the cube and its reflections have left free."""
        self._side(mirrored=False)
        gl.glDepthRange(0.0, 1.0)
        gl.glDepthMask(gl.GL_FALSE)
        self._setting_program.use()
        self._setting.draw(0, self._setting_counts[0])
        gl.glDepthMask(gl.GL_TRUE)

    def _draw_labels(self, look: Look) -> None:
        """The letters on the mirrors' rims."""
        if not look.mirrors:
            return
        self._side(mirrored=False)
        gl.glDepthRange(0.0, 1.0)
        gl.glDepthMask(gl.GL_FALSE)
        gl.glEnable(gl.GL_BLEND)
        self._label_program.use()
        self._labels.draw(0, self._setting_counts[1])
        gl.glDisable(gl.GL_BLEND)
        gl.glDepthMask(gl.GL_TRUE)

    def _draw_marks(self, marks: Marks, mirrors: range) -> None:
        """The glow and the solid marks in the mirrors of these numbers, and directly."""
        if not marks.glow + marks.solid:
            return
        (gl.glDisable if marks.opaque else gl.glEnable)(gl.GL_BLEND)
        for shown in (mirrors, None) if mirrors else (None,):
            instances = self._use(self._mark_programs, shown)
            self._mark_programs[shown is not None].set("strength", 1.0)
            if marks.glow:
                gl.glDepthMask(gl.GL_FALSE)
                self._marks.draw(0, marks.glow, instances)
                gl.glDepthMask(gl.GL_TRUE)
            if marks.solid:
                self._marks.draw(marks.glow, marks.solid, instances)
        gl.glDisable(gl.GL_BLEND)

    def _draw_ghost(self, marks: Marks, cube: bool) -> None:
        """The outlines of what is covered, shining faintly through the cube, where that is to be drawn."""
        if not (marks.ghost and cube):
            return
        self._side(mirrored=False)
        gl.glDisable(gl.GL_DEPTH_TEST)
        gl.glEnable(gl.GL_BLEND)
        self._mark_programs[0].use()
        self._mark_programs[0].set("strength", GHOST_STRENGTH)
        self._marks.draw(marks.glow + marks.solid, marks.ghost)
        gl.glDisable(gl.GL_BLEND)
        gl.glEnable(gl.GL_DEPTH_TEST)


def _met(region: Region, view: Sight) -> tuple[bool, range]:
    """Whether a region meets the cube, and which mirrors."""
    return meet(region, cube_box(view)), mirrors_met(region, view)
