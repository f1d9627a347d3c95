"""Sentences as they are spoken: turns in words instead of letters."""

from __future__ import annotations

import re

from tutor.speech import words

_TURN = re.compile(r"(?<![\w'’])([UDLRFB])(w?)(2|['’](?!\w))?(?![\w])( layers?\b)?")
"""A turn by its letter: R, R', Rw2; and the “R layer”, whose word comes after it."""
_GOES_ON = re.compile(r" \w")
_SLOT = re.compile(r"\b(FR|FL|BL|BR)\b")


def spoken_text(text: str) -> str:
    """The sentence with every turn and slot in words: “R'” is “right layer, back”.

    In a sequence a comma lets one turn be heard after the other.
    """
    apart = re.sub(r"([UDLRFB]w?(?:2|['’])?) (?=[UDLRFB](?:w|2|['’]|\b))", r"\1, then ", text)
    return _SLOT.sub(lambda slot: words.SLOTS[slot[1]], _TURN.sub(_turn, apart))


def _turn(found: re.Match[str]) -> str:
    letter, wide, suffix = found.group(1), found[2], found[3] or ""
    layer = words.LAYERS[letter]
    if wide:
        layer = words.WIDE.format(layer.removesuffix(" layer"))
    # The sentence goes on after the way, which a comma ends.
    after = "," if suffix and _GOES_ON.match(found.string, found.end()) else ""
    return f"{layer}{words.SUFFIXES[suffix]}{after}"
