"""While turns are shown, rail, arrow, caption and card speak of one turn at every moment."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.session.pilot import Pilot, Reading, rail_of, stage_of
from tutor.cube.faces import Turn
from tutor.method.cases import CASES
from tutor.session.demonstration import Demonstration
from tutor.ui.inputs import Modifier, Scrubbed
from tutor.ui.view import Arrow, Rail, Tile, View

SOME = [case.slug for case in CASES[::4]] + ["corner-up-edge-front-right-up"]
TOLD_ALIKE = "edge up to the top layer."
"""What ends the one sentence that can be the same before a turn and after it; then nothing is new to read."""
PACE = 250.0
"""Words a minute for which a sentence stays at least (issue 17)."""
FRAME = 0.1


def begin(pilot: Pilot, slug: str) -> Demonstration:
    """The case's route shown from its page in the book, every sentence known."""
    pilot.press("open:CASE_BOOK")
    pilot.press(f"case:FR:0:{slug}")
    pilot.settle()
    pilot.key("a")
    pilot.settle()
    return shown(pilot)


def shown(pilot: Pilot) -> Demonstration:
    demonstration = pilot.session.demonstration
    assert demonstration is not None
    return demonstration


def tiles(rail: Rail) -> list[Tile]:
    return [tile for bay in rail.bays for tile in bay.tiles]


def told(pilot: Pilot) -> tuple[str, str]:
    """The heading of the card and the sentence beneath it."""
    return told_by(pilot.view)


def told_by(view: View) -> tuple[str, str]:
    heading, sentence, *_ = Reading(view).texts
    return heading, sentence


def check_agreement(pilot: Pilot, view: View) -> int:
    """What is seen at this moment, read off the view alone; the number of the turn, from 0."""
    demonstration, rail, stage = shown(pilot), view.rail, view.stage
    assert rail is not None
    assert stage is not None
    (turn,) = (index for index, tile in enumerate(tiles(rail)) if tile.current)
    step = demonstration.steps[turn]
    assert step is not None
    heading, sentence = told_by(view)
    notation = demonstration.turns[turn].notation
    assert heading == f"{step.value.capitalize()}: {notation}"
    assert rail.caption == f"{turn + 1} of {len(demonstration.turns)} · 1x"
    assert stage.arrow in (None, Arrow(demonstration.turns[turn]))
    # A sentence names its turn, or says what to do with it; none names another turn in its place.
    named = {each.notation for each in Turn} & set(sentence.replace(",", " ").replace(".", " ").split())
    assert notation in named or not named
    if stage.turning is not None:
        assert stage.turning.face is demonstration.turns[turn].face
        assert stage.arrow is None
    elif stage.arrow is not None:
        assert rail.playhead == float(turn)
        assert stage.colours == demonstration.start.after(demonstration.turns[:turn]).colours
    else:
        assert rail.playhead == float(turn + 1)
        assert stage.colours == demonstration.start.after(demonstration.turns[: turn + 1]).colours
    return turn


def slow_pass(pilot: Pilot) -> Iterator[View]:
    """The views of the slow pass, one picture after the other."""
    while not told_by(view := pilot.view)[0].startswith("At full speed"):
        yield view
        pilot.wait(FRAME)


@pytest.mark.parametrize("slug", SOME)
def test_at_every_moment_all_speak_of_one_turn_and_every_sentence_can_be_read(
    pilot: Pilot, slug: str
) -> None:
    """First slowly, then at full speed, where nothing is said and no arrow is seen before the end."""
    demonstration = begin(pilot, slug)
    turns, lasts = [], dict[tuple[int, str, bool], float]()
    for view in slow_pass(pilot):
        turn = check_agreement(pilot, view)
        assert view.stage is not None
        key = (turn, told_by(view)[1], view.stage.turning is None)
        lasts[key] = lasts.get(key, 0.0) + FRAME
        turns.append(turn)
    assert turns == sorted(turns)
    assert set(turns) == set(range(len(demonstration.turns)))
    for (_, sentence, at_rest), time in lasts.items():
        if at_rest:
            assert time > max(1.2, 60.0 * len(sentence.split()) / PACE) - FRAME
    # Of every turn two things are said: what it is about to do, and what it changed.
    said = {(turn, sentence) for turn, sentence, _ in lasts}
    for turn in set(turns):
        sentences = [sentence for number, sentence in said if number == turn]
        assert len(sentences) == 2 or sentences[0].endswith(TOLD_ALIKE)
    check_full_speed(pilot)


def check_full_speed(pilot: Pilot) -> None:
    """Nothing is said and no arrow is seen until the turns have been made at full speed."""
    demonstration = shown(pilot)
    said = set()
    while pilot.moving:
        view = pilot.view
        assert view.stage is not None
        assert view.rail is not None
        assert view.stage.arrow is None
        said.add((told_by(view)[0], view.rail.caption))
        pilot.wait(0.03)
    assert said == {("At full speed", "At full speed · 1x")}
    assert stage_of(pilot).arrow is None
    last, step = demonstration.turns[-1], demonstration.steps[-1]
    assert step is not None
    heading, sentence = told(pilot)
    assert heading == f"{step.value.capitalize()}: {last.notation}"
    assert "solve" in sentence.lower() or "slot" in sentence


