"""Handouts as files: what may be written where, and what is said when the system refuses."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tutor.atomic_file import creating, replacing
from tutor.publish import words
from tutor.quoting import ToldError


class PublishError(ToldError):
    """A handout that cannot be made; the message is one sentence that says what would be right."""


def check_target(target: Path, *, force: bool) -> None:
    """Raise PublishError when ``target`` cannot become a file: it is there already, or has no folder.

    A link is there already wherever it leads. With ``force`` a file that is there may be replaced.
    """
    if target.is_dir():
        raise PublishError(words.is_folder(str(target)))
    if not force and os.path.lexists(target):
        raise _there_already(target)
    if not target.parent.is_dir():
        raise PublishError(words.no_folder(str(target.parent)))


@contextmanager
def written(target: Path, *, force: bool = False) -> Iterator[Path]:
    """A path beside ``target`` to write to; at the end of the block it takes the target's name.

    When the block fails, nothing is left, and a file that was at the target stays as it was. Raises
    PublishError when the target must not be written (see ``check_target``) or the system refuses it.
    """
    check_target(target, force=force)
    try:
        with (replacing if force else creating)(target) as beside:
            yield beside
    except FileExistsError:
        raise _there_already(target) from None
    except OSError as fault:
        raise unwritable(target, fault) from fault


def write_bytes(target: Path, content: bytes, *, force: bool = False) -> None:
    """Write a whole file. Raises PublishError as ``written`` does."""
    with written(target, force=force) as beside:
        beside.write_bytes(content)


def _there_already(target: Path) -> PublishError:
    return PublishError(words.already_there(str(target)))


def unwritable(target: Path, fault: OSError) -> PublishError:
    """What to say when the system refuses a file."""
    reason = fault.strerror or str(fault) or type(fault).__name__
    return PublishError(words.not_written(str(target), reason))
