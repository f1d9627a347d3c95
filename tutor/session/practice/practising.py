"""Practice: one run after another, as the schedule proposes, each with as much help as the learner needs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tutor.coach.guidance import Help, easier_done, easier_than
from tutor.cube.position import Slot
from tutor.method.cases import Case, parse_case
from tutor.progress.attempt import Mode
from tutor.session import screens, turning, writing
from tutor.session.commands import Effect, TryCase
from tutor.session.practice import case_run, flash, sitting_down, steady, ticking
from tutor.session.practice.case_run import Onward
from tutor.session.practice.commands import NameTurn, PracticeAct, Practise, SetGoal, Tick
from tutor.session.practice.state import GOALS, MODES, Flash, Stand
from tutor.session.records.commands import OpenRecords, Propose, Proposed
from tutor.session.state import CaseRun, Phase, Session, Sheet
from tutor.session.timeline import Timeline
from tutor.ui.view import REST_CAMERA, Screen

if TYPE_CHECKING:
    from tutor.progress.schedule import Proposal

Told = tuple[Session, tuple[Effect, ...]]

# ----------------------------------------------------------------------------------------- cases by hand


def tried(session: Session, command: TryCase, now: float) -> Session:
    """Begin a run of a case picked by hand; from another screen, practice in a mode is over."""
    case, last = parse_case(command.slug), session.run
    here = session.screen is Screen.PRACTICE
    mirror = here and last is not None and last.mirror and last.case == case
    if not here:
        session = replace(session, practice=replace(session.practice, mode=None))
    help = command.help
    if help is None:
        help = case_run.guidance_for(session, case.mirror if mirror else case).help
    run = case_run.new_run(session, case, command.slot, command.alignment, help, now)
    return started(session, replace(run, mirror=mirror), now)


def started(session: Session, run: CaseRun, now: float) -> Session:
    """The Practice screen with a new run."""
    session, reminder = sitting_down.rested(session, now)
    fresh = replace(
        session,
        screen=Screen.PRACTICE,
        run=run,
        practice=replace(session.practice, asked=False, stand=Stand.START),
        demonstration=None,
        timeline=Timeline(),
        faded_from=None,
        dragged=None,
        camera=REST_CAMERA,
        sheet=Sheet.NONE,
        writing=writing.closed(session.writing),
        notice=reminder,
        lesson_awaited=None,
    )
    return turning.checked(fresh, now)


def _once_more(session: Session, run: CaseRun, help: Help, now: float) -> Session:
    """The same case once more, which the learner, and not the schedule, has chosen."""
    fresh = case_run.new_run(session, run.case, run.slot, run.alignment, help, now)
    return started(session, replace(fresh, mirror=run.mirror), now)


def same_again(session: Session, now: float) -> Session:
    """The case of the run once more, with the help the guidance now gives."""
    run = session.run
    if run is None or run.phase is not Phase.OVER:
        return session
    return _once_more(session, run, case_run.guidance_for(session, run.counts_for).help, now)


# ------------------------------------------------------------------------------------ cases as proposed


def begun(session: Session, command: Practise, now: float) -> Session | Told:
    """Practise in a mode; how the learner stands is read anew, since another window may have written."""
    if command.mode not in MODES or (command.mode is Mode.FAMILY) is (command.family is None):
        return session
    session = sitting_down.sat_down(session, now)
    practice = replace(
        session.practice, mode=command.mode, family=command.family, stand=Stand.START, beyond=False, dry=False
    )
    if session.screen is not Screen.PRACTICE:
        session = screens.opened(session, Screen.PRACTICE, now)
    session = replace(session, practice=practice, run=None, demonstration=None)
    session, asked = _asked(session, command.mode)
    return session, (OpenRecords(session.records.learner), *asked)


def _asked(session: Session, mode: Mode) -> Told:
    """Ask the schedule for the next case; what is on the screen stays until the answer comes."""
    practice = replace(session.practice, request=session.practice.request + 1, asked=True)
    wanted = Propose(practice.request, session.records.learner, mode, practice.family)
    return replace(session, practice=practice), (wanted,)


def proposed(session: Session, command: Proposed, now: float) -> Session:
    """The schedule's answer: the next case is set up, or there is none; a stale answer is dropped."""
    practice = session.practice
    if not practice.asked or command.request != practice.request:
        return session
    session = replace(session, practice=replace(practice, asked=False))
    if session.screen is not Screen.PRACTICE:
        return session
    if command.problem:
        return replace(session, notice=command.problem)
    if command.proposal is not None:
        return _set_up(session, command.proposal, now)
    session = replace(session, practice=replace(session.practice, dry=True))
    done = practice.sitting is not None and practice.sitting.attempts > 0
    return _page(session, Stand.FAREWELL if done else Stand.NOTHING)


def _set_up(session: Session, proposal: Proposal, now: float) -> Session:
    """A run of the case proposed, in its slot, as it is or in the mirror."""
    mode = session.practice.mode or Mode.DUE
    help = case_run.guidance_for(session, parse_case(proposal.slug)).help
    if mode is Mode.FLASH:
        help = Help.ALONE
    elif mode is Mode.STEADY:
        # With the beat every turn is the learner's.
        help = max(help, Help.WITH_HINTS)
    run = case_run.new_run(session, proposal.shown, proposal.slot, proposal.alignment, help, now)
    run = replace(run, mode=mode, mirror=proposal.mirror, why=proposal.why)
    return started(session, replace(run, flash=Flash() if mode is Mode.FLASH else None), now)


