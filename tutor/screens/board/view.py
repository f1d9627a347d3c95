"""What you see of the board: the page of the list, or a cube with what the group reads."""

from __future__ import annotations

from functools import lru_cache

from msgspec.structs import replace

from tutor.coach.catalogue import ENGLISH, sentences
from tutor.coach.hints import Rung, hint, purpose, whereabouts
from tutor.method.answer import Answer
from tutor.screens.board import words
from tutor.screens.board.commands import BoardAct, ShowOnBoard
from tutor.screens.board.items import all_in_sight
from tutor.screens.board.keys import TURN_ROUND
from tutor.screens.board.list_text import EVERY_CASE, SLIPPING
from tutor.screens.board.state import BOARD, AskedGroup, BoardCase, Presentation, Reveal
from tutor.screens.board.update import coming
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.keys import keyed, keyed_blocks
from tutor.screens.parts.moment import hinted
from tutor.screens.parts.saving import notice_line
from tutor.screens.parts.stage import marked, moving, stage_of
from tutor.session.beats import Phase
from tutor.session.commands import Act, ChooseAnswer
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.session.looking_back import colour_words
from tutor.session.state import Attempt
from tutor.session.telling import NOTHING, to_read
from tutor.ui.view import (
    Block,
    Board,
    Button,
    Chevron,
    Entry,
    Gap,
    Stage,
    Text,
    TextStyle,
    Tone,
    View,
)

_NEXT = {
    Reveal.PIECES: words.SHOW_PIECES,
    Reveal.STEP: words.SHOW_STEP,
    Reveal.TURN: words.SHOW_TURN,
    Reveal.ROUTE: words.SHOW_ROUTE,
}
"""What the main button says, by how much is shown next."""


def board_at(session: Session, now: float) -> View:
    """All that you see at a moment."""
    shown = BOARD.of(session)
    if shown is None:
        return list_page(session)
    attempt = session.attempt or shown.attempt
    stage = stage_of(session, attempt, now)
    if session.demonstration is not None:
        return replace(_playing(session, now), stage=stage)
    if not moving(session, now):
        stage = hinted(session, attempt, stage)
    return replace(_still(session, shown), stage=stage)


# ------------------------------------------------------------------------------------ the page of the list


@lru_cache(maxsize=2)
def list_page(session: Session) -> View:
    """A field to type a list into, and lists to choose."""
    writing = session.writing
    field = Entry(
        Act.WRITE,
        words.FIELD,
        writing.text,
        writing.caret,
        focused=writing.open,
        error=writing.error,
        chosen=writing.chosen,
    )
    first: list[Block] = [
        Text(words.TITLE, TextStyle.TITLE),
        field,
        Text(words.HOW, tone=Tone.MUTED),
        Gap(1),
        Text(words.READY_MADE, TextStyle.HEADING),
        Button(ShowOnBoard(EVERY_CASE), words.ALL_CASES),
        Button(ShowOnBoard(SLIPPING), words.SLIPPING),
    ]
    lessons: list[Block] = [Text(words.LESSONS, TextStyle.HEADING)] if session.lessons else []
    lessons += [Button(ShowOnBoard(lesson.name), lesson.title) for lesson in session.lessons]
    return screen_view(session, words.NAME, page=(tuple(first), tuple(lessons)))


# ----------------------------------------------------------------------------------------- round the cube


def board_marks(session: Session, attempt: Attempt, stage: Stage) -> Stage | None:
    """The frame alone while the pair is to be found; None for the usual marks."""
    shown, bearing = BOARD.of(session), attempt.bearing()
    if shown is None or shown.reveal is not Reveal.HIDDEN or bearing is None:
        return None
    return replace(marked(stage, bearing), dimmed=frozenset(), outlined=frozenset())


def _frame(session: Session, shown: Presentation, board: Board, card: tuple[Block, ...]) -> View:
    """The board with its quiet buttons."""
    base = screen_view(session, shown.title, place=_place(session, shown), stage=Stage(()))
    home = tuple(button for button in base.bar if button.chevron is Chevron.BACK)
    menu = tuple(button for button in base.bar if button.chevron is Chevron.MENU)
    others = tuple(button for button in base.bar if button.chevron is Chevron.NONE)
    bar = (*home, *keyed(_steps(shown), session), *menu)
    more = (*keyed(_more(), session), *others, *(each for each in base.more if each not in others))
    spotlit = replace(board, spotlight=shown.spotlight)
    look = replace(base.look, mirrors=base.look.mirrors and not _in_sight(shown), mirror_below=False)
    return replace(
        base, bar=bar, more=more, card=keyed_blocks(card, session), board=spotlit, look=look, notice=""
    )


def _in_sight(shown: Presentation) -> bool:
    """Whether the mirrors would show nothing that matters and only make the cube smaller."""
    bearing = shown.attempt.bearing()
    return bearing is None or all_in_sight(bearing)


def _place(session: Session, shown: Presentation) -> str:
    """Where the list is; what the program has to say takes its place."""
    item = shown.item
    name = words.case(item.case.number) if isinstance(item, BoardCase) else words.scene(item.number + 1)
    return notice_line(session) or words.place(shown.at + 1, len(shown.items), name)


def _steps(shown: Presentation) -> tuple[Button, ...]:
    return (
        Button(BoardAct.BACK, words.BACK),
        Button(BoardAct.NEXT_CASE, words.NEXT_CASE, enabled=not shown.last),
        Button(BoardAct.ASK, words.ASK),
    )


