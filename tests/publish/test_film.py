"""The plan of a film: what is shown when, and with which words."""

from __future__ import annotations

from collections.abc import Callable
from itertools import groupby, pairwise
from math import pi

import pytest

from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.held_cube import face_turns
from tutor.cube.notation import Rotation, WideTurn, parse_moves, parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Show
from tutor.method.answer import Answer
from tutor.method.cases import CASES, parse_case
from tutor.method.cutting import cut
from tutor.method.pairs import both_on_top, match, pair_locations
from tutor.method.steps import Step
from tutor.publish import words
from tutor.publish.film import Film, FilmPace, FilmPiece, Passage, film_of
from tutor.publish.passages import lesson_passages, line_passage, route_passage, turns_passage
from tutor.publish.subject import Shot, Subject, case_subject
from tutor.publish.subtitles import subtitles
from tutor.solver.task import Task, slot_sides

Answers = Callable[[Position, Task], Answer]
SUBJECT = case_subject(parse_case("corner-right-edge-front-front-up"), Slot.FR)
TURNS = parse_turns("U2 R U' R'")
FILM = film_of((Passage(SUBJECT, (FilmPiece(TURNS, Step.INSERT, "In."),)),), Shot())


def of_pace(film: Film, pace: str) -> Film:
    return Film(tuple(frame for frame in film.frames if frame.words.pace == pace), film.shot, film.rate)


def test_a_film_shows_every_turn_slowly_and_then_at_real_speed() -> None:
    slow, real = of_pace(FILM, "slowly"), of_pace(FILM, "at real speed")
    assert FILM.frames == slow.frames + real.frames
    for part, factor in ((slow, 2), (real, 1)):
        turning = [frame for frame in part.frames if frame.stage.turning is not None]
        # A quarter turn takes 0.32 s and a half turn 1.45 times that (tutor/session/timeline.py).
        quarter, half = 8, 12
        assert len(turning) == (3 * (factor * quarter - 1)) + (factor * half - 1)
        assert sum(frame.ticks for frame in turning) == len(turning)


def test_both_passes_go_through_the_same_poses() -> None:
    slow, real = (
        {frame.stage for frame in of_pace(FILM, pace).frames} for pace in ("slowly", "at real speed")
    )
    assert real <= slow


def test_neighbouring_pictures_differ_and_every_one_stays_a_while() -> None:
    assert all((a.stage, a.words) != (b.stage, b.words) for a, b in pairwise(FILM.frames))
    assert all(frame.ticks >= 1 for frame in FILM.frames)


def test_a_turn_never_jumps() -> None:
    angles = [frame.stage.turning.angle if frame.stage.turning else 0.0 for frame in FILM.frames]
    steps = [abs(b - a) for a, b in pairwise(angles) if a and b]
    # Hermite's curve is at most 1.5 times as steep as a straight line.
    assert max(steps) <= 1.5 * pi / 12 + 1e-9


@pytest.mark.parametrize("pace", [FilmPace.SLOW, FilmPace.REAL])
def test_one_pass_can_be_had_alone(pace: FilmPace) -> None:
    film = film_of((Passage(SUBJECT, (FilmPiece(TURNS),)),), Shot(), pace)
    assert {frame.words.pace for frame in film.frames} == {
        "slowly" if pace is FilmPace.SLOW else "at real speed"
    }


def test_the_tiles_follow_the_turns() -> None:
    counts = [frame.words.done for frame in of_pace(FILM, "slowly").frames]
    assert counts == sorted(counts)
    assert set(counts) == set(range(len(TURNS) + 1))
    for frame in FILM.frames:
        if frame.stage.turning is not None:
            assert frame.words.turning
            assert frame.stage.turning.face is TURNS[frame.words.done].face
        if frame.stage.arrow is not None:
            assert frame.stage.arrow.turn is TURNS[frame.words.done]


def test_wide_turns_and_turns_of_the_whole_cube_are_shown_with_the_marks_going_along() -> None:
    moves = parse_moves("y Rw' U x2")
    film = film_of((turns_passage(SUBJECT, moves),), Shot(), FilmPace.SLOW)
    layers = {frame.words.done: frame.stage.turning.layers for frame in film.frames if frame.stage.turning}
    assert layers == {0: 3, 1: 2, 2: 1, 3: 3}
    assert film.frames[-1].stage.colours == SUBJECT.cube.after(moves).colours
    # The pair that is marked is the same two pieces, wherever they have gone.
    marked = [frame.stage for frame in (film.frames[0], film.frames[-1])]
    colours = [
        sorted(
            stage.colours[sticker]
            for sticker, (cubie, _) in enumerate(STICKERS)
            if cubie_number(cubie) in stage.outlined
        )
        for stage in marked
    ]
    assert colours[0] == colours[1]
    arrows = {frame.words.done for frame in film.frames if frame.stage.arrow}
    assert arrows == {place for place, move in enumerate(moves) if not isinstance(move, Rotation | WideTurn)}


