"""What a sheet says of its cases, and their pictures."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from tutor.cube.faces import Face
from tutor.cube.position import SLOTS, Position, Slot
from tutor.method.answer import Answer
from tutor.method.cases import CASES
from tutor.publish.sheet import Print, picture_of, sheet_entries
from tutor.publish.subject import Ground, Pixels
from tutor.solver.task import Task
from tutor.ui.view import Look, Stage

Answers = Callable[[Position, Task], Answer]


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


def test_in_black_and_white_what_does_not_matter_is_pale(answers: Answers) -> None:
    how = Print(grey=True)
    (entry,) = sheet_entries(CASES[:1], how, answers)
    pixels = picture_of(entry, how, half_dimmed)
    pale, full = middle(pixels, 0.3), middle(pixels, 0.7)
    assert len(set(pale)) == len(set(full)) == 1
    assert pale[0] > full[0] + 40


def test_in_colour_a_picture_is_as_drawn_and_ends_in_white_paper(answers: Answers) -> None:
    how = Print()
    (entry,) = sheet_entries(CASES[:1], how, answers)
    pixels = picture_of(entry, how, half_dimmed)
    assert middle(pixels, 0.3) == [60, 140, 95]
    assert middle(pixels, 0.7) == [40, 150, 90]
    assert (pixels[0, :, :3] == 255).all()
    assert (pixels[:, -1, :3] == 255).all()


def test_slots_at_the_back_are_seen_in_mirrors() -> None:
    assert {slot: Print(slot).look.mirrors for slot in SLOTS} == {
        Slot.FR: False, Slot.FL: False, Slot.BL: True, Slot.BR: True,
    }  # fmt: skip


def test_black_and_white_has_letters() -> None:
    assert Print(grey=True).look.letters
    assert not Print().look.letters


@pytest.mark.parametrize("cross", list(Face))
def test_the_cross_colour_is_down_in_every_entry(cross: Face, answers: Answers) -> None:
    for entry in sheet_entries(CASES[::10], Print(Slot.BR, cross), answers):
        # Sticker 9 * face + 4 is the centre of a face (tutor/ui/view.py).
        assert entry.subject.cube.colours[9 * Face.D + 4] == cross


def test_lines_are_by_hand(answers: Answers) -> None:
    far = 0
    for entry in sheet_entries(CASES, Print(Slot.BL), answers):
        assert entry.subject.task is not None
        found = answers(entry.subject.cube.position, entry.subject.task)
        assert len(entry.line) == found.by_hand
        far += found.distance < len(entry.line)
    # With far layers too some are shorter; those sequences are not for sheets.
    assert far > 10


def test_entries_come_by_family_whatever_order_they_are_asked_in(answers: Answers) -> None:
    entries = sheet_entries(reversed(CASES), Print(), answers)
    families = [entry.case.family for entry in entries]
    assert sorted(families, key=[case.family for case in CASES].index) == families
    assert len(entries) == 41
