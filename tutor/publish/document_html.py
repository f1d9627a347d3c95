"""A handout as a page for the browser, which prints well; nothing is fetched from elsewhere.

Nothing moves by itself (WCAG 2.2, 2.2.2 and 2.3.3).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from html import escape
from json import dumps
from typing import assert_never

from tutor.publish import words
from tutor.publish.document import (
    AnswerList,
    BoxedText,
    Boxes,
    Cell,
    Cells,
    Chapter,
    ColourKey,
    CubePicture,
    Document,
    DocumentBlock,
    Paragraph,
    SignCell,
    SignRow,
    SignTable,
    Subheading,
    TurnRow,
    TurnTable,
)

Address = Callable[[CubePicture], str]
"""Where the file of a picture is; empty where there is none."""

_STYLE = """\
:root { --text: #2a2622; --muted: #5f574c; --line: #857b6a; --ground: #fdfaf4; --accent: #2b5c74; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 64rem; padding: 1.5rem; background: var(--ground); color: var(--text);
  font: 1rem/1.45 "Source Sans 3", "Source Sans Pro", system-ui, sans-serif; }
h1, h2, h3 { font-family: "Source Serif 4", "Source Serif Pro", Georgia, serif; line-height: 1.2; }
h2 { font-size: 2rem; margin: .3rem 0; }
h3 { margin: 2rem 0 .6rem; }
section { margin-bottom: 4rem; }
.lead { font-size: 1.2rem; padding-bottom: .8rem; border-bottom: 1px solid var(--line); }
.form { display: flex; gap: 2rem; flex-wrap: wrap; color: var(--muted); }
.form span { flex: 1; }
.field { border-bottom: 1px solid var(--line); min-width: 10rem; color: var(--text); }
.cells { display: grid; gap: 1.5rem; grid-template-columns: repeat(var(--columns), minmax(0, 1fr)); }
article { break-inside: avoid; }
.beside { display: grid; grid-template-columns: minmax(0, 2fr) minmax(0, 3fr); gap: .8rem; }
figure { margin: 0; max-width: 20rem; }
figcaption, .detail { color: var(--muted); font-size: .9rem; }
img { display: block; width: 100%; height: auto; }
button { display: block; width: 100%; padding: 0; border: 0; background: none; font: inherit;
  cursor: pointer; }
