"""The cross: exact distances, all shortest lines, any colour, the best colour."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.position import SOLVED, Position
from tutor.cube.symmetry import ROTATIONS, Symmetry
from tutor.solver.cross import CrossSolver
from tutor.solver.tables import Tables

positions = st.lists(st.sampled_from(TURNS), max_size=25).map(SOLVED.after)


@pytest.fixture(scope="module")
def crosses(quick_folder: Path) -> CrossSolver:
    return CrossSolver(Tables.open(quick_folder))


def home(position: Position, colour: Face) -> bool:
    """Whether the four edges of a face are home, straight from the position."""
    rotation = next(rotation for rotation in ROTATIONS if rotation.faces[colour] is Face.D)
    return position.carried(rotation).cross_home


@settings(max_examples=40)
@given(positions, st.sampled_from(FACES))
def test_every_line_makes_the_cross_in_the_stated_number(
    crosses: CrossSolver, position: Position, colour: Face
) -> None:
    distance, lines = crosses.distance(position, colour), crosses.lines(position, colour)
    assert 0 <= distance <= 8
    assert lines
    assert list(lines) == sorted(set(lines))
    for line in lines:
        assert len(line) == distance
        assert home(position.after(line), colour)
    assert crosses.lines(position, colour, 2) == lines[:2]


@settings(max_examples=25)
@given(st.lists(st.sampled_from(TURNS), max_size=3), st.sampled_from(FACES))
def test_lines_are_all_that_trying_every_sequence_finds(
    crosses: CrossSolver, made: list[Turn], colour: Face
) -> None:
    position = SOLVED.after(made)
    for length in range(4):
        tried = product(TURNS, repeat=length)
        found = tuple(line for line in tried if home(position.after(line), colour))
        if found:
            break
    assert crosses.distance(position, colour) == length
    assert crosses.lines(position, colour) == found


@given(positions, st.sampled_from(FACES))
def test_distances_after_each_turn_are_those_of_the_turned_positions(
    crosses: CrossSolver, position: Position, colour: Face
) -> None:
    expected = tuple(crosses.distance(position.turned(turn), colour) for turn in TURNS)
    assert crosses.after(position, colour) == expected


@given(positions, st.sampled_from(ROTATIONS))
def test_turning_the_whole_cube_carries_the_six_distances_along(
    crosses: CrossSolver, position: Position, rotation: Symmetry
) -> None:
    turned = position.carried(rotation)
    for colour in FACES:
        assert crosses.distance(position, colour) == crosses.distance(turned, rotation.faces[colour])


@given(positions)
def test_the_best_colour_needs_fewest_turns_and_down_wins_ties(
    crosses: CrossSolver, position: Position
) -> None:
    best, every = crosses.best(position), crosses.colours(position)
    assert {cross.colour for cross in every} == set(FACES)
    assert best.distance == min(crosses.distance(position, colour) for colour in FACES)
    assert best.colour is Face.D or crosses.distance(position, Face.D) > best.distance


def test_a_cross_that_is_home_has_the_empty_line(crosses: CrossSolver) -> None:
    assert crosses.lines(SOLVED.turned(Turn.U)) == ((),)
    assert crosses.lines(SOLVED.turned(Turn.U), Face.U) == ((Turn.U_PRIME,),)
    assert crosses.lines(SOLVED.turned(Turn.R)) == ((Turn.R_PRIME,),)
