"""Looking ahead: what is hidden, at what pace turns are played, what is asked and what answers get."""

from __future__ import annotations

import pytest

from tests.screens.solve.test_solving import cross_made, down_of, faces, hands, scrambled, solve_of
from tests.session.held import held
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, rail_of, stage_of
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.position import CROSS_EDGES
from tutor.screens.looking_ahead import words
from tutor.screens.looking_ahead.state import LOOKING, PACES, LookingAhead, RoundPhase
from tutor.ui.inputs import StickerPressed
from tutor.ui.view import HIDDEN, Button, Mark


def looking(pilot: Pilot) -> LookingAhead:
    assert LOOKING.of(pilot.session) is not None
    return held(LOOKING.of(pilot.session))


def begun(pilot: Pilot) -> None:
    pilot.press("open:SOLVE")
    pilot.press(Reading(pilot.view).button("Looking ahead").action)
    pilot.settle()


def seen(pilot: Pilot) -> set[int]:
    """The cubies of which anything is shown."""
    stickers = zip(STICKERS, stage_of(pilot).colours, strict=True)
    return {cubie_number(cubie) for (cubie, _), colour in stickers if colour != HIDDEN}


def played(pilot: Pilot) -> None:
    pilot.key("space")
    pilot.wait(60.0)


def stickers_of(cubie: int) -> list[int]:
    return [sticker for sticker, (place, _) in enumerate(STICKERS) if cubie_number(place) == cubie]


def pieces(pilot: Pilot) -> tuple[int, int]:
    found = looking(pilot).pieces(looking(pilot).end)
    assert found is not None
    return found


def test_it_begins_from_a_random_position_with_the_cross_made(pilot: Pilot) -> None:
    begun(pilot)
    assert pilot.view.screen == "looking ahead"
    assert looking(pilot).cube.position.cross_home
    assert looking(pilot).watch is RoundPhase.READY


def test_only_the_top_and_the_layers_beside_unsolved_slots_are_played(pilot: Pilot) -> None:
    begun(pilot)
    while looking(pilot).watch is not RoundPhase.OVER:
        assert faces(looking(pilot).turns) <= hands(looking(pilot).cube.position)
        played(pilot)
        pilot.give_keys("1", "2", "space")


def test_every_place_offered_has_a_key_and_the_question_names_the_pair(pilot: Pilot) -> None:
    begun(pilot)
    played(pilot)
    (question,) = (text for text in Reading(pilot.view).texts if "Click its place" in text)
    assert "pair" in question
    offered = [block for block in Reading(pilot.view).blocks if isinstance(block, Button)]
    offered = [block for block in offered if action_name(block.action).startswith("answer:")]
    assert len(offered) > 6
    assert [block.key for block in offered] == [str(number + 1) for number in range(len(offered))]
    pilot.key(str(len(offered)))
    assert len(looking(pilot).pointed) == 1


def test_only_the_pieces_of_the_next_pair_are_shown(pilot: Pilot) -> None:
    begun(pilot)
    assert seen(pilot) == set(looking(pilot).pieces(looking(pilot).cube) or ())
    shown = [colour for colour in stage_of(pilot).colours if colour != HIDDEN]
    assert len(shown) == 5
    pilot.key("space")
    counts = set()
    for _ in range(150):
        pilot.now += 0.2
        if pilot.moving:
            counts.add(sum(colour != HIDDEN for colour in stage_of(pilot).colours))
    assert counts == {5}
    assert seen(pilot) == set()  # when they are asked for, nothing is left to see


def test_turns_come_at_a_steady_pace_that_can_be_changed(pilot: Pilot) -> None:
    begun(pilot)
    pilot.key("space")
    shown = pilot.session.demonstration
    assert shown is not None
    lasts = [span.seconds for span in shown.spans[1:]]
    gaps = {round(turning + resting, 6) for turning, resting in zip(lasts[::2], lasts[1::2], strict=True)}
    assert gaps == {60.0 / looking(pilot).pace}
    pilot.wait(2.0)
    before = shown.playhead(pilot.now)
    pilot.key("down")
    slower = pilot.session.demonstration
    assert slower is not None
    assert slower.pace == looking(pilot).pace == 30
    assert slower.playhead(pilot.now) == pytest.approx(before, abs=0.5)
    for _ in range(20):
        pilot.press("ahead:QUICKER")
    assert looking(pilot).pace == PACES[-1]
    assert "90 turns a minute" in rail_of(pilot).caption


def test_what_moves_can_be_paused(pilot: Pilot) -> None:
    """WCAG 2.2, 2.2.2: what moves by itself for more than five seconds can be paused."""
    begun(pilot)
    pilot.key("space")
    pilot.wait(1.5)
    pilot.key("space")
    assert not pilot.moving
    before = stage_of(pilot)
    pilot.wait(30.0)
    assert stage_of(pilot) == before
    pilot.key("space")
    assert pilot.moving


