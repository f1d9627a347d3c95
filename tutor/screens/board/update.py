"""What the board's commands do: walking a list, showing more or less, asking the group."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from tutor.lesson.scenes import Quiz, Show
from tutor.method.cases import Case
from tutor.screens.board import words
from tutor.screens.board.commands import LoadScenes, ScenesLoaded, ShowOnBoard
from tutor.screens.board.items import cube_of, mirrored, next_slot, scene_of, scenes_for_board
from tutor.screens.board.list_text import BoardListError, LessonScenes, SlippingCases, parse_list
from tutor.screens.board.questions import next_question, quiz_question
from tutor.screens.board.state import BOARD, AskedGroup, BoardCase, BoardScene, Item, Presentation, Reveal
from tutor.screens.lesson.commands import Carried
from tutor.session import playback
from tutor.session.commands import Act
from tutor.session.demonstration import Demonstration, step_ends
from tutor.session.house import Session, Update
from tutor.session.judging import answer_at
from tutor.session.record_commands import FindHardest
from tutor.session.state import Writing
from tutor.session.timeline import Timeline

SLOW = 0.5
"""The speed at which the route is shown again."""

# ------------------------------------------------------------------------------------- preparing a list


def prepared(session: Session, command: ShowOnBoard) -> Update:
    """Show what a text asks for; what is wrong with it is said at the field."""
    try:
        wanted = parse_list(command.text, session.lessons)
    except BoardListError as fault:
        return with_fault(session, command.text, str(fault)), ()
    match wanted:
        case LessonScenes(name):
            return replace(session, coming=words.OPENING), (LoadScenes(name),)
        case SlippingCases():
            return replace(session, coming=words.OPENING), (FindHardest(),)
        case _:
            return with_cases(session, words.CASES, wanted), ()


def with_fault(session: Session, text: str, fault: str) -> Session:
    """The page of the list with what is wrong beside the field."""
    writing = Writing(True, text, len(text), fault)
    return replace(BOARD.put(session, None), writing=writing, coming="")


def with_cases(session: Session, title: str, cases: Sequence[Case]) -> Session:
    """The board at the first of these cases."""
    return _begun(session, title, tuple(BoardCase(case) for case in cases), 0)


def scenes_loaded(session: Session, command: ScenesLoaded) -> Session:
    """The board at a scene of the lesson that was asked for."""
    lesson = command.lesson
    items = scenes_for_board(lesson, command.carried)
    if not items:
        return with_fault(session, lesson.name, words.nothing_to_show(lesson.title))
    return _begun(session, lesson.title, items, min(command.at, len(items) - 1))


def _begun(session: Session, title: str, items: tuple[Item, ...], at: int) -> Session:
    shown = Presentation(title, items, cube_of(items[at], session.settings))
    return _entered(replace(session, coming="", writing=Writing()), shown, at)


# ------------------------------------------------------------------------------------- walking the list


def _entered(session: Session, shown: Presentation, at: int) -> Session:
    """At another item, with its answer hidden; a scene that asks begins with its question."""
    item = shown.items[at]
    asked = None
    if isinstance(item, BoardScene) and isinstance(scene := scene_of(item), Quiz):
        asked = quiz_question(scene)
    attempt = cube_of(item, session.settings)
    shown = replace(shown, at=at, attempt=attempt, reveal=Reveal.HIDDEN, asked=asked)
    return BOARD.put(_at_rest(session), shown)


def _at_rest(session: Session) -> Session:
    """With nothing on the way, and seen from the front."""
    camera = session.room.rest_camera(session)
    return replace(
        session, demonstration=None, timeline=Timeline(), faded_from=None, notice="", camera=camera
    )


def stepped(session: Session, step: int) -> Session:
    """At the next item of the list, or with -1 at the one before; at its ends it stays."""
    shown = BOARD.of(session)
    if shown is None or not 0 <= shown.at + step < len(shown.items):
        return session
    return _entered(session, shown, shown.at + step)


def shown_more(session: Session, now: float) -> Session:
    """One thing more; after the last, the next item."""
    shown = BOARD.of(session)
    if shown is None:
        return session
    if shown.asked is not None:
        return _question_gone_on(session, shown, shown.asked)
    if session.demonstration is not None:
        if session.demonstration.at_end(now):
            return stepped(session, 1)
        return playback.act(session, Act.PLAY, now)
    wanted = coming(session, shown)
    if wanted > Reveal.PIECES and answer_at(session, shown.attempt) is None:
        # The line says that the program is at it.
        return session
    if wanted is Reveal.ROUTE:
        return route_shown(session, now, speed=1.0)
    return BOARD.put(session, replace(shown, reveal=wanted))


def coming(session: Session, shown: Presentation) -> Reveal:
    """How much is shown next; a scene whose turns begin otherwise than the way goes on to them at once."""
    if shown.reveal >= Reveal.PIECES and _begins_otherwise(session, shown):
        return Reveal.ROUTE
    return Reveal(min(shown.reveal + 1, Reveal.ROUTE))


def _begins_otherwise(session: Session, shown: Presentation) -> bool:
    """Whether a scene's own turns begin otherwise than the way, as a slip does: its step would mislead."""
    own, answer, bearing = _own_turns(shown), answer_at(session, shown.attempt), shown.attempt.bearing()
    if own is None or answer is None or bearing is None:
        return False
    way = playback.held_route(answer.way, bearing)
    return (own.turns[0], own.steps[0]) != (way.turns[0], way.steps[0])


