"""A wall clock that ran ahead and was set right again, in the midst of practice."""

from datetime import timedelta
from itertools import pairwise
from typing import Any

import pytest

from tutor.progress.attempt import Mode, Outcome
from tutor.progress.course import course
from tutor.progress.schedule import next_up
from tutor.progress.study import Study

EVENINGS = (0, 1, 3, 8)
MET = 6


def practised(attempt: Any) -> Study:
    """Six cases, met on four evenings, and named at a glance on the last."""
    slugs = [case.slug for case in course()[:MET]]
    made = [attempt(slug, day + place / 1440) for day in EVENINGS for place, slug in enumerate(slugs)]
    flash = {"mode": Mode.GLANCE, "outcome": Outcome.NAMED, "turns": ()}
    made += [attempt(slug, EVENINGS[-1] + (10 + place) / 1440, **flash) for place, slug in enumerate(slugs)]
    return Study.of(made, made[-1].time)


@pytest.mark.parametrize("minutes", [0, 10, 18, 30, 3 * 60, 3 * 24 * 60, 100 * 24 * 60])
@pytest.mark.parametrize("mode", [Mode.SLIPPING, Mode.GLANCE, Mode.STEADY, Mode.FAMILY])
def test_cases_go_on_changing_among_more_than_two(attempt: Any, mode: Mode, minutes: int) -> None:
    study = practised(attempt)
    family = course()[0].family if mode is Mode.FAMILY else None
    now = attempt(day=EVENINGS[-1]).time + timedelta(minutes=20 - minutes)
    outcome = Outcome.NAMED if mode is Mode.GLANCE else Outcome.SOLVED
    seen: list[str] = []
    for _ in range(3 * MET):
        proposal = next_up(study, now, mode, family=family)
        assert proposal is not None
        seen.append(proposal.slug)
        day = (now - attempt(day=0).time) / timedelta(days=1)
        made = attempt(proposal.slug, day, slot=proposal.slot, mode=mode, outcome=outcome)
        study = study.after(made, now)
        now += timedelta(seconds=30)
    assert all(one != other for one, other in pairwise(seen))
    if mode is not Mode.FAMILY:
        # Those dated a little after now count as just met once the clock has passed them.
        assert len(set(seen)) > MET // 2
