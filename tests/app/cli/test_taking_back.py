"""``progress restore``, and what import and merge say of each line."""

import io
import os
import pty
import sqlite3
from contextlib import closing
from pathlib import Path
from uuid import uuid4

import msgspec
import pytest

from tests.app.cli.test_progress import CLUB, kept, made
from tutor.app.cli.command_line import main
from tutor.method.cases import CASES
from tutor.progress.backup import BACKUPS, FILE
from tutor.progress.interchange import format_line, format_table, parse_line
from tutor.progress.own_words import OwnWords, format_own
from tutor.progress.store import AttemptStore

Told = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "home"
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(folder))
    return folder


@pytest.fixture
def club(home: Path) -> Path:
    """The folder of a store with the attempts of ``CLUB``."""
    with AttemptStore.open(home) as store:
        store.merge(CLUB)
    return home


def mixed(folder: Path) -> Path:
    """A file with a line of each kind: new, new in other letters, known, undone, own words, twice, wrong."""
    new, undone = made("Nao", 5), made("Nao", 6)
    other = msgspec.structs.replace(made("Ilva", 7), learner="ILVA")
    with AttemptStore.open(folder) as store:
        store.record(undone)
        store.undo(undone.uuid)
        store.reset("Nao")
    own = OwnWords("ilva", CASES[0].slug, new.time, "lift and join")
    lines = (format_line(new), format_line(other), format_line(CLUB[0]), format_line(undone))
    file = folder.parent / "mixed.jsonl"
    file.write_text("\n".join((*lines, format_own(own), format_line(new), "[]", "")), encoding="utf-8")
    return file


def answered(monkeypatch: pytest.MonkeyPatch, answer: str, *arguments: str) -> int:
    """The exit status of a command at a terminal on which a person types an answer."""
    ours, theirs = pty.openpty()
    with os.fdopen(theirs, encoding="utf-8") as terminal:
        os.write(ours, f"{answer}\n".encode())
        monkeypatch.setattr("sys.stdin", terminal)
        status = main(list(arguments))
    os.close(ours)
    return status


def test_an_import_says_of_each_line_what_became_of_it(club: Path, capsys: Told) -> None:
    file = mixed(club)
    assert main(["progress", "import", str(file)]) == 2
    assert "line 7: " in capsys.readouterr().err
    assert len(kept(club)) == 3
    assert main(["progress", "import", str(file), "--lines"]) == 1
    told = capsys.readouterr().out.splitlines()
    assert told[:6] == [
        f"{file}, line 1: new, Nao, case 6",
        f"{file}, line 2: new, ILVA, case 8",
        f"{file}, line 3: known already, Ilva, case 1",
        f"{file}, line 4: left out because you took it back here, Nao, case 7",
        f"{file}, line 5: new, ilva, case 1 in their own words",
        f"{file}, line 6: known already, Nao, case 6",
    ]
    assert told[6].startswith(f"{file}, line 7: refused, ")
    assert told[7] == (
        "2 attempts added, 2 known already, 1 left out because you took it back here, "
        "1 line in their own words added, 1 line refused"
    )
    with AttemptStore.open(club) as store:
        assert store.learners() == ("Guest", "Ilva", "Nao", "Ravi")
        assert len(store.attempts("iLVA")) == 3


def test_a_merge_says_so_too_and_writes_each_learner_under_one_name(
    home: Path, tmp_path: Path, capsys: Told
) -> None:
    one, other, both = tmp_path / "one.csv", tmp_path / "other.jsonl", tmp_path / "both.jsonl"
    one.write_text("".join(format_table(CLUB[:2])) + "x,y\n", encoding="utf-8")
    again = msgspec.structs.replace(CLUB[2], learner="ILVA")
    other.write_text(f"{format_line(CLUB[1])}\n{format_line(again)}\n", encoding="utf-8")
    assert main(["progress", "merge", str(one), str(other), "--into", str(both)]) == 2
    assert not both.exists()
    assert main(["progress", "merge", str(one), str(other), "--into", str(both), "--lines"]) == 1
    told = capsys.readouterr().out.splitlines()
    fates = [line.split(": ")[1].split(",")[0] for line in told[:5]]
    assert fates == ["new", "new", "refused", "known already", "new"]
    assert told[5] == f"3 attempts written to {both}; 1 was there twice, 1 line refused"
    assert [parse_line(line) for line in both.read_text("utf-8").splitlines()] == CLUB
    assert not home.exists()


def test_a_backup_is_restored_and_what_was_there_is_kept(club: Path, capsys: Told) -> None:
    assert main(["progress", "backup"]) == 0
    backup = Path(capsys.readouterr().out.strip())
    with AttemptStore.open(club) as store:
        store.record(made("Ilva", 9))
    assert main(["progress", "restore", str(backup), "--yes"]) == 0
    told = capsys.readouterr().out
    assert told.startswith(f"3 attempts restored from {backup}. A copy of what was here before is ")
    assert kept(club) == tuple(CLUB)
    assert main(["progress", "restore", told.strip().rpartition(" is ")[2], "--yes"]) == 0
    assert len(kept(club)) == 4


