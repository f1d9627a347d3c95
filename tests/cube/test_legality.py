"""Painted cubes examined, against an oracle of its own: pieces read by their normals, the laws by signatures.

The cube's three laws are common knowledge (Joyner, Adventures in Group Theory, from memory): twists add up to
whole turns, flips to an even number, corners and edges are permuted with one sign. The oracle itself is held
against membership in the group of turns as SymPy decides it (Schreier-Sims).
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import combinations
from random import Random

import numpy as np
import pytest
from sympy.combinatorics import Permutation, PermutationGroup

from tutor.cube.faces import FACES, TURNS, Face
from tutor.cube.geometry import NORMALS, STICKER_AT, STICKERS, Vector, turn_sticker_map
from tutor.cube.held_cube import HeldCube
from tutor.cube.legality import BLANK, PIECES, FaultKind, faults_of
from tutor.cube.random_position import random_position
from tutor.cube.repairs import Repaint, Reseat, Swap, corrected, examine, stickers_of
from tutor.cube.stickers import COLOUR_NAMES, Rule
from tutor.cube.symmetry import ROTATIONS

Colours = tuple[int, ...]
SOLVED_COLOURS: Colours = tuple(int(face) for face in FACES for _ in range(9))
LAWS = {Rule.TWIST, Rule.FLIP, Rule.SWAP}
CUBIES = sorted({cubie for cubie, _ in STICKERS if sum(map(abs, cubie)) > 1})


def samples(count: int, seed: int) -> list[Colours]:
    """The solved cube and random ones, each held another way."""
    random = Random(seed)
    cubes = [HeldCube(random_position(random), random.choice(ROTATIONS)).colours for _ in range(count)]
    return [SOLVED_COLOURS, *cubes]


# ------------------------------------------------------------------------------------------- the oracle


@cache
def fits(homes: tuple[Vector, ...], places: tuple[Face, ...]) -> bool:
    """Whether homes are at right angles, and, on a corner, as handed as the places are."""
    one, other = np.array(homes), np.array([NORMALS[face] for face in places])
    if not np.array_equal(one @ one.T, np.eye(len(one))):
        return False
    return len(one) == 2 or bool(np.linalg.det(one) * np.linalg.det(other) > 0)


@cache
def thirds(cubie: Vector, face: Face) -> int:
    """Clockwise thirds from a corner's sticker on the up-down axis to the one on a face."""
    start = np.array((0, cubie[1], 0))
    side = int(np.dot(np.cross(start, NORMALS[face]), cubie))
    # Seen from outside, a positive product is a step against the clock.
    return 0 if face in (Face.U, Face.D) else (2 if side > 0 else 1)


@dataclass
class Oracle:
    """What is wrong, by reasoning that shares nothing with the program but where the 54 stickers are."""

    colours: Colours

    def __post_init__(self) -> None:
        self.home = {colour: NORMALS[face] for face, colour in zip(FACES, self.colours[4::9], strict=True)}
        self.impossible = {cubie for cubie in CUBIES if not self._exists(cubie)}
        kinds = Counter(
            frozenset(self._shown(cubie).values()) for cubie in CUBIES if cubie not in self.impossible
        )
        self.doubled = {kind for kind, count in kinds.items() if count > 1}
        counts = Counter(self.colours)
        self.miscounted = {colour for colour in range(6) if counts[colour] != 9}

    def _shown(self, cubie: Vector) -> dict[Face, int]:
        return {face: self.colours[STICKER_AT[cubie, face]] for face in FACES if (cubie, face) in STICKER_AT}

    def _exists(self, cubie: Vector) -> bool:
        """Whether there is a piece with such colours."""
        shown = self._shown(cubie)
        return fits(tuple(self.home[colour] for colour in shown.values()), tuple(shown))

    @cached_property
    def rules(self) -> set[Rule]:
        """The rules that are broken; the laws only where all pieces are there."""
        broken = set()
        broken |= {Rule.PIECE} if self.impossible else set()
        broken |= {Rule.ONCE} if self.doubled else set()
        broken |= {Rule.COUNT} if self.miscounted else set()
        return broken or self._laws()

    def sticker_images(self) -> list[int]:
        """For every sticker place the place where its colour is at home on its own piece."""
        images = list(range(54))
        for cubie in CUBIES:
            shown = self._shown(cubie)
            x, y, z = np.sum([self.home[colour] for colour in shown.values()], axis=0).tolist()
            for face, colour in shown.items():
                own = next(each for each in FACES if NORMALS[each] == self.home[colour])
                images[STICKER_AT[cubie, face]] = STICKER_AT[(x, y, z), own]
        return images

    def _laws(self) -> set[Rule]:
        images = self.sticker_images()
        edges = [s for s, (cubie, _) in enumerate(STICKERS) if sum(map(abs, cubie)) == 2]
        corners = [s for s, (cubie, _) in enumerate(STICKERS) if sum(map(abs, cubie)) == 3]

        def sign(places: list[int]) -> int:
            return int(Permutation([places.index(images[place]) for place in places]).signature())

        def piece_sign(places: list[int]) -> int:
            cubies = sorted({STICKERS[place][0] for place in places})
            image = {STICKERS[place][0]: STICKERS[images[place]][0] for place in places}
            return int(Permutation([cubies.index(image[cubie]) for cubie in cubies]).signature())

        # Exchanging two edges exchanges two pairs of stickers, a flip one pair: the sign of the edge stickers
        # is that of the flips. A twist is a cycle of three stickers and even.
        broken = {Rule.FLIP} if sign(edges) < 0 else set()
        broken |= {Rule.SWAP} if sign(corners) != piece_sign(edges) else set()
        return broken | ({Rule.TWIST} if self._twists() % 3 else set())

    def _twists(self) -> int:
        """Clockwise thirds from the place's sticker on the up-down axis to the one with such a colour."""
        total = 0
        for cubie in CUBIES:
            if sum(map(abs, cubie)) == 3:
                (found,) = (face for face, colour in self._shown(cubie).items() if self.home[colour][1])
                total += thirds(cubie, found)
        return total


