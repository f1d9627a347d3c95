"""Practice: one run after another, as the schedule proposes, each with as much help as the learner needs."""

from __future__ import annotations

from typing import assert_never

from msgspec.structs import replace

from tutor.coach.guidance import Help, easier_done, easier_than
from tutor.cube.position import Slot
from tutor.method.cases import Case, parse_case
from tutor.progress.attempt import Mode
from tutor.progress.schedule import Proposal
from tutor.screens.practice import (
    asking,
    case_run,
    glance,
    keeping,
    looking,
    metronome,
    own_line,
    sitting,
    words,
)
from tutor.screens.practice.case_run import Onward
from tutor.screens.practice.commands import NAME, PracticeAct, Practise, SetGoal, TryCase
from tutor.screens.practice.state import (
    GOALS,
    MODES,
    PRACTICE,
    RUN,
    CaseRun,
    Glance,
    PracticePage,
    RunPhase,
    Seen,
)
from tutor.session.effect import Effect
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.session.navigation import cleared, opened
from tutor.session.record_commands import OpenRecords, Propose, Proposed
from tutor.ui.view import REST_CAMERA

Told = tuple[Session, tuple[Effect, ...]]

# ----------------------------------------------------------------------------------------- cases by hand


def tried(session: Session, command: TryCase, now: float) -> Session:
    """Begin a run of a case picked by hand; from another screen, practice in a mode is over."""
    case, last = parse_case(command.slug), RUN.of(session)
    here = session.screen == NAME
    mirror = here and last is not None and last.mirror and last.case == case
    if not here:
        practice = replace(PRACTICE.of(session), mode=None, came_from=session.screen)
        session = PRACTICE.put(session, practice)
    help = command.help
    if help is None:
        help = case_run.guidance_for(session, case.mirror if mirror else case).help
    run = case_run.new_run(session, case, command.slot, command.alignment, help, now)
    run = replace(run, mirror=mirror)
    return started(session, run if command.help is not None else _looked_at_first(session, run), now)


def _looked_at_first(session: Session, run: CaseRun) -> CaseRun:
    """The run, of a new case with a look before it: what the learner sees comes before what to turn."""
    return replace(run, look=Seen()) if looking.new_to(session, run) else run


def started(session: Session, run: CaseRun, now: float) -> Session:
    """The Practice screen with a new run."""
    session, reminder = sitting.rested(session, now)
    practice = replace(PRACTICE.of(session), asked=False, stand=PracticePage.START)
    fresh = replace(cleared(session, NAME), camera=REST_CAMERA, notice=reminder, failure=session.failure)
    return checked(RUN.put(PRACTICE.put(fresh, practice), run), now)


def checked(session: Session, now: float) -> Session:
    """After the cube or what is known of it changed: whether the run begins or ends."""
    run = RUN.of(session)
    if run is None:
        return session
    if run.phase is RunPhase.WAITING:
        answer = answer_at(session, run.attempt, 0)
        return session if answer is None else case_run.begun(session, answer, now)
    return asking.asked(case_run.checked(session, now))


def handed_over(session: Session, now: float) -> Session:
    """What was to be shown has been: the cube is the learner's, and why it was not is true no longer."""
    over = case_run.handed_over(session, now)
    told = session.notice in (words.WATCH_FIRST, words.ONLY_WATCH)
    return replace(over, notice="") if told and over is not session else over


def shown_anew(session: Session, now: float) -> Session:
    """On coming back: what the run shows first is shown from its beginning."""
    run = RUN.of(session)
    if run is None or run.phase is not RunPhase.SHOWING:
        return session
    return checked(RUN.put(session, replace(run, phase=RunPhase.WAITING)), now)


def walked_in(session: Session, now: float) -> Session:
    """Practice opened by its door: a run in hand belongs to no other screen any more."""
    practice = replace(PRACTICE.of(session), came_from="")
    return shown_anew(PRACTICE.put(session, practice), now)


def gone_back(session: Session, now: float) -> Session:
    """Without the run, on the screen where its case was picked; one that is still chosen is not wanted."""
    practice = PRACTICE.of(session)
    fresh = replace(practice, asked=False, came_from="")
    left = RUN.put(PRACTICE.put(replace(session, demonstration=None), fresh), None)
    return opened(left, practice.came_from, now)


