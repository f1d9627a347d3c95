"""What one turn changes for the pair: the events worth naming, the weightiest first."""

from __future__ import annotations

from enum import StrEnum
from functools import cached_property

from msgspec import Struct

from tutor.coach.scene import Moment, Piece
from tutor.coach.sight import InPlace, SpokenPosition
from tutor.cube.faces import Face, Turn
from tutor.cube.position import Position, Slot
from tutor.method.hand_ways import is_lift
from tutor.method.pairs import match, pair_locations, touch
from tutor.method.steps import joined, parted, raised
from tutor.solver.task import Task, slot_sides


class Event(StrEnum):
    """What a turn does, from the best to the worst that can be said of it."""

    HOME = "home"
    """The task is done."""
    JOINED = "joined"
    """The pieces match on top now, and did not before."""
    SEATED = "seated"
    """The matching pair lies in the lifted slot: the one turn left takes it down."""
    RAISED = "raised"
    """Both pieces are on top and everything kept is solved, as they were not before."""
    PARTED = "parted"
    """The same, and the pieces are ready to join, as they were not before."""
    BOTH_UP = "both_up"
    CORNER_UP = "corner_up"
    EDGE_UP = "edge_up"
    """Came up to the top layer from below."""
    APART = "apart"
    """The pieces touched without matching, and no longer touch; something is still lifted."""
    CORNER_SPARED = "corner_spared"
    EDGE_SPARED = "edge_spared"
    """Left the lifted layer, so that it stays on top when that layer goes back."""
    LOWERED = "lowered"
    """The cross and the kept pairs are solved again."""
    PUT_BACK = "put_back"
    """Pairs or edges of the cross are in place again, though not everything is."""
    OPENED = "opened"
    """The slot is lifted and both pieces stay where they are."""
    CARRIED_CORNER = "carried_corner"
    CARRIED_EDGE = "carried_edge"
    """The slot is lifted; the one piece goes along, the other stays."""
    CLEARED = "cleared"
    """Neither piece is in the layer that lifts the slot next."""
    SET_CORNER = "set_corner"
    SET_EDGE = "set_edge"
    """The one piece is in the layer that lifts the slot next and the other is not."""
    TAKEN_OUT = "taken_out"
    """Pairs or edges of the cross are out of place that were in place before."""
    SPLIT = "split"
    """The pieces matched and no longer do."""
    BOTH_DOWN = "both_down"
    CORNER_DOWN = "corner_down"
    EDGE_DOWN = "edge_down"
    """Was on top and is no more."""
    MOVED_BOTH = "moved_both"
    MOVED_CORNER = "moved_corner"
    MOVED_EDGE = "moved_edge"
    MOVED_NONE = "moved_none"


_MOVED = {
    (True, True): Event.MOVED_BOTH,
    (True, False): Event.MOVED_CORNER,
    (False, True): Event.MOVED_EDGE,
    (False, False): Event.MOVED_NONE,
}


