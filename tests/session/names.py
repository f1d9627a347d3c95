"""Short names for commands, so that tests can say which button they press: written and read in pairs."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from functools import partial

from tutor.coach.guidance import Help
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves, parse_moves, parse_turns
from tutor.cube.position import Slot
from tutor.method.terms import Family
from tutor.progress.attempt import Mode
from tutor.screens.board.commands import BoardAct, ShowOnBoard
from tutor.screens.case_book.commands import BookAct, OpenCase
from tutor.screens.free_play.commands import FreeAct
from tutor.screens.group.commands import Give, GroupAct, SeeLearner, ShowAcross, ShowTask
from tutor.screens.learners.commands import JoinInto, LearnersAct, TakeInHand
from tutor.screens.lesson.commands import Carried, PageTurn, StartLesson
from tutor.screens.looking_ahead.commands import AheadAct
from tutor.screens.painting.commands import Paint, PaintCommand, PaintSticker, TakeColour
from tutor.screens.practice.commands import NameTurn, PracticeAct, Practise, SetGoal, TryCase
from tutor.screens.progress.commands import ProgressAct
from tutor.screens.solve.commands import ChooseCross, DeleteSolve, Reopen, ShowFewest, ShowTurns, SolveAct
from tutor.screens.table import SCREENS
from tutor.session.commands import Act, Choose, ChooseAnswer, ChooseSlot, Command, JumpTo, Make, Open, Scrub
from tutor.session.record_commands import ChooseLearner
from tutor.ui.action import Action
from tutor.ui.focus import pressable
from tutor.ui.view import View

_PREFIXES: dict[type[Enum], str] = {
    Act: "act",
    AheadAct: "ahead",
    BoardAct: "board",
    BookAct: "book",
    FreeAct: "free",
    LearnersAct: "learners",
    GroupAct: "group",
    PageTurn: "page",
    Paint: "painting",
    PracticeAct: "practice",
    ProgressAct: "progress",
    SolveAct: "solve",
}
"""What stands before the names of commands that need nothing more said."""


def painting_action(command: object) -> str | None:
    """The name by which a button gives a command of painting; None for others and those only keys give."""
    match command:
        case PaintSticker(sticker):
            return f"paint:{sticker}"
        case TakeColour(colour):
            return f"colour:{colour}"
        case _:
            return None


def _sticker(rest: str) -> PaintCommand:
    sticker = int(rest)
    if not 0 <= sticker < 54:
        raise ValueError(f"{sticker} is no sticker; they are numbered 0 to 53")
    return PaintSticker(sticker)


def _colour(rest: str) -> PaintCommand:
    colour = int(rest)
    if not -1 <= colour < 6:
        raise ValueError(f"{colour} is no colour; they are numbered 0 to 5, and -1 erases")
    return TakeColour(colour)


_PAINTING_READERS: dict[str, Callable[[str], PaintCommand]] = {
    "paint": _sticker,
    "colour": _colour,
}
"""How what follows the first colon of an action is read."""


Named = NameTurn | Practise | SetGoal | ChooseLearner


def practice_name(command: Named) -> str:
    """The name by which a button gives ``command``."""
    match command:
        case Practise(mode, family):
            return f"practise:{mode.name}:{'' if family is None else family.name}"
        case SetGoal(kind, amount):
            return f"goal:{kind}:{amount}"
        case NameTurn(turn):
            return f"name-turn:{turn.notation}"
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


_PRACTICE_READERS: dict[str, Callable[[str], Named]] = {
    "practise": _practise,
    "goal": _goal,
    "name-turn": _turn,
    "learner": ChooseLearner,
}
"""How what follows the first colon is read, by what stands before it."""


def _member(kind: type[Enum], name: str) -> Command:
    command = kind[name]
    assert isinstance(command, Command)
    return command


def action_name(command: Action | None) -> str:
    """The name by which a button gives ``command``; empty for none.

    Raises ValueError for commands that no button gives.
    """
    if command is None:
        return ""
    if isinstance(command, Enum):
        return f"{_PREFIXES[type(command)]}:{command.name}"
    match command:
        case Open(screen):
            name = screen.upper().replace(" ", "_")
            return f"open:{name}"
        case StartLesson(name, scene, carried):
            mirror = "m" if carried.mirrored else ""
            return f"lesson:{scene}:{carried.quarters}{mirror}:{name}"
        case ChooseSlot(slot):
            return f"slot:{slot.name}"
        case OpenCase(slug, slot, alignment):
            return f"case:{slot.name}:{alignment}:{slug}"
        case TryCase(slug, slot, alignment, help):
            chosen = "" if help is None else help.name
            return f"try:{slot.name}:{alignment}:{chosen}:{slug}"
        case ChooseAnswer(index):
            return f"answer:{index}"
        case Choose(setting, index):
            return f"choose:{setting}:{index}"
        case JumpTo(index):
            return f"jump:{index}"
        case Practise() | SetGoal() | NameTurn() | ChooseLearner():
            return practice_name(command)
        case _:
            return _whole_solve_name(command)


def _group_name(
    command: ShowAcross | SeeLearner | ShowTask | Give | TakeInHand | JoinInto | ShowOnBoard,
) -> str:
    """The names of what is done with a group and its learners."""
    match command:
        case ShowAcross(slug):
            return f"across:{slug}"
        case SeeLearner(name):
            return f"see:{name}"
        case ShowTask(name):
            return f"task:{name}"
        case Give(names, back):
            return f"{'take back' if back else 'give'}:{'/'.join(names)}"
        case TakeInHand(name):
            return f"in-hand:{name}"
        case JoinInto(name):
            return f"join-into:{name}"
        case ShowOnBoard(text):
            return f"show:{text}"


def _whole_solve_name(command: Action) -> str:
    """The names of what is done in whole solves, and of turns."""
    match command:
        case Make(move):
            return f"make:{format_moves((move,))}"
        case ChooseCross(colour):
            return f"cross:{colour.name}"
        case ShowTurns(turns):
            return f"turns:{turns}"
        case ShowFewest(leg):
            return f"fewest:{leg}"
        case Reopen(name):
            return f"reopen:{name}"
        case Scrub(position):
            return f"scrub:{position!r}"
        case DeleteSolve(name, sure):
            return f"{'delete' if sure else 'delete?'}:{name}"
        case _ if (painting := painting_action(command)) is not None:
            return painting
        case ShowAcross() | SeeLearner() | ShowTask() | Give() | TakeInHand() | JoinInto() | ShowOnBoard():
            return _group_name(command)
        case _:
            raise ValueError(f"no button gives {command!r}")


def actions_in(view: View) -> tuple[str, ...]:
    """The names of everything that can be pressed in a view, in the order of Tab."""
    return tuple(action_name(action) for action in pressable(view))


def command_of(action: str) -> Command | None:
    """The command a name stands for, or None when it stands for none."""
    kind, _, rest = action.partition(":")
    read = _READERS.get(kind)
    if read is None:
        return None
    try:
        return read(rest)
    except (KeyError, ValueError):
        return None


def _lesson(rest: str) -> Command:
    scene, how, name = rest.split(":", 2)
    return StartLesson(name, int(scene), Carried(int(how.rstrip("m")), how.endswith("m")))


def _case(rest: str) -> Command:
    slot, alignment, slug = rest.split(":", 2)
    return OpenCase(slug, Slot[slot], int(alignment))


def _try(rest: str) -> Command:
    slot, alignment, chosen, slug = rest.split(":", 3)
    return TryCase(slug, Slot[slot], int(alignment), Help[chosen] if chosen else None)


def _choose(rest: str) -> Command:
    setting, _, place = rest.partition(":")
    return Choose(setting, int(place))


_READERS: dict[str, Callable[[str], Command]] = {
    **{prefix: partial(_member, kind) for kind, prefix in _PREFIXES.items()},
    "open": lambda rest: Open(SCREENS[rest.lower().replace("_", " ")].name),
    "across": ShowAcross,
    "see": SeeLearner,
    "task": ShowTask,
    "give": lambda rest: Give(tuple(rest.split("/"))),
    "take back": lambda rest: Give(tuple(rest.split("/")), back=True),
    "lesson": _lesson,
    "slot": lambda rest: ChooseSlot(Slot[rest]),
    "case": _case,
    "try": _try,
    "answer": lambda rest: ChooseAnswer(int(rest)),
    "choose": _choose,
    "cross": lambda rest: ChooseCross(Face[rest]),
    "fewest": lambda rest: ShowFewest(int(rest)),
    "reopen": Reopen,
    "in-hand": TakeInHand,
    "join-into": JoinInto,
    "delete?": DeleteSolve,
    "delete": lambda rest: DeleteSolve(rest, sure=True),
    "turns": lambda rest: ShowTurns(format_moves(parse_turns(rest))),
    "show": ShowOnBoard,
    "make": lambda rest: Make(parse_moves(rest)[0]),
    "jump": lambda rest: JumpTo(int(rest)),
    "scrub": lambda rest: Scrub(float(rest)),
    **_PAINTING_READERS,
    **_PRACTICE_READERS,
}
"""How what follows the first colon is read, by what stands before it."""
