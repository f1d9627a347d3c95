"""What the ``progress`` command says, in English: its help, what it prints, and what it refuses."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path

from tutor.counting import figured, noun
from tutor.publish.words import all_of
from tutor.quoting import visible

# ------------------------------------------------------------------------------------------------- the help

DESCRIPTION = """\
Shows how a learner is doing, and carries attempts from one computer to another. Every attempt has its own
number. So a teacher can collect the files of a class, import and merge them as often as needed, and no
attempt is doubled or lost. A file that ends in .csv is a table. A file that ends in .jsonl has one JSON
object on each line. Both contain everything."""
WHAT_TO_DO = "what to do"
NAME, FILE = "NAME", "FILE"


def epilog(columns: Iterable[str], days: int, backups: Path) -> str:
    """The examples and what the columns mean."""
    return f"""\
examples:
  python -m tutor progress show --learner Ilva
  python -m tutor progress show --learner Ilva --png ilva.png
  python -m tutor progress group
  python -m tutor progress group --out group.pdf
  python -m tutor progress assign --learner Ilva --cases 3,14 --lesson part-the-two --until 2027-01-15
  python -m tutor progress assign
  python -m tutor progress export ilva.jsonl --learner Ilva
  python -m tutor progress merge ilva.jsonl ravi.csv --into club.csv
  python -m tutor progress import club.csv --lines
  python -m tutor progress backup
  python -m tutor progress restore {visible(backups / "by-hand-2026-11-28.sqlite")}

The program writes a backup each day and before everything that cannot be undone. Backups are here:
  {visible(backups)}

Columns of a table, keys of a line: {", ".join(columns)}.

number is the case's number in the book, 1 to 41. by_hand is the fewest turns by hand from where the learner
began: only the top and the layers beside the slot turn. at_all is the fewest when far layers may turn too.
Older attempts have no by_hand, so their turns count against at_all. You can import older files as they are,
with shortest in the place of at_all, and with the older names due, weakest, flash and home.

What a learner has written about a case in their own words travels along: a line of its own with learner,
time, case and own_words. Of two such lines for one case, the later one stays.

What a learner has to do travels along too: a line of its own with learner, assigned, time, given, until and
state. Of two such lines for one task, the later one stays.

In "show", remember is the chance that the learner remembers the case now, lasts_days is how many days it
takes until that chance is 90%, and next is when the case comes back to the day's list. extra means turns
over the fewest by hand, on average over the last {days} days. It leaves out turns that were undone; the
turns lost in each step count undone detours, and those of tries that were given up too. Today's list has
the cases that come back today, and those that a teacher gave and the learner has not done yet."""


SHOW = "show how the learners are doing"
SHOW_LEARNER = "only this learner, case by case"
SHOW_JSON = "print JSON"
SHOW_CSV = "with --learner: print the 41 cases as a table"
SHOW_PNG = "with --learner: save the Progress screen as a picture"
SHOW_FORCE = "replace an existing picture"
RESTORE = "take back a backup in place of all attempts on this computer; asks first, and keeps a copy"
RESTORE_FILE = "the backup, which ends in .sqlite"
LINES = (
    "say of each line whether it was new, known or refused; take in the good lines although others are wrong"
)
GROUP = "show how the group is doing: the last evening, who remembers which case, and the hardest cases"
GROUP_OUT = "write it to this file; the name ends in .pdf, .html, .png or .csv"
ASSIGN = "give learners cases or lessons to do, or list what they have to do"
ASSIGN_LEARNER = "a learner; write it again for one more"
ASSIGN_ALL = "everybody who has a name"
ASSIGN_CASES = "cases by their numbers, for instance 3,14"
ASSIGN_LESSON = "a lesson by its name; write it again for one more"
ASSIGN_UNTIL = "the last day, for instance 2027-01-15"
ASSIGN_WITHDRAW = "take the cases and lessons back"
EXPORT = "write attempts to a file"
EXPORT_LEARNER = "only the attempts of this learner"
IMPORT = "add the attempts of files to those on this computer"
MERGE = "put several files together into one; attempts on this computer stay as they are"
MERGE_INTO = "the file to write"
SUFFIXES = "ends in .csv or .jsonl"
FORCE = "replace an existing file"
BACKUP = "copy all attempts on this computer"
BACKUP_FILE = "where to write the copy; without it, the copy goes to the other backups"
RESET = "delete attempts; asks first, and keeps a copy"
RESET_LEARNER = "only the attempts of this learner"
RESET_YES = "do not ask"


# ------------------------------------------------------------------------------------------- what it prints


def exported(count: int, file: Path) -> str:
    """Attempts are in a file."""
    return f"{_attempts(count)} written to {visible(file)}"


def imported(added: int, known: int, undone: int, own: int, refused: int) -> str:
    """What an import did."""
    left_out = (
        f", {undone:,} left out because you took {noun(undone, 'it', 'them')} back here" if undone else ""
    )
    written = f", {figured(own, 'line')} in their own words added" if own else ""
    return f"{_attempts(added)} added, {known:,} known already{left_out}{written}{_refused(refused)}"


def merged(count: int, file: Path, twice: int, refused: int) -> str:
    """What a merge did."""
    there = f"{figured(twice, 'was', 'were')} there twice"
    return f"{_attempts(count)} written to {visible(file)}; {there}{_refused(refused)}"


def _refused(count: int) -> str:
    return f", {figured(count, 'line')} refused" if count else ""


NEW, KNOWN = "new", "known already"
UNDONE = "left out because you took it back here"


def line_fate(file: Path, line: int, told: str) -> str:
    """What became of a line of a file."""
    return f"{visible(file)}, line {line}: {visible(told)}"


def attempt_line(fate: str, learner: str, case: int) -> str:
    """What became of an attempt."""
    return f"{fate}, {visible(learner)}, case {case}"


def own_line(fate: str, learner: str, case: int) -> str:
    """What became of a learner's own words for a case."""
    return f"{fate}, {visible(learner)}, case {case} in their own words"


