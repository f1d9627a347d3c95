"""Where a learner stands, kept up attempt by attempt."""

from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.method.cases import CASES
from tutor.progress.store import Store
from tutor.progress.study import CHECKPOINT_EVERY, Study, load_study


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
    made = [attempt(CASES[index % 41].slug, day=index / 20) for index in range(CHECKPOINT_EVERY + 20)]
    now = made[-1].time
    with Store.open(tmp_path) as store:
        store.merge(made[:CHECKPOINT_EVERY])
        assert store.checkpoint("Ilva") is None
        assert load_study(store, "Ilva", now).cards == Study.of(made[:CHECKPOINT_EVERY], now).cards
        assert store.checkpoint("Ilva") is not None
        store.merge(made[CHECKPOINT_EVERY:])
        assert load_study(store, "Ilva", now).cards == Study.of(made, now).cards
        store.undo(made[7].uuid)
        without = [each for each in made if each is not made[7]]
        assert load_study(store, "Ilva", now).cards == Study.of(without, now).cards


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
