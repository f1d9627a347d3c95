"""``progress``: attempts shown, carried from file to file, backed up and forgotten."""

import csv
import io
import json
import os
import pty
import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from uuid import UUID

import msgspec
import pytest
from pypdf import PdfReader

from tutor.app.cli.command_line import main
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.backup import FILE
from tutor.progress.interchange import COLUMNS, format_line, parse_line
from tutor.progress.own_words import OwnWords, format_own
from tutor.progress.store import AttemptStore


def made(learner: str, number: int) -> AttemptRecord:
    time = datetime(2026, 3, 3, 18, 30, tzinfo=UTC) + timedelta(days=number)
    case = CASES[number].slug
    return AttemptRecord(
        learner, time, case, Slot.BR, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 4.0, first_turn=1.5,
        uuid=UUID(int=sum(learner.encode()) * 1000 + number),
    )  # fmt: skip


CLUB = [made("Ilva", 0), made("Ravi", 1), made("Ilva", 2)]


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


def kept(folder: Path) -> tuple[AttemptRecord, ...]:
    with AttemptStore.open(folder) as store:
        return store.attempts()


def lines(path: Path) -> list[AttemptRecord]:
    return [parse_line(line) for line in path.read_text(encoding="utf-8").splitlines()]


def test_show_lists_the_learners(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["progress", "show", "--json"]) == 0
    listed = {each["learner"]: each for each in json.loads(capsys.readouterr().out)}
    assert {name: each["attempts"] for name, each in listed.items()} == {"Guest": 0, "Ilva": 2, "Ravi": 1}
    assert listed["Ilva"]["cases"]["not met yet"] == 39
    assert listed["Ravi"]["today"] == 1
    assert sum(listed["Ravi"]["cases"].values()) == 41
    assert main(["progress", "show"]) == 0
    assert "Ravi" in capsys.readouterr().out


