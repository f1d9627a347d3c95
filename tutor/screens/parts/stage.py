"""The cube on the stage: its pose at a moment, and the marks on it."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.cube.geometry import (
    CORNER_CUBIES,
    EDGE_CUBIES,
    SIDE_RING,
    STICKERS,
    cubie_number,
)
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import CROSS_EDGES, Position, Slot
from tutor.cube.symmetry import IDENTITY, Symmetry
from tutor.session.beats import Phase
from tutor.session.demonstration import Demonstration, ShownDetour
from tutor.session.house import Session
from tutor.session.state import Attempt
from tutor.session.target import Bearing
from tutor.session.timeline import Pose, ease
from tutor.ui.view import Arrow, Stage

FADE_SECONDS = 0.25
"""How long one picture fades into the next with reduced motion."""

_STICKER_ON_CUBIE = {cubie_number(cubie): sticker for sticker, (cubie, _) in enumerate(STICKERS)}


def pose_of(session: Session, now: float) -> Pose | None:
    """The pose of the cube on the screen at a moment; None on a screen without a cube."""
    if session.demonstration is not None:
        return session.demonstration.pose(now)
    attempt = session.attempt
    if attempt is None:
        return None
    pose = session.timeline.sample(now, attempt.cube)
    if pose.turning is None and session.dragged is not None:
        return Pose(pose.cube, session.dragged)
    return pose


def stage_of(session: Session, attempt: Attempt, now: float) -> Stage:
    """The stage for an attempt, marks included."""
    pose = pose_of(session, now) or Pose(attempt.cube)
    demonstration = session.demonstration
    if demonstration is not None and _fades(session, pose):
        return _fading(session, attempt, demonstration, now)
    stage = Stage(
        colours=pose.cube.colours,
        turning=pose.turning,
        camera=session.camera,
        glowing=frozenset() if pose.turning is not None else session.room.pointed_out(session, pose.cube),
    )
    if session.faded_from is not None and demonstration is None:
        before, begun = session.faded_from
        mix = min(1.0, (now - begun) / FADE_SECONDS)
        if mix < 1.0:
            stage = replace(stage, crossfade=before.colours, crossfade_mix=mix)
    stage = _marked_for(session, attempt, stage, pose.cube)
    return stage if demonstration is None else with_coming(stage, demonstration, now)


def _marked_for(session: Session, attempt: Attempt, stage: Stage, cube: HeldCube) -> Stage:
    """The stage with the attempt's marks for this cube, where they give nothing away."""
    own = session.room.marked(session, attempt, stage)
    if own is None:
        own = stage if attempt.aim is None else marked(stage, attempt.aim.bearing(cube))
    shown = None if session.demonstration is None else session.demonstration.detour
    if shown is None or attempt.aim is None:
        return own
    return with_damage(own, attempt.aim.bearing(cube), shown)


