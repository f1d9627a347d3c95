"""``sheet`` as a teacher meets it: the PDF read back with pypdf, the page with Python's own parser."""

from __future__ import annotations

import base64
import json
import re
import sys
from collections.abc import Callable
from io import BytesIO
from itertools import groupby
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageFont
from pypdf import PageObject, PdfReader

from tests.app.cli.pages import PageReader
from tutor.app.cli.command_line import main
from tutor.cube.position import Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.cases import CASES, parse_case
from tutor.publish.extras import installing
from tutor.publish.lettering import font_file

CASE, OTHER = "corner-up-edge-left-front-up", "corner-in-front-edge-in-turned"


def sheet(path: Path, *arguments: str) -> None:
    assert main(["sheet", *arguments, "--out", str(path)]) == 0


PAPERS = {Slot.FR: "A4", Slot.BL: "Letter"}


LEGEND = 110
"""The legend, across the page, ends below this; in points from the bottom, as all places in a PDF."""


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Slot], Path]:
    """The sheet of all cases in a slot, made once."""
    folder = tmp_path_factory.mktemp("sheets")

    def made(slot: Slot) -> Path:
        path = folder / f"{slot.name}.pdf"
        if not path.exists():
            sheet(path, "--slot", slot.name, "--paper", PAPERS[slot])
        return path

    return made


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["sheet", *arguments]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    return said.err


def text_of(path: Path) -> str:
    """All text in its order."""
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def numbers_in(text: str) -> list[int]:
    return [int(number) for number in re.findall(r"Case (\d+): ", text)]


def test_the_text_comes_in_order(whole: Callable[[Slot], Path]) -> None:
    text = text_of(whole(Slot.FR))
    assert text.startswith("The 41 cases in slot FR Hold the cube with the white cross down")
    at = 0
    for family, members in groupby(CASES, key=lambda case: case.family):
        at = text.index(f"{family.value[:1].upper()}{family.value[1:]}", at)
        cases = list(members)
        # Two cases are side by side, and read side by side.
        for case in cases:
            assert text.find(f"Case {case.number}: {case.short_name()}", at) >= at
            for part in case.name_lines(Slot.FR):
                assert text.find(part, at) >= at
        at = text.index(f"Case {cases[-1].number}: ", at)
    assert numbers_in(text) == list(range(1, 42))


@pytest.mark.parametrize(("slot", "millimetres"), [(Slot.FR, (210, 297)), (Slot.BL, (215.9, 279.4))])
def test_pages_have_the_size_of_the_paper(
    slot: Slot, millimetres: tuple[float, float], whole: Callable[[Slot], Path]
) -> None:
    # ISO 216 (A4) and ANSI Y14.1 (Letter); a PDF counts in points, 72 to the inch (ISO 32000-1).
    pages = PdfReader(whole(slot)).pages
    assert 5 <= len(pages) <= 14
    for number, page in enumerate(pages, start=1):
        box = page.mediabox
        size = [float(side) * 25.4 / 72 for side in (box.width, box.height)]
        assert size == pytest.approx(millimetres, abs=0.1)
        assert f"Page {number} of {len(pages)}" in page.extract_text()


@pytest.mark.parametrize("slot", PAPERS)
def test_nothing_is_printed_beyond_the_margins_or_into_the_next_column(
    slot: Slot, whole: Callable[[Slot], Path]
) -> None:
    count = 0
    for page in PdfReader(whole(slot)).pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        for x, y, size, text in pieces_of(page):
            # The bolder face is the wider one, whichever the text is set in.
            face = ImageFont.truetype(BytesIO(font_file(strong=size in (9.5, 10))), 1000)
            end = x + face.getlength(text) * size / 1000
            assert 20 < x < end < width - 20
            assert 20 < y < height - 20
            if x < width / 2 and LEGEND < y < height - 160:
                assert end < width / 2
            count += 1
    assert count > 41 * 8


def pieces_of(page: PageObject) -> list[tuple[float, float, float, str]]:
    """Every piece of text with its place, its size in points, and itself."""
    found: list[tuple[float, float, float, str]] = []

    def visit(text: str, _: Any, place: list[float], __: Any, size: float) -> None:
        if text.strip():
            found.append((place[4], place[5], size, text.strip()))

    page.extract_text(visitor_text=visit)
    return found


