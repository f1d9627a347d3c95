"""The Home screen: what to do next, the ways to other rooms, today's list, and the lessons in groups."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from itertools import groupby

from msgspec.structs import replace

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube, first_hold
from tutor.cube.position import SOLVED, Slot
from tutor.lesson.scene_start import NO_SLOT, start_by_itself
from tutor.lesson.script import SceneScript
from tutor.lesson.variation import Facing, Variation, faced
from tutor.method.cases import parse_case
from tutor.progress.assignment import ToDo
from tutor.progress.attempt import Mode
from tutor.progress.cards import CardPhase
from tutor.screens.home import finding, words
from tutor.screens.home.to_do import to_do_blocks
from tutor.screens.learners.commands import NAME as LEARNERS
from tutor.screens.lesson.commands import StartLesson
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.stage import small_picture
from tutor.screens.parts.words import OTHER_LEARNER
from tutor.screens.practice.commands import Practise, TryCase
from tutor.session.commands import Act, Open
from tutor.session.house import Session
from tutor.session.keymap import bindings_of
from tutor.session.places import places_of
from tutor.session.record_commands import ChooseLearner
from tutor.session.state import FINISHED, LessonPlace, LessonTitle
from tutor.session.target import aim_of
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Entry,
    Gap,
    Group,
    Miniature,
    MiniatureGrid,
    Stage,
    Text,
    TextStyle,
    Tone,
    View,
)

CASES_AT_HOME = 3
"""Home shows so many cases of today's list, one row of them; Practice brings them all."""


def home_at(session: Session, now: float) -> View:
    """The Home screen at a moment, which decides what is on today's list."""
    listed, waiting = session.records.listed(now)
    ordered = tuple(sorted(listed, key=waiting.__contains__))
    return home(session, ordered, session.records.today(now), session.records.to_do(now), waiting)


@lru_cache(maxsize=2)
def home(
    session: Session,
    listed: tuple[str, ...],
    today: date,
    given: tuple[ToDo, ...] = (),
    waiting: frozenset[str] = frozenset(),
) -> View:
    """The Home screen; ``listed`` are the cases of today's list, ``given`` is what a teacher has given.

    ``waiting`` are the settling ones of the list, which practice cannot give at once.
    """
    return screen_view(
        session,
        words.PRODUCT,
        page=(_welcome(session, listed, today, given, waiting), _lessons(session)),
    )


def _welcome(
    session: Session,
    listed: tuple[str, ...],
    today: date,
    given: tuple[ToDo, ...],
    waiting: frozenset[str],
) -> tuple[Block, ...]:
    doors = session.house.doors(session.room, session)
    return (
        Text(words.TITLE, TextStyle.TITLE),
        *_without_keys(session),
        *_so_far(session),
        Gap(1),
        *doors[:1],
        Gap(1),
        *_people_and_rooms(session, doors[1:], in_a_row=bool(listed or given)),
        Gap(1),
        *to_do_blocks(session, given, today),
        *_today(session, listed, waiting),
        Text(words.REST, TextStyle.SMALL, Tone.MUTED),
    )


def _without_keys(session: Session) -> tuple[Block, ...]:
    """Where every key was switched off: how to get them back with the pointer alone."""
    return () if bindings_of(session) else (Text(words.NO_KEYS, tone=Tone.WARNING),)


def _so_far(session: Session) -> tuple[Block, ...]:
    """What the learner has done; before that, what the method is."""
    ticked, study = sum(place.ticked for place in places_of(session)), session.records.study
    met = 0 if study is None else study.cases_met
    return (Text(words.so_far(ticked, met) if ticked or met else words.METHOD),)


def _today(session: Session, listed: tuple[str, ...], waiting: frozenset[str]) -> tuple[Block, ...]:
    """The first cases of today's list, and the way to practise them."""
    if not listed:
        return ()
    cases = [parse_case(slug) for slug in listed[:CASES_AT_HOME]]
    cards = {} if session.records.study is None else session.records.study.cards
    ready = [slug for slug in listed if slug not in waiting]
    settling = sum(slug in cards and cards[slug].phase is not CardPhase.STICKING for slug in ready)
    said = words.on_list(len(ready), settling, len(waiting))
    pictures = tuple(
        Miniature(
            TryCase(case.slug),
            words.case(case.number),
            _picture(SceneScript(text="", case=case.slug, slot=Slot.FR.name), session.settings.cross),
        )
        for case in cases
    )
    return (
        Group(
            (
                Text(words.TODAY, TextStyle.HEADING),
                Text(said, TextStyle.SMALL, Tone.MUTED),
                # In a narrow window the pictures take two rows, and the way to them all stays in sight.
                Button(Practise(Mode.TODAY), words.PRACTISE),
                MiniatureGrid(pictures),
            )
        ),
        Gap(1),
    )


