"""What Home says."""

from __future__ import annotations

NAME = "Home"
PRODUCT = "Pairwright"

TITLE = "The first two layers, pair by pair"
METHOD = (
    "Spot the corner and its edge, lift both to the top, set them apart, join them colour to colour, "
    "slide them into the slot. You make the turns, and the program checks each one."
)

WHO = "Who is learning?"
CHANGE = "Change learner"
SOMEBODY_ELSE = "Somebody else"

REST = "Long practice strains your hands and wrists. Turn gently, and rest when they feel tired."

LESSONS = "Lessons"
NO_LESSONS = "The program found no lessons."


def learner(name: str) -> str:
    """Who is learning."""
    return f"Learner: {name}"


def lesson(number: int, title: str, *, finished: bool) -> str:
    """A lesson on its button, ticked when the learner has finished it."""
    return f"{number}. {title}{'  ✓' if finished else ''}"