def test_a_backup_by_hand_outlasts_a_reset_and_another_backup(club: Path, capsys: Told) -> None:
    assert main(["progress", "backup"]) == 0
    backup = Path(capsys.readouterr().out.strip())
    assert main(["progress", "reset", "--learner", "Ravi", "--yes"]) == 0
    assert main(["progress", "backup"]) == 0
    assert main(["progress", "restore", str(backup), "--yes"]) == 0
    assert kept(club) == tuple(CLUB)


def test_a_restore_asks_first(club: Path, capsys: Told, monkeypatch: pytest.MonkeyPatch) -> None:
    with AttemptStore.open(club) as store:
        backup = str(store.back_up(club / "mine.sqlite"))
        store.record(made("Ravi", 9))
    monkeypatch.setattr("sys.stdin", io.StringIO("yes\n"))
    assert main(["progress", "restore", backup]) == 2
    assert "add --yes to go on without it" in capsys.readouterr().err
    for answer, status, left in (("no", 1, 4), ("", 1, 4), ("yes", 0, 3)):
        assert answered(monkeypatch, answer, "progress", "restore", backup) == status
        told = capsys.readouterr().out
        assert f"Put {backup} in the place of the 4 attempts on this computer?" in told
        assert len(kept(club)) == left


def test_nobody_is_asked_about_a_backup_that_cannot_be_taken_back(
    club: Path, capsys: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    wrong = club / "wrong.sqlite"
    wrong.write_text("no backup", encoding="utf-8")
    for file in (wrong, club / "none.sqlite"):
        assert answered(monkeypatch, "yes", "progress", "restore", str(file)) == 2
        told = capsys.readouterr()
        assert (told.out, told.err.count("\n")) == ("", 1)
        assert f"the program cannot restore {file}: " in told.err
    assert kept(club) == tuple(CLUB)


def test_counts_are_written_in_one_way(home: Path, tmp_path: Path, capsys: Told) -> None:
    many = [msgspec.structs.replace(made("Ilva", 1), uuid=uuid4()) for _ in range(1200)]
    file, both = tmp_path / "many.jsonl", tmp_path / "both.jsonl"
    file.write_text("".join(f"{format_line(each)}\n" for each in many), encoding="utf-8")
    assert main(["progress", "import", str(file)]) == 0
    assert main(["progress", "import", str(file)]) == 0
    assert main(["progress", "merge", str(file), str(file), "--into", str(both)]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "1,200 attempts added, 0 known already",
        "0 attempts added, 1,200 known already",
        f"1,200 attempts written to {both}; 1,200 were there twice",
    ]


def test_what_is_no_backup_is_refused_in_a_sentence(club: Path, capsys: Told) -> None:
    wrong = club / "wrong.jsonl"
    wrong.write_text(f"{format_line(CLUB[0])}\n" * 40, encoding="utf-8")
    for file in (wrong, club / "none.sqlite"):
        assert main(["progress", "restore", str(file), "--yes"]) == 2
        assert f"the program cannot restore {file}: " in capsys.readouterr().err
    assert kept(club) == tuple(CLUB)


def test_the_help_names_the_folder_of_the_backups(home: Path, capsys: Told) -> None:
    with pytest.raises(SystemExit):
        main(["progress", "--help"])
    assert str(home / BACKUPS) in capsys.readouterr().out


def test_a_learner_is_found_by_any_way_to_write_the_name(club: Path, capsys: Told) -> None:
    # A full-width I, which the Unicode Standard makes compatible with the plain letter.
    for name, count in (("\uff29LVA", 2), ("ravi", 1)):
        assert main(["progress", "export", str(club / f"{count}.jsonl"), "--learner", name]) == 0
        assert capsys.readouterr().out.startswith(f"{count} attempt")


@pytest.mark.parametrize(
    ("says", "instead", "told"),
    [
        ('"time":"2026-03-03T18:30:00Z"', '"time":"0001-01-01T00:00:00+14:00"', "not 1"),
        ('"time":"2026-03-03T18:30:00Z"', '"time":"9999-12-31T23:59:59-01:00"', "not 9999"),
        ('"time":"2026-03-03T18:30:00Z"', '"time":"1979-12-31T23:59:59Z"', "not 1979"),
        ('"time":"2026-03-03T18:30:00Z"', '"time":"2201-01-01T00:30:00+00:00"', "not 2201"),
        ('"seconds":4.0', '"seconds":1e308', "a number of seconds from 0 to 10,000,000, not 1e+308"),
    ],
)
def test_times_of_another_age_and_endless_seconds_are_refused_and_hide_nothing_else(
    club: Path, says: str, instead: str, told: str, capsys: Told
) -> None:
    line = format_line(CLUB[0])
    assert says in line
    file = club / "strange.jsonl"
    file.write_text(f"{line.replace(says, instead)}\n", encoding="utf-8")
    assert main(["progress", "import", str(file)]) == 2
    error = capsys.readouterr().err
    assert f"{file}: line 1: " in error
    assert told in error
    # As a version of before took it in.
    with closing(sqlite3.connect(club / FILE)) as connection, connection:
        connection.execute("UPDATE attempts SET line = replace(line, ?, ?)", (says, instead))
    assert main(["progress", "show", "--learner", "Ilva", "--json"]) == 0
    assert "cannot read" in capsys.readouterr().err