def given_line(fate: str, learner: str) -> str:
    """What became of something given to a learner to do."""
    return f"{fate}, {visible(learner)}, something to do"


def refused(fault: str) -> str:
    """Why a line is not taken in."""
    return f"refused, {fault}"


def restore(file: Path, count: int) -> str:
    """The question before a backup takes the place of all attempts."""
    return (
        f"Put {visible(file)} in the place of the {_attempts(count)} on this computer? "
        "The program keeps a copy of them. Type yes to restore: "
    )


def restored(count: int, file: Path, copy: Path) -> str:
    """A backup is taken back."""
    told = f"{_attempts(count)} restored from {visible(file)}."
    return f"{told} A copy of what was here before is {visible(copy)}"


def forget(count: int, learner: str | None) -> str:
    """The question before attempts are deleted."""
    return f"Delete {_attempts(count)} of {_whose(learner)}? The program keeps a copy. Type yes to delete: "


NOTHING_CHANGED = "Nothing has changed."


def forgotten(count: int, learner: str | None, copy: Path) -> str:
    """Attempts are deleted."""
    return f"{_attempts(count)} of {_whose(learner)} deleted. A copy is {visible(copy)}"


def _attempts(count: int) -> str:
    return figured(count, "attempt")


def _whose(learner: str | None) -> str:
    return "all learners" if learner is None else visible(learner)


# -------------------------------------------------------------------------------------- the list of learners

LEARNER, TODAY = "Learner", "Today's list"

# ---------------------------------------------------------------------------------------- one learner's cases

NUMBER, CASE, MEMORY, REMEMBER, TRIES = "Case", "Seen at the front right", "Memory", "Remember", "Tries"
EXTRA, RECOGNITION = "Extra\nturns\nby hand", "Seconds\nto see it"


def turns_lost(parts: Iterable[str], days: int) -> str:
    """What each step costs, of late."""
    return (
        f"Turns lost in each step, undone detours included, on average over the last {days} days: "
        f"{', '.join(parts)}"
    )


def this_week(parts: Iterable[str]) -> str:
    """How many cases come back on which day."""
    return f"Cases on each day's list: {', '.join(parts)}"


# ------------------------------------------------------------------------------------------------- to do

