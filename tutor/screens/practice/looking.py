"""What do you see? Before a new case is turned: the learner finds its two pieces and names the first step."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.denials import step_denied
from tutor.coach.scene import Piece
from tutor.coach.sight import SpokenPosition, places_of_slot
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.lesson.candidates import candidate_places
from tutor.lesson.scenes import Sought
from tutor.lesson.wrong_answers import place_reply
from tutor.method.answer import Answer
from tutor.screens.practice import case_run
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import RUN, STEPS_NAMED, CaseRun, RunPhase, Seen
from tutor.session.house import Session
from tutor.ui.view import Stage

_SOUGHT = {Piece.CORNER: Sought.CORNER, Piece.EDGE: Sought.EDGE}


def new_to(session: Session, run: CaseRun) -> bool:
    """Whether the learner has not met the run's case yet, neither here nor in a lesson."""
    study, case = session.records.study, run.counts_for
    if study is None or case.slug in dict(session.guidance):
        return False
    return not study.met(case)


def asking(session: Session) -> CaseRun | None:
    """The run on the screen while it asks what the learner sees."""
    run = RUN.of(session)
    return run if session.screen == NAME and run is not None and run.phase is RunPhase.LOOKING else None


def wanted(look: Seen) -> Piece | None:
    """The piece that is looked for first; None once both are found."""
    return next((piece for piece in Piece if piece not in look.found), None)


def seen(session: Session, run: CaseRun) -> SpokenPosition | None:
    """The start of the case in words."""
    bearing = run.attempt.bearing(0)
    if bearing is None:
        return None
    colours = case_run.start_colours(session, run, bearing)
    return SpokenPosition(bearing.position, bearing.task, colours)


def places(session: Session, run: CaseRun) -> tuple[tuple[str, int], ...]:
    """Places where the piece looked for may be, to choose by key."""
    piece, sight = None if run.look is None else wanted(run.look), seen(session, run)
    if piece is None or sight is None:
        return ()
    return candidate_places(_SOUGHT[piece], {sight.cubie(piece)})


def pointed(session: Session, sticker: int) -> Session:
    """The learner points at a sticker: either piece of the pair is right."""
    run = asking(session)
    if run is None or run.look is None or wanted(run.look) is None:
        return session
    return _pointed_at(session, run, run.look, cubie_number(STICKERS[sticker][0]))


def _pointed_at(session: Session, run: CaseRun, look: Seen, cubie: int) -> Session:
    sight = seen(session, run)
    if sight is None:
        return session
    found = frozenset(piece for piece in Piece if sight.cubie(piece) == cubie)
    tried = replace(look, pointed=cubie, tried=look.tried | {cubie})
    look = Seen(look.found | found) if found else tried
    return RUN.put(replace(session, notice=""), replace(run, look=look))


def chosen(session: Session, index: int, now: float) -> Session:
    """The learner chooses a place, or the step that comes first; the right step begins the turning."""
    run = asking(session)
    if run is None or run.look is None:
        return session
    if wanted(run.look) is not None:
        offered = places(session, run)
        return _pointed_at(session, run, run.look, offered[index][1]) if index < len(offered) else session
    answer = case_run.start_answer(session, run)
    if answer is None or index >= len(STEPS_NAMED):
        return session
    run = replace(run, look=replace(run.look, steps=(*run.look.steps, STEPS_NAMED[index])))
    session = RUN.put(replace(session, notice=""), run)
    return begun(session, now) if named(run, answer) else session


def named(run: CaseRun, answer: Answer | None) -> bool:
    """Whether the learner has named the step that comes first."""
    return run.look is not None and answer is not None and answer.step in run.look.steps


def begun(session: Session, now: float) -> Session:
    """The learner's part begins, whether all was found or not."""
    run = asking(session)
    if run is None:
        return session
    return RUN.put(replace(session, notice=""), replace(run, phase=RunPhase.TURNING, started=now))


def why_wrong(session: Session, run: CaseRun) -> str:
    """Why the answer given last is wrong, and where to look; empty where it is not."""
    look, answer, sight = run.look, case_run.start_answer(session, run), seen(session, run)
    if look is None or answer is None or sight is None:
        return ""
    piece = wanted(look)
    if piece is not None:
        return "" if look.pointed is None else place_reply(_SOUGHT[piece], look.pointed, sight)
    if not look.steps or named(run, answer):
        return ""
    return step_denied(answer, look.steps[-1], sight.colours).text


def marked(session: Session, run: CaseRun, stage: Stage) -> Stage | None:
    """While pieces are looked for, the slot and what was found are marked; None for the usual marks."""
    look, sight = run.look, seen(session, run)
    if look is None or sight is None or wanted(look) is None:
        return None
    rings = frozenset(sight.cubie(piece) for piece in look.found)
    return replace(stage, framed=places_of_slot(sight.task.slot), outlined=rings)
