"""A sheet for each learner of a group, as files of one folder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from hashlib import sha256
from itertools import chain, count

from msgspec import Struct

from tutor.lesson.draft import DEVICES
from tutor.publish.case_sheet import CaseSheet
from tutor.publish.printing import Print

_RECIPES = 1
"""Raised when sheets of the same recipe come to look different."""


class LearnerSheet(Struct, frozen=True):
    """A learner's sheet and how it is printed; ``name`` is its file's."""

    name: str
    sheet: CaseSheet
    day: date
    how: Print
    paper: str

    @property
    def recipe(self) -> str:
        """What tells sheets apart that would not look the same."""
        sheet = self.sheet
        slugs, own = [case.slug for case in sheet.cases], sorted(sheet.own.items())
        parts = (
            _RECIPES, sheet.learner, sheet.title, sheet.told, slugs, own, sheet.slot.name, sheet.cross.name,
            sheet.columns, self.day, self.how, self.paper,
        )  # fmt: skip
        return sha256(repr(parts).encode()).hexdigest()


def named_files(sheets: Iterable[CaseSheet]) -> Iterator[tuple[str, CaseSheet]]:
    """Each sheet with the name of its file: the learner's, with a number where two would be one."""
    # On Windows nothing can be written to a file that is called as a device.
    taken = set(DEVICES)
    for sheet in sheets:
        letters = "".join(letter if letter.isalnum() else "-" for letter in sheet.learner)
        names = chain((letters,), (f"{letters}-{number}" for number in count(2)))
        name = next(name for name in names if name.casefold() not in taken)
        taken.add(name.casefold())
        yield f"{name}.pdf", sheet
