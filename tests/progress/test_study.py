"""Where a learner stands, kept up attempt by attempt."""

from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.method.cases import CASES
from tutor.progress.attempt import Attempt
from tutor.progress.store import Store
from tutor.progress.study import UNSETTLED, Study, load_study


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


def test_a_store_is_read_to_the_same_end_with_and_without_a_checkpoint(tmp_path: Path, attempt: Any) -> None:
    made = [attempt(CASES[index % 41].slug, day=index / 20) for index in range(3 * UNSETTLED)]
    now = made[-1].time
    with Store.open(tmp_path) as store:

        def stands_as_after(attempts: list[Attempt]) -> bool:
            return bool(load_study(store, "Ilva", now).cards == Study.of(attempts, now).cards)

        store.merge(made[:UNSETTLED])
        assert stands_as_after(made[:UNSETTLED])
        assert store.checkpoint("Ilva") is None
        store.merge(made[: 2 * UNSETTLED])
        assert stands_as_after(made[: 2 * UNSETTLED])
        checkpoint = store.checkpoint("Ilva")
        assert checkpoint is not None
        store.undo(made[2 * UNSETTLED - 1].uuid)
        assert stands_as_after(made[: 2 * UNSETTLED - 1])
        store.merge(made[2 * UNSETTLED :])
        store.undo(made[7].uuid)
        left = [each for each in made if each not in (made[7], made[2 * UNSETTLED - 1])]
        assert stands_as_after(left)
        assert store.checkpoint("Ilva") != checkpoint


def test_a_clock_that_ran_ahead_leads_to_the_same_end_too(tmp_path: Path, attempt: Any) -> None:
    made = [attempt(CASES[index % 5].slug, day=index / 20) for index in range(2 * UNSETTLED)]
    now = made[-20].time
    with Store.open(tmp_path) as store:
        store.merge(made)
        first = load_study(store, "Ilva", now).cards
        assert store.checkpoint("Ilva") is not None
        assert first == load_study(store, "Ilva", now).cards == Study.of(made, now).cards


def test_undo_in_the_store_restores_every_card(tmp_path: Path, attempt: Any) -> None:
    with Store.open(tmp_path) as store:
        store.merge([attempt(day=0), attempt(day=0.01), attempt(CASES[1].slug, day=1)])
        now = attempt(day=8).time
        before = load_study(store, "Ilva", now).cards
        slip = attempt.detour(day=7)
        store.record(slip)
        assert load_study(store, "Ilva", now).cards != before
        store.undo(slip.uuid)
        assert load_study(store, "Ilva", now).cards == before
