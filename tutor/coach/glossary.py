"""The glossary: every term that a beginner learns, with its meaning in one line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from msgspec import Struct

from tutor.coach.words.glossary import TERMS


class Term(Struct, frozen=True):
    """A term, its meaning, and the forms in which sentences use it (in small letters)."""

    name: str
    meaning: str
    forms: tuple[str, ...]


GLOSSARY: tuple[Term, ...] = tuple(Term(name, meaning, forms) for name, (meaning, forms) in TERMS.items())
"""All terms, in the order in which a beginner meets them."""


class Use(Struct, frozen=True):
    """A term where a text uses it: ``text[start:end]``."""

    term: Term
    start: int
    end: int


@cache
def _pattern() -> re.Pattern[str]:
    forms = sorted((form for term in GLOSSARY for form in term.forms), key=len, reverse=True)
    return re.compile(r"\b(" + "|".join(map(re.escape, forms)) + r")\b", re.IGNORECASE)


@cache
def _by_form() -> dict[str, Term]:
    return {form: term for term in GLOSSARY for form in term.forms}


def uses(text: str) -> Iterator[Use]:
    """The terms in a text, from left to right; a longer form wins over a shorter one inside it."""
    for found in _pattern().finditer(text):
        yield Use(_by_form()[found[0].lower()], found.start(), found.end())


def terms_in(text: str) -> tuple[Term, ...]:
    """The terms that a text uses, each once, in the order of their first use."""
    return tuple(dict.fromkeys(use.term for use in uses(text)))
