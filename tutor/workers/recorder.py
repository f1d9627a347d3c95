"""Carries out what the session asks of the store: reading, keeping, taking back, choosing what comes next.

All of it may take longer than a frame (a disk that is slow, another window that writes), so that the
application runs it beside, one thing after the other.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import UTC, datetime, tzinfo
from functools import partial
from pathlib import Path

from tutor.coach.guidance import easier_than
from tutor.method.cases import parse_case
from tutor.progress.attempt import GUEST, AttemptError, AttemptRecord
from tutor.progress.schedule import next_up
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import AttemptStore, StoreError
from tutor.progress.study import Study, guidance_of, load_study
from tutor.progress.summary import summarise
from tutor.session.record_commands import (
    AttemptUndone,
    LearnerRefused,
    OpenRecords,
    Propose,
    Proposed,
    Record,
    Recorded,
    RecordsCommand,
    RecordsEffect,
    RecordsOpened,
    Standing,
    Summarise,
    Summarised,
    UndoAttempt,
)

log = logging.getLogger(__name__)

NOTHING_CHOSEN = (
    "What to practise next could not be chosen; the log says why. "
    "Try again, or pick a case from the case book."
)


def _now() -> datetime:
    return datetime.now(UTC)


def _zone() -> tzinfo:
    return datetime.now().astimezone().tzinfo or UTC


class Recorder:
    """The store of one folder and where its learners stand. Used from one thread at a time."""

    def __init__(
        self,
        folder: Path,
        clock: Callable[[], datetime] = _now,
        zone: Callable[[], tzinfo] = _zone,
    ) -> None:
        """Nothing is opened before the first thing asked. ``zone`` tells where days begin."""
        self._folder = folder
        self._clock = clock
        self._zone = zone
        self._store: AttemptStore | None = None
        self._refused = ""
        self._studies: dict[str, Study] = {}
        self._unkept: list[AttemptRecord] = []

    def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
        """Do what is asked; what came of it."""
        match effect:
            case OpenRecords(name, new):
                return self._opened(name, new=new)
            case Record(attempt):
                return self._recorded(attempt)
            case UndoAttempt():
                return self._undone(effect)
            case Propose():
                return self._proposed(effect)
            case Summarise(learner):
                return self._summarised(learner)

    def close(self) -> None:
        """Try once more to write what waits, and let go of the file."""
        store = self._open()
        if store is not None:
            store.close()
            for notice in store.notices:
                log.warning("%s", notice)
            self._store = None

    def _open(self) -> AttemptStore | None:
        """The store; None when its file is from a newer version of the program, which is left as it is."""
        if self._store is None and not self._refused:
            try:
                self._store = AttemptStore.open(self._folder, self._clock)
            except NewerStoreError as error:
                self._refused = f"{error} Nothing is kept until then."
        return self._store

    def _study(self, learner: str) -> Study:
        if learner not in self._studies:
            store, now = self._open(), self._clock()
            if store is None:
                own = [attempt for attempt in self._unkept if attempt.learner == learner]
                self._studies[learner] = Study.of(own, now)
            else:
                self._studies[learner] = load_study(store, learner, now)
        return self._studies[learner]

    def _standing(self, learner: str) -> Standing:
        store, study = self._open(), self._study(learner)
        names = (GUEST,) if store is None else store.learners()
        notices = (self._refused,) if store is None else store.notices
        others = () if learner in names else (learner,)
        return Standing(learner, (*names, *others), study, notices)

    def _opened(self, name: str, *, new: bool) -> RecordsCommand:
        store = self._open()
        if new and store is not None:
            try:
                name = store.add_learner(name)
            except (AttemptError, StoreError) as error:
                return LearnerRefused(f"{name} could not be added: {error}.")
        self._studies.pop(name, None)  # read anew: another window may have written
        standing = self._standing(name)
        return RecordsOpened(standing, guidance_of(standing.study.results))

    def _recorded(self, attempt: AttemptRecord) -> RecordsCommand:
        # Kept before anything else is tried: what cannot be read must not keep an attempt from the disk.
        store, known = self._open(), self._studies.get(attempt.learner)
        if store is None:
            self._unkept.append(attempt)
        saved = store is not None and store.record(attempt)
        if known is not None:
            self._studies[attempt.learner] = known.after(attempt, self._clock())
        return Recorded(attempt.uuid, saved, self._standing(attempt.learner))

    def _undone(self, wanted: UndoAttempt) -> RecordsCommand:
        problem, store = "", self._open()
        self._unkept = [attempt for attempt in self._unkept if attempt.uuid != wanted.uuid]
        try:
            if store is not None:
                store.undo(wanted.uuid)
        except StoreError as error:
            problem = f"It still counts: {error}."
        self._studies.pop(wanted.learner, None)
        return AttemptUndone(wanted.uuid, self._standing(wanted.learner), problem)

    def _proposed(self, wanted: Propose) -> RecordsCommand:
        try:
            choose = partial(next_up, self._study(wanted.learner), self._clock(), wanted.mode)
            proposal = choose(family=wanted.family, zone=self._zone())
            if proposal is not None:
                # Worked out once here, beside the window, for when runs at it fail again and again.
                easier_than(parse_case(proposal.slug))
            return Proposed(wanted.request, proposal)
        except Exception:
            # Practice waits for this answer: without one nobody could go on.
            log.exception("what to practise next could not be chosen")
            return Proposed(wanted.request, None, NOTHING_CHOSEN)

    def _summarised(self, learner: str) -> RecordsCommand:
        return Summarised(learner, summarise(self._study(learner), self._clock(), self._zone()))
