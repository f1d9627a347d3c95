"""A film as a plan: which picture is shown for how long, with which words; nothing is drawn yet.

Time is counted in ticks, one for each picture a second of the film has. A quarter turn at real speed and the
same turn shown slowly pass through the same poses, so that each pose needs to be drawn only once.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from math import ceil

from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.method.steps import Step
from tutor.publish import words
from tutor.publish.subject import Shot, Subject, stage_of
from tutor.session.beats import BETWEEN_PASSES, BREATH, LEAD_IN, STEP_REST
from tutor.session.timeline import Pose, ease, pose_within, seconds
from tutor.ui.view import Camera, Stage

RATE = 25
"""Pictures a second."""
SLOWNESS = 2
"""A slow turn takes so many times as long as one at real speed."""
ARROW_SECONDS = 0.4
"""How long the arrow of a coming turn is seen before a slow turn."""
READING_SPEED = 17.0
"""Characters a second that a viewer reads with ease (common practice for subtitles)."""
LAST_SECONDS = 2.0
"""How long the end stays in view."""
LONGEST_TICKS = 45 * 60 * RATE
"""Longer films are refused: three quarters of an hour."""


class FilmPace(StrEnum):
    """Which passes are shown."""

    BOTH = "both"
    SLOW = "slow"
    REAL = "real"


@dataclass(frozen=True, slots=True)
class FilmPiece:
    """Turns that belong together: a step, or a part of a lesson's scene, with what is said about it.

    Wide turns and turns of the whole cube may be among them.
    """

    turns: tuple[Move, ...]
    step: Step | None = None
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Passage:
    """Turns shown from a start; ``opening`` is said before the first turn, ``ending`` after the last."""

    subject: Subject
    pieces: tuple[FilmPiece, ...]
    opening: str = ""
    ending: str = ""
    camera: Camera | None = None
    """None for that of the film."""

    @property
    def turns(self) -> tuple[Move, ...]:
        """All turns."""
        return tuple(turn for piece in self.pieces for turn in piece.turns)

    @property
    def end(self) -> HeldCube:
        """The cube after all turns."""
        return self.subject.cube.after(self.turns)


@dataclass(frozen=True, slots=True)
class Words:
    """What is written round the cube: above it title and pace, below it steps, turns and caption.

    ``done`` turns have been shown; the next one is under way when ``turning``.
    """

    title: str
    pace: str
    pieces: tuple[FilmPiece, ...]
    done: int
    turning: bool
    caption: str


@dataclass(frozen=True, slots=True)
class FilmFrame:
    """One picture and for how many ticks it stays."""

    stage: Stage
    words: Words
    ticks: int


@dataclass(frozen=True, slots=True)
class Film:
    """Pictures in order; neighbours differ."""

    frames: tuple[FilmFrame, ...]
    shot: Shot
    rate: int = RATE

    @property
    def ticks(self) -> int:
        """Length in ticks."""
        return sum(frame.ticks for frame in self.frames)

    @property
    def seconds(self) -> float:
        """Length in seconds."""
        return self.ticks / self.rate


def film_of(
    passages: tuple[Passage, ...],
    shot: Shot,
    pace: FilmPace = FilmPace.BOTH,
    speed: float = 1.0,
    rate: int = RATE,
) -> Film:
    """The film of passages one after the other, each slowly and then at real speed, or as ``pace`` says.

    ``speed`` is of the turns, 1 the usual one; ``rate`` is in pictures a second. Raises ValueError when there
    is nothing to show or the film would be longer than anybody watches.
    """
    frames: list[FilmFrame] = []
    for passage in passages:
        seen = shot if passage.camera is None else replace(shot, camera=passage.camera)
        for slow in (True, False):
            if pace is not (FilmPace.REAL if slow else FilmPace.SLOW):
                frames += _joined(_Pass(passage, seen, slow, speed, rate).frames())
    film = Film(tuple(_joined(iter(frames))), shot, rate)
    if not frames:
        raise ValueError("there is nothing to show")
    if film.ticks * RATE > LONGEST_TICKS * rate:
        raise ValueError(words.too_long(film.seconds / 60, LONGEST_TICKS / RATE / 60))
    return film


def reading_seconds(text: str) -> float:
    """How long a text stays in view so that it can be read."""
    return len(text) / READING_SPEED


def _joined(frames: Iterator[FilmFrame]) -> Iterator[FilmFrame]:
    """Neighbours that look alike made into one."""
    before: FilmFrame | None = None
    for frame in frames:
        if before is not None and (before.stage, before.words) == (frame.stage, frame.words):
            before = replace(before, ticks=before.ticks + frame.ticks)
            continue
        if before is not None:
            yield before
        before = frame
    if before is not None:
        yield before


@dataclass(frozen=True, slots=True)
class _Pass:
    """One showing of a passage."""

    passage: Passage
    shot: Shot
    slow: bool
    speed: float
    rate: int

    def frames(self) -> Iterator[FilmFrame]:
        """All pictures of the pass; at real speed, nobody could read, and nothing is said before the end."""
        passage, done = self.passage, 0
        said = passage.opening if self.slow else ""
        yield self._still(0, max(LEAD_IN, reading_seconds(said)), said)
        for piece in passage.pieces:
            caption = (piece.caption or said) if self.slow else ""
            yield from self._looked_at(piece, done, caption)
            for number, turn in enumerate(piece.turns):
                if self.slow and number:
                    yield self._still(done, ARROW_SECONDS, caption, turn)
                yield from self._turned(turn, done, caption)
                done += 1
                yield self._still(done, 0.0 if self.slow else BREATH, caption)
            if self.slow and done < len(passage.turns):
                yield self._still(done, STEP_REST, caption)
        ending = max(LAST_SECONDS, reading_seconds(passage.ending), BETWEEN_PASSES)
        yield self._still(done, ending, passage.ending or passage.opening)

    def _looked_at(self, piece: FilmPiece, done: int, caption: str) -> Iterator[FilmFrame]:
        """Time to read what is said about a piece, with the arrow of its first turn."""
        if self.slow and piece.turns:
            pause = max(ARROW_SECONDS, reading_seconds(piece.caption))
            yield self._still(done, pause, caption, piece.turns[0])

    def _ticks(self, lasting: float) -> int:
        return max(1, round(lasting * self.rate))

    def _words(self, done: int, turning: bool, caption: str) -> Words:
        pace = words.SLOWLY if self.slow else words.AT_REAL_SPEED
        return Words(self.passage.subject.title, pace, self.passage.pieces, done, turning, caption)

    def _still(self, done: int, lasting: float, caption: str, coming: Move | None = None) -> FilmFrame:
        cube = self.passage.subject.cube.after(self.passage.turns[:done])
        # An arrow hugs one layer; the tile alone tells of more layers.
        arrow = coming if isinstance(coming, Turn) else None
        stage = stage_of(self.passage.subject, Pose(cube), self.shot, arrow)
        return FilmFrame(stage, self._words(done, coming is not None, caption), self._ticks(lasting))

    def _turned(self, turn: Move, done: int, caption: str) -> Iterator[FilmFrame]:
        """The poses inside a turn; its start and end are at rest and belong to the stills."""
        cube = self.passage.subject.cube.after(self.passage.turns[:done])
        quick = max(2, ceil(seconds(turn, self.speed) * self.rate))
        count = quick * (SLOWNESS if self.slow else 1)
        for number in range(1, count):
            pose = pose_within(cube, turn, ease(number / count))
            yield FilmFrame(
                stage_of(self.passage.subject, pose, self.shot), self._words(done, True, caption), 1
            )
