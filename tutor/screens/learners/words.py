"""What the Learners screen says, in English."""

from __future__ import annotations

TITLE = "Learners"

# --------------------------------------------------------------------------------------- those who are known

WHO = "Who is learning?"
APART = "Each learner has their own progress, lessons, saved solves and painted cube."
CHANGE = "Change"

# --------------------------------------------------------------------------------------------- somebody new

NEW = "Add a learner"
FIRST_NAME = "A first name is enough. It stays on this computer."
FIRST_NAME_SHARED = "A first name is enough. It goes into the shared folder, too."
FIELD = "Name, then Enter"
TYPE_A_NAME = "Type a name, then press Enter."


def refused(reason: str) -> str:
    """Why a name cannot be used, as a sentence."""
    return f"{reason[:1].upper()}{reason[1:]}."


def is_new(name: str) -> str:
    """The learner who is added was not known before; what can be done next."""
    return f"{name} is learning now. Type another name, or go to Home."


def learns_already(name: str) -> str:
    """The learner who is added is the one who is learning."""
    return f"{name} is already learning here."


def learns_now(name: str) -> str:
    """The learner who is added was known before."""
    return f"{name} was here before. Now {name} is learning."


# ------------------------------------------------------------------------------------ the learner in hand

NEW_NAME = "Another name, then Enter"
ALL_FOLLOWS = "Everything that this learner has done moves to the new name."
GUEST_STAYS = "Everything that the guest has done moves to the new name. The guest starts again."
JOIN = "Join with another learner"
REMOVE = "Remove this learner"
EMPTY_GUEST = "Clear what the guest has done"
DONE = "Done"


def change(name: str) -> str:
    """The heading over what can be done to a learner."""
    return f"Change {name}"


def same_person(name: str) -> str:
    """Who else is the learner in hand."""
    return f"Who is the same person as {name}?"


def join_asked(name: str, other: str) -> str:
    """The question before two learners are joined."""
    return (
        f"Do you want to join {name} and {other}? {other} gets everything that {name} has done. "
        "The program writes a backup first."
    )


JOIN_SURE = "Join them"
KEEP_APART = "Keep them apart"


def remove_asked(name: str) -> str:
    """The first question before a learner is removed."""
    return f"Do you want to remove {name} and everything that {name} has done?"


def remove_asked_again(name: str) -> str:
    """The second question."""
    return f"Are you sure? The program writes a backup first, then it removes {name}."


REMOVE_SURE = "Yes, remove"
REMOVE_NOW = "Write a backup and remove"


def keep(name: str) -> str:
    """No to a removal."""
    return f"Keep {name}"


def removed(name: str) -> str:
    """Who was removed last."""
    return f"You removed {name}. You can still change your mind."


def bring_back(name: str) -> str:
    """The button that takes a removed learner from the backup again."""
    return f"Bring {name} back"


def renamed(old: str, new: str) -> str:
    """A learner has another name."""
    return f"{old} is now called {new}."


def joined(old: str, into: str, backup: str) -> str:
    """Two learners are one."""
    return f"{old} and {into} are one learner now, called {into}. {_backup(backup)}"


def gone(name: str, backup: str) -> str:
    """A learner is removed."""
    return f"{name} is removed. {_backup(backup)}"


def put_back(name: str) -> str:
    """A learner who was removed is there again."""
    return f"{name} is back."


def _backup(file: str) -> str:
    return f"The backup is {file}."
