"""A draft of a lesson for one case, made from the case's own route: ready to run, to be written over."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tutor.cube.notation import format_moves
from tutor.cube.position import Slot
from tutor.lesson.questions import Answerer
from tutor.lesson.script import LONGEST_TITLE
from tutor.lesson.words import drafts as words
from tutor.method.answer import Answer
from tutor.method.cases import ALIGNMENTS, Case
from tutor.solver.task import Task

TOPS = ("", "U", "U2", "U'")
"""How ``top`` is written for each alignment of the top layer."""
_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_LONGEST_NAME = 40
DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(port + n for port in ("com", "lpt") for n in "123456789¹²³"))
)
"""On Windows these are devices in every folder, with any end (learn.microsoft.com, "Naming Files")."""

# A slot, and the one where its mirror image is.
_MIRROR_SLOT = {Slot.FR: Slot.FL, Slot.FL: Slot.FR, Slot.BL: Slot.BR, Slot.BR: Slot.BL}


def parse_name(text: str) -> str:
    """A lesson's name, which is also the stem of its file: small letters, digits and single hyphens.

    Raises ValueError with what would be right.
    """
    if len(text) > _LONGEST_NAME or not _NAME.fullmatch(text):
        raise ValueError(words.bad_name(text[:_LONGEST_NAME], _LONGEST_NAME))
    if text in DEVICES:
        raise ValueError(words.device_name(text))
    return text


def draft(name: str, case: Case, slot: Slot, answers: Answerer) -> str:
    """The text of a script for ``case`` in ``slot`` and its mirror image, with comments on what to change."""
    top, answer = _easiest(case, slot, answers)
    other = _MIRROR_SLOT[slot]
    other_top, _ = _easiest(case.mirror, other, answers)
    title = name.replace("-", " ").capitalize()[:LONGEST_TITLE]
    start = _start(case, slot, top)
    mirrored = _start(case.mirror, other, other_top)
    return "\n".join(
        (
            *_head(title, case, slot, answer),
            *_scene("tell", start, words.LOOK),
            'highlight = ["pair"]',
            "",
            words.ASK_FIRST,
            *_scene("choose", [], words.WHICH_STEP),
            'about = "step"',
            f'because = "{words.BECAUSE}"',
            "",
            *_shown(answer),
            words.THEIR_TURN,
            *_scene("ask", ['from = "start"'], words.SOLVE),
            'extent = "case"',
            "",
            words.MIRROR,
            *_scene("ask", mirrored, words.SOLVE_MIRROR),
            "",
            words.ALONE,
            *_scene(
                "alone",
                _start(case, _MIRROR_SLOT[_opposite(slot)], top),
                words.SOLVE_ALONE,
            ),
            "",
            *_scene(
                "alone",
                _start(case.mirror, _opposite(slot), other_top),
                words.SOLVE_ALONE_AGAIN,
            ),
            "",
            *_scene("recap", [], words.REMEMBER),
            'points = ["{}", "{}"]'.format(*words.POINTS),
            "",
        )
    )


def _opposite(slot: Slot) -> Slot:
    return Slot((slot + 2) % 4)


def _easiest(case: Case, slot: Slot, answers: Answerer) -> tuple[str, Answer]:
    """The alignment of the top layer with the shortest route."""
    best: tuple[int, str, Answer] | None = None
    for alignment in ALIGNMENTS:
        position = case.position(slot, alignment)
        answer = answers(position, Task.at(position, slot))
        length = len(answer.routes[0].turns)
        if best is None or length < best[0]:
            best = (length, TOPS[alignment], answer)
    assert best is not None
    return best[1], best[2]


def _head(title: str, case: Case, slot: Slot, answer: Answer) -> Sequence[str]:
    route = " | ".join(
        f"{step.value.capitalize()}: {format_moves(turns)}" for step, turns in answer.routes[0].segments
    )
    return (
        words.about_case(case.name, slot.name),
        words.route_line(route),
        words.shortest_line(format_moves(answer.lines[0])),
        *words.HOW_TO_GO_ON,
        "",
        f'title = "{title}"',
        f'goal = "{words.GOAL}"',
        f'ideas = ["{words.IDEA}"]',
        "",
    )


def _start(case: Case, slot: Slot, top: str) -> list[str]:
    lines = [f'case = "{case.slug}"', f'slot = "{slot.name}"']
    return [*lines, f'top = "{top}"'] if top else lines


def _scene(kind: str, start: Sequence[str], text: str) -> Sequence[str]:
    return ("[[scene]]", f'kind = "{kind}"', *start, f'text = "{text}"')


def _shown(answer: Answer) -> Sequence[str]:
    steps = [step for step, _ in answer.routes[0].segments]
    texts = [f'{step.value} = "{words.STEPS[step]}"' for step in steps]
    return (
        words.ROUTE,
        *_scene("show", [], words.WATCH),
        'turns = "route"',
        "[scene.steps]",
        *texts,
        "",
    )
