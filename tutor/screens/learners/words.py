"""What the Learners screen says, in English."""

from __future__ import annotations

TITLE = "Learners"

# --------------------------------------------------------------------------------------- those who are known

WHO = "Who is learning?"
APART = "Each learner has their own progress. Saved solves and the painted cube are for everyone."

# --------------------------------------------------------------------------------------------- somebody new

NEW = "Add a learner"
FIRST_NAME = "A first name is enough. It stays on this computer."
FIELD = "Name, then Enter"
TYPE_A_NAME = "Type a name, then press Enter."


def refused(reason: str) -> str:
    """Why a name cannot be used, as a sentence."""
    return f"{reason[:1].upper()}{reason[1:]}."


def learns_already(name: str) -> str:
    """The learner who is added is the one who is learning."""
    return f"{name} is already learning here."


def learns_now(name: str) -> str:
    """The learner who is added was known before."""
    return f"{name} was here before. Now {name} is learning."
