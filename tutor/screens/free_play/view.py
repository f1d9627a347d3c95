"""The Free play screen."""

from __future__ import annotations

from functools import lru_cache

from tutor.cube.position import SLOTS
from tutor.screens.free_play.commands import FreeAct
from tutor.screens.free_play.state import FREE
from tutor.screens.parts.card import distance_words, hint_blocks, hint_label, verdict_blocks, writing_blocks
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import attempt_rail
from tutor.session import attempts
from tutor.session.commands import Act, ChooseSlot
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.session.state import Attempt
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
    """All that is seen of free play at a moment."""
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
        "Free play",
        stage=stage,
        card=_card(session, FREE.of(session)),
        rail=rail,
    )


def _card(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if session.demonstration is None:
        blocks += [*_aim(session, attempt), *verdict_blocks(session, attempt), *hint_blocks(session, attempt)]
    blocks += writing_blocks(session)
    blocks += _buttons(session, attempt)
    return tuple(blocks)


def _aim(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    bearing = attempt.bearing()
    if bearing is None:
        return (
            Text("The cross first", TextStyle.HEADING),
            Text("Bring the four cross edges home, cross down. Then pick a slot, and steps are counted."),
        )
    chosen = attempts.chosen_slot(attempt, session.settings.cross)
    slots = ButtonRow(tuple(_slot_button(slot is chosen, slot.name, ChooseSlot(slot)) for slot in SLOTS))
    answer = answer_at(session, attempt)
    blocks: list[Block] = [Text("Slot", TextStyle.SMALL, Tone.MUTED), slots]
    if answer is None:
        blocks.append(Text("Working it out …", tone=Tone.MUTED))
    else:
        blocks.append(Text(distance_words(session, attempt, answer), TextStyle.HEADING))
    if attempts.setting_up(attempt):
        said = "These turns set a case up. With the cross and the other pairs home, your turns are judged."
        blocks.append(Text(said))
    if not bearing.cross_down:
        blocks.append(Text("Steps are told with the cross down; turns are judged however you hold it."))
    return tuple(blocks)


def _slot_button(selected: bool, label: str, command: ChooseSlot) -> Button:
    return Button(command, label, selected=selected)


def _buttons(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    history = attempt.history
    answer = answer_at(session, attempt)
    home = answer is not None and answer.distance == 0
    open_case = answer is not None and not home
    blocks: list[Block] = []
    bearing = attempt.bearing()
    if home and bearing is not None and len(bearing.position.home_pairs) < 4:
        blocks.append(Button(Act.NEXT, "Next pair", primary=True))
    blocks += [
        ButtonRow(
            (
                Button(Act.HINT, hint_label(attempt), enabled=open_case and attempt.rung < 3),
                Button(Act.SHOW_AGAIN, "Show again", enabled=attempt.aim is not None),
            )
        ),
        ButtonRow(
            (
                Button(Act.UNDO, "Take back", enabled=history.can_undo),
                Button(Act.REDO, "Make again", enabled=history.can_redo),
            )
        ),
        ButtonRow(
            (
                Button(Act.SCRAMBLE, "Scramble, cross made"),
                Button(FreeAct.SCRAMBLE_ALL, "Scramble all"),
            )
        ),
        ButtonRow(
            (
                Button(FreeAct.RESET, "Solved cube"),
                Button(Act.WRITE, "Write moves"),
            )
        ),
        Button(FreeAct.AS_SOLVE, "Which pair first?", detail="This cube as a whole solve."),
    ]
    return tuple(blocks)