def _more() -> tuple[Button, ...]:
    return (
        Button(BoardAct.CASE_BEFORE, words.CASE_BEFORE),
        Button(BoardAct.NEXT_SLOT, words.OTHER_SLOT),
        Button(BoardAct.MIRROR, words.MIRROR),
        Button(TURN_ROUND, words.TURN_CUBE),
        Button(BoardAct.SLOWLY, words.SLOWLY),
        Button(BoardAct.SPOTLIGHT, words.SPOTLIGHT),
        Button(BoardAct.FEWER, words.FEWER),
        Button(BoardAct.PREPARE, words.PREPARE),
        Button(Act.FULL_SCREEN, words.FULL_SCREEN),
    )


def _main(label: str) -> Button:
    return Button(Act.NEXT, label, primary=True)


# ------------------------------------------------------------------------------------- what a group reads


@lru_cache(maxsize=4)
def _still(session: Session, shown: Presentation) -> View:
    """The board while nothing plays."""
    if shown.asked is not None:
        return _frame(session, shown, *_asking(shown.asked))
    answer = answer_at(session, shown.attempt)
    if answer is None and shown.reveal >= Reveal.PIECES:
        return _frame(session, shown, Board(words.WORKING), ())
    step = turn = ""
    if answer is not None and shown.reveal >= Reveal.STEP:
        step = ENGLISH.say(f"step.{answer.step.value}")
    if answer is not None and shown.reveal >= Reveal.TURN:
        turn = answer.way.turns[0].notation if answer.way.turns else ""
    hidden = "" if shown.reveal >= Reveal.STEP else words.HIDDEN
    board = Board(_line(session, shown, answer), hidden, step, turn)
    return _frame(session, shown, board, (_main(_NEXT[coming(session, shown)]),))


def _line(session: Session, shown: Presentation, answer: Answer | None) -> str:
    """The one sentence that goes with how much is shown."""
    bearing = shown.attempt.bearing()
    if bearing is None or answer is None or shown.reveal is Reveal.HIDDEN:
        return words.FIND
    colours = colour_words(session, shown.attempt.cube, bearing)
    if shown.reveal is Reveal.PIECES:
        return whereabouts(bearing.position, bearing.task, colours).text
    if shown.reveal is Reveal.STEP:
        return purpose(answer, colours).text
    return hint(answer, colours, Rung.TURN).text


def _asking(asked: AskedGroup) -> tuple[Board, tuple[Block, ...]]:
    """A question with its answers; once the right one is shown, its reason in place of the question."""
    answers = tuple(_answer(asked, number) for number in range(len(asked.answers)))
    line = (asked.reason or asked.text) if asked.told else asked.text
    label = words.SHOW_RIGHT
    if asked.told:
        label = words.SHOW_WRONG if asked.misled and not asked.corrected else words.GO_ON
    if asked.corrected:
        # The last of three sentences says where to look, which the group does now.
        line = " ".join(sentences(asked.misled)[:2])
    return Board(line), (*answers, _main(label))


def _answer(asked: AskedGroup, number: int) -> Button:
    """An answer with its hands; the right one stays marked while a wrong one is explained, only not grey."""
    right, count = asked.answers[number].true, asked.counts[number]
    explained = asked.corrected and number == asked.misleading
    sign = words.WRONG if explained else words.RIGHT if asked.told and right else ""
    return Button(
        ChooseAnswer(number),
        asked.answers[number].text,
        str(number + 1),
        enabled=right or explained or not asked.told,
        selected=asked.told and right,
        detail="  ·  ".join(each for each in (sign, words.hands(count) if count else "") if each),
    )


@lru_cache(maxsize=8)
def _beat(session: Session, index: int, *, made: bool, moving_on: bool, ended: bool) -> View:
    """The board at a turn of the route."""
    shown, demonstration = BOARD.of(session), session.demonstration
    assert shown is not None
    assert demonstration is not None
    said = to_read(session, index) or NOTHING
    sentence = said.made if made else said.coming
    line = words.ALL_SHOWN if ended and _solves(session) else (sentences(sentence) or [words.WORKING])[0]
    step = demonstration.steps[index]
    way = tuple(turn.notation for turn in demonstration.turns)
    name = "" if step is None else ENGLISH.say(f"step.{step.value}")
    board = Board(line, "", name, way[index], way, None if ended else index)
    label = words.PAUSE if moving_on else words.PLAY_ON
    if ended:
        label = words.NEXT_CASE
        board = replace(board, step="", turn="")
    card = () if ended and shown.last else (_main(label),)
    return _frame(session, shown, board, card)


def _solves(session: Session) -> bool:
    """Whether the turns shown solve the pair; those of a scene may end before."""
    shown, attempt = session.demonstration, session.attempt
    if shown is None or attempt is None or attempt.aim is None:
        return False
    end = attempt.aim.bearing(shown.start.after(shown.turns))
    return end.task.done(end.position)


def _playing(session: Session, now: float) -> View:
    demonstration = session.demonstration
    assert demonstration is not None
    beat = demonstration.beat(now)
    return _beat(
        session,
        beat.turn,
        made=beat.phase is Phase.DONE,
        moving_on=demonstration.moving(now),
        ended=demonstration.at_end(now),
    )
