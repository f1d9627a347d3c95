"""What comes next, in every mode."""

from datetime import datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tutor.cube.faces import Turn
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, Family, parse_case
from tutor.method.terms import Step, Verdict
from tutor.progress.attempt import AttemptRecord, Mode, Outcome, TurnMade
from tutor.progress.cards import CardPhase, spread_next
from tutor.progress.course import course
from tutor.progress.group import group_report
from tutor.progress.schedule import NEW_A_DAY, Proposal, next_back, next_up, on_list, ready, steady_cases
from tutor.progress.study import Study
from tutor.progress.summary import summarise
from tutor.session.learner_records import Records

CHOSEN = (Mode.TODAY, Mode.SLIPPING, Mode.FAMILY, Mode.GLANCE, Mode.STEADY)


def answered(make: Any, proposal: Proposal, day: float, how: str = "plain", **changes: Any) -> AttemptRecord:
    """An attempt at what was proposed."""
    maker = {"plain": make, "detour": make.detour}[how]
    made: AttemptRecord = maker(
        proposal.slug,
        day,
        slot=proposal.slot,
        mirror=proposal.mirror,
        alignment=proposal.alignment,
        **changes,
    )
    return made


def learnt(make: Any, *cases: str, day: float = 0.0) -> list[AttemptRecord]:
    """Attempts after which the cases hold."""
    return [make(case, day + minutes / 1440) for minutes in (0, 15) for case in cases]


def at(make: Any, day: float) -> datetime:
    time: datetime = make(day=day).time
    return time


def test_a_beginner_gets_the_first_case_of_the_course_at_the_front_right(attempt: Any) -> None:
    proposal = next_up(Study.of([], at(attempt, 0)), at(attempt, 0), Mode.TODAY)
    assert proposal is not None
    assert (proposal.slug, proposal.slot, proposal.mirror, proposal.alignment) == (
        course()[0].slug,
        Slot.FR,
        False,
        0,
    )
    assert proposal.why == "You have not met this case yet."


def test_new_cases_come_in_the_order_of_the_lessons_so_many_a_day(attempt: Any) -> None:
    study = Study.of([], at(attempt, 0))
    met: dict[int, list[str]] = {0: [], 1: []}
    for day in met:
        for minutes in range(40):
            now = at(attempt, day + minutes / 1440)
            proposal = next_up(study, now, Mode.TODAY)
            if proposal is None:
                break
            if proposal.slug not in study.cards:
                met[day].append(proposal.slug)
            study = study.after(answered(attempt, proposal, day + minutes / 1440), now)
    slugs = [case.slug for case in course()]
    assert met == {0: slugs[:NEW_A_DAY], 1: slugs[NEW_A_DAY : 2 * NEW_A_DAY]}


def test_a_day_begins_at_midnight_where_the_learner_is(attempt: Any) -> None:
    # Three met at 18:30 UTC; five hours later it is past midnight two hours east, but not in UTC.
    study = Study.of(learnt(attempt, *(case.slug for case in course()[:NEW_A_DAY])), at(attempt, 0))
    now = at(attempt, 5 / 24)
    east = timezone(timedelta(hours=2))
    assert next_up(study, now, Mode.TODAY) is None
    proposal = next_up(study, now, Mode.TODAY, zone=east)
    assert proposal is not None
    assert proposal.slug == course()[NEW_A_DAY].slug


def test_what_is_due_comes_before_what_is_new_the_least_held_first(attempt: Any) -> None:
    first, second, third = (case.slug for case in course()[:3])
    made = learnt(attempt, first, second, third)
    made += [attempt.detour(second, 10), attempt(second, 10.01), attempt(first, 10)]
    now = at(attempt, 40)
    study = Study.of(made, now)
    order = [card.slug for card in on_list(study, now)]
    chances = [study.cards[slug].chance(now) for slug in order]
    assert chances == sorted(chances)
    proposal = next_up(study, now, Mode.TODAY)
    assert proposal is not None
    assert proposal.slug == order[0]


