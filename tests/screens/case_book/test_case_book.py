"""The case book and runs of a case, through the real application."""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace

from tests.method.placements import first_step_not_done
from tests.session.held import held
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, rail_of, stage_of
from tutor.coach.guidance import Help
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves, parse_turns
from tutor.cube.position import SLOTS, Slot
from tutor.method.answer import answer
from tutor.method.cases import ALIGNMENTS, CASES, case_of
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.screens.case_book.commands import OpenCase
from tutor.screens.case_book.state import PAGE
from tutor.screens.practice.case_run import guidance_for
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.state import RUN, CaseRun, RunPhase
from tutor.session.attempts import case_attempt
from tutor.session.judging import answer_at
from tutor.session.looking_back import step_under_way
from tutor.solver.search import Solver
from tutor.solver.task import Task, slot_sides
from tutor.ui.view import MiniatureGrid

CASE = CASES[0]


def run_of(pilot: Pilot) -> CaseRun:
    assert RUN.of(pilot.session) is not None
    return held(RUN.of(pilot.session))


def start(pilot: Pilot, help: Help | None, slot: Slot = Slot.FR, case: int = 0) -> None:
    pilot.press(action_name(TryCase(CASES[case].slug, slot, 0, help)))
    pilot.settle()


def play_line(pilot: Pilot, count: int | None = None) -> None:
    """The learner's part, or so many turns of it, by a shortest line."""
    made = 0
    while run_of(pilot).phase is RunPhase.TURNING and (count is None or made < count):
        bearing = run_of(pilot).attempt.bearing()
        assert bearing is not None
        answer = pilot.session.answers.get(bearing.position, bearing.task)
        assert answer is not None
        pilot.turn(answer.lines[0][0].notation)
        made += 1


def test_the_book_holds_all_cases_by_family_each_with_a_cube_of_its_own(pilot: Pilot) -> None:
    pilot.press("open:CASE_BOOK")
    grids = [block for block in Reading(pilot.view).blocks if isinstance(block, MiniatureGrid)]
    # Common practice: 24 + 6 + 6 + 5 cases.
    assert [len(grid.miniatures) for grid in grids] == [24, 6, 6, 5]
    pictures = {miniature.stage.colours for grid in grids for miniature in grid.miniatures}
    assert len(pictures) == 41
    labels = [miniature.label for grid in grids for miniature in grid.miniatures]
    assert [label.partition(". ")[0] for label in labels] == [str(number) for number in range(1, 42)]
    assert len({label.partition(". ")[2] for label in labels}) == 41


def test_a_page_has_the_number_the_short_name_and_the_full_name_beside_it(pilot: Pilot) -> None:
    settings = replace(
        pilot.session.settings, colour_names=("blue", "silver", "red", "orange", "green", "pink")
    )
    pilot.application.session = replace(pilot.session, settings=settings)
    case = CASES[13]
    for slot, alignment, beside in (
        (Slot.FR, 0, ""),
        (Slot.BL, 0, " The full name describes it in the front-right slot."),
        (Slot.FR, 2, " The full name describes it before you turn the top."),
    ):
        pilot.press(action_name(OpenCase(case.slug, slot, alignment)))
        texts = Reading(pilot.view).texts
        assert texts[0] == f"Case 14: {case.short_name(slot, 'silver', alignment)}"
        assert texts[1] == f"{case.name}.{beside}"
    assert "silver" in texts[0]


@pytest.mark.parametrize("slot", SLOTS)
def test_a_page_shows_the_case_in_any_slot_with_route_and_line(pilot: Pilot, slot: Slot) -> None:
    pilot.press(action_name(OpenCase(CASE.slug, slot, 1)))
    pilot.settle()
    assert PAGE.of(pilot.session) is not None
    bearing = held(PAGE.of(pilot.session)).attempt.bearing()
    assert bearing is not None
    sighting = case_of(bearing.position, bearing.task)
    assert sighting is not None
    assert (sighting.case, sighting.slot, sighting.alignment) == (CASE, slot, 1)
    assert "Route, " in " ".join(Reading(pilot.view).texts)
    assert "Shortest by hand, " not in " ".join(Reading(pilot.view).texts)
    pilot.key("e")
    assert "Shortest by hand, " in " ".join(Reading(pilot.view).texts)
    assert any(bay.tiles for bay in rail_of(pilot).bays)


