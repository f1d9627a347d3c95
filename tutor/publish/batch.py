"""Many files into one folder, films in several processes, and where a run was ended going on from there.

The folder keeps a list of what was made (``films.json``, ``sheets.json``). A film or a sheet is kept when the
list says that it was made by the same recipe and its content is still what it was. An entry is made before
its file takes its name, so a file without an entry is somebody else's. Of several runs into one folder each
waits for the one before.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import Executor, as_completed
from contextlib import contextmanager
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Generic, Protocol, TypeVar

from msgspec import Struct
from PIL import Image

from tutor.atomic_file import put_in_place, tidy_away
from tutor.cube.notation import format_moves
from tutor.plain_file import read_plain
from tutor.publish import words
from tutor.publish.cinema import MP4, encode_film
from tutor.publish.encode_gif import shared_palette
from tutor.publish.encode_mp4 import first_of_mp4
from tutor.publish.files import PublishError, unwritable, write_bytes
from tutor.publish.film import FilmPace, Passage, film_of
from tutor.publish.lettering import Inks
from tutor.publish.subject import Draw, Shot

LIST, SHEETS = "films.json", "sheets.json"
_RECIPES = 2
"""Raised when films of the same recipe come to look different."""
_PART = ".films.part"
"""How the names of films end that a run is making; other programs' parts are named otherwise."""
POSTER_SIZE = (480, 360)
_LARGEST_LIST = 16 * 2**20


class Clip(Struct, frozen=True):
    """A film to be made; ``name`` is its file's, whose end says the format."""

    name: str
    passage: Passage
    shot: Shot
    inks: Inks
    pace: FilmPace = FilmPace.BOTH
    speed: float = 1.0
    rate: int = 25
    captions: bool = True

    @property
    def recipe(self) -> str:
        """What tells films apart that would not look the same."""
        passage = self.passage
        turns = [
            (format_moves(piece.turns), piece.step, piece.text, piece.said, piece.slip)
            for piece in passage.pieces
        ]
        task = passage.subject.task
        parts = (
            _RECIPES, passage.subject.title, passage.subject.cube.colours, passage.opening, passage.ending,
            turns, passage.first, passage.last, self.captions,
            task and (task.slot.name, sorted(slot.name for slot in task.keep)),
            self.shot, self.inks, self.pace.value, self.speed, self.rate,
        )  # fmt: skip
        return sha256(repr(parts).encode()).hexdigest()


def make_clip(clip: Clip, beside: Path, draw: Draw) -> str:
    """Write a clip to a path and return the digest of its content. Raises PublishError."""
    try:
        film = film_of((clip.passage,), clip.shot, clip.pace, clip.speed, clip.rate)
        encode_film(beside, Path(clip.name).suffix, film, draw, clip.inks, captions=clip.captions)
        return _digest(beside)
    except OSError as fault:
        tidy_away(beside)
        raise unwritable(beside.with_name(clip.name), fault) from fault
    except BaseException:
        tidy_away(beside)
        raise


@contextmanager
def alone_in(path: Path, waits: Callable[[], None]) -> Iterator[None]:
    """Only one run at a time is in this block for a folder, which is made if need be.

    ``waits`` is called when another run has to end first. What a run left that was killed is cleared. Where
    the system cannot lock a folder nobody waits, and nothing is cleared, since it may be a living run's.
    Raises PublishError when the folder cannot be made.
    """
    if path.exists() and not path.is_dir():
        raise PublishError(words.is_file(str(path)))
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise unwritable(path, fault) from fault
    with _locked(path, waits) as alone:
        if alone:
            for left in path.glob(f".*{_PART}"):
                tidy_away(left)
        yield


@contextmanager
def _locked(folder: Path, waits: Callable[[], None]) -> Iterator[bool]:
    """Whether a lock on the folder holds in this block, if need be once another process lets go of it.

    The lock ends with the process, however that ends (man 2 flock).
    """
    if sys.platform == "win32":
        yield False
        return
    import fcntl

    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError as fault:
        raise unwritable(folder, fault) from fault
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            waits()
            fcntl.flock(handle, fcntl.LOCK_EX)
        except OSError:
            # Some file systems of other machines know no such locks.
            yield False
            return
        yield True
    finally:
        os.close(handle)


