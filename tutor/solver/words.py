"""What is said about tasks and about the tables on the disk, in English."""

from __future__ import annotations

from pathlib import Path

from tutor.cube.position import Slot
from tutor.quoting import visible


def target_kept(slot: Slot) -> str:
    """A task whose target is among the slots to keep."""
    return f"slot {slot.name} is the target, so you cannot keep it as well; leave it out of the kept slots"


# ------------------------------------------------------------------------------- why a table is of no use


def wrong_size(actual: int, due: int) -> str:
    """The file is too short or too long."""
    return f"it has {actual:,} bytes and should have {due:,}"


WRONG_CHECKSUM = "its checksum is wrong"
ANOTHER_TABLE = "it holds another table than its name says"
FIRST_LINE = "its first line makes no sense"


def wrong_version(actual: object, due: int) -> str:
    """The file is another version's."""
    return f"it has version {actual}, and this program uses version {due}"


# ------------------------------------------------------------------------------------- what a person hears


def table_replaced(name: str, reason: str) -> str:
    """A table that is of no use."""
    return (
        f"The program cannot use the stored table {visible(name)} ({visible(reason)}). "
        "It will make a new one, and its answers stay exact."
    )


def tables_not_saved(folder: Path, reason: str) -> str:
    """A folder that cannot be written."""
    return (
        f"The program cannot save its tables in {visible(folder)} ({visible(reason)}). "
        "It will make them again the next time you start it."
    )
