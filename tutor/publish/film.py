"""A film as a plan: which picture is shown for how long, with which words; nothing is drawn yet.

Time is counted in ticks, one for each picture a second of the film has. A quarter turn at real speed and the
same turn shown slowly pass through the same poses, so that each pose needs to be drawn only once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum
from itertools import accumulate, groupby, pairwise
from math import ceil
from pathlib import Path
from types import MappingProxyType

from msgspec import Struct
from msgspec.structs import replace

from tutor.coach.feedback import Shown
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.method.steps import Step
from tutor.publish import words
from tutor.publish.captions import NOTHING, Caption, captions_of
from tutor.publish.subject import Shot, Subject, stage_of
from tutor.session.beats import BREATH, LEAD_IN, STEP_REST, reading_seconds
from tutor.session.timeline import Pose, ease, pose_within, seconds
from tutor.ui.view import Camera, Stage

RATE = 25
"""Pictures a second."""
SLOWNESS = 2
"""A slow turn takes so many times as long as one at real speed."""
LAST_SECONDS = 2.0
"""How long a title, and the end of the turns, stays in view at least."""
AFTER_SPEECH = 0.3
"""Seconds of silence after a sentence that is spoken."""
LONGEST_TICKS = 45 * 60 * RATE
"""Longer films are refused: three quarters of an hour."""


class FilmPace(StrEnum):
    """Which passes are shown."""

    BOTH = "both"
    SLOW = "slow"
    REAL = "real"


_PASSES = {FilmPace.BOTH: (True, False), FilmPace.SLOW: (True,), FilmPace.REAL: (False,)}
"""Whether each showing of turns is slow."""


class Recording(Struct, frozen=True):
    """A sound file, and how long it lasts."""

    path: Path
    seconds: float


Spoken = Mapping[Caption, Recording]
"""Captions that are spoken, each with its sound."""
SILENT: Spoken = MappingProxyType({})
NONE: tuple[Caption, ...] = ()


class FilmPiece(Struct, frozen=True):
    """Turns that belong together: a step, or a part of a lesson's scene.

    ``text`` is said before the first turn, and ``said`` of each turn, or of none. A ``slip`` is a Detour,
    made or shown on purpose. Wide turns and turns of the whole cube may be among the turns.
    """

    turns: tuple[Move, ...]
    step: Step | None = None
    text: str = ""
    said: tuple[Shown, ...] = ()
    slip: bool = False

    @property
    def name(self) -> str:
        """What stands over the turns; empty where no pair is in question."""
        if self.slip:
            return words.SLIP
        return "" if self.step is None else words.step_name(self.step)

    def before(self, number: int) -> tuple[Caption, ...]:
        """What is said before a turn of the piece: of a first one, why the piece comes."""
        heading = self._heading(number)
        own = self.said[number].coming if self.said else ""
        return captions_of("" if number else self.text, heading) + captions_of(own, heading)

    def after(self, number: int) -> tuple[Caption, ...]:
        """What is said after a turn; nothing that was said before it in the same words."""
        if not self.said or self.said[number].made == self.said[number].coming:
            return ()
        return captions_of(self.said[number].made, self._heading(number))

    def _heading(self, number: int) -> str:
        return words.turn_of_step(self.name, self.turns[number].notation)


class TitleCard(Struct, frozen=True):
    """Words that stand alone beside the cube: a heading, and lines under it."""

    heading: str
    lines: tuple[str, ...] = ()

    @property
    def seconds(self) -> float:
        """How long it stays in view."""
        return max(LAST_SECONDS, reading_seconds(" ".join((self.heading, *self.lines))))


class Passage(Struct, frozen=True):
    """Turns shown from a start; ``opening`` is said before the first turn, ``ending`` after the last.

    ``first`` is shown before all else and ``last`` after it. With a ``voice`` the turns are shown once,
    slowly, and last as long as the voice does, or as long as it takes to read what is said.
    """

    subject: Subject
    pieces: tuple[FilmPiece, ...]
    opening: str = ""
    ending: str = ""
    camera: Camera | None = None
    """None for that of the film."""
    first: TitleCard | None = None
    last: TitleCard | None = None
    voice: Recording | None = None
    scene: int = 1
    """The number of the scene that it shows, in a lesson."""

    @property
    def turns(self) -> tuple[Move, ...]:
        """All turns."""
        return tuple(turn for piece in self.pieces for turn in piece.turns)

    @property
    def end(self) -> HeldCube:
        """The cube after all turns."""
        return self.subject.cube.after(self.turns)

    @property
    def unmirrored(self) -> Passage:
        """The same where no mirrors are seen."""
        pieces = (replace(piece, said=tuple(each.unmirrored for each in piece.said)) for piece in self.pieces)
        return replace(self, pieces=tuple(pieces))

    def passes(self, pace: FilmPace) -> tuple[bool, ...]:
        """Whether each of its showings is slow: nobody should see a slip at real speed."""
        if not self.turns:
            return () if pace is FilmPace.REAL else (True,)
        if self.voice is not None or any(piece.slip for piece in self.pieces):
            return (True,)
        return _PASSES[pace]


class Words(Struct, frozen=True):
    """What is written beside the cube: title and pace, the steps with their turns, and the caption.

    ``done`` turns have been shown; the next one is under way when ``turning``.
    """

    title: str
    pace: str
    pieces: tuple[FilmPiece, ...]
    done: int
    turning: bool
    caption: Caption


class FilmFrame(Struct, frozen=True):
    """One picture and for how many ticks it stays."""

    stage: Stage
    words: Words | TitleCard
    ticks: int

    @property
    def caption(self) -> Caption:
        """What is said; nothing on a card."""
        return NOTHING if isinstance(self.words, TitleCard) else self.words.caption


class Sound(Struct, frozen=True):
    """A recording that begins after so many ticks."""

    begin: int
    recording: Recording


class Film(Struct, frozen=True):
    """Pictures in order; neighbours differ."""

    frames: tuple[FilmFrame, ...]
    shot: Shot
    rate: int = RATE
    sounds: tuple[Sound, ...] = ()

    @property
    def ticks(self) -> int:
        """Length in ticks."""
        return sum(frame.ticks for frame in self.frames)

    @property
    def seconds(self) -> float:
        """Length in seconds."""
        return self.ticks / self.rate


class Cue(Struct, frozen=True):
    """A caption with the ticks between which it is seen."""

    begin: int
    end: int
    caption: Caption


def cues(frames: Iterable[FilmFrame]) -> Iterator[Cue]:
    """Every caption in its order, with the time that it is seen."""
    shown = 0
    for caption, together in groupby(frames, key=lambda frame: frame.caption):
        begin, shown = shown, shown + sum(frame.ticks for frame in together)
        if caption.text:
            yield Cue(begin, shown, caption)


def film_of(
    passages: tuple[Passage, ...],
    shot: Shot,
    pace: FilmPace = FilmPace.BOTH,
    speed: float = 1.0,
    rate: int = RATE,
    spoken: Spoken = SILENT,
) -> Film:
    """The film of passages one after the other, each slowly and then at real speed, or as ``pace`` says.

    ``speed`` is of the turns, 1 the usual one; ``rate`` is in pictures a second. Captions that are ``spoken``
    stay until they are said, where the passage has no voice. Nothing is said of mirrors that are not seen.
    Raises ValueError when there is nothing to show or the film would be longer than anybody watches.
    """
    if not shot.look.mirrors:
        passages = tuple(passage.unmirrored for passage in passages)
    frames: list[FilmFrame] = []
    sounds: list[Sound] = []
    for passage in with_passes(passages, pace):
        begin = sum(frame.ticks for frame in frames)
        shown = _shown(passage, shot, pace, speed, rate, spoken)
        frames += shown
        sounds += _sounds(passage, shown, begin, spoken)
    film = Film(tuple(_joined(iter(frames))), shot, rate, tuple(sounds))
    if not frames:
        raise ValueError(words.NOTHING_TO_SHOW)
    if film.ticks * RATE > LONGEST_TICKS * rate:
        raise ValueError(words.too_long(film.seconds / 60, LONGEST_TICKS / RATE / 60))
    return film


def with_passes(passages: tuple[Passage, ...], pace: FilmPace) -> tuple[Passage, ...]:
    """The passages of which anything is shown; the first card of all stays before the first of them."""
    shown = tuple(passage for passage in passages if passage.passes(pace))
    if not shown:
        return ()
    return (replace(shown[0], first=shown[0].first or passages[0].first), *shown[1:])


def _shown(
    passage: Passage, shot: Shot, pace: FilmPace, speed: float, rate: int, spoken: Spoken
) -> list[FilmFrame]:
    """The pictures of a passage, with its cards."""
    seen = shot if passage.camera is None else replace(shot, camera=passage.camera)
    heard = SILENT if passage.voice is not None else spoken
    frames: list[FilmFrame] = []
    for slow in passage.passes(pace):
        frames += _joined(_Pass(passage, seen, slow, speed, rate, heard).frames())
    first = _card(passage.first, passage.subject, passage.subject.cube, seen, rate)
    frames += _card(passage.last, passage.subject, passage.end, seen, rate)
    if passage.voice is not None:
        frames = _lasting(frames, ceil(passage.voice.seconds * rate))
    return [*first, *frames]


def _card(
    card: TitleCard | None, subject: Subject, cube: HeldCube, shot: Shot, rate: int
) -> tuple[FilmFrame, ...]:
    if card is None:
        return ()
    return (FilmFrame(stage_of(subject, Pose(cube), shot), card, ceil(card.seconds * rate)),)


def _sounds(passage: Passage, shown: list[FilmFrame], begin: int, spoken: Spoken) -> Iterator[Sound]:
    """What is heard while a passage is shown that begins after so many ticks."""
    if passage.voice is not None:
        title = shown[0].ticks if passage.first is not None else 0
        yield Sound(begin + title, passage.voice)
        return
    for cue in cues(shown):
        if cue.caption in spoken:
            yield Sound(begin + cue.begin, spoken[cue.caption])


def _lasting(frames: list[FilmFrame], ticks: int) -> list[FilmFrame]:
    """The pictures with those at rest kept longer, so that all of them last so many ticks at least."""
    resting = [frame.ticks if frame.stage.turning is None else 0 for frame in frames]
    extra = max(0, ticks - sum(frame.ticks for frame in frames))
    shares = [round(extra * so_far / max(1, sum(resting))) for so_far in accumulate(resting, initial=0)]
    return [
        replace(frame, ticks=frame.ticks + after - before)
        for frame, (before, after) in zip(frames, pairwise(shares), strict=True)
    ]


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


class _Pass(Struct, frozen=True):
    """One showing of a passage."""

    passage: Passage
    shot: Shot
    slow: bool
    speed: float
    rate: int
    spoken: Spoken

    def frames(self) -> Iterator[FilmFrame]:
        """All pictures of the pass; at real speed nobody could read, so nothing is said before the end."""
        opening = captions_of(self.passage.opening) if self.slow else NONE
        if not opening and self.passage.turns:
            yield self._still(0, LEAD_IN / self.speed, NOTHING)
        yield from self._read(opening, 0)
        caption, done, after = opening[-1] if opening else NOTHING, 0, NONE
        for piece in self.passage.pieces:
            for number, turn in enumerate(piece.turns):
                before = piece.before(number) if self.slow else NONE
                yield from self._coming(before, caption, done, turn)
                caption = before[-1] if before else caption
                yield from self._turned(turn, done, caption)
                done += 1
                after = piece.after(number) if self.slow else NONE
                yield from self._read(after, done)
                caption = after[-1] if after else caption
                yield self._still(done, self._rest(piece, number, bool(after)), caption)
        if self.passage.turns:
            yield from self._end(NONE if after else captions_of(self.passage.ending), caption)

    def _rest(self, piece: FilmPiece, number: int, told: bool) -> float:
        """Seconds after a turn; none where there was something to read."""
        if not self.slow:
            return BREATH
        return 0.0 if told else STEP_REST if number + 1 == len(piece.turns) else BREATH

    def _coming(
        self, before: tuple[Caption, ...], caption: Caption, done: int, turn: Move
    ) -> Iterator[FilmFrame]:
        """What is said before a turn, with its arrow, which nobody would see at real speed."""
        if self.slow and not before:
            yield self._still(done, LEAD_IN / self.speed, caption, turn)
        yield from self._read(before, done, turn)

    def _end(self, ending: tuple[Caption, ...], caption: Caption) -> Iterator[FilmFrame]:
        """The end for a while: what was said of the last turn, or else how it ends."""
        done = len(self.passage.turns)
        yield from self._read(ending, done)
        yield self._still(done, LAST_SECONDS, ending[-1] if ending else caption)

    def _read(
        self, captions: tuple[Caption, ...], done: int, coming: Move | None = None
    ) -> Iterator[FilmFrame]:
        """Captions one after the other, each until it is read and said."""
        for caption in captions:
            lasting = caption.seconds / min(1.0, self.speed)
            if caption in self.spoken:
                lasting = max(lasting, self.spoken[caption].seconds + AFTER_SPEECH)
            yield self._still(done, lasting, caption, coming)

    def _ticks(self, lasting: float) -> int:
        return max(1, ceil(lasting * self.rate - 1e-6))

    def _words(self, done: int, turning: bool, caption: Caption) -> Words:
        pace = words.SLOWLY if self.slow else words.AT_REAL_SPEED
        return Words(self.passage.subject.title, pace, self.passage.pieces, done, turning, caption)

    def _still(self, done: int, lasting: float, caption: Caption, coming: Move | None = None) -> FilmFrame:
        cube = self.passage.subject.cube.after(self.passage.turns[:done])
        # An arrow hugs one layer; the tile alone tells of more layers.
        arrow = coming if isinstance(coming, Turn) else None
        stage = stage_of(self.passage.subject, Pose(cube), self.shot, arrow)
        return FilmFrame(stage, self._words(done, coming is not None, caption), self._ticks(lasting))

    def _turned(self, turn: Move, done: int, caption: Caption) -> Iterator[FilmFrame]:
        """The poses inside a turn; its start and end are at rest and belong to the stills."""
        cube = self.passage.subject.cube.after(self.passage.turns[:done])
        quick = max(2, ceil(seconds(turn, self.speed) * self.rate))
        count = quick * (SLOWNESS if self.slow else 1)
        for number in range(1, count):
            pose = pose_within(cube, turn, ease(number / count))
            yield FilmFrame(
                stage_of(self.passage.subject, pose, self.shot), self._words(done, True, caption), 1
            )
