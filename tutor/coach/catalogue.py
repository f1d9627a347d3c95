"""The catalogue of words: every text for people that the coach can say, found by key.

A translator replaces ``tutor.coach.english`` with a mapping of the same keys. An entry is a tuple of
variants that mean the same; an entry that counts is a mapping from plural category to text. The categories
are those of the Unicode CLDR (one, other, ...); ``category`` picks one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from string import Formatter

from tutor.coach.english import COUNTED, NUMBERS, TEXTS

LONGEST_SENTENCE = 160
"""No sentence for the learner has more characters."""

_FIRST_LETTER = re.compile(r"(^|[.!?]\s+)([a-z])")


class CatalogueError(ValueError):
    """A key or a field that the catalogue does not know; the message names it."""


def english_category(count: int) -> str:
    """The plural category of a count in English (Unicode CLDR): one or other."""
    return "one" if count == 1 else "other"


@dataclass(frozen=True)
class Catalogue:
    """Texts by key, counted nouns by key, and the language's rule for plurals."""

    texts: Mapping[str, tuple[str, ...]]
    counted: Mapping[str, Mapping[str, str]]
    numbers: tuple[str, ...]
    category: Callable[[int], str] = english_category

    def say(self, key: str, variant: int = 0, **fields: str) -> str:
        """The text of ``key`` with its fields filled in; ``variant`` (any integer) picks among the ways.

        Raises CatalogueError for an unknown key or a field that is not given.
        """
        try:
            return self._variant(key, variant).format(**fields)
        except KeyError as missing:
            raise CatalogueError(f"the text {key!r} needs a field called {missing}") from None

    def fields(self, key: str, variant: int = 0) -> tuple[str, ...]:
        """The names of the fields in a text, each once. Raises CatalogueError for an unknown key."""
        found = (name for _, name, _, _ in Formatter().parse(self._variant(key, variant)) if name)
        return tuple(dict.fromkeys(found))

    def _variant(self, key: str, variant: int) -> str:
        if key not in self.texts:
            raise CatalogueError(f"the catalogue has no text called {key!r}")
        variants = self.texts[key]
        return variants[variant % len(variants)]

    def count(self, key: str, count: int) -> str:
        """A counted noun, for instance ``three turns``."""
        if key not in self.counted:
            raise CatalogueError(f"the catalogue counts no {key!r}")
        return self.counted[key][self.category(count)].format(n=self.number(count))

    def number(self, count: int) -> str:
        """A number as a word where the language has a short one."""
        return self.numbers[count] if 0 <= count < len(self.numbers) else str(count)


def sentences(text: str) -> list[str]:
    """The sentences of a text."""
    return [part for part in re.split(r"(?<=[.!?])\s+", text.strip()) if part]


def capitalised(text: str) -> str:
    """The text with a capital at the start of every sentence."""
    return _FIRST_LETTER.sub(lambda found: found[1] + found[2].upper(), text)


ENGLISH = Catalogue(TEXTS, COUNTED, NUMBERS)
"""The catalogue that ships."""