def test_the_turns_of_the_pages_are_hidden_until_asked_for(pilot: Pilot) -> None:
    pilot.press("open:CASE_BOOK")
    pilot.press(action_name(OpenCase(CASE.slug)))
    pilot.settle()
    pilot.key("e")

    def told() -> list[str]:
        texts = Reading(pilot.view).texts
        return [text for text in texts if text.startswith(("Route, ", "Shortest by hand, "))]

    assert len(told()) == 2
    pilot.press(Reading(pilot.view).button("Hide the turns").action)
    assert told() == []
    assert not any(bay.tiles for bay in rail_of(pilot).bays)
    assert any("By hand, this cube takes" in text for text in Reading(pilot.view).texts)
    # The next page keeps it so, and so does the same page after a try.
    pilot.press(action_name(OpenCase(CASES[7].slug)))
    pilot.settle()
    assert told() == []
    pilot.press(Reading(pilot.view).button("Try it").action)
    pilot.press("open:CASE_BOOK")
    pilot.press(action_name(OpenCase(CASE.slug)))
    pilot.settle()
    assert told() == []
    pilot.press(Reading(pilot.view).button("Show the turns").action)
    assert len(told()) == 2


def test_try_it_lets_a_beginner_turn_at_once(pilot: Pilot) -> None:
    pilot.press(action_name(OpenCase(CASE.slug, Slot.BL, 1)))
    pilot.settle()
    pilot.press(Reading(pilot.view).button("Try it").action)
    pilot.settle()
    assert pilot.session.screen == "practice"
    assert pilot.session.demonstration is None
    attempt = held(pilot.session.attempt)
    assert attempt.cube == case_attempt(CASE, Slot.BL, 1, pilot.session.settings).cube
    pilot.turn("U")
    assert held(pilot.session.attempt).history.notation == "U"
    assert not pilot.session.room.silent(pilot.session)


def plain(text: str) -> tuple[Turn, ...]:
    """The turns in a text of the page, whatever stands between them."""
    return parse_turns(" ".join(re.findall(r"\b[UDLRFB]['2]?(?![a-z])", text)))


@pytest.mark.parametrize("slot", SLOTS)
def test_a_page_tells_the_way_by_hand_and_a_shorter_one_with_far_layers_once(
    pilot: Pilot, solver: Solver, slot: Slot
) -> None:
    told, same = 0, set()
    task = Task(slot, frozenset(SLOTS) - {slot})
    for number, case in enumerate(CASES[slot::4]):
        top = number % 4
        pilot.press(action_name(OpenCase(case.slug, slot, top)))
        pilot.settle()
        pilot.key("e")
        position, texts = case.position(slot, top), Reading(pilot.view).texts
        route = next(text for text in texts if text.startswith("Route, "))
        lines = [text for text in texts if text.startswith("Shortest by hand, ")]
        by_hand, at_all = solver.hand_distance(position, task), solver.distance(position, task)
        assert plain(route) == case.route(slot, top).turns
        assert route.startswith(f"Route, {len(plain(route))} turns: ")
        # A line that is the route is neither told nor played a second time; a shorter one always is.
        first = held(answer_at(pilot.session, held(PAGE.of(pilot.session)).attempt)).lines[0]
        assert [plain(line) for line in lines] == ([] if first == plain(route) else [first])
        labels = [button.label for button in Reading(pilot.view).buttons]
        assert labels.count("Show the route") == 1
        assert labels.count("Show a shortest line") == len(lines)
        assert lines or len(plain(route)) == by_hand
        same.add(not lines)
        for line in lines:
            assert line.startswith(f"Shortest by hand, {by_hand} turns: ")
            assert len(plain(line)) == by_hand
        for turns in map(plain, (route, *lines)):
            assert {turn.face for turn in turns} <= {Face.U, *slot_sides(slot)}
            assert task.done(position.after(turns))
        far = [text for text in texts if "far layers" in text]
        assert len(far) == int(at_all != by_hand)
        for text in far:
            assert text.startswith("If you turn far layers too, ")
            assert len(plain(text)) == at_all
            assert task.done(position.after(plain(text)))
        told += len(far)
    assert told
    assert same == {False, True}


