"""The program on a machine that has never seen it: built, installed elsewhere, used and looked behind.

Run it with ``python -m tests.fresh_machine`` (about two minutes). It builds the wheel from a copy of the
sources, installs it in an empty environment outside the checkout, asks every command for help, uses each one
for real, opens the window on a virtual screen, plays a lesson to its end with real keys, and looks at every
file left behind. ``--keep FOLDER`` does it all there and leaves it. Pip is asked as it is set up on the
machine; without a network give it its wheels with PIP_NO_INDEX and PIP_FIND_LINKS.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from zipfile import ZipFile

from msgspec import Struct

from tests.session.held import held
from tests.session.pilot import Pilot
from tests.virtual_screen import PATIENCE, VirtualScreen, virtual_screen
from tutor.app.files.log import FILE as LOG
from tutor.cube.position import Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_facing_lesson
from tutor.lesson.scenes import Alone, Ask, Find, Quiz, Scene
from tutor.method.answer import answer
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.interchange import format_line
from tutor.screens.lesson.questions import options
from tutor.screens.lesson.state import LESSON as PLAYED
from tutor.screens.lesson.update import settled
from tutor.solver.search import Solver
from tutor.solver.tables import LARGE_TABLES

ROOT = Path(__file__).parents[1]
SOURCES = ("tutor", "render", "lessons", "assets", "README.md", "DEVELOPERS.md", "pyproject.toml")
LICENCE = "assets/LICENSE.txt"
LESSON = "made-pair"
CASE = "corner-up-edge-left-front-up"
USES: dict[str, tuple[tuple[str, ...], ...]] = {
    "turns": (
        ("turns", "--setup", "R U R'", "--slot", "FR"),
        ("turns", "--setup", "R U R'", "--slot", "FR", "--json"),
    ),
    "explain": (("explain", "R U R'", "--slot", "FR"),),
    "cases": (("cases",), ("cases", "--json")),
    "lesson": (
        ("lesson", "new", "evening-club", "--case", CASE, "--folder", "my-lessons"),
        ("lesson", "check", "my-lessons/evening-club.toml"),
    ),
    "picture": (("picture", CASE, "--out", "case.png"),),
    "progress": (
        ("progress", "import", "ilva.jsonl"),
        ("progress", "show", "--json"),
        ("progress", "show", "--learner", "Ilva", "--csv"),
        ("progress", "export", "all.jsonl"),
        ("progress", "merge", "all.jsonl", "--into", "club.csv"),
        ("progress", "import", "club.csv"),
        ("progress", "backup"),
        ("progress", "reset", "--yes"),
    ),
    "film": (("film", CASE, "--size", "320x240", "--pace", "real", "--out", "case.gif"),),
    "sheet": (("sheet", CASE, "--out", "case.html"),),
    "checkup": (("checkup", "--json"),),
}
"""A real use of every command, in this order, with the files they make."""
MADE = {
    "ilva.jsonl",
    "my-lessons/evening-club.toml",
    "case.png",
    "all.jsonl",
    "club.csv",
    "case.gif",
    "case.html",
}


class Machine(Struct, frozen=True):
    """The folders of a machine of its own, and its environment."""

    folder: Path

    @property
    def home(self) -> Path:
        return self.folder / "home"

    @property
    def kept(self) -> Path:
        """What PAIRWRIGHT_HOME names."""
        return self.folder / "kept"

    @property
    def work(self) -> Path:
        """Where commands are run."""
        return self.folder / "work"

    @property
    def programs(self) -> Path:
        return self.folder / "venv" / "bin"

    def environment(self, display: str = "") -> dict[str, str]:
        """Nothing of the environment that this script runs in but what finds programs and packages."""
        passed = {name: value for name, value in os.environ.items() if name.startswith(("PIP_", "LC_"))}
        own = {
            "PATH": os.pathsep.join((str(self.programs), "/usr/local/bin", "/usr/bin", "/bin")),
            "HOME": str(self.home),
            "XDG_CACHE_HOME": str(self.folder / "cache"),
            "TMPDIR": str(self.folder / "tmp"),
            "PAIRWRIGHT_HOME": str(self.kept),
        }
        return passed | own | ({"DISPLAY": display} if display else {})

    def run(self, *command: str, display: str = "", status: int = 0) -> str:
        """Run a command to its end; what it printed. Raises AssertionError when it ends otherwise."""
        done = subprocess.run(
            command, cwd=self.work, env=self.environment(display), capture_output=True, text=True, check=False
        )
        assert done.returncode == status, f"{command}: {done.returncode}\n{done.stdout}{done.stderr}"
        assert "Traceback" not in done.stderr, done.stderr
        return done.stdout + (done.stderr if status else "")


def say(text: str) -> None:
    """A step that is done."""
    print(f"{time.strftime('%H:%M:%S')}  {text}", flush=True)


# -------------------------------------------------------------------------------------------------- install


BUILD = """
import os, sys
sys.path.insert(0, sys.argv[1])
from hatchling.build import build_sdist
os.chdir(sys.argv[2])
print(build_sdist(sys.argv[3]))
"""


def source_archive(machine: Machine, source: Path, *pip: str) -> Path:
    """Build the source archive by the build system's own function (PEP 517); pip has no command for it."""
    system, target = machine.folder / "wheels" / "system", machine.folder / "wheels" / "again"
    (required,) = tomllib.loads((source / "pyproject.toml").read_text("utf-8"))["build-system"]["requires"]
    machine.run(*pip, "install", "--quiet", "--target", str(system), required)
    return target / machine.run(pip[0], "-c", BUILD, str(system), str(source), str(target)).strip()


