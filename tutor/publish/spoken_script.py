"""The script of a film to speak from: when each sentence is seen, under the number of its scene."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from tutor.publish import words
from tutor.publish.captions import Caption
from tutor.publish.film import FilmPace, Passage, cues, film_of, with_passes
from tutor.publish.subject import Shot


def spoken_script(passages: tuple[Passage, ...], shot: Shot, pace: FilmPace, speed: float, rate: int) -> str:
    """Every sentence with the minute and second at which it comes; a line for each scene says its number."""
    return "\n".join(_lines(passages, shot, pace, speed, rate))


def _lines(
    passages: tuple[Passage, ...], shot: Shot, pace: FilmPace, speed: float, rate: int
) -> Iterator[str]:
    begin = 0
    for number, together in groupby(with_passes(passages, pace), key=lambda passage: passage.scene):
        film = film_of(tuple(together), shot, pace, speed, rate)
        yield words.scene_heading(number, film.seconds)
        yield from (_line(begin + cue.begin, rate, cue.caption) for cue in cues(film.frames))
        yield ""
        begin += film.ticks


def _line(ticks: int, rate: int, caption: Caption) -> str:
    minutes, seconds = divmod(ticks / rate, 60)
    return f"{int(minutes)}:{seconds:04.1f}  {caption.in_one_line}"
