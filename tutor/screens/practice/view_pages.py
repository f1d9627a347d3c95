"""The Practice screen without a cube: what can be practised, when nothing is due, the end of a sitting."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from tutor.method.cases import CASES, Family
from tutor.progress.attempt import Mode
from tutor.progress.cards import CardPhase
from tutor.progress.schedule import on_list, next_on_list
from tutor.progress.sitting import farewell
from tutor.screens.learners.commands import NAME as LEARNERS
from tutor.screens.parts.frame import screen_view
from tutor.screens.practice.commands import PracticeAct, Practise, SetGoal
from tutor.screens.practice.sitting import reached
from tutor.screens.practice.state import GOALS, PRACTICE, Practice, PracticePage
from tutor.screens.practice.view_modes import goal_blocks, pace_blocks
from tutor.session.commands import Command, Open
from tutor.session.house import Session
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Gap,
    Group,
    Text,
    TextStyle,
    Tone,
    View,
)

Column = tuple[Block, ...]
NOT_READ = "Reading how you stand …"


def practice_page(session: Session, now: float) -> View:
    """The Practice screen while no run is on it; ``now`` tells what is due."""
    return screen_view(session, "Practice", page=columns(session, now))


def columns(session: Session, now: float) -> tuple[Column, ...]:
    """The columns of the page."""
    match PRACTICE.of(session).stand:
        case PracticePage.START:
            return _start(session, now), _goals(session)
        case PracticePage.NOTHING:
            return (_nothing(session, now),)
        case PracticePage.FAREWELL:
            return (_farewell(session, now),)


# ----------------------------------------------------------------------------------------------- start


def _start(session: Session, now: float) -> Column:
    study = session.records.study
    met = 0 if study is None else len(study.cards)
    blocks: list[Block] = [
        Text("Practice", TextStyle.TITLE),
        *_who(session),
        Text(due_words(session, now)),
        _mode(Mode.TODAY, "Due now", "What is due comes first, then new cases, three a day.", primary=True),
        _mode(
            Mode.SLIPPING, "Weakest first", "The cases that hold least well.", _missing(met, "you have met")
        ),
        _mode(
            Mode.GLANCE,
            "Recognition flash",
            "See a case; name the step and the first turn. Nothing is turned.",
            _missing(met, "you have met"),
        ),
        _mode(
            Mode.STEADY,
            "Slow and steady",
            "One turn for each beat, your eyes on the pieces that come next.",
            _missing(_holding(session), "you know well"),
        ),
        Text("One family", TextStyle.HEADING),
        *(_family(family) for family in Family),
    ]
    if PRACTICE.of(session).asked:
        blocks.insert(2, Text("Choosing a case …", tone=Tone.MUTED))
    return tuple(blocks)


def _who(session: Session) -> Column:
    """Who learns, where there are several."""
    if len(session.records.learners) < 2:
        return ()
    other = Button(Open(LEARNERS), "Somebody else")
    return (Text(f"Learner: {session.records.learner}"), ButtonRow((other,)))


def _missing(cases: int, which: str) -> str:
    """What is missing until there are two such cases to choose from; empty when nothing is."""
    if cases > 1:
        return ""
    return f"Opens once there are two cases {which}{'; one there is already' if cases else ''}."


def _mode(mode: Mode, label: str, detail: str, missing: str = "", *, primary: bool = False) -> Button:
    key = "Enter" if primary else ""
    detail = f"{detail} {missing}" if missing else detail
    return Button(Practise(mode), label, key, primary, not missing, detail=detail)


def _family(family: Family) -> Button:
    count = sum(case.family is family for case in CASES)
    label = family.value[:1].upper() + family.value[1:]
    return Button(Practise(Mode.FAMILY, family), label, detail=f"{count} cases")


def _holding(session: Session) -> int:
    study = session.records.study
    return 0 if study is None else sum(card.phase is CardPhase.STICKING for card in study.cards.values())


def due_words(session: Session, now: float) -> str:
    """What is due, or when the next case will be."""
    study = session.records.study
    if study is None:
        return NOT_READ
    if not len(study.results):
        return "You begin with the first case of the lessons."
    wall = session.records.wall(now)
    due = len(on_list(study, wall))
    if due:
        return "1 case is due now." if due == 1 else f"{due} cases are due now."
    following = next_on_list(study, wall)
    if following is None:
        return "Nothing is due now."
    return f"Nothing is due now. The next case comes {in_words(wall, following)}."


def in_words(now: datetime, then: datetime) -> str:
    """How long it is till then, in words that need no calendar."""
    minutes = max(1, round((then - now).total_seconds() / 60))
    for length, unit in ((24 * 60, "day"), (60, "hour"), (1, "minute")):
        # A day and a half are told in hours, an hour and a half in minutes.
        if minutes >= 2 * length or length == 1:
            count = round(minutes / length)
            return f"in 1 {unit}" if count == 1 else f"in {count} {unit}s"
    raise AssertionError("every time is told in minutes at least")


def _goals(session: Session) -> Column:
    practice = PRACTICE.of(session)
    blocks: list[Block] = []
    if practice.mode is not None and practice.sitting is not None and practice.sitting.attempts:
        end = Button(PracticeAct.END, "End for now")
        blocks += [Group((Text("Under way", TextStyle.HEADING), *goal_blocks(practice), end)), Gap(1)]
    blocks += [
        Text("Practise until", TextStyle.HEADING),
        _goal_row(practice, GOALS[:1]),
        _goal_row(practice, (goal for goal in GOALS if goal[0] == "attempts")),
        _goal_row(practice, (goal for goal in GOALS if goal[0] == "minutes")),
        Gap(1),
        Text("Beat for slow and steady", TextStyle.HEADING),
        *pace_blocks(practice.pace),
        Gap(1),
        Text(_caution(session.settings.rest_minutes), TextStyle.SMALL, Tone.MUTED),
    ]
    return tuple(blocks)


def _goal_row(practice: Practice, goals: Iterable[tuple[str, int]]) -> ButtonRow:
    words = {"due": "Nothing is due", "attempts": "{} tries", "minutes": "{} minutes"}
    return ButtonRow(
        tuple(
            Button(SetGoal(*goal), words[goal[0]].format(goal[1]), selected=goal == practice.goal)
            for goal in goals
        )
    )


def _caution(minutes: int) -> str:
    harm = "Long practice strains hands and wrists."
    if minutes <= 0:
        return f"{harm} Rest them now and then."
    return f"{harm} After {minutes} minutes you are reminded to rest them."


# ------------------------------------------------------------------------------------------ nothing, end


def _nothing(session: Session, now: float) -> Column:
    study = session.records.study
    mode, met = PRACTICE.of(session).mode, 0 if study is None else len(study.cards)
    said = {
        Mode.STEADY: "This is for cases you know well, and none could come now.",
        Mode.GLANCE: "This is for cases you have met. Meet a few first.",
    }
    words = said.get(mode, due_words(session, now)) if mode is not None else due_words(session, now)
    blocks: list[Block] = [Text("Nothing to practise this way now", TextStyle.TITLE), Text(words)]
    if met > 1:
        label = "Practise the weakest cases"
        blocks.append(_button(Practise(Mode.SLIPPING), label, "Enter", primary=True))
    else:
        blocks.append(_button(Practise(Mode.TODAY), "Begin with what is due or new", primary=True))
    return (*blocks, _button(PracticeAct.STOP, "Stop for now"))


def _farewell(session: Session, now: float) -> Column:
    practice = PRACTICE.of(session)
    title = "You have reached your goal" if reached(practice) else "Done for now"
    blocks: list[Block] = [Text(title, TextStyle.TITLE)]
    if practice.sitting is not None:
        blocks += [Text(farewell(practice.sitting)), *_minutes(practice.sitting.spent)]
    blocks += [Text("What comes next", TextStyle.HEADING), Text(due_words(session, now)), Gap(1)]
    blocks.append(_button(PracticeAct.STOP, "Stop for now", "Enter", primary=True))
    further: list[Button] = []
    if practice.mode is not None and not practice.dry:
        further.append(_button(PracticeAct.GO_ON, "Go on all the same"))
    if practice.mode is not Mode.SLIPPING:
        further.append(_button(Practise(Mode.SLIPPING), "Go on with the weakest"))
    return (*blocks, ButtonRow(tuple(further)))


def _minutes(spent: float) -> Column:
    minutes = int(spent // 60)
    said = "less than a minute" if not minutes else "1 minute" if minutes == 1 else f"{minutes} minutes"
    return (Text(f"Time: {said}, pauses left out."),)


def _button(command: Command, label: str, key: str = "", *, primary: bool = False) -> Button:
    return Button(command, label, key, primary=primary)
