"""``film --all``: the 41 cases in the slots wanted, in several processes, with a page to see them."""

from __future__ import annotations

import argparse
import multiprocessing
import os
import signal
import sys
import threading
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack, closing
from functools import partial
from itertools import groupby
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

from tutor.app.cli.film import BURNED, look_at, titled
from tutor.app.cli.handouts import answers, cross_of, passage_of, shot_of
from tutor.app.cli.task_request import RequestError, read_slot
from tutor.app.cli.words import film as words
from tutor.app.drawing import draw_stage, inks_of
from tutor.app.terminal import complain, tell
from tutor.cube.notation import format_moves
from tutor.cube.position import Slot
from tutor.method.cases import CASES, Case
from tutor.publish.batch import Clip, Folder, alone_in, make_clip, make_missing, poster
from tutor.publish.cinema import check_film
from tutor.publish.files import write_bytes
from tutor.publish.film import FilmPace
from tutor.publish.page import CaseCard, Section, data_address, page
from tutor.publish.remembered import RememberedDrawing
from tutor.publish.subject import case_heading, case_subject
from tutor.publish.words import ALL_CASES, FILMS_LEAD, family_heading, slot_of_card
from tutor.workers.desk import FOR_THE_FIRST

INDEX = "index.html"
MOST_WORKERS = 4
"""Each holds about 120 MB, and up to 96 MB of pictures that come again."""
_DRAWING = RememberedDrawing(draw_stage)
"""In a worker: what draws all its clips."""


def make_all(chosen: argparse.Namespace) -> int:
    """Make all clips that are missing, and the page. Raises ValueError."""
    slots = tuple(dict.fromkeys(read_slot(name.strip()) for name in chosen.slots.split(",")))
    check_film(f".{chosen.format}", shot_of(chosen, None).size)
    if chosen.show not in ("route", "line"):
        raise RequestError(words.OWN_TURNS_FOR_ALL)
    clips = _clips(chosen, slots)
    with alone_in(chosen.out, partial(_waits, chosen.out)):
        folder = Folder(chosen.out, (clip for _, _, clip in clips), force=chosen.force)
        try:
            make_in_workers(folder)
        except KeyboardInterrupt:
            complain(words.all_stopped(folder.finished, str(chosen.out)))
            raise
        write_bytes(chosen.out / INDEX, _index(chosen, clips).encode(), force=True)
    kept = len(clips) - len(folder.missing)
    tell(words.all_made(len(folder.missing), kept, str(chosen.out / INDEX)))
    return 0


def _waits(folder: Path) -> None:
    complain(words.waiting(str(folder)))


def _clips(chosen: argparse.Namespace, slots: tuple[Slot, ...]) -> list[tuple[Case, Slot, Clip]]:
    inks, found = inks_of(chosen.theme), []
    with ExitStack() as stack:
        answered = answers(stack)
        for case in CASES:
            for slot in slots:
                subject = case_subject(case, slot, cross=cross_of(chosen))
                (passage,) = titled((passage_of(subject, chosen.show, answered),), None, chosen.note)
                name = f"{case.slug}-{slot.name}.{chosen.format}"
                shot, pace = look_at(chosen, (passage,)), FilmPace(chosen.pace)
                drawn = chosen.captions == BURNED
                clip = Clip(name, passage, shot, inks, pace, chosen.speed, chosen.rate, drawn)
                found.append((case, slot, clip))
    return found


def make_in_workers(folder: Folder[Clip]) -> None:
    """Make what is missing in a folder, with a bar on standard error. Raises PublishError."""
    columns = TextColumn(words.PROGRESS), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn()
    with Progress(*columns, console=Console(file=sys.stderr)) as progress:
        done = len(folder.clips) - len(folder.missing)
        bar = progress.add_task("films", total=len(folder.clips), completed=done)
        if not folder.missing:
            return
        count = min(os.cpu_count() or 1, len(folder.missing), MOST_WORKERS)
        # A graphics context does not survive a fork, so each worker begins afresh.
        workers = ProcessPoolExecutor(count, multiprocessing.get_context("spawn"), _begin)
        with closing(make_missing(folder, _make_drawn, workers, _end_workers)) as made:
            for _ in made:
                progress.advance(bar)


def _end_workers() -> None:
    """End what is still at work, at once."""
    for process in multiprocessing.active_children():
        process.terminate()


def _begin() -> None:
    """In a worker, before anything else."""
    # Mesa's software renderer would start a thread for each core in every worker.
    os.environ.setdefault("LP_NUM_THREADS", "1")
    # These reach every process of a terminal; the first one ends the others when it is due.
    for number in FOR_THE_FIRST:
        signal.signal(number, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_first, daemon=True).start()


def _end_with_the_first() -> None:
    """A process that is killed cannot end its workers, so they look after themselves."""
    first = multiprocessing.parent_process()
    if first is not None:
        first.join()
        os._exit(1)


def _make_drawn(clip: Clip, beside: Path) -> str:
    """In a worker: draw and write a clip."""
    return make_clip(clip, beside, _DRAWING)


def _index(chosen: argparse.Namespace, clips: list[tuple[Case, Slot, Clip]]) -> str:
    sections = []
    for family, members in groupby(clips, key=lambda each: each[0].family):
        cards = tuple(_card(chosen, *each) for each in members)
        sections.append(Section(family_heading(family), cards))
    return page(ALL_CASES, FILMS_LEAD, tuple(sections), clips[0][2].inks)


def _card(chosen: argparse.Namespace, case: Case, slot: Slot, clip: Clip) -> CaseCard:
    still = data_address(poster(chosen.out / clip.name), "image/png")
    name = case_heading(case, slot, chosen.cross), *case.name_lines(slot), slot_of_card(slot.name)
    turns = tuple((piece.name, format_moves(piece.turns)) for piece in clip.passage.pieces)
    return CaseCard(name, still, turns, clip.name)
