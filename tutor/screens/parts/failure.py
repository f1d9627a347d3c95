"""What you see when something went wrong inside: a card over the screen, or the card alone."""

from __future__ import annotations

from tutor.screens.parts import words
from tutor.session.commands import Act, Open
from tutor.session.house import Session
from tutor.ui.view import Block, Button, ButtonRow, Text, TextStyle, Tone, View


def failure_blocks(session: Session) -> tuple[Block, ...]:
    """What happened and the ways to continue. A second line of the failure says where to read more."""
    happened, _, more = session.failure.partition("\n")
    ways = [Button(Act.CLOSE, words.CONTINUE, "Esc", primary=True)]
    if session.room is not session.house.first:
        ways.append(Button(Open(session.house.first.name), words.GO_HOME, ""))
    return (
        Text(words.WENT_WRONG, TextStyle.TITLE),
        Text(happened),
        *((Text(more, TextStyle.SMALL, Tone.MUTED),) if more else ()),
        Text(words.NOTHING_LOST),
        ButtonRow(tuple(ways)),
    )


def failure_view(session: Session) -> View:
    """The card alone, for a screen that fails to draw."""
    return View(
        session.screen,
        words.NAME,
        page=((Text(words.SCREEN_FAILED, tone=Tone.MUTED),),),
        overlay=failure_blocks(session),
        look=session.settings.look,
    )
