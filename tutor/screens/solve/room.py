"""The room of whole solves."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tutor.coach.catalogue import ENGLISH
from tutor.cube.faces import Face
from tutor.cube.position import Position, Slot
from tutor.progress.presence import At, Engaged
from tutor.screens.parts.stage import marked
from tutor.screens.solve import solving, upkeep, words
from tutor.screens.solve.commands import NAME, Own
from tutor.screens.solve.keys import KEYS
from tutor.screens.solve.saved import Shelf
from tutor.screens.solve.solving import SolveStand
from tutor.screens.solve.state import SHELF, SOLVE
from tutor.screens.solve.update import done
from tutor.screens.solve.view import solve_at
from tutor.session import attempts
from tutor.session.binding import Shows
from tutor.session.commands import ChooseSlot, Question, RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.session.state import Attempt
from tutor.session.target import Bearing, aim_at
from tutor.ui.action import Action
from tutor.ui.view import Button, Stage, View


class SolveRoom(Room):
    """A whole cube: the learner solves the cross, then chooses pairs until two layers are solved."""

    name = NAME
    shows = Shows.CUBE_IN_HAND
    keys = KEYS
    cross_hints = True

    def door(self, session: Session) -> Button:
        """The button on Home."""
        return way_to(self, words.TITLE, words.WHAT)

    def page(self, session: Session) -> object:
        """The solve in hand."""
        solve = SOLVE.of(session)
        return None if solve is None else solve.began

    def engaged(self, session: Session) -> Engaged:
        """The solve in hand, if there is one."""
        solve = SOLVE.of(session)
        return Engaged() if solve is None else Engaged(At.WHOLE_SOLVE, over=solve.over)

    def attempt(self, session: Session) -> Attempt | None:
        """The cube being solved."""
        solve = SOLVE.of(session)
        return None if solve is None else solve.attempt

    def with_attempt(self, session: Session, attempt: Attempt) -> Session:
        """The solve with another cube."""
        solve = SOLVE.of(session)
        return session if solve is None else SOLVE.put(session, replace(solve, attempt=attempt))

    def followed(self, session: Session, attempt: Attempt) -> Attempt:
        """The attempt; before the turn at which a pair was chosen it aims at what was in hand then."""
        solve = SOLVE.of(session)
        if solve is None:
            return attempt
        if attempt.aim is None or attempt.since < solve.attempt.since:
            return solving.aimed_as_made(solve, attempt)
        return attempts.followed_freely(attempt, solve.cross)

    def turns_allowed(self, session: Session) -> bool:
        """Until two layers are solved."""
        solve = SOLVE.of(session)
        return solve is not None and not solve.over

    def rotations_allowed(self, session: Session) -> bool:
        """Always: to look from another side changes nothing."""
        return True

    def going_allowed(self, session: Session) -> bool:
        """Always, even after the end."""
        return True

    def hints_allowed(self, session: Session) -> bool:
        """Until two layers are solved."""
        solve = SOLVE.of(session)
        return solve is not None and solve.ended is None and super().hints_allowed(session)

    def many_together(self, session: Session) -> bool:
        """Always: the program makes a long text of moves at once."""
        return True

    def refused(self, session: Session) -> str:
        """The solve is over."""
        return ENGLISH.say("solve.stopped")

    def cross(self, session: Session) -> Face:
        """The colour chosen for this solve."""
        solve = SOLVE.of(session)
        return super().cross(session) if solve is None else solve.cross

    def rail_from(self, session: Session, attempt: Attempt) -> int:
        """All moves are on the rail."""
        return 0

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of whole solves."""
        return (
            done(session, command, now) if isinstance(command, Own) else super().does(session, command, now)
        )

    def gone_on(self, session: Session, now: float) -> Update:
        """Choose the pair that costs least, when no pair is chosen."""
        return solving.taken_on_by_number(session, 0), ()

    def writes(self, session: Session) -> bool:
        """A start while there is no solve, else moves."""
        return SOLVE.of(session) is None or super().writes(session)

    def submitted(self, session: Session, now: float) -> Update | None:
        """Begin from what was written, where there is no solve yet."""
        return (solving.submitted(session, now), ()) if SOLVE.of(session) is None else None

    def slot_chosen(self, session: Session, slot: Slot) -> Session:
        """Choose that pair."""
        return solving.taken_on(session, slot)

    def slot_stepped(self, session: Session, step: int) -> Session:
        """Choose the next pair."""
        return solving.next_slot(session, step)

    def scrambled(self, session: Session) -> Update:
        """Ask for a random position."""
        return solving.scrambled(session)

    def drawn(self, session: Session, position: Position, now: float) -> Session:
        """Begin from a random position."""
        return solving.drawn(session, position, now)

    def learner_changed(self, session: Session) -> Session:
        """Everybody has whole solves of their own."""
        return SHELF.put(SOLVE.put(session, None), Shelf())

    def clocked(self, session: Session, now: float, *, seen: bool) -> Session:
        """The solve's clock."""
        return upkeep.clocked(session, now, seen=seen)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """Note when each move was made and whether the solve has ended, and save it then."""
        return upkeep.kept_up(before, after, now)

    def questions(self, session: Session) -> tuple[Question, ...]:
        """What the cross and the pairs cost."""
        return solving.questions(session)

    def view(self, session: Session, now: float) -> View:
        """The screen at a moment."""
        return solve_at(session, now)

    def choosing(self, session: Session) -> bool:
        """Between two pairs the digits choose the next one."""
        solve = SOLVE.of(session)
        return solve is not None and solving.stand(solve) is SolveStand.CHOOSING

    def chosen(self, session: Session, index: int, now: float) -> Session:
        """Choose the pair that stands there on the card."""
        return solving.taken_on_by_number(session, index)

    def marked(self, session: Session, attempt: Attempt, stage: Stage) -> Stage | None:
        """Between two pairs the one that costs least is marked, once it is known."""
        if not self.choosing(session):
            return None
        bearing = None if session.demonstration is not None else solving.cheapest_bearing(session)
        return stage if bearing is None else _compared(stage, bearing)

    def with_focus(self, session: Session, view: View, focus: Action) -> View:
        """Between two pairs the one whose button has the focus is marked."""
        solve = SOLVE.of(session)
        if solve is None or view.stage is None or not isinstance(focus, ChooseSlot):
            return view
        if not self.choosing(session) or session.demonstration is not None:
            return view
        cube = solve.attempt.cube
        bearing = aim_at(cube, solve.cross, focus.slot).bearing(cube)
        return replace(view, stage=_compared(view.stage, bearing))

    def title(self, session: Session) -> str:
        """The name by which buttons call the screen."""
        return words.TITLE


def _compared(stage: Stage, bearing: Bearing) -> Stage:
    """The stage with one pair marked among those to compare, so that nothing is dimmed."""
    return replace(marked(stage, bearing), dimmed=frozenset())