def test_a_film_tells_when_the_pair_is_home_however_the_cube_is_held(answers: Answers) -> None:
    assert SUBJECT.task is not None
    line = answers(SUBJECT.cube.position, SUBJECT.task).lines[0]
    assert turns_passage(SUBJECT, (*line, *parse_moves("x y'"))).ending == "The pair is in its slot."
    assert turns_passage(SUBJECT, line[:-1]).ending == ""


def test_a_film_can_be_faster() -> None:
    quick = film_of((Passage(SUBJECT, (FilmPiece(TURNS),)),), Shot(), speed=2.0)
    assert quick.seconds < FILM.seconds


def test_nothing_and_too_much_are_refused() -> None:
    with pytest.raises(ValueError, match="nothing to show"):
        film_of((), Shot())
    with pytest.raises(ValueError, match="the film would take 59 minutes, and 45 is the most"):
        film_of((Passage(SUBJECT, (FilmPiece((Turn.R,), None, "a" * 60_000),)),), Shot())
    with pytest.raises(ValueError, match="there are no turns to show; write some"):
        turns_passage(SUBJECT, ())


@pytest.mark.parametrize("slot", SLOTS)
@pytest.mark.parametrize("passage_of", [route_passage, line_passage])
def test_route_and_line_of_every_case_end_at_home(
    passage_of: Callable[..., Passage], slot: Slot, answers: Answers
) -> None:
    for case in CASES:
        subject = case_subject(case, slot)
        assert subject.task is not None
        passage = passage_of(subject, answers(subject.cube.position, subject.task))
        assert passage.end.position.home_pairs == set(SLOTS)
        assert passage.end.position.cross_home
        # By hand: the top and the two faces beside the slot, never a far layer.
        assert {turn.face for turn in face_turns(passage.turns)[0]} <= {Face.U, *slot_sides(slot)}
        assert {turn.face for turn in case.setup(slot)} <= {Face.U, *slot_sides(slot)}


@pytest.mark.parametrize("slot", SLOTS)
@pytest.mark.parametrize("passage_of", [route_passage, line_passage])
def test_steps_and_captions_of_every_case_are_those_of_the_cut(
    passage_of: Callable[..., Passage], slot: Slot, answers: Answers
) -> None:
    for case in CASES:
        subject = case_subject(case, slot)
        assert subject.task is not None
        passage = passage_of(subject, answers(subject.cube.position, subject.task))
        turns, _ = face_turns(passage.turns)
        steps = tuple(piece.step for piece in passage.pieces for _ in piece.turns)
        assert steps == cut(subject.cube.position, subject.task, turns)
        for piece in passage.pieces:
            assert piece.step is not None
            if passage_of is route_passage:
                assert piece.caption.startswith(f"{piece.step.value.capitalize()}: ")


def test_a_line_says_how_long_it_is(answers: Answers) -> None:
    assert SUBJECT.task is not None
    found = answers(SUBJECT.cube.position, SUBJECT.task)
    captions = {piece.caption for piece in line_passage(SUBJECT, found).pieces}
    assert captions == {"A shortest line takes seven turns."}
    assert found.by_hand == 7


def test_the_title_has_the_cases_number_and_short_name_and_says_where_the_top_is() -> None:
    # Case 9 in the book's order; white is the cross colour unless another is chosen.
    assert SUBJECT.title == "Case 9: white right, edge in front, tops different\nSlot FR"
    turned = case_subject(parse_case("9"), Slot.BL, 3, Face.U)
    assert turned.title == (
        "Case 9: yellow in front, edge left, tops different\nSlot BL, with the top turned by U'"
    )


def test_the_route_filmed_is_the_one_shown_for_the_case(answers: Answers) -> None:
    for slot in SLOTS:
        for case in CASES:
            subject = case_subject(case, slot)
            assert subject.task is not None
            passage = route_passage(subject, answers(subject.cube.position, subject.task))
            assert passage.turns == case.route(slot).turns


def test_each_caption_comes_true_when_its_step_has_been_shown(answers: Answers) -> None:
    for case in CASES:
        subject = case_subject(case, Slot.BR)
        assert subject.task is not None
        cube, task = subject.cube, subject.task
        for piece in route_passage(subject, answers(cube.position, task)).pieces[:-1]:
            before, cube = cube, cube.after(piece.turns)
            if "both pieces to the top layer" in piece.caption:
                assert both_on_top(cube.position, task.slot)
                assert not both_on_top(before.position, task.slot)
            if "colour to colour" in piece.caption:
                assert match(task.slot, *pair_locations(cube.position, task.slot))


