"""The small files by which windows on a shared folder tell what their learners are at."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import msgspec
from msgspec import Struct

from tutor.atomic_file import replacing
from tutor.plain_file import read_plain
from tutor.progress.attempt import GUEST
from tutor.progress.names import same_learner
from tutor.progress.presence import LEFT_SECONDS, Presence
from tutor.progress.shared_folder import files_of_windows, name_for_a_window

ENDING = ".now.json"
"""How the names of these files end."""
TELL_SECONDS = 15.0
"""That something was pressed is told so often at most; everything else at once."""
_LONGEST = 4096
"""Bytes of such a file; a presence has a tenth."""
_DECODER, _ENCODER = msgspec.json.Decoder(Presence), msgspec.json.Encoder()


class _Seen(Struct, frozen=True):
    """A presence as it was read, at ``when`` by this window's clock, and the state of its file then."""

    signature: tuple[int, int, int]
    told: Presence | None
    when: float


class PresenceFiles:
    """The presence files of one folder, seen from one window. Use it from one thread at a time."""

    def __init__(self, folder: Path) -> None:
        """Nothing is read or written yet."""
        self._folder = folder
        self._own = name_for_a_window(ENDING)
        self._told: tuple[Presence, float] | None = None
        self._seen: dict[str, _Seen] = {}
        self._looked = False

    def tell(self, presence: Presence, now: float) -> None:
        """Write what the learner here is at, unless the others know it. Raises OSError.

        Of the guest nothing is told.
        """
        if same_learner(presence.learner, GUEST):
            self.leave()
            return
        if self._told is not None and (self._folder / self._own).exists():
            told, when = self._told
            passed = now - when
            # Whoever is at the same thing again has begun it since.
            same = presence.same_but_for_time(told) and presence.since >= passed
            if same and (presence.idle >= passed or passed < TELL_SECONDS):
                return
        # Some systems do not replace a file while another window reads it: that is tried again.
        with suppress(PermissionError):
            with replacing(self._folder / self._own) as beside:
                beside.write_bytes(_ENCODER.encode(presence))
            self._told = presence, now

    def others(self, wall: float, now: float) -> Iterator[Presence]:
        """What the learners at the other windows are at, as it is now. Raises OSError.

        ``wall`` and ``now`` are the time of day and this window's clock, both in seconds. Clocks of two
        machines may differ, so a change counts from when it was seen here; only what was there before this
        window looked counts by the time that its file says.
        """
        there = {name: status for name, status in files_of_windows(self._folder, ENDING) if name != self._own}
        first, self._looked = not self._looked, True
        for name, status in there.items():
            signature = status.st_ino, status.st_size, status.st_mtime_ns
            known = self._seen.get(name)
            if known is None or known.signature != signature:
                told = self._read(name)
                passed = max(0.0, wall - told.time.timestamp()) if told is not None and first else 0.0
                known = self._seen[name] = _Seen(signature, told, now - passed)
            if known.told is not None:
                yield known.told.after(min(now - known.when, 2 * LEFT_SECONDS))
        for name in self._seen.keys() - there.keys():
            del self._seen[name]

    def leave(self) -> None:
        """Tell the others that nobody sits here any more, if the folder is there."""
        self._told = None
        with suppress(OSError):
            (self._folder / self._own).unlink(missing_ok=True)

    def _read(self, name: str) -> Presence | None:
        """What a file tells; None while it is not whole, or is none of ours."""
        try:
            return _DECODER.decode(read_plain(self._folder / name, _LONGEST))
        except (OSError, msgspec.DecodeError, ValueError, RecursionError):
            return None
