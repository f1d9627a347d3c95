"""What a teacher gives to do: kept, changed, withdrawn, and carried by files, merges and a newer form."""

from __future__ import annotations

import io
import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime, timedelta, timezone
from itertools import permutations
from pathlib import Path

import pytest

from tests.progress.conftest import CLUB_EVENING, AttemptMaker, ManualClock
from tests.progress.tables import parse_table
from tutor.method.cases import CASES
from tutor.progress import schema
from tutor.progress.assigning import assign
from tutor.progress.assignment import (
    AssignedState,
    Assignment,
    case_task,
    format_assigned,
    lesson_task,
    open_cases,
    to_do,
)
from tutor.progress.attempt import AttemptError, Mode
from tutor.progress.backup import FILE
from tutor.progress.interchange import format_line, format_table, parse_record
from tutor.progress.notes import Note
from tutor.progress.own_words import OwnWords
from tutor.progress.results import results_of
from tutor.progress.schedule import next_up
from tutor.progress.store import AttemptStore
from tutor.progress.study import Study

CASE, OTHER, LESSON = case_task(CASES[2]), case_task(CASES[13]), lesson_task("part-the-two")
WITHDRAWN, DONE = AssignedState.WITHDRAWN, AssignedState.DONE


def given(
    task: str = CASE,
    minutes: float = 0,
    learner: str = "Ilva",
    until: date | None = None,
    state: AssignedState = AssignedState.GIVEN,
) -> Assignment:
    return Assignment(learner, task, CLUB_EVENING + timedelta(minutes=minutes), CLUB_EVENING, until, state)


def test_the_latest_stays_whatever_order_they_come_in(tmp_path: Path, clock: ManualClock) -> None:
    three = given(), given(minutes=1, until=date(2027, 1, 15)), given(minutes=2, state=WITHDRAWN)
    for number, order in enumerate(permutations(three)):
        with AttemptStore.open(tmp_path / str(number), clock) as store:
            for each in order:
                store.merge((), (each,))
            store.merge((), (given(LESSON, learner="Tova"),))
            assert store.assignments() == (three[-1], given(LESSON, learner="Tova"))
            assert "Tova" in store.learners()


def test_a_change_made_now_counts_also_when_the_clock_was_set_back(
    tmp_path: Path, clock: ManualClock
) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        assign(store, ("Ilva",), CASE, clock.now + timedelta(hours=1))
        assert assign(store, ("Ilva", "Tova"), CASE, clock.now, state=WITHDRAWN)
        (kept,) = store.assignments()
        assert (kept.learner, kept.state) == ("Ilva", WITHDRAWN)
        assert assign(store, ("Ilva",), CASE, clock.now, state=DONE) == ()


def test_lines_and_tables_carry_it_there_and_back(attempt: AttemptMaker) -> None:
    notes: list[Note] = [
        OwnWords("Ilva", CASES[0].slug, CLUB_EVENING, "lift"),
        given(until=date(2027, 1, 15)),
        given(LESSON, state=DONE),
    ]
    table = "".join(format_table([attempt()], notes))
    assert list(parse_table(io.StringIO(table, newline=""))) == [attempt.__class__()(), *notes]
    for each in (given(until=date(2027, 1, 15)), given(LESSON, 3, state=WITHDRAWN)):
        assert parse_record(format_assigned(each)) == each


@pytest.mark.parametrize("task", ["case:no-such-case", "case:14", "lesson:", "dance", "lesson:two\nlines"])
def test_what_is_no_task_is_refused(task: str) -> None:
    with pytest.raises(ValueError, match=r"case|given"):
        given(task)
    line = format_assigned(given(LESSON)).replace(LESSON, task.replace("\n", "\\n"))
    with pytest.raises(AttemptError):
        parse_record(line)


def test_a_case_is_done_once_it_is_solved_whole_and_alone_after_it_was_given(attempt: AttemptMaker) -> None:
    slug, now = CASES[2].slug, CLUB_EVENING + timedelta(days=3)
    before, helped, shown = attempt(slug, -1), attempt.hinted(1, slug, 1), attempt(slug, 1, shown=2)
    other = attempt(CASES[3].slug, 1)
    for made in ((), (before,), (before, helped, shown, other)):
        assert [each.done for each in to_do((given(),), results_of(made), now, UTC)] == [False]
    alone = results_of((before, helped, attempt(slug, 2)))
    assert [each.done for each in to_do((given(),), alone, now, UTC)] == [True]
    # It stays in sight, ticked, for a week, or until its last day.
    assert to_do((given(),), alone, now + timedelta(days=5), UTC) == ()
    assert to_do((given(until=date(2026, 4, 1)),), alone, now + timedelta(days=5), UTC)
    assert open_cases((given(), given(OTHER)), alone, now) == (CASES[13].slug,)