def test_a_case_that_failed_comes_back_within_the_sitting(attempt: Any) -> None:
    one, other = (case.slug for case in course()[:2])
    made = [*learnt(attempt, one, other), attempt.detour(one, 5), attempt(other, 5.001)]
    proposal = next_up(Study.of(made, at(attempt, 5.01)), at(attempt, 5.01), Mode.TODAY, new_a_day=0)
    assert proposal is not None
    assert proposal.slug == one


def test_when_only_the_last_case_is_due_another_comes_between(attempt: Any) -> None:
    one, other = (case.slug for case in course()[:2])
    made = [*learnt(attempt, one, other), attempt(other, 9), attempt.detour(one, 9.001)]
    now = at(attempt, 9.001) + timedelta(minutes=12)
    study = Study.of(made, now)
    assert [card.slug for card in on_list(study, now)] == [one]
    proposal = next_up(study, now, Mode.TODAY, new_a_day=0)
    assert proposal is not None
    assert proposal.slug == other
    assert "between" in proposal.why


def test_it_is_said_why_a_case_just_met_comes_back_and_another_before_it(attempt: Any) -> None:
    one, other = (case.slug for case in course()[:2])
    made = [attempt.detour(one)]
    minutes = [at(attempt, count / 1440) for count in range(6)]
    between = next_up(Study.of(made, minutes[2]), minutes[2], Mode.TODAY)
    assert between is not None
    assert between.slug == other
    assert between.why == (
        "You have not met this case yet. It comes in between, because no case comes twice in a row."
    )
    again = next_up(Study.of([*made, attempt(other, 3 / 1440)], minutes[5]), minutes[5], Mode.TODAY)
    assert again is not None
    assert again.slug == one
    assert again.why == "You met this case a little while ago. It comes back until it sticks."


def test_nothing_is_proposed_when_nothing_is_due_and_the_next_time_is_told(attempt: Any) -> None:
    study = Study.of(learnt(attempt, *(case.slug for case in course()[:NEW_A_DAY])), at(attempt, 0))
    now = at(attempt, 0.05)
    assert next_up(study, now, Mode.TODAY) is None
    due = next_back(study, now)
    assert due is not None
    assert next_up(study, due, Mode.TODAY, new_a_day=0) is not None
    assert next_up(study, due - timedelta(seconds=1), Mode.TODAY, new_a_day=0) is None


def test_what_waits_stands_last_on_the_list_and_what_comes_first_stands_first(attempt: Any) -> None:
    sticks, settling = (case.slug for case in course()[:2])
    made = [*learnt(attempt, sticks), attempt.detour(settling, 40)]
    now = at(attempt, 40) + timedelta(seconds=30)
    study = Study.of(made, now)
    assert [card.slug for card in on_list(study, now)] == [sticks, settling]
    assert [card.slug for card in ready(study, on_list(study, now), now)] == [sticks]
    proposal = next_up(study, now, Mode.TODAY)
    assert proposal is not None
    assert proposal.slug == sticks


