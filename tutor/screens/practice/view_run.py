"""The Practice screen with a run of a case on it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from tutor.coach.guidance import Help
from tutor.coach.solve_sentences import whereabouts
from tutor.method.terms import Family
from tutor.progress.attempt import Mode
from tutor.progress.words import case_title
from tutor.screens.parts.card import (
    help_off_blocks,
    hint_blocks,
    hint_label,
    review_blocks,
    verdict_blocks,
    writing_blocks,
)
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import attempt_rail, review_rail
from tutor.screens.parts.turn_buttons import turn_blocks
from tutor.screens.practice import case_run, words
from tutor.screens.practice.case_run import Onward
from tutor.screens.practice.commands import PracticeAct, TryCase
from tutor.screens.practice.metronome import followed_cubies, lit
from tutor.screens.practice.state import PRACTICE, RUN, CaseRun, Phase
from tutor.screens.practice.update import silent
from tutor.screens.practice.view_modes import (
    beat_blocks,
    goal_blocks,
    named_blocks,
    naming_blocks,
    timing_blocks,
)
from tutor.session.commands import Act, ChooseAnswer
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.ui.view import (
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

_HOW = {
    Help.WATCH: words.WATCH,
    Help.LAST_TURN: words.LAST_TURN,
    Help.LAST_STEP: words.LAST_STEP,
    Help.WITH_HINTS: words.WITH_HINTS,
    Help.ALONE: words.ALONE,
}
_WHILE_SHOWN = {
    Help.WATCH: words.WATCH_ALL,
    Help.LAST_TURN: words.WATCH_ALL_BUT_ONE,
    Help.LAST_STEP: words.WATCH_FIRST_STEPS,
}
_AFTER_SHOWN = {Help.LAST_TURN: words.LAST_TURN_YOURS, Help.LAST_STEP: words.LAST_STEP_YOURS}
_ALL_YOURS = {Help.WITH_HINTS: words.ALL_YOURS_WITH_HINTS, Help.ALONE: words.ALL_YOURS_ALONE}
_ONWARD = {
    Onward.AGAIN: words.AGAIN,
    Onward.SEE_IT: words.SEE_IT,
    Onward.EASIER: words.EASIER,
    Onward.NEXT: words.NEXT_CASE,
}
_EYES_ON_THE_CUBE = (Mode.GLANCE, Mode.STEADY)
"""There the learner sees the case and reads nothing: its name comes when the run is over."""
END_BUTTON = Button(PracticeAct.END, words.END)


def run_at(session: Session, run: CaseRun, now: float) -> View:
    """All that is seen of a run at a moment."""
    view = at_moment(still(session), session, run.attempt, now)
    if view.stage is None or session.demonstration is not None:
        return view
    return replace(view, stage=_with_followed(run, view.stage))


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
        told = None if silent(session) else answer_at(session, run.attempt)
        return attempt_rail(session, run.attempt, told, judged=not silent(session))
    rail = review_rail(session, run.attempt) or attempt_rail(
        session, run.attempt, answer_at(session, run.attempt)
    )
    # Nobody goes back into what is over, so its tiles are nothing to press.
    return rail and replace(rail, own=tuple(replace(tile, action=None) for tile in rail.own))


def _card(session: Session, run: CaseRun) -> tuple[Block, ...]:
    caption = Text(_caption(run), TextStyle.SMALL, Tone.MUTED)
    if run.mode in _EYES_ON_THE_CUBE and run.phase is Phase.TURNING:
        asked = naming_blocks(run.glance) if run.glance is not None else _turning(session, run)
        return (caption, *asked, *_sitting(session))
    blocks: list[Block] = [*_name(session, run)]
    blocks += [caption, *_kept(session, run)] if run.over else [Text(_start(session, run)), caption]
    if run.why and (not run.over or run.mode in _EYES_ON_THE_CUBE):
        blocks.append(Text(run.why, TextStyle.SMALL, Tone.MUTED))
    match run.phase:
        case Phase.WAITING:
            blocks.append(Text(words.WORKING_OUT, tone=Tone.MUTED))
        case Phase.SHOWING:
            label = words.DONE_WATCHING if run.help is Help.WATCH else words.MY_TURN
            blocks += [Text(_WHILE_SHOWN[run.help]), Button(Act.NEXT, label, "Enter", primary=True)]
        case Phase.TURNING:
            blocks += [Text(_your_part(run)), *_turning(session, run)]
        case Phase.OVER:
            blocks += _over(session, run)
    return (*blocks, *_sitting(session))


def _name(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The case by number and name, seen in its slot; where the top is turned further, what the name fits."""
    cross = session.settings.colour_names[session.settings.cross]
    title = case_title(run.case.number, run.case.short_name(run.slot, cross))
    name = Text(title, TextStyle.HEADING)
    if not run.alignment or run.case.family is Family.BOTH_IN_SLOT:
        return (name,)
    corner_up = run.case.family is not Family.EDGE_ON_TOP
    fits = words.NAMED_CORNER_ABOVE if corner_up else words.NAMED_EDGE_ABOVE
    return name, Text(fits, TextStyle.SMALL, Tone.MUTED)


