"""The screen on which a cube is painted: the cube, its net, a palette, and what is wrong with it so far."""

from __future__ import annotations

from functools import lru_cache

from tutor.cube.faces import Face
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.legality import BLANK
from tutor.cube.repairs import Finding, stickers_of
from tutor.cube.stickers import Rule
from tutor.screens.painting import words
from tutor.screens.painting.commands import Paint, PaintSticker, TakeColour
from tutor.screens.painting.findings import Advice, fault_sentences
from tutor.screens.painting.state import CENTRES, Painting
from tutor.screens.painting.update import advice_of, finding_of, painting_of
from tutor.screens.parts.card import writing_blocks
from tutor.screens.parts.frame import screen_view
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    Net,
    Palette,
    Stage,
    Swatch,
    Text,
    TextStyle,
    Tone,
    View,
)

_PIECE_RULES = (Rule.PIECE, Rule.ONCE, Rule.CENTRES)


@lru_cache(maxsize=2)
def painting_screen(session: Session) -> View:
    """The screen as it is until the next command."""
    painting, finding, advice = painting_of(session), finding_of(session), advice_of(session)
    marked = _marked(finding, advice)
    stage = Stage(
        painting.colours,
        camera=session.camera,
        outlined=frozenset(cubie_number(STICKERS[sticker][0]) for sticker in marked),
    )
    card = (
        Text(_hold(painting, session.settings.colour_names), TextStyle.HEADING),
        Text(words.HOW, TextStyle.SMALL, Tone.MUTED),
        *writing_blocks(session, words.ENTRY),
        Text(words.COUNTS, TextStyle.SMALL, Tone.MUTED),
        _palette(session, painting),
        _net(painting, marked),
        *_findings(finding, advice),
        *_buttons(painting, finding),
    )
    return screen_view(session, words.TITLE, stage=stage, card=card)


def _hold(painting: Painting, names: tuple[str, ...]) -> str:
    up, front = (names[painting.colours[9 * face + 4]] for face in (Face.U, Face.F))
    return words.hold(up, front)


def _marked(finding: Finding, advice: Advice | None) -> frozenset[int]:
    """Stickers of the pieces that are wrong, and of those that most likely need a change."""
    wrong = {sticker for fault in finding.faults if fault.rule in _PIECE_RULES for sticker in fault.stickers}
    if advice is not None and advice.correction is not None and advice.sure:
        wrong |= set(stickers_of(advice.correction))
    return frozenset(wrong)


def _palette(session: Session, painting: Painting) -> Palette:
    swatches = []
    for colour, name in enumerate(session.settings.colour_names):
        count = painting.colours.count(colour)
        tone = Tone.WARNING if count > 9 else Tone.GOOD if count == 9 else Tone.PLAIN
        label = words.colour_count(name, count)
        action = TakeColour(colour)
        swatches.append(Swatch(action, colour, label, painting.brush == colour, tone))
    erase = TakeColour(BLANK)
    swatches.append(Swatch(erase, BLANK, words.ERASER, painting.brush == BLANK))
    return Palette(tuple(swatches))


def _net(painting: Painting, marked: frozenset[int]) -> Net:
    actions = tuple(None if sticker in CENTRES else PaintSticker(sticker) for sticker in range(54))
    return Net(painting.colours, actions, painting.cursor, marked)


def _findings(finding: Finding, advice: Advice | None) -> tuple[Block, ...]:
    """What is wrong and what would put it right, or how much is left to paint."""
    if finding.legal:
        return (
            Text(words.CAN_BE_SOLVED, tone=Tone.GOOD),
            Button(Paint.SOLVE, words.SOLVE, "Enter", primary=True),
        )
    blocks: list[Block] = [Text(each, tone=Tone.WARNING) for each in fault_sentences(finding)]
    if advice is not None:
        blocks.append(Text(advice.text))
        if advice.correction is not None:
            blocks.append(Button(Paint.MEND, advice.label, primary=advice.sure))
    if finding.blanks:
        blocks.append(Text(words.left_to_paint(finding.blanks), tone=Tone.MUTED))
    return tuple(blocks)


def _buttons(painting: Painting, finding: Finding) -> tuple[Block, ...]:
    buttons = (
        Button(Paint.UNDO, words.UNDO, enabled=bool(painting.earlier)),
        Button(Paint.REDO, words.REDO, enabled=bool(painting.later)),
        Button(Paint.CLEAR, words.ERASE_ALL, enabled=finding.blanks < 48),
        Button(Paint.FILL, words.PAINT_SOLVED, enabled=painting.colours != painting.solved),
        Button(Act.WRITE, words.WRITE),
        Button(Paint.COPY, words.COPY),
    )
    return (ButtonRow(buttons),)