def test_turns_as_given_carry_the_steps_that_they_are_cut_into() -> None:
    assert SUBJECT.task is not None
    turns = parse_turns("U R U2 R' U R U' R'")
    steps = [piece.step for piece in turns_passage(SUBJECT, turns).pieces for _ in piece.turns]
    assert steps == list(cut(SUBJECT.cube.position, SUBJECT.task, turns))
    # A turn of the whole cube goes with the turn after it and changes no step.
    held = turns_passage(
        SUBJECT, (*parse_moves("y"), *parse_moves("U F U2 F' U F U' F'"), *parse_moves("x2"))
    )
    assert [piece.step for piece in held.pieces for _ in piece.turns] == [steps[0], *steps, steps[-1]]
    assert all(piece.caption == "" for piece in held.pieces)


def test_turns_made_once_the_pair_is_in_its_slot_belong_to_no_step(answers: Answers) -> None:
    assert SUBJECT.task is not None
    line = answers(SUBJECT.cube.position, SUBJECT.task).lines[0]
    pieces = turns_passage(SUBJECT, (*line, Turn.U)).pieces
    assert [piece.step is None for piece in pieces for _ in piece.turns] == [False] * len(line) + [True]


def test_where_no_pair_is_in_question_there_is_no_step() -> None:
    free = Subject(SUBJECT.cube, None, "")
    assert [piece.step for piece in turns_passage(free, parse_turns("R U R'")).pieces] == [None]


def test_many_turns_are_shown_without_steps() -> None:
    many = parse_turns("R U ") * 60
    assert [piece.step for piece in turns_passage(SUBJECT, many).pieces] == [None]


def test_a_pair_at_home_has_nothing_to_show(answers: Answers) -> None:
    subject = case_subject(CASES[0], Slot.FR)
    assert subject.task is not None
    line = answers(subject.cube.position, subject.task).lines[0]
    home = answers(subject.cube.position.after(line), subject.task)
    with pytest.raises(ValueError, match="the pair is already solved"):
        route_passage(subject, home)


def test_a_lesson_is_shown_with_its_texts(answers: Answers) -> None:
    lesson = load_lesson("hide-the-corner", LessonSetting(answers))
    passages = lesson_passages(lesson)
    shows = [scene for scene in lesson.scenes if isinstance(scene, Show)]
    assert [passage.turns for passage in passages] == [scene.turns for scene in shows]
    film = film_of(passages, Shot(), FilmPace.SLOW)
    said = [caption for caption, _ in groupby(frame.words.caption for frame in film.frames)]
    texts = [(scene.text, *(part.text for part in scene.segments), scene.text) for scene in shows]
    assert said == [text for of_scene in texts for text in of_scene]


def test_subtitles_say_what_the_captions_say_and_when(answers: Answers) -> None:
    passages = lesson_passages(load_lesson("hide-the-corner", LessonSetting(answers)))
    film = film_of(passages, Shot(), FilmPace.SLOW)
    blocks = subtitles(film).strip().split("\n\n")
    assert [block.split("\n")[0] for block in blocks] == [str(n + 1) for n in range(len(blocks))]
    spans = [[_seconds(moment) for moment in block.split("\n")[1].split(" --> ")] for block in blocks]
    assert spans[0][0] == 0
    assert spans[-1][1] == pytest.approx(film.seconds, abs=0.001)
    assert all(begin < end for begin, end in spans)
    assert all(before[1] == after[0] for before, after in pairwise(spans))
    # Common practice for subtitles: about 17 characters a second.
    slow = [(span, block.split("\n")[2]) for span, block in zip(spans, blocks, strict=True)][:5]
    assert all(end - begin >= len(text) / 17 - 0.04 for (begin, end), text in slow)


def test_at_real_speed_nothing_is_said_and_no_arrow_is_seen_before_the_end(answers: Answers) -> None:
    film = film_of(lesson_passages(load_lesson("hide-the-corner", LessonSetting(answers))), Shot())
    real = [frame for frame in film.frames if frame.words.pace == words.AT_REAL_SPEED]
    counts = [sum(len(piece.turns) for piece in frame.words.pieces) for frame in real]
    under_way = [frame for frame, count in zip(real, counts, strict=True) if frame.words.done < count]
    assert len(under_way) > 20
    assert {frame.words.caption for frame in under_way} == {""}
    assert all(frame.stage.arrow is None for frame in real)


def _seconds(moment: str) -> float:
    hours, minutes, rest = moment.split(":")
    return 3600 * int(hours) + 60 * int(minutes) + float(rest.replace(",", "."))
