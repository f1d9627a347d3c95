"""Learners renamed, joined, removed: whatever follows upon what, no attempt goes that should stay."""

import sqlite3
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from unicodedata import normalize

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.method.cases import CASES
from tutor.progress.attempt import GUEST
from tutor.progress.backup import BACKUPS, FILE
from tutor.progress.connection import loaded
from tutor.progress.interchange import parse_line
from tutor.progress.names import folded, known_as, same_learner
from tutor.progress.own_words import OwnWords
from tutor.progress.store import AttemptStore, StoreError

# From memory of the Unicode Standard: full case folding (ss for sharp s), composed and decomposed letters,
# full-width letters, the three forms of sigma.
ONE_LEARNER = (
    ("Ilva", "ILVA"),
    ("Zoë", normalize("NFD", "ZOË")),
    ("Strauß", "STRAUSS"),
    ("Ｉｌｖａ", "ilva"),
    ("ΣΟΦΟΣ", "σοφος"),
    ("Ravi ", "ravi"),
)
NAMES = ("Ilva", "ilva", "Zoë", normalize("NFD", "zoë"), "Ravi", GUEST, "guest", "Strauß", "STRAUSS")


@pytest.mark.parametrize(("one", "other"), ONE_LEARNER)
def test_names_that_differ_only_in_how_they_are_written_are_one(one: str, other: str) -> None:
    assert same_learner(one, other)
    assert known_as(other, ("Tova", one)) == one


@pytest.mark.parametrize(("one", "other"), [("Ilva", "Ilva M"), ("Zoë", "Zoe"), ("Ada", "Ida")])
def test_other_names_are_other_learners(one: str, other: str) -> None:
    # An accent makes another name: it is more than the way in which a name is written.
    assert not same_learner(one, other)
    assert known_as(other, (one,)) is None


def in_backups(folder: Path) -> set[str]:
    """The numbers of all attempts in any backup."""
    found: set[str] = set()
    for copy in (folder / BACKUPS).glob("*.sqlite"):
        with closing(loaded(copy)) as content:
            found |= {row[0] for row in content.execute("SELECT uuid FROM attempts").fetchall()}
    return found


def practise(store: AttemptStore, attempt: Any, name: str) -> str:
    """An attempt of a learner, however the name is written; its number."""
    made = attempt(learner=name)
    assert store.record(made)
    return str(made.uuid.hex)


_names = st.sampled_from(NAMES)
_steps = st.lists(
    st.one_of(
        st.tuples(st.just("practise"), _names, _names),
        st.tuples(st.sampled_from(("add", "rename", "join", "remove", "put back")), _names, _names),
    ),
    max_size=14,
)


@given(steps=_steps)
@settings(max_examples=20, deadline=None)
def test_after_any_changes_to_learners_only_the_attempts_of_removed_ones_are_gone(
    attempt_maker: Any, steps: list[tuple[str, str, str]]
) -> None:
    attempt, model, removed = attempt_maker(), {folded(GUEST): set[str]()}, set[str]()
    copies: list[tuple[str, Path, set[str]]] = []
    with TemporaryDirectory() as folder, AttemptStore.open(Path(folder)) as store:
        for what, one, other in steps:
            first, second = folded(one), folded(other)
            if what == "practise":
                model.setdefault(first, set()).add(practise(store, attempt, one))
            elif what == "add":
                store.add_learner(one)
                model.setdefault(first, set())
            elif what == "put back":
                if copies:
                    name, copy, numbers = copies.pop()
                    store.put_back(name, copy)
                    model.setdefault(folded(name), set()).update(numbers)
                    removed -= numbers
            elif first not in model or (what == "join" and (second not in model or first == second)):
                # Nobody to change; the store refuses, and the rest of the model stays.
                if what != "remove":
                    with pytest.raises(StoreError):
                        store.rename(one, "Nobody") if what == "rename" else store.join(one, other)
            elif what == "rename" and second in model and second != first:
                with pytest.raises(StoreError, match="there is already a learner called"):
                    store.rename(one, other)
            elif what == "remove":
                name = known_as(one, store.learners()) or ""
                copies.append((name, store.reset(name), set(model[first])))
                removed |= model.pop(first)
            else:
                store.rename(one, other) if what == "rename" else store.join(one, other)
                numbers = model.pop(first)
                model.setdefault(second, set()).update(numbers)
            model.setdefault(folded(GUEST), set())
            found: dict[str, set[str]] = {folded(name): set() for name in store.learners()}
            for each in store.attempts():
                found[folded(each.learner)].add(each.uuid.hex)
            assert found == model
            assert store.notices == ()
        assert removed <= in_backups(Path(folder))


