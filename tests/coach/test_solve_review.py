"""A whole solve looked back on, held against the solver and against counting by hand."""

from __future__ import annotations

from random import Random

import pytest

from tutor.coach.slips import SlipKind
from tutor.coach.solve_review import (
    SHORTEST_PAUSE,
    Leg,
    Pause,
    SolveQuestion,
    SolveReading,
    drills,
    legs,
    pauses,
    positions_of,
    read_solve,
)
from tutor.coach.solve_review_sentences import (
    cross_slip_words,
    drill_words,
    leg_name,
    lost_words,
    pause_words,
    slip_words,
    time_words,
)
from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.random_position import random_position
from tutor.method.answer import answer
from tutor.method.continuations import Verdict
from tutor.method.lines import to_go
from tutor.method.plan import in_order
from tutor.method.terms import Step
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task

COLOURS = ("yellow", "white", "red", "orange", "green", "blue")


def solved_by_shortest(solver: Solver, position: Position) -> tuple[Turn, ...]:
    """The cross and then slot after slot, each by a shortest line."""
    cross = CrossSolver(solver.tables).lines(position)[0]
    stages = in_order(solver, position.after(cross)).stages
    return (*cross, *(turn for stage in stages for turn in stage.turns))


@pytest.fixture(scope="module")
def solves(solver: Solver) -> list[SolveQuestion]:
    random = Random(31)
    positions = [random_position(random) for _ in range(6)]
    return [SolveQuestion(position, solved_by_shortest(solver, position)) for position in positions]


def test_the_legs_of_a_solve_follow_each_other_and_end_with_two_layers_home(
    solves: list[SolveQuestion],
) -> None:
    for solve in solves:
        found, reached = legs(solve.position, solve.turns), positions_of(solve.position, solve.turns)
        assert [leg.begin for leg in found] == [0, *(leg.end for leg in found[:-1])]
        assert found[0].cross
        assert reached[found[-1].end].two_layers_home
        for leg in found[1:]:
            assert leg.kept == reached[leg.begin].home_pairs
            assert leg.kept | set(leg.slots) == reached[leg.end].home_pairs


def test_what_comes_after_two_layers_are_home_belongs_to_no_leg() -> None:
    setup = parse_turns("R U R'")
    start = SOLVED.after(setup)
    back = parse_turns("R U' R' U2")
    assert [(leg.begin, leg.end, leg.slots) for leg in legs(start, back)] == [(0, 3, (Slot.FR,))]


def test_two_pairs_that_come_home_at_once_are_one_leg() -> None:
    # F lifts the front slots together and puts them back together.
    start = SOLVED.after(parse_turns("F"))
    (leg,) = legs(start, parse_turns("F'"))
    assert leg.cross  # the cross comes home with them, and all pairs with it
    start = SOLVED.after(parse_turns("R U R' F' U' F"))
    found = legs(start, parse_turns("F' U F R U' R'"))
    assert all(leg.done for leg in found)


def test_a_solve_that_does_not_end_has_an_open_last_leg() -> None:
    start = SOLVED.after(parse_turns("R U R'"))
    (leg,) = legs(start, parse_turns("U U"))
    assert leg == Leg(0, 2, kept=frozenset({Slot.FL, Slot.BL, Slot.BR}), done=False)
    with pytest.raises(ValueError, match="no task"):
        _ = leg.task


def test_every_figure_of_a_review_is_the_solvers(solver: Solver, solves: list[SolveQuestion]) -> None:
    for solve in solves:
        reading, reached = read_solve(solver, solve), positions_of(solve.position, solve.turns)
        assert len(reading.turns) == len(solve.turns)
        for each in reading.legs:
            start = reached[each.leg.begin]
            assert each.line is not None
            if each.leg.cross:
                assert each.fewest == CrossSolver(solver.tables).distance(start)
                assert start.after(each.line).cross_home
                continue
            assert each.fewest == to_go(solver, start, each.leg.task) == len(each.line)
            assert each.leg.task.done(start.after(each.line))
            lost = sum(turn.lost for turn in reading.turns[each.leg.begin : each.leg.end])
            assert each.lost == lost  # what each turn loses adds up to what the leg lost
        assert lost_words(reading).startswith(
            "You made no turn more than needed"
        )  # every leg was a shortest line


def within(position: Position, count: int) -> set[tuple[int, ...]]:
    """Where the pieces of two layers can be after so many turns of any face, by trying them all."""
    reached = {position}
    for _ in range(count):
        reached |= {each.turned(turn) for each in reached for turn in TURNS}
    # Corners 4 to 7 and edges 4 to 11 are those of the two layers.
    return {(*each.corners[4:], *each.edges[4:]) for each in reached}


def test_pairs_that_come_home_together_are_held_against_the_fewest_for_both(solver: Solver) -> None:
    # L' U R U2 L U' R' turns beside both slots, which hands working at one of them alone would not.
    turns = parse_turns("L' U R U2 L U' R'")
    start = SOLVED.after(turn.inverse for turn in reversed(turns))
    (each,) = read_solve(solver, SolveQuestion(start, turns)).legs
    assert each.leg.slots == (Slot.FR, Slot.FL)
    assert (each.fewest, each.lost) == (7, 0)
    assert within(start, 3).isdisjoint(within(SOLVED, 3))  # no way in six turns
    assert each.line is not None
    assert {turn.face.name for turn in each.line} <= {"U", "R", "F", "L"}
    assert start.after(each.line).two_layers_home