class Change(Struct, frozen=True, dict=True):
    """A position, a turn from it, and what that does.

    ``following`` are the turns that a shortest line makes after it, if one begins with it.
    """

    position: Position
    task: Task
    turn: Turn
    colours: tuple[str, ...]
    following: tuple[Turn, ...] = ()

    @property
    def next_face(self) -> Face | None:
        """The face that is turned next on a shortest line."""
        return self.following[0].face if self.following else None

    @cached_property
    def before(self) -> SpokenPosition:
        """What is seen before the turn."""
        return SpokenPosition(self.position, self.task, self.colours, Moment.BEFORE)

    @cached_property
    def after(self) -> SpokenPosition:
        """What is seen after the turn."""
        return SpokenPosition(self.position.turned(self.turn), self.task, self.colours, Moment.AFTER)

    def moved(self, piece: Piece) -> bool:
        """Whether the turn moves the piece."""
        return self.turn.face in self.before.faces(piece)

    @cached_property
    def came_up(self) -> tuple[Piece, ...]:
        """The pieces that the turn brings up to the top layer."""
        return tuple(
            piece
            for piece in Piece
            if Face.U not in self.before.faces(piece) and Face.U in self.after.faces(piece)
        )

    @cached_property
    def touched(self) -> bool:
        """Whether corner and edge touched before."""
        return touch(*pair_locations(self.before.position, self.task.slot))

    @cached_property
    def touch(self) -> bool:
        """Whether corner and edge touch after."""
        return touch(*pair_locations(self.after.position, self.task.slot))

    @cached_property
    def matched(self) -> bool:
        """Whether corner and edge matched before."""
        return match(self.task.slot, *pair_locations(self.before.position, self.task.slot))

    @cached_property
    def match(self) -> bool:
        """Whether corner and edge match after."""
        return match(self.task.slot, *pair_locations(self.after.position, self.task.slot))

    @cached_property
    def was_settled(self) -> bool:
        """Whether the cross and the kept pairs were solved before."""
        return self.task.settled(self.before.position)

    @cached_property
    def settled(self) -> bool:
        """Whether the cross and the kept pairs are solved after."""
        return self.task.settled(self.after.position)

    @cached_property
    def taken_out(self) -> InPlace:
        """All pairs of the task and cross edges that the turn takes out of place."""
        return self.before.in_place - self.after.in_place

    @cached_property
    def put_back(self) -> InPlace:
        """All pairs of the task and cross edges that the turn brings back in place."""
        return self.after.in_place - self.before.in_place

    @cached_property
    def events(self) -> tuple[Event, ...]:
        """What the turn does, the weightiest first; the last one always is about what moved."""
        told = (*self._steps(), *self._risings(), *self._slot_events(), *self._losses())
        found = [event for event in told if event]
        return (*found, _MOVED[self.moved(Piece.CORNER), self.moved(Piece.EDGE)])

    def _steps(self) -> tuple[Event | None, ...]:
        """What the turn completes."""
        old, new, task = self.before.position, self.after.position, self.task
        done = task.done(new)
        seated = not done and self.match and self._seated()
        return (
            Event.HOME if done else None,
            Event.JOINED if joined(new, task) and not self.matched else None,
            Event.SEATED if seated else None,
            Event.RAISED if raised(new, task) and not raised(old, task) else None,
            Event.PARTED if parted(new, task) and not parted(old, task) else None,
        )

    def _seated(self) -> bool:
        """Whether the lifted layer, turning back, solves the pair."""
        face = self.after.settling_face
        if face is None or face not in slot_sides(self.task.slot):
            return False
        ends = (self.after.position.turned(Turn.of(face, quarters)) for quarters in (1, 2, 3))
        return any(self.task.done(end) for end in ends)

    def _risings(self) -> tuple[Event | None, ...]:
        """What comes up, comes apart or leaves the lifted layer."""
        up = {(Piece.CORNER, Piece.EDGE): Event.BOTH_UP, (Piece.CORNER,): Event.CORNER_UP}
        up[(Piece.EDGE,)] = Event.EDGE_UP
        apart = self.touched and not self.matched and not self.touch and not self.settled
        return (
            up.get(self.came_up),
            Event.APART if apart else None,
            Event.CORNER_SPARED if self._spared(Piece.CORNER) else None,
            Event.EDGE_SPARED if self._spared(Piece.EDGE) else None,
        )

    def _spared(self, piece: Piece) -> bool:
        """Whether a turn of the top takes the piece out of the lifted layer."""
        face = self.before.settling_face
        if face is None or self.turn.face is not Face.U:
            return False
        return self.before.in_layer(piece, face) and not self.after.in_layer(piece, face)

    def _losses(self) -> tuple[Event | None, ...]:
        """What is undone."""
        if self.task.done(self.after.position):
            return ()
        down = tuple(
            piece
            for piece in Piece
            if Face.U in self.before.faces(piece) and Face.U not in self.after.faces(piece)
        )
        fallen = {(Piece.CORNER, Piece.EDGE): Event.BOTH_DOWN, (Piece.CORNER,): Event.CORNER_DOWN}
        fallen[(Piece.EDGE,)] = Event.EDGE_DOWN
        return (
            Event.TAKEN_OUT if self.taken_out and self.lifted is None else None,
            Event.SPLIT if self.matched and not self.match else None,
            fallen.get(down),
        )

    @cached_property
    def lifted(self) -> Slot | None:
        """The slot of a settled position, the task's own or another that is not kept, that the turn lifts."""
        lifts = (slot for slot in Slot if slot not in self.task.keep and is_lift(self.turn, slot))
        return next(lifts, None) if self.was_settled else None

    @property
    def _lifts_next(self) -> bool:
        """Whether the turn after it lifts the slot."""
        return bool(self.following) and is_lift(self.following[0], self.task.slot)

    def _slot_events(self) -> tuple[Event | None, ...]:
        """Lifting, lowering, and getting ready for it."""
        if self.settled and not self.was_settled:
            return (Event.LOWERED,)
        if self.put_back and not self.taken_out:
            return (Event.PUT_BACK,)
        corner, edge = self.moved(Piece.CORNER), self.moved(Piece.EDGE)
        if self.lifted is self.task.slot and not self.came_up:
            carried = {(False, False): Event.OPENED, (True, False): Event.CARRIED_CORNER}
            carried[(False, True)] = Event.CARRIED_EDGE
            return (carried.get((corner, edge)),)
        if self.was_settled and self.settled and self.next_face is not None and self._lifts_next:
            ready = {(False, False): Event.CLEARED, (True, False): Event.SET_CORNER}
            ready[(False, True)] = Event.SET_EDGE
            was, now = self.before.both_in_layer(self.next_face), self.after.both_in_layer(self.next_face)
            return (ready.get(now) if now != was else None,)
        return ()
