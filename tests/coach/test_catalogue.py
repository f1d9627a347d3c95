from __future__ import annotations

import re

import pytest

from tutor.coach.catalogue import ENGLISH, Catalogue, CatalogueError, capitalised, sentences
from tutor.coach.change import Event
from tutor.coach.phrase import Phrase, finished
from tutor.coach.verdict_sentences import LOSSES


def test_an_unknown_key_or_a_missing_field_is_named() -> None:
    with pytest.raises(CatalogueError, match=r"no\.such\.text"):
        ENGLISH.say("no.such.text")
    with pytest.raises(CatalogueError, match="needs a field called 'turn'"):
        ENGLISH.say("turn.show", way="the right layer")


def test_another_language_needs_no_change_elsewhere() -> None:
    german = Catalogue({"turn.show": ("Drehe {turn}: {way}.",)})
    assert german.say("turn.show", turn="R", way="die rechte Lage") == "Drehe R: die rechte Lage."


def test_every_event_can_be_told() -> None:
    for event in Event:
        assert f"did.{event.value}" in ENGLISH.texts


def test_every_gain_can_be_told_before_it_comes() -> None:
    gains = [event for event in Event if event not in LOSSES]
    assert {f"coming.{event.value}" for event in gains} == {
        key for key in ENGLISH.texts if key.startswith("coming.")
    }


def test_every_text_is_a_sentence_or_a_phrase_and_no_two_variants_are_alike() -> None:
    for key, variants in ENGLISH.texts.items():
        assert len(set(variants)) == len(variants) > 0, key
        for text in variants:
            assert text.strip(), key
            assert "  " not in text, key


def test_variants_of_a_text_differ_in_words_not_only_in_fields() -> None:
    for key, variants in ENGLISH.texts.items():
        bare = {re.sub(r"\{\w+\}", "*", text) for text in variants}
        assert len(bare) == len(variants), key


def test_sentences_begin_with_a_capital() -> None:
    assert capitalised("the corner is up. it is home! now go.") == "The corner is up. It is home! Now go."
    assert sentences("One turn to go. Solved! Why?") == ["One turn to go.", "Solved!", "Why?"]


def test_an_aside_is_said_once_in_a_sentence() -> None:
    told = finished(
        Phrase("the corner (in the left mirror) and the edge (in the left mirror). it (in the left mirror).")
    )
    assert told.text == "The corner (in the left mirror) and the edge. It (in the left mirror)."
