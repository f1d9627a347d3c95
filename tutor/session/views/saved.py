"""The list of saved solves, on the page where a whole solve begins."""

from __future__ import annotations

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.coach.solve_review_words import time_words
from tutor.session.actions import action_name
from tutor.session.solve.commands import Reopen
from tutor.session.solve.saved import ShelfEntry
from tutor.session.state import Session
from tutor.session.view import Block, Button, Text, TextStyle, Tone

LISTED = 30
"""The latest ones are listed; all of them stay in their folder."""


def saved_blocks(session: Session) -> tuple[Block, ...]:
    """Every saved solve as a way back to it, the latest first, and what could not be read."""
    shelf = session.shelf
    blocks: list[Block] = [Text("Your solves", TextStyle.HEADING)]
    if not shelf.entries:
        said = "None yet. A solve that comes to its end is kept by itself; any other when you ask for it."
        blocks.append(Text(said, tone=Tone.MUTED))
    blocks += [_entry(entry) for entry in shelf.entries[:LISTED]]
    if len(shelf.entries) > LISTED:
        blocks.append(Text(f"{len(shelf.entries) - LISTED} older ones are kept too.", TextStyle.SMALL))
    if shelf.damaged:
        names = ", ".join(shelf.damaged)
        blocks.append(Text(f"These files cannot be read: {names}.", TextStyle.SMALL, Tone.WARNING))
    return tuple(blocks)


def _entry(entry: ShelfEntry) -> Button:
    kept = entry.solve
    turns = ENGLISH.count("turns", kept.turns)
    told = "two layers home" if kept.two_layers_home else "not finished"
    seconds = kept.times[-1] - kept.times[0] if kept.times else 0.0
    detail = f"{capitalised(turns)}, {time_words(seconds)}: {told}."
    return Button(action_name(Reopen(entry.name)), entry.when, detail=detail)
