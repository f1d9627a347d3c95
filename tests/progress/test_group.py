"""A group's figures, held against a plain recomputation from the lines that an export writes.

The recomputation knows nothing of the program but these lines: it reads them as JSON, goes through them one
by one, and asks the library ``fsrs`` what is remembered.
"""

from __future__ import annotations

import csv
import io
import json
from collections import Counter, defaultdict
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zlib import crc32

import fsrs
import pytest

from tests.progress.drawn_group import NAMES, drawn_group
from tutor.cube.faces import Turn
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.method.terms import TURNING_STEPS, Step, Verdict
from tutor.progress.attempt import GUEST, TurnMade
from tutor.progress.evening import Evening
from tutor.progress.group import GroupReport, across, format_group, group_report, told, told_across
from tutor.progress.interchange import format_line
from tutor.progress.mixup import Mixup
from tutor.progress.study import Study
from tutor.progress.summary import Memory

LIFTS = {"FR": "R F'", "FL": "L' F", "BL": "L B'", "BR": "R' B"}
"""The two lifts of each slot, from the definition: they carry its place up into the top layer."""

Lines = list[dict[str, Any]]


@pytest.fixture(scope="module")
def lines(attempt_maker: Any) -> Lines:
    """The club as an export writes it."""
    every = [each for made in drawn_group(attempt_maker()).values() for each in made]
    return [json.loads(format_line(each)) for each in every]


@pytest.fixture(scope="module")
def report(attempt_maker: Any, lines: Lines) -> GroupReport:
    """The club as the program sees it, two hours after the last attempt."""
    studies = {name: Study.of(made, now_of(lines)) for name, made in drawn_group(attempt_maker()).items()}
    return group_report({**studies, "Nobody": Study.of((), now_of(lines))}, now_of(lines))


def when(line: dict[str, Any]) -> datetime:
    return datetime.fromisoformat(line["time"])


def now_of(lines: Lines) -> datetime:
    return max(map(when, lines)) + timedelta(hours=2)


def rating(line: dict[str, Any]) -> int | None:
    """1, 2 or 3, by what the documentation says an attempt counts as; None for one that does not count."""
    watched = line["outcome"] == "watched"
    if (line["shown"] and not watched) or line["mode"] == "glance":
        return None
    rung = max((hint["rung"] for hint in line["hints"]), default=0)
    detour = any(turn["verdict"] == "detour" for turn in line["turns"])
    if line["outcome"] != "solved" or detour or rung > 1:
        return 1
    taught = max(line["by_hand"], line["route"])
    longer = line["turns_used"] > taught or len(line["turns"]) > line["turns_used"]
    return 2 if longer or rung == 1 else 3


SCHEDULER = fsrs.Scheduler(desired_retention=0.9, enable_fuzzing=False)


def cards(lines: Lines) -> dict[str, fsrs.Card]:
    """The library's cards of one learner, by case."""
    found: dict[str, fsrs.Card] = {}
    for line in sorted(lines, key=when):
        if (mark := rating(line)) is None:
            continue
        card = found.get(line["case"], fsrs.Card(card_id=1))
        if mark == 2 and card.state is not fsrs.State.Review:
            mark = 1
        found[line["case"]] = SCHEDULER.review_card(card, fsrs.Rating(mark), when(line))[0]
    return found


def sign(card: fsrs.Card | None, at: datetime) -> str:
    """How well it is remembered, by the two letters of the map."""
    if card is None:
        return "Nm"
    if card.state is not fsrs.State.Review:
        return "Se"
    if SCHEDULER.get_card_retrievability(card, at) < 0.8:
        return "Sl"
    assert card.stability is not None
    return "Su" if card.stability >= 30 else "St"


def on_todays_list(slug: str, card: fsrs.Card | None, today: date) -> bool:
    if card is None or card.last_review is None:
        return False
    due = card.due
    if card.state is fsrs.State.Review:
        micro = (card.last_review - datetime(1970, 1, 1, tzinfo=UTC)) // timedelta(microseconds=1)
        due += (due - card.last_review) * 0.05 * (2 * crc32(f"{slug} {micro}".encode()) / 2**32 - 1)
    return due.date() <= today


def astray(line: dict[str, Any]) -> str:
    """What kind of turn first led astray; empty for none."""
    for turn in line["turns"]:
        if turn["verdict"] == "detour":
            lifts = LIFTS[line["slot"]].split()
            if turn["turn"] in lifts:
                return "LIFT"
            if turn["turn"][0] == "U":
                return "TOP"
            return "BESIDE" if turn["turn"][0] in "".join(lifts) else "FAR"
    return ""


def of(lines: Lines, name: str, slug: str | None = None) -> Lines:
    return sorted((x for x in lines if x["learner"] == name and slug in (None, x["case"])), key=when)


