"""What a sheet of cases says, and how its pictures are printed."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from itertools import pairwise

import numpy as np
import pytest
from msgspec.structs import replace

from tutor.cube.faces import Face
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.method.answer import Answer
from tutor.method.cases import CASES
from tutor.publish.case_sheet import CaseSheet, case_document
from tutor.publish.document import Cells, CubePicture, Document
from tutor.publish.printing import Print, printed
from tutor.publish.subject import Ground, Pixels
from tutor.solver.task import Task, slot_sides
from tutor.ui.view import Look, Stage

Answers = Callable[[Position, Task], Answer]
INKS = ((242, 197, 61), (255, 255, 255), (176, 42, 44), (240, 148, 63), (47, 154, 92), (27, 63, 134))
HOW = Print(INKS)
DAY = date(2026, 11, 28)


def half_dimmed(stage: Stage, look: Look, size: tuple[int, int], ground: Ground | None) -> Pixels:
    """One green all over, a little greyer on the left where there are dimmed pieces."""
    pixels = np.full((size[1], size[0], 4), 255, dtype=np.uint8)
    pixels[..., :3] = (40, 150, 90)
    if stage.dimmed:
        pixels[:, : size[0] // 2, :3] = (60, 140, 95)
    return pixels


def middle(pixels: Pixels, share: float) -> list[int]:
    height, width = pixels.shape[:2]
    return [int(value) for value in pixels[height // 2, round(share * width), :3]]


def sheet_of(answers: Answers, numbers: tuple[int, ...], slot: Slot, cross: Face = Face.D) -> Document:
    cases = tuple(CASES[number - 1] for number in numbers)
    return case_document(CaseSheet(cases, slot, cross, "A few"), HOW, answers, DAY)


@pytest.fixture(scope="module")
def pictures(answers: Answers) -> dict[Slot, tuple[CubePicture, ...]]:
    """The pictures of one case in every slot."""
    return {slot: sheet_of(answers, (14,), slot).pictures for slot in Slot}


def test_in_black_and_white_what_does_not_matter_is_pale(
    pictures: dict[Slot, tuple[CubePicture, ...]],
) -> None:
    pixels = printed(pictures[Slot.FR][0], half_dimmed, grey=True)
    pale, full = middle(pixels, 0.3), middle(pixels, 0.7)
    assert len(set(pale)) == len(set(full)) == 1
    assert pale[0] > full[0] + 40


def test_in_colour_a_picture_is_as_drawn_and_ends_in_white_paper(
    pictures: dict[Slot, tuple[CubePicture, ...]],
) -> None:
    pixels = printed(pictures[Slot.FR][0], half_dimmed, grey=False)
    assert middle(pixels, 0.3) == [60, 140, 95]
    assert middle(pixels, 0.7) == [40, 150, 90]
    assert (pixels[0, :, :3] == 255).all()
    assert (pixels[:, -1, :3] == 255).all()


def test_a_slot_at_the_back_is_seen_from_behind_too(pictures: dict[Slot, tuple[CubePicture, ...]]) -> None:
    assert [len(pictures[slot]) for slot in (Slot.FR, Slot.FL, Slot.BL, Slot.BR)] == [1, 1, 2, 2]
    for slot, sides in {Slot.BL: (-180, -90), Slot.BR: (90, 180)}.items():
        front, behind = pictures[slot]
        # Seen from between the slot's two sides: behind is 180 degrees from the front, the left is negative.
        assert sides[0] < behind.stage.camera.yaw < sides[1]
        assert abs(front.stage.camera.yaw) < 90
        assert replace(behind.stage, camera=front.stage.camera) == front.stage


def test_black_and_white_has_letters_and_a_key_without_colour() -> None:
    grey = replace(HOW, grey=True)
    assert grey.look().letters
    assert not HOW.look().letters
    assert all(len(set(ink)) == 1 for ink, _, _ in grey.key.colours)
    assert [letter for _, letter, _ in grey.key.colours] == ["y", "w", "r", "o", "g", "b"]
    assert [letter for _, letter, _ in HOW.key.colours] == [""] * 6


def solved(position: Position) -> bool:
    return position.cross_home and position.home_pairs == set(SLOTS)


MIRRORED = {Slot.FR: Slot.FL, Slot.FL: Slot.FR, Slot.BL: Slot.BR, Slot.BR: Slot.BL}
"""Left and right exchanged."""


@pytest.mark.parametrize("slot", SLOTS)
def test_route_and_line_and_their_mirror_images_solve_every_case(slot: Slot, answers: Answers) -> None:
    document = sheet_of(answers, tuple(range(1, 42)), slot)
    cells = [
        cell for block in document.chapters[0].blocks if isinstance(block, Cells) for cell in block.cells
    ]
    lines = 0
    for case, cell in zip(CASES, cells, strict=True):
        assert cell.heading == f"Case {case.number}: {case.short_name(slot)}"
        assert cell.table is not None
        assert cell.table.header == (f"Slot {slot.name}", f"Mirror {MIRRORED[slot].name}")
        steps = [row for row in cell.table.rows if row.label != "Line"]
        labels = [row.label for row in steps]
        assert labels == sorted(labels, key=("Raise", "Part", "Join", "Insert").index)
        route, mirrored = (parse_turns(" ".join(row.cells[column] for row in steps)) for column in (0, 1))
        assert route == case.route(slot).turns
        assert mirrored == case.mirror.route(MIRRORED[slot]).turns
        for row in cell.table.rows[len(steps) :]:
            line, image = map(parse_turns, row.cells)
            assert solved(case.position(slot).after(line))
            assert solved(case.mirror.position(MIRRORED[slot]).after(image))
            # By hand: the top and the two faces beside the slot, never a far layer.
            assert {turn.face for turn in line} <= {Face.U, *slot_sides(slot)}
            assert line != route
            assert len(line) <= len(route)
            lines += 1
    assert 5 < lines < 41


@pytest.mark.parametrize("cross", list(Face))
def test_the_cross_colour_is_down_in_every_picture(cross: Face, answers: Answers) -> None:
    for picture in sheet_of(answers, (1, 11, 31, 41), Slot.BR, cross).pictures:
        # Sticker 9 * face + 4 is the centre of a face (tutor/ui/view.py).
        assert picture.stage.colours[9 * Face.D + 4] == cross


def test_cases_come_in_the_books_order_each_once(answers: Answers) -> None:
    document = sheet_of(answers, (38, 3, 14, 3, 30), Slot.FR)
    blocks = [block for block in document.chapters[0].blocks if isinstance(block, Cells)]
    headings = [cell.heading.split(":")[0] for block in blocks for cell in block.cells]
    assert headings == ["Case 3", "Case 14", "Case 30", "Case 38"]


def test_the_paper_palette_is_told_apart_in_grey_print() -> None:
    from render.stage.palette import load_palette

    # Lightness as ITU-R BT.601 weighs it, as printers and copiers do; from dark to light.
    greys = sorted(
        255 * (0.299 * colour.rgb[0] + 0.587 * colour.rgb[1] + 0.114 * colour.rgb[2])
        for colour in load_palette("paper").stickers
    )
    assert all(lighter - darker > 20 for darker, lighter in pairwise(greys))
