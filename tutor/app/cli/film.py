"""``film``: a case, a turn sequence or a lesson as a moving picture; or all cases at once."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path
from typing import Any

from msgspec.structs import replace
from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeRemainingColumn

from tutor.app.cli.film_sound import Voices, check_sound, read_aloud, with_voices
from tutor.app.cli.handouts import (
    add_look,
    add_subject,
    add_target,
    answers,
    lesson_as_played,
    passage_of,
    shot_of,
    subject_from,
)
from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import film as words
from tutor.app.drawing import draw_stage, inks_of
from tutor.app.terminal import complain, tell
from tutor.cube.notation import NotationError, parse_moves
from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.publish.cinema import ENCODERS, MP4, check_film, write_film
from tutor.publish.files import check_target, write_bytes
from tutor.publish.film import RATE, SILENT, Film, FilmPace, Passage, TitleCard, film_of, with_passes
from tutor.publish.passages import lesson_passages
from tutor.publish.shapes import SIZES, SMALL_SIZES, Shape, does_without_mirrors
from tutor.publish.spoken_script import spoken_script
from tutor.publish.subject import Shot
from tutor.publish.subtitles import subtitle_file, subtitles
from tutor.solver.task import Task

RATES = (5, 60)
SPEEDS = (0.1, 3.0)
BURNED, FILE, BOTH, NO_CAPTIONS = "burned", "file", "both", "none"
"""Where captions go."""


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "film",
        help=about,
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
    _add_words(parser)
    shapes = [shape.value for shape in Shape]
    parser.add_argument("--shape", choices=shapes, help=words.SHAPE_HELP)
    add_look(parser, None, words.usual_size(SIZES[Shape.LANDSCAPE], SMALL_SIZES[Shape.LANDSCAPE]))
    add_target(parser, words.OUT_HELP, required=False)
    parser.set_defaults(run=run, mirrors=None)


def _add_words(parser: argparse.ArgumentParser) -> None:
    """What is written and spoken."""
    places = (BURNED, FILE, BOTH, NO_CAPTIONS)
    parser.add_argument("--captions", choices=places, help=words.CAPTIONS_HELP)
    parser.add_argument("--title", metavar="TEXT", help=words.TITLE_HELP)
    parser.add_argument("--note", metavar="TEXT", help=words.NOTE_HELP)
    parser.add_argument("--voice-folder", type=Path, metavar="FOLDER", help=words.VOICE_FOLDER_HELP)
    parser.add_argument("--read-aloud", action="store_true", help=words.READ_ALOUD_HELP)
    parser.add_argument("--script", action="store_true", help=words.SCRIPT_HELP)


def run(chosen: argparse.Namespace) -> int:
    """Make the film or films and return the exit status. Raises RequestError."""
    _check(chosen)
    try:
        if chosen.all:
            # Imported here, so that a single film does not wait for what starts processes.
            from tutor.app.cli.film_collection import make_all

            return make_all(chosen)
        return _write_script(chosen) if chosen.script else _make_one(chosen)
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
    if chosen.out is None and not chosen.script:
        raise RequestError(words.WRITE_OUT)
    _check_words(chosen)
    if chosen.size is not None and chosen.shape is not None:
        raise RequestError(words.SIZE_OR_SHAPE)
    if chosen.size is None:
        chosen.size = (SMALL_SIZES if chosen.all else SIZES)[Shape(chosen.shape or Shape.LANDSCAPE)]


def _check_words(chosen: argparse.Namespace) -> None:
    """What is written and spoken suits one film and one kind of film only."""
    single = chosen.title, chosen.voice_folder, chosen.read_aloud or None, chosen.script or None
    if chosen.all and any(each is not None for each in single):
        raise RequestError(words.NOT_FOR_ALL)
    if chosen.all and chosen.captions in (FILE, BOTH):
        raise RequestError(words.CAPTIONS_FOR_ALL)
    if chosen.captions is None:
        mp4 = not chosen.all and chosen.out is not None and chosen.out.suffix.lower() == MP4
        chosen.captions = BOTH if mp4 else BURNED


# -------------------------------------------------------------------------------------------- one film


def _make_one(chosen: argparse.Namespace) -> int:
    target: Path = chosen.out
    beside = subtitle_file(target, burned=chosen.captions == BOTH)
    check_film(target.suffix, shot_of(chosen, None).size)
    check_sound(chosen)
    check_target(target, force=chosen.force)
    if chosen.captions in (FILE, BOTH):
        check_target(beside, force=chosen.force)
    try:
        film = _planned(chosen)
        tell(words.written(str(target), film.seconds))
    except KeyboardInterrupt:
        complain(words.stopped(str(target)))
        raise
    if chosen.captions in (FILE, BOTH) and (told := subtitles(film)):
        write_bytes(beside, told.encode(), force=chosen.force)
        tell(words.subtitles_written(str(beside)))
    return 0


def _planned(chosen: argparse.Namespace) -> Film:
    """Plan the film, speak what is to be spoken, and write it."""
    with ExitStack() as stack:
        passages, shot = _shown(chosen, answers(stack))
        pace = FilmPace(chosen.pace)
        spoken = SILENT
        unvoiced = with_passes(tuple(each for each in passages if each.voice is None), pace)
        if chosen.read_aloud and unvoiced:
            spoken = read_aloud(film_of(unvoiced, shot, pace), stack)
        film = film_of(passages, shot, pace, chosen.speed, chosen.rate, spoken)
        console = Console(file=sys.stderr)
        columns = TextColumn(words.PROGRESS_OF_ONE), BarColumn(), TimeRemainingColumn()
        with Progress(*columns, console=console, disable=not console.is_terminal) as progress:
            bar = progress.add_task("film", total=1.0)
            write_film(
                chosen.out,
                film,
                draw_stage,
                inks_of(chosen.theme),
                force=chosen.force,
                captions=chosen.captions in (BURNED, BOTH),
                progress=lambda share: progress.update(bar, completed=share),
            )
        return film


def _write_script(chosen: argparse.Namespace) -> int:
    """Print what is said and when, or write it to a file."""
    check_sound(chosen)
    with ExitStack() as stack:
        passages, shot = _shown(chosen, answers(stack))
        said = spoken_script(passages, shot, FilmPace(chosen.pace), chosen.speed, chosen.rate)
    if chosen.out is None:
        tell(said, end="")
        return 0
    write_bytes(chosen.out, said.encode(), force=chosen.force)
    tell(words.script_written(str(chosen.out)))
    return 0


def _shown(
    chosen: argparse.Namespace, answered: Callable[[Position, Task], Answer]
) -> tuple[tuple[Passage, ...], Shot]:
    """The passages of the film, with their voices, and how they are looked at."""
    if chosen.lesson is not None:
        lesson = lesson_as_played(chosen.lesson, chosen, answered)
        passages = lesson_passages(lesson, answered)
        if chosen.camera is not None:
            passages = tuple(replace(passage, camera=None) for passage in passages)
        names = {number: scene.voice for number, scene in enumerate(lesson.scenes, start=1) if scene.voice}
        voices = Voices(names, lesson.folder)
    else:
        passages, voices = (passage_of(subject_from(chosen), chosen.show, answered),), Voices()
    shot = look_at(chosen, passages)
    return titled(with_voices(chosen, passages, voices), chosen.title, chosen.note), shot


def look_at(chosen: argparse.Namespace, passages: tuple[Passage, ...]) -> Shot:
    """How passages are looked at. Unless you choose, films that are not wide do without needless mirrors."""
    task = passages[0].subject.task
    slot = None if task is None or chosen.lesson is not None else task.slot
    if chosen.mirrors is not None:
        return shot_of(chosen, slot)
    plain = argparse.Namespace(**{**vars(chosen), "mirrors": False})
    shot = shot_of(plain, slot)
    wide = shot.size[0] > shot.size[1]
    if not wide and all(does_without_mirrors(passage, shot) for passage in passages):
        return shot
    return shot_of(argparse.Namespace(**{**vars(chosen), "mirrors": True}), slot)


def titled(passages: tuple[Passage, ...], title: str | None, note: str | None) -> tuple[Passage, ...]:
    """The passages with a title of your own over all of them, and a note on the first card."""
    if title is not None:
        passages = tuple(_renamed(passage, title) for passage in passages)
    if note is None:
        return passages
    card = passages[0].first or TitleCard(passages[0].subject.title)
    first = replace(passages[0], first=replace(card, lines=(*card.lines, note)))
    return (first, *passages[1:])


def _renamed(passage: Passage, title: str) -> Passage:
    """With another title; on the cards the own name of what is shown stands under it."""

    def card(own: TitleCard | None) -> TitleCard | None:
        return None if own is None else TitleCard(title, (own.heading, *own.lines))

    subject = replace(passage.subject, title=title)
    return replace(passage, subject=subject, first=card(passage.first), last=card(passage.last))
