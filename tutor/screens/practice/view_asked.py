"""Blocks of what a run asks: what the learner sees in a new case, and why a turn was made."""

from __future__ import annotations

from tutor.coach.guidance import Help
from tutor.coach.why import TurnQuestion
from tutor.screens.practice import looking, words
from tutor.screens.practice.state import STEPS_NAMED, CaseRun, Seen
from tutor.screens.practice.view_names import try_button
from tutor.session.commands import Act, ChooseAnswer
from tutor.session.house import Session
from tutor.ui.view import Block, Button, ButtonRow, Gap, Mark, Text, TextStyle, Tone, VerdictNote


def look_blocks(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """What do you see? First the two pieces, then the step."""
    look = run.look or Seen()
    asked = _pieces(session, run, look) if looking.wanted(look) is not None else _steps(look)
    wrong = looking.why_wrong(session, run)
    note = (VerdictNote(Mark.DETOUR, words.NOT_HERE, wrong),) if wrong else ()
    turn = Button(Act.NEXT, words.MY_TURN, "Enter")
    return (*asked, *note, Gap(1), ButtonRow((turn, try_button(run, Help.WATCH, words.WATCH_IT_FIRST))))


def _pieces(session: Session, run: CaseRun, look: Seen) -> tuple[Block, ...]:
    piece = looking.wanted(look)
    blocks: list[Block] = [Text(words.FIND_THE_TWO, TextStyle.QUESTION)]
    if piece is not None:
        blocks.append(Text(words.click_or_choose(piece.value), TextStyle.SMALL, Tone.MUTED))
    blocks += [
        Button(ChooseAnswer(index), name, str(index + 1), enabled=cubie not in look.tried, choice=True)
        for index, (name, cubie) in enumerate(looking.places(session, run))
    ]
    return tuple(blocks)


def _steps(look: Seen) -> tuple[Block, ...]:
    steps = tuple(
        Button(ChooseAnswer(index), step.value.capitalize(), str(index + 1), enabled=step not in look.steps)
        for index, step in enumerate(STEPS_NAMED)
    )
    return (Text(words.WHICH_STEP_FIRST, TextStyle.QUESTION), ButtonRow(steps))


def question_blocks(run: CaseRun, question: TurnQuestion) -> tuple[Block, ...]:
    """“Why this turn?”, with what there is to say of each answer once it is chosen."""
    answered = question.right in run.chosen
    blocks: list[Block] = [Text(question.text, TextStyle.QUESTION)]
    if not answered:
        blocks.append(Text(words.MOMENT_BEFORE, TextStyle.SMALL, Tone.MUTED))
    for index, choice in enumerate(question.choices):
        tried = index in run.chosen
        open_to = choice.true if answered else not tried
        chosen = answered and choice.true
        blocks.append(
            Button(
                ChooseAnswer(index),
                choice.text,
                str(index + 1),
                enabled=open_to,
                selected=chosen,
                choice=True,
            )
        )
    if run.chosen:
        last = question.choices[run.chosen[-1]]
        mark = Mark.OPTIMAL if last.true else Mark.DETOUR
        blocks.append(VerdictNote(mark, words.YES if last.true else words.NOT_HERE, last.reply))
    return tuple(blocks)
