"""The Learners screen: you choose who learns, and change what learners there are."""

from __future__ import annotations

from functools import lru_cache
from typing import assert_never

from tutor.progress.attempt import GUEST
from tutor.screens.learners import words
from tutor.screens.learners.commands import JoinInto, LearnersAct, TakeInHand
from tutor.screens.learners.state import IN_HAND, InHand, Page
from tutor.screens.parts.frame import screen_view
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.record_commands import ChooseLearner
from tutor.ui.view import Block, Button, ButtonRow, Entry, Gap, Text, TextStyle, Tone, View


@lru_cache(maxsize=2)
def learners(session: Session) -> View:
    """Everybody who is known on the left; on the right a field for a new name, or one learner in hand."""
    return screen_view(session, words.TITLE, page=(_known(session), _beside(session)))


def _known(session: Session) -> tuple[Block, ...]:
    records, in_hand = session.records, IN_HAND.of(session)
    rows = [
        ButtonRow(
            (
                Button(ChooseLearner(name), name, selected=name == records.learner),
                Button(TakeInHand(name), words.CHANGE, selected=name == in_hand.name),
            )
        )
        for name in records.learners
    ]
    return (Text(words.WHO, TextStyle.TITLE), Text(words.APART, tone=Tone.MUTED), *rows)


def _beside(session: Session) -> tuple[Block, ...]:
    in_hand = IN_HAND.of(session)
    match in_hand.page:
        case Page.ADD:
            return _new(session, in_hand)
        case Page.CHANGE:
            return _one(session, in_hand)
        case Page.JOIN:
            return _same_person(session, in_hand)
        case Page.JOIN_ASKED:
            asked = words.join_asked(in_hand.name, in_hand.other)
            return _asked(in_hand, asked, words.JOIN_SURE, words.KEEP_APART)
        case Page.REMOVE_ASKED:
            return _asked(
                in_hand, words.remove_asked(in_hand.name), words.REMOVE_SURE, words.keep(in_hand.name)
            )
        case Page.REMOVE_ASKED_AGAIN:
            again = words.remove_asked_again(in_hand.name)
            return _asked(in_hand, again, words.REMOVE_NOW, words.keep(in_hand.name))
        case _:
            assert_never(in_hand.page)


def _new(session: Session, in_hand: InHand) -> tuple[Block, ...]:
    gone = in_hand.removed
    back: tuple[Block, ...] = ()
    if gone is not None:
        label = words.bring_back(gone.name)
        back = (Gap(1), Text(words.removed(gone.name)), Button(LearnersAct.PUT_BACK, label))
    return (
        Text(words.NEW, TextStyle.HEADING),
        Text(words.FIRST_NAME, tone=Tone.MUTED),
        _field(session, words.FIELD),
        Gap(1),
        *back,
    )


def _one(session: Session, in_hand: InHand) -> tuple[Block, ...]:
    """Another name, a join with another learner, or a removal."""
    join = Button(LearnersAct.JOIN, words.JOIN, enabled=len(session.records.learners) > 1)
    guest = in_hand.name == GUEST
    return (
        Text(words.change(in_hand.name), TextStyle.HEADING),
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
        Text(words.same_person(in_hand.name), TextStyle.HEADING),
        *(Button(JoinInto(name), name) for name in others),
        Gap(1),
        Button(LearnersAct.BACK, words.KEEP_APART),
    )


def _asked(in_hand: InHand, question: str, yes: str, no: str) -> tuple[Block, ...]:
    return (
        Text(words.change(in_hand.name), TextStyle.HEADING),
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
