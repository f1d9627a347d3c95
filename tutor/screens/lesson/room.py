"""The room in which lessons are played."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from msgspec.structs import replace

from tutor.coach.feedback import Shown
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.lesson.scenes import Alone, Ask
from tutor.progress.presence import At, Engaged
from tutor.screens.case_book.commands import NAME as CASE_BOOK
from tutor.screens.lesson import keeping, questions, tasks, telling, update, words
from tutor.screens.lesson.commands import (
    FIRST,
    NAME,
    LessonFailed,
    LessonLoaded,
    LoadLesson,
    Own,
    PageTurn,
    StartLesson,
)
from tutor.screens.lesson.keys import KEYS
from tutor.screens.lesson.scene_look import framed_alone
from tutor.screens.lesson.state import LESSON
from tutor.screens.lesson.view import lesson_at
from tutor.session.answers import Key
from tutor.session.binding import Shows
from tutor.session.commands import Open, RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update
from tutor.session.places import places_of
from tutor.session.state import Attempt
from tutor.session.turns_taken import TurnTaken
from tutor.ui.action import Action
from tutor.ui.view import Button, Camera, Stage, View


class LessonRoom(Room):
    """A lesson, scene by scene."""

    name = NAME
    shows = Shows.CUBE_IN_HAND
    keys = KEYS
    waits = True

    def door(self, session: Session) -> Button:
        """On with the lesson that is open or was left last, else with the first one not finished."""
        played = LESSON.of(session)
        if played is not None:
            return _first(Open(NAME), words.CONTINUE, words.left_at(played.lesson.title, played.scene + 1))
        places, titles = places_of(session), {each.name: each for each in session.lessons}
        left = [place for place in places if place.lesson in titles and not place.ticked]
        if left:
            last = left[-1]
            detail = words.left_at(titles[last.lesson].title, last.scene + 1)
            return _first(StartLesson(last.lesson, last.scene), words.CONTINUE, detail)
        if not session.lessons:
            return _first(Open(CASE_BOOK), words.CASE_BOOK_INSTEAD, "")
        done = {place.lesson for place in places if place.ticked}
        first = next((each for each in session.lessons if each.name not in done), session.lessons[0])
        label = words.START if first is session.lessons[0] else words.START_NEXT
        return _first(StartLesson(first.name), label, first.title)

    def begun(self, session: Session) -> Session:
        """No lesson is open."""
        return LESSON.put(session, None)

    def learner_changed(self, session: Session) -> Session:
        """No lesson is open."""
        return LESSON.put(session, None)

    def opened(self, session: Session, now: float) -> Session:
        """What the scene shows by itself is shown from its beginning."""
        return update.shown_anew(session, now)

    def engaged(self, session: Session) -> Engaged:
        """The lesson by its number in the list (0 for one that is not there), and the scene."""
        played = LESSON.of(session)
        if played is None:
            return Engaged()
        names = [lesson.name for lesson in session.lessons]
        name, count = played.lesson.name, len(played.lesson.scenes)
        number = names.index(name) + 1 if name in names else 0
        over = played.scene == count - 1 and update.settled(session)
        return Engaged(At.LESSON, number, played.lesson.title, played.scene + 1, count, over)

    def turns_tried(self, session: Session) -> tuple[TurnTaken, ...]:
        """The turns made in the scene."""
        played = LESSON.of(session)
        return () if played is None else played.made

    def attempt(self, session: Session) -> Attempt | None:
        """The cube of the scene."""
        played = LESSON.of(session)
        return None if played is None else played.attempt

    def with_attempt(self, session: Session, attempt: Attempt) -> Session:
        """The scene with another cube."""
        played = LESSON.of(session)
        return session if played is None else LESSON.put(session, replace(played, attempt=attempt))

    def turns_allowed(self, session: Session) -> bool:
        """Where the scene asks for turns."""
        return update.turns_allowed(session)

    def starts_with_turn_buttons(self, session: Session) -> bool:
        """In the lesson in which the turns are learnt."""
        played = LESSON.of(session)
        return played is not None and played.lesson.name == FIRST

    def hints_allowed(self, session: Session) -> bool:
        """Where the scene asks for a pair or a step of it, as long as it is not answered."""
        return self._asks_for_turns(session) and not self.turns_to_read(session)

    def hint_refused(self, session: Session) -> str:
        """Where turning itself is taught, the text says all."""
        reads = self._asks_for_turns(session) and self.turns_to_read(session)
        return words.NO_HINT_ON_TURNS if reads else ""

    def _asks_for_turns(self, session: Session) -> bool:
        return super().hints_allowed(session) and not update.answered(session)

    def turns_to_read(self, session: Session) -> tuple[Turn, ...]:
        """Those that answer the scene."""
        scene = update.scene_of(session)
        return scene.accept[0] if isinstance(scene, Ask | Alone) and scene.teaches_turning else ()

    def silent(self, session: Session) -> bool:
        """In a scene to be done alone."""
        return update.silent(session)

    def noted(self, session: Session, move: Move, now: float, *, with_last: bool) -> Session:
        """Every turn made in the scene is kept."""
        return update.noted(session, move, now, with_last=with_last)

    def hinted(self, session: Session, rung: int, now: float) -> Session:
        """Every hint is kept."""
        return update.hinted(session, rung, now)

    def checked(self, session: Session, now: float) -> Session:
        """Whether the turns have answered the scene."""
        return update.checked(session)

    def revealed(self, session: Session, now: float) -> Session:
        """Verdicts in a scene to be done alone."""
        played = LESSON.of(session)
        return session if played is None else LESSON.put(session, replace(played, revealed=True))

    def shows_by_itself(self, session: Session) -> bool:
        """Where the scene plays turns."""
        return update.shows_by_itself(session)

    def said(self, session: Session, index: int) -> Shown | None:
        """The words of the scene's script, where the scene plays turns."""
        return telling.said(session, index)

    def rest_camera(self, session: Session) -> Camera:
        """Where the scene wants it."""
        return update.rest_camera(session)

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of lessons."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        match command:
            case PageTurn():
                return _page_left(session, command, now)
            case StartLesson(name, scene, carried):
                return update.wanted(session, LoadLesson(name, scene, carried))
            case LessonLoaded():
                return update.loaded(session, command, now), ()
            case LessonFailed():
                return update.failed(session, command), ()
            case _:
                assert_never(command)

    def gone_on(self, session: Session, now: float) -> Update:
        """The next scene, once this one is settled."""
        return update.turned_page(session, 1, now)

    def chosen(self, session: Session, index: int, now: float) -> Session:
        """An answer of the scene."""
        return questions.choose(session, index)

    def choosing(self, session: Session) -> bool:
        """Where the scene offers answers."""
        scene = update.scene_of(session)
        return scene is not None and bool(questions.options(scene))

    def pointed(self, session: Session, sticker: int, now: float) -> Session:
        """An answer to where something is."""
        return questions.point(session, sticker)

    def clocked(self, session: Session, now: float, *, seen: bool) -> Session:
        """The scene's clock."""
        return update.clocked(session, now, seen=seen)

    def watched(self, session: Session) -> tuple[str, Effect] | None:
        """The open lesson is read again at the same scene."""
        played = LESSON.of(session)
        if played is None:
            return None
        name = played.lesson.name
        return name, LoadLesson(name, played.scene, played.carried, again=True)

    def page(self, session: Session) -> object:
        """The scene."""
        played = LESSON.of(session)
        return None if played is None else (played.lesson.name, played.scene)

    def refused(self, session: Session) -> str:
        """The scene asks for no turns: what it does ask, or how to go on."""
        return update.why_no_turns(session)

    def finished(self, session: Session, now: float) -> Update:
        """A whole case done is kept."""
        return keeping.finished(session, now)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """A task that is done is noted at once."""
        return tasks.noted(after), ()

    def needed(self, session: Session) -> tuple[Key, ...]:
        """The answer for that."""
        return keeping.needed(session)

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return lesson_at(session, now)

    def marked(self, session: Session, attempt: Attempt, stage: Stage) -> Stage | None:
        """Nothing is marked that would give an answer away or that the scene says nothing of; what was asked
        for is marked alone, and so is the slot of the pair that a question is about."""
        scene = update.scene_of(session)
        if scene is not None and update.asks_to_look(session):
            return replace(stage, framed=framed_alone(scene))
        if attempt.aim is None or update.speaks_of_no_pair(session):
            return stage
        found = update.found(session)
        return None if found is None else replace(stage, outlined=found)

    def pointed_out(self, session: Session, cube: HeldCube) -> frozenset[int]:
        """What the scene's text points out."""
        return update.pointed_out(session, cube)

    def title(self, session: Session) -> str:
        """The lesson's."""
        played = LESSON.of(session)
        return super().title(session) if played is None else played.lesson.title

    def file_name(self, session: Session) -> str:
        """The lesson and its scene."""
        played = LESSON.of(session)
        return "" if played is None else f"{played.lesson.name}-{played.scene + 1}"

    def hides(self, session: Session) -> bool:
        """In a scene to be done alone, and where looking must answer."""
        return self.silent(session) or update.asks_to_look(session)


def _first(action: Action, label: str, detail: str) -> Button:
    """What is proposed before all else."""
    return Button(action, label, "Enter", primary=True, detail=detail)


def _page_left(session: Session, page: PageTurn, now: float) -> Update:
    if session.screen != NAME:
        return session, ()
    skips = page is PageTurn.SKIP
    return update.turned_page(session, 1 if skips else -1, now, skip=skips)
