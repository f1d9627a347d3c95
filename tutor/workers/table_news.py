"""What a process reports about the solver's tables."""

from __future__ import annotations

from msgspec import Struct


class TablesMissing(Struct, frozen=True):
    """There are no large tables; answers are exact all the same, only slower."""


class TablesShare(Struct, frozen=True):
    """How much of the large tables is made, from 0 to 1."""

    share: float


class TablesNotice(Struct, frozen=True):
    """Something about the tables that a person may want to know, in a sentence."""

    text: str
