"""Routes by a plain search that follows the definition word by word and shares nothing with the program's.

Turns rotate stickers in space. A hand way is a list of turns of the top, of blocks and of turn-aways, kept as
the hands make them, one after the other; only counting merges neighbours of one face. So Raise and Part may
end between two turns that meet on one face and count once. Join ends where one sees the made pair, after a
turn as counted. Nothing is estimated, and no slot is seen as the image of another.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

import numpy as np
from msgspec import Struct

from tests.solver.plain_search import CORNER_STEPS, EDGE_STEPS
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES, NORMALS
from tutor.cube.position import CROSS_EDGES, Position, Slot
from tutor.method.steps import TURNING_STEPS, Step
from tutor.solver.task import Task

Turns = tuple[Turn, ...]
Place = tuple[int, int]
"""Locations of the pair's corner and edge."""
Found = dict[Turn, tuple[int, frozenset[Turns]]]
"""For each first turn the length of the shortest routes that begin with it, and all of those."""

CORNER_TO: list[list[int]] = CORNER_STEPS.tolist()
EDGE_TO: list[list[int]] = EDGE_STEPS.tolist()
FACE = tuple(int(turn.face) for turn in TURNS)
TOPS = (Turn.U, Turn.U2, Turn.U_PRIME)
SIDES = {Slot.FR: "FR", Slot.FL: "FL", Slot.BL: "BL", Slot.BR: "BR"}
AWAY = {
    Slot.FR: ("R' F R F'", "F R' F' R"),
    # In the mirror that exchanges left and right; turned half round; in the mirror of front and back.
    Slot.FL: ("L F' L' F", "F' L F L'"),
    Slot.BL: ("L' B L B'", "B L' B' L"),
    Slot.BR: ("R B' R' B", "B' R B R'"),
}


def named(text: str) -> Turns:
    return tuple(next(turn for turn in TURNS if turn.notation == name) for name in text.split())


# ------------------------------------------------------------------------------------ pieces and pairs


def _cubie(faces: Iterable[Face]) -> tuple[int, ...]:
    return tuple(int(total) for total in np.sum([NORMALS[face] for face in faces], axis=0))


def _colours(home: tuple[Face, ...], places: tuple[tuple[Face, ...], ...], at: int) -> dict[Face, Face]:
    """The colour that a piece shows on each face: its first sticker is at the location."""
    place, first = divmod(at, len(home))
    return {places[place][(first + n) % len(home)]: colour for n, colour in enumerate(home)}


