"""The words of practice: names of cases, locked choices, what is shown, and why an answer is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.screens.practice.sitting import practised_before, run_of, sits_down, texts
from tests.session.pilot import Pilot, Reading
from tutor.coach.guidance import Help
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, Case, parse_case
from tutor.progress.attempt import Mode
from tutor.screens.practice import words
from tutor.screens.practice.commands import Practise, TryCase
from tutor.screens.practice.state import RunPhase
from tutor.session.commands import Act
from tutor.session.keymap import bindings_of
from tutor.session.keys import sign_for
from tutor.solver.search import Solver
from tutor.ui.view import Button


@pytest.fixture
def beginner(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


def tries(pilot: Pilot, case: Case, help: Help, slot: Slot = Slot.FR, alignment: int = 0) -> None:
    pilot.application.give(TryCase(case.slug, slot, alignment, help))
    pilot.settle()


def buttons_of(pilot: Pilot) -> list[Button]:
    return [block for block in Reading(pilot.view).blocks if isinstance(block, Button)]


def practice_buttons(pilot: Pilot) -> dict[Mode, Button]:
    found = {}
    for button in buttons_of(pilot):
        if isinstance(button.action, Practise) and button.action.family is None:
            found[button.action.mode] = button
    return found


@pytest.mark.parametrize(
    ("cases", "met", "settled"),
    [
        (0, "You have met none.", "So far you have none."),
        (1, "You have met one.", "So far you have one."),
    ],
)
def test_a_locked_choice_says_what_unlocks_it_and_how_far_you_are(
    solver: Solver, tmp_path: Path, cases: int, met: str, settled: str
) -> None:
    practised_before(tmp_path, cases=cases)
    pilot = sits_down(solver, tmp_path)
    pilot.press("open:PRACTICE")
    buttons = practice_buttons(pilot)
    for mode in (Mode.SLIPPING, Mode.GLANCE):
        assert not buttons[mode].enabled
        assert buttons[mode].detail.endswith(f"Unlocks when you have met two cases. {met}")
    assert not buttons[Mode.STEADY].enabled
    assert buttons[Mode.STEADY].detail.endswith(
        f"Unlocks when you have solved two cases twice in a row, without a hint or a detour. {settled}"
    )
    assert buttons[Mode.TODAY].enabled


def test_with_two_cases_nothing_is_locked(solver: Solver, tmp_path: Path) -> None:
    practised_before(tmp_path, cases=2)
    pilot = sits_down(solver, tmp_path)
    pilot.press("open:PRACTICE")
    assert all(button.enabled for button in practice_buttons(pilot).values())
    assert "Unlocks" not in " ".join(button.detail for button in practice_buttons(pilot).values())


def test_the_case_shows_its_number_and_its_name_in_the_slot_with_the_cross_colour(beginner: Pilot) -> None:
    case = CASES[13]
    for slot in SLOTS:
        tries(beginner, case, Help.ALONE, slot)
        assert f"Case 14: {case.short_name(slot, 'white')}" in texts(beginner)
    settings = replace(beginner.session.settings, cross=beginner.session.settings.cross.opposite)
    beginner.application.session = replace(beginner.session, settings=settings)
    tries(beginner, case, Help.ALONE)
    assert f"Case 14: {case.short_name(Slot.FR, 'yellow')}" in texts(beginner)


def test_a_name_is_true_of_the_picture_beside_it_however_the_top_is_turned(beginner: Pilot) -> None:
    """Whether a name is true of a position is checked in tests/method/test_cases.py."""
    above = next(case for case in CASES if "corner in slot" not in case.short_name())
    for alignment in range(4):
        tries(beginner, above, Help.ALONE, alignment=alignment)
        named = f"Case {above.number}: {above.short_name(Slot.FR, 'white', alignment)}"
        assert Reading(beginner.view).texts[0] == named


def test_first_steps_are_said_to_be_shown_only_where_some_are(beginner: Pilot) -> None:
    only_insert, more = parse_case("corner-front-edge-back-right-up"), CASES[20]
    kinds = set()
    for case in (only_insert, more, *CASES[::8]):
        tries(beginner, case, Help.LAST_STEP)
        run = run_of(beginner)
        kinds.add(bool(run.shown))
        if run.shown:
            assert run.phase is RunPhase.SHOWING
            assert words.WATCH_FIRST_STEPS in texts(beginner)
        else:
            assert run.phase is RunPhase.TURNING
            assert words.ALL_YOURS in texts(beginner)
            assert words.WATCH_FIRST_STEPS not in texts(beginner)
    assert True in kinds


def test_the_way_is_shown_first_and_then_again(beginner: Pilot) -> None:
    tries(beginner, CASES[0], Help.ALONE)
    beginner.press("practice:GIVE_UP")
    beginner.settle()
    assert Reading(beginner.view).button("Show me the way").action is Act.SHOW_AGAIN
    beginner.key("a")
    beginner.wait(60.0)
    beginner.key("escape")
    tries(beginner, CASES[0], Help.ALONE)
    beginner.press("practice:GIVE_UP")
    beginner.settle()
    beginner.press("act:SHOW_AGAIN")
    beginner.settle()
    assert run_of(beginner).replayed
    assert Reading(beginner.view).button("Show again").action is Act.SHOW_AGAIN
    tries(beginner, CASES[0], Help.WATCH)
    beginner.wait(60.0)
    beginner.key("enter")
    beginner.settle()
    assert Reading(beginner.view).button("Show again").action is Act.SHOW_AGAIN


def test_a_case_left_early_is_told_not_to_count_as_watched(beginner: Pilot) -> None:
    tries(beginner, CASES[0], Help.WATCH)
    beginner.key("enter")
    assert "You left before the end, so this does not count as watched." in texts(beginner)


def test_a_button_of_a_run_shows_the_key_that_does_the_same(beginner: Pilot) -> None:
    tries(beginner, CASES[0], Help.WITH_HINTS)
    beginner.turn("U")
    pressed = {button.action: button.key for button in buttons_of(beginner)}
    for action in (Act.HINT, Act.UNDO, Act.WRITE):
        sign = sign_for(action, beginner.session.room, bindings_of(beginner.session))
        assert sign
        assert pressed[action] == sign