def test_a_solve_by_a_clock_that_ran_ahead_does_nothing_that_is_given(attempt: AttemptMaker) -> None:
    now = CLUB_EVENING + timedelta(days=3)
    ahead, at_once = attempt(CASES[2].slug, 1500), attempt(CASES[2].slug, 3)
    assert open_cases((given(),), results_of((ahead,)), now) == (CASES[2].slug,)
    assert open_cases((given(),), results_of((ahead, at_once)), now) == ()


@pytest.mark.parametrize("hours", [-8, 0, 13])
def test_what_is_done_stays_until_its_last_day_ends_where_the_learner_is(
    attempt: AttemptMaker, hours: int
) -> None:
    zone, done = timezone(timedelta(hours=hours)), results_of((attempt(CASES[2].slug, 1),))
    # Given on the 3rd at 18:30 UTC, which is the 4th already where it is thirteen hours later.
    week_later = date(2026, 3, 11 if hours == 13 else 10)
    for each, day in ((given(until=date(2026, 3, 20)), date(2026, 3, 20)), (given(), week_later)):
        end = datetime(day.year, day.month, day.day + 1, tzinfo=zone).astimezone(UTC)
        assert [seen.done for seen in to_do((each,), done, end - timedelta(seconds=1), zone)] == [True]
        assert to_do((each,), done, end, zone) == ()


def test_what_is_open_comes_first_and_of_that_the_nearest_day(attempt: AttemptMaker) -> None:
    soon, later = date(2026, 3, 10), date(2026, 4, 10)
    all_of_it = (
        given(LESSON, state=DONE),
        given(CASE),
        given(OTHER, until=later),
        given(lesson_task("made-pair"), until=soon),
        given(case_task(CASES[5]), state=WITHDRAWN),
    )
    found = to_do(all_of_it, results_of(()), CLUB_EVENING, UTC)
    tasks = [(each.assignment.task, each.done) for each in found]
    assert tasks == [("lesson:made-pair", False), (OTHER, False), (CASE, False), (LESSON, True)]


def test_todays_list_begins_with_it(attempt: AttemptMaker) -> None:
    made, now = [attempt(), attempt(day=0.01)], attempt(day=30).time
    study = Study.of(made, now)
    usual = next_up(study, now, Mode.TODAY)
    assert usual is not None
    assert usual.slug == CASES[0].slug
    proposal = next_up(study, now, Mode.TODAY, assigned=(CASES[13].slug,))
    assert proposal is not None
    assert (proposal.slug, proposal.why) == (CASES[13].slug, "Your teacher gave you this case.")
    # No case comes twice in a row, not even one that was given.
    after = study.after(attempt.detour(CASES[13].slug, 30), now)
    again = next_up(after, now, Mode.TODAY, assigned=(CASES[13].slug,))
    assert again is not None
    assert again.slug != CASES[13].slug


def test_a_learner_who_is_forgotten_has_nothing_to_do(tmp_path: Path, clock: ManualClock) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge((), (given(), given(learner="Tova")))
        store.reset("Ilva")
        assert store.assignments() == (given(learner="Tova"),)


def test_a_file_of_form_5_gets_the_table_and_keeps_what_it_has(
    tmp_path: Path, clock: ManualClock, attempt: AttemptMaker, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, own = attempt(), OwnWords("Ilva", CASES[0].slug, CLUB_EVENING, "lift")
    with monkeypatch.context() as before:
        before.setattr(schema, "MIGRATIONS", schema.MIGRATIONS[:5])
        with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as file:
            schema.migrate(file, tmp_path / FILE)
            time = (made.time - datetime.fromisoformat("1970-01-01T00:00Z")) // timedelta(microseconds=1)
            file.execute(
                "INSERT INTO attempts VALUES (?, ?, ?, ?)",
                (made.uuid.hex, made.learner, time, format_line(made)),
            )
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge((), (own, given()))
        assert (store.attempts(), store.own_words(), store.assignments()) == ((made,), (own,), (given(),))
    assert list((tmp_path / "backups").glob("before-update-*"))


def test_it_comes_out_of_a_damaged_file_and_follows_one_that_was_moved(
    tmp_path: Path, clock: ManualClock, attempt: AttemptMaker
) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge((attempt(),), (given(),))
        (tmp_path / FILE).rename(tmp_path / "moved.sqlite")
        store.merge((), (given(OTHER),))
        assert store.assignments() == tuple(sorted((given(), given(OTHER)), key=lambda each: each.task))
    with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as file:
        file.execute("PRAGMA writable_schema = ON")
        file.execute("DELETE FROM sqlite_schema WHERE name = 'undone'")
    for backup in (tmp_path / "backups").glob("*"):
        backup.unlink()
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.notices
        assert len(store.assignments()) == 2
