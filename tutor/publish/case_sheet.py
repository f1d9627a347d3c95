"""A sheet of cases: what to see of each, its route by steps beside the mirror's, and a shorter line."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from itertools import groupby

from msgspec import Struct, field
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves
from tutor.cube.position import Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT
from tutor.lesson.questions import Answerer
from tutor.method.cases import CASES, Case
from tutor.method.routes import Route
from tutor.publish import words
from tutor.publish.document import (
    Cell,
    Cells,
    Chapter,
    CubePicture,
    Document,
    DocumentBlock,
    Paragraph,
    Subheading,
    TurnRow,
    TurnTable,
)
from tutor.publish.passages import route_passage
from tutor.publish.printing import Print, pictures_of, usual_view
from tutor.publish.stepping import stepping_of
from tutor.publish.subject import Shot, Subject, case_heading, case_subject, stage_of
from tutor.screens.parts.words import in_your_own_words
from tutor.session.timeline import Pose
from tutor.solver.task import carried_slot

COLUMNS, MOST_COLUMNS = 2, 3
"""Cases side by side: usually, and at most."""


class CaseSheet(Struct, frozen=True):
    """Which cases are printed, in which slot, for whom, and in how many columns.

    ``own`` is what the learner says of cases in their own words, by the slug of the case. On a page that
    ``steps`` you go through each route turn by turn.
    """

    cases: tuple[Case, ...]
    slot: Slot
    cross: Face
    title: str
    learner: str = ""
    columns: int = COLUMNS
    own: Mapping[str, str] = field(default_factory=dict)
    told: tuple[str, ...] = ()
    """Sentences before the cases."""
    steps: bool = False


def cases_title(cases: tuple[Case, ...], slot: Slot) -> str:
    """The title of a sheet of these cases."""
    return words.sheet_title(len(cases), slot.name, every=len(cases) == len(CASES))


def case_document(sheet: CaseSheet, how: Print, answers: Answerer, day: date) -> Document:
    """The cases by family in the book's order, each once."""
    blocks: list[DocumentBlock] = [*map(Paragraph, sheet.told), how.key]
    cases = sorted(set(sheet.cases), key=lambda case: case.number)
    for family, members in groupby(cases, key=lambda case: case.family):
        cells = tuple(_item(case, sheet, how, answers) for case in members)
        blocks += [Subheading(words.family_heading(family)), Cells(cells, sheet.columns)]
    cross, mirror = COLOUR_NAMES[sheet.cross], _mirror_of(sheet.slot).name
    lead = words.sheet_lead(cross, sheet.slot.name, mirror)
    marks = f"{words.MARKS_LEGEND} {words.ARROW_LEGEND}" if sheet.steps else words.MARKS_LEGEND
    legend = (words.TURNS_LEGEND, words.STEPS_LEGEND, marks)
    return Document(
        sheet.title, (Chapter(sheet.title, lead, tuple(blocks)),), legend, day, learner=sheet.learner
    )


def _mirror_of(slot: Slot) -> Slot:
    """The slot in which a mirror that exchanges left and right shows a slot."""
    return carried_slot(slot, MIRROR_LEFT_RIGHT)


def _item(case: Case, sheet: CaseSheet, how: Print, answers: Answerer) -> Cell:
    subject = case_subject(case, sheet.slot, cross=sheet.cross)
    assert subject.task is not None
    found = answers(subject.cube.position, subject.task)
    heading = case_heading(case, sheet.slot, COLOUR_NAMES[sheet.cross])
    own = sheet.own.get(case.slug)
    pictures = _pictures(subject, sheet.slot, how, heading)
    stepping = None
    if sheet.steps:
        stepping = stepping_of(route_passage(replace(subject, title=""), answers), pictures[0])
    return Cell(
        pictures,
        heading=heading,
        texts=case.name_lines(sheet.slot) + ((in_your_own_words(own),) if own else ()),
        table=_table(sheet.slot, found.routes[0], found.lines[0]),
        stepping=stepping,
    )


def _pictures(subject: Subject, slot: Slot, how: Print, heading: str) -> tuple[CubePicture, ...]:
    """The case as held, and from behind where that is needed."""
    stage = stage_of(subject, Pose(subject.cube), Shot(how.look(), camera=usual_view(slot)))
    return pictures_of(stage, slot, how, heading)


def _table(slot: Slot, route: Route, line: tuple[Turn, ...]) -> TurnTable:
    """The route by steps, and the line where it is another; beside each its mirror image."""
    rows = [_row(words.step_name(step), turns) for step, turns in route.segments]
    if line != route.turns:
        rows.append(_row(words.LINE, line))
    header = words.route_column(slot.name), words.mirror_column(_mirror_of(slot).name)
    return TurnTable(header, tuple(rows))


def _row(label: str, turns: tuple[Turn, ...]) -> TurnRow:
    return TurnRow(label, (format_moves(turns), format_moves(MIRROR_LEFT_RIGHT.turns(turns))))
