"""The rail: the five steps with the route's turns, and beneath them the turns the learner made."""

from __future__ import annotations

from functools import lru_cache
from math import floor

from msgspec.structs import replace

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.method.cutting import cut
from tutor.method.routes import Route
from tutor.method.steps import TURNING_STEPS, Step
from tutor.method.terms import Verdict
from tutor.method.ticks import lifted_slot, out_of_place, ticked
from tutor.screens.parts import words
from tutor.screens.parts.keys import keyed
from tutor.session.beats import Beat, Phase
from tutor.session.commands import Act, JumpTo, Scrub
from tutor.session.demonstration import Demonstration
from tutor.session.house import Session
from tutor.session.judging import Judged, judged_turns
from tutor.session.looking_back import (
    attempt_review,
    in_the_making,
    step_under_way,
    steps_under_way,
    ticked_at,
)
from tutor.session.state import Attempt
from tutor.session.target import Aim
from tutor.solver.task import Task
from tutor.ui.view import Bay, BayState, Button, Mark, Rail, Tile

STEPS = (Step.FIND, Step.RAISE, Step.PART, Step.JOIN, Step.INSERT)
MARKS = {Verdict.OPTIMAL: Mark.OPTIMAL, Verdict.ACCEPTABLE: Mark.ACCEPTABLE, Verdict.DETOUR: Mark.DETOUR}


def bays(
    route: Route | None, step: Step | None, done: frozenset[Step], beat: Beat | None = None
) -> tuple[Bay, ...]:
    """The five bays with the turns of a route; ``step`` is under way, ``beat`` says which turn is shown.

    ``done`` are the steps done in the position on the screen.
    """
    return tuple(
        Bay(each.value.capitalize(), _state(each, step, done), _route_tiles(route, each, beat))
        for each in STEPS
    )


def _state(bay: Step, under_way: Step | None, done: frozenset[Step]) -> BayState:
    """A step is ticked while it is done. Find is an act of looking, which whoever turns has done."""
    if bay in done or (bay is Step.FIND and under_way not in (None, Step.FIND)):
        return BayState.DONE
    if under_way is None:
        return BayState.AHEAD
    return BayState.CURRENT if bay is under_way else BayState.AHEAD


ALL_DONE = frozenset(STEPS)


def unsettled_words(position: Position, task: Task) -> str:
    """What the rail says where no step is done now: the slot that is lifted, or what is out; else empty."""
    if (slot := lifted_slot(position, task)) is not None:
        return capitalised(ENGLISH.say("rail.lifted", slot=ENGLISH.say(f"slot.{slot.name}")))
    if not out_of_place(position, task):
        return ""
    return ENGLISH.say("rail.pair_out" if position.cross_home else "rail.cross_out")


def step_marked(session: Session, attempt: Attempt) -> Step | None:
    """The step under way, as far as rail and card name it; None while it is not known.

    Nor do they name one while something is out that has to come back first; nor, while a slot is lifted, one
    that is ticked, or before which one is not: it would read as if that had been undone, or done. A turn in
    the making changes nothing.
    """
    made = attempt.history.cursor - (in_the_making(session, attempt) is not None)
    step, now = step_under_way(session, attempt), attempt.bearing(made)
    if step not in TURNING_STEPS or now is None:
        return step
    if out_of_place(now.position, now.task):
        return None
    if lifted_slot(now.position, now.task) is None:
        return step
    done, place = ticked_at(attempt, made), TURNING_STEPS.index(step)
    return step if step not in done and done.issuperset(TURNING_STEPS[:place]) else None


def _route_tiles(route: Route | None, bay: Step, beat: Beat | None) -> tuple[Tile, ...]:
    if route is None:
        return ()
    return tuple(
        Tile(turn.notation) if beat is None else _shown_tile(turn, index, beat)
        for index, (turn, step) in enumerate(zip(route.turns, route.steps, strict=True))
        if step is bay
    )


def _shown_tile(turn: Turn, index: int, beat: Beat) -> Tile:
    """A turn that is shown; pressed, it is the one to come."""
    return Tile(
        turn.notation,
        played=beat.playhead >= index + 1,
        current=index == beat.turn,
        action=Scrub(float(index)),
    )


def own_tiles(session: Session, attempt: Attempt, *, judged: bool) -> tuple[Tile, ...]:
    """The learner's moves, each a way to go back to it as long as the cube is theirs to turn."""
    there = session.room.turns_allowed(session)
    verdicts = {each.index: each for each in judged_turns(session, attempt)} if judged else {}
    making = attempt.history.cursor - 1 if there and in_the_making(session, attempt) is not None else None
    away = off_rail(tuple(verdicts.values()), making)
    steps = dict(zip(verdicts, steps_under_way(tuple(verdicts.values()), None), strict=False))
    # What was undone stands beside the turn it came after, on the rail or off it.
    last = attempt.history.cursor - 1
    first = session.room.rail_from(session, attempt)
    return tuple(
        Tile(
            entry.move.notation,
            mark=Mark.MAKING if judged and index == making else _mark(verdicts.get(index)),
            played=index < attempt.history.cursor,
            current=index == attempt.history.cursor - 1,
            action=JumpTo(index + 1) if there else None,
            off_rail=min(index, last) in away,
            bay=_bay(steps.get(index)),
        )
        for index, entry in enumerate(attempt.history.entries)
        if index >= first
    )


def _mark(judged: Judged | None) -> Mark:
    if judged is None:
        return Mark.NONE
    if judged.answer is None:
        return Mark.WAITING
    if judged.answer.distance == 0:
        return Mark.NONE
    return MARKS[judged.answer.continuations[judged.turn].verdict]


def _bay(step: Step | None) -> int | None:
    """The bay of the step that was under way when a turn was made."""
    return STEPS.index(step) if step in STEPS else None


