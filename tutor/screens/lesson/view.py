"""The Lesson screen: the scene's text, its question, the verdicts and hints, and the way on."""

from __future__ import annotations

from functools import lru_cache

from msgspec.structs import replace

from tutor.lesson.scenes import Alone, Ask, Extent, Find, Quiz, Recap, Scene, Show, Tell, dictated
from tutor.method.steps import Step
from tutor.screens.lesson import questions, tasks, telling, update, words
from tutor.screens.lesson.commands import PageTurn, StartLesson
from tutor.screens.lesson.made_turns import other_turns, turn_read
from tutor.screens.lesson.scene_look import asked, turned_to
from tutor.screens.lesson.state import LESSON, LessonPlay
from tutor.screens.parts.card import (
    help_off_blocks,
    hint_blocks,
    hint_label,
    review_blocks,
    undo_button,
    verdict_blocks,
    way_running,
    writing_blocks,
)
from tutor.screens.parts.frame import large_text, screen_view
from tutor.screens.parts.moment import at_moment
from tutor.screens.parts.rail import attempt_rail, bays, review_rail
from tutor.screens.parts.turn_buttons import turn_blocks
from tutor.screens.parts.why import why_blocks
from tutor.session.beats import Phase
from tutor.session.commands import Act, ChooseAnswer
from tutor.session.detours import to_choose
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Group,
    Mark,
    Progress,
    Rail,
    Stage,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
    View,
)


@lru_cache(maxsize=4)
def still(session: Session) -> View:
    """What stays as it is until the next command."""
    attempt = session.attempt
    if attempt is None:
        raise ValueError("no lesson is open")
    return lesson(session, Stage(attempt.cube.colours), lesson_rail(session), 0.0)


def lesson_at(session: Session, now: float) -> View:
    """All that is seen of the lesson at a moment; the card says what goes with the turn at the playhead."""
    view, attempt = still(session), session.attempt
    if attempt is None:
        raise ValueError("no lesson is open")
    view = at_moment(view, session, attempt, now)
    if session.demonstration is None or view.stage is None or not update.shows_by_itself(session):
        return view
    shown = lesson(session, view.stage, view.rail, now)
    return replace(view, card=(*why_blocks(session), *shown.card), foot=shown.foot)


def lesson(session: Session, stage: Stage, rail: Rail | None, now: float) -> View:
    """The Lesson screen with the stage and rail of the moment."""
    played, scene = LESSON.of(session), update.scene_of(session)
    if played is None or scene is None:
        raise ValueError("no lesson is open")
    return screen_view(
        session,
        played.lesson.title,
        place=_place(played) if large_text(session) else _number(session, played),
        stage=stage,
        card=_card(session, played, scene, now),
        foot=_buttons(session, played, scene, now),
        rail=rail,
    )


def _place(played: LessonPlay) -> str:
    """Which scene of the lesson it is."""
    return words.place(played.scene + 1, len(played.lesson.scenes))


def _number(session: Session, played: LessonPlay) -> str:
    """Which lesson of the course it is; empty for one that is not listed."""
    names = [listed.name for listed in session.lessons]
    return words.number(names.index(played.lesson.name) + 1) if played.lesson.name in names else ""


def lesson_rail(session: Session) -> Rail | None:
    """The rail of the scene while nothing is being shown."""
    played, scene = LESSON.of(session), update.scene_of(session)
    if played is None or scene is None or scene.task is None or not scene.rail:
        return None
    if update.only_tells(session):
        # No pair is on its way, so that there are no steps to show.
        return None
    judged = verdicts_shown(played, scene)
    if played.solved and isinstance(scene, Ask | Alone) and _in_its_slot(played):
        reviewed = review_rail(session, played.attempt)
        if reviewed is not None:
            return reviewed
    # While something is asked that looking should answer, the rail must not give it away.
    asks = isinstance(scene, Quiz | Find) and not played.solved
    answer = None if asks or not judged else answer_at(session, played.attempt)
    rail = attempt_rail(session, played.attempt, answer, judged=judged)
    if rail is None:
        return None
    if (asks and isinstance(scene, Find)) or _looks_on(played, scene):
        rail = replace(rail, bays=bays(None, Step.FIND, frozenset()))
    return replace(rail, caption=scene.caption)


