"""The Free play screen."""

from __future__ import annotations

from functools import lru_cache

from tutor.cube.faces import Face
from tutor.cube.position import CROSS_EDGES, SLOTS
from tutor.screens.free_play import update, words
from tutor.screens.free_play.commands import FreeAct
from tutor.screens.free_play.state import FREE
from tutor.screens.parts.card import (
    distance_words,
    hint_blocks,
    hint_label,
    show_label,
    undo_button,
    verdict_blocks,
    why_running,
    writing_blocks,
)
from tutor.screens.parts.explained import explained_blocks
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import attempt_rail
from tutor.screens.parts.turn_buttons import turn_blocks
from tutor.session import attempts
from tutor.session.commands import Act, ChooseSlot
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.session.playback import shown_route
from tutor.session.state import Attempt
from tutor.session.target import cross_hold
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Rail,
    Stage,
    Text,
    TextStyle,
    Tone,
    View,
)


def free_at(session: Session, now: float) -> View:
    """All that you see of free play at a moment."""
    return at_moment(still(session), session, FREE.of(session), now)


@lru_cache(maxsize=4)
def still(session: Session) -> View:
    """What stays as it is until the next command."""
    attempt = FREE.of(session)
    rail = attempt_rail(session, attempt, answer_at(session, attempt))
    return free_play(session, Stage(attempt.cube.colours), rail)


def free_play(session: Session, stage: Stage, rail: Rail | None) -> View:
    """The Free play screen with the stage and rail of the moment."""
    return screen_view(
        session,
        words.NAME,
        stage=stage,
        card=_card(session, FREE.of(session)),
        foot=_foot(session, FREE.of(session)),
        rail=rail,
    )


def _card(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if why_running(session):
        blocks += verdict_blocks(session, attempt)
    elif session.demonstration is None:
        asked = update.to_explain(session)
        blocks += _aim(session, attempt)
        blocks += verdict_blocks(session, attempt) if asked is None else explained_blocks(session, asked)
        blocks += hint_blocks(session, attempt)
        blocks += _slots(session, attempt)
    begins = attempt.history.cursor == 0
    blocks += turn_blocks(session)
    blocks += writing_blocks(session, words.SET_UP_ENTRY) if begins else writing_blocks(session)
    blocks += _buttons(session, attempt)
    return tuple(blocks)


def _aim(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    bearing = attempt.bearing()
    if bearing is None:
        return (
            Text(words.SOLVE_CROSS, TextStyle.HEADING),
            Text(words.cross_edges(_cross_edges_solved(attempt, session.settings.cross))),
        )
    answer = answer_at(session, attempt)
    blocks: list[Block] = []
    if answer is None:
        blocks.append(Text(words.WORKING, tone=Tone.MUTED))
    else:
        blocks.append(Text(distance_words(session, attempt, answer), TextStyle.HEADING))
    if attempts.setting_up(attempt):
        blocks.append(Text(words.SETTING_UP))
    if not bearing.cross_down:
        blocks.append(Text(words.HELD_OTHERWISE))
    return tuple(blocks)


def _slots(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """The slots to choose from, beneath the verdict, which has to be in sight."""
    if attempt.aim is None:
        return ()
    chosen = attempts.chosen_slot(attempt, session.settings.cross)
    slots = tuple(Button(ChooseSlot(slot), slot.name, selected=slot is chosen) for slot in SLOTS)
    return Text(words.SLOT, TextStyle.SMALL, Tone.MUTED), ButtonRow(slots)


def _cross_edges_solved(attempt: Attempt, cross: Face) -> int:
    edges = attempt.cube.rotated(cross_hold(attempt.cube, cross)).position.edges
    return sum(edges[piece] == 2 * piece for piece in CROSS_EDGES)


def _buttons(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    answer = answer_at(session, attempt)
    solved = answer is not None and answer.distance == 0
    blocks: list[Block] = []
    bearing = attempt.bearing()
    if solved and bearing is not None and len(bearing.position.home_pairs) < 4:
        blocks.append(Button(Act.NEXT, words.NEXT_PAIR, primary=True))
    blocks += [
        ButtonRow(
            (
                Button(Act.SCRAMBLE, words.SCRAMBLE),
                Button(FreeAct.SCRAMBLE_ALL, words.SCRAMBLE_ALL),
            )
        ),
        ButtonRow(
            (
                Button(FreeAct.RESET, words.SOLVED_CUBE),
                Button(Act.WRITE, words.WRITE if attempt.history.cursor else words.WRITE_SET_UP),
            )
        ),
        _explain_button(session, attempt),
        Button(FreeAct.AS_SOLVE, words.AS_SOLVE, detail=words.AS_SOLVE_DETAIL),
    ]
    return tuple(blocks)


def _foot(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """Help, and the way back: always in sight."""
    history, answer = attempt.history, answer_at(session, attempt)
    unsolved = answer is not None and answer.distance != 0
    has_way = attempt.aim is not None and (answer is None or shown_route(session, attempt) is not None)
    return (
        ButtonRow(
            (
                Button(Act.HINT, hint_label(attempt), enabled=unsolved and attempt.rung < 3),
                Button(Act.SHOW_AGAIN, show_label(session, attempt), enabled=has_way),
            )
        ),
        ButtonRow(
            (
                undo_button(session, enabled=history.can_undo),
                Button(Act.REDO, words.REDO, enabled=history.can_redo),
            )
        ),
    )


def _explain_button(session: Session, attempt: Attempt) -> Button:
    if update.to_explain(session) is not None:
        return Button(FreeAct.EXPLAIN, words.BACK_TO_VERDICT)
    return Button(FreeAct.EXPLAIN, words.EXPLAIN, enabled=update.turns_made(attempt) is not None)
