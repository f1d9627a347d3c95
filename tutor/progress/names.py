"""When two names are one learner: everywhere names are compared, they are compared here."""

from __future__ import annotations

from collections.abc import Iterable
from unicodedata import normalize


def folded(name: str) -> str:
    """The form that all ways to write a learner's name share, whatever their capitals and Unicode form.

    It is the compatibility caseless match of the Unicode Standard (section 3.13, D146).
    """
    once = normalize("NFKD", normalize("NFD", name.strip()).casefold())
    return normalize("NFKD", once.casefold())


def same_learner(one: str, other: str) -> bool:
    """Whether both are names of one learner."""
    return one == other or folded(one) == folded(other)


def known_as(name: str, known: Iterable[str]) -> str | None:
    """How the learner of this name is written among those known; None when there is none."""
    wanted = folded(name)
    return next((each for each in known if folded(each) == wanted), None)
