"""Questions whose true answer the program knows."""

from __future__ import annotations

import pytest

from tutor.coach.sight import SpokenPosition
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves, parse_turns
from tutor.cube.position import Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.assembly import LessonSetting, assemble
from tutor.lesson.questions import Answerer, subject_of
from tutor.lesson.reading import read_script
from tutor.lesson.scenes import Quiz
from tutor.lesson.variation import PLAIN, Variation
from tutor.lesson.words.replies import LOOK_AT_THE_CUBE
from tutor.method.cases import CASES, Case, parse_case
from tutor.method.continuations import Verdict
from tutor.solver.task import Task


def position_of(case: str, top: int = 0) -> Position:
    return parse_case(case).position(Slot.FR, top)


def seen(position: Position, slot: Slot = Slot.FR) -> SpokenPosition:
    return SpokenPosition(position, Task.at(position, slot), COLOUR_NAMES)


@pytest.mark.parametrize(
    ("about", "case", "true", "offered"),
    [
        ("turn", "corner-right-edge-back-front-up", {"R"}, {"R", "R'", "R2", "U"}),
        ("step", "corner-right-edge-right-right-up", {"part"}, {"raise", "part", "join", "insert"}),
        ("count", "corner-right-edge-back-front-up", {"3"}, {"2", "3", "4", "5"}),
        ("joint", "corner-right-edge-right-right-up", {"touching"}, {"apart", "touching", "joined"}),
        ("joint", "corner-front-edge-right-front-up", {"joined"}, {"apart", "touching", "joined"}),
        ("joint", "corner-right-edge-back-front-up", {"apart"}, {"apart", "touching", "joined"}),
        ("corner", "corner-in-front-edge-in-turned", {"DFR"}, None),
        ("edge", "corner-up-edge-left-front-up", {"UL"}, None),
    ],
)
def test_the_true_answer_is_known_and_offered(
    about: str, case: str, true: set[str], offered: set[str] | None, answers: Answerer
) -> None:
    position = position_of(case)
    subject = subject_of(about, seen(position), PLAIN, answers)
    assert subject.true == true
    assert len(subject.true & set(subject.offered)) == 1
    assert len(set(subject.offered)) == len(subject.offered) <= 4
    assert offered is None or set(subject.offered) == offered
    assert len({subject.words(value) for value in subject.offered}) == len(subject.offered)


def test_the_pair_to_take_first_is_the_nearest(answers: Answerer) -> None:
    # The pair of FL went out last, by three turns, so it is three turns from home.
    position = HeldCube().after(parse_moves("R U R' L' U' L")).position
    subject = subject_of("slot", seen(position), PLAIN, answers)
    assert subject.true == {"FL"}
    assert set(subject.offered) == {"FR", "FL"}


def test_where_no_pair_is_nearest_nothing_is_offered(answers: Answerer) -> None:
    # The half turn y2 carries these turns to themselves, so slots that lie across are equally near.
    position = HeldCube().after(parse_turns("R L U R' L'")).position
    near = {slot: answers(position, Task.at(position, slot)).distance for slot in (Slot.FR, Slot.BL)}
    assert len(set(near.values())) == 1
    assert subject_of("slot", seen(position), PLAIN, answers).offered == ()
    solved = HeldCube().position
    assert subject_of("slot", seen(solved), PLAIN, answers).offered == ()


@pytest.mark.parametrize("case", CASES[::4])
def test_offered_wrong_turns_are_wrong(case: Case, answers: Answerer) -> None:
    position = case.position(Slot.FR)
    task = Task.at(position, Slot.FR)
    subject = subject_of("turn", seen(position), PLAIN, answers)
    now = answers(position, task)
    for value in subject.offered:
        [turn] = parse_turns(value)
        good = now.continuations[turn].verdict is not Verdict.DETOUR
        assert good is (value in subject.true)
        if good:
            # What is offered as true is how the route that is taught begins.
            assert turn is now.routes[0].turns[0]
            assert turn.face in task.working_faces
    assert 2 <= len(subject.offered) <= 4


def test_written_values_are_carried_to_other_slots(answers: Answerer) -> None:
    mirrored = Variation(mirrored=True)
    cube = mirrored.held(HeldCube(position_of("corner-right-edge-back-front-up")))

    def read(about: str, value: str | int) -> str:
        return subject_of(about, seen(cube.position, Slot.FL), mirrored, answers).reading(value)

    assert read("turn", "R") == "L'"
    assert read("slot", "BR") == "BL"
    assert read("corner", "UFR") == "UFL"
    assert read("count", 3) == "3"
    wrong = (("turn", "R U"), ("turn", "x"), ("slot", "RF"), ("corner", "UF"), ("count", "3"), ("joint", ""))
    for about, value in wrong:
        with pytest.raises(ValueError, match="Write"):
            read(about, value)


def test_a_script_gives_its_own_reason_or_the_program_finds_one(answers: Answerer) -> None:
    head = 'title = "t"\ngoal = "g"\n[[scene]]\nkind = "choose"\ntext = "x"\n'
    start = 'case = "corner-right-edge-back-front-up"\nslot = "FR"\n'
    offered = (
        'answers = [{ value = "R", true = true }, { value = "R\'", why = "{turn:R\'} goes down." }, '
        '{ value = "U" }]\n'
    )
    read = read_script(f'{head}{start}about = "turn"\n{offered}', "file.toml")
    [scene] = assemble(read, "file", LessonSetting(answers, Variation(mirrored=True))).scenes
    assert isinstance(scene, Quiz)
    true, own, found = scene.answers
    assert (true.true, true.why) == (True, "")
    assert own.why == "L goes down."
    assert found.why.startswith("U' moves both pieces of the pair.")


def test_where_nothing_is_known_of_a_wrong_answer_the_learner_is_sent_to_the_cube(answers: Answerer) -> None:
    head = 'title = "t"\ngoal = "g"\n[[scene]]\nkind = "choose"\ntext = "x"\n'
    read = read_script(head + 'answers = [{ text = "a", true = true }, { text = "b" }]\n', "file.toml")
    [scene] = assemble(read, "file", LessonSetting(answers)).scenes
    assert isinstance(scene, Quiz)
    assert [answer.why for answer in scene.answers] == ["", LOOK_AT_THE_CUBE]
