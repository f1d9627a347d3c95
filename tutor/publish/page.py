"""A page for the browser that leads to the films of a folder: cases under headings, each with its turns.

Nothing moves on it and nothing is fetched from elsewhere.
"""

from __future__ import annotations

from base64 import b64encode
from html import escape

from msgspec import Struct

from tutor.publish.lettering import Ink, Inks


class CaseCard(Struct, frozen=True):
    """A case on the page: its name in lines, the first picture of its film, and the film's file.

    ``facts`` are pairs of a word and a text.
    """

    name: tuple[str, ...]
    still: str
    facts: tuple[tuple[str, str], ...]
    link: str


class Section(Struct, frozen=True):
    """Cards under a heading."""

    heading: str
    cards: tuple[CaseCard, ...]


_STYLE = """\
body {{ margin: 0 auto; max-width: 84rem; padding: 1.5rem; background: {ground}; color: {text};
  font: 1rem/1.45 "Source Sans 3", "Source Sans Pro", system-ui, sans-serif; }}
h1, h2 {{ font-family: "Source Serif 4", "Source Serif Pro", Georgia, serif; line-height: 1.2; }}
h2 {{ margin: 2.5rem 0 1rem; padding-top: 1rem; border-top: 1px solid {line}; }}
.cases {{ display: grid; gap: 1.5rem; grid-template-columns: repeat(auto-fill, minmax(19rem, 1fr)); }}
article {{ background: {tile}; border: 1px solid {line}; border-radius: 8px; overflow: hidden;
  break-inside: avoid; }}
article > a {{ display: block; }}
:focus-visible {{ outline: 3px solid {accent}; outline-offset: -3px; }}
img {{ display: block; width: 100%; height: auto; }}
h3 {{ margin: .8rem 1rem .4rem; font-size: 1rem; line-height: 1.3; }}
h3 small {{ display: block; font-size: 1rem; font-weight: normal; color: {muted}; }}
dl {{ display: grid; grid-template-columns: max-content 1fr; gap: .1rem .8rem; margin: 0 1rem 1rem; }}
dt {{ color: {muted}; }}
dd {{ margin: 0; }}
article p {{ margin: 0 1rem 1rem; overflow-wrap: anywhere; }}
a {{ color: {accent}; }}
@media print {{ body {{ background: none; }} }}
"""


def page(title: str, lead: str, sections: tuple[Section, ...], inks: Inks) -> str:
    """The whole page as HTML."""
    names = ("ground", "tile", "line", "text", "muted", "accent")
    style = _STYLE.format(**{name: _hex(getattr(inks, name)) for name in names})
    body = "\n".join(_section(section) for section in sections if section.cards)
    return (
        f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>\n{style}</style>\n</head>\n<body>\n"
        f"<h1>{escape(title)}</h1>\n<p>{escape(lead)}</p>\n{body}\n</body>\n</html>\n"
    )


def data_address(content: bytes, kind: str) -> str:
    """A file written into the page itself (RFC 2397)."""
    return f"data:{kind};base64,{b64encode(content).decode('ascii')}"


def _section(section: Section) -> str:
    cards = "\n".join(_card(card) for card in section.cards)
    return f'<h2>{escape(section.heading)}</h2>\n<div class="cases">\n{cards}\n</div>'


def _card(card: CaseCard) -> str:
    name = ", ".join(card.name)
    first, *rest = (escape(line) for line in card.name)
    small = "".join(f"<small>{line}</small>" for line in rest)
    facts = "".join(f"<dt>{escape(word)}</dt><dd>{escape(text)}</dd>" for word, text in card.facts)
    told = f"<dl>{facts}</dl>" if facts else ""
    address, still = escape(card.link, quote=True), escape(card.still, quote=True)
    picture = f'<a href="{address}"><img src="{still}" alt="{escape(name, quote=True)}"></a>'
    link = f'<p><a href="{address}">{escape(card.link)}</a></p>'
    return f"<article>{picture}<h3>{first}{small}</h3>{told}{link}</article>"


def _hex(ink: Ink) -> str:
    return "#{:02x}{:02x}{:02x}".format(*ink)
