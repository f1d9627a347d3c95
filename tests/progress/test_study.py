"""Where a learner stands, kept up attempt by attempt."""

from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.method.cases import CASES
from tutor.progress.store import AttemptStore
from tutor.progress.study import Study, load_study


@settings(max_examples=40)
@given(days=st.lists(st.integers(0, 12), max_size=12))
def test_one_attempt_more_leads_where_all_of_them_lead(days: list[int], attempt_maker: Any) -> None:
    make = attempt_maker()
    made = [make(CASES[day % 3].slug, day=day / 3) for day in days]
    now = make(day=20).time
    study = Study.of([], now)
    for each in made:
        study = study.after(each, now)
    whole = Study.of(made, now)
    assert study.cards == whole.cards
    assert study.results["time"].tolist() == whole.results["time"].tolist()


@given(hours=st.lists(st.tuples(st.integers(0, 99), st.integers(0, 99)), max_size=8))
def test_so_it_does_while_the_clock_runs_ahead_and_is_set_right(
    hours: list[tuple[int, int]], attempt_maker: Any
) -> None:
    """Each attempt has its hour, and is taken in at another: what lay ahead may be past by the next one."""
    make = attempt_maker()
    study, made = Study.of([], make().time), []
    for at, now in hours:
        made.append(make(CASES[at % 2].slug, day=at / 24))
        study = study.after(made[-1], make(day=now / 24).time)
        assert study.cards == Study.of(made, make(day=now / 24).time).cards


def test_undo_in_the_store_restores_every_card(tmp_path: Path, attempt: Any) -> None:
    with AttemptStore.open(tmp_path) as store:
        store.merge([attempt(day=0), attempt(day=0.01), attempt(CASES[1].slug, day=1)])
        now = attempt(day=8).time
        before = load_study(store, "Ilva", now).cards
        slip = attempt.detour(day=7)
        store.record(slip)
        assert load_study(store, "Ilva", now).cards != before
        store.undo(slip.uuid)
        assert load_study(store, "Ilva", now).cards == before
