"""The Solve screen: how a whole solve begins, the cross, which pair first, and the pair in hand."""

from __future__ import annotations

from functools import lru_cache

from msgspec.structs import replace

from tutor.coach.catalogue import ENGLISH
from tutor.coach.hints import Hint
from tutor.coach.solve_sentences import cross_hint, cross_remark, cross_title
from tutor.cube.faces import FACES, Face, Turn
from tutor.cube.notation import format_moves
from tutor.cube.position import SLOTS
from tutor.method.advice import CrossQuestion
from tutor.screens.parts.card import (
    WAITING,
    distance_words,
    hint_blocks,
    hint_label,
    making_note,
    undo_button,
    unknown_blocks,
    writing_blocks,
)
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import MARKS, attempt_rail, off_rail
from tutor.screens.parts.stage import moving, with_glow
from tutor.screens.parts.turn_buttons import turn_blocks
from tutor.screens.solve import words
from tutor.screens.solve.commands import ChooseCross, ShowTurns, SolveAct
from tutor.screens.solve.solving import (
    CrossDown,
    SolveStand,
    colour_words,
    cross_down,
    cross_turn,
    run_of,
    stand,
)
from tutor.screens.solve.state import SOLVE, SolvePlay
from tutor.screens.solve.view_advice import advice_blocks, verdict_kept
from tutor.screens.solve.view_review import review_blocks, review_rail
from tutor.screens.solve.view_saved import saved_blocks
from tutor.session import attempts
from tutor.session.commands import Act, ChooseSlot
from tutor.session.house import Session
from tutor.session.judging import answer_at, judged_turns
from tutor.session.making import so_far
from tutor.ui.view import (
    Arrow,
    Block,
    Button,
    ButtonRow,
    Gap,
    Rail,
    Stage,
    Text,
    TextStyle,
    Tile,
    Tone,
    VerdictNote,
    View,
)


def solve_at(session: Session, now: float) -> View:
    """The screen of whole solves at a moment."""
    view, solve = still(session), SOLVE.of(session)
    if solve is None:
        return view
    view = at_moment(view, session, solve.attempt, now)
    crossing = solve.attempt.bearing() is None and session.demonstration is None
    if view.stage is None or not crossing or moving(session, now):
        return view
    return replace(view, stage=cross_hinted(session, solve, view.stage))


@lru_cache(maxsize=4)
def still(session: Session) -> View:
    """The view as it is until the next command."""
    solve = SOLVE.of(session)
    if solve is None:
        return start_page(session)
    return solve_view(session, solve, Stage(solve.attempt.cube.colours), solve_rail(session, solve))


def start_page(session: Session) -> View:
    """How a whole solve can begin."""
    return screen_view(session, words.TITLE, page=(_start_blocks(session), saved_blocks(session)))


def _start_blocks(session: Session) -> tuple[Block, ...]:
    blocks: list[Block] = [
        Text(words.START_HEADING, TextStyle.TITLE),
        Text(words.START_TEXT),
        Gap(1),
        Button(Act.SCRAMBLE, words.NEW_SCRAMBLE, primary=True, detail=words.NEW_SCRAMBLE_DETAIL),
    ]
    if session.writing.open:
        blocks += writing_blocks(session, words.ENTRY)
    else:
        blocks.append(Button(Act.WRITE, words.WRITE, detail=words.WRITE_DETAIL))
    blocks += [
        *session.house.doors(session.room, session),
        Gap(1),
        Text(words.HOW_HELD, TextStyle.SMALL, Tone.MUTED),
    ]
    return tuple(blocks)


# ------------------------------------------------------------------------------------------- the solve


def solve_view(session: Session, solve: SolvePlay, stage: Stage, rail: Rail | None) -> View:
    """The solve in hand."""
    over = stand(solve) is SolveStand.DONE
    return screen_view(
        session,
        words.TITLE,
        stage=stage,
        card=_card(session, solve),
        foot=() if over else _foot(session, solve),
        rail=rail,
    )


