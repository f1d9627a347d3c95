"""What is wrong with a painted cube, and which change would put it right."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import STICKERS
from tutor.cube.legality import PIECES, FaultKind
from tutor.cube.repairs import Correction, Finding, Repaint, Reseat, Swap
from tutor.cube.stickers import Rule
from tutor.screens.painting import words

MOST_FAULTS = 3
"""Faults shown at once; a person mends them one after the other."""


class Advice(Struct, frozen=True):
    """What would put the cube right: in words, the change itself when one can be offered, and its button.

    It is ``sure`` when the cube itself speaks for this change, not only the cursor that is on a piece.
    """

    text: str
    correction: Correction | None = None
    label: str = ""
    sure: bool = True


def fault_sentences(finding: Finding) -> tuple[str, ...]:
    """A sentence for each of the first faults, and one for how many more there are.

    Where a piece is wrong, its sentence says enough: the palette shows the counts already.
    """
    pieces = [fault for fault in finding.faults if fault.rule is not Rule.COUNT]
    faults = pieces or list(finding.faults)
    told = [sentence(fault.message) for fault in faults[:MOST_FAULTS]]
    rest = len(faults) - len(told)
    return (*told, words.more_faults(rest)) if rest > 0 else tuple(told)


def sentence(message: str) -> str:
    """A message as a sentence of its own."""
    return message[:1].upper() + message[1:].rstrip(".") + "."


def advice(finding: Finding, cursor: int, names: tuple[str, ...]) -> Advice | None:
    """What to do about a fully painted cube with something wrong; None for any other.

    Where any piece of a kind would do and none stands out, the cursor chooses one.
    """
    if finding.blanks or not finding.faults:
        return None
    if not finding.corrections:
        return Advice(words.NO_SINGLE_CHANGE)
    if finding.only is not None:
        return _offered((words.ONE_CHANGE,), finding.only, names)
    first = finding.corrections[0]
    if finding.likeliest is not None:
        return _offered((_which(first), _most_likely(finding.likeliest)), finding.likeliest, names)
    if not isinstance(first, Reseat):
        return Advice(f"{_which(first)} {words.COMPARE}")
    said = (_which(first), words.COMPARE, words.go_to_piece(first.kind))
    chosen = under_cursor(finding, cursor)
    if chosen is None:
        return Advice(" ".join(said))
    return replace(_offered(said, chosen, names), sure=False)


def under_cursor(finding: Finding, cursor: int) -> Correction | None:
    """The correction of the one piece under the cursor, if there is such."""
    for each in finding.corrections:
        if isinstance(each, Reseat) and cursor in PIECES[each.kind].stickers_at([each.place]):
            return each
    return None


def _offered(said: tuple[str, ...], correction: Correction, names: tuple[str, ...]) -> Advice:
    return Advice(" ".join(each for each in said if each), correction, _change(correction, names))


def _change(correction: Correction, names: tuple[str, ...]) -> str:
    """The change as something to do."""
    match correction:
        case Repaint(sticker, colour):
            return words.paint_sticker(STICKERS[sticker][1], _faces_at(sticker), names[colour])
        case Reseat(FaultKind.EDGE, place):
            return words.flip(PIECES[FaultKind.EDGE].faces[place])
        case Reseat(kind, place, steps):
            return words.twist(PIECES[kind].faces[place], clockwise=steps == 1)
        case Swap(kind, first, second):
            faces = PIECES[kind].faces
            return words.swap(faces[first], faces[second])


def _which(correction: Correction) -> str:
    """That the colours alone do not show which piece or sticker it is."""
    match correction:
        case Reseat(kind):
            return words.which_is_turned(kind)
        case Swap():
            return words.WHICH_ARE_SWAPPED
        case Repaint():
            return words.WHICH_STICKER


def _most_likely(correction: Correction) -> str:
    match correction:
        case Reseat(kind, place):
            return words.most_likely(kind, PIECES[kind].faces[place])
        case Swap(kind, first, second):
            faces = PIECES[kind].faces
            return words.most_likely_swap(faces[first], faces[second])
        case Repaint():
            return ""


def _faces_at(sticker: int) -> tuple[Face, ...]:
    """The faces of the place that a sticker belongs to."""
    cubie = STICKERS[sticker][0]
    return tuple(face for face in FACES if (cubie, face) in STICKERS)
