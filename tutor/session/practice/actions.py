"""Names of what is done in practice, written and read in pairs; ``actions`` joins them to all others."""

from __future__ import annotations

from collections.abc import Callable

from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves, parse_turns
from tutor.method.terms import Family
from tutor.progress.attempt import Mode
from tutor.session.practice.commands import NameTurn, PracticeAct, Practise, SetGoal
from tutor.session.records.commands import ChooseLearner

Named = NameTurn | PracticeAct | Practise | SetGoal | ChooseLearner


def practice_name(command: Named) -> str:
    """The name by which a button gives ``command``."""
    match command:
        case Practise(mode, family):
            return f"practise:{mode.name}:{'' if family is None else family.name}"
        case SetGoal(kind, amount):
            return f"goal:{kind}:{amount}"
        case NameTurn(turn):
            return f"name-turn:{turn.notation}"
        case PracticeAct():
            return f"practice:{command.name}"
        case ChooseLearner(name):
            return f"learner:{name}"


def _practise(rest: str) -> Named:
    mode, _, family = rest.partition(":")
    return Practise(Mode[mode], Family[family] if family else None)


def _goal(rest: str) -> Named:
    kind, _, amount = rest.partition(":")
    return SetGoal(kind, int(amount))


def _turn(rest: str) -> Named:
    turns = parse_turns(rest)
    if len(turns) != 1:
        raise ValueError(f"one turn is named, not “{format_moves(turns)}”")
    return NameTurn(Turn(turns[0]))


READERS: dict[str, Callable[[str], Named]] = {
    "practise": _practise,
    "goal": _goal,
    "name-turn": _turn,
    "practice": lambda rest: PracticeAct[rest],
    "learner": ChooseLearner,
}
"""How what follows the first colon is read, by what stands before it."""