button:focus-visible { outline: 3px solid var(--accent); }
button span { display: inline-block; margin-top: .3rem; padding: .2rem .8rem; border-radius: 5px;
  background: var(--accent); color: #fdfaf4; }
.sign { display: inline-block; margin: 0 0 .4rem; padding: .1rem .8rem; border: 1px solid var(--accent);
  border-radius: 1rem; font-weight: 600; color: var(--accent); }
h4 { margin: 0 0 .3rem; font-size: 1rem; }
article p { margin: 0 0 .3rem; }
.turns { display: flex; flex-wrap: wrap; gap: .3rem; margin: .3rem 0; padding: 0; list-style: none; }
.turns li { min-width: 2.2rem; padding: .2rem .5rem; border: 1px solid var(--line); border-radius: 6px;
  text-align: center; font-weight: 600; }
.options { margin: .3rem 0; padding: 0; list-style: none; }
.options li::before { content: ""; display: inline-block; width: .8em; height: .8em; margin-right: .6em;
  border: 1px solid var(--line); border-radius: 2px; }
.write { border-bottom: 1px solid var(--line); min-height: 2.2rem; color: var(--muted); }
table { border-collapse: collapse; }
th { padding: 0 .8rem 0 0; text-align: left; vertical-align: top; font-weight: normal; color: var(--muted); }
td { padding: 0 1rem 0 0; vertical-align: top; font-weight: 600; }
.boxes { display: grid; gap: 1.5rem; grid-template-columns: repeat(auto-fit, minmax(18rem, 1fr)); }
.box { margin: 1.2rem 0; padding: .8rem 1.2rem; border: 1px solid var(--line); border-radius: 8px;
  break-inside: avoid; }
.box.dashed { border-style: dashed; }
.key { display: flex; flex-wrap: wrap; gap: .3rem 1.2rem; color: var(--muted); list-style: none; padding: 0; }
.key i { display: inline-block; width: .9em; height: .9em; margin-right: .4em; border: 1px solid #505050;
  vertical-align: -.1em; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.signs { overflow-x: auto; }
.signs table { border-collapse: separate; border-spacing: 2px; }
.signs th, .signs td { padding: .1rem .25rem; text-align: center; font-size: .85rem; border-radius: 4px;
  print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.signs th[scope=row] { text-align: left; white-space: nowrap; color: var(--text); }
.signs td b { vertical-align: super; font-size: .7em; }
.answers { padding-left: 2rem; }
.answers li p { margin: 0; }
footer { border-top: 1px solid var(--line); color: var(--muted); }
@media (max-width: 48rem) {
  .cells { grid-template-columns: repeat(min(2, var(--columns)), minmax(0, 1fr)); } }
@media (max-width: 34rem) { .cells { grid-template-columns: minmax(0, 1fr); } }
@media print { body { background: none; padding: 0; max-width: none; } button span { display: none; }
  section { break-before: page; } section:first-of-type { break-before: auto; } h3 { break-after: avoid; } }
"""
_SCRIPT = """\
for (const button of document.querySelectorAll("button[data-moving]")) {
  const picture = button.querySelector("img"), label = button.querySelector("span");
  const still = picture.src;
  button.addEventListener("click", () => {
    const moves = button.getAttribute("aria-pressed") === "true";
    picture.src = moves ? still : button.dataset.moving;
    button.setAttribute("aria-pressed", String(!moves));
    label.textContent = moves ? PLAY : STOP;
  });
}
"""


def document_html(document: Document, still: Address, moving: Address) -> str:
    """The whole page; ``moving`` has the films of those pictures that play."""
    writer = _Writer(document, still, moving)
    body = "\n".join(writer.lines())
    moves = any(picture.passage for picture in document.pictures)
    labels = f"const PLAY = {dumps(words.PLAY)}, STOP = {dumps(words.STOP)};\n"
    script = f"<script>\n{labels}{_SCRIPT}</script>\n" if moves else ""
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(document.title)}</title>\n<style>\n{_STYLE}</style>\n</head>\n<body>\n"
        f"{body}\n{script}</body>\n</html>\n"
    )


class _Writer:
    """The parts of the page in their order."""

    def __init__(self, document: Document, still: Address, moving: Address) -> None:
        self._document, self._still, self._moving = document, still, moving

    def lines(self) -> Iterator[str]:
        """All within the body."""
        document = self._document
        if document.contents:
            yield _tag("h1", document.title)
            yield from self._contents()
        for number, chapter in enumerate(document.chapters, start=1):
            yield f'<section id="chapter-{number}">'
            yield from self._chapter(chapter)
            yield "</section>"
        yield "<footer>"
        yield from (_tag("p", text) for text in document.legend)
        yield f"{_tag('p', words.program_and_day(document.day))}</footer>"

    def _contents(self) -> Iterator[str]:
        yield f"<nav>{_tag('h3', words.CONTENTS)}<ul>"
        for number, chapter in enumerate(self._document.chapters, start=1):
            named = escape(words.named_chapter(chapter.sign, chapter.title))
            yield f'<li><a href="#chapter-{number}">{named}</a></li>'
        yield "</ul></nav>"

    def _chapter(self, chapter: Chapter) -> Iterator[str]:
        learner = self._document.learner
        if chapter.form:
            fields = (_field(words.NAME, learner), _field(words.DATE, ""))
            yield f'<div class="form">{_tag("span", chapter.sign)}{"".join(fields)}</div>'
        elif learner:
            yield _tag("p", learner)
        yield _tag("h2" if self._document.contents else "h1", chapter.title)
        yield _tag("p", chapter.lead, "lead")
        if any(isinstance(block, Cells) and _plays(block) for block in chapter.blocks):
            yield _tag("p", words.PRESS_FOR_ROUTE)
        for block in chapter.blocks:
            yield self._block(block)

    def _block(self, block: DocumentBlock) -> str:
        match block:
            case Subheading(text):
                return _tag("h3", text)
            case Paragraph(text):
                return _tag("p", text)
            case Cells():
                cells = "\n".join(self._cell(cell, beside=block.beside) for cell in block.cells)
                return f'<div class="cells" style="--columns: {block.columns}">\n{cells}\n</div>'
            case Boxes(boxes):
                return f'<div class="boxes">{"".join(map(_boxed, boxes))}</div>'
            case AnswerList():
                return _answers(block)
            case ColourKey():
                return _key(block)
            case SignTable():
                return _signs(block)
            case _:
                assert_never(block)

    def _cell(self, cell: Cell, *, beside: bool) -> str:
        sign = _tag("p", cell.sign, "sign") if cell.sign else ""
        pictures = "".join(map(self._picture, cell.pictures))
        told = "".join(_told(cell))
        if beside and cell.pictures:
            return (
                f'<article>{sign}<div class="beside"><div>{pictures}</div><div>{told}</div></div></article>'
            )
        return f"<article>{sign}{pictures}{told}</article>"

    def _picture(self, picture: CubePicture) -> str:
        image = f'<img src="{self._still(picture)}" alt="{escape(picture.alt, quote=True)}">'
        if picture.passage is not None:
            play = _tag("span", words.PLAY)
            moving = f'data-moving="{self._moving(picture)}"'
            image = f'<button type="button" {moving} aria-pressed="false">{image}{play}</button>'
        caption = _tag("figcaption", picture.caption) if picture.caption else ""
        return f"<figure>{image}{caption}</figure>"


def _told(cell: Cell) -> Iterator[str]:
    if cell.heading:
        yield _tag("h4", cell.heading)
    if cell.turns:
        yield _list(cell.turns, "turns")
    yield from (_tag("p", text) for text in cell.texts)
    yield from (_tag("p", text, "detail") for text in cell.details)
    if cell.options:
        yield _list(cell.options, "options")
    for number in range(cell.lines):
        yield _tag("div", "" if number else cell.label, "write")
    if cell.table is not None:
        yield _table(cell.table)


def _table(table: TurnTable) -> str:
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in table.header)
    rows = "".join(map(_row, table.rows))
    return f"<table><tr><td></td>{head}</tr>{rows}</table>"


def _row(row: TurnRow) -> str:
    turns = "".join(_tag("td", text) for text in row.cells)
    return f'<tr><th scope="row">{escape(row.label)}</th>{turns}</tr>'


def _boxed(block: BoxedText) -> str:
    text = _tag("p", block.text) if block.text else ""
    points = _list(block.points) if block.points else ""
    lines = _tag("div", "", "write") * block.lines
    kind = "box dashed" if block.dashed else "box"
    return f'<div class="{kind}">{_tag("h4", block.title)}{text}{points}{lines}</div>'


def _answers(block: AnswerList) -> str:
    answers = "".join(
        f'<li value="{answer.number}">{"".join(_tag("p", text) for text in answer.texts)}</li>'
        for answer in block.answers
    )
    return f'{_tag("h3", block.title)}<ol class="answers">{answers}</ol>'


def _key(block: ColourKey) -> str:
    colours = "".join(
        f'<li><i style="background: #{ink[0]:02x}{ink[1]:02x}{ink[2]:02x}"></i>'
        f"{escape(words.letter_and_colour(letter, name))}</li>"
        for ink, letter, name in block.colours
    )
    return f'<ul class="key"><li>{escape(block.title)}</li>{colours}</ul>'


def _signs(block: SignTable) -> str:
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in block.header)
    rows = "".join(map(_sign_row, block.rows))
    return f'<div class="signs"><table><tr><td></td>{head}<td></td></tr>{rows}</table></div>'


def _sign_row(row: SignRow) -> str:
    cells = "".join(map(_sign, row.cells))
    return f'<tr><th scope="row">{escape(row.label)}</th>{cells}<td>{escape(row.figure)}</td></tr>'


def _sign(cell: SignCell) -> str:
    ground = "" if cell.ground is None else "background: #{:02x}{:02x}{:02x}".format(*cell.ground)
    white = "; color: #fff" if cell.white else ""
    dot = "<b>•</b>" if cell.dotted else ""
    return f'<td style="{ground}{white}">{escape(cell.sign)}{dot}</td>'


def _list(texts: tuple[str, ...], kind: str = "") -> str:
    named = f' class="{kind}"' if kind else ""
    return f"<ul{named}>{''.join(_tag('li', text) for text in texts)}</ul>"


def _field(name: str, text: str) -> str:
    return f'{escape(name)} <b class="field">{escape(text)}</b>'


def _tag(name: str, text: str, kind: str = "") -> str:
    """A text within a tag."""
    named = f' class="{kind}"' if kind else ""
    return f"<{name}{named}>{escape(text)}</{name}>"


def _plays(block: Cells) -> bool:
    return any(picture.passage for cell in block.cells for picture in cell.pictures)
