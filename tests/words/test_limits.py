"""Limits that hold on every screen: 20 words a sentence, 60 a card before “Tell me more”."""

from __future__ import annotations

import re

from tests.session.pilot import Reading
from tests.words.sentences import MOST_WORDS, sentences_of, word_count
from tests.words.shown import card_texts, texts_shown
from tutor.screens.parts.words import TELL_ME_LESS
from tutor.ui.view import View

MOST_ON_A_CARD = 60
_ASIDE = re.compile(r" \(in the [a-z ]+ mirrors?\)")
"""Says where to look for a piece, after the words that the sentence needs."""
_QUOTED = re.compile(r"“[^”]*”")
"""What a person or a file wrote counts as one word, however long it is."""

_TURNS = re.compile(r"\b[UDLRFB][2']*(?:[ ,·]+[UDLRFB][2']*(?![a-z]))+")
"""Turns in a row are read as one thing."""

STEPS_IN_A_LINE = (
    "Spot the corner and its edge, lift both to the top, set them apart, join them colour to colour, "
    "slide them into the slot."
)
"""The five steps are always said in this one sentence."""
NOT_OURS = "RuntimeError: words words"
"""What an error says that the program did not expect."""

FULLER_CARDS = {
    "notation 15", "five-steps 13",
    "edge-in-slot 11", "both-in-slot 6", "both-in-slot 15", "raise-and-part 14",
    "shortcuts 9", "shortcuts 15", "four-slots 16",
    "free play, all at once", "sheet f1", "sheet f8", "sheet f10", "failure",
    "case page", "case page, writing another way",
    "run LAST_TURN", "practice, a case proposed", "glance, over", "solve, review", "solve, fewest shown",
}  # fmt: skip
"""Cards that still say too much at once; once they do not, their line here goes."""


def words_in(text: str) -> int:
    """Words of a text, asides about mirrors left out, quotations as one."""
    return word_count(_TURNS.sub("turns", _QUOTED.sub("quoted", _ASIDE.sub("", text))))


def too_long(view: View) -> list[str]:
    """Sentences of a view with more words than a sentence may have."""
    sentences = [sentence for text in texts_shown(view) for sentence in sentences_of(text)]
    ours = [each for each in sentences if each != STEPS_IN_A_LINE and not each.startswith(NOT_OURS)]
    return [sentence for sentence in ours if words_in(sentence) > MOST_WORDS]


def on_card(view: View) -> int:
    """How many words a card says."""
    return sum(words_in(text) for text in card_texts(view.card))


def tells_more(view: View) -> bool:
    """Whether the card says all, since the learner asked for it."""
    return any(button.label == TELL_ME_LESS for button in Reading(view).buttons)


def test_no_sentence_on_a_screen_has_more_than_20_words(views: dict[str, View]) -> None:
    assert len(views) > 100
    assert {name: long for name, view in views.items() if (long := too_long(view))} == {}


def test_no_card_says_more_than_60_words_at_once(views: dict[str, View]) -> None:
    brief = {name: view for name, view in views.items() if not tells_more(view)}
    found = {name: count for name, view in brief.items() if (count := on_card(view)) > MOST_ON_A_CARD}
    assert {name: count for name, count in found.items() if name not in FULLER_CARDS} == {}
    assert set(FULLER_CARDS) <= set(found), "within the limit now: take it out of FULLER_CARDS"


def test_asides_about_mirrors_and_quotations_are_counted_as_said() -> None:
    assert words_in("The corner (in the left mirror) is on top.") == 5
    assert words_in("“R U Q' something” is no face.") == 4
    assert words_in("The slot (at the back) is solved.") == 7


def test_the_five_steps_are_said_in_their_one_line_at_home(views: dict[str, View]) -> None:
    assert STEPS_IN_A_LINE in [each for text in texts_shown(views["home"]) for each in sentences_of(text)]
