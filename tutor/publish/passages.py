"""What films show: a case by its route, its line or given turns, and the scenes of a lesson that show."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import groupby

from msgspec.structs import replace

from tutor.coach.feedback import Shown
from tutor.cube.held_cube import face_turns
from tutor.cube.notation import Move, Rotation, format_moves
from tutor.cube.position import Position
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.scenes import Lesson, LessonSegment, Recap, Show, Tell
from tutor.method.answer import Answer
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.publish import words
from tutor.publish.film import FilmPiece, Passage, Recording, TitleCard
from tutor.publish.subject import Subject, subject_of
from tutor.screens.lesson.scene_look import camera_at
from tutor.screens.lesson.telling import slips, told_one_by_one
from tutor.session.telling import NOTHING, ShownTurns
from tutor.solver.task import Task
from tutor.ui.view import REST_CAMERA

MOST_CUT = 100
"""Longer sequences are shown without steps: a way for one pair is shorter, and to cut them takes seconds."""

FAR = 10
"""From the first position farther from home than so many turns nothing is told.

No case is so far away, and each turn more makes an answer cost several times as much.
"""

Answered = Callable[[Position, Task], Answer]
"""The exact answer for a position."""
Told = tuple[tuple[Shown, ...], frozenset[int]]
"""What is said of each turn, and the numbers of those that are slips."""
SAYS_NOTHING: Told = ((), frozenset())


def route_passage(subject: Subject, answered: Answered) -> Passage:
    """The route to show, step by step. Raises ValueError when there is none."""
    answer = _to_show(subject, answered)
    if not answer.routes:
        raise ValueError(words.NO_ROUTE)
    route = answer.routes[0]
    return steps_passage(
        subject, route.turns, route.steps, told_of(subject, route.turns, route.steps, answered)
    )


def line_passage(subject: Subject, answered: Answered) -> Passage:
    """The most comfortable shortest line, by hand where there is a way by hand, cut into the steps.

    Raises ValueError when the pair is home.
    """
    turns = _to_show(subject, answered).lines[0]
    steps = steps_of(subject, turns)
    told = told_of(subject, turns, steps, answered)
    return steps_passage(subject, turns, steps, told, words.line_caption(len(turns)))


def turns_passage(subject: Subject, turns: tuple[Move, ...], told: Told = SAYS_NOTHING) -> Passage:
    """Turns as given, with their steps where a pair is in question. Raises ValueError when there are none."""
    if not turns:
        raise ValueError(words.NO_TURNS)
    return steps_passage(subject, turns, steps_of(subject, turns), told, "")


def steps_passage(
    subject: Subject,
    turns: Sequence[Move],
    steps: Sequence[Step | None],
    told: Told = SAYS_NOTHING,
    opening: str = words.FIND,
) -> Passage:
    """Turns with the step of each, and with what is said of each; slips stand in pieces of their own."""
    said, detours = told
    named = [None if step is Step.DONE else step for step in steps]
    together = groupby(range(len(named)), key=lambda place: (named[place], place in detours))
    pieces = [_piece(turns, said, step, slip, list(places)) for (step, slip), places in together]
    heading, *lines = subject.title.split("\n")
    first = TitleCard(heading, tuple(lines)) if heading else None
    last = TitleCard(heading, (*lines, *map(_by_step, pieces))) if heading else None
    return Passage(subject, tuple(pieces), opening, _ending(subject, turns), first=first, last=last)


def _piece(
    turns: Sequence[Move], said: tuple[Shown, ...], step: Step | None, slip: bool, places: list[int]
) -> FilmPiece:
    """The turns at these places, which follow one another."""
    own = slice(places[0], places[-1] + 1)
    return FilmPiece(tuple(turns[own]), step, said=said[own], slip=slip)


def _by_step(piece: FilmPiece) -> str:
    return words.turn_of_step(piece.name, format_moves(piece.turns))


def told_of(
    subject: Subject,
    moves: Sequence[Move],
    steps: Sequence[Step | None],
    answered: Answered,
    names: tuple[str, ...] = COLOUR_NAMES,
    own: tuple[Shown, ...] = (),
) -> Told:
    """What the coach says of each move: why it comes and what it changed, or what a Detour costs.

    ``names`` are the words of the colours. Where ``own`` words are given, only the slips are looked for.
    Nothing is told after the moves lead ``FAR`` away.
    """
    if subject.aim is None or None in steps:
        return SAYS_NOTHING
    shown = ShownTurns(subject.cube, tuple(moves), tuple(steps), subject.aim)
    said, detours = [], set()
    for index in range(len(moves)):
        before = _answer_before(subject, moves[:index], answered)
        if before.distance > FAR:
            break
        if shown.is_slip(index, before):
            detours.add(index)
        if not own:
            said.append(_told(shown, index, before, names))
    return own or (*said, *(NOTHING for _ in moves[len(said) :])), frozenset(detours)


def _told(shown: ShownTurns, index: int, before: Answer, names: tuple[str, ...]) -> Shown:
    if shown.is_slip(index, before):
        return Shown("", shown.cost(index, before, names))
    return shown.told(index, before, names) or NOTHING


def _answer_before(subject: Subject, made: Sequence[Move], answered: Answered) -> Answer:
    assert subject.aim is not None
    bearing = subject.aim.bearing(subject.cube.after(made))
    return answered(bearing.position, bearing.task)


def steps_of(subject: Subject, moves: Sequence[Move]) -> tuple[Step | None, ...]:
    """The step of each move, as ``tutor.method.cutting`` cuts them.

    None for all where no pair is in question and in a sequence longer than ``MOST_CUT``. A turn of the whole
    cube goes with the turn after it, at the end with the one before.
    """
    turns, _ = face_turns(moves)
    if subject.aim is None or not 0 < len(turns) <= MOST_CUT:
        return (None,) * len(moves)
    bearing = subject.aim.bearing(subject.cube)
    steps = cut(bearing.position, bearing.task, [bearing.turn_as_judged(turn) for turn in turns])
    return tuple(_step_made(moves[:count], steps) for count in range(len(moves)))


def _step_made(before: Sequence[Move], steps: tuple[Step, ...]) -> Step | None:
    """The step of the move that comes after those before it."""
    turned = sum(not isinstance(move, Rotation) for move in before)
    return steps[min(turned, len(steps) - 1)]


def _ending(subject: Subject, turns: Sequence[Move]) -> str:
    return words.IN_ITS_SLOT if subject.done(subject.cube.after(turns)) else ""


def _to_show(subject: Subject, answered: Answered) -> Answer:
    """The answer at the start. Raises ValueError when the pair is home."""
    assert subject.task is not None
    answer = answered(subject.cube.position, subject.task)
    if answer.distance == 0:
        raise ValueError(words.ALREADY_SOLVED)
    return answer


# ---------------------------------------------------------------------------------------------- lessons


def lesson_passages(
    lesson: Lesson, answered: Answered, voices: Mapping[int, Recording] | None = None
) -> tuple[Passage, ...]:
    """The scenes of a lesson that show or tell, with its texts, and those that are spoken, by their numbers.

    Raises ValueError when it shows nothing.
    """
    if not any(isinstance(scene, Show) for scene in lesson.scenes):
        raise ValueError(words.shows_no_turns(lesson.title))
    shown = [index for index, scene in enumerate(lesson.scenes) if isinstance(scene, Tell | Show | Recap)]
    passages = [scene_passage(lesson, index, answered, (voices or {}).get(index + 1)) for index in shown]
    first = TitleCard(lesson.title, (lesson.goal,))
    return (replace(passages[0], first=first), *passages[1:])


def scene_passage(lesson: Lesson, index: int, answered: Answered, voice: Recording | None = None) -> Passage:
    """A scene that shows or tells, counted from 0, seen as in the window."""
    scene = lesson.scenes[index]
    subject = replace(subject_of(scene.cube, scene.task, lesson.title), glowing=scene.highlight)
    # A scene that does not say from where it is seen is seen as the film is.
    camera = camera_at(lesson, index)
    own = None if camera == REST_CAMERA else camera
    pieces = _scene_pieces(subject, scene, answered) if isinstance(scene, Show) else ()
    last = (
        TitleCard(lesson.title, words.points(scene.text, scene.points)) if isinstance(scene, Recap) else None
    )
    opening = "" if last else scene.text
    ending = _ending(subject, scene.turns) if isinstance(scene, Show) else ""
    return Passage(subject, pieces, opening, ending, own, last=last, voice=voice, scene=index + 1)


def _scene_pieces(subject: Subject, scene: Show, answered: Answered) -> tuple[FilmPiece, ...]:
    """The scene's parts with the script's words and, for one of several turns, the coach's."""
    steps = tuple(part.step for part in scene.segments for _ in part.turns)
    pieces: list[FilmPiece] = []
    done, told = 0, -1
    for part in scene.segments:
        said = _coachs_words(subject, scene.turns, steps, done, part, answered)
        step = None if part.step is Step.DONE else part.step
        # A part in which a step ends makes several segments with one text.
        text = "" if part.part == told else part.text
        pieces.append(FilmPiece(part.turns, step, text, said, slips(scene, part)))
        done, told = done + len(part.turns), part.part
    return tuple(pieces)


def _coachs_words(
    subject: Subject,
    turns: Sequence[Move],
    steps: Sequence[Step | None],
    first: int,
    part: LessonSegment,
    answered: Answered,
) -> tuple[Shown, ...]:
    """As in the window: nothing of a lone turn, of which the script itself tells."""
    if subject.aim is None or not told_one_by_one(part) or None in steps:
        return ()
    shown = ShownTurns(subject.cube, tuple(turns), tuple(steps), subject.aim)
    coming = range(first, first + len(part.turns))
    told = (
        shown.told(each, _answer_before(subject, turns[:each], answered), COLOUR_NAMES) for each in coming
    )
    return tuple(each or NOTHING for each in told)
