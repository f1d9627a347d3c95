"""The review of a whole solve: turns, pauses, slips and what to practise; all moves on the rail."""

from __future__ import annotations

from tutor.coach.catalogue import ENGLISH
from tutor.coach.solve_review import LegReading, SolveReading, drills
from tutor.coach.solve_review_sentences import (
    cross_slip_words,
    drill_words,
    leg_name,
    lost_words,
    pause_words,
    slip_words,
    time_words,
    total_words,
)
from tutor.cube.faces import Face
from tutor.method.words import case_title
from tutor.screens.parts.card import unknown_blocks
from tutor.screens.parts.rail import MARKS
from tutor.screens.practice.commands import TryCase
from tutor.screens.solve import words
from tutor.screens.solve.commands import ShowFewest, SolveAct
from tutor.screens.solve.review import Course, best_turns, course_colours, course_of, reading_of
from tutor.screens.solve.state import SolvePlay
from tutor.session.commands import JumpTo
from tutor.session.house import Session
from tutor.ui.view import (
    Bay,
    BayState,
    Block,
    Button,
    ButtonRow,
    Mark,
    Rail,
    Table,
    Text,
    TextStyle,
    Tile,
    Tone,
)


def review_blocks(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    """The card at the end of a solve: how it went."""
    course = course_of(solve)
    blocks: list[Block] = [
        Text(ENGLISH.say("solve.home"), TextStyle.HEADING),
        Text(ENGLISH.say("solve.outside"), TextStyle.SMALL, Tone.MUTED),
    ]
    if course.turns:
        seconds = course.times[-1] - course.times[0]
        blocks.append(Text(total_words(len(course.turns), seconds)))
        reading = reading_of(session, course)
        if reading is None:
            blocks += unknown_blocks(session, course.question, words.LOOKING_BACK)
        else:
            blocks += _how_it_went(session, course, reading)
    return (*blocks, *_buttons(course))


def _how_it_went(session: Session, course: Course, reading: SolveReading) -> list[Block]:
    return [
        Text(lost_words(reading)),
        _legs(session, course, reading),
        *_practice(session, course, reading),
        Text(words.PAUSES, TextStyle.HEADING),
        *_pauses(session, course),
        Text(words.SLIPS, TextStyle.HEADING),
        *_slips(reading),
    ]


def _legs(session: Session, course: Course, reading: SolveReading) -> Table:
    colours = course_colours(session, course)
    rows = tuple(
        (name, str(each.leg.made), str(each.fewest), time_words(course.seconds(each.leg)))
        for each in reading.legs
        for name in (leg_name(each.leg, colours),)
    )
    return Table(words.LEGS, rows)


def _pauses(session: Session, course: Course) -> list[Block]:
    colours = course_colours(session, course)
    said = []
    for pause in course.pauses:
        leg = course.leg_of(pause.index)
        if leg is not None:
            said.append(Text(pause_words(pause, leg, course.written[pause.index], colours)))
    return list(said) or [Text(ENGLISH.say("pause.none"), tone=Tone.MUTED)]


def _slips(reading: SolveReading) -> list[Block]:
    said = [Text(cross_slip_words(reading.lost_in_cross))] if reading.lost_in_cross else []
    said += [Text(slip_words(kind, count)) for kind, count in reading.slips]
    return list(said) or [Text(ENGLISH.say("slip_kind.none"), tone=Tone.MUTED)]


def _practice(session: Session, course: Course, reading: SolveReading) -> list[Block]:
    """The cases most worth practising, each a button that starts its practice."""
    blocks: list[Block] = [Text(words.WORTH_PRACTISING, TextStyle.HEADING)]
    cross = course_colours(session, course)[Face.D]
    for drill in drills(reading):
        met = drill.sighting
        command = TryCase(met.case.slug, met.slot, met.alignment)
        name = met.case.short_name(met.slot, cross, met.alignment)
        blocks.append(Button(command, drill_words(drill), detail=case_title(met.case.number, name)))
    return blocks if len(blocks) > 1 else [*blocks, Text(ENGLISH.say("drill.none"), tone=Tone.MUTED)]


def _buttons(course: Course) -> tuple[Block, ...]:
    some = bool(course.turns)
    return (
        ButtonRow(
            (
                Button(SolveAct.SHOW_SLOWLY, words.SHOW_SLOWLY, enabled=some),
                Button(SolveAct.COPY_NOTATION, words.COPY_TURNS, enabled=some),
            )
        ),
        ButtonRow(
            (
                Button(SolveAct.NEW_SOLVE, words.ANOTHER_CUBE, primary=True),
                Button(SolveAct.TO_FREE_PLAY, words.TO_FREE_PLAY),
            )
        ),
        Text(ENGLISH.say("solve.again"), TextStyle.SMALL, Tone.MUTED),
    )


# ------------------------------------------------------------------------------------------- the rail


def review_rail(session: Session, solve: SolvePlay) -> Rail:
    """The legs as bays, with turns and the fewest, or the best turns; beneath them all moves, judged."""
    course = course_of(solve)
    reading = reading_of(session, course)
    entries, cursor = solve.attempt.history.entries, solve.attempt.history.cursor
    marks = {} if reading is None else _marks(course, reading)
    own = tuple(
        Tile(
            entry.move.notation,
            mark=marks.get(index, Mark.NONE),
            played=index < cursor,
            current=index == cursor - 1,
            action=JumpTo(index + 1),
        )
        for index, entry in enumerate(entries)
    )
    bays = () if reading is None else _bays(session, solve, course, reading)
    caption = ENGLISH.say("solve.rail") if bays else ""
    return Rail(bays, own, playhead=float(cursor), caption=caption)


def _marks(course: Course, reading: SolveReading) -> dict[int, Mark]:
    return {course.moves[index]: MARKS[turn.verdict] for index, turn in enumerate(reading.turns)}


def _bays(session: Session, solve: SolvePlay, course: Course, reading: SolveReading) -> tuple[Bay, ...]:
    """The legs; the one in which the last move shown was made has its best turns over the moves beneath."""
    colours, cursor = course_colours(session, course), solve.attempt.history.cursor
    bays = []
    for number, each in enumerate(reading.legs):
        begin, end = course.move_at(each.leg.begin), course.move_at(each.leg.end)
        state = BayState.DONE if cursor >= end else BayState.CURRENT if cursor > begin else BayState.AHEAD
        name = leg_name(each.leg, colours).capitalize()
        best = best_turns(solve, course, each)
        if best and begin < cursor <= end:
            show = ShowFewest(number)
            tiles = tuple(Tile(turn.notation, action=show) for turn in best)
            bays.append(Bay(ENGLISH.say("solve.best", leg=name), state, tiles))
        else:
            bays.append(Bay(name, state, _figures(number, each, begin)))
    return tuple(bays)


def _figures(number: int, each: LegReading, begin: int) -> tuple[Tile, ...]:
    """How many turns a leg took, a way to its beginning, and the fewest, a way to see them where known."""
    return (
        Tile(str(each.leg.made), played=True, action=JumpTo(begin)),
        Tile(str(each.fewest), action=None if each.line is None else ShowFewest(number)),
    )
