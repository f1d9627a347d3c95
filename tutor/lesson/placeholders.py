"""Placeholders: words in a script's texts that the program fills in from the position at hand.

``{name}`` or ``{name:argument}``; a doubled brace stands for itself. So that one text is true in every slot,
mirrored, and with any cross colour, words for pieces, places, sides and turns are written as placeholders.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cached_property

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.coach.scene import Piece
from tutor.coach.sight import SpokenPosition
from tutor.counting import counted
from tutor.cube.faces import Face
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import NotationError, format_moves, parse_moves
from tutor.cube.position import Slot
from tutor.cube.symmetry import Symmetry
from tutor.lesson.script import MOST_SHOWN
from tutor.lesson.variation import carried_move
from tutor.lesson.words import faults_of_scenes as words
from tutor.lesson.words import format_keys as meanings
from tutor.method.answer import Answer
from tutor.quoting import ToldError
from tutor.solver.task import Task, carried_slot


class PlaceholderError(ToldError):
    """A placeholder that cannot be filled in; ``placeholder`` as written, ``advice`` what would be right."""

    def __init__(self, placeholder: str, message: str, advice: str) -> None:
        self.placeholder, self.message, self.advice = placeholder, message, advice
        super().__init__(f"{placeholder} {message} {advice}")


class Facts(Struct, frozen=True, dict=True):
    """What a text is about: the cube at hand, the task, and how the script is carried."""

    cube: HeldCube
    task: Task | None
    symmetry: Symmetry
    colour_names: tuple[str, ...]
    """Words of the six colours by colour number."""
    answer: Callable[[], Answer] | None = None
    """The solver's answer for cube and task, worked out when it is wanted."""

    @cached_property
    def colours(self) -> tuple[str, ...]:
        """Words of the colours of the faces U D L R F B as held."""
        return tuple(self.colour_names[self.cube.colour_of(face)] for face in Face)

    @cached_property
    def sight(self) -> SpokenPosition | None:
        """The pair in words; None without a task."""
        return None if self.task is None else SpokenPosition(self.cube.position, self.task, self.colours)


_FOUND = re.compile(r"\{\{|\}\}|\{(?P<name>[^{}:]*)(?::(?P<argument>[^{}]*))?\}|[{}]")

_PAIR: dict[str, tuple[str, Callable[[SpokenPosition], str]]] = {
    "corner.colours": (meanings.CORNER_COLOURS, lambda sight: sight.corner_name),
    "corner.place": (meanings.CORNER_PLACE, lambda sight: sight.place(Piece.CORNER).text),
    "corner.points": (meanings.CORNER_POINTS, lambda sight: sight.cross_points().text),
    "edge.colours": (meanings.EDGE_COLOURS, lambda sight: sight.edge_name),
    "edge.place": (meanings.EDGE_PLACE, lambda sight: sight.place(Piece.EDGE).text),
    "edge.up": (meanings.EDGE_UP, lambda sight: _edge_up(sight)),
    "slot": (meanings.SLOT_OF_PAIR, lambda sight: sight.slot().text),
}

_CUBE: dict[str, tuple[str, Callable[[Facts], str]]] = {
    "cross": (meanings.CROSS, lambda facts: facts.colours[Face.D]),
    "top": (meanings.TOP_CENTRE, lambda facts: facts.colours[Face.U]),
}

_ANSWER: dict[str, tuple[str, Callable[[Answer], str]]] = {
    "step": (meanings.STEP, lambda answer: ENGLISH.say(f"step.{answer.step.value}")),
    "turns.left": (
        meanings.TURNS_LEFT,
        lambda answer: counted(answer.to_go, "turn"),
    ),
    "case": (meanings.CASE_NAME, lambda answer: _case(answer)),
}

_CARRIED: dict[str, tuple[str, Callable[[str, Facts], str]]] = {
    "turn": (
        meanings.TURN,
        lambda argument, facts: _turn(argument, facts),
    ),
    "side": (
        meanings.SIDE,
        lambda argument, facts: _side(argument, facts),
    ),
    "colour": (
        meanings.COLOUR,
        lambda argument, facts: _colour(argument, facts),
    ),
    "place": (
        meanings.PLACE,
        lambda argument, facts: _place(argument, facts),
    ),
    "slot": (meanings.SLOT_BY_NAME, lambda argument, facts: _slot(argument, facts)),
}


