"""What is said about the small files that the program reads and writes, in English."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tutor.quoting import visible

# -------------------------------------------------------------------------------------------------- folders


def no_such_person(variable: str, named: str) -> str:
    """The folder of somebody who is not known to the system."""
    return f"{variable} is {visible(named)}, and this computer knows nobody of that name; write a whole path"


# ------------------------------------------------------------------------------------------------- settings


def unreadable_settings(path: Path, reason: str) -> str:
    """The system does not let the program read the settings."""
    return f"The program cannot read {visible(path)} ({visible(reason)}), so it uses the usual settings."


UNREADABLE = "the system gives no reason"


def damaged_settings(problem: str, aside: str) -> str:
    """The settings have a mistake; ``aside`` is what the file is called now, empty when it could not be."""
    kept = f"The file is now called {visible(aside)}, and the program" if aside else "The program"
    return f"Your settings have a mistake: {visible(problem)}. {kept} uses the usual settings."


def colours_not_once_each(wanted: Sequence[str], given: Sequence[str]) -> str:
    """The six faces must have six colours."""
    return f"look.arrangement: write each of {', '.join(wanted)} once; it has {', '.join(given)}"


def rest_too_short(least: int, given: int) -> str:
    """A reminder to rest would come too often."""
    return f"rest_minutes: write 0 for never, or {least} to 240; it is {given}"


CANNOT_CHANGE = "the program cannot change a file that is written like this"


def cannot_change(reason: str) -> str:
    """A file in a rare form of TOML."""
    return f"{CANNOT_CHANGE}: {visible(reason)}"


# --------------------------------------------------------------------------------------------- whole solves


def solve_not_saved(reason: str) -> str:
    """A whole solve that could not be written."""
    return f"The program could not save this solve: {visible(reason)}."


def solve_not_deleted(name: str, reason: str) -> str:
    """A whole solve whose file is still there."""
    return f"The program could not delete the solve {visible(name)}.txt: {visible(reason)}."


UNWRITABLE_FOLDER = "it cannot write to the folder"

# -------------------------------------------------------------------------------------------------- the log


def log_unwritten(reason: str) -> str:
    """In place of where the log is, after "More about it is in the log: "."""
    return f"the program cannot write it ({visible(reason)})"


def settings_set_aside(path: Path, reason: str, aside: Path | None) -> str:
    """A file that has come to be damaged while the program ran."""
    return f"{visible(path)} has a mistake ({visible(reason)}); it is now called {visible(aside)}"


def solves_not_listed(reason: str) -> str:
    """The folder of whole solves cannot be read."""
    return f"the program cannot list the saved solves: {visible(reason)}"


def solve_unreadable(name: str, reason: str) -> str:
    """A file among the whole solves."""
    return f"the program cannot read the saved solve {visible(name)}: {visible(reason)}"


def painting_unreadable(reason: str) -> str:
    """The painted cube cannot be read."""
    return f"the program cannot read the painted cube: {visible(reason)}"


def places_unreadable(reason: str) -> str:
    """The places in lessons cannot be read."""
    return f"the program cannot read where you left the lessons: {visible(reason)}"
