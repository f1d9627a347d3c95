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
from tutor.app.drawing import draw_stage, inks_of
from tutor.cube.notation import NotationError, parse_moves
from tutor.publish.cinema import ENCODERS, check_film, write_film
from tutor.publish.files import check_target, write_bytes
from tutor.publish.film import RATE, FilmPace, Passage, film_of
from tutor.publish.passages import lesson_passages
from tutor.publish.subtitles import subtitles

RATES = (5, 60)
SPEEDS = (0.1, 3.0)
_EPILOG = f"""\
examples:
  python -m tutor film corner-up-edge-left-front-up --out case.gif
  python -m tutor film --setup "R U R' U'" --slot FR --show line --out line.mp4
  python -m tutor film corner-up-edge-left-front-up --show "U R U' R'" --out mine.webp
  python -m tutor film --lesson made-pair --out made-pair.mp4
  python -m tutor film --all --slots FR,FL --out clips

The end of the name says the format: {", ".join(ENCODERS)} (.png is an animated PNG; .mp4 needs the extra
“film”). With --lesson the texts are captions, and are written to an .srt file beside the film too. With --all
the 41 cases go to a folder with a page to see them; a run that was ended goes on where it was."""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "film",
        help="make a moving picture of a case or lesson",
        description="Shows the turns slowly, step by step, and then at real speed. No display is needed.",
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    add_subject(parser)
    parser.add_argument(
        "--show", default="route", metavar="WHAT", help="route (usual), line, or the turns themselves"
    )
    parser.add_argument("--lesson", metavar="LESSON", help="all that a lesson shows: its name or file")
    parser.add_argument("--all", action="store_true", help="all 41 cases; --out is a folder then")
    parser.add_argument(
        "--slots", default="FR", metavar="SLOTS", help="with --all: slots, set apart by commas"
    )
    parser.add_argument("--format", default="gif", choices=[name[1:] for name in ENCODERS], help="with --all")
    parser.add_argument(
        "--pace", default="both", choices=[pace.value for pace in FilmPace], help="usually both"
    )
    parser.add_argument("--speed", type=float, default=1.0, help="of the turns, 0.1 to 3; 1 is usual")
    parser.add_argument("--rate", type=int, default=RATE, help=f"pictures a second, usually {RATE}")
    add_look(parser, None)
    add_target(parser, "where the film goes")
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
        raise RequestError(
            f"{chosen.rate} pictures a second are not possible; from {RATES[0]} to {RATES[1]} are"
        )
    if not SPEEDS[0] <= chosen.speed <= SPEEDS[1]:
        raise RequestError(f"{chosen.speed:g} is no speed; speeds go from {SPEEDS[0]:g} to {SPEEDS[1]:g}")
    if chosen.show not in ("route", "line"):
        try:
            parse_moves(chosen.show)
        except NotationError as fault:
            raise RequestError(f"--show takes route, line or turns; these have a fault at {fault}") from fault
    named = [name for name in ("case", "setup", "lesson") if getattr(chosen, name) is not None]
    if len(named) + chosen.all != 1:
        raise RequestError("say what to show: one of a case, --setup, --lesson and --all")
    if chosen.size is None:
        chosen.size = "640x480" if chosen.all else "1280x720"


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
    print(f"{target} is written: {film.seconds:.0f} seconds")
    if chosen.lesson is not None:
        write_bytes(target.with_suffix(".srt"), subtitles(film).encode(), force=chosen.force)
        print(f"{target.with_suffix('.srt')} is written")
    return 0


def _lesson_passages(chosen: argparse.Namespace, stack: ExitStack) -> tuple[Passage, ...]:
    passages = lesson_passages(lesson_named(chosen, answers(stack)))
    if chosen.camera is None:
        return passages
    return tuple(replace(passage, camera=None) for passage in passages)