NOTHING_TO_DO = "Nobody has anything to do."
NAME_A_TASK = "say what to give or to take back, with --cases or --lesson"
NAME_A_LEARNER = "say whom to give it to, with --learner NAME or --all"


def assigned(tasks: int, learners: Sequence[str], until: str) -> str:
    """Tasks were given, with or without a last day."""
    last = f", to do by {until}" if until else ""
    return f"{figured(tasks, 'task')} given to {all_of([visible(name) for name in learners])}{last}"


def withdrawn(count: int) -> str:
    """Tasks were taken back, counted for each learner."""
    return f"{figured(count, 'task')} taken back"


def case_named(number: int) -> str:
    """A case to do."""
    return f"case {number}"


def lesson_named(name: str) -> str:
    """A lesson to do."""
    return f"lesson {visible(name)}"


def task_line(learner: str, task: str, until: date | None, *, done: bool) -> str:
    """A task of a learner."""
    last = "" if until is None else f", until {until.isoformat()}"
    return f"{visible(learner)}: {task}{', done' if done else last}"


def no_such_lesson(name: str, known: Iterable[str]) -> str:
    """There is no such lesson."""
    return f"there is no lesson “{visible(name)}”; choose from {', '.join(known)}"


def no_day(text: str) -> str:
    """What is no day."""
    return f"“{text}” is not a day; write year, month and day, for instance 2027-01-15"


def day_over(text: str, today: str) -> str:
    """The last day was before today."""
    return f"“{text}”: this day is over; write a day from {today} on"


# ---------------------------------------------------------------------------------------------- the group

EVENING, HARDEST = "The last evening", "The hardest cases"


def evening_line(index: int, text: str) -> str:
    """A line about the last evening, with its number."""
    return f"{index}. {text}"


def hard_case(title: str, told: str) -> str:
    """A case that many find hard."""
    return f"{title}. {visible(told)}"


# ------------------------------------------------------------------------------------------ what it refuses


def of_one_learner(table: bool) -> str:
    """A table or picture without a learner."""
    what = "--csv prints the cases" if table else "--png saves the Progress screen"
    return f"{what} of one learner; say which one with --learner"


def file_exists(file: Path) -> str:
    """There is such a file."""
    return f"{visible(file)} exists already; choose another name, or replace it with --force"


SAY_YES = "nobody can answer the question here; add --yes to go on without it"


def no_such_learner(learners: Iterable[str]) -> str:
    """There is no learner of this name."""
    return f"no learner has this name; choose from {', '.join(learners)}"


def no_attempt_form(file: Path, table: str, lines: str) -> str:
    """The name of the file does not say its form."""
    return f"{visible(file)}: the name must end in {table} for a table or {lines} for JSON lines"


def not_utf8(file: Path) -> str:
    """The file is no text."""
    return f"{visible(file)} is not UTF-8 text; save it as UTF-8"


def cannot_read(file: Path, reason: str | None) -> str:
    """The file cannot be read."""
    return f"{visible(file)} cannot be read: {reason}"


def too_large(file: Path, megabytes: int) -> str:
    """The file has too many bytes."""
    return f"{visible(file)} is too large; a file has at most {megabytes} MB, so split it into several"


def no_group_form(file: Path, ends: Iterable[str]) -> str:
    """The name of the group's file does not say its form."""
    return f"{visible(file)}: the name must end in one of {', '.join(ends)}"


def no_picture_form(file: Path, end: str) -> str:
    """The name of the picture does not say its form."""
    return f"{visible(file)}: the name of a picture must end in {end}"


# ----------------------------------------------------------------------------- cases a learner still forgets


def nothing_practised(learner: str, others: tuple[str, ...]) -> str:
    """The learner has no attempts."""
    advice = f"; choose another learner with --learner: {', '.join(others)}" if others else ""
    name = visible(learner)
    return f"{name} has not practised yet, so the program knows no case that {name} forgets{advice}"


def nothing_slipping(learner: str) -> str:
    """No case slips away from the learner."""
    return f"no case is slipping for {visible(learner)}; without --slipping the program prints all 41"


def in_line(number: int, fault: str) -> str:
    """What is wrong in a line of a file of attempts."""
    return f"line {number}: {fault}"
