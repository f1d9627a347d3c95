"""Reads the coach's English back, trusting nothing of the coach.

Every pattern is written here by hand. What it finds in a sentence is looked up on the 54 stickers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from tests.coach.table import COLOURS
from tutor.cube.faces import Face
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
    r"|in the (?:front|back)-(?:left|right) slot|at the bottom (?:front|back|left|right))"
)
_IS_AT = re.compile(rf"{_PIECE}{_ASIDE}(?P<verb> is now| is| was| stays| stayed|,)? {_PLACE}")
_POINTS = re.compile(
    r"white (?:now )?(?P<verb>points|pointing|pointed) (?P<way>up|down|left|right|to the \w+)"
)
_TO_GO = re.compile(r"(?P<number>\w+)(?: turns?)? to go")
_COSTS = re.compile(r"costs (?P<number>\w+) extra turns?")
_LONGER = re.compile(r"it works, (?P<number>\w+) turns? longer")
_COLOUR_UP = re.compile(r"(?:with )?(?P<colour>[a-z]+) (?:is )?on top\b(?! at)")
_NAMES = re.compile(r"\b(corner|edge|both pieces|the two|the pair(?! of))\b")
_MIRROR = re.compile(r"in the (?:(left|right|lower)(?: and the (left|right|lower))?) mirror")
_MIRROR_FACES = {"left": Face.L, "right": Face.B, "lower": Face.D}


def number(word: str) -> int:
    """A number in words or digits."""
    return int(word) if word.isdigit() else _NUMBERS.index(word)


@lru_cache(maxsize=256)
def _pieces(position: Position) -> list[dict[Face, Face]]:
    """What each piece shows on which face."""
    shown: dict[tuple[int, int, int], dict[Face, Face]] = {}
    for (cubie, face), colour in zip(STICKERS, faces_shown(position), strict=True):
        shown.setdefault(cubie, {})[face] = colour
    return list(shown.values())


@dataclass(frozen=True)
class Cube:
    """A position seen by its stickers, and the pair one looks for."""

    position: Position
    task: Task

    def faces(self, kind: str) -> dict[Face, Face]:
        """For the corner or edge of the pair: on which face it shows which colour."""
        sides = {Face[letter] for letter in self.task.slot.name}
        wanted = sides | {Face.D} if kind == "corner" else sides
        return next(each for each in _pieces(self.position) if set(each.values()) == wanted)

    def hidden(self, kind: str) -> bool:
        return not {Face.U, Face.F, Face.R} & set(self.faces(kind))

    def is_at(self, kind: str, place: str) -> bool:
        words = set(re.findall(r"front|back|left|right", place))
        faces = {_SIDES[word] for word in words}
        if place.startswith("on top"):
            faces |= {Face.U}
        elif place.startswith("at the bottom") or kind == "corner":
            faces |= {Face.D}
        return set(self.faces(kind)) == faces

    def touching(self) -> bool:
        corner, edge = (
            [sum(NORMALS[face][axis] for face in self.faces(kind)) for axis in range(3)]
            for kind in ("corner", "edge")
        )
        return sum(abs(one - other) for one, other in zip(corner, edge, strict=True)) == 1

    def matching(self) -> bool:
        corner, edge = self.faces("corner"), self.faces("edge")
        return self.touching() and all(corner[face] is colour for face, colour in edge.items())

    def cross_whole(self) -> bool:
        shown = faces_shown(self.position)
        return all(
            shown[number] is face
            for number, (cubie, face) in enumerate(STICKERS)
            if cubie[1] == -1 and cubie.count(0) == 1 and (cubie[0] == 0 or cubie[2] == 0)
        )

    def home(self) -> bool:
        return all(face is colour for kind in ("corner", "edge") for face, colour in self.faces(kind).items())


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
    yield from _missing_mirrors(text, looked_at)


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
    for found in re.finditer(_PIECE, text):
        if found["colours"]:
            named = {_face(word) for word in found["colours"].strip().split("-")}
            if named != set(after.faces(found["kind"]).values()):
                yield found[0]


def _untrue_relations(text: str, before: Cube, after: Cube) -> Iterator[str]:
    facts = {
        r"the cross is whole": after.cross_whole(),
        r"they match|^the two match|makes the two.* match|colours run on": after.matching(),
        r"touch(ed)? without matching\b.*(apart|away|clear)": before.touching() and not before.matching(),
        r"still touch without matching": after.touching() and not after.matching(),
        r"wrong way round": after.touching() and not after.matching(),
        r"no longer touch|clear of each other": not after.touching(),
        r"^home!|takes the pair(?: \([^)]*\))? home": after.home(),
    }
    for pattern, fact in facts.items():
        if re.search(pattern, text) and not text.endswith("?") and not fact:
            yield pattern


def _missing_mirrors(text: str, looked_at: Cube) -> Iterator[str]:
    """A piece is named that cannot be seen, and no mirror that shows it."""
    told = {_MIRROR_FACES[word] for found in _MIRROR.finditer(text) for word in found.groups() if word}
    for found in _NAMES.finditer(re.sub(r"edges? of (the cross|it)", "", text)):
        kinds = (found[1],) if found[1] in ("corner", "edge") else ("corner", "edge")
        for kind in kinds:
            if looked_at.hidden(kind) and not told & set(looked_at.faces(kind)):
                yield f"{found[1]} is hidden"


def untrue_counts(text: str, distance: int, cost: int) -> Iterator[str]:
    """Counts of turns in a remark that are not so: ``distance`` to go after it, ``cost`` of the turn."""
    for pattern, truth in ((_TO_GO, distance), (_COSTS, cost), (_LONGER, cost)):
        for found in pattern.finditer(text.lower()):
            if number(found["number"]) != truth:
                yield found[0]


def slot_words(slot: Slot) -> str:
    """The slot as the coach must call it."""
    front, left = slot.name[0] == "F", slot.name[1] == "L"
    return f"{'front' if front else 'back'}-{'left' if left else 'right'} slot"
