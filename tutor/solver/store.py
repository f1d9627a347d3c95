"""Tables kept on disk: built once, checked, read by memory map and so shared between processes.

One file holds one array: a line of JSON that says what follows, padded to ``_DATA_START`` bytes, then the
raw array. A file is written beside its place, flushed to the disk and renamed, so it is whole or not there.
"""

from __future__ import annotations

import json
import math
import os
import shutil
import tempfile
import weakref
import zlib
from collections.abc import Callable
from enum import Enum
from pathlib import Path
from typing import Annotated, Any

import msgspec
import numpy as np
import platformdirs
from msgspec import Meta, Struct
from numpy.typing import NDArray

from tutor.atomic_file import HELD_WHILE_OPEN, replacing
from tutor.plain_file import is_plain, open_plain
from tutor.quoting import ToldError
from tutor.solver import words

TABLE_VERSION = 1
"""Raised whenever the meaning of any stored number changes; files of another version are built anew."""

_DATA_START = 4096
_FORMAT = "pairwright table"
_CHUNK = 1 << 22

Array = NDArray[Any]
_Count = Annotated[int, Meta(ge=1, lt=2**32)]


class _Label(Struct, forbid_unknown_fields=True):
    """The first line of a file. It has no checksum of its own, so only what tables hold is taken."""

    format: str
    version: _Count
    name: str
    type: Annotated[str, Meta(pattern=r"^(\|u1|[<>]i[48])\Z")]
    shape: Annotated[tuple[_Count, ...], Meta(max_length=3)]
    checksum: int


class NoticeKind(Enum):
    """What a notice is about."""

    DAMAGED = "damaged"
    OUTDATED = "outdated"
    READ_ONLY = "read-only"


class StoreNotice(Struct, frozen=True):
    """Something about the cache that a person may want to know; ``text`` is a finished sentence."""

    kind: NoticeKind
    table: str
    text: str


class TableError(ToldError):
    """A table file cannot be used; the message says why."""

    def __init__(self, kind: NoticeKind, reason: str) -> None:
        super().__init__(reason)
        self.kind = kind


def default_folder() -> Path:
    """The folder for tables in the user's cache folder."""
    return Path(platformdirs.user_cache_dir("pairwright", appauthor=False)) / "tables"


class Store:
    """Tables by name in a cache folder.

    When the folder cannot be written, new tables go to ``spare``, a temporary folder that this store removes
    when it is no longer used; pass the same ``spare`` to share it with another process. When not even that
    can be written, tables stay in memory.
    """

    def __init__(self, folder: Path | None = None, spare: Path | None = None) -> None:
        self.folder = default_folder() if folder is None else Path(folder)
        self.spare = spare
        self.notices: list[StoreNotice] = []
        self._made_spare = False

    def load(self, name: str) -> Array | None:
        """The table as a read-only memory map, or None when it is missing or unusable (a notice says why)."""
        for folder in (self.folder, self.spare):
            if folder is None:
                continue
            try:
                return read_table(folder / f"{name}.table", name, mapped=self._may_map(folder))
            except (FileNotFoundError, NotADirectoryError):
                continue
            except (OSError, TableError) as error:
                kind = error.kind if isinstance(error, TableError) else NoticeKind.DAMAGED
                self.notices.append(StoreNotice(kind, name, words.table_replaced(name, _reason(error))))
        return None

    def has(self, name: str) -> bool:
        """Whether there is a file for the table; it is not looked into."""
        return any(is_plain(folder / f"{name}.table") for folder in (self.folder, self.spare) if folder)

    def save(self, name: str, table: Array) -> Array:
        """Keep a table; gives it back as a memory map, or as it was when nothing can be written."""
        for folder in (self.folder, self.writable_spare()):
            if folder is None:
                continue
            path = folder / f"{name}.table"
            try:
                write_table(path, name, table)
                return read_table(path, name, check=False, mapped=self._may_map(folder))
            except OSError as error:
                if (taken := _taken(path, name)) is not None:
                    return taken
                self._say_read_only(name, error)
        return table

    def _may_map(self, folder: Path) -> bool:
        """Not what this store is to remove in the end, where what is mapped cannot be removed."""
        return not (HELD_WHILE_OPEN and self._made_spare and folder == self.spare)

    def get(self, name: str, build: Callable[[], Array]) -> Array:
        """The stored table, or else the one that ``build`` makes, which is then kept."""
        stored = self.load(name)
        return self.save(name, build()) if stored is None else stored

    def writable_spare(self) -> Path | None:
        """The temporary folder, made when first asked for; None while the cache folder can be written."""
        if self.spare is None and not _writable(self.folder):
            try:
                self.spare = Path(tempfile.mkdtemp(prefix="pairwright-tables-"))
            except OSError:
                return None
            self._made_spare = True
            weakref.finalize(self, shutil.rmtree, self.spare, ignore_errors=True)
        return self.spare

    def _say_read_only(self, name: str, error: OSError) -> None:
        if not any(notice.kind is NoticeKind.READ_ONLY for notice in self.notices):
            text = words.tables_not_saved(self.folder, _reason(error))
            self.notices.append(StoreNotice(NoticeKind.READ_ONLY, name, text))


