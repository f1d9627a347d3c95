"""What ``cases`` says: its help, and the table."""

from __future__ import annotations

from tutor.counting import counted

DESCRIPTION = """\
Lists the 41 cases. A case is one way the two pieces of a pair can lie while the cross and the other slots
are solved; turns of the top do not count. The setup makes the case in the slot FR, just as its name says
and as the case book and the sheets show it. You can make it by hand, because it undoes the route. “By hand”
is the fewest turns of the top and of the two faces beside the slot, with the top turned as best. “As set up”
is the same from the setup. The mirror is the case you see in a mirror that exchanges front and right."""
EPILOG = """\
example:
  pairwright cases

Where a command takes CASE, write the case's number, or the name with hyphens in bold beneath it. With --json
the answer is a list of 41 objects:
  number      1 to 41
  name        the full name
  short_name  the name in a few words, with white as the cross colour
  slug        the name with hyphens
  family      which of the two pieces are on top
  setup       turns that make the case
  shortest    the fewest turns by hand from the setup
  fewest      the same with the top turned as best, without counting a turn of the top before them
  at_all      the fewest from the setup when far layers may turn too: length and notation; where far layers
              save nothing, these are the length and the notation of a shortest line by hand
  route       the route from the setup: notation, length, and steps (the turns of each step)
  mirror      the name of the mirror image"""
JSON_HELP = "answer with JSON instead of a table"

CASE, BY_HAND, AS_SET_UP, ROUTE = "Case", "By hand", "As set up", "Route"


def mirror(number: int, slug: str) -> str:
    """The mirror image of a case, as short as can be."""
    return f"mirror {number} {slug}"


def setup(turns: str) -> str:
    """Turns that make a case."""
    return f"Setup {turns}"


def route(steps: str) -> str:
    """The route of a case by its steps."""
    return f"Route {steps}"


def far_layers(turns: int, notation: str) -> str:
    """What far layers save, said once for a case."""
    return f"If far layers may turn too, it takes {counted(turns, 'turn')}: {notation}"
