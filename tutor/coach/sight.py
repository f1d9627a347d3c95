"""What the learner sees: pieces, places and directions in plain words, from the current viewpoint."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH
from tutor.coach.claims import AllKept, ColourOn, OutOfSight, PieceAt
from tutor.coach.claims_of_ways import ToGo, Turned
from tutor.coach.phrase import Phrase, tell
from tutor.coach.scene import Moment, Piece
from tutor.counting import counted
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES, NORMALS, cubie_number
from tutor.cube.position import CROSS_EDGES, SLOTS, Position, Slot
from tutor.solver.task import Task, slot_sides

SEEN_FACES = frozenset({Face.U, Face.F, Face.R})
"""The faces that the rest view shows."""
MIRRORS = (Face.L, Face.B, Face.D)
"""The faces that mirrors show, in the order in which you look for a hidden piece: left, right, below."""

# Read from left to right as one looks at the slot from outside.
_SIDES_AS_SEEN = {
    Slot.FR: (Face.F, Face.R),
    Slot.FL: (Face.L, Face.F),
    Slot.BL: (Face.B, Face.L),
    Slot.BR: (Face.R, Face.B),
}
_FACES_OF_PLACE = {Piece.CORNER: CORNER_FACES, Piece.EDGE: EDGE_FACES}


def hidden_in(faces: tuple[Face, ...]) -> Face | None:
    """The face whose mirror shows a place between ``faces``, or None when the rest view shows it."""
    if SEEN_FACES & set(faces):
        return None
    return next(face for face in MIRRORS if face in faces)


def place_cubie(faces: tuple[Face, ...]) -> int:
    """The number of the cubie at the place between ``faces``, as views count them."""
    x, y, z = (sum(NORMALS[face][axis] for face in faces) for axis in range(3))
    return cubie_number((x, y, z))


class InPlace(Struct, frozen=True):
    """Pairs of the task, and edges of the cross by their sides: those in place, or some of them."""

    pairs: frozenset[Slot]
    edges: frozenset[Face]

    def __bool__(self) -> bool:
        return bool(self.pairs or self.edges)

    def __sub__(self, other: InPlace) -> InPlace:
        """What is in place here and not there."""
        return InPlace(self.pairs - other.pairs, self.edges - other.edges)

    def __or__(self, other: InPlace) -> InPlace:
        """What is in either."""
        return InPlace(self.pairs | other.pairs, self.edges | other.edges)

    @property
    def single(self) -> bool:
        """Whether a verb about all of it is in the singular: about one pair, one edge or the cross."""
        edges = 1 if len(self.edges) == len(CROSS_EDGES) else len(self.edges)
        return len(self.pairs) + edges == 1

    @property
    def words(self) -> str:
        """All of it, shortly: ``the back-left pair and one cross edge``."""
        told = [text for text in (_pairs(self.pairs), _cross_edges(len(self.edges))) if text]
        return told[0] if len(told) == 1 else ENGLISH.say("list.two", first=told[0], second=told[1])


def those_in_place(position: Position, slots: Iterable[Slot]) -> InPlace:
    """The pairs of these slots and the cross edges that are in place."""
    pairs = (slot for slot in slots if position.pair_home(slot))
    edges = (piece for piece in CROSS_EDGES if position.edges[piece] == 2 * piece)
    return InPlace(frozenset(pairs), frozenset(_side(piece) for piece in edges))


def _pairs(slots: frozenset[Slot]) -> str:
    """Pairs by the slots they belong in; more than two are only counted."""
    names = [ENGLISH.say(f"side.{slot.name}") for slot in sorted(slots)]
    if len(names) == 1:
        return ENGLISH.say("pair.one", first=names[0])
    if len(names) == 2:
        return ENGLISH.say("pair.two", first=names[0], second=names[1])
    return counted(len(names), "pair") if names else ""


def _cross_edges(count: int) -> str:
    if count == len(CROSS_EDGES):
        return ENGLISH.say("brief.cross")
    return counted(count, "cross edge") if count else ""


class SpokenPosition(Struct, frozen=True, dict=True):
    """A position and task as held (cross down), in words.

    ``colours`` are the colour words of the faces U D L R F B as held. ``when`` tells the claims which of the
    two positions round a turn this one is.
    """

    position: Position
    task: Task
    colours: tuple[str, ...]
    when: Moment = Moment.AFTER

    # ------------------------------------------------------------------------------------------- pieces

    @cached_property
    def cross(self) -> str:
        """The cross colour's word."""
        return self.colours[Face.D]

    @cached_property
    def edge_name(self) -> str:
        """The target edge by its colours, left to right as seen when it is home."""
        return "-".join(self.colours[face] for face in _SIDES_AS_SEEN[self.task.slot])

    @cached_property
    def corner_name(self) -> str:
        """The target corner by its colours, the cross colour first."""
        return f"{self.cross}-{self.edge_name}"

    def faces(self, piece: Piece) -> tuple[Face, ...]:
        """The faces of the place where the piece is."""
        if piece is Piece.CORNER:
            return CORNER_FACES[self.position.corners[self.task.slot.corner] // 3]
        return EDGE_FACES[self.position.edges[self.task.slot.edge] // 2]

    def edge_faces(self, piece: int) -> tuple[Face, ...]:
        """The faces of the place where any edge, by its number, is."""
        return EDGE_FACES[self.position.edges[piece] // 2]

    def cubie(self, piece: Piece) -> int:
        """The number of the cubie that is the piece, as views count them."""
        return place_cubie(self.faces(piece))

    def hidden(self, piece: Piece) -> Face | None:
        """The mirror's face in which a piece out of sight is seen; None when it is in sight."""
        return hidden_in(self.faces(piece))

    def named(self, piece: Piece) -> Phrase:
        """The piece by its colours; with the mirror that shows it when it is out of sight."""
        name = self.corner_name if piece is Piece.CORNER else self.edge_name
        return self._aside(piece, tell(f"name.{piece.value}", name=name))

    def brief(self, piece: Piece) -> Phrase:
        """The piece as just the corner or the edge."""
        return self._aside(piece, tell(f"brief.{piece.value}"))

    def both(self, key: str = "brief.both") -> Phrase:
        """Both pieces in one word, for instance the pair, with the mirrors of those out of sight."""
        hidden = {piece: face for piece in Piece if (face := self.hidden(piece)) is not None}
        claims = tuple(OutOfSight(self.when, piece, face) for piece, face in hidden.items())
        mirrors = tuple(dict.fromkeys(hidden.values()))
        return Phrase(tell(key).text + _aside(*mirrors), claims)

    def _aside(self, piece: Piece, phrase: Phrase) -> Phrase:
        face = self.hidden(piece)
        if face is None:
            return phrase
        return Phrase(phrase.text + _aside(face), (*phrase.claims, OutOfSight(self.when, piece, face)))

    # ------------------------------------------------------------------------------------------- places

    def place(self, piece: Piece) -> Phrase:
        """Where the piece is, for instance ``on top at the front right``."""
        faces = self.faces(piece)
        claim = PieceAt(self.when, piece, frozenset(faces))
        spot = ENGLISH.say(f"spot.{piece.value}.{_letters(faces)}")
        if Face.U in faces:
            return tell("place.top", claim, spot=spot)
        slot = None if piece is Piece.EDGE and Face.D in faces else Slot[_letters(faces)]
        if slot is not None and self._at_rest(slot):
            return tell("place.slot", claim, slot=ENGLISH.say(f"slot.{slot.name}"))
        return tell("place.bottom" if Face.D in faces else "place.middle", claim, spot=spot)

    def _at_rest(self, slot: Slot) -> bool:
        """Whether no turned layer has moved the slot: else “in the slot” would have two meanings."""
        if self.task.settled(self.position):
            return True
        return self.settling_face is not None and self.settling_face not in {Face.D, *slot_sides(slot)}

    @property
    def share_a_slot(self) -> bool:
        """Whether both pieces are in one slot, whichever."""
        corner, edge = self.position.corners[self.task.slot.corner], self.position.edges[self.task.slot.edge]
        slot = next((slot for slot in SLOTS if slot.corner == corner // 3 and slot.edge == edge // 2), None)
        return slot is not None and self._at_rest(slot)

    def spot(self, piece: Piece) -> Phrase:
        """Where in its layer the piece is, for instance ``front right``."""
        faces = self.faces(piece)
        text = ENGLISH.say(f"spot.{piece.value}.{_letters(faces)}")
        return Phrase(text, (PieceAt(self.when, piece, frozenset(faces)),))

    def slot(self, slot: Slot | None = None) -> Phrase:
        """A slot by where it is; the target's own when none is given."""
        return tell(f"slot.{(self.task.slot if slot is None else slot).name}")

    def all_kept(self) -> Phrase:
        """That the cross and all kept pairs are solved."""
        keep = self.task.keep
        return tell("kept.are" if keep else "kept.is", AllKept(self.when, keep), kept=self.kept())

    def kept(self) -> Phrase:
        """The cross and all kept pairs."""
        keep = self.task.keep
        if len(keep) == len(SLOTS) - 1:
            return tell("kept.all")
        return tell("kept.some", pairs=_pairs(keep)) if keep else tell("kept.cross")

    def layer(self, face: Face) -> Phrase:
        """A layer by where it is."""
        return tell(f"layer.{face.name}")

    # --------------------------------------------------------------------------------------- directions

    def face_of_colour(self, piece: Piece, colour: Face) -> Face:
        """The face on which the piece shows the colour with this home face."""
        own = (
            CORNER_FACES[self.task.slot.corner] if piece is Piece.CORNER else EDGE_FACES[self.task.slot.edge]
        )
        size = len(own)
        locations = self.position.corners if piece is Piece.CORNER else self.position.edges
        number = self.task.slot.corner if piece is Piece.CORNER else self.task.slot.edge
        place, first = divmod(locations[number], size)
        return _FACES_OF_PLACE[piece][place][(first + own.index(colour)) % size]

    @cached_property
    def cross_face(self) -> Face:
        """The face to which the corner's cross colour points."""
        return self.face_of_colour(Piece.CORNER, Face.D)

    def cross_points(self) -> Phrase:
        """The direction of the corner's cross colour, for instance ``right``."""
        claim = ColourOn(self.when, Piece.CORNER, Face.D, self.cross_face)
        return tell(f"direction.{self.cross_face.name}", claim)

    @cached_property
    def edge_up(self) -> Face | None:
        """The home face of the colour that the edge shows on top; None when it is not on top."""
        sides = EDGE_FACES[self.task.slot.edge]
        return next((side for side in sides if self.face_of_colour(Piece.EDGE, side) is Face.U), None)

    def edge_colour_up(self) -> Phrase:
        """The word of the colour that the edge shows on top; nothing when it is not on top."""
        if self.edge_up is None:
            return Phrase("")
        claim = ColourOn(self.when, Piece.EDGE, self.edge_up, Face.U)
        return Phrase(self.colours[self.edge_up], (claim,))

    # -------------------------------------------------------------------------------------------- turns

    def turn(self, turn: Turn, made: bool = False) -> Phrase:
        """A turn as written; ``made`` when it is the one between the two positions."""
        return Phrase(turn.notation, (Turned(turn),) if made else ())

    def to_go(self, count: int) -> Phrase:
        """The turns from here to the task done, for instance ``three more turns``."""
        return Phrase(counted(count, "more turn"), (ToGo(self.when, count),))

    @cached_property
    def settling_face(self) -> Face | None:
        """The face one turn of which brings cross and kept pairs home; None when settled or further off."""
        if self.task.settled(self.position):
            return None
        return next((turn.face for turn in Turn if self.task.settled(self.position.turned(turn))), None)

    @cached_property
    def in_place(self) -> InPlace:
        """The pairs of the task and the cross edges that are in place."""
        return those_in_place(self.position, {*self.task.keep, self.task.slot})

    def both_in_layer(self, face: Face) -> tuple[bool, bool]:
        """Whether the corner and whether the edge is in the layer of ``face``."""
        return self.in_layer(Piece.CORNER, face), self.in_layer(Piece.EDGE, face)

    def in_layer(self, piece: Piece, face: Face) -> bool:
        """Whether the piece is in the layer of ``face``."""
        return face in self.faces(piece)


def _aside(*mirrors: Face) -> str:
    """Nothing, or in which one or two mirrors to look."""
    words = [ENGLISH.say(f"mirror.{face.name}") for face in mirrors]
    if len(words) == 2:
        return ENGLISH.say("aside.mirrors", first=words[0], second=words[1])
    return ENGLISH.say("aside.mirror", mirror=words[0]) if words else ""


def _side(piece: int) -> Face:
    """The side that an edge of the cross belongs to."""
    return next(face for face in EDGE_FACES[piece] if face is not Face.D)


def _letters(faces: tuple[Face, ...]) -> str:
    """The side faces of a place: F or B first, then L or R."""
    return "".join(face.name for face in (Face.F, Face.B, Face.L, Face.R) if face in faces)


def places_of_slot(slot: Slot) -> frozenset[int]:
    """The numbers of the two cubies at the slot's places, as views count them."""
    return frozenset({place_cubie(CORNER_FACES[slot.corner]), place_cubie(EDGE_FACES[slot.edge])})
