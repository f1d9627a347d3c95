"""What progress says, in English: why a case comes next, how a sitting went, what is wrong with files."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path

from tutor.counting import counted, figured, noun, number
from tutor.quoting import visible

# --------------------------------------------------------------------------- how well a case is remembered

NOT_MET_SO_FAR = "not met yet"
SETTLING = "settling"
SLIPPING = "slipping"
STICKING = "sticks"
SURE = "sure"

# ---------------------------------------------------------------------- what kind of turn first leads astray

MIXES_UP_LIFTS = "mixes up which layer lifts, or when", "mix up which layer lifts, or when"
MIXES_UP_BESIDE = "loses turns beside the slot", "lose turns beside the slot"
MIXES_UP_TOP = "turns the top where it does not help", "turn the top where it does not help"
MIXES_UP_FAR = "turns a layer away from the slot", "turn a layer away from the slot"

# ------------------------------------------------------------------------------ a group and its last evening

_NAMED = 4
"""So many learners are named, and the others counted."""


def listed(names: Sequence[str], most: int = _NAMED) -> str:
    """Names with an "and" before the last; of many the first, and how many more there are."""
    if len(names) > most + 1:
        return f"{', '.join(names[:most])} and {number(len(names) - most)} more"
    return " and ".join(part for part in (", ".join(names[:-1]), *names[-1:]) if part)


_TWELVE_MONTHS = 365


def last_day(day: date, today: date) -> str:
    """A day for which something is given, with its year unless it is within twelve months, so that a mistyped
    year is seen.
    """
    year = "" if 0 <= (day - today).days < _TWELVE_MONTHS else f" {day.year}"
    return f"{day:%A}, {day.day} {day:%B}{year}"


def evening_present(day: date, names: Sequence[str]) -> str:
    """Who came on the last evening."""
    return f"{day:%A}, {day.day} {day:%B}: {listed(names)} {noun(len(names), 'was', 'were')} here."


def evening_done(tries: int, solved: int, cases: int, minutes: int) -> str:
    """What was done."""
    made = f"They made {figured(tries, 'try', 'tries')} at {figured(cases, 'case')}"
    return f"{made} in {figured(minutes, 'minute')} and solved {solved:,}."


_TOLD = 3


def evening_better(gains: Sequence[tuple[str, int]]) -> str:
    """Who remembers more cases than before, the most first."""
    if not gains:
        return "Nobody remembers more cases than before."
    (first, count), *others = gains[:_TOLD]
    parts = [f"{first} remembers {counted(count, 'more case', 'more cases')}"]
    parts += [f"{name} {number(gained)}" for name, gained in others]
    left = len(gains) - len(parts)
    return f"{listed(parts)}.{_too(counted(left, 'other learner'), 'gained') if left else ''}"


def evening_slipped(losses: Sequence[tuple[int, Sequence[str]]]) -> str:
    """Which cases slipped for whom, by their numbers, the one that did for most first."""
    if not losses:
        return "No case slipped."
    case, names = losses[0]
    left = len(losses) - 1
    too = _too(counted(left, "more case"), "slipped") if left else ""
    return f"Case {case} slipped for {listed(names, 3)}.{too}"


def _too(who: str, did: str) -> str:
    return f" {who[:1].upper()}{who[1:]} {did} too."


def evening_next(hard: Sequence[tuple[int, int]], members: int) -> str:
    """What to begin with next time: cases by their numbers, with how many find them hard."""
    if not hard:
        return "Next time, go on with new cases. Nobody finds an old one hard."
    (case, count), *others = hard
    then = f" Then take case {others[0][0]}." if others else ""
    hard_for = f"It is hard for {number(count)} of {number(members)}." if members > 1 else "It is still hard."
    return f"Next time, begin with case {case}. {hard_for}{then}"


NOBODY_CAME = "Nobody has practised yet."


def mixed_up(count: int, members: int, does: str, do: str) -> str:
    """How many mix something up; where one learner is alone, nobody is counted."""
    if members == 1:
        return f"The learner {does}."
    said = f"{number(count)} of {number(members)} {noun(count, does, do)}."
    return f"{said[:1].upper()}{said[1:]}"


def slips_for(names: Sequence[str]) -> str:
    """For whom a case slips."""
    return f"It slips for {listed(names)}." if names else "It slips for nobody."


def missed_by(names: Sequence[str]) -> str:
    """Who did not manage a case alone at the last try."""
    return f"Last time it took a detour or more than a first hint for {listed(names)}." if names else ""


def costly_step(step: str) -> str:
    """In which step a case costs the group most."""
    return f"Most turns are lost in {step}."


# ---------------------------------------------------------------------------------- why this case comes next

ASSIGNED = "Your teacher gave you this case."
ON_THE_LIST = "This case is on today's list."
COMES_BACK = "You met this case a little while ago. It comes back until it sticks."
NOT_MET_YET = "You have not met this case yet."
NEW_IN_BETWEEN = f"{NOT_MET_YET} It comes in between, because no case comes twice in a row."
STILL_FRESH = "You have just met this case. Try it once more while it is fresh."
IN_BETWEEN = "This case comes in between, because no case comes twice in a row."
SLIPPING_FIRST = "This is one of the cases you are most likely to forget."
MISNAMED = "Last time you did not name this case right."
LONGEST_UNNAMED = "This case has waited longest for you to name it at a glance."
STICKS = "You know this case well, so you can look ahead while you turn."
SOLVED_TWICE = "You have solved this case twice, so you can look ahead while you turn."


# -------------------------------------------------------------------------------------------- a sitting's end

NOTHING_PRACTISED = "You did not try a case this time."


def farewell(tries: int, cases: int, right: int) -> str:
    """What was done in a sitting: how many tries, at how many cases, and how many were right at once."""
    done = f"You made {counted(tries, 'try', 'tries')} at {counted(cases, 'case')}."
    if tries == 1:
        return f"{done} You got it right first time, without help." if right else done
    if right == tries:
        return f"{done} You got all of them right first time, without help."
    return f"{done} You got {number(right) if right else 'none'} of them right first time, without help."


# ----------------------------------------------------------------------------------- goals that cannot be met

GOAL_WITHOUT_AMOUNT = "a goal that ends with today's list has no amount"


def goal_out_of_range(most: int, kind: str, amount: int) -> str:
    """A goal of too few or too many attempts or minutes."""
    return f"a goal has from 1 to {most} {kind}, not {amount}"


# ------------------------------------------------------------------------------ attempts that cannot be true


def no_turn_time(most: float, value: float | None) -> str:
    """The time of a turn is none."""
    return _no_time("the time of a turn", most, value)


def no_hint_time(most: float, value: float | None) -> str:
    """The time of a hint is none."""
    return _no_time("the time of a hint", most, value)


def no_first_turn_time(most: float, value: float | None) -> str:
    """The time to the first turn is none."""
    return _no_time("the time to the first turn", most, value)


def no_whole_time(most: float, value: float | None) -> str:
    """The time of the attempt is none."""
    return _no_time("the time of the attempt", most, value)


def _no_time(what: str, most: float, value: float | None) -> str:
    return f"{what} is a number of seconds from 0 to {most:,.0f}, not {value}"


def no_such_year(first: int, last: int, year: int) -> str:
    """A time of another age."""
    return f"a time is of a year from {first} to {last}, not {year}"


def cost_out_of_range(most: int, cost: int) -> str:
    """A turn cannot cost so much."""
    return f"a turn costs from 0 to {most} turns, not {cost}"


def rung_out_of_range(deepest: int, rung: int) -> str:
    """There is no such hint."""
    return f"a hint has a rung from 1 to {deepest}, not {rung}"


def time_not_in_utc(time: str) -> str:
    """The end of an attempt in another zone."""
    return f"the time {time} is not in UTC"


def not_the_slug(slug: str) -> str:
    """A case written in another way than by its slug."""
    return f"write the case by its slug, here “{slug}”"


def no_alignment(alignment: int) -> str:
    """There is no such alignment."""
    return f"an alignment is 0, 1, 2 or 3, not {alignment}"


def target_kept(slot: str) -> str:
    """The slot to solve cannot be kept."""
    return f"slot {slot} is the target, so it cannot be kept"


TURNS_USED, TURNS_SHOWN = "turns used", "turns shown"
BY_HAND, AT_ALL, ROUTE = "by hand", "at all", "route"
"""Columns of an attempt that count turns."""


def turns_out_of_range(what: str, most: int, count: int) -> str:
    """Too many turns of some kind; ``what`` names the column."""
    return f"{what}: from 0 to {most} turns, not {count}"


def by_hand_below_at_all(by_hand: int, at_all: int) -> str:
    """Fewer turns by hand than with all layers."""
    return f"by hand: {by_hand} turns, but with far layers too it takes {at_all}"


def too_many_turns_or_hints(most: int) -> str:
    """More turns or hints than any attempt has."""
    return f"an attempt has at most {most} turns and as many hints"


def no_task(task: str) -> str:
    """What is no task."""
    return f"“{task}” cannot be given; give case: with a case's slug, or lesson: with a lesson's name"


NO_TITLE = "a lesson's title is one line"


def no_learner_name(name: str) -> str:
    """A name that cannot be one."""
    return (
        f"“{name}” cannot be a learner's name. A name begins with a letter or a figure. "
        "It takes one line and has no space at either end"
    )


OWN_LINE_BROKEN = (
    "a line of your own is one line, without spaces at either end, and does not begin with = + - or @"
)


def own_line_too_long(most: int, length: int) -> str:
    """A line of one's own with too many characters."""
    return f"a line of your own has at most {most} characters, this one has {length}"