def test_right_answers_by_click_are_told_and_it_goes_on(pilot: Pilot) -> None:
    begun(pilot)
    played(pilot)
    corner, edge = pieces(pilot)
    pilot.give(StickerPressed(stickers_of(corner)[0]))
    assert seen(pilot) == {corner}
    pilot.give(StickerPressed(stickers_of(edge)[1]))
    assert [note.mark for note in Reading(pilot.view).verdicts] == [Mark.OPTIMAL, Mark.OPTIMAL]
    assert "You have found 2 pieces out of 2." in Reading(pilot.view).texts
    assert stage_of(pilot).outlined == {corner, edge}
    assert HIDDEN not in stage_of(pilot).colours
    end, followed = looking(pilot).end, looking(pilot).followed
    pilot.key("space")
    assert looking(pilot).cube == end
    assert looking(pilot).stages[0].slot is followed


def test_wrong_answers_are_told_with_where_the_piece_is(pilot: Pilot) -> None:
    begun(pilot)
    played(pilot)
    corner, edge = pieces(pilot)
    pilot.give(StickerPressed(stickers_of(edge)[0]))  # an edge is no answer to where the corner is
    assert looking(pilot).pointed == ()
    other = next(each for each in range(27) if len(stickers_of(each)) == 3 and each != corner)
    pilot.give(StickerPressed(stickers_of(other)[0]))
    (note,) = Reading(pilot.view).verdicts
    assert (note.mark, note.title) == (Mark.DETOUR, "Not there")
    assert looking(pilot).right == 0


def test_answers_can_be_given_by_key_and_by_button(pilot: Pilot) -> None:
    begun(pilot)
    played(pilot)
    corner, edge = pieces(pilot)
    shown = [each for each in Reading(pilot.view).blocks if isinstance(each, Button)]
    buttons = [each for each in shown if action_name(each.action).startswith("answer:")]
    assert len(buttons) == 4 + 4 - len(looking(pilot).end.position.home_pairs)
    pilot.key("1")
    assert len(looking(pilot).pointed) == 1
    pilot.press("answer:0")
    assert looking(pilot).watch is RoundPhase.TOLD
    rights = zip(looking(pilot).pointed, (corner, edge), strict=True)
    assert looking(pilot).right == sum(given == cubie for given, cubie in rights)


def test_seen_again_nothing_counts(pilot: Pilot) -> None:
    begun(pilot)
    played(pilot)
    pilot.give_keys("1", "1")
    counted = looking(pilot).asked
    pilot.press(Reading(pilot.view).button("See these turns again").action)
    assert pilot.moving
    pilot.wait(60.0)
    pilot.give_keys("1", "1")
    assert looking(pilot).asked == counted == 2


def test_it_ends_when_no_pair_is_left_to_follow(pilot: Pilot) -> None:
    begun(pilot)
    rounds = len(looking(pilot).stages) - 1
    for _ in range(rounds):
        assert looking(pilot).watch is RoundPhase.READY
        played(pilot)
        pilot.give_keys("1", "2")
        pilot.key("space")
    assert looking(pilot).watch is RoundPhase.OVER
    assert looking(pilot).asked == 2 * rounds
    pilot.press(Reading(pilot.view).button("Try another position").action)
    pilot.settle()
    assert looking(pilot).watch is RoundPhase.READY


def test_from_a_solve_in_hand_and_back_to_it(pilot: Pilot) -> None:
    scrambled(pilot)
    pilot.press("solve:LOOK_AHEAD")
    assert pilot.view.screen == "solve"  # the cross is not made yet, and that is said
    edges = down_of(pilot).cube.position.edges
    count = sum(edges[piece] == 2 * piece for piece in CROSS_EDGES)
    assert pilot.view.notice == words.cross_missing(count)
    cross_made(pilot)
    solve = solve_of(pilot)
    pilot.press(Reading(pilot.view).button("More choices").action)
    pilot.press(Reading(pilot.view).button("Look ahead").action)
    pilot.settle()
    assert looking(pilot).cube == solve.attempt.cube
    pilot.key("r")
    played(pilot)
    pilot.key("escape")
    assert pilot.view.screen == "solve"
    assert solve_of(pilot).attempt == solve.attempt


def test_what_is_missing_is_said_with_how_far_one_is() -> None:
    assert words.cross_missing(0) == (
        "To look ahead, solve the cross first. So far none of its four edges are in place."
    )
    assert words.cross_missing(1) == (
        "To look ahead, solve the cross first. So far one of its four edges is in place."
    )
    assert words.pairs_missing(1) == (
        "To look ahead, you need two unsolved pairs. You have one unsolved pair left."
    )


def test_keys_for_the_pace_are_on_their_buttons_while_they_hold(pilot: Pilot) -> None:
    begun(pilot)
    assert [Reading(pilot.view).button(label).key for label in ("Slower", "Faster")] == ["", ""]
    pilot.key("space")
    assert [Reading(pilot.view).button(label).key for label in ("Slower", "Faster")] == ["↓", "↑"]


def test_with_less_motion_pictures_fade_and_hide_as_much(pilot: Pilot) -> None:
    begun(pilot)
    pilot.press("act:MOTION")
    pilot.key("space")
    pilot.wait(1.0)
    stage = stage_of(pilot)
    assert stage.turning is None
    assert stage.crossfade is not None
    for colours in (stage.colours, stage.crossfade):
        assert sum(colour != HIDDEN for colour in colours) == 5
