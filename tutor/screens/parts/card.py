"""Blocks that several screens share: verdicts, hints, the field for moves, the key sheet."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.catalogue import ENGLISH
from tutor.coach.glossary import GLOSSARY, terms_in
from tutor.coach.hints import Hint, hint
from tutor.cube.faces import Turn
from tutor.method.answer import Answer
from tutor.method.cases import case_of
from tutor.method.ticks import in_the_midst
from tutor.screens.parts import words
from tutor.screens.parts.frame import screen_view as screen_view
from tutor.screens.parts.own_words import own_line
from tutor.screens.parts.rail import MARKS, step_marked
from tutor.session import shift_key
from tutor.session.commands import Act, Question
from tutor.session.detours import to_choose
from tutor.session.house import Session
from tutor.session.judging import Judged, answer_at
from tutor.session.keymap import bindings_of
from tutor.session.keys import key_sheet, sign_for
from tutor.session.looking_back import (
    attempt_review,
    colour_words,
    in_the_making,
    last_judged,
    last_remark,
    step_under_way,
)
from tutor.session.making import SoFar
from tutor.session.playback import shown_route
from tutor.session.state import Attempt
from tutor.session.words import help_is_off
from tutor.ui.view import (
    Block,
    Button,
    Entry,
    Group,
    Mark,
    Table,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
)

Rows = tuple[tuple[str, ...], ...]
WAITING = VerdictNote(Mark.WAITING, words.WAITING, words.WAITING_FOR_VERDICT)
_LACKS = {
    SoFar.FURTHER: words.TURN_FURTHER,
    SoFar.OTHER_WAY: words.TURN_OTHER_WAY,
    SoFar.QUARTER: words.TURN_QUARTER,
    SoFar.FURTHER_TOO: words.FURTHER_WORKS,
    SoFar.OTHER_WAY_TOO: words.OTHER_WAY_WORKS,
    SoFar.QUARTER_TOO: words.QUARTER_WORKS,
}
_RUNGS = 3


def unknown_blocks(session: Session, question: Question, waiting: str) -> tuple[Block, ...]:
    """In place of an answer about a whole solve: ``waiting`` until it comes, or a button that asks again."""
    if not session.advices.failed(question):
        return (Text(waiting, tone=Tone.MUTED),)
    again = Button(Act.ASK_AGAIN, words.TRY_AGAIN)
    return (Text(ENGLISH.say("solve.failed")), again)


def making_note(turn: Turn, lacks: SoFar) -> VerdictNote:
    """In place of a verdict: how far the turn has gone, and what it lacks to be a good one."""
    gone = words.HALF_A_TURN if turn.quarters == 2 else words.A_QUARTER
    return VerdictNote(Mark.MAKING, words.so_far(turn.notation, gone), _LACKS[lacks])


def verdict_blocks(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """The verdict on the last turn, with what the coach says about it, and what to choose after a Detour."""
    if way_running(session):
        return ()
    last, note = last_judged(session, attempt), verdict_note(session, attempt)
    if last is None or note is None:
        return ()
    # While it is being shown why, the note stands at the top of the card.
    notes = () if why_running(session) else (note,)
    return (*notes, *_choices(session, attempt, last)) if note.mark is Mark.DETOUR else notes


def way_running(session: Session) -> bool:
    """Whether a way is being shown, on a cube on which the learner's last turn was not made."""
    return session.demonstration is not None and session.demonstration.detour is None


def why_running(session: Session) -> bool:
    """Whether it is being shown why the last turn is a Detour."""
    return session.demonstration is not None and session.demonstration.detour is not None


def verdict_note(session: Session, attempt: Attempt) -> VerdictNote | None:
    """The verdict on the last turn, with what the coach says about it; None where no turn is judged."""
    last = last_judged(session, attempt)
    if last is None:
        return None
    if last.answer is None:
        return WAITING
    lacks = in_the_making(session, attempt)
    if lacks is not None:
        return _with_shift(session, making_note(last.turn, lacks), last.turn)
    remark = last_remark(session, attempt)
    if remark is None or remark.verdict is None:
        return None
    title = words.verdict(last.turn.notation, remark.title)
    return _with_shift(session, VerdictNote(MARKS[remark.verdict], title, remark.text), last.turn)


