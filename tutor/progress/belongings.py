"""What a learner has beside the attempts: a folder of their own, which follows a rename, join or removal.

The folder and the file of attempts cannot change in one moment. So a note of what is to happen is written
first; should the program end in between, the next one finds the note and finishes or drops it.
"""

from __future__ import annotations

import hashlib
import logging
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from uuid import uuid4

import msgspec

from tutor.atomic_file import tidy_away, write_whole
from tutor.plain_file import read_plain
from tutor.progress import words
from tutor.progress.names import folded

FOLDER = "learners"
_LETTERS, _DIGITS = 20, 12
_LARGEST_NOTE = 64 * 1024
log = logging.getLogger(__name__)


class FolderMove(msgspec.Struct, frozen=True):
    """All that ``old`` has goes to the folder ``to``: another learner's, or one beside a backup."""

    old: str
    to: str


class Belongings:
    """The folders of all learners, in the folder of the attempts."""

    def __init__(self, data_folder: Path) -> None:
        """Touches nothing."""
        self._folder = data_folder / FOLDER

    def of(self, learner: str) -> Path:
        """The folder of a learner, which need not be there; the same for all ways to write the name."""
        name = folded(learner)
        # Letters for people; the digits keep apart what no file name can.
        letters = "".join(letter for letter in name if letter.isascii() and letter.isalnum())[:_LETTERS]
        digits = hashlib.sha256(name.encode("utf-8", "surrogatepass")).hexdigest()[:_DIGITS]
        return self._folder / f"{letters or 'learner'}-{digits}"

    @contextmanager
    def following(self, change: FolderMove) -> Iterator[None]:
        """The learner's folder follows when the block has changed the attempts, and stays when it fails.

        What cannot be moved now is moved when the program next starts.
        """
        if not self.of(change.old).exists():
            yield
            return
        note = self._folder / f"change-{uuid4().hex}.json"
        write_whole(note, msgspec.json.encode(change))
        try:
            yield
        except BaseException:
            tidy_away(note)
            raise
        self._finish(note, change)

    def settle(self, is_there: Callable[[str], bool]) -> None:
        """Finish what a program that was ended left half done.

        ``is_there`` says whether the file of attempts still has the learner; then nothing had changed.
        """
        try:
            notes = sorted(self._folder.glob("change-*.json"))
        except OSError as error:
            log.warning("%s", words.belongings_not_moved(str(error)))
            return
        for note in notes:
            try:
                change = msgspec.json.decode(read_plain(note, _LARGEST_NOTE), type=FolderMove)
            except (OSError, msgspec.MsgspecError, UnicodeDecodeError) as error:
                log.warning("%s", words.belongings_not_moved(str(error)))
                continue
            if is_there(change.old):
                tidy_away(note)
            else:
                self._finish(note, change)

    def bring_back(self, learner: str, aside: Path) -> None:
        """Give a learner what was put beside a backup. Raises OSError."""
        move_into(aside, self.of(learner))

    def _finish(self, note: Path, change: FolderMove) -> None:
        try:
            move_into(self.of(change.old), Path(change.to))
            tidy_away(note)
        except OSError as error:
            log.warning("%s", words.belongings_not_moved(str(error)))


def beside(copy: Path) -> Path:
    """The folder beside a backup for what a removed learner had beside the attempts."""
    return copy.with_suffix("")


def move_into(source: Path, target: Path) -> None:
    """Move all files of a folder into another, none over one that is there. Raises OSError."""
    if source == target or not source.exists():
        return
    for path in sorted(source.rglob("*")):
        if path.is_dir():
            continue
        move_into_place(path, target / path.relative_to(source))
    shutil.rmtree(source)


def move_into_place(path: Path, place: Path) -> None:
    """Move a file to a place, or, where something is there, beside it. Raises OSError."""
    place.parent.mkdir(parents=True, exist_ok=True)
    shutil.move(path, _free(place))


def _free(place: Path) -> Path:
    """The place, or where something is there, the first with a number that is free."""
    free, number = place, 1
    while free.exists():
        number += 1
        free = place.with_name(f"{place.stem}-{number}{place.suffix}")
    return free