def test_the_oracle_agrees_with_membership_in_the_group_of_turns() -> None:
    group = PermutationGroup(
        [Permutation(turn_sticker_map(turn).tolist()) for turn in TURNS if turn % 3 == 0]
    )
    random = Random(5)
    for colours in samples(6, seed=4):
        cubes = [colours, *(corrupted(colours, random, pieces_only=True) for _ in range(4))]
        for cube in cubes:
            oracle = Oracle(cube)
            assert group.contains(Permutation(oracle.sticker_images())) == (not oracle.rules)


# --------------------------------------------------------------------------------------- corrupted cubes


def corrupted(colours: Colours, random: Random, pieces_only: bool = False) -> Colours:
    """A cube with a few things done to it that turns cannot do."""
    cube = list(colours)
    for _ in range(random.choice((1, 1, 1, 2, 3))):
        kind = random.choice(list(FaultKind))
        size = len(PIECES[kind].faces)
        match random.randrange(3 if pieces_only else 5):
            case 0:
                cube = list(corrected(tuple(cube), Reseat(kind, random.randrange(size))))
            case 1 | 2:
                cube = list(corrected(tuple(cube), Swap(kind, *random.sample(range(size), 2))))
            case 3:
                sticker = random.choice([place for place in range(54) if place % 9 != 4])
                cube[sticker] = random.randrange(6)
            case _:
                one, two = random.sample([place for place in range(54) if place % 9 != 4], 2)
                cube[one], cube[two] = cube[two], cube[one]
    return tuple(cube)


def test_a_thousand_corrupted_cubes_are_refused_with_the_right_reasons() -> None:
    random = Random(11)
    refused: Counter[Rule] = Counter()
    whole = samples(200, seed=6)
    while refused.total() < 1000:
        cube = corrupted(random.choice(whole), random)
        oracle, finding = Oracle(cube), examine(cube)
        assert {fault.rule for fault in finding.faults} == oracle.rules, cube
        assert finding.legal == (not oracle.rules)
        if oracle.rules:
            refused[min(oracle.rules, key=list(Rule).index)] += 1
            check_places(oracle, cube)
        for correction in (finding.only, finding.likeliest, *finding.corrections[:3]):
            assert correction is None or not Oracle(corrected(cube, correction)).rules
    assert min(refused[rule] for rule in Rule if rule not in (Rule.CENTRES, Rule.ONCE)) > 20


def check_places(oracle: Oracle, cube: Colours) -> None:
    """Impossible pieces, doubled ones and miscounted colours are those of the oracle, by their stickers."""
    faults = faults_of(cube)
    wrong = {STICKERS[fault.stickers[0]][0] for fault in faults if fault.rule is Rule.PIECE}
    assert wrong == oracle.impossible
    doubled = {
        frozenset(cube[s] for s in STICKERS_ON[STICKERS[fault.stickers[0]][0]])
        for fault in faults
        if fault.rule is Rule.ONCE
    }
    assert doubled == oracle.doubled
    counted = {cube[fault.stickers[0]] for fault in faults if fault.rule is Rule.COUNT and fault.stickers}
    assert counted == {colour for colour in oracle.miscounted if colour in cube}


STICKERS_ON: dict[Vector, list[int]] = {}
for number, (place, _) in enumerate(STICKERS):
    STICKERS_ON.setdefault(place, []).append(number)


