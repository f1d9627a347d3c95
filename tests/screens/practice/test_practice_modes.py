"""At a glance and the steady beat, through the real application over a real store."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.screens.practice.sitting import (
    begin,
    finish,
    go_on,
    on_disk,
    practised_before,
    run_of,
    sits_down,
    texts,
)
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.cube.faces import Turn
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.steps import Step
from tutor.progress.attempt import Mode, Outcome
from tutor.screens.practice.metronome import beaten
from tutor.screens.practice.state import PACES, PRACTICE, STEPS_NAMED, Metronome, RunPhase, Timing
from tutor.solver.search import Solver
from tutor.ui.inputs import LayerDragged
from tutor.ui.view import Mark, Progress


@pytest.fixture
def regular(solver: Solver, tmp_path: Path) -> Pilot:
    practised_before(tmp_path)
    return sits_down(solver, tmp_path)


def answer_of(pilot: Pilot) -> Answer:
    answer = pilot.session.answers.at(run_of(pilot).attempt.bearing(0))
    assert answer is not None
    return answer


def right_step(pilot: Pilot) -> str:
    return str(STEPS_NAMED.index(answer_of(pilot).step) + 1)


def first_key(pilot: Pilot) -> tuple[str, ...]:
    """The keys of an optimal first turn."""
    notation = answer_of(pilot).lines[0][0].notation
    letter = notation[0] if notation.endswith("'") else notation[0].lower()
    return (letter, "2") if notation.endswith("2") else (letter,)


def progress(pilot: Pilot) -> list[Progress]:
    return [block for block in pilot.view.card if isinstance(block, Progress)]


# --------------------------------------------------------------------------------------------- glance


def test_at_a_glance_step_and_turn_are_named_by_key_and_nothing_is_turned(
    regular: Pilot, tmp_path: Path
) -> None:
    begin(regular, "practise:GLANCE:")
    before = stage_of(regular).colours
    regular.wait(3.0)
    regular.key(right_step(regular))
    regular.wait(2.0)
    regular.give_keys(*first_key(regular))
    assert stage_of(regular).colours == before
    regular.wait(1.0)
    go_on(regular)
    assert run_of(regular).phase is RunPhase.OVER
    assert [note.mark for note in Reading(regular.view).verdicts] == [Mark.OPTIMAL, Mark.OPTIMAL]
    kept = on_disk(tmp_path)[-1]
    assert (kept.mode, kept.outcome) == (Mode.GLANCE, Outcome.NAMED)
    assert kept.first_turn == pytest.approx(5.0)
    assert kept.seconds == pytest.approx(6.0)
    assert (kept.turns, kept.turns_used) == ((), 0)
    assert (kept.by_hand, kept.at_all) == (answer_of(regular).by_hand, answer_of(regular).distance)


def test_a_wrong_step_is_misnamed_and_the_answer_is_told_with_its_reason(
    regular: Pilot, tmp_path: Path
) -> None:
    begin(regular, "practise:GLANCE:")
    right = answer_of(regular).step
    regular.key(next(str(number + 1) for number, step in enumerate(STEPS_NAMED) if step is not right))
    regular.give_keys(*first_key(regular))
    go_on(regular)
    named = run_of(regular).glance
    assert named is not None
    assert named.step is not None
    wrong = named.step.value.capitalize()
    note = Reading(regular.view).verdicts[0]
    assert note.title == f"The step is {right.value.capitalize()}, not {wrong}"
    assert "Look " in note.text
    assert "Why " in texts(regular)
    assert on_disk(tmp_path)[-1].outcome is Outcome.MISNAMED


def test_a_turn_that_leads_away_is_misnamed_and_one_that_takes_a_little_longer_is_not(
    regular: Pilot,
) -> None:
    for verdict, named in ((Verdict.DETOUR, False), (Verdict.ACCEPTABLE, True)):
        for _ in range(12):
            begin(regular, "practise:GLANCE:")
            found = [
                turn for turn, told in enumerate(answer_of(regular).continuations) if told.verdict is verdict
            ]
            regular.key(right_step(regular))
            if found:
                break
            regular.press("practice:GIVE_UP")
            regular.settle()
        regular.press(f"name-turn:{Turn(found[0]).notation}")
        regular.settle()
        glance = run_of(regular).glance
        assert glance is not None
        assert glance.named is named


def test_one_who_does_not_know_is_told_and_no_time_is_kept(regular: Pilot, tmp_path: Path) -> None:
    begin(regular, "practise:GLANCE:")
    regular.wait(9.0)
    regular.press(Reading(regular.view).button("I do not know").action)
    regular.settle()
    kept = on_disk(tmp_path)[-1]
    assert (kept.outcome, kept.first_turn) == (Outcome.MISNAMED, None)
    assert "A shortest way starts with" in texts(regular)


def test_the_clock_of_a_glance_goes_by_seconds_fills_and_then_waits(regular: Pilot) -> None:
    begin(regular, "practise:GLANCE:")
    shown = []
    for _ in range(20):
        regular.wait(1.0)
        shown.append(progress(regular)[0])
    assert [bar.caption for bar in shown[:2]] == ["1 second", "2 seconds"]
    assert [bar.fraction for bar in shown] == sorted(bar.fraction for bar in shown)
    assert shown[-1] == Progress("Take all the time you need", 1.0)
    assert run_of(regular).phase is RunPhase.TURNING
    assert not regular.moving


def test_what_does_not_fit_a_glance_is_answered_with_a_word(regular: Pilot) -> None:
    begin(regular, "practise:GLANCE:")
    regular.key("r")
    assert "Name the step first, with the keys 1 to 4." in regular.view.notice
    regular.key("x")
    assert "Name the first turn only. You turn nothing here." in regular.view.notice
    regular.give(LayerDragged(Turn.R.face, 0.4))
    assert "Name the first turn only. You turn nothing here." in regular.view.notice
    regular.key("enter")
    assert run_of(regular).phase is RunPhase.TURNING
    for key in ("h", "a", "backspace", "slash"):
        regular.key(key)
    assert run_of(regular).attempt.history.cursor == 0
    assert regular.session.demonstration is None
    assert stage_of(regular).glowing == frozenset()


def test_a_glance_gives_nothing_away_until_it_is_over(regular: Pilot) -> None:
    begin(regular, "practise:GLANCE:")
    regular.press("act:REVEAL")
    regular.key("a")
    assert regular.session.demonstration is None
    rail = regular.view.rail
    assert rail is not None
    assert all(not bay.tiles for bay in rail.bays)


def test_find_is_never_the_answer_since_one_finds_to_answer(regular: Pilot) -> None:
    assert Step.FIND not in STEPS_NAMED
    for _ in range(8):
        begin(regular, "practise:GLANCE:")
        assert answer_of(regular).step in STEPS_NAMED
        regular.press("practice:GIVE_UP")
        regular.settle()


# --------------------------------------------------------------------------------------------- steady


def test_a_turn_near_its_beat_is_on_it_and_others_are_early_or_late() -> None:
    # At 30 beats a minute a beat comes every two seconds; a quarter of it is half a second.
    beat = Metronome(30)
    assert beat.period == 2.0
    for at, timing in ((2.4, Timing.ON_BEAT), (3.6, Timing.ON_BEAT), (5.4, Timing.EARLY), (9.0, Timing.LATE)):
        beat = beaten(beat, at)
        assert beat.timings[-1] is timing
    assert beaten(beat, beat.period * ((beat.last or 0) + 1)).timings[-1] is Timing.ON_BEAT


def test_two_turns_for_one_beat_are_early_and_a_pause_makes_one_turn_late() -> None:
    beat = Metronome(60)
    for at in (1.0, 1.1, 9.0, 10.0):
        beat = beaten(beat, at)
    assert beat.timings == (Timing.ON_BEAT, Timing.EARLY, Timing.LATE, Timing.ON_BEAT)


def test_with_the_beat_a_case_is_turned_and_kept_like_any_other(regular: Pilot, tmp_path: Path) -> None:
    regular.press("open:PRACTICE")
    begin(regular, "practise:STEADY:")
    period = 60.0 / PRACTICE.of(regular.session).pace
    line = answer_of(regular).lines[0]
    for number, turn in enumerate(line, start=1):
        regular.wait(period if number > 1 else 2 * period)
        regular.turn(turn.notation)
    run = run_of(regular)
    assert run.beat is not None
    assert set(run.beat.timings) == {Timing.ON_BEAT}
    assert f"{len(line)} of {len(line)} turns were on the beat." in texts(regular)
    kept = on_disk(tmp_path)[-1]
    assert (kept.mode, kept.outcome, kept.turns_used) == (Mode.STEADY, Outcome.SOLVED, len(line))


def test_the_beat_is_seen_as_steps_and_heard_only_by_those_who_want_sound(
    solver: Solver, tmp_path: Path
) -> None:
    practised_before(tmp_path)
    for sound in (False, True):
        pilot = sits_down(solver, tmp_path)
        heard: list[str] = []
        pilot.application.session = replace(
            pilot.session, settings=replace(pilot.session.settings, sound=sound)
        )
        pilot.rewire(click=partial(heard.append, "click"))
        begin(pilot, "practise:STEADY:")
        heard.clear()
        steps = []
        for _ in range(20):
            pilot.wait(0.5)
            steps.append(progress(pilot)[0].fraction)
        # Half a second apart at 30 a minute: every step lasts four looks.
        assert len(set(steps)) == 4
        assert len(heard) == (5 if sound else 0)


def test_the_pace_goes_from_ten_to_sixty_a_minute_far_from_flashing(regular: Pilot) -> None:
    # WCAG 2.2, 2.3.1: not more than three flashes a second.
    assert max(PACES) / 60 <= 1 < 3
    begin(regular, "practise:STEADY:")
    for _ in range(20):
        regular.press("practice:QUICKER")
    assert PRACTICE.of(regular.session).pace == 60
    assert not Reading(regular.view).button("Speed up").enabled
    for _ in range(20):
        regular.press("practice:CALMER")
    assert PRACTICE.of(regular.session).pace == 10
    beat = run_of(regular).beat
    assert beat is not None
    assert beat.pace == 10


def test_two_other_pieces_are_lit_before_the_first_turn_and_again_at_the_end(regular: Pilot) -> None:
    begin(regular, "practise:STEADY:")
    before = stage_of(regular)
    assert len(before.glowing) == 2
    assert not before.glowing & before.outlined
    assert not before.glowing & before.dimmed
    colours = sorted(_colours(before.colours, before.glowing))
    regular.turn(answer_of(regular).lines[0][0].notation)
    regular.wait(5.0)
    assert stage_of(regular).glowing == frozenset()
    finish(regular)
    regular.wait(5.0)
    after = stage_of(regular)
    assert sorted(_colours(after.colours, after.glowing)) == colours


def _colours(stickers: tuple[int, ...], cubies: frozenset[int]) -> list[tuple[int, ...]]:
    """The colours on each of the cubies."""
    from tutor.cube.geometry import STICKERS, cubie_number

    return [
        tuple(
            sorted(stickers[place] for place, (cubie, _) in enumerate(STICKERS) if cubie_number(cubie) == one)
        )
        for one in cubies
    ]


def test_the_pieces_are_followed_however_the_cube_is_held(regular: Pilot) -> None:
    begin(regular, "practise:STEADY:")
    before = stage_of(regular)
    regular.turn("y")
    regular.wait(5.0)
    after = stage_of(regular)
    assert sorted(_colours(before.colours, before.glowing)) == sorted(_colours(after.colours, after.glowing))


def beats(pilot: Pilot) -> int:
    beat = run_of(pilot).beat
    assert beat is not None
    return beat.count


def test_the_beat_rests_while_something_lies_over_the_screen_and_goes_on_where_it_was(regular: Pilot) -> None:
    begin(regular, "practise:STEADY:")
    regular.key("f1")
    regular.wait(10.0)
    assert beats(regular) == 0
    regular.key("f1")
    regular.wait(0.1)
    assert beats(regular) == 0
    regular.wait(2.5)
    assert beats(regular) == 1
