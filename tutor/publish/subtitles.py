"""The captions of a film as subtitles: the text form that players read beside a film, SubRip (.srt).

Numbered cues, each with its span as hours:minutes:seconds,thousandths and its text (common practice; the form
has no published standard).
"""

from __future__ import annotations

from pathlib import Path

from tutor.publish.film import Film, cues

END = ".srt"


def subtitles(film: Film) -> str:
    """All captions with the time they are seen, each under its step and turn."""
    told = []
    for number, cue in enumerate(cues(film.frames), start=1):
        span = f"{_moment(cue.begin, film.rate)} --> {_moment(cue.end, film.rate)}"
        lines = "\n".join(filter(None, (cue.caption.heading, cue.caption.text)))
        told.append(f"{number}\n{span}\n{lines}\n")
    return "\n".join(told)


def subtitle_file(film: Path, *, burned: bool) -> Path:
    """Where the subtitles of a film go.

    Players show a file of the film's name by themselves, and one whose name only ends with it they do not; so
    captions that are in the picture already are not shown twice (from memory).
    """
    return film.with_name(f"captions-{film.stem}{END}" if burned else f"{film.stem}{END}")


def _moment(ticks: int, rate: int) -> str:
    whole, thousandths = divmod(round(1000 * ticks / rate), 1000)
    minutes, seconds = divmod(whole, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02},{thousandths:03}"
