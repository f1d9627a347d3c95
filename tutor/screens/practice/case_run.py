"""One run of one case: what is shown first, what the learner does, and what is known of it at the end."""

from __future__ import annotations

from enum import Enum

from msgspec.structs import replace

from tutor.coach.guidance import Guidance, Help, Remedy, Run, guided, turns_shown, watched, worth
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.cube.position import Slot
from tutor.method.answer import Answer
from tutor.method.cases import Case
from tutor.method.terms import Verdict
from tutor.progress.attempt import Mode
from tutor.screens.practice import metronome
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import PRACTICE, RUN, CaseRun, RunPhase
from tutor.session.attempts import case_attempt
from tutor.session.demonstration import Demonstration, step_ends
from tutor.session.history import History
from tutor.session.house import Session
from tutor.session.judging import answer_at, judged_turns
from tutor.session.recording import turns_that_count
from tutor.session.state import Attempt
from tutor.session.target import Bearing, colours_as_held
from tutor.session.turns_taken import HintUse, with_last_gone_on, with_turn
from tutor.session.writing import closed

GLOW_SECONDS = 1.5
"""How long the two pieces are lit after a first solve without help, the last turn's time included."""


def new_run(session: Session, case: Case, slot: Slot, alignment: int, help: Help, now: float) -> CaseRun:
    """A run that begins as soon as the case's answer is known."""
    attempt = case_attempt(case, slot, alignment, session.settings)
    return CaseRun(case, slot, alignment, help, attempt, started=now)


def guidance_for(session: Session, case: Case) -> Guidance:
    """Where the learner stands with a case."""
    return dict(session.guidance).get(case.slug, Guidance())


def begun(session: Session, answer: Answer, now: float) -> Session:
    """The run with its first part being shown, or handed to the learner at once."""
    run = RUN.of(session)
    if run is None or run.phase is not RunPhase.WAITING:
        return session
    shown = turns_shown(answer, run.help)
    if not shown:
        phase = RunPhase.TURNING if run.look is None else RunPhase.LOOKING
        return RUN.put(session, _with_beat(session, replace(run, phase=phase, started=now)))
    return RUN.put(
        replace(session, demonstration=_demonstration(run.attempt.cube, answer, shown, run.help, now)),
        replace(run, phase=RunPhase.SHOWING, shown=len(shown), started=now, left=None),
    )


def _with_beat(session: Session, run: CaseRun) -> CaseRun:
    """The run with its metronome, where it is one for a beat."""
    bearing = run.attempt.bearing()
    if run.mode is not Mode.STEADY or bearing is None:
        return run
    return replace(run, beat=metronome.begun(run.attempt.cube, bearing, PRACTICE.of(session).pace))


def _demonstration(
    cube: HeldCube, answer: Answer, shown: tuple[Turn, ...], help: Help, now: float
) -> Demonstration:
    """What is shown: the whole route, slowly and then at full speed, or its first turns once."""
    steps = answer.routes[0].steps[: len(shown)] if answer.routes else ()
    rests = step_ends(steps) or frozenset({len(shown)})
    named = steps or (None,) * len(shown)
    return Demonstration(cube, shown, named, rests, since=now, twice=help is Help.WATCH)


def handed_over(session: Session, now: float) -> Session:
    """What was to be shown has been: the learner goes on from there, or, having watched it all, is done."""
    run, demonstration = RUN.of(session), session.demonstration
    if session.screen != NAME or demonstration is None:
        return session
    if run is None or run.phase is not RunPhase.SHOWING:
        return session
    if run.help is Help.WATCH:
        if not demonstration.seen(now):
            left = replace(run, phase=RunPhase.OVER, uncounted=True, unseen=True)
            return RUN.put(replace(session, demonstration=None), left)
        seconds = max(0.0, now - run.started)
        over = replace(run, phase=RunPhase.OVER, before=_met(session, run), seconds=seconds)
        guidance = watched(guidance_for(session, run.counts_for))
        session = with_guidance(session, run.counts_for, guidance)
        return RUN.put(replace(session, demonstration=None), over)
    reached = demonstration.start.after(demonstration.turns)
    attempt = Attempt(History(reached), run.attempt.aim)
    run = replace(run, phase=RunPhase.TURNING, attempt=attempt, started=now)
    return RUN.put(replace(session, demonstration=None), run)


def _turning(session: Session) -> CaseRun | None:
    """The run, while it is on the screen and the learner's to turn."""
    run = RUN.of(session)
    if session.screen != NAME or run is None or run.phase is not RunPhase.TURNING:
        return None
    return run


def noted(session: Session, move: Move, now: float, *, with_last: bool = False) -> Session:
    """The run with a turn noted; ``with_last`` it is one turn with the move made last."""
    run, note = _turning(session), with_last_gone_on if with_last else with_turn
    if run is None:
        return session
    at = now - run.started
    made = note(run.made, run.attempt, move, at)
    if made is run.made:
        return session
    beat = None if run.beat is None else metronome.followed(run.beat, at, len(made) - len(run.made))
    return RUN.put(session, replace(run, made=made, beat=beat))


def hinted(session: Session, rung: int, now: float) -> Session:
    """The run with the use of a hint noted; who asks for one has no use for a question."""
    run = _turning(session)
    if run is None:
        return session
    use = HintUse(rung, max(0.0, now - run.started))
    return RUN.put(session, replace(run, hints=(*run.hints, use), question=None, chosen=()))


