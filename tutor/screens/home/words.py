"""What Home says."""

from __future__ import annotations

from tutor.counting import counted, noun, number

NAME = "Home"
PRODUCT = "Pairwright"

TITLE = "The first two layers, pair by pair"
METHOD = (
    "Spot the corner and its edge, lift both to the top, set them apart, join them colour to colour, "
    "slide them into the slot. You make the turns, and the program checks each one."
)

NO_KEYS = (
    "Every key is switched off. To get them back, delete the lines under [keys] in the settings file. "
    "Then look at letter and number keys in Settings."
)

WHO = "Who is learning?"

FIND = "Find a learner: type part of the name, then Enter"
NOBODY_FOUND = "No learner has this in their name."

REST = "Long practice strains your hands and wrists. Turn gently, and rest when they feel tired."

OWN = "Your own lessons"
TODAY = "Today's list"
PRACTISE = "Practise today's list"
NO_LESSONS = "The program found no lessons."


def learner(name: str) -> str:
    """Who is learning."""
    return f"Learner: {name}"


def lesson(number: int, title: str) -> str:
    """A lesson under its picture."""
    return f"{number}. {title}"


DONE = "✓"


def part_done(done: int, tasks: int) -> str:
    """In the corner of a lesson's picture: how many of its tasks are done."""
    return f"{done}/{tasks}"


def group(title: str, done: int, count: int) -> str:
    """The heading of a group of lessons, with how many of them have their tick."""
    if done == count:
        return f"{title}: all done"
    return f"{title}: {done} of {count} done" if done else title


def so_far(lessons: int, cases: int) -> str:
    """What the learner has done until now."""
    return f"You have finished {counted(lessons, 'lesson')} and met {counted(cases, 'case')}."


def on_list(count: int, settling: int, waiting: int) -> str:
    """How many cases there are to practise now, why some come back so often, and how many still wait."""
    if not count:
        return f"{counted(waiting, 'case').capitalize()} {_still_settling(waiting)} soon."
    said = f"You have {counted(count, 'case')} to practise."
    if settling:
        if settling == count:
            who = "It" if count == 1 else "They"
        else:
            who = f"{number(settling).capitalize()} of them"
        until = noun(settling, "it sticks", "they stick")
        said = f"{said} {who} {_still_settling(settling)} until {until}."
    if waiting:
        said = f"{said} {number(waiting).capitalize()} more {noun(waiting, 'comes', 'come')} back soon."
    return said


def _still_settling(count: int) -> str:
    return noun(count, "is still settling, so it comes back", "are still settling, so they come back")


def case(number: int) -> str:
    """A case on the list."""
    return f"Case {number}"


TO_DO = "To do"
GIVEN = "From your teacher"


def until(day: str) -> str:
    """The last day of a task."""
    return f"Until {day}"


def done(task: str) -> str:
    """A task that is done; the tick before it is a picture."""
    return f"{task}: done"


def not_here(task: str) -> str:
    """A lesson that this computer does not have."""
    return f"The lesson {task} is not on this computer."
