"""Every screen's primary path works by keyboard alone and by pointer alone.

One walk for each screen, made once by each hand: from Home to what the screen is for. A hand gives nothing
but its own inputs (WCAG 2.2, 2.1.1, asks that of the keyboard; that a pointer alone does is the product's
own demand). Text alone needs keys: ``ONLY_TYPED`` names what that is.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import get_args

import pytest

from tests.screens.hands import HANDS, Hand, KeyboardHand
from tests.screens.painting.easel import KEYS, mixed
from tests.screens.practice.sitting import practised_before, run_of, sits_down, texts
from tests.screens.solve.test_solving import down_of, solve_of
from tests.session.held import held
from tests.session.pilot import Pilot, all_blocks, stage_of, turn_count
from tests.workers.direct import answers_of
from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Alone, Ask, Find, Lesson, Quiz, Scene, Show
from tutor.method.advice import CrossQuestion
from tutor.method.cases import CASES
from tutor.progress.assignment import case_task
from tutor.progress.attempt import GUEST
from tutor.progress.store import AttemptStore
from tutor.screens.board.state import BOARD, Reveal
from tutor.screens.case_book.commands import OpenCase
from tutor.screens.free_play.state import EXPLAINED, FREE
from tutor.screens.group.commands import Give, SeeLearner, ShowAcross
from tutor.screens.group.state import ASSIGNED, LOOK
from tutor.screens.learners.commands import JoinInto, TakeInHand
from tutor.screens.lesson.commands import StartLesson
from tutor.screens.lesson.questions import candidates, options
from tutor.screens.lesson.state import LESSON
from tutor.screens.lesson.update import settled
from tutor.screens.looking_ahead.state import LOOKING, RoundPhase
from tutor.screens.looking_ahead.update import places
from tutor.screens.painting.commands import PaintSticker, TakeColour
from tutor.screens.painting.state import PATH
from tutor.screens.painting.update import painting_of
from tutor.screens.practice import looking
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.state import STEPS_NAMED, RunPhase
from tutor.screens.solve.solving import SolveStand, cross_down, stand
from tutor.screens.table import SCREENS
from tutor.session.commands import Act, Choose, Make
from tutor.session.house import Room
from tutor.session.judging import answer_at
from tutor.session.record_commands import ChooseLearner
from tutor.session.settings import TurnButtons
from tutor.session.state import Attempt
from tutor.solver.search import Solver
from tutor.ui.view import MiniatureGrid

ONLY_TYPED = {
    "board": "cases by number: a pointer chooses a list that is there",
    "case book": "another way as notation, and a line in one's own words: a pointer tries the case instead",
    "free play": "a set-up as notation: a pointer scrambles, or makes the turns",
    "home": "part of a name: a pointer chooses among all names on Learners",
    "learners": "a new name: a pointer chooses among the learners there are",
    "painting": "a cube as text: a pointer paints it",
    "practice": "a line in one's own words: nothing depends on it",
    "solve": "a scramble or a cube as text: a pointer takes a new scramble, or paints",
}
"""The rooms that take text, which only keys give: what it is, and what a pointer has instead."""

Walk = Callable[[Hand], None]
WALKS: dict[str, Walk] = {}
"""The walk through each screen, by the name of its room."""


def through(walk: Walk) -> Walk:
    """Enter a walk under the screen that it is called after."""
    WALKS[walk.__name__.replace("_", " ")] = walk
    return walk


@pytest.fixture(scope="module")
def lessons(solver: Solver) -> tuple[Lesson, ...]:
    """The first lesson, and one that has a scene of every kind."""
    setting = LessonSetting(answers_of(solver))
    return tuple(load_lesson(name, setting) for name in ("notation", "three-turn-join"))


@pytest.fixture
def hand(solver: Solver, tmp_path: Path, lessons: tuple[Lesson, ...], kind: type[Hand]) -> Hand:
    """A hand at Home, of a learner who has practised before."""
    practised_before(tmp_path)
    with AttemptStore.open(tmp_path) as store:
        store.add_learner("Tova")
    return kind(sits_down(solver, tmp_path, lessons=lessons))


@pytest.mark.parametrize("kind", HANDS)
@pytest.mark.parametrize("screen", [room.name for room in SCREENS])
def test_the_primary_path_of_a_screen_works_by_one_hand_alone(hand: Hand, screen: str) -> None:
    WALKS[screen](hand)
    assert hand.only_its_own()


@pytest.mark.parametrize("kind", HANDS)
def test_every_turn_of_the_standard_can_be_made_and_undone(pilot: Pilot, kind: type[Hand]) -> None:
    # The 18 face turns of WCA Regulations 12a1.
    pilot.press("open:FREE_PLAY")
    hand = kind(pilot)
    for turn in TURNS:
        before = FREE.of(pilot.session).history.cube
        hand.turn(turn)
        assert FREE.of(pilot.session).history.cube == before.after((turn,)), turn
        hand.press(Act.UNDO)
        assert FREE.of(pilot.session).history.cube == before, turn
    assert hand.only_its_own()


def test_all_that_only_a_keyboard_can_give_is_named() -> None:
    assert {room.name for room in SCREENS if type(room).submitted is not Room.submitted} == set(ONLY_TYPED)


# --------------------------------------------------------------------------------------- home and lessons


@through
def home(hand: Hand) -> None:
    """The main action, back to Home, and another screen and back."""
    hand.main()
    assert held(LESSON.of(hand.pilot.session)).lesson.name == "notation"
    for label in ("Home", "Case book", "Home"):
        hand.label(label)
    assert hand.pilot.view.screen == "home"


@through
def lesson(hand: Hand) -> None:
    """A lesson from its first page to its end, every scene done."""
    start = StartLesson("three-turn-join")
    hand.press(start)
    kinds = set()
    while (played := LESSON.of(hand.pilot.session)) is not None:
        kinds.add(type(played.lesson.scenes[played.scene]))
        in_scene(hand)
        assert settled(hand.pilot.session), played.scene
        hand.main()
    assert kinds == set(get_args(Scene))
    assert hand.pilot.view.screen == "home"
    shown = [block for column in hand.pilot.view.page for block in all_blocks(column)]
    grids = [block for block in shown if isinstance(block, MiniatureGrid)]
    cells = [cell for grid in grids for cell in grid.miniatures if cell.action == start]
    assert [cell.badge for cell in cells] == ["✓"]


def in_scene(hand: Hand) -> None:
    """What the scene asks."""
    played = held(LESSON.of(hand.pilot.session))
    match scene := played.lesson.scenes[played.scene]:
        case Show():
            watch(hand)
        case Quiz():
            hand.answer(next(at for at, (_, true) in enumerate(options(scene)) if true))
        case Find():
            places = [cubie for _, cubie in candidates(scene)]
            cubie = next(cubie for cubie in places if cubie in scene.answer)
            hand.find(cubie, places.index(cubie))
        case Ask() | Alone() if scene.accept:
            hand.turn(*scene.accept[0])
        case Ask() | Alone():
            while not settled(hand.pilot.session):
                hand.turn(held(answer_at(hand.pilot.session, attempt_of(hand))).lines[0][0])
        case _:
            pass


def watch(hand: Hand) -> None:
    """A demonstration to its end; where it waits for the learner, on with the next turn."""
    while (shown := hand.pilot.session.demonstration) and not shown.seen(hand.pilot.now):
        if shown.moving(hand.pilot.now):
            hand.pilot.wait(1.0)
        else:
            hand.press(Act.STEP_ON)


def attempt_of(hand: Hand) -> Attempt:
    """The cube in hand."""
    return held(hand.pilot.session.attempt)


def turn_home(hand: Hand) -> None:
    """Solve the pair of the cube in hand by a shortest line, all of which is known beforehand."""
    attempt = attempt_of(hand)
    hand.turn(*held(answer_at(hand.pilot.session, attempt)).lines[0])


# ----------------------------------------------------------------------------------------------- practice


@through
def practice(hand: Hand) -> None:
    """Today's list: what is seen, the case solved and saved, and on to the next."""
    hand.label("Practice")
    hand.main()
    run = run_of(hand.pilot)
    while run_of(hand.pilot).phase is RunPhase.LOOKING:
        look_at(hand)
    turn_home(hand)
    assert run_of(hand.pilot).finished
    assert "Saved" in texts(hand.pilot)
    hand.main()
    assert run_of(hand.pilot).case is not run.case