def _start(session: Session, run: CaseRun) -> str:
    """Where corner and edge of the pair are at the start, as the learner sees it."""
    bearing = run.attempt.bearing(0)
    if bearing is None:
        return ""
    colours = case_run.start_colours(session, run, bearing)
    return whereabouts(bearing.position, bearing.task, colours).text


def _caption(run: CaseRun) -> str:
    """How the case is met."""
    how = _HOW[run.help]
    if run.glance is not None:
        how = words.GLANCE
    elif run.mode is Mode.STEADY:
        how = words.STEADY
    return words.caption(how, run.slot, run.counts_for.number if run.mirror else None)


def _your_part(run: CaseRun) -> str:
    """What is the learner's to do: what is left of what was shown, or all of it."""
    if run.shown:
        return _AFTER_SHOWN[run.help]
    return _ALL_YOURS.get(run.help, words.ALL_YOURS)


def _sitting(session: Session) -> tuple[Block, ...]:
    """How far the goal is, and the way to the end."""
    practice = PRACTICE.of(session)
    if practice.mode is None or practice.sitting is None:
        return ()
    # Once a run is over, the way to the end stands beside the other buttons.
    run = RUN.of(session)
    over = run is not None and run.over
    return (Gap(1), *goal_blocks(practice)) if over else (Gap(1), *goal_blocks(practice), END_BUTTON)


def _turning(session: Session, run: CaseRun) -> tuple[Block, ...]:
    alone = silent(session)
    attempt = run.attempt
    blocks: list[Block] = [Text(words.SOLVE_THE_PAIR, TextStyle.QUESTION)]
    if run.beat is not None:
        blocks = [*beat_blocks(run, run.beat)]
    if alone:
        blocks += help_off_blocks(session)
    else:
        blocks += verdict_blocks(session, attempt)
        blocks += hint_blocks(session, attempt)
    blocks += turn_blocks(session)
    blocks += writing_blocks(session)
    return tuple(blocks)


