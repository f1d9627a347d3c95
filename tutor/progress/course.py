"""The order in which new cases are met: that of the curriculum."""

from __future__ import annotations

from functools import cache

from tutor.lesson.library import curriculum_names, find_script
from tutor.lesson.script import AloneScript, AskScript, ShowScript
from tutor.method.cases import CASES, Case, parse_case


@cache
def course() -> tuple[Case, ...]:
    """The 41 cases in the order in which the lessons first turn them; cases no lesson turns come last.

    A case that is only looked at, to find its pieces, is not met yet.
    """
    scenes = (scene for name in curriculum_names() for scene in find_script(name).script.scene)
    turned = (scene.case for scene in scenes if isinstance(scene, ShowScript | AskScript | AloneScript))
    met = dict.fromkeys(parse_case(name) for name in turned if name is not None)
    return tuple(dict.fromkeys((*met, *CASES)))
