"""The Learners screen: you choose who learns, add somebody, or change one learner on a page of its own."""

from __future__ import annotations

from functools import lru_cache
from typing import assert_never

from tutor.progress.attempt import GUEST
from tutor.screens.learners import words
from tutor.screens.learners.commands import JoinInto, LearnersAct, TakeInHand
from tutor.screens.learners.state import IN_HAND, InHand, LearnersPage
from tutor.screens.parts.frame import screen_view
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.record_commands import ChooseLearner
from tutor.ui.view import Block, Button, ButtonRow, Entry, Gap, Group, Text, TextStyle, Tone, View


@lru_cache(maxsize=2)
def learners(session: Session) -> View:
    """Everybody who is known and a field for a new name, or the learner in hand alone."""
    in_hand = IN_HAND.of(session)
    if in_hand.page is LearnersPage.ADD:
        return screen_view(session, words.TITLE, page=(_known(session, in_hand), _new(session)))
    # Alone, for beside a long list it would be out of sight with large text.
    return screen_view(session, words.TITLE, page=(_in_hand(session, in_hand),))


def _known(session: Session, in_hand: InHand) -> tuple[Block, ...]:
    records = session.records
    rows = [
        ButtonRow(
            (
                Button(ChooseLearner(name), name, selected=name == records.learner),
                Button(TakeInHand(name), words.CHANGE),
            )
        )
        for name in records.learners
    ]
    told = Text(words.WHO, TextStyle.TITLE), Text(words.APART, tone=Tone.MUTED)
    return (*told, *_gone(in_hand), *rows)


def _gone(in_hand: InHand) -> tuple[Block, ...]:
    """Who was removed last, and the way back."""
    if in_hand.removed is None:
        return ()
    name = in_hand.removed.name
    back = Button(LearnersAct.PUT_BACK, words.bring_back(name))
    return (Group((Text(words.removed(name)), back)), Gap(1))


def _in_hand(session: Session, in_hand: InHand) -> tuple[Block, ...]:
    match in_hand.page:
        case LearnersPage.ADD | LearnersPage.CHANGE:
            return _one(session, in_hand)
        case LearnersPage.JOIN:
            return _same_person(session, in_hand)
        case LearnersPage.JOIN_ASKED:
            asked = words.join_asked(in_hand.name, in_hand.other)
            return _asked(in_hand, asked, words.JOIN_SURE, words.KEEP_APART)
        case LearnersPage.REMOVE_ASKED:
            return _asked(
                in_hand, words.remove_asked(in_hand.name), words.REMOVE_SURE, words.keep(in_hand.name)
            )
        case LearnersPage.REMOVE_ASKED_AGAIN:
            again = words.remove_asked_again(in_hand.name)
            return _asked(in_hand, again, words.REMOVE_NOW, words.keep(in_hand.name))
        case _:
            assert_never(in_hand.page)


def _new(session: Session) -> tuple[Block, ...]:
    advice = words.FIRST_NAME if session.records.exchanged is None else words.FIRST_NAME_SHARED
    return (
        Text(words.NEW, TextStyle.HEADING),
        Text(advice, tone=Tone.MUTED),
        _field(session, words.FIELD),
        Gap(1),
    )


def _one(session: Session, in_hand: InHand) -> tuple[Block, ...]:
    """Another name, a join with another learner, or a removal."""
    join = Button(LearnersAct.JOIN, words.JOIN, enabled=len(session.records.learners) > 1)
    guest = in_hand.name == GUEST
    return (
        Text(words.change(in_hand.name), TextStyle.TITLE),
        Text(words.GUEST_STAYS if guest else words.ALL_FOLLOWS, tone=Tone.MUTED),
        _field(session, words.NEW_NAME),
        Gap(1),
        join,
        Button(LearnersAct.REMOVE, words.EMPTY_GUEST if guest else words.REMOVE),
        Gap(1),
        Button(LearnersAct.BACK, words.DONE),
    )


def _same_person(session: Session, in_hand: InHand) -> tuple[Block, ...]:
    others = (name for name in session.records.learners if name != in_hand.name)
    return (
        Text(words.same_person(in_hand.name), TextStyle.TITLE),
        ButtonRow(tuple(Button(JoinInto(name), name) for name in others)),
        Gap(1),
        Button(LearnersAct.BACK, words.KEEP_APART),
    )


def _asked(in_hand: InHand, question: str, yes: str, no: str) -> tuple[Block, ...]:
    return (
        Text(words.change(in_hand.name), TextStyle.TITLE),
        Text(question, TextStyle.QUESTION),
        # Nothing is changed by an Enter too many.
        Button(LearnersAct.BACK, no, primary=True),
        Button(LearnersAct.SURE, yes),
    )


def _field(session: Session, label: str) -> Entry:
    writing = session.writing
    return Entry(
        Act.WRITE,
        label,
        writing.text,
        writing.caret,
        focused=writing.open,
        error=writing.error,
        chosen=writing.chosen,
    )