def with_damage(stage: Stage, bearing: Bearing, shown: ShownDetour) -> Stage:
    """The stage with the pieces lit that a Detour put out of order, wherever they are now."""
    position = bearing.position
    edges = (EDGE_CUBIES[position.edges[CROSS_EDGES[SIDE_RING.index(side)]] // 2] for side in shown.edges)
    out = frozenset(edges).union(*(pair_cubies(position, slot) for slot in shown.pairs))
    lit = _carried(out, bearing.hold.inverse)
    return replace(stage, glowing=stage.glowing | lit, dimmed=stage.dimmed - lit)


def _fades(session: Session, pose: Pose) -> bool:
    """Whether a turn that plays is to fade; one scrubbed by hand follows the hand in any case."""
    demonstration = session.demonstration
    playing = demonstration is not None and demonstration.playing
    return playing and pose.turning is not None and session.settings.reduced_motion


def _fading(session: Session, attempt: Attempt, demonstration: Demonstration, now: float) -> Stage:
    """With reduced motion: the cube before the turn under way fades into the one after it."""
    beat = demonstration.beat(now)
    turns = demonstration.turns
    before, after = (demonstration.start.after(turns[: beat.turn + made]) for made in (0, 1))
    mix = ease(beat.share)
    stage = Stage(after.colours, camera=session.camera, crossfade=before.colours, crossfade_mix=mix)
    return _marked_for(session, attempt, stage, after if mix >= 0.5 else before)


def marked(stage: Stage, bearing: Bearing) -> Stage:
    """The stage with the target pair ringed, its slot framed, and what does not matter dimmed.

    What merely fills the slot is dimmed too, so that the slot looks empty.
    """
    back = bearing.hold.inverse
    task, position = bearing.task, bearing.position
    pair = pair_cubies(position, task.slot)
    matters = pair | {EDGE_CUBIES[position.edges[piece] // 2] for piece in CROSS_EDGES}
    for slot in task.keep:
        matters |= pair_cubies(position, slot)
    movable = frozenset(CORNER_CUBIES + EDGE_CUBIES)
    return replace(
        stage,
        dimmed=_carried(movable - matters, back),
        outlined=_carried(pair, back),
        framed=_carried(slot_cubies(task.slot), back),
        filled=position.pair_home(task.slot),
    )


def small_picture(stage: Stage, bearing: Bearing) -> Stage:
    """The stage as a picture of an inch: colours on the pair and the centres alone, and a plain frame."""
    pair = _carried(pair_cubies(bearing.position, bearing.task.slot), bearing.hold.inverse)
    return replace(
        marked(stage, bearing),
        dimmed=frozenset(CORNER_CUBIES + EDGE_CUBIES) - pair,
        outlined=frozenset(),
        filled=True,
    )


def with_hint(stage: Stage, bearing: Bearing, glowing: frozenset[int], arrow: Arrow | None) -> Stage:
    """The stage with a hint's lights and arrow, given in the frame of the bearing."""
    held = None if arrow is None else Arrow(bearing.turn_as_held(arrow.turn))
    return with_glow(stage, bearing.hold, glowing, held)


def with_glow(stage: Stage, hold: Symmetry, glowing: frozenset[int], arrow: Arrow | None) -> Stage:
    """The stage with lights, given in the frame after ``hold``, and an arrow for the cube as held."""
    return replace(stage, glowing=_carried(glowing, hold.inverse), arrow=arrow)


def with_coming(stage: Stage, demonstration: Demonstration, now: float) -> Stage:
    """The stage with the arrow of the turn that is coming; at full speed turns have none."""
    beat = demonstration.beat(now)
    if beat.phase is not Phase.COMING or beat.real:
        return stage
    return replace(stage, arrow=Arrow(demonstration.turns[beat.turn]))


def pair_cubies(position: Position, slot: Slot) -> frozenset[int]:
    """The cubies where the slot's own corner and edge are."""
    corner, edge = position.corners[slot.corner] // 3, position.edges[slot.edge] // 2
    return frozenset((CORNER_CUBIES[corner], EDGE_CUBIES[edge]))


def slot_cubies(slot: Slot) -> frozenset[int]:
    """The two places of a slot."""
    return frozenset((CORNER_CUBIES[slot.corner], EDGE_CUBIES[slot.edge]))


def _carried(cubies: frozenset[int], symmetry: Symmetry) -> frozenset[int]:
    """Cubie numbers after the whole cube is rotated."""
    if symmetry is IDENTITY:
        return cubies
    return frozenset(
        cubie_number(STICKERS[symmetry.stickers[_STICKER_ON_CUBIE[cubie]]][0]) for cubie in cubies
    )


def moving(session: Session, now: float) -> bool:
    """Whether the picture changes by itself after ``now``."""
    if session.demonstration is not None:
        return session.demonstration.moving(now)
    fading = session.faded_from is not None and now - session.faded_from[1] < FADE_SECONDS
    return fading or session.timeline.moving(now)