@pytest.mark.parametrize("slug", SOME[::3])
def test_paused_at_any_moment_all_stay_with_that_turn(pilot: Pilot, slug: str) -> None:
    begin(pilot, slug)
    for moment in range(40):
        turn = check_agreement(pilot, pilot.view)
        before = pilot.view
        pilot.key("space")
        assert not pilot.moving
        pilot.wait(30.0)
        assert check_agreement(pilot, pilot.view) == turn
        assert pilot.view.stage == before.stage
        assert list(told(pilot)) == Reading(before).texts[:2]
        pilot.key("space")
        pilot.wait(0.37 if moment % 2 else 0.9)
        if told(pilot)[0].startswith("At full speed"):
            break


@pytest.mark.parametrize("slug", SOME)
def test_stepped_on_and_back_all_go_from_turn_to_turn(pilot: Pilot, slug: str) -> None:
    demonstration = begin(pilot, slug)
    count = len(demonstration.turns)
    pilot.key("space")
    for turn in range(count):
        assert check_agreement(pilot, pilot.view) == turn
        assert stage_of(pilot).arrow == Arrow(demonstration.turns[turn])
        before = told(pilot)
        pilot.key("right")
        assert pilot.moving
        pilot.wait(0.2)
        assert check_agreement(pilot, pilot.view) == turn
        assert told(pilot) == before
        pilot.wait(60.0)
        assert not pilot.moving
        if check_agreement(pilot, pilot.view) == turn + 1:
            assert before[1].endswith(TOLD_ALIKE)
            continue
        assert check_agreement(pilot, pilot.view) == turn
        assert told(pilot)[1] != before[1]
        if turn + 1 < count:
            pilot.key("right")
            pilot.wait(60.0)
    for turn in reversed(range(count)):
        pilot.key("left")
        assert check_agreement(pilot, pilot.view) == turn
        assert stage_of(pilot).arrow == Arrow(demonstration.turns[turn])


@pytest.mark.parametrize("slug", SOME)
def test_scrubbed_anywhere_all_speak_of_the_turn_there(pilot: Pilot, slug: str) -> None:
    count = len(begin(pilot, slug).turns)
    for quarters in (*range(4 * count + 1), *range(4 * count, -1, -3)):
        pilot.give(Scrubbed(quarters / 4))
        assert check_agreement(pilot, pilot.view) == min(count - 1, quarters // 4)
        assert rail_of(pilot).playhead == quarters / 4


def test_a_tile_that_is_pressed_shows_its_turn_as_the_one_to_come(pilot: Pilot) -> None:
    demonstration = begin(pilot, SOME[5])
    for turn in reversed(range(len(demonstration.turns))):
        pilot.press(tiles(rail_of(pilot))[turn].action)
        assert check_agreement(pilot, pilot.view) == turn
        assert stage_of(pilot).arrow == Arrow(demonstration.turns[turn])


@pytest.mark.parametrize("slug", SOME[::3])
def test_with_reduced_motion_all_speak_of_one_turn_while_pictures_fade(pilot: Pilot, slug: str) -> None:
    pilot.key("f7")
    demonstration = begin(pilot, slug)
    fades, mixes = set(), dict[int, list[float]]()
    for view in slow_pass(pilot):
        stage, rail = view.stage, view.rail
        assert stage is not None
        assert rail is not None
        assert stage.turning is None
        if stage.crossfade is None:
            check_agreement(pilot, view)
            continue
        (turn,) = (index for index, tile in enumerate(tiles(rail)) if tile.current)
        assert told_by(view)[0].endswith(f": {demonstration.turns[turn].notation}")
        assert stage.arrow is None
        assert stage.crossfade == demonstration.start.after(demonstration.turns[:turn]).colours
        fades.add(turn)
        mixes.setdefault(turn, []).append(stage.crossfade_mix)
    assert fades == set(range(len(demonstration.turns)))
    # A picture fades in and never goes back, so that nothing flashes.
    assert all(mix == sorted(mix) for mix in mixes.values())


def test_step_by_step_everywhere_is_a_setting_and_space_brings_each_beat(pilot: Pilot) -> None:
    pilot.press("open:SETTINGS")
    pilot.press(Reading(pilot.view).button("always").action)
    demonstration = begin(pilot, SOME[5])
    labels = [(button.label, button.key, button.primary) for button in rail_of(pilot).controls]
    assert labels[:3] == [("Back", "←", False), ("Play", "Shift+Space", False), ("Next turn", "→", True)]
    for turn in range(len(demonstration.turns)):
        for made in (False, True):
            pilot.wait(60.0)
            assert not pilot.moving
            assert check_agreement(pilot, pilot.view) == turn
            assert (stage_of(pilot).arrow is None) is made
            pilot.key("space")
    assert told(pilot)[0] == "At full speed"


def test_play_lets_what_waits_go_on_by_itself_and_back(pilot: Pilot) -> None:
    pilot.press("open:SETTINGS")
    pilot.press(Reading(pilot.view).button("always").action)
    begin(pilot, SOME[5])
    pilot.key("space", Modifier.SHIFT)
    assert pilot.moving
    labels = [(button.label, button.key) for button in rail_of(pilot).controls]
    assert labels[:3] == [("Back", "←"), ("Pause", "Space"), ("Next turn", "→")]
    pilot.wait(3.0)
    assert pilot.moving
    pilot.key("space", Modifier.SHIFT)
    assert not pilot.moving
    turn = check_agreement(pilot, pilot.view)
    pilot.key("space")
    pilot.wait(60.0)
    assert not pilot.moving
    assert check_agreement(pilot, pilot.view) in (turn, turn + 1)
