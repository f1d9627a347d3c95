"""``picture``: one cube as a PNG file."""

from __future__ import annotations

import argparse
from contextlib import ExitStack
from typing import Any

from tutor.app.cli.handouts import (
    add_look,
    add_subject,
    add_target,
    answers,
    case_named,
    shot_of,
    subject_from,
)
from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import picture as words
from tutor.app.drawing import draw_stage
from tutor.app.terminal import tell
from tutor.cube.faces import Turn
from tutor.publish.files import PublishError, check_target, write_bytes
from tutor.publish.stills import png_bytes, still
from tutor.publish.subject import Subject

END, SIZE = ".png", "1280x960"


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "picture",
        help=about,
        description=words.DESCRIPTION,
        epilog=words.EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    add_subject(parser)
    add_look(parser, SIZE, SIZE)
    parser.add_argument("--arrow", action="store_true", help=words.ARROW_HELP)
    parser.add_argument("--transparent", action="store_true", help=words.TRANSPARENT_HELP)
    add_target(parser, words.OUT_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Draw the picture and return the exit status. Raises RequestError."""
    if chosen.out.suffix.lower() != END:
        raise RequestError(words.no_png(chosen.out.name, chosen.out.with_suffix(END).name))
    subject = subject_from(chosen)
    shot = shot_of(chosen, subject.task.slot if subject.task is not None else None)
    try:
        check_target(chosen.out, force=chosen.force)
        arrow = _next_turn(subject) if chosen.arrow else None
        pixels = still(draw_stage, subject, shot, arrow, transparent=chosen.transparent)
        write_bytes(chosen.out, png_bytes(pixels), force=chosen.force)
    except PublishError as fault:
        raise RequestError(str(fault)) from fault
    tell(words.written(str(chosen.out), _shown(chosen, subject)))
    return 0


def _shown(chosen: argparse.Namespace, subject: Subject) -> str:
    """What the picture shows, in lines: for a case, its number, short name, slot and full name.

    The full name tells of the top as it is before it is turned.
    """
    if chosen.case is None or subject.task is None or chosen.top:
        return subject.title
    return "\n".join((subject.title, *case_named(chosen.case).name_lines(subject.task.slot)))


def _next_turn(subject: Subject) -> Turn:
    """The first turn of the route, or of a shortest line where no route leads on."""
    if subject.task is None:
        raise RequestError(words.ARROW_NEEDS_PAIR)
    with ExitStack() as stack:
        found = answers(stack)(subject.cube.position, subject.task)
    if found.distance == 0:
        raise RequestError(words.NO_NEXT_TURN)
    return found.way.turns[0]