def placeholder_meanings() -> dict[str, str]:
    """What each placeholder stands for, by how it is written; for the page that describes the format."""
    plain = {**_PAIR, **_CUBE, **_ANSWER}
    told = {f"{{{name}}}": meaning for name, (meaning, _) in plain.items()}
    return told | {f"{{{name}:…}}": meaning for name, (meaning, _) in _CARRIED.items()}


def fill(text: str, facts: Facts) -> str:
    """The text with its placeholders filled in, capitals where sentences start.

    Raises PlaceholderError for one that is unknown or has no value here.
    """

    def replaced(found: re.Match[str]) -> str:
        whole = found[0]
        if whole in ("{{", "}}"):
            return whole[0]
        if found["name"] is None:
            raise PlaceholderError(whole, *words.STRAY_BRACE)
        return _value(whole, found["name"].strip(), found["argument"], facts)

    return capitalised(_FOUND.sub(replaced, text))


def _value(whole: str, name: str, argument: str | None, facts: Facts) -> str:
    if argument is not None:
        if name not in _CARRIED:
            raise PlaceholderError(whole, *words.unknown_placeholder(list(_CARRIED), with_argument=True))
        return _CARRIED[name][1](argument.strip(), facts)
    if name in _CUBE:
        return _CUBE[name][1](facts)
    if name not in _PAIR and name not in _ANSWER:
        known = list({**_PAIR, **_CUBE, **_ANSWER})
        raise PlaceholderError(whole, *words.unknown_placeholder(known, with_argument=False))
    if facts.sight is None:
        raise PlaceholderError(whole, *words.NO_VALUE_WITHOUT_PAIR)
    if name in _PAIR:
        return _PAIR[name][1](facts.sight)
    if facts.answer is None:
        raise PlaceholderError(whole, *words.NO_VALUE_HERE)
    return _ANSWER[name][1](facts.answer())


def _edge_up(sight: SpokenPosition) -> str:
    if not sight.edge_colour_up().text:
        raise PlaceholderError("{edge.up}", *words.NO_EDGE_ON_TOP)
    return sight.edge_colour_up().text


def _case(answer: Answer) -> str:
    if answer.case is None:
        raise PlaceholderError("{case}", *words.NO_CASE)
    return answer.case.name


def _turn(argument: str, facts: Facts) -> str:
    try:
        moves = parse_moves(argument)
    except NotationError as error:
        raise PlaceholderError(f"{{turn:{argument}}}", *words.not_notation(error.advice)) from None
    if len(moves) > MOST_SHOWN:
        raise PlaceholderError(f"{{turn:{argument}}}", *words.many_moves(len(moves)))
    return format_moves(carried_move(move, facts.symmetry) for move in moves)


def _face(argument: str, name: str, facts: Facts) -> Face:
    if argument not in Face.__members__:
        raise PlaceholderError(f"{{{name}:{argument}}}", *words.NO_FACE)
    return facts.symmetry.faces[Face[argument]]


def _side(argument: str, facts: Facts) -> str:
    return ENGLISH.say(f"layer.{_face(argument, 'side', facts).name}")


def _colour(argument: str, facts: Facts) -> str:
    return facts.colours[_face(argument, "colour", facts)]


def _slot(argument: str, facts: Facts) -> str:
    if argument not in Slot.__members__:
        raise PlaceholderError(f"{{slot:{argument}}}", *words.NO_SLOT)
    return ENGLISH.say(f"slot.{carried_slot(Slot[argument], facts.symmetry).name}")


def _place(argument: str, facts: Facts) -> str:
    letters = frozenset(argument)
    known = [set(faces) for faces in (*CORNER_FACES[:4], *EDGE_FACES[:4])]
    faces = {Face[letter] for letter in letters if letter in Face.__members__}
    if faces not in known or len(letters) != len(argument):
        raise PlaceholderError(f"{{place:{argument}}}", *words.NO_PLACE)
    carried = {facts.symmetry.faces[face] for face in faces}
    sides = "".join(face.name for face in (Face.F, Face.B, Face.L, Face.R) if face in carried)
    kind = "corner" if len(sides) == 2 else "edge"
    return ENGLISH.say("place.top", spot=ENGLISH.say(f"spot.{kind}.{sides}"))
