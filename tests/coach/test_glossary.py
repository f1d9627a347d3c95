"""Words for a beginner: few terms, each explained, and no other jargon anywhere."""

from __future__ import annotations

import re
from pathlib import Path

from tutor.coach.catalogue import ENGLISH
from tutor.coach.glossary import GLOSSARY, terms_in, uses

PLAIN = frozenset((Path(__file__).parent / "plain_words.txt").read_text().split())
"""Words of everyday English that the coach may use without explaining them."""

TRADE = frozenset(
    [
        "algorithm",
        "orientation",
        "oriented",
        "permutation",
        "permuted",
        "cubie",
        "facelet",
        "conjugate",
        "commutator",
        "parity",
        "inspection",
        "metric",
        "rotation",
        "regrip",
        "trigger",
        "cancellation",
        "settled",
        "continuation",
        "distance",
        "solver",
    ]
)
"""Words of the trade and of its mathematics that a beginner has not been told (common practice)."""


def words_said() -> dict[str, str]:
    """Every word of the catalogue and the glossary, with a text it stands in; fields and turns left out."""
    texts = [text for variants in ENGLISH.texts.values() for text in variants]
    texts += [term.meaning for term in GLOSSARY]
    bare = {text: re.sub(r"\{\w+\}|\b[UDLRFB]'?(?=\s|$)", " ", text) for text in texts}
    return {
        word: text for text, left in bare.items() for word in re.findall(r"[a-z]+(?:-[a-z]+)?", left.lower())
    }


def test_there_are_at_most_25_terms_each_with_one_line() -> None:
    assert len(GLOSSARY) <= 25
    for term in GLOSSARY:
        assert "\n" not in term.meaning
        assert 0 < len(term.meaning) <= 110


def test_no_sentence_uses_a_word_that_is_neither_plain_nor_explained() -> None:
    explained = {form for term in GLOSSARY for form in term.forms}
    unknown = {word: text for word, text in words_said().items() if word not in PLAIN | explained}
    assert unknown == {}


def test_no_jargon_is_counted_as_plain() -> None:
    assert not TRADE & PLAIN
    assert not TRADE & set(words_said())


def test_no_form_belongs_to_two_terms() -> None:
    forms = [form for term in GLOSSARY for form in term.forms]
    assert len(forms) == len(set(forms))


def test_terms_are_found_where_they_stand() -> None:
    text = "The pair is in the lifted slot: take it down."
    found = [(text[use.start : use.end], use.term.name) for use in uses(text)]
    assert found == [("pair", "pair"), ("lifted", "lift"), ("slot", "slot")]
    assert [term.name for term in terms_in("A corner, a corner, an edge")] == ["corner", "edge"]
