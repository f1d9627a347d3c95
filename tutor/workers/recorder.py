"""Carries out what the session asks of the store: reads, saves and deletes attempts, chooses the next case.

Each of these may take longer than a frame (when the disk is slow, or another window writes), so the
application runs them in order on a thread of their own.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import datetime, tzinfo
from functools import partial
from pathlib import Path

from tutor.coach.guidance import easier_than
from tutor.method.cases import parse_case
from tutor.progress.assigning import assign
from tutor.progress.assignment import open_cases
from tutor.progress.attempt import GUEST, AttemptError, AttemptRecord, now_utc
from tutor.progress.backup import BACKUPS
from tutor.progress.belongings import Belongings, FolderMove, beside
from tutor.progress.group import group_report
from tutor.progress.hardest import hardest
from tutor.progress.local_zone import LOCAL_ZONE
from tutor.progress.names import known_as, same_learner
from tutor.progress.own_words import OwnWords
from tutor.progress.schedule import next_up
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import AttemptStore, StoreError
from tutor.progress.study import Study, guidance_of, load_study
from tutor.progress.summary import summarise
from tutor.session.record_commands import (
    Assign,
    AssignedKept,
    AttemptUndone,
    ChangeLearner,
    FindHardest,
    GroupReported,
    HardestFound,
    KeepOwnWords,
    LearnerChange,
    LearnerChanged,
    LearnerRefused,
    OpenRecords,
    OwnWordsKept,
    Propose,
    Proposed,
    Record,
    Recorded,
    RecordsCommand,
    RecordsEffect,
    RecordsOpened,
    ReportGroup,
    Standing,
    Summarise,
    Summarised,
    UndoAttempt,
)
from tutor.workers import words

PUT_BACK = LearnerChange.PUT_BACK
log = logging.getLogger(__name__)


class Recorder:
    """The store of one folder, and the progress of its learners. Use it from one thread at a time."""

    def __init__(
        self,
        folder: Path,
        clock: Callable[[], datetime] = now_utc,
        zone: tzinfo = LOCAL_ZONE,
    ) -> None:
        """Opens nothing yet. ``zone`` says when a day begins."""
        self._folder = folder
        self._belongings = Belongings(folder)
        self._clock = clock
        self._zone = zone
        self._store: AttemptStore | None = None
        self._refused = ""
        self._studies: dict[str, Study] = {}
        self._numbers: dict[str, set[str]] = {}
        """The attempts that studies are of, where nothing has been taken in since everybody was read."""
        self._unkept: list[AttemptRecord] = []

    def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
        """Carry an effect out and give its result."""
        match effect:
            case OpenRecords(name, new):
                return self._opened(name, new=new)
            case ChangeLearner():
                return self._learner_changed(effect)
            case Record(attempt):
                return self._recorded(attempt)
            case UndoAttempt():
                return self._undone(effect)
            case KeepOwnWords():
                return self._own_kept(effect)
            case Propose():
                return self._proposed(effect)
            case Summarise(learner, at):
                return self._summarised(learner, at)
            case ReportGroup():
                return self._group_reported()
            case Assign():
                return self._assigned(effect)
            case FindHardest():
                return self._hardest_found()

    def close(self) -> tuple[str, ...]:
        """Try once more to write what waits, and close the file; what there is to say of that."""
        store, self._store = self._open(), None
        if store is None:
            return ()
        store.close()
        return store.notices

    @property
    def store(self) -> AttemptStore | None:
        """The open store; None before anything was asked of it, and where there is none to use."""
        return self._store

    def _open(self) -> AttemptStore | None:
        """The store; None when a newer version of the program wrote its file, which stays as it is."""
        if self._store is None and not self._refused:
            try:
                self._store = AttemptStore.open(self._folder, self._clock)
                self._belongings.settle(self._store.has_anything_of)
            except NewerStoreError as error:
                self._refused = words.nothing_saved_until_then(str(error))
        return self._store

    def _study(self, learner: str) -> Study:
        if learner not in self._studies:
            store, now = self._open(), self._clock()
            self._numbers.pop(learner, None)
            if store is None:
                own = [attempt for attempt in self._unkept if attempt.learner == learner]
                self._studies[learner] = Study.of(own, now)
            else:
                self._studies[learner] = load_study(store, learner, now)
        return self._studies[learner]

    def _standing(self, learner: str) -> Standing:
        store, study = self._open(), self._study(learner)
        names = (GUEST,) if store is None else store.learners()
        learner = known_as(learner, names) or learner
        notices = (self._refused,) if store is None else store.notices
        others = () if learner in names else (learner,)
        own = (
            {} if store is None else {each.case: each.text for each in store.own_words(learner) if each.text}
        )
        backups = "" if store is None else str(self._folder / BACKUPS)
        assigned = () if store is None else store.assignments(learner)
        return Standing(learner, (*names, *others), study, notices, own, backups, assigned, self._zone)

    def _opened(self, name: str, *, new: bool) -> RecordsCommand:
        store = self._open()
        if new and store is not None:
            try:
                name = store.add_learner(name)
            except (AttemptError, StoreError) as error:
                return LearnerRefused(words.not_added(name, str(error)))
        self._studies.pop(name, None)  # read anew: another window may have written
        standing = self._standing(name)
        return RecordsOpened(standing, guidance_of(standing.study.results))

    def _learner_changed(self, wanted: ChangeLearner) -> RecordsCommand:
        new, copy, problem, store = wanted.new, wanted.copy, "", self._open()
        try:
            if store is None:
                raise StoreError(self._refused)
            new, copy = self._change(store, wanted)
        except (AttemptError, StoreError, NewerStoreError, OSError) as error:
            problem = words.learner_unchanged(wanted.old, str(error))
        self._studies.clear()
        changed = not problem and same_learner(wanted.old, wanted.seated)
        seated = wanted.seated if not changed or wanted.change is PUT_BACK else new or GUEST
        standing = self._standing(seated)
        guidance = guidance_of(standing.study.results)
        return LearnerChanged(wanted.change, wanted.old, new, standing, guidance, copy, problem)

    def _change(self, store: AttemptStore, wanted: ChangeLearner) -> tuple[str, str]:
        """Carry the change out; the new name, and the copy kept before. Raises StoreError and its like."""
        old, new = wanted.old, wanted.new
        match wanted.change:
            case LearnerChange.RENAME:
                with self._belongings.following(FolderMove(old, str(self._belongings.of(new)))):
                    return store.rename(old, new), ""
            case LearnerChange.JOIN:
                with self._belongings.following(FolderMove(old, str(self._belongings.of(new)))):
                    return new, str(store.join(old, new))
            case LearnerChange.REMOVE:
                copy = store.free_copy("before-removal")
                with self._belongings.following(FolderMove(old, str(beside(copy)))):
                    return "", str(store.reset(old, copy))
            case LearnerChange.PUT_BACK:
                copy = Path(wanted.copy)
                store.put_back(old, copy)
                self._belongings.bring_back(old, beside(copy))
                return old, ""

    def _recorded(self, attempt: AttemptRecord) -> RecordsCommand:
        # Kept before anything else is tried: what cannot be read must not keep an attempt from the disk.
        store, known = self._open(), self._studies.get(attempt.learner)
        if store is None:
            self._unkept.append(attempt)
        saved = store is not None and store.record(attempt)
        if known is not None:
            self._studies[attempt.learner] = known.after(attempt, self._clock())
            self._numbers.pop(attempt.learner, None)
        return Recorded(attempt.uuid, saved, self._standing(attempt.learner))

    def _undone(self, wanted: UndoAttempt) -> RecordsCommand:
        problem, store = "", self._open()
        self._unkept = [attempt for attempt in self._unkept if attempt.uuid != wanted.uuid]
        try:
            if store is not None:
                store.undo(wanted.uuid)
        except StoreError as error:
            problem = words.still_counts(str(error))
        self._studies.pop(wanted.learner, None)
        return AttemptUndone(wanted.uuid, self._standing(wanted.learner), problem)

    def _own_kept(self, wanted: KeepOwnWords) -> RecordsCommand:
        problem, store = "", self._open()
        try:
            if store is None:
                raise StoreError(self._refused)
            store.write_own(OwnWords(wanted.learner, wanted.slug, self._clock(), wanted.text))
        except (AttemptError, StoreError) as error:
            problem = words.own_words_not_kept(str(error))
        return OwnWordsKept(self._standing(wanted.learner), problem)

    def _summarised(self, learner: str, at: datetime) -> RecordsCommand:
        study = self._study(learner)
        return Summarised(learner, summarise(study, at, self._zone, self._given(learner, study, at)))

    def _given(self, learner: str, study: Study, at: datetime) -> tuple[str, ...]:
        """The cases that a teacher has given and that are still to do."""
        store = self._open()
        return () if store is None else open_cases(store.assignments(learner), study.results, at)

    def _proposed(self, wanted: Propose) -> RecordsCommand:
        try:
            study, now = self._study(wanted.learner), self._clock()
            given = self._given(wanted.learner, study, now)
            choose = partial(next_up, study, now, wanted.mode, assigned=given)
            proposal = choose(family=wanted.family, zone=self._zone)
            if proposal is not None:
                # Worked out once here, beside the window, for when runs at it fail again and again.
                easier_than(parse_case(proposal.slug))
            return Proposed(wanted.request, proposal)
        except Exception:
            # Practice waits for this answer: without one nobody could go on.
            log.exception(words.CHOOSING_FAILED)
            return Proposed(wanted.request, None, words.NOTHING_CHOSEN)

    def _everybody(self) -> dict[str, Study]:
        """Every learner of the store with what is known of them."""
        store = self._open()
        if store is None:
            return {}
        # Read anew only where another window has written: to read everybody takes a while.
        numbers = store.numbers()
        self._studies = {
            learner: study
            for learner, study in self._studies.items()
            if learner in numbers and numbers[learner] == self._numbers.get(learner)
        }
        found = {learner: self._study(learner) for learner in store.learners()}
        self._numbers = numbers
        return found

    def _group_reported(self) -> RecordsCommand:
        store, now = self._open(), self._clock()
        assigned = () if store is None else store.assignments()
        return GroupReported(group_report(self._everybody(), now, self._zone, assigned), assigned)

    def _assigned(self, wanted: Assign) -> RecordsCommand:
        problem, store = "", self._open()
        try:
            if store is None:
                raise StoreError(self._refused)
            assign(store, wanted.learners, wanted.task, self._clock(), state=wanted.state)
        except (AttemptError, StoreError) as error:
            problem = words.not_assigned(str(error))
        everybody = () if store is None else store.assignments()
        return AssignedKept(self._standing(wanted.learner), everybody, problem)

    def _hardest_found(self) -> RecordsCommand:
        studies = self._everybody() or {GUEST: self._study(GUEST)}
        return HardestFound(hardest((study.cards for study in studies.values()), self._clock()))
