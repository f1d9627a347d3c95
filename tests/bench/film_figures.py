"""A film of a case, and what it cannot do without: every picture drawn once, and encoding from memory."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path

from msgspec import Struct
from PIL import Image

from tutor.app.drawing import draw_stage, inks_of
from tutor.cube.position import Slot
from tutor.method.answer import answer
from tutor.method.cases import parse_case
from tutor.publish.cinema import ENCODERS, write_film
from tutor.publish.film import Film, film_of
from tutor.publish.lettering import Lettering
from tutor.publish.passages import route_passage
from tutor.publish.projector import Prepare, Projector
from tutor.publish.subject import Shot, case_subject
from tutor.solver.search import Solver

CASE = "corner-right-edge-front-front-up"


class FromMemory(Projector):
    """Gives pictures drawn beforehand instead of drawing them."""

    def __init__(self, film: Film, drawn: list[Image.Image], lettering: Lettering) -> None:
        super().__init__(film, draw_stage, lettering)
        self._drawn = drawn

    def samples(self, count: int) -> list[Image.Image]:
        step = max(1, len(self._drawn) // count)
        return self._drawn[::step][:count]

    def images(self, prepare: Prepare = lambda part: part) -> Iterator[tuple[Image.Image, int]]:
        for image, frame in zip(self._drawn, self.film.frames, strict=True):
            yield prepare(image), frame.ticks


def case_film(size: tuple[int, int]) -> Film:
    """The route of one case."""
    subject = case_subject(parse_case(CASE), Slot.FR)
    solver = Solver.open()
    return film_of((route_passage(subject, lambda at, task: answer(solver, at, task)),), Shot(size=size))


def timed(act: Callable[[], object]) -> float:
    begun = time.perf_counter()
    act()
    return time.perf_counter() - begun


class FilmCosts(Struct, frozen=True):
    """Seconds for a film written as the program does it, and for its two parts alone."""

    whole: float
    encoding: float
    """The same pictures, kept in memory, with the same settings."""
    drawing: float
    """Every picture that differs from the others, once."""

    @property
    def least(self) -> float:
        """What no way of making the film can do without."""
        return self.encoding + self.drawing


def film_costs(film: Film, suffix: str, folder: Path) -> FilmCosts:
    """Make it once for each figure; files are left in ``folder``."""
    inks = inks_of("light")
    lettering = Lettering.of(film, inks)
    stage_size = lettering.stage.width, lettering.stage.height
    draw_stage(film.frames[0].stage, film.shot.look, stage_size, None)
    different = {frame.stage for frame in film.frames}
    drawing = timed(lambda: [draw_stage(stage, film.shot.look, stage_size, None) for stage in different])
    drawn = [image for image, _ in Projector(film, draw_stage, lettering).images()]
    kept = FromMemory(film, drawn, lettering)
    encoding = timed(lambda: ENCODERS[suffix](folder / f"kept{suffix}", kept))
    whole = timed(lambda: write_film(folder / f"film{suffix}", film, draw_stage, inks))
    return FilmCosts(whole, encoding, drawing)
