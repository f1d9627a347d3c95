"""The captions of a film as subtitles: the text form that players read beside a film, SubRip (.srt).

Numbered cues, each with its span as hours:minutes:seconds,thousandths and its text (common practice; the form
has no published standard).
"""

from __future__ import annotations

from itertools import groupby

from tutor.publish.film import Film


def subtitles(film: Film) -> str:
    """All captions with the time they are seen."""
    cues: list[str] = []
    shown = 0
    for caption, frames in groupby(film.frames, key=lambda frame: frame.words.caption):
        begin, shown = shown, shown + sum(frame.ticks for frame in frames)
        if caption:
            span = f"{_moment(begin, film.rate)} --> {_moment(shown, film.rate)}"
            cues.append(f"{len(cues) + 1}\n{span}\n{caption}\n")
    return "\n".join(cues)


def _moment(ticks: int, rate: int) -> str:
    whole, thousandths = divmod(round(1000 * ticks / rate), 1000)
    minutes, seconds = divmod(whole, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02},{thousandths:03}"
