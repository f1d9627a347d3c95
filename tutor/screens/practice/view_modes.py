"""Blocks of a glance, of the metronome, and of how far the goal of a sitting is."""

from __future__ import annotations

from collections import Counter

from tutor.coach.denials import step_denied, turn_denied
from tutor.coach.guidance import Help
from tutor.cube.faces import Face, Turn
from tutor.method.answer import Answer
from tutor.method.terms import Verdict
from tutor.screens.parts.rail import MARKS
from tutor.screens.practice import case_run, glance, sitting, words
from tutor.screens.practice.commands import NameTurn, PracticeAct
from tutor.screens.practice.state import (
    GLANCE_SECONDS,
    STEPS_NAMED,
    CaseRun,
    Glance,
    Metronome,
    Practice,
    Timing,
)
from tutor.session.commands import Act, ChooseAnswer
from tutor.session.house import Session
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Mark,
    Progress,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
)

_FACES = (Face.U, Face.R, Face.F, Face.L, Face.B, Face.D)
_BAR = 4
"""Beats to the bar: one step of the quiet line for each."""
_TIMING_WORDS = {
    Timing.EARLY: words.EARLY,
    Timing.ON_BEAT: words.ON_BEAT,
    Timing.LATE: words.LATE,
}

# ---------------------------------------------------------------------------------------------- glance


def naming_blocks(told: Glance) -> tuple[Block, ...]:
    """What a glance asks: the step, then the first turn."""
    steps = tuple(
        Button(
            ChooseAnswer(index),
            step.value.capitalize(),
            str(index + 1),
            selected=step is told.step,
        )
        for index, step in enumerate(STEPS_NAMED)
    )
    blocks: list[Block] = [_clock(told), Text(words.WHICH_STEP, TextStyle.QUESTION), ButtonRow(steps)]
    if told.step is not None:
        blocks += _turn_blocks(told)
    return (*blocks, Button(PracticeAct.GIVE_UP, words.I_DO_NOT_KNOW))


def _clock(told: Glance) -> Progress:
    full = told.seconds >= GLANCE_SECONDS
    caption = words.TAKE_YOUR_TIME if full else words.seconds(told.seconds)
    return Progress(caption, told.seconds / GLANCE_SECONDS)


def _turn_blocks(told: Glance) -> tuple[Block, ...]:
    blocks: list[Block] = [Text(words.WHICH_TURN, TextStyle.QUESTION)]
    if told.turn is not None:
        label = words.answer(told.turn.notation)
        blocks.append(Button(Act.NEXT, label, "Enter", primary=True))
    else:
        blocks.append(Text(words.HOW_TO_NAME, TextStyle.SMALL, Tone.MUTED))
    blocks += [
        ButtonRow(tuple(_turn_button(told, face, quarters) for quarters in (1, 3, 2))) for face in _FACES
    ]
    return tuple(blocks)


def _turn_button(told: Glance, face: Face, quarters: int) -> Button:
    turn = Turn.of(face, quarters)
    return Button(NameTurn(turn), turn.notation, selected=turn is told.turn)


def named_blocks(session: Session, run: CaseRun, told: Glance) -> tuple[Block, ...]:
    """What was named, whether it is right, and why."""
    answer, bearing = case_run.start_answer(session, run), run.attempt.bearing(0)
    if answer is None or bearing is None:
        return ()
    as_held = bearing.turn_as_held(answer.way.turns[0])
    colours = case_run.start_colours(session, run, bearing)
    judged = None if told.turn is None else bearing.turn_as_judged(told.turn)
    blocks = [_step_told(told, answer, colours), _turn_told(told, judged, as_held, answer, colours)]
    if told.named and told.at is not None:
        blocks.append(Text(words.named_after(round(told.at)), TextStyle.SMALL, Tone.MUTED))
    reason = glance.explained(session, run, answer)
    if reason is not None:
        right = reason.choices[reason.right]
        blocks += [
            Text(words.why(as_held.notation), TextStyle.QUESTION),
            Text(right.text),
            Text(right.reply),
        ]
    return tuple(blocks)


def _step_told(told: Glance, answer: Answer, colours: tuple[str, ...]) -> Block:
    """The step; where another was named, why that is not the one."""
    right = answer.step.value.capitalize()
    if told.step is None:
        return Text(words.the_step(right), TextStyle.QUESTION)
    if told.step_right:
        return VerdictNote(Mark.OPTIMAL, words.the_step(right))
    title = words.not_the_step(right, told.step.value.capitalize())
    return VerdictNote(Mark.DETOUR, title, step_denied(answer, told.step, colours).text)


def _turn_told(
    told: Glance, judged: Turn | None, first: Turn, answer: Answer, colours: tuple[str, ...]
) -> Block:
    """The verdict on the turn named (``judged`` as the coach sees it), and a turn that is right."""
    better = words.shortest_way(first.notation)
    if told.turn is None or judged is None or told.verdict is None:
        return Text(better)
    named, mark = told.turn.notation, MARKS[told.verdict]
    match told.verdict:
        case Verdict.OPTIMAL:
            return VerdictNote(mark, words.starts_shortest(named))
        case Verdict.ACCEPTABLE:
            return VerdictNote(mark, words.starts_good(named), better)
        case Verdict.DETOUR:
            text = turn_denied(answer, judged, colours).text
            return VerdictNote(mark, words.is_detour(named), f"{text} {better}")


# ------------------------------------------------------------------------------------------- metronome


def beat_blocks(run: CaseRun, beat: Metronome) -> tuple[Block, ...]:
    """The beat, how the last turn was in time, and the pace."""
    place = beat.count % _BAR + 1
    blocks: list[Block] = [Progress(words.beat(place, _BAR), place / _BAR)]
    if beat.timings:
        tone = Tone.GOOD if beat.timings[-1] is Timing.ON_BEAT else Tone.NEUTRAL
        blocks.append(Text(_TIMING_WORDS[beat.timings[-1]], tone=tone))
    blocks += [
        Text(words.SOLVE_ON_THE_BEAT, TextStyle.QUESTION),
        Text(words.watch_the_glowing(verdicts_later=run.help is Help.ALONE)),
    ]
    return (*blocks, *pace_blocks(beat.pace))


def pace_blocks(pace: int) -> tuple[Block, ...]:
    """The pace of the beat, and the way to another."""
    calmer = Button(PracticeAct.CALMER, words.SLOWER, enabled=pace > 10)
    quicker = Button(PracticeAct.QUICKER, words.FASTER, enabled=pace < 60)
    return (Text(words.pace(pace), TextStyle.SMALL, Tone.MUTED), ButtonRow((calmer, quicker)))


def timing_blocks(beat: Metronome) -> tuple[Block, ...]:
    """After a run: how many turns were in time, and where the pieces to follow are."""
    if not beat.timings:
        return ()
    counts = Counter(beat.timings)
    said = words.timing(counts[Timing.ON_BEAT], len(beat.timings), counts[Timing.EARLY], counts[Timing.LATE])
    return Text(said), Text(words.GLOW_AGAIN)


# ------------------------------------------------------------------------------------------------ goal


def goal_blocks(practice: Practice) -> tuple[Block, ...]:
    """How far the goal of the sitting is."""
    stands = sitting.standing(practice)
    if stands is None:
        return ()
    if stands.wanted is None:
        return (Text(words.tries_so_far(stands.done), TextStyle.SMALL, Tone.MUTED),)
    caption = words.goal_so_far(min(stands.done, stands.wanted), stands.wanted, practice.goal[0])
    return (Progress(caption, min(1.0, stands.done / stands.wanted)),)
