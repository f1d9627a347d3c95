"""Reads the coach's English back, trusting nothing of the coach.

Every pattern is written here by hand. What it finds in a sentence is looked up on the 54 stickers.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache

from msgspec import Struct

from tests.coach.table import COLOURS
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS, STICKERS
from tutor.cube.position import Position, Slot
from tutor.cube.stickers import faces_shown
from tutor.solver.task import Task

_SIDES = {"front": Face.F, "back": Face.B, "left": Face.L, "right": Face.R}
_DIRECTIONS = {
    "up": Face.U,
    "down": Face.D,
    "left": Face.L,
    "right": Face.R,
    "to the front": Face.F,
    "to the back": Face.B,
}
_NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen",
)  # fmt: skip

_PIECE = r"the (?P<colours>[a-z]+(?:-[a-z]+)+ )?(?P<kind>corner|edge)"
_ASIDE = r"(?: \(in the [a-z ]+ mirrors?\))?"
_PLACE = (
    r"(?P<place>on top at the (?:front|back)(?: (?:left|right))?|on top at the (?:left|right)"
    r"|in the (?:front|back)-(?:left|right) slot|in the middle at the (?:front|back) (?:left|right)"
    r"|at the bottom (?:(?:front|back)(?: (?:left|right))?|left|right))"
)
_IS_AT = re.compile(rf"{_PIECE}{_ASIDE}(?P<verb> is| was| stays| stayed| went along and is)? {_PLACE}")
_IT_IS_AT = re.compile(
    rf"(?:moves only|takes) {_PIECE}{_ASIDE}(?: down from the top)?, and now it is {_PLACE}"
)
_BOTH_AT = re.compile(rf"\bboth are {_PLACE}")
_BOTH_PIECES_AT = re.compile(rf"both pieces{_ASIDE} are {_PLACE}")
_POINTS = re.compile(
    r"white (?:now )?(?P<verb>points|pointing|pointed) (?P<way>up|down|left|right|to the \w+)"
)
_LEFT = re.compile(r"you need (?P<number>\w+) more turns?\b")
_COSTS = re.compile(r"costs (?P<number>\w+) (?:extra )?turns?\b(?! for)")
_LONGER = re.compile(r"takes (?P<number>\w+) turns? more than the shortest\b")
_SHORTER = re.compile(r"there was a way (?P<number>\w+) turns? shorter")
_COLOUR_UP = re.compile(r"(?:with )?(?P<colour>[a-z]+) (?:is )?on top\b(?! at)")
_NAMES = re.compile(r"\b(corner|edge|both pieces|the two|the pair(?! of))\b")
_MIRROR = re.compile(r"in the (?:(left|right|lower)(?: and the (left|right|lower))?) mirror")
_SLOT = r"(?:front|back)-(?:left|right)"
_PAIRS_NAMED = re.compile(rf"the (?P<first>{_SLOT})(?: and (?P<second>{_SLOT}))? pairs?")
_PAIRS_COUNTED = re.compile(r"(?P<number>\w+) pairs?\b")
_CROSS_EDGES = re.compile(r"(?P<number>\w+) cross edges?")
_TAKEN_OUT = re.compile(r"takes out (?P<what>[^.:;,]+)(?:, which (?P<verb>was|were) already solved)?")
_PUT_BACK = re.compile(r"puts (?P<what>[^.:;,]+?) back in place")
_SOLVED = re.compile(r"(?P<what>the cross(?: and [^.:;,]+?)?) (?:is|are) solved")
_LIFTS = re.compile(rf"\blifts the (?P<slot>{_SLOT}) slot")
_MIRROR_FACES = {"left": Face.L, "right": Face.B, "lower": Face.D}


def number(word: str) -> int:
    """A number in words or digits."""
    return int(word) if word.isdigit() else _NUMBERS.index(word)


@lru_cache(maxsize=256)
def _pieces(position: Position) -> dict[frozenset[Face], dict[Face, Face]]:
    """What each piece, named by its colours, shows on which face."""
    shown: dict[tuple[int, int, int], dict[Face, Face]] = {}
    for (cubie, face), colour in zip(STICKERS, faces_shown(position), strict=True):
        shown.setdefault(cubie, {})[face] = colour
    return {frozenset(each.values()): each for each in shown.values()}


_SIDES_OF = {slot: frozenset(Face[letter] for letter in slot.name) for slot in Slot}
_OWN = {(slot, "edge"): sides for slot, sides in _SIDES_OF.items()} | {
    (slot, "corner"): sides | {Face.D} for slot, sides in _SIDES_OF.items()
}
"""The colours of corner and edge of each slot."""


class Cube(Struct, frozen=True):
    """A position seen by its stickers, and the pair one looks for."""

    position: Position
    task: Task

    def faces(self, kind: str) -> dict[Face, Face]:
        """For the corner or edge of the pair: on which face it shows which colour."""
        return _pieces(self.position)[_OWN[self.task.slot, kind]]

    def hidden(self, kind: str) -> bool:
        return not {Face.U, Face.F, Face.R} & set(self.faces(kind))

    def is_at(self, kind: str, place: str) -> bool:
        words = set(re.findall(r"front|back|left|right", place))
        faces = {_SIDES[word] for word in words}
        if place.startswith("on top"):
            faces |= {Face.U}
        elif place.startswith("at the bottom") or (place.endswith("slot") and kind == "corner"):
            faces |= {Face.D}
        return set(self.faces(kind)) == faces and not (place.endswith("slot") and self.moved(faces))

    def moved(self, sides: set[Face]) -> bool:
        """Whether the slot between two sides is moved by a turned layer: its cross edges are not at home."""
        return bool(sides - {Face.D} - self.in_place()[1])

    def in_place(self) -> tuple[set[Slot], set[Face]]:
        """The pairs of the task that are solved, and the sides at which the cross is."""
        home = [
            set(colours)
            for colours in map(dict.items, _pieces(self.position).values())
            if all(face is colour for face, colour in colours)
        ]
        own = [{(face, face) for face in (Face[slot.name[0]], Face[slot.name[1]])} for slot in Slot]
        down = (Face.D, Face.D)
        pairs = {slot for slot in Slot if own[slot] in home and own[slot] | {down} in home}
        sides = {face for face in _SIDES.values() if {(face, face), down} in home}
        return pairs & {*self.task.keep, self.task.slot}, sides

    def on_top(self, kind: str) -> bool:
        return Face.U in self.faces(kind)

    def touching(self) -> bool:
        corner, edge = (
            [sum(NORMALS[face][axis] for face in self.faces(kind)) for axis in range(3)]
            for kind in ("corner", "edge")
        )
        return sum(abs(one - other) for one, other in zip(corner, edge, strict=True)) == 1

    def matching(self) -> bool:
        corner, edge = self.faces("corner"), self.faces("edge")
        return self.touching() and all(corner[face] is colour for face, colour in edge.items())

    def slides_in(self) -> bool:
        """Whether a turn of the top and one of a layer beside the slot solve the pair and keep the others."""
        tops = (self.position.turned(Turn.of(Face.U, quarters)) for quarters in (1, 2, 3))
        sides = [Turn.of(face, quarters) for face in _SIDES_OF[self.task.slot] for quarters in (1, 3)]
        ends = [Cube(top.turned(side), self.task) for top in tops for side in sides]
        return any(end.home() and set(self.task.keep) <= end.in_place()[0] for end in ends)

    def in_slot(self, words: str) -> list[frozenset[Face]]:
        """The colours of the corner and the edge that are in a slot."""
        sides = {_SIDES[word] for word in words.split("-")}
        places = (sides, sides | {Face.D})
        return [own for own, shown in _pieces(self.position).items() if set(shown) in places]

    def now_of(self, pieces: list[frozenset[Face]]) -> list[dict[Face, Face]]:
        """What pieces, by their colours, show on which face."""
        return [_pieces(self.position)[own] for own in pieces]

    def home(self) -> bool:
        return all(face is colour for kind in ("corner", "edge") for face, colour in self.faces(kind).items())


def carried(before: Cube, after: Cube) -> bool:
    """Whether both pieces of the pair have moved."""
    return all(before.faces(kind) != after.faces(kind) for kind in ("corner", "edge"))


def untrue(sentence: str, before: Cube, after: Cube, looked_at: Cube) -> Iterator[str]:
    """What a sentence says that is not so. ``looked_at`` is the position on the screen while it is read.

    Past tense is read against ``before``, present tense against ``after``.
    """
    text = sentence.lower()
    yield from _untrue_places(text, before, after)
    for found in _POINTS.finditer(text):
        cube = before if found["verb"] == "pointed" else after
        if cube.faces("corner").get(_DIRECTIONS[found["way"]]) is not Face.D:
            yield found[0]
    for found in _COLOUR_UP.finditer(text):
        if found["colour"] in COLOURS and after.faces("edge").get(Face.U) is not _face(found["colour"]):
            yield found[0]
    yield from _untrue_relations(text, before, after)
    yield from _untrue_lists(text, before, after)
    yield from _missing_mirrors(text, looked_at)


def untrue_ahead(sentence: str, before: Cube, after: Cube) -> Iterator[str]:
    """What a sentence says that is not so, read while its turn is still to come.

    Where pieces are is read against ``before``, what the turn does against both.
    """
    text = sentence.lower()
    yield from _untrue_places(text, before, before)
    for found in _POINTS.finditer(text):
        if before.faces("corner").get(_DIRECTIONS[found["way"]]) is not Face.D:
            yield found[0]
    if "touch without matching" in text and (not before.touching() or before.matching()):
        yield "touch without matching"
    yield from _untrue_relations(text.replace("touch without", "touched without"), before, after)
    yield from _untrue_lists(text, before, after)
    yield from _missing_mirrors(text, before)


def _face(colour: str) -> Face:
    return Face(COLOURS.index(colour))


def _untrue_places(text: str, before: Cube, after: Cube) -> Iterator[str]:
    for found in _IS_AT.finditer(text):
        past = (found["verb"] or "").strip() == "was"
        cube = before if past else after
        if not cube.is_at(found["kind"], found["place"]):
            yield found[0]
        if (found["verb"] or "").strip() in ("stays", "stayed") and not before.is_at(
            found["kind"], found["place"]
        ):
            yield f"{found[0]} (it moved)"
    for found in _IT_IS_AT.finditer(text):
        if not after.is_at(found["kind"], found["place"]):
            yield found[0]
    for found in (*_BOTH_AT.finditer(text), *_BOTH_PIECES_AT.finditer(text)):
        if not all(after.is_at(kind, found["place"]) for kind in ("corner", "edge")):
            yield found[0]
    for found in re.finditer(_PIECE, text):
        if found["colours"]:
            named = {_face(word) for word in found["colours"].strip().split("-")}
            if named != set(after.faces(found["kind"]).values()):
                yield found[0]


def _untrue_relations(text: str, before: Cube, after: Cube) -> Iterator[str]:
    facts: dict[str, Callable[[], bool]] = {
        r"they match\b|^the two match|makes the two.* match|colours line up": after.matching,
        r"they matched\b|matched, and": lambda: before.matching() and not after.matching(),
        rf"joins (it to )?the corner|edge{_ASIDE} match\b": after.matching,
        r"touched without matching": lambda: before.touching() and not before.matching(),
        r"separates (them|the)": lambda: not after.touching() or not after.matching(),
        r"no longer touch": lambda: before.touching() and not after.touching(),
        r"still touch without matching": lambda: after.touching() and not after.matching(),
        r"wrong way round": lambda: after.touching() and not after.matching(),
        r"^solved!|solves the pair": after.home,
        r"takes the pair\b.* along": lambda: before.matching() and carried(before, after),
        r"no turn of the top slides the pair": lambda: after.matching() and not after.slides_in(),
    }
    for found in _LIFTS.finditer(text):
        if not all(Face.U in each for each in after.now_of(before.in_slot(found["slot"]))):
            yield found[0]
    for pattern, fact in facts.items():
        if re.search(pattern, text) and not text.endswith("?") and not fact():
            yield pattern


class Listed(Struct, frozen=True):
    """Pairs and cross edges as a sentence lists them: by name where it names them, else by number."""

    named: frozenset[str]
    pairs: int
    edges: int

    @classmethod
    def read(cls, what: str) -> Listed:
        """Raises ValueError for words that are no such list."""
        named = list(_PAIRS_NAMED.finditer(what))
        names = frozenset(name for found in named for name in found.groups() if name)
        rest = _PAIRS_NAMED.sub("", what)
        counted, edges = _PAIRS_COUNTED.search(rest), _CROSS_EDGES.search(rest)
        whole = 4 * bool(re.search(r"\bthe cross\b(?! edge)", rest))
        left = re.sub(r"\b(and|the cross)\b", "", _CROSS_EDGES.sub("", _PAIRS_COUNTED.sub("", rest)))
        if left.strip():
            raise ValueError(f"{what!r} is no list of pairs and cross edges: {left.strip()!r}")
        count = number(counted["number"]) if counted else len(names)
        return cls(names, count, number(edges["number"]) if edges else whole)

    @property
    def single(self) -> bool:
        """Whether it is one pair, one edge, or the cross as one."""
        return self.pairs + (1 if self.edges == 4 else self.edges) == 1

    def is_all_of(self, pairs: set[Slot], edges: set[Face]) -> bool:
        """Whether just these are listed, neither more nor fewer."""
        names = {slot_words(slot).removesuffix(" slot") for slot in pairs}
        return self.named in (frozenset(), names) and (self.pairs, self.edges) == (len(pairs), len(edges))


def _untrue_lists(text: str, before: Cube, after: Cube) -> Iterator[str]:
    """What is told as taken out, put back or solved, and is not all of it or more than it."""
    (pairs, edges), (pairs_now, edges_now) = before.in_place(), after.in_place()
    for found in _TAKEN_OUT.finditer(text):
        listed = Listed.read(found["what"])
        if not listed.is_all_of(pairs - pairs_now, edges - edges_now):
            yield found[0]
        if found["verb"] and (found["verb"] == "was") is not listed.single:
            yield f"{found[0]} ({found['verb']})"
    for found in _PUT_BACK.finditer(text):
        if not Listed.read(found["what"]).is_all_of(pairs_now - pairs, edges_now - edges):
            yield found[0]
    for found in _SOLVED.finditer(text):
        keep = set(after.task.keep)
        others = len(keep) == 3 and found["what"] == "the cross and the other pairs"
        if not (others or Listed.read(found["what"]).is_all_of(keep, {*_SIDES.values()})):
            yield found[0]
        if not keep <= pairs_now or len(edges_now) < 4:
            yield f"{found[0]} (not so)"


_ASKED_UP = re.compile(r"bring (?:up )?(?P<what>both|the corner|the edge)\b[^.]* up\b")


def already_so(text: str, now: Cube) -> Iterator[str]:
    """What a sentence calls for, or names as to come, that is so already in the position looked at."""
    for found in _ASKED_UP.finditer(text.lower()):
        kinds = ("corner", "edge") if found["what"] == "both" else (found["what"].removeprefix("the "),)
        if any(now.on_top(kind) for kind in kinds):
            yield found[0]
    facts = {
        r"make the (two|corner and the edge)\b.* match": now.matching(),
        r"\bseparate (the|them)": not now.touching(),
    }
    yield from (pattern for pattern, fact in facts.items() if fact and re.search(pattern, text.lower()))


def _missing_mirrors(text: str, looked_at: Cube) -> Iterator[str]:
    """A piece is named that cannot be seen, and no mirror that shows it."""
    told = {_MIRROR_FACES[word] for found in _MIRROR.finditer(text) for word in found.groups() if word}
    for found in _NAMES.finditer(re.sub(r"cross edges?", "", text)):
        kinds = (found[1],) if found[1] in ("corner", "edge") else ("corner", "edge")
        for kind in kinds:
            if looked_at.hidden(kind) and not told & set(looked_at.faces(kind)):
                yield f"{found[1]} is hidden"


def untrue_counts(text: str, to_go: int, cost: int) -> Iterator[str]:
    """Counts of turns in a remark that are not so: ``to_go`` after it, ``cost`` of the turn."""
    for pattern, truth in ((_LEFT, to_go), (_COSTS, cost), (_LONGER, cost), (_SHORTER, cost)):
        for found in pattern.finditer(text.lower()):
            if number(found["number"]) != truth:
                yield found[0]


def slot_words(slot: Slot) -> str:
    """The slot as the coach must call it."""
    front, left = slot.name[0] == "F", slot.name[1] == "L"
    return f"{'front' if front else 'back'}-{'left' if left else 'right'} slot"