def files_in(wheel: Path) -> dict[str, bytes]:
    """What is in a wheel, by name."""
    with ZipFile(wheel) as content:
        return {name: content.read(name) for name in content.namelist()}


def install(machine: Machine) -> None:
    """Build the wheel from a copy of the sources and install it in an empty environment.

    The wheel that comes of the source archive is the same, file by file.
    """
    source = machine.folder / "source"
    ignored = shutil.ignore_patterns("__pycache__")
    for name in SOURCES:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, source / name, ignore=ignored)
        else:
            source.mkdir(exist_ok=True)
            shutil.copy(ROOT / name, source)
    for folder in (machine.home, machine.work, machine.folder / "tmp"):
        folder.mkdir()
    subprocess.run([sys.executable, "-m", "venv", str(machine.folder / "venv")], check=True)
    python, wheels = str(machine.programs / "python"), machine.folder / "wheels"
    pip = (python, "-m", "pip", "--disable-pip-version-check", "--no-cache-dir")
    machine.run(*pip, "wheel", "--quiet", "--no-deps", "--wheel-dir", str(wheels), str(source))
    (wheel,) = wheels.iterdir()
    archive = source_archive(machine, source, *pip)
    machine.run(*pip, "wheel", "--quiet", "--no-deps", "--wheel-dir", str(archive.parent), str(archive))
    assert files_in(archive.parent / wheel.name) == files_in(wheel)
    with ZipFile(wheel) as content:
        (licence,) = (name for name in content.namelist() if name.endswith(f".dist-info/licenses/{LICENCE}"))
        assert content.read(licence) == (ROOT / LICENCE).read_bytes()
    say(f"built {wheel.name}, {wheel.stat().st_size // 1024} KiB")
    machine.run(*pip, "install", "--quiet", str(wheel))
    shutil.rmtree(source)
    say(f"installed with {machine.run(*pip, 'list', '--format=freeze').count('==')} packages in all")


# ------------------------------------------------------------------------------------------------- commands


def commands_of(text: str) -> tuple[str, ...]:
    """The commands that a help text lists."""
    return tuple(re.findall(r"^    ([a-z]+)  ", text, re.MULTILINE))


def ask_for_help(machine: Machine) -> tuple[str, ...]:
    """Every command's help, and that of its own commands; their names."""
    commands = commands_of(machine.run("pairwright", "--help"))
    assert commands_of(machine.run("pairwright-window", "--help")) == commands
    count = 0
    for command in commands:
        told = machine.run("pairwright", command, "--help")
        assert told.startswith(f"usage: pairwright {command}"), told
        assert "python -m tutor" not in told, told
        for action in commands_of(told):
            assert "usage:" in machine.run("pairwright", command, action, "--help")
            count += 1
    say(f"help of {len(commands)} commands and {count} of theirs")
    return commands


