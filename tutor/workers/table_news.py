"""What a process reports about the solver's tables."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class TablesMissing:
    """There are no large tables; answers are exact all the same, only slower."""


@dataclass(frozen=True, slots=True)
class TablesShare:
    """How much of the large tables is made, from 0 to 1."""

    share: float


@dataclass(frozen=True, slots=True)
class TablesNotice:
    """Something about the tables that a person may want to know, in a sentence."""

    text: str
