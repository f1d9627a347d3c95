"""What versions before have written is taken in whole, and no schedule changes.

The files in ``before_by_hand`` were written by commit 9842c6f, when attempts had no figure by hand: a store
with its checkpoint, its exports, and in ``standing.json`` the cards, the guidance and what comes next of both
learners as that version told them. Bastian's attempts are a third of three weeks of ``tests.make_history``;
Ilva's are some of them given up, watched, named at a glance, made in a lesson or to a beat.

The store in ``form_2`` was written by commit 3b3f9d2, which kept attempts in brief and a checkpoint of the
cards beside the attempts, and left the cards to the library ``fsrs``; so was its ``standing.json``. Its
attempts are of the same kinds; one of Ilva's was undone, and Ravi has none.

The files in ``form_3`` were written by commit 0b23538, the last one with the older names of modes, outcomes
and memory (``due``, ``weakest``, ``flash``, ``home``, ``recall``): a store with an attempt undone, and its
exports. They have attempts of every mode and outcome.
"""

import csv
import json
import shutil
import sqlite3
from collections.abc import Callable, Mapping
from contextlib import closing
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any
from uuid import UUID

import msgspec
import pytest

from tests.progress.tables import parse_table
from tutor.coach.guidance import Guidance, Help
from tutor.method.cases import parse_case
from tutor.progress import schema
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.backup import BACKUPS, FILE
from tutor.progress.cards import Card, grades, spread_next
from tutor.progress.forgetting import GOOD
from tutor.progress.interchange import format_line, parse_line
from tutor.progress.results import results_of
from tutor.progress.schedule import next_up
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import AttemptStore
from tutor.progress.study import Study, guidance_of, load_study
from tutor.progress.summary import format_standing, summarise

BEFORE = Path(__file__).with_name("before_by_hand")
FORM_2 = Path(__file__).with_name("form_2")
FORM_3 = Path(__file__).with_name("form_3")
COUNTS = {BEFORE: 92, FORM_2: 109, FORM_3: 56}
PHASES = {"being learnt": "settling", "holds": "sticks", "being learnt again": "settling again"}
MEMORY = {
    "new": "not met yet",
    "being learnt": "settling",
    "weak": "slipping",
    "holds": "sticks",
    "firm": "sure",
}
SIGNS = {"not met yet": "Nm", "settling": "Se", "slipping": "Sl", "sticks": "St", "sure": "Su"}
MODES = {"due": "today", "weakest": "slipping", "flash": "glance"}
OUTCOMES = {"home": "solved"}
"""Names of before with those of now, as the list of changed names has them."""
CHOSEN = (Mode.TODAY, Mode.SLIPPING, Mode.GLANCE, Mode.STEADY)


def standing(folder: Path) -> dict[str, Any]:
    """What the version that wrote the store in the folder told of its learners."""
    told: dict[str, Any] = json.loads((folder / "standing.json").read_text(encoding="utf-8"))
    return told


NOW = datetime.fromisoformat(standing(BEFORE)["now"])


def lines(folder: Path = BEFORE) -> list[str]:
    return (folder / "attempts.jsonl").read_text(encoding="utf-8").splitlines()


def from_lines(folder: Path = BEFORE) -> list[AttemptRecord]:
    return [parse_line(line) for line in lines(folder)]


def from_table(folder: Path = BEFORE) -> list[AttemptRecord]:
    with (folder / "attempts.csv").open(encoding="utf-8", newline="") as table:
        return [each for each in parse_table(table) if isinstance(each, AttemptRecord)]


def clock() -> datetime:
    return NOW


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copy(BEFORE / FILE, tmp_path / FILE)
    return tmp_path


def content(file: Path, what: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(file)) as connection:
        return connection.execute(what).fetchall()


def told(card: Card) -> dict[str, Any]:
    return {
        "phase": next(old for old, new in PHASES.items() if new == card.phase.value),
        # The powers in these two may differ in the last digit from machine to machine.
        "stability": pytest.approx(card.lasts, rel=1e-12),
        "difficulty": pytest.approx(card.difficulty, rel=1e-12),
        "first": card.first.isoformat(),
        "last": card.last.isoformat(),
        "due": card.next.isoformat(),
        "spread_due": spread_next(card).isoformat(),
        "reviews": card.reviews,
        "rung": card.rung,
    }