def look_at(hand: Hand) -> None:
    """Find the next of the two pieces, or name the step that comes first."""
    session, run = hand.pilot.session, run_of(hand.pilot)
    piece = looking.wanted(held(run.look))
    if piece is None:
        hand.answer(STEPS_NAMED.index(held(answer_at(session, run.attempt)).step))
        return
    cubie = held(looking.seen(session, run)).cubie(piece)
    hand.find(cubie, [each for _, each in looking.places(session, run)].index(cubie))


@through
def progress(hand: Hand) -> None:
    """A field of the map opens its case, to practise it."""
    hand.label("Progress")
    hand.press(TryCase(CASES[2].slug))
    assert hand.pilot.view.screen == "practice"
    assert run_of(hand.pilot).case is CASES[2]


@through
def group(hand: Hand) -> None:
    """A column of the map tells of its case, a name opens the learner's Progress."""
    hand.label("Group")
    hand.press(ShowAcross(CASES[2].slug))
    assert LOOK.of(hand.pilot.session).task == case_task(CASES[2])
    hand.press(Give(("Tova",)))
    assert [each.learner for each in ASSIGNED.of(hand.pilot.session)] == ["Tova"]
    hand.press(SeeLearner(GUEST))
    assert hand.pilot.view.screen == "progress"


