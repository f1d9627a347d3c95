"""How the lessons that come with the program speak: whole sentences, short enough for a card."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from importlib import resources

import pytest

import lessons
from tutor.coach.glossary import GLOSSARY
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, find_script, load_lesson
from tutor.lesson.questions import Answerer
from tutor.lesson.scenes import Lesson, Quiz, Recap, Scene, Show
from tutor.lesson.script import AloneScript, AskScript

NAMES = curriculum_names()
LONGEST_SENTENCE = 20
LONGEST_CARD = 60

STEPS = {"Find", "Raise", "Part", "Join", "Insert"}
"""Terms that are words of everyday English too: only with a capital do they name a step."""

UNTOLD = {"Optimal", "Acceptable", "Detour", "route", "line", "by hand"}
"""Terms of verdicts and reviews: lessons do without them. “Line up” is everyday English."""

TOLD = {
    "edge": "An edge sits between two sides and shows two colours.",
    "corner": "A corner sits where three sides meet.",
    "cross": "The white centre and the four edges round it make the cross.",
    "mirror": "A mirror below the cube shows it to you.",
    "turn": "You turn one layer at a time.",
    "layer": "A layer is the nine pieces of one side.",
    "slot": "The upright gap between two neighbouring sides is called a slot.",
    "pair": "A corner and an edge that belong in the same slot are called a pair.",
    "solved": "A pair is solved when both pieces are in their slot, the right way round.",
    "Find": "The first step is called Find.",
    "Raise": "The second step is called Raise, and it brings both pieces up to the top.",
    "lift": "To lift a slot, you turn a layer beside it so that the slot comes up to the top.",
    "touch": "Two pieces touch when they lie side by side.",
    "Part": "The third step is called Part, and it sets the two pieces apart.",
    "match": "Two pieces match when they touch and their colours line up on both sides.",
    "Join": "The fourth step is called Join, and after it the two match.",
    "Insert": "The fifth step is called Insert.",
    "case": "A case is one way in which the two pieces can lie.",
}
"""The sentence that tells each term."""


@pytest.fixture(scope="module")
def course(answers: Answerer) -> list[Lesson]:
    setting = LessonSetting(answers)
    return [load_lesson(name, setting) for name in NAMES]


def said_besides(scene: Scene) -> list[str]:
    """Sentences that a scene shows one after the other beneath its text."""
    if isinstance(scene, Show):
        return [segment.text for segment in scene.segments]
    if isinstance(scene, Quiz):
        return [scene.because]
    if isinstance(scene, Recap):
        return [" ".join(scene.points)]
    return [getattr(scene, "afterwards", "")]


def cards(scene: Scene) -> Iterator[str]:
    """All that a scene says at one time, for each of its moments; answers to choose from are labels."""
    for text in said_besides(scene):
        yield f"{scene.card_text} {text}".strip()


def sentences(text: str) -> list[str]:
    return re.split(r"(?<=[.?!])\s+", text)


def reasons() -> list[str]:
    data = tomllib.loads(resources.files(lessons).joinpath("curriculum.toml").read_text("utf-8"))
    return [entry["why"] for entry in data["lesson"]]


def test_every_text_ends_as_a_sentence_ends(course: list[Lesson]) -> None:
    texts = [*reasons(), *(lesson.goal for lesson in course)]
    for scene in (scene for lesson in course for scene in lesson.scenes):
        points = scene.points if isinstance(scene, Recap) else ()
        texts += [scene.card_text, *filter(None, said_besides(scene)), *points]
    assert [text for text in texts if text[-1] not in ".?!"] == []


def test_no_sentence_is_longer_than_one_breath(course: list[Lesson]) -> None:
    texts = [*reasons(), *(lesson.goal for lesson in course)]
    texts += [card for lesson in course for scene in lesson.scenes for card in cards(scene)]
    long = [each for text in texts for each in sentences(text) if len(each.split()) > LONGEST_SENTENCE]
    assert long == []


def test_no_card_is_too_full(course: list[Lesson]) -> None:
    told = [card for lesson in course for scene in lesson.scenes for card in cards(scene)]
    assert [card for card in told if len(card.split()) > LONGEST_CARD] == []
    assert [card for card in told if len(re.findall(r"[:;]", card)) > 1] == []


@pytest.mark.parametrize("name", NAMES)
def test_while_you_turn_no_text_says_where_a_piece_was_as_if_it_still_were(name: str) -> None:
    # What a placeholder says of a piece is true where the scene starts, and its text stays to the end.
    asking = [s for s in find_script(name).script.scene if isinstance(s, AskScript | AloneScript)]
    placed = re.compile(r"\{(corner\.place|corner\.points|edge\.place|edge\.up)\}")
    said = [each for scene in asking for each in sentences(scene.text) if placed.search(each)]
    assert [each for each in said if not re.search(r"\bstarts?\b", each)] == []


def first_use(term: str, cards_in_order: list[str]) -> str:
    """The first sentence of the course that uses a term."""
    if term in STEPS:
        # At the start of a sentence the capital says nothing.
        pattern = re.compile(rf"(?<=[a-z,] ){term}\b")
    else:
        forms = next(each.forms for each in GLOSSARY if each.name == term)
        pattern = re.compile(rf"\b({'|'.join(forms)})\b", re.IGNORECASE)
    return next(each for card in cards_in_order for each in sentences(card) if pattern.search(each))


def test_every_term_of_the_glossary_is_told_or_left_out() -> None:
    assert {term.name for term in GLOSSARY} == TOLD.keys() | UNTOLD


@pytest.mark.parametrize("term", TOLD)
def test_a_term_is_told_before_it_is_used(term: str, course: list[Lesson]) -> None:
    told = [card for lesson in course for scene in lesson.scenes for card in cards(scene)]
    if term in ("turn", "layer"):
        # Each is told with the help of the other, in two sentences that follow each other.
        assert first_use(term, told) == TOLD["turn"]
    else:
        assert TOLD[term] in first_use(term, told)
    assert any(TOLD[term] in card for card in told)


@pytest.mark.parametrize("term", sorted(UNTOLD - {"line"}))
def test_terms_of_verdicts_and_reviews_are_not_used(term: str, course: list[Lesson]) -> None:
    told = " ".join(card for lesson in course for scene in lesson.scenes for card in cards(scene))
    forms = next(each.forms for each in GLOSSARY if each.name == term)
    assert not re.search(rf"\b({'|'.join(forms)})\b", told, re.IGNORECASE)