def test_a_cases_own_figure_is_by_hand_with_the_top_turned_as_best(pilot: Pilot) -> None:
    # Independent search (checked in the tests of the solver): seven turns as the name says, six after U2.
    # Turning the top first costs one turn, so the two other tops take seven as well.
    said = []
    for top in ALIGNMENTS:
        pilot.press(action_name(OpenCase("corner-up-edge-left-front-up", Slot.BL, top)))
        pilot.settle()
        said += [text for text in Reading(pilot.view).texts if text.startswith("By hand")]
        # The figure is that of the turns beneath it: of a shorter line than the route, or of the route.
        pilot.key("e")
        texts = Reading(pilot.view).texts
        line = [text for text in texts if text.startswith(("Route, ", "Shortest by hand"))][-1]
        assert f"this cube takes {'six' if '6 turns' in line else 'seven'} turns at best" in said[-1]
        pilot.key("e")
    seven = "By hand, this cube takes seven turns at best. With the top turned another way, six are enough."
    assert sorted(said) == sorted([*[seven] * 3, "By hand, this cube takes six turns at best."])


def test_the_figure_is_the_least_of_the_four_ways_the_top_can_be_turned(solver: Solver) -> None:
    task = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
    for case in CASES:
        positions = [case.position(alignment=top) for top in ALIGNMENTS]
        best = min(solver.hand_distance(position, task) or 0 for position in positions)
        assert {answer(solver, position, task).fewest_with_top_free for position in positions} == {best}


def test_a_line_is_shown_with_the_steps_that_it_is_cut_into(pilot: Pilot, solver: Solver) -> None:
    for case in CASES[::5]:
        pilot.press(action_name(OpenCase(case.slug, Slot.FL, 1)))
        pilot.settle()
        pilot.press("book:SHOW_LINE")
        shown, page = pilot.session.demonstration, PAGE.of(pilot.session)
        assert shown is not None
        assert page is not None
        bearing = page.attempt.bearing()
        assert bearing is not None
        assert shown.steps == cut(bearing.position, bearing.task, shown.turns)
        assert len(shown.turns) == solver.hand_distance(bearing.position, bearing.task)
        pilot.key("escape")


def test_the_mirror_image_of_the_mirror_image_is_the_case_again(pilot: Pilot) -> None:
    pilot.press(action_name(OpenCase(CASE.slug)))
    pilot.settle()
    before = stage_of(pilot).colours
    for _ in range(2):
        pilot.press(Reading(pilot.view).button("Show the mirror image").action)
        pilot.settle()
    assert stage_of(pilot).colours == before


def test_route_and_line_are_played_and_end_with_the_pair_home(pilot: Pilot) -> None:
    for key in ("a", ""):
        pilot.press(action_name(OpenCase(CASE.slug)))
        pilot.settle()
        if key:
            pilot.key(key)
        else:
            pilot.press("book:SHOW_LINE")
        assert pilot.session.demonstration is not None
        pilot.settle()
        pilot.wait(240.0)
        pose = pilot.session.demonstration.pose(pilot.now)
        assert pose.cube.position.home_pairs == set(SLOTS)
        pilot.key("escape")


def test_escape_leads_from_a_page_to_all_cases_and_then_home(pilot: Pilot) -> None:
    pilot.press(action_name(OpenCase(CASE.slug)))
    pilot.key("escape")
    screens = [pilot.session.screen]
    assert PAGE.of(pilot.session) is None
    pilot.key("escape")
    assert [*screens, pilot.session.screen] == ["case book", "home"]