def _looks_on(played: LessonPlay, scene: Scene) -> bool:
    """Whether the next scene asks for a piece of this cube, so that Find is still to be done."""
    if not isinstance(scene, Find | Tell):
        return False
    following = played.lesson.scenes[played.scene + 1 : played.scene + 2]
    return any(isinstance(each, Find) and each.cube == scene.cube for each in following)


def _in_its_slot(played: LessonPlay) -> bool:
    bearing = played.attempt.bearing()
    return bearing is not None and bearing.task.done(bearing.position)


def verdicts_shown(played: LessonPlay, scene: Scene) -> bool:
    """Whether turns are judged aloud: not in an Alone scene until it is done or given up."""
    return not isinstance(scene, Alone) or played.solved or played.revealed


def _card(session: Session, played: LessonPlay, scene: Scene, now: float) -> tuple[Block, ...]:
    count = len(played.lesson.scenes)
    caption = "" if large_text(session) else _place(played)
    blocks: list[Block] = [Progress(caption, (played.scene + 1) / count)]
    if to_choose(session) is None:
        # What led up to the turn gives way to what is to be chosen after it.
        if (front := turned_to(played.lesson, played.scene)) is not None:
            blocks.append(Text(words.cube_turned(session.settings.colour_names[front]), tone=Tone.MUTED))
        style = TextStyle.QUESTION if isinstance(scene, Quiz | Find) else TextStyle.BODY
        blocks.append(Text(scene.card_text, style))
    if played.attempt.cube.viewpoint != scene.cube.viewpoint:
        blocks.append(Text(words.TURNED_ROUND, TextStyle.SMALL, Tone.MUTED))
    if played.problems:
        blocks.append(Group(_problem_blocks(played.problems)))
    blocks += _body(session, played, scene, now)
    if played.scene + 1 == count and update.settled(session):
        blocks += _done(session, played)
    blocks += turn_blocks(session)
    blocks += writing_blocks(session)
    return tuple(blocks)


def _problem_blocks(problems: tuple[str, ...]) -> tuple[Block, ...]:
    """What is wrong with the changed script; shown until it is mended."""
    shown = tuple(Text(problem, TextStyle.SMALL) for problem in problems[:5])
    rest = len(problems) - len(shown)
    more = (Text(words.more_problems(rest), TextStyle.SMALL, Tone.MUTED),) if rest else ()
    return (Text(words.SCRIPT_CHANGED, tone=Tone.WARNING), *shown, *more)


def _body(session: Session, played: LessonPlay, scene: Scene, now: float) -> tuple[Block, ...]:
    match scene:
        case Show():
            return _played(session, scene, now)
        case Ask():
            return _ask(session, played, scene)
        case Alone():
            return _alone(session, played, scene)
        case Quiz() | Find():
            return _choice(session, played, scene)
        case Recap(points=points):
            return tuple(Text(f"•  {point}") for point in points)
        case _:
            return ()


def _played(session: Session, scene: Show, now: float) -> tuple[Block, ...]:
    """The turn that is shown, the script's words for it and, for one of several, the coach's."""
    demonstration = session.demonstration
    if demonstration is None:
        return ()
    beat = demonstration.beat(now)
    _, segment = telling.part_of(scene, beat.turn)
    said = telling.coachs_words(session, segment, beat.turn)
    own = said.made if beat.phase is Phase.DONE else said.coming
    title = telling.turn_title(scene, segment, scene.turns[beat.turn].notation)
    # Before the first turn, what leads up to it is as new as what goes with it, and is read first.
    fresh = beat.turn > 0
    blocks = (Text(title, TextStyle.HEADING), Text(segment.text, fresh=fresh))
    return (*blocks, Text(own, fresh=fresh)) if own else blocks


