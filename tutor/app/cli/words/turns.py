"""What ``turns`` says: its help, its mistakes, and the table."""

from __future__ import annotations

from tutor.app.cli.words.requests import EXAMPLE_LINE
from tutor.counting import counted, figured

EXAMPLE = """pairwright turns --setup "R U R'" --slot FR"""

DESCRIPTION = """\
Judges all 18 turns at a position, exactly: how many turns you need after each, how many it loses, and its
verdict. It counts turns by hand: turns of the top and of the side faces of the slots that you do not keep.
The setup starts from a solved cube that you hold with the cross down. You can write wide turns and rotations
too, if the cross is down again at the end. Slots have the names that fit how you hold the cube after the
setup: FR, FL, BL, BR."""
SETUP_HELP = "moves from a solved cube with the cross down; may be empty"
SLOT_HELP = "the slot to solve: FR, FL, BL or BR"
KEEP_HELP = (
    "the slots to keep, with commas between them; if you leave this out, every other slot that is solved; "
    "an empty text keeps none"
)
JSON_HELP = "answer with JSON instead of a table"
BATCH_HELP = "read requests from standard input, and answer with JSON"


def epilog(longest_line: int) -> str:
    """The example, the keys of the answer, and how to write many requests."""
    return f"""\
example:
  {EXAMPLE}

With --json the answer is one JSON object:
  setup, slot, keep
  settled   whether the cross and the kept pairs are solved; if not, every figure counts the turns that put
            them back too
  distance  the fewest turns to the end when every layer may turn
  by_hand   the fewest turns by hand; null if there is no way by hand
  to_go     by_hand, or distance if by_hand is null
  case      its name, or null
  step      raise, part, join, insert or done; if settled is false, the step in which they are put back
  turns     18 objects: turn, after (distance after it), cost (what it adds to distance), by_hand (by hand
            after it, or null), lost (what it adds to to_go, as the table and the coach count it), verdict,
            why (the rule behind the verdict), says (what the coach says of it, for a cube that starts with
            white down and green in front)
  lines     a few of the shortest sequences, by hand unless by_hand is null
  routes    a few of the shortest routes: notation, length, and steps (the turns of each step)

With --batch write one request on each line of standard input, and read one line of JSON for each, in the
same order:
  {EXAMPLE_LINE}
You can leave "keep" out, as on the command line. A line with a mistake gets an object with "error", which
names the number of the line; the other lines get their answers, and the exit status is 1. A line has at most
{longest_line} bytes."""


NOTHING_ASKED = f"write a setup and a slot, for instance {EXAMPLE}, or --batch to read many requests"
BATCH_ALONE = "--batch reads the setup, slot and keep from the lines of standard input; leave them out here"


def at_line(number: int, fault: str) -> str:
    """A line of a batch has a mistake."""
    return f"line {number}: {fault}"


# ------------------------------------------------------------------------------------------------ the table

SETUP, SLOT, KEPT, STEP, TO_GO = "Setup", "Slot", "Cross and kept pairs", "Step", "To go"
SOLVED_CUBE = "none: the solved cube"
ALL_SOLVED, NOT_ALL_SOLVED = "solved", "not all solved"
CROSS_OUT, PAIR_OUT = "the cross is not solved", "a kept pair is out of its slot"
DONE = "done: the pair is in its slot"
NOTHING_TO_GO = "nothing"


def slot(name: str, kept: str) -> str:
    """The slot to solve and the slots to keep."""
    return f"{name}, keeping {kept or 'none'}"


def lifted(name: str) -> str:
    """Only a lifted slot keeps the rest from being solved."""
    return f"{NOT_ALL_SOLVED}, because the slot {name} is lifted"


def comes_first(out: str) -> str:
    """What is out of place, and what that means for the figures."""
    return f"{out}. You put that right first, and every figure here counts the turns for it."


def step_that_mends(step: str) -> str:
    """The step under way where something is out of place."""
    return f"{step}, which begins by putting back what is out"


def to_go(turns: int, *, by_hand: bool) -> str:
    """How many turns it takes."""
    return f"{figured(turns, 'turn')} {'by hand' if by_hand else 'with far layers; there is no way by hand'}"


def case(number: int) -> str:
    """The word beside a case."""
    return f"Case {number}"


def case_names(short: str, corner: str, edge: str, back: str) -> str:
    """The names of a case in its slot; after ``back``, a turn of the top or nothing, the full one is true."""
    then = f" After {back} it looks like this." if back else ""
    return f"{short[:1].upper()}{short[1:]}.{then} {corner}. {edge}."


TURN, LOST, VERDICT, WHY = "Turn", "Lost", "Verdict", "Why"
TO_GO_BY_HAND, TO_GO_AFTER = "To go by hand", "To go after it"
NO_WAY = "no way"
SHORTEST_BY_HAND, SHORTEST_WITH_FAR = "Shortest by hand", "Shortest with far layers"
WITH_FAR_TOO = "With far layers too"


def route(turns: int, *, far: bool) -> str:
    """The heading of a route; with ``far`` layers it puts back what they took out."""
    return f"Route, {figured(turns, 'turn')}{' with far layers' if far else ''}"


def far_layers(turns: int, notation: str) -> str:
    """A sequence with far layers that is shorter than any by hand."""
    return f"{counted(turns, 'turn')}: {notation}"
