"""Practice: one run after another, each with as much help as the learner needs."""

from __future__ import annotations

from dataclasses import replace

from tutor.coach.guidance import Help, builds_on, easier_done
from tutor.cube.position import Slot
from tutor.method.cases import Case, parse_case
from tutor.session import case_run, turning, writing
from tutor.session.case_run import Onward
from tutor.session.choosing import Pool, next_case, next_slot
from tutor.session.commands import Practise, TryCase
from tutor.session.state import CaseRun, Phase, Session, Sheet
from tutor.session.timeline import Timeline
from tutor.session.view import REST_CAMERA, Screen


def tried(session: Session, command: TryCase, now: float) -> Session:
    """Begin a run of a case."""
    case = parse_case(command.slug)
    help = case_run.guidance_for(session, case).help if command.help is None else command.help
    return started(replace(session, pool=None), case, command.slot, command.alignment, help, now)


def started(session: Session, case: Case, slot: Slot, alignment: int, help: Help, now: float) -> Session:
    """The Practice screen with a new run."""
    run = case_run.new_run(session, case, slot, alignment, help, now)
    fresh = replace(
        session,
        screen=Screen.PRACTICE,
        run=run,
        demonstration=None,
        timeline=Timeline(),
        faded_from=None,
        dragged=None,
        camera=REST_CAMERA,
        sheet=Sheet.NONE,
        writing=writing.closed(session.writing),
        focus="",
        notice=rest_reminder(session, now),
        lesson_awaited=None,
        practised_since=now if session.practised_since is None else session.practised_since,
    )
    return turning.checked(fresh, now)


def begun(session: Session, command: Practise, now: float) -> Session:
    """Practise the cases of a pool; a name that is none changes nothing."""
    if command.pool not in Pool.__members__:
        return session
    return _next_of_pool(replace(session, pool=Pool[command.pool], run=None), now)


def _next_of_pool(session: Session, now: float) -> Session:
    """The next case of what is practised, in the next slot."""
    last = session.run
    case = next_case(session.pool or Pool.ALL, dict(session.guidance), None if last is None else last.case)
    slot = Slot.FR if last is None else next_slot(last.slot)
    help = case_run.guidance_for(session, case).help
    return started(session, case, slot, 0, help, now)


def same_again(session: Session, now: float) -> Session:
    """The case of the run once more, with the help the guidance now gives."""
    run = session.run
    if run is None or run.phase is not Phase.OVER:
        return session
    help = case_run.guidance_for(session, run.counts_for).help
    return started(session, run.case, run.slot, run.alignment, help, now)


def rest_reminder(session: Session, now: float) -> str:
    """A quiet word about resting the hands, once the time chosen in the settings has gone by."""
    since, minutes = session.practised_since, session.settings.rest_minutes
    if since is None or now - since < 60 * minutes:
        return ""
    return f"You have practised for {int(now - since) // 60} minutes. Rest your hands a little."


def gone_on(session: Session, now: float) -> Session:
    """Go on: from what is shown to the learner's part, or from a run that is over to what is proposed."""
    run = session.run
    if run is None:
        return session
    if run.phase is Phase.SHOWING:
        return case_run.handed_over(session, now)
    if run.phase is not Phase.OVER:
        return session
    return _following(session, run, now)


def _following(session: Session, run: CaseRun, now: float) -> Session:
    onward = case_run.onward(session, run)
    guidance = case_run.guidance_for(session, run.counts_for)
    if onward is Onward.SEE_IT:
        return started(session, run.case, run.slot, run.alignment, Help.WATCH, now)
    if onward is Onward.EASIER:
        session = case_run.with_guidance(session, run.counts_for, easier_done(guidance))
        answer = case_run.start_answer(session, run)
        easier = None if answer is None else builds_on(answer)
        if easier is not None:
            help = case_run.guidance_for(session, easier.case).help
            return started(session, easier.case, run.slot, easier.alignment, help, now)
    if session.pool is not None and onward is Onward.NEXT:
        return _next_of_pool(session, now)
    return started(session, run.case, run.slot, run.alignment, guidance.help, now)


def answered(session: Session, index: int) -> Session:
    """Choose an answer to the run's question."""
    run = session.run
    if run is None or run.question is None or index >= len(run.question.choices):
        return session
    if index in run.chosen or run.question.right in run.chosen:
        return session
    return replace(session, run=replace(run, chosen=(*run.chosen, index)))