def test_a_case_is_tried_at_once_with_hints(pilot: Pilot) -> None:
    start(pilot, None)
    assert (run_of(pilot).help, run_of(pilot).phase) == (Help.WITH_HINTS, RunPhase.TURNING)
    pilot.turn("D D'")
    play_line(pilot)
    assert run_of(pilot).finished
    assert guidance_for(pilot.session, CASE).help is Help.ALONE


def test_a_first_unaided_optimal_run_skips_ahead(pilot: Pilot) -> None:
    start(pilot, Help.WITH_HINTS)
    play_line(pilot)
    guidance = guidance_for(pilot.session, CASE)
    assert guidance.help is Help.ALONE
    assert guidance.known


def test_failing_again_and_again_brings_another_remedy(pilot: Pilot) -> None:
    for _ in range(2):
        start(pilot, Help.WITH_HINTS)
        pilot.turn("D")
        pilot.press("practice:GIVE_UP")
    assert Reading(pilot.view).button("Watch it once more").primary
    pilot.key("enter")
    pilot.settle()
    assert run_of(pilot).help is Help.WATCH


def test_alone_is_silent_until_it_is_over(pilot: Pilot) -> None:
    start(pilot, Help.ALONE)
    pilot.turn("D")
    assert Reading(pilot.view).verdicts == []
    pilot.key("h")
    assert stage_of(pilot).glowing == frozenset()
    pilot.key("backspace")
    play_line(pilot)
    assert Reading(pilot.view).verdicts[0].title == "Solved."


def test_a_hint_is_noted_with_its_rung_and_its_time(pilot: Pilot) -> None:
    start(pilot, Help.WITH_HINTS)
    pilot.wait(4.0)
    pilot.key("h")
    pilot.wait(2.0)
    pilot.key("h")
    assert [use.rung for use in run_of(pilot).hints] == [1, 2]
    assert [use.at for use in run_of(pilot).hints] == pytest.approx([4.0, 6.0])


def test_turns_and_their_times_are_noted_even_when_taken_back(pilot: Pilot) -> None:
    start(pilot, Help.WITH_HINTS)
    pilot.wait(1.0)
    pilot.turn("D")
    pilot.wait(1.0)
    pilot.key("backspace")
    pilot.turn("U")
    assert len(run_of(pilot).made) == 2


@pytest.mark.parametrize("number", range(0, len(CASES), 3))
def test_on_a_route_the_step_under_way_is_the_routes_own(pilot: Pilot, number: int) -> None:
    start(pilot, Help.WITH_HINTS, case=number)
    bearing = run_of(pilot).attempt.bearing()
    assert bearing is not None
    answer = pilot.session.answers.get(bearing.position, bearing.task)
    assert answer is not None
    route = answer.routes[0]
    for turn, step in zip(route.turns, route.steps, strict=True):
        here = run_of(pilot).attempt.bearing()
        assert here is not None
        settled = here.task.settled(here.position)
        expected = first_step_not_done(here.position, here.task) if settled else step
        assert step_under_way(pilot.session, run_of(pilot).attempt) is expected
        pilot.turn(turn.notation)
    assert step_under_way(pilot.session, run_of(pilot).attempt) is Step.DONE


def test_after_a_deviation_the_step_is_worked_out_afresh(pilot: Pilot) -> None:
    start(pilot, Help.WITH_HINTS)
    pilot.turn("D")
    bearing = run_of(pilot).attempt.bearing()
    assert bearing is not None
    answer = pilot.session.answers.get(bearing.position, bearing.task)
    assert answer is not None
    assert step_under_way(pilot.session, run_of(pilot).attempt) is answer.step


