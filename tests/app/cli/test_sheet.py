"""``sheet`` as a teacher meets it: the PDF read back with pypdf, the page with Python's own parser.

Every notation printed is parsed back and made on the case it stands beside.
"""

from __future__ import annotations

import base64
import re
import sys
from collections.abc import Callable
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageFont
from pypdf import PageObject, PdfReader

from tests.app.cli.pages import PageReader
from tutor.app.cli.command_line import main
from tutor.cube.faces import Face
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.method.cases import CASES, Case, Family, parse_case
from tutor.publish.extras import installing
from tutor.publish.lettering import font_file
from tutor.publish.subject import name_lines
from tutor.solver.task import slot_sides

CASE, OTHER = "corner-up-edge-left-front-up", "corner-in-front-edge-in-turned"
FACT = re.compile(r"^(Raise|Part|Join|Insert|Line|Mirror (?:FR|FL|BL|BR)) (.+)$")
STEPS = ("Raise", "Part", "Join", "Insert")
MIRRORED = {Slot.FR: Slot.FL, Slot.FL: Slot.FR, Slot.BL: Slot.BR, Slot.BR: Slot.BL}
"""Left and right exchanged."""


def sheet(path: Path, *arguments: str) -> None:
    assert main(["sheet", *arguments, "--out", str(path)]) == 0


PAPERS = {Slot.FR: "A4", Slot.FL: "Letter", Slot.BL: "A4", Slot.BR: "Letter"}


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


def lines_of(path: Path) -> list[str]:
    """All lines of text in their order, a word and the turns beside it in one line."""
    found: list[str] = []
    for page in PdfReader(path).pages:
        for line in (" ".join(line.split()) for line in page.extract_text().splitlines()):
            if found and re.fullmatch(r"Raise|Part|Join|Insert|Line|Mirror ..", found[-1]):
                found[-1] += f" {line}"
            elif line:
                found.append(line)
    return found


def facts_by_case(lines: list[str]) -> list[list[tuple[str, str]]]:
    """For each case in order the words and turns printed; a case ends with its mirror."""
    found: list[list[tuple[str, str]]] = [[]]
    for line in lines:
        if fact := FACT.match(line):
            found[-1].append((fact[1], fact[2]))
            if fact[1].startswith("Mirror"):
                found.append([])
    assert found.pop() == []
    return found


def home(position: Position) -> bool:
    return position.cross_home and position.home_pairs == set(SLOTS)


def check_facts(case: Case, slot: Slot, facts: list[tuple[str, str]]) -> None:
    """Route, line and mirror as printed solve the case."""
    told = dict(facts)
    steps = [word for word in told if word in STEPS]
    assert steps == sorted(steps, key=STEPS.index)
    route = [turn for word in steps for turn in parse_turns(told[word])]
    line = parse_turns(told["Line"])
    start = case.position(slot)
    assert home(start.after(route))
    assert home(start.after(line))
    assert len(line) <= len(route)
    # By hand: the top and the two faces beside the slot, never a far layer.
    assert {turn.face for turn in (*route, *line)} <= {Face.U, *slot_sides(slot)}
    assert tuple(route) == case.route(slot).turns
    mirror_slot = MIRRORED[slot]
    mirrored = parse_turns(told[f"Mirror {mirror_slot.name}"])
    assert home(case.mirror.position(mirror_slot).after(mirrored))
    assert {turn.face for turn in mirrored} <= {Face.U, *slot_sides(mirror_slot)}
    assert set(told) == {*steps, "Line", f"Mirror {mirror_slot.name}"}


@pytest.mark.parametrize("slot", SLOTS)
def test_all_that_is_printed_solves_its_case(slot: Slot, whole: Callable[[Slot], Path]) -> None:
    facts = facts_by_case(lines_of(whole(slot)))
    assert len(facts) == 41
    for case, told in zip(CASES, facts, strict=True):
        check_facts(case, slot, told)


def test_the_text_comes_in_order(whole: Callable[[Slot], Path]) -> None:
    lines = lines_of(whole(Slot.FR))
    assert lines[0] == "The 41 cases in slot FR"
    headings = [f"{family.value[:1].upper()}{family.value[1:]}" for family in Family]
    assert [line for line in lines if line in headings] == headings
    text = " ".join(lines)
    at = 0
    for case in CASES:
        for part in (f"Case {case.number}: ", case.short_name(), *name_lines(case, Slot.FR)):
            at = text.index(part, at) + len(part)


@pytest.mark.parametrize(("slot", "millimetres"), [(Slot.FR, (210, 297)), (Slot.FL, (215.9, 279.4))])
def test_pages_have_the_size_of_the_paper(
    slot: Slot, millimetres: tuple[float, float], whole: Callable[[Slot], Path]
) -> None:
    # ISO 216 (A4) and ANSI Y14.1 (Letter); a PDF counts in points, 72 to the inch (ISO 32000-1).
    pages = PdfReader(whole(slot)).pages
    assert 3 <= len(pages) <= 6
    for number, page in enumerate(pages, start=1):
        box = page.mediabox
        size = [float(side) * 25.4 / 72 for side in (box.width, box.height)]
        assert size == pytest.approx(millimetres, abs=0.1)
        assert f"Page {number} of {len(pages)}" in page.extract_text()


