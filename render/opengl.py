"""The few OpenGL objects the stage needs, over pyglet's bindings. All need a current context (3.3 core)."""

from __future__ import annotations

import ctypes
from importlib.resources import files
from typing import Any

import numpy as np
import numpy.typing as npt
from pyglet import gl

Bytes = npt.NDArray[Any]
Area = tuple[int, int, int, int]
"""A part of a framebuffer in pixels: x, y from below, width, height."""


class ShaderError(ValueError):
    """A shader that the driver refuses; the message names the file and gives the driver's words."""


def shader_source(name: str) -> str:
    """The text of a file in assets/shaders."""
    return files("assets").joinpath("shaders", name).read_text(encoding="utf-8")


def pointer_to(array: Bytes) -> Any:
    """The address of a contiguous array's data, as OpenGL calls want it."""
    return array.ctypes.data_as(ctypes.c_void_p)


def generated(create: Any) -> int:
    """A new name from one of OpenGL's glGen calls."""
    name = gl.GLuint()
    create(1, ctypes.byref(name))
    return int(name.value)


def integers(what: int, count: int = 1) -> list[int]:
    """State that OpenGL keeps as integers."""
    values = (gl.GLint * count)()
    gl.glGetIntegerv(what, values)
    return list(values)


def _log(name: int, length: Any, text: Any, parameter: Any) -> str:
    size = gl.GLint()
    parameter(name, gl.GL_INFO_LOG_LENGTH, ctypes.byref(size))
    buffer = ctypes.create_string_buffer(max(size.value, 1))
    text(name, size.value, length, buffer)
    return buffer.value.decode(errors="replace")


def _compiled(kind: int, name: str, head: str) -> int:
    source = (head + shader_source("scene.glsl") + shader_source(name)).encode()
    shader = gl.glCreateShader(kind)
    text = ctypes.create_string_buffer(source)
    strings = (ctypes.POINTER(gl.GLchar) * 1)(ctypes.cast(text, ctypes.POINTER(gl.GLchar)))
    gl.glShaderSource(shader, 1, strings, None)
    gl.glCompileShader(shader)
    done = gl.GLint()
    gl.glGetShaderiv(shader, gl.GL_COMPILE_STATUS, ctypes.byref(done))
    if not done.value:
        words = _log(shader, None, gl.glGetShaderInfoLog, gl.glGetShaderiv)
        raise ShaderError(f"{name}: {words.strip()}")
    return int(shader)


class Program:
    """A vertex and a fragment shader of assets/shaders, compiled with some names defined."""

    def __init__(self, stem: str, defines: tuple[str, ...] = ()) -> None:
        head = "#version 330 core\n" + "".join(f"#define {name}\n" for name in defines)
        self.name = int(gl.glCreateProgram())
        kinds = ((gl.GL_VERTEX_SHADER, f"{stem}.vert"), (gl.GL_FRAGMENT_SHADER, f"{stem}.frag"))
        for shader in [_compiled(kind, name, head) for kind, name in kinds]:
            gl.glAttachShader(self.name, shader)
            gl.glDeleteShader(shader)
        gl.glLinkProgram(self.name)
        done = gl.GLint()
        gl.glGetProgramiv(self.name, gl.GL_LINK_STATUS, ctypes.byref(done))
        if not done.value:
            words = _log(self.name, None, gl.glGetProgramInfoLog, gl.glGetProgramiv)
            raise ShaderError(f"{stem}: {words.strip()}")
        gl.glUniformBlockBinding(self.name, gl.glGetUniformBlockIndex(self.name, b"Scene"), 0)

    def use(self) -> None:
        """Make it the program that draws."""
        gl.glUseProgram(self.name)

    def set(self, uniform: str, *values: float) -> None:
        """Set a uniform of one or four floats; the program must be in use."""
        place = gl.glGetUniformLocation(self.name, uniform.encode())
        (gl.glUniform1f if len(values) == 1 else gl.glUniform4f)(place, *values)

    def delete(self) -> None:
        """Free it."""
        gl.glDeleteProgram(self.name)


