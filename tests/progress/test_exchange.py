"""Two progress files over a shared folder: whatever goes away and comes back, nothing is lost or doubled."""

from __future__ import annotations

import json
import os
import random
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import timedelta
from pathlib import Path
from types import SimpleNamespace
from uuid import UUID

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.progress.conftest import CLUB_EVENING, AttemptMaker
from tests.progress.test_killed import killed_sometime, share_until_killed
from tutor.method.cases import CASES
from tutor.progress.assignment import AssignedState, Assignment, lesson_task
from tutor.progress.attempt import GUEST, AttemptRecord
from tutor.progress.exchange import Exchange
from tutor.progress.interchange import parse_record
from tutor.progress.own_words import OwnWords
from tutor.progress.shared_folder import LONGEST_LINE, SharedFolder
from tutor.progress.store import AttemptStore


class Machine:
    """A progress file of its own, with a window on the shared folder."""

    def __init__(self, data: Path, shared: Path) -> None:
        self.store = AttemptStore.open(data)
        self.shared = shared
        self.exchange = Exchange(self.store, SharedFolder(shared))

    def starts_again(self) -> None:
        """Another window on the same progress file; the one before has just been killed."""
        self.exchange = Exchange(self.store, SharedFolder(self.shared))

    @property
    def numbers(self) -> list[UUID]:
        return sorted(each.uuid for each in self.store.attempts())


@pytest.fixture
def make() -> AttemptMaker:
    return AttemptMaker()


@pytest.fixture
def pair(tmp_path: Path) -> Iterator[tuple[Machine, Machine]]:
    shared = tmp_path / "shared"
    shared.mkdir()
    machines = Machine(tmp_path / "one", shared), Machine(tmp_path / "two", shared)
    yield machines
    for each in machines:
        each.store.close()


def lines_in(shared: Path) -> list[str]:
    return [line for file in sorted(shared.iterdir()) for line in file.read_text().splitlines()]


