"""The Practice screen with a run of a case on it."""

from __future__ import annotations

from functools import lru_cache

from msgspec.structs import replace

from tutor.coach.guidance import Help
from tutor.coach.solve_sentences import whereabouts
from tutor.cube.held_cube import HeldCube
from tutor.method.terms import Step
from tutor.progress.attempt import Mode
from tutor.screens.parts.card import (
    help_off_blocks,
    hint_blocks,
    hint_label,
    undo_button,
    verdict_blocks,
    writing_blocks,
)
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import attempt_rail, bays, review_rail
from tutor.screens.parts.stage import marked, moving
from tutor.screens.parts.turn_buttons import turn_blocks
from tutor.screens.practice import case_run, looking, words
from tutor.screens.practice.commands import PracticeAct
from tutor.screens.practice.metronome import followed_cubies, lit
from tutor.screens.practice.state import PRACTICE, RUN, CaseRun, RunPhase
from tutor.screens.practice.update import silent
from tutor.screens.practice.view_asked import look_blocks, question_blocks
from tutor.screens.practice.view_end import end_blocks, onward_buttons
from tutor.screens.practice.view_modes import beat_blocks, goal_blocks, naming_blocks
from tutor.screens.practice.view_names import caption, name_blocks, try_button, way_out
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.ui.view import (
    Arrow,
    Block,
    Button,
    ButtonRow,
    Gap,
    Mark,
    Rail,
    Stage,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
    View,
)

_WHILE_SHOWN = {
    Help.WATCH: words.WATCH_ALL,
    Help.LAST_TURN: words.WATCH_ALL_BUT_ONE,
    Help.LAST_STEP: words.WATCH_FIRST_STEPS,
}
_AFTER_SHOWN = {Help.LAST_TURN: words.LAST_TURN_YOURS, Help.LAST_STEP: words.LAST_STEP_YOURS}
_ALL_YOURS = {Help.WITH_HINTS: words.ALL_YOURS_WITH_HINTS, Help.ALONE: words.ALL_YOURS_ALONE}
_EYES_ON_THE_CUBE = (Mode.GLANCE, Mode.STEADY)
"""There the learner sees the case and reads nothing: its name comes when the run is over."""
_WORKING_OUT = Text(words.WORKING_OUT, tone=Tone.MUTED)


def run_at(session: Session, run: CaseRun, now: float) -> View:
    """All that is seen of a run at a moment."""
    view = at_moment(still(session), session, run.attempt, now)
    if view.stage is None or session.demonstration is not None:
        return view
    before = None if moving(session, now) or session.dragged is not None else _moment_asked_about(run)
    if before is None:
        return replace(view, stage=_with_followed(run, view.stage))
    # What the rail says of a slot or of the cross is true after the turn.
    rail = view.rail and replace(view.rail, unsettled="")
    return replace(view, stage=replace(before, camera=session.camera), rail=rail)


def _moment_asked_about(run: CaseRun) -> Stage | None:
    """While “why this turn?” is open: the cube before the turn, with the turn as an arrow."""
    question, index = run.question, run.attempt.history.cursor - 1
    bearing = None if question is None or index < 0 else run.attempt.bearing(index)
    if question is None or bearing is None or question.right in run.chosen:
        return None
    cube: HeldCube = run.attempt.history.cube_at(index)
    arrow = Arrow(bearing.turn_as_held(question.turn))
    return replace(marked(Stage(cube.colours), bearing), arrow=arrow)


@lru_cache(maxsize=4)
def still(session: Session) -> View:
    """What stays as it is until the next command."""
    run = RUN.of(session)
    if run is None:
        raise ValueError("no run is on the screen")
    return run_view(session, run, Stage(run.attempt.cube.colours), run_rail(session, run))


def _with_followed(run: CaseRun, stage: Stage) -> Stage:
    """With one turn for each beat, the two pieces to keep an eye on: lit before and after, never dimmed."""
    if run.beat is None or stage.turning is not None or stage.crossfade is not None:
        return stage
    followed = followed_cubies(run.beat, run.attempt.cube)
    glowing = stage.glowing | followed if lit(run) else stage.glowing
    return replace(stage, dimmed=stage.dimmed - followed, glowing=glowing)


def run_view(session: Session, run: CaseRun, stage: Stage, rail: Rail | None) -> View:
    """The run of a case."""
    return screen_view(
        session,
        words.TITLE,
        stage=stage,
        card=_card(session, run),
        foot=_foot(session, run),
        rail=rail,
    )


def run_rail(session: Session, run: CaseRun) -> Rail | None:
    """The rail of a run while nothing is being shown."""
    if not run.over:
        hidden = silent(session) or run.phase is RunPhase.LOOKING
        told = None if hidden else answer_at(session, run.attempt)
        rail = attempt_rail(session, run.attempt, told, judged=not silent(session))
        return rail and _with_looking(run, rail)
    rail = review_rail(session, run.attempt) or attempt_rail(
        session, run.attempt, answer_at(session, run.attempt)
    )
    # Nobody goes back into what is over, so its tiles are nothing to press and nothing runs along them.
    own = () if rail is None else tuple(replace(tile, action=None) for tile in rail.own)
    return rail and replace(rail, own=own, playhead=None)