class Item(Protocol):
    """What becomes one file of a folder: its name, and a recipe that tells it from what looks otherwise."""

    @property
    def name(self) -> str:
        """The file's name."""

    @property
    def recipe(self) -> str:
        """Another one for whatever would not look the same."""


Made = TypeVar("Made", bound=Item)


class Folder(Generic[Made]):
    """The folder that the films or sheets go to, with its list."""

    def __init__(self, path: Path, clips: Iterable[Made], *, force: bool = False, listed: str = LIST) -> None:
        """See what is there. Raises PublishError when, without ``force``, a file is in the way."""
        self.path, self.clips, self._file = path, tuple(clips), path / listed
        self._list = self._read_list()
        self.missing = tuple(clip for clip in self.clips if not self._is_sound(clip))
        in_the_way = [clip.name for clip in self.missing if os.path.lexists(path / clip.name)]
        if in_the_way and not force:
            raise PublishError(words.other_films(str(path / in_the_way[0]), len(in_the_way) - 1))

    @property
    def finished(self) -> int:
        """How many of the films are there as they should be."""
        return sum(self._is_sound(clip) for clip in self.clips)

    def beside(self, clip: Made) -> Path:
        """Where a clip is written before it takes its name."""
        return self.path / f".{clip.name}.{os.getpid()}{_PART}"

    def take(self, clip: Made, digest: str) -> None:
        """Give a finished clip its name, and the list an entry. Raises PublishError."""
        self._list[clip.name] = {"recipe": clip.recipe, "content": digest}
        try:
            content = json.dumps(self._list, indent=1, sort_keys=True).encode()
            write_bytes(self._file, content, force=True)
            put_in_place(self.beside(clip), self.path / clip.name)
        except OSError as fault:
            tidy_away(self.beside(clip))
            raise unwritable(self.path / clip.name, fault) from fault

    def _read_list(self) -> dict[str, dict[str, str]]:
        try:
            read = json.loads(read_plain(self._file, _LARGEST_LIST))
        except (OSError, ValueError):
            return {}
        return read if isinstance(read, dict) else {}

    def _is_sound(self, clip: Made) -> bool:
        entry = self._list.get(clip.name)
        file = self.path / clip.name
        if not isinstance(entry, dict) or entry.get("recipe") != clip.recipe or not file.is_file():
            return False
        return entry.get("content") == _digest(file)


def make_missing(
    folder: Folder[Clip],
    make: Callable[[Clip, Path], str],
    workers: Executor,
    end_workers: Callable[[], None] = lambda: None,
) -> Generator[Clip]:
    """Make what is missing; each clip comes when it is finished. ``make`` runs in the workers.

    Raises PublishError when one cannot be made; those already begun are finished first. When the process is
    asked to end, ``end_workers`` breaks them off.
    """
    waiting = {workers.submit(make, clip, folder.beside(clip)): clip for clip in folder.missing}
    try:
        for done in as_completed(waiting):
            folder.take(waiting[done], done.result())
            yield waiting[done]
    except (KeyboardInterrupt, GeneratorExit):
        end_workers()
        raise
    finally:
        workers.shutdown(cancel_futures=True)
        for clip in folder.clips:
            tidy_away(folder.beside(clip))


def write_item(folder: Folder[Made], item: Made, content: bytes) -> None:
    """Write the file of an item whole, with its entry. Raises PublishError."""
    beside = folder.beside(item)
    try:
        beside.write_bytes(content)
        folder.take(item, _digest(beside))
    except OSError as fault:
        raise unwritable(folder.path / item.name, fault) from fault
    finally:
        tidy_away(beside)


def poster(file: Path) -> bytes:
    """The first picture of a film, small, as PNG."""
    image = first_of_mp4(file) if file.suffix.lower() == MP4 else _first(file)
    image.thumbnail(POSTER_SIZE)
    written = BytesIO()
    image.quantize(palette=shared_palette([image])).save(written, "PNG")
    return written.getvalue()


def _first(file: Path) -> Image.Image:
    with Image.open(file) as film:
        image = Image.new("RGB", film.size)
        image.paste(film.convert("RGB"))
    return image


def _digest(file: Path) -> str:
    with file.open("rb") as content:
        return sha256(content.read()).hexdigest()
