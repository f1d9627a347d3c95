"""Painting a cube: what its commands do to a session, and how a solve of the painted cube begins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from tutor.cube.held_cube import HeldCube
from tutor.cube.legality import BLANK
from tutor.cube.notation import NotationError
from tutor.cube.position import SOLVED
from tutor.cube.repairs import Finding, corrected, examine
from tutor.session import play, screens
from tutor.session.commands import Effect, PointAt
from tutor.session.painting.commands import (
    KeepPainting,
    MoveCursor,
    Paint,
    PaintNamed,
    PaintNumbered,
    PaintSticker,
    TakeColour,
)
from tutor.session.painting.state import Colours, Painting
from tutor.session.painting.text import painting_text, read_painting
from tutor.session.painting.words import Advice, advice
from tutor.session.settings import Settings
from tutor.session.solve import solving
from tutor.session.solve.commands import Copy
from tutor.session.solve.text import read_cube
from tutor.session.state import Session, Writing
from tutor.ui.view import Screen

Update = tuple[Session, tuple[Effect, ...]]
COPIED = "Copied: paste it anywhere as plain text."
FIXED = "The middles are fixed: they say which colour belongs to which face."


def fresh(settings: Settings) -> Painting:
    """Nothing painted but the centres, held with the chosen cross colour down."""
    solved = Painting(play.held_by_choice(SOLVED, settings).colours)
    return Painting(solved.blank, brush=int(settings.cross))


def painting_of(session: Session) -> Painting:
    """What is painted; a fresh cube when nothing has been yet."""
    return fresh(session.settings) if session.painting is None else session.painting


def with_text(session: Session, text: str) -> Session:
    """The session with what was painted another time, as it was kept; a text that is none changes nothing."""
    try:
        return replace(session, painting=Painting(read_painting(text, session.settings.look)))
    except ValueError:
        return session


def finding_of(session: Session) -> Finding:
    """What is wrong with the cube painted."""
    return examine(painting_of(session).colours, session.settings.colour_names)


def advice_of(session: Session) -> Advice | None:
    """What would make it right."""
    return advice(finding_of(session), painting_of(session).cursor, session.settings.colour_names)


def kept(before: Session, after: Session) -> tuple[Effect, ...]:
    """After a command: what was painted is kept for the next time."""
    if after.painting is None or after.painting is before.painting:
        return ()
    if before.painting is not None and before.painting.colours == after.painting.colours:
        return ()
    return (KeepPainting(painting_text(after.painting.colours, after.settings.look)),)


def _changed(session: Session, painting: Painting) -> Session:
    return replace(session, painting=painting, notice="")


def _sticker(session: Session, sticker: int) -> Session:
    painting = painting_of(session)
    after = painting.with_sticker(sticker, painting.brush)
    fixed = after.colours[sticker] != painting.brush
    return replace(session, painting=after, notice=FIXED if fixed else "")


def pointed(session: Session, command: PointAt) -> Session:
    """A sticker of the cube on the stage was clicked."""
    return _sticker(session, command.sticker)


def _painted_on(session: Session, colour: int) -> Session:
    """The sticker under the cursor painted, and the cursor on the next one."""
    painting = replace(painting_of(session), brush=colour)
    return _changed(session, painting.with_sticker(painting.cursor, colour).stepped(1))


def _named(session: Session, command: PaintNamed) -> Session:
    names = session.settings.colour_names
    return _painted_on(session, names.index(command.name)) if command.name in names else session


def _erased(session: Session, step: int) -> Session:
    """The sticker under the cursor erased, or the one before it."""
    painting = painting_of(session)
    there = painting.stepped(step) if step else painting
    return _changed(session, there.with_sticker(there.cursor, BLANK))


def _to(colours: Callable[[Painting], Colours]) -> Callable[[Session, float], Session]:
    def change(session: Session, _now: float) -> Session:
        painting = painting_of(session)
        return _changed(session, painting.with_colours(colours(painting)))

    return change


def _mended(session: Session, _now: float) -> Session:
    given = advice_of(session)
    if given is None or given.correction is None:
        return session
    painting = painting_of(session)
    return _changed(session, painting.with_colours(corrected(painting.colours, given.correction)))


def _copied(session: Session, _now: float) -> Update:
    text = painting_text(painting_of(session).colours, session.settings.look)
    return replace(session, notice=COPIED), (Copy(text),)


def solve_begun(session: Session, now: float) -> Session:
    """A whole solve of the painted cube, once turns can reach it; what was painted stays."""
    if not finding_of(session).legal:
        return session
    cube: HeldCube = read_cube(painting_of(session).colours)
    return solving.begun(screens.opened(session, Screen.SOLVE, now), cube, "", now)


def submitted(session: Session) -> Session:
    """Take over what was written; with a mistake in it the text stays and nothing is changed."""
    try:
        colours = read_painting(session.writing.text, session.settings.look)
    except ValueError as error:
        column = error.column - 1 if isinstance(error, NotationError) else None
        return replace(session, writing=replace(session.writing, error=str(error), error_column=column))
    return replace(_changed(session, painting_of(session).with_colours(colours)), writing=Writing(), focus="")


_ACTS: dict[Paint, Callable[[Session, float], Session | Update]] = {
    Paint.HERE: lambda session, _now: _painted_on(session, painting_of(session).brush),
    Paint.ERASE: lambda session, _now: _erased(session, 0),
    Paint.ERASE_BEFORE: lambda session, _now: _erased(session, -1),
    Paint.UNDO: lambda session, _now: _changed(session, painting_of(session).undone()),
    Paint.REDO: lambda session, _now: _changed(session, painting_of(session).redone()),
    Paint.CLEAR: _to(lambda painting: painting.blank),
    Paint.FILL: _to(lambda painting: painting.solved),
    Paint.MEND: _mended,
    Paint.COPY: _copied,
    Paint.SOLVE: solve_begun,
}

Handler = Callable[[Session, Any, float], Session | Update]


def _here(handler: Handler) -> Handler:
    """A command of painting means something on its own screen alone."""

    def handle(session: Session, command: Any, now: float) -> Session | Update:
        return handler(session, command, now) if session.screen is Screen.PAINTING else session

    return handle


PAINTING_HANDLERS: dict[type, Handler] = {
    PaintSticker: _here(lambda session, command, _now: _sticker(session, command.sticker)),
    TakeColour: _here(
        lambda session, command, _now: _changed(session, replace(painting_of(session), brush=command.colour))
    ),
    PaintNamed: _here(lambda session, command, _now: _named(session, command)),
    PaintNumbered: _here(lambda session, command, _now: _painted_on(session, command.place)),
    MoveCursor: _here(
        lambda session, command, _now: _changed(session, painting_of(session).moved(command.heading))
    ),
    Paint: _here(lambda session, command, now: _ACTS[command](session, now)),
}
"""What each kind of command of painting does."""