def last_tries(lines: Lines, name: str, slug: str, now: datetime) -> Lines:
    tried = [
        line
        for line in of(lines, name, slug)
        if line["outcome"] != "watched" and line["mode"] != "glance" and not line["shown"]
    ]
    return [line for line in tried if when(line) >= now - timedelta(days=30)][-3:]


def test_the_map_is_what_the_exported_lines_say(lines: Lines, report: GroupReport) -> None:
    now = now_of(lines)
    assert sorted(member.learner for member in report.members) == sorted([*NAMES, "Nobody"])
    seen: Counter[str] = Counter()
    for member in report.members:
        known = cards(of(lines, member.learner))
        assert member.attempts == len(of(lines, member.learner))
        for case in CASES:
            cell, slug = member.of(case), case.slug
            marks = [mark for line in of(lines, member.learner, slug) if (mark := rating(line))]
            tries = last_tries(lines, member.learner, slug, now)
            assert cell.memory.sign == sign(known.get(slug), now)
            assert cell.today == on_todays_list(slug, known.get(slug), now.date())
            assert cell.missed == (bool(marks) and marks[-1] == 1)
            assert {mixup.name for mixup in cell.mixups} == {astray(line) for line in tries} - {""}
            lost: Counter[Step] = Counter()
            for turn in (turn for line in tries for turn in line["turns"] if turn["cost"]):
                lost[Step(turn["step"])] += turn["cost"]
            assert cell.lost == tuple(lost[step] for step in TURNING_STEPS)
            seen.update([cell.memory.sign, *(mixup.name for mixup in cell.mixups)])
    assert {"Nm", "Se", "Sl", "St", "LIFT", "TOP", "BESIDE", "FAR"} <= set(seen)


def test_the_hardest_case_comes_first_and_whoever_has_most_to_do(lines: Lines, report: GroupReport) -> None:
    now, slipping = now_of(lines), Counter[str]()
    hard, slips = Counter[int](), Counter[int]()
    for name in NAMES:
        known = cards(of(lines, name))
        for case in CASES:
            marks = [mark for line in of(lines, name, case.slug) if (mark := rating(line))]
            slip = sign(known.get(case.slug), now) == "Sl"
            hard[case.number] += slip or (bool(marks) and marks[-1] == 1)
            slips[case.number] += slip
            slipping[name] += slip
    wanted = sorted(range(1, 42), key=lambda number: (-hard[number], -slips[number], number))
    assert [case.number for case in report.cases] == wanted
    assert [report.hard_for(case) for case in CASES] == [hard[case.number] for case in CASES]
    in_order = sorted(NAMES, key=lambda name: (-slipping[name], name))
    assert [m.learner for m in report.members] == [*in_order, "Nobody"]


def test_a_case_across_the_group_says_who_does_what(lines: Lines, report: GroupReport) -> None:
    case, now = report.cases[0], now_of(lines)
    found = across(report, case)
    doing: defaultdict[str, list[str]] = defaultdict(list)
    for member in report.members:
        for kind in {astray(line) for line in last_tries(lines, member.learner, case.slug, now)} - {""}:
            doing[kind].append(member.learner)
    assert {mixup.name: list(names) for mixup, names in found.mixups} == doing
    assert [len(names) for _, names in found.mixups] == sorted(map(len, doing.values()), reverse=True)
    assert found.met == sum(case.slug in cards(of(lines, name)) for name in NAMES)
    assert found.slipping == tuple(m.learner for m in report.members if m.of(case).memory.sign == "Sl")
    said = told_across(report, case)
    kinds = {Mixup.LIFT: "which layer lifts", Mixup.TOP: "the top", Mixup.FAR: "away", Mixup.BESIDE: "beside"}
    for mixup, _ in found.mixups:
        assert any(kinds[mixup] in line for line in said)


def test_a_case_across_the_group_names_the_step_that_costs_most(report: GroupReport) -> None:
    costly = [(across(report, case).costly, told_across(report, case)) for case in report.cases]
    for step, said in costly:
        named = [line for line in said if line.startswith("Most turns")]
        assert named == ([] if step is None else [f"Most turns are lost in {step.value.capitalize()}."])
    assert len({step is None for step, _ in costly}) == 2


