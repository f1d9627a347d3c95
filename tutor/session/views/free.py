"""The Free play screen."""

from __future__ import annotations

from tutor.cube.position import SLOTS
from tutor.session import play
from tutor.session.commands import Act, ChooseSlot
from tutor.session.solve.commands import SolveAct
from tutor.session.state import Attempt, Session, answer_at
from tutor.session.views.parts import (
    button,
    distance_words,
    hint_blocks,
    hint_label,
    screen_view,
    verdict_blocks,
    writing_blocks,
)
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Rail,
    Screen,
    Stage,
    Text,
    TextStyle,
    Tone,
    View,
)

HERE = Screen.FREE_PLAY


def free_play(session: Session, stage: Stage, rail: Rail | None) -> View:
    """The Free play screen with the stage and rail of the moment."""
    return screen_view(
        session,
        "Free play",
        stage=stage,
        card=_card(session, session.free),
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
    chosen = play.chosen_slot(attempt, session.settings.cross)
    slots = ButtonRow(tuple(_slot_button(slot is chosen, slot.name, ChooseSlot(slot)) for slot in SLOTS))
    answer = answer_at(session, attempt)
    blocks: list[Block] = [Text("Slot", TextStyle.SMALL, Tone.MUTED), slots]
    if answer is None:
        blocks.append(Text("Working it out …", tone=Tone.MUTED))
    else:
        blocks.append(Text(distance_words(session, attempt, answer), TextStyle.HEADING))
    if play.setting_up(attempt):
        said = "These turns set a case up. With the cross and the other pairs home, your turns are judged."
        blocks.append(Text(said))
    if not bearing.cross_down:
        blocks.append(Text("Steps are told with the cross down; turns are judged however you hold it."))
    return tuple(blocks)


def _slot_button(selected: bool, label: str, command: ChooseSlot) -> Button:
    return button(command, label, HERE, selected=selected)


def _buttons(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    history = attempt.history
    answer = answer_at(session, attempt)
    home = answer is not None and answer.distance == 0
    open_case = answer is not None and not home
    blocks: list[Block] = []
    bearing = attempt.bearing()
    if home and bearing is not None and len(bearing.position.home_pairs) < 4:
        blocks.append(button(Act.NEXT, "Next pair", HERE, primary=True))
    blocks += [
        ButtonRow(
            (
                button(Act.HINT, hint_label(attempt), HERE, enabled=open_case and attempt.rung < 3),
                button(Act.SHOW_AGAIN, "Show again", HERE, enabled=attempt.aim is not None),
            )
        ),
        ButtonRow(
            (
                button(Act.UNDO, "Take back", HERE, enabled=history.can_undo),
                button(Act.REDO, "Make again", HERE, enabled=history.can_redo),
            )
        ),
        ButtonRow(
            (
                button(Act.SCRAMBLE, "Scramble, cross made", HERE),
                button(SolveAct.SCRAMBLE_ALL, "Scramble all", HERE),
            )
        ),
        ButtonRow(
            (
                button(Act.RESET, "Solved cube", HERE),
                button(Act.WRITE, "Write moves", HERE),
            )
        ),
        button(SolveAct.FROM_FREE_PLAY, "Which pair first?", HERE, detail="This cube as a whole solve."),
    ]
    return tuple(blocks)
