"""What the running program says of itself, in English: how it starts and stops, and what it cannot save."""

from __future__ import annotations

from pathlib import Path

from tutor.quoting import visible

# ------------------------------------------------------------------------------------------------- starting

_GIVE_A_FOLDER = "Give “--lessons” a folder with lesson scripts, such as my-lessons."


def no_folder(folder: Path) -> str:
    """There is nothing at this place."""
    return f"There is no folder {visible(folder)}. {_GIVE_A_FOLDER}"


def not_a_folder(folder: Path) -> str:
    """There is a file at this place."""
    return f"{visible(folder)} is not a folder. {_GIVE_A_FOLDER}"


def unreadable_folder(folder: Path, reason: str) -> str:
    """The system does not let the program look into a folder."""
    return f"The program cannot read the folder {visible(folder)} ({visible(reason)}). {_GIVE_A_FOLDER}"


def unreadable_lesson(name: str) -> str:
    """A lesson on Home, above what is wrong with it."""
    return f"{visible(name)} (not readable yet)"


# ---------------------------------------------------------------------------------------- while it is running


def more_in_the_log(place: str) -> str:
    """Where to look when something went wrong inside."""
    return f"More about it is in the log: {visible(place)}"


def not_saved(what: str, reason: str) -> str:
    """A small file that the system refuses."""
    return f"The program cannot save {what} ({visible(reason)}). It lasts only until you close the window."


WHAT_YOU_CHOSE = "what you chose"
WHAT_YOU_PAINTED = "what you painted"
WHERE_YOU_LEFT_LESSONS = "where you left the lessons"


def had_to_stop(fault: str, log_line: str) -> str:
    """The last words on the terminal."""
    return f"The program had to stop ({visible(fault)}). {log_line}"


# ---------------------------------------------------------------------------------------------- in the log

EXCEPTION = "an exception came up"
HAD_TO_STOP = "the program had to stop"


def no_sound(reason: str) -> str:
    """This computer plays no clicks."""
    return f"the program cannot play sounds: {visible(reason)}"


def older_files_not_moved(reason: str) -> str:
    """Saved solves or a painting of an older version that stay where they are."""
    what = "the solves and the painting of an older version"
    return f"the program cannot give a learner {what}: {visible(reason)}"