def _question_gone_on(session: Session, shown: Presentation, asked: AskedGroup) -> Session:
    """The right answer, then why the wrong one with most hands is wrong; after that, on from the question."""
    if not asked.told:
        return BOARD.put(session, replace(shown, asked=replace(asked, told=True)))
    if asked.misled and not asked.corrected:
        return BOARD.put(session, replace(shown, asked=replace(asked, corrected=True)))
    if asked.leads_to is Reveal.HIDDEN:
        return stepped(session, 1)
    return BOARD.put(session, replace(shown, asked=None, reveal=max(shown.reveal, asked.leads_to)))


def shown_less(session: Session) -> Session:
    """One thing less; before the first, the item before."""
    shown = BOARD.of(session)
    if shown is None:
        return session
    asked = shown.asked
    if asked is not None and asked.corrected:
        return BOARD.put(session, replace(shown, asked=replace(asked, corrected=False)))
    if asked is not None and asked.told:
        return BOARD.put(session, replace(shown, asked=replace(asked, told=False)))
    if asked is not None and asked.leads_to is not Reveal.HIDDEN:
        return BOARD.put(session, replace(shown, asked=None))
    if session.demonstration is not None:
        return replace(session, demonstration=None)
    if shown.reveal is Reveal.HIDDEN:
        return stepped(session, -1)
    return BOARD.put(session, replace(shown, reveal=Reveal(shown.reveal - 1)))


# ------------------------------------------------------------------------------------------- the route


def route_shown(session: Session, now: float, *, speed: float) -> Session:
    """The route from the cube as it is, or the turns of a scene that shows its own."""
    shown = BOARD.of(session)
    if shown is None or shown.attempt.aim is None:
        return session
    way = _own_turns(shown) or playback.case_shown(replace(session, demonstration=None), shown.attempt, now)
    if way is None:
        return session
    way = replace(way, since=now, speed=speed, twice=False)
    session = BOARD.put(session, replace(shown, reveal=Reveal.ROUTE, asked=None))
    return playback.put_on(session, shown.attempt, way, now)


def _own_turns(shown: Presentation) -> Demonstration | None:
    """The turns that a scene shows, where the cube is as at its start."""
    item = shown.item
    scene = scene_of(item) if isinstance(item, BoardScene) else None
    if not isinstance(scene, Show) or shown.attempt.history.cursor:
        return None
    steps = tuple(segment.step for segment in scene.segments for _ in segment.turns)
    known = tuple(step for step in steps if step is not None)
    if not steps or len(known) < len(steps):
        return None
    return Demonstration(scene.cube, scene.turns, steps, step_ends(known), since=0.0)


def without_route(after: Session) -> Session:
    """What shows the route goes away with it, however it went."""
    shown = BOARD.of(after)
    if shown is None or after.demonstration is not None or shown.reveal is not Reveal.ROUTE:
        return after
    less = Reveal.PIECES if _begins_otherwise(after, shown) else Reveal.TURN
    return BOARD.put(after, replace(shown, reveal=less))


# -------------------------------------------------------------------------------- the same carried over


def in_slot(session: Session, step: int) -> Update:
    """The same in another slot."""
    shown = BOARD.of(session)
    if shown is None:
        return session, ()
    match shown.item:
        case BoardCase(case, slot):
            return _exchanged(session, shown, BoardCase(case, next_slot(slot, step))), ()
        case BoardScene(lesson, _, carried):
            other = replace(carried, quarters=(carried.quarters + step) % 4)
            return _carried(session, shown, lesson.name, other)


def in_mirror(session: Session) -> Update:
    """The same in the mirror."""
    shown = BOARD.of(session)
    if shown is None:
        return session, ()
    match shown.item:
        case BoardCase() as item:
            return _exchanged(session, shown, mirrored(item)), ()
        case BoardScene(lesson, _, carried):
            return _carried(session, shown, lesson.name, replace(carried, mirrored=not carried.mirrored))


def _exchanged(session: Session, shown: Presentation, item: BoardCase) -> Session:
    items = (*shown.items[: shown.at], item, *shown.items[shown.at + 1 :])
    return _entered(session, replace(shown, items=items), shown.at)


def _carried(session: Session, shown: Presentation, name: str, carried: Carried) -> Update:
    if isinstance(shown.item, BoardScene) and shown.item.lesson.fixed:
        return replace(session, notice=words.AS_WRITTEN), ()
    return session, (LoadScenes(name, carried, shown.at),)


# -------------------------------------------------------------------------------------- asking the group


def asked(session: Session) -> Session:
    """A question to the group about what comes next; where one is open, another."""
    shown = BOARD.of(session)
    if shown is None or (shown.asked is not None and shown.asked.leads_to is Reveal.HIDDEN):
        return session
    question = next_question(session, shown)
    if question is None:
        return session
    shown = replace(shown, asked=question, reveal=max(min(shown.reveal, Reveal.TURN), Reveal.PIECES))
    return BOARD.put(replace(session, demonstration=None), shown)


def hand_up(session: Session, index: int) -> Session:
    """One more hand for an answer."""
    shown = BOARD.of(session)
    if shown is None or shown.asked is None or shown.asked.told or index >= len(shown.asked.answers):
        return session
    hands = (*shown.asked.hands, index)
    return BOARD.put(session, replace(shown, asked=replace(shown.asked, hands=hands)))


def hand_down(session: Session) -> Session:
    """Without the hand counted last."""
    shown = BOARD.of(session)
    if shown is None or shown.asked is None or shown.asked.told:
        return session
    return BOARD.put(session, replace(shown, asked=replace(shown.asked, hands=shown.asked.hands[:-1])))


def with_spotlight(session: Session) -> Session:
    """With the spotlight, or without."""
    shown = BOARD.of(session)
    return session if shown is None else BOARD.put(session, replace(shown, spotlight=not shown.spotlight))