@example(made=[(0, True, 0.5)], later=2)
@example(made=[(0, True, 0.5)], later=11)
@example(made=[(0, False, 1), (0, False, 15), (1, False, 1), (1, False, 15), (2, True, 1)], later=2)
@given(
    made=st.lists(
        st.tuples(st.integers(0, 3), st.booleans(), st.sampled_from([0.5, 3, 12, 35])), min_size=1, max_size=6
    ),
    later=st.sampled_from([0.5, 2, 9, 11, 31, 20 * 60]),
)
@settings(max_examples=60, deadline=None)
def test_practice_gives_what_is_ready_and_nothing_until_the_next_case_is_back(
    attempt_maker: Any, made: list[tuple[int, bool, float]], later: float
) -> None:
    make, minutes, attempts = attempt_maker(), 0.0, []
    for place, detour, wait in made:
        minutes += wait
        how = make.detour if detour else make
        attempts.append(how(course()[place].slug, minutes / 1440))
    now = attempts[-1].time + timedelta(minutes=later)
    study = Study.of(attempts, now)
    listed = on_list(study, now)
    can_come = ready(study, listed, now, new_a_day=0)
    assert can_come == listed[: len(can_come)]
    proposal = next_up(study, now, Mode.TODAY, new_a_day=0)
    assert (proposal is not None) == bool(can_come)
    if proposal is not None:
        between = "in between" in proposal.why
        assert between or proposal.slug == can_come[0].slug
        return
    back = next_back(study, now, new_a_day=0)
    assert back is not None
    assert next_up(study, back, Mode.TODAY, new_a_day=0) is not None
    assert next_up(study, back - timedelta(seconds=1), Mode.TODAY, new_a_day=0) is None


