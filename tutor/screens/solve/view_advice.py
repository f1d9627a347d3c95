"""Which pair first: the card that shows what each unsolved pair costs, and a plan for all of them."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.solve_sentences import (
    pair_after,
    pair_label,
    pair_reason,
    pair_where,
    pair_why,
    plan_words,
    proof_words,
    saving_words,
)
from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves
from tutor.method.advice import PairsQuestion, PairsReading, PlanQuestion, ProofQuestion
from tutor.method.savings import SavedTurns, SavingKind
from tutor.screens.parts.card import unknown_blocks, verdict_blocks
from tutor.screens.parts.more import told
from tutor.screens.solve import words
from tutor.screens.solve.commands import ShowTurns
from tutor.screens.solve.solving import CrossDown, colour_words, cross_down, run_made_last
from tutor.screens.solve.state import SolvePlay
from tutor.session.commands import ChooseSlot
from tutor.session.house import Session
from tutor.ui.view import Block, Button, Text, TextStyle, VerdictNote

SAVINGS_SHOWN = 4
SHARED_SHOWN = 1


def advice_blocks(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    """Each unsolved pair with its turns and one reason; on demand where its pieces are, and a plan."""
    down = cross_down(solve)
    question = PairsQuestion(down.position)
    reading = session.advices.pairs(question)
    title = Text(words.WHICH_PAIR, TextStyle.HEADING)
    if reading is None:
        return (title, *unknown_blocks(session, question, words.WORKING))
    remark = verdict_kept(session, solve)
    more = (*remark, *_where(session, down, reading), *_plan(session, down), *_savings(down, reading.savings))
    return told(session, (*_in_brief(remark), title, *_pairs(down, reading)), more)


def verdict_kept(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    """The verdict on the last turn for the pair it was made for; nothing to press once that is another."""
    run = run_made_last(solve)
    blocks = verdict_blocks(session, run)
    if run.aim == solve.attempt.aim:
        return blocks
    return tuple(block for block in blocks if isinstance(block, VerdictNote))


def _in_brief(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """The verdict on the turn before the choice, without what is said about it."""
    return tuple(replace(block, text="") for block in blocks if isinstance(block, VerdictNote))


def _pairs(down: CrossDown, reading: PairsReading) -> tuple[Block, ...]:
    return tuple(
        Button(
            ChooseSlot(cost.slot),
            pair_label(cost),
            str(number + 1),
            primary=number == 0,
            detail=pair_reason(down.position, cost),
            choice=True,
        )
        for number, cost in enumerate(reading.costs)
    )


def _where(session: Session, down: CrossDown, reading: PairsReading) -> list[Block]:
    """For every pair: where its pieces are, why it costs so much, and what the others cost after it."""
    colours = colour_words(session, down)
    blocks: list[Block] = []
    for cost in reading.costs:
        said = (pair_where(down.position, cost, colours).text, pair_why(cost), pair_after(cost, reading))
        blocks.append(Text(pair_label(cost), TextStyle.HEADING))
        blocks.append(Text(" ".join(part for part in said if part)))
    return blocks


def _plan(session: Session, down: CrossDown) -> list[Block]:
    asked = PlanQuestion(down.position)
    reading = session.advices.plan(asked)
    blocks: list[Block] = [Text(words.PLAN, TextStyle.HEADING)]
    if reading is None:
        return [*blocks, *unknown_blocks(session, asked, words.LOOKING_FOR_PLAN)]
    question = ProofQuestion(down.position)
    proof = session.advices.proof(question)
    looking = question not in session.advices.known
    blocks += [Text(plan_words(reading)), Text(proof_words(reading, proof, looking=looking), TextStyle.SMALL)]
    blocks.append(_show(words.SHOW_PLAN, down, reading.plan.turns))
    if proof is not None and proof.line is not None and proof.fewest < reading.plan.length:
        blocks.append(_show(words.SHOW_FEWEST, down, proof.line))
    return blocks


def _show(label: str, down: CrossDown, turns: tuple[Turn, ...]) -> Button:
    written = format_moves(down.as_held(turns))
    return Button(ShowTurns(written), label, detail=written)


def _savings(down: CrossDown, savings: tuple[SavedTurns, ...]) -> list[Block]:
    shared = [saving for saving in savings if saving.kind is SavingKind.TWO_PAIRS][:SHARED_SHOWN]
    own = [saving for saving in savings if saving.kind is not SavingKind.TWO_PAIRS][:SAVINGS_SHOWN]
    if not (shared or own):
        return []
    blocks: list[Block] = [Text(words.SHORTCUTS, TextStyle.HEADING)]
    blocks += [_show(saving_words(saving), down, saving.turns) for saving in (*own, *shared)]
    return blocks
