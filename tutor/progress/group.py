"""A group at one look: who remembers which case, which cases most find hard, and what they mix up."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence, Set
from datetime import UTC, date, datetime, tzinfo

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.method.cases import CASES, Case
from tutor.method.terms import TURNING_STEPS, Step
from tutor.progress import words
from tutor.progress.assignment import Assignment, open_cases
from tutor.progress.attempt import GUEST, Mode, Outcome
from tutor.progress.cards import believable_times, grades
from tutor.progress.evening import Evening, last_evening
from tutor.progress.forgetting import AGAIN
from tutor.progress.mixup import MIXUPS, Mixup
from tutor.progress.results import MODES, OUTCOMES, Results, microseconds
from tutor.progress.schedule import on_list
from tutor.progress.study import Study
from tutor.progress.summary import RECENT, Memory, memory_of

LAST_TRIES = 3
"""Mix-ups and lost turns are those of so many last tries at a case, so that they show the present."""
HARDEST = 5
"""So many of the hard cases are told."""


class MemberCase(Struct, frozen=True):
    """A case of one learner.

    ``today``: on today's list; ``missed``: the last meeting that counts took a detour, more than a first
    hint, or a showing; ``mixups`` and ``lost`` (turns lost in each turning step) are those of the last
    recent tries.
    """

    memory: Memory
    today: bool
    missed: bool
    mixups: frozenset[Mixup]
    lost: tuple[int, ...]

    @property
    def hard(self) -> bool:
        """Whether the learner finds the case hard."""
        return self.missed or self.memory is Memory.SLIPPING


class GroupMember(Struct, frozen=True):
    """A learner of the group, with the 41 cases in the book's order; ``attempts`` may be none yet."""

    learner: str
    attempts: int
    cases: tuple[MemberCase, ...]

    @property
    def slipping(self) -> int:
        """How many cases slip."""
        return sum(each.memory is Memory.SLIPPING for each in self.cases)

    def of(self, case: Case) -> MemberCase:
        """How a case goes."""
        return self.cases[case.number - 1]


class CaseAcross(Struct, frozen=True):
    """A case across the group; the names are in the order of the members.

    ``mixups``: those who mix something up, the kind that most have first; ``costly``: the step in which most
    turns are lost, None where none is.
    """

    case: Case
    met: int
    slipping: tuple[str, ...]
    missed: tuple[str, ...]
    today: tuple[str, ...]
    mixups: tuple[tuple[Mixup, tuple[str, ...]], ...]
    costly: Step | None


class GroupReport(Struct, frozen=True, eq=False):
    """Learners by cases: those first who have most slipping cases, and the cases first that most find hard.

    Those who have not practised come last. ``evening`` is the last one, None while nobody has practised.
    Compared by identity.
    """

    day: date
    members: tuple[GroupMember, ...]
    cases: tuple[Case, ...]
    evening: Evening | None

    def hard_for(self, case: Case) -> int:
        """How many find a case hard."""
        return sum(member.of(case).hard for member in self.members)

    @property
    def hardest(self) -> tuple[Case, ...]:
        """The few cases to tell of: those that most find hard, as far as anybody does."""
        return tuple(case for case in self.cases[:HARDEST] if self.hard_for(case))


def group_report(
    studies: Mapping[str, Study], now: datetime, zone: tzinfo = UTC, assigned: Sequence[Assignment] = ()
) -> GroupReport:
    """How the group is doing; the guest, who is there at every machine, is left out without an attempt.

    ``assigned`` is what all of them have to do.
    """
    practised = {learner: study for learner, study in studies.items() if len(study.results)}
    named = {learner: study for learner, study in studies.items() if learner in practised or learner != GUEST}
    today = now.astimezone(zone).date()
    members = []
    for learner, study in named.items():
        own = [each for each in assigned if each.learner == learner]
        listed = {*open_cases(own, study.results, now), *(card.slug for card in on_list(study, now, zone))}
        members.append(_member(learner, study, now, listed))
    members.sort(key=_by_slipping)
    return GroupReport(today, tuple(members), _by_need(members), last_evening(practised, now, zone))


def _by_slipping(member: GroupMember) -> tuple[bool, int, str, str]:
    return member.attempts == 0, -member.slipping, member.learner.casefold(), member.learner


