"""What is said in whole solves: verdicts and hints for the cross, costs of pairs, plans, shortcuts."""

from __future__ import annotations

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.coach.hints import Hint, Rung
from tutor.coach.phrase import Phrase, finished, tell
from tutor.coach.scene import Moment, Piece
from tutor.coach.sight import SpokenPosition, place_cubie
from tutor.counting import counted, number
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import EDGE_FACES
from tutor.cube.position import CROSS_EDGES, SLOTS, Position, Slot
from tutor.method.advice import PROOF_SECONDS, CrossReading, PairsReading, PlanReading, Proof
from tutor.method.continuations import Verdict
from tutor.method.pairs import both_on_top, pair_locations
from tutor.method.plan import PairCost, Trait
from tutor.method.savings import SavedTurns, SavingKind
from tutor.solver.task import Task

CHEAP = frozenset({Trait.MADE, Trait.BOTH_ON_TOP})
DEAR = frozenset({Trait.TOUCHING, Trait.OWN_SLOT, Trait.ONE_SLOT, Trait.TWO_SLOTS, Trait.BEHIND})


class CrossRemark(Struct, frozen=True):
    """What is said about a turn made for the cross."""

    verdict: Verdict
    title: str
    text: str


def cross_remark(
    before: Position, reading: CrossReading, turn: Turn, colours: tuple[str, ...]
) -> CrossRemark | None:
    """The remark on a turn made at ``before``, cross down; None when the cross was solved already.

    ``colours`` are the colour words of the faces U D L R F B as held.
    """
    if reading.distance == 0:
        return None
    verdict, after = reading.verdict(turn), reading.after[turn]
    title = ENGLISH.say(f"title.{verdict.value}")
    if after == 0:
        return CrossRemark(verdict, title, ENGLISH.say("cross.solved"))
    came, went = _changes(before, before.turned(turn))
    told = [*_told("came", came, colours), *_told("went", went, colours)]
    lost = after + 1 - reading.distance
    if verdict is Verdict.OPTIMAL:
        told += _nearer(after, came, went)
    elif verdict is Verdict.ACCEPTABLE:
        told.append(ENGLISH.say("cross.acceptable", longer=counted(lost, "turn")))
    else:
        told += _farther(lost, came, went)
    return CrossRemark(verdict, title, capitalised(" ".join(told)))


def _nearer(left: int, came: list[int], went: list[int]) -> list[str]:
    """Why a turn is optimal, where no edge shows it, and what the cross still needs."""
    nearer = ENGLISH.say("cross.nearer", to_go=counted(left, "more turn"))
    if went:
        return [ENGLISH.say("cross.begins_but"), nearer]
    return [nearer] if came else [ENGLISH.say("cross.begins"), nearer]


def _farther(lost: int, came: list[int], went: list[int]) -> list[str]:
    """What a detour costs, and why it does not help where no edge shows it."""
    if came and not went:
        return [ENGLISH.say("cross.shorter_but", turns=counted(lost, "turn"))]
    price = ENGLISH.say("cross.detour", extra=counted(lost, "extra turn"))
    return [price] if went else [ENGLISH.say("cross.idle"), price]


def _changes(before: Position, after: Position) -> tuple[list[int], list[int]]:
    """The edges of the cross that came in place, and those that went out of it."""
    was, now = _edges_home(before), _edges_home(after)
    return sorted(now - was), sorted(was - now)


def _told(kind: str, edges: list[int], colours: tuple[str, ...]) -> list[str]:
    """The sentence about edges that came or went; none without edges."""
    if not edges:
        return []
    key = f"cross.{kind}_one" if len(edges) == 1 else f"cross.{kind}_many"
    return [ENGLISH.say(key, names=_listed([edge_name(piece, colours) for piece in edges]))]


def _edges_home(position: Position) -> frozenset[int]:
    return frozenset(piece for piece in CROSS_EDGES if position.edges[piece] == 2 * piece)


def edge_name(piece: int, colours: tuple[str, ...]) -> str:
    """An edge of the cross by its colours, the cross colour first."""
    down, side = EDGE_FACES[piece]
    if side is Face.D:
        down, side = side, down
    return f"{colours[down]}-{colours[side]}"