def use(machine: Machine, commands: tuple[str, ...]) -> None:
    """A real use of each; those whose extras are not installed say so."""
    assert set(commands) == set(USES), f"no use is known of {set(commands) ^ set(USES)}"
    time = datetime(2026, 3, 3, 18, 30, tzinfo=UTC)
    done = AttemptRecord("Ilva", time, CASE, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 5, 5, 12.0)
    (machine.work / "ilva.jsonl").write_text(f"{format_line(done)}\n", encoding="utf-8")
    with virtual_screen() as screen:
        for command, uses in USES.items():
            for arguments in uses:
                printed = machine.run("pairwright", *arguments, display=screen.name)
                if "--json" in arguments:
                    json.loads(printed)
            say(f"used {command}")
    for name, extra in (("case.mp4", "film"), ("case.pdf", "sheet")):
        command = "film" if extra == "film" else "sheet"
        told = machine.run("pairwright", command, CASE, "--out", name, status=2)
        assert extra in told, told
        assert not (machine.work / name).exists()
    say("films as .mp4 and sheets as .pdf, which need extras, say which")
    made = {str(path.relative_to(machine.work)) for path in machine.work.rglob("*") if path.is_file()}
    assert made == MADE, made ^ MADE


# --------------------------------------------------------------------------------------------------- window


class Learner:
    """Presses the same keys in the window and in a pilot beside it, which knows what must be seen."""

    def __init__(self, screen: VirtualScreen, pilot: Pilot) -> None:
        self.screen, self.pilot = screen, pilot
        self.keys = 0

    def press(self, *keys: str) -> None:
        self.screen.press(*keys)
        self.pilot.give_keys(*keys)
        self.pilot.settle()
        self.keys += len(keys)

    def sees(self, what: str) -> None:
        """Raises AssertionError when the window does not come to look as it should."""
        self.pilot.wait(60.0)
        assert self.screen.becomes(self.pilot), f"the window does not show {what}"

    def goes_to(self, action: str) -> None:
        """Tab to a button and press it."""
        for _ in range(100):
            if self.pilot.focus == action:
                break
            self.press("tab")
        assert self.pilot.focus == action
        self.press("enter")

    @property
    def scene(self) -> Scene:
        played = PLAYED.of(self.pilot.session)
        assert played is not None
        return played.lesson.scenes[played.scene]

    def answers(self) -> None:
        """Answer whatever the scene asks, with the best there is."""
        scene = self.scene
        if isinstance(scene, Quiz | Find):
            true = next(index for index, (_, right) in enumerate(options(scene)) if right)
            self.press(str(true + 1))
        if isinstance(scene, Ask | Alone) and scene.accept:
            for turn in scene.accept[0]:
                self.press(*keys_of(turn.notation))
        while isinstance(scene, Ask | Alone) and not settled(self.pilot.session):
            assert PLAYED.of(self.pilot.session) is not None
            bearing = held(PLAYED.of(self.pilot.session)).attempt.bearing()
            assert bearing is not None
            known = self.pilot.session.answers.get(bearing.position, bearing.task)
            assert known is not None
            self.press(*keys_of(known.lines[0][0].notation))


def keys_of(turn: str) -> tuple[str, ...]:
    """The keys of a turn: its letter, with Shift for the prime, and 2 for a half turn."""
    letter = turn[0] if turn.endswith("'") else turn[0].lower()
    return (letter, "2") if turn.endswith("2") else (letter,)


