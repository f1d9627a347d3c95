"""What ``explain`` says: its help, its mistakes, and its table."""

from __future__ import annotations

from tutor.counting import figured
from tutor.publish.words import one_of

EXAMPLE = """pairwright explain "R U' R' U R U R'" --slot FR"""

DESCRIPTION = """\
Takes a sequence that solves a pair apart: its steps, what each turn does, what it merges or skips of the
route, which other slots it needs free, what it asks of your hands, and how it goes in the mirror. If it does
not solve the pair, you read which turn went wrong and why. Without a setup the program takes the case that
the sequence solves, held with the cross down. You can write wide turns and rotations too: then each turn is
named as you hold the cube before the first one."""


def epilog(most: int) -> str:
    """The example, and the keys of the answer."""
    return f"""\
example:
  {EXAMPLE}

A sequence has at most {most} turns; turns of one layer in a row count once. With --json the answer is one
JSON object:
  setup     as you wrote it, or turns that make the case on a solved cube
  slot, keep
  case      its name, or null
  turns     the sequence, each turn named as you hold the cube before the first one
  length    how many turns that is
  solves    whether the pair is solved at the end, with the cross and the kept pairs
  by_hand   the fewest turns by hand; null if there is no way by hand
  route     the route: notation, length, and steps; or null
  steps     the turns of each step
  each      one object for each turn: turn, step, verdict (null once the pair is solved), says (what it does),
            out (the kept pairs and the sides of the cross edges that are unsolved after it)
  merges    lists of steps of the route that one turn does at once
  skips     steps of the route that it never does
  spoils    the other pairs, and the sides of the cross edges, that it would take out if they were solved
  between   the kept ones that it takes out on the way and puts back
  hands     how often it asks for each: change of hold, half turn, turn of the back, turn of the bottom
  mirror    turns and slot with left and right exchanged
  wrong     the first Detour, or else the first turn that begins no shortest way: number and turn; or null
  missing   what is unsolved at the end: pairs, cross_edges, and turns (how many you still need)
  says      what else the coach says, sentence by sentence"""


TURNS_HELP = "the sequence, in quotation marks"
SETUP_HELP = "moves from a solved cube with the cross down, after which the sequence begins"
JSON_HELP = "answer with JSON instead of text"

NOTHING_ASKED = f"write a sequence and a slot, for instance {EXAMPLE}"
NO_TURNS = "these turns come to nothing; write a sequence that turns at least one layer"
NO_PAIR_MOVED = "these turns bring no pair into its slot"


def bad_turns(fault: str) -> str:
    """The sequence is no notation; ``fault`` begins with the place."""
    return f"the sequence has a mistake at {fault}"


def too_long(turns: int, most: int) -> str:
    """The sequence has more turns than are taken apart."""
    return f"the sequence has {figured(turns, 'turn')}; write at most {most}"


def solved_before(slot: str) -> str:
    """The setup leaves the pair solved, so no turn is needed."""
    return f"the {slot} pair is solved after this setup; write a setup that leaves it unsolved"


def other_slot(slot: str, slots: tuple[str, ...]) -> str:
    """The sequence leaves the pair of the slot alone; ``slots`` are those that it does something for."""
    if not slots:
        return NO_PAIR_MOVED
    others = one_of(slots) if len(slots) > 1 else slots[0]
    return f"these turns leave the {slot} pair in its slot; write {others}, or add a setup"


# ------------------------------------------------------------------------------------------------ the text

SEQUENCE, SETUP, SLOT, STEPS = "Sequence", "Setup", "Slot", "Steps"
TURN, STEP, VERDICT, DOES = "Turn", "Step", "Verdict", "What it does"
NONE = "-"


def sequence(notation: str, turns: int) -> str:
    """The turns with their number."""
    return f"{notation}  ({figured(turns, 'turn')})"
