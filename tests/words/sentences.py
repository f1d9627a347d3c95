"""What is doubtful about a sentence, read from how a parser took it apart.

The parser is spaCy with its small English model; what is known of a word here are its text, its part of
speech (Penn Treebank tags) and its part in the sentence (the dependency labels of ClearNLP), so the rules can
be tested without it. A parser errs; so each mark is a question to a reader, never a verdict.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from enum import StrEnum

from msgspec import Struct

MOST_WORDS = 20
"""No sentence on a screen is longer."""

PRIVATE_SENSES = {
    "hold": r"\bholds?\b(?! (the|your|it|a|its|both|one)\b)|\bheld\b",
    "stand": r"\b(stands?|stood)\b",
    "tell": r"\b(tells?|told)\b(?! (you|the learner|me)\b)",
    "go on": r"\bgo(es)? on\b",
    "whole": r"\bwhole\b(?! (cube|solve)s?\b)",
    "home": r"\bhome\b(?! (screen|key|folder)\b)",
    "open": r"\b(is|are|an?|all|left|the) open\b",
    "part": r"\bparts?\b(?! of\b)",
    "so": r"\bso (many|much|far|it is|is it)\b",
    "win": r"\b(won|wins?)\b",
    "by itself": r"\bby itself\b",
}
"""Words that a text must use in their everyday sense alone, and the uses that a reader should look at."""


class Doubt(StrEnum):
    """What a reader should look at."""

    NO_VERB = "no verb"
    NO_SUBJECT = "no subject"
    PASSIVE = "passive"
    ONE = "one for a person"
    TRAILING = "trailing clause"
    LONG = "long"
    WORD = "word"


class Word(Struct, frozen=True):
    """A word of a parsed sentence; ``head`` is the place of the word it belongs to."""

    text: str
    tag: str
    role: str
    head: int


Parse = Callable[[str], list[list[Word]]]
"""Takes a text apart into its sentences."""

_SUBJECTS = {"nsubj", "nsubjpass", "expl", "csubj", "csubjpass"}
_ENDS = re.compile(r"[.!?:;]$")
_MARKUP = re.compile(r"[*`#>|]+|^- ")


def doubts(sentence: list[Word]) -> tuple[Doubt, ...]:
    """The marks of one sentence, in the order of Doubt."""
    found = {
        Doubt.NO_VERB: not any(word.tag.startswith(("VB", "MD")) for word in sentence),
        Doubt.NO_SUBJECT: _lacks_subject(sentence),
        Doubt.PASSIVE: any(word.role in ("auxpass", "nsubjpass") for word in sentence),
        Doubt.ONE: any(_is_a_person(word, sentence) for word in sentence),
        Doubt.TRAILING: _trails(sentence),
        Doubt.LONG: word_count(" ".join(word.text for word in sentence)) > MOST_WORDS,
        Doubt.WORD: bool(private_senses(" ".join(word.text for word in sentence))),
    }
    return tuple(doubt for doubt, is_so in found.items() if is_so)


def private_senses(text: str) -> tuple[str, ...]:
    """The words of a text that it may use in a sense of its own."""
    return tuple(name for name, use in PRIVATE_SENSES.items() if re.search(use, text, re.IGNORECASE))


def word_count(text: str) -> int:
    """Words in a text; turns like R' or U2 count as one each, signs alone as none."""
    return sum(any(letter.isalnum() for letter in word) for word in text.split())


def sentences_of(text: str) -> list[str]:
    """A text cut at full stops, question and exclamation marks, and at line ends."""
    lines = (_MARKUP.sub("", line).strip() for line in text.splitlines())
    return [part for line in lines for part in re.split(r"(?<=[.!?])\s+", line) if part]


def is_sentence(text: str) -> bool:
    """Whether a text is meant as a sentence: labels and headings, of few words without a stop, are not."""
    return word_count(text) > 4 or (_ENDS.search(text) is not None and word_count(text) > 1)


def _lacks_subject(sentence: list[Word]) -> bool:
    """Whether the main verb has no doer and is no order to the reader either."""
    for place, word in enumerate(sentence):
        if word.role == "ROOT" and word.tag.startswith("VB"):
            has_subject = any(each.head == place and each.role in _SUBJECTS for each in sentence)
            return not has_subject and word.tag not in ("VB", "VBP")
    return False


def _is_a_person(word: Word, sentence: list[Word]) -> bool:
    if word.text.lower() != "one" or word.role not in _SUBJECTS:
        return False
    place = next(index for index, each in enumerate(sentence) if each is word)
    following = sentence[place + 1].text.lower() if place + 1 < len(sentence) else ""
    owned = any(each.head == place for each in sentence)
    return not owned and following != "of"


def _trails(sentence: list[Word]) -> bool:
    """Whether the sentence ends in a relative clause that follows its main verb."""
    last = len(sentence) - 1
    while last > 0 and sentence[last].role == "punct":
        last -= 1
    root = next((place for place, word in enumerate(sentence) if word.role == "ROOT"), 0)
    return any(sentence[place].role == "relcl" and place > root for place in _chain(sentence, last))


def _chain(sentence: list[Word], place: int) -> Iterator[int]:
    """A word and all that it belongs to, up to the main verb."""
    seen: set[int] = set()
    while place not in seen:
        seen.add(place)
        yield place
        place = sentence[place].head