def across(report: GroupReport, case: Case) -> CaseAcross:
    """A case across the group."""
    own = [(member.learner, member.of(case)) for member in report.members]
    lost = np.sum([each.lost for _, each in own], axis=0) if own else np.zeros(len(TURNING_STEPS))
    mixups = {mixup: tuple(name for name, each in own if mixup in each.mixups) for mixup in MIXUPS}
    ranked = sorted(mixups.items(), key=lambda item: (-len(item[1]), MIXUPS.index(item[0])))
    return CaseAcross(
        case,
        sum(each.memory is not Memory.NOT_MET for _, each in own),
        tuple(name for name, each in own if each.memory is Memory.SLIPPING),
        tuple(name for name, each in own if each.missed),
        tuple(name for name, each in own if each.today),
        tuple((mixup, names) for mixup, names in ranked if names),
        TURNING_STEPS[int(lost.argmax())] if lost.any() else None,
    )


def told(report: GroupReport) -> tuple[str, ...]:
    """The last evening in five lines."""
    evening = report.evening
    if evening is None:
        return (words.NOBODY_CAME,)
    hard = [(case.number, count) for case in report.cases[:2] if (count := report.hard_for(case))]
    return (
        words.evening_present(evening.day, evening.present),
        words.evening_done(evening.tries, evening.solved, evening.cases, evening.minutes),
        words.evening_better(evening.gains),
        words.evening_slipped([(case.number, names) for case, names in evening.losses]),
        words.evening_next(hard, len(report.members)),
    )


def told_across(report: GroupReport, case: Case) -> tuple[str, ...]:
    """A case across the group in a few sentences."""
    found = across(report, case)
    of = len(report.members)
    mixups = (words.mixed_up(len(names), of, mixup.does, mixup.do) for mixup, names in found.mixups)
    costly = "" if found.costly is None else words.costly_step(found.costly.value.capitalize())
    lines = (words.slips_for(found.slipping), words.missed_by(found.missed), *mixups, costly)
    return tuple(line for line in lines if line)


GROUP_COLUMNS = ("learner", "attempts", "slipping", "today", *(str(case.number) for case in CASES))
"""The columns of the map as a table: the cases by their numbers, those on today's list in one cell."""


def format_group(report: GroupReport) -> Iterator[str]:
    """The map as rows of a CSV table (RFC 4180), the columns' names first, each with its line's end."""
    for cells in (GROUP_COLUMNS, *map(_cells, report.members)):
        out = io.StringIO()
        csv.writer(out).writerow(cells)
        yield out.getvalue()


def _cells(member: GroupMember) -> tuple[str, ...]:
    today = " ".join(str(number) for number, each in enumerate(member.cases, start=1) if each.today)
    memories = (each.memory.word for each in member.cases)
    return member.learner, str(member.attempts), str(member.slipping), today, *memories


def _by_need(members: list[GroupMember]) -> tuple[Case, ...]:
    """The case that most find hard first, of equals the one that slips for most, then the book's order."""

    def need(case: Case) -> tuple[int, int, int]:
        own = [member.of(case) for member in members]
        slipping = sum(each.memory is Memory.SLIPPING for each in own)
        return -sum(each.hard for each in own), -slipping, case.number

    return tuple(sorted(CASES, key=need))


def _member(learner: str, study: Study, now: datetime, listed: Set[str]) -> GroupMember:
    results, missed = study.results, _missed(study.results)
    tries = _recent_tries(results, now)
    cases = []
    for place, case in enumerate(CASES):
        card = study.cards.get(case.slug)
        last = results[tries[results["case"][tries] == place][-LAST_TRIES:]]
        mixups = frozenset(MIXUPS[kind] for kind in last["mixup"].tolist() if kind)
        lost = tuple(last["step_cost"].sum(axis=0).tolist())
        today, failed = case.slug in listed, bool(missed[place])
        cases.append(MemberCase(memory_of(card, now), today, failed, mixups, lost))
    return GroupMember(learner, len(results), tuple(cases))


def _missed(results: Results) -> NDArray[np.bool_]:
    """For each case whether the last attempt that counts needed a detour or more than a first hint."""
    missed = np.zeros(len(CASES), np.bool_)
    marks = grades(results)
    counted = np.flatnonzero(marks)
    # Of several values for one place the last one stays.
    missed[results["case"][counted]] = marks[counted] == AGAIN
    return missed


def _recent_tries(results: Results, now: datetime) -> NDArray[np.int64]:
    """The places of the recent attempts in which the learner turned from the case's beginning."""
    turned = results["outcome"] != OUTCOMES.index(Outcome.WATCHED)
    turned &= (results["mode"] != MODES.index(Mode.GLANCE)) & (results["shown"] == 0)
    return np.flatnonzero(turned & (believable_times(results, now) >= microseconds(now - RECENT)))
