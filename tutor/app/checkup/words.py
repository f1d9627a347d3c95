"""What ``checkup`` says, in English: its help, and line by line what it looks at and how that is."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path, PurePath

from tutor.counting import counted, figured

# ------------------------------------------------------------------------------------------------ the help

DESCRIPTION = """\
Checks what this machine offers the program (OpenGL, fonts, folders, tables, libraries) and whether your saved
data is sound, and says what is wrong. It changes nothing. The exit status is 0 when all is well, and 1 when
something is wrong. It is 3 when nothing is wrong but this machine has no display: then you cannot open the
window, and everything else works."""
EPILOG = """\
example:
  python -m tutor checkup

With --json the answer is a list of objects: about, state (fine, note, missing or wrong), told."""
JSON_HELP = "answer with JSON instead of a table"

# -------------------------------------------------------------------------------------------------- all lines


def summary(wrong: int, *, display: bool) -> str:
    """The last line."""
    if wrong:
        told = f"{counted(wrong, 'thing').capitalize()} {'is' if wrong == 1 else 'are'} wrong."
    else:
        told = "Nothing is wrong."
    return told if display else f"{told} Without a display you cannot open the window."


# ------------------------------------------------------------------------------- the program and its packages

PROGRAM = "Pairwright"
PYTHON = "Python"
SYSTEM = "System"
STORE_PYTHON = "Redirected files"
LIBRARIES = "Libraries"
MP4_FILMS = "MP4 films"
PDF_SHEETS = "PDF sheets"


def extra(name: str) -> str:
    """What can be installed beside the program."""
    return f"Extra “{name}”"


def kept_in(folder: PurePath) -> str:
    """Python from Microsoft's store keeps files elsewhere than it says."""
    told = f"This Python is from Microsoft's store and keeps your files in {folder}."
    return f"{told} Another Python does not see them."


def not_installed(command: str) -> str:
    """A package that the program needs."""
    return f"The program needs this package. Install it with “{command}”."


def extra_installed(package: str, purpose: str) -> str:
    """A package of an extra, with its version."""
    return f"{package}, for {purpose}"


BUNDLE_REMEDY = "install the program with Python, as README.md says"


def extra_not_installed(package: str, purpose: str, command: str) -> str:
    """A package that you need only for one purpose; a bundle, which takes no packages, has no command."""
    remedy = f"install it with “{command}”" if command else BUNDLE_REMEDY
    return f"{package} is not installed. If you want {purpose}, {remedy}."


# ---------------------------------------------------------------------------------------------- graphics

WINDOW = "Window"
PICTURES = "Pictures and films"
FONTS = "Fonts"
_IN_WORDS = "commands that answer in words"


def opengl(version: str, renderer: str) -> str:
    """A driver that draws."""
    return f"OpenGL {version}, {renderer}"


def no_window(problem: str, *, pictures: bool) -> str:
    """No window can be opened here; what works all the same."""
    rest = "handouts, pictures, films and all other commands" if pictures else _IN_WORDS
    return f"{problem} You can still use {rest}."


def no_pictures(problem: str) -> str:
    """Nothing can be drawn here; what works all the same."""
    return f"{problem} You can still use {_IN_WORDS}."


def old_driver(renderer: str, version: str) -> str:
    """The driver is too old."""
    return f"The program needs OpenGL 3.3; the driver here, {renderer}, offers {version}."


def no_reply(seconds: float) -> str:
    """The driver hangs."""
    return f"The graphics driver did not answer within {seconds:.0f} seconds."


def no_process(reason: str) -> str:
    """The system starts no further process."""
    return f"The system did not start a process to try it ({reason})."


def driver_crashed(signal: str) -> str:
    """The driver ended the process."""
    return f"The graphics driver crashed ({signal})."


def nth_signal(number: int) -> str:
    """A signal without a name."""
    return f"signal {number}"


def not_tried(reason: str) -> str:
    """The trial ended in another way."""
    return f"The program could not try it: {reason}."


NO_REASON = "it gave no reason"

# ------------------------------------------------------------------------------------------------- folders