def guidance_begun_with_watching(study: Study) -> Mapping[str, Guidance]:
    """The guidance with the beginning of then, which was to watch. All else about it is as it was."""
    with pytest.MonkeyPatch.context() as then:
        then.setattr("tutor.progress.study.Guidance", partial(Guidance, Help.WATCH))
        return guidance_of(study.results)


def stands_as_before(before: dict[str, Any], study: Study, now: datetime) -> None:
    """The learner stands with every case as the version before told."""
    assert len(study.results) == before["attempts"]
    assert {slug: told(card) for slug, card in study.cards.items()} == before["cards"]
    guidance = {
        slug: {
            "help": each.help.name,
            "runs": each.runs,
            "failures": each.failures,
            "remedy": each.remedy.name,
            "known": each.known,
        }
        for slug, each in guidance_begun_with_watching(study).items()
    }
    assert guidance == before["guidance"]
    assert list(csv.DictReader(format_standing(summarise(study, now)))) == in_names_of_now(before["standing"])
    for mode in CHOSEN:
        chosen = next_up(study, now, mode)
        found = chosen and [chosen.slug, chosen.slot.name, chosen.mirror, chosen.alignment]
        assert found == before["next"][next((old for old, new in MODES.items() if new == mode), mode.value)]


def in_names_of_now(rows: list[str]) -> list[dict[str, str]]:
    """A table of the cases as a version before wrote it, in the names of now."""
    return [
        {
            "number": str(parse_case(row["case"]).number),
            "case": row["case"],
            "sign": SIGNS[MEMORY[row["hold"]]],
            "memory": MEMORY[row["hold"]],
            "remember": row["recall"],
            "lasts_days": row["stability_days"],
            "next": row["due"],
            "attempts": row["attempts"],
            "extra": row["extra"],
            "recognition": row["recognition"],
        }
        for row in csv.DictReader(rows)
    ]


