"""What does not fit on a page of a PDF file, read back with pypdf."""

from __future__ import annotations

import re
from datetime import date
from importlib.resources import files
from io import BytesIO

import pytest
from fontTools.ttLib import TTFont
from pypdf import PdfReader

from tutor.publish.document import Cell, Cells, Chapter, CubePicture, Document, Paragraph, Subheading
from tutor.publish.document_pdf import Paper, document_pdf
from tutor.publish.files import PublishError
from tutor.publish.subject import Pixels

DETAILS = tuple(" ".join(f"w{text}n{word}" for word in range(30)) for text in range(12))
"""What a coach says of many turns."""
ROW = Cells((Cell(heading="Long", details=DETAILS, options=("A", "B")), Cell(texts=("Short.",), lines=1)), 4)


def unprinted(picture: CubePicture) -> Pixels:
    raise AssertionError(picture)


def document(*blocks: Subheading | Paragraph | Cells, learner: str = "") -> Document:
    chapter = Chapter("A lesson", "Its goal.", blocks, sign="Lesson 12", form=True)
    return Document("A lesson", (chapter,), ("A legend.",), date(2026, 11, 28), learner)


def test_a_row_higher_than_a_page_goes_on_on_the_next() -> None:
    made = document_pdf(document(Subheading("Watch"), ROW, Paragraph("The end.")), Paper.A4, unprinted)
    pages = [page.extract_text() for page in PdfReader(BytesIO(made)).pages]
    assert len(pages) == 2
    assert re.findall(r"w\d+n\d+", " ".join(pages)) == " ".join(DETAILS).split()
    # The heading has some of the row under it, and none of the words lies in the foot.
    assert "Long\nw0n0" in pages[0]
    assert all(re.search(r"w\d+n\d+", page[page.index("Pairwright") :]) is None for page in pages)
    assert "\nA\nB\nThe end." in pages[-1]


def test_a_long_name_ends_before_the_date() -> None:
    # How wide a letter is comes from the typeface's own table.
    typeface = TTFont(str(files("font_source_sans_pro").joinpath("files", "SourceSansPro-Semibold.ttf")))
    for letter in "MW":
        made = document_pdf(document(learner=letter * 40), Paper.A4, unprinted)
        drawn = PdfReader(BytesIO(made)).pages[0].get_contents()
        assert drawn is not None
        placed = re.findall(rb"/F(\d) ([\d.]+) Tf ET\s+(?:q )?BT ([\d.]+) ", drawn.get_data())
        sign, _, (_, points, left), (_, _, date_left) = placed[:4]
        wide = typeface["hmtx"][letter][0] / typeface["head"].unitsPerEm
        assert float(left) + 40 * wide * float(points) < float(date_left)
        assert float(left) > float(sign[2]) + 90
        assert float(points) >= 8


def test_a_letter_that_no_typeface_has_is_refused_in_one_sentence(caplog: pytest.LogCaptureFixture) -> None:
    with pytest.raises(PublishError) as refused:
        document_pdf(document(Paragraph("新しい新")), Paper.A4, unprinted)
    assert str(refused.value) == "a PDF sheet has no letters for “新しい”; end the name in .html"
    assert not caplog.records
