"""The room in which cases are practised."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from msgspec.structs import replace

from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.cube.position import Slot
from tutor.method.cases import Case
from tutor.progress.presence import At, Engaged
from tutor.screens.practice import (
    case_run,
    clock,
    glance,
    keeping,
    looking,
    metronome,
    own_line,
    sitting,
    update,
    words,
)
from tutor.screens.practice.commands import (
    NAME,
    NameTurn,
    Own,
    PracticeAct,
    Practise,
    SetGoal,
    Tick,
    TryCase,
)
from tutor.screens.practice.keys import KEYS
from tutor.screens.practice.state import PRACTICE, RUN, Practice, PracticePage, RunPhase
from tutor.screens.practice.view import practice_at
from tutor.session.answers import Key
from tutor.session.binding import Shows
from tutor.session.commands import Chime, RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.session.record_commands import AttemptUndone, Proposed, StoreAnswer
from tutor.session.state import Attempt
from tutor.session.turns_taken import TurnTaken
from tutor.ui.view import Button, Stage, View


class PracticeRoom(Room):
    """The cases one after the other, each with as much help as the learner needs."""

    name = NAME
    shows = Shows.CUBE_IN_HAND
    keys = KEYS

    def door(self, session: Session) -> Button:
        """From Home."""
        return way_to(self, words.TITLE, words.DOOR)

    def begun(self, session: Session) -> Session:
        """No run is on the screen."""
        return RUN.put(session, None)

    def learner_changed(self, session: Session) -> Session:
        """Only what everybody may share stays: the goal and the pace chosen last."""
        practice = PRACTICE.of(session)
        shared = Practice(goal=practice.goal, pace=practice.pace, request=practice.request)
        return PRACTICE.put(RUN.put(session, None), shared)

    def opened(self, session: Session, now: float) -> Session:
        """What the run shows first is shown from its beginning."""
        return update.walked_in(session, now)

    def closed(self, session: Session, now: float) -> Session | None:
        """A run is left first, for the screen where its case was picked."""
        return None if RUN.of(session) is None else update.gone_back(session, now)

    def page(self, session: Session) -> object:
        """The run and where it stands, or what can be practised."""
        run, stand = RUN.of(session), PRACTICE.of(session).stand
        return stand if run is None else (run.case.slug, run.slot, run.alignment, run.phase)

    def engaged(self, session: Session) -> Engaged:
        """The run's case; after a sitting nothing is left to do."""
        run = RUN.of(session)
        if run is None:
            return Engaged(over=PRACTICE.of(session).stand is not PracticePage.START)
        return Engaged(At.CASE, run.case.number, over=run.over)

    def turns_tried(self, session: Session) -> tuple[TurnTaken, ...]:
        """The run's turns."""
        run = RUN.of(session)
        return () if run is None else run.made

    def attempt(self, session: Session) -> Attempt | None:
        """The run's cube."""
        run = RUN.of(session)
        return None if run is None else run.attempt

    def with_attempt(self, session: Session, attempt: Attempt) -> Session:
        """The run with another cube."""
        run = RUN.of(session)
        return session if run is None else RUN.put(session, replace(run, attempt=attempt))

    def turns_allowed(self, session: Session) -> bool:
        """In the learner's part of a run; at a glance nothing is turned."""
        run = RUN.of(session)
        return run is not None and run.phase is RunPhase.TURNING and run.glance is None

    def refused(self, session: Session) -> str:
        """Why a turn is not made."""
        return update.refused(session)

    def silent(self, session: Session) -> bool:
        """Alone and at a glance."""
        return update.silent(session)

    def turned(self, session: Session, move: Move, now: float) -> Session | None:
        """At a glance a turn is named."""
        return None if glance.asking(session) is None else glance.turn_keyed(session, move, now)

    def halved(self, session: Session) -> Session | None:
        """At a glance the turn named is made a half turn."""
        return None if glance.asking(session) is None else glance.halved(session)

    def turned_over(self, session: Session) -> Session | None:
        """At a glance the turn named goes the other way."""
        return None if glance.asking(session) is None else glance.turned_over(session)

    def hint_refused(self, session: Session) -> str:
        """At a glance nothing helps."""
        return words.NO_HELP_AT_A_GLANCE if glance.asking(session) is not None else ""

    def way_refused(self, session: Session) -> str:
        """While a new case is looked at, “Watch it first” shows it, and then it counts as watched."""
        return "" if looking.asking(session) is None else words.LOOK_FIRST

    def submitted(self, session: Session, now: float) -> Update | None:
        """After a run, a line of the learner's own for its case."""
        return own_line.submitted(session)

    def noted(self, session: Session, move: Move, now: float, *, with_last: bool) -> Session:
        """Every turn made is kept."""
        return case_run.noted(session, move, now, with_last=with_last)

    def hinted(self, session: Session, rung: int, now: float) -> Session:
        """Every hint is kept."""
        return case_run.hinted(session, rung, now)

    def checked(self, session: Session, now: float) -> Session:
        """Whether the run begins or ends."""
        return update.checked(session, now)

    def revealed(self, session: Session, now: float) -> Session:
        """Verdicts help as much as a look at where the pieces are: done so, the case is not known yet."""
        run = RUN.of(session)
        if run is None:
            return session
        if run.glance is not None:
            return replace(session, notice=words.NO_HELP_AT_A_GLANCE)
        return case_run.hinted(RUN.put(session, replace(run, revealed=True)), 1, now)

    def shows_by_itself(self, session: Session) -> bool:
        """Before the learner's part."""
        run = RUN.of(session)
        return run is not None and run.phase is RunPhase.SHOWING

    def handed_over(self, session: Session, now: float) -> Session:
        """The learner's part begins."""
        return update.handed_over(session, now)

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of practice."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        after = _done(session, command, now)
        return after if isinstance(after, tuple) else (after, ())

    def gone_on(self, session: Session, now: float) -> Update:
        """To the learner's part, to the answer of a glance, or to the next case."""
        after = update.gone_on(session, now)
        return after if isinstance(after, tuple) else (after, ())

    def chosen(self, session: Session, index: int, now: float) -> Session:
        """What is seen of a new case, the step of a glance, or an answer to the run's question."""
        return update.answered(session, index, now)

    def pointed(self, session: Session, sticker: int, now: float) -> Session:
        """At a piece, while a new case is looked at."""
        return looking.pointed(session, sticker)

    def marked(self, session: Session, attempt: Attempt, stage: Stage) -> Stage | None:
        """While the pieces are looked for, they have no rings."""
        run = looking.asking(session)
        return None if run is None else looking.marked(session, run, stage)

    def choosing(self, session: Session) -> bool:
        """While a new case is looked at, at a glance without a turn named, and where a question is asked."""
        run = RUN.of(session)
        if run is None:
            return False
        if run.phase is RunPhase.LOOKING:
            return True
        return (
            run.glance is not None and run.glance.turn is None and not run.over
        ) or run.question is not None

    def told(self, session: Session, command: StoreAnswer, now: float) -> Update | None:
        """The next case is proposed; an attempt counts no more."""
        match command:
            case Proposed():
                return update.proposed(session, command, now), ()
            case AttemptUndone():
                return keeping.taken_back(session, command)
            case _:
                return None

    def clocked(self, session: Session, now: float, *, seen: bool) -> Session:
        """The run's clock."""
        return case_run.clocked(session, now, seen=seen)

    def finished(self, session: Session, now: float) -> Update:
        """A run that is over is kept."""
        return keeping.finished(session, now)

    def needed(self, session: Session) -> tuple[Key, ...]:
        """The answer for that."""
        return keeping.needed(session)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """What was done counts towards the sitting's goal, and what was shown after a run is remembered."""
        kept = case_run.replayed(sitting.kept_up(before, after, filed, now))
        return kept, (Chime(),) if case_run.celebrated(before, after) and after.settings.sound else ()

    def due(self, session: Session, now: float) -> RoomCommand | None:
        """The next stroke of a glance's clock or of the metronome."""
        return Tick() if clock.tick_due(session, now) else None

    def heard(self, session: Session) -> bool:
        """The metronome is heard, and nothing beside it."""
        run = RUN.of(session)
        return run is None or run.beat is None

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return practice_at(session, now)

    def pointed_out(self, session: Session, cube: HeldCube) -> frozenset[int]:
        """The two pieces, for a moment after the first solve without help."""
        run = RUN.of(session)
        if run is None or run.lit_until is None or run.attempt.aim is None:
            return frozenset()
        aim = run.attempt.aim
        return metronome.cubies_of(aim.pair | {aim.cross}, aim.pair, cube)

    def shown_case(self, session: Session) -> tuple[Case, Slot, int] | None:
        """The run's case."""
        run = RUN.of(session)
        return None if run is None else (run.case, run.slot, run.alignment)


def _done(session: Session, command: Own, now: float) -> Session | Update:
    match command:
        case TryCase():
            return update.tried(session, command, now)
        case Practise():
            return update.begun(session, command, now)
        case SetGoal():
            return update.goal_set(session, command, now)
        case NameTurn(turn):
            return glance.turn_pressed(session, turn, now)
        case PracticeAct():
            return update.act(session, command, now)
        case Tick():
            return clock.ticked(session, now)
        case _:
            assert_never(command)
