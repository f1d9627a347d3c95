"""Minutes of random real input: the program in its window on a virtual screen, pressed by xdotool."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import chain, product
from pathlib import Path
from random import Random

from tests.virtual_screen import KEYSYMS, PATIENCE, VirtualScreen
from tutor.app.files.log import FILE as LOG_FILE
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import AttemptRecord, Mode, Outcome, now_utc
from tutor.progress.backup import FILE, is_sound
from tutor.progress.store import AttemptStore

MOST_GROWTH = 96.0
"""MiB by which the program's own process may grow from the second quarter of the time to its end."""
MOST_HELD = 768.0
"""MiB that it and all processes it started hold at most together, at any time."""
SIZES = ((960, 640), (1280, 800), (1600, 1000), (320, 240), (1024, 700))
LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789"
NAMED = (*KEYSYMS.values(), "space", "slash", "minus", "equal", "comma", "period", "apostrophe")
WRITTEN = ("R U R'", "(R U2)3", "x y' Rw", "nonsense", "Ilva", "3, 14", "9-7; 41", "slipping", "made-pair")
BEGINNINGS = ((), (), ("--board", "3, 14-16"), ("--board", "slipping"), ("--board", "three-turn-join"))
"""What the program is started with."""
NAMES = ("Ilva", "Bastian", "Meret")