class VertexArray:
    """Triangles in the card's memory: rows of floats, cut into attributes of the given widths."""

    def __init__(self, widths: tuple[int, ...]) -> None:
        self.name = generated(gl.glGenVertexArrays)
        self._vertices = generated(gl.glGenBuffers)
        self._indices = generated(gl.glGenBuffers)
        gl.glBindVertexArray(self.name)
        gl.glBindBuffer(gl.GL_ARRAY_BUFFER, self._vertices)
        gl.glBindBuffer(gl.GL_ELEMENT_ARRAY_BUFFER, self._indices)
        starts = np.cumsum([0, *widths])
        for place, (width, start) in enumerate(zip(widths, starts, strict=False)):
            gl.glEnableVertexAttribArray(place)
            gl.glVertexAttribPointer(
                place, width, gl.GL_FLOAT, gl.GL_FALSE, int(4 * starts[-1]), ctypes.c_void_p(int(4 * start))
            )
        gl.glBindVertexArray(0)

    def upload(self, vertices: Bytes, indices: Bytes, changing: bool = False) -> None:
        """Put float32 rows and flat uint32 triangles there; ``changing`` when that will happen often."""
        usage = gl.GL_DYNAMIC_DRAW if changing else gl.GL_STATIC_DRAW
        rows = np.ascontiguousarray(vertices, dtype=np.float32)
        triangles = np.ascontiguousarray(indices, dtype=np.uint32)
        gl.glBindVertexArray(self.name)
        gl.glBindBuffer(gl.GL_ARRAY_BUFFER, self._vertices)
        gl.glBufferData(gl.GL_ARRAY_BUFFER, rows.nbytes, pointer_to(rows), usage)
        gl.glBufferData(gl.GL_ELEMENT_ARRAY_BUFFER, triangles.nbytes, pointer_to(triangles), usage)
        gl.glBindVertexArray(0)

    def draw(self, first: int, count: int, instances: int = 1) -> None:
        """Draw ``count`` indices from ``first`` on, that many times."""
        gl.glBindVertexArray(self.name)
        start = ctypes.c_void_p(4 * first)
        gl.glDrawElementsInstanced(gl.GL_TRIANGLES, count, gl.GL_UNSIGNED_INT, start, instances)

    def delete(self) -> None:
        """Free it."""
        gl.glDeleteVertexArrays(1, ctypes.byref(gl.GLuint(self.name)))
        for name in (self._vertices, self._indices):
            gl.glDeleteBuffers(1, ctypes.byref(gl.GLuint(name)))


class UniformBuffer:
    """The block of values all programs share, at binding point 0."""

    def __init__(self, size: int) -> None:
        self.name = generated(gl.glGenBuffers)
        gl.glBindBuffer(gl.GL_UNIFORM_BUFFER, self.name)
        gl.glBufferData(gl.GL_UNIFORM_BUFFER, size, None, gl.GL_DYNAMIC_DRAW)
        gl.glBindBuffer(gl.GL_UNIFORM_BUFFER, 0)

    def upload(self, values: Bytes) -> None:
        """Replace its content and bind it."""
        gl.glBindBufferBase(gl.GL_UNIFORM_BUFFER, 0, self.name)
        gl.glBufferData(gl.GL_UNIFORM_BUFFER, values.nbytes, pointer_to(values), gl.GL_DYNAMIC_DRAW)

    def delete(self) -> None:
        """Free it."""
        gl.glDeleteBuffers(1, ctypes.byref(gl.GLuint(self.name)))


class Texture:
    """A picture of one channel, smoothed at every size."""

    def __init__(self, picture: npt.NDArray[np.uint8]) -> None:
        height, width = picture.shape
        data = np.ascontiguousarray(picture)
        self.name = generated(gl.glGenTextures)
        gl.glBindTexture(gl.GL_TEXTURE_2D, self.name)
        gl.glPixelStorei(gl.GL_UNPACK_ALIGNMENT, 1)
        gl.glTexImage2D(
            gl.GL_TEXTURE_2D, 0, gl.GL_R8, width, height, 0, gl.GL_RED, gl.GL_UNSIGNED_BYTE, pointer_to(data)
        )
        gl.glPixelStorei(gl.GL_UNPACK_ALIGNMENT, 4)
        gl.glGenerateMipmap(gl.GL_TEXTURE_2D)
        for parameter, value in (
            (gl.GL_TEXTURE_MIN_FILTER, gl.GL_LINEAR_MIPMAP_LINEAR),
            (gl.GL_TEXTURE_MAG_FILTER, gl.GL_LINEAR),
            (gl.GL_TEXTURE_WRAP_S, gl.GL_CLAMP_TO_EDGE),
            (gl.GL_TEXTURE_WRAP_T, gl.GL_CLAMP_TO_EDGE),
        ):
            gl.glTexParameteri(gl.GL_TEXTURE_2D, parameter, value)
        gl.glBindTexture(gl.GL_TEXTURE_2D, 0)

    def bind(self) -> None:
        """Make it the texture of unit 0."""
        gl.glActiveTexture(gl.GL_TEXTURE0)
        gl.glBindTexture(gl.GL_TEXTURE_2D, self.name)

    def delete(self) -> None:
        """Free it."""
        gl.glDeleteTextures(1, ctypes.byref(gl.GLuint(self.name)))