def test_what_one_window_records_comes_to_the_other_once(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    made, guests = make(learner="Ilva"), make(learner=GUEST)
    one.store.record(made)
    one.store.record(guests)
    assert one.exchange.carry_out().learners == frozenset()
    assert two.exchange.carry_out().learners == {"Ilva"}
    assert two.store.attempts() == (made,)
    for each in (*pair, *pair):
        assert each.exchange.carry_out().learners == frozenset()
    # Neither writes what the folder has, nor what the guest did, who is somebody else at the next machine.
    assert [json.loads(line)["uuid"] for line in lines_in(one.shared)] == [str(made.uuid)]


def test_a_learner_added_at_one_window_is_at_the_other_before_doing_anything(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    two.store.add_learner("Nao")
    for name in ("Ilva", "ravi", "NAO"):
        one.store.add_learner(name)
    one.store.record(make(learner="Ilva"))
    one.exchange.carry_out()
    two.exchange.carry_out()
    assert two.store.learners() == (GUEST, "Ilva", "Nao", "ravi")
    # A name is written once, whoever writes it, and not where attempts or notes carry it.
    for each in (*pair, *pair):
        assert each.exchange.carry_out().learners == frozenset()
    assert sorted(parse_record(line).learner for line in lines_in(one.shared)) == ["Ilva", "NAO", "ravi"]
    # It never takes the place of what the learner has written meanwhile.
    written = OwnWords("ravi", CASES[0].slug, make().time, "lift and join")
    two.store.write_own(written)
    two.exchange.carry_out()
    one.starts_again()
    one.exchange.carry_out()
    assert written in one.store.own_words()
    assert written in two.store.own_words()


def test_an_undone_attempt_is_undone_everywhere_and_stays_so(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    made = make()
    one.store.record(made)
    one.exchange.carry_out()
    two.exchange.carry_out()
    two.store.undo(made.uuid)
    assert two.exchange.carry_out().learners == frozenset()
    assert one.exchange.carry_out().learners == {"Ilva"}
    for each in pair:
        each.starts_again()
        each.exchange.carry_out()
        assert each.numbers == []


def test_what_was_undone_here_is_undone_where_it_comes_from_though_nothing_else_happens(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    made = make()
    for each in pair:
        each.store.record(made)
    two.store.undo(made.uuid)
    for each in (two, two, one, two, one):
        each.exchange.carry_out()
    assert one.numbers == two.numbers == []


def test_to_do_lists_and_own_words_go_along_and_the_later_counts(pair: tuple[Machine, Machine]) -> None:
    one, two = pair
    given = Assignment("Ilva", lesson_task("made-pair"), CLUB_EVENING, CLUB_EVENING)
    later = CLUB_EVENING + timedelta(minutes=1)
    done = Assignment("ILVA", given.task, later, CLUB_EVENING, state=AssignedState.DONE)
    own = OwnWords("Ilva", CASES[2].slug, CLUB_EVENING, "over the top")
    one.store.assign(given)
    one.store.write_own(own)
    one.exchange.carry_out()
    assert two.exchange.carry_out().learners == {"Ilva"}
    assert two.store.notes() == (own, given)
    two.store.assign(done)
    two.exchange.carry_out()
    assert one.exchange.carry_out().learners
    assert [each.state for each in one.store.assignments("Ilva")] == [AssignedState.DONE]
    written = len(lines_in(one.shared))
    for each in (*pair, *pair):
        each.exchange.carry_out()
    assert len(lines_in(one.shared)) == written


def test_while_the_folder_is_away_everything_is_kept_and_comes_later(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    away = one.shared.with_name("away")
    first, second, third = make(), make(), make(learner="Ode")
    one.store.record(first)
    one.exchange.carry_out()
    one.shared.rename(away)
    one.store.record(second)
    two.store.record(third)
    for each in pair:
        with pytest.raises(FileNotFoundError):
            each.exchange.carry_out()
    assert not one.shared.exists(), "nobody makes a folder in the place of one that is away"
    away.rename(one.shared)
    for each in (*pair, *pair):
        each.exchange.carry_out()
    expected = sorted(each.uuid for each in (first, second, third))
    assert one.numbers == two.numbers == expected
    assert sorted(json.loads(line)["uuid"] for line in lines_in(one.shared)) == sorted(map(str, expected))


def test_another_folder_in_its_place_gets_everything(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    for _ in range(3):
        one.store.record(make())
    one.exchange.carry_out()
    shutil.rmtree(one.shared)
    one.shared.mkdir()
    one.exchange.carry_out()
    two.exchange.carry_out()
    assert one.numbers == two.numbers
    assert len(two.numbers) == 3


def test_a_line_that_is_still_being_written_comes_when_it_is_whole(
    pair: tuple[Machine, Machine], make: AttemptMaker, tmp_path: Path
) -> None:
    one, two = pair
    one.store.record(make())
    one.exchange.carry_out()
    (file,) = one.shared.iterdir()
    whole = file.read_bytes()
    file.write_bytes(whole[:40])
    assert two.exchange.carry_out() == two.exchange.carry_out()
    assert two.numbers == []
    file.write_bytes(whole)
    two.exchange.carry_out()
    assert two.numbers == one.numbers


def test_a_file_cut_short_by_another_program_is_made_good(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    for _ in range(2):
        one.store.record(make())
    one.exchange.carry_out()
    (file,) = one.shared.iterdir()
    file.write_bytes(file.read_bytes()[:40])
    one.exchange.carry_out()
    two.exchange.carry_out()
    assert two.numbers == one.numbers


def test_files_that_are_none_of_ours_are_passed_by_or_counted(
    pair: tuple[Machine, Machine], make: AttemptMaker
) -> None:
    one, two = pair
    os.mkfifo(one.shared / "pairwright-pipe.jsonl")
    (one.shared / "pairwright-loop.jsonl").symlink_to("pairwright-loop.jsonl")
    (one.shared / "pairwright-folder.jsonl").mkdir()
    (one.shared / "holiday.jsonl").write_text("sand\n")
    (one.shared / "pairwright-odd.jsonl").write_bytes(b'\x00\n{"undone":"no"}\nnull\n')
    (one.shared / "pairwright-long.jsonl").write_bytes(b"x" * (LONGEST_LINE + 1))
    one.store.record(make())
    assert one.exchange.carry_out().refused == 4
    taken = two.exchange.carry_out()
    assert taken.refused == 4
    assert two.numbers == one.numbers
    assert two.exchange.carry_out().refused == 4, "each is counted once"


ACTS = st.lists(
    st.tuples(st.sampled_from(("record", "undo", "exchange", "kill", "leave", "wipe", "cut")), st.booleans()),
    max_size=24,
)


@given(ACTS)
@example([("record", True), ("exchange", True), ("kill", True), ("exchange", True), ("wipe", True)])
@example([("record", True), ("exchange", True), ("exchange", False), ("undo", False), ("exchange", False)])
@example([("record", True), ("wipe", True), ("undo", True), ("exchange", False), ("exchange", True)])
@settings(max_examples=60)
def test_whatever_happens_in_whatever_order_both_have_the_same_in_the_end(
    tmp_path_factory: pytest.TempPathFactory, acts: list[tuple[str, bool]]
) -> None:
    """Held against a plain set of what was recorded and undone."""
    folder = tmp_path_factory.mktemp("exchange")
    shared, away, make = folder / "shared", folder / "away", AttemptMaker()
    shared.mkdir()
    machines = Machine(folder / "one", shared), Machine(folder / "two", shared)
    expected: set[UUID] = set()
    for act, first in acts:
        machine = machines[0] if first else machines[1]
        match act:
            case "record":
                made = make()
                machine.store.record(made)
                expected.add(made.uuid)
            case "undo" if machine.numbers:
                machine.store.undo(gone := machine.numbers[0])
                expected.discard(gone)
            case "exchange":
                with suppress(OSError):
                    machine.exchange.carry_out()
            case "kill":
                machine.starts_again()
            case "leave":
                (shared if shared.exists() else away).rename(away if shared.exists() else shared)
            case "wipe" | "cut" if shared.exists():
                for file in shared.iterdir():
                    # Half a line is left, as where a stick was pulled out while it was written.
                    file.unlink() if act == "wipe" else os.truncate(file, file.stat().st_size // 2)
    if away.exists():
        away.rename(shared)
    # A third machine comes at the end: what the other two know of each other does not help it.
    third = Machine(folder / "three", shared)
    for each in (*machines, third, *machines, third):
        each.exchange.carry_out()
    assert [each.numbers for each in (*machines, third)] == [sorted(expected)] * 3
    for each in (*machines, third):
        each.store.close()


def kill_while_sharing(folder: Path, times: int) -> int:
    """Kill a window that shares, again and again, while its folder comes and goes; how many were kept."""
    drawn, (shared, away) = random.Random(7), (folder / "shared", folder / "away")
    shared.mkdir()
    kept, begun = set[str](), set[str]()
    for number in range(times):
        if number % 5 == 3:
            shared.rename(away)
        said = killed_sometime(folder, drawn, share_until_killed)
        if away.exists():
            away.rename(shared)
        kept |= said["kept"]
        begun |= said["begun"]
    one, two = Machine(folder / "one", shared), Machine(folder / "two", shared)
    for each in (one, two):
        each.exchange.carry_out()
    # Nothing that was kept is missing at the other machine, nothing is there that nobody made or twice.
    found = [number.hex for number in two.numbers]
    assert kept <= set(found) <= begun
    assert two.numbers == one.numbers
    assert len(found) == len(set(found))
    for each in (one, two):
        each.store.close()
    return len(kept)


def test_a_window_killed_ten_times_shares_everything_it_kept(tmp_path: Path) -> None:
    assert kill_while_sharing(tmp_path, 10)


@pytest.mark.slow
def test_a_window_killed_two_hundred_times_shares_everything_it_kept(tmp_path: Path) -> None:
    kept = kill_while_sharing(tmp_path, 200)
    print(f"{kept} attempts kept and shared over 200 kills")
    assert kept > 200


def test_the_lines_are_those_of_an_export(pair: tuple[Machine, Machine], make: AttemptMaker) -> None:
    """So a file of the folder can be imported anywhere, as an exported one can."""
    one, _ = pair
    made: AttemptRecord = make()
    one.store.record(made)
    one.exchange.carry_out()
    assert [parse_record(line) for line in lines_in(one.shared)] == [made]


def test_what_a_folder_tells_of_its_files_on_windows_is_not_believed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # There DirEntry.stat has no number of the file (docs.python.org, os.DirEntry.stat), and its size is that
    # of the folder's own list, which on another machine is up to ten seconds old (learn.microsoft.com: SMB
    # clients' DirectoryCacheLifetime).
    real = os.scandir

    @contextmanager
    def listed(folder: Path) -> Iterator[list[SimpleNamespace]]:
        with real(folder) as entries:
            stale = os.stat_result((0o100600, 0, 0, 0, 0, 0, 0, 0, 0, 0))
            yield [SimpleNamespace(name=e.name, is_file=e.is_file, stat=lambda **_: stale) for e in entries]

    monkeypatch.setattr("os.scandir", listed)
    one, other = SharedFolder(tmp_path), SharedFolder(tmp_path)
    one.append(["first"])
    assert one.is_as_left()
    assert other.is_as_left()
    assert list(other.news()) == [b"first"]
    # A synced file is put in place of the one before.
    (written,) = tmp_path.iterdir()
    written.rename(tmp_path / "aside")
    written.write_bytes(b"other\nlines\n")
    assert other.is_as_left()
    assert list(other.news()) == [b"other", b"lines"]
