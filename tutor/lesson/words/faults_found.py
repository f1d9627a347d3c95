"""What the checker finds in a lesson that can be played: what is wrong, and what would be right."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import figured, noun
from tutor.lesson.words.replies import listed

Fault = tuple[str, str]
LEAVE_OUT = "Leave it out."

WARNING = "Please look at this: "
"""Before what is no mistake but could be better."""


def many_turns(shown: int, most: int) -> Fault:
    """More turns shown in a lesson than a lesson may show."""
    return f"The lesson shows {figured(shown, 'turn')}.", f"Show at most {most} in one lesson."


def unused_idea(idea: str) -> Fault:
    """An idea that no scene is about."""
    return f"No scene is about “{idea}”.", "Name it in a scene with the key idea, or leave it out."


# ------------------------------------------------------------------------------------------- shown turns

SLIP_WITHOUT_PAIR: Fault = ("Without a pair no turn is a slip.", "Name the slot, or leave slip out.")
TOO_FAR_TO_JUDGE: Fault = (
    "From here on too much is out of place to judge the turns.",
    "Show a shorter slip.",
)
NO_SLIP: Fault = ("None of these turns is a slip.", "Leave slip out.")


def detours(turns: str, count: int) -> Fault:
    """Detours that are not marked as slips."""
    message = f"{turns} {noun(count, 'is a Detour', 'are Detours')}."
    return message, "Show a better turn, or mark a slip on purpose with slip = true."


def far_layers(turns: str, count: int) -> Fault:
    """Turns of layers that the pair does not need."""
    message = f"{turns} {noun(count, 'turns a far layer', 'turn far layers')}."
    return message, "Show a way that turns only the top and the layers beside the slot."


def unsaid_step(way: str, step: str) -> Fault:
    """A text for a step that the turns do not have."""
    return f"The {way} has no {step} here, so nobody will read this.", LEAVE_OUT


# ------------------------------------------------------------------------------------------- asked turns

SOLVED_HERE: Fault = ("The pair is solved here already.", "Start where the pair is not solved yet.")
STEP_DONE_HERE: Fault = ("This step is done here already.", "Name a later one.")


def accepted_detour(turn: str) -> Fault:
    """A Detour among the turns that a scene accepts."""
    return f"{turn} is a Detour.", "Accept turns that are Optimal or Acceptable."


ONE_TURN_ASKED: Fault = ("This scene asks for one turn.", "Accept one turn, or ask for a step or the case.")
STEP_NOT_DONE: Fault = ("These turns do not finish the step.", "Accept turns that finish it.")
PAIR_NOT_SOLVED: Fault = ("These turns do not solve the pair.", "Accept turns that solve it.")

NO_WHY: Fault = (
    "A learner who picks this wrong answer reads nothing about it.",
    "Say with the key why what is wrong here, and where to look.",
)


# ------------------------------------------------------------------------------------------------- words


def other_step(named: str, steps: Sequence[str]) -> Fault:
    """A step named in a text about turns of other steps."""
    right = listed(steps) if steps else "no step"
    return f"This is not {named}.", f"These turns belong to {right}."


_FIXED = "or write fixed = true at the top if the lesson is only for the slot as written."


_SIDES = {"left": "L", "right": "R", "front": "F", "back": "B"}


def side_word(word: str) -> Fault:
    """A word for a side in a lesson that is played in every slot."""
    side = _SIDES.get(word.lower().split()[-1])
    if side is None:
        write = "Write the turn, for example {turn:R}"
    else:
        write = f"Write {{side:{side}}}, {{corner.place}} or {{edge.place}} for where a piece is"
    return f"“{word}” is not true in every slot and in the mirror.", f"{write}, {_FIXED}"


def screen_word(word: str) -> Fault:
    """A word that makes no sense on paper."""
    return (
        f"“{word}” makes sense only at the screen, and sheets print this text.",
        "Put the sentence into the key on_screen, which sheets and films leave out.",
    )


def turn_letter(turn: str) -> Fault:
    """A letter for a turn in a lesson that is played in every slot."""
    return f"“{turn}” is another turn in another slot.", f"Write {{turn:{turn}}}, {_FIXED}"


def long_text(length: int, room: int) -> Fault:
    """A text that is too long once its placeholders are filled in."""
    return (
        f"With its placeholders filled in, this text has {figured(length, 'character')}.",
        f"Keep it within {figured(room, 'character')}.",
    )
