"""A painted cube is not lost: on other screens, at the next start, as text."""

from __future__ import annotations

from random import Random

import pytest
from msgspec.structs import replace

from tests.screens.painting.easel import colours_of, mixed, pasted, text_of
from tests.session.pilot import Pilot, Reading
from tutor.cube.held_cube import HeldCube
from tutor.cube.legality import BLANK
from tutor.cube.notation import parse_moves
from tutor.cube.sticker_text import parse_stickers
from tutor.progress.attempt import GUEST
from tutor.screens.painting.state import CENTRES, PAINTING, PATH
from tutor.screens.painting.text import painting_text, read_painting
from tutor.screens.painting.update import with_text
from tutor.screens.solve.state import SOLVE
from tutor.ui.inputs import Modifier
from tutor.ui.view import Entry, Look

# ---------------------------------------------------------------------------------------- nothing is lost


def test_going_away_and_coming_back_loses_nothing(painter: Pilot) -> None:
    painter.give_keys(*"wrg")
    before = PAINTING.of(painter.session)
    painter.key("escape")
    assert painter.view.screen == "solve"
    assert Reading(painter.view).button("Paint your cube").detail == "You have painted 3 of 48 stickers."
    painter.press("open:SETTINGS")
    painter.press("open:FREE_PLAY")
    painter.turn("R U")
    painter.press("open:PAINTING")
    assert PAINTING.of(painter.session) is before


def test_what_was_painted_is_there_after_its_solve(painter: Pilot) -> None:
    pasted(painter, mixed(5))
    painter.key("enter")
    assert SOLVE.of(painter.session) is not None
    painter.turn("R U F")
    painter.press("solve:NEW_SOLVE")
    painter.press(Reading(painter.view).button("Paint your cube").action)
    assert colours_of(painter) == mixed(5)


def test_every_change_is_kept_for_the_next_start(painter: Pilot) -> None:
    kept: list[str] = []
    painter.rewire(save_painting=lambda learner, text: kept.append(text) if learner == GUEST else None)
    painter.give_keys(*"wr")
    painter.key("right")
    assert len(kept) == 2
    again = Pilot(painter.solver)
    again.application.session = with_text(again.session, kept[-1])
    again.press("open:PAINTING")
    assert colours_of(again) == colours_of(painter)


@pytest.mark.parametrize("text", ["", "U: yyy", "nonsense", "R U Q", text_of(mixed(1)).replace("y", "w")])
def test_a_file_that_is_no_painting_counts_as_none(pilot: Pilot, text: str) -> None:
    assert with_text(pilot.session, text) is pilot.session


# --------------------------------------------------------------------------------------------------- text


def test_a_painting_only_begun_goes_out_and_in_as_text(painter: Pilot) -> None:
    copied: list[str] = []
    painter.application.copy_text = copied.append
    painter.give_keys(*"wroygb")
    before = colours_of(painter)
    painter.key("c", Modifier.CONTROL)
    assert copied[0].splitlines()[0] == "U: wro yyg b.."
    painter.press(Reading(painter.view).button("Erase all").action)
    pasted(painter, parse_stickers(copied[0], blanks=True))
    assert colours_of(painter) == before


def test_a_scramble_is_taken_over_as_it_would_look(painter: Pilot) -> None:
    painter.key("v", Modifier.CONTROL)
    painter.write("R U2 F'")
    painter.key("enter")
    # Scrambles are made with white on top and green in front (WCA 4d1).
    expected = HeldCube().after(parse_moves("z2 R U2 F'")).colours
    assert colours_of(painter) == expected


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("U: yyy", "9|nine"),
        ("R U Q", "Q"),
        (
            text_of(HeldCube().colours).replace("U: yyy yyy", "U: yyy y.y"),
            "a centre has no colour; write the colours of all six centres",
        ),
        (text_of(tuple({2: 3, 3: 2}.get(c, c) for c in HeldCube().colours)), "centres"),
    ],
)
def test_a_text_with_a_mistake_changes_nothing_and_stays(painter: Pilot, text: str, words: str) -> None:
    painter.give_keys(*"wr")
    before = PAINTING.of(painter.session)
    painter.key("v", Modifier.CONTROL)
    painter.write(text)
    painter.key("enter")
    (entry,) = [block for block in Reading(painter.view).blocks if isinstance(block, Entry)]
    assert entry.text == text
    assert any(word in entry.error for word in words.split("|")), entry.error
    assert PAINTING.of(painter.session) is before


def test_text_and_painting_are_each_others_inverse_in_any_arrangement() -> None:
    random = Random(6)
    for arrangement in ((0, 1, 2, 3, 4, 5), (1, 0, 3, 2, 4, 5), (4, 5, 0, 1, 2, 3)):
        look = Look(arrangement=arrangement)
        for seed in range(5):
            part = tuple(
                c if place in CENTRES or random.random() < 0.5 else BLANK
                for place, c in enumerate(mixed(seed))
            )
            assert read_painting(painting_text(part, look).replace("\n", " "), look) == part


def test_letters_mean_the_colours_that_a_person_has_chosen(painter: Pilot) -> None:
    names = ("blue", "green", "yellow", "white", "red", "orange")
    settings = painter.session.settings
    look = replace(settings.look, arrangement=(5, 4, 0, 1, 2, 3))
    painter.application.session = replace(
        painter.session, settings=replace(settings, look=look, colour_names=names)
    )
    assert Reading(painter.view).texts[0] == "Hold your cube with blue on top and red in front"
    painter.key("w")
    assert colours_of(painter)[PATH[0]] == 3
    copied: list[str] = []
    painter.application.copy_text = copied.append
    painter.key("c", Modifier.CONTROL)
    assert copied[0].splitlines()[0] == "U: w.. .b. ..."
    painter.press("painting:FILL")
    painter.key("c", Modifier.CONTROL)
    painter.key("enter")
    painter.key("c", Modifier.CONTROL)
    # The solve writes the same cube in the same letters: it is held as it was painted, with the cross down.
    assert copied[2] == copied[1]
    assert copied[1].splitlines()[0] == "U: bbb bbb bbb"
