"""The end of a whole solve: it stops, it is looked back on, kept, reopened, copied and shown again."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.solve.test_solving import (
    cross_made,
    down_of,
    driven,
    faces,
    hands,
    scrambled,
    solve_of,
    written,
)
from tests.session.held import held
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, rail_of, turn_count
from tutor.app.files.solves import SolvesShelf
from tutor.coach.catalogue import ENGLISH
from tutor.counting import counted
from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves, parse_moves, parse_turns
from tutor.cube.sticker_text import parse_stickers
from tutor.method.cases import CASES
from tutor.screens.free_play.state import FREE
from tutor.screens.practice.state import RUN
from tutor.screens.solve.commands import Reopen
from tutor.screens.solve.review import course_of, reading_of
from tutor.screens.solve.solving import SolveStand, stand
from tutor.screens.solve.state import SHELF
from tutor.session.cube_text import read_cube
from tutor.solver.search import Solver
from tutor.ui.inputs import LayerDragged
from tutor.ui.view import Button, Mark, Table

FIXED = 1795600000.0


@pytest.fixture
def keeping(solver: Solver, tmp_path: Path) -> Pilot:
    """A pilot whose solves are kept in a folder."""
    return Pilot(solver, shelf=SolvesShelf(tmp_path / "solves", lambda: FIXED))


def ended(pilot: Pilot, text: str = "R U R' U'") -> None:
    written(pilot, text)
    driven(pilot)
    pilot.settle()


def labels(pilot: Pilot) -> list[str]:
    return [block.label for block in Reading(pilot.view).blocks if isinstance(block, Button)]


def legs_table(pilot: Pilot) -> Table:
    (table,) = [block for block in Reading(pilot.view).blocks if isinstance(block, Table)]
    return table


def test_it_says_that_two_layers_are_home_and_that_the_last_layer_is_outside(pilot: Pilot) -> None:
    ended(pilot)
    texts = " ".join(Reading(pilot.view).texts)
    assert ENGLISH.say("solve.home") in texts
    assert ENGLISH.say("solve.outside") in texts


def test_turning_stops_there_and_free_play_goes_on(pilot: Pilot) -> None:
    ended(pilot)
    before = solve_of(pilot).attempt.cube
    pilot.key("u")
    pilot.give(LayerDragged(Turn.U.face, 1.5))
    assert solve_of(pilot).attempt.cube == before
    assert pilot.view.notice == ENGLISH.say("solve.stopped")
    pilot.key("y")  # to look at it from another side is no turn
    assert solve_of(pilot).attempt.cube != before
    assert stand(solve_of(pilot)) is SolveStand.DONE
    pilot.press(Reading(pilot.view).button("Finish in Free play").action)
    pilot.turn("U")
    assert FREE.of(pilot.session).history.notation == "U"


def test_the_review_tells_turns_and_fewest_of_every_leg(pilot: Pilot, solver: Solver) -> None:
    scrambled(pilot)
    driven(pilot)
    course = course_of(solve_of(pilot))
    reading = reading_of(pilot.session, course)
    assert reading is not None
    table = legs_table(pilot)
    assert [row[1:3] for row in table.rows] == [(str(e.leg.made), str(e.fewest)) for e in reading.legs]
    bays = rail_of(pilot).bays
    # At the end of the solve the last leg is looked at.
    figures = [tuple(tile.label for tile in bay.tiles) for bay in bays[:-1]]
    assert figures == [row[1:3] for row in table.rows[:-1]]
    assert sum(int(row[1]) for row in table.rows) == turn_count(solve_of(pilot).attempt.history)
    assert {tile.mark for tile in rail_of(pilot).own} == {Mark.OPTIMAL}


def test_the_best_of_the_leg_looked_at_lies_over_the_turns_made(pilot: Pilot, solver: Solver) -> None:
    scrambled(pilot)
    driven(pilot)
    solve, course = solve_of(pilot), course_of(solve_of(pilot))
    reading = reading_of(pilot.session, course)
    assert reading is not None
    for number, each in enumerate(reading.legs):
        pilot.press(f"jump:{each.leg.begin + 1}")
        start = solve.attempt.history.cube_at(each.leg.begin).position
        tiles = rail_of(pilot).bays[number].tiles
        line = parse_turns(" ".join(tile.label for tile in tiles))
        assert len(line) == each.fewest
        if each.leg.cross:
            assert start.after(line).cross_home
            continue
        assert start.after(line).home_pairs == each.leg.kept | set(each.leg.slots)
        assert faces(line) <= hands(start)
        (tile, *_) = tiles
        pilot.press(tile.action)
        assert pilot.session.demonstration is not None
        assert pilot.session.demonstration.turns == line
        pilot.key("escape")


def test_the_best_of_a_leg_is_named_as_the_cube_was_held_there(pilot: Pilot) -> None:
    """R U' R' brings the pair in; held after y, what was the right layer is the front one: F U' F'."""
    written(pilot, "L D L'")  # made with white on top: with the cross down R U R'
    pilot.turn("y")
    pilot.key("space")
    pilot.turn("F U' F'")
    (bay,) = rail_of(pilot).bays
    assert [tile.label for tile in bay.tiles] == ["F", "U'", "F'"]
    pilot.press(bay.tiles[0].action)
    shown = pilot.session.demonstration
    assert shown is not None
    assert shown.start == solve_of(pilot).attempt.history.cube_at(1)
    assert shown.start.after(shown.turns).position.two_layers_home


def test_a_way_other_than_the_shortest_is_marked_and_led_to_practice(pilot: Pilot) -> None:
    # Written with white on top: with the cross down it takes the front-right pair out, R U R'.
    written(pilot, "L D L'")
    pilot.key("space")
    pilot.settle()
    bearing = solve_of(pilot).attempt.bearing()
    assert bearing is not None
    answer = pilot.session.answers.get(bearing.position, bearing.task)
    assert answer is not None
    # Two opposite layers turned and turned back; a turn taken back at once would be none.
    first = bearing.turn_as_held(answer.lines[0][0])
    other = Turn.of(first.face.opposite, 1)
    pilot.now += 7.0
    pilot.turn(format_moves((first.inverse, other, first, other.inverse)))
    driven_on(pilot)
    texts = " ".join(Reading(pilot.view).texts)
    assert ENGLISH.say("solve.lost", extra=counted(4, "turn")) in texts
    assert [row[1:3] for row in legs_table(pilot).rows] == [("7", "3")]
    tries = [block for block in Reading(pilot.view).blocks if isinstance(block, Button)]
    actions = [action_name(block.action) for block in tries if action_name(block.action).startswith("try:")]
    assert 1 <= len(actions) <= 3
    slug = actions[0].rpartition(":")[2]
    (named,) = (block.detail for block in tries if action_name(block.action) == actions[0])
    (number,) = (number for number, case in enumerate(CASES, start=1) if case.slug == slug)
    assert named.startswith(f"Case {number}: ")
    assert "white" in named
    pilot.press(actions[0])
    pilot.settle()
    assert pilot.view.screen == "practice"
    assert RUN.of(pilot.session) is not None
    assert held(RUN.of(pilot.session)).case.slug == actions[0].rpartition(":")[2]


def driven_on(pilot: Pilot) -> None:
    """The pair in hand brought home by its shortest line, then the rest by the plan."""
    bearing = solve_of(pilot).attempt.bearing()
    assert bearing is not None
    answer = pilot.session.answers.get(bearing.position, bearing.task)
    assert answer is not None
    for turn in answer.lines[0]:
        pilot.turn(bearing.turn_as_held(turn).notation)
    driven(pilot)
    pilot.settle()


def test_the_fewest_of_a_leg_are_shown_from_where_it_was_begun(pilot: Pilot) -> None:
    scrambled(pilot)
    driven(pilot)
    reading = reading_of(pilot.session, course_of(solve_of(pilot)))
    assert reading is not None
    pilot.press(rail_of(pilot).bays[1].tiles[1].action)
    shown = pilot.session.demonstration
    assert shown is not None
    assert len(shown.turns) == reading.legs[1].fewest
    assert shown.start == solve_of(pilot).attempt.history.cube_at(reading.legs[1].leg.begin)


def test_one_can_go_back_into_a_solve_and_try_it_another_way(keeping: Pilot) -> None:
    ended(keeping)
    history = solve_of(keeping).attempt.history
    keeping.press("jump:1")
    assert stand(solve_of(keeping)) is SolveStand.DONE
    keeping.turn("D2")
    assert solve_of(keeping).ended is None
    assert stand(solve_of(keeping)) is SolveStand.CROSS
    # The solve that had ended is still there as it was.
    keeping.press("solve:NEW_SOLVE")
    keeping.settle()
    (entry,) = SHELF.of(keeping.session).entries
    assert entry.solve.moves == tuple(each.move for each in history.entries)


def test_turns_made_while_the_cube_is_turned_over_are_judged_in_one_frame(pilot: Pilot) -> None:
    scrambled(pilot)
    pilot.turn("y x2 Rw y'")
    cross_made(pilot)
    driven(pilot)
    course = course_of(solve_of(pilot))
    end = course.cube.position.after(course.turns)
    assert end.cross_home
    assert len(end.home_pairs) == 4
    assert len(course.turns) == turn_count(solve_of(pilot).attempt.history)
    assert reading_of(pilot.session, course) is not None


def test_a_pause_is_told_where_it_was(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    pilot.now += 8.0
    driven(pilot)
    assert any(text.startswith("8.0 s before the ") for text in Reading(pilot.view).texts)


def test_a_solve_that_ends_is_kept_by_itself_and_reopened_as_it_was(keeping: Pilot) -> None:
    ended(keeping, "R U2 F' D B2")
    before = solve_of(keeping)
    assert before.name
    keeping.press("solve:NEW_SOLVE")
    keeping.settle()
    (entry,) = [
        block for block in Reading(keeping.view).blocks if isinstance(getattr(block, "action", None), Reopen)
    ]
    assert isinstance(entry, Button)
    assert entry.detail.endswith(": two layers solved.")
    keeping.press(entry.action)
    keeping.settle()
    after = solve_of(keeping)
    assert after.attempt.history == before.attempt.history
    assert (after.cross, after.scramble, after.ended) == (before.cross, before.scramble, before.ended)
    assert stand(after) is SolveStand.DONE
    assert any("Best" in block.header for block in Reading(keeping.view).blocks if isinstance(block, Table))


def test_a_solve_in_hand_is_kept_on_request_in_one_file_and_goes_on(keeping: Pilot) -> None:
    scrambled(keeping)
    keeping.turn("R U")
    keeping.press(Reading(keeping.view).button("More choices").action)
    keeping.press(Reading(keeping.view).button("Keep this solve").action)
    keeping.settle()
    cross_made(keeping)
    driven(keeping)
    keeping.press("solve:NEW_SOLVE")
    keeping.settle()
    (entry,) = SHELF.of(keeping.session).entries
    assert entry.solve.two_layers_home


def test_a_reopened_solve_goes_on_from_its_last_move(keeping: Pilot) -> None:
    scrambled(keeping)
    keeping.now += 3.0
    keeping.turn("R")
    keeping.press("solve:KEEP")
    keeping.press("solve:NEW_SOLVE")
    keeping.now += 5000.0
    keeping.settle()
    keeping.press(f"reopen:{SHELF.of(keeping.session).entries[0].name}")
    keeping.now += 2.0
    keeping.turn("U")
    assert course_of(solve_of(keeping)).times == pytest.approx((3.0, 5.0))


def test_what_cannot_be_read_is_left_out_and_named(keeping: Pilot, tmp_path: Path) -> None:
    ended(keeping)
    (tmp_path / "solves" / "broken.txt").write_text("Pairwright whole solve, form 1\ncross: z\n")
    keeping.press("solve:NEW_SOLVE")
    keeping.settle()
    assert any("broken.txt" in text for text in Reading(keeping.view).texts)
    assert len(SHELF.of(keeping.session).entries) == 1


def test_a_solve_is_copied_as_notation_that_makes_it_again(pilot: Pilot) -> None:
    copied: list[str] = []
    pilot.application.copy_text = copied.append
    ended(pilot, "R U2 F' D B2")
    pilot.press(Reading(pilot.view).button("Copy the turns").action)
    lines = copied[0].splitlines()
    assert any(line.endswith(": R U2 F' D B2") for line in lines)
    faces = "\n".join(line for line in lines if line[:3] in ("U: ", "D: ", "L: ", "R: ", "F: ", "B: "))
    cube = read_cube(parse_stickers(faces))
    for line in lines:
        if "): " in line:
            cube = cube.after(parse_moves(line.partition("): ")[2]))
    assert cube == solve_of(pilot).attempt.cube
    assert len(down_of(pilot).position.home_pairs) == 4


def test_the_whole_solve_is_shown_again_slowly_to_its_end(pilot: Pilot) -> None:
    scrambled(pilot)
    driven(pilot)
    pilot.press(Reading(pilot.view).button("Show it slowly").action)
    shown = pilot.session.demonstration
    assert shown is not None
    assert shown.start == solve_of(pilot).attempt.history.start
    pilot.wait(300.0)
    assert shown.pose(pilot.now).cube == solve_of(pilot).attempt.cube
    pilot.key("escape")
    assert pilot.session.demonstration is None
    assert stand(solve_of(pilot)) is SolveStand.DONE


def test_from_free_play_one_asks_which_pair_first(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.key("n")
    pilot.settle()
    cube = FREE.of(pilot.session).cube
    assert cube.position.cross_home
    assert "Scramble all" in labels(pilot)
    pilot.press(Reading(pilot.view).button("Which pair first?").action)
    pilot.settle()
    assert pilot.view.screen == "solve"
    assert solve_of(pilot).attempt.cube == cube
    assert stand(solve_of(pilot)) is SolveStand.CHOOSING
    assert "Show the plan" not in labels(pilot)
    pilot.key("e")
    assert "Show the plan" in labels(pilot)
