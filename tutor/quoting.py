"""Text from elsewhere, shown where people read: what a terminal or a screen would obey is shown, not done.

Names, files, arguments and what the system says go through here before they are quoted. The module lies below
all packages, since all of them quote something.
"""

from __future__ import annotations

import re

_OBEYED = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Control characters, ends of lines and paragraphs, what turns the order of writing round (Unicode Standard,
section 23.2 and Annex 9), and bytes of file names that are no text."""
_USUAL = {"\n": "\\n", "\r": "\\r", "\t": "\\t"}


def visible(text: object) -> str:
    """The text with every character that would be obeyed as an escape that can be read."""
    return _OBEYED.sub(lambda found: _escape(found[0]), str(text))


def obeyed(text: str) -> str:
    """The first character of a text of one line that would be obeyed, as an escape; empty without one."""
    found = _OBEYED.search(text)
    return _escape(found[0]) if found else ""


def visible_lines(text: str) -> str:
    """The same for text of several lines, whose ends stay."""
    return "\n".join(map(visible, text.split("\n")))


def quotable(text: str, longest: int = 20) -> str:
    """A text fit to be quoted in a message: short, and visible."""
    # Escapes take more room than what they stand for.
    shown = visible(text[: longest + 1])
    return shown if len(shown) <= longest else shown[: longest - 1] + "…"


class ToldError(ValueError):
    """Something wrong in what a person wrote or named; the message is for people, in one visible line."""

    def __init__(self, message: object) -> None:
        super().__init__(visible(message))


def _escape(character: str) -> str:
    code = ord(character)
    return _USUAL.get(character) or (f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}")