def with_detour(solve: SolveQuestion, index: int) -> SolveQuestion:
    """A turn of the solve made the wrong way first, and taken back."""
    turn = solve.turns[index]
    turns = (*solve.turns[:index], turn.inverse, turn, *solve.turns[index:])
    return SolveQuestion(solve.position, turns)


def test_turns_lost_are_counted_where_they_were_lost(solver: Solver, solves: list[SolveQuestion]) -> None:
    for solve in solves:
        leg = next(leg for leg in legs(solve.position, solve.turns) if leg.slots)
        index = leg.end - 1
        if solve.turns[index].quarters == 2:
            continue
        astray = with_detour(solve, index)
        reading = read_solve(solver, astray)
        lost = [each for each in reading.legs if each.lost]
        assert [each.leg.slots for each in lost] == [leg.slots]
        assert sum(turn.lost for turn in reading.turns) == lost[0].lost > 0
        assert reading.turns[index].verdict is Verdict.DETOUR
        assert [kind for kind, _ in reading.slips] == [SlipKind.WRONG_WAY]


def test_what_is_worth_practising_is_the_case_in_which_turns_were_lost(solver: Solver) -> None:
    # One pair in its slot taken out by R U R': the way back is R U' R', begun here with a wrong turn.
    start = SOLVED.after(parse_turns("R U R'"))
    reading = read_solve(solver, SolveQuestion(start, parse_turns("R U U2 R'")))
    (drill,) = drills(reading)
    assert drill.lost == 1
    assert drill.slip is SlipKind.WRONG_WAY
    # After R the two match, as R U R' turned them out joined: what is left is Insert (design, Steps).
    assert drill.step is Step.INSERT
    assert drill_words(drill) == "One extra turn in Insert: a layer turned the wrong way or too far"
    case = drill.sighting
    shown = case.case.position(case.slot, case.alignment)
    task = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
    for slot_piece in (Slot.FR.corner,):
        assert shown.corners[slot_piece] == start.corners[slot_piece]
    assert shown.edges[Slot.FR.edge] == start.edges[Slot.FR.edge]
    assert solver.distance(shown, task) == solver.distance(start, task)


def test_at_most_three_things_to_practise_are_named_the_costliest_first(
    solver: Solver, solves: list[SolveQuestion]
) -> None:
    for solve in solves:
        astray = solve
        for leg in reversed(legs(solve.position, solve.turns)):
            if leg.slots:
                astray = with_detour(astray, leg.end - 1)
        found = drills(read_solve(solver, astray))
        assert len(found) <= 3
        assert [drill.lost for drill in found] == sorted((drill.lost for drill in found), reverse=True)


def test_where_no_turn_was_lost_nothing_is_worth_practising(solver: Solver) -> None:
    start = SOLVED.after(parse_turns("R U R'"))
    assert drills(read_solve(solver, SolveQuestion(start, parse_turns("R U' R'")))) == ()


def test_turns_lost_in_the_cross_are_among_the_slips(solver: Solver) -> None:
    # F D takes the cross apart and D' F' mends it: two turns, made here in four.
    reading = read_solve(solver, SolveQuestion(SOLVED.after(parse_turns("F D")), parse_turns("D' L L' F'")))
    assert reading.lost_in_cross == 2
    assert cross_slip_words(reading.lost_in_cross) == "Extra turns in the cross: two"


def test_a_turn_keeps_the_verdict_of_the_pair_it_was_made_for(solver: Solver) -> None:
    # Two pairs out: R U2 R' for the front right, L' U' L for the front left. To begin with the one does not
    # help the other.
    start = SOLVED.after(parse_turns("R U2 R' L' U' L"))
    turns = parse_turns("L' U L R U2 R'")
    chosen = Task.at(start, Slot.FR)
    plain = read_solve(solver, SolveQuestion(start, turns)).turns[0]
    made_for = read_solve(solver, SolveQuestion(start, turns, (chosen, *[None] * 5))).turns[0]
    verdict = answer(solver, start, chosen).continuation(turns[0]).verdict
    assert made_for.verdict is verdict
    assert (plain.verdict, verdict) == (Verdict.OPTIMAL, Verdict.DETOUR)


def test_pauses_are_gaps_between_turns_and_the_first_turn_has_none() -> None:
    times = (9.0, 9.5, 9.5 + SHORTEST_PAUSE, 12.0, 20.0, 25.0, 28.0)
    assert [(pause.index, pause.seconds) for pause in pauses(times)] == [(4, 8.0), (5, 5.0), (6, 3.0)]
    assert pauses((5.0, 5.5, 6.0)) == ()
    assert pauses(()) == ()


def test_pauses_are_told_with_their_place() -> None:
    leg = Leg(3, 9, (Slot.FR,), frozenset())
    before, within = Pause(3, 4.25), Pause(5, 2.0)
    assert pause_words(before, leg, "R", COLOURS) == "4.2 s before the green-orange pair"
    assert pause_words(within, leg, "U'", COLOURS) == "2.0 s in the green-orange pair, before U'"
    assert leg_name(Leg(0, 3, cross=True), COLOURS) == "Cross"


def test_times_are_told_as_people_tell_them() -> None:
    assert [time_words(seconds) for seconds in (0.04, 9.94, 41.4, 125.0)] == [
        "0.0 s", "9.9 s", "41 s", "2 min 5 s",
    ]  # fmt: skip


def test_every_kind_of_slip_has_words() -> None:
    for kind in SlipKind:
        assert slip_words(kind, 1).endswith(": once")
    empty = SolveReading((), ())
    assert empty.slips == ()
