"""What Free play says."""

from __future__ import annotations

from tutor.counting import number

NAME = "Free play"
DESCRIPTION = "Any cube, any slot. Undo and redo as often as you like."

# What its own key does; settings files give it another key by this name.
KEY_SOLVED_CUBE = "a solved cube"
KEY_EXPLAIN = "explain my turns"

SOLVE_CROSS = "Solve the cross first"
SLOT = "Slot"
WORKING = "Working out the fewest turns …"
SETTING_UP = "You are setting up a case. Your turns are judged once the cross and the other pairs are solved."
HELD_OTHERWISE = (
    "The steps are named as if you held the cross down. Your turns are judged however you hold the cube."
)
CROSS_FIRST = "Solve the cross first. Then you can choose another slot."

NEXT_PAIR = "Next pair"
UNDO = "Undo"
REDO = "Redo"
SCRAMBLE = "Scramble, cross solved"
SCRAMBLE_ALL = "Scramble all"
SOLVED_CUBE = "Take a solved cube"
WRITE = "Write moves"
WRITE_SET_UP = "Write a set-up"
SET_UP_ENTRY = "A set-up such as R U R': it is not judged. Then press Enter"
BEGINS_HERE = "You begin here. Undo brings the cube before it back."
AS_SOLVE = "Which pair first?"
EXPLAIN = "Explain my turns"
BACK_TO_VERDICT = "Back to the verdict"
AS_SOLVE_DETAIL = "Open this cube in Whole solves."


def cross_edges(solved: int) -> str:
    """What opens the slots, and how far that is."""
    verb = "is" if solved == 1 else "are"
    return f"Of the four cross edges, {number(solved)} {verb} solved. Solve all four to choose a slot."