def _listed(names: list[str]) -> str:
    text = names[-1]
    if len(names) > 1:
        text = ENGLISH.say("list.two", first=names[-2], second=names[-1])
    for name in reversed(names[:-2]):
        text = ENGLISH.say("list.more", first=name, rest=text)
    return text


def cross_hint(position: Position, reading: CrossReading, colours: tuple[str, ...], rung: int) -> Hint:
    """The hint of a rung (1 to 3): which edges to look for, which layer begins, the turn."""
    wanted = Rung(rung)
    out = [piece for piece in CROSS_EDGES if position.edges[piece] != 2 * piece]
    glowing = frozenset(place_cubie(EDGE_FACES[position.edges[piece] // 2]) for piece in out)
    best = reading.lines[0][0] if reading.lines and reading.lines[0] else None
    if best is None:
        return Hint(wanted, ENGLISH.say("cross.solved"), (), frozenset(), frozenset(), None, None)
    if wanted is Rung.LOOK:
        places = " ".join(_edge_place(position, piece, colours) for piece in out)
        text = capitalised(ENGLISH.say("cross.look", places=places))
    elif wanted is Rung.IDEA:
        text = ENGLISH.say("cross.idea", layer=ENGLISH.say(f"layer.{best.face.name}"))
    else:
        text = ENGLISH.say("turn.show", turn=best.notation, way=_way(best))
    return Hint(wanted, text, (), glowing, frozenset(), best if wanted is Rung.TURN else None, best)


def _way(turn: Turn) -> str:
    if turn.quarters == 2:
        return ENGLISH.say("way.half", layer=ENGLISH.say(f"layer.{turn.face.name}"))
    return ENGLISH.say(f"way.{turn.notation}")


def _edge_place(position: Position, piece: int, colours: tuple[str, ...]) -> str:
    name, location = edge_name(piece, colours), position.edges[piece]
    if location // 2 == piece:
        return ENGLISH.say("cross.turned_over", name=name)
    faces = EDGE_FACES[location // 2]
    letters = "".join(face.name for face in (Face.F, Face.B, Face.L, Face.R) if face in faces)
    spot = ENGLISH.say(f"spot.edge.{letters}")
    if Face.U in faces:
        place = ENGLISH.say("place.top", spot=spot)
    elif Face.D in faces:
        place = ENGLISH.say("place.bottom", spot=spot)
    else:
        place = ENGLISH.say("place.slot", slot=ENGLISH.say(f"slot.{letters}"))
    return ENGLISH.say("cross.look_one", name=name, place=place)


def cross_title(reading: CrossReading, colours: tuple[str, ...]) -> str:
    """How far the cross is, exactly."""
    if reading.distance == 0:
        return ENGLISH.say("cross.solved")
    return ENGLISH.say("cross.distance", cross=colours[Face.D], to_go=counted(reading.distance, "turn"))


# ---------------------------------------------------------------------------------------------- pairs


def whereabouts(position: Position, task: Task, colours: tuple[str, ...]) -> Phrase:
    """Where the pieces of a pair begin."""
    return _whereabouts("pair.begins", SpokenPosition(position, task, colours, Moment.BEFORE))


def slot_words(slot: Slot) -> str:
    """A slot by where it is, for instance ``front-right slot``."""
    return ENGLISH.say(f"slot.{slot.name}")


def pair_label(cost: PairCost) -> str:
    """A pair and what it costs."""
    slot = capitalised(slot_words(cost.slot))
    return ENGLISH.say("pair.label", slot=slot, turns=counted(cost.cost, "turn"))


def pair_where(position: Position, cost: PairCost, colours: tuple[str, ...]) -> Phrase:
    """Where the pieces of a pair are."""
    return _whereabouts(
        "pair.where", SpokenPosition(position, Task.at(position, cost.slot), colours, Moment.BEFORE)
    )


def _whereabouts(key: str, sight: SpokenPosition) -> Phrase:
    if sight.share_a_slot:
        key = "pair.together"
    return finished(
        tell(
            key,
            corner=sight.named(Piece.CORNER),
            edge=sight.named(Piece.EDGE),
            corner_place=sight.place(Piece.CORNER),
            edge_place=sight.place(Piece.EDGE),
        )
    )


def pair_reason(position: Position, cost: PairCost) -> str:
    """The one thing about a pair that says most: where its two pieces are."""
    corner, edge = pair_locations(position, cost.slot)
    if both_on_top(position, cost.slot):
        seen = (trait for trait in (Trait.MADE, Trait.TOUCHING) if trait in cost.traits)
        return ENGLISH.say(f"reason.{next(seen, Trait.BOTH_ON_TOP).name.lower()}")
    low_corner = next((slot for slot in SLOTS if slot.corner == corner // 3), None)
    low_edge = next((slot for slot in SLOTS if slot.edge == edge // 2), None)
    if low_corner is None:
        return _in_slot("edge", low_edge, cost.slot)
    if low_edge is None:
        return _in_slot("corner", low_corner, cost.slot)
    return _in_slot("both", low_corner, cost.slot) if low_corner is low_edge else ENGLISH.say("reason.split")


def _in_slot(what: str, found: Slot | None, own: Slot) -> str:
    if found is None:
        raise ValueError("with the cross solved, what is not on top is in a slot")
    if found is own:
        return ENGLISH.say(f"reason.own_{what}")
    return ENGLISH.say(f"reason.{what}", slot=slot_words(found))


def pair_why(cost: PairCost) -> str:
    """What you can see that makes a pair cheap or dear."""
    said = []
    for key, group in (("trait.cheap", CHEAP), ("trait.dear", DEAR)):
        traits = [trait for trait in Trait if trait in cost.traits & group]
        if traits:
            words = _listed([ENGLISH.say(f"trait.{trait.name.lower()}") for trait in traits])
            said.append(ENGLISH.say(key, traits=words))
    return " ".join(said)


def pair_after(cost: PairCost, reading: PairsReading) -> str:
    """What taking a pair first does to the others: what each costs then, and how that differs from now."""
    now = {each.slot: each.cost for each in reading.costs}
    others = []
    then = dict(cost.others)
    for slot in sorted(now):
        if slot is cost.slot:
            continue
        if slot not in then:
            others.append(ENGLISH.say("pair.other_home", slot=slot.name))
            continue
        turns, change = counted(then[slot], "turn"), then[slot] - now[slot]
        if not change:
            others.append(ENGLISH.say("pair.other_same", slot=slot.name, turns=turns))
            continue
        key = "pair.more" if change > 0 else "pair.fewer"
        more = ENGLISH.say(key, count=number(abs(change)))
        others.append(ENGLISH.say("pair.other", slot=slot.name, turns=turns, change=more))
    return " ".join(others) or ENGLISH.say("pair.last")


def plan_words(reading: PlanReading) -> str:
    """The order of the plan with the turns of each pair, and how many it would be slot after slot."""
    slots = [
        ENGLISH.say("plan.slot", slot=stage.slot.name, turns=counted(len(stage.turns), "turn"))
        for stage in reading.plan.stages
    ]
    said = [ENGLISH.say("plan.order", slots=_listed(slots), turns=counted(reading.plan.length, "turn"))]
    if reading.plan.length < sum(len(stage.turns) for stage in reading.plan.stages):
        said.append(ENGLISH.say("plan.seams"))
    if reading.plain.length > reading.plan.length:
        said.append(ENGLISH.say("plan.plain", turns=counted(reading.plain.length, "turn")))
    return " ".join(said)


def proof_words(reading: PlanReading, proof: Proof | None, *, looking: bool) -> str:
    """Whether the plan is only found or proven to be the shortest."""
    if proof is not None and proof.fewest == reading.plan.length:
        return ENGLISH.say("plan.proven")
    found = ENGLISH.say("plan.found")
    if proof is not None:
        return ENGLISH.say("plan.fewest", fewest=counted(proof.fewest, "turn"))
    key = "plan.proving" if looking else "plan.unproven"
    return f"{found} {ENGLISH.say(key, seconds=number(round(PROOF_SECONDS)))}"


def saving_words(saving: SavedTurns) -> str:
    """A shortcut and the turns it saves."""
    other = "" if saving.other is None else slot_words(saving.other)
    told = ENGLISH.say(
        f"saving.{saving.kind.name.lower()}",
        slot=slot_words(saving.slot),
        turn=saving.turns[0].notation,
        other=other,
    )
    if saving.kind is SavingKind.TWO_PAIRS:
        return capitalised(told)
    key = "saving.saves_whole" if saving.kind is SavingKind.FREE_SLOT else "saving.saves_steps"
    return capitalised(f"{told} {ENGLISH.say(key, turns=counted(saving.saved, 'turn'))}")