def clocked(session: Session, now: float, *, seen: bool) -> Session:
    """The run's clock stands still while it is out of sight."""
    run = RUN.of(session)
    if run is None:
        return session
    if not seen and run.left is None and _counts(run):
        return RUN.put(session, replace(run, left=now))
    if seen and run.left is not None:
        return RUN.put(session, replace(run, started=run.started + now - run.left, left=None))
    return session


def _counts(run: CaseRun) -> bool:
    """Whether the time of a run is counted now: while it is turned, and while all of it is watched."""
    return run.phase is RunPhase.TURNING or (run.phase is RunPhase.SHOWING and run.help is Help.WATCH)


def checked(session: Session, now: float) -> Session:
    """The run over, once the pair is solved and every turn is judged; the wait for that is not its time."""
    run = RUN.of(session)
    if run is None or run.phase is not RunPhase.TURNING:
        return session
    cursor = run.attempt.history.cursor
    if not cursor or not run.attempt.done_at(cursor):
        return session if run.solved is None else RUN.put(session, replace(run, solved=None))
    if run.solved is None:
        run = replace(run, solved=max(0.0, now - run.started))
        session = RUN.put(session, run)
    judged = judged_turns(session, run.attempt)
    if any(each.answer is None for each in judged):
        return session
    return ended(session, now, finished=True)


def given_up(session: Session, now: float) -> Session:
    """The run ended by the learner before the pair is solved."""
    run = _turning(session)
    if run is None or run.glance is not None:
        return session
    return ended(session, now, finished=False)


def ended(session: Session, now: float, *, finished: bool) -> Session:
    """The run over: what it was worth, and what comes next."""
    run = RUN.of(session)
    if run is None:
        return session
    met, before = _met(session, run), guidance_for(session, run.counts_for)
    went = run_worth(session, run, finished=finished)
    run = replace(run, phase=RunPhase.OVER, finished=finished, question=None, before=met)
    if _first_unaided(session, run, went):
        run = replace(run, first_unaided=True, lit_until=now + GLOW_SECONDS)
    run = replace(run, seconds=_seconds(run, now))
    session = with_guidance(session, run.counts_for, guided(before, run.counts_for, went))
    return RUN.put(replace(session, writing=closed(session.writing)), run)


def _first_unaided(session: Session, run: CaseRun, went: Run) -> bool:
    """Whether the learner solved the case whole and without help, as never before."""
    study = session.records.study
    unaided = went.finished and went.whole and not went.deepest_hint
    return unaided and study is not None and not study.solved_unaided(run.counts_for)


def _seconds(run: CaseRun, now: float) -> float:
    """How long the learner's part took: up to the last turn with the pair solved, else up to now."""
    if run.solved is None:
        return max(0.0, now - run.started)
    return max(run.solved, run.made[-1].at if run.made else 0.0)


def run_worth(session: Session, run: CaseRun, *, finished: bool) -> Run:
    """How the run went, as guidance counts it."""
    detours, made = 0, turns_that_count(session, run.attempt, run.made)
    for each in made:
        # A detour taken back was one all the same, here and in what is kept.
        known = session.answers.before(each.position, each.task)
        detours += known is not None and known.continuations[each.judged].verdict is Verdict.DETOUR
    answer = start_answer(session, run)
    return worth(
        home=finished,
        used=run.attempt.turns_made,
        made=len(made),
        fewest=0 if answer is None else answer.to_go,
        deepest_hint=max((use.rung for use in run.hints), default=0),
        detours=detours,
        shown=run.shown,
    )


def start_answer(session: Session, run: CaseRun) -> Answer | None:
    """The answer for where the learner began."""
    return answer_at(session, run.attempt, 0)


def start_colours(session: Session, run: CaseRun, bearing: Bearing) -> tuple[str, ...]:
    """The six colour words as held where the learner began, which is where ``bearing`` is taken."""
    return colours_as_held(run.attempt.history.start.rotated(bearing.hold), session.settings.colour_names)


def _met(session: Session, run: CaseRun) -> Guidance | None:
    """The guidance for the run's case as it is; None when the case has not been met."""
    return dict(session.guidance).get(run.counts_for.slug)


def with_guidance(session: Session, case: Case, guidance: Guidance) -> Session:
    """The session with where the learner stands with a case."""
    others = tuple(item for item in session.guidance if item[0] != case.slug)
    return replace(session, guidance=(*others, (case.slug, guidance)))


def celebrated(before: Session, after: Session) -> bool:
    """Whether the learner has just solved the pair."""
    was, run = RUN.of(before), RUN.of(after)
    return run is not None and was is not None and run.finished and not was.finished


def replayed(session: Session) -> Session:
    """The run with a note that turns were shown since it was over, once they are."""
    run = RUN.of(session)
    if session.screen != NAME or run is None or run.replayed or not run.over or session.demonstration is None:
        return session
    return RUN.put(session, replace(run, replayed=True))


class Onward(Enum):
    """What is proposed after a run."""

    AGAIN = "again"
    SEE_IT = "see it"
    EASIER = "the case it builds on"
    NEXT = "the next case"


def onward(session: Session, run: CaseRun) -> Onward:
    """What is proposed after this run."""
    guidance = guidance_for(session, run.counts_for)
    if guidance.remedy is Remedy.SEE_IT:
        return Onward.SEE_IT
    if guidance.remedy is Remedy.EASIER_CASE:
        return Onward.EASIER
    return Onward.NEXT if guidance.known and run.finished else Onward.AGAIN