def _with_looking(run: CaseRun, rail: Rail) -> Rail:
    """While a new case is looked at, Find is under way, and done once both pieces are found."""
    if run.phase is not RunPhase.LOOKING or run.look is None:
        return rail
    if looking.wanted(run.look) is not None:
        return replace(rail, bays=bays(None, Step.FIND, frozenset()))
    # Which step comes next is what is asked now.
    return replace(rail, bays=bays(None, None, frozenset({Step.FIND})))


def _card(session: Session, run: CaseRun) -> tuple[Block, ...]:
    if run.over:
        return end_blocks(session, run)
    how_met = Text(caption(run), TextStyle.SMALL, Tone.MUTED)
    if run.mode in _EYES_ON_THE_CUBE and run.phase is RunPhase.TURNING:
        asked = naming_blocks(run.glance) if run.glance is not None else _turning(session, run)
        return (how_met, *asked, *_sitting(session))
    return (*_said(session, run, how_met), *_sitting(session))


def _said(session: Session, run: CaseRun, how_met: Text) -> tuple[Block, ...]:
    """What is said of a run that is not over."""
    if run.look is not None and run.phase in (RunPhase.WAITING, RunPhase.LOOKING):
        # The case's name and where its pieces are would tell what there is to see.
        looked = look_blocks(session, run) if run.phase is RunPhase.LOOKING else (_WORKING_OUT,)
        return (Text(words.NEW_CASE, TextStyle.HEADING), how_met, *_why_proposed(run), *looked)
    blocks: list[Block] = [*name_blocks(session, run), how_met]
    if not run.made:
        blocks.insert(1, Text(_start(session, run)))
        blocks += _why_proposed(run)
    match run.phase:
        case RunPhase.SHOWING:
            label = words.DONE_WATCHING if run.help is Help.WATCH else words.MY_TURN
            blocks += [Text(_WHILE_SHOWN[run.help]), Button(Act.NEXT, label, "Enter", primary=True)]
        case RunPhase.TURNING:
            blocks += [] if run.made else _before_turning(session, run)
            blocks += _turning(session, run)
        case _:
            blocks.append(_WORKING_OUT)
    return tuple(blocks)


def _why_proposed(run: CaseRun) -> tuple[Block, ...]:
    return (Text(run.why, TextStyle.SMALL, Tone.MUTED),) if run.why else ()


def _before_turning(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """Before the first turn: the step that was named, what is the learner's to do, and to watch instead."""
    blocks: list[Block] = []
    answer = case_run.start_answer(session, run)
    if looking.named(run, answer) and answer is not None:
        blocks.append(VerdictNote(Mark.OPTIMAL, words.step_first(answer.step.value.capitalize())))
    blocks.append(Text(_your_part(run)))
    if not run.shown and run.help is Help.WITH_HINTS:
        blocks.append(try_button(run, Help.WATCH, words.WATCH_IT_FIRST))
    return tuple(blocks)


def _start(session: Session, run: CaseRun) -> str:
    """Where corner and edge of the pair are at the start, as the learner sees it."""
    bearing = run.attempt.bearing(0)
    if bearing is None:
        return ""
    colours = case_run.start_colours(session, run, bearing)
    return whereabouts(bearing.position, bearing.task, colours).text


def _your_part(run: CaseRun) -> str:
    """What is the learner's to do: what is left of what was shown, or all of it."""
    if run.shown:
        return _AFTER_SHOWN[run.help]
    return _ALL_YOURS.get(run.help, words.ALL_YOURS)


def _sitting(session: Session) -> tuple[Block, ...]:
    """How far the goal is, and the way out."""
    practice, out = PRACTICE.of(session), way_out(session)
    goal = () if practice.mode is None or practice.sitting is None else goal_blocks(practice)
    return (Gap(1), *goal, *out) if out else ()


def _turning(session: Session, run: CaseRun) -> tuple[Block, ...]:
    alone, attempt = silent(session), run.attempt
    blocks: list[Block] = [Text(words.SOLVE_THE_PAIR, TextStyle.QUESTION)]
    if run.beat is not None:
        blocks = [*beat_blocks(run, run.beat)]
    if run.question is not None:
        blocks = [*question_blocks(run, run.question)]
    elif alone:
        blocks += help_off_blocks(session)
    else:
        blocks += verdict_blocks(session, attempt)
        blocks += hint_blocks(session, attempt)
    return (*blocks, *turn_blocks(session), *writing_blocks(session))


def _foot(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """While the learner turns: help, the way back, and the way out; once it is over, the way on."""
    if run.over:
        return onward_buttons(session, run)
    if run.phase is not RunPhase.TURNING or (run.mode in _EYES_ON_THE_CUBE and run.glance is not None):
        return ()
    attempt = run.attempt
    hint = Button(Act.HINT, hint_label(attempt), enabled=attempt.rung < 3)
    first = Button(Act.REVEAL, words.HELP_ME) if silent(session) else hint
    return (
        ButtonRow((first, undo_button(session, enabled=attempt.history.cursor > 0))),
        ButtonRow((Button(Act.WRITE, words.WRITE), Button(PracticeAct.GIVE_UP, words.GIVE_UP))),
    )