# -------------------------------------------------------------------------------- single faults, all of them


@pytest.mark.parametrize("colours", samples(3, seed=1), ids=("solved", "first", "second", "third"))
def test_every_single_sticker_is_named_with_its_own_colour(colours: Colours) -> None:
    for sticker in range(54):
        for colour in set(range(6)) - {colours[sticker]}:
            cube = (*colours[:sticker], colour, *colours[sticker + 1 :])
            finding = examine(cube)
            assert not finding.legal
            assert finding.only == Repaint(sticker, colours[sticker]), (sticker, colour)
            named = {place for fault in finding.faults for place in fault.stickers}
            assert sticker in named


@pytest.mark.parametrize("colours", samples(3, seed=2), ids=("solved", "first", "second", "third"))
def test_every_single_twist_is_named_with_its_way(colours: Colours) -> None:
    for place in range(8):
        for steps, way in ((1, "clockwise"), (2, "anticlockwise")):
            finding = examine(corrected(colours, Reseat(FaultKind.CORNER, place, steps)))
            (fault,) = finding.faults
            assert fault.rule is Rule.TWIST
            assert f"twisted {way}" in fault.message
            # Any corner twisted back obeys the law; only where the rest is home does one stand out.
            assert set(finding.corrections) == {
                Reseat(FaultKind.CORNER, each, 3 - steps) for each in range(8)
            }
            expected = Reseat(FaultKind.CORNER, place, 3 - steps) if colours is SOLVED_COLOURS else None
            assert finding.likeliest == expected


@pytest.mark.parametrize("colours", samples(3, seed=2), ids=("solved", "first", "second", "third"))
def test_every_single_flip_is_named(colours: Colours) -> None:
    for place in range(12):
        finding = examine(corrected(colours, Reseat(FaultKind.EDGE, place)))
        assert [fault.rule for fault in finding.faults] == [Rule.FLIP]
        assert set(finding.corrections) == {Reseat(FaultKind.EDGE, each) for each in range(12)}
        assert finding.likeliest == (Reseat(FaultKind.EDGE, place) if colours is SOLVED_COLOURS else None)


@pytest.mark.parametrize("colours", samples(3, seed=3), ids=("solved", "first", "second", "third"))
def test_every_single_swap_is_named(colours: Colours) -> None:
    swaps = [
        Swap(kind, *pair) for kind in FaultKind for pair in combinations(range(len(PIECES[kind].faces)), 2)
    ]
    assert len(swaps) == 28 + 66
    for swap in swaps:
        finding = examine(corrected(colours, swap))
        assert [fault.rule for fault in finding.faults] == [Rule.SWAP]
        assert set(finding.corrections) == set(swaps)
        assert finding.likeliest == (swap if colours is SOLVED_COLOURS else None)


def test_in_two_layers_made_a_fault_there_stands_out_whatever_the_last_layer_is() -> None:
    # Two layers home and the last one mixed, by turns that leave two layers alone (common practice).
    cube = HeldCube().position
    for turn in (9, 0, 11, 0, 9, 1, 11, 0):  # R U R' U R U2 R' U
        cube = cube.turned(TURNS[turn])
    colours = HeldCube(cube).colours
    for place in range(4, 8):
        fault = Reseat(FaultKind.CORNER, place, 1)
        assert examine(corrected(colours, fault)).likeliest == Reseat(FaultKind.CORNER, place, 2)
    for place in range(4, 12):
        assert examine(corrected(colours, Reseat(FaultKind.EDGE, place))).likeliest == Reseat(
            FaultKind.EDGE, place
        )


def test_two_things_wrong_have_no_single_correction() -> None:
    cube = corrected(corrected(SOLVED_COLOURS, Reseat(FaultKind.CORNER, 0)), Reseat(FaultKind.EDGE, 0))
    finding = examine(cube)
    assert {fault.rule for fault in finding.faults} == {Rule.TWIST, Rule.FLIP}
    assert finding.corrections == ()
    assert finding.likeliest is None


def test_a_correction_names_its_stickers() -> None:
    for correction in (
        Repaint(17, 3),
        Reseat(FaultKind.CORNER, 5, 2),
        Reseat(FaultKind.EDGE, 7),
        Swap(FaultKind.EDGE, 0, 9),
    ):
        changed = corrected(tuple(range(54)), correction)
        moved = {place for place in range(54) if changed[place] != place}
        assert moved == set(stickers_of(correction))


# ------------------------------------------------------------------------------------------ begun paintings


