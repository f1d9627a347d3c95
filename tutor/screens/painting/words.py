"""What is said about a painted cube: what is wrong, and which change would make it right."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import STICKERS, place_name
from tutor.cube.legality import PIECES, FaultKind
from tutor.cube.repairs import Correction, Exchange, Finding, Repaint, Reseat
from tutor.cube.stickers import Rule
from tutor.screens.painting.state import CENTRES, Colours

MOST_FAULTS = 3
"""Faults told at once; one mends them one after the other."""
_SIDE = {
    Face.U: "top",
    Face.D: "bottom",
    Face.L: "left",
    Face.R: "right",
    Face.F: "front",
    Face.B: "back",
}
_PLURALS = {FaultKind.CORNER: "corners", FaultKind.EDGE: "edges"}


@dataclass(frozen=True, slots=True)
class Advice:
    """What would make the cube right: in words, the change itself when one can be offered, and its button.

    It is ``sure`` when the cube itself speaks for this change, not only the cursor that is on a piece.
    """

    text: str
    correction: Correction | None = None
    label: str = ""
    sure: bool = True


def hold_words(colours: Colours, names: tuple[str, ...]) -> str:
    """How to hold the cube, by its centres."""
    up, front = (names[colours[9 * face + 4]] for face in (Face.U, Face.F))
    return f"{up.capitalize()} on top, {front} in front"


def fault_sentences(finding: Finding) -> tuple[str, ...]:
    """A sentence for each of the first faults, and one for how many more there are.

    Where a piece is wrong, that says it: then the counts, which the palette shows, are not told again.
    """
    pieces = [fault for fault in finding.faults if fault.rule is not Rule.COUNT]
    faults = pieces or list(finding.faults)
    told = [sentence(fault.message) for fault in faults[:MOST_FAULTS]]
    rest = len(faults) - len(told)
    return (*told, f"And {rest} more.") if rest > 0 else tuple(told)


def sentence(message: str) -> str:
    """A message as a sentence of its own."""
    return message[:1].upper() + message[1:].rstrip(".") + "."


def advice(finding: Finding, cursor: int, names: tuple[str, ...]) -> Advice | None:
    """What to do about a fully painted cube with something wrong; None for any other.

    Where any piece of a kind would do and none stands out, the one under the cursor can be chosen.
    """
    if finding.blanks or not finding.faults:
        return None
    if not finding.corrections:
        return Advice("No single change makes this right. Compare the cube in your hand, piece by piece.")
    first = finding.corrections[0]
    if finding.only is not None:
        return _offered("One change makes it right. ", finding.only, names)
    if finding.likeliest is not None:
        return _offered(_any_would_do(first) + _stands_out(finding.likeliest), finding.likeliest, names)
    text = _any_would_do(first) + "Compare the cube in your hand."
    if not isinstance(first, Reseat):
        return Advice(text)
    text += f" Go to the {first.kind.value} that differs, and change it here."
    chosen = under_cursor(finding, cursor)
    return Advice(text) if chosen is None else replace(_offered(text, chosen, names), sure=False)


def under_cursor(finding: Finding, cursor: int) -> Correction | None:
    """The correction of the one piece under the cursor, if there is such."""
    for each in finding.corrections:
        if isinstance(each, Reseat) and cursor in PIECES[each.kind].stickers_at([each.place]):
            return each
    return None


def _offered(text: str, correction: Correction, names: tuple[str, ...]) -> Advice:
    told = _told(correction, names)
    return Advice(text.strip(), correction, told[:1].upper() + told[1:])


def _told(correction: Correction, names: tuple[str, ...]) -> str:
    """The change as something to do."""
    match correction:
        case Repaint(sticker, colour):
            return f"paint {sticker_words(sticker)} {names[colour]}"
        case Reseat(FaultKind.EDGE, place):
            return f"flip the edge at {PIECES[FaultKind.EDGE].name(place)}"
        case Reseat(kind, place, steps):
            way = "clockwise" if steps == 1 else "counterclockwise"
            return f"twist the corner at {PIECES[kind].name(place)} {way}"
        case Exchange(kind, first, second):
            pieces = PIECES[kind]
            return f"swap the {_PLURALS[kind]} at {pieces.name(first)} and {pieces.name(second)}"


def _any_would_do(correction: Correction) -> str:
    """Why the colours alone do not say which piece it is."""
    match correction:
        case Reseat(FaultKind.CORNER):
            return "Twisting back any one corner would do, so the colours alone do not say which. "
        case Reseat():
            return "Flipping any one edge would do, so the colours alone do not say which. "
        case Exchange():
            return "Swapping any two edges or any two corners would do, so the colours do not say which. "
        case Repaint():
            return "More than one sticker could be the wrong one. "


def _stands_out(correction: Correction) -> str:
    match correction:
        case Reseat(kind, place):
            where = PIECES[kind].name(place)
            return f"Only the {kind.value} at {where} would then be home, so it is most likely that one."
        case Exchange(kind, first, second):
            where = f"{PIECES[kind].name(first)} and {PIECES[kind].name(second)}"
            return f"Only the {_PLURALS[kind]} at {where} would then be home, so it is most likely those."
        case Repaint():
            return ""


def sticker_words(sticker: int) -> str:
    """A sticker by its side and its piece."""
    cubie, face = STICKERS[sticker]
    if sticker in CENTRES:
        return f"the middle of the {_SIDE[face]}"
    faces = tuple(each for each in FACES if (cubie, each) in STICKERS)
    kind = FaultKind.EDGE if len(faces) == 2 else FaultKind.CORNER
    return f"the {_SIDE[face]} of the {kind.value} at {place_name(faces)}"