@pytest.mark.parametrize("slot", SLOTS)
def test_nothing_is_printed_beyond_the_margins_or_into_the_next_column(
    slot: Slot, whole: Callable[[Slot], Path]
) -> None:
    count = 0
    for page in PdfReader(whole(slot)).pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        for x, y, size, text in pieces_of(page):
            # The bolder face is the wider one, whichever the text is set in.
            face = ImageFont.truetype(BytesIO(font_file(strong=size > 8)), 1000)
            end = x + face.getlength(text) * size / 1000
            assert 20 < x < end < width - 20
            assert 20 < y < height - 20
            if x < width / 2 and y < height - 120:
                assert end < width / 2 + 4
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
    text = " ".join(lines_of(tmp_path / "g.pdf"))
    assert (
        "The letters on the stickers name colours: y yellow, w white, r red, o orange, g green, b blue."
        in text
    )
    assert "letters" not in " ".join(lines_of(tmp_path / "c.pdf"))


def test_the_sheet_explains_turns_steps_line_and_mirror(whole: Callable[[Slot], Path]) -> None:
    text = " ".join(lines_of(whole(Slot.FR)))
    # Clockwise, the other way, half round: WCA Regulations 12a2 and 12a3.
    assert "A letter turns that side a quarter clockwise, as you look straight at it." in text
    for word in (
        "“Raise” lifts",
        "“Part” moves",
        "“Join” brings",
        "“Insert” slides",
        "“Line” is",
        "“Mirror” is",
    ):
        assert word in text


def test_the_cross_colour_is_the_one_chosen(tmp_path: Path) -> None:
    sheet(tmp_path / "w.pdf", CASE, "--slot", "BL")
    sheet(tmp_path / "b.pdf", CASE, "--slot", "BL", "--cross", "blue")
    text = " ".join(lines_of(tmp_path / "b.pdf"))
    assert "Hold the cube with the blue cross down." in text
    assert "Case 3: blue up, edge right, back colour on top" in text
    (white,), (blue,) = pictures(tmp_path / "w.pdf"), pictures(tmp_path / "b.pdf")
    # The cross is seen in the lower mirror.
    bluish = [
        (p[-p.shape[0] // 3 :, :, 2] > p[-p.shape[0] // 3 :, :, 0] + 60.0).mean() for p in (white, blue)
    ]
    assert bluish[0] < 0.02
    assert bluish[1] > 0.05


def test_chosen_cases_come_by_family_and_once(tmp_path: Path) -> None:
    sheet(tmp_path / "s.pdf", OTHER, str(parse_case(CASE).number), str(parse_case(OTHER).number))
    facts = facts_by_case(lines_of(tmp_path / "s.pdf"))
    assert len(facts) == 2
    for name, told in zip((CASE, OTHER), facts, strict=True):
        check_facts(parse_case(name), Slot.FR, told)


def test_a_lessons_cases_can_be_printed(tmp_path: Path) -> None:
    sheet(tmp_path / "s.pdf", "--lesson", "hide-the-corner")
    told = facts_by_case(lines_of(tmp_path / "s.pdf"))
    # The lesson is about one case and its mirror image (lessons/hide-the-corner.toml).
    names = {"corner-front-edge-left-front-up", "corner-right-edge-back-right-up"}
    cases = [case for case in CASES if case.slug in names]
    assert len(told) >= 2
    solved = [facts for facts in told if any(_solves(case, facts) for case in cases)]
    assert len(solved) >= 2


def _solves(case: Case, facts: list[tuple[str, str]]) -> bool:
    return home(case.position(Slot.FR).after(parse_turns(dict(facts)["Line"])))


def test_a_lesson_without_a_case_has_no_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lesson = tmp_path / "talk.toml"
    lesson.write_text(
        'title = "Talk"\ngoal = "You listen."\n[[scene]]\nkind = "tell"\ntext = "Hello."\n', encoding="utf-8"
    )
    assert (
        "no scene of the lesson “Talk” begins with a case, and a sheet needs one; choose another lesson"
        in refused(capsys, "--lesson", str(lesson), "--out", str(tmp_path / "s.pdf"))
    )


def test_the_page_holds_everything_itself(tmp_path: Path) -> None:
    sheet(tmp_path / "s.html", CASE, OTHER, "--slot", "FL")
    read = PageReader((tmp_path / "s.html").read_text(encoding="utf-8"))
    assert read.open == []
    assert read.counts["article"] == 2
    assert len(read.addresses) == 4
    assert all(address.startswith("data:image/") for address in read.addresses)
    moving = [address for address in read.addresses if address.startswith("data:image/webp")]
    for address in moving:
        with Image.open(BytesIO(base64.b64decode(address.split(",")[1]))) as film:
            assert film.n_frames > 20  # type: ignore[attr-defined]
    words = read.texts
    at = words.index("Case 3: white up, edge behind, left colour on top")
    assert words[at + 1 : at + 3] == list(name_lines(parse_case(CASE), Slot.FL))
    facts = [(word, turns) for word, turns in pairwise(words) if FACT.match(f"{word} {turns}")]
    mirror = next(place for place, (word, _) in enumerate(facts) if word.startswith("Mirror"))
    check_facts(parse_case(CASE), Slot.FL, facts[: mirror + 1])
    check_facts(parse_case(OTHER), Slot.FL, facts[mirror + 1 :])


def test_a_case_in_another_slot_is_described_as_it_is_seen_there() -> None:
    case = parse_case("corner-right-edge-left-front-up")
    assert name_lines(case, Slot.FR) == (
        "Corner on top at its slot, cross colour to the right",
        "Edge on top at the left, front colour up",
    )
    # With the cube turned so that the slot is at the back left, right and left, front and back are exchanged.
    assert name_lines(case, Slot.BL) == (
        "Corner on top at its slot, cross colour to the left",
        "Edge on top at the right, back colour up",
    )
    assert name_lines(parse_case("corner-in-right-edge-in-straight"), Slot.FL) == (
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
        ((CASE, "--learner", "Ilva"), "--learner works only with --slipping"),
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