SETTINGS_FOLDER = "Settings folder"
STATE_FOLDER = "State folder"
PROGRESS_FOLDER = "Progress folder"
PICTURES_FOLDER = "Pictures folder"
CLIPS_FOLDER = "Clips folder"
TABLES_FOLDER = "Tables folder"
CACHE_FOLDER = "Cache folder"


def not_writable(folder: Path, reason: str) -> str:
    """A folder that refuses files."""
    return f"The program cannot write to {folder} ({reason}). Change who may write there."


def not_makable(folder: Path, above: Path, reason: str) -> str:
    """A folder that is not there, in one that refuses it."""
    return f"The program cannot make {folder}, because it cannot write to {above} ({reason})."


def nearly_full(folder: Path, megabytes: int, wanted: int) -> str:
    """There is little room on the disk."""
    return f"The disk of {folder} is nearly full: {megabytes} MB are left. Free at least {wanted} MB."


def made_when_needed(folder: Path) -> str:
    """A folder that is not there yet."""
    return f"{folder}: the program makes it when it needs it"


def writable(folder: Path) -> str:
    """A folder as it should be."""
    return f"{folder}: the program can write there"


# -------------------------------------------------------------------------------------------------- tables

TABLES = "Cached tables"


def bad_table(file: Path, reason: str) -> str:
    """A table of no use."""
    return f"The program cannot use {file} ({reason}). It makes a new one when it needs it."


def tables_missing(missing: int, of: int) -> str:
    """Large tables that are not made yet."""
    told = f"{missing} of the {of} large tables {'is' if missing == 1 else 'are'} not made yet."
    return f"{told} The window makes them in about twenty seconds, while you use it."


def tables_there(files: int, megabytes: int) -> str:
    """All tables as they should be."""
    return f"{figured(files, 'file')}, {megabytes} MB"


# ------------------------------------------------------------------------------------------------ progress

PROGRESS = "Progress"
BACKUPS = "Backups"
CLOCK = "Clock"
NOTHING_PRACTISED = "Nobody has practised here yet."


def progress_gone(file: Path, backup: str) -> str:
    """The progress file is gone, its backups are not."""
    return f"{file} is gone. The program will use the backup {backup}."


def progress_damaged(file: Path) -> str:
    """The progress file makes no sense."""
    return f"{file} is damaged. When the program next opens it, it sets it aside and uses the latest backup."


def progress_older(file: Path) -> str:
    """The progress file is an earlier version's."""
    return f"{file} has an older form. The program renews it when it next opens it."


def progress_sound(file: Path, attempts: int, learners: int) -> str:
    """The progress file as it should be."""
    return f"{file} is sound: {figured(attempts, 'attempt')}, {figured(learners, 'learner')}"


def unreadable(file: Path, reason: str) -> str:
    """The system does not let the program read a file."""
    return f"The program cannot read {file} ({reason})."


CLOCK_WRONG = "The newest attempt lies in the future. The clock of this machine is wrong, or it was."


def backups(count: int, newest: Path) -> str:
    """Copies of the progress file."""
    return f"{figured(count, 'backup')}, the newest {newest}"


# ----------------------------------------------------------------------------------- settings, lessons, log

SETTINGS = "Settings"
USUAL_SETTINGS = "the usual ones"
LESSONS = "Lessons"
LOG = "Log"


def bad_settings(file: Path, problem: str) -> str:
    """Settings with a mistake."""
    return f"{file} has a mistake: {problem}"


def no_lessons(reason: str) -> str:
    """The lessons that come with the program are not there."""
    return f"The program cannot read its lessons ({reason}). Install the program again."


def bad_lessons(lessons: Sequence[tuple[str, str]]) -> str:
    """Some of the lessons that come with the program have mistakes, each given with its own."""
    named = ", ".join(f"{name} ({problem})" for name, problem in lessons)
    return f"The program cannot read {named}. Install the program again."


def lessons_there(count: int) -> str:
    """The lessons as they should be."""
    return f"{figured(count, 'lesson')} came with the program"


def log_quiet(file: Path) -> str:
    """A log without a warning, or none at all."""
    return f"{file}: no warnings so far"


def log_entries(file: Path, count: int, latest: str) -> str:
    """A log with warnings."""
    return f"{file} has {figured(count, 'entry', 'entries')}. The latest: {latest}"
