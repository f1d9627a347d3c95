"""What the command ``lesson`` says, from its help to its last line."""

from __future__ import annotations

from tutor.quoting import visible

ABOUT = "For teachers: a lesson is a text file. lessons/FORMAT.md describes how to write one."
EXAMPLES = """\
examples:
  pairwright lesson check my-lesson.toml
  pairwright lesson new my-lesson --case corner-up-edge-left-front-up
  pairwright lesson text made-pair"""
ACTIONS = "what to do"

# -------------------------------------------------------------------------------------------- lesson check

CHECK_HELP = "list everything wrong in lesson scripts"
CHECK_ABOUT = (
    "Lists everything wrong in each file, with its line, its key and what would be right. "
    "The exit status is 1 if anything is wrong."
)
FILE_HELP = "a lesson script (TOML)"


def nothing_wrong(file: str) -> str:
    """A file in which all is right."""
    return f"{visible(file)}: nothing wrong"


# ---------------------------------------------------------------------------------------------- lesson new

NEW_HELP = "write a draft from a case's own route"
NEW_ABOUT = "Writes NAME.toml, a draft with comments that you can play at once."
NAME_HELP = "small letters, digits and hyphens"
CASE_HELP = "the case, by its name or its number; “pairwright cases” lists all"
SLOT_HELP = "FR (usual), FL, BL or BR"
FOLDER_HELP = "where to write it (usually here)"


def not_a_slot(written: str, slots: tuple[str, ...]) -> str:
    """A slot that does not exist."""
    return f"“{written}” is not a slot; write one of {', '.join(slots)}"


def not_a_case(fault: str) -> str:
    """A case that does not exist; ``fault`` names it."""
    return f"{fault}; “pairwright cases” lists all"


def taken(path: str) -> str:
    """A file of this name is there."""
    return f"{visible(path)} is there already; choose another name"


def not_written(path: str, reason: str) -> str:
    """The system does not take the file."""
    return f"{visible(path)} cannot be written: {reason}; choose another folder"


def written(path: str, program: str, folder: str) -> str:
    """The draft is there; ``program`` is how the person called it."""
    return f"{visible(path)} is written. Play it with: {program} --lessons {visible(folder)}"
