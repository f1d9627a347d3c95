"""Playing a lesson: entering scenes, judging answers, and going on."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.lesson.scenes import (
    Alone,
    Ask,
    Extent,
    Find,
    Lesson,
    Quiz,
    Scene,
    Show,
    accepted,
    astray,
    step_answered,
)
from tutor.method.terms import Verdict
from tutor.screens.lesson import scene_look, tasks, words
from tutor.screens.lesson.commands import NAME, Carried, LessonFailed, LessonLoaded, LoadLesson
from tutor.screens.lesson.scene_look import camera_at, camera_from
from tutor.screens.lesson.state import AWAITED, LESSON, LessonPlay
from tutor.session.demonstration import Demonstration
from tutor.session.history import History
from tutor.session.house import Session, Update
from tutor.session.judging import judged_turns
from tutor.session.navigation import cleared, opened
from tutor.session.places import place_in, with_place
from tutor.session.state import FINISHED, Attempt, Sheet
from tutor.session.target import Bearing, aim_of
from tutor.session.timeline import Timeline
from tutor.session.turns_taken import HintUse, with_last_gone_on, with_turn
from tutor.session.writing import closed
from tutor.ui.view import REST_CAMERA, Camera


def scene_of(session: Session) -> Scene | None:
    """The scene on the screen, or None outside a lesson."""
    played = LESSON.of(session)
    return None if session.screen != NAME or played is None else played.lesson.scenes[played.scene]


def shows_by_itself(session: Session) -> bool:
    """Whether the scene plays turns that are not the learner's to make."""
    return isinstance(scene_of(session), Show)


def turns_allowed(session: Session) -> bool:
    """Whether the cube is the learner's to turn: where turns are asked."""
    return isinstance(scene_of(session), Ask | Alone)


def wanted(session: Session, wish: LoadLesson) -> Update:
    """Ask for a lesson; it opens when it has been read, unless the learner has gone elsewhere meanwhile."""
    return AWAITED.put(replace(session, coming=words.COMING), wish), (wish,)


def _awaited(session: Session) -> LoadLesson | None:
    """The lesson asked for, as long as it is waited for."""
    return AWAITED.of(session) if session.coming else None


def loaded(session: Session, read: LessonLoaded, now: float) -> Session:
    """A lesson has been read: it opens, or goes on as changed; what nobody waits for any more is dropped."""
    if read.again:
        return _changed(session, read, now)
    if _awaited(session) != LoadLesson(read.lesson.name, read.scene, read.carried):
        return session
    index = max(0, min(read.scene, len(read.lesson.scenes) - 1))
    return _entered(cleared(session, NAME), read.lesson, index, read.carried, now)


def _changed(session: Session, read: LessonLoaded, now: float) -> Session:
    """The open lesson as its script now says, at the scene it is at, whatever screen is shown."""
    played = LESSON.of(session)
    if played is None or (played.lesson.name, played.carried) != (read.lesson.name, read.carried):
        return session
    index = min(played.scene, len(read.lesson.scenes) - 1)
    if session.screen == NAME:
        return _entered(session, read.lesson, index, read.carried, now)
    return LESSON.put(session, _begun(read.lesson, index, read.carried, now))


def failed(session: Session, told: LessonFailed) -> Session:
    """A lesson cannot be read: said on the card of the lesson that was changed, or over the screen."""
    played, awaited = LESSON.of(session), _awaited(session)
    if told.again:
        if played is None or played.lesson.name != told.name:
            return session
        return LESSON.put(session, replace(played, problems=told.problems))
    if awaited is None or awaited.name != told.name:
        return session
    said = (words.unreadable(told.name), *told.problems)
    return replace(session, coming="", sheet=Sheet.TOLD, told=said)


def _begun(lesson: Lesson, index: int, carried: Carried, now: float) -> LessonPlay:
    scene = lesson.scenes[index]
    aim = None if scene.task is None else aim_of(scene.cube, scene.cube.colour_of(Face.D), scene.task)
    return LessonPlay(lesson, index, Attempt(History(scene.cube), aim), carried, began=now)


