"""A handout as a page for the browser, which prints well; nothing is fetched from elsewhere.

Nothing moves by itself (WCAG 2.2, 2.2.2 and 2.3.3).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from html import escape
from importlib.resources import files
from json import dumps
from typing import assert_never

from msgspec.structs import replace

from tutor.publish import words
from tutor.publish.captions import Caption
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
    Stepping,
    Stop,
    Subheading,
    TurnRow,
    TurnTable,
)

Address = Callable[[CubePicture], str]
"""Where the file of a picture is; empty where there is none."""


def document_html(document: Document, still: Address) -> str:
    """The whole page."""
    writer = _Writer(document, still)
    body = "\n".join(writer.lines())
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(document.title)}</title>\n<style>\n{_asset('page.css')}</style>\n</head>\n<body>\n"
        f"{body}\n{writer.script()}</body>\n</html>\n"
    )


def _asset(name: str) -> str:
    return files("assets").joinpath("pages", name).read_text(encoding="utf-8")


class _Writer:
    """The parts of the page in their order."""

    def __init__(self, document: Document, still: Address) -> None:
        self._document, self._still = document, still
        self._stepped: dict[str, int] = {}
        """The addresses of pictures to step through, each once, with their numbers."""

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
        if any(isinstance(block, Cells) and _steps(block) for block in chapter.blocks):
            yield _tag("p", words.STEP_THROUGH, "stepping")
        for block in chapter.blocks:
            yield self._block(block)

    def _block(self, block: DocumentBlock) -> str:
        match block:
            case Subheading(text, own_page):
                return _tag("h3", text, "own-page" if own_page else "")
            case Paragraph(text):
                return _tag("p", text)
            case Cells():
                cells = "\n".join(self._cell(cell, beside=block.beside) for cell in block.cells)
                kind = "cells on-paper" if block.on_paper else "cells"
                return f'<div class="{kind}" style="--columns: {block.columns}">\n{cells}\n</div>'
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
        if cell.stepping is not None:
            return self._stepping_cell(cell, cell.stepping)
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
        caption = _tag("figcaption", picture.caption) if picture.caption else ""
        return f"<figure>{image}{caption}</figure>"

    # ------------------------------------------------------------------------------------------ stepping

    def script(self) -> str:
        """What steps through the turns, with its pictures; nothing where there are none."""
        if not self._stepped:
            return ""
        pictures = dumps(list(self._stepped), separators=(",", ":"))
        shared = f'<script type="application/json" id="pictures">{pictures}</script>\n'
        return f"{shared}<script>\n{_asset('stepping.js')}</script>\n"

    def _stepping_cell(self, cell: Cell, stepping: Stepping) -> str:
        """The name above, the picture with its buttons under it, then the turns and what is said."""
        first, *others = cell.pictures
        begin, *later = stepping.stops
        shown = self._picture(replace(begin.picture, caption=first.caption))
        turns = _list(stepping.turns, "turns")
        stops = self._stop(begin, {}) + "".join(self._stop(stop, self._shown_at(stop)) for stop in later)
        named = escape(cell.heading or first.alt, quote=True)
        steps = (
            f'<div class="stepper" role="group" aria-label="{named}">{shown}{_controls()}{turns}'
            f'<div class="said" aria-live="polite">{stops}</div></div>'
        )
        head, told = replace(cell, table=None), "" if cell.table is None else _table(cell.table)
        return f"<article>{''.join(_told(head))}{steps}{''.join(map(self._picture, others))}{told}</article>"

    def _shown_at(self, stop: Stop) -> dict[str, str]:
        """The picture of a stop; that of the first one is on the page already."""
        return {"picture": self._number(stop.picture)}

    def _stop(self, stop: Stop, picture: dict[str, str]) -> str:
        data = {**picture, "seconds": f"{stop.seconds:.1f}", "alt": stop.picture.alt}
        if stop.halfway is not None:
            data["halfway"] = self._number(stop.halfway)
        told = "".join(_sentence(caption) for caption in stop.said)
        named = " ".join(f'data-{name}="{escape(text, quote=True)}"' for name, text in data.items())
        return f"<div {named}>{told}</div>"

    def _number(self, picture: CubePicture) -> str:
        return str(self._stepped.setdefault(self._still(picture), len(self._stepped)))


def _controls() -> str:
    """Back, play and next turn, and the speed; hidden until the script is there."""
    labels = f'data-play="{words.PLAY}" data-pause="{words.PAUSE}"'
    speeds = "".join(
        f'<option value="{speed}"{" selected" if speed == "1" else ""}>{escape(name)}</option>'
        for speed, name in words.SPEEDS
    )
    return (
        f'<div class="controls" hidden><button type="button">{words.BACK}</button>'
        f'<button type="button" class="main" {labels}>{words.PLAY}</button>'
        f'<button type="button">{words.NEXT_TURN}</button>'
        f"<label>{words.SPEED} <select>{speeds}</select></label></div>"
    )


def _sentence(caption: Caption) -> str:
    heading = _tag("b", caption.heading) if caption.heading else ""
    return f"<p>{heading}{escape(caption.text)}</p>"


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


def _steps(block: Cells) -> bool:
    return any(cell.stepping is not None for cell in block.cells)
