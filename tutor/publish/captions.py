"""Captions: what a film says at one time, short enough to be read beside a moving cube."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from tutor.session.beats import reading_seconds

READING_SPEED = 17.0
"""Characters a second that a viewer reads with ease (common practice for subtitles)."""
MOST_CHARACTERS = 100
"""A longer text is told in several captions, each of whole sentences."""
_BETWEEN_SENTENCES = re.compile(r"(?<=[.!?])\s+")


class Caption(Struct, frozen=True):
    """A text, and over it what it is about: a step and its turn. Without a text nothing is said.

    One that goes on from the caption before it has the same heading, which is spoken once.
    """

    heading: str = ""
    text: str = ""
    goes_on: bool = False

    @property
    def in_one_line(self) -> str:
        """All of it, as it is spoken."""
        return f"{self.heading}. {self.text}" if self.heading and not self.goes_on else self.text

    @property
    def seconds(self) -> float:
        """How long it stays in view so that it can be read."""
        return max(reading_seconds(self.in_one_line), len(self.text) / READING_SPEED)


NOTHING = Caption()


def captions_of(text: str, heading: str = "") -> tuple[Caption, ...]:
    """The text as captions, one after the other; none for an empty text."""
    return tuple(Caption(heading, part, bool(number)) for number, part in enumerate(_parts(text)))


def _parts(text: str) -> Iterator[str]:
    part = ""
    for sentence in _BETWEEN_SENTENCES.split(text.strip()):
        if part and len(part) + len(sentence) >= MOST_CHARACTERS:
            yield part
            part = ""
        part = f"{part} {sentence}".strip()
    if part:
        yield part