def refused(session: Session) -> str:
    """Why a turn is not made."""
    run = RUN.of(session)
    if run is None or run.phase is RunPhase.OVER:
        return words.OVER
    if glance.asking(session) is not None:
        return words.ONLY_NAME
    if run.phase is RunPhase.LOOKING:
        return words.LOOK_FIRST
    return words.ONLY_WATCH if run.help is Help.WATCH else words.WATCH_FIRST


def silent(session: Session) -> bool:
    """Whether no verdicts are given: alone and at a glance, until it is over or help is asked for."""
    run = RUN.of(session)
    if run is None:
        return False
    asked = run.help is Help.ALONE and not run.revealed
    return (asked or run.glance is not None) and run.phase is not RunPhase.OVER


def _once_more(session: Session, run: CaseRun, help: Help, now: float) -> Session:
    """The same case once more, which the learner, and not the schedule, has chosen."""
    fresh = case_run.new_run(session, run.case, run.slot, run.alignment, help, now)
    return started(session, replace(fresh, mirror=run.mirror), now)


def same_again(session: Session, now: float) -> Session:
    """The case of the run once more, with the help the guidance now gives."""
    run = RUN.of(session)
    if run is None or run.phase is not RunPhase.OVER:
        return session
    return _once_more(session, run, case_run.guidance_for(session, run.counts_for).help, now)


# ------------------------------------------------------------------------------------ cases as proposed


def begun(session: Session, command: Practise, now: float) -> Session | Told:
    """Practise in a mode; how the learner stands is read anew, since another window may have written."""
    if command.mode not in MODES or (command.mode is Mode.FAMILY) is (command.family is None):
        return session
    session = sitting.sat_down(session, now)
    practice = replace(
        PRACTICE.of(session),
        mode=command.mode,
        family=command.family,
        stand=PracticePage.START,
        beyond=False,
        dry=False,
        came_from="",
    )
    if session.screen != NAME:
        session = opened(session, NAME, now)
    session = RUN.put(PRACTICE.put(replace(session, demonstration=None), practice), None)
    session, asked = _asked(session, command.mode)
    return session, (OpenRecords(session.records.learner), *asked)


def _asked(session: Session, mode: Mode) -> Told:
    """Ask the schedule for the next case; what is on the screen stays until the answer comes."""
    practice = replace(PRACTICE.of(session), request=PRACTICE.of(session).request + 1, asked=True)
    wanted = Propose(practice.request, session.records.learner, mode, practice.family)
    return PRACTICE.put(session, practice), (wanted,)


def proposed(session: Session, command: Proposed, now: float) -> Session:
    """The schedule's answer: the next case is set up, or there is none; a stale answer is dropped."""
    practice = PRACTICE.of(session)
    if not practice.asked or command.request != practice.request:
        return session
    session = PRACTICE.put(session, replace(practice, asked=False))
    if session.screen != NAME:
        return session
    if command.problem:
        return replace(session, notice=command.problem)
    if command.proposal is not None:
        return _set_up(session, command.proposal, now)
    session = PRACTICE.put(session, replace(PRACTICE.of(session), dry=True))
    done = practice.sitting is not None and practice.sitting.attempts > 0
    return _page(session, PracticePage.FAREWELL if done else PracticePage.NOTHING)


def _set_up(session: Session, proposal: Proposal, now: float) -> Session:
    """A run of the case proposed, in its slot, as it is or in the mirror."""
    mode = PRACTICE.of(session).mode or Mode.TODAY
    help = case_run.guidance_for(session, parse_case(proposal.slug)).help
    if mode is Mode.GLANCE:
        help = Help.ALONE
    elif mode is Mode.STEADY:
        # With the beat every turn is the learner's.
        help = max(help, Help.WITH_HINTS)
    run = case_run.new_run(session, proposal.shown, proposal.slot, proposal.alignment, help, now)
    run = replace(run, mode=mode, mirror=proposal.mirror, why=proposal.why)
    if mode is Mode.GLANCE:
        return started(session, replace(run, glance=Glance()), now)
    return started(session, run if mode is Mode.STEADY else _looked_at_first(session, run), now)