def _with_shift(session: Session, note: VerdictNote, made: Turn) -> VerdictNote:
    """What is said of a turn, the first time with what Shift does where that went wrong."""
    if not shift_key.tells(session):
        return note
    return replace(note, text=f"{note.text} {words.shift_turns_back(made.inverse.notation)}")


def _choices(session: Session, attempt: Attempt, made: Judged) -> tuple[Block, ...]:
    """After a Detour: undo it, or go on from here; once the learner goes on, the next idea."""
    if made.answer is None:
        return ()
    way = made.answer.continuations[made.turn]
    on = words.from_here(
        way.to_go, _next_idea(session, attempt), far=way.by_hand is None, by_hand=way.far_is_shorter
    )
    if to_choose(session) is None:
        why = Button(Act.SHOW_SLIP, words.SHOW_WHY)
        return (Text(on), why) if attempt.went_on else (why,)
    before = made.answer
    back = words.back_first(made.turn.inverse.notation, before.to_go, by_hand=before.far_is_shorter)
    return (
        Button(Act.UNDO, words.UNDO_IT, primary=True, detail=back, choice=True),
        Button(Act.GO_ON_HERE, words.GO_ON_FROM_HERE, "Enter", detail=on, choice=True),
    )


def undo_button(session: Session, *, enabled: bool) -> Button:
    """Undo, for the foot; while the card offers it as a choice, the way to see why stands in its place."""
    if to_choose(session) is not None:
        return Button(Act.SHOW_SLIP, words.SHOW_WHY)
    return Button(Act.UNDO, words.UNDO, enabled=enabled)


def _next_idea(session: Session, attempt: Attempt) -> str:
    """What comes next, once the solver has answered for where the cube is: first of all what is out."""
    answer = answer_at(session, attempt)
    if answer is None:
        return ""
    if not (answer.settled or in_the_midst(answer.position, answer.task)):
        return words.PUT_BACK
    step = step_marked(session, attempt)
    return "" if step is None else words.IDEAS.get(step, "")


def hint_now(session: Session, attempt: Attempt) -> Hint | None:
    """The hint for the position on the cube, at the rung asked for."""
    answer, bearing = answer_at(session, attempt), attempt.bearing()
    if not attempt.rung or answer is None or bearing is None or answer.distance == 0:
        return None
    step = step_under_way(session, attempt)
    return hint(answer, colour_words(session, attempt.cube, bearing), attempt.rung, step)


