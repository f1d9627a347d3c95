"""Placeholders filled in from the position, in every variation."""

from __future__ import annotations

import pytest

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.placeholders import Facts, PlaceholderError, fill, placeholder_meanings
from tutor.lesson.questions import Answerer
from tutor.lesson.variation import PLAIN, Variation
from tutor.method.cases import parse_case
from tutor.solver.task import Task

CASE = parse_case("corner-up-edge-left-front-up")


def facts(answers: Answerer, variation: Variation = PLAIN, slot: Slot | None = Slot.FR) -> Facts:
    cube = variation.held(HeldCube(CASE.position(Slot.FR)))
    task = None if slot is None else Task.at(cube.position, variation.slot(slot))
    ask = None if task is None else lambda: answers(cube.position, task)
    return Facts(cube, task, variation.symmetry, COLOUR_NAMES, ask)


@pytest.mark.parametrize(
    ("written", "filled"),
    [
        ("The {corner.colours} corner.", "The white-green-orange corner."),
        ("It is {corner.place}.", "It is on top at the front right."),
        ("{cross} points {corner.points}.", "White points up."),
        ("{edge.colours} is {edge.place}, {edge.up} up.", "Green-orange is on top at the left, green up."),
        ("{slot}: {step}, {turns.left}.", "Front-right slot: Join, seven turns."),
        ("{case}", "Corner on top at its slot, cross colour up; edge on top at the left, front colour up"),
        ("{turn:R U' F2} at the {side:L}, {colour:B}, {top}.", "R U' F2 at the left, blue, yellow."),
        ("It is {place:UFR}; the {slot:BL}.", "It is on top at the front right; the back-left slot."),
        ("Braces {{so}}.", "Braces {so}."),
    ],
)
def test_each_is_filled_in(written: str, filled: str, answers: Answerer) -> None:
    assert fill(written, facts(answers)) == filled


def test_words_follow_the_mirror(answers: Answerer) -> None:
    mirrored = facts(answers, Variation(mirrored=True))
    assert fill("{slot} {turn:R U'} {side:R} {colour:R}", mirrored) == "Front-left slot L' U left red"
    assert fill("{edge.place}", mirrored) == "On top at the right"


def test_words_follow_the_slot_and_the_cross_colour(answers: Answerer) -> None:
    turned = facts(answers, Variation(quarters=1, cross=Face.U))
    # Clockwise from above, what was at the front right comes to the front left (WCA 12a1).
    assert fill("{slot} {turn:R} {cross}", turned) == "Front-left slot F yellow"


@pytest.mark.parametrize(
    ("written", "slot", "message"),
    [
        ("{corner.colour}", Slot.FR, "unknown"),
        ("{turns:R}", Slot.FR, "unknown"),
        ("{side:X}", Slot.FR, "names no face"),
        ("{place:DFR}", Slot.FR, "is not a place on top"),
        ("{place:UUF}", Slot.FR, "is not a place on top"),
        ("{slot:RF}", Slot.FR, "names no slot"),
        ("{turn:R3}", Slot.FR, "is not notation"),
        ("{", Slot.FR, "has no partner"),
        ("{step}", None, "has no value here"),
        ("{corner.place}", None, "has no value here"),
    ],
)
def test_what_cannot_be_filled_in_is_told(
    written: str, slot: Slot | None, message: str, answers: Answerer
) -> None:
    with pytest.raises(PlaceholderError, match=message) as caught:
        fill(written, facts(answers, slot=slot))
    assert caught.value.advice


def test_an_edge_in_its_slot_has_no_colour_up(answers: Answerer) -> None:
    cube = HeldCube(parse_case("corner-up-edge-in-straight").position(Slot.FR))
    inside = Facts(cube, Task.at(cube.position, Slot.FR), Variation().symmetry, COLOUR_NAMES)
    with pytest.raises(PlaceholderError, match="no value here"):
        fill("{edge.up}", inside)
    with pytest.raises(PlaceholderError, match="no value here"):
        fill("{turns.left}", inside)


def test_every_placeholder_is_described() -> None:
    meanings = placeholder_meanings()
    assert len(meanings) == 17
    assert all(meanings.values())
