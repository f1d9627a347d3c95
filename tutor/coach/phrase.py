"""Phrases: a text together with the claims it makes, so that nothing is said that cannot be read back."""

from __future__ import annotations

import re
from collections.abc import Callable

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH, capitalised, sentences
from tutor.coach.claims import Claim


class Phrase(Struct, frozen=True):
    """A piece of text and every claim it makes."""

    text: str
    claims: tuple[Claim, ...] = ()

    def __add__(self, other: Phrase) -> Phrase:
        """Both texts, one after the other."""
        joined = " ".join(text for text in (self.text, other.text) if text)
        return Phrase(joined, self.claims + other.claims)


NOTHING = Phrase("")
"""The phrase that says and claims nothing."""

_ASIDE = re.compile(r" \([^)]*\)")


def tell(key: str, *claims: Claim, variant: int = 0, **fields: Phrase | str) -> Phrase:
    """The text of a catalogue entry with its fields filled in; it makes its own claims and its fields'."""
    texts = {name: field.text if isinstance(field, Phrase) else field for name, field in fields.items()}
    inner = tuple(claim for field in fields.values() if isinstance(field, Phrase) for claim in field.claims)
    return Phrase(ENGLISH.say(key, variant, **texts), claims + inner)


def tell_from(key: str, source: Callable[[str], Phrase], *claims: Claim, variant: int = 0) -> Phrase:
    """The text of a catalogue entry; each field that it uses, and no other, is asked of ``source``."""
    fields = {name: source(name) for name in ENGLISH.fields(key, variant)}
    return tell(key, *claims, variant=variant, **fields)


def finished(phrase: Phrase) -> Phrase:
    """The phrase as it is shown: capitals where sentences start, and each aside once in a sentence."""
    told = (_once(sentence) for sentence in sentences(capitalised(phrase.text)))
    return Phrase(" ".join(told), phrase.claims)


def without_asides(text: str) -> str:
    """The text for somebody who does not see the cube that it speaks of, or no mirrors: it names none."""
    return _ASIDE.sub("", text)


def _once(sentence: str) -> str:
    seen: set[str] = set()

    def first_only(found: re.Match[str]) -> str:
        if found[0] in seen:
            return ""
        seen.add(found[0])
        return found[0]

    return _ASIDE.sub(first_only, sentence)
