"""Whole solves as text and as files: what is written comes back, and damage is named."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import Pilot, Reading
from tutor.app.files.solves import SolvesShelf, load_shelf, save_solve
from tutor.cube.faces import TURNS, Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move, parse_moves
from tutor.cube.position import Slot
from tutor.cube.random_position import random_position
from tutor.cube.symmetry import ROTATIONS
from tutor.screens.solve import words
from tutor.screens.solve.commands import (
    DropSolve,
    KeepSolve,
    LookForSolves,
    ShelfEffect,
    SolveAct,
    SolveFrom,
    SolveKept,
    SolvesFound,
)
from tutor.screens.solve.review import reopened, saved
from tutor.screens.solve.saved import (
    HEADING,
    SavedSolve,
    SavedSolveError,
    Shelf,
    ShelfEntry,
    format_saved,
    parse_saved,
)
from tutor.screens.solve.state import SHELF, SOLVE, SolvePlay
from tutor.session.commands import Act
from tutor.session.history import History
from tutor.session.state import Attempt
from tutor.session.target import aim_at
from tutor.solver.search import Solver
from tutor.ui.view import Button

MOMENT = 1795600000.0


def some_solve(seed: int = 1) -> SavedSolve:
    random = Random(seed)
    moves: tuple[Move, ...] = (*parse_moves("y Rw x2"), *random.choices(TURNS, k=seed))
    times = tuple(float(number) for number in range(len(moves)))
    start = HeldCube(random_position(random), random.choice(ROTATIONS))
    some = (None, frozenset({Face.F, Face.R}), frozenset({Face.B, Face.L}))
    pairs = tuple(random.choice(some) for _ in moves) if seed % 3 else ()
    return SavedSolve(start, Face.L, "R U2 F'" if seed % 2 else "", moves, times, pairs)


@pytest.mark.parametrize("seed", range(8))
def test_writing_and_reading_a_solve_are_each_others_inverse(seed: int) -> None:
    assert parse_saved(format_saved(some_solve(seed))) == some_solve(seed)


def test_a_solve_without_a_move_comes_back() -> None:
    solve = SavedSolve(HeldCube(), Face.D, "", (), ())
    assert parse_saved(format_saved(solve)) == solve
    assert solve.two_layers_home


@pytest.mark.parametrize(
    ("line", "text"),
    [
        (1, "Somebody else's solve"),
        (2, "cross: violet"),
        (3, "scramble: R Q"),
        (4, "start: U: www www www"),
        (5, "moves: R U Q"),
        (6, "times: 1.0 nan"),
        (6, "times: 3.0 1.0"),
        (6, "times: 1.0"),
        (6, "hours: 1.0"),
        (7, "pairs: gr"),
        (7, "pairs: gg - - -"),
        (7, "pairs: gx - - -"),
        (8, "more: 1"),
    ],
)
def test_damage_is_named_with_its_line(line: int, text: str) -> None:
    lines = format_saved(some_solve()).splitlines()
    lines[line - 1 : line] = [text]
    with pytest.raises(SavedSolveError, match=f"line {line}:"):
        parse_saved("\n".join(lines))


def test_a_file_of_the_former_form_is_read_without_pairs() -> None:
    solve = some_solve()
    lines = format_saved(solve).splitlines()
    former = "\n".join((lines[0].replace("form 2", "form 1"), *lines[1:6]))
    assert parse_saved(former) == replace(solve, pairs=())


def test_the_pairs_chosen_come_back_with_what_each_kept() -> None:
    """Two pairs out; the one at the front left is solved first, and from then on it is kept."""
    start = HeldCube().after(parse_moves("R U R' L' U' L"))
    history = History(start).extended(parse_moves("L' U L R U' R'"))
    first = aim_at(start, Face.D, Slot.FL)
    then = aim_at(history.cube_at(3), Face.D, Slot.FR)
    assert (len(first.keep), len(then.keep)) == (2, 3)
    times = tuple(map(float, range(6)))
    solve = SolvePlay(Attempt(history), Face.D, times=times, aims=(first,) * 3 + (then,) * 3)
    again = parse_saved(format_saved(saved(solve)))
    assert reopened(ShelfEntry("name", "today", again), 10.0).aims == solve.aims


def test_positions_that_no_turns_can_make_are_refused() -> None:
    text = format_saved(some_solve())
    start = next(line for line in text.splitlines() if line.startswith("start:"))
    swapped = start[::-1].replace(start[-1], "?", 1).replace("?", "w" if start[-1] != "w" else "y")[::-1]
    with pytest.raises(SavedSolveError, match="line 4:"):
        parse_saved(text.replace(start, swapped))


# ----------------------------------------------------------------------------------------------- files


def test_solves_come_back_from_their_folder_the_latest_first(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "solves"
    names = [save_solve(folder, some_solve(seed), "", MOMENT + seed) for seed in (1, 2, 3)]
    shelf = load_shelf(folder)
    assert [entry.name for entry in shelf.entries] == names[::-1]
    assert [entry.solve for entry in shelf.entries] == [some_solve(seed) for seed in (3, 2, 1)]
    assert sorted(path.suffix for path in folder.iterdir()) == [".txt"] * 3


def test_two_solves_of_one_second_have_two_files_and_a_kept_one_is_written_over(tmp_path: Path) -> None:
    first = save_solve(tmp_path, some_solve(1), "", MOMENT)
    second = save_solve(tmp_path, some_solve(2), "", MOMENT)
    assert first != second
    assert save_solve(tmp_path, some_solve(3), first, MOMENT + 60) == first
    kept = {entry.name: entry.solve for entry in load_shelf(tmp_path).entries}
    assert kept == {first: some_solve(3), second: some_solve(2)}


def test_a_name_never_leads_out_of_the_folder(tmp_path: Path) -> None:
    name = save_solve(tmp_path / "solves", some_solve(), "../elsewhere", MOMENT)
    assert [path.name for path in tmp_path.iterdir()] == ["solves"]
    assert (tmp_path / "solves" / f"{name}.txt").exists()


@pytest.mark.parametrize("content", [b"", b"\xff\xfe", HEADING.encode(), b"x" * 300_000])
def test_damaged_files_are_left_out_and_named(tmp_path: Path, content: bytes) -> None:
    save_solve(tmp_path, some_solve(), "", MOMENT)
    (tmp_path / "other.txt").write_bytes(content)
    shelf = load_shelf(tmp_path)
    assert shelf.damaged == ("other.txt",)
    assert len(shelf.entries) == 1


def test_a_folder_that_is_not_there_holds_nothing(tmp_path: Path) -> None:
    shelf = load_shelf(tmp_path / "nowhere")
    assert (shelf.entries, shelf.damaged) == ((), ())


def test_a_kept_solve_is_on_the_shelf(tmp_path: Path) -> None:
    shelf = SolvesShelf(tmp_path, lambda: MOMENT)
    kept = shelf.carry_out(KeepSolve(4.0, "", some_solve()))
    found = shelf.carry_out(LookForSolves())
    assert isinstance(kept, SolveKept)
    assert isinstance(found, SolvesFound)
    assert (kept.began, kept.problem) == (4.0, "")
    assert [entry.name for entry in found.shelf.entries] == [kept.name]


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    shelf = SolvesShelf(tmp_path / "file" / "solves", lambda: MOMENT)
    kept = shelf.carry_out(KeepSolve(1.0, "", some_solve()))
    assert isinstance(kept, SolveKept)
    assert "The program could not save this solve: " in kept.problem


# ---------------------------------------------------------------------------------------------- deleting


def test_a_deleted_solve_is_gone_and_nothing_else_is(tmp_path: Path) -> None:
    folder = tmp_path / "solves"
    first, second = (save_solve(folder, some_solve(seed), "", MOMENT + seed) for seed in (1, 2))
    (tmp_path / "solves.txt").write_text("beside the folder")
    shelf = SolvesShelf(folder)
    for name in (first, "../solves", "never there"):
        found = shelf.carry_out(DropSolve(name))
        assert isinstance(found, SolvesFound)
        assert found.problem == ""
    assert [entry.name for entry in load_shelf(folder).entries] == [second]
    assert (tmp_path / "solves.txt").exists()


def test_a_solve_that_cannot_be_deleted_is_told_and_stays_listed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = save_solve(tmp_path, some_solve(), "", MOMENT)

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "unlink", refuse)
    shelf = SolvesShelf(tmp_path)
    found = shelf.carry_out(DropSolve(name))
    assert isinstance(found, SolvesFound)
    assert f"{name}.txt" in found.problem
    assert [entry.name for entry in found.shelf.entries] == [name]


@pytest.fixture
def shelved(solver: Solver, tmp_path: Path) -> Pilot:
    """The page of whole solves with two saved ones."""
    for seed in (1, 2):
        save_solve(tmp_path, some_solve(seed), "", MOMENT + 60 * seed)
    pilot = Pilot(solver, shelf=SolvesShelf(tmp_path))
    pilot.press("open:SOLVE")
    pilot.settle()
    return pilot


def listed(pilot: Pilot) -> list[str]:
    return [entry.name for entry in SHELF.of(pilot.session).entries]


def test_a_saved_solve_is_deleted_once_one_has_said_so_twice(shelved: Pilot, tmp_path: Path) -> None:
    later, earlier = listed(shelved)
    shelved.press(Reading(shelved.view).button("Delete some").action)
    shelved.press(f"delete:{later}")
    assert listed(shelved) == [later, earlier], "nobody was asked yet"
    shelved.press(f"delete?:{later}")
    shelved.press(Reading(shelved.view).button("Delete it for good").action)
    shelved.settle()
    assert listed(shelved) == [earlier]
    assert [path.stem for path in tmp_path.glob("*.txt")] == [earlier]


def test_a_deletion_that_is_answered_late_leaves_the_next_question_standing(shelved: Pilot) -> None:
    later, earlier = listed(shelved)
    shelved.press("solve:DELETE_SOME")
    shelved.press(f"delete?:{later}")
    shelved.press(f"delete:{later}")
    shelved.press(f"delete?:{earlier}")
    shelved.settle()
    assert listed(shelved) == [earlier]
    assert "Delete it for good" in labels(shelved)


def test_solves_of_one_minute_are_told_apart_before_one_is_deleted(solver: Solver, tmp_path: Path) -> None:
    for second in (0, 0, 1):
        save_solve(tmp_path, some_solve(), "", MOMENT + second)
    pilot = Pilot(solver, shelf=SolvesShelf(tmp_path))
    pilot.press("open:SOLVE")
    pilot.settle()
    pilot.press("solve:DELETE_SOME")
    offered = [label for label in labels(pilot) if label.startswith("Delete 20")]
    assert [label.rpartition(":")[2] for label in offered] == ["41?", "40?", "40 (2)?"]


def test_a_solve_asked_about_can_stay_and_leaving_the_page_has_done_with_deleting(shelved: Pilot) -> None:
    before = listed(shelved)
    shelved.press("solve:DELETE_SOME")
    shelved.press(f"delete?:{before[0]}")
    shelved.press(Reading(shelved.view).button("Keep it").action)
    assert not any("for good" in label for label in labels(shelved))
    shelved.press("open:HOME")
    shelved.press("open:SOLVE")
    shelved.settle()
    assert listed(shelved) == before
    assert "Delete some" in labels(shelved)


def labels(pilot: Pilot) -> list[str]:
    return [block.label for block in Reading(pilot.view).blocks if isinstance(block, Button)]


# ------------------------------------------------------------------------------------------- in the window


def solving(pilot: Pilot) -> Pilot:
    """With a whole solve in hand."""
    pilot.press("open:SOLVE")
    pilot.press(Act.SCRAMBLE)
    pilot.settle()
    return pilot


def written(pilot: Pilot, moves: str) -> None:
    pilot.press(Act.WRITE)
    pilot.write(moves)
    pilot.key("enter")
    pilot.settle()


@pytest.mark.parametrize(("times", "kept"), [(1250, True), (1251, False)])
def test_what_is_saved_can_be_read_again_and_what_is_too_long_is_said(
    solver: Solver, tmp_path: Path, times: int, kept: bool
) -> None:
    pilot = solving(Pilot(solver, shelf=SolvesShelf(tmp_path)))
    written(pilot, f"(R U R' U'){times}")
    pilot.press(SolveAct.KEEP)
    pilot.settle()
    shelf = load_shelf(tmp_path)
    assert (len(shelf.entries), shelf.damaged) == (int(kept), ())
    assert [len(entry.solve.moves) for entry in shelf.entries] == [4 * times] * kept
    said = "a saved solve can have at most 5,000 moves; this one has 5,004."
    told = words.KEPT if kept else f"The program could not save this solve: {said}"
    assert pilot.view.notice == told
    assert held(SOLVE.of(pilot.session)).attempt.history.cursor == 4 * times


class Slow:
    """A shelf that answers for what is to be kept only when it is told to."""

    def __init__(self, shelf: SolvesShelf) -> None:
        self.shelf = shelf
        self.held: list[KeepSolve] = []

    def carry_out(self, effect: ShelfEffect) -> SolveKept | SolvesFound:
        if isinstance(effect, KeepSolve):
            self.held.append(effect)
            return SolvesFound(Shelf(), learner="nobody")
        return self.shelf.carry_out(effect)

    def answer(self, pilot: Pilot) -> None:
        pilot.application.give(held(self.shelf.carry_out(self.held.pop(0))))
        pilot.settle()


def test_keep_pressed_twice_before_the_disk_answers_saves_one_file(solver: Solver, tmp_path: Path) -> None:
    slow = Slow(SolvesShelf(tmp_path))
    pilot = solving(Pilot(solver))
    pilot.rewire(shelf=slow.carry_out)
    pilot.turn("R U F")
    for _ in range(2):
        pilot.press(SolveAct.KEEP)
        pilot.settle()
    assert len(slow.held) == 1
    slow.answer(pilot)
    assert pilot.view.notice == words.KEPT
    # Once it is answered, more turns go into the same file.
    pilot.turn("R")
    pilot.press(SolveAct.KEEP)
    pilot.settle()
    slow.answer(pilot)
    (entry,) = load_shelf(tmp_path).entries
    assert len(entry.solve.moves) == 4


def test_a_solve_that_ends_before_the_disk_answers_is_saved_to_its_end(
    solver: Solver, tmp_path: Path
) -> None:
    slow = Slow(SolvesShelf(tmp_path))
    pilot = Pilot(solver)
    pilot.rewire(shelf=slow.carry_out)
    pilot.application.give(SolveFrom(HeldCube().after(parse_moves("R U"))))
    pilot.settle()
    pilot.press(SolveAct.KEEP)
    pilot.turn("U' R'")
    assert held(SOLVE.of(pilot.session)).ended == 2
    slow.answer(pilot)
    slow.answer(pilot)
    (entry,) = load_shelf(tmp_path).entries
    assert (len(entry.solve.moves), slow.held) == (2, [])
