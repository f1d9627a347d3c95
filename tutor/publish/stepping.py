"""Turns to step through on a page: where stepping stops, what is seen there, and what is said."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.publish import words
from tutor.publish.captions import Caption
from tutor.publish.document import CubePicture, Stepping, Stop
from tutor.publish.film import Passage
from tutor.publish.subject import Shot, stage_of
from tutor.session.timeline import Pose, pose_within


def stepping_of(passage: Passage, like: CubePicture) -> Stepping:
    """The turns of a passage, seen and drawn as ``like`` is, without mirrors."""
    turns = tuple(turn.notation for turn in passage.turns)
    return Stepping(turns, tuple(_Stops(passage.unmirrored, like)))


class _Stops(Struct, frozen=True):
    passage: Passage
    like: CubePicture

    def __iter__(self) -> Iterator[Stop]:
        turns = [(piece, number) for piece in self.passage.pieces for number in range(len(piece.turns))]
        after = _said("", self.passage.opening)
        for done, (piece, number) in enumerate(turns):
            said = (*after, *_together(piece.before(number)))
            yield Stop(self._rest(done), said, self._halfway(done))
            after = _together(tuple(replace(each, heading="") for each in piece.after(number)))
        yield Stop(self._rest(len(turns)), after or _said("", self.passage.ending))

    def _rest(self, done: int) -> CubePicture:
        turns = self.passage.turns
        coming = turns[done] if done < len(turns) else None
        arrow = coming if isinstance(coming, Turn) else None
        alt = words.AT_THE_END if coming is None else words.before_turns(coming.notation)
        return replace(self._picture(Pose(self._cube(done)), arrow), alt=alt)

    def _halfway(self, done: int) -> CubePicture:
        return self._picture(pose_within(self._cube(done), self.passage.turns[done], 0.5))

    def _cube(self, done: int) -> HeldCube:
        return self.passage.subject.cube.after(self.passage.turns[:done])

    def _picture(self, pose: Pose, arrow: Turn | None = None) -> CubePicture:
        shot = Shot(self.like.look, camera=self.like.stage.camera)
        return CubePicture(stage_of(self.passage.subject, pose, shot, arrow), self.like.look, "")


def _said(heading: str, text: str) -> tuple[Caption, ...]:
    return (Caption(heading, text),) if text else ()


def _together(captions: tuple[Caption, ...]) -> tuple[Caption, ...]:
    """Captions that a film shows one after the other, in one: a page has room."""
    if not captions:
        return ()
    return _said(captions[-1].heading, " ".join(caption.text for caption in captions))
