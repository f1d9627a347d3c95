"""What to practise next: which case, in which slot, as it is or in the mirror, and why this one.

Everything here is a pure function of where the learner stands and the time.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime, time, timedelta, tzinfo

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import ALIGNMENTS, CASES, Case, Family, parse_case
from tutor.progress import words
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.cards import Card, CardPhase, grades, spread_next
from tutor.progress.course import course
from tutor.progress.forgetting import AGAIN
from tutor.progress.results import CASE_PLACES, MODES, OUTCOMES, Results, microseconds, moment
from tutor.progress.study import Study

NEW_A_DAY = 3
SITTING = timedelta(minutes=30)
"""After a pause as long as this a case may come again though it was the last one."""
CLEAN_FOR_THE_BEAT = 2
"""A case solved so often in a row without a hint or a detour goes with the beat, settled or not."""
AHEAD = timedelta(minutes=20)
"""A settling case may come so much earlier when no other case is on the list."""


class Proposal(Struct, frozen=True):
    """A case to practise now.

    ``slug`` is the case it counts for; with ``mirror`` its mirror image is set up (see ``shown``). ``why`` is
    a sentence for the learner.
    """

    slug: str
    slot: Slot
    mirror: bool
    alignment: int
    why: str

    @property
    def shown(self) -> Case:
        """The case to set up."""
        case = parse_case(self.slug)
        return case.mirror if self.mirror else case


def next_up(
    study: Study,
    now: datetime,
    mode: Mode,
    *,
    family: Family | None = None,
    new_a_day: int = NEW_A_DAY,
    zone: tzinfo = UTC,
    assigned: Sequence[str] = (),
) -> Proposal | None:
    """What to practise now; None when there is nothing (``next_back`` says until when).

    TODAY: the cases (by slug) that a teacher has ``assigned``; the cases of ``on_list``, settling ones
    first as soon as they come back, then those least likely to be remembered; then cases not met yet, in the
    order of the lessons, ``new_a_day`` of them (days begin at midnight in ``zone``); then settling ones a
    little early. SLIPPING: of the cases met the one least likely to be remembered tomorrow. FAMILY: of one
    ``family`` what TODAY would choose, with all cases not met yet, then what SLIPPING would. GLANCE: of the
    cases met one misnamed last time, or the one not named for longest. STEADY: of those that
    ``steady_cases`` gives the one not seen for longest. In every mode no case comes twice in a row.

    Raises ValueError for a mode in which the program does not choose.
    """
    # What a clock that ran ahead has dated after now says nothing of what came last.
    study = replace(study, results=study.results[study.results["time"] <= microseconds(now)])
    before = _last_seen(study, now)
    open_to = [case for case in course() if case not in before and family in (None, case.family)]
    chosen: _Chosen | None
    match mode:
        case Mode.TODAY:
            chosen = _given(assigned, open_to)
            back = _back(study, now, zone)
            chosen = chosen or _today(study, now, back, open_to, _left_today(study, now, new_a_day, zone))
        case Mode.FAMILY:
            back = _back(study, now, zone)
            chosen = _today(study, now, back, open_to, len(open_to)) or _slipping(study, now, open_to)
        case Mode.SLIPPING:
            chosen = _slipping(study, now, open_to)
        case Mode.GLANCE:
            chosen = _glance(study, open_to)
        case Mode.STEADY:
            chosen = _steady(study, open_to)
        case _:
            raise ValueError(f"in the mode “{mode.value}” the learner chooses the case")
    if chosen is None:
        return None
    picked, why = chosen
    slot, mirror, alignment = _way_to_meet(study, picked, before)
    return Proposal(picked.slug, slot, mirror, alignment, why)


def on_list(study: Study, now: datetime, zone: tzinfo = UTC) -> tuple[Card, ...]:
    """Today's list: the cases that come back before the day ends in ``zone``, the most urgent first.

    A case is on it the whole day, whatever the hour it was last met, so that the list does not grow while
    the day goes on, and everybody who looks at it sees the same one. Practice cannot give all of it at every
    moment (see ``ready``); what has to wait comes last.
    """
    tomorrow, last = _midnight(now, zone, 1), _slugs_of(_last_seen(study, now))
    listed = (card for card in study.cards.values() if spread_next(card) < tomorrow)
    return tuple(sorted(listed, key=lambda card: _urgency(card, last, now)))


def ready(
    study: Study, listed: Sequence[Card], now: datetime, zone: tzinfo = UTC, *, new_a_day: int = NEW_A_DAY
) -> tuple[Card, ...]:
    """Of today's list what practice can give now: a case that is still settling may have to wait."""
    waits = _waits(study, listed, now, _left_today(study, now, new_a_day, zone))
    return tuple(card for card, then in waits if then <= now)