@given(data=st.data())
@settings(max_examples=8, deadline=None)
def test_a_renamed_learner_has_the_same_attempts_to_the_last_digit(any_attempt: Any, data: Any) -> None:
    # The line is rewritten without being read as an attempt, so it must say the same as before.
    made = data.draw(st.lists(any_attempt, max_size=3, unique_by=lambda each: each.uuid))
    with TemporaryDirectory() as folder, AttemptStore.open(Path(folder)) as store:
        store.add_learner("Ilva")
        for each in made:
            store.record(msgspec.structs.replace(each, learner="ilva"))
        before = store.attempts("Ilva")
        assert store.rename("ILVA", "Tova") == "Tova"
        assert store.attempts("Tova") == tuple(
            msgspec.structs.replace(each, learner="Tova") for each in before
        )
        assert (store.learners(), len(before)) == ((GUEST, "Tova"), len(made))
        with closing(sqlite3.connect(Path(folder) / FILE)) as connection:
            for name, line in connection.execute("SELECT learner, line FROM attempts").fetchall():
                assert (name, parse_line(line).learner) == ("Tova", "Tova")


def test_of_own_words_the_later_stay_after_a_join(tmp_path: Path, clock: Any) -> None:
    first, second = CASES[0].slug, CASES[1].slug
    with AttemptStore.open(tmp_path, clock) as store:
        store.write_own(OwnWords("Ilva", first, clock(), "older"))
        store.write_own(OwnWords("ravi", second, clock(), "older too"))
        clock.go_on(hours=1)
        store.write_own(OwnWords("Ravi", first, clock(), "later"))
        store.write_own(OwnWords("ILVA", second, clock(), "later too"))
        store.join("Ravi", "Ilva")
        assert [(each.learner, each.case, each.text) for each in store.own_words()] == sorted(
            [("Ilva", first, "later"), ("Ilva", second, "later too")]
        )


def test_a_file_that_has_a_learner_twice_has_one_after_it_was_opened(tmp_path: Path, attempt: Any) -> None:
    with AttemptStore.open(tmp_path) as store:
        for _ in range(2):
            store.record(attempt(learner="Ilva"))
    with closing(sqlite3.connect(tmp_path / FILE)) as connection, connection:
        # As a program of before wrote it, which took in what files said.
        connection.execute("INSERT INTO learners VALUES ('ilva'), ('guest')")
        connection.execute(
            "UPDATE attempts SET learner = 'ilva', line = replace(line, 'Ilva', 'ilva') "
            "WHERE uuid = (SELECT min(uuid) FROM attempts)"
        )
    with AttemptStore.open(tmp_path) as store:
        assert [folded(name) for name in store.learners()] == ["guest", "ilva"]
        assert len(store.attempts("ilva")) == 2
        assert len(store.attempts()) == 2
    assert list((tmp_path / BACKUPS).glob("before-join-*"))


def test_a_restored_backup_takes_the_place_of_all_for_every_process(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    first, second = attempt(), attempt(day=1.0)
    with AttemptStore.open(tmp_path, clock) as store, AttemptStore.open(tmp_path, clock) as other:
        store.record(first)
        backup = store.back_up(tmp_path / "mine.sqlite")
        other.record(second)
        kept = store.restore(backup)
        assert store.attempts() == other.attempts() == (first,)
        assert other.record(second)
        assert store.attempts() == (first, second)
        with closing(loaded(kept)) as content:
            assert content.execute("SELECT count(*) FROM attempts").fetchone() == (2,)


@pytest.mark.parametrize("content", [None, b"", b"no database at all" * 100])
def test_what_is_no_backup_is_refused_and_nothing_changes(
    tmp_path: Path, attempt: Any, content: bytes | None
) -> None:
    wrong = tmp_path / "wrong.sqlite"
    if content is not None:
        wrong.write_bytes(content)
    with AttemptStore.open(tmp_path / "home") as store:
        store.record(attempt())
        with pytest.raises(StoreError, match=r"cannot restore .*wrong\.sqlite: "):
            store.restore(wrong)
        assert len(store.attempts()) == 1
    assert not list((tmp_path / "home" / BACKUPS).glob("before-restore-*"))
