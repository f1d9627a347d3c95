"""The case book: any of the 41 cases, in any slot, with the top turned any way, and its mirror image."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.explanation import MOST_TURNS
from tutor.cube.held_cube import face_turns
from tutor.cube.merging import merged
from tutor.cube.notation import NotationError, parse_moves
from tutor.cube.position import Slot
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT
from tutor.method.cases import Case
from tutor.method.cutting import cut
from tutor.screens.case_book import words
from tutor.screens.case_book.state import PAGE, BookPage
from tutor.screens.parts.explained import asked_sequence
from tutor.session.attempts import case_attempt
from tutor.session.demonstration import Demonstration, step_ends
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.session.state import Writing
from tutor.solver.task import carried_slot


def page_of(session: Session, case: Case, slot: Slot, alignment: int) -> BookPage:
    """The page of a case."""
    return BookPage(case, slot, alignment, case_attempt(case, slot, alignment, session.settings))


def opened(session: Session, case: Case, slot: Slot, alignment: int) -> Session:
    """The book open at a case."""
    page = page_of(session, case, slot, alignment)
    return PAGE.put(_cleared(session), page)


def shut(session: Session) -> Session:
    """The book open at all cases."""
    return PAGE.put(_cleared(session), None)


def _cleared(session: Session) -> Session:
    """Without what belongs to the page that was open."""
    return replace(session, demonstration=None, notice="", writing=Writing())


def mirrored(page: BookPage) -> tuple[Case, Slot]:
    """The case and slot that the mirror shows, left and right exchanged."""
    return page.case.mirror, carried_slot(page.slot, MIRROR_LEFT_RIGHT)


def explained(session: Session, page: BookPage) -> Session:
    """The page with the way just written explained, or with what is wrong with it beside the field."""
    written = session.writing
    try:
        moves = parse_moves(written.text)
    except NotationError as error:
        return replace(session, writing=replace(written, error=str(error), error_column=error.column - 1))
    asked = asked_sequence(page.attempt, 0, moves)
    if asked is None:
        fault = words.NO_OTHER_WAY if not merged(face_turns(moves)[0]) else words.too_long(MOST_TURNS)
        return replace(session, writing=replace(written, error=fault, error_column=None))
    shown = replace(session, writing=Writing(), demonstration=None)
    return PAGE.put(shown, replace(page, other_way=asked))


def line_shown(session: Session, now: float) -> Demonstration | None:
    """A shortest line by hand of the page's case, played once slowly and once at full speed."""
    page = PAGE.of(session)
    if page is None:
        return None
    answer, bearing = answer_at(session, page.attempt), page.attempt.bearing()
    if answer is None or bearing is None:
        return None
    line = answer.lines[0]
    turns = tuple(bearing.turn_as_held(turn) for turn in line)
    steps = cut(bearing.position, bearing.task, line)
    return Demonstration(page.attempt.cube, turns, steps, step_ends(steps), since=now)
