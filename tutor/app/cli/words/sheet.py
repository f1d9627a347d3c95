"""What ``sheet`` says: its help, its mistakes, and how it ended."""

from __future__ import annotations

from tutor.counting import figured
from tutor.quoting import visible

DESCRIPTION = """\
Prints a lesson with its pictures, its words, its questions and their answers, or cases with their turns: all
41, those you choose, or those that slip away from a learner. Several lessons make a booklet."""
EPILOG = """\
examples:
  pairwright sheet --lesson part-the-two --out part.pdf
  pairwright sheet --lesson made-pair --lesson three-turn-join --out booklet.pdf
  pairwright sheet --lesson made-pair --out made-pair.html
  pairwright sheet --out cases.pdf
  pairwright sheet --cases 1-12,14 --columns 3 --out some.pdf
  pairwright sheet --slot FL --cross yellow --paper Letter --black-and-white --out cases-fl.pdf
  pairwright sheet --slipping --learner Ilva --out ilva.pdf
  pairwright sheet --each-learner --out sheets

The end of the name chooses the format. A .pdf needs the extra “sheet”. An .html page is a single file, on
which you go through each case turn by turn. A lesson is printed with what it tells and shows, then its
questions and tasks, and its answers come last."""
NAMES_HELP = "cases: numbers, such as 14, or names; without any, all 41"
CASES_HELP = "cases by their numbers, for instance 1-12,14"
LESSON_HELP = "a lesson: its name or its file; write it again for one more"
SLIPPING_HELP = "only the cases that slip away from this learner, as Progress says"
EACH_HELP = (
    "a PDF for every learner, named, with what slips away and what you gave; --out is a folder, and a run "
    "that was stopped goes on where it was"
)
EACH_ALONE = "--each-learner chooses the cases itself; leave out cases, --lesson, --slipping and --learner"
NOBODY_PRACTISES = "no case is slipping for anybody, and nobody has anything to do"
LEARNER_HELP = "print this learner's name; with --slipping it is usually the learner in the settings"
SLOT_HELP = "the slot of the cases: FR (usual), FL, BL or BR"
PAPER_HELP = "the size of the paper, usually A4"
BLACK_AND_WHITE_HELP = "no colours; letters name them on the stickers"
OUT_HELP = "where to write it; the name ends in .pdf or .html, and with --each-learner it is a folder"

WRITE_ONE_CHOICE = "write only one of these: cases, --lesson or --slipping"


def columns_help(usual: int) -> str:
    """How many cases are side by side."""
    return f"cases side by side, usually {usual}"


def only_for_cases(option: str) -> str:
    """An option of case sheets was given for a lesson."""
    return f"--{option} works only with cases; a lesson is printed as the window shows it"


def no_case_range(part: str, most: int) -> str:
    """A part of a list of cases is none."""
    return f"“{part}” is not a list of cases; write numbers from 1 to {most}, for instance 1-12,14"


def no_sheet(name: str) -> str:
    """The name does not end as that of a sheet."""
    return f"“{name}” is not the name of a sheet; end it in .pdf or .html"


def cases_written(path: str, cases: int) -> str:
    """A sheet of cases is written."""
    return f"{visible(path)} is ready, with {figured(cases, 'case')}."


def lessons_written(path: str, lessons: int) -> str:
    """A lesson or a booklet is written."""
    return f"{visible(path)} is ready, with {figured(lessons, 'lesson')}."


def waiting(folder: str) -> str:
    """Another run is in the same folder."""
    return f"Another run is making files in {visible(folder)}. This run starts when that one has finished."


def sheets_made(made: int, kept: int, folder: str, without: tuple[str, ...]) -> str:
    """All sheets of a folder are there."""
    old = f" and kept {kept} that were finished" if kept else ""
    rest = f" Nothing to practise: {', '.join(map(visible, without))}." if without else ""
    return f"Made {figured(made, 'sheet')}{old} in {visible(folder)}.{rest}"
