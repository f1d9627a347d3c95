"""The turns of a show scene: written ones, or the pair's route or line, each with its text and step."""

from __future__ import annotations

from tutor.cube.faces import Turn
from tutor.cube.notation import NotationError, parse_turns
from tutor.lesson.problems import Path
from tutor.lesson.reading import Report
from tutor.lesson.resolve import Segment
from tutor.lesson.script import MOST_SHOWN, ShowScript, StepTexts
from tutor.lesson.start import Start, add_notation_problem
from tutor.lesson.variation import Variation
from tutor.method.answer import Answer
from tutor.method.routes import route_lengths
from tutor.method.steps import Step

ROUTE, LINE = "route", "line"
"""What stands for computed turns."""


def segments_of(
    scene: ShowScript, path: Path, start: Start, variation: Variation, answer: Answer | None, report: Report
) -> tuple[Segment, ...] | None:
    """The segments with their texts as written, or None when something is wrong (and noted).

    ``answer`` is the solver's for the start in the script as written, since texts are written for its route;
    None without a task.
    """
    noted = len(report.problems)
    if bool(scene.parts) == (scene.turns is not None):
        advice = "write one of turns and parts"
        report.add((*path, "turns"), "a show scene needs its turns once", advice)
        return None
    if scene.parts:
        segments = _parts(scene, path, start, variation, report)
    elif scene.turns in (ROUTE, LINE):
        segments = _computed(scene, path, start, variation, answer, report)
    else:
        turns = _written(scene.turns or "", (*path, "turns"), variation, report)
        segments = _stepped([(turns, "", scene.slip)], start)
    if scene.steps is not None and scene.turns not in (ROUTE, LINE):
        report.add(
            (*path, "steps"), "texts for steps go with computed turns", 'write turns = "route" or use parts'
        )
    if len(report.problems) > noted:
        return None
    if sum(len(segment.turns) for segment in segments) > MOST_SHOWN:
        report.add(
            (*path, "turns"), "more turns than one can follow", f"show at most {MOST_SHOWN} in a scene"
        )
        return None
    return segments


def _written(text: str, path: Path, variation: Variation, report: Report) -> tuple[Turn, ...]:
    try:
        turns = parse_turns(text)
    except NotationError as error:
        add_notation_problem(report, path, error)
        return ()
    if not turns:
        report.add(path, "no turns stand here", "write moves, route or line")
    if len(turns) > MOST_SHOWN:
        report.add(path, "more turns than one can follow", f"show at most {MOST_SHOWN} in a scene")
        return ()
    return variation.symmetry.turns(turns)


def _parts(
    scene: ShowScript, path: Path, start: Start, variation: Variation, report: Report
) -> tuple[Segment, ...]:
    drafts = []
    for number, part in enumerate(scene.parts):
        turns = _written(part.turns, (*path, "parts", number, "turns"), variation, report)
        drafts.append((turns, part.text or "", part.slip))
    return _stepped(drafts, start)


def _stepped(drafts: list[tuple[tuple[Turn, ...], str, bool]], start: Start) -> tuple[Segment, ...]:
    """Segments, each with the step that is under way where it begins."""
    segments = []
    position = start.cube.position
    for turns, text, slip in drafts:
        step = None if start.task is None else route_lengths(position, start.task).step
        segments.append(Segment(turns, text, step, slip))
        position = position.after(turns)
    return tuple(segments)


def _computed(
    scene: ShowScript, path: Path, start: Start, variation: Variation, answer: Answer | None, report: Report
) -> tuple[Segment, ...]:
    if answer is None or start.task is None:
        report.add(
            (*path, "turns"), f"there is no {scene.turns} without a pair", "name its slot with the key slot"
        )
        return ()
    if answer.distance == 0:
        report.add(
            (*path, "turns"), "the pair is home already, nothing is left to show", "start somewhere else"
        )
        return ()
    if scene.turns == ROUTE and answer.routes:
        pieces = [(step, variation.symmetry.turns(turns)) for step, turns in answer.routes[0].segments]
        return _with_texts(pieces, scene.steps)
    if scene.turns == ROUTE:
        report.add((*path, "turns"), "no route leads on from here", 'show the line: turns = "line"')
        return ()
    return _with_texts(_line_by_steps(variation.symmetry.turns(answer.lines[0]), start), scene.steps)


def _line_by_steps(line: tuple[Turn, ...], start: Start) -> list[tuple[Step, tuple[Turn, ...]]]:
    """A line cut where another step comes to be under way."""
    pieces: list[tuple[Step, tuple[Turn, ...]]] = []
    position = start.cube.position
    assert start.task is not None
    for turn in line:
        step = route_lengths(position, start.task).step
        if pieces and pieces[-1][0] is step:
            pieces[-1] = (step, (*pieces[-1][1], turn))
        else:
            pieces.append((step, (turn,)))
        position = position.turned(turn)
    return pieces


def _with_texts(pieces: list[tuple[Step, tuple[Turn, ...]]], texts: StepTexts | None) -> tuple[Segment, ...]:
    said = texts or StepTexts()
    by_step = {
        Step.RAISE: said.raising,
        Step.PART: said.part,
        Step.JOIN: said.join,
        Step.INSERT: said.insert,
    }
    return tuple(Segment(turns, by_step.get(step) or "", step) for step, turns in pieces)