def test_typefaces_are_embedded(tmp_path: Path) -> None:
    sheet(tmp_path / "s.pdf", CASE)
    names = set()
    for page in PdfReader(tmp_path / "s.pdf").pages:
        fonts: Any = page["/Resources"]["/Font"]  # type: ignore[index]
        for font in (each.get_object() for each in fonts.values()):
            inner = font["/DescendantFonts"][0].get_object()
            descriptor = inner["/FontDescriptor"].get_object()
            assert len(descriptor["/FontFile2"].get_object().get_data()) > 1000
            names.add(str(font["/BaseFont"]))
    assert any("SourceSans" in name for name in names)


def pictures(path: Path) -> list[np.ndarray[tuple[int, ...], np.dtype[np.uint8]]]:
    images = [image.image for page in PdfReader(path).pages for image in page.images]
    return [np.asarray(image.convert("RGB")) for image in images if image is not None]


def test_every_case_has_its_picture(whole: Callable[[Slot], Path]) -> None:
    found = pictures(whole(Slot.FR))
    assert len({picture.tobytes() for picture in found}) == 41


def test_black_and_white_has_no_colour_and_letters_are_explained(tmp_path: Path) -> None:
    sheet(tmp_path / "c.pdf", CASE)
    sheet(tmp_path / "g.pdf", CASE, "--black-and-white")
    (coloured,), (grey,) = pictures(tmp_path / "c.pdf"), pictures(tmp_path / "g.pdf")
    assert np.ptp(coloured, axis=2).max() > 100
    assert np.ptp(grey, axis=2).max() == 0
    assert "Colours y yellow w white r red o orange g green b blue" in text_of(tmp_path / "g.pdf")
    assert "Colours yellow white red orange green blue" in text_of(tmp_path / "c.pdf")


def test_the_cross_colour_is_the_one_chosen(tmp_path: Path) -> None:
    sheet(tmp_path / "w.pdf", CASE, "--slot", "BL")
    sheet(tmp_path / "b.pdf", CASE, "--slot", "BL", "--cross", "blue")
    text = text_of(tmp_path / "b.pdf")
    assert "Hold the cube with the blue cross down and slot BL where you see the dashed frame." in text
    assert "Case 3: blue up, edge right, back colour on top" in text
    (white, _), (blue, _) = pictures(tmp_path / "w.pdf"), pictures(tmp_path / "b.pdf")
    assert (white != blue).any()


@pytest.mark.parametrize(
    ("arguments", "numbers"),
    [
        ((OTHER, "3", CASE, "39"), [3, 39]),
        (("--cases", "39, 1-3,14"), [1, 2, 3, 14, 39]),
        (("5", "--cases", "4-5", "--columns", "3"), [4, 5]),
    ],
)
def test_chosen_cases_come_in_the_books_order_and_once(
    arguments: tuple[str, ...], numbers: list[int], tmp_path: Path
) -> None:
    sheet(tmp_path / "s.pdf", *arguments)
    assert numbers_in(text_of(tmp_path / "s.pdf")) == numbers


@pytest.mark.parametrize(("columns", "lefts"), [("1", 1), ("3", 3)])
def test_so_many_cases_are_side_by_side(columns: str, lefts: int, tmp_path: Path) -> None:
    sheet(tmp_path / "s.pdf", "--cases", "1-3", "--columns", columns)
    (page,) = PdfReader(tmp_path / "s.pdf").pages
    places = {round(x) for x, _, _, text in pieces_of(page) if text.startswith("Case ")}
    assert len(places) == lefts


def test_lessons_are_printed_as_a_booklet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    own = tmp_path / "talk.toml"
    own.write_text(
        'title = "Talk"\ngoal = "You listen."\n[[scene]]\nkind = "tell"\ntext = "Hello."\n', encoding="utf-8"
    )
    sheet(tmp_path / "s.pdf", "--lesson", "made-pair", "--lesson", str(own), "--cross", "blue")
    assert capsys.readouterr().out == f"{tmp_path / 's.pdf'} is ready, with 2 lessons.\n"
    text = text_of(tmp_path / "s.pdf")
    assert "Lesson 4: A joined pair and its two ways in 2 Talk " in text
    assert "The blue-" in text
    assert "Hold the cube with the blue cross down. Colours yellow white red orange" in text
    assert "Talk You listen. Hold the cube with the white cross down. Colours yellow white red" in text
    assert text.index("Hello.") < text.index("Answers Try first, then look.")


