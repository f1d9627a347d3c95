"""Hostile inputs: words of each language in disorder, changed real documents, and plain noise."""

from __future__ import annotations

import io
import json
import tempfile
import wave
from datetime import UTC, date, datetime
from importlib import resources
from pathlib import Path

import numpy as np
from hypothesis import strategies as st

import lessons
from tests.fuzz.targets import LARGEST, club
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Slot
from tutor.cube.sticker_text import format_stickers
from tutor.method.cases import CASES
from tutor.progress.assignment import Assignment, case_task
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.interchange import format_line, format_table
from tutor.progress.notes import format_note
from tutor.progress.own_words import OwnWords
from tutor.solver.store import write_table

_ODD = (
    b"\x00", b"\xff", b"\xef\xbb\xbf", "ü".encode(), "\u2028".encode(), "🙂".encode(), b"\r\n", b"\n", b"\t",
    b"1e999", b"-1", b"99999999999999999999", b"NaN", b"true", b"null", b'"', b"'", b"[", b"]", b"{", b"}",
    b",", b"=", b"\\", b"((((((((((", b"[[[[[[[[[[[[[[[[[[[[", b"../../etc/passwd", b"$(id)", b"%s%n",
    b"\\ud800", b"",
)  # fmt: skip

NOTATION = tuple(
    "R U2 F' Rw Fw2 x y' z2 ( ) )2 )10000 )999999999 ’ ′ 2 3 '2 M r R3 R'' U0 (R)(U)2".encode().split()
)
_CUBE = format_stickers(HeldCube().colours).encode()
_SETTINGS = b"""\
cross = "white"
speed = 1.0
reduced_motion = false
rest_minutes = 25
step_by_step = "in lessons"
sound = true
read_aloud = false
single_keys = true
turn_buttons = "first lesson"
learner = "Ilva"
[look]
theme = "dark"
palette = "usual"
text_scale = 1.5
arrangement = ["white", "yellow", "orange", "red", "green", "blue"]
[keys]
"next slot" = "m"
"undo" = "backspace, ctrl+z"
"""
_ATTEMPT = AttemptRecord(
    "Ilva",
    datetime(2026, 3, 3, 18, 30, tzinfo=UTC),
    "corner-up-edge-left-front-up",
    Slot.FR,
    0,
    Mode.TODAY,
    Outcome.SOLVED,
    5,
    5,
    12.0,
)
_LINE = format_line(_ATTEMPT).encode()
_TABLE = "".join(format_table([_ATTEMPT, _ATTEMPT])).encode()
_REQUEST = json.dumps({"setup": "R U R'", "slot": "FR", "keep": ["FL", "BL"]}).encode() + b"\n"
_SCRIPTS = tuple(
    resources.files(lessons).joinpath(f"{name}.toml").read_bytes()
    for name in ("made-pair", "slot-and-pair", "notation")
)
_ACTIONS = (
    b"lesson:0:1m:made-pair", b"case:FR:0:corner-up-edge-left-front-up", b"try:BL:3::x", b"turns:R U2",
    b"jump:3", b"open:FREE_PLAY", b"act:UNDO", b"scrub:1.5", b"choose:THEME:0", b"cross:U", b"slot:FR",
    b"answer:1",
)  # fmt: skip


_TASK = Assignment("Ilva", case_task(CASES[0]), _ATTEMPT.time, _ATTEMPT.time, date(2026, 4, 1))


def _wave() -> bytes:
    content = io.BytesIO()
    with wave.open(content, "wb") as file:
        file.setparams((1, 2, 8000, 0, "NONE", ""))
        file.writeframes(bytes(4000))
    return content.getvalue()


def _stored_table() -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "cross.table")
        write_table(path, "cross", np.arange(12, dtype=np.int32).reshape(4, 3))
        return path.read_bytes()


DOCUMENTS: dict[str, tuple[bytes, ...]] = {
    "notation": (b"R U R' U' (R U2' F)3 Rw x y2",),
    "stickers": (_CUBE,),
    "script": _SCRIPTS,
    "settings": (_SETTINGS,),
    "small_files": (b'[["made-pair", 3], ["notation", 0]]', _CUBE),
    "attempt_line": (_LINE,),
    "attempt_table": (_TABLE,),
    "note_line": (
        format_note(OwnWords("Ilva", CASES[0].slug, _ATTEMPT.time, "lift and join")).encode(),
        format_note(
            Assignment("Ilva", case_task(CASES[0]), _ATTEMPT.time, _ATTEMPT.time, date(2026, 4, 1))
        ).encode(),
    ),
    "backup": (club(),),
    "tables": (_stored_table(),),
    "case_lists": (b"1-12, 14", b"3, 14; 9-7", b"slipping", b"made-pair"),
    "captions": (b"Lift the slot. Slide the pair in! Is it solved? " * 5,),
    "recordings": (_wave(),),
    "assigning": (b"Ilva|1-12,14|made-pair|2026-04-01", b"Ilva||notation|2026-W14-3", b"ilva|41"),
    "batch": (_REQUEST * 3,),
    "actions": _ACTIONS,
    "key_names": (b"ctrl+shift+i", b"page up"),
}
"""Real inputs of each target."""


@st.composite
def changed(draw: st.DrawFn, documents: tuple[bytes, ...]) -> bytes:
    """A real document with some pieces taken out, doubled, exchanged for others or put in."""
    content = draw(st.sampled_from(documents))
    pieces = (*_ODD, *NOTATION[:8], *(line + b"\n" for line in content.splitlines()[:40]))
    for _ in range(draw(st.integers(1, 6))):
        start = draw(st.integers(0, len(content)))
        end = min(len(content), start + draw(st.integers(0, 40)))
        piece = draw(st.sampled_from(pieces) | st.binary(max_size=8)) * draw(
            st.sampled_from((0, 1, 1, 1, 2, 500))
        )
        content = (content[:start] + piece + content[end:])[:LARGEST]
    return content


def hostile(target: str) -> st.SearchStrategy[bytes]:
    """Inputs for a target: mostly changed documents, also words in disorder, text and bytes."""
    documents = DOCUMENTS[target]
    words = (*NOTATION, *_ODD, *(word for document in documents for word in document.split()[:60]))
    disorder = st.lists(st.sampled_from(words), max_size=60)
    return st.one_of(
        changed(documents),
        changed(documents),
        disorder.map(b" ".join),
        disorder.map(b"".join),
        st.text(max_size=200).map(lambda text: text.encode("utf-8", "surrogatepass")),
        st.binary(max_size=200),
    )
