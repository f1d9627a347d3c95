"""A draft of a lesson for one case, made from the case's own route: ready to run, to be written over."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tutor.cube.notation import format_moves
from tutor.cube.position import Slot
from tutor.lesson.questions import Answerer
from tutor.lesson.script import LONGEST_TITLE
from tutor.method.answer import Answer
from tutor.method.cases import ALIGNMENTS, Case
from tutor.method.steps import Step
from tutor.solver.task import Task

TOPS = ("", "U", "U2", "U'")
"""How ``top`` is written for each alignment of the top layer."""
_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_LONGEST_NAME = 40

# Placeholders make each text true in every slot; the writer puts words of their own around them.
_STEP_TEXTS = {
    Step.RAISE: "Raise: you lift the two pieces to the top and put everything else back in place.",
    Step.PART: "Part: you set the two apart, so that they will meet the right way round.",
    Step.JOIN: "Join: the two meet, colour to colour.",
    Step.INSERT: "Insert: the pair slides into its slot, and you lower the slot.",
}
# A slot, and the one where its mirror image is.
_MIRROR_SLOT = {Slot.FR: Slot.FL, Slot.FL: Slot.FR, Slot.BL: Slot.BR, Slot.BR: Slot.BL}


def parse_name(text: str) -> str:
    """A lesson's name, which is also the stem of its file: small letters, digits and single hyphens.

    Raises ValueError with what would be right.
    """
    if len(text) > _LONGEST_NAME or not _NAME.fullmatch(text):
        raise ValueError(
            f"“{text[:_LONGEST_NAME]}” is no name for a lesson; write at most {_LONGEST_NAME} small letters, "
            "digits and hyphens, for example corner-up-high"
        )
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
            *_scene(
                "tell", start, "The corner is {corner.place}, and the edge is {edge.place}. What do you see?"
            ),
            'highlight = ["pair"]',
            "",
            "# Ask before you tell: the program knows the true answer.",
            *_scene("choose", [], "Which step comes first?"),
            'about = "step"',
            'because = "The step is {step}."',
            "",
            *_shown(answer),
            "# The same position, now for the learner. extent may be turn, step or case.",
            *_scene("ask", ['from = "start"'], "Now solve the pair. {turns.left} are enough."),
            'extent = "case"',
            "",
            "# The mirror image, in the slot beside it.",
            *_scene("ask", mirrored, "Now solve its mirror image in the {slot}."),
            "",
            "# Without help, in two more slots.",
            *_scene(
                "alone",
                _start(case, _MIRROR_SLOT[_opposite(slot)], top),
                "Now without help: solve the pair of the {slot}.",
            ),
            "",
            *_scene(
                "alone",
                _start(case.mirror, _opposite(slot), other_top),
                "Once more without help: solve the pair of the {slot}.",
            ),
            "",
            *_scene("recap", [], "Here is what to remember."),
            'points = ["Write one sentence here.", "Write another one here."]',
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
        f"# A draft for the case “{case.name}” in the slot {slot.name}.",
        f"# Route   {route}",
        f"# Line    {format_moves(answer.lines[0])}",
        "# Write over the texts, then check it: python -m tutor lesson check FILE",
        "# The program fills in words in braces, so that the lesson is true in every slot and mirrored.",
        "",
        f'title = "{title}"',
        'goal = "You can say in one sentence what the learner can do afterwards."',
        'ideas = ["name the one idea of the lesson"]',
        "",
    )


def _start(case: Case, slot: Slot, top: str) -> list[str]:
    lines = [f'case = "{case.slug}"', f'slot = "{slot.name}"']
    return [*lines, f'top = "{top}"'] if top else lines


def _scene(kind: str, start: Sequence[str], text: str) -> Sequence[str]:
    return ("[[scene]]", f'kind = "{kind}"', *start, f'text = "{text}"')


def _shown(answer: Answer) -> Sequence[str]:
    steps = [step for step, _ in answer.routes[0].segments]
    texts = [f'{step.value} = "{_STEP_TEXTS[step]}"' for step in steps]
    return (
        "# The route is worked out when the lesson is played; each step has a text of its own.",
        *_scene("show", [], "Watch how the pair goes into its slot."),
        'turns = "route"',
        "[scene.steps]",
        *texts,
        "",
    )
