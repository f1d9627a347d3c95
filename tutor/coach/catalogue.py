"""The catalogue: every text that the coach can say, found by key.

``tutor.coach.words`` has the texts. An entry is a tuple of variants that say the same.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from string import Formatter

from msgspec import Struct

from tutor.coach.words import TEXTS

_FIRST_LETTER = re.compile(r"(^|[.!?]\s+)([a-z])")


class CatalogueError(ValueError):
    """A key or a field that the catalogue does not know; the message names it."""


class Catalogue(Struct, frozen=True):
    """Texts by key."""

    texts: Mapping[str, tuple[str, ...]]

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


def sentences(text: str) -> list[str]:
    """The sentences of a text."""
    return [part for part in re.split(r"(?<=[.!?])\s+", text.strip()) if part]


def capitalised(text: str) -> str:
    """The text with a capital at the start of every sentence."""
    return _FIRST_LETTER.sub(lambda found: found[1] + found[2].upper(), text)


ENGLISH = Catalogue(TEXTS)
"""The catalogue that ships."""