def hint_blocks(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """The hint's words."""
    given = hint_now(session, attempt)
    if given is None or session.demonstration is not None:
        return ()
    key = sign_for(Act.HINT, session.room, bindings_of(session))
    number = words.hint_number(attempt.rung, _RUNGS, key)
    own = own_words_for(session, attempt) if attempt.rung == 1 else ""
    said = words.in_your_own_words(own) if own else given.text
    return (Text(number, TextStyle.SMALL, Tone.MUTED), Text(said, fresh=True))


def own_words_for(session: Session, attempt: Attempt) -> str:
    """What the learner says in their own words of the case that the attempt began with; empty for nothing."""
    start = attempt.bearing(min(attempt.since, attempt.history.cursor))
    sighting = None if start is None else case_of(start.position, start.task)
    return "" if sighting is None else own_line(session, sighting.case.slug)


def help_off_blocks(session: Session) -> tuple[Block, ...]:
    """That help is off, and the key that brings it."""
    key = sign_for(Act.REVEAL, session.room, bindings_of(session))
    return (Text(help_is_off(key), TextStyle.SMALL, Tone.MUTED),)


def hint_label(attempt: Attempt) -> str:
    """What the hint button says next."""
    return (words.HINT, words.MORE, words.SHOW_TURN, words.HINT)[min(_RUNGS, attempt.rung)]


def show_label(session: Session, attempt: Attempt) -> str:
    """What the button says that shows the way: another thing once the way from here was shown."""
    if session.demonstration is not None and session.room.shows_by_itself(session):
        return words.SHOW_AGAIN
    found = shown_route(session, attempt)
    return words.SHOW_AGAIN if found is not None and found[0] == attempt.shown else words.SHOW_THE_WAY


def writing_blocks(session: Session, asked: str = words.WRITE_MOVES) -> tuple[Block, ...]:
    """The field to write in, when it is open; ``asked`` says what it is for."""
    writing = session.writing
    if not writing.open:
        return ()
    return (
        Entry(
            Act.WRITE,
            asked,
            writing.text,
            writing.caret,
            focused=True,
            error=writing.error,
            error_column=writing.error_column,
            chosen=writing.chosen,
        ),
    )


def distance_words(session: Session, attempt: Attempt, answer: Answer) -> str:
    """The step under way, where there is one to name, and how far it is by hand, in words."""
    if answer.distance == 0:
        return words.PAIR_SOLVED
    step = step_marked(session, attempt)
    named = "" if step is None else step.value.capitalize()
    return words.to_go(named, answer.to_go, by_hand=answer.far_is_shorter)


def help_blocks(session: Session) -> tuple[Block, ...]:
    """The key sheet, printed from the table that binds the keys."""
    blocks: list[Block] = [Text(words.KEYS, TextStyle.TITLE)]
    for group, rows in key_sheet(session.room, bindings_of(session)):
        blocks.append(Table((group, ""), _with_primes(rows)))
    blocks.append(Button(Act.HELP, words.CLOSE, primary=True))
    return tuple(blocks)


def _with_primes(rows: Rows) -> Rows:
    """A turn and the one the other way, which has the same key with Shift, in one row."""
    joined: list[tuple[str, ...]] = []
    for keys, says in rows:
        if joined and (keys, says) == (f"Shift+{joined[-1][0]}", f"{joined[-1][1]}'"):
            key, plain = joined[-1]
            joined[-1] = words.both(key, keys), words.both(plain, says.split()[-1])
        else:
            joined.append((keys, says))
    return tuple(joined)


def review_blocks(session: Session, attempt: Attempt) -> tuple[Block, ...]:
    """After a case: the learner's turns beside the shortest, and where they split."""
    found = attempt_review(session, attempt)
    if found is None:
        return ()
    blocks: list[Block] = [Text(words.LOOKING_BACK, TextStyle.HEADING)]
    blocks += [Text(phrase.text) for phrase in found.phrases]
    if found.split is not None:
        blocks.append(Button(Act.SHOW_SPLIT, words.SHOW_SPLIT))
    return tuple(blocks)


def word_blocks(texts: tuple[str, ...]) -> tuple[Block, ...]:
    """The sheet of words: those on the screen first, each with its meaning in one line."""
    here = terms_in(" ".join(texts))
    rest = tuple(term for term in GLOSSARY if term not in here)
    blocks: list[Block] = [Text(words.WORDS, TextStyle.TITLE)]
    for title, terms in ((words.WORDS_HERE, here), (words.OTHER_WORDS if here else words.ALL_WORDS, rest)):
        if terms:
            blocks.append(Table((title, ""), tuple((term.name, term.meaning) for term in terms)))
    blocks.append(Button(Act.WORDS, words.CLOSE, primary=True))
    return tuple(blocks)


def told_blocks(told: tuple[str, ...]) -> tuple[Block, ...]:
    """The sheet that says what is wrong with something: all of it, so that it can be mended."""
    heading, *problems = told
    return (
        Text(heading, TextStyle.HEADING),
        *(Text(problem) for problem in problems),
        Button(Act.CLOSE, words.CLOSE, primary=True),
    )


def texts_in(blocks: tuple[Block, ...]) -> tuple[str, ...]:
    """All texts in blocks."""
    said: list[str] = []
    for block in blocks:
        match block:
            case Text(text) | VerdictNote(text=text):
                said.append(text)
            case Group(inner):
                said.extend(texts_in(inner))
            case _:
                pass
    return tuple(said)
