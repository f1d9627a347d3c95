"""What a page steps through: a picture and sentences for each turn, held against the turns themselves."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from tests.app.cli.pages import PageReader
from tutor.cube.faces import Face
from tutor.cube.notation import parse_turns
from tutor.cube.position import Position, Slot
from tutor.method.answer import Answer
from tutor.method.cases import CASES
from tutor.publish.case_sheet import CaseSheet, case_document
from tutor.publish.document import Cell, Cells, CubePicture, Document, Stepping
from tutor.publish.document_html import document_html
from tutor.publish.passages import route_passage
from tutor.publish.printing import Print
from tutor.publish.subject import case_subject
from tutor.solver.task import Task
from tutor.ui.view import Arrow, Stage

Answers = Callable[[Position, Task], Answer]
HOW = Print(((242, 197, 61), (255, 255, 255), (176, 42, 44), (240, 148, 63), (47, 154, 92), (27, 63, 134)))
DAY = date(2026, 11, 28)


def page_of(answers: Answers, slot: Slot, *numbers: int, steps: bool = True) -> Document:
    cases = tuple(CASES[number - 1] for number in numbers)
    return case_document(CaseSheet(cases, slot, Face.D, "A few", steps=steps), HOW, answers, DAY)


def cells_of(document: Document) -> list[Cell]:
    blocks = document.chapters[0].blocks
    return [cell for block in blocks if isinstance(block, Cells) for cell in block.cells]


@pytest.fixture(scope="module")
def stepping(answers: Answers) -> Stepping:
    (cell,) = cells_of(page_of(answers, Slot.BL, 14))
    assert cell.stepping is not None
    assert cell.stepping.stops[0].picture.stage.camera == cell.pictures[0].stage.camera
    return cell.stepping


def test_each_stop_shows_the_cube_after_its_turns_and_marks_the_next(stepping: Stepping) -> None:
    start, turns = case_subject(CASES[13], Slot.BL).cube, parse_turns(" ".join(stepping.turns))
    assert len(stepping.stops) == len(turns) + 1
    for done, (stop, coming) in enumerate(zip(stepping.stops, [*turns, None], strict=True)):
        cube = start.after(turns[:done])
        assert stop.picture.stage.colours == cube.colours
        assert stop.picture.stage.arrow == (None if coming is None else Arrow(coming))
        alt = "The cube at the end" if coming is None else f"The cube before {coming.notation}"
        assert stop.picture.alt == alt
        if coming is None:
            assert stop.halfway is None
            assert stop.picture.stage.filled
        else:
            assert stop.halfway is not None
            turning = stop.halfway.stage.turning
            assert turning is not None
            assert (stop.halfway.stage.colours, turning.face) == (cube.colours, coming.face)


def test_each_stop_says_what_the_last_turn_did_and_why_the_next_one_comes(
    stepping: Stepping, answers: Answers
) -> None:
    passage = route_passage(case_subject(CASES[13], Slot.BL), answers)
    told = [(piece.name, said.unmirrored) for piece in passage.pieces for said in piece.said]
    assert not [text for _, said in told for text in (said.coming, said.made) if "mirror" in text]
    assert [caption.text for caption in stepping.stops[0].said] == [
        "Find the corner and its edge.",
        told[0][1].coming,
    ]
    for number, stop in enumerate(stepping.stops):
        if number < len(told):
            name, said = told[number]
            assert stop.said[-1].heading == f"{name}: {stepping.turns[number]}"
            assert stop.said[-1].text == said.coming
        if number and told[number - 1][1].made != told[number - 1][1].coming:
            assert (stop.said[0].heading, stop.said[0].text) == ("", told[number - 1][1].made)
        # Long enough to read all of it at 20 characters a second (common practice for subtitles).
        assert stop.seconds >= sum(len(caption.text) for caption in stop.said) / 20


def test_a_page_holds_each_picture_once_however_many_cases_show_it(answers: Answers) -> None:
    document = page_of(answers, Slot.FR, 13, 14)
    drawn: list[Stage] = []

    def still(picture: CubePicture) -> str:
        if picture.stage not in drawn:
            drawn.append(picture.stage)
        return f"data:image/webp;base64,{drawn.index(picture.stage)}"

    page = document_html(document, still)
    addresses = [address for address in page.split('"') if address.startswith("data:image")]
    steppings = [cell.stepping for cell in cells_of(document) if cell.stepping is not None]
    seen = [stop.picture for stepping in steppings for stop in stepping.stops]
    assert len(drawn) < len(seen) + sum(len(stepping.turns) for stepping in steppings)
    assert len(addresses) == len(set(addresses)) == len(drawn)
    # All that is said stands on the page itself, for those who read it without the script.
    texts = PageReader(page).texts
    for stepping in steppings:
        assert all(caption.text in texts for stop in stepping.stops for caption in stop.said)


def test_paper_has_no_steps(answers: Answers) -> None:
    assert all(cell.stepping is None for cell in cells_of(page_of(answers, Slot.FR, 14, steps=False)))
