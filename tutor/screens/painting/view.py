"""The screen on which a cube is painted: the cube, its net, a palette, and what is wrong with it so far."""

from __future__ import annotations

from functools import lru_cache

from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.legality import BLANK
from tutor.cube.repairs import Finding, stickers_of
from tutor.cube.stickers import Rule
from tutor.screens.painting.commands import Paint, PaintSticker, TakeColour
from tutor.screens.painting.state import CENTRES, Painting
from tutor.screens.painting.update import advice_of, finding_of, painting_of
from tutor.screens.painting.words import Advice, fault_sentences, hold_words
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
    """The cube being painted."""
    painting, finding, advice = painting_of(session), finding_of(session), advice_of(session)
    marked = _marked(finding, advice)
    stage = Stage(
        painting.colours,
        camera=session.camera,
        outlined=frozenset(cubie_number(STICKERS[sticker][0]) for sticker in marked),
    )
    card = (
        Text(hold_words(painting.colours, session.settings.colour_names), TextStyle.HEADING),
        Text(
            "Click stickers, here or on the cube. Or go with the arrow keys and press a colour’s letter.",
            TextStyle.SMALL,
            Tone.MUTED,
        ),
        *writing_blocks(session, "Six faces, or a scramble, then Enter"),
        Text("Colours, and how many of 9 there are", TextStyle.SMALL, Tone.MUTED),
        _palette(session, painting),
        _net(painting, marked),
        *_findings(finding, advice),
        *_buttons(painting, finding),
    )
    return screen_view(session, "Paint your cube", stage=stage, card=card)


def _marked(finding: Finding, advice: Advice | None) -> frozenset[int]:
    """Stickers of the pieces that are wrong, and of those that should most likely be changed."""
    wrong = {sticker for fault in finding.faults if fault.rule in _PIECE_RULES for sticker in fault.stickers}
    if advice is not None and advice.correction is not None and advice.sure:
        wrong |= set(stickers_of(advice.correction))
    return frozenset(wrong)


def _palette(session: Session, painting: Painting) -> Palette:
    swatches = []
    for colour, name in enumerate(session.settings.colour_names):
        count = painting.colours.count(colour)
        tone = Tone.WARNING if count > 9 else Tone.GOOD if count == 9 else Tone.PLAIN
        label = f"{name[0].upper()} {count}"
        action = TakeColour(colour)
        swatches.append(Swatch(action, colour, label, painting.brush == colour, tone))
    erase = TakeColour(BLANK)
    swatches.append(Swatch(erase, BLANK, "Erase", painting.brush == BLANK))
    return Palette(tuple(swatches))


def _net(painting: Painting, marked: frozenset[int]) -> Net:
    actions = tuple(None if sticker in CENTRES else PaintSticker(sticker) for sticker in range(54))
    return Net(painting.colours, actions, painting.cursor, marked)


def _findings(finding: Finding, advice: Advice | None) -> tuple[Block, ...]:
    """What is wrong and what would mend it, or how far one is."""
    if finding.legal:
        return (
            Text("All pieces are there, and turns can solve it.", tone=Tone.GOOD),
            Button(Paint.SOLVE, "Solve this cube", primary=True),
        )
    blocks: list[Block] = [Text(each, tone=Tone.WARNING) for each in fault_sentences(finding)]
    if advice is not None:
        blocks.append(Text(advice.text))
        if advice.correction is not None:
            blocks.append(Button(Paint.MEND, advice.label, primary=advice.sure))
    if finding.blanks:
        plural = "sticker" if finding.blanks == 1 else "stickers"
        blocks.append(Text(f"{finding.blanks} {plural} to go.", tone=Tone.MUTED))
    return tuple(blocks)


def _buttons(painting: Painting, finding: Finding) -> tuple[Block, ...]:
    buttons = (
        Button(Paint.UNDO, "Take back", enabled=bool(painting.earlier)),
        Button(Paint.REDO, "Make again", enabled=bool(painting.later)),
        Button(Paint.CLEAR, "Erase all", enabled=finding.blanks < 48),
        Button(Paint.FILL, "Paint it solved", enabled=painting.colours != painting.solved),
        Button(Act.WRITE, "Write or paste"),
        Button(Paint.COPY, "Copy"),
    )
    return (ButtonRow(buttons),)
