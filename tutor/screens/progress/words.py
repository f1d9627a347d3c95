"""What the Progress screen says, in English."""

from __future__ import annotations

from datetime import date

from tutor.counting import counted, figured, number, percent
from tutor.cube.position import Slot
from tutor.method.terms import Family

TITLE = "Progress"
DOOR = "See how well you remember each case, and what is on today's list."
SAVE_PICTURE, SAVE_TABLE = "Save picture", "Save table"
KEY_PICTURE, KEY_TABLE = "save a picture of this page", "save the cases as a table"
KEYS_OF_SAVING = "Saving"
LOADING = "Loading your progress …"

# ------------------------------------------------------------------------------------ before the first case

BEGINNING = "Here you see how well you remember the 41 cases. Try one, and the map shows it."
START = "Start to practise"


def title(learner: str | None) -> str:
    """The heading; ``learner`` is None for the guest."""
    return TITLE if learner is None else f"Progress of {learner}"


# ------------------------------------------------------------------------------------------ how you are doing

_ALL = 41


def standing(met: int, remembered: int, today: int) -> str:
    """How many cases you have met, how many stick or are sure, and how many are on today's list."""
    whole = f"You have met all {_ALL} cases." if met == _ALL else f"You have met {met} of the {_ALL} cases."
    return f"{whole} You remember {remembered} well. You have {counted(today, 'case')} to practise today."


PRACTISE_TODAY, PRACTISE = "Practise today's list", "Practise"

# ------------------------------------------------------------------------------------------------- the map

CASES = "The cases"
HOW_TO_READ = "A dot means practise today. The percentage is your chance of remembering the case."
HOW_TO_TRY = "Press a case to try it."


def in_legend(memory: str, count: int) -> str:
    """How many cases are remembered so well."""
    return f"{memory}: {count}"


def family(which: Family) -> str:
    """The heading over a family of cases."""
    return f"{which.value[:1].upper()}{which.value[1:]}"


def chance(remember: float) -> str:
    """The chance to remember a case."""
    return f"{percent(remember)}%"


def memory(word: str, remember: float | None) -> str:
    """How well you remember a case, and your chance."""
    held = f"{word[:1].upper()}{word[1:]}"
    return held if remember is None else f"{held}: you have a {chance(remember)} chance of remembering it"


def tried(attempts: int, extra: float | None, seconds: float | None) -> str:
    """How it went: tries, turns over the fewest by hand, and the time to the first turn."""
    parts = [figured(attempts, "try", "tries")]
    if extra is not None:
        parts.append(f"{extra:.1f} turns over the fewest by hand")
    if seconds is not None:
        parts.append(f"{seconds:.1f} s to the first turn")
    return ", ".join(parts)


ON_TODAYS_LIST = "On today's list"


def on_the_list(day: date) -> str:
    """When the case comes back."""
    return f"On the list on {on_day(day)}"


# ---------------------------------------------------------------------------------------------- the figures

OVER_TIME = "Over time"
EXTRA = "Turns over the fewest by hand"
EXTRA_UNIT = "on average, without undone turns"
RECOGNITION, RECOGNITION_UNIT = "Time to the first turn", "seconds, the middle of a day"
HINTS, HINTS_UNIT = "Hints", "for each case, on average that day"
NOTHING_YET = "No figures yet."


def gist(first: float, last: float) -> str:
    """A series in words: its beginning and its end."""
    return f"{first:.1f} at first, {last:.1f} recently."


def on_day(day: date) -> str:
    """A day without its year."""
    return f"{day.day} {day:%b}"


def in_month(day: date) -> str:
    """A month with its year."""
    return f"{day:%b %Y}"


WITHOUT_PRACTICE = "Without practice"
WITHOUT_PRACTICE_UNIT = "chance of remembering a case, on average over those you have met"
NOW = "today"


def days(count: int) -> str:
    """So many days from now."""
    return figured(count, "day")


def likely(now: int, then: int, count: int) -> str:
    """How many cases you are likely to remember now and so many days on."""
    return (
        f"You have a chance of 90% or more with {counted(now, 'case')} today. "
        f"Without practice: {counted(then, 'case')} in {counted(count, 'day')}."
    )


WEEK, WEEK_UNIT = "To practise this week", "cases, from today on"


def weekday(day: date) -> str:
    """A day of the week, in brief."""
    return f"{day:%a}"


def lists(today: int, week: int) -> str:
    """How many cases are on the list today, and how many in seven days."""
    return f"You have {counted(today, 'case')} to practise today, and {number(week)} over seven days."


STEPS = "Which step costs turns"


def steps_since(count: int) -> str:
    """What the figures of the steps cover."""
    return (
        f"In the last {counted(count, 'day')}. "
        "Detours that you undid count here, and tries that you gave up too. "
        "Find is only looking, so it costs time but no turns."
    )


def step(name: str, lost: float, share: float) -> str:
    """What a step costs."""
    return f"{name}: {lost:.2f} turns lost on average, some in {share:.0%} of tries"


SLOTS = "Slot by slot"
SLOT, TRIES, GOOD = "Slot", "Tries", "Without help, as short as the route"
SECONDS = "Seconds to the first turn"
UNKNOWN = "–"


def slots_since(count: int) -> str:
    """What the figures of the slots cover."""
    return f"In the last {counted(count, 'day')}. Turns over the fewest leave out those that you undid."


def slot(which: Slot) -> str:
    """A slot in the table."""
    return which.name
