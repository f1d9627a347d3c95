"""``sheet``: cases on paper, or on a page for the browser where they move."""

from __future__ import annotations

import argparse
from contextlib import ExitStack
from dataclasses import replace
from itertools import groupby
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from tutor.app.cli.handouts import (
    add_cross,
    add_target,
    answers,
    case_named,
    cross_of,
    lesson_named,
)
from tutor.app.cli.task_request import RequestError, read_slot
from tutor.app.cli.words import sheet as words
from tutor.app.cli.words.handouts import LETTERS_HELP, PALETTE_HELP
from tutor.app.drawing import draw_stage, inks_of
from tutor.cube.sticker_text import COLOUR_LETTERS
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.cases import CASES
from tutor.publish.batch import Clip, Folder
from tutor.publish.files import check_target, write_bytes
from tutor.publish.film import FilmPace, Passage
from tutor.publish.page import CaseCard, Section, data_address, page
from tutor.publish.passages import steps_passage
from tutor.publish.sheet import Print, SheetEntry, lesson_cases, picture_of, sheet_entries
from tutor.publish.sheet_pdf import Paper, check_pdf, sheet_pdf
from tutor.publish.stills import png_bytes
from tutor.publish.subject import Shot, Subject, usual_camera
from tutor.publish.words import OWN_WORDS, PRESS_FOR_ROUTE, family_heading, sheet_legend, sheet_title
from tutor.session.settings_options import PALETTES

MOVING_SIZE, MOVING_RATE = (336, 288), 12


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "sheet",
        help=words.HELP,
        description=words.DESCRIPTION,
        epilog=words.EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("cases", nargs="*", metavar="CASE", help=words.CASES_HELP)
    parser.add_argument("--lesson", metavar="LESSON", help=words.LESSON_HELP)
    parser.add_argument("--slipping", "--weak", action="store_true", help=words.SLIPPING_HELP)
    parser.add_argument("--learner", metavar="NAME", help=words.LEARNER_HELP)
    parser.add_argument("--slot", default="FR", metavar="SLOT", help=words.SLOT_HELP)
    add_cross(parser)
    papers = [paper.value for paper in Paper]
    parser.add_argument("--paper", default=Paper.A4.value, choices=papers, help=words.PAPER_HELP)
    parser.add_argument("--palette", default="usual", choices=PALETTES, help=PALETTE_HELP)
    parser.add_argument("--letters", action="store_true", help=LETTERS_HELP)
    parser.add_argument("--black-and-white", action="store_true", help=words.BLACK_AND_WHITE_HELP)
    add_target(parser, words.OUT_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the sheet and return the exit status. Raises RequestError."""
    kind = chosen.out.suffix.lower()
    if kind not in (".pdf", ".html"):
        raise RequestError(words.no_sheet(chosen.out.name))
    if (chosen.lesson is not None) + bool(chosen.cases) + chosen.slipping > 1:
        raise RequestError(words.WRITE_ONE_CHOICE)
    if chosen.learner is not None and not chosen.slipping:
        raise RequestError(words.LEARNER_WITHOUT_SLIPPING)
    cross, slot = cross_of(chosen), read_slot(chosen.slot)
    how = Print(slot, cross, chosen.palette, chosen.letters, chosen.black_and_white)
    try:
        if kind == ".pdf":
            check_pdf()
        check_target(chosen.out, force=chosen.force)
        entries = _entries(chosen, how)
        content = _pdf(chosen, entries, how) if kind == ".pdf" else _html(chosen, entries, how)
        write_bytes(chosen.out, content, force=chosen.force)
    except RequestError:
        raise
    except ValueError as fault:
        raise RequestError(str(fault)) from fault
    print(words.written(str(chosen.out), len(entries)))
    return 0


def _entries(chosen: argparse.Namespace, how: Print) -> tuple[SheetEntry, ...]:
    with ExitStack() as stack:
        answered, own = answers(stack), dict[str, str]()
        if chosen.lesson is not None:
            cases = lesson_cases(lesson_named(chosen, answered))
        elif chosen.slipping:
            # Imported here, so that other sheets do not wait for the store.
            from tutor.app.cli.slipping_cases import own_words_of, slipping_cases

            cases, own = slipping_cases(chosen.learner), own_words_of(chosen.learner)
        else:
            cases = tuple(case_named(name) for name in chosen.cases) or CASES
        entries = sheet_entries(cases, how, answered)
        return tuple(replace(entry, own=own.get(entry.case.slug, "")) for entry in entries)


def _title(entries: tuple[SheetEntry, ...], how: Print) -> str:
    return sheet_title(len(entries), how.slot.name, every=len(entries) == len(CASES))


def _legend(chosen: argparse.Namespace, how: Print) -> str:
    """How to read the sheet; letters on stickers name colours, whatever the cross colour."""
    letters = list(zip(COLOUR_LETTERS, COLOUR_NAMES, strict=True)) if how.look.letters else []
    return sheet_legend(chosen.cross, letters)


def _pdf(chosen: argparse.Namespace, entries: tuple[SheetEntry, ...], how: Print) -> bytes:
    title, legend = _title(entries, how), _legend(chosen, how)
    return sheet_pdf(entries, how, draw_stage, Paper(chosen.paper), title, legend)


def _html(chosen: argparse.Namespace, entries: tuple[SheetEntry, ...], how: Print) -> bytes:
    # Imported here, so that a PDF does not wait for what starts processes.
    from tutor.app.cli.film_collection import make_in_workers

    inks, clips = inks_of("light"), {}
    for entry in entries:
        shot = Shot(how.look, MOVING_SIZE, usual_camera(entry.slot, how.look.mirrors))
        name = f"{entry.case.slug}.webp"
        clips[entry.case] = Clip(name, _passage(entry), shot, inks, FilmPace.SLOW, rate=MOVING_RATE)
    sections = []
    with TemporaryDirectory() as made:
        make_in_workers(Folder(Path(made), clips.values()))
        for family, members in groupby(entries, key=lambda entry: entry.case.family):
            cards = tuple(_card(entry, how, Path(made) / clips[entry.case].name) for entry in members)
            sections.append(Section(family_heading(family), cards))
    lead = f"{PRESS_FOR_ROUTE} {_legend(chosen, how)}"
    return page(_title(entries, how), lead, tuple(sections), inks).encode()


def _passage(entry: SheetEntry) -> Passage:
    """The route without a title, since the page has one."""
    subject = Subject(entry.subject.cube, entry.subject.aim, "")
    return steps_passage(subject, entry.route.turns, entry.route.steps)


def _card(entry: SheetEntry, how: Print, moving: Path) -> CaseCard:
    still = data_address(png_bytes(picture_of(entry, how, draw_stage)), "image/png")
    facts = (*entry.facts, (OWN_WORDS, entry.own)) if entry.own else entry.facts
    return CaseCard(entry.name, still, data_address(moving.read_bytes(), "image/webp"), facts)
