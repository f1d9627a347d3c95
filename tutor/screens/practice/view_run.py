"""The Practice screen with a run of a case on it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from tutor.coach.guidance import Help
from tutor.coach.solve_words import whereabouts
from tutor.progress.attempt import Mode
from tutor.screens.parts.card import hint_blocks, hint_label, review_blocks, verdict_blocks, writing_blocks
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import attempt_rail, review_rail
from tutor.screens.practice import case_run
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
from tutor.session.target import colours_as_held
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

HELP_WORDS = {
    Help.WATCH: ("Watch", "Watch the whole case. You do nothing yet."),
    Help.LAST_TURN: ("The last turn", "All but the last turn is shown. That one is yours."),
    Help.LAST_STEP: ("The last step", "The first steps are shown. The last one is yours."),
    Help.WITH_HINTS: ("With hints", "The whole case is yours. Hints are there when you want them."),
    Help.ALONE: ("On your own", "The whole case is yours, without verdicts until the pair is home."),
}
_ONWARD = {
    Onward.AGAIN: "Again",
    Onward.SEE_IT: "See it once more",
    Onward.EASIER: "First the case it builds on",
    Onward.NEXT: "Next case",
}
_EYES_ON_THE_CUBE = (Mode.GLANCE, Mode.STEADY)
"""There the case is seen and not read: its name comes when it is over."""
BOOK_NAME = "Its name in the case book, as seen at the front right."
_AGAIN_IF_KNOWN = "Again, to keep it"
END_BUTTON = Button(PracticeAct.END, "End for now")


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
        "Practice",
        stage=stage,
        card=_card(session, run),
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
    # One cannot go back into what is over, so that its tiles are nothing to press.
    return rail and replace(rail, own=tuple(replace(tile, action=None) for tile in rail.own))


def _card(session: Session, run: CaseRun) -> tuple[Block, ...]:
    start = Text(_start(session, run), TextStyle.HEADING)
    caption = Text(_caption(run), TextStyle.SMALL, Tone.MUTED)
    if run.mode in _EYES_ON_THE_CUBE and run.phase is Phase.TURNING:
        asked = naming_blocks(run.flash) if run.flash is not None else _turning(session, run, "")
        return (caption, *asked, *_sitting(session))
    blocks: list[Block] = [start, caption]
    if run.over:
        blocks = [Text(f"{run.case.name}.", TextStyle.HEADING), Text(BOOK_NAME, TextStyle.SMALL, Tone.MUTED)]
        blocks += [caption, *_kept(session, run)]
    if run.why and (not run.over or run.mode in _EYES_ON_THE_CUBE):
        blocks.append(Text(run.why, TextStyle.SMALL, Tone.MUTED))
    said = HELP_WORDS[run.help][1]
    match run.phase:
        case Phase.WAITING:
            blocks.append(Text("Working it out …", tone=Tone.MUTED))
        case Phase.SHOWING:
            blocks += [Text(said), Button(Act.NEXT, _shown_label(run), "Enter", primary=True)]
        case Phase.TURNING:
            blocks += _turning(session, run, said)
        case Phase.OVER:
            blocks += _over(session, run)
    return (*blocks, *_sitting(session))


def _start(session: Session, run: CaseRun) -> str:
    """Where corner and edge of the pair are at the start, as the learner sees it."""
    bearing = run.attempt.bearing(0)
    if bearing is None:
        return f"{run.case.name}."
    colours = colours_as_held(run.attempt.history.start.rotated(bearing.hold), session.settings.colour_names)
    return whereabouts(bearing.position, bearing.task, colours).text


def _caption(run: CaseRun) -> str:
    """How the case is met."""
    how = HELP_WORDS[run.help][0]
    if run.flash is not None:
        how = "Recognition flash"
    elif run.mode is Mode.STEADY:
        how = "Slow and steady"
    mirrored = " · mirror image" if run.mirror else ""
    return f"{how} · slot {run.slot.name}{mirrored}"


def _sitting(session: Session) -> tuple[Block, ...]:
    """How far the goal is, and the way to the end."""
    practice = PRACTICE.of(session)
    if practice.mode is None or practice.sitting is None:
        return ()
    # Once a run is over, the way to the end stands beside the other buttons.
    run = RUN.of(session)
    over = run is not None and run.over
    return (Gap(1), *goal_blocks(practice)) if over else (Gap(1), *goal_blocks(practice), END_BUTTON)


def _shown_label(run: CaseRun) -> str:
    return "Go on" if run.help is Help.WATCH else "My turn"


def _turning(session: Session, run: CaseRun, said: str) -> tuple[Block, ...]:
    alone = silent(session)
    attempt = run.attempt
    blocks: list[Block] = [Text(said), Text("Bring the pair home.", TextStyle.QUESTION)]
    if run.beat is not None:
        blocks = [*beat_blocks(run, run.beat)]
    if not alone:
        blocks += verdict_blocks(session, attempt)
        blocks += hint_blocks(session, attempt)
    blocks += writing_blocks(session)
    first = (
        Button(Act.REVEAL, "Help me")
        if alone
        else Button(Act.HINT, hint_label(attempt), enabled=attempt.rung < 3)
    )
    blocks += [
        ButtonRow((first, Button(Act.UNDO, "Take back", enabled=attempt.history.cursor > 0))),
        ButtonRow((Button(Act.WRITE, "Write moves"), Button(PracticeAct.GIVE_UP, "Give up"))),
    ]
    return tuple(blocks)


def _over(session: Session, run: CaseRun) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if run.flash is not None:
        blocks += named_blocks(session, run, run.flash)
    elif run.unseen:
        blocks.append(Text("You went on before the end, so this does not count as seen."))
    elif run.help is Help.WATCH and not run.made:
        onward = "See it once more, or go on." if run.uncounted else "Next time the last turn is yours."
        blocks.append(Text(onward))
    elif run.finished:
        blocks += [VerdictNote(Mark.OPTIMAL, "Home"), *review_blocks(session, run.attempt)]
    else:
        blocks.append(Text("Given up. That is fine: see it once more, then try again."))
    if run.beat is not None:
        blocks += timing_blocks(run.beat)
    blocks += _question(run)
    blocks += [Gap(1), *_onward_buttons(session, run), *_last_row(session, run)]
    return tuple(blocks)


def _onward_buttons(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """What is proposed next, and what else can be done with the case."""
    onward, proposes = case_run.onward(session, run), PRACTICE.of(session).mode is not None
    label = "Next case" if proposes else _AGAIN_IF_KNOWN if onward is Onward.NEXT else _ONWARD[onward]
    again = "Turn it now" if run.flash is not None else "Same case"
    blocks: list[Block] = [
        Button(Act.NEXT, label, "Enter", primary=True),
        ButtonRow(
            (
                Button(PracticeAct.SAME_CASE, again),
                Button(Act.SHOW_AGAIN, "Show again"),
                _try_button(run, Help.ALONE, "On my own"),
            )
        ),
    ]
    if proposes and onward is Onward.SEE_IT and run.flash is None:
        blocks.append(_try_button(run, Help.WATCH, _ONWARD[onward]))
    if proposes and onward is Onward.EASIER and run.flash is None:
        blocks.append(Button(PracticeAct.EASIER, _ONWARD[onward]))
    return tuple(blocks)


def _try_button(run: CaseRun, help: Help, label: str) -> Button:
    return Button(TryCase(run.case.slug, run.slot, run.alignment, help), label)


def _kept(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """Whether the try is on the disk."""
    if run.unseen:
        return ()
    if run.uncounted:
        taken_back = "Taken back. This try does not count: the case stands as it did before."
        return (Text(taken_back, TextStyle.SMALL),)
    if run.filed is None:
        return ()
    records = session.records
    if run.filed in records.waiting:
        said, tone = "Saving …", Tone.MUTED
    elif run.filed in records.unsaved:
        told = " ".join(records.notices) or "It is kept until it can be written."
        said, tone = f"Not saved yet. {told}", Tone.WARNING
    else:
        said, tone = "Saved.", Tone.MUTED
    return (Text(said, TextStyle.SMALL, tone),)


def _last_row(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The way to take the try back, and the way to the end."""
    end = () if PRACTICE.of(session).mode is None else (END_BUTTON,)
    if run.filed is None or run.uncounted:
        return end
    return (ButtonRow((Button(PracticeAct.UNCOUNT, "Do not count this"), *end)),)


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
        blocks.append(VerdictNote(mark, "Yes" if last.true else "Not this", last.reply))
    return tuple(blocks)
