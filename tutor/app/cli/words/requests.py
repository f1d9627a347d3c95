"""What the command line says of setups, slots, and lines of requests."""

from __future__ import annotations

from tutor.cube.faces import Face
from tutor.publish.words import one_of

EXAMPLE_LINE = """{"setup": "R U R'", "slot": "FR", "keep": ["FL", "BL", "BR"]}"""
_WRITE_A_LINE = f"write a JSON object, for instance {EXAMPLE_LINE}"
EMPTY_LINE = f"the line is empty; {_WRITE_A_LINE}"
NOT_TEXT = f"the line is not UTF-8 text; {_WRITE_A_LINE}"

_SIDES = {
    Face.U: "on top",
    Face.L: "on the left",
    Face.R: "on the right",
    Face.F: "in front",
    Face.B: "at the back",
}


def bad_line(fault: str) -> str:
    """A line is no request."""
    return f"{fault}; {_WRITE_A_LINE}"


def long_line(most: int) -> str:
    """A line is longer than any request."""
    return f"the line is longer than {most} bytes; write one request on each line"


def bad_setup(fault: str) -> str:
    """The setup is no notation; ``fault`` begins with the place."""
    return f"the setup has a mistake at {fault}"


def cross_not_down(side: Face, rotation: str) -> str:
    """The setup leaves the cross on another side; ``rotation`` brings it down."""
    told = f"after this setup the cross is {_SIDES[side]}, and it must be down"
    return f"{told}; write {rotation} at the end of the setup"


def no_slot(name: str, slots: tuple[str, ...]) -> str:
    """No slot has this name."""
    return f"“{name}” is not a slot; write {one_of(slots)}"


def target_kept(slot: str) -> str:
    """The slot to solve is among those to keep."""
    return f"{slot} is the slot to solve, so you cannot keep it as it is; leave it out of the slots to keep"
