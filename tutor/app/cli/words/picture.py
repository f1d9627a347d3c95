"""What ``picture`` says."""

from __future__ import annotations

from tutor.quoting import visible

HELP = "draw a case as a picture"
DESCRIPTION = (
    "Draws a case, or the cube after a setup, as a PNG file. It needs no display. On a Mac, be logged in."
)
EPILOG = """\
examples:
  pairwright picture 14 --out case-14.png
  pairwright picture corner-up-edge-left-front-up --out case.png
  pairwright picture --setup "R U R' U'" --slot FR --arrow --transparent --out next-turn.png"""
ARROW_HELP = "show the next turn of the route as an arrow"
TRANSPARENT_HELP = "draw nothing behind the cube"
OUT_HELP = "where to write it; the name ends in .png"

ARROW_NEEDS_PAIR = "an arrow needs a pair to solve; name its slot with --slot"
NO_NEXT_TURN = "the pair is already solved, so no turn comes next; leave out --arrow"


def no_png(name: str, better: str) -> str:
    """The name does not end as that of a picture."""
    return f"“{name}” is not the name of a PNG picture; write for instance {better}"


def written(path: str, shown: str) -> str:
    """The picture is written; ``shown`` are the lines that say what it shows."""
    return f"{visible(path)} is ready:\n{shown}"
