"""Blocks of a run that is over: the best first, the one thing to look at, and what comes next."""

from __future__ import annotations

from tutor.coach.guidance import Help
from tutor.screens.parts.card import writing_blocks
from tutor.screens.parts.more import told
from tutor.screens.parts.own_words import line_blocks, line_button
from tutor.screens.parts.words import SHOW_SPLIT, YOUR_LINE
from tutor.screens.practice import case_run, words
from tutor.screens.practice.case_run import Onward
from tutor.screens.practice.commands import PracticeAct
from tutor.screens.practice.state import PRACTICE, CaseRun
from tutor.screens.practice.view_modes import goal_blocks, named_blocks, timing_blocks
from tutor.screens.practice.view_names import caption, name_blocks, try_button, way_out
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.looking_back import attempt_review
from tutor.session.recording import turns_that_count
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Group,
    Mark,
    Progress,
    Table,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
)

_HELPS = {Onward.SEE_IT: words.SEE_IT, Onward.EASIER: words.EASIER}

_AFTER_WATCHING = {Help.LAST_TURN: words.LAST_TURN_NEXT, Help.LAST_STEP: words.LAST_STEP_NEXT}


def end_blocks(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The card of a run that is over."""
    name = name_blocks(session, run)
    first: list[Block] = [Text(caption(run), TextStyle.SMALL, Tone.MUTED), *_goal(session)]
    if run.finished and run.glance is None:
        first += [VerdictNote(Mark.OPTIMAL, words.SOLVED), *_result(session, run)]
        first += [*_one_thing(session, run), *_kept(session, run)]
        more = (*name, *_more(session, run))
    else:
        first = [*name, *first, *_how_it_ended(session, run), *_kept(session, run)]
        more = ()
    if run.beat is not None:
        first += timing_blocks(run.beat)
    more = (*more, *_more_buttons(session, run))
    field = writing_blocks(session, YOUR_LINE)
    return (*told(session, tuple(first), more), *field)


def _goal(session: Session) -> tuple[Block, ...]:
    practice = PRACTICE.of(session)
    blocks = () if practice.mode is None or practice.sitting is None else goal_blocks(practice)
    # Without a number to reach, how many tries there were can wait until the end.
    return tuple(block for block in blocks if isinstance(block, Progress))


def _how_it_ended(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """What is said of a run that did not solve the pair by turning."""
    if run.glance is not None:
        why = (Text(run.why, TextStyle.SMALL, Tone.MUTED),) if run.why else ()
        return (*why, *named_blocks(session, run, run.glance))
    if run.unseen:
        return (Text(words.LEFT_EARLY),)
    if run.only_watched:
        help = case_run.guidance_for(session, run.counts_for).help
        return (Text(words.NOT_WATCHED if run.uncounted else _AFTER_WATCHING.get(help, words.ALL_TURNS_NOW)),)
    return (Text(words.GAVE_UP),)


# ------------------------------------------------------------------------------------------- pair solved


def _result(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The learner's turns beside the best by hand, under a sentence for what was done the first time."""
    found = attempt_review(session, run.attempt)
    first = (Text(words.FIRST_UNAIDED),) if run.first_unaided else ()
    if found is None:
        return first
    answer = case_run.start_answer(session, run)
    by_hand = answer is None or answer.by_hand is not None
    own, best = words.turns(len(found.made)), words.turns(found.fewest)
    header = (words.YOU, words.BEST_BY_HAND if by_hand else words.BEST)
    table = Table(header, ((own, best), (words.beside_the_best(found.extra), words.NONE_SHORTER)))
    # What was undone is not on the way that is counted.
    undone = len(turns_that_count(session, run.attempt, run.made)) - len(found.made)
    besides = words.besides(max(0, undone), len(run.hints))
    return (*first, table, *((Text(besides, TextStyle.SMALL, Tone.MUTED),) if besides else ()))


def _one_thing(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """The turn that cost most, if one cost anything; or that the way was the route that is taught."""
    found = attempt_review(session, run.attempt)
    if found is None or not found.split_told.text:
        return ()
    if found.split is None:
        return (Text(found.split_told.text),)
    heading = Text(words.one_thing(found.split + 1), TextStyle.QUESTION)
    return (Group((heading, Text(found.split_told.text), Button(Act.SHOW_SPLIT, SHOW_SPLIT))),)


def _more(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """All else that there is to say of the way."""
    found = attempt_review(session, run.attempt)
    if found is None:
        return ()
    return tuple(Text(phrase.text) for phrase in found.phrases if phrase is not found.split_told)


# ------------------------------------------------------------------------------------------- what comes next


def onward_buttons(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """What is proposed next, the case once more, what helps after failures, and the way to the end."""
    onward, proposes = case_run.onward(session, run), PRACTICE.of(session).mode is not None
    again = words.SAME_CASE if run.glance is None else words.SOLVE_IT
    label = words.NEXT_CASE if proposes else _HELPS.get(onward, again)
    label = words.TRY_NOW if run.only_watched else label
    seen = bool(run.shown) or run.replayed
    # Where the main button begins the case once more, a second one for that would be one too many.
    row = [Button(PracticeAct.SAME_CASE, again)] if label in (words.NEXT_CASE, *_HELPS.values()) else []
    row.append(Button(Act.SHOW_AGAIN, words.SHOW_AGAIN if seen else words.SHOW))
    blocks: list[Block] = [Button(Act.NEXT, label, "Enter", primary=True)]
    helps = proposes and run.glance is None
    if helps and onward is Onward.SEE_IT and not run.only_watched:
        row.append(try_button(run, Help.WATCH, _HELPS[onward]))
    if helps and onward is Onward.EASIER:
        row.append(Button(PracticeAct.EASIER, _HELPS[onward]))
    return (*blocks, ButtonRow((*row, *way_out(session))))


def _more_buttons(session: Session, run: CaseRun) -> tuple[Block, ...]:
    """What else can be done with the case: try it alone, put it in one's own words, take the try back."""
    row = [
        try_button(run, Help.ALONE, words.ON_MY_OWN),
        line_button(session, run.case.slug, PracticeAct.OWN_WORDS),
    ]
    if run.filed is not None and not run.uncounted:
        row.append(Button(PracticeAct.UNCOUNT, words.DO_NOT_COUNT))
    return (*line_blocks(session, run.case.slug), ButtonRow(tuple(row)))


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