@pytest.mark.parametrize("hours", [-11, 0, 2])
def test_todays_list_is_the_same_all_day_on_home_on_the_map_and_in_the_table(
    hours: int, attempt: Any
) -> None:
    zone = timezone(timedelta(hours=hours))
    slugs = [case.slug for case in course()[:6]]
    made = [*learnt(attempt, *slugs[:3]), *learnt(attempt, *slugs[3:], day=0.4)]
    study = Study.of(made, at(attempt, 1))
    midnight = at(attempt, 1.5).astimezone(zone).replace(hour=0, minute=0)
    # By the definition: a case is on the list of the day on which it comes back, and of the days after it.
    days = [(spread_next(study.cards[slug]) - midnight) // timedelta(days=1) for slug in slugs]
    lengths = []
    for day in range(3):
        wanted = {slug for slug, comes in zip(slugs, days, strict=True) if comes <= day}
        lengths.append(len(wanted))
        for hour in (0, 0.01, 8, 18.4, 18.6, 23.99):
            now = midnight + timedelta(days=day, hours=hour)
            records = Records(study=study, zone=zone, epoch=now.timestamp())
            (member,) = group_report({"Ilva": study}, now, zone).members
            assert {card.slug for card in records.on_list(0.0)} == wanted
            assert {case.slug for case in CASES if member.of(case).today} == wanted
            assert set(summarise(study, now, zone).week[0].slugs) == wanted
            proposal = next_up(study, now, Mode.TODAY, new_a_day=0, zone=zone)
            assert (proposal is not None and proposal.slug in wanted) == bool(wanted)
    assert lengths[0] < lengths[-1] == len(slugs)


@settings(max_examples=30)
@given(
    mode=st.sampled_from(CHOSEN),
    family=st.sampled_from(Family),
    fates=st.lists(st.sampled_from(["plain", "plain", "detour", "mirror"]), min_size=5, max_size=25),
)
def test_no_case_comes_twice_in_a_row_in_any_mode(
    mode: Mode, family: Family, fates: list[str], attempt_maker: Any
) -> None:
    make = attempt_maker()
    slugs = [case.slug for case in course() if mode is not Mode.FAMILY or case.family is family][:4]
    study = Study.of(learnt(make, *slugs), at(make, 0.1))
    before = None
    for number, fate in enumerate(fates):
        now = at(make, 3) + timedelta(minutes=number)
        proposal = next_up(study, now, mode, family=family if mode is Mode.FAMILY else None)
        if proposal is None:
            break
        assert proposal.shown != before
        how = {"mode": mode, "outcome": Outcome.NAMED} if mode is Mode.GLANCE else {"mode": mode}
        made = answered(make, proposal, 3 + number / 1440, "detour" if fate == "detour" else "plain", **how)
        study = study.after(made, now)
        before = made.seen


def test_after_a_clock_was_set_back_no_case_comes_twice_in_a_row_either(attempt: Any) -> None:
    one, other = (case.slug for case in course()[:2])
    made = [*learnt(attempt, one, other), attempt(other, 300), attempt(other, 9), attempt.detour(one, 9.001)]
    now = at(attempt, 9.002)
    proposal = next_up(Study.of(made, now), now, Mode.SLIPPING)
    assert proposal is not None
    assert proposal.slug == other


def test_a_case_may_come_again_after_a_pause(attempt: Any) -> None:
    one, other = (case.slug for case in course()[:2])
    made = [*learnt(attempt, one, other), attempt(other, 9), attempt.detour(one, 9.001)]
    now = at(attempt, 9.1)
    proposal = next_up(Study.of(made, now), now, Mode.SLIPPING)
    assert proposal is not None
    assert proposal.slug == one


def test_slots_are_gone_round_and_then_the_mirror(attempt: Any) -> None:
    case = next(case for case in course() if case.mirror != case)
    study = Study.of(learnt(attempt, case.slug), at(attempt, 0.1))
    met = []
    for number in range(7):
        now = at(attempt, 40 * (number + 1))
        proposal = next_up(study, now, Mode.SLIPPING)
        assert proposal is not None
        assert proposal.shown == (case.mirror if proposal.mirror else case)
        met.append((proposal.mirror, proposal.slot))
        study = study.after(answered(attempt, proposal, 40 * (number + 1)), now)
    # At the front right it was met while it was settling.
    assert met == [*((False, slot) for slot in SLOTS[1:]), *((True, slot) for slot in SLOTS)]


def test_the_slot_that_failed_comes_again_first(attempt: Any) -> None:
    case = course()[0]
    made = learnt(attempt, case.slug)
    made += [
        attempt(case.slug, 5 + n, slot=slot, mirror=m)
        for n, (m, slot) in enumerate((m, slot) for m in (False, True) for slot in SLOTS)
    ]
    made += [attempt.detour(case.slug, 20, slot=Slot.BL), attempt(case.slug, 20.05, slot=Slot.FR)]
    now = at(attempt, 60)
    proposal = next_up(Study.of(made, now), now, Mode.TODAY)
    assert proposal is not None
    assert (proposal.slot, proposal.mirror) == (Slot.BL, False)


def test_a_case_is_not_mirrored_before_it_holds_nor_one_that_is_its_own_mirror(attempt: Any) -> None:
    own = next(case for case in CASES if case.mirror == case)
    study = Study.of(learnt(attempt, own.slug), at(attempt, 0))
    for number in range(1, 12):
        now = at(attempt, 40.0 * number)
        proposal = next_up(study, now, Mode.SLIPPING)
        assert proposal is not None
        assert not proposal.mirror
        study = study.after(answered(attempt, proposal, 40.0 * number), now)

    learning = Study.of([attempt.detour(day=day / 100) for day in range(12)], at(attempt, 0.2))
    proposal = next_up(learning, at(attempt, 0.2), Mode.TODAY, new_a_day=0)
    assert proposal is not None
    assert not proposal.mirror


def test_alignments_change_from_time_to_time(attempt: Any) -> None:
    study = Study.of(learnt(attempt, course()[0].slug), at(attempt, 0))
    seen = set()
    for number in range(1, 6):
        now = at(attempt, 40.0 * number)
        proposal = next_up(study, now, Mode.SLIPPING)
        assert proposal is not None
        seen.add(proposal.alignment)
        study = study.after(answered(attempt, proposal, 40.0 * number), now)
    assert seen == {0, 1, 2, 3}


def test_weakest_first_takes_what_will_hold_least_well_tomorrow(attempt: Any) -> None:
    strong, weak, last = (case.slug for case in course()[:3])
    made = [
        *learnt(attempt, strong, weak, last),
        attempt(strong, 8),
        attempt.detour(weak, 8),
        attempt(last, 8.01),
    ]
    now = at(attempt, 8.02)
    study = Study.of(made, now)
    proposal = next_up(study, now, Mode.SLIPPING)
    assert proposal is not None
    assert proposal.slug == weak
    assert next_up(Study.of([], now), now, Mode.SLIPPING) is None


@pytest.mark.parametrize("family", Family)
def test_a_family_keeps_to_itself_and_goes_on_past_the_days_share(attempt: Any, family: Family) -> None:
    study = Study.of([], at(attempt, 0))
    met = set()
    for minutes in range(60):
        now = at(attempt, minutes / 1440)
        proposal = next_up(study, now, Mode.FAMILY, family=family)
        assert proposal is not None
        assert parse_case(proposal.slug).family is family
        met.add(proposal.slug)
        study = study.after(answered(attempt, proposal, minutes / 1440), now)
    assert len(met) > NEW_A_DAY


def test_a_flash_takes_what_was_misnamed_then_what_waited_longest(attempt: Any) -> None:
    first, second, third, fourth = (case.slug for case in course()[:4])
    named = {"mode": Mode.GLANCE, "outcome": Outcome.NAMED}
    made = learnt(attempt, first, second, third, fourth)
    made += [attempt(first, 1, **named), attempt(second, 1.1, **named), attempt(third, 1.2, **named)]
    now = at(attempt, 2)

    def flashed(*more: AttemptRecord) -> str:
        proposal = next_up(Study.of([*made, *more], now), now, Mode.GLANCE)
        assert proposal is not None
        return proposal.slug

    assert flashed() == fourth
    assert flashed(attempt(fourth, 1.3, **named)) == first
    wrong = attempt(second, 1.4, mode=Mode.GLANCE, outcome=Outcome.MISNAMED)
    assert flashed(attempt(fourth, 1.3, **named), wrong) == second


def test_steady_turning_takes_what_holds(attempt: Any) -> None:
    held, failing = (case.slug for case in course()[:2])
    made = [*learnt(attempt, held, failing), attempt.detour(failing, 5)]
    now = at(attempt, 5.1)
    study = Study.of(made, now)
    assert study.cards[failing].phase is not CardPhase.STICKING
    proposal = next_up(study, now, Mode.STEADY)
    assert proposal is not None
    assert proposal.slug == held


def test_a_second_clean_solve_opens_the_case_for_the_beat_also_where_the_way_was_not_the_shortest(
    attempt: Any,
) -> None:
    # A way longer than the route taught, and yet without a Detour, solves the case cleanly.
    slug, other = CASES[0].slug, CASES[1].slug
    route = {"turns_used": 12, "turns": (TurnMade(Turn.U, 1.0, Verdict.ACCEPTABLE, 1, Step.PART),) * 12}
    made = [attempt(slug, 0.0, **route)]
    assert steady_cases(Study.of(made, at(attempt, 0))) == ()
    for spoilt in (attempt.detour(slug, 0.1), attempt.hinted(1, slug, 0.2), attempt(slug, 0.3, shown=2)):
        assert steady_cases(Study.of([*made, spoilt], at(attempt, 1))) == ()
    made += [attempt.detour(other, 0.5), attempt(slug, 0.6, **route)]
    study = Study.of(made, at(attempt, 1))
    assert [card.slug for card in steady_cases(study)] == [slug]
    assert study.cards[slug].phase is not CardPhase.STICKING
    proposal = next_up(study, at(attempt, 1), Mode.STEADY)
    assert proposal is not None
    assert proposal.slug == slug
    assert proposal.why == "You have solved this case twice, so you can look ahead while you turn."


def test_where_the_learner_chooses_nothing_is_proposed(attempt: Any) -> None:
    for mode in set(Mode) - set(CHOSEN):
        with pytest.raises(ValueError, match="the learner chooses"):
            next_up(Study.of([], at(attempt, 0)), at(attempt, 0), mode)
