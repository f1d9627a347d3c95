"""Names of what buttons and tiles do: written and read in pairs, so that a view stays plain data."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tutor.coach.guidance import Help
from tutor.cube.faces import Face
from tutor.cube.notation import format_moves, parse_turns
from tutor.cube.position import Slot
from tutor.session.commands import (
    Act,
    Carried,
    Choose,
    ChooseAnswer,
    ChooseSlot,
    Command,
    JumpTo,
    Open,
    OpenCase,
    Scrub,
    StartLesson,
    TryCase,
)
from tutor.session.painting.commands import PAINTING_READERS, painting_action
from tutor.session.practice.actions import READERS as PRACTICE_READERS
from tutor.session.practice.actions import practice_name
from tutor.session.practice.commands import NameTurn, PracticeAct, Practise, SetGoal
from tutor.session.records.commands import ChooseLearner
from tutor.session.solve.commands import ChooseCross, DeleteSolve, Reopen, ShowFewest, ShowTurns, SolveAct
from tutor.ui.view import Block, Button, ButtonRow, Entry, Group, MiniatureGrid, Palette, Screen, View


def action_name(command: Command) -> str:
    """The name by which a button gives ``command``.

    Raises ValueError for commands that no button gives.
    """
    match command:
        case Act():
            return f"act:{command.name}"
        case Open(screen):
            return f"open:{screen.name}"
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
        case Scrub(position):
            return f"scrub:{position!r}"
        case Practise() | SetGoal() | NameTurn() | PracticeAct() | ChooseLearner():
            return practice_name(command)
        case _:
            return _whole_solve_name(command)


def _whole_solve_name(command: Command) -> str:
    """The names of what is done in whole solves."""
    match command:
        case ChooseCross(colour):
            return f"cross:{colour.name}"
        case ShowTurns(turns):
            return f"turns:{turns}"
        case ShowFewest(leg):
            return f"fewest:{leg}"
        case SolveAct():
            return f"solve:{command.name}"
        case Reopen(name):
            return f"reopen:{name}"
        case DeleteSolve(name, sure):
            return f"{'delete' if sure else 'delete?'}:{name}"
        case _ if (painting := painting_action(command)) is not None:
            return painting
        case _:
            raise ValueError(f"no button gives {command!r}")


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
    "act": lambda rest: Act[rest],
    "open": lambda rest: Open(Screen[rest]),
    "lesson": _lesson,
    "slot": lambda rest: ChooseSlot(Slot[rest]),
    "case": _case,
    "try": _try,
    "answer": lambda rest: ChooseAnswer(int(rest)),
    "choose": _choose,
    "cross": lambda rest: ChooseCross(Face[rest]),
    "fewest": lambda rest: ShowFewest(int(rest)),
    "solve": lambda rest: SolveAct[rest],
    "reopen": Reopen,
    "delete?": DeleteSolve,
    "delete": lambda rest: DeleteSolve(rest, sure=True),
    "turns": lambda rest: ShowTurns(format_moves(parse_turns(rest))),
    "jump": lambda rest: JumpTo(int(rest)),
    "scrub": lambda rest: Scrub(float(rest)),
    **PAINTING_READERS,
    **PRACTICE_READERS,
}
"""How what follows the first colon is read, by what stands before it."""


def buttons_in(blocks: tuple[Block, ...]) -> Iterator[str]:
    """The actions of enabled buttons and fields in blocks, in reading order."""
    for block in blocks:
        match block:
            case Button() if block.enabled:
                yield block.action
            case Entry():
                yield block.action
            case ButtonRow(buttons):
                yield from (button.action for button in buttons if button.enabled)
            case Palette(swatches):
                yield from (swatch.action for swatch in swatches)
            case MiniatureGrid(miniatures):
                yield from (miniature.action for miniature in miniatures if miniature.action)
            case Group(inner):
                yield from buttons_in(inner)
            case _:
                pass


def actions_in(view: View) -> tuple[str, ...]:
    """Everything that can be pressed in a view, in the order in which Tab goes through it."""
    if view.overlay:
        return tuple(dict.fromkeys(buttons_in(view.overlay)))
    found = list(buttons_in(view.card))
    for column in view.page:
        found.extend(buttons_in(column))
    if view.rail is not None:
        tiles = [tile for bay in view.rail.bays for tile in bay.tiles] + list(view.rail.own)
        found.extend(tile.action for tile in tiles if tile.action)
        found.extend(button.action for button in view.rail.controls if button.enabled)
    found.extend(button.action for button in view.bar if button.enabled)
    return tuple(dict.fromkeys(found))


def primary_in(view: View) -> str:
    """The action of the first button that a page proposes; empty when it proposes none."""
    buttons = (block for column in view.page for block in column if isinstance(block, Button))
    return next((button.action for button in buttons if button.primary and button.enabled), "")
