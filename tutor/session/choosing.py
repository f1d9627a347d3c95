"""Which case to practise next, from where the learner stands with each."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from tutor.coach.guidance import Guidance, Remedy
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, Case, Family


class Pool(Enum):
    """What is practised: everything, or one family of cases."""

    ALL = "all cases"
    BOTH_ON_TOP = Family.BOTH_ON_TOP.value
    CORNER_ON_TOP = Family.CORNER_ON_TOP.value
    EDGE_ON_TOP = Family.EDGE_ON_TOP.value
    BOTH_IN_SLOT = Family.BOTH_IN_SLOT.value

    @property
    def cases(self) -> tuple[Case, ...]:
        """The cases of the pool, the new ones in the order in which they are met."""
        if self is Pool.ALL:
            return CASES
        return tuple(case for case in CASES if case.family.value == self.value)


def next_case(pool: Pool, guidance: Mapping[str, Guidance], last: Case | None) -> Case:
    """The case to practise now: what went wrong, then what is half known, then what is new, then the rest.

    Never the same case twice in a row, since cases mixed are remembered better than one drilled (Rohrer and
    Taylor, Instructional Science 35, 2007; from memory).
    """
    open_to = [case for case in pool.cases if last is None or case.slug != last.slug]
    ranked = sorted(open_to, key=lambda case: _rank(guidance.get(case.slug)))
    return ranked[0]


def _rank(guidance: Guidance | None) -> tuple[int, int]:
    """Lower comes first; among equals the one practised less often."""
    if guidance is None:
        return (2, 0)
    if guidance.remedy is not Remedy.NONE or guidance.failures:
        return (0, guidance.runs)
    if not guidance.known:
        return (1, guidance.runs)
    return (3, guidance.runs)


def next_slot(slot: Slot) -> Slot:
    """The slots are gone round, so that no case is tied to one of them."""
    return SLOTS[(slot + 1) % len(SLOTS)]


def standing(pool: Pool, guidance: Mapping[str, Guidance]) -> tuple[int, int, int]:
    """How many cases of a pool are known, met but not known yet, and new."""
    met = [guidance[case.slug] for case in pool.cases if case.slug in guidance]
    known = sum(each.known for each in met)
    return known, len(met) - known, len(pool.cases) - len(met)
