"""``sheet``: cases on paper, or on a page for the browser where they move."""

from __future__ import annotations

import argparse
from contextlib import ExitStack
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
from tutor.app.drawing import draw_stage, inks_of
from tutor.cube.faces import FACES
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
from tutor.session.settings_options import PALETTES

MOVING_SIZE, MOVING_RATE = (336, 288), 12
_LINE = "“Line” is a shortest way by hand: it turns the top and the two faces beside the slot."
_EPILOG = """\
examples:
  python -m tutor sheet --out cases.pdf
  python -m tutor sheet --slot FL --cross yellow --paper Letter --black-and-white --out cases-fl.pdf
  python -m tutor sheet --lesson made-pair --out made-pair.html
  python -m tutor sheet corner-up-edge-left-front-up corner-in-front-edge-in-straight --out two.pdf
  python -m tutor sheet --slipping --learner Ilva --out ilva.pdf

The end of the name says the format: .pdf (needs the extra “sheet”), or .html, a single file in which every
case moves when its picture is pressed. Turns are told for the cube held with the slot where it is, the top as
pictured. “Mirror” gives the line of the mirror image, in the slot that the mirror shows."""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "sheet",
        help="print cases with their turns",
        description="All 41 cases, chosen ones, those of a lesson or those a learner still forgets: picture, "
        "route by steps, shortest line and mirror image.",
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("cases", nargs="*", metavar="CASE", help="cases by name; none for all 41")
    parser.add_argument("--lesson", metavar="LESSON", help="the cases of a lesson: its name or file")
    parser.add_argument(
        "--slipping", "--weak", action="store_true", help="only the cases that this learner still forgets"
    )
    parser.add_argument(
        "--learner", metavar="NAME", help="with --slipping: whose; else the one in the settings"
    )
    parser.add_argument("--slot", default="FR", metavar="SLOT", help="FR (usual), FL, BL or BR")
    add_cross(parser)
    parser.add_argument("--paper", default=Paper.A4.value, choices=[paper.value for paper in Paper])
    parser.add_argument("--palette", default="usual", choices=PALETTES, help="colours of the stickers")
    parser.add_argument("--letters", action="store_true", help="letters on the stickers")
    parser.add_argument("--black-and-white", action="store_true", help="no colours; the stickers get letters")
    add_target(parser, "a name that ends in .pdf or .html")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the sheet and return the exit status. Raises RequestError."""
    kind = chosen.out.suffix.lower()
    if kind not in (".pdf", ".html"):
        raise RequestError(f"“{chosen.out.name}” is no name for a sheet; it ends in .pdf or .html")
    if (chosen.lesson is not None) + bool(chosen.cases) + chosen.slipping > 1:
        raise RequestError("say one of cases, --lesson and --slipping, not more")
    if chosen.learner is not None and not chosen.slipping:
        raise RequestError(
            "--learner goes with --slipping, which prints the cases that the learner still forgets"
        )
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
    print(f"{chosen.out} is written: {_count(entries)}")
    return 0


def _entries(chosen: argparse.Namespace, how: Print) -> tuple[SheetEntry, ...]:
    with ExitStack() as stack:
        answered = answers(stack)
        if chosen.lesson is not None:
            cases = lesson_cases(lesson_named(chosen, answered))
        elif chosen.slipping:
            # Imported here, so that other sheets do not wait for the store.
            from tutor.app.cli.slipping_cases import slipping_cases

            cases = slipping_cases(chosen.learner)
        else:
            cases = tuple(case_named(name) for name in chosen.cases) or CASES
        return sheet_entries(cases, how, answered)


def _count(entries: tuple[SheetEntry, ...]) -> str:
    return "1 case" if len(entries) == 1 else f"{len(entries)} cases"


def _title(entries: tuple[SheetEntry, ...], how: Print) -> str:
    many = "The 41 cases" if len(entries) == len(CASES) else _count(entries).capitalize()
    return f"{many}, slot {how.slot.name}"


def _hold(chosen: argparse.Namespace) -> str:
    return f"Hold the {chosen.cross} cross down. It and the other slots are solved, and stay so."


def _letters(how: Print) -> str:
    """What the letters stand for, where there are any: they name colours, whatever the cross colour."""
    if not how.look.letters:
        return ""
    return f" Letters: {', '.join(f'{face.name} {COLOUR_NAMES[face]}' for face in FACES)}."


def _pdf(chosen: argparse.Namespace, entries: tuple[SheetEntry, ...], how: Print) -> bytes:
    lead = f"{_hold(chosen)} {_LINE}{_letters(how)}"
    return sheet_pdf(entries, how, draw_stage, Paper(chosen.paper), _title(entries, how), lead)


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
            sections.append(Section(f"{family.value[:1].upper()}{family.value[1:]}", cards))
    lead = f"{_hold(chosen)} {_LINE}{_letters(how)} Press a picture to see the route."
    return page(_title(entries, how), lead, tuple(sections), inks).encode()


def _passage(entry: SheetEntry) -> Passage:
    """The route without a title, since the page has one."""
    subject = Subject(entry.subject.cube, entry.subject.aim, "")
    return steps_passage(subject, entry.route.turns, entry.route.steps)


def _card(entry: SheetEntry, how: Print, moving: Path) -> CaseCard:
    still = data_address(png_bytes(picture_of(entry, how, draw_stage)), "image/png")
    return CaseCard(entry.name, still, data_address(moving.read_bytes(), "image/webp"), entry.facts)