def next_back(
    study: Study, now: datetime, zone: tzinfo = UTC, *, new_a_day: int = NEW_A_DAY
) -> datetime | None:
    """When the next case comes back that is not ``ready`` now, in UTC; None when there is none.

    That is a case of today's list that waits, or else the first that comes onto the list on a later day.
    """
    waits = _waits(study, study.cards.values(), now, _left_today(study, now, new_a_day, zone))
    times = (max(then, _midnight(spread_next(card), zone)) for card, then in waits)
    return min((then for then in times if then > now), default=None)


def _midnight(at: datetime, zone: tzinfo, days: int = 0) -> datetime:
    """When the day of a moment began in ``zone``, or a day so many days later, in UTC."""
    day = at.astimezone(zone).date() + timedelta(days=days)
    return datetime.combine(day, time(), zone).astimezone(UTC)


def _waits(
    study: Study, cards: Iterable[Card], now: datetime, new_left: int
) -> Iterator[tuple[Card, datetime]]:
    """Cards of today's list, each with the moment from which practice can give it.

    A settling case may come a little before its minutes are over, but not as the next one after itself: then
    it waits for them, and where nothing is there to come in between, for a pause.
    """
    before = _last_seen(study, now)
    last = _slugs_of(before)
    alone = not any(case.slug in study.cards or new_left > 0 for case in CASES if case not in before)
    for card in cards:
        then = now if card.phase is CardPhase.STICKING else card.next
        if card.slug not in last:
            then -= AHEAD
        elif alone:
            then = max(then, _last_time(study, now) + SITTING)
        yield card, then


_Chosen = tuple[Case, str]


def _urgency(card: Card, last: frozenset[str], now: datetime) -> tuple[bool, bool, bool, float, datetime]:
    """By what practice gives first: what is back, what is settling, and after others what came last."""
    sticks = card.phase is CardPhase.STICKING
    return (
        card.slug in last,
        not _is_back(card, now),
        sticks,
        card.chance(now) if sticks else 0.0,
        card.next,
    )


def _is_back(card: Card, now: datetime) -> bool:
    """Of a card of today's list, whether its minutes are over; only a settling case has to wait for that."""
    return card.phase is CardPhase.STICKING or card.next <= now


def _given(assigned: Sequence[str], open_to: Sequence[Case]) -> _Chosen | None:
    """The first case that a teacher has given; one that came last waits for another in between."""
    there = {case.slug: case for case in open_to}
    return next(((there[slug], words.ASSIGNED) for slug in assigned if slug in there), None)


def _back(study: Study, now: datetime, zone: tzinfo) -> tuple[Card, ...]:
    """Of today's list what is back, the case that came last among them."""
    return tuple(card for card in on_list(study, now, zone) if _is_back(card, now))


def _today(
    study: Study, now: datetime, back: Sequence[Card], open_to: Sequence[Case], new_left: int
) -> _Chosen | None:
    """What is back, what is not met yet, what is settling; one in between if only the last case is back."""
    slugs = {case.slug for case in open_to}
    for card in back:
        if card.slug in slugs:
            sticks = card.phase is CardPhase.STICKING
            return parse_case(card.slug), words.ON_THE_LIST if sticks else words.COMES_BACK
    if new_left > 0:
        for case in open_to:
            if case.slug not in study.cards:
                return case, words.NEW_IN_BETWEEN if back else words.NOT_MET_YET
    settling = [card for card in _met(study, open_to) if card.phase is not CardPhase.STICKING]
    soon = [card for card in settling if card.next <= now + AHEAD]
    if soon:
        return parse_case(min(soon, key=lambda card: card.next).slug), words.STILL_FRESH
    if back and (between := _slipping(study, now, open_to)):
        return between[0], words.IN_BETWEEN
    return None


def _slipping(study: Study, now: datetime, open_to: Sequence[Case]) -> _Chosen | None:
    """By tomorrow's chance: today's says nothing of what was practised today."""
    tomorrow = now + timedelta(days=1)
    met = _met(study, open_to)
    if not met:
        return None
    order = _last_met(study)
    slipping = min(
        met,
        key=lambda card: (
            card.phase is CardPhase.STICKING,
            card.chance(tomorrow),
            card.last,
            order[card.slug],
        ),
    )
    return parse_case(slipping.slug), words.SLIPPING_FIRST