@contextmanager
def program(machine: Machine, screen: VirtualScreen) -> Iterator[subprocess.Popen[str]]:
    """The installed program in its window."""
    process = subprocess.Popen(
        [str(machine.programs / "pairwright")],
        cwd=machine.work,
        env=machine.environment(screen.name),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    try:
        yield process
    finally:
        if process.poll() is None:
            process.kill()
        process.wait(PATIENCE)


def until_set_up(machine: Machine) -> None:
    """Wait for the large tables, for until then the window says how far they are, and the pilot does not."""
    tables = machine.folder / "cache" / "pairwright" / "tables"
    end = time.monotonic() + 3 * PATIENCE
    while not all((tables / f"{name}.table").is_file() for name in LARGE_TABLES):
        assert time.monotonic() < end, "the large tables are never made"
        time.sleep(0.2)


def play(machine: Machine) -> None:
    """A whole lesson with keys alone, every scene compared with what must be seen."""
    solver = Solver.open()
    lesson = load_facing_lesson(LESSON, LessonSetting(partial(answer, solver)))
    pilot = Pilot(solver, {lesson.name: lesson}, titles=True)
    with virtual_screen() as screen, program(machine, screen) as process:
        learner = Learner(screen, pilot)
        assert screen.becomes(pilot, 2 * PATIENCE), "Home never came up"
        say("the window is open, and Home is as it should be")
        until_set_up(machine)
        say("its tables are made, so it has no more to say of them")
        learner.goes_to(f"lesson:0:0:{LESSON}")
        for number, scene in enumerate(lesson.scenes):
            assert learner.scene is scene
            learner.answers()
            learner.sees(f"scene {number + 1}")
            if number + 1 < len(lesson.scenes):
                learner.press("enter")
        say(f"the lesson “{lesson.title}” is played: {number + 1} scenes, {learner.keys} keys")
        learner.press("escape")
        assert pilot.session.screen == "home"
        screen.tool("key", "ctrl+q")
        assert process.wait(PATIENCE) == 0
        assert process.stdout is not None
        told = process.stdout.read()
        assert told == "", told
    (standing,) = json.loads(machine.run("pairwright", "progress", "show", "--json"))
    wholes = [scene for scene in lesson.scenes if isinstance(scene, Alone)]
    assert standing["attempts"] >= len(wholes), standing
    say(f"{standing['attempts']} attempts of the lesson are kept")
    places = json.loads((machine.kept / "places.json").read_text("utf-8"))
    assert [LESSON, len(lesson.scenes) - 1] in [place[:2] for place in places], places


# --------------------------------------------------------------------------------------------------- traces


def look_behind(machine: Machine) -> None:
    """Every file left behind lies where it may."""
    left = {path.relative_to(machine.folder) for path in machine.folder.rglob("*") if path.is_file()}
    allowed = ("venv", "wheels", "kept")
    cached = ("cache/pairwright/", "cache/mesa_shader_cache")  # the second is the graphics driver's
    astray = {
        path
        for path in left
        if path.parts[0] not in allowed
        and not str(path).startswith(cached)
        and str(path) not in {f"work/{name}" for name in MADE}
    }
    assert not astray, f"files where none should be: {sorted(map(str, astray))}"
    assert not list(machine.home.iterdir()), "something was left in the user's own folder"
    log = machine.kept / LOG
    assert not log.exists(), log.read_text("utf-8")
    kept = sorted(str(path.relative_to(machine.kept)) for path in machine.kept.rglob("*") if path.is_file())
    tables = sum(path.suffix == ".table" for path in left)
    say(f"left behind in the folder named: {', '.join(kept)}; in the cache {tables} tables; nowhere else")


def whole(folder: Path) -> None:
    """All of it. Raises AssertionError with what is wrong."""
    folder.mkdir(parents=True, exist_ok=True)
    machine = Machine(folder)
    install(machine)
    use(machine, ask_for_help(machine))
    play(machine)
    look_behind(machine)


def main() -> int:
    """Run it from the command line."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--keep", type=Path, metavar="FOLDER", help="a new folder to do it in, and to leave")
    keep: Path | None = parser.parse_args().keep
    if keep is not None and keep.exists():
        parser.error(f"{keep} is there already")
    if keep is not None:
        whole(keep.absolute())
    else:
        with tempfile.TemporaryDirectory() as folder:
            whole(Path(folder))
    say("all as it should be")
    return 0


if __name__ == "__main__":
    sys.exit(main())