def learner_name_too_long(most: int, length: int) -> str:
    """A name with too many characters."""
    return f"a learner's name has at most {most} characters, this one has {length}"


# ---------------------------------------------------------------------------------------- files of attempts

NO_ZONE = "the time has no zone; write it in UTC, with Z at its end"
NEITHER_OR_BOTH = "it needs either at_all or, in older files, shortest"


def columns_missing(names: Iterable[str]) -> str:
    """A table without some of its columns."""
    listed = tuple(names)
    what, are = noun(len(listed), "column"), noun(len(listed), "is", "are")
    return f"line 1: the {what} {', '.join(listed)} {are} missing"


def wrong_cell_count(line: int) -> str:
    """A row with more or fewer cells than there are columns."""
    return f"line {line}: the number of cells differs from the number of columns"


def at_line(line: int, fault: object) -> str:
    """What is wrong with a line."""
    return f"line {line}: {fault}"


def no_turn(text: str) -> str:
    """Text that is no turn."""
    return f"“{text}” is not a turn; turns are written like R, U2 or F'"


def no_slot(text: str, slots: Iterable[str]) -> str:
    """Text that is no slot."""
    return f"“{text}” is not a slot; a slot is one of {', '.join(slots)}"


def wrong_parts(text: str, what: str, names: Iterable[str]) -> str:
    """A turn or a hint of a table with a part too many or too few."""
    return f"“{text}” is not a {what}: it has {', '.join(names)}, with spaces between"


