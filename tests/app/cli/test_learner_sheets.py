"""``sheet --each-learner``: a named sheet for everybody, made anew only where something changed."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest
from pypdf import PdfReader

from tutor.app.cli.command_line import INTERRUPTED, main
from tutor.cube.faces import Face
from tutor.cube.position import Slot
from tutor.lesson.questions import Answerer
from tutor.method.cases import CASES
from tutor.progress.assigning import assign
from tutor.progress.assignment import case_task, lesson_task
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.store import AttemptStore
from tutor.publish.case_sheet import CaseSheet, case_document
from tutor.publish.document import Document
from tutor.publish.learner_sheet import named_files
from tutor.publish.printing import Print

SOON = date.today() + timedelta(days=7)


def said(day: date) -> str:
    return f"{day:%A}, {day.day} {day:%B}"


@pytest.fixture
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Ilva forgets a case and was given another; Ravi was given a lesson; Oda has nothing to practise."""
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    now = datetime.now(UTC)
    with AttemptStore.open(tmp_path / "home") as store:
        for name, days in (("Ilva", 60), ("Oda", 0)):
            for day in (days, days - 0.01, days - 3):
                time = now - timedelta(days=max(0.0, day))
                store.record(
                    AttemptRecord(
                        name, time, CASES[0].slug, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 4.0
                    )
                )
        store.add_learner("Ravi")
        assign(store, ("Ilva",), case_task(CASES[13]), now)
        assign(store, ("Ravi",), lesson_task("part-the-two"), now, until=SOON)
    return tmp_path


def text_of(file: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(file).pages).split())


def test_everybody_gets_a_named_sheet_and_a_second_run_goes_on_where_it_was(
    club: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, command = club / "sheets", ["sheet", "--each-learner", "--out", str(club / "sheets")]
    begun = count()

    def stopped(sheet: CaseSheet, how: Print, answered: Answerer, day: date) -> Document:
        if next(begun):
            raise KeyboardInterrupt
        return case_document(sheet, how, answered, day)

    with monkeypatch.context() as once:
        once.setattr("tutor.app.cli.sheet.case_document", stopped)
        assert main(command) == INTERRUPTED
    assert sorted(path.name for path in folder.iterdir()) == ["Ilva.pdf", "sheets.json"]
    before = (folder / "Ilva.pdf").stat().st_mtime_ns
    assert main(command) == 0
    assert capsys.readouterr().out == (
        f"Made 1 sheet and kept 1 that were finished in {folder}. Nothing to practise: Oda.\n"
    )
    assert (folder / "Ilva.pdf").stat().st_mtime_ns == before
    ilva, ravi = text_of(folder / "Ilva.pdf"), text_of(folder / "Ravi.pdf")
    assert "What Ilva practises next" in ilva
    assert "Your teacher gave you case 14." in ilva
    assert "Case 1:" in ilva
    assert "Case 14:" in ilva
    assert "Case 2:" not in ilva
    assert "Your teacher gave you the lesson “Set two apart that touch the wrong way round”." in ravi
    assert f"Do it by {said(SOON)}." in ravi


def test_given_cases_have_their_last_day_and_stand_together_by_it(club: Path) -> None:
    with AttemptStore.open(club / "home") as store:
        for number, day in ((24, SOON), (20, SOON), (3, SOON - timedelta(days=1))):
            assign(store, ("Ravi",), case_task(CASES[number - 1]), datetime.now(UTC), until=day)
    assert main(["sheet", "--each-learner", "--out", str(club / "sheets")]) == 0
    ravi = text_of(club / "sheets" / "Ravi.pdf")
    first = f"Your teacher gave you case 3. Do it by {said(SOON - timedelta(days=1))}."
    second = f"Your teacher gave you cases 20 and 24. Do them by {said(SOON)}."
    assert f"{first} {second} Your teacher gave you the lesson" in ravi


def test_a_mistyped_year_is_seen(club: Path) -> None:
    late = SOON.replace(year=SOON.year + 10, day=1)
    with AttemptStore.open(club / "home") as store:
        assign(store, ("Ravi",), case_task(CASES[2]), datetime.now(UTC), until=late)
    assert main(["sheet", "--each-learner", "--out", str(club / "sheets")]) == 0
    assert f"case 3. Do it by {said(late)} {late.year}." in text_of(club / "sheets" / "Ravi.pdf")


def test_a_file_of_somebody_elses_is_not_replaced(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (club / "sheets").mkdir()
    (club / "sheets" / "Ilva.pdf").write_text("mine")
    assert main(["sheet", "--each-learner", "--out", str(club / "sheets")]) == 2
    assert "Ilva.pdf already exists and is not the file you want" in capsys.readouterr().err
    assert (club / "sheets" / "Ilva.pdf").read_text() == "mine"


def test_it_chooses_the_cases_itself(club: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for more in (["--cases", "3"], ["--slipping"], ["--learner", "Ilva"], ["--lesson", "made-pair"], ["14"]):
        assert main(["sheet", "--each-learner", "--out", str(club / "sheets"), *more]) == 2
        assert "--each-learner chooses the cases itself" in capsys.readouterr().err
    assert not (club / "sheets").exists()


def test_two_learners_never_share_a_file() -> None:
    names = ("A-B", "A B", "a.b", "Ada", "Con", "Con-2", "A-B-2", "com¹")
    sheets = tuple(CaseSheet((), Slot.FR, Face.U, "", learner) for learner in names)
    named = [name for name, _ in named_files(sheets)]
    # On Windows “con” is a device, with any end (learn.microsoft.com, "Naming Files").
    assert named == [
        "A-B.pdf",
        "A-B-2.pdf",
        "a-b-3.pdf",
        "Ada.pdf",
        "Con-2.pdf",
        "Con-2-2.pdf",
        "A-B-2-2.pdf",
        "com¹-2.pdf",
    ]
