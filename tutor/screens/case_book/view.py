"""The case book: all 41 cases by family, and the page of one of them."""

from __future__ import annotations

from functools import lru_cache

from tutor.coach.reasons import easier
from tutor.counting import counted
from tutor.cube.position import SLOTS, Slot
from tutor.method.answer import Answer
from tutor.method.cases import ALIGNMENTS, CASES, Case, Family
from tutor.method.ticks import ticked
from tutor.screens.case_book import update
from tutor.screens.case_book.commands import BookAct, OpenCase
from tutor.screens.case_book.state import PAGE, BookPage
from tutor.screens.parts.frame import screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import bays, notation_of
from tutor.screens.parts.stage import marked
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
    """All that is seen of the book at a moment."""
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
        Text("Case book", TextStyle.TITLE),
        Text(
            "Every way a pair can lie when the cross and the other slots are home. Open one to see it played."
        ),
    ]
    for family in Family:
        cases = tuple(case for case in CASES if case.family is family)
        title = f"{family.value[:1].upper()}{family.value[1:]}: {len(cases)}"
        blocks.append(Text(title, TextStyle.HEADING))
        blocks.append(MiniatureGrid(tuple(_miniature(session, case) for case in cases)))
    return screen_view(
        session,
        "Case book",
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
        case.name,
        stage if bearing is None else marked(stage, bearing),
        badge=badge,
    )


def page(session: Session, shown: BookPage, stage: Stage, rail: Rail | None) -> View:
    """The page of one case."""
    return screen_view(
        session,
        "Case book",
        stage=stage,
        card=_card(session, shown),
        rail=rail,
    )


def page_rail(session: Session, shown: BookPage) -> Rail:
    """The route of the page's case on the rail."""
    answer = answer_at(session, shown.attempt)
    if answer is None or not answer.routes:
        return Rail(bays(None, None, frozenset()))
    done = ticked([answer.position], answer.task)
    return Rail(bays(answer.routes[0], answer.step, done))


def _named_as(slot: Slot, alignment: int) -> tuple[Block, ...]:
    """Where the name tells of another slot, or of the top before its turn, that is said."""
    parts = ["at the front right"] if slot is not Slot.FR else []
    parts += ["before the top is turned"] if alignment else []
    if not parts:
        return ()
    return (Text(f"That is its name as seen {', '.join(parts)}.", TextStyle.SMALL, Tone.MUTED),)


def _card(session: Session, shown: BookPage) -> tuple[Block, ...]:
    case, slot, alignment = shown.case, shown.slot, shown.alignment
    answer = answer_at(session, shown.attempt)
    mirror, mirror_slot = update.mirrored(shown)
    slots = tuple(
        Button(OpenCase(case.slug, each, alignment), each.name, selected=each is slot) for each in SLOTS
    )
    tops = tuple(
        Button(OpenCase(case.slug, slot, each), sign, selected=each == alignment)
        for each, sign in zip(ALIGNMENTS, ("Top", "Top U", "Top U2", "Top U'"), strict=True)
    )
    return (
        Text(f"{case.name}.", TextStyle.HEADING),
        *_named_as(slot, alignment),
        *(_words(answer) if answer is not None else (Text("Working it out …", tone=Tone.MUTED),)),
        ButtonRow(
            (
                Button(Act.SHOW_AGAIN, "Show the route", primary=session.demonstration is None),
                Button(BookAct.SHOW_LINE, "Show a shortest line"),
            )
        ),
        ButtonRow(
            (
                Button(BookAct.TRY, "Try it"),
                Button(OpenCase(mirror.slug, mirror_slot, -alignment % 4), "Mirror image"),
            )
        ),
        Gap(1),
        Text("Slot", TextStyle.SMALL, Tone.MUTED),
        ButtonRow(slots),
        Text("Top layer", TextStyle.SMALL, Tone.MUTED),
        ButtonRow(tops),
        Button(BookAct.ALL_CASES, "All cases"),
    )


def _words(answer: Answer) -> tuple[Block, ...]:
    """The case's figure; route and line by hand in notation, with their lengths; a shorter way there is."""
    takes = counted(update.fewest(answer), "turn")
    blocks: list[Block] = [Text(f"This case takes {takes} by hand, with the top turned as best.")]
    if answer.routes:
        route = answer.routes[0]
        parts = "  ·  ".join(
            f"{step.value.capitalize()} {notation_of(turns)}" for step, turns in route.segments
        )
        blocks.append(Text(f"Route, {len(route.turns)} turns: {parts}"))
    if answer.lines:
        blocks.append(Text(f"Shortest by hand, {answer.to_go} turns: {notation_of(answer.lines[0])}"))
    reasons = (easier(answer.lines[0], other) for other in answer.lines[1:])
    blocks += [Text(reason, TextStyle.SMALL, Tone.MUTED) for reason in reasons if reason][:1]
    if far := answer.at_all_line:
        told = f"With far layers too it can be done in {counted(len(far), 'turn')}: {notation_of(far)}"
        blocks.append(Text(told, TextStyle.SMALL, Tone.MUTED))
    return tuple(blocks)
