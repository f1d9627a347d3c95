"""The case book: all 41 cases by family, and the page of one of them."""

from __future__ import annotations

from functools import lru_cache

from tutor.coach.reasons import easier
from tutor.cube.position import SLOTS, Slot
from tutor.method.answer import Answer
from tutor.method.cases import ALIGNMENTS, CASES, Case, Family
from tutor.method.ticks import ticked
from tutor.progress.course import lesson_of
from tutor.screens.case_book import update, words
from tutor.screens.case_book.commands import BookAct, OpenCase
from tutor.screens.case_book.state import PAGE, TURNS_HIDDEN, BookPage
from tutor.screens.parts.card import writing_blocks
from tutor.screens.parts.case_names import case_title, cross_name
from tutor.screens.parts.explained import explained_blocks
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.more import told
from tutor.screens.parts.own_words import line_blocks, line_button
from tutor.screens.parts.rail import bays, notation_of
from tutor.screens.parts.stage import small_picture
from tutor.screens.parts.words import YOUR_LINE
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Gap,
    Miniature,
    MiniatureGrid,
    Rail,
    Stage,
    Text,
    TextStyle,
    Tone,
    View,
)


def book_at(session: Session, now: float) -> View:
    """All that you see of the book at a moment."""
    shown = PAGE.of(session)
    view = still(session)
    return view if shown is None else at_moment(view, session, shown.attempt, now)


@lru_cache(maxsize=4)
def still(session: Session) -> View:
    """What stays as it is until the next command."""
    shown = PAGE.of(session)
    if shown is None:
        return all_cases(session)
    return page(session, shown, Stage(shown.attempt.cube.colours), page_rail(session, shown))


def all_cases(session: Session) -> View:
    """All cases, by family."""
    blocks: list[Block] = [
        Text(words.NAME, TextStyle.TITLE),
        Text(words.INTRODUCTION),
    ]
    for family in Family:
        cases = tuple(case for case in CASES if case.family is family)
        blocks.append(Text(words.family(family.value, len(cases)), TextStyle.HEADING))
        blocks.append(MiniatureGrid(tuple(_miniature(session, case) for case in cases)))
    return screen_view(
        session,
        words.NAME,
        page=(tuple(blocks),),
    )


def _miniature(session: Session, case: Case) -> Miniature:
    page = update.page_of(session, case, SLOTS[0], 0)
    bearing = page.attempt.bearing()
    stage = Stage(page.attempt.cube.colours)
    known = dict(session.guidance).get(case.slug)
    badge = "✓" if known is not None and known.known else ""
    return Miniature(
        OpenCase(case.slug),
        words.in_list(case.number, case.short_name(cross=cross_name(session))),
        stage if bearing is None else small_picture(stage, bearing),
        badge=badge,
    )


def page(session: Session, shown: BookPage, stage: Stage, rail: Rail | None) -> View:
    """The page of one case."""
    return screen_view(
        session,
        words.NAME,
        stage=stage,
        card=_card(session, shown),
        rail=rail,
    )


def page_rail(session: Session, shown: BookPage) -> Rail:
    """The route of the page's case on the rail."""
    answer = answer_at(session, shown.attempt)
    if answer is None or not answer.routes or TURNS_HIDDEN.of(session):
        return Rail(bays(None, None, frozenset()))
    done = ticked([answer.position], answer.task)
    return Rail(bays(answer.routes[0], answer.step, done))


def _full_name(case: Case, slot: Slot, alignment: int) -> Text:
    """The full name; where a name describes another slot, or the top before its turn, it says so."""
    parts = [words.full_name(case.name)]
    parts += [words.AT_FRONT_RIGHT] if slot is not Slot.FR else []
    parts += [words.TOP_UNTURNED] if alignment else []
    return Text(" ".join(parts), TextStyle.SMALL, Tone.MUTED)


