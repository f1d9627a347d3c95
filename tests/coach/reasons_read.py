"""Reads whether a remark gives its verdict a reason, and how long and full of numbers its sentences are."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tutor.coach.catalogue import sentences
from tutor.method.continuations import Verdict

LONGEST_SENTENCE = 160
"""No sentence for the learner has more characters."""
_LOSS = re.compile(r"takes out|takes [^.:]* down|matched, and .* separates|pairs? .* out of place")
_WRONG = re.compile(
    r"should turn, but|can help, but|one turn too early|touch the wrong way round"
    r"|still touch without matching|still turned\. turn it back|does not help here"
    r"|takes the pair(?: \([^)]*\))? along|no turn of the top slides"
    r"|there was a way \w+ turns? shorter|there was a shorter way with far layers"
)
_PRICE = re.compile(r"costs \w+ (?:extra )?turns?|a way \w+ turns? shorter|a shorter way with far layers")
_WORDS = "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen"
_NUMBERS = re.compile(rf"\b(?:{_WORDS}) (?:(?:extra|more) )?turns?\b")


def unreasoned(text: str, verdict: Verdict) -> Iterator[str]:
    """What a remark with this verdict lacks, or says that goes ill with it."""
    low = text.lower()
    if verdict is Verdict.DETOUR:
        if not (_LOSS.search(low) or _WRONG.search(low)):
            yield "a detour without a reason"
        if not _PRICE.search(low):
            yield "a detour without its price"
        return
    if _LOSS.search(low) or _WRONG.search(low) or _PRICE.search(low):
        yield f"{verdict.value}, and it sounds like a loss"
    if verdict is Verdict.ACCEPTABLE and not re.search(
        r"it works too\. this (way through the steps|other way) takes", low
    ):
        yield "acceptable without a reason"


def crowded(text: str) -> Iterator[str]:
    """Sentences with more than one number of turns."""
    low = text.lower().replace("one turn too early", "")
    yield from (part for part in sentences(low) if len(_NUMBERS.findall(part)) > 1)
