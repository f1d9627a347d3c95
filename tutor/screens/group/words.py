"""What the Group screen says, in English."""

from __future__ import annotations

from tutor.counting import counted, number

TITLE = "Group"
DOOR = "See who remembers which case, and what to do next time."
LOADING = "Loading everybody's progress …"
NOBODY = "No try is saved yet. Once there are some, you see here who remembers which case."
SAVE_PICTURE, SAVE_TABLE = "Save picture", "Save table"
KEY_PICTURE, KEY_TABLE = "save a picture of this page", "save the map as a table"
KEYS_OF_SAVING = "Saving"


def learners(count: int) -> str:
    """How many learners are on the map."""
    return counted(count, "learner")


# ------------------------------------------------------------------------------------------------- the map

WHO = "Who remembers which case"
BY_NEED, BY_NUMBER = "Hardest case first", "By number"
HARDEST, EASIEST = "hardest", "easiest"
HOW_TO_PRESS = (
    "Press a name to choose who is learning and see their progress. "
    "Press a column to see a case across the group."
)
HOW_TO_READ = "A dot means the case is on today's list. The last figure counts slipping cases."


def hard_for(count: int, members: int) -> str:
    """How many find a case hard; where one learner is alone, nobody is counted."""
    if count and members == 1:
        return "Still hard"
    return f"Hard for {number(count)} of {number(members)}" if count else "Hard for nobody"


WHO_HAS = "Press a name to give it to a learner. Press it again to take it back."
GIVE_ALL, TAKE_BACK = "Give it to everyone", "Take it back from everyone"
GIVE_LESSON, HIDE_LESSONS = "Give a lesson", "Hide the lessons"


def give_to(count: int) -> str:
    """Give a case to those who find it hard."""
    return (
        f"Give it to the {number(count)} who find it hard"
        if count > 1
        else "Give it to the one who finds it hard"
    )


def lesson(place: int, title: str) -> str:
    """A lesson by its number in the list."""
    return f"{place}. {title}"


OPEN_CASE, ON_BOARD = "Open in the case book", "Put it on the board"
EVENING = "The last evening"


def line(index: int, text: str) -> str:
    """A line about the last evening, with its number."""
    return f"{index}. {text}"


def now_learning(learner: str) -> str:
    """Whose progress was opened."""
    return f"{learner} is learning now."


# ------------------------------------------------------------------------------- who is at what right now

NOW = "Now"
NOBODY_ELSE = "Nobody works at another window on this folder now. Start one there with “--shared”."
FREE_PLAY, WHOLE_SOLVE, AT_NO_TASK = "Free play", "A whole solve", "At no task"


def shared_over(folder: str) -> str:
    """Which folder is shared."""
    return f"This window shares the folder {folder}."


def unreadable_lines(count: int) -> str:
    """Lines in the folder's files that nobody can read."""
    return f"The program cannot read {counted(count, 'line')} in it."


def at_lesson(place: int, title: str, scene: int, scenes: int) -> str:
    """Somebody is in a lesson; ``place`` is its number in the list, 0 for one of their own."""
    name = f"Lesson {place}, {title}" if place else title
    return f"{name}: scene {scene} of {scenes}"


def missed(learner: str, step: str, times: int) -> str:
    """Somebody goes wrong in the same step again and again."""
    return f"{learner} lost turns in {step} {number(times)} times"


def stuck(learner: str, minutes: int) -> str:
    """Somebody is at one task for long."""
    return f"{learner} has been stuck for {counted(minutes, 'minute')}"


LEARNER, AT, HOW = "Learner", "Works on", "How it goes"
OVER, DONE, FREE = "Done", "Done, and waits", "Has nothing to do"


def quiet(minutes: int) -> str:
    """Somebody is in the middle of something and does nothing."""
    return f"Nothing pressed for {counted(minutes, 'minute')}"


def at_it(minutes: int) -> str:
    """Somebody is at work."""
    return f"At it for {counted(minutes, 'minute')}" if minutes else "Just begun"
