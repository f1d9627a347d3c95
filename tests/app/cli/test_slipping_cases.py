"""The cases that slip away from a learner on the sheet, from attempts in a store of the test's own."""

from __future__ import annotations

import json
from datetime import timedelta
from pathlib import Path
from uuid import UUID

import pytest
from pypdf import PdfReader

from tutor.app.cli.command_line import main
from tutor.app.cli.slipping_cases import slipping_cases
from tutor.cube.position import Slot
from tutor.method.cases import CASES, Case
from tutor.progress.attempt import AttemptRecord, Mode, Outcome, now_utc
from tutor.progress.own_words import OwnWords
from tutor.progress.store import AttemptStore

OWN = "lift, let it pass, bring it back; and the corner waits on top until the edge is"
SURE, FORGOTTEN, BEGUN = CASES[0], CASES[5], CASES[20]


def attempt(number: int, learner: str, case: Case, days_ago: float) -> AttemptRecord:
    time = now_utc() - timedelta(days=days_ago)
    return AttemptRecord(
        learner, time, case.slug, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 4.0, first_turn=1.5,
        uuid=UUID(int=number),
    )  # fmt: skip


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Ilva does one case well time and again, did one well years ago, and has only just begun with one."""
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    held = [(SURE, days) for days in (40, 35, 25, 12, 1)]
    forgotten = [(FORGOTTEN, 1500 + days) for days in (20, 15, 5)]
    done = (*held, *forgotten, (BEGUN, 0.001))
    with AttemptStore.open(tmp_path / "home") as store:
        store.merge([attempt(number, "Ilva", case, days) for number, (case, days) in enumerate(done, 1)])
        store.merge([attempt(100 + number, "Ravi", SURE, days) for number, (_, days) in enumerate(held)])
        store.write_own(OwnWords("Ilva", FORGOTTEN.slug, now_utc(), OWN))
        store.write_own(OwnWords("Ravi", BEGUN.slug, now_utc(), "another's line"))
    return tmp_path / "home"


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["sheet", "--slipping", *arguments]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    return said.err


def test_what_is_slipping_is_what_progress_calls_so(capsys: pytest.CaptureFixture[str]) -> None:
    assert slipping_cases("ilva") == ("Ilva", (FORGOTTEN,))
    assert main(["progress", "show", "--learner", "Ilva", "--json"]) == 0
    shown = json.loads(capsys.readouterr().out)["cases"]
    assert [each["number"] for each in shown if each["memory"] == "slipping"] == [FORGOTTEN.number]
    # What has only begun is settling, and is not slipping.
    assert [each["number"] for each in shown if each["memory"] == "settling"] == [BEGUN.number]


@pytest.mark.parametrize("option", ["--slipping", "--weak"])
def test_the_sheet_has_the_slipping_cases_alone(
    option: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # The option was called --weak in versions before.
    assert main(["sheet", option, "--learner", "Ilva", "--out", str(tmp_path / "s.pdf")]) == 0
    assert capsys.readouterr().out.endswith("is ready, with 1 case.\n")
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(tmp_path / "s.pdf").pages).split())
    shown = [case for case in CASES if " ".join(case.name_lines(Slot.FR)) in text]
    assert shown == [FORGOTTEN]
    assert text.startswith("Ilva One case slipping for Ilva ")
    # A learner's own line stands under its case on their own sheet.
    assert text.count("In your own words:") == 1
    assert f"In your own words: {OWN}" in text


def test_without_a_name_it_is_the_learner_in_the_settings(home: Path) -> None:
    (home / "settings.toml").write_text('learner = "Ilva"\n', encoding="utf-8")
    assert slipping_cases(None) == ("Ilva", (FORGOTTEN,))


def test_where_there_is_nothing_slipping_it_is_said_why(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = ("--out", str(tmp_path / "s.pdf"))
    assert "Guest has not practised yet" in (said := refused(capsys, *out))
    assert "choose another learner with --learner: Ilva, Ravi" in said
    assert "no case is slipping for Ravi" in refused(capsys, "--learner", "Ravi", *out)
    assert "no learner has this name; choose from Guest, Ilva, Ravi" in refused(
        capsys, "--learner", "Nobody", *out
    )
    assert not (tmp_path / "s.pdf").exists()
