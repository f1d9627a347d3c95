"""Draws painted shapes with OpenGL: one call for the whole interface."""

from __future__ import annotations

import ctypes

import numpy as np
from numpy.typing import NDArray
from pyglet import gl
from pyglet.graphics.shader import Shader, ShaderProgram

from render.opengl import generated, pointer_to, shader_source
from render.paint.glyph_atlas import Atlas
from render.paint.painter import FLOATS

_ATTRIBUTES = FLOATS // 4


class Canvas:
    """The program, the buffer and the glyph texture of the interface. Needs a current context (3.3 core)."""

    def __init__(self) -> None:
        """Compile the shaders and make room."""
        self.atlas = Atlas()
        self._program = ShaderProgram(
            Shader(shader_source("canvas.vert"), "vertex"), Shader(shader_source("canvas.frag"), "fragment")
        )
        self._vertex_array = generated(gl.glGenVertexArrays)
        self._buffer = generated(gl.glGenBuffers)
        self._texture = generated(gl.glGenTextures)
        self._uploaded = -1
        gl.glBindVertexArray(self._vertex_array)
        gl.glBindBuffer(gl.GL_ARRAY_BUFFER, self._buffer)
        for place in range(_ATTRIBUTES):
            gl.glEnableVertexAttribArray(place)
            gl.glVertexAttribPointer(
                place, 4, gl.GL_FLOAT, gl.GL_FALSE, 4 * FLOATS, ctypes.c_void_p(16 * place)
            )
            gl.glVertexAttribDivisor(place, 1)
        gl.glBindVertexArray(0)

    def _upload_atlas(self) -> None:
        """Bring the glyph texture up to date: all of it after it grew, else the rows that changed."""
        gl.glActiveTexture(gl.GL_TEXTURE0)
        gl.glBindTexture(gl.GL_TEXTURE_2D, self._texture)
        gl.glPixelStorei(gl.GL_UNPACK_ALIGNMENT, 1)
        coverage = self.atlas.coverage
        rows, columns = coverage.shape
        if self._uploaded != self.atlas.generation:
            gl.glTexImage2D(
                gl.GL_TEXTURE_2D,
                0,
                gl.GL_R8,
                columns,
                rows,
                0,
                gl.GL_RED,
                gl.GL_UNSIGNED_BYTE,
                pointer_to(coverage),
            )
            gl.glTexParameteri(gl.GL_TEXTURE_2D, gl.GL_TEXTURE_MIN_FILTER, gl.GL_NEAREST)
            gl.glTexParameteri(gl.GL_TEXTURE_2D, gl.GL_TEXTURE_MAG_FILTER, gl.GL_NEAREST)
            self._uploaded = self.atlas.generation
        elif self.atlas.dirty:
            top, bottom = self.atlas.dirty
            changed = np.ascontiguousarray(coverage[top:bottom])
            gl.glTexSubImage2D(
                gl.GL_TEXTURE_2D,
                0,
                0,
                top,
                columns,
                bottom - top,
                gl.GL_RED,
                gl.GL_UNSIGNED_BYTE,
                pointer_to(changed),
            )
        gl.glPixelStorei(gl.GL_UNPACK_ALIGNMENT, 4)
        self.atlas.dirty = None

    def draw(self, shapes: NDArray[np.float32], width: int, height: int, pictures: int = 0) -> None:
        """Draw ``shapes`` (count, FLOATS) over what is there; the target is ``width`` x ``height`` pixels.

        ``pictures`` is the texture that holds the small cubes, 0 when there are none.
        """
        self._upload_atlas()
        gl.glViewport(0, 0, width, height)
        gl.glDisable(gl.GL_DEPTH_TEST)
        gl.glDisable(gl.GL_CULL_FACE)
        gl.glDisable(gl.GL_SCISSOR_TEST)
        gl.glEnable(gl.GL_BLEND)
        gl.glBlendFunc(gl.GL_ONE, gl.GL_ONE_MINUS_SRC_ALPHA)
        self._program.use()
        self._program["size"] = (float(width), float(height))
        self._program["pictures"] = 1
        gl.glActiveTexture(gl.GL_TEXTURE1)
        gl.glBindTexture(gl.GL_TEXTURE_2D, pictures)
        gl.glActiveTexture(gl.GL_TEXTURE0)
        rows = np.ascontiguousarray(shapes, np.float32)
        gl.glBindVertexArray(self._vertex_array)
        gl.glBindBuffer(gl.GL_ARRAY_BUFFER, self._buffer)
        gl.glBufferData(gl.GL_ARRAY_BUFFER, rows.nbytes, pointer_to(rows), gl.GL_STREAM_DRAW)
        gl.glDrawArraysInstanced(gl.GL_TRIANGLE_STRIP, 0, 4, len(rows))
        gl.glBindVertexArray(0)
        gl.glUseProgram(0)

    def delete(self) -> None:
        """Free everything on the card."""
        gl.glDeleteVertexArrays(1, ctypes.byref(gl.GLuint(self._vertex_array)))
        gl.glDeleteBuffers(1, ctypes.byref(gl.GLuint(self._buffer)))
        gl.glDeleteTextures(1, ctypes.byref(gl.GLuint(self._texture)))
        self._program.delete()