def _glance(study: Study, open_to: Sequence[Case]) -> _Chosen | None:
    glances = study.results[study.results["mode"] == MODES.index(Mode.GLANCE)]
    ranked: list[tuple[bool, int, str]] = []
    for card in _met(study, open_to):
        own = np.flatnonzero(glances["case"] == CASE_PLACES[card.slug])
        last = int(own[-1]) if len(own) else -1
        named = last < 0 or glances["outcome"][last] != OUTCOMES.index(Outcome.MISNAMED)
        ranked.append((named, last, card.slug))
    if not ranked:
        return None
    named, _, slug = min(ranked, key=lambda one: one[:2])
    return parse_case(slug), words.LONGEST_UNNAMED if named else words.MISNAMED


def steady_cases(study: Study) -> tuple[Card, ...]:
    """The cards of the cases that go with the beat: those that stick, and those solved cleanly of late."""
    return tuple(
        card
        for card in study.cards.values()
        if card.phase is CardPhase.STICKING
        or study.solved_in_a_row(parse_case(card.slug), CLEAN_FOR_THE_BEAT)
    )


def _steady(study: Study, open_to: Sequence[Case]) -> _Chosen | None:
    slugs, order = {case.slug for case in open_to}, _last_met(study)
    known = [card for card in steady_cases(study) if card.slug in slugs]
    if not known:
        return None
    chosen = min(known, key=lambda card: (card.last, order[card.slug]))
    return parse_case(chosen.slug), words.STICKS if chosen.phase is CardPhase.STICKING else words.SOLVED_TWICE


def _last_met(study: Study) -> dict[str, int]:
    """Where among the attempts each case was met last, -1 for never; it decides between equal times."""
    places = np.full(len(CASES), -1)
    # Of several values for one place the last one stays.
    places[study.results["case"]] = np.arange(len(study.results))
    return {case.slug: int(place) for case, place in zip(CASES, places, strict=True)}


def _met(study: Study, open_to: Iterable[Case]) -> list[Card]:
    return [study.cards[case.slug] for case in open_to if case.slug in study.cards]


def _left_today(study: Study, now: datetime, new_a_day: int, zone: tzinfo) -> int:
    midnight = _midnight(now, zone)
    return new_a_day - sum(card.first >= midnight for card in study.cards.values())


def _latest(study: Study, now: datetime) -> Results:
    """The attempt that came last, if there is one."""
    if study.latest is not None:
        return study.latest
    results = study.results
    if not len(results) or results["time"][-1] <= microseconds(now):
        return results[-1:]
    # What a clock that ran ahead has dated after now says nothing of what came last.
    return results[results["time"] <= microseconds(now)][-1:]


def _last_time(study: Study, now: datetime) -> datetime:
    """When the attempt was made that came last."""
    return moment(int(_latest(study, now)["time"][0]))


def _last_seen(study: Study, now: datetime) -> frozenset[Case]:
    """The case that came last in this sitting, both as it counted and as it was seen."""
    last = _latest(study, now)
    if not len(last) or now - _last_time(study, now) >= SITTING:
        return frozenset()
    case = CASES[int(last["case"][0])]
    return frozenset({case, case.mirror} if last["mirror"][0] else {case})


def _slugs_of(cases: Iterable[Case]) -> frozenset[str]:
    return frozenset(case.slug for case in cases)


def _way_to_meet(study: Study, case: Case, before: frozenset[Case]) -> tuple[Slot, bool, int]:
    """Slot, mirror and alignment: what was not met yet, what failed last, what was not met for longest.

    A case is met at the front right first, and in the mirror only once it sticks as it is.
    """
    card = study.cards.get(case.slug)
    if card is None:
        return Slot.FR, False, 0
    mirrored = card.phase is CardPhase.STICKING and case.mirror != case and case.mirror not in before
    own = study.results[study.results["case"] == CASE_PLACES[case.slug]]
    failed = grades(own) == AGAIN
    ranked = []
    for mirror in (False, True) if mirrored else (False,):
        for slot in SLOTS:
            met = np.flatnonzero((own["slot"] == slot) & (own["mirror"] == mirror))
            last = int(met[-1]) if len(met) else -1
            rank = 0 if last < 0 else 1 if failed[last] else 2
            ranked.append((rank, last, mirror, slot))
    _, _, mirror, slot = min(ranked)
    return slot, mirror, ALIGNMENTS[len(own) % len(ALIGNMENTS)]