@through
def case_book(hand: Hand) -> None:
    """A case in another slot, its route watched, and the case tried and solved."""
    hand.label("Case book")
    hand.press(OpenCase(CASES[30].slug))
    hand.press(OpenCase(CASES[30].slug, Slot.FL))
    hand.label("Show the route")
    watch(hand)
    assert held(hand.pilot.session.demonstration).seen(hand.pilot.now)
    hand.label("Try it")
    turn_home(hand)
    assert run_of(hand.pilot).finished
    assert (run_of(hand.pilot).case, run_of(hand.pilot).slot) == (CASES[30], Slot.FL)


# -------------------------------------------------------------------------------------------- whole cubes


@through
def free_play(hand: Hand) -> None:
    """A pair taken out and brought home, with a hint on the way, and the turns explained."""
    hand.label("Free play")
    hand.turn(*parse_turns("R U R'"))
    hand.label("Hint")
    assert "Hint 1 of 3" in texts(hand.pilot)
    turn_home(hand)
    assert "The pair is solved." in texts(hand.pilot)
    hand.label("Explain my turns")
    assert EXPLAINED.of(hand.pilot.session) is not None


@through
def solve(hand: Hand) -> None:
    """A scramble, its cross, the pairs that the program would take first, and the review."""
    hand.label("Whole solves")
    hand.main()
    down = down_of(hand.pilot)
    line = held(hand.pilot.session.advices.cross(CrossQuestion(down.position))).lines[0]
    hand.turn(*down.as_held(line))
    while stand(solve_of(hand.pilot)) is not SolveStand.DONE:
        if stand(solve_of(hand.pilot)) is SolveStand.CHOOSING:
            hand.main()
        turn_home(hand)
    assert solve_of(hand.pilot).ended is not None
    assert "Two layers are solved" in texts(hand.pilot)
    assert cross_down(solve_of(hand.pilot)).position.home_pairs == frozenset(SLOTS)


