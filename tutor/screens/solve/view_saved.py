"""The list of saved solves, on the page where a whole solve begins."""

from __future__ import annotations

from tutor.coach.solve_review_sentences import time_words
from tutor.screens.solve import words
from tutor.screens.solve.commands import DeleteSolve, Reopen, SolveAct
from tutor.screens.solve.saved import ShelfEntry
from tutor.screens.solve.state import SHELF
from tutor.session.house import Session
from tutor.ui.view import Block, Button, ButtonRow, Text, TextStyle, Tone

LISTED = 30
"""So many of the latest are on the page; all of them stay in their folder."""


def saved_blocks(session: Session) -> tuple[Block, ...]:
    """A button for every saved solve, the latest first, and the files that cannot be read."""
    shelf = SHELF.of(session)
    blocks: list[Block] = [Text(words.YOUR_SOLVES, TextStyle.HEADING)]
    if not shelf.entries:
        blocks.append(Text(words.NO_SOLVES, tone=Tone.MUTED))
    for entry in shelf.entries[:LISTED]:
        blocks += _chosen_from(entry, entry.name == shelf.asked) if shelf.choosing else (_entry(entry),)
    if len(shelf.entries) > LISTED:
        blocks.append(Text(words.older_solves(len(shelf.entries) - LISTED), TextStyle.SMALL))
    if shelf.damaged:
        blocks.append(Text(words.unreadable(shelf.damaged), TextStyle.SMALL, Tone.WARNING))
    if shelf.entries:
        label = words.DELETE_DONE if shelf.choosing else words.DELETE_SOME
        blocks.append(ButtonRow((Button(SolveAct.DELETE_SOME, label),)))
    return tuple(blocks)


def _chosen_from(entry: ShelfEntry, asked: bool) -> tuple[Block, ...]:
    """A solve that can be deleted, with the question whether it really is to be."""
    label = words.delete_this(_when_exactly(entry))
    button = Button(DeleteSolve(entry.name), label, selected=asked, detail=_told(entry))
    if not asked:
        return (button,)
    answers = (
        Button(DeleteSolve(entry.name, sure=True), words.DELETE_FOR_GOOD),
        Button(DeleteSolve(entry.name), words.KEEP_IT),
    )
    return button, ButtonRow(answers)


def _when_exactly(entry: ShelfEntry) -> str:
    """The moment down to the second, and a number after it, as two solves may be of one minute."""
    rest = entry.name.removeprefix(entry.when.replace(" ", "-").replace(":", ""))
    seconds, _, number = rest.partition("-")
    return f"{entry.when}:{seconds}{f' ({number})' if number else ''}" if rest != entry.name else entry.when


def _entry(entry: ShelfEntry) -> Button:
    return Button(Reopen(entry.name), entry.when, detail=_told(entry))


def _told(entry: ShelfEntry) -> str:
    kept = entry.solve
    seconds = kept.times[-1] - kept.times[0] if kept.times else 0.0
    return words.saved_solve(kept.turns, time_words(seconds), finished=kept.two_layers_home)
