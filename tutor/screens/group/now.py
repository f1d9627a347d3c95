"""Who is at what right now, at the other windows on the shared folder."""

from __future__ import annotations

from tutor.method.cases import CASES
from tutor.progress.presence import At, Engaged, Live, Need
from tutor.screens.group import words
from tutor.screens.parts.case_names import case_title
from tutor.session.house import Session
from tutor.ui.view import Block, Mark, Table, Text, TextStyle, Tone, VerdictNote

_PRESSING = (Need.MISSED, Need.STUCK)


def now_at_work(session: Session) -> tuple[Block, ...]:
    """The live view, those first who need somebody; nothing where no folder is shared."""
    exchanged = session.records.exchanged
    if exchanged is None:
        return ()
    told = exchanged.problem or words.shared_over(exchanged.folder)
    if exchanged.refused:
        told = f"{told} {words.unreadable_lines(exchanged.refused)}"
    below = Text(told, TextStyle.SMALL, Tone.MUTED)
    pressing = [each for each in exchanged.others if each.need in _PRESSING]
    rows = tuple(_row(session, each) for each in exchanged.others if each.need not in _PRESSING)
    shown: list[Block] = [
        VerdictNote(Mark.DETOUR, _said(each), _place(session, each.engaged)) for each in pressing
    ]
    if rows:
        shown.append(Table((words.LEARNER, words.AT, words.HOW), rows))
    if not shown and not exchanged.problem:
        shown.append(Text(words.NOBODY_ELSE))
    return Text(words.NOW, TextStyle.HEADING), *shown, below


def _row(session: Session, live: Live) -> tuple[str, str, str]:
    return live.learner, _place(session, live.engaged), _said(live)


def _said(live: Live) -> str:
    match live.need:
        case Need.MISSED if live.missed is not None:
            return words.missed(live.learner, live.missed.value.capitalize(), live.times)
        case Need.STUCK:
            return words.stuck(live.learner, live.minutes)
        case Need.WAITING:
            return words.DONE if live.engaged.over else words.FREE
        case Need.QUIET:
            return words.quiet(live.minutes)
        case _:
            return words.OVER if live.engaged.over else words.at_it(live.minutes)


def _place(session: Session, engaged: Engaged) -> str:
    match engaged.at:
        case At.CASE if 0 < engaged.number <= len(CASES):
            return case_title(session, CASES[engaged.number - 1])
        case At.LESSON:
            return words.at_lesson(engaged.number, engaged.title, engaged.scene, engaged.scenes)
        case At.FREE_PLAY:
            return words.FREE_PLAY
        case At.WHOLE_SOLVE:
            return words.WHOLE_SOLVE
        case _:
            return words.AT_NO_TASK
