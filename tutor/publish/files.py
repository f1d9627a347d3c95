"""Files written whole or not at all: beside their place first, and then renamed."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import count
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


def write_new(folder: Path, stem: str, suffix: str, write: Callable[[Path], None]) -> Path:
    """Write a file under a name that is free, and tell which: ``stem``, or with a number from 2 on after it.

    ``write`` is given a path beside it; when it fails, nothing is left. The folder is made if need be. Raises
    OSError when the system refuses, and whatever ``write`` raises.
    """
    folder.mkdir(parents=True, exist_ok=True)
    beside = part_of(folder, stem, os.getpid())
    try:
        write(beside)
        names = (stem if number == 1 else f"{stem}-{number}" for number in count(1))
        return next(target for name in names if _taken(beside, target := folder / f"{name}{suffix}"))
    finally:
        beside.unlink(missing_ok=True)


def part_of(folder: Path, stem: str, process: int) -> Path:
    """Where ``write_new`` writes in the process of this number before the file takes its name."""
    return folder / f".{stem}.{process}.part"


def _taken(beside: Path, target: Path) -> bool:
    """Give a file a name that is free; False when it is not, even if it was taken only just now."""
    if target.exists():
        return False
    try:
        target.hardlink_to(beside)
    except FileExistsError:
        return False
    except OSError:
        # Some file systems know no links, so the name may be taken between asking and renaming.
        beside.rename(target)
    return True


def unwritable(target: Path, fault: OSError) -> PublishError:
    """What to say when the system refuses a file."""
    reason = fault.strerror or str(fault) or type(fault).__name__
    return PublishError(f"{target} cannot be written: {reason}; choose another place, or make room there")