@through
def looking_ahead(hand: Hand) -> None:
    """A round: the turns watched, and both pieces found that nobody sees any more."""
    hand.label("Whole solves")
    hand.label("Looking ahead")
    hand.main()
    hand.pilot.wait(60.0)
    for _ in range(2):
        round_ = held(LOOKING.of(hand.pilot.session))
        cubie = held(round_.pieces(round_.end))[len(round_.pointed)]
        hand.find(cubie, [each for _, each in places(hand.pilot.session, hand.pilot.now)].index(cubie))
    told = held(LOOKING.of(hand.pilot.session))
    assert (told.watch, told.right) == (RoundPhase.TOLD, 2)
    hand.main()
    assert held(LOOKING.of(hand.pilot.session)).watch is RoundPhase.READY


@through
def painting(hand: Hand) -> None:
    """A whole cube painted, and taken in hand as it is."""
    hand.label("Whole solves")
    hand.label("Paint your cube")
    wanted = mixed(3)
    if isinstance(hand, KeyboardHand):
        for _ in range(48):
            hand.key(KEYS[wanted[painting_of(hand.pilot.session).cursor]])
    else:
        for colour in range(6):
            hand.press(TakeColour(colour))
            for sticker in (each for each in PATH if wanted[each] == colour):
                hand.press(PaintSticker(sticker))
    assert painting_of(hand.pilot.session).colours == wanted
    hand.main()
    assert hand.pilot.view.screen == "solve"
    assert stage_of(hand.pilot).colours == wanted


@through
def board(hand: Hand) -> None:
    """A list chosen, a case shown to its end, the group asked, and on to the next case."""
    hand.label("Board")
    hand.label("All 41 cases")
    for _ in range(4):
        hand.main()
    hand.pilot.wait(120.0)
    hand.main()
    shown = held(BOARD.of(hand.pilot.session))
    assert (shown.at, shown.reveal) == (1, Reveal.HIDDEN)
    hand.label("Ask the group")
    hand.answer(2)
    hand.main()
    asked = held(held(BOARD.of(hand.pilot.session)).asked)
    assert asked.told
    assert asked.hands == (2,)


# -------------------------------------------------------------------------------- learners and settings


@through
def learners(hand: Hand) -> None:
    """A learner added, where one can type; one chosen, joined, removed and brought back."""
    hand.label("Choose another learner")
    if isinstance(hand, KeyboardHand):
        hand.write("Ilva")
        hand.key("enter")
        assert hand.pilot.session.records.learners == (GUEST, "Ilva", "Tova")
        assert hand.pilot.session.records.learner == "Ilva"
    hand.press(ChooseLearner("Tova"))
    assert hand.pilot.session.records.learner == "Tova"
    hand.label("Choose another learner")
    removed_and_back(hand, "Tova")
    hand.press(TakeInHand("Tova"))
    hand.label("Join with another learner")
    hand.press(JoinInto(GUEST))
    hand.label("Join them")
    assert "Tova" not in hand.pilot.session.records.learners


def removed_and_back(hand: Hand, name: str) -> None:
    """A learner removed, and brought back from the backup."""
    hand.press(TakeInHand(name))
    for label in ("Remove this learner", "Yes, remove", "Write a backup and remove"):
        assert name in hand.pilot.session.records.learners
        hand.label(label)
        hand.pilot.settle()
    assert name not in hand.pilot.session.records.learners
    hand.label(f"Bring {name} back")
    assert name in hand.pilot.session.records.learners


@through
def settings(hand: Hand) -> None:
    """Turn buttons switched on, which make a turn for who cannot type, and the looks."""
    hand.press(Act.MENU)
    hand.label("Settings")
    for setting in ("TURN_BUTTONS", "THEME"):
        hand.press(Choose(setting, 1))
    chosen = hand.pilot.session.settings
    assert (chosen.turn_buttons, chosen.look.theme) == (TurnButtons.ALWAYS, "dark")
    hand.label("Home")
    hand.label("Free play")
    hand.press(Make(Turn.R))
    assert turn_count(FREE.of(hand.pilot.session).history) == 1
