"""Files written whole or not at all: beside their place first, and then renamed."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class PublishError(ValueError):
    """A handout that cannot be made; the message is one sentence that says what would be right."""


def check_target(target: Path, *, force: bool) -> None:
    """Raise PublishError when ``target`` cannot become a file: it is there already, or has no folder.

    With ``force`` a file that is there may be replaced.
    """
    if target.is_dir():
        raise PublishError(f"{target} is a folder; give the name of a file")
    if not force and target.exists():
        raise PublishError(f"{target} is there already; choose another name, or replace it with --force")
    if not target.parent.is_dir():
        raise PublishError(f"there is no folder {target.parent}; make it first, or choose another")


@contextmanager
def written(target: Path, *, force: bool = False) -> Iterator[Path]:
    """A path beside ``target`` to write to; at the end of the block it takes the target's name.

    When the block fails, nothing is left, and a file that was at the target stays as it was. Raises
    PublishError when the target must not be written (see ``check_target``) or the system refuses it.
    """
    check_target(target, force=force)
    beside = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        yield beside
        if not force:
            check_target(target, force=False)
        beside.replace(target)
    except OSError as fault:
        raise unwritable(target, fault) from fault
    finally:
        beside.unlink(missing_ok=True)


def write_bytes(target: Path, content: bytes, *, force: bool = False) -> None:
    """Write a whole file. Raises PublishError as ``written`` does."""
    with written(target, force=force) as beside:
        beside.write_bytes(content)


def unwritable(target: Path, fault: OSError) -> PublishError:
    """What to say when the system refuses a file."""
    reason = fault.strerror or str(fault) or type(fault).__name__
    return PublishError(f"{target} cannot be written: {reason}; choose another place, or make room there")