def _taken(path: Path, name: str) -> Array | None:
    """The table of another process that started at the same time, which holds its file; None without one."""
    try:
        return read_table(path, name)
    except (OSError, TableError):
        return None


def _reason(error: Exception) -> str:
    """What went wrong, without the number and the path that the system puts around it."""
    return (error.strerror if isinstance(error, OSError) else None) or str(error)


def _writable(folder: Path) -> bool:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def write_table(path: Path, name: str, table: Array) -> None:
    """Write a table whole or not at all. Raises OSError when the folder cannot be written."""
    path.parent.mkdir(parents=True, exist_ok=True)
    data = np.ascontiguousarray(table)
    raw = data.reshape(-1).view(np.uint8)
    label = _Label(_FORMAT, TABLE_VERSION, name, data.dtype.str, data.shape, zlib.crc32(raw.data))
    head = json.dumps(msgspec.structs.asdict(label)).encode("ascii") + b"\n"
    with replacing(path, on_disk=True) as beside, beside.open("wb") as file:
        file.write(head.ljust(_DATA_START, b" "))
        file.write(raw.data)


def read_table(path: Path, name: str, *, check: bool = True, mapped: bool = True) -> Array:
    """A stored table as a read-only memory map, or in memory; ``check`` compares the checksum.

    Raises FileNotFoundError when there is none and TableError when it is damaged or of another version.
    """
    with open_plain(path) as file:
        label = _read_label(file.read(_DATA_START), name)
        kind, shape = np.dtype(label.type), label.shape
        size = _DATA_START + math.prod(shape) * kind.itemsize
        actual = os.fstat(file.fileno()).st_size
        if actual != size:
            raise TableError(NoticeKind.DAMAGED, words.wrong_size(actual, size))
        if check and _checksum(file) != label.checksum:
            raise TableError(NoticeKind.DAMAGED, words.WRONG_CHECKSUM)
        if not mapped:
            file.seek(_DATA_START)
            return np.fromfile(file, dtype=kind).reshape(shape)
        table: Array = np.memmap(file, dtype=kind, mode="r", offset=_DATA_START, shape=shape)
    # A plain array over the same map: look-ups in a subclass of ndarray cost several times as much.
    return table.view(np.ndarray)


def _read_label(head: bytes, name: str) -> _Label:
    try:
        label = msgspec.json.decode(head, type=_Label)
    except (msgspec.MsgspecError, UnicodeDecodeError) as error:
        raise TableError(NoticeKind.DAMAGED, words.FIRST_LINE) from error
    if label.format != _FORMAT or label.name != name:
        raise TableError(NoticeKind.DAMAGED, words.ANOTHER_TABLE)
    if label.version != TABLE_VERSION:
        raise TableError(NoticeKind.OUTDATED, words.wrong_version(label.version, TABLE_VERSION))
    if not np.dtype(label.type).isnative:
        raise TableError(NoticeKind.DAMAGED, words.FIRST_LINE)
    return label


def _checksum(file: Any) -> int:
    """The checksum of the data, read piece by piece so that the whole never sits in memory."""
    checksum = 0
    file.seek(_DATA_START)
    while piece := file.read(_CHUNK):
        checksum = zlib.crc32(piece, checksum)
    return checksum
