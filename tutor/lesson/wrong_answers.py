"""Why a wrong answer is wrong here, and where to look, worked out from the position."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.catalogue import ENGLISH
from tutor.coach.scene import Piece
from tutor.coach.sight import SpokenPosition
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import (
    CORNER_CUBIES,
    CORNER_FACES,
    EDGE_CUBIES,
    EDGE_FACES,
    NORMALS,
    cubie_number,
)
from tutor.cube.position import SLOTS, Slot
from tutor.lesson.scenes import Sought
from tutor.lesson.words import replies
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.pairs import match, pair_locations, touch
from tutor.method.steps import Step, ready
from tutor.solver.task import Task

# ---------------------------------------------------------------------------------------------- places


def place_reply(sought: Sought, cubie: int, seen: SpokenPosition) -> str:
    """After another cubie was taken for the corner, the edge or the slot."""
    if sought is Sought.SLOT:
        return _slot_place_reply(cubie, seen)
    found, kind = _piece_at(cubie, seen)
    if sought is Sought.CORNER:
        return replies.other_corner(found, kind, seen.corner_name.split("-"))
    return replies.other_edge(found, kind, seen.edge_name.split("-"))


def _slot_place_reply(cubie: int, seen: SpokenPosition) -> str:
    wanted = seen.edge_name.split("-")
    for slot in SLOTS:
        if cubie in (CORNER_CUBIES[slot.corner], EDGE_CUBIES[slot.edge]):
            own = _of_slot(seen, slot).edge_name.split("-")
            return replies.other_slot(ENGLISH.say(f"slot.{slot.name}"), own, wanted)
    return replies.no_slot(wanted)


def _piece_at(cubie: int, seen: SpokenPosition) -> tuple[str, str]:
    """The piece at a cubie's place by its colours, and what kind of piece it is."""
    position = seen.position
    if cubie in CORNER_CUBIES:
        place = CORNER_CUBIES.index(cubie)
        corner = next(number for number, at in enumerate(position.corners) if at // 3 == place)
        return _corner_named(corner, seen), "corner"
    if cubie in EDGE_CUBIES:
        place = EDGE_CUBIES.index(cubie)
        edge = next(number for number, at in enumerate(position.edges) if at // 2 == place)
        return _edge_named(edge, seen), "edge"
    face = next(face for face in Face if cubie_number(NORMALS[face]) == cubie)
    return seen.colours[face], "centre"


def _corner_named(corner: int, seen: SpokenPosition) -> str:
    """A corner by its colours: one that belongs in a slot is called as it is everywhere."""
    for slot in SLOTS:
        if slot.corner == corner:
            return _of_slot(seen, slot).corner_name
    return "-".join(seen.colours[face] for face in CORNER_FACES[corner])


def _edge_named(edge: int, seen: SpokenPosition) -> str:
    for slot in SLOTS:
        if slot.edge == edge:
            return _of_slot(seen, slot).edge_name
    return "-".join(seen.colours[face] for face in EDGE_FACES[edge])


def _of_slot(seen: SpokenPosition, slot: Slot) -> SpokenPosition:
    return replace(seen, task=Task(slot, frozenset()))


def joint_reply(claimed: str, seen: SpokenPosition) -> str:
    """After the two were taken for ``apart``, ``touching`` or ``joined``."""
    where = pair_locations(seen.position, seen.task.slot)
    corner, edge = seen.place(Piece.CORNER).text, seen.place(Piece.EDGE).text
    if not touch(*where):
        return (replies.not_touching if claimed == "touching" else replies.not_joined)(corner, edge)
    if claimed == "apart":
        return replies.lie_together(corner, edge)
    if match(seen.task.slot, *where):
        return replies.more_than_touching()
    return _colours_differ(seen)


def _colours_differ(seen: SpokenPosition) -> str:
    """The first side on which two that touch show different colours."""
    corner, edge = (
        {seen.face_of_colour(piece, colour): colour for colour in _own(piece, seen)} for piece in Piece
    )
    side = next(face for face, colour in edge.items() if corner.get(face) is not colour)
    return replies.colours_differ(
        ENGLISH.say(f"layer.{side.name}"), seen.colours[corner[side]], seen.colours[edge[side]]
    )


def _own(piece: Piece, seen: SpokenPosition) -> tuple[Face, ...]:
    return CORNER_FACES[seen.task.slot.corner] if piece is Piece.CORNER else EDGE_FACES[seen.task.slot.edge]


# ----------------------------------------------------------------------------------------------- steps


def step_reply(claimed: Step, seen: SpokenPosition) -> str:
    """After another step was taken for the one under way."""
    position, task = seen.position, seen.task
    low = [piece.value for piece in Piece if not seen.in_layer(piece, Face.U)]
    matching = match(task.slot, *pair_locations(position, task.slot))
    if claimed is Step.RAISE and not low and task.settled(position):
        return replies.RAISED_ALREADY
    if not task.settled(position) or claimed is Step.RAISE:
        return replies.in_the_midst(claimed.value.capitalize())
    if low:
        return replies.not_on_top(claimed.value.capitalize(), low)
    if matching:
        return replies.MATCH_ALREADY
    if claimed is Step.INSERT:
        return replies.NOT_MATCHING
    if ready(position, task):
        return replies.READY_ALREADY
    return replies.not_ready(touch(*pair_locations(position, task.slot)))


# ----------------------------------------------------------------------------------------------- turns


def count_reply(claimed: int, answer: Answer) -> str:
    """After another number was taken for the fewest turns."""
    route = answer.routes[0] if answer.routes else None
    shortcut = route is not None and len(route.turns) > answer.to_go
    steps = () if route is None or shortcut else tuple(dict.fromkeys(route.steps))
    names = [step.value.capitalize() for step in steps]
    if claimed < answer.to_go:
        return replies.too_few(claimed, names)
    return replies.too_many_with_a_shortcut(claimed) if shortcut else replies.too_many(claimed, names)


def slot_reply(slot: Slot, answer: Answer) -> str:
    """After the pair of another slot was taken for the nearest; ``answer`` is about that pair."""
    name = ENGLISH.say(f"slot.{slot.name}")
    if answer.position.pair_home(slot):
        return replies.solved_already(name)
    return replies.farther(name, answer.to_go)


def turn_reply(turn: Turn, seen: SpokenPosition, answer: Answer) -> str:
    """After a Detour was taken for a good turn."""
    told = (_effect(turn, seen, answer), _cost(turn, answer), _turn_to_look_for(turn, seen, answer))
    return " ".join(sentence for sentence in told if sentence)


def _effect(turn: Turn, seen: SpokenPosition, answer: Answer) -> str:
    """What a turn does: to the pair, or, of a layer that the pair does not need, to what was in place."""
    after = replace(seen, position=seen.position.turned(turn))
    lost = seen.in_place - after.in_place
    if lost and turn.face not in answer.task.working_faces:
        return replies.takes_out(turn.notation, lost.words)
    corner, edge = (seen.faces(piece) != after.faces(piece) for piece in Piece)
    return replies.moves(turn.notation, corner, edge)


def _cost(turn: Turn, answer: Answer) -> str:
    """How many turns the pair needs afterwards, counted as now; nothing where it cannot be counted so."""
    after = answer.continuation(turn)
    if answer.by_hand is None:
        return replies.needs_after(answer.distance, after.after)
    return "" if after.by_hand is None else replies.needs_after(answer.by_hand, after.by_hand)


def _turn_to_look_for(turn: Turn, seen: SpokenPosition, answer: Answer) -> str:
    task = seen.task
    best = {each.turn.face for each in answer.continuations if each.verdict is Verdict.OPTIMAL}
    taught = best if answer.by_hand is None else best & task.working_faces
    if turn.face in taught:
        return replies.OTHER_WAY
    if answer.by_hand is not None and turn.face not in task.working_faces:
        return replies.NEAR_LAYERS if len(task.keep) == len(SLOTS) - 1 else replies.NEAR_LAYERS_OF_SEVERAL
    return replies.aim(answer.step.value)
