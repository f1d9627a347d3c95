"""Slow and steady: one turn for each beat, while the eyes are on the pieces that come next."""

from __future__ import annotations

from math import floor

from msgspec.structs import replace

from tutor.cube.faces import Face
from tutor.cube.geometry import CORNER_CUBIES, CORNER_FACES, EDGE_CUBIES, EDGE_FACES
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Position
from tutor.screens.practice.state import PACES, PRACTICE, RUN, CaseRun, Colours, Metronome, RunPhase, Timing
from tutor.session.house import Session
from tutor.session.target import Bearing

IN_TIME = 0.25
"""A turn within this share of a beat before or after it is on it (our own figure; none is published)."""
_TOP_PLACES = range(4)


def begun(cube: HeldCube, bearing: Bearing, pace: int) -> Metronome:
    """The metronome of a run, and the two pieces to follow: the first on top that are not the pair's."""
    position, slot = bearing.position, bearing.task.slot
    held = cube.rotated(bearing.hold)
    corner = next(piece for piece in _on_top(position.corners, 3) if piece != slot.corner)
    edge = next(piece for piece in _on_top(position.edges, 2) if piece != slot.edge)
    followed = _colours(held, CORNER_FACES[corner]), _colours(held, EDGE_FACES[edge])
    return Metronome(pace, followed=followed)


def _on_top(places: tuple[int, ...], kinds: int) -> list[int]:
    """The pieces that lie in the top layer, by their numbers."""
    return [piece for piece, place in enumerate(places) if place // kinds in _TOP_PLACES]


def _colours(held: HeldCube, faces: tuple[Face, ...]) -> Colours:
    return frozenset(held.colour_of(face) for face in faces)


def followed_cubies(beat: Metronome, held: HeldCube) -> frozenset[int]:
    """Where the two pieces are on a cube as held."""
    corner, edge = beat.followed
    return cubies_of(corner, edge, held)


def cubies_of(corner_colours: Colours, edge_colours: Colours, held: HeldCube) -> frozenset[int]:
    """Where a corner and an edge are on a cube as held."""
    corner, edge = (
        frozenset(held.face_of(colour) for colour in piece) for piece in (corner_colours, edge_colours)
    )
    position: Position = held.position
    at_corner = next(number for number, faces in enumerate(CORNER_FACES) if frozenset(faces) == corner)
    at_edge = next(number for number, faces in enumerate(EDGE_FACES) if frozenset(faces) == edge)
    return frozenset(
        (CORNER_CUBIES[position.corners[at_corner] // 3], EDGE_CUBIES[position.edges[at_edge] // 2])
    )


def lit(run: CaseRun) -> bool:
    """Whether the two pieces are lit: until the first turn, and once the pair is home."""
    return run.phase is RunPhase.OVER or (run.phase is RunPhase.TURNING and not run.made)


def beaten(beat: Metronome, at: float) -> Metronome:
    """After a turn at ``at``: it is taken for the nearest beat, and wanted on the one after the last turn's.

    So a pause makes one turn late, and not all that follow it.
    """
    place = (at - beat.since) / beat.period
    nearest = round(place)
    wanted = nearest if beat.last is None else beat.last + 1
    if nearest != wanted:
        timing = Timing.EARLY if nearest < wanted else Timing.LATE
    elif abs(place - nearest) <= IN_TIME:
        timing = Timing.ON_BEAT
    else:
        timing = Timing.EARLY if place < nearest else Timing.LATE
    return replace(beat, last=nearest, timings=(*beat.timings, timing))


def followed(beat: Metronome, at: float, more: int) -> Metronome:
    """After a layer was turned at ``at``, which made so many turns more: one, none or one less.

    More of the last turn's layer leaves that turn as it was in time; on a later beat it takes that beat too.
    Without the last turn, which was taken back at once, the next one is taken for whatever beat is nearest.
    """
    if more > 0:
        return beaten(beat, at)
    if more < 0:
        return replace(beat, last=None, timings=beat.timings[:-1])
    place = (at - beat.since) / beat.period
    return replace(beat, last=round(place)) if abs(place - round(place)) <= IN_TIME else beat


def paced(session: Session, step: int, now: float) -> Session:
    """More or fewer beats a minute; in a run the beat begins anew."""
    practice, run = PRACTICE.of(session), RUN.of(session)
    pace = PACES[max(0, min(len(PACES) - 1, PACES.index(practice.pace) + step))]
    session = PRACTICE.put(session, replace(practice, pace=pace))
    if run is None or run.beat is None or run.phase is RunPhase.OVER or pace == run.beat.pace:
        return session
    since = max(0.0, now - run.started)
    beat = replace(run.beat, pace=pace, since=since, count=0, last=None)
    return RUN.put(session, replace(run, beat=beat))


def beats_at(beat: Metronome, at: float) -> int:
    """Beats that have been by then, the one at the start left out."""
    return max(0, floor((at - beat.since) / beat.period))
