"""What is shown when something went wrong inside: a card over the screen, or alone when there is none."""

from __future__ import annotations

from tutor.session.commands import Act, Open
from tutor.session.house import Session
from tutor.ui.view import Block, Button, ButtonRow, Text, TextStyle, Tone, View


def failure_blocks(session: Session) -> tuple[Block, ...]:
    """What happened, that one can go on, and the ways to do so. A line below the first says where more is."""
    happened, _, more = session.failure.partition("\n")
    ways = [Button(Act.CLOSE, "Go on", "Esc", primary=True)]
    if session.room is not session.house.first:
        ways.append(Button(Open(session.house.first.name), "Go home", ""))
    return (
        Text("Something went wrong", TextStyle.TITLE),
        Text(happened),
        *((Text(more, TextStyle.SMALL, Tone.MUTED),) if more else ()),
        Text("Nothing you did is lost. If it happens again, go back to the Home screen."),
        ButtonRow(tuple(ways)),
    )


def failure_view(session: Session) -> View:
    """The card alone, for a screen that cannot be shown itself."""
    return View(
        session.screen,
        "Pairwright",
        page=((Text("This screen cannot be shown.", tone=Tone.MUTED),),),
        overlay=failure_blocks(session),
        look=session.settings.look,
    )