def test_after_a_run_the_rail_shows_the_route_above_the_learners_own_turns(pilot: Pilot) -> None:
    start(pilot, Help.WITH_HINTS)
    pilot.turn("D L")
    play_line(pilot)
    rail = rail_of(pilot)
    assert sum(len(bay.tiles) for bay in rail.bays) >= 3
    assert [tile.off_rail for tile in rail.own[:2]] == [True, True]
    start_of_run = run_of(pilot).attempt.bearing(0)
    assert start_of_run is not None
    answer = pilot.session.answers.get(start_of_run.position, start_of_run.task)
    assert answer is not None
    best = tuple(tile.label for bay in rail.bays for tile in bay.tiles)
    assert best in {tuple(turn.notation for turn in line) for line in answer.lines}
    assert rail.row_names == ("Best by hand", "You")


def test_who_makes_the_route_sees_the_route_above_their_own_turns(pilot: Pilot) -> None:
    start(pilot, Help.WITH_HINTS, case=2)
    answer = held(pilot.session.answers.at(run_of(pilot).attempt.bearing(0)))
    route = answer.routes[0]
    assert len(route.turns) > answer.to_go
    pilot.turn(format_moves(route.turns))
    rail, steps = rail_of(pilot), tuple(Step)
    shown = [(tile.label, at) for at, bay in enumerate(rail.bays) for tile in bay.tiles]
    assert shown == [(t.notation, steps.index(s)) for t, s in zip(route.turns, route.steps, strict=True)]
    # Each turn stands under itself: the learner's row and the route's are cut alike.
    assert [(tile.label, tile.bay) for tile in rail.own] == shown
    assert rail.row_names == ("The route", "You")


def test_of_equally_short_lines_the_book_tells_why_one_is_easier(pilot: Pilot) -> None:
    reasons = set()
    for case in CASES[:12]:
        pilot.press(action_name(OpenCase(case.slug)))
        pilot.settle()
        pilot.key("e")
        reasons |= {text for text in Reading(pilot.view).texts if "easier" in text or "than" in text}
    assert reasons


def test_the_page_names_the_lesson_that_teaches_the_case(solver: Solver) -> None:
    pilot = Pilot(solver, titles=True)
    pilot.press(OpenCase("corner-in-down-edge-front-right-up"))
    pilot.settle()
    assert "Lesson 11 teaches it: Raise a corner from its slot." in Reading(pilot.view).texts


@pytest.mark.parametrize("how", ["escape", "Back to Case book"])
def test_a_try_leads_back_to_the_page_that_it_came_from(pilot: Pilot, how: str) -> None:
    pilot.application.give(OpenCase(CASE.slug, Slot.BL, 2))
    pilot.settle()
    page = PAGE.of(pilot.session)
    pilot.key("t")
    pilot.settle()
    assert pilot.session.screen == "practice"
    play_line(pilot)
    assert run_of(pilot).over
    # Once more, as the end of a try offers it, and a turn of it.
    pilot.key("enter")
    pilot.settle()
    play_line(pilot, 1)
    if how == "escape":
        pilot.key("escape")
    else:
        pilot.press(Reading(pilot.view).button(how).action)
    assert (pilot.session.screen, PAGE.of(pilot.session)) == ("case book", page)
    pilot.press("open:PRACTICE")
    assert RUN.of(pilot.session) is None


def test_a_try_that_was_left_and_found_again_in_practice_ends_there(pilot: Pilot) -> None:
    pilot.application.give(OpenCase(CASE.slug))
    pilot.key("t")
    pilot.settle()
    pilot.press("open:HOME")
    pilot.press("open:PRACTICE")
    assert run_of(pilot).case == CASE
    assert not any(button.label.startswith("Back to") for button in Reading(pilot.view).buttons)
    pilot.key("escape")
    assert (pilot.session.screen, RUN.of(pilot.session)) == ("practice", None)


def test_a_case_picked_on_another_screen_leads_back_there(pilot: Pilot) -> None:
    for name, labels in (("PROGRESS", ["Back to Progress"]), ("HOME", [])):
        pilot.press(f"open:{name}")
        pilot.application.give(TryCase(CASE.slug))
        pilot.settle()
        shown = [each.label for each in Reading(pilot.view).buttons if each.label.startswith("Back to")]
        # The way to Home stands in the bar.
        assert shown == labels
        pilot.key("escape")
        assert pilot.session.screen == name.lower()
