"""Choosing a learner, adding one, and what can be done to one: another name, a join, a removal."""

from __future__ import annotations

from pathlib import Path
from typing import assert_never

from msgspec.structs import replace

from tutor.progress.attempt import AttemptError, check_learner
from tutor.progress.names import same_learner
from tutor.screens.learners import words
from tutor.screens.learners.commands import JoinInto, LearnersAct, Own, TakeInHand
from tutor.screens.learners.state import IN_HAND, InHand, LearnersPage, Removed
from tutor.session import recording as records
from tutor.session.house import Session, Update
from tutor.session.places import of_learner, with_places
from tutor.session.record_commands import (
    ChangeLearner,
    LearnerChange,
    LearnerChanged,
    LearnerRefused,
    RecordsOpened,
)
from tutor.session.state import Writing


def submitted(session: Session) -> Update:
    """Add a learner of the name typed, or give it to the one in hand; what is wrong is said at the field."""
    name = session.writing.text.strip()
    try:
        session = replace(session, writing=replace(session.writing, error=""))
        if IN_HAND.of(session).page is LearnersPage.ADD:
            return records.named(session, name)
        check_learner(name)
        return session, (_change(session, LearnerChange.RENAME, name),)
    except AttemptError as error:
        said = words.refused(str(error)) if name else words.TYPE_A_NAME
        return replace(session, writing=replace(session.writing, error=said, error_column=None)), ()


def done(session: Session, command: Own) -> Update:
    """Carry out a command of this room."""
    in_hand = IN_HAND.of(session)
    match command:
        case TakeInHand(name) if name in session.records.learners:
            return on_page(session, replace(in_hand, page=LearnersPage.CHANGE, name=name, other="")), ()
        case JoinInto(name) if in_hand.page is LearnersPage.JOIN and name in session.records.learners:
            return on_page(session, replace(in_hand, page=LearnersPage.JOIN_ASKED, other=name)), ()
        case LearnersAct():
            return _act(session, in_hand, command)
        case TakeInHand() | JoinInto():
            return session, ()
        case _:
            assert_never(command)


def _act(session: Session, in_hand: InHand, act: LearnersAct) -> Update:
    match act:
        case LearnersAct.JOIN if in_hand.page is LearnersPage.CHANGE:
            return on_page(session, replace(in_hand, page=LearnersPage.JOIN)), ()
        case LearnersAct.REMOVE if in_hand.page is LearnersPage.CHANGE:
            return on_page(session, replace(in_hand, page=LearnersPage.REMOVE_ASKED)), ()
        case LearnersAct.SURE:
            return _sure(session, in_hand)
        case LearnersAct.BACK:
            return back(session) or session, ()
        case LearnersAct.PUT_BACK if in_hand.removed is not None:
            gone = in_hand.removed
            wanted = ChangeLearner(
                LearnerChange.PUT_BACK, gone.name, session.records.learner, gone.name, gone.copy
            )
            return session, (wanted,)
        case LearnersAct.JOIN | LearnersAct.REMOVE | LearnersAct.PUT_BACK:
            return session, ()
        case _:
            assert_never(act)


def _sure(session: Session, in_hand: InHand) -> Update:
    """Yes to what is asked; the first yes to a removal leads to the second question."""
    match in_hand.page:
        case LearnersPage.JOIN_ASKED:
            return session, (_change(session, LearnerChange.JOIN, in_hand.other),)
        case LearnersPage.REMOVE_ASKED:
            return on_page(session, replace(in_hand, page=LearnersPage.REMOVE_ASKED_AGAIN)), ()
        case LearnersPage.REMOVE_ASKED_AGAIN:
            return session, (_change(session, LearnerChange.REMOVE, ""),)
        case LearnersPage.ADD | LearnersPage.CHANGE | LearnersPage.JOIN:
            return session, ()
        case _:
            assert_never(in_hand.page)


def _change(session: Session, change: LearnerChange, new: str) -> ChangeLearner:
    return ChangeLearner(change, IN_HAND.of(session).name, session.records.learner, new)


def back(session: Session) -> Session | None:
    """One page back; None on the first."""
    in_hand = IN_HAND.of(session)
    if in_hand.page is LearnersPage.ADD:
        return None
    if in_hand.page is LearnersPage.CHANGE:
        return on_page(session, InHand(removed=in_hand.removed))
    return on_page(session, replace(in_hand, page=LearnersPage.CHANGE, other=""))


def on_page(session: Session, in_hand: InHand) -> Session:
    """With this in hand, and the field as its page begins: for another name the present one, all chosen."""
    text = in_hand.name if in_hand.page is LearnersPage.CHANGE else ""
    writing = Writing(in_hand.page.writes, text, len(text), chosen=bool(text))
    return IN_HAND.put(replace(session, writing=writing, notice=""), in_hand)


def added(session: Session, command: RecordsOpened) -> Update | None:
    """The records of the learner just added were read: they learn, and the field is ready for another name.

    None for any other. Whoever adds a class types name after name; at Home they would be typed into nothing.
    """
    name, typed = command.standing.learner, session.writing.text
    if IN_HAND.of(session).page is not LearnersPage.ADD or not same_learner(name, typed):
        return None
    known, seated = name in session.records.learners, name == session.records.learner
    if not seated:
        session = records.seated(session, name)
    session = records.opened(session, command)
    notice = words.is_new(name)
    if known:
        notice = words.learns_already(name) if seated else words.learns_now(name)
    notice = " ".join(command.standing.notices) or notice
    return replace(on_page(session, IN_HAND.of(session)), notice=notice), ()


def refused(session: Session, command: LearnerRefused) -> Update | None:
    """A learner could not be added, which is said at the field while it is there."""
    if not session.writing.open:
        return None
    return replace(session, writing=replace(session.writing, error=command.message)), ()


def changed(session: Session, command: LearnerChanged) -> Update:
    """A learner was changed, which is told; or was not, which is said at the field while there is one."""
    before = of_learner(session.places, command.old)
    in_hand = IN_HAND.of(session)
    session = records.changed(session, command)
    if command.problem:
        if session.writing.open:
            session = replace(session, writing=replace(session.writing, error=command.problem), notice="")
        return session, ()
    removed = in_hand.removed
    if command.change is LearnerChange.REMOVE:
        removed = Removed(command.old, command.copy, before)
    elif command.change is LearnerChange.PUT_BACK and removed is not None:
        session = replace(session, places=with_places(session.places, command.old, removed.places))
        removed = None
    notices = session.records.notices
    session = on_page(session, InHand(removed=removed))
    return replace(session, notice=" ".join((_told(command), *notices))), ()


def _told(command: LearnerChanged) -> str:
    old, new, backup = command.old, command.new, Path(command.copy).name
    match command.change:
        case LearnerChange.RENAME:
            return words.renamed(old, new)
        case LearnerChange.JOIN:
            return words.joined(old, new, backup)
        case LearnerChange.REMOVE:
            return words.gone(old, backup)
        case LearnerChange.PUT_BACK:
            return words.put_back(old)
