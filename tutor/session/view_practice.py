"""The Practice screen: choosing what to practise, and the run of a case."""

from __future__ import annotations

from tutor.coach.guidance import Help
from tutor.session import case_run, turning
from tutor.session.actions import action_name
from tutor.session.case_run import Onward
from tutor.session.choosing import Pool, standing
from tutor.session.commands import Act, ChooseAnswer, Practise, TryCase
from tutor.session.state import CaseRun, Phase, Session, answer_at
from tutor.session.view import (
    Block,
    Button,
    ButtonRow,
    Gap,
    Mark,
    Rail,
    Screen,
    Stage,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
    View,
)
from tutor.session.view_parts import (
    button,
    hint_blocks,
    hint_label,
    review_blocks,
    screen_view,
    verdict_blocks,
    writing_blocks,
)
from tutor.session.view_rail import attempt_rail, review_rail

HERE = Screen.PRACTICE
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


def run_view(session: Session, run: CaseRun, stage: Stage, rail: Rail | None) -> View:
    """The run of a case."""
    return screen_view(
        session,
        "Practice",
        stage=stage,
        card=_card(session, run),
        rail=rail,
    )


def run_rail(session: Session, run: CaseRun) -> Rail:
    """The rail of a run while nothing is being shown."""
    if run.phase is Phase.OVER:
        reviewed = review_rail(session, run.attempt)
        if reviewed is not None:
            return reviewed
    if turning.silent(session):
        return attempt_rail(session, run.attempt, None, judged=False)
    return attempt_rail(session, run.attempt, answer_at(session, run.attempt))


def _card(session: Session, run: CaseRun) -> tuple[Block, ...]:
    title, said = HELP_WORDS[run.help]
    blocks: list[Block] = [
        Text(f"{run.case.name}.", TextStyle.HEADING),
        Text(f"{title} · slot {run.slot.name}", TextStyle.SMALL, Tone.MUTED),
    ]
    match run.phase:
        case Phase.WAITING:
            blocks.append(Text("Working it out …", tone=Tone.MUTED))
        case Phase.SHOWING:
            blocks += [Text(said), Button(action_name(Act.NEXT), _shown_label(run), "Enter", primary=True)]
        case Phase.TURNING:
            blocks += _turning(session, run, said)
        case Phase.OVER:
            blocks += _over(session, run)
    return tuple(blocks)


def _shown_label(run: CaseRun) -> str:
    return "Seen it" if run.help is Help.WATCH else "My turn"


def _turning(session: Session, run: CaseRun, said: str) -> tuple[Block, ...]:
    silent = turning.silent(session)
    attempt = run.attempt
    blocks: list[Block] = [Text(said), Text("Bring the pair home.", TextStyle.QUESTION)]
    if not silent:
        blocks += verdict_blocks(session, attempt)
        blocks += hint_blocks(session, attempt)
    blocks += writing_blocks(session)
    first = (
        button(Act.REVEAL, "Help me", HERE)
        if silent
        else button(Act.HINT, hint_label(attempt), HERE, enabled=attempt.rung < 3)
    )
    blocks += [
        ButtonRow((first, button(Act.UNDO, "Take back", HERE, enabled=attempt.history.cursor > 0))),
        ButtonRow((button(Act.WRITE, "Write moves", HERE), button(Act.GIVE_UP, "Give up", HERE))),
    ]
    return tuple(blocks)


def _over(session: Session, run: CaseRun) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if run.help is Help.WATCH and not run.made:
        blocks.append(Text("Next time the last turn is yours."))
    elif run.finished:
        blocks += [VerdictNote(Mark.OPTIMAL, "Home"), *review_blocks(session, run.attempt)]
    else:
        blocks.append(Text("Given up. That is fine: see it once more, then try again."))
    blocks += _question(run)
    onward = case_run.onward(session, run)
    blocks += [
        Gap(1),
        Button(action_name(Act.NEXT), _onward_label(session, onward), "Enter", primary=True),
        ButtonRow(
            (
                button(Act.SAME_CASE, "Same case", HERE),
                button(Act.SHOW_AGAIN, "Show again", HERE),
                Button(action_name(TryCase(run.case.slug, run.slot, run.alignment, Help.ALONE)), "On my own"),
            )
        ),
    ]
    return tuple(blocks)


def _onward_label(session: Session, onward: Onward) -> str:
    if onward is Onward.NEXT and session.pool is None:
        return "Again, to keep it"
    return _ONWARD[onward]


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
                action_name(ChooseAnswer(index)),
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


def menu(session: Session) -> View:
    """What can be practised."""
    return screen_view(
        session,
        "Practice",
        page=(_menu_blocks(session),),
    )


def _menu_blocks(session: Session) -> tuple[Block, ...]:
    guidance = dict(session.guidance)
    blocks: list[Block] = [
        Text("Practice", TextStyle.TITLE),
        Text(
            "One case after the other, mixed and in changing slots. What went wrong comes back first. "
            "You get as much help as you need, and less each time."
        ),
    ]
    for pool in Pool:
        known, met, new = standing(pool, guidance)
        detail = f"{known} known, {met} on the way, {new} new"
        label = pool.value[:1].upper() + pool.value[1:]
        blocks.append(
            Button(action_name(Practise(pool.name)), label, primary=pool is Pool.ALL, detail=detail)
        )
    minutes = session.settings.rest_minutes
    caution = (
        f"Long drilling strains hands and wrists. After {minutes} minutes you are reminded to rest them."
    )
    blocks += [Gap(1), Text(caution, TextStyle.SMALL, Tone.MUTED)]
    return tuple(blocks)