def _page(session: Session, stand: PracticePage) -> Session:
    practice = replace(PRACTICE.of(session), stand=stand, asked=False)
    return RUN.put(PRACTICE.put(replace(session, demonstration=None), practice), None)


def gone_on(session: Session, now: float) -> Session | Told:
    """Go on: from what is shown to the learner's part, or from a run that is over to what is proposed."""
    run = RUN.of(session)
    if run is None:
        return _gone_on_from_page(session, now)
    if run.phase is RunPhase.SHOWING:
        return handed_over(session, now)
    if run.phase is RunPhase.LOOKING:
        return looking.begun(session, now)
    if glance.asking(session) is not None:
        return glance.answered(session, now)
    if run.phase is not RunPhase.OVER:
        return session
    if run.only_watched:
        return same_again(session, now)
    mode = PRACTICE.of(session).mode
    return _following(session, run, now) if mode is None else _next(session, mode)


def _gone_on_from_page(session: Session, now: float) -> Session | Told:
    """What the uppermost button of the page does."""
    if PRACTICE.of(session).asked:
        return session
    match PRACTICE.of(session).stand:
        case PracticePage.START:
            return begun(session, Practise(Mode.TODAY), now)
        case PracticePage.NOTHING:
            return begun(session, Practise(Mode.SLIPPING), now)
        case PracticePage.FAREWELL:
            return _stopped(session, now)


def _next(session: Session, mode: Mode) -> Session | Told:
    """The next case, or, when the goal is reached, the end."""
    if sitting.reached(PRACTICE.of(session)):
        return _page(session, PracticePage.FAREWELL)
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
    run = RUN.of(session)
    if run is None or run.phase is not RunPhase.OVER:
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
    session = PRACTICE.put(session, replace(PRACTICE.of(session), goal=goal))
    under_way = PRACTICE.of(session).sitting is not None and PRACTICE.of(session).mode is not None
    return sitting.sat_down(session, now) if under_way else session


def _stopped(session: Session, now: float) -> Session:
    practice = replace(PRACTICE.of(session), mode=None, stand=PracticePage.START)
    return opened(RUN.put(PRACTICE.put(session, practice), None), session.house.first.name, now)


def act(session: Session, what: PracticeAct, now: float) -> Session | Told:
    """The commands of practice that need nothing more said; elsewhere they do nothing."""
    if session.screen != NAME:
        return session
    match what:
        case PracticeAct.SAME_CASE:
            return same_again(session, now)
        case PracticeAct.GIVE_UP:
            return given_up(session, now)
        case PracticeAct.UNCOUNT:
            return keeping.take_back(session)
        case PracticeAct.BACK:
            return gone_back(session, now)
        case PracticeAct.END:
            return _page(session, PracticePage.FAREWELL)
        case PracticeAct.STOP:
            return _stopped(session, now)
        case PracticeAct.GO_ON:
            practice = replace(PRACTICE.of(session), beyond=True)
            return _asked(PRACTICE.put(session, practice), practice.mode or Mode.TODAY)
        case PracticeAct.EASIER:
            return easier(session, now)
        case PracticeAct.OWN_WORDS:
            return own_line.opened(session)
        case PracticeAct.QUICKER | PracticeAct.CALMER:
            return metronome.paced(session, 1 if what is PracticeAct.QUICKER else -1, now)
        case _:
            assert_never(what)


def given_up(session: Session, now: float) -> Session:
    """The run ended by the learner, also at a glance."""
    if glance.asking(session) is not None:
        return glance.given_up(session, now)
    return case_run.given_up(session, now)


def answered(session: Session, index: int, now: float) -> Session:
    """Choose an answer: what is seen, the step at a glance, or one to the run's question."""
    run = RUN.of(session)
    if looking.asking(session) is not None:
        return looking.chosen(session, index, now)
    if glance.asking(session) is not None:
        return glance.step_named(session, index)
    if run is None or run.question is None or index >= len(run.question.choices):
        return session
    if index in run.chosen or run.question.right in run.chosen:
        return session
    return RUN.put(session, replace(run, chosen=(*run.chosen, index)))