def _entered(session: Session, lesson: Lesson, index: int, carried: Carried, now: float) -> Session:
    scene, place = lesson.scenes[index], place_in(session, lesson.name)
    entered = replace(
        session,
        places=with_place(session, place._replace(scene=index, finished=place.ticked)),
        demonstration=_demonstration(scene, now),
        timeline=Timeline(),
        faded_from=None,
        dragged=None,
        notice="",
        writing=closed(session.writing),
        camera=camera_from(scene, session.camera),
    )
    begun = _begun(lesson, index, carried, now)
    return LESSON.put(entered, replace(begun, new=tasks.new_case(session, begun)))


def _demonstration(scene: Scene, now: float) -> Demonstration | None:
    """What a Show scene plays: rests come at the ends of its segments."""
    if not isinstance(scene, Show):
        return None
    steps = tuple(segment.step for segment in scene.segments for _ in segment.turns)
    ends, count = [], 0
    for segment in scene.segments:
        count += len(segment.turns)
        ends.append(count)
    return Demonstration(
        scene.cube, scene.turns, steps, frozenset(ends), since=now, speed=scene.speed, twice=False
    )


def shown_anew(session: Session, now: float) -> Session:
    """What a Show scene plays, from its beginning."""
    scene = scene_of(session)
    return session if scene is None else replace(session, demonstration=_demonstration(scene, now))


def rest_camera(session: Session) -> Camera:
    """Where the view goes back to: where the scene, or the one it follows, wants it; else to the front."""
    played = LESSON.of(session)
    if scene_of(session) is None or played is None:
        return REST_CAMERA
    return camera_at(played.lesson, played.scene)


def turned_page(session: Session, step: int, now: float, *, skip: bool = False) -> Update:
    """The next scene or the one before. A question that is open is left only by skipping it."""
    played = LESSON.of(session)
    if played is None or (step > 0 and not skip and not settled(session)):
        return session, ()
    index = played.scene + step
    if index < 0:
        return session, ()
    if index < len(played.lesson.scenes):
        entered = _entered(session, played.lesson, index, played.carried, now)
        return tasks.with_tally(entered, tasks.tallied(played)), ()
    undone, place = tasks.undone(session, played.lesson), place_in(session, played.lesson.name)
    # Tasks that were skipped wait where the first of them is; the lesson has no tick before they are done.
    place = place._replace(scene=undone[0]) if undone else place._replace(scene=FINISHED, finished=True)
    ended = LESSON.put(replace(session, places=with_place(session, place)), None)
    # What was said in the last scene, such as where a clip was saved, is said at Home, too.
    session = replace(opened(ended, session.house.first.name, now), notice=session.notice)
    following = next_lesson(session, played.lesson.name)
    return (session, ()) if following is None else wanted(session, LoadLesson(following))


def next_lesson(session: Session, name: str) -> str | None:
    """The lesson that comes after ``name`` in the list, or None after the last."""
    names = [lesson.name for lesson in session.lessons]
    index = names.index(name) + 1 if name in names else len(names)
    return names[index] if index < len(names) else None


def asks_to_look(session: Session) -> bool:
    """Whether looking at the cube must answer what is asked, so that nothing on it may be marked."""
    played = LESSON.of(session)
    return isinstance(scene_of(session), Find | Quiz) and played is not None and not played.solved


def speaks_of_no_pair(session: Session) -> bool:
    """Whether a scene tells or asks something for which no pair matters more than any other."""
    scene = scene_of(session)
    return only_tells(session) or (scene is not None and scene.teaches_turning)


def found(session: Session) -> frozenset[int] | None:
    """After a Find question: the cubies it asked for, which alone are marked, since the next is often asked
    in the same position; None in any other scene."""
    scene = scene_of(session)
    return scene.answer if isinstance(scene, Find) and answered(session) else None


def pointed_out(session: Session, cube: HeldCube) -> frozenset[int]:
    """The cubies that the scene's text points out, as long as they are where the scene begins."""
    scene = scene_of(session)
    return scene.highlight if scene is not None and cube == scene.cube else frozenset()


def only_tells(session: Session) -> bool:
    """Whether the scene just tells something about a cube whose pair is home."""
    scene = scene_of(session)
    return scene is not None and scene_look.only_tells(scene)


