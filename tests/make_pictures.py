"""Makes the pictures of README.md: run ``python -m tests.make_pictures`` after the looks have changed."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PIL import Image

from render.picture import picture_of
from tests.session.pilot import Pilot
from tutor.lesson.assemble import Setting
from tutor.lesson.library import load_lesson
from tutor.lesson.resolve import Ask
from tutor.method.answer import answer
from tutor.solver.search import Solver

FOLDER = Path(__file__).parents[1] / "assets" / "pictures"


def save(pilot: Pilot, name: str) -> None:
    """The pilot's view as a picture of few colours, which keeps the repository small."""
    picture = Image.fromarray(picture_of(pilot.view, 1280, 800)[..., :3])
    FOLDER.mkdir(exist_ok=True)
    picture.quantize(200).save(FOLDER / f"{name}.png", optimize=True)


def main() -> None:
    """All pictures."""
    solver = Solver.open()
    lesson = load_lesson("made-pair", Setting(partial(answer, solver)))
    pilot = Pilot(solver, {lesson.name: lesson})
    asked = next(index for index, scene in enumerate(lesson.scenes) if isinstance(scene, Ask))
    pilot.press(f"lesson:{asked}:0:{lesson.name}")
    pilot.turn("R L")
    pilot.wait(5.0)
    save(pilot, "lesson")
    pilot.press("open:CASE_BOOK")
    save(pilot, "case-book")


if __name__ == "__main__":
    main()
