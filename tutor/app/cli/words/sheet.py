"""What ``sheet`` says: its help, its mistakes, and how it ended."""

from __future__ import annotations

from tutor.counting import figured

HELP = "print cases with their turns"
DESCRIPTION = """\
Prints all 41 cases, those you choose, those of a lesson, or those a learner still forgets. Each has a
picture, its route by steps, a shortest line, and its mirror image."""
EPILOG = """\
examples:
  pairwright sheet --out cases.pdf
  pairwright sheet --slot FL --cross yellow --paper Letter --black-and-white --out cases-fl.pdf
  pairwright sheet --lesson made-pair --out made-pair.html
  pairwright sheet 14 corner-in-front-edge-in-straight --out two.pdf
  pairwright sheet --slipping --learner Ilva --out ilva.pdf

The end of the name chooses the format. A .pdf needs the extra “sheet”. An .html page is a single file; press
a picture on it, and the case moves. Hold the cube with the slot where it is and the top as in the picture,
and the turns fit. “Mirror” is the line of the mirror image, in the slot where the mirror shows it."""
CASES_HELP = "cases: numbers, such as 14, or names; without any, all 41"
LESSON_HELP = "the cases of a lesson: its name or its file"
SLIPPING_HELP = "only the cases this learner still forgets"
LEARNER_HELP = "with --slipping: the learner; without it, the one in the settings"
SLOT_HELP = "FR (usual), FL, BL or BR"
PAPER_HELP = "the size of the paper, usually A4"
BLACK_AND_WHITE_HELP = "no colours; letters name them on the stickers"
OUT_HELP = "where to write it; the name ends in .pdf or .html"

WRITE_ONE_CHOICE = "write only one of these: cases, --lesson or --slipping"
LEARNER_WITHOUT_SLIPPING = (
    "--learner works only with --slipping; add --slipping to print the cases the learner forgets"
)


def no_sheet(name: str) -> str:
    """The name does not end as that of a sheet."""
    return f"“{name}” is not the name of a sheet; end it in .pdf or .html"


def written(path: str, cases: int) -> str:
    """The sheet is written."""
    return f"{path} is ready, with {figured(cases, 'case')}."
