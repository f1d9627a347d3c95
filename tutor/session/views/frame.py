"""What every screen has in common: the bar at the top, the line at the foot, and buttons with their keys."""

from __future__ import annotations

from tutor.session.commands import Act, Command, Open
from tutor.session.keys import sign_for
from tutor.session.state import Session
from tutor.session.views.saving import foot, saving_buttons
from tutor.ui.view import Block, Button, Rail, Screen, Stage, View


def screen_view(
    session: Session,
    title: str,
    *,
    page: tuple[tuple[Block, ...], ...] = (),
    stage: Stage | None = None,
    card: tuple[Block, ...] = (),
    rail: Rail | None = None,
) -> View:
    """A view of the session's screen with what every screen has in common."""
    return View(
        session.screen,
        title,
        bar=(*top_bar(session.screen), *saving_buttons(session, stage=stage is not None)),
        page=page,
        stage=stage,
        card=card,
        rail=rail,
        notice=foot(session),
        look=session.settings.look,
    )


def button(
    command: Command,
    label: str,
    screen: Screen,
    *,
    primary: bool = False,
    enabled: bool = True,
    selected: bool = False,
    detail: str = "",
) -> Button:
    """A button that gives ``command``, with its key as a hint."""
    return Button(command, label, sign_for(command, screen), primary, enabled, selected, detail)


def top_bar(screen: Screen) -> tuple[Button, ...]:
    """The buttons at the top of every screen."""
    bar = [
        button(Act.HELP, "Keys", screen),
        button(Act.WORDS, "Words", screen),
        button(Act.THEME, "Light / dark", screen),
    ]
    if screen is not Screen.SETTINGS:
        bar.append(Button(Open(Screen.SETTINGS), "Settings"))
    if screen is not Screen.HOME:
        bar.insert(0, Button(Open(Screen.HOME), "Home"))
    return tuple(bar)