def _ask(session: Session, played: LessonPlay, scene: Ask) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if not played.solved and not way_running(session):
        blocks.append(Text(asked(scene, scene.card_text), TextStyle.QUESTION))
    blocks += _told(session, played, scene)
    if not played.solved:
        blocks += hint_blocks(session, played.attempt)
    else:
        blocks += _afterwards(played, scene)
    if played.solved and scene.extent is Extent.CASE and not scene.teaches_turning:
        blocks += review_blocks(session, played.attempt)
    return tuple(blocks)


def _afterwards(played: LessonPlay, scene: Ask | Alone) -> tuple[Block, ...]:
    """What is said once the turns that were asked for are made, as long as it is true of the cube."""
    if played.outcome is not None and played.outcome.state != played.attempt.history.cube.state:
        return (Text(words.CHANGED_SINCE, tone=Tone.MUTED),)
    if isinstance(scene, Ask) and _past_the_step(played, scene):
        return ()
    said = scene.afterwards
    if isinstance(scene, Alone) and scene.teaches_turning:
        said = said or words.ALL_AS_ASKED
    return (Text(said, tone=Tone.GOOD),) if said else ()


def _past_the_step(played: LessonPlay, scene: Ask) -> bool:
    """Whether the pair was solved where an earlier step was asked for."""
    one_step = scene.extent is Extent.STEP and scene.step is not Step.INSERT
    return one_step and scene.task.done(played.attempt.history.cube.position)


def _told(session: Session, played: LessonPlay, scene: Ask | Alone) -> tuple[Block, ...]:
    """What is said of the last turn: that it is not what is asked for, or its verdict, or both."""
    if way_running(session):
        return ()
    verdicts = turn_read(played, scene) if scene.teaches_turning else _verdicts(session, played, scene)
    if not update.off_what_is_asked(session):
        return verdicts
    # No praise beside that: the turn is good, or could become so, but it is to be undone.
    return (
        Text(other_turns(session, played, scene)),
        *(block for block in verdicts if not _praise(block)),
    )


def _praise(block: Block) -> bool:
    return isinstance(block, VerdictNote) and block.mark in (Mark.OPTIMAL, Mark.ACCEPTABLE, Mark.MAKING)


def _verdicts(session: Session, played: LessonPlay, scene: Ask | Alone) -> tuple[Block, ...]:
    """The verdict on the last turn; of a longer way that the lesson dictates, that is said first."""
    blocks = verdict_blocks(session, played.attempt)
    if not dictated(scene, played.attempt.history.cube):
        return blocks
    return tuple(
        replace(block, text=f"{words.AS_ASKED} {block.text}")
        if isinstance(block, VerdictNote) and block.mark is Mark.ACCEPTABLE
        else block
        for block in blocks
    )


def _alone(session: Session, played: LessonPlay, scene: Alone) -> tuple[Block, ...]:
    if played.solved:
        reviewed = () if scene.teaches_turning else review_blocks(session, played.attempt)
        return (*_afterwards(played, scene), *reviewed)
    question = Text(asked(scene, scene.card_text), TextStyle.QUESTION)
    if played.revealed:
        told = (*_told(session, played, scene), *hint_blocks(session, played.attempt))
        return (question, *told) if scene.teaches_turning else told
    if update.off_what_is_asked(session) and scene.task.done(played.attempt.history.cube.position):
        return (Text(words.OTHER_TURNS),)
    return (
        question,
        Text(words.MAY_UNDO if scene.teaches_turning else words.JUDGED_LATER, TextStyle.SMALL, Tone.MUTED),
        *help_off_blocks(session),
    )


def _choice(session: Session, played: LessonPlay, scene: Quiz | Find) -> tuple[Block, ...]:
    options = questions.options(scene)
    blocks: list[Block] = []
    if isinstance(scene, Find):
        blocks.append(Text(words.CLICK_OR_CHOOSE, TextStyle.SMALL, Tone.MUTED))
    for index, (text, true) in enumerate(options):
        tried = index in played.chosen
        blocks.append(
            Button(
                ChooseAnswer(index),
                text,
                str(index + 1),
                enabled=true if played.solved else not tried,
                selected=played.solved and true,
                detail=words.TRIED if tried and not true else "",
                choice=True,
            )
        )
    if played.solved:
        said = scene.because if isinstance(scene, Quiz) else scene.afterwards
        blocks.append(VerdictNote(Mark.OPTIMAL, words.YES, said))
    elif played.chosen or played.pointed:
        blocks.append(VerdictNote(Mark.DETOUR, words.NO, questions.why_wrong(session, played)))
    return tuple(blocks)