@lru_cache(maxsize=64)
def _picture(start: SceneScript | None, cross: Face) -> Stage:
    """A small picture of where a scene starts, its slot at the front right; of a solved cube without one.

    A start that is about no slot is about the whole cube, so nothing of it is dimmed.
    """
    slot = None if start is None or start.slot in (None, NO_SLOT) else Slot[start.slot]
    variation = faced(Variation(cross=cross), slot, Facing.RIGHT)
    began = None if start is None else start_by_itself(start, variation)
    if began is None:
        return Stage(HeldCube(SOLVED, first_hold(cross)).colours)
    stage = Stage(began.cube.colours)
    if began.task is None:
        return stage
    return small_picture(stage, aim_of(began.cube, cross, began.task).bearing(began.cube))


def _people_and_rooms(session: Session, doors: tuple[Button, ...], in_a_row: bool) -> tuple[Block, ...]:
    """Who learns, and the other rooms.

    Where several learn, or there is a list, somebody knows what the rooms are: these stand in a row before
    the names, so that all of them are in sight whatever comes below.
    """
    learner = _learner(session)
    if len(session.records.learners) < 2 and not in_a_row:
        return (*learner, Gap(1), *doors)
    return (ButtonRow(tuple(replace(door, detail="") for door in doors)), Gap(1), *learner)


def _learner(session: Session) -> tuple[Block, ...]:
    """Who learns: a line, or, where there are several, their names to choose from."""
    records = session.records
    if len(records.learners) < 2:
        change = Button(Open(LEARNERS), OTHER_LEARNER)
        return (Text(words.learner(records.learner), TextStyle.SMALL, Tone.MUTED), ButtonRow((change,)))
    names = finding.shown(session)
    buttons = [Button(ChooseLearner(name), name, selected=name == records.learner) for name in names]
    buttons.append(Button(Open(LEARNERS), OTHER_LEARNER))
    return (Text(words.WHO, TextStyle.QUESTION), *_field(session), ButtonRow(tuple(buttons)))


def _field(session: Session) -> tuple[Block, ...]:
    """The field for part of a name, where there are more learners than Home shows."""
    if not finding.needed(session):
        return ()
    writing = session.writing
    entry = Entry(
        Act.WRITE, words.FIND, writing.text, writing.caret, focused=writing.open, error=writing.error
    )
    return (entry,)


def _lessons(session: Session) -> tuple[Block, ...]:
    """The lessons under the headings of their groups, a teacher's own last."""
    if not session.lessons:
        return (Text(words.NO_LESSONS, tone=Tone.MUTED),)
    places = {place.lesson: place for place in places_of(session)}
    blocks: list[Block] = []
    numbered = enumerate(session.lessons, start=1)
    for title, group in groupby(numbered, key=lambda each: each[1].group):
        lessons = [
            (number, lesson, places.get(lesson.name, LessonPlace(lesson.name, 0))) for number, lesson in group
        ]
        ticked = sum(place.ticked for _, _, place in lessons)
        blocks.append(Text(words.group(title or words.OWN, ticked, len(lessons)), TextStyle.HEADING))
        blocks.append(MiniatureGrid(tuple(_lesson(session, *each) for each in lessons)))
    return tuple(blocks)


def _lesson(session: Session, number: int, lesson: LessonTitle, place: LessonPlace) -> Miniature:
    """A lesson as a small picture of where it starts, with how much of it is done."""
    begun = words.part_done(len(place.done), lesson.tasks) if place.done and lesson.tasks else ""
    return Miniature(
        StartLesson(lesson.name, 0 if place.scene == FINISHED else place.scene),
        words.lesson(number, lesson.title),
        _picture(lesson.start, session.settings.cross),
        badge=words.DONE if place.ticked else begun,
        tone=Tone.GOOD if place.ticked else Tone.MUTED,
    )