def _card(session: Session, shown: BookPage) -> tuple[Block, ...]:
    case, slot, alignment = shown.case, shown.slot, shown.alignment
    answer, hidden = answer_at(session, shown.attempt), TURNS_HIDDEN.of(session)
    mirror, mirror_slot = update.mirrored(shown)
    slots = tuple(
        Button(OpenCase(case.slug, each, alignment), each.name, selected=each is slot) for each in SLOTS
    )
    tops = tuple(
        Button(OpenCase(case.slug, slot, each), sign, selected=each == alignment)
        for each, sign in zip(ALIGNMENTS, words.TOPS, strict=True)
    )
    return (
        Text(case_title(session, case, slot, alignment), TextStyle.HEADING),
        _full_name(case, slot, alignment),
        *_lesson(session, case),
        *_told(session, shown, answer),
        *line_blocks(session, case.slug),
        *writing_blocks(session, YOUR_LINE if shown.own_words else words.WRITE_OTHER_WAY),
        _to_play(session, answer),
        ButtonRow(
            (
                Button(BookAct.TRY, words.TRY),
                Button(BookAct.HIDE_TURNS, words.SHOW_TURNS if hidden else words.HIDE_TURNS),
                Button(OpenCase(mirror.slug, mirror_slot, -alignment % 4), words.MIRROR),
            )
        ),
        _learners_own(session, shown),
        Gap(1),
        Text(words.SLOT, TextStyle.SMALL, Tone.MUTED),
        ButtonRow(slots),
        Text(words.TOP_LAYER, TextStyle.SMALL, Tone.MUTED),
        ButtonRow(tops),
        Button(BookAct.ALL_CASES, words.ALL_CASES),
    )


def _to_play(session: Session, answer: Answer | None) -> ButtonRow:
    """What the program shows: the route, and a shortest line where that is another one."""
    route = Button(Act.SHOW_AGAIN, words.SHOW_ROUTE, primary=session.demonstration is None)
    line = Button(BookAct.SHOW_LINE, words.SHOW_LINE)
    return ButtonRow((route, line) if answer is not None and _line_is_other(answer) else (route,))


def _line_is_other(answer: Answer) -> bool:
    """Whether the shortest line by hand is not the route itself."""
    return bool(answer.lines) and answer.lines[0] not in [route.turns for route in answer.routes[:1]]


def _learners_own(session: Session, shown: BookPage) -> ButtonRow:
    """Buttons for the learner's own way and for their own words."""
    way = words.OTHER_WAY if shown.other_way is None else words.BACK_TO_ROUTE
    line = line_button(session, shown.case.slug, BookAct.OWN_WORDS)
    return ButtonRow((Button(BookAct.OTHER_WAY, way), line))


def _told(session: Session, shown: BookPage, answer: Answer | None) -> tuple[Block, ...]:
    """The case in words, or the learner's own way explained."""
    if shown.other_way is not None:
        return explained_blocks(session, shown.other_way)
    return (Text(words.WORKING, tone=Tone.MUTED),) if answer is None else _words(session, answer)


def _lesson(session: Session, case: Case) -> tuple[Block, ...]:
    """The lesson that teaches the case, where it is listed."""
    name = lesson_of(case)
    listed = (pair for pair in enumerate(session.lessons, start=1) if pair[1].name == name)
    return tuple(
        Text(words.taught_in(number, lesson.title), TextStyle.SMALL, Tone.MUTED) for number, lesson in listed
    )


def _words(session: Session, answer: Answer) -> tuple[Block, ...]:
    """The case's figure and its route; on demand the line by hand, why that line, and a shorter way."""
    first: list[Block] = [Text(words.by_hand(answer.to_go, answer.fewest_with_top_free))]
    if TURNS_HIDDEN.of(session):
        return tuple(first)
    if answer.routes:
        route = answer.routes[0]
        steps = [words.step(step.value.capitalize(), notation_of(turns)) for step, turns in route.segments]
        first.append(Text(words.route(len(route.turns), steps)))
    return told(session, tuple(first), _more_words(answer))


def _more_words(answer: Answer) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if _line_is_other(answer):
        blocks.append(Text(words.line(answer.to_go, notation_of(answer.lines[0]))))
    reasons = (easier(answer.lines[0], other) for other in answer.lines[1:])
    blocks += [Text(reason, TextStyle.SMALL, Tone.MUTED) for reason in reasons if reason][:1]
    if far := answer.at_all_line:
        blocks.append(Text(words.with_far_layers(len(far), notation_of(far)), TextStyle.SMALL, Tone.MUTED))
    return tuple(blocks)