def share_a_side(place: Place) -> bool:
    corner, edge = _cubie(CORNER_FACES[place[0] // 3]), _cubie(EDGE_FACES[place[1] // 2])
    return sum(abs(a - b) for a, b in zip(corner, edge, strict=True)) == 1


@cache
def matching(slot: Slot, place: Place) -> bool:
    """Whether they touch and both colours of the edge continue the corner's across the joint."""
    on_corner = _colours(CORNER_FACES[slot.corner], CORNER_FACES, place[0])
    on_edge = _colours(EDGE_FACES[slot.edge], EDGE_FACES, place[1])
    return share_a_side(place) and all(on_corner.get(face) is colour for face, colour in on_edge.items())


def on_top(place: Place) -> bool:
    return Face.U in CORNER_FACES[place[0] // 3] and Face.U in EDGE_FACES[place[1] // 2]


def moved(place: Place, turns: Iterable[Turn]) -> Place:
    corner, edge = place
    for turn in turns:
        corner, edge = CORNER_TO[turn][corner], EDGE_TO[turn][edge]
    return corner, edge


# ------------------------------------------------------------------------------------ what a hand does


def lifts(slot: Slot) -> Turns:
    """The quarter turns of its side faces that carry the slot's place up into the top layer."""
    place = 3 * slot.corner, 2 * slot.edge
    quarters = [Turn.of(Face[name], count) for name in SIDES[slot] for count in (1, 3)]
    return tuple(turn for turn in quarters if on_top(moved(place, (turn,))))


def counted(turns: Turns) -> Turns | None:
    """The turns with neighbours of one face merged; None where a merge cancels."""
    merged: list[Turn] = []
    for turn in turns:
        if merged and FACE[merged[-1]] == FACE[turn]:
            both = merged.pop()
            quarters = (both.quarters + turn.quarters) % 4
            if not quarters:
                return None
            merged.append(Turn.of(turn.face, quarters))
        else:
            merged.append(turn)
    return tuple(merged)


def count(turns: Turns) -> int:
    merged = counted(turns)
    return 99 if merged is None else len(merged)


class Hand(Struct, frozen=True):
    """Turns as the hands make them, and whether they end with a turn-away."""

    turns: Turns
    away: bool


def parts_of(task: Task) -> list[Hand]:
    """A block or a turn-away, with or without a turn of the top before it."""
    slots = [slot for slot in Slot if slot not in task.keep]
    made: list[tuple[Turns, bool]] = [
        ((lift, top, lift.inverse), False) for slot in slots for lift in lifts(slot) for top in TOPS
    ]
    made += [(named(text), True) for text in AWAY[task.slot]]
    return [Hand((*top, *turns), away) for top in ((), *((top,) for top in TOPS)) for turns, away in made]


def hand_sequences(task: Task, longest: int) -> list[Hand]:
    """All that are made of turns of the top and of blocks, ending with a block or a turn-away."""
    parts = parts_of(task)
    found: list[Hand] = []

    def grow(turns: Turns, merged: Turns) -> None:
        for part in parts:
            longer = counted((*merged[-1:], *part.turns))
            if longer is not None and len(merged[:-1]) + len(longer) <= longest:
                found.append(Hand(turns + part.turns, part.away))
                # One more block adds two turns at least, where its lift merges with the turn before it.
                if not part.away and len(merged[:-1]) + len(longer) + 2 <= longest:
                    grow(turns + part.turns, merged[:-1] + longer)

    grow((), ())
    return found


@cache
def _words(length: int) -> tuple[Turns, ...]:
    """Sequences of any turns in which no face is turned twice in a row, be it with its opposite between.

    Opposite faces turn without touching each other, so that two such turns would merge as well.
    """
    if not length:
        return ((),)
    return tuple(
        (*word, turn) for word in _words(length - 1) for turn in TURNS if not _merges(word, turn.face)
    )


def _merges(word: Turns, face: Face) -> bool:
    for turn in reversed(word):
        if turn.face is face:
            return True
        if turn.face is not face.opposite:
            return False
    return False


def note(found: Found, turns: Turns) -> None:
    length, known = found.get(turns[0], (99, frozenset()))
    if len(turns) <= length:
        found[turns[0]] = len(turns), (known if len(turns) == length else frozenset()) | {turns}


def note_all(found: Found, before: Turns, later: Found) -> None:
    """What turns and the routes after them come to."""
    for _, routes in later.values():
        for route in routes:
            turns = counted(before + route)
            if turns is not None and _plain(turns):
                note(found, turns)


def turns_a_side(turns: Turns) -> bool:
    return any(turn.face is not Face.U for turn in turns)


# ------------------------------------------------------------------------------------ routes for a task


class PlainRoutes:
    """Routes for one task."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.home = 3 * task.slot.corner, 2 * task.slot.edge
        self.sequences = hand_sequences(task, 8)
        self.homing: dict[Place, list[Turns]] = {}
        for hand in self.sequences:
            back = tuple(turn.inverse for turn in reversed(hand.turns))
            self.homing.setdefault(moved(self.home, back), []).append(hand.turns)
        self.blocks = [hand.turns for hand in self.sequences if not hand.away]
        self.kept = [(CORNER_TO, 3 * slot.corner) for slot in task.keep]
        self.kept += [(EDGE_TO, 2 * slot.edge) for slot in task.keep]
        self.kept += [(EDGE_TO, 2 * piece) for piece in CROSS_EDGES]
        self.settled_routes = cache(self._settled_routes)
        self.ready = cache(self._ready)

    def joined(self, place: Place) -> bool:
        return on_top(place) and matching(self.task.slot, place)

    def splits(self, place: Place, turns: Turns, joining: int = 4) -> Iterator[tuple[Turns, Turns]]:
        """All ways to see turns that bring the pair home as a Join and an Insert of four turns at most."""
        for made in range(1, len(turns)):
            join, insert = turns[:made], turns[made:]
            if (
                self.joined(moved(place, join))
                and join[-1].face is not Face.U
                and join[-1].face is not insert[0].face
                and count(join) <= joining
                and count(insert) <= 4
                and turns_a_side(insert)
            ):
                yield join, insert

    def _leads_home(self, place: Place) -> bool:
        return any(any(self.splits(place, turns)) for turns in self.homing.get(place, ()))

    def _ready(self, place: Place) -> bool:
        """It matches already, or, however the top is turned, a hand way leads on."""
        if not on_top(place):
            return False
        aligned = (moved(place, top) for top in ((), *((top,) for top in TOPS)))
        return matching(self.task.slot, place) or all(self._leads_home(at) for at in aligned)

    def step_at(self, place: Place) -> Step:
        """The first step not done where all is settled."""
        if place == self.home:
            return Step.DONE
        if not on_top(place):
            return Step.RAISE
        if self.joined(place):
            return Step.INSERT
        return Step.JOIN if self.ready(place) else Step.PART

    def _most_turns(self, step: Step, place: Place) -> int:
        if step is not Step.RAISE:
            return 4
        slots = {frozenset(SIDES[slot]) for slot in Slot}
        low = [frozenset(face.name for face in faces) - {"D"} for faces in self._faces(place)]
        return 4 * max(1, len({sides for sides in low if sides in slots}))

    def _faces(self, place: Place) -> tuple[tuple[Face, ...], tuple[Face, ...]]:
        return CORNER_FACES[place[0] // 3], EDGE_FACES[place[1] // 2]

    def _settled_routes(self, place: Place) -> Found:
        step = self.step_at(place)
        return {} if step is Step.DONE else self._going_on(step, place, (), self._most_turns(step, place))

    def _going_on(self, step: Step, place: Place, before: Turns, most: int) -> Found:
        """Routes that go on with a step where all is settled, ``before`` being the turns it has already."""
        found: Found = {}
        if step is Step.INSERT:
            for turns in self.homing.get(place, ()):
                if count(before + turns) <= most:
                    note(found, counted(before + turns) or ())
        elif step is Step.JOIN:
            for turns in self.homing.get(place, ()):
                for join, _ in self.splits(place, turns, most):
                    if count(before + join) <= most and counted(before + turns) is not None:
                        note(found, counted(before + turns) or ())
        else:
            for turns in self.blocks:
                end = moved(place, turns)
                if count(before + turns) <= most and self._ends(step, end):
                    note_all(found, before + turns, self.after_step(end, turns[-1]))
        return found

    def after_step(self, place: Place, last: Turn) -> Found:
        """The routes on from where a step has ended. Join, if it is done with it, ends where one sees the
        pair made, after a turn: none of Insert merges with the last."""
        found = self.settled_routes(place)
        if not self.joined(place):
            return found
        return {turn: found[turn] for turn in found if turn.face is not last.face}

    def _ends(self, step: Step, place: Place) -> bool:
        return on_top(place) if step is Step.RAISE else self.ready(place)

    # ------------------------------------------------------------------------------ unsettled positions

    def settled_after(self, position: Position, turns: Turns) -> bool:
        at = [
            position.corners[home // 3] if to is CORNER_TO else position.edges[home // 2]
            for to, home in self.kept
        ]
        for turn in turns:
            at = [to[turn][location] for (to, _), location in zip(self.kept, at, strict=True)]
        return all(location == home for location, (_, home) in zip(at, self.kept, strict=True))

    def ways_back(self, position: Position) -> list[Turns]:
        """What finishes the block or turn-away in whose midst it is, else all that settle it first."""
        lowers = [lift.inverse for slot in Slot if slot not in self.task.keep for lift in lifts(slot)]
        rests: list[Turns] = [(*top, low) for low in lowers for top in ((), *((top,) for top in TOPS))]
        place = position.corners[self.task.slot.corner], position.edges[self.task.slot.edge]
        found = [rest for rest in rests if self.settled_after(position, rest)]
        for away in map(named, AWAY[self.task.slot]):
            for made in (1, 2, 3):
                if moved(place, away[made:]) == self.home and self.settled_after(position, away[made:]):
                    found.append(away[made:])
        return list(dict.fromkeys(found)) or self._settling(position)

    def _settling(self, position: Position) -> list[Turns]:
        """All sequences of at most four turns after the last of which it is settled for the first time."""
        back: dict[tuple[int, ...], list[Turns]] = {}
        homes = tuple(home for _, home in self.kept)
        for word in (*_words(0), *_words(1), *_words(2)):
            reverse = tuple(turn.inverse for turn in reversed(word))
            back.setdefault(self._carried(homes, reverse), []).append(word)
        start = tuple(
            position.corners[home // 3] if to is CORNER_TO else position.edges[home // 2]
            for to, home in self.kept
        )
        every = {
            first + last
            for first in (*_words(0), *_words(1), *_words(2))
            for last in back.get(self._carried(start, first), ())
        }
        canonical = {word for length in range(1, 5) for word in every if len(word) == length and _plain(word)}
        return [
            word
            for word in sorted(canonical)
            if not any(self.settled_after(position, word[:made]) for made in range(1, len(word)))
        ]

    def _carried(self, locations: tuple[int, ...], turns: Turns) -> tuple[int, ...]:
        for turn in turns:
            locations = tuple(to[turn][at] for (to, _), at in zip(self.kept, locations, strict=True))
        return locations

    def _under_way(self, step: Step, way: Turns, end: Place, joined: bool) -> Found:
        """Routes that begin with a way back, ``step`` being in progress: its rest within four turns."""
        found: Found = {}
        if end == self.home:
            if step is Step.INSERT:
                note(found, way)
        elif step is Step.RAISE or (step is Step.PART and self.ready(end)):
            note_all(found, way, self.after_step(end, way[-1]))
        elif step is Step.JOIN and joined:
            pass
        elif step is Step.JOIN and self.joined(end):
            note_all(found, way, self.after_step(end, way[-1]))
        else:
            found = self._going_on(step, end, way, 4)
        return found

    def answer(self, position: Position) -> tuple[Step, Found, Found]:
        """The step under way, the shortest routes by first turn, and those of the step under way alone."""
        place = position.corners[self.task.slot.corner], position.edges[self.task.slot.edge]
        if self.settled_after(position, ()):
            routes = self.settled_routes(place)
            return self.step_at(place), routes, routes
        by_step: dict[Step, Found] = {step: {} for step in TURNING_STEPS}
        for way in self.ways_back(position):
            for step in TURNING_STEPS:
                part = self._under_way(step, way, moved(place, way), self.joined(place))
                note_all(by_step[step], (), part)
        every: Found = {}
        for part in by_step.values():
            note_all(every, (), part)
        shortest = {
            step: min(length for length, _ in part.values()) for step, part in by_step.items() if part
        }
        if not shortest:
            return Step.RAISE, every, {}
        step = [step for step in shortest if shortest[step] == min(shortest.values())][-1]
        return step, every, by_step[step]


def _plain(word: Turns) -> bool:
    """Whether nothing would merge, be it with turns of the opposite face between."""
    return all(not _merges(word[:made], turn.face) for made, turn in enumerate(word))


plain_routes = cache(PlainRoutes)


def shortest(found: Found) -> frozenset[Turns]:
    """The shortest of all routes."""
    least = min((length for length, _ in found.values()), default=0)
    return frozenset().union(*(routes for length, routes in found.values() if length == least))
