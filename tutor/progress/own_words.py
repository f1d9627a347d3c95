"""A learner's own line for a case: kept in the store, and carried by exports and merges.

What learners explain to themselves sticks (Chi and others, Cognitive Science 13(2), 1989). Of two lines of a
learner for one case the later one counts; an empty one stands for a line that was removed.
"""

from __future__ import annotations

from datetime import datetime

import msgspec

from tutor.method.cases import CASES, parse_case
from tutor.progress import words
from tutor.progress.attempt import AttemptError, check_learner, check_time, read_time, time_of
from tutor.quoting import quotable

LONGEST_LINE = 80
"""Characters of a line at most."""
MARK = '"own_words":'
"""What a JSON line has that is no attempt; in a text the quotes would be written with a backslash."""


class OwnWords(msgspec.Struct, frozen=True):
    """What a learner says of a case, and when it was written, in UTC; ``text`` is empty once removed."""

    learner: str
    case: str
    time: datetime
    text: str

    def __post_init__(self) -> None:
        check_learner(self.learner)
        if parse_case(self.case).slug != self.case:
            raise AttemptError(words.not_the_slug(parse_case(self.case).slug))
        check_time(self.time)
        check_line(self.text)


def check_line(text: str) -> str:
    """The line, when it can be one. Raises AttemptError."""
    if len(text) > LONGEST_LINE:
        raise AttemptError(words.own_line_too_long(LONGEST_LINE, len(text)))
    # The signs with which a spreadsheet begins a formula begin no line.
    if not text.isprintable() or text != text.strip() or text[:1] in tuple("=+-@"):
        raise AttemptError(words.OWN_LINE_BROKEN)
    return text


class _Line(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    learner: str
    case: str
    time: datetime
    own_words: str


_DECODER, _ENCODER = msgspec.json.Decoder(_Line), msgspec.json.Encoder()


def format_own(own: OwnWords) -> str:
    """The words as a JSON object on one line, without the line's end."""
    return _ENCODER.encode(_Line(own.learner, own.case, own.time, own.text)).decode("utf-8")


def parse_own(line: str | bytes) -> OwnWords:
    """The words that a JSON line holds. Raises AttemptError."""
    try:
        read = _DECODER.decode(line)
        return own_words(read.learner, read.case, read.time, read.own_words)
    except AttemptError:
        raise
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, ValueError) as fault:
        raise AttemptError(quotable(str(fault))) from fault


def own_words(learner: str, case: str, time: datetime, text: str) -> OwnWords:
    """The words with their time in UTC. Raises AttemptError."""
    try:
        return OwnWords(learner, case, read_time(time), text)
    except AttemptError:
        raise
    except ValueError as fault:
        raise AttemptError(quotable(str(fault))) from fault


def nothing_written(learner: str) -> OwnWords:
    """The words of a learner who has done nothing yet: they carry the name, and all others are later."""
    return OwnWords(learner, CASES[0].slug, time_of(0.0), "")
