"""``film``: a case, a turn sequence or a lesson as a moving picture; or all cases at once."""

from __future__ import annotations

import argparse
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path
from typing import Any

from tutor.app.cli.handouts import (
    add_look,
    add_subject,
    add_target,
    answers,
    lesson_named,
    passage_of,
    shot_of,
    subject_from,
)
from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import film as words
from tutor.app.drawing import draw_stage, inks_of
from tutor.cube.notation import NotationError, parse_moves
from tutor.publish.cinema import ENCODERS, check_film, write_film
from tutor.publish.files import check_target, write_bytes
from tutor.publish.film import RATE, FilmPace, Passage, film_of
from tutor.publish.passages import lesson_passages
from tutor.publish.subtitles import subtitles

RATES = (5, 60)
SPEEDS = (0.1, 3.0)
SIZE, SIZE_OF_MANY = "1280x720", "640x480"
"""The usual size of a film, and of one of all cases."""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "film",
        help=words.HELP,
        description=words.DESCRIPTION,
        epilog=words.epilog(tuple(ENCODERS)),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    add_subject(parser)
    parser.add_argument("--show", default="route", metavar="WHAT", help=words.SHOW_HELP)
    parser.add_argument("--lesson", metavar="LESSON", help=words.LESSON_HELP)
    parser.add_argument("--all", action="store_true", help=words.ALL_HELP)
    parser.add_argument("--slots", default="FR", metavar="SLOTS", help=words.SLOTS_HELP)
    kinds, paces = [name[1:] for name in ENCODERS], [pace.value for pace in FilmPace]
    parser.add_argument("--format", default="gif", choices=kinds, help=words.FORMAT_HELP)
    parser.add_argument("--pace", default="both", choices=paces, help=words.PACE_HELP)
    parser.add_argument("--speed", type=float, default=1.0, help=words.SPEED_HELP)
    parser.add_argument("--rate", type=int, default=RATE, help=words.rate_help(RATE))
    add_look(parser, None, words.usual_size(SIZE, SIZE_OF_MANY))
    add_target(parser, words.OUT_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Make the film or films and return the exit status. Raises RequestError."""
    _check(chosen)
    try:
        if chosen.all:
            # Imported here, so that a single film does not wait for what starts processes.
            from tutor.app.cli.film_collection import make_all

            return make_all(chosen)
        return _make_one(chosen)
    except RequestError:
        raise
    except ValueError as fault:
        raise RequestError(str(fault)) from fault


def _check(chosen: argparse.Namespace) -> None:
    if not RATES[0] <= chosen.rate <= RATES[1]:
        raise RequestError(words.no_rate(chosen.rate, *RATES))
    if not SPEEDS[0] <= chosen.speed <= SPEEDS[1]:
        raise RequestError(words.no_speed(chosen.speed, *SPEEDS))
    if chosen.show not in ("route", "line"):
        try:
            parse_moves(chosen.show)
        except NotationError as fault:
            raise RequestError(words.bad_turns(str(fault))) from fault
    named = [name for name in ("case", "setup", "lesson") if getattr(chosen, name) is not None]
    if len(named) + chosen.all != 1:
        raise RequestError(words.WRITE_ONE_SUBJECT)
    if chosen.size is None:
        chosen.size = SIZE_OF_MANY if chosen.all else SIZE


def _make_one(chosen: argparse.Namespace) -> int:
    target: Path = chosen.out
    subject = None if chosen.lesson is not None else subject_from(chosen)
    task = None if subject is None else subject.task
    shot = shot_of(chosen, None if task is None else task.slot)
    check_film(target.suffix, shot.size)
    check_target(target, force=chosen.force)
    if chosen.lesson is not None:
        check_target(target.with_suffix(".srt"), force=chosen.force)
    with ExitStack() as stack:
        if subject is None:
            passages = _lesson_passages(chosen, stack)
        else:
            wanted = task is not None and chosen.show in ("route", "line")
            answer = answers(stack)(subject.cube.position, task) if wanted and task is not None else None
            passages = (passage_of(subject, chosen.show, answer),)
    film = film_of(passages, shot, FilmPace(chosen.pace), chosen.speed, chosen.rate)
    write_film(target, film, draw_stage, inks_of(chosen.theme), force=chosen.force)
    print(words.written(str(target), film.seconds))
    if chosen.lesson is not None:
        write_bytes(target.with_suffix(".srt"), subtitles(film).encode(), force=chosen.force)
        print(words.subtitles_written(str(target.with_suffix(".srt"))))
    return 0


def _lesson_passages(chosen: argparse.Namespace, stack: ExitStack) -> tuple[Passage, ...]:
    passages = lesson_passages(lesson_named(chosen, answers(stack)))
    if chosen.camera is None:
        return passages
    return tuple(replace(passage, camera=None) for passage in passages)