def _foot(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """While the learner turns: help, the way back, and the way out."""
    if run.phase is not Phase.TURNING or (run.mode in _EYES_ON_THE_CUBE and run.glance is not None):
        return ()
    attempt = run.attempt
    first = (
        Button(Act.REVEAL, words.HELP_ME)
        if silent(session)
        else Button(Act.HINT, hint_label(attempt), enabled=attempt.rung < 3)
    )
    return (
        ButtonRow((first, Button(Act.UNDO, words.UNDO, enabled=attempt.history.cursor > 0))),
        ButtonRow((Button(Act.WRITE, words.WRITE), Button(PracticeAct.GIVE_UP, words.GIVE_UP))),
    )


def _over(session: Session, run: CaseRun) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if run.glance is not None:
        blocks += named_blocks(session, run, run.glance)
    elif run.unseen:
        blocks.append(Text(words.LEFT_EARLY))
    elif run.help is Help.WATCH and not run.made:
        blocks.append(Text(words.NOT_WATCHED if run.uncounted else words.WATCHED))
    elif run.finished:
        blocks += [VerdictNote(Mark.OPTIMAL, words.SOLVED), *review_blocks(session, run.attempt)]
    else:
        blocks.append(Text(words.GAVE_UP))
    if run.beat is not None:
        blocks += timing_blocks(run.beat)
    blocks += _question(run)
    blocks += [Gap(1), *_onward_buttons(session, run), *_last_row(session, run)]
    return tuple(blocks)


def _onward_buttons(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """What is proposed next, and what else can be done with the case."""
    onward, proposes = case_run.onward(session, run), PRACTICE.of(session).mode is not None
    label = words.NEXT_CASE if proposes else words.KEEP_IT if onward is Onward.NEXT else _ONWARD[onward]
    again = words.SAME_CASE if run.glance is None else words.SOLVE_IT
    seen = bool(run.shown) or run.replayed
    blocks: list[Block] = [
        Button(Act.NEXT, label, "Enter", primary=True),
        ButtonRow(
            (
                Button(PracticeAct.SAME_CASE, again),
                Button(Act.SHOW_AGAIN, words.SHOW_AGAIN if seen else words.SHOW),
                _try_button(run, Help.ALONE, words.ON_MY_OWN),
            )
        ),
    ]
    if proposes and onward is Onward.SEE_IT and run.glance is None:
        blocks.append(_try_button(run, Help.WATCH, _ONWARD[onward]))
    if proposes and onward is Onward.EASIER and run.glance is None:
        blocks.append(Button(PracticeAct.EASIER, _ONWARD[onward]))
    return tuple(blocks)


def _try_button(run: CaseRun, help: Help, label: str) -> Button:
    return Button(TryCase(run.case.slug, run.slot, run.alignment, help), label)


def _kept(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """Whether the try is on the disk."""
    if run.unseen:
        return ()
    if run.uncounted:
        return (Text(words.UNCOUNTED, TextStyle.SMALL),)
    if run.filed is None:
        return ()
    records = session.records
    if run.filed in records.waiting:
        said, tone = words.SAVING, Tone.MUTED
    elif run.filed in records.unsaved:
        said, tone = words.not_saved(records.notices), Tone.WARNING
    else:
        said, tone = words.SAVED, Tone.MUTED
    return (Text(said, TextStyle.SMALL, tone),)


def _last_row(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The way to take the try back, and the way to the end."""
    end = () if PRACTICE.of(session).mode is None else (END_BUTTON,)
    if run.filed is None or run.uncounted:
        return end
    return (ButtonRow((Button(PracticeAct.UNCOUNT, words.DO_NOT_COUNT), *end)),)


def _question(run: CaseRun) -> tuple[Block, ...]:
    """“Why this turn?”, with the explanation once it is answered."""
    question = run.question
    if question is None:
        return ()
    answered = question.right in run.chosen
    blocks: list[Block] = [Text(question.text, TextStyle.QUESTION)]
    for index, choice in enumerate(question.choices):
        tried = index in run.chosen
        blocks.append(
            Button(
                ChooseAnswer(index),
                choice.text,
                str(index + 1),
                enabled=not answered and not tried,
                selected=answered and choice.true,
            )
        )
    if run.chosen:
        last = question.choices[run.chosen[-1]]
        mark = Mark.OPTIMAL if last.true else Mark.DETOUR
        blocks.append(VerdictNote(mark, words.YES if last.true else words.NOT_HERE, last.reply))
    return tuple(blocks)
