"""The Lesson screen: the scene's text, its question, the verdicts and hints, and the way on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tutor.cube.geometry import STICKERS, cubie_number
from tutor.lesson.scenes import Alone, Ask, Choose, Extent, Find, Recap, Scene, Show
from tutor.method.steps import Step
from tutor.session import lesson_play
from tutor.session.actions import action_name
from tutor.session.commands import Act, ChooseAnswer, StartLesson
from tutor.session.state import LessonPlay, Session, answer_at
from tutor.session.views.parts import (
    button,
    hint_blocks,
    hint_label,
    review_blocks,
    screen_view,
    verdict_blocks,
    writing_blocks,
)
from tutor.session.views.rail import attempt_rail, review_rail
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Gap,
    Group,
    Mark,
    Progress,
    Rail,
    Screen,
    Stage,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
    View,
)

HERE = Screen.LESSON
_ASKS = {
    Extent.TURN: "Which turn comes next?",
    Extent.STEP: "Your turn: finish this step.",
    Extent.CASE: "Bring the pair into its slot.",
}

_OTHER_TURNS = "These are not the turns that the lesson asks for here. Undo them and try again."


def lesson(session: Session, stage: Stage, rail: Rail | None, now: float) -> View:
    """The Lesson screen with the stage and rail of the moment."""
    played, scene = session.lesson, lesson_play.scene_of(session)
    if played is None or scene is None:
        raise ValueError("no lesson is open")
    return screen_view(
        session,
        played.lesson.title,
        stage=stage,
        card=_card(session, played, scene, now),
        rail=rail,
    )


def lesson_rail(session: Session) -> Rail | None:
    """The rail of the scene while nothing is being shown."""
    played, scene = session.lesson, lesson_play.scene_of(session)
    if played is None or scene is None or scene.task is None or not scene.rail:
        return None
    if lesson_play.only_tells(session):
        # No pair is on its way, so that there are no steps to show.
        return None
    judged = verdicts_shown(played, scene)
    if played.solved and isinstance(scene, Ask | Alone) and _in_its_slot(played):
        reviewed = review_rail(session, played.attempt)
        if reviewed is not None:
            return reviewed
    # While something is asked that looking should answer, the rail must not give it away.
    asks = isinstance(scene, Choose | Find) and not played.solved
    answer = None if asks or not judged else answer_at(session, played.attempt)
    rail = attempt_rail(session, played.attempt, answer, judged=judged)
    return None if rail is None else replace(rail, caption=scene.caption)


def _in_its_slot(played: LessonPlay) -> bool:
    bearing = played.attempt.bearing()
    return bearing is not None and bearing.task.done(bearing.position)


def verdicts_shown(played: LessonPlay, scene: Scene) -> bool:
    """Whether turns are judged aloud: not in an Alone scene until it is done or given up."""
    return not isinstance(scene, Alone) or played.solved or played.revealed


def _card(session: Session, played: LessonPlay, scene: Scene, now: float) -> tuple[Block, ...]:
    count = len(played.lesson.scenes)
    blocks: list[Block] = [
        Progress(f"{played.scene + 1} of {count}", (played.scene + 1) / count),
        Text(scene.text, TextStyle.QUESTION if isinstance(scene, Choose | Find) else TextStyle.BODY),
    ]
    if played.problems:
        blocks.append(Group(_problem_blocks(played.problems)))
    blocks += _body(session, played, scene, now)
    blocks += writing_blocks(session)
    blocks.append(Gap(1))
    blocks += _buttons(session, played, scene)
    return tuple(blocks)


def _problem_blocks(problems: tuple[str, ...]) -> tuple[Block, ...]:
    """What is wrong with the changed script; shown until it is mended."""
    shown = tuple(Text(problem, TextStyle.SMALL) for problem in problems[:5])
    rest = len(problems) - len(shown)
    more = (Text(f"and {rest} more", TextStyle.SMALL, Tone.MUTED),) if rest else ()
    return (Text("The changed script cannot be played yet:", tone=Tone.WARNING), *shown, *more)


def _body(session: Session, played: LessonPlay, scene: Scene, now: float) -> tuple[Block, ...]:
    match scene:
        case Show():
            return _segment(session, scene, now)
        case Ask():
            return _ask(session, played, scene)
        case Alone():
            return _alone(session, played, scene)
        case Choose() | Find():
            return _choice(session, played, scene)
        case Recap(points=points):
            return tuple(Text(f"•  {point}") for point in points)
        case _:
            return ()


def _segment(session: Session, scene: Show, now: float) -> tuple[Block, ...]:
    demonstration = session.demonstration
    if demonstration is None:
        return ()
    number = lesson_play.segment_at(scene, demonstration.told(now))
    segment = scene.segments[number]
    turns = " ".join(turn.notation for turn in segment.turns)
    # With the pair home no step is under way, so none is named.
    title = turns if segment.step in (None, Step.DONE) else f"{segment.step.value.capitalize()}: {turns}"
    if segment.slip and scene.task is not None and not scene.task.done(scene.cube.position):
        title = f"A slip, on purpose: {turns}"
    return (Text(title, TextStyle.HEADING), Text(segment.text))


def _ask(session: Session, played: LessonPlay, scene: Ask) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if not played.solved:
        blocks.append(Text(_ASKS[scene.extent], TextStyle.QUESTION))
    blocks += verdict_blocks(session, played.attempt)
    if lesson_play.off_what_is_asked(session):
        blocks.append(Text(_OTHER_TURNS))
    if not played.solved:
        blocks += hint_blocks(session, played.attempt)
    elif scene.afterwards:
        blocks.append(Text(scene.afterwards, tone=Tone.GOOD))
    if played.solved and scene.extent is Extent.CASE:
        blocks += review_blocks(session, played.attempt)
    return tuple(blocks)


def _alone(session: Session, played: LessonPlay, scene: Alone) -> tuple[Block, ...]:
    if played.solved:
        said = (Text(scene.afterwards, tone=Tone.GOOD),) if scene.afterwards else ()
        return (*said, *review_blocks(session, played.attempt))
    if played.revealed:
        return (*verdict_blocks(session, played.attempt), *hint_blocks(session, played.attempt))
    if lesson_play.off_what_is_asked(session) and scene.task.done(played.attempt.history.cube.position):
        return (Text(_OTHER_TURNS),)
    return (
        Text("On your own: bring the pair into its slot.", TextStyle.QUESTION),
        Text(
            "Your turns are judged at the end. You may undo turns.",
            TextStyle.SMALL,
            Tone.MUTED,
        ),
    )


def _choice(session: Session, played: LessonPlay, scene: Choose | Find) -> tuple[Block, ...]:
    options = lesson_play.options(scene)
    blocks: list[Block] = []
    if isinstance(scene, Find):
        blocks.append(Text("Click it on the cube, or choose:", TextStyle.SMALL, Tone.MUTED))
    for index, (text, true) in enumerate(options):
        tried = index in played.chosen
        blocks.append(
            Button(
                action_name(ChooseAnswer(index)),
                text,
                str(index + 1),
                enabled=not played.solved and not tried,
                selected=played.solved and true,
                detail="not this one" if tried and not true else "",
            )
        )
    if played.solved:
        words = scene.because if isinstance(scene, Choose) else scene.afterwards
        blocks.append(VerdictNote(Mark.OPTIMAL, "Yes", words))
    elif played.chosen or played.pointed:
        wrong = _pointed_at(session, scene, played) or "Look again; nothing is lost."
        blocks.append(VerdictNote(Mark.DETOUR, "Not that one", wrong))
    return tuple(blocks)


def _pointed_at(session: Session, scene: Scene, played: LessonPlay) -> str:
    """What the piece is that was pointed at last; empty when none was."""
    if not played.pointed:
        return ""
    cubie = cubie_number(STICKERS[played.pointed[-1]][0])
    on_it = [place for place, (own, _) in enumerate(STICKERS) if cubie_number(own) == cubie]
    colours = [scene.cube.colours[place] for place in on_it]
    names = sorted((session.settings.colour_names[colour] for colour in colours), key=_cross_first(session))
    kind = ("centre", "edge", "corner")[len(colours) - 1]
    return f"That is the {'-'.join(names)} {kind}. Look again; nothing is lost."


def _cross_first(session: Session) -> Callable[[str], bool]:
    """As pieces are named everywhere: the cross colour before the others."""
    cross = session.settings.colour_names[session.settings.cross]
    return lambda name: name != cross


def _buttons(session: Session, played: LessonPlay, scene: Scene) -> tuple[Block, ...]:
    settled = lesson_play.settled(session)
    last = played.scene + 1 == len(played.lesson.scenes)
    following = lesson_play.next_lesson(session, played.lesson.name)
    on = "Go on" if not last else "Finish" if following is None else "Finish, next lesson"
    rows: list[Block] = []
    if isinstance(scene, Ask | Alone):
        rows.append(ButtonRow(_turning_buttons(played, scene)))
    elif session.demonstration is not None:
        rows.append(button(Act.SHOW_AGAIN, "Show again", HERE))
    forward = (
        Button(action_name(Act.NEXT), on, "Enter", primary=True)
        if settled
        else button(Act.SKIP, "Skip", HERE)
    )
    if last and not played.lesson.fixed:
        rows.append(_carried_over(played))
    rows.append(ButtonRow((button(Act.BACK, "Back", HERE, enabled=played.scene > 0), forward)))
    return tuple(rows)


def _carried_over(played: LessonPlay) -> ButtonRow:
    """The same lesson in the next slot, and in the mirror."""
    name, carried = played.lesson.name, played.carried
    turned = replace(carried, quarters=(carried.quarters + 1) % 4)
    mirrored = replace(carried, mirrored=not carried.mirrored)
    return ButtonRow(
        (
            Button(action_name(StartLesson(name, 0, turned)), "Again, in the next slot"),
            Button(action_name(StartLesson(name, 0, mirrored)), "Again, mirrored"),
        )
    )


def _turning_buttons(played: LessonPlay, scene: Ask | Alone) -> tuple[Button, ...]:
    attempt = played.attempt
    hints = verdicts_shown(played, scene) and not played.solved
    buttons = [
        button(Act.UNDO, "Take back", HERE, enabled=attempt.history.cursor > 0),
        button(Act.WRITE, "Write moves", HERE),
    ]
    if hints:
        buttons.insert(0, button(Act.HINT, hint_label(attempt), HERE, enabled=attempt.rung < 3))
    elif not played.solved:
        buttons.insert(0, button(Act.REVEAL, "Help me", HERE))
    if hints or played.solved:
        buttons.append(button(Act.SHOW_AGAIN, "Show again", HERE))
    return tuple(buttons)
