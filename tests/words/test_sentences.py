"""The rules that mark a doubtful sentence, on sentences taken apart by hand.

Tags are those of the Penn Treebank (Marcus, Santorini, Marcinkiewicz, 1993); "one" as a personal pronoun is
PRP, as a number CD.
"""

from __future__ import annotations

import pytest

from tests.words.sentences import (
    Doubt,
    Word,
    doubts,
    is_sentence,
    private_senses,
    sentences_of,
    word_count,
)


def parsed(*words: str) -> list[Word]:
    """Words written as text/tag/role/head."""
    fields = (word.split("/") for word in words)
    return [Word(text, tag, role, int(head)) for text, tag, role, head in fields]


def test_a_plain_sentence_raises_no_doubt() -> None:
    assert not doubts(
        parsed("You/PRP/nsubj/1", "lift/VBP/ROOT/1", "the/DT/det/3", "slot/NN/dobj/1", "././punct/1")
    )


def test_an_order_needs_no_subject() -> None:
    assert not doubts(parsed("Turn/VB/ROOT/0", "it/PRP/dobj/0", "back/RB/advmod/0", "././punct/0"))


def test_a_fragment_has_no_verb() -> None:
    found = doubts(parsed("Two/CD/nummod/1", "turns/NNS/ROOT/1", "less/JJR/advmod/1", "././punct/1"))
    assert found == (Doubt.NO_VERB,)


def test_a_statement_without_a_doer_lacks_its_subject() -> None:
    found = doubts(parsed("Takes/VBZ/ROOT/0", "both/DT/dobj/0", "down/RP/prt/0"))
    assert found == (Doubt.NO_SUBJECT,)


def test_a_passive_is_marked() -> None:
    words = parsed("The/DT/det/1", "pair/NN/nsubjpass/3", "is/VBZ/auxpass/3", "kept/VBN/ROOT/3")
    assert doubts(words) == (Doubt.PASSIVE,)


@pytest.mark.parametrize(
    ("sentence", "person"),
    [
        (("One/PRP/nsubj/2", "must/MD/aux/2", "look/VB/ROOT/2"), True),
        (("One/CD/nsubj/3", "of/IN/prep/0", "them/PRP/pobj/1", "turns/VBZ/ROOT/3"), False),
        (("The/DT/det/1", "one/NN/nsubj/2", "turns/VBZ/ROOT/2"), False),
    ],
)
def test_one_is_a_person_only_without_anything_that_counts(sentence: tuple[str, ...], person: bool) -> None:
    assert (Doubt.ONE in doubts(parsed(*sentence))) is person


def test_a_relative_clause_at_the_end_trails_and_one_before_the_verb_does_not() -> None:
    first = ("The/DT/det/1", "cases/NNS/nsubj/4", "you/PRP/nsubj/3", "forget/VBP/relcl/1", "come/VBP/ROOT/4")
    assert doubts(parsed(*first, "back/RB/advmod/4")) == ()
    last = ("You/PRP/nsubj/1", "see/VBP/ROOT/1", "cases/NNS/dobj/1", "that/WDT/dobj/5", "you/PRP/nsubj/5")
    assert doubts(parsed(*last, "forgot/VBD/relcl/2", "early/RB/advmod/5")) == (Doubt.TRAILING,)


def test_a_sentence_may_have_twenty_words() -> None:
    words = [Word("You", "PRP", "nsubj", 1), Word("see", "VBP", "ROOT", 1)]
    more = [Word("red", "JJ", "dobj", 1)] * 18
    assert doubts(words + more) == ()
    assert doubts([*words, *more, more[0]]) == (Doubt.LONG,)


def test_words_in_a_sense_of_their_own_are_named() -> None:
    assert private_senses("It stands there, and 32 hold.") == ("hold", "stand")
    assert private_senses("Hold the cube. The program tells you which layer to turn.") == ()
    assert private_senses("Go back to the Home screen.") == ()
    assert private_senses("The pair is home.") == ("home",)


def test_texts_are_cut_into_sentences_and_turns_count_as_words() -> None:
    assert sentences_of("Turn R'. Then look!\n- And now?") == ["Turn R'.", "Then look!", "And now?"]
    assert word_count("Turn R' U2 · back") == 4


def test_labels_are_no_sentences() -> None:
    assert [is_sentence(text) for text in ("Case book", "Show me the way", "Well done.", "Undo")] == [
        False, False, True, False,
    ]  # fmt: skip
