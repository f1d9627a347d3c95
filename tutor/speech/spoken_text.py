"""Sentences as they are spoken: turns in words instead of letters."""

from __future__ import annotations

import re

from tutor.speech import words

_MOVE = r"(?:[UDLRFB]w?|[xyz])(?:2|['’](?!\w))?(?!\w)"
_TURN = re.compile(r"(?<![\w'’])(?:([UDLRFB])(w?)|([xyz]))(2|['’](?!\w))?(?!\w)( layers?\b)?")
"""A turn by its letter: R, R', Rw2, y; and the “R layer”, whose word comes after it."""
_FOLLOWED = re.compile(rf"(?<![\w'’])({_MOVE}) (?={_MOVE})")
"""A turn with another right after it."""
_GOES_ON = re.compile(r" \w")
_SLOT = re.compile(r"\b(FR|FL|BL|BR)\b")


def spoken_text(text: str) -> str:
    """The sentence with every turn and slot in words: “R'” is “right layer, back”.

    In a sequence a comma lets one turn be heard after the other.
    """
    apart = _FOLLOWED.sub(r"\1, then ", text)
    return _SLOT.sub(lambda slot: words.SLOTS[slot[1]], _TURN.sub(_turn, apart))


def _turn(found: re.Match[str]) -> str:
    suffix = found[4] or ""
    # The sentence goes on after the way, which a comma ends.
    after = "," if suffix and _GOES_ON.match(found.string, found.end()) else ""
    return f"{_what(found)}{words.SUFFIXES[suffix]}{after}"


def _what(found: re.Match[str]) -> str:
    """What turns: one layer, two, or the whole cube."""
    if found[3]:
        return words.WHOLE_CUBE.format(words.LAYERS[words.TURNS_LIKE[found[3]]])
    layer = words.LAYERS[found[1]]
    return words.WIDE.format(layer.removesuffix(" layer")) if found[2] else layer