def silent(session: Session) -> bool:
    """Whether the scene gives no verdicts and hints: Alone, until it is done or given up."""
    played = LESSON.of(session)
    return (
        isinstance(scene_of(session), Alone) and played is not None and not (played.solved or played.revealed)
    )


def settled(session: Session) -> bool:
    """Whether the scene asks nothing (any more)."""
    asks = isinstance(scene_of(session), Ask | Alone | Find | Quiz)
    return not asks or answered(session)


def answered(session: Session) -> bool:
    """Whether the scene on the screen asked something and has been answered."""
    played = LESSON.of(session)
    return scene_of(session) is not None and played is not None and played.solved


def checked(session: Session) -> Session:
    """Look whether the learner's turns have answered the scene's question."""
    played, scene = LESSON.of(session), scene_of(session)
    if played is None or played.solved or not isinstance(scene, Ask | Alone):
        return session
    bearing = played.attempt.bearing()
    if bearing is None or not played.attempt.history.cursor:
        return session
    done = _turns_answer(session, played, scene, bearing)
    if not done:
        return session
    return LESSON.put(session, replace(played, solved=True, outcome=played.attempt.history.cube))


def _turns_answer(session: Session, played: LessonPlay, scene: Ask | Alone, bearing: Bearing) -> bool:
    if scene.accept:
        return accepted(scene, played.attempt.history.cube)
    if bearing.task.done(bearing.position):
        return True
    if isinstance(scene, Alone) or scene.extent is Extent.CASE:
        return False
    if scene.extent is Extent.STEP:
        return step_answered(scene.step, bearing.position, bearing.task)
    judged = judged_turns(session, played.attempt)
    if not judged or judged[-1].answer is None:
        return False
    return judged[-1].answer.continuations[judged[-1].turn].verdict is not Verdict.DETOUR


def off_what_is_asked(session: Session) -> bool:
    """Whether the learner has made other turns than the only ones that answer the scene."""
    played, scene = LESSON.of(session), scene_of(session)
    if played is None or played.solved or not isinstance(scene, Ask | Alone):
        return False
    return astray(scene, played.attempt.history.cube)


def noted(session: Session, move: Move, now: float, *, with_last: bool) -> Session:
    """The scene with a turn noted; ``with_last`` it is one turn with the move made last."""
    played, note = _asked(session), with_last_gone_on if with_last else with_turn
    if played is None:
        return session
    return LESSON.put(
        session, replace(played, made=note(played.made, played.attempt, move, now - played.began))
    )


def hinted(session: Session, rung: int, now: float) -> Session:
    """The scene with the use of a hint noted, and whether the way is shown from the scene's beginning."""
    played, scene = LESSON.of(session), scene_of(session)
    if played is None or scene is None:
        return session
    way = session.demonstration is not None and session.demonstration.start == scene.cube
    hints = played.hints
    if not played.solved:
        hints = (*hints, HintUse(rung, max(0.0, now - played.began)))
    return LESSON.put(session, replace(played, hints=hints, shown=played.shown or way))


def _asked(session: Session) -> LessonPlay | None:
    """The lesson, while the learner's turns are asked for."""
    played = LESSON.of(session)
    return None if played is None or played.solved else played


def clocked(session: Session, now: float, *, seen: bool) -> Session:
    """The scene's clock stands still while it is out of sight, and once it is answered."""
    played = LESSON.of(session)
    if played is None:
        return session
    runs = seen and not played.solved
    if not runs and played.left is None:
        return LESSON.put(session, replace(played, left=now))
    if runs and played.left is not None:
        return LESSON.put(session, replace(played, began=played.began + now - played.left, left=None))
    return session


def why_no_turns(session: Session) -> str:
    """Why a turn is not made in this scene, and what to do in its place."""
    played, scene = LESSON.of(session), scene_of(session)
    if not settled(session):
        return words.POINT_FIRST if isinstance(scene, Find) else words.ANSWER_FIRST
    last = played is not None and played.scene + 1 == len(played.lesson.scenes)
    return words.NO_TURNS_AT_THE_END if last else words.NO_TURNS_HERE
