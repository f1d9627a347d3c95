"""Blocks of a flash, of the metronome, and of how far the goal of a sitting is."""

from __future__ import annotations

from collections import Counter

from tutor.coach.guidance import Help
from tutor.cube.faces import Face, Turn
from tutor.method.terms import Verdict
from tutor.screens.parts.rail import MARKS
from tutor.screens.practice import case_run, flash, sitting
from tutor.screens.practice.commands import NameTurn, PracticeAct
from tutor.screens.practice.state import GLANCE_SECONDS, STEPS_NAMED, Beat, CaseRun, Flash, Practice, Timing
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
    Timing.EARLY: "A little early. Wait for the beat.",
    Timing.ON_BEAT: "On the beat.",
    Timing.LATE: "A little late. That is fine: take the next one.",
}

# ---------------------------------------------------------------------------------------------- flash


def naming_blocks(told: Flash) -> tuple[Block, ...]:
    """What a flash asks: the step, then the first turn."""
    steps = tuple(
        Button(
            ChooseAnswer(index),
            step.value.capitalize(),
            str(index + 1),
            selected=step is told.step,
        )
        for index, step in enumerate(STEPS_NAMED)
    )
    blocks: list[Block] = [_clock(told), Text("Which step is this?", TextStyle.QUESTION), ButtonRow(steps)]
    if told.step is not None:
        blocks += _turn_blocks(told)
    return (*blocks, Button(PracticeAct.GIVE_UP, "I do not know"))


def _clock(told: Flash) -> Progress:
    seconds = told.seconds
    full = seconds >= GLANCE_SECONDS
    caption = "Take the time you need" if full else f"{seconds} second{'' if seconds == 1 else 's'}"
    return Progress(caption, seconds / GLANCE_SECONDS)


def _turn_blocks(told: Flash) -> tuple[Block, ...]:
    blocks: list[Block] = [Text("And the first turn?", TextStyle.QUESTION)]
    if told.turn is not None:
        label = f"{told.turn.notation} is my answer"
        blocks.append(Button(Act.NEXT, label, "Enter", primary=True))
    else:
        blocks.append(Text("Press its key, then Enter, or a button.", TextStyle.SMALL, Tone.MUTED))
    blocks += [
        ButtonRow(tuple(_turn_button(told, face, quarters) for quarters in (1, 3, 2))) for face in _FACES
    ]
    return tuple(blocks)


def _turn_button(told: Flash, face: Face, quarters: int) -> Button:
    turn = Turn.of(face, quarters)
    return Button(NameTurn(turn), turn.notation, selected=turn is told.turn)


def named_blocks(session: Session, run: CaseRun, told: Flash) -> tuple[Block, ...]:
    """What was named, whether it is right, and why."""
    answer = case_run.start_answer(session, run)
    if answer is None:
        return ()
    bearing = run.attempt.bearing(0)
    first = answer.way.turns[0]
    as_held = first if bearing is None else bearing.turn_as_held(first)
    step = answer.step.value.capitalize()
    blocks: list[Block] = []
    if told.step is not None:
        mark = Mark.OPTIMAL if told.step_right else Mark.DETOUR
        text = "" if told.step_right else f"You said {told.step.value.capitalize()}."
        blocks.append(VerdictNote(mark, f"The step is {step}", text))
    else:
        blocks.append(Text(f"The step is {step}.", TextStyle.QUESTION))
    blocks.append(_turn_told(told, as_held))
    if told.named and told.at is not None:
        blocks.append(Text(f"Named after {told.at:.0f} seconds.", TextStyle.SMALL, Tone.MUTED))
    reason = flash.explained(session, run, answer)
    if reason is not None:
        right = reason.choices[reason.right]
        blocks += [Text(f"Why {as_held.notation}?", TextStyle.QUESTION), Text(right.text), Text(right.reply)]
    return tuple(blocks)


def _turn_told(told: Flash, first: Turn) -> Block:
    if told.turn is None or told.verdict is None:
        return Text(f"A shortest way begins with {first.notation}.")
    named = told.turn.notation
    match told.verdict:
        case Verdict.OPTIMAL:
            return VerdictNote(MARKS[told.verdict], f"{named} begins a shortest way")
        case Verdict.ACCEPTABLE:
            text = f"A shortest one begins with {first.notation}."
            return VerdictNote(MARKS[told.verdict], f"{named} begins a good way", text)
        case _:
            text = f"A shortest way begins with {first.notation}."
            return VerdictNote(MARKS[told.verdict], f"{named} leads away", text)


# ------------------------------------------------------------------------------------------- metronome


def beat_blocks(run: CaseRun, beat: Beat) -> tuple[Block, ...]:
    """The beat, how the last turn was in time, and the pace."""
    silent = " Verdicts come at the end." if run.help is Help.ALONE else ""
    place = beat.count % _BAR + 1
    blocks: list[Block] = [Progress(f"Beat {place} of {_BAR}", place / _BAR)]
    if beat.timings:
        tone = Tone.GOOD if beat.timings[-1] is Timing.ON_BEAT else Tone.NEUTRAL
        blocks.append(Text(_TIMING_WORDS[beat.timings[-1]], tone=tone))
    blocks += [
        Text("Bring the pair home: one turn for each beat.", TextStyle.QUESTION),
        Text(f"Keep an eye on the two lit pieces, like your next pair, while you turn.{silent}"),
    ]
    return (*blocks, *pace_blocks(beat.pace))


def pace_blocks(pace: int) -> tuple[Block, ...]:
    """The pace of the beat, and the way to another."""
    calmer = Button(PracticeAct.CALMER, "Calmer", enabled=pace > 10)
    quicker = Button(PracticeAct.QUICKER, "Quicker", enabled=pace < 60)
    return (Text(f"{pace} beats a minute", TextStyle.SMALL, Tone.MUTED), ButtonRow((calmer, quicker)))


def timing_blocks(beat: Beat) -> tuple[Block, ...]:
    """After a run: how many turns were in time, and where the pieces to follow are."""
    if not beat.timings:
        return ()
    counts = Counter(beat.timings)
    parts = [f"{counts[Timing.ON_BEAT]} of {len(beat.timings)} turns on the beat"]
    parts += [f"{counts[timing]} {timing.value}" for timing in (Timing.EARLY, Timing.LATE) if counts[timing]]
    return (
        Text(", ".join(parts) + "."),
        Text("The two other pieces are lit again. Were your eyes on them?"),
    )


# ------------------------------------------------------------------------------------------------ goal


def goal_blocks(practice: Practice) -> tuple[Block, ...]:
    """How far the goal of the sitting is."""
    stands = sitting.standing(practice)
    if stands is None:
        return ()
    if stands.wanted is None:
        tries = "1 try" if stands.done == 1 else f"{stands.done} tries"
        return (Text(f"{tries} so far", TextStyle.SMALL, Tone.MUTED),)
    kind = "tries" if practice.goal[0] == "attempts" else "minutes"
    caption = f"{min(stands.done, stands.wanted)} of {stands.wanted} {kind}"
    return (Progress(caption, min(1.0, stands.done / stands.wanted)),)
