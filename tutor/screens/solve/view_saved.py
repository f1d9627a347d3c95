"""The list of saved solves, on the page where a whole solve begins."""

from __future__ import annotations

from tutor.coach.catalogue import capitalised
from tutor.coach.solve_review_sentences import time_words
from tutor.counting import counted
from tutor.screens.solve.commands import DeleteSolve, Reopen, SolveAct
from tutor.screens.solve.saved import ShelfEntry
from tutor.screens.solve.state import SHELF
from tutor.session.house import Session
from tutor.ui.view import Block, Button, ButtonRow, Text, TextStyle, Tone

LISTED = 30
"""The latest ones are listed; all of them stay in their folder."""


def saved_blocks(session: Session) -> tuple[Block, ...]:
    """Every saved solve as a way back to it, the latest first, and what could not be read."""
    shelf = SHELF.of(session)
    blocks: list[Block] = [Text("Your solves", TextStyle.HEADING)]
    if not shelf.entries:
        said = "None yet. A solve that comes to its end is kept by itself; any other when you ask for it."
        blocks.append(Text(said, tone=Tone.MUTED))
    for entry in shelf.entries[:LISTED]:
        blocks += _chosen_from(entry, entry.name == shelf.asked) if shelf.choosing else (_entry(entry),)
    if len(shelf.entries) > LISTED:
        blocks.append(Text(f"{len(shelf.entries) - LISTED} older ones are kept too.", TextStyle.SMALL))
    if shelf.damaged:
        names = ", ".join(shelf.damaged)
        blocks.append(Text(f"These files cannot be read: {names}.", TextStyle.SMALL, Tone.WARNING))
    if shelf.entries:
        label = "Delete no more" if shelf.choosing else "Delete some"
        blocks.append(ButtonRow((Button(SolveAct.DELETE_SOME, label),)))
    return tuple(blocks)


def _chosen_from(entry: ShelfEntry, asked: bool) -> tuple[Block, ...]:
    """A solve that can be deleted, with the question whether it really is to be."""
    label = f"Delete {_when_exactly(entry)}?"
    button = Button(DeleteSolve(entry.name), label, selected=asked, detail=_told(entry))
    if not asked:
        return (button,)
    answers = (
        Button(DeleteSolve(entry.name, sure=True), "Delete it for good"),
        Button(DeleteSolve(entry.name), "Keep it"),
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
    turns = counted(kept.turns, "turn")
    told = "two layers home" if kept.two_layers_home else "not finished"
    return (
        f"{capitalised(turns)}, {time_words(kept.times[-1] - kept.times[0] if kept.times else 0.0)}: {told}."
    )
