"""A sequence of turns taken apart on a card: what it does at once, turn by turn on demand."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from msgspec import Struct

from tutor.coach.explanation import MOST_TURNS, ExplainedTurn, Explanation, asked_for, explained
from tutor.coach.explanation_sentences import brief, more
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube, face_turns
from tutor.cube.merging import merged
from tutor.cube.notation import Move
from tutor.method.continuations import Verdict
from tutor.screens.parts import words
from tutor.screens.parts.more import told
from tutor.screens.parts.rail import notation_of
from tutor.session.answers import Key
from tutor.session.house import Session
from tutor.session.state import Attempt
from tutor.session.target import Bearing, colours_as_held
from tutor.ui.view import Block, Text, TextStyle, Tone


class AskedSequence(Struct, frozen=True):
    """Turns to explain, named with the cross down, and the cube and the pair that they begin from."""

    cube: HeldCube
    """Held with the cross down."""
    bearing: Bearing
    turns: tuple[Turn, ...]

    @property
    def keys(self) -> tuple[Key, ...]:
        """The questions to the solver that the explanation needs."""
        return tuple((at, self.bearing.task) for at in asked_for(self.bearing.position, self.turns))


def asked_sequence(attempt: Attempt, index: int, moves: Iterable[Move]) -> AskedSequence | None:
    """Moves made from the cube after so many moves of an attempt, to explain for its pair.

    None where no turn is left of them, there are too many, or the pair is solved before them.
    """
    cube, bearing = attempt.history.cube_at(index), attempt.bearing(index)
    if bearing is None or bearing.task.done(bearing.position):
        return None
    turns = merged(bearing.turn_as_judged(turn) for turn in face_turns(moves)[0])
    if not 0 < len(turns) <= MOST_TURNS:
        return None
    return AskedSequence(cube.rotated(bearing.hold), bearing, turns)


def explained_blocks(session: Session, asked: AskedSequence) -> tuple[Block, ...]:
    """The explanation: its steps and what matters most, and on demand each turn and what else there is."""
    title = Text(words.turns_explained(notation_of(asked.turns)), TextStyle.HEADING)
    found = _explanation(session, asked)
    if found is None:
        return title, Text(words.EXPLAINING, tone=Tone.MUTED)
    steps = [words.step_turns(step.value.capitalize(), notation_of(own)) for step, own in found.way.segments]
    first = (
        title,
        *((Text(words.steps_in_row(steps), TextStyle.SMALL, Tone.MUTED),) if steps else ()),
        Text(" ".join(phrase.text for phrase in brief(found))),
    )
    return told(session, first, (*_turn_blocks(found), *(Text(phrase.text) for phrase in more(found))))


def _explanation(session: Session, asked: AskedSequence) -> Explanation | None:
    """The explanation; None until the solver has answered for every position."""
    answers = {position: session.answers.get(position, task) for position, task in asked.keys}
    known = {position: answer for position, answer in answers.items() if answer is not None}
    if len(known) < len(answers):
        return None
    colours = colours_as_held(asked.cube, session.settings.colour_names)
    bearing = asked.bearing
    return explained(bearing.position, bearing.task, asked.turns, lambda at, _: known[at], colours)


def _turn_blocks(found: Explanation) -> tuple[Block, ...]:
    blocks: list[Block] = []
    for step, turns in groupby(found.each, key=lambda each: each.step):
        name = words.AFTERWARDS if step.value == "done" else step.value.capitalize()
        blocks.append(Text(name, TextStyle.SMALL, Tone.MUTED))
        blocks += [Text(_turn_words(each)) for each in turns]
    return tuple(blocks)


def _turn_words(each: ExplainedTurn) -> str:
    detour = each.verdict is Verdict.DETOUR
    return words.turn_explained(each.turn.notation, each.said.text, detour=detour)
