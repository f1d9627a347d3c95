"""``sheet``: lessons or cases on paper, or on a page for the browser."""

from __future__ import annotations

import argparse
from contextlib import ExitStack
from datetime import date
from functools import cache
from typing import Any

from tutor.app.cli.case_list import parse_case_list
from tutor.app.cli.handouts import (
    add_cross,
    add_target,
    answers,
    case_named,
    cross_of,
    lesson_as_played,
)
from tutor.app.cli.task_request import RequestError, read_slot
from tutor.app.cli.words import sheet as words
from tutor.app.cli.words.handouts import LETTERS_HELP, PALETTE_HELP
from tutor.app.drawing import draw_stage, sticker_inks
from tutor.app.terminal import complain, tell
from tutor.lesson.library import lesson_names
from tutor.lesson.questions import Answerer
from tutor.method.cases import CASES
from tutor.publish.batch import SHEETS, Folder, alone_in, write_item
from tutor.publish.case_sheet import COLUMNS, MOST_COLUMNS, CaseSheet, case_document, cases_title
from tutor.publish.document import CubePicture, Document
from tutor.publish.document_html import document_html
from tutor.publish.document_pdf import Paper, check_pdf, document_pdf
from tutor.publish.files import check_target, write_bytes
from tutor.publish.learner_sheet import LearnerSheet, named_files
from tutor.publish.lesson_sheet import NumberedLesson, lesson_document
from tutor.publish.page import data_address
from tutor.publish.printing import PAPER, Print, printed
from tutor.publish.stills import webp_bytes
from tutor.publish.subject import Pixels
from tutor.publish.words import slipping_title
from tutor.session.settings_options import PALETTES
from tutor.ui.view import Look, Stage