def off_rail(judged: tuple[Judged, ...], making: int | None = None) -> frozenset[int]:
    """Indices of the moves of detours and of the ways back from them.

    A detour is left behind when the pair is again as near home as before it. The move ``making`` is no
    detour yet.
    """
    away: set[int] = set()
    departed: int | None = None
    for each in judged:
        if each.answer is None or each.answer.distance == 0:
            continue
        continuation = each.answer.continuations[each.turn]
        if departed is None and continuation.verdict is Verdict.DETOUR and each.index != making:
            departed = each.answer.to_go
        if departed is not None:
            away.add(each.index)
            if continuation.to_go <= departed:
                departed = None
    return frozenset(away)


def play_controls(session: Session, demonstration: Demonstration, now: float) -> tuple[Button, ...]:
    """The buttons beneath what is being shown; the first to press is the one that brings the next beat."""
    steps, beat = demonstration.waits, demonstration.beat(now)
    ended = demonstration.at_end(now)
    told = beat.phase is Phase.DONE and not (ended or demonstration.moving(now))
    plays = words.PAUSE if demonstration.moving(now) and not steps else words.PLAY
    controls = (
        Button(Act.STEP_BACK, words.BACK),
        Button(Act.BY_ITSELF if steps else Act.PLAY, plays, primary=not steps),
        Button(
            Act.STEP_ON,
            words.WHAT_COMES if told else words.NEXT_TURN,
            primary=steps,
            enabled=not ended,
        ),
    )
    return keyed(controls, session)


_PACE = (Button(Act.SLOWER, words.SLOWER), Button(Act.FASTER, words.FASTER))


def shown_rail(session: Session, demonstration: Demonstration, attempt: Attempt, now: float) -> Rail:
    """The rail while turns are being shown: the playhead runs along the route.

    Where no pair is in question there are no steps, only the turns and what plays them.
    """
    beat = demonstration.beat(now)
    rail = Rail(
        playhead=beat.playhead,
        caption=_shown_caption(demonstration, beat),
        controls=play_controls(session, demonstration, now),
        pace=keyed(_PACE, session),
    )
    steps = tuple(step for step in demonstration.steps if step is not None)
    if len(steps) < len(demonstration.turns) or attempt.aim is None:
        turns = enumerate(demonstration.turns)
        return replace(rail, own=tuple(_shown_tile(turn, index, beat) for index, turn in turns))
    made = floor(beat.playhead)
    done, unsettled = _standing(attempt.aim, demonstration.start, demonstration.turns[:made])
    route = Route(demonstration.turns, steps)
    return replace(
        rail,
        bays=bays(route, steps[beat.turn], done, beat),
        scrubs_route=True,
        unsettled=unsettled,
    )


def _shown_caption(demonstration: Demonstration, beat: Beat) -> str:
    """The number of the turn; in the pass at full speed, where it would flicker, none."""
    if beat.real:
        return words.at_full_speed(demonstration.speed)
    return words.turn_shown(beat.turn + 1, len(demonstration.turns), demonstration.speed)


@lru_cache(maxsize=64)
def _standing(aim: Aim, start: HeldCube, turns: tuple[Turn, ...]) -> tuple[frozenset[Step], str]:
    """The steps done after turns shown from a start, and what is said of a position that is not settled."""
    cubes = [start]
    for turn in turns:
        cubes.append(cubes[-1].moved(turn))
    bearings = [aim.bearing(cube) for cube in cubes]
    now = bearings[-1]
    done = ticked([bearing.position for bearing in bearings], now.task)
    return done, unsettled_words(now.position, now.task)


def attempt_rail(
    session: Session, attempt: Attempt, answer: Answer | None, *, judged: bool = True
) -> Rail | None:
    """The rail of an attempt: the step under way and the learner's own turns, without giving turns away.

    None where there is no task: no pair is aimed at, or it was home when it was aimed at.
    """
    start = attempt.bearing(min(attempt.since, attempt.history.cursor))
    if start is None or start.task.done(start.position):
        return None
    tiles = own_tiles(session, attempt, judged=judged)
    step = None if answer is None else step_marked(session, attempt)
    first = session.room.rail_from(session, attempt)
    told, now = answer is not None, attempt.bearing() or start
    done = ticked_at(attempt, attempt.history.cursor) | {Step.FIND} if told else frozenset[Step]()
    return Rail(
        # Where nothing is judged, turns stand in a row: no step is known to which they could belong.
        bays(None, step, done) if judged else (),
        tiles,
        playhead=float(attempt.history.cursor - first),
        unsettled=unsettled_words(now.position, now.task) if told else "",
    )


def review_rail(session: Session, attempt: Attempt) -> Rail | None:
    """After a case: a shortest line in the bays, cut into the steps, and the learner's turns beneath.

    Who made the route sees the route in the bays, as the words about it say. None when there is nothing to
    look back on.
    """
    found = attempt_review(session, attempt)
    if found is None:
        return None
    start = judged_turns(session, attempt)[0]
    line = Route(found.line, cut(start.bearing.position, start.bearing.task, found.line))
    by_hand = start.answer is None or start.answer.by_hand is not None
    best = words.BEST_BY_HAND if by_hand else words.BEST
    longer = found.taught is not None and found.extra > 0
    return Rail(
        bays(found.taught if longer else line, Step.DONE, ALL_DONE),
        own_tiles(session, attempt, judged=True),
        playhead=float(attempt.history.cursor - session.room.rail_from(session, attempt)),
        row_names=(words.ROUTE if longer else best, words.YOU),
    )


def notation_of(turns: tuple[Turn, ...]) -> str:
    """Turns as written."""
    return " ".join(turn.notation for turn in turns)
