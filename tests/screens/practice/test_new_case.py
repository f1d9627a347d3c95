"""A new case: first what there is to see, then a try with hints; one met in a lesson begins with trying."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.screens.practice.sitting import begin, run_of, sits_down, texts
from tests.session.pilot import EPOCH, Pilot, Reading, rail_of, stage_of
from tutor.coach.guidance import Help
from tutor.coach.scene import Piece
from tutor.cube.faces import FACES
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import GUEST, AttemptRecord, Mode, Outcome
from tutor.progress.store import AttemptStore
from tutor.screens.practice import looking
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.state import STEPS_NAMED, RunPhase
from tutor.solver.search import Solver
from tutor.ui.inputs import StickerPressed
from tutor.ui.view import BayState, Button


@pytest.fixture
def beginner(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


def cubies_of(pilot: Pilot, *colours: int) -> frozenset[int]:
    """The cubies that show just these colours, read from the stickers on the stage."""
    shown: dict[int, set[int]] = {}
    for place, (cubie, _) in enumerate(STICKERS):
        shown.setdefault(cubie_number(cubie), set()).add(stage_of(pilot).colours[place])
    return frozenset(cubie for cubie, found in shown.items() if found == set(colours))


def pair_on_stage(pilot: Pilot) -> tuple[frozenset[int], frozenset[int]]:
    """Corner and edge of the pair, by the colours of the centres beside the framed slot."""
    aim = run_of(pilot).attempt.aim
    assert aim is not None
    return cubies_of(pilot, aim.cross, *aim.pair), cubies_of(pilot, *aim.pair)


def click(pilot: Pilot, cubies: frozenset[int]) -> None:
    (cubie,) = cubies
    place = next(place for place, (at, _) in enumerate(STICKERS) if cubie_number(at) == cubie)
    pilot.give(StickerPressed(place))


def name_the_step(pilot: Pilot) -> None:
    answer = pilot.session.answers.at(run_of(pilot).attempt.bearing(0))
    assert answer is not None
    pilot.key(str(STEPS_NAMED.index(answer.step) + 1))


@pytest.mark.parametrize("cross", FACES)
def test_the_two_pieces_are_found_by_pointing_in_either_order(
    solver: Solver, tmp_path: Path, cross: int
) -> None:
    pilot = sits_down(solver, tmp_path)
    settings = replace(pilot.session.settings, cross=FACES[cross])
    pilot.application.session = replace(pilot.session, settings=settings)
    for slot, order in zip(SLOTS, (0, 1, 0, 1), strict=True):
        pilot.application.give(TryCase(CASES[cross + slot].slug, slot))
        pilot.settle()
        assert run_of(pilot).phase is RunPhase.LOOKING
        assert stage_of(pilot).outlined == frozenset()
        assert stage_of(pilot).dimmed == frozenset()
        pair = pair_on_stage(pilot)
        click(pilot, pair[order])
        assert stage_of(pilot).outlined == pair[order]
        click(pilot, pair[1 - order])
        assert "Which step comes first?" in texts(pilot)
        assert stage_of(pilot).outlined == pair[0] | pair[1]
        name_the_step(pilot)
        assert run_of(pilot).phase is RunPhase.TURNING
        assert Reading(pilot.view).verdicts[0].title.endswith(" comes first")


def test_what_is_asked_is_not_given_away_and_can_be_answered_by_key(beginner: Pilot) -> None:
    begin(beginner)
    run = run_of(beginner)
    assert run.phase is RunPhase.LOOKING
    assert run.case.short_name() not in texts(beginner)
    after_find = [BayState.AHEAD] * 4
    for piece in Piece:
        assert run_of(beginner).look is not None
        assert [bay.state for bay in rail_of(beginner).bays] == [BayState.CURRENT, *after_find]
        sight = looking.seen(beginner.session, run_of(beginner))
        assert sight is not None
        offered = looking.places(beginner.session, run_of(beginner))
        right = next(index for index, (_, cubie) in enumerate(offered) if cubie == sight.cubie(piece))
        wrong = next(index for index in range(len(offered)) if index != right)
        beginner.key(str(wrong + 1))
        note = Reading(beginner.view).verdicts[-1]
        assert note.title == "Not here"
        assert "Look for the" in note.text
        buttons = [block for block in Reading(beginner.view).blocks if isinstance(block, Button)]
        assert [button.enabled for button in buttons if button.label == offered[wrong][0]] == [False]
        beginner.key(str(right + 1))
        assert Reading(beginner.view).verdicts == []
    # Both are found, and which step comes next is the question.
    assert [bay.state for bay in rail_of(beginner).bays] == [BayState.DONE, *after_find]
    answer = beginner.session.answers.at(run_of(beginner).attempt.bearing(0))
    assert answer is not None
    other = next(index for index, step in enumerate(STEPS_NAMED) if step is not answer.step)
    beginner.key(str(other + 1))
    assert Reading(beginner.view).verdicts[-1].text
    name_the_step(beginner)
    assert run_of(beginner).phase is RunPhase.TURNING
    assert run_of(beginner).help is Help.WITH_HINTS


def test_a_turn_waits_for_the_look_and_enter_takes_the_cube_at_once(beginner: Pilot) -> None:
    begin(beginner)
    beginner.key("r")
    assert run_of(beginner).made == ()
    assert "Look first: answer the question, or press Enter to turn now." in beginner.view.notice
    beginner.wait(30.0)
    beginner.key("enter")
    assert run_of(beginner).phase is RunPhase.TURNING
    assert beginner.view.notice == ""
    beginner.wait(2.0)
    beginner.turn("R")
    # The time of a try begins with the learner's part.
    assert run_of(beginner).made[0].at == pytest.approx(2.0, abs=0.1)


def test_a_case_met_in_a_lesson_or_tried_before_begins_with_trying(solver: Solver, tmp_path: Path) -> None:
    time = datetime.fromtimestamp(EPOCH - 3600.0, UTC)
    slugs = [case.slug for case in CASES[:2]]
    with AttemptStore.open(tmp_path, lambda: time) as store:
        for slug, mode in zip(slugs, (Mode.LESSON, Mode.TODAY), strict=True):
            store.record(AttemptRecord(GUEST, time, slug, Slot.FR, 0, mode, Outcome.GIVEN_UP, 0, 3, 9.0))
    pilot = sits_down(solver, tmp_path)
    pilot.application.give(TryCase(slugs[0]))
    pilot.settle()
    assert (run_of(pilot).phase, run_of(pilot).help) == (RunPhase.TURNING, Help.WITH_HINTS)
    assert Reading(pilot.view).button("Watch it first")
    pilot.application.give(TryCase(slugs[1], help=Help.WITH_HINTS))
    pilot.settle()
    assert run_of(pilot).phase is RunPhase.TURNING


def test_the_way_is_not_shown_beside_the_question_that_it_would_answer(beginner: Pilot) -> None:
    begin(beginner)
    before = stage_of(beginner)
    beginner.key("a")
    assert beginner.session.notice == "Look first: answer the question, or press Enter to turn now."
    assert beginner.session.demonstration is None
    assert stage_of(beginner) == before
    assert run_of(beginner).phase is RunPhase.LOOKING