@pytest.mark.parametrize(("before", "form"), [(BEFORE, 1), (FORM_2, 2), (FORM_3, 3)])
def test_a_store_of_before_is_taken_in_whole_and_no_schedule_changes(
    tmp_path: Path, before: Path, form: int
) -> None:
    shutil.copy(before / FILE, tmp_path / FILE)
    assert content(tmp_path / FILE, "PRAGMA user_version") == [(form,)]
    told = standing(before)
    now = datetime.fromisoformat(told["now"])
    with AttemptStore.open(tmp_path, lambda: now) as store:
        attempts = store.attempts()
        for learner, stood in told["learners"].items():
            stands_as_before(stood, load_study(store, learner, now), now)
        assert store.notices == ()
    assert len(attempts) == COUNTS[before]
    assert content(tmp_path / FILE, "PRAGMA user_version") == [(6,)]
    # The copy from before the update is the file as it was; the attempts in the file are not written anew.
    (copy,) = (tmp_path / BACKUPS).glob("before-update-*.sqlite")
    kept_then = ("attempts", "learners", "undone", *(("results", "checkpoints") if form < 3 else ()))
    for table in kept_then:
        assert content(copy, f"SELECT * FROM {table}") == content(before / FILE, f"SELECT * FROM {table}")
    for table in ("attempts", "learners", "undone"):
        assert content(tmp_path / FILE, f"SELECT * FROM {table}") == content(copy, f"SELECT * FROM {table}")
    # What only followed from the attempts is gone.
    tables = content(tmp_path / FILE, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
    assert tables == [("assignments",), ("attempts",), ("learners",), ("own_words",), ("undone",)]


def test_an_attempt_undone_before_the_update_does_not_come_back_with_the_copy(tmp_path: Path) -> None:
    shutil.copy(FORM_2 / FILE, tmp_path / FILE)
    ((gone,),) = content(FORM_2 / FILE, "SELECT uuid FROM undone")
    with AttemptStore.open(tmp_path, clock) as store:
        kept = store.attempts("Ilva")
        again = msgspec.structs.replace(kept[0], uuid=UUID(gone))
        assert store.merge([again]).undone == 1
        assert store.attempts("Ilva") == kept


@pytest.mark.parametrize("before", [BEFORE, FORM_3])
@pytest.mark.parametrize("read", [from_lines, from_table])
def test_an_export_of_before_is_taken_in_whole_and_no_schedule_changes(
    tmp_path: Path, read: Callable[[Path], list[AttemptRecord]], before: Path
) -> None:
    attempts, told = read(before), standing(before)
    now = datetime.fromisoformat(told["now"])
    with AttemptStore.open(tmp_path, lambda: now) as store:
        assert store.merge(attempts).added == len(attempts) == COUNTS[before]
        assert list(store.attempts()) == attempts
        for learner, stood in told["learners"].items():
            stands_as_before(stood, load_study(store, learner, now), now)


def test_the_files_of_form_3_have_every_mode_and_outcome_under_its_name_of_now(tmp_path: Path) -> None:
    shutil.copy(FORM_3 / FILE, tmp_path / FILE)
    with AttemptStore.open(tmp_path, clock) as store:
        attempts = list(store.attempts())
    assert from_lines(FORM_3) == from_table(FORM_3) == attempts
    assert {each.mode for each in attempts} == set(Mode)
    assert {each.outcome for each in attempts} == set(Outcome)
    said = {old["uuid"]: (old["mode"], old["outcome"]) for old in map(json.loads, lines(FORM_3))}
    assert {str(each.uuid): (each.mode, each.outcome) for each in attempts} == {
        uuid: (MODES.get(mode, mode), OUTCOMES.get(outcome, outcome))
        for uuid, (mode, outcome) in said.items()
    }


def test_what_files_of_before_say_is_kept_to_the_last_word(folder: Path) -> None:
    attempts = from_lines()
    assert from_table() == attempts
    with AttemptStore.open(folder, clock) as store:
        assert list(store.attempts()) == attempts
    for attempt, line in zip(attempts, lines(), strict=True):
        said = json.loads(line)
        now = json.loads(format_line(attempt))
        assert (now.pop("by_hand"), now.pop("at_all")) == (None, said.pop("shortest"))
        assert now.pop("number") == parse_case(said["case"]).number
        assert now.pop("mode") == MODES.get(mode := said.pop("mode"), mode)
        assert now.pop("outcome") == OUTCOMES.get(outcome := said.pop("outcome"), outcome)
        assert now == said


def test_an_attempt_of_before_and_one_of_now_are_graded_by_their_own_figure(folder: Path) -> None:
    with AttemptStore.open(folder, clock) as store:
        known = load_study(store, "Bastian", NOW)
        old = next(
            each
            for each, grade in zip(store.attempts("Bastian"), grades(known.results), strict=True)
            if grade == GOOD
        )
        longer = msgspec.structs.replace(old, uuid=UUID(int=1), time=NOW, turns_used=old.at_all + 2)
        by_hand = msgspec.structs.replace(longer, uuid=UUID(int=2), by_hand=old.at_all + 2)
        assert grades(results_of([longer]))[0] < GOOD
        assert store.record(by_hand)
    with AttemptStore.open(folder, clock) as store:
        study = load_study(store, "Bastian", NOW)
        assert store.attempts("Bastian")[-1] == by_hand
    assert grades(study.results).tolist() == [*grades(known.results).tolist(), GOOD]
    assert {slug: card for slug, card in study.cards.items() if slug != old.case} == {
        slug: card for slug, card in known.cards.items() if slug != old.case
    }


def test_a_program_of_before_refuses_a_store_of_now_and_leaves_it(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    AttemptStore.open(folder, clock).close()
    now = (folder / FILE).read_bytes()
    monkeypatch.setattr(schema, "MIGRATIONS", schema.MIGRATIONS[:4])
    with pytest.raises(NewerStoreError, match=r"form 6, this one knows up to 4"):
        AttemptStore.open(folder, clock)
    assert (folder / FILE).read_bytes() == now
