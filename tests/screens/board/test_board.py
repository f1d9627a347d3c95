"""The board by keys: one thing after the other, the list walked with one key, questions to the group."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.practice.sitting import sits_down
from tests.session.held import held
from tests.session.pilot import Pilot, Reading
from tests.workers.direct import answers_of
from tutor.coach.hints import hint
from tutor.cube.faces import Face
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES
from tutor.cube.position import SLOTS, Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Quiz
from tutor.method.answer import Answer
from tutor.method.cases import CASES
from tutor.screens.board.commands import BoardAct
from tutor.screens.board.items import all_in_sight, cube_of
from tutor.screens.board.state import BOARD, BoardCase, BoardScene, Presentation, Reveal
from tutor.session.commands import Act, ChooseAnswer
from tutor.session.judging import answer_at
from tutor.session.looking_back import colour_words
from tutor.session.settings import Settings
from tutor.solver.search import Solver
from tutor.ui.inputs import Modifier
from tutor.ui.view import Board, Button


@pytest.fixture
def board(solver: Solver) -> Pilot:
    """Cases 14 and 20 on the board."""
    return on_board(solver, "14, 20")


def on_board(solver: Solver, written: str) -> Pilot:
    pilot = Pilot(solver)
    pilot.press("open:BOARD")
    pilot.write(written)
    pilot.key("enter")
    pilot.settle()
    return pilot


def shown(pilot: Pilot) -> Presentation:
    return held(BOARD.of(pilot.session))


def read(pilot: Pilot) -> Board:
    return held(pilot.view.board)


def known(pilot: Pilot) -> Answer:
    return held(answer_at(pilot.session, shown(pilot).attempt))


def on(pilot: Pilot, key: str = "space") -> None:
    pilot.key(key)
    pilot.settle()


def coached(pilot: Pilot, rung: int) -> str:
    attempt = shown(pilot).attempt
    colours = colour_words(pilot.session, attempt.cube, held(attempt.bearing()))
    return hint(known(pilot), colours, rung).text


def test_one_key_shows_the_pieces_the_step_the_turn_and_the_route(board: Pilot) -> None:
    stage = held(board.view.stage)
    assert read(board) == Board("Find the pair for the framed slot.", hidden="Answer hidden")
    assert (stage.outlined, stage.dimmed, len(stage.framed)) == (frozenset(), frozenset(), 2)
    on(board)
    line = "The corner is on top at the front right, and the edge is on top at the back."
    assert read(board) == Board(line, hidden="Answer hidden")
    assert len(held(board.view.stage).outlined) == 2
    on(board)
    step = known(board).step.value.capitalize()
    assert read(board).step == step
    assert read(board).hidden == read(board).turn == ""
    assert read(board).line == "You want to lift the front-right slot and take only the corner along."
    assert held(board.view.stage).arrow is None
    on(board)
    turn = known(board).way.turns[0]
    assert (read(board).turn, read(board).line) == (turn.notation, coached(board, 3))
    assert held(held(board.view.stage).arrow).turn is turn
    on(board)
    assert read(board).way == tuple(each.notation for each in known(board).way.turns)


def test_what_is_read_of_case_16_leaves_its_first_turn_to_be_found(solver: Solver) -> None:
    pilot = on_board(solver, "16")
    on(pilot)
    on(pilot)
    assert read(pilot) == Board("You want to separate the corner and the edge.", "", "Part", "")
    on(pilot)
    assert (read(pilot).turn, read(pilot).line) == (
        "R",
        "Make R: turn the right layer so that its front goes up.",
    )


def test_each_turn_of_the_route_is_large_while_it_is_made_and_the_pair_ends_in_its_slot(board: Pilot) -> None:
    for _ in range(4):
        on(board)
    large, way = [], read(board).way
    while board.moving:
        now = read(board)
        large.append(now.turn)
        assert now.turn == way[held(now.at)]
        assert now.line.count(".") == 1
        board.wait(0.4)
    assert tuple(turn for turn, before in zip(large, [None, *large], strict=False) if turn != before) == way
    assert read(board) == Board("The pair is in its slot.", way=way)
    assert held(board.view.stage).filled


def test_a_clicker_walks_the_whole_list_and_back(board: Pilot) -> None:
    # Remote clickers send Page Down and Page Up (common practice).
    numbers = []
    for _ in range(2):
        for wanted in Reveal:
            numbers.append(shown(board).at)
            assert shown(board).reveal is wanted
            if wanted is Reveal.ROUTE:
                board.wait(200.0)
            on(board, "page down")
    assert numbers == [0] * 5 + [1] * 5
    assert (shown(board).at, shown(board).reveal) == (1, Reveal.ROUTE)  # at the last it stays
    back = []
    for _ in range(6):
        on(board, "page up")
        back.append((shown(board).at, int(shown(board).reveal)))
    assert back == [(1, 3), (1, 2), (1, 1), (1, 0), (0, 0), (0, 0)]


def test_a_press_while_the_route_plays_holds_it_and_another_lets_it_go_on(board: Pilot) -> None:
    for _ in range(4):
        on(board)
    board.wait(1.0)
    assert board.moving
    on(board, "page down")
    assert not board.moving
    assert Reading(board.view).button("Play on").primary
    on(board, "page down")
    assert board.moving
    assert shown(board).at == 0


def test_again_slowly_takes_twice_the_time(board: Pilot) -> None:
    def seconds(*keys: str) -> float:
        for key in keys:
            on(board, key)
        turns = [span for span in held(board.session.demonstration).spans if span.phase.value == "turning"]
        return sum(span.seconds for span in turns)

    assert seconds("a") == pytest.approx(2 * seconds("page up", "page down"))


def test_arrows_change_the_case_and_hide_its_answer(board: Pilot) -> None:
    on(board)
    on(board, "right")
    assert (shown(board).at, shown(board).reveal) == (1, Reveal.HIDDEN)
    on(board, "right")
    assert shown(board).at == 1
    on(board, "left")
    assert (shown(board).at, shown(board).reveal) == (0, Reveal.HIDDEN)


def test_the_same_case_in_every_slot_and_in_the_mirror(board: Pilot) -> None:
    slots = []
    for _ in SLOTS:
        slots.append(held(shown(board).attempt.bearing()).task.slot)
        on(board, "s")
    assert sorted(slots) == sorted(SLOTS)
    case = CASES[[each.number for each in CASES].index(14)]
    assert shown(board).item == BoardCase(case, Slot.FR)
    on(board, "m")
    assert shown(board).item == BoardCase(case.mirror, Slot.FL)


def test_the_cube_turns_round_as_a_whole_and_the_words_go_with_it(board: Pilot) -> None:
    on(board)
    before = shown(board).attempt.cube
    on(board, "y")
    # y takes the front to the left (WCA Regulations 12a3), so the front-right slot goes to the front left.
    assert shown(board).attempt.cube.face_of(before.colour_of(Face.F)) is Face.L
    assert held(shown(board).attempt.bearing()).task.slot is Slot.FL
    assert read(board).line == "The corner is on top at the front left, and the edge is on top at the right."
    board.key("y", Modifier.SHIFT)
    board.settle()
    assert shown(board).attempt.cube == before
    on(board, "r")
    assert shown(board).attempt.cube == before


def test_there_are_mirrors_only_where_something_of_the_pair_is_out_of_sight() -> None:
    whole = 0
    for case in CASES:
        bearing = held(cube_of(BoardCase(case), Settings()).bearing())
        corner, edge = bearing.position.corners[Slot.FR.corner], bearing.position.edges[Slot.FR.edge]
        places = set(CORNER_FACES[corner // 3]), set(EDGE_FACES[edge // 2])
        # From the front, the right and above one sees two sides of these corners and edges (by looking).
        seen = [{Face[letter] for letter in name} for name in ("UFR", "DFR", "UFL", "UBR", "UF", "UR", "FR")]
        assert all_in_sight(bearing) == all(place in seen for place in places), case.number
        whole += all_in_sight(bearing)
    assert 20 <= whole < 41


# -------------------------------------------------------------------------------------- asking the group


def answers(pilot: Pilot) -> list[Button]:
    return [button for button in Reading(pilot.view).buttons if isinstance(button.action, ChooseAnswer)]


def test_hands_are_counted_and_taken_away_and_the_right_answer_has_its_reason(board: Pilot) -> None:
    on(board)
    on(board, "g")
    assert read(board).line == "Which step comes first here?"
    assert [button.label for button in answers(board)] == ["Raise", "Part", "Join", "Insert"]
    assert not any(button.selected or button.detail for button in answers(board))
    for key in ("1", "3", "3", "3", "backspace", "8"):
        on(board, key)
    assert [button.detail for button in answers(board)] == ["1 hand", "", "2 hands", ""]
    board.give_keys("space", "1")
    right = [button for button in answers(board) if button.selected]
    assert [button.label for button in right] == [known(board).step.value.capitalize()] == ["Join"]
    assert right[0].detail == "Right  ·  2 hands"
    reason = read(board).line
    assert reason == "You want to lift the front-right slot and take only the corner along."
    # One hand was up for Raise: the group hears why that is wrong before it goes on.
    on(board)
    why = next(each.why for each in held(shown(board).asked).answers if each.text == "Raise")
    assert why.startswith(read(board).line)
    assert read(board).line.endswith("So nothing is left to raise.")
    # From the back row the marked answer is the right one: the wrong one that is spoken of is only not grey.
    rows = [(each.label, each.detail, each.selected, each.enabled) for each in answers(board)]
    assert rows == [
        ("Raise", "Wrong  ·  1 hand", False, True),
        ("Part", "", False, False),
        ("Join", "Right  ·  2 hands", True, True),
        ("Insert", "", False, False),
    ]
    board.press(BoardAct.BACK)
    assert read(board).line == reason
    on(board)
    on(board)
    assert shown(board).asked is None
    assert shown(board).reveal is Reveal.STEP


def test_no_count_is_asked_where_the_route_just_shown_is_longer(board: Pilot) -> None:
    assert len(known(board).lines[0]) < len(known(board).routes[0].turns)
    asked = set()
    for _ in range(4):
        on(board, "g")
        asked.add(held(shown(board).asked).text)
    assert asked == {"Which step comes first here?", "Which turn comes first?"}


def test_questions_follow_each_other_and_each_has_one_right_answer(board: Pilot) -> None:
    on(board, "right")
    assert len(known(board).lines[0]) == len(known(board).routes[0].turns)
    lines = []
    for _ in range(3):
        on(board, "g")
        question = held(shown(board).asked)
        lines.append(question.text)
        assert 2 <= len(question.answers) <= 4
        assert sum(each.true for each in question.answers) == 1
        assert question.reason
    assert lines == [
        "Which step comes first here?",
        "Which turn comes first?",
        "How many turns does it take at least?",
    ]
    on(board)
    best = " ".join(turn.notation for turn in known(board).lines[0])
    assert read(board).line == f"This way needs no more: {best}"
    on(board, "page up")
    on(board, "page up")
    assert shown(board).asked is None


# ------------------------------------------------------------------------------------------------- lists


def test_a_lessons_scenes_are_shown_carried_over_and_its_questions_asked(solver: Solver) -> None:
    lesson = load_lesson("three-turn-join", LessonSetting(answers_of(solver)))
    pilot = Pilot(solver, {lesson.name: lesson})
    pilot.press("open:BOARD")
    pilot.write(lesson.title.upper())
    pilot.key("enter")
    pilot.settle()
    assert pilot.view.title == lesson.title
    while not isinstance(scene := lesson.scenes[scene_number(pilot)], Quiz):
        on(pilot, "right")
    assert read(pilot).line == scene.text.split(". ")[-1]
    assert [button.label for button in answers(pilot)] == [each.text for each in scene.answers]
    on(pilot)
    assert read(pilot).line == scene.because or scene.text.endswith(read(pilot).line)
    at = shown(pilot).at
    on(pilot, "s")
    assert shown(pilot).at == at
    assert held(lesson.scenes[0].task).slot is not held(scene_task_slot(pilot))
    on(pilot, "page down")
    on(pilot, "page down")
    assert shown(pilot).at == at + 1


def test_a_scene_that_shows_turns_reveals_one_thing_after_the_other_as_a_case_does(solver: Solver) -> None:
    lesson = load_lesson("three-turn-join", LessonSetting(answers_of(solver)))
    pilot = Pilot(solver, {lesson.name: lesson})
    pilot.press("open:BOARD")
    pilot.write(lesson.title)
    pilot.key("enter")
    pilot.settle()
    assert revealed(pilot) == [
        ("Find the pair for the framed slot.", "", "", ()),
        ("The corner is on top at the front left, and the edge is on top at the back.", "", "", ()),
        ("You want to make the corner and the edge match.", "Join", "", ()),
        ("Make L': turn the left layer so that its front goes up.", "Join", "L'", ()),
        (
            "The edge is on top at the back, so L' joins it to the corner colour to colour.",
            "Join",
            "L'",
            ("L'", "U'", "L"),
        ),
    ]
    for wanted in (Reveal.TURN, Reveal.STEP, Reveal.PIECES, Reveal.HIDDEN):
        on(pilot, "page up")
        assert shown(pilot).reveal is wanted
    # A slip on purpose begins otherwise than the way: neither its step nor its turn is an answer.
    while scene_number(pilot) != 14:
        on(pilot, "right")
    lines = revealed(pilot, 3)
    assert [line[1:3] for line in lines] == [("", ""), ("", ""), ("Join", "R'")]
    on(pilot, "page up")
    assert shown(pilot).reveal is Reveal.PIECES
    assert next(each.label for each in Reading(pilot.view).buttons if each.primary) == "Show the route"


def revealed(pilot: Pilot, count: int = 5) -> list[tuple[str, str, str, tuple[str, ...]]]:
    """What the board says, one press after the other."""
    found = []
    for press in range(count):
        if press:
            on(pilot)
        board = read(pilot)
        found.append((board.line, board.step, board.turn, board.way))
    return found


def scene_number(pilot: Pilot) -> int:
    item = shown(pilot).item
    assert isinstance(item, BoardScene)
    return item.number


def scene_task_slot(pilot: Pilot) -> Slot | None:
    item = shown(pilot).item
    assert isinstance(item, BoardScene)
    task = item.lesson.scenes[0].task
    return None if task is None else task.slot


def test_the_cases_that_slip_most_come_from_the_store(solver: Solver, tmp_path: Path) -> None:
    pilot = sits_down(solver, tmp_path)
    pilot.press("open:BOARD")
    pilot.press("show:slipping")
    pilot.settle()
    assert BOARD.of(pilot.session) is None
    assert pilot.session.writing.error == "No case slips from anybody yet, so there is no such list."


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("42", "There is no case 42. The cases have the numbers 1 to 41."),
        ("", "Type the number of a case, or the name of a lesson."),
        (
            "three, four",
            "“three, four” is neither a list of cases nor a lesson. Type for instance 3, 14, 7-9.",
        ),
    ],
)
def test_what_is_no_list_is_told_at_the_field(solver: Solver, text: str, told: str) -> None:
    pilot = Pilot(solver)
    pilot.press("open:BOARD")
    pilot.write(text)
    pilot.key("enter")
    assert (pilot.session.writing.error, pilot.session.writing.text) == (told, text)
    assert pilot.view.board is None


# --------------------------------------------------------------------------------- the window and closing


def test_escape_closes_one_thing_after_the_other(board: Pilot) -> None:
    filled: list[bool] = []
    board.application.fill_screen = filled.append
    board.give_keys("space", "f11", "g", "f1")
    seen = []
    for _ in range(6):
        session = board.session
        state = (bool(session.sheet.value != "nothing"), session.full_screen, session.screen)
        seen.append((*state, BOARD.of(session) is not None and shown(board).asked is not None))
        board.key("escape")
    assert seen[:4] == [
        (True, True, "board", True),
        (False, True, "board", True),
        (False, False, "board", True),
        (False, False, "board", False),
    ]
    assert board.session.screen == "home"
    assert filled == [True, False]


def test_any_screen_fills_the_display_and_nobody_keeps_that(pilot: Pilot) -> None:
    filled: list[bool] = []
    pilot.application.fill_screen = filled.append
    kept = pilot.session.settings
    for screen in ("open:FREE_PLAY", "open:CASE_BOOK", "open:SETTINGS"):
        pilot.press(screen)
        pilot.key("f11")
        pilot.key("f11")
    assert filled == [True, False] * 3
    assert pilot.session.settings == kept


def test_the_board_waits_where_it_was_left(board: Pilot) -> None:
    on(board)
    board.press("open:HOME")
    board.press("open:BOARD")
    assert shown(board).reveal is Reveal.PIECES
    assert not board.session.writing.open
    board.press(BoardAct.PREPARE)
    assert board.view.board is None
    assert board.session.writing.open


def test_the_spotlight_is_asked_for_and_goes(board: Pilot) -> None:
    on(board, "l")
    assert read(board).spotlight
    on(board, "right")
    assert read(board).spotlight
    on(board, "l")
    assert not read(board).spotlight


def test_the_main_button_is_what_space_does(board: Pilot) -> None:
    labels = []
    for _ in range(4):
        button = next(each for each in Reading(board.view).buttons if each.primary)
        assert (button.action, button.key) == (Act.NEXT, "Space")
        labels.append(button.label)
        on(board)
    assert labels == ["Show the two pieces", "Show the step", "Show the first turn", "Show the route"]