def _done(session: Session, played: LessonPlay) -> tuple[Block, ...]:
    """What the learner did in the lesson, what they skipped, and what comes next."""
    tally, skipped = tasks.tallied(played), tasks.undone(session, played.lesson)
    figures = (
        (words.solved_unaided, len(tally.unaided)),
        (words.new_cases, len(tally.new)),
        (words.helped, tally.hints),
    )
    told = " ".join(sentence(count) for sentence, count in figures if count)
    blocks: list[Block] = [Text(told)] if told else []
    if skipped:
        again = StartLesson(played.lesson.name, skipped[0], played.carried)
        blocks += [Text(words.skipped(len(skipped)), tone=Tone.NEUTRAL), Button(again, words.DO_SKIPPED)]
    else:
        blocks.append(Text(words.ALL_DONE, tone=Tone.GOOD))
    following = update.next_lesson(session, played.lesson.name)
    titles = {lesson.name: lesson.title for lesson in session.lessons}
    if following is not None:
        blocks.append(Text(words.next_lesson(titles[following]), TextStyle.SMALL, Tone.MUTED))
    return (Group(tuple(blocks)),)


def _buttons(session: Session, played: LessonPlay, scene: Scene, now: float) -> tuple[Block, ...]:
    settled = update.settled(session)
    last = played.scene + 1 == len(played.lesson.scenes)
    following = update.next_lesson(session, played.lesson.name)
    on = words.GO_ON if not last else words.FINISH if following is None else words.FINISH_TO_THE_NEXT
    rows: list[Block] = []
    if isinstance(scene, Ask | Alone):
        rows.append(ButtonRow(_turning_buttons(session, played, scene)))
    elif session.demonstration is not None:
        rows.append(Button(Act.SHOW_AGAIN, words.SHOW_AGAIN))
    # While a scene plays turns, the next one is what to press first.
    shown = session.demonstration if isinstance(scene, Show) else None
    onward = Button(Act.NEXT, on, "Enter", primary=shown is None or shown.seen(now))
    forward = onward if settled else Button(PageTurn.SKIP, words.SKIP)
    if last and not played.lesson.fixed:
        rows.append(_carried_over(played))
    write = (Button(Act.WRITE, words.WRITE),) if isinstance(scene, Ask | Alone) else ()
    rows.append(ButtonRow((*write, Button(PageTurn.BACK, words.BACK, enabled=played.scene > 0), forward)))
    return tuple(rows)


def _carried_over(played: LessonPlay) -> ButtonRow:
    """The same lesson in the next slot, and in the mirror."""
    name, carried = played.lesson.name, played.carried
    turned = replace(carried, quarters=(carried.quarters + 1) % 4)
    mirrored = replace(carried, mirrored=not carried.mirrored)
    return ButtonRow(
        (
            Button(StartLesson(name, 0, turned), words.IN_THE_NEXT_SLOT),
            Button(StartLesson(name, 0, mirrored), words.MIRRORED),
        )
    )


def _turning_buttons(session: Session, played: LessonPlay, scene: Ask | Alone) -> tuple[Button, ...]:
    attempt = played.attempt
    hints = verdicts_shown(played, scene) and not played.solved
    buttons = [undo_button(session, enabled=attempt.history.cursor > 0)]
    if hints and not scene.teaches_turning:
        buttons.insert(0, Button(Act.HINT, hint_label(attempt), enabled=attempt.rung < 3))
    elif not hints and not played.solved:
        buttons.insert(0, Button(Act.REVEAL, words.HELP_ME))
    if hints or played.solved:
        buttons.append(Button(Act.SHOW_AGAIN, words.SHOW_AGAIN if played.shown else words.SHOW_THE_WAY))
    return tuple(buttons)