def test_show_tells_of_one_learner_case_by_case(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["progress", "show", "--learner", "ilva", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [(each["number"], each["case"]) for each in told["cases"] if each["attempts"]] == [
        (1, CASES[0].slug),
        (3, CASES[2].slug),
    ]
    assert main(["progress", "show", "--learner", "Ilva", "--csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert len(rows) == 41
    assert main(["progress", "show", "--learner", "Ilva"]) == 0
    assert "Cases on each day's list" in capsys.readouterr().out


def test_the_group_is_told_and_written_in_four_forms(
    club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["progress", "group"]) == 0
    told = capsys.readouterr().out
    assert "1. Thursday, 5 March: Ilva was here." in told
    assert "Ravi" in told
    # Each heading is whole on a terminal of the usual 80 columns, and none stands over nothing.
    assert all(heading in told for heading in ("Tries", "Settling", "Slipping", "Sticks", "Sure"))
    assert ("The hardest cases" in told) == ("Case " in told.partition("└")[2])
    for end in (".csv", ".html", ".pdf", ".png"):
        file = tmp_path / f"group{end}"
        assert main(["progress", "group", "--out", str(file)]) == 0
        assert capsys.readouterr().out.strip() == str(file)
    rows = list(csv.DictReader((tmp_path / "group.csv").open(encoding="utf-8-sig")))
    assert {row["learner"]: row["attempts"] for row in rows} == {"Ilva": "2", "Ravi": "1"}
    page = (tmp_path / "group.html").read_text("utf-8")
    assert page.count("<tr>") == 3
    assert "Thursday, 5 March: Ilva was here." in page
    assert (tmp_path / "group.png").read_bytes().startswith(b"\x89PNG")
    printed = PdfReader(tmp_path / "group.pdf")
    text = " ".join(page.extract_text() for page in printed.pages)
    assert "Thursday, 5 March: Ilva was here." in text
    assert text.count("Ravi") == 2  # once in each band of columns
    assert main(["progress", "group", "--out", str(tmp_path / "group.txt")]) == 2
    assert "must end in one of .pdf, .html, .png, .csv" in capsys.readouterr().err
    assert main(["progress", "group", "--out", str(tmp_path / "group.csv")]) == 2


def test_cases_and_lessons_are_given_listed_and_taken_back(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    soon = date.today() + timedelta(days=7)
    both = ["--cases", "3,14", "--lesson", "part-the-two", "--until", soon.isoformat()]
    assert main(["progress", "assign", "--learner", "ilva", "--learner", "Ravi", *both]) == 0
    last = f"{soon:%A}, {soon.day} {soon:%B}"
    assert capsys.readouterr().out == f"3 tasks given to Ilva and Ravi, to do by {last}\n"
    assert main(["progress", "assign", "--learner", "Ravi", "--cases", "3", "--withdraw"]) == 0
    assert capsys.readouterr().out == "1 task taken back\n"
    assert main(["progress", "assign"]) == 0
    assert capsys.readouterr().out.splitlines() == [
        f"Ilva: lesson part-the-two, until {soon}",
        f"Ilva: case 3, until {soon}",
        f"Ilva: case 14, until {soon}",
        f"Ravi: lesson part-the-two, until {soon}",
        f"Ravi: case 14, until {soon}",
    ]
    with AttemptStore.open(club) as store:
        store.record(msgspec.structs.replace(made("Ilva", 13), time=datetime.now(UTC)))
    assert main(["progress", "assign", "--learner", "Ilva"]) == 0
    assert capsys.readouterr().out.splitlines()[-1] == "Ilva: case 14, done"
    assert main(["progress", "assign", "--all", "--cases", "1"]) == 0
    assert capsys.readouterr().out == "1 task given to Ilva and Ravi\n"


def test_what_is_given_counts_on_todays_list_once(
    club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # Case 2, which Ravi met months ago, is on the list already; case 14 is not.
    assert main(["progress", "assign", "--learner", "Ravi", "--cases", "2,14"]) == 0
    capsys.readouterr()
    assert main(["progress", "show", "--json"]) == 0
    listed = {each["learner"]: each["today"] for each in json.loads(capsys.readouterr().out)}
    assert (listed["Ilva"], listed["Ravi"]) == (2, 2)
    assert main(["progress", "show", "--learner", "Ravi", "--json"]) == 0
    week = json.loads(capsys.readouterr().out)["week"]
    assert [sorted(day["cases"]) for day in week[:2]] == [sorted((CASES[1].slug, CASES[13].slug)), []]
    assert main(["progress", "group", "--out", str(tmp_path / "group.csv")]) == 0
    rows = csv.DictReader((tmp_path / "group.csv").open(encoding="utf-8-sig"))
    assert {row["learner"]: row["today"] for row in rows} == {"Ilva": "1 3", "Ravi": "2 14"}


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--cases", "3"], "say whom to give it to"),
        (["--learner", "Ilva", "--until", "9999-12-31"], "say what to give or to take back"),
        (["--learner", "Ilva", "--cases", "42"], "is not a list of cases"),
        (["--learner", "Ilva", "--lesson", "nope"], "there is no lesson “nope”"),
        (["--learner", "Ilva", "--cases", "3", "--until", "tomorrow"], "“tomorrow” is not a day"),
        (["--learner", "Ilva", "--cases", "3", "--until", "2025-01-15"], "“2025-01-15”: this day is over"),
        (["--learner", "Nobody", "--cases", "3"], "no learner has this name"),
    ],
)
def test_what_cannot_be_given_is_refused(
    club: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], said: str
) -> None:
    assert main(["progress", "assign", *arguments]) == 2
    assert said in capsys.readouterr().err
    with AttemptStore.open(club) as store:
        assert store.assignments() == ()


@pytest.mark.parametrize("suffix", ["csv", "jsonl"])
def test_what_is_exported_can_be_imported_elsewhere(
    club: Path,
    tmp_path: Path,
    suffix: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    file = tmp_path / f"club.{suffix}"
    assert main(["progress", "export", str(file)]) == 0
    elsewhere = tmp_path / "elsewhere"
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(elsewhere))
    assert main(["progress", "import", str(file)]) == 0
    assert "3 attempts added, 0 known already" in capsys.readouterr().out
    assert main(["progress", "import", str(file), str(file)]) == 0
    assert "0 attempts added, 6 known already" in capsys.readouterr().out
    assert kept(elsewhere) == kept(club)


def test_exports_of_before_can_be_imported_and_put_together_with_those_of_now(
    club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # Written by the version that kept no figure by hand, see tests/progress/test_before_by_hand.py.
    before = Path(__file__).parents[2] / "progress" / "before_by_hand"
    table, both = before / "attempts.csv", tmp_path / "both.csv"
    assert main(["progress", "import", str(before / "attempts.jsonl"), str(table)]) == 0
    assert "92 attempts added, 92 known already" in capsys.readouterr().out
    assert main(["progress", "export", str(both)]) == 0
    assert main(["progress", "merge", str(table), str(both), "--into", str(both), "--force"]) == 0
    assert "95 attempts written to" in capsys.readouterr().out
    with both.open(encoding="utf-8-sig", newline="") as written:
        figures = {each["uuid"]: (each["by_hand"], each["at_all"]) for each in csv.DictReader(written)}
    with table.open(encoding="utf-8-sig", newline="") as read:
        old = {each["uuid"]: ("", each["shortest"]) for each in csv.DictReader(read)}
    assert figures == old | {str(each.uuid): ("", "3") for each in CLUB}


def test_the_help_names_the_figures_and_what_extra_means(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["progress", "--help"])
    told = capsys.readouterr().out
    assert all(f"{name}, " in told for name in COLUMNS[:-1])
    for said in ("by_hand is the fewest turns by hand", "at_all is the fewest when far", "extra means"):
        assert said in told


def test_an_export_of_one_learner_holds_that_one_alone(club: Path, tmp_path: Path) -> None:
    file = tmp_path / "ravi.jsonl"
    assert main(["progress", "export", str(file), "--learner", "Ravi"]) == 0
    assert lines(file) == [CLUB[1]]


def test_merging_files_of_both_forms_loses_and_doubles_nothing(
    tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one, other, both = tmp_path / "one.jsonl", tmp_path / "other.csv", tmp_path / "both.jsonl"
    one.write_text("".join(f"{format_line(each)}\n" for each in (CLUB[2], CLUB[0])), encoding="utf-8")
    with AttemptStore.open(tmp_path / "ravi") as store:
        store.merge(CLUB[1:])
    assert main(["progress", "merge", str(one), str(one), "--into", str(both)]) == 0
    assert lines(both) == [CLUB[0], CLUB[2]]
    other.write_text("", encoding="utf-8")
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "ravi"))
    assert main(["progress", "export", str(other), "--force"]) == 0
    assert main(["progress", "merge", str(one), str(other), "--into", str(both), "--force"]) == 0
    assert lines(both) == CLUB
    assert not home.exists()


def test_a_table_has_one_byte_order_mark_for_spreadsheets_and_is_read_with_and_without_it(
    club: Path, tmp_path: Path
) -> None:
    file = tmp_path / "club.csv"
    assert main(["progress", "export", str(file)]) == 0
    mark, rest = file.read_bytes()[:3], file.read_bytes()[3:]
    # UTF-8's mark (Unicode Standard, section 23.8); without it names are taken for an older code page's.
    assert mark == b"\xef\xbb\xbf"
    assert rest.startswith(b"uuid,")
    assert main(["progress", "import", str(file)]) == 0
    file.write_bytes(rest)
    assert main(["progress", "import", str(file)]) == 0


def test_a_file_that_is_there_is_not_replaced_unasked(
    club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "club.csv"
    file.write_text("mine", encoding="utf-8")
    assert main(["progress", "export", str(file)]) == 2
    assert (
        f"{file} already exists; choose another name, or add --force to replace it" in capsys.readouterr().err
    )
    assert file.read_text(encoding="utf-8") == "mine"
    assert main(["progress", "backup", str(file)]) == 2
    assert file.read_text(encoding="utf-8") == "mine"
    assert main(["progress", "export", str(file), "--force"]) == 0


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("a.txt", "", "must end in .csv"),
        ("a.jsonl", "{}\n", "line 1: "),
        ("a.jsonl", f"{format_line(CLUB[0])}\n[]\n", "line 2: "),
        ("a.csv", "uuid,learner\n", "line 1: the columns time"),
        ("a.csv", f"{','.join(COLUMNS)}\n1,2\n", "line 2: the number of cells differs"),
    ],
)
def test_a_file_with_a_fault_is_refused_whole_and_the_place_named(
    club: Path, tmp_path: Path, name: str, content: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    good, bad = tmp_path / "good.jsonl", tmp_path / name
    good.write_text(f"{format_line(made('Nao', 5))}\n", encoding="utf-8")
    bad.write_text(content, encoding="utf-8")
    assert main(["progress", "import", str(good), str(bad)]) == 2
    assert told in capsys.readouterr().err
    assert len(kept(club)) == len(CLUB)


def test_a_file_that_is_missing_or_no_text_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["progress", "import", str(tmp_path / "none.csv")]) == 2
    assert "cannot be read" in capsys.readouterr().err
    (tmp_path / "bad.csv").write_bytes(b"\xff\xfe\x00")
    assert main(["progress", "import", str(tmp_path / "bad.csv")]) == 2
    assert "not UTF-8" in capsys.readouterr().err


def test_an_unknown_learner_is_told_with_those_there_are(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["progress", "show", "--learner", "Nobody"]) == 2
    assert "choose from Guest, Ilva, Ravi" in capsys.readouterr().err


def test_a_backup_is_a_whole_store(club: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["progress", "backup", str(tmp_path / "copy" / FILE)]) == 0
    assert kept(tmp_path / "copy") == tuple(CLUB)
    capsys.readouterr()
    assert main(["progress", "backup"]) == 0
    assert Path(capsys.readouterr().out.strip()).is_relative_to(club)


def test_a_reset_without_anybody_to_ask_changes_nothing(
    club: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("yes\n"))
    assert main(["progress", "reset"]) == 2
    assert "--yes" in capsys.readouterr().err
    assert len(kept(club)) == len(CLUB)


@pytest.mark.parametrize(("answer", "left"), [("no", 3), ("", 3), ("yes", 1)])
def test_a_reset_asks_first(
    club: Path, answer: str, left: int, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    ours, theirs = pty.openpty()
    with os.fdopen(theirs, encoding="utf-8") as terminal:
        os.write(ours, f"{answer}\n".encode())
        monkeypatch.setattr("sys.stdin", terminal)
        assert main(["progress", "reset", "--learner", "Ilva"]) == (0 if answer == "yes" else 1)
    os.close(ours)
    assert "Delete 2 attempts of Ilva?" in capsys.readouterr().out
    assert len(kept(club)) == left


def test_a_reset_keeps_a_copy(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["progress", "reset", "--yes"]) == 0
    copy = capsys.readouterr().out.strip().rpartition(" A copy is ")[2]
    assert kept(club) == ()
    with closing(sqlite3.connect(copy)) as reader:
        assert reader.execute("SELECT count(*) FROM attempts").fetchone() == (len(CLUB),)


def test_a_store_of_a_newer_version_is_refused_in_a_sentence(
    club: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with closing(sqlite3.connect(club / FILE)) as connection:
        connection.execute("PRAGMA user_version = 99")
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    assert main(["progress", "show"]) == 2
    assert "newer version of the program" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["all.jsonl", "all.csv"])
def test_own_words_travel_with_the_attempts_and_the_later_line_stays(
    club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    time = datetime(2026, 3, 2, 18, 30, tzinfo=UTC)
    line = OwnWords("Ilva", CASES[0].slug, time, "lift, let it pass, bring it back")
    older = OwnWords("Ilva", CASES[0].slug, time - timedelta(days=1), "lift and join")
    with AttemptStore.open(club) as store:
        store.write_own(line)
    one, other, both = tmp_path / name, tmp_path / "other.jsonl", tmp_path / f"both{Path(name).suffix}"
    assert main(["progress", "export", str(one)]) == 0
    other.write_text(f"{format_own(older)}\n", encoding="utf-8")
    assert main(["progress", "merge", str(one), str(other), "--into", str(both)]) == 0
    elsewhere = tmp_path / "elsewhere"
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(elsewhere))
    assert main(["progress", "import", str(other), str(both)]) == 0
    assert kept(elsewhere) == kept(club)
    with AttemptStore.open(elsewhere) as store:
        assert store.own_words() == (line,)
