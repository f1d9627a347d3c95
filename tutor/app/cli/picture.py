"""``picture``: one cube as a PNG file."""

from __future__ import annotations

import argparse
from contextlib import ExitStack
from typing import Any

from tutor.app.cli.handouts import add_look, add_subject, add_target, answers, shot_of, subject_from
from tutor.app.cli.task_request import RequestError
from tutor.app.drawing import draw_stage
from tutor.cube.faces import Turn
from tutor.publish.files import PublishError, check_target, write_bytes
from tutor.publish.stills import png_bytes, still
from tutor.publish.subject import Subject

_EPILOG = """\
examples:
  python -m tutor picture corner-up-edge-left-front-up --out case.png
  python -m tutor picture --setup "R U R' U'" --slot FR --arrow --transparent --out next-turn.png"""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "picture",
        help="draw a case as a picture",
        description="Draws a case, or the cube after a setup, as a PNG file. No display is needed.",
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    add_subject(parser)
    add_look(parser, "1280x960")
    parser.add_argument("--arrow", action="store_true", help="an arrow for the next turn of the route")
    parser.add_argument("--transparent", action="store_true", help="nothing behind the cube")
    add_target(parser, "a name that ends in .png")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Draw the picture and return the exit status. Raises RequestError."""
    if chosen.out.suffix.lower() != ".png":
        raise RequestError(f"“{chosen.out.name}” is no name for a picture; it ends in .png")
    subject = subject_from(chosen)
    shot = shot_of(chosen, subject.task.slot if subject.task is not None else None)
    try:
        check_target(chosen.out, force=chosen.force)
        arrow = _next_turn(subject) if chosen.arrow else None
        pixels = still(draw_stage, subject, shot, arrow, transparent=chosen.transparent)
        write_bytes(chosen.out, png_bytes(pixels), force=chosen.force)
    except PublishError as fault:
        raise RequestError(str(fault)) from fault
    print(f"{chosen.out} is written")
    return 0


def _next_turn(subject: Subject) -> Turn:
    """The first turn of the route, or of a shortest line where no route leads on."""
    if subject.task is None:
        raise RequestError("an arrow needs a pair to solve; name its slot with --slot")
    with ExitStack() as stack:
        found = answers(stack)(subject.cube.position, subject.task)
    if found.distance == 0:
        raise RequestError("the pair is solved already, so there is no next turn; leave out --arrow")
    return found.way.turns[0]
