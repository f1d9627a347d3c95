"""The command line as a script meets it: output and exit status.

Whatever hangs on the process, such as pipes and encodings, is tried with real ones; what hangs on the
arguments alone is told in this process. ``tests/test_readme.py`` starts every command.
"""

import io
import json
import os
import re
import select
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import pytest

from tutor.app.cli.command_line import main
from tutor.app.cli.program_name import as_called
from tutor.method.cases import CASES

ROOT = Path(__file__).parents[3]
LINE = """{"setup": "R U R'", "slot": "FR"}\n"""
Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def run() -> Run:
    def running(*arguments: str, given: str = "", **variables: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "tutor", *arguments],
            cwd=ROOT,
            env=os.environ | variables,
            input=given,
            capture_output=True,
            encoding="utf-8",
            check=False,
        )

    return running


@pytest.fixture
def tell(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """What ``python -m tutor`` would do, told in this process."""
    monkeypatch.setattr(sys, "argv", [str(ROOT / "tutor" / "__main__.py")])

    def telling(*arguments: str, given: str = "") -> subprocess.CompletedProcess[str]:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given.encode())))
        try:
            status = main(arguments)
        except SystemExit as end:
            status = int(str(end.code))
        written = capsys.readouterr()
        return subprocess.CompletedProcess(arguments, status, written.out, written.err)

    return telling


@pytest.fixture
def opened() -> Callable[..., subprocess.Popen[bytes]]:
    def opening(*arguments: str) -> subprocess.Popen[bytes]:
        return subprocess.Popen(
            [sys.executable, "-m", "tutor", *arguments],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )

    return opening


def test_json_stands_alone_on_standard_output(run: Run) -> None:
    done = run("turns", "--setup", "R U R'", "--slot", "FR", "--keep", "FL,BL,BR", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["distance"] == 3


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("turns",), "write a setup and a slot, for instance"),
        (("turns", "--setup", "R"), "write a setup and a slot, for instance"),
        (("turns", "--slot", "FR"), "write a setup and a slot, for instance"),
        (("turns", "--setup", "R M", "--slot", "FR"), "column 3, “M”: the standard has no slice turns"),
        (("turns", "--setup", "R", "--slot", "UF"), "“UF” is not a slot; write FR, FL, BL or BR"),
        (
            ("turns", "--setup", "R", "--slot", "FR", "--keep", "FR"),
            "FR is the slot to solve, so you cannot keep it",
        ),
        (("turns", "--setup", "x", "--slot", "FR"), "the cross is in front, and it must be down; write"),
        (
            ("turns", "--batch", "--slot", "FR"),
            "--batch reads the setup, slot and keep from the lines of standard input",
        ),
        (("turns", "--set", "R"), "unrecognized arguments: --set R"),
        (("turns", "--setup"), "--setup: expected one argument"),
        (("cases", "all"), "unrecognized arguments: all"),
        (("solve",), "invalid choice: 'solve' (choose from"),
        (("--colour",), "unrecognized arguments: --colour"),
    ],
)
def test_wrong_arguments_get_one_sentence_and_status_2(
    tell: Run, arguments: tuple[str, ...], said: str
) -> None:
    done = tell(*arguments)
    assert done.returncode == 2
    assert done.stdout == ""
    assert said in done.stderr
    assert done.stderr.startswith("python -m tutor")
    assert done.stderr.count("\n") == 1


@pytest.mark.parametrize(
    ("arguments", "command", "said"),
    [
        (("sheet", "--colums", "3", "--out", "q.pdf"), " sheet", "--colums (did you mean --columns?)"),
        (("progress", "assign", "--lerner", "Ilva"), " progress assign", "Ilva (did you mean --learner?)"),
        (("--bord=3",), "", "--bord=3 (did you mean --board?)"),
        (("cases", "--lessons", "mine"), "", "--lessons goes before the command"),
        (("cases", "--shared", "mine"), "", "--shared is for the window, which opens without a command"),
    ],
)
def test_a_mistyped_option_names_the_one_meant_and_the_help_that_lists_it(
    tell: Run, arguments: tuple[str, ...], command: str, said: str
) -> None:
    told = tell(*arguments).stderr
    assert told.startswith(f"python -m tutor{command}: ")
    assert f"{said}; type “python -m tutor{command} --help”" in told


def test_a_batch_tells_bad_lines_by_status_1(tell: Run) -> None:
    done = tell("turns", "--batch", given=LINE + "nonsense\n" + LINE)
    assert (done.returncode, done.stderr) == (1, "")
    first, second, third = map(json.loads, done.stdout.splitlines())
    assert first == third
    assert first["distance"] == 3
    assert second["error"].startswith("line 2: ")
    assert tell("turns", "--batch", given=LINE).returncode == 0