PDF, HTML = ".pdf", ".html"


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "sheet",
        help=about,
        description=words.DESCRIPTION,
        epilog=words.EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("names", nargs="*", metavar="CASE", help=words.NAMES_HELP)
    parser.add_argument("--cases", metavar="LIST", help=words.CASES_HELP)
    parser.add_argument("--lesson", action="append", default=[], metavar="LESSON", help=words.LESSON_HELP)
    parser.add_argument("--slipping", "--weak", action="store_true", help=words.SLIPPING_HELP)
    parser.add_argument("--learner", metavar="NAME", help=words.LEARNER_HELP)
    parser.add_argument("--each-learner", action="store_true", help=words.EACH_HELP)
    parser.add_argument("--slot", metavar="SLOT", help=words.SLOT_HELP)
    columns = range(1, MOST_COLUMNS + 1)
    parser.add_argument("--columns", type=int, choices=columns, help=words.columns_help(COLUMNS))
    add_cross(parser)
    papers = [paper.value for paper in Paper]
    parser.add_argument("--paper", default=Paper.A4.value, choices=papers, help=words.PAPER_HELP)
    parser.add_argument("--palette", default=PAPER, choices=(PAPER, *PALETTES), help=PALETTE_HELP)
    parser.add_argument("--letters", action="store_true", help=LETTERS_HELP)
    parser.add_argument("--black-and-white", action="store_true", help=words.BLACK_AND_WHITE_HELP)
    add_target(parser, words.OUT_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Write the sheet and return the exit status. Raises RequestError."""
    kind = ".pdf" if chosen.each_learner else chosen.out.suffix.lower()
    _check(chosen, kind)
    how = Print(sticker_inks(chosen.palette), chosen.palette, chosen.letters, chosen.black_and_white)
    try:
        if kind == PDF:
            check_pdf()
        if chosen.each_learner:
            return _each(chosen, how)
        check_target(chosen.out, force=chosen.force)
        with ExitStack() as stack:
            make = _lessons if chosen.lesson else _cases
            document, told = make(chosen, how, answers(stack))
        write_bytes(chosen.out, _written(chosen, document, how, kind), force=chosen.force)
    except RequestError:
        raise
    except ValueError as fault:
        raise RequestError(str(fault)) from fault
    tell(told)
    return 0


def _check(chosen: argparse.Namespace, kind: str) -> None:
    if kind not in (PDF, HTML):
        raise RequestError(words.no_sheet(chosen.out.name))
    chooses = chosen.lesson or chosen.names or chosen.cases is not None or chosen.slipping or chosen.learner
    if chosen.each_learner and chooses:
        raise RequestError(words.EACH_ALONE)
    if bool(chosen.lesson) + bool(chosen.names or chosen.cases is not None) + chosen.slipping > 1:
        raise RequestError(words.WRITE_ONE_CHOICE)
    for option in ("slot", "columns"):
        if chosen.lesson and getattr(chosen, option) is not None:
            raise RequestError(words.only_for_cases(option))


def _each(chosen: argparse.Namespace, how: Print) -> int:
    """A sheet for every learner, in a folder."""
    # Imported here, so that other sheets do not wait for the store.
    from tutor.app.cli.learner_sheets import sheets_of_learners

    slot, columns = read_slot(chosen.slot or "FR"), chosen.columns or COLUMNS
    sheets, without = sheets_of_learners(chosen.lessons, slot, cross_of(chosen), columns)
    items = tuple(
        LearnerSheet(name, sheet, date.today(), how, chosen.paper) for name, sheet in named_files(sheets)
    )
    with alone_in(chosen.out, lambda: complain(words.waiting(str(chosen.out)))):
        folder = Folder(chosen.out, items, force=chosen.force, listed=SHEETS)
        with ExitStack() as stack:
            answered = answers(stack)
            for item in folder.missing:
                document = case_document(item.sheet, how, answered, item.day)
                write_item(folder, item, _written(chosen, document, how, ".pdf"))
    made, path = len(folder.missing), str(chosen.out)
    tell(words.sheets_made(made, len(items) - made, path, without))
    return 0


def _lessons(chosen: argparse.Namespace, how: Print, answered: Answerer) -> tuple[Document, str]:
    learner, known = _learner(chosen), lesson_names(chosen.lessons)
    lessons = []
    for name in dict.fromkeys(chosen.lesson):
        lesson = lesson_as_played(name, chosen, answered)
        lessons.append(NumberedLesson(known.index(name) + 1 if name in known else 0, lesson))
    steps = chosen.out.suffix.lower() == HTML
    document = lesson_document(tuple(lessons), how, answered, date.today(), learner, steps=steps)
    return document, words.lessons_written(str(chosen.out), len(lessons))


def _cases(chosen: argparse.Namespace, how: Print, answered: Answerer) -> tuple[Document, str]:
    slot, columns = read_slot(chosen.slot or "FR"), chosen.columns or COLUMNS
    if chosen.slipping:
        # Imported here, so that other sheets do not wait for the store.
        from tutor.app.cli.slipping_cases import slipping_cases

        learner, cases = slipping_cases(chosen.learner)
        title = slipping_title(learner, len(cases))
    else:
        learner = _learner(chosen)
        listed = () if chosen.cases is None else parse_case_list(chosen.cases)
        cases = tuple(dict.fromkeys((*map(case_named, chosen.names), *listed))) or CASES
        title = cases_title(cases, slot)
    own, steps = _own_words(learner), chosen.out.suffix.lower() == HTML
    sheet = CaseSheet(cases, slot, cross_of(chosen), title, learner, columns, own, steps=steps)
    document = case_document(sheet, how, answered, date.today())
    return document, words.cases_written(str(chosen.out), len(cases))


def _learner(chosen: argparse.Namespace) -> str:
    """The learner whose name is printed; empty for none."""
    if chosen.learner is None:
        return ""
    from tutor.app.cli.slipping_cases import known_learner

    return known_learner(chosen.learner)


def _own_words(learner: str) -> dict[str, str]:
    if not learner:
        return {}
    from tutor.app.cli.slipping_cases import own_words_of

    return own_words_of(learner)


# ----------------------------------------------------------------------------------------- writing it


def _written(chosen: argparse.Namespace, document: Document, how: Print, kind: str) -> bytes:
    def pixels(picture: CubePicture) -> Pixels:
        return printed(picture, draw_stage, grey=how.grey)

    if kind == PDF:
        return document_pdf(document, Paper(chosen.paper), cache(pixels))

    # The same cube is on the page under many names, and in it once.
    @cache
    def address(stage: Stage, look: Look) -> str:
        return data_address(webp_bytes(pixels(CubePicture(stage, look, ""))), "image/webp")

    return document_html(document, lambda picture: address(picture.stage, picture.look)).encode()
