"""Days begin at midnight where the program runs, also after a change of clocks."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from tests.progress.conftest import AttemptMaker, ManualClock
from tutor.progress.cards import spread_next
from tutor.progress.course import course
from tutor.progress.local_zone import LOCAL_ZONE
from tutor.progress.store import AttemptStore
from tutor.session.learner_records import Records
from tutor.session.record_commands import OpenRecords, RecordsOpened
from tutor.workers.recorder import Recorder

BERLIN = "CET-1CEST,M3.5.0,M10.5.0/3"
"""The rules of Europe/Berlin as POSIX writes them."""


@pytest.fixture(autouse=True)
def berlin(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The computer stands in Berlin, where its system can be told so; else where it stands."""
    settle = getattr(time, "tzset", lambda: None)
    with monkeypatch.context() as changed:
        changed.setenv("TZ", BERLIN)
        settle()
        yield
    settle()


def test_each_moment_has_the_time_of_day_that_the_system_gives_it() -> None:
    # Checked against the library's own conversion, which asks the system.
    for half_hours in range(366 * 48):
        moment = datetime(2026, 1, 1, microsecond=7, tzinfo=UTC) + timedelta(minutes=30 * half_hours)
        here, wanted = moment.astimezone(LOCAL_ZONE), moment.astimezone()
        assert here.replace(tzinfo=None) == wanted.replace(tzinfo=None)
        assert (here.utcoffset(), here.tzname()) == (wanted.utcoffset(), wanted.tzname())
        assert here.astimezone(UTC) == moment


def test_after_a_change_of_clocks_the_list_is_that_of_the_new_day(tmp_path: Path) -> None:
    # In Berlin clocks are set forward on Sunday, 29 March 2026; from memory, the rule of the whole Union.
    attempt = AttemptMaker()
    slugs = [case.slug for case in course()[:12]]
    learnt = datetime(2026, 3, 27, 20, tzinfo=UTC)
    clock = ManualClock(learnt + timedelta(hours=2))
    with AttemptStore.open(tmp_path, clock) as store:
        store.add_learner("Ilva")
        for minutes in (0, 15):
            store.merge([attempt(slug, time=learnt + timedelta(minutes=minutes)) for slug in slugs])
    recorder = Recorder(tmp_path, clock)
    opened = recorder.carry_out(OpenRecords("Ilva"))
    recorder.close()
    assert isinstance(opened, RecordsOpened)
    known = Records("Ilva").standing(opened.standing)
    cards = opened.standing.study.cards.values()
    comes = {card.slug: spread_next(card).astimezone().date() for card in cards}
    lengths = []
    for wall in (datetime(2026, 3, 29, 23, 45), datetime(2026, 3, 30, 0, 15)):
        now = wall.astimezone().timestamp()
        listed = {card.slug for card in known.on_list(now)}
        assert known.today(now) == wall.date()
        assert listed == {slug for slug, day in comes.items() if day <= wall.date()}
        lengths.append(len(listed))
    assert date(2026, 3, 30) in comes.values()
    assert lengths[0] < lengths[1]