def test_a_batch_answers_each_line_before_the_next_is_there(
    opened: Callable[..., subprocess.Popen[bytes]],
) -> None:
    with opened("turns", "--batch") as process:
        assert process.stdin is not None
        assert process.stdout is not None
        for _ in range(2):
            process.stdin.write(LINE.encode())
            process.stdin.flush()
            ready, _, _ = select.select([process.stdout], [], [], 60)
            if not ready:
                process.kill()
            assert ready
            assert json.loads(process.stdout.readline())["distance"] == 3
        process.stdin.close()
        assert process.wait() == 0


def test_a_closed_pipe_ends_the_batch_quietly(opened: Callable[..., subprocess.Popen[bytes]]) -> None:
    with opened("turns", "--batch") as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdin.write(LINE.encode())
        process.stdin.flush()
        process.stdout.readline()
        process.stdout.close()
        process.stdin.write(LINE.encode())
        process.stdin.flush()
        assert process.wait() == 141
        assert process.stderr.read() == b""


@pytest.mark.parametrize("arguments", [("turns",), ("cases",)])
def test_help_gives_an_example_that_works(tell: Run, arguments: tuple[str, ...]) -> None:
    done = tell(*arguments, "--help")
    assert done.returncode == 0
    assert "example:" in done.stdout
    example = next(line for line in done.stdout.splitlines() if line.startswith("  python -m tutor"))
    shell = example.replace("python", sys.executable, 1)
    assert subprocess.run(shell, shell=True, cwd=ROOT, capture_output=True, check=False).returncode == 0


@pytest.mark.parametrize("command", ["picture", "film", "lesson"])
def test_every_case_that_a_help_names_is_there(tell: Run, command: str) -> None:
    named = set(re.findall(r"\bcorner-[a-z-]+edge-[a-z-]+", tell(command, "--help").stdout))
    assert named
    assert named <= {case.slug for case in CASES}


def test_help_calls_the_program_as_it_was_called(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for called, name in (
        ("/club/.venv/bin/pairwright", "pairwright"),
        ("C:/club/.venv/Scripts/pairwright.exe", "pairwright"),
        ("/elsewhere/__main__.py", "pairwright"),
        ("/club/tutor/__main__.py", "python -m tutor"),
    ):
        monkeypatch.setattr(sys, "argv", [called])
        for arguments in (["--help"], ["cases", "--help"], ["lesson", "--help"]):
            with pytest.raises(SystemExit):
                main(arguments)
            written = capsys.readouterr().out
            assert written.startswith(f"usage: {name}")
            assert ("python -m tutor" in written) == (name == "python -m tutor")
            assert ("pairwright " in written) == (name == "pairwright")
        assert main(["picture", "no-such-case", "--out", "x.png"]) == 2
        written = capsys.readouterr().err
        assert written.startswith(f"{name} picture: ")
        assert written.endswith(f"write a number from 1 to 41; “{name} cases” lists all\n")


def test_a_path_or_an_extra_of_the_programs_name_stays_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "argv", ["/club/tutor/__main__.py"])
    for text in ("see ~/.config/pairwright now", "pip install 'pairwright[film]'", "pairwright.log is full"):
        assert as_called(text) == text
    assert as_called("“pairwright cases” lists all") == "“python -m tutor cases” lists all"


def test_a_folder_of_lessons_that_is_not_there_is_told_with_status_2(
    tell: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    done = tell("--lessons", str(tmp_path / "no-such"))
    assert done.returncode == 2
    assert done.stderr.startswith(f"There is no folder {tmp_path / 'no-such'}. Give “--lessons” a folder")
    (tmp_path / "file").write_text("in the way")
    done = tell("--lessons", str(tmp_path / "file"))
    assert done.returncode == 2
    assert done.stderr.startswith(f"{tmp_path / 'file'} is not a folder")
    assert done.stderr.count("\n") == 1
    assert not (tmp_path / "home").exists()


def test_the_help_names_the_commands(tell: Run) -> None:
    done = tell("--help")
    assert done.returncode == 0
    assert "turns" in done.stdout
    assert "cases" in done.stdout


def test_a_terminal_without_the_characters_gets_stand_ins(run: Run) -> None:
    done = run("turns", "--setup", "Q", "--slot", "FR", PYTHONIOENCODING="ascii")
    assert done.returncode == 2
    assert "column 1, ?Q?: start a move with" in done.stderr
    assert run("turns", "--setup", "R", "--slot", "FR", PYTHONIOENCODING="ascii").returncode == 0


def test_colour_is_for_terminals_that_want_it(tell: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = ("turns", "--setup", "R U R'", "--slot", "FR")
    assert "\x1b" not in tell(*asked).stdout
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert "\x1b" in tell(*asked).stdout
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b[3" not in tell(*asked).stdout  # colours; bold may stay


def test_without_a_command_the_window_is_started(monkeypatch: pytest.MonkeyPatch) -> None:
    started = []

    def run_window(arguments: object) -> int:
        started.append(arguments)
        return 5

    monkeypatch.setitem(sys.modules, "tutor.app.start", SimpleNamespace(run_window=run_window))
    assert main([]) == 5
    assert len(started) == 1