def _card(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    match stand(solve):
        case SolveStand.CROSS:
            blocks = _cross(session, solve)
        case SolveStand.CHOOSING:
            blocks = advice_blocks(session, solve)
        case SolveStand.PAIR:
            blocks = _pair(session, solve)
        case SolveStand.DONE:
            return review_blocks(session, solve)
    rare = _rare_choices(session, solve) if solve.choices_open else ()
    return (*blocks, *turn_blocks(session), *writing_blocks(session), *rare)


def _foot(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    """Undo and redo, and what brings the choices that are rarely wanted: always in sight."""
    history = solve.attempt.history
    label = words.FEWER_CHOICES if solve.choices_open else words.MORE_CHOICES
    buttons = (
        undo_button(session, enabled=history.can_undo),
        Button(Act.REDO, words.REDO, enabled=history.can_redo),
        Button(SolveAct.MORE_CHOICES, label),
    )
    return (ButtonRow(buttons),)


def _rare_choices(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    """The cross colours while the cross is in hand; to write, copy, keep, and to leave for something else."""
    copies = [Button(SolveAct.COPY_POSITION, words.COPY_POSITION)]
    if solve.scramble:
        copies.append(Button(SolveAct.COPY_SCRAMBLE, words.COPY_SCRAMBLE))
    crosses = _other_crosses(session, solve) if stand(solve) is SolveStand.CROSS else ()
    return (
        *crosses,
        ButtonRow((Button(Act.WRITE, words.WRITE_MOVES), Button(SolveAct.KEEP, words.KEEP))),
        ButtonRow(tuple(copies)),
        ButtonRow(
            (
                Button(SolveAct.LOOK_AHEAD, words.LOOK_AHEAD),
                Button(SolveAct.NEW_SOLVE, words.ANOTHER_CUBE),
            )
        ),
    )


def _cross(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    down = cross_down(solve)
    question = CrossQuestion(down.position)
    reading = session.advices.cross(question)
    if reading is None:
        unknown = unknown_blocks(session, question, words.WORKING)
        return (Text(words.CROSS_HEADING, TextStyle.HEADING), *_cross_verdict(session, solve), *unknown)
    colours = colour_words(session, down)
    blocks: list[Block] = [Text(cross_title(reading, colours), TextStyle.HEADING)]
    if not solve.attempt.history.entries:
        blocks.append(Text(ENGLISH.say("cross.what", cross=colours[Face.D])))
    blocks += _cross_verdict(session, solve)
    hint = cross_hint_now(session, solve)
    if hint is not None:
        blocks += [Text(words.hint_of(solve.attempt.rung), TextStyle.SMALL, Tone.MUTED), Text(hint.text)]
    label = words.HIDE_LINES if solve.lines_shown else words.SHOW_LINES
    blocks.append(
        ButtonRow(
            (
                Button(Act.HINT, hint_label(solve.attempt), enabled=solve.attempt.rung < 3),
                Button(SolveAct.CROSS_LINES, label),
            )
        )
    )
    if solve.lines_shown:
        blocks += [line_button(down, line) for line in reading.lines]
    return tuple(blocks)


def line_button(down: CrossDown, line: tuple[Turn, ...], label: str = "") -> Button:
    """A button that shows a line, named by its turns."""
    written = format_moves(down.as_held(line))
    detail = written if label else ""
    return Button(ShowTurns(written), label or written, detail=detail)


def _other_crosses(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    """How many turns the cross of each colour needs, each a way to choose it; nothing while unknown."""
    down, names = cross_down(solve), session.settings.colour_names
    reading = session.advices.cross(CrossQuestion(down.position))
    if reading is None:
        return ()
    buttons = []
    for each in reading.colours:
        colour = down.cube.colour_of(each.colour)
        label = words.cross_colour(names[colour], each.distance)
        buttons.append(Button(ChooseCross(colour), label, selected=colour is solve.cross))
    return (
        Text(words.CROSS_COLOURS, TextStyle.SMALL, Tone.MUTED),
        ButtonRow(tuple(buttons)),
    )


def _cross_verdict(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    """The verdict on the last turn, when it was made for the cross."""
    made = cross_turn(solve)
    if made is None:
        return ()
    question = CrossQuestion(made.position)
    reading = session.advices.cross(question)
    if reading is None:
        return () if session.advices.failed(question) else (WAITING,)
    colours = tuple(session.settings.colour_names[made.cube.colour_of(face)] for face in FACES)
    lacks = so_far(made.turn, reading.verdict) if reading.distance else None
    if lacks is not None:
        return (making_note(made.turn, lacks),)
    remark = cross_remark(made.position, reading, made.turn, colours)
    if remark is None:
        return ()
    return (VerdictNote(MARKS[remark.verdict], f"{made.turn.notation}: {remark.title}", remark.text),)


def cross_hint_now(session: Session, solve: SolvePlay) -> Hint | None:
    """The hint for the cross at the rung asked for."""
    down = cross_down(solve)
    reading = session.advices.cross(CrossQuestion(down.position))
    if not solve.attempt.rung or reading is None or stand(solve) is not SolveStand.CROSS:
        return None
    return cross_hint(down.position, reading, colour_words(session, down), solve.attempt.rung)


def cross_hinted(session: Session, solve: SolvePlay, stage: Stage) -> Stage:
    """The stage with the lights and arrow of a hint for the cross."""
    hint = cross_hint_now(session, solve)
    if hint is None:
        return stage
    down = cross_down(solve)
    arrow = None if hint.turn is None else Arrow(down.as_held((hint.turn,))[0])
    return with_glow(stage, down.hold, hint.glowing, arrow)


def _pair(session: Session, solve: SolvePlay) -> tuple[Block, ...]:
    attempt = solve.attempt
    answer = answer_at(session, attempt)
    chosen = attempts.chosen_slot(attempt, solve.cross)
    position = cross_down(solve).position
    slots = [
        Button(ChooseSlot(slot), slot.name, selected=slot is chosen)
        for slot in SLOTS
        if slot is chosen or not position.pair_home(slot)
    ]
    helps = [
        Button(Act.HINT, hint_label(attempt), enabled=answer is not None and attempt.rung < 3),
        Button(Act.SHOW_AGAIN, words.SHOW_AGAIN if solve.shown == attempt.aim else words.SHOW_WAY),
    ]
    choice: tuple[Block, ...] = (Text(words.LAST_PAIR, TextStyle.SMALL, Tone.MUTED),)
    if len(slots) > 1:
        helps.append(Button(SolveAct.LEAVE_PAIR, words.COMPARE_PAIRS))
        choice = (Text(words.PAIR, TextStyle.SMALL, Tone.MUTED), ButtonRow(tuple(slots)))
    heading = (
        Text(words.WORKING, tone=Tone.MUTED)
        if answer is None
        else Text(distance_words(session, attempt, answer), TextStyle.HEADING)
    )
    return (
        *choice,
        heading,
        *verdict_kept(session, solve),
        *hint_blocks(session, attempt),
        ButtonRow(tuple(helps)),
    )


# ------------------------------------------------------------------------------------------- the rail


def solve_rail(session: Session, solve: SolvePlay) -> Rail | None:
    """All turns made, while a pair is in hand; those for the cross carry their verdicts too.

    Without a pair in hand there is no task, so there is no rail.
    """
    if solve.ended is not None:
        return review_rail(session, solve)
    if stand(solve) is not SolveStand.PAIR:
        return None
    rail = attempt_rail(session, solve.attempt, answer_at(session, solve.attempt))
    if rail is None:
        return None
    own = (
        _judged_for_cross(session, solve, index, tile)
        for index, tile in enumerate(_judged_for_pairs(session, solve, rail.own))
    )
    return replace(rail, own=tuple(own))


def _judged_for_pairs(session: Session, solve: SolvePlay, own: tuple[Tile, ...]) -> tuple[Tile, ...]:
    """The tiles of the moves, those for pairs chosen before with the verdicts that they had then."""
    tiles, end = list(own), min(solve.attempt.since, solve.attempt.history.cursor)
    while end:
        run = run_of(solve, end - 1)
        judged = judged_turns(session, replace(run, history=run.history.moved_to(end)))
        away = off_rail(judged)
        for each in judged:
            if each.answer is not None and each.answer.distance:
                mark = MARKS[each.answer.continuations[each.turn].verdict]
                tiles[each.index] = replace(tiles[each.index], mark=mark, off_rail=each.index in away)
        end = run.since
    return tuple(tiles)


def _judged_for_cross(session: Session, solve: SolvePlay, index: int, tile: Tile) -> Tile:
    """The tile of a move, with its verdict when it was made for the cross."""
    made = cross_turn(solve, index)
    reading = None if made is None else session.advices.cross(CrossQuestion(made.position))
    if made is None or reading is None or not reading.distance:
        return tile
    return replace(tile, mark=MARKS[reading.verdict(made.turn)])
