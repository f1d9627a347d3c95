"""The end of a run: the best first, within sixty words, one thing to look at, and a small celebration."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from tests.screens.practice.sitting import begin, finish, practised_before, run_of, sits_down, texts
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.coach.guidance import Help
from tutor.counting import number
from tutor.cube.geometry import CORNER_CUBIES, EDGE_CUBIES
from tutor.cube.position import Slot
from tutor.method.answer import answer
from tutor.method.cases import CASES
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.state import RunPhase
from tutor.session.commands import Act
from tutor.solver.search import Solver
from tutor.ui.view import Look, Table, View

FIRST = "This is your first solve of this case without help."
MOST_WORDS = 60
"""On a card before "Tell me more": the budget that the issue gives."""


@pytest.fixture
def beginner(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


def tries(pilot: Pilot, help: Help = Help.ALONE, case: int = 20, slot: Slot = Slot.FR) -> None:
    pilot.application.give(TryCase(CASES[case].slug, slot, 0, help))
    pilot.settle()


def led_astray(pilot: Pilot) -> tuple[str, int]:
    """A turn beside the slot that makes the way longer, and is not just turned back: how it is written, its
    cost."""
    bearing = run_of(pilot).attempt.bearing()
    assert bearing is not None
    made = {each.judged.face for each in run_of(pilot).made[-1:]}
    here = answer(pilot.solver, bearing.position, bearing.task)
    for each in here.continuations:
        if each.lost and each.turn.face in bearing.task.working_faces - made:
            then = answer(pilot.solver, bearing.position.turned(each.turn), bearing.task)
            if then.lines[0][0].face is not each.turn.face:
                notation = bearing.turn_as_held(each.turn).notation
                pilot.turn(notation)
                return notation, each.lost
    raise AssertionError("every turn here is right, or is just turned back")


def words_said(view: View) -> int:
    """Words of the card that are to be read; what a button does is not."""
    reading = Reading(view)
    said = [*reading.texts, *(f"{note.title} {note.text}" for note in reading.verdicts)]
    for block in reading.blocks:
        if isinstance(block, Table):
            said += [*block.header, *(cell for row in block.rows for cell in row)]
    return sum(any(map(str.isalnum, word)) for text in said for word in text.split())


def table_of(pilot: Pilot) -> Table:
    return next(block for block in Reading(pilot.view).blocks if isinstance(block, Table))


def test_what_was_undone_and_the_hints_are_told_beside_the_turns(beginner: Pilot) -> None:
    tries(beginner, Help.WITH_HINTS)
    beginner.settle()
    led_astray(beginner)
    beginner.key("backspace")
    beginner.key("h")
    beginner.key("h")
    finish(beginner)
    assert "You undid one turn. You asked for help twice." in texts(beginner)
    tries(beginner)
    finish(beginner)
    assert not any("You undid" in text or "You asked for" in text for text in texts(beginner))


def test_the_turns_made_stand_beside_the_best_with_their_nouns(beginner: Pilot) -> None:
    tries(beginner)
    finish(beginner)
    best = table_of(beginner)
    assert best.header == ("You", "Best by hand")
    assert best.rows[1] == ("as few as the best", "none is shorter")
    assert best.rows[0][0] == best.rows[0][1]
    assert best.rows[0][0].endswith(" turns")
    assert Reading(beginner.view).verdicts[0].title == "Solved."
    assert "One thing to look at" not in texts(beginner)
    tries(beginner)
    wrong, cost = led_astray(beginner)
    finish(beginner)
    assert table_of(beginner).rows[1][0] == f"{number(cost)} more than the best"
    assert "One thing to look at: turn 1" in texts(beginner)
    assert f"with {wrong} instead of" in texts(beginner)
    assert Reading(beginner.view).button("Show where our ways split").action is Act.SHOW_SPLIT


def test_what_costs_most_is_shown_from_where_it_was_made(beginner: Pilot) -> None:
    tries(beginner, case=18)
    start = beginner.session.answers.at(run_of(beginner).attempt.bearing())
    assert start is not None
    beginner.turn(start.lines[0][0].notation)
    before = run_of(beginner).attempt.cube
    led_astray(beginner)
    finish(beginner)
    assert "One thing to look at: turn 2" in texts(beginner)
    beginner.key("p")
    assert beginner.session.demonstration is not None
    assert beginner.session.demonstration.start == before


def test_the_end_is_within_sixty_words_and_the_rest_comes_on_demand(beginner: Pilot) -> None:
    for case in (3, 13, 20, 37):
        begin(beginner)
        tries(beginner, Help.WITH_HINTS, case)
        led_astray(beginner)
        finish(beginner)
        assert words_said(beginner.view) <= MOST_WORDS
        brief = texts(beginner)
        beginner.key("e")
        assert len(texts(beginner)) > len(brief)
        assert "You solved the pair in" in texts(beginner)
        assert Reading(beginner.view).button("Do not count this")


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_nothing_of_the_end_is_hidden_by_the_main_button_in_the_smallest_window(
    beginner: Pilot, scale: float
) -> None:
    begin(beginner)
    tries(beginner, Help.WITH_HINTS)
    led_astray(beginner)
    finish(beginner)
    scene = layout(replace(beginner.view, look=Look(text_scale=scale)), 960, 640)
    card = next(panel for panel in scene.panels if panel.place is WindowPart.CARD)
    foot = [panel for panel in scene.panels if panel.place is WindowPart.FOOT]
    assert all(panel.rect.y >= card.rect.bottom for panel in foot)
    lowest = max(box.rect.bottom for box in card.boxes)
    assert lowest - card.scroll_limit <= card.rect.bottom


def test_the_first_solve_without_help_is_said_once_and_lights_the_pair_for_a_moment(beginner: Pilot) -> None:
    for reduced in (False, True):
        tries(beginner, case=20 + reduced, slot=Slot.BR)
        settings = replace(beginner.session.settings, reduced_motion=reduced)
        beginner.application.session = replace(beginner.session, settings=settings)
        finish(beginner)
        assert FIRST in texts(beginner)
        beginner.now += 1.0
        lit = stage_of(beginner)
        assert lit.glowing == {CORNER_CUBIES[Slot.BR.corner], EDGE_CUBIES[Slot.BR.edge]}
        assert lit.filled
        assert not beginner.moving
        beginner.wait(1.0)
        assert stage_of(beginner).glowing == frozenset()
    tries(beginner)
    finish(beginner)
    assert FIRST not in texts(beginner)
    assert stage_of(beginner).glowing == frozenset()


def test_with_a_hint_or_with_turns_shown_it_is_no_solve_without_help(beginner: Pilot) -> None:
    tries(beginner, Help.WITH_HINTS)
    beginner.key("h")
    finish(beginner)
    assert FIRST not in texts(beginner)
    tries(beginner, Help.LAST_TURN)
    finish(beginner)
    assert run_of(beginner).shown
    assert FIRST not in texts(beginner)
    tries(beginner, Help.WITH_HINTS)
    finish(beginner)
    assert FIRST in texts(beginner)


@pytest.mark.parametrize("sound", [False, True])
def test_a_chime_is_heard_once_for_a_solved_pair_by_those_who_want_sound(
    solver: Solver, tmp_path: Path, sound: bool
) -> None:
    practised_before(tmp_path)
    pilot = sits_down(solver, tmp_path)
    pilot.application.session = replace(pilot.session, settings=replace(pilot.session.settings, sound=sound))
    heard: list[str] = []
    pilot.rewire(chime=partial(heard.append, "chime"))
    tries(pilot)
    finish(pilot)
    pilot.wait(5.0)
    assert run_of(pilot).phase is RunPhase.OVER
    assert heard == (["chime"] if sound else [])
    tries(pilot)
    pilot.press("practice:GIVE_UP")
    pilot.settle()
    assert heard == (["chime"] if sound else [])
