from __future__ import annotations

import threading
from dataclasses import dataclass, field

from tutor.app.written_beside import WrittenBeside
from tutor.session.commands import Command, Notice


@dataclass
class Disk:
    """Writes down what it is given, and only while it is let."""

    slow: threading.Event = field(default_factory=threading.Event)
    written: list[object] = field(default_factory=list)
    threads: set[str] = field(default_factory=set)

    def write(self, what: object) -> tuple[Command, ...]:
        assert self.slow.wait(10.0)
        self.threads.add(threading.current_thread().name)
        self.written.append(what)
        return (Notice("no room"),) if what == "too long" else ()


def test_of_what_waits_the_latest_of_each_kind_is_written_and_nothing_is_left_at_the_end() -> None:
    disk = Disk()
    files = WrittenBeside(disk.write)
    for what in (1, 2, 3, "a", 4, "b", "c"):
        files.begin(what)
    assert disk.written == []
    disk.slow.set()
    files.close()
    # The first was being written when the others came.
    assert [what for what in disk.written if isinstance(what, int)] in ([1, 4], [4])
    assert [what for what in disk.written if isinstance(what, str)] == ["c"]
    assert threading.current_thread().name not in disk.threads


def test_what_went_wrong_is_told_when_asked() -> None:
    disk = Disk()
    files = WrittenBeside(disk.write)
    files.begin("too long")
    assert list(files.poll()) == []
    disk.slow.set()
    files.close()
    assert list(files.poll()) == [Notice("no room")]
    assert list(files.poll()) == []
