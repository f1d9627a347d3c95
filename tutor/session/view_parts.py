"""Blocks that several screens share: verdicts, hints, the field for moves, the key sheet."""

from __future__ import annotations

from tutor.coach.feedback import Remark, feedback
from tutor.coach.hints import Hint, hint
from tutor.method.answer import Answer
from tutor.session.actions import action_name
from tutor.session.aim import Bearing, colours_as_held
from tutor.session.commands import Act, Command, Open
from tutor.session.keys import key_sheet, sign_for
from tutor.session.play import turns_made
from tutor.session.state import Attempt, Session, answer_at, judged_turns
from tutor.session.view import (
    Block,
    Button,
    Entry,
    Mark,
    Screen,
    Table,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
)
from tutor.session.view_rail import MARKS, notation_of

WAITING = VerdictNote(Mark.WAITING, "Looking", "One moment: working this one out.")


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
    return Button(action_name(command), label, sign_for(command, screen), primary, enabled, selected, detail)


def top_bar(screen: Screen) -> tuple[Button, ...]:
    """The buttons at the top of every screen."""
    bar = [button(Act.HELP, "Keys", screen), button(Act.THEME, "Light / dark", screen)]
    if screen is not Screen.HOME:
        bar.insert(0, Button(action_name(Open(Screen.HOME)), "Home"))
    return tuple(bar)


def colour_words(session: Session, bearing: Bearing, attempt: Attempt) -> tuple[str, ...]:
    """The colour words of the six faces in the frame of the bearing."""
    return colours_as_held(attempt.cube.rotated(bearing.hold), session.settings.colour_names)


def last_remark(session: Session, attempt: Attempt) -> Remark | None:
    """What the coach says about the last turn, or None without one that can be judged."""
    judged = judged_turns(session, attempt)
    last = judged[-1] if judged else None
    if last is None or last.answer is None or last.index != attempt.history.cursor - 1:
        return None
    previous = judged[-2].turn if len(judged) > 1 and judged[-2].bearing.hold == last.bearing.hold else None
    cube = attempt.history.cube_at(last.index).rotated(last.bearing.hold)
    colours = colours_as_held(cube, session.settings.colour_names)
    return feedback(last.answer, last.turn, colours, previous=previous)


def verdict_blocks(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """The verdict on the last turn, with what the coach says about it."""
    judged = judged_turns(session, attempt)
    if not judged:
        return ()
    last = judged[-1]
    if last.answer is None:
        return (WAITING,)
    if last.answer.distance == 0:
        return ()
    remark = last_remark(session, attempt)
    if remark is None or remark.verdict is None:
        return ()
    return (VerdictNote(MARKS[remark.verdict], f"{last.turn.notation}: {remark.title}", remark.text),)


def hint_now(session: Session, attempt: Attempt) -> Hint | None:
    """The hint for the position on the cube, at the rung asked for."""
    answer, bearing = answer_at(session, attempt), attempt.bearing()
    if not attempt.rung or answer is None or bearing is None or answer.distance == 0:
        return None
    return hint(answer, colour_words(session, bearing, attempt), attempt.rung)


def hint_blocks(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """The hint's words."""
    given = hint_now(session, attempt)
    if given is None:
        return ()
    return (Text(f"Hint {attempt.rung} of 3", TextStyle.SMALL, Tone.MUTED), Text(given.text))


def hint_label(attempt: Attempt) -> str:
    """What the hint button says next."""
    return ("Hint", "More", "Show the turn", "Hint")[min(3, attempt.rung)]


def writing_blocks(session: Session) -> tuple[Block, ...]:
    """The field for typed moves, when it is open."""
    writing = session.writing
    if not writing.open:
        return ()
    return (
        Entry(
            action_name(Act.WRITE),
            "Moves, then Enter",
            writing.text,
            writing.caret,
            focused=True,
            error=writing.error,
            error_column=writing.error_column,
        ),
    )


def distance_words(answer: Answer) -> str:
    """How far it is, in words."""
    if answer.distance == 0:
        return "The pair is home."
    turns = "1 turn" if answer.distance == 1 else f"{answer.distance} turns"
    return f"{answer.step.value.capitalize()} · {turns} to go at best"


def help_blocks(session: Session) -> tuple[Block, ...]:
    """The key sheet, printed from the table that binds the keys."""
    blocks: list[Block] = [Text("Keys", TextStyle.TITLE)]
    for group, rows in key_sheet(session.screen):
        blocks.append(Table((group, ""), rows))
    blocks.append(Button(action_name(Act.HELP), "Close", "F1", primary=True))
    return tuple(blocks)


def failure_blocks(session: Session) -> tuple[Block, ...]:
    """What went wrong inside; the program goes on."""
    return (
        Text("Something went wrong", TextStyle.TITLE),
        Text(session.failure),
        Text("Nothing you did is lost. You can go on."),
        Button(action_name(Act.CLOSE), "Go on", "Esc", primary=True),
    )


def review_blocks(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """After a case: the learner's turns beside the shortest."""
    bearing = attempt.bearing(min(attempt.since, attempt.history.cursor))
    answer = None if bearing is None else session.answers.get(bearing.position, bearing.task)
    if answer is None or not answer.distance:
        return ()
    made = turns_made(attempt)
    best = answer.distance
    said = "As short as can be." if made <= best else f"{made - best} more than the shortest way."
    blocks: list[Block] = [Text(f"Your turns: {made}. {said}", TextStyle.SMALL, Tone.MUTED)]
    if answer.lines:
        blocks.append(Text(f"Shortest: {notation_of(answer.lines[0])}", TextStyle.SMALL, Tone.MUTED))
    return tuple(blocks)