def test_the_page_holds_everything_itself(tmp_path: Path) -> None:
    sheet(tmp_path / "s.html", CASE, OTHER, "--slot", "FL")
    read = PageReader((tmp_path / "s.html").read_text(encoding="utf-8"))
    assert read.open == []
    assert read.counts["article"] == 2
    assert read.counts["button"] == 3 * 2
    assert len(read.addresses) == 2
    stepped = json.loads(read.data)
    turns = read.counts["li"] - 1 - len(COLOUR_NAMES)
    # One picture of each stop but the first, and one of each turn half made; the two cases may share some.
    assert turns < len(stepped) <= 2 * turns
    for address in (*read.addresses, *stepped):
        assert address.startswith("data:image/webp;base64,")
        with Image.open(BytesIO(base64.b64decode(address.split(",")[1]))) as picture:
            assert picture.size == (480, 420)
    words = read.texts
    at = words.index("Case 3: white up, edge behind, left colour on top")
    assert words[at + 1 : at + 3] == list(parse_case(CASE).name_lines(Slot.FL))
    assert words[words.index("Slot FL", at) + 1] == "Mirror FR"


def test_a_case_in_another_slot_is_described_as_it_is_seen_there() -> None:
    case = parse_case("corner-right-edge-left-front-up")
    assert case.name_lines(Slot.FR) == (
        "Corner on top at its slot, cross colour to the right",
        "Edge on top at the left, front colour up",
    )
    # With the cube turned so that the slot is at the back left, right and left, front and back are exchanged.
    assert case.name_lines(Slot.BL) == (
        "Corner on top at its slot, cross colour to the left",
        "Edge on top at the right, back colour up",
    )
    assert parse_case("corner-in-right-edge-in-straight").name_lines(Slot.FL) == (
        "Corner in its slot, cross colour to the front",
        "Edge in its slot, the right way round",
    )


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (
            ("corner-up-edge-lft-front-up",),
            "there is no case “corner-up-edge-lft-front-up”; did you mean corner-up-edge-left-front-up",
        ),
        (("--slot", "RF"), "“RF” is not a slot; write FR, FL, BL or BR"),
        ((CASE, "--lesson", "made-pair"), "write only one of these: cases, --lesson or --slipping"),
        (("--weak", "--lesson", "made-pair"), "write only one of these: cases, --lesson or --slipping"),
        (
            ("--lesson", "made-pair", "--slot", "BL"),
            "--slot works only with cases; a lesson is printed as the window shows it",
        ),
        (
            ("--lesson", "made-pair", "--columns", "1"),
            "--columns works only with cases; a lesson is printed as the window shows it",
        ),
        (
            ("--cases", "1-50"),
            "“1-50” is not a list of cases; write numbers from 1 to 41, for instance 1-12,14",
        ),
        (("--cases", "1,,2"), "“” is not a list of cases; write numbers from 1 to 41, for instance 1-12,14"),
        (("--lesson", "no-such-lesson"), "There is no lesson"),
    ],
)
def test_what_is_wrong_is_said_in_one_sentence(
    arguments: tuple[str, ...], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said in refused(capsys, *arguments, "--out", str(tmp_path / "s.pdf"))
    assert not list(tmp_path.iterdir())


def test_wrong_targets_and_a_missing_package_are_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "“s.txt” is not the name of a sheet; end it in .pdf or .html" in refused(
        capsys, "--out", str(tmp_path / "s.txt")
    )
    assert "the program cannot write /proc/s.pdf: " in refused(capsys, CASE, "--out", "/proc/s.pdf")
    (tmp_path / "s.pdf").write_bytes(b"mine")
    assert "--force" in refused(capsys, CASE, "--out", str(tmp_path / "s.pdf"))
    monkeypatch.setitem(sys.modules, "fpdf", None)
    said = refused(capsys, CASE, "--out", str(tmp_path / "t.pdf"))
    assert f"a PDF sheet needs the package fpdf2, which is not installed here; {installing('sheet')}" in said
    assert said.endswith("or end the name in .html\n")