# ----------------------------------------------------------------------------- the file that keeps attempts

NEWER_VERSION_THERE = "a newer version of the program has written there; update this one"


def newer_form(path: Path, form: int, known: int) -> str:
    """A file of a newer version of the program."""
    return (
        f"A newer version of the program wrote {visible(path)} (form {form}, this one knows up to {known}). "
        "The file is unchanged: update the program, or choose another folder."
    )


def in_memory_only(folder: Path, reason: str) -> str:
    """The folder of the attempts cannot be written."""
    return (
        f"The program cannot save your progress in {visible(folder)} ({visible(reason)}). "
        "It keeps your attempts while it runs and saves them as soon as it can."
    )


def no_backup_today(reason: object) -> str:
    """Today's backup failed."""
    return f"The program cannot write today's backup of your progress ({visible(reason)})."


def went_on_from(damaged: str | None, backup: str | None, saved: int) -> str:
    """The file was damaged (it has a new name) or gone (None), and what is there in its place."""
    happened = (
        f"The file of your progress was damaged. It is now called {visible(damaged)}."
        if damaged is not None
        else "The file of your progress was missing."
    )
    parts = [] if backup is None else [f"the backup {visible(backup)}"]
    if saved:
        parts.append(f"{counted(saved, 'attempt')} from the damaged file")
    return f"{happened} The program now uses {' and '.join(parts) if parts else 'an empty one'}."


def rescued(path: Path) -> str:
    """Attempts that could not be saved are in a file of their own."""
    return (
        f"The attempts that the program could not save are in {visible(path)}. "
        f"Import them later: “pairwright progress import {visible(path)}”."
    )


def still_waiting(count: int, reason: str) -> str:
    """Attempts that are not on the disk."""
    what = counted(count, "attempt")
    return (
        f"{what[:1].upper()}{what[1:]} {noun(count, 'is', 'are')} not saved yet ({visible(reason)}). "
        "The program tries again with the next one."
    )


def unreadable(count: int) -> str:
    """Records of the file that cannot be read."""
    return (
        f"The program cannot read {counted(count, 'record')} in the file of your progress "
        f"and leaves {noun(count, 'it', 'them')} out."
    )


def cannot_read(reason: str) -> str:
    """The file cannot be read."""
    return f"the program cannot read your progress: {visible(reason)}"


def not_merged(reason: object) -> str:
    """A merge failed as a whole."""
    return f"no attempt was added: {visible(reason)}"


def backup_failed(reason: str) -> str:
    """A backup failed."""
    return f"the program cannot write the backup: {visible(reason)}"


def folder_unwritable(folder: Path, reason: str) -> str:
    """The folder of the file cannot be written."""
    return f"the program cannot write in the folder {visible(folder)}: {visible(reason)}"


def name_taken(name: str) -> str:
    """Another learner has the name."""
    return f"there is already a learner called {name}; join the two if they are one person"


JOINED_ALREADY = "these two are one learner already"


def not_there(name: str) -> str:
    """A learner who is not known."""
    return f"no learner is called {name}"


NO_FILE_THERE = "there is no such file"
NO_BACKUP = "it is not a sound backup"


def not_restored(backup: Path, reason: object) -> str:
    """A backup that cannot be taken back."""
    return f"the program cannot restore {visible(backup)}: {visible(reason)}"


def belongings_not_moved(reason: str) -> str:
    """A learner's painting and saved solves have not followed a change of names."""
    what = "the program cannot move what belongs to a learner, and tries again at its next start"
    return f"{what}: {visible(reason)}"


def change_failed(reason: object) -> str:
    """A change failed."""
    return f"the program cannot save the change: {visible(reason)}"


# ------------------------------------------------------------------------------------------- names of cases