def test_the_last_evening_is_what_the_exported_lines_say(lines: Lines, report: GroupReport) -> None:
    ordered = sorted(lines, key=when)
    first = max(
        place
        for place in range(1, len(ordered))
        if when(ordered[place]) - when(ordered[place - 1]) >= timedelta(hours=3)
    )
    made, start, end = ordered[first:], when(ordered[first]), when(ordered[-1])
    tried = [line for line in made if line["outcome"] != "watched"]
    better, slipped = set(), set()
    for name in {line["learner"] for line in made}:
        before = cards([line for line in of(lines, name) if when(line) < start])
        after = cards(of(lines, name))
        for slug in {line["case"] for line in made if line["learner"] == name}:
            then, since = sign(before.get(slug), start), sign(after.get(slug), end)
            if since in ("St", "Su") and then not in ("St", "Su"):
                better.add((name, slug))
            if since == "Se" and then in ("St", "Su", "Sl"):
                slipped.add((name, slug))
    found = report.evening
    assert found is not None
    assert found.day == end.date()
    assert found.present == tuple(sorted({line["learner"] for line in made}))
    assert found.minutes == round((end - start).total_seconds() / 60 + made[0]["seconds"] / 60)
    assert (found.tries, found.solved) == (
        len(tried),
        sum(line["outcome"] == "solved" for line in tried),
    )
    assert found.cases == len({line["case"] for line in made})
    assert {(name, case.slug) for name, case in found.better} == better
    assert {(name, case.slug) for name, case in found.slipped} == slipped
    assert better
    assert slipped
    assert len(told(report)) == 5


def test_the_table_has_a_row_for_each_learner(report: GroupReport) -> None:
    rows = list(csv.DictReader(io.StringIO("".join(format_group(report)))))
    assert [row["learner"] for row in rows] == [member.learner for member in report.members]
    for row, member in zip(rows, report.members, strict=True):
        words = [each.memory.word for each in member.cases]
        assert [row[str(case.number)] for case in CASES] == words
        assert row["slipping"] == str(words.count("slipping"))
        assert row["today"].split() == [str(c.number) for c in CASES if member.of(c).today]


def evening(**changes: Any) -> GroupReport:
    """A report of one quiet evening."""
    plain = Evening(date(2026, 11, 28), ("Ilva",), 1, 1, 1, 1, (), ())
    given = {name: changes.get(name, getattr(plain, name)) for name in Evening.__struct_fields__}
    return GroupReport(date(2026, 11, 28), (), CASES, Evening(**given))


def test_a_quiet_evening_is_told_in_five_lines() -> None:
    assert told(evening()) == (
        "Saturday, 28 November: Ilva was here.",
        "They made 1 try at 1 case in 1 minute and solved 1.",
        "Nobody remembers more cases than before.",
        "No case slipped.",
        "Next time, go on with new cases. Nobody finds an old one hard.",
    )


def test_a_full_evening_names_the_first_and_counts_the_others() -> None:
    names = ("Anna", "Bea", "Cem", "Dora", "Eli", "Finn")
    better = tuple((name, case) for count, name in enumerate(names[:5]) for case in CASES[: 5 - count])
    slipped = (("Anna", CASES[7]), ("Bea", CASES[7]), ("Bea", CASES[2]))
    lines = told(evening(present=names, better=better, slipped=slipped))
    assert lines[0] == "Saturday, 28 November: Anna, Bea, Cem, Dora and two more were here."
    assert (
        lines[2] == "Anna remembers five more cases, Bea four and Cem three. Two other learners gained too."
    )
    assert lines[3] == "Case 8 slipped for Anna and Bea. One more case slipped too."


def test_a_learner_alone_is_not_counted(attempt: Any) -> None:
    made = [attempt.detour(day=0)]
    report = group_report({"Ilva": Study.of(made, made[0].time)}, made[0].time)
    assert told(report)[-1] == "Next time, begin with case 1. It is still hard."
    said = " ".join((*told(report), *told_across(report, CASES[0])))
    assert "of one" not in said
    assert "The learner loses turns beside the slot." in said


def test_without_attempts_nobody_has_practised() -> None:
    now = datetime(2026, 11, 28, tzinfo=UTC)
    report = group_report({GUEST: Study.of((), now), "Ilva": Study.of((), now)}, now)
    assert told(report) == ("Nobody has practised yet.",)
    assert report.evening is None
    # The guest is there at every machine, whoever is in the group.
    assert [(m.learner, m.attempts) for m in report.members] == [("Ilva", 0)]
    assert {(each.memory, each.today) for each in report.members[0].cases} == {(Memory.NOT_MET, False)}


def test_slots_have_their_own_lifts(attempt: Any) -> None:
    # By the definition of a lift, written down by hand in LIFTS.
    for slot in Slot:
        for turn in Turn:
            made = attempt(slot=slot, turns=(TurnMade(turn, 1.0, Verdict.DETOUR, 1, Step.RAISE),))
            line = json.loads(format_line(made))
            (cell,) = [
                member.of(CASES[0])
                for member in group_report({"Ilva": Study.of([made], made.time)}, made.time).members
            ]
            assert {mixup.name for mixup in cell.mixups} == {astray(line)}
