"""Practice: one case after the other, through the real application."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot, Reading
from tutor.coach.guidance import Guidance, Help, Remedy
from tutor.method.cases import CASES
from tutor.session.choosing import Pool, next_case, standing
from tutor.session.state import CaseRun, Phase

KNOWN = Guidance(Help.ALONE, 3, known=True)
SHAKY = Guidance(Help.WITH_HINTS, 2)
FAILED = Guidance(Help.WATCH, 4, failures=2, remedy=Remedy.SEE_IT)


def run_of(pilot: Pilot) -> CaseRun:
    assert pilot.session.run is not None
    return pilot.session.run


def finish(pilot: Pilot) -> None:
    """Whatever the run asks, by a shortest line."""
    pilot.settle()
    if run_of(pilot).phase is Phase.SHOWING:
        pilot.wait(90.0)
        pilot.key("enter")
        pilot.settle()
    while run_of(pilot).phase is Phase.TURNING:
        bearing = run_of(pilot).attempt.bearing()
        assert bearing is not None
        answer = pilot.session.answers.get(bearing.position, bearing.task)
        assert answer is not None
        pilot.turn(answer.lines[0][0].notation)


def test_what_went_wrong_comes_before_what_is_half_known_and_that_before_what_is_new() -> None:
    guidance = {CASES[0].slug: KNOWN, CASES[1].slug: SHAKY, CASES[2].slug: FAILED}
    assert next_case(Pool.ALL, guidance, None) is CASES[2]
    assert next_case(Pool.ALL, guidance, CASES[2]) is CASES[1]
    del guidance[CASES[1].slug]
    assert next_case(Pool.ALL, guidance, CASES[2]) is CASES[1]
    guidance[CASES[1].slug] = KNOWN
    assert next_case(Pool.ALL, guidance, CASES[2]) is CASES[3]


def test_when_everything_is_known_the_least_practised_comes_first() -> None:
    guidance = {case.slug: Guidance(Help.ALONE, 5, known=True) for case in CASES}
    guidance[CASES[7].slug] = Guidance(Help.ALONE, 1, known=True)
    assert next_case(Pool.ALL, guidance, None) is CASES[7]


def test_the_pools_are_the_families_and_all_of_them() -> None:
    # Common practice: 24 + 6 + 6 + 5 cases.
    assert [len(pool.cases) for pool in Pool] == [41, 24, 6, 6, 5]
    assert standing(Pool.ALL, {CASES[0].slug: KNOWN, CASES[1].slug: SHAKY}) == (1, 1, 39)


@pytest.mark.parametrize("pool", Pool)
def test_a_pool_is_practised_from_its_first_case(pilot: Pilot, pool: Pool) -> None:
    pilot.press("open:PRACTICE")
    pilot.press(f"practise:{pool.name}")
    pilot.settle()
    assert run_of(pilot).case in pool.cases


def test_a_case_done_well_leads_to_another_case_in_another_slot(pilot: Pilot) -> None:
    pilot.press("practise:BOTH_IN_SLOT")
    seen = []
    for _ in range(60):
        finish(pilot)
        seen.append((run_of(pilot).case.slug, run_of(pilot).slot))
        pilot.key("enter")
    assert len({case for case, _ in seen}) == 5
    assert len({slot for _, slot in seen}) == 4


def test_the_same_case_can_be_asked_for_once_more(pilot: Pilot) -> None:
    pilot.press("practise:ALL")
    finish(pilot)
    case = run_of(pilot).case
    pilot.press(Reading(pilot.view).button("Same case").action)
    assert run_of(pilot).case is case


def test_after_the_chosen_time_one_is_reminded_to_rest(pilot: Pilot) -> None:
    pilot.press("practise:ALL")
    finish(pilot)
    assert pilot.view.notice == ""
    pilot.wait(26 * 60)
    pilot.press("act:SAME_CASE")
    assert "Rest your hands" in pilot.view.notice


def test_a_pool_that_does_not_exist_changes_nothing(pilot: Pilot) -> None:
    pilot.press("open:PRACTICE")
    pilot.press("practise:NOTHING")
    assert pilot.session.run is None
