"""What ``lesson text`` says round the words of a lesson."""

from __future__ import annotations

from tutor.quoting import visible

HELP = "print the words of lessons"
DESCRIPTION = (
    "Prints lessons as one text, scene by scene, with everything that a learner reads: "
    "questions with their answers, turns with their words, and the points at the end."
)
NAMES_HELP = "a lesson's name or file; without one you get the whole course"

TELL = "Read"
SHOW = "Watch"
FIND = "Find"
QUIZ = "Question"
ALONE = "On your own"
RECAP = "Recap"
YOUR_TURN = {
    "turn": "Your turn, for one turn",
    "step": "Your turn, to the end of the step",
    "case": "Your turn, until the pair is solved",
}
"""Headings of the scenes that ask for turns, by how much they ask for."""

SLIP = "A slip, on purpose"
RIGHT = "(correct)"
AFTERWARDS = "Then: "


def lesson_heading(number: int, title: str) -> str:
    """The heading of a lesson by its place in the course; 0 for one that has none."""
    return f"Lesson {number}: {visible(title)}" if number else visible(title)


def goal(text: str) -> str:
    """The line beneath the heading."""
    return f"Goal: {visible(text)}"
