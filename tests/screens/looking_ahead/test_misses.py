"""Why an answer is wrong: every wrong answer to every question, held against the stickers of the cube."""

from __future__ import annotations

import re

import pytest

from tests.screens.looking_ahead.test_looking_ahead import begun, looking, played, stickers_of
from tests.session.pilot import Pilot, Reading
from tutor.cube.faces import FACES
from tutor.cube.held_cube import HeldCube
from tutor.cube.stickers import COLOUR_NAMES
from tutor.screens.looking_ahead.misses import miss_words
from tutor.screens.looking_ahead.state import LookingAhead, RoundPhase
from tutor.session.target import colours_as_held
from tutor.solver.search import Solver
from tutor.ui.inputs import StickerPressed

LAYERS = dict(zip(("top", "bottom", "left", "right", "front", "back"), FACES, strict=True))
"""The faces as words (common usage)."""
SIZES = {"corner": 3, "edge": 2}


def shown_at(cube: HeldCube, cubie: int) -> set[str]:
    """The colours of the piece at a cubie, read from the stickers."""
    return {COLOUR_NAMES[cube.colours[sticker]] for sticker in stickers_of(cubie)}


def centre(cube: HeldCube, word: str) -> str:
    return COLOUR_NAMES[cube.colours[9 * LAYERS[word] + 4]]


def followed(round_: LookingAhead, kind: str) -> set[str]:
    """The colours of the piece that the question is about."""
    assert round_.followed is not None
    sides = {
        COLOUR_NAMES[round_.cube.colours[9 * FACES["UDLRFB".index(letter)] + 4]]
        for letter in round_.followed.name
    }
    return sides | ({centre(round_.cube, "bottom")} if kind == "corner" else set())


def check(round_: LookingAhead, kind: str, chosen: int, said: str) -> str:
    """Every claim of an explanation; which of the three kinds it was."""
    wanted = followed(round_, kind)
    cubes = [round_.cube.after(round_.turns[:count]) for count in range(len(round_.turns) + 1)]
    cubies = [cubie for cubie in range(27) if len(stickers_of(cubie)) == SIZES[kind]]
    path = [next(cubie for cubie in cubies if shown_at(cube, cubie) == wanted) for cube in cubes]
    where, what, *why = re.split(r"(?<=\.) ", said)
    words = set(re.findall(r"top|bottom|left|right|front|back", where))
    sides = {word for word in LAYERS if stickers_at(path[-1], word)}
    # A place in a slot is named without its layer.
    assert words == (sides if "top" in sides else sides - {"bottom"})
    check_what(round_.end, kind, shown_at(round_.end, chosen), what)
    assert max(len(sentence.split()) for sentence in (where, what, *why)) <= 20
    assert len(said.split()) <= 60
    return check_why(round_, path, chosen, " ".join(why))


def stickers_at(cubie: int, word: str) -> bool:
    return any(sticker // 9 == LAYERS[word] for sticker in stickers_of(cubie))


def check_what(end: HeldCube, kind: str, there: set[str], what: str) -> None:
    if found := re.fullmatch(rf"You chose an? {kind} with (\w+) on it, so it belongs to no pair\.", what):
        assert found[1] == centre(end, "top")
        assert found[1] in there
    elif found := re.fullmatch(rf"You chose the {kind} of the (\w+)-(\w+) pair\.", what):
        assert there == {found[1], found[2]} | ({centre(end, "bottom")} if kind == "corner" else set())
    else:
        assert what == "You chose an edge of the cross."
        assert centre(end, "bottom") in there


def check_why(round_: LookingAhead, path: list[int], chosen: int, why: str) -> str:
    if "No turn moved" in why:
        assert len(set(path)) == 1
        return "never moved"
    found = re.search(r"turn (\d+) of (\d+)", why)
    layer = re.search(r"the (\w+) layer", why)
    assert found is not None
    assert layer is not None
    turn = int(found[1])
    assert int(found[2]) == len(round_.turns)
    assert round_.turns[turn - 1].face == LAYERS[layer[1]]
    if "never was" in why or "was never" in why:
        assert chosen not in path
        assert path[turn - 1] != path[turn]
        assert set(path[turn:]) == {path[-1]}
        return "never there"
    assert path[turn - 1] == chosen
    assert chosen not in path[turn:]
    return "was there"


@pytest.fixture(scope="module")
def reasons(solver: Solver) -> dict[str, int]:
    """How often each kind of explanation came, over every wrong answer in the rounds of some positions."""
    counted: dict[str, int] = {}
    for seed in range(6):
        pilot = Pilot(solver, seed=seed)
        begun(pilot)
        while looking(pilot).watch is not RoundPhase.OVER:
            round_ = looking(pilot)
            colours = colours_as_held(round_.cube, COLOUR_NAMES)
            for kind, right in zip(SIZES, round_.pieces(round_.end) or (), strict=True):
                for chosen in range(27):
                    if len(stickers_of(chosen)) == SIZES[kind] and chosen != right:
                        found = check(round_, kind, chosen, miss_words(round_, kind, chosen, colours))
                        counted[found] = counted.get(found, 0) + 1
            played(pilot)
            pilot.give_keys("1", "2", "space")
    return counted


def test_every_wrong_answer_is_explained_as_the_stickers_show(reasons: dict[str, int]) -> None:
    assert set(reasons) == {"was there", "never there", "never moved"}
    assert min(reasons.values()) > 20


def test_the_explanation_is_on_the_card(pilot: Pilot) -> None:
    begun(pilot)
    played(pilot)
    round_ = looking(pilot)
    corner, _ = round_.pieces(round_.end) or (0, 0)
    other = next(each for each in range(27) if len(stickers_of(each)) == 3 and each != corner)
    pilot.give(StickerPressed(stickers_of(other)[0]))
    (note,) = Reading(pilot.view).verdicts
    colours = colours_as_held(round_.cube, COLOUR_NAMES)
    assert note.text == miss_words(round_, "corner", other, colours)
