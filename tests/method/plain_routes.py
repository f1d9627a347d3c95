"""Routes by a plain search that follows the definition word by word and shares nothing with the program's.

It goes through all sequences of at most four turns, step after step; nothing is pruned but turning one face
twice in a row, and nothing is estimated. All sequences are made at once, as rows of arrays.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.position import CROSS_EDGES, SOLVED, Position
from tutor.method.pairs import MATCH, TOP_CORNER, TOP_EDGE, TOUCH
from tutor.method.steps import TURNING_STEPS, Step
from tutor.solver.task import Task

Flags = NDArray[np.bool_]
Numbers = NDArray[np.intp]
State = tuple[bytes, bytes]
"""Locations of the corners and of the edges that matter, the target's first."""
Lengths = dict[Turn, int]
"""Length of the shortest route by its first turn."""


@dataclass(frozen=True, slots=True, eq=False)
class Words:
    """All sequences of so many turns: of which shorter one each is the longer by which turn."""

    parent: Numbers
    first: Numbers
    last: Numbers
    length: int

    def longer(self) -> Words:
        """All sequences of one turn more."""
        faces = np.array([turn.face for turn in TURNS])
        parent, last = np.nonzero(faces[self.last][:, None] != faces[None, :])
        return Words(parent, self.first[parent], last, self.length + 1)


def _words() -> Iterator[Words]:
    turns = np.arange(len(TURNS))
    words = Words(np.zeros_like(turns), turns, turns, 1)
    for _ in range(3):
        yield words
        words = words.longer()
    yield words


WORDS = tuple(_words())
Word = tuple[Turn, Turn, int]
"""A sequence's first turn, its last, and how many it has."""


@dataclass(frozen=True, slots=True, eq=False)
class States:
    """Many states, each a row of both arrays."""

    corners: NDArray[np.uint8]
    edges: NDArray[np.uint8]

    @staticmethod
    def of(state: State) -> States:
        """The one given."""
        corners, edges = (np.frombuffer(part, dtype=np.uint8)[None, :] for part in state)
        return States(corners, edges)

    def after(self, words: Words) -> States:
        """One turn further each."""
        return States(
            CORNER_MOVE[words.last[:, None], self.corners[words.parent]],
            EDGE_MOVE[words.last[:, None], self.edges[words.parent]],
        )

    def at(self, row: int) -> State:
        return self.corners[row].astype(np.uint8).tobytes(), self.edges[row].astype(np.uint8).tobytes()


def note(lengths: Lengths, first: Turn, length: int) -> None:
    lengths[first] = min(length, lengths.get(first, length))


class PlainRoutes:
    """Routes for one task."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.home = self.state(SOLVED)
        self.inserts = self._inserts()
        self.settled_lengths = cache(self._lengths)

    def state(self, position: Position) -> State:
        slots = [self.task.slot, *sorted(self.task.keep)]
        corners = bytes(position.corners[slot.corner] for slot in slots)
        edges = [position.edges[slot.edge] for slot in slots] + [
            position.edges[piece] for piece in CROSS_EDGES
        ]
        return corners, bytes(edges)

    def ends(self, state: State, step: Step | None) -> Iterator[tuple[Word, State]]:
        """All sequences of one to four turns after which a step is done, any without one; where they lead."""
        states = States.of(state)
        for words in WORDS:
            states = states.after(words)
            rows = (
                range(len(words.last)) if step is None else np.flatnonzero(self.done(step, states)).tolist()
            )
            for row in rows:
                word = TURNS[words.first[row]], TURNS[words.last[row]], words.length
                yield word, states.at(row)

    def _inserts(self) -> dict[State, Lengths]:
        """From where at most four turns bring all home, found by going backwards from home."""
        found: dict[State, Lengths] = {}
        for (_, last, length), state in self.ends(self.home, None):
            note(found.setdefault(state, {}), last.inverse, length)
        return found

    def settled(self, states: States) -> Flags:
        home = States.of(self.home)
        corners = (states.corners[:, 1:] == home.corners[:, 1:]).all(axis=1)
        return np.asarray(corners & (states.edges[:, 1:] == home.edges[:, 1:]).all(axis=1))

    def done(self, step: Step, states: States) -> Flags:
        corner, edge = states.corners[:, 0], states.edges[:, 0]
        on_top = TOP_CORNER[corner].astype(bool) & TOP_EDGE[edge].astype(bool)
        matching = MATCH[self.task.slot, corner, edge].astype(bool)
        if step is Step.RAISE:
            return np.asarray(on_top & self.settled(states))
        if step is Step.PART:
            apart = matching | ~TOUCH[corner, edge].astype(bool)
            return np.asarray(on_top & self.settled(states) & apart)
        if step is Step.JOIN:
            return np.asarray(on_top & matching)
        home = States.of(self.home)
        return np.asarray(self.settled(states) & (corner == home.corners[0, 0]) & (edge == home.edges[0, 0]))

    def is_settled(self, state: State) -> bool:
        return all(part[1:] == home[1:] for part, home in zip(state, self.home, strict=True))

    def is_done(self, step: Step, state: State) -> bool:
        return bool(self.done(step, States.of(state))[0])

    def lengths(self, step: Step, state: State) -> Lengths:
        return self.settled_lengths(step, state) if self.is_settled(state) else self._lengths(step, state)

    def _lengths(self, step: Step, state: State) -> Lengths:
        """From where ``step`` begins or is in progress."""
        if step is Step.INSERT:
            return self.inserts.get(state, {})
        following = TURNING_STEPS[TURNING_STEPS.index(step) + 1]
        if self.is_done(step, state):
            return self.lengths(following, state)
        found: Lengths = {}
        for word, end in self.ends(state, step):
            for first, length in self.lengths(following, end).items():
                self._note_joined(found, word, first, length)
        return found

    def _note_joined(self, found: Lengths, word: Word, first: Turn, length: int) -> None:
        """The word and the rest after it, whose first turn and length are given."""
        begun, last, made = word
        if last.face is not first.face:
            note(found, begun, made + length)
            return
        quarters = (last.quarters + first.quarters) % 4
        if quarters:
            begins = Turn.of(first.face, quarters) if made == 1 else begun
            note(found, begins, made + length - 1)

    def answer(self, position: Position) -> tuple[Step, Lengths]:
        """The step under way and the shortest length by first turn."""
        state = self.state(position)
        if self.is_settled(state):
            if state == self.home:
                return Step.DONE, {}
            step = next(step for step in TURNING_STEPS if not self.is_done(step, state))
            return step, self.lengths(step, state)
        every: Lengths = {}
        best: tuple[int, Step] | None = None
        for step in TURNING_STEPS:
            lengths = self.lengths(step, state)
            for first, length in lengths.items():
                note(every, first, length)
            if lengths and (best is None or min(lengths.values()) <= best[0]):
                best = min(lengths.values()), step
        return Step.RAISE if best is None else best[1], every


plain_routes = cache(PlainRoutes)