def _page(session: Session, stand: Stand) -> Session:
    practice = replace(session.practice, stand=stand, asked=False)
    return replace(session, practice=practice, run=None, demonstration=None)


def gone_on(session: Session, now: float) -> Session | Told:
    """Go on: from what is shown to the learner's part, or from a run that is over to what is proposed."""
    run = session.run
    if run is None:
        return _gone_on_from_page(session, now)
    if run.phase is Phase.SHOWING:
        return turning.handed_over(session, now)
    if flash.asking(session) is not None:
        return flash.answered(session, now)
    if run.phase is not Phase.OVER:
        return session
    mode = session.practice.mode
    return _following(session, run, now) if mode is None else _next(session, mode)


def _gone_on_from_page(session: Session, now: float) -> Session | Told:
    """What the uppermost button of the page does."""
    if session.practice.asked:
        return session
    match session.practice.stand:
        case Stand.START:
            return begun(session, Practise(Mode.DUE), now)
        case Stand.NOTHING:
            return begun(session, Practise(Mode.WEAKEST), now)
        case Stand.FAREWELL:
            return _stopped(session, now)


def _next(session: Session, mode: Mode) -> Session | Told:
    """The next case, or, when the goal is reached, the end."""
    if sitting_down.reached(session.practice):
        return _page(session, Stand.FAREWELL)
    return _asked(session, mode)


def _following(session: Session, run: CaseRun, now: float) -> Session:
    """After a case picked by hand: the same again, with what helps when it went wrong."""
    onward = case_run.onward(session, run)
    if onward is Onward.SEE_IT:
        return _once_more(session, run, Help.WATCH, now)
    if onward is Onward.EASIER:
        return easier(session, now)
    return same_again(session, now)


def easier(session: Session, now: float) -> Session:
    """The case that the run's comes to on its way, instead of it."""
    run = session.run
    if run is None or run.phase is not Phase.OVER:
        return session
    guidance = case_run.guidance_for(session, run.counts_for)
    session = case_run.with_guidance(session, run.counts_for, easier_done(guidance))
    found = easier_than(run.counts_for)
    if found is None:
        return same_again(session, now)
    return _hand_picked(session, found.case, run.slot, found.alignment, now)


def _hand_picked(session: Session, case: Case, slot: Slot, alignment: int, now: float) -> Session:
    help = case_run.guidance_for(session, case).help
    return started(session, case_run.new_run(session, case, slot, alignment, help, now), now)


# ----------------------------------------------------------------------------------- goal, end, the rest


def goal_set(session: Session, command: SetGoal, now: float) -> Session:
    """Another goal, also for the sitting under way; one that is not offered changes nothing."""
    goal = (command.kind, command.amount)
    if goal not in GOALS:
        return session
    session = replace(session, practice=replace(session.practice, goal=goal))
    under_way = session.practice.sitting is not None and session.practice.mode is not None
    return sitting_down.sat_down(session, now) if under_way else session


def _stopped(session: Session, now: float) -> Session:
    practice = replace(session.practice, mode=None, stand=Stand.START)
    return screens.opened(replace(session, practice=practice, run=None), Screen.HOME, now)


def act(session: Session, what: PracticeAct, now: float) -> Session | Told:
    """The commands of practice that need nothing more said; elsewhere they do nothing."""
    if session.screen is not Screen.PRACTICE:
        return session
    match what:
        case PracticeAct.END:
            return _page(session, Stand.FAREWELL)
        case PracticeAct.STOP:
            return _stopped(session, now)
        case PracticeAct.GO_ON:
            practice = replace(session.practice, beyond=True)
            return _asked(replace(session, practice=practice), practice.mode or Mode.DUE)
        case PracticeAct.EASIER:
            return easier(session, now)
        case PracticeAct.QUICKER | PracticeAct.CALMER:
            return steady.paced(session, 1 if what is PracticeAct.QUICKER else -1, now)


def given_up(session: Session, now: float) -> Session:
    """The run, or the flash, ended by the learner."""
    if flash.asking(session) is not None:
        return flash.given_up(session, now)
    return case_run.given_up(session, now)


def answered(session: Session, index: int) -> Session:
    """Choose an answer: the step of a flash, or one to the run's question."""
    run = session.run
    if flash.asking(session) is not None:
        return flash.step_named(session, index)
    if run is None or run.question is None or index >= len(run.question.choices):
        return session
    if index in run.chosen or run.question.right in run.chosen:
        return session
    return replace(session, run=replace(run, chosen=(*run.chosen, index)))


HANDLERS: dict[type, Callable[[Session, Any, float], Session | Told]] = {
    TryCase: tried,
    Practise: begun,
    Proposed: proposed,
    SetGoal: goal_set,
    NameTurn: lambda session, command, now: flash.turn_pressed(session, command.turn, now),
    PracticeAct: act,
    Tick: ticking.ticked,
}
"""What each kind of command does."""
