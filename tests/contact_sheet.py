"""A sheet of the first three lessons as a learner sees them: ``python -m tests.contact_sheet OUT.png``.

Every scene has a small picture as it begins, and one more when it is done where that looks otherwise; the
first demonstration has one for each beat. ``--full FOLDER`` keeps each picture in its own size too.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from PIL import Image

from tests.make_pictures import image_of
from tests.screens.lesson.player import Play
from tests.session.pilot import Pilot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.scenes import Show
from tutor.method.answer import answer
from tutor.session.commands import Act
from tutor.solver.search import Solver
from tutor.ui.view import View

LESSONS = 3
SMALL, COLUMNS, GAP, GROUND = (512, 320), 5, 8, (90, 90, 90)
BEAT = 0.5
"""Seconds between two looks at what moves."""


def beats(pilot: Pilot) -> Iterator[View]:
    """A demonstration, beat by beat: each time that it waits for the learner, and its end."""
    while (shown := pilot.session.demonstration) is not None and not shown.seen(pilot.now):
        if shown.moving(pilot.now):
            pilot.wait(BEAT)
        else:
            yield pilot.view
            pilot.press(Act.STEP_ON)
    yield pilot.view


def views_of(play: Play, *, every_beat: bool) -> Iterator[View]:
    """The scene on the screen as it begins and as it ends."""
    if isinstance(play.scene, Show):
        found = list(beats(play.pilot))
        yield from found if every_beat else found[-1:]
        return
    begun = play.pilot.view
    yield begun
    play.as_asked()
    play.pilot.wait(5.0)
    if play.pilot.view.card != begun.card:
        yield play.pilot.view


def views(solver: Solver) -> Iterator[tuple[str, View]]:
    """What a learner sees of the first lessons by the turns they ask for, each with a name."""
    setting = LessonSetting(partial(answer, solver))
    names = curriculum_names()[:LESSONS]
    pilot, shown = Pilot(solver, {name: load_lesson(name, setting) for name in names}), False
    for name in names:
        play = Play(pilot, name)
        pilot.press(f"lesson:0:0:{name}")
        pilot.wait(1.0)
        while play.open:
            number = len(play.visited)
            for part, view in enumerate(views_of(play, every_beat=not shown)):
                yield f"{name}-{number:02}-{part}", view
            shown = shown or isinstance(play.scene, Show)
            play.go_on()


def sheet(pictures: list[Image.Image]) -> Image.Image:
    """The pictures in rows, in order."""
    wide, high = (side + GAP for side in SMALL)
    rows = -(-len(pictures) // COLUMNS)
    whole = Image.new("RGB", (COLUMNS * wide + GAP, rows * high + GAP), GROUND)
    for place, picture in enumerate(pictures):
        small = picture.resize(SMALL, Image.Resampling.LANCZOS)
        whole.paste(small, (GAP + place % COLUMNS * wide, GAP + place // COLUMNS * high))
    return whole


def main() -> None:
    """Write the sheet."""
    parser = argparse.ArgumentParser(description="The first three lessons on one picture.")
    parser.add_argument("out", type=Path)
    parser.add_argument("--full", type=Path, metavar="FOLDER")
    chosen = parser.parse_args()
    pictures = []
    for name, view in views(Solver.open()):
        pictures.append(image_of(view))
        if chosen.full is not None:
            chosen.full.mkdir(parents=True, exist_ok=True)
            pictures[-1].save(chosen.full / f"{name}.png")
    sheet(pictures).save(chosen.out)


if __name__ == "__main__":
    main()