def painted(**stickers: str) -> Colours:
    """Only the centres and what is given as place="colours of its stickers", U or D (then F or B) first."""
    colours = [SOLVED_COLOURS[place] if place % 9 == 4 else BLANK for place in range(54)]
    for place, words in stickers.items():
        cubie: Vector = tuple(np.sum([NORMALS[Face[name]] for name in place], axis=0).tolist())
        for name, word in zip(place, words.split(), strict=True):
            colours[STICKER_AT[cubie, Face[name]]] = COLOUR_NAMES.index(word) if word != "?" else BLANK
    return tuple(colours)


def test_nothing_painted_is_not_wrong_yet() -> None:
    finding = examine(painted())
    assert finding.faults == ()
    assert finding.blanks == 48
    assert not finding.legal


@pytest.mark.parametrize("colours", samples(4, seed=8), ids=str)
def test_no_part_of_a_right_cube_is_called_wrong(colours: Colours) -> None:
    random = Random(9)
    for _ in range(60):
        share = random.random()
        part = [c if place % 9 == 4 or random.random() < share else BLANK for place, c in enumerate(colours)]
        assert examine(tuple(part)).faults == ()


@pytest.mark.parametrize(
    ("stickers", "message"),
    [
        (
            {"UF": "white yellow"},
            "the top front edge shows white-yellow: no piece has the colours of two opposite faces",
        ),
        (
            {"DFL": "red red ?"},
            "the bottom front-left corner shows red-red: no piece has the same colour twice",
        ),
        ({"DFL": "red ? orange"}, "red-orange: no piece has the colours of two opposite faces"),
        (
            {"UFR": "yellow orange green"},
            "the top front-right corner shows yellow-green-orange: "
            "its colours go round the wrong way; swap two of them",
        ),
        (
            {"UF": "white red", "BL": "red white"},
            "the top front and back-left edges are both white-red; a cube has only one",
        ),
        (
            {"UFR": "white green red", "DFR": "green white ?"},
            "the top front-right and bottom front-right corners are both white-red-green; "
            "a cube has only one",
        ),
        (
            {"UF": "white ?", "UL": "? white", "UB": "white ?", "UR": "white ?", "FR": "? white"},
            "a cube has only four edges with these colours, but you painted five: "
            "top front, top left, top back and two more",
        ),
    ],
)
def test_an_impossible_piece_is_noticed_as_soon_as_it_is_painted(
    stickers: dict[str, str], message: str
) -> None:
    (fault,) = examine(painted(**stickers)).faults
    assert message in fault.message


def test_too_many_of_a_colour_are_noticed_before_the_cube_is_full() -> None:
    colours = list(painted())
    for place in (0, 2, 6, 8, 9, 11, 15, 17, 18):
        colours[place] = 0
    faults = [fault for fault in examine(tuple(colours)).faults if fault.rule is Rule.COUNT]
    assert [fault.message for fault in faults] == ["yellow is on 10 stickers; a cube has only 9"]


def test_other_words_for_the_colours_can_be_given() -> None:
    names = ("lemon", "snow", "rose", "amber", "leaf", "sky")
    (fault,) = examine(painted(UF="white yellow"), names).faults
    assert "snow-lemon" in fault.message


def test_centres_of_another_cube_are_refused() -> None:
    mirrored = tuple({2: 3, 3: 2}.get(colour, colour) for colour in SOLVED_COLOURS)
    (fault,) = examine(mirrored).faults
    assert fault.rule is Rule.CENTRES


@pytest.mark.parametrize("colours", [(), (0,) * 53, (6, *SOLVED_COLOURS[1:]), (-2, *SOLVED_COLOURS[1:])])
def test_other_than_54_colours_are_refused(colours: Colours) -> None:
    with pytest.raises(ValueError, match="54 stickers with colours numbered 0 to 5"):
        examine(colours)


def test_centres_without_a_colour_are_refused() -> None:
    with pytest.raises(ValueError, match="six centres are always painted"):
        examine((*SOLVED_COLOURS[:4], BLANK, *SOLVED_COLOURS[5:]))


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        (
            FaultKind.EDGE,
            "top front|top left|top back|top right|front-right|front-left|back-left|back-right|"
            "bottom front|bottom left|bottom back|bottom right",
        ),
        (
            FaultKind.CORNER,
            "top front-right|top front-left|top back-left|top back-right|"
            "bottom front-right|bottom front-left|bottom back-left|bottom back-right",
        ),
    ],
)
def test_a_place_is_named_by_where_one_sees_it(kind: FaultKind, expected: str) -> None:
    """The places in their order, each with the words for what its letters stand for (WCA 12a1)."""
    pieces = PIECES[kind]
    told = [pieces.in_words(place) for place in range(len(pieces.faces))]
    assert told == [f"the {where} {kind.value}" for where in expected.split("|")]
