"""A learner's own line for a case: kept, changed, removed, and carried by files, merges and a newer form."""

from __future__ import annotations

import io
import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tests.progress.conftest import CLUB_EVENING, AttemptMaker, ManualClock
from tests.progress.tables import parse_table
from tutor.method.cases import CASES
from tutor.progress import schema
from tutor.progress.attempt import AttemptError
from tutor.progress.backup import FILE
from tutor.progress.interchange import COLUMNS, format_line, format_table, parse_record
from tutor.progress.own_words import OwnWords, format_own
from tutor.progress.store import AttemptStore

SLUG, OTHER = CASES[0].slug, CASES[1].slug
LINE = "lift, let it pass, bring it back"


def own(text: str = LINE, minutes: float = 0, slug: str = SLUG, learner: str = "Ilva") -> OwnWords:
    return OwnWords(learner, slug, CLUB_EVENING + timedelta(minutes=minutes), text)


def test_the_latest_line_stays_whatever_order_they_come_in(tmp_path: Path, clock: ManualClock) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.write_own(own("second", 2))
        store.merge((), (own("first", 1), own("other", 0, OTHER), own("hers", 0, learner="Tova")))
        assert store.own_words("Ilva") == tuple(sorted((own("second", 2), own("other", 0, OTHER)), key=key))
        store.write_own(own("", 3))
        store.merge((), (own("second", 2),))
        assert {each.text for each in store.own_words("Ilva")} == {"", "other"}
        assert "Tova" in store.learners()
    with AttemptStore.open(tmp_path, clock) as store:
        assert own("", 3) in store.own_words()


def test_a_line_written_now_counts_also_when_the_clock_was_set_back(
    tmp_path: Path, clock: ManualClock
) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.write_own(own("first", 60))
        store.write_own(own("second", 0))
        assert [each.text for each in store.own_words()] == ["second"]


def key(each: OwnWords) -> str:
    return each.case


def test_lines_and_tables_carry_attempts_and_own_words_there_and_back(attempt: AttemptMaker) -> None:
    attempts, lines = [attempt(), attempt(OTHER)], [own('say "lift", then 2; bring, back'), own("", 1, OTHER)]
    written = [*map(format_line, attempts), *map(format_own, lines)]
    assert [parse_record(line) for line in written] == [*attempts, *lines]
    table = "".join(format_table(attempts, lines))
    assert list(parse_table(io.StringIO(table, newline=""))) == [*attempts, *lines]
    # Without own words a table is as it was.
    assert next(iter(format_table(attempts))).strip().split(",") == list(COLUMNS)


@pytest.mark.parametrize("text", ["x" * 81, "two\nlines", " spaced", "=1+1", "tab\there"])
def test_what_is_no_line_is_refused(text: str) -> None:
    with pytest.raises(AttemptError):
        own(text)
    line = format_own(own("x")).replace('"x"', f'"{text}"'.replace("\n", "\\n").replace("\t", "\\t"))
    with pytest.raises(AttemptError):
        parse_record(line)


def test_a_learner_who_is_forgotten_leaves_no_words(tmp_path: Path, clock: ManualClock) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge((), (own(), own(learner="Tova")))
        store.reset("Ilva")
        assert store.own_words() == (own(learner="Tova"),)


def test_a_file_of_form_4_gets_the_table_and_keeps_its_attempts(
    tmp_path: Path, clock: ManualClock, attempt: AttemptMaker, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = attempt()
    with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as file:
        with monkeypatch.context() as before:
            before.setattr(schema, "MIGRATIONS", schema.MIGRATIONS[:4])
            schema.migrate(file, tmp_path / FILE)
        time = (made.time - datetime(1970, 1, 1, tzinfo=UTC)) // timedelta(microseconds=1)
        file.execute(
            "INSERT INTO attempts VALUES (?, ?, ?, ?)",
            (made.uuid.hex, made.learner, time, format_line(made)),
        )
        assert file.execute("PRAGMA user_version").fetchone() == (4,)
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.attempts() == (made,)
        store.write_own(own())
        assert store.own_words() == (own(),)
    assert list((tmp_path / "backups").glob("before-update-*"))


def test_words_come_out_of_a_damaged_file_with_the_attempts(
    tmp_path: Path, clock: ManualClock, attempt: AttemptMaker
) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.record(attempt())
        store.write_own(own())
    with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as file:
        file.execute("PRAGMA writable_schema = ON")
        file.execute(
            "UPDATE sqlite_schema SET sql = 'CREATE INDEX x ON attempts (nothing)' WHERE name LIKE '%by_time'"
        )
    with AttemptStore.open(tmp_path, clock) as store:
        assert any("damaged" in notice for notice in store.notices)
        assert len(store.attempts()) == 1
        assert store.own_words() == (own(),)
