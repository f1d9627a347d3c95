"""The plan of a film: what is shown when, and with which words."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from itertools import pairwise
from math import ceil, pi
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.session.pilot import Pilot
from tutor.coach.feedback import Shown
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.held_cube import face_turns
from tutor.cube.notation import Rotation, WideTurn, parse_moves, parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import CameraSetting, Recap, Show, Tell
from tutor.method.answer import Answer
from tutor.method.cases import CASES, Case, parse_case
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.publish import words
from tutor.publish.captions import captions_of
from tutor.publish.film import (
    Film,
    FilmFrame,
    FilmPace,
    FilmPiece,
    Passage,
    Recording,
    Sound,
    TitleCard,
    Words,
    cues,
    film_of,
)
from tutor.publish.passages import (
    FAR,
    lesson_passages,
    line_passage,
    route_passage,
    steps_of,
    told_of,
    turns_passage,
)
from tutor.publish.spoken_script import spoken_script
from tutor.publish.subject import Shot, Subject, case_subject, subject_of
from tutor.publish.subtitles import subtitles
from tutor.screens.lesson import telling
from tutor.screens.lesson.scene_look import camera_at
from tutor.session.saving import clip_wanted
from tutor.session.saving_commands import SaveClip
from tutor.session.telling import NOTHING, to_read
from tutor.solver.search import Solver
from tutor.solver.task import Task, slot_sides
from tutor.ui.view import REST_CAMERA, Camera, Look
from tutor.workers.saving import passage_of as clip_passage

Answers = Callable[[Position, Task], Answer]
PassageOf = Callable[[Subject, Answers], Passage]
Made = Callable[[PassageOf, Case, Slot], Passage]
SUBJECT = case_subject(parse_case("corner-right-edge-front-front-up"), Slot.FR)
TURNS = parse_turns("U2 R U' R'")
FILM = film_of((Passage(SUBJECT, (FilmPiece(TURNS, Step.INSERT, "In."),)),), Shot())


def of_pace(film: Film, pace: str) -> Film:
    frames = (frame for frame in film.frames if isinstance(frame.words, Words) and frame.words.pace == pace)
    return Film(tuple(frames), film.shot, film.rate)


def words_of(frame: FilmFrame) -> Words:
    assert isinstance(frame.words, Words)
    return frame.words


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
    assert {words_of(frame).pace for frame in film.frames} == {
        "slowly" if pace is FilmPace.SLOW else "at real speed"
    }


def test_the_tiles_follow_the_turns() -> None:
    counts = [words_of(frame).done for frame in of_pace(FILM, "slowly").frames]
    assert counts == sorted(counts)
    assert set(counts) == set(range(len(TURNS) + 1))
    for frame in FILM.frames:
        if frame.stage.turning is not None:
            assert words_of(frame).turning
            assert frame.stage.turning.face is TURNS[words_of(frame).done].face
        if frame.stage.arrow is not None:
            assert frame.stage.arrow.turn is TURNS[words_of(frame).done]


def test_wide_turns_and_turns_of_the_whole_cube_are_shown_with_the_marks_going_along() -> None:
    moves = parse_moves("y Rw' U x2")
    film = film_of((turns_passage(SUBJECT, moves),), Shot(), FilmPace.SLOW)
    layers = {
        words_of(frame).done: frame.stage.turning.layers for frame in film.frames if frame.stage.turning
    }
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
    arrows = {words_of(frame).done for frame in film.frames if frame.stage.arrow}
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
    with pytest.raises(ValueError, match=f"^{words.NOTHING_TO_SHOW}$"):
        film_of((), Shot())
    with pytest.raises(ValueError, match="the film would take 59 minutes, and 45 is the most"):
        film_of((Passage(SUBJECT, (FilmPiece((Turn.R,), None, "a" * 60_000),)),), Shot())
    with pytest.raises(ValueError, match="there are no turns to show; write some"):
        turns_passage(SUBJECT, ())


@pytest.fixture(scope="module")
def passage_made(answers: Answers) -> Made:
    """Makes the passage about a case in a slot, each once for all tests that look at it."""

    @cache
    def made(passage_of: PassageOf, case: Case, slot: Slot) -> Passage:
        return passage_of(case_subject(case, slot), answers)

    return made


@pytest.mark.parametrize("slot", SLOTS)
@pytest.mark.parametrize("passage_of", [route_passage, line_passage])
def test_route_and_line_of_every_case_end_at_home(
    passage_of: PassageOf, slot: Slot, passage_made: Made
) -> None:
    for case in CASES:
        passage = passage_made(passage_of, case, slot)
        assert passage.end.position.home_pairs == set(SLOTS)
        assert passage.end.position.cross_home
        # By hand: the top and the two faces beside the slot, never a far layer.
        assert {turn.face for turn in face_turns(passage.turns)[0]} <= {Face.U, *slot_sides(slot)}
        assert {turn.face for turn in case.setup(slot)} <= {Face.U, *slot_sides(slot)}


@pytest.mark.parametrize("slot", SLOTS)
@pytest.mark.parametrize("passage_of", [route_passage, line_passage])
def test_the_steps_of_every_case_are_those_of_the_cut(
    passage_of: PassageOf, slot: Slot, passage_made: Made
) -> None:
    for case in CASES:
        subject = case_subject(case, slot)
        assert subject.task is not None
        passage = passage_made(passage_of, case, slot)
        turns, _ = face_turns(passage.turns)
        steps = tuple(piece.step for piece in passage.pieces for _ in piece.turns)
        assert steps == cut(subject.cube.position, subject.task, turns)
        assert all(piece.name == piece.step.value.capitalize() for piece in passage.pieces if piece.step)
        assert all(len(piece.said) == len(piece.turns) for piece in passage.pieces)


def test_a_line_says_how_long_it_is(answers: Answers) -> None:
    assert SUBJECT.task is not None
    assert line_passage(SUBJECT, answers).opening == "A shortest line takes seven turns."
    assert answers(SUBJECT.cube.position, SUBJECT.task).by_hand == 7


def test_the_title_has_the_cases_number_and_short_name_and_says_where_the_top_is() -> None:
    # Case 9 in the book's order; white is the cross colour unless another is chosen.
    assert SUBJECT.title == "Case 9: white right, edge in front, tops different\nSlot FR"
    turned = case_subject(parse_case("9"), Slot.BL, 3, Face.U)
    assert turned.title == (
        "Case 9: yellow in front, edge left, tops different\nSlot BL, with the top turned by U'"
    )


def test_the_route_filmed_is_the_one_shown_for_the_case(passage_made: Made) -> None:
    for slot in SLOTS:
        for case in CASES:
            passage = passage_made(route_passage, case, slot)
            assert passage.turns == case.route(slot).turns


def test_a_film_without_mirrors_says_nothing_of_them(passage_made: Made) -> None:
    passages = tuple(passage_made(route_passage, case, Slot.BL) for case in CASES[::4])
    with_mirrors, without = (
        " ".join(frame.caption.text for frame in film_of(passages, shot).frames)
        for shot in (Shot(Look(mirrors=True)), Shot(Look(mirrors=False)))
    )
    assert "mirror" in with_mirrors
    assert "mirror" not in without
    assert re.sub(r" \([^)]*mirrors?\)", "", with_mirrors) == without


def test_of_every_turn_is_said_what_the_window_says(solver: Solver, answers: Answers) -> None:
    # The window's own demonstration, driven by the pilot, is the independent account.
    pilot = Pilot(solver)
    for name, slot in (("9", "FR"), ("14", "BL"), ("30", "FL")):
        pilot.press(f"case:{slot}:0:{parse_case(name).slug}")
        pilot.settle()
        pilot.press("act:SHOW_AGAIN")
        pilot.settle()
        shown = pilot.session.demonstration
        assert shown is not None
        subject = case_subject(parse_case(name), Slot[slot])
        passage = route_passage(subject, answers)
        said = [told for piece in passage.pieces for told in piece.said]
        assert passage.turns == shown.turns
        assert said == [to_read(pilot.session, index) for index in range(len(shown.turns))]
        assert all(told.coming and told.made for told in said)
        captions = [cue.caption for cue in cues(film_of((passage,), Shot()).frames)]
        steps = zip(shown.steps, shown.turns, said, strict=True)
        for step, turn, told in steps:
            assert step is not None
            heading = f"{step.value.capitalize()}: {turn.notation}"
            own = [caption.text for caption in captions if caption.heading == heading]
            for text in {told.coming, told.made}:
                assert text in own or text in " ".join(own)


def test_a_clip_of_the_window_says_what_a_film_of_the_command_says(solver: Solver, answers: Answers) -> None:
    pilot = Pilot(solver)
    pilot.press(f"case:BR:0:{parse_case('9').slug}")
    pilot.settle()
    _, (wish,) = clip_wanted(pilot.session)
    assert isinstance(wish, SaveClip)
    made = route_passage(case_subject(parse_case("9"), Slot.BR), answers)
    clip = clip_passage(wish)
    assert (clip.pieces, clip.opening, clip.ending) == (made.pieces, made.opening, made.ending)
    assert (clip.first, clip.last) == (made.first, made.last)

    def stop() -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        clip_passage(wish, stop)


def test_own_turns_are_told_and_a_slip_is_marked_and_not_seen_at_real_speed(answers: Answers) -> None:
    moves = parse_turns("U D D' F' U2 F")
    passage = turns_passage(SUBJECT, moves, told_of(SUBJECT, moves, steps_of(SUBJECT, moves), answers))
    assert [(piece.slip, len(piece.turns)) for piece in passage.pieces][:2] == [(False, 1), (True, 1)]
    film = film_of((passage,), Shot())
    assert {frame.words.pace for frame in film.frames if isinstance(frame.words, Words)} == {"slowly"}
    captions = [cue.caption for cue in cues(film.frames)]
    slips = [caption for caption in captions if caption.heading == "Slip: D"]
    assert slips[0].text.startswith("D takes out ")
    # Each turn is named over what is said of it: the Detour by what it is, the others by their step.
    named = list(dict.fromkeys(caption.heading.split(": ")[1] for caption in captions if caption.heading))
    assert named == [move.notation for move in moves]
    assert film_of((passage,), Shot(), FilmPace.REAL).frames == film.frames


def test_only_turns_of_one_layer_with_the_cross_down_are_named(answers: Answers) -> None:
    def told(written: str) -> tuple[list[Shown], frozenset[int]]:
        moves = parse_moves(written)
        said, slips = told_of(SUBJECT, moves, steps_of(SUBJECT, moves), answers)
        return list(said), slips

    # Rw turns the left layer as the cube is then held, and leaves the cross at the back.
    assert told("Rw U Rw'") == ([NOTHING] * 3, frozenset({0, 1, 2}))
    # The whole cube turned about the top keeps the cross down, and the tile's letter stays the coach's.
    (whole, after), slips = told("y F'")
    assert (whole, slips) == (NOTHING, frozenset())
    assert after.coming == "The corner and the edge touch without matching, and F' separates them."
    # On its way with the cross up, a turn back is named again once the cross is down.
    (_, up, _, down), _ = told("x2 D x2 F'")
    assert up == NOTHING
    assert down.coming == after.coming


def test_nothing_is_told_from_where_the_pair_is_far_from_home(answers: Answers) -> None:
    farthest = 0

    def answered(position: Position, task: Task) -> Answer:
        nonlocal farthest
        found = answers(position, task)
        farthest = max(farthest, found.distance)
        return found

    moves = parse_turns("R2 F D L B U R' D2 F' L2 B' U' D R F2 L' B2 U2 D' R")
    said, _ = told_of(SUBJECT, moves, steps_of(SUBJECT, moves), answered)
    assert len(said) == len(moves)
    assert said[0].made
    assert said[-1] == NOTHING
    assert farthest == FAR + 1
    # Words of the room's own stand in for the coach's.
    own = (Shown("", "Mine."),) * len(moves)
    assert told_of(SUBJECT, moves[:2], (Step.RAISE,) * 2, answered, own=own[:2])[0] == own[:2]


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
    assert all(not piece.said for piece in held.pieces)


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
    home = subject_of(subject.cube.after(line), subject.task, "")
    with pytest.raises(ValueError, match="the pair is already solved"):
        route_passage(home, answers)


def test_a_card_names_the_case_first_and_its_route_last(answers: Answers) -> None:
    passage = route_passage(SUBJECT, answers)
    title = "Case 9: white right, edge in front, tops different"
    assert passage.first == TitleCard(title, ("Slot FR",))
    assert passage.last == TitleCard(title, ("Slot FR", "Part: U F' U2 F", "Join: U' R", "Insert: U R'"))
    frames = film_of((passage,), Shot()).frames
    assert (frames[0].words, frames[-1].words) == (passage.first, passage.last)
    assert frames[-1].stage.colours == passage.end.colours


def test_each_scene_of_a_film_is_seen_from_where_the_window_sees_it(answers: Answers) -> None:
    lesson = load_lesson("hide-the-corner", LessonSetting(answers))
    shown = [scene for scene in lesson.scenes if isinstance(scene, Show | Tell)][:1] * 3
    cameras = (CameraSetting(-40.0, 20.0, 1.1), None, None)
    scenes = tuple(
        replace(scene, camera=camera, follows=number == 1)
        for number, (scene, camera) in enumerate(zip(shown, cameras, strict=True))
    )
    watched = replace(lesson, scenes=(*scenes, *(each for each in lesson.scenes if isinstance(each, Show))))
    seen = [passage.camera for passage in lesson_passages(watched, answers)[:3]]
    # The second scene follows the first; the third is looked at from the front again.
    assert seen == [Camera(-40.0, 20.0, 1.1), Camera(-40.0, 20.0, 1.1), None]
    assert [camera or REST_CAMERA for camera in seen] == [camera_at(watched, index) for index in range(3)]


def test_a_lesson_is_shown_with_its_texts(answers: Answers) -> None:
    lesson = load_lesson("hide-the-corner", LessonSetting(answers))
    passages = lesson_passages(lesson, answers)
    shown = [scene for scene in lesson.scenes if isinstance(scene, Show | Tell | Recap)]
    turns = [scene.turns if isinstance(scene, Show) else () for scene in shown]
    assert [passage.turns for passage in passages] == turns
    assert [lesson.scenes[passage.scene - 1] for passage in passages] == shown
    assert passages[0].first == TitleCard(lesson.title, (lesson.goal,))
    assert passages[-1].last is not None
    film = film_of(passages, Shot(), FilmPace.SLOW)
    said = " ".join(cue.caption.text for cue in cues(film.frames))
    for scene in shown[:-1]:
        texts = (
            (scene.text, *(part.text for part in scene.segments))
            if isinstance(scene, Show)
            else (scene.text,)
        )
        assert all(text in said for text in texts)


def test_a_lesson_looks_as_in_the_window(answers: Answers) -> None:
    lesson = load_lesson("hide-the-corner", LessonSetting(answers))
    number, scene = next((n, each) for n, each in enumerate(lesson.scenes) if isinstance(each, Show))
    bright = replace(scene, highlight=frozenset({0, 7}), camera=CameraSetting(30, 20, 1.0))
    unlike = replace(scene, camera=None, follows=False)
    changed = replace(lesson, scenes=(*lesson.scenes[:number], bright, unlike, lesson.scenes[-1]))
    *_, shown, after, _ = lesson_passages(changed, answers)
    assert (shown.camera, after.camera) == (Camera(30, 20, 1.0), None)
    assert [piece.slip for piece in shown.pieces] == [telling.slips(scene, part) for part in scene.segments]
    frames = film_of((shown,), Shot(), FilmPace.SLOW).frames
    first = [frame.stage for frame in frames if words_of(frame).done == 0 and frame.stage.turning is None]
    assert first
    for frame in frames:
        assert frame.stage.glowing == (bright.highlight if frame.stage in first else frozenset())


def test_a_text_in_several_captions_says_its_heading_once() -> None:
    text = (
        "One sentence is here, and it is a long one, with a clause. "
        "Another one follows, and it is as long as the first one."
    )
    captions = captions_of(text, "Raise: R")
    assert [caption.heading for caption in captions] == ["Raise: R", "Raise: R"]
    assert " ".join(caption.in_one_line for caption in captions) == f"Raise: R. {text}"


def test_at_real_speed_the_first_card_stays() -> None:
    card = TitleCard("Title", ("The goal.", "A note."))
    passages = (Passage(SUBJECT, (), "Look.", first=card), Passage(SUBJECT, (FilmPiece(TURNS),), scene=2))
    film = film_of(passages, Shot(), FilmPace.REAL)
    assert [frame.words for frame in film.frames if isinstance(frame.words, TitleCard)] == [card]
    assert film.frames[0].words == card
    script = spoken_script(passages, Shot(), FilmPace.REAL, 1.0, 25)
    assert script == f"Scene 2, {round(film.seconds)} seconds\n"


def test_after_the_last_turn_comes_the_end_and_not_the_first_sentence(answers: Answers) -> None:
    for passage in lesson_passages(load_lesson("hide-the-corner", LessonSetting(answers)), answers):
        if passage.turns:
            frames = film_of((replace(passage, first=None, last=None),), Shot()).frames
            assert frames[-1].stage.colours == passage.end.colours
            assert frames[-1].caption.text not in passage.opening
            assert frames[-1].caption.text


LEAST_SECONDS_A_WORD = 60 / 250
"""Adults read about 238 words a minute (Brysbaert, Journal of Memory and Language 109, 2019; from memory)."""


def test_subtitles_say_what_the_captions_say_and_when(answers: Answers) -> None:
    passages = lesson_passages(load_lesson("hide-the-corner", LessonSetting(answers)), answers)
    film = film_of(passages, Shot())
    blocks = subtitles(film).strip().split("\n\n")
    assert [block.split("\n")[0] for block in blocks] == [str(n + 1) for n in range(len(blocks))]
    spans = [[_seconds(moment) for moment in block.split("\n")[1].split(" --> ")] for block in blocks]
    assert spans[-1][1] <= film.seconds + 0.001
    assert all(before[1] <= after[0] for before, after in pairwise(spans))
    for (begin, end), block in zip(spans, blocks, strict=True):
        text = " ".join(block.split("\n")[2:])
        assert end - begin >= LEAST_SECONDS_A_WORD * len(text.split()) - 0.002, text
        # Common practice for subtitles: about 17 characters a second.
        assert end - begin >= len(block.split("\n")[-1]) / 17 - 0.04


def test_at_real_speed_nothing_is_said_and_no_arrow_is_seen_before_the_end(answers: Answers) -> None:
    lesson = load_lesson("hide-the-corner", LessonSetting(answers))
    film = film_of(lesson_passages(lesson, answers), Shot())
    told = [(frame, frame.words) for frame in film.frames if isinstance(frame.words, Words)]
    real = [(frame, said) for frame, said in told if said.pace == words.AT_REAL_SPEED]
    counts = [sum(len(piece.turns) for piece in said.pieces) for _, said in real]
    under_way = [said for (_, said), count in zip(real, counts, strict=True) if said.done < count]
    assert len(under_way) > 20
    assert {said.caption.text for said in under_way} == {""}
    assert all(frame.stage.arrow is None for frame, _ in real)


def test_a_scene_lasts_as_long_as_its_voice(answers: Answers) -> None:
    voice = Recording(Path("a.ogg"), 171.3)
    for passage in (route_passage(SUBJECT, answers), Passage(SUBJECT, (), "Look.")):
        film = film_of((replace(passage, voice=voice),), Shot())
        title = film.frames[0].ticks if passage.first else 0
        assert film.ticks - title == ceil(171.3 * 25)
        assert film.sounds == (Sound(title, voice),)
        assert all(frame.ticks == 1 for frame in film.frames if frame.stage.turning is not None)


def test_a_sentence_that_is_spoken_stays_until_it_is_said(answers: Answers) -> None:
    passage = route_passage(SUBJECT, answers)
    plan = film_of((passage,), Shot())
    spoken = {cue.caption: Recording(Path("a.wav"), 9.0) for cue in cues(plan.frames)}
    film = film_of((passage,), Shot(), spoken=spoken)
    seen = list(cues(film.frames))
    assert [sound.begin for sound in film.sounds] == [cue.begin for cue in seen]
    assert all(cue.end - cue.begin >= 9.0 * 25 for cue in seen)


def test_a_script_says_each_sentence_with_its_time_under_its_scene(answers: Answers) -> None:
    lesson = load_lesson("hide-the-corner", LessonSetting(answers))
    passages = lesson_passages(lesson, answers)
    script = spoken_script(passages, Shot(), FilmPace.SLOW, 1.0, 25)
    film = film_of(passages, Shot(), FilmPace.SLOW)
    lines = [line for line in script.splitlines() if line and not line.startswith("Scene ")]
    for line, cue in zip(lines, cues(film.frames), strict=True):
        moment, _, said = line.partition("  ")
        minutes, seconds = moment.split(":")
        assert 60 * int(minutes) + float(seconds) == pytest.approx(cue.begin / 25, abs=0.06)
        assert said.endswith(cue.caption.text)
    headings = [line.split(",")[0] for line in script.splitlines() if line.startswith("Scene ")]
    assert headings == [f"Scene {passage.scene}" for passage in passages]


def _seconds(moment: str) -> float:
    hours, minutes, rest = moment.split(":")
    return 3600 * int(hours) + 60 * int(minutes) + float(rest.replace(",", "."))