@dataclass
class Pressing:
    """What was done to the window so far, and how large the program has become."""

    folder: Path
    seed: int
    done: int = 0
    starts: int = 0
    kinds: Counter[str] = field(default_factory=Counter)
    own: list[float] = field(default_factory=list)
    """MiB of the program's own process, about every ten seconds of its run."""
    held: list[float] = field(default_factory=list)
    """The same with all processes that it started: one comes with the first advice, one with each clip."""

    def __post_init__(self) -> None:
        self.random = Random(self.seed)
        self._visits = self.folder / "visits.txt"
        # A group that has practised, so that its screens have something to show.
        with AttemptStore.open(self.folder) as store:
            for name, case in product(NAMES, CASES[:5]):
                outcome = self.random.choice((Outcome.SOLVED, Outcome.GIVEN_UP))
                store.record(
                    AttemptRecord(name, now_utc(), case.slug, Slot.FR, 0, Mode.TODAY, outcome, 5, 5, 9.0)
                )

    @property
    def screens(self) -> Counter[str]:
        """How often each screen came."""
        return Counter(self._visits.read_text("utf-8").splitlines())

    def go(
        self,
        screen: VirtualScreen,
        seconds: float,
        tell: Callable[[str], None] = lambda _: None,
        least: int = 0,
    ) -> None:
        """Press for so long, on a slow machine until there were so many inputs.

        A program that was closed is started again. Raises AssertionError.
        """
        end = time.monotonic() + seconds
        while time.monotonic() < end or self.done < least:
            process = self._start(screen)
            try:
                self._until(screen, process, end, tell, least)
                self._leave(screen, process)
            finally:
                if process.poll() is None:
                    process.kill()
                process.wait(PATIENCE)
            self.check_files()

    def _start(self, screen: VirtualScreen) -> subprocess.Popen[bytes]:
        own = {"PAIRWRIGHT_HOME": str(self.folder), "HOME": str(self.folder)}
        command = [sys.executable, "-m", "tests.soak.watched", str(self._visits)]
        begun = self.random.choice(BEGINNINGS)
        process = subprocess.Popen([*command, *begun], env=screen.environment | own)
        self.starts += 1
        screen.tool("search", "--sync", "--onlyvisible", "--name", "Pairwright")
        return process

    def _until(
        self,
        screen: VirtualScreen,
        process: subprocess.Popen[bytes],
        end: float,
        tell: Callable[[str], None],
        least: int,
    ) -> None:
        """Press until the time is over, with so many inputs, or the program has been closed."""
        look = time.monotonic() + 10.0
        while ((now := time.monotonic()) < end or self.done < least) and process.poll() is None:
            if now >= look:
                look = now + 10.0
                self._weigh(process.pid)
                held = f"{self.own[-1]:.0f} MiB, {self.held[-1]:.0f} with all it started"
                tell(f"{self.done} inputs, {self.starts} starts, {held}")
            try:
                screen.tool(*self._some())
            except subprocess.CalledProcessError:
                # The window may have gone between the question and the answer.
                time.sleep(0.5)
            self.done += 1
            time.sleep(0.02)

    def _weigh(self, process: int) -> None:
        own, *others = (held_by(number) for number in family(process))
        self.own.append(own)
        self.held.append(own + sum(others))

    def _leave(self, screen: VirtualScreen, process: subprocess.Popen[bytes]) -> None:
        """The program still answers: it can be closed, and ends well."""
        if process.poll() is None:
            # Without a window manager, keys go to the window under the pointer.
            inside = ("mousemove", "40", "40")
            screen.tool(*inside, "key", "Escape", "key", "Escape", "key", "Escape", "key", "ctrl+q")
        status = process.wait(PATIENCE)
        assert status == 0, f"the program ended with {signal.Signals(-status).name if status < 0 else status}"

    def _some(self) -> tuple[str, ...]:
        """A few inputs of one kind, as words for xdotool."""
        random = self.random
        kind = random.choices(
            ("key", "turns", "text", "click", "drag", "wheel", "size", "home"), (30, 20, 3, 25, 6, 3, 1, 3)
        )[0]
        self.kinds[kind] += 1
        match kind:
            case "key":
                return "key", self._key()
            case "turns":
                return (
                    "key",
                    "--delay",
                    "30",
                    *(random.choice(("", "shift+")) + random.choice("udlrfb") for _ in "123"),
                )
            case "text":
                return "key", "slash", "type", "--delay", "20", random.choice(WRITTEN)
            case "click":
                return "mousemove", *self._point(), "click", "1"
            case "drag":
                return (
                    "mousemove",
                    *self._point(),
                    "mousedown",
                    "1",
                    "mousemove",
                    *self._point(),
                    "mouseup",
                    "1",
                )
            case "home":
                # From there, whatever a person comes to with Tab, also behind what comes first.
                ways = [[*["Tab"] * random.randrange(1, 60), "Return"] for _ in range(random.randrange(1, 3))]
                return "key", *["Escape"] * 3, *chain.from_iterable(ways)
            case "wheel":
                return "mousemove", *self._point(), "click", "--repeat", "3", random.choice("45")
            case _:
                width, height = random.choice(SIZES)
                name = ("search", "--onlyvisible", "--name", "Pairwright")
                return (*name, "windowsize", str(width), str(height))

    def _key(self) -> str:
        random = self.random
        key = random.choice(LETTERS) if random.random() < 0.5 else random.choice(NAMED)
        held = random.choice(("", "", "", "", "shift+", "ctrl+"))
        # Closed now and then, but not so often that nothing else happens.
        return key if held == "ctrl+" and key == "q" and random.random() < 0.8 else f"{held}{key}"

    def _point(self) -> tuple[str, str]:
        return str(self.random.randrange(1300)), str(self.random.randrange(820))

    def check_files(self) -> None:
        """No exception was written down, and the store is sound."""
        log = self.folder / LOG_FILE
        assert not log.exists() or " ERROR " not in log.read_text("utf-8"), log.read_text("utf-8")
        store = self.folder / FILE
        assert not store.exists() or is_sound(store, thorough=True)

    def growth(self) -> float:
        """MiB by which the program's own process grew from the second quarter of the time to the last."""
        quarter = max(1, len(self.own) // 4)
        return min(self.own[-quarter:]) - min(self.own[quarter : 2 * quarter + 1])


def family(process: int) -> Iterator[int]:
    """The process and all that it started, and those started."""
    yield process
    # Each thread has the list of those that it started (proc(5)).
    for listed in Path(f"/proc/{process}/task").glob("*/children"):
        with suppress(OSError):
            for child in listed.read_text().split():
                yield from family(int(child))


def held_by(process: int) -> float:
    """MiB that a process holds; what it shares with others counts in part (proc(5), Pss)."""
    try:
        lines = Path(f"/proc/{process}/smaps_rollup").read_text().splitlines()
    except OSError:
        return 0.0
    return sum(int(line.split()[1]) for line in lines if line.startswith("Pss:")) / 1024
