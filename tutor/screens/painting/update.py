"""What the commands of painting do to a session."""

from __future__ import annotations

from typing import assert_never

from msgspec.structs import replace

from tutor.cube.legality import BLANK
from tutor.cube.notation import NotationError
from tutor.cube.position import SOLVED
from tutor.cube.repairs import Finding, corrected, examine
from tutor.screens.painting import words
from tutor.screens.painting.commands import (
    KeepPainting,
    LookForPainting,
    MoveCursor,
    Paint,
    PaintingFound,
    PaintNamed,
    PaintNumbered,
    PaintSticker,
    TakeColour,
)
from tutor.screens.painting.findings import Advice, advice
from tutor.screens.painting.state import PAINTING, Painting
from tutor.screens.painting.text import painting_text, read_painting
from tutor.screens.solve.commands import SolveFrom
from tutor.session import attempts
from tutor.session.commands import Copy
from tutor.session.cube_text import read_cube
from tutor.session.effect import Effect
from tutor.session.house import Session, Update
from tutor.session.settings import Settings
from tutor.session.state import Writing
from tutor.session.update import done


def fresh(settings: Settings) -> Painting:
    """A cube with the centres alone painted, the chosen cross colour down."""
    solved = Painting(attempts.held_by_choice(SOLVED, settings).colours)
    return Painting(solved.blank, brush=int(settings.cross))


def painting_of(session: Session) -> Painting:
    """The painting in hand; a fresh cube when there is none yet."""
    painting = PAINTING.of(session)
    return fresh(session.settings) if painting is None else painting


def with_text(session: Session, text: str) -> Session:
    """The session with a painting from another time; a text that is no painting changes nothing."""
    try:
        return PAINTING.put(session, Painting(read_painting(text, session.settings.look)))
    except ValueError:
        return session


def found(session: Session, command: PaintingFound) -> Session:
    """The session with what was painted another time; not over what is painted by now."""
    if command.learner != session.records.learner or PAINTING.of(session) is not None or not command.text:
        return session
    return with_text(session, command.text)


def finding_of(session: Session) -> Finding:
    """What is wrong with the painted cube."""
    return examine(painting_of(session).colours, session.settings.colour_names)


def advice_of(session: Session) -> Advice | None:
    """What would put it right."""
    return advice(finding_of(session), painting_of(session).cursor, session.settings.colour_names)


def kept(before: Session, after: Session) -> tuple[Effect, ...]:
    """The effect that saves the painting, when a command has changed it; for another learner reads theirs."""
    now, then = PAINTING.of(after), PAINTING.of(before)
    learner = after.records.learner
    if now is None and learner != before.records.learner:
        return (LookForPainting(learner),)
    if now is None or now is then or (then is not None and then.colours == now.colours):
        return ()
    return (KeepPainting(painting_text(now.colours, after.settings.look), learner),)


def _changed(session: Session, painting: Painting) -> Session:
    return PAINTING.put(replace(session, notice=""), painting)


def on_sticker(session: Session, sticker: int) -> Session:
    """The session with a sticker painted in the colour in hand."""
    painting = painting_of(session)
    after = painting.with_sticker(sticker, painting.brush)
    fixed = after.colours[sticker] != painting.brush
    return PAINTING.put(replace(session, notice=words.FIXED if fixed else ""), after)


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


def _mended(session: Session) -> Session:
    given = advice_of(session)
    if given is None or given.correction is None:
        return session
    painting = painting_of(session)
    return _changed(session, painting.with_colours(corrected(painting.colours, given.correction)))


def _copied(session: Session) -> Update:
    text = painting_text(painting_of(session).colours, session.settings.look)
    return replace(session, notice=words.COPIED), (Copy(text),)


def submitted(session: Session) -> Session:
    """Take over what was written; where it has a mistake, the text stays and nothing changes."""
    try:
        colours = read_painting(session.writing.text, session.settings.look)
    except ValueError as error:
        column = error.column - 1 if isinstance(error, NotationError) else None
        return replace(session, writing=replace(session.writing, error=str(error), error_column=column))
    return replace(_changed(session, painting_of(session).with_colours(colours)), writing=Writing())


def act(session: Session, what: Paint, now: float) -> Update:
    """Carry out a command of painting that carries no values."""
    painting = painting_of(session)
    match what:
        case Paint.HERE:
            return _painted_on(session, painting.brush), ()
        case Paint.ERASE:
            return _erased(session, 0), ()
        case Paint.ERASE_BEFORE:
            return _erased(session, -1), ()
        case Paint.UNDO:
            return _changed(session, painting.undone()), ()
        case Paint.REDO:
            return _changed(session, painting.redone()), ()
        case Paint.CLEAR:
            return _changed(session, painting.with_colours(painting.blank)), ()
        case Paint.FILL:
            return _changed(session, painting.with_colours(painting.solved)), ()
        case Paint.MEND:
            return _mended(session), ()
        case Paint.COPY:
            return _copied(session)
        case Paint.SOLVE if finding_of(session).legal:
            return done(session, SolveFrom(read_cube(painting.colours)), now)
        case Paint.SOLVE:
            return session, ()
        case _:
            assert_never(what)


def painted(
    session: Session, command: PaintSticker | TakeColour | PaintNamed | PaintNumbered | MoveCursor
) -> Session:
    """Carry out one of the other commands of painting."""
    painting = painting_of(session)
    match command:
        case PaintSticker(sticker):
            return on_sticker(session, sticker)
        case TakeColour(colour):
            return _changed(session, replace(painting, brush=colour))
        case PaintNamed():
            return _named(session, command)
        case PaintNumbered(place):
            return _painted_on(session, place)
        case MoveCursor(heading):
            return _changed(session, painting.moved(heading))
        case _:
            assert_never(command)
