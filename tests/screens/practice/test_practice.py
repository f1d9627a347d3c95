"""Practice as the schedule proposes it, through the real application over a real store."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.screens.practice.sitting import (
    DAY,
    begin,
    finish,
    go_on,
    on_disk,
    practised_before,
    run_of,
    sits_down,
    texts,
    watched,
)
from tests.session.pilot import EPOCH, Pilot, Reading
from tutor.coach.guidance import Help
from tutor.cube.position import Slot
from tutor.method.cases import CASES, Family
from tutor.progress.attempt import GUEST, AttemptRecord, Mode, Outcome
from tutor.progress.course import course
from tutor.progress.store import AttemptStore
from tutor.screens.practice.commands import Practise, TryCase
from tutor.screens.practice.state import PRACTICE, RUN, PracticePage, RunPhase
from tutor.screens.practice.view_pages import in_words
from tutor.session.record_commands import Proposed
from tutor.session.settings_options import REST_MINUTES
from tutor.solver.search import Solver


@pytest.fixture
def beginner(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


@pytest.fixture
def regular(solver: Solver, tmp_path: Path) -> Pilot:
    """Somebody who has practised six cases for ten days; all of them are back by the time of the pilot."""
    practised_before(tmp_path)
    return sits_down(solver, tmp_path)


# ------------------------------------------------------------------------------------------- today's list


def test_a_beginner_meets_three_new_cases_a_day_and_none_twice_in_a_row(beginner: Pilot) -> None:
    begin(beginner)
    assert "You have not met this case yet." in texts(beginner)
    seen = []
    for _ in range(12):
        if RUN.of(beginner.session) is None:
            break
        run = finish(beginner)
        seen.append(run.counts_for.slug)
        beginner.wait(5 * 60.0)
        go_on(beginner)
    assert len(set(seen)) == 3
    assert all(one != other for one, other in pairwise(seen))
    assert len(seen) > 3


def test_new_cases_come_again_on_the_next_day(beginner: Pilot) -> None:
    def met() -> set[str]:
        begin(beginner)
        found = set()
        for _ in range(8):
            if RUN.of(beginner.session) is None:
                break
            found.add(finish(beginner).counts_for.slug)
            go_on(beginner)
        return found

    first = met()
    beginner.wait(DAY)
    assert len(first) == 3
    assert len(met() - first) == 3


def test_nothing_is_shown_of_a_case_before_it_is_tried_and_then_it_is_tried_alone(beginner: Pilot) -> None:
    begin(beginner)
    first = finish(beginner)
    assert (first.help, first.shown) == (Help.WITH_HINTS, 0)
    assert first.made
    beginner.press("practice:SAME_CASE")
    again = finish(beginner)
    assert (again.counts_for, again.help) == (first.counts_for, Help.ALONE)


def test_watching_is_offered_and_the_same_case_is_tried_after_it(beginner: Pilot) -> None:
    begin(beginner)
    case = run_of(beginner).case
    for _ in range(2):
        beginner.press(Reading(beginner.view).button("Watch it first").action)
        beginner.settle()
        assert run_of(beginner).phase is RunPhase.SHOWING
        beginner.wait(60.0)
        go_on(beginner)
        assert watched(run_of(beginner))
        assert "Now all turns are yours." in texts(beginner)
        assert Reading(beginner.view).button("Try it now").primary
        go_on(beginner)
        assert (run_of(beginner).case, run_of(beginner).phase) == (case, RunPhase.TURNING)
    finish(beginner)
    go_on(beginner)
    assert run_of(beginner).case is not case


def test_what_is_on_the_list_is_counted_and_comes_with_the_reason(regular: Pilot) -> None:
    regular.wait(60 * DAY)
    regular.press("open:PRACTICE")
    assert "Today's list has six cases for you now." in texts(regular)
    begin(regular)
    assert "This case is on today's list." in texts(regular)
    assert run_of(regular).mode is Mode.TODAY


def test_as_time_goes_by_more_is_on_the_list_without_anything_being_pressed(regular: Pilot) -> None:
    regular.press("open:PRACTICE")
    before = texts(regular)
    regular.now += 60 * DAY
    assert "Today's list has six cases for you now." in texts(regular) != before


def test_with_an_empty_list_it_is_said_when_the_next_case_comes_and_slipping_ones_are_offered(
    solver: Solver, tmp_path: Path
) -> None:
    pilot = sits_down(solver, tmp_path)
    begin(pilot)
    for _ in range(20):
        if RUN.of(pilot.session) is None:
            break
        finish(pilot)
        pilot.wait(60.0)
        go_on(pilot)
    # All is done for today: the sitting is over, and what is left is to stop or to go on with the weakest.
    assert PRACTICE.of(pilot.session).stand is PracticePage.FAREWELL
    assert "Done for now" in texts(pilot)
    assert "Today's list has no case to repeat now. The next one comes back in" in texts(pilot)
    pilot.press(Reading(pilot.view).button("Practise more, slipping first").action)
    pilot.settle()
    assert run_of(pilot).mode is Mode.SLIPPING


def test_a_mirror_image_counts_for_its_case_and_is_shown_as_one(regular: Pilot, tmp_path: Path) -> None:
    begin(regular, "practise:SLIPPING:")
    for _ in range(40):
        run = finish(regular)
        if run.mirror:
            break
        go_on(regular)
    assert run.mirror
    assert run.case is run.counts_for.mirror
    assert f"mirror image of case {run.counts_for.number}" in texts(regular)
    kept = on_disk(tmp_path)[-1]
    assert (kept.case, kept.mirror, kept.seen) == (run.counts_for.slug, True, run.case)


def test_slots_and_the_turn_of_the_top_change_from_time_to_time(regular: Pilot) -> None:
    begin(regular, "practise:SLIPPING:")
    runs = []
    for _ in range(16):
        runs.append(finish(regular))
        go_on(regular)
    assert {run.slot for run in runs} == set(run_of(regular).slot.__class__)
    assert len({run.alignment for run in runs}) > 1


def test_a_family_is_practised_without_leaving_it(beginner: Pilot) -> None:
    begin(beginner, "practise:FAMILY:BOTH_IN_SLOT")
    for _ in range(8):
        run = finish(beginner)
        assert run.counts_for.family is Family.BOTH_IN_SLOT
        assert run.mode is Mode.FAMILY
        go_on(beginner)


def test_a_mode_that_does_not_exist_changes_nothing(beginner: Pilot) -> None:
    beginner.press("open:PRACTICE")
    for action in ("practise:SINGLE:", "practise:FAMILY:", "goal:attempts:7"):
        beginner.press(action)
        beginner.settle()
    beginner.application.give(Practise(Mode.TODAY, Family.BOTH_IN_SLOT))
    assert RUN.of(beginner.session) is None
    assert PRACTICE.of(beginner.session).goal == ("today", 0)


def test_a_proposal_nobody_waits_for_any_more_is_dropped(beginner: Pilot) -> None:
    begin(beginner)
    run = finish(beginner)
    request = PRACTICE.of(beginner.session).request
    beginner.application.give(Proposed(request, None))
    beginner.application.give(Proposed(request + 1, None))
    assert run_of(beginner) is run


def test_a_case_chosen_by_hand_is_not_left_for_one_proposed_late(beginner: Pilot) -> None:
    begin(beginner)
    finish(beginner)
    practice = replace(PRACTICE.of(beginner.session), asked=True, request=40)
    beginner.application.session = PRACTICE.put(beginner.session, practice)
    beginner.press(Reading(beginner.view).button("Try this case again").action)
    run = run_of(beginner)
    beginner.application.give(Proposed(40, None))
    assert run_of(beginner) is run


def test_the_same_case_can_be_asked_for_once_more_and_practice_goes_on_after_it(beginner: Pilot) -> None:
    begin(beginner)
    case = finish(beginner).case
    beginner.press(Reading(beginner.view).button("Try this case again").action)
    beginner.settle()
    assert run_of(beginner).case is case
    assert run_of(beginner).mode is Mode.SINGLE
    finish(beginner)
    go_on(beginner)
    assert run_of(beginner).case is not case
    assert run_of(beginner).mode is Mode.TODAY


def test_home_says_why_cases_just_solved_are_on_todays_list(beginner: Pilot) -> None:
    begin(beginner)
    said = []
    for _ in range(2):
        finish(beginner)
        beginner.press("open:HOME")
        beginner.settle()
        said += _of_the_list(beginner)
        begin(beginner)
    beginner.press("open:HOME")
    beginner.wait(3 * DAY)
    assert [*said, *_of_the_list(beginner)] == [
        "One case is still settling, so it comes back soon.",
        "You have one case to practise. It is still settling, so it comes back until it sticks. "
        "One more comes back soon.",
        "You have two cases to practise. They are still settling, so they come back until they stick.",
    ]


def _of_the_list(pilot: Pilot) -> list[str]:
    return [text for text in Reading(pilot.view).texts if "settling" in text]


def test_a_case_that_waits_for_its_minutes_is_promised_for_when_practice_gives_it(
    solver: Solver, tmp_path: Path
) -> None:
    morning = datetime.fromtimestamp(EPOCH, UTC) - timedelta(hours=2)
    with AttemptStore.open(tmp_path) as store:
        for case in course()[:2]:
            for minutes in (0, 15):
                time = morning + timedelta(minutes=minutes)
                store.record(
                    AttemptRecord(GUEST, time, case.slug, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 9.0)
                )
    pilot = sits_down(solver, tmp_path)
    begin(pilot)
    assert run_of(pilot).case is course()[2]
    go_on(pilot)
    pilot.press("practice:GIVE_UP")
    pilot.settle()
    go_on(pilot)
    assert "Done for now" in texts(pilot)
    nothing = "Today's list has no case to repeat now. The next one comes back in one minute."
    assert nothing in texts(pilot)
    pilot.press("open:HOME")
    pilot.settle()
    assert _of_the_list(pilot) == ["One case is still settling, so it comes back soon."]
    begin(pilot)
    assert "No case to practise this way now" in texts(pilot)
    assert nothing in texts(pilot)
    pilot.wait(60.0)
    assert "Today's list has one case for you now." in texts(pilot)
    begin(pilot)
    assert RUN.of(pilot.session) is not None


def test_a_case_picked_by_hand_is_tried_again_by_one_button(beginner: Pilot) -> None:
    def same_deed() -> list[str]:
        words = ("again", "try", "practise", "next case")
        labels = [each.label for each in Reading(beginner.view).buttons]
        return [label for label in labels if any(word in label.lower() for word in words)]

    beginner.press(TryCase(CASES[20].slug, help=Help.WITH_HINTS))
    for _ in range(3):
        run = finish(beginner)
        assert same_deed() == ["Try this case again"]
        assert Reading(beginner.view).button("Try this case again").primary
        go_on(beginner)
        assert (run_of(beginner).case, run_of(beginner).phase) == (run.case, RunPhase.TURNING)


# ------------------------------------------------------------------------------------------ goal and end


def test_after_so_many_tries_comes_the_end_with_what_was_done(regular: Pilot) -> None:
    regular.press("open:PRACTICE")
    regular.press("goal:attempts:5")
    assert Reading(regular.view).button("5 tries are done").selected
    begin(regular, "practise:SLIPPING:")
    for count in range(5):
        assert PRACTICE.of(regular.session).stand is PracticePage.START
        finish(regular)
        assert any(f"{count + 1} of 5 tries" in str(block) for block in regular.view.card)
        go_on(regular)
    assert PRACTICE.of(regular.session).stand is PracticePage.FAREWELL
    assert "You have reached your goal" in texts(regular)
    assert "You made five tries at" in texts(regular)
    regular.press(Reading(regular.view).button("Practise more").action)
    regular.settle()
    finish(regular)
    go_on(regular)
    assert RUN.of(regular.session) is not None


def test_after_so_many_minutes_comes_the_end_and_pauses_do_not_count(regular: Pilot) -> None:
    regular.press("open:PRACTICE")
    regular.press("goal:minutes:5")
    begin(regular, "practise:SLIPPING:")
    regular.wait(3600.0)
    finish(regular)
    go_on(regular)
    assert RUN.of(regular.session) is not None
    for _ in range(20):
        if RUN.of(regular.session) is None:
            break
        regular.wait(60.0)
        finish(regular)
        go_on(regular)
    assert PRACTICE.of(regular.session).stand is PracticePage.FAREWELL
    assert "You practised for five minutes, not counting pauses." in texts(regular)


def test_one_can_end_at_any_time_and_stopping_leads_home(regular: Pilot) -> None:
    begin(regular, "practise:SLIPPING:")
    finish(regular)
    regular.press(Reading(regular.view).button("Finish for now").action)
    assert "You made one try at one case." in texts(regular)
    regular.key("enter")
    assert regular.view.screen == "home"
    regular.press("open:PRACTICE")
    assert PRACTICE.of(regular.session).stand is PracticePage.START


def practise(pilot: Pilot, tries: int) -> list[str]:
    """So many tries with four minutes before each, given up at once; the reminders to rest."""
    told = []
    for _ in range(tries):
        pilot.wait(240.0)
        pilot.press("practice:GIVE_UP")
        go_on(pilot)
        told.append(pilot.view.notice)
    return [notice for notice in told if "Rest your hands" in notice]


def test_after_the_chosen_time_one_is_reminded_to_rest_and_a_pause_is_a_rest(regular: Pilot) -> None:
    begin(regular, "practise:SLIPPING:")
    assert practise(regular, 6) == []
    regular.wait(400.0)
    assert practise(regular, 5) == []
    assert practise(regular, 3) == ["You have practised for 28 minutes. Rest your hands a little."]


def test_with_the_reminder_off_nobody_is_reminded(regular: Pilot) -> None:
    regular.press("open:SETTINGS")
    regular.press(f"choose:REST:{len(REST_MINUTES)}")
    assert regular.session.settings.rest_minutes == 0
    begin(regular, "practise:SLIPPING:")
    assert practise(regular, 9) == []
    regular.press("practice:END")
    regular.press("open:HOME")
    regular.press("open:PRACTICE")
    assert "Rest them now and then." in texts(regular)


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(5, "in one minute"), (600, "in ten minutes"), (7200, "in two hours"), (36 * 3600, "in 36 hours"),
     (3 * DAY, "in three days")],
)  # fmt: skip
def test_how_long_it_is_till_the_next_case_is_told_without_a_calendar(seconds: float, words: str) -> None:
    now = datetime(2026, 11, 25, 17, 0, tzinfo=UTC)
    assert in_words(now, now + timedelta(seconds=seconds)) == words
