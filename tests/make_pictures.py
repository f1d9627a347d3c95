"""Makes the pictures of README.md: run ``python -m tests.make_pictures`` after looks or words have changed.

Each picture carries the words that it shows in a text chunk of the PNG file (PNG, third edition, 11.3.3),
so that a test can see without a window whether they are still the program's.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from PIL.PngImagePlugin import PngInfo

from render.picture import picture_of
from tests.make_history import CLUB, asker, fill
from tests.session.pilot import EPOCH, Pilot
from tests.words.shown import texts_shown
from tutor.cube.notation import format_moves
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Ask
from tutor.method.advice import CrossQuestion
from tutor.method.answer import answer
from tutor.progress.store import AttemptStore
from tutor.screens.solve.solving import cross_down
from tutor.screens.solve.state import SOLVE
from tutor.session.record_commands import ChooseLearner
from tutor.solver.search import Solver
from tutor.ui.view import View
from tutor.workers.recorder import Recorder

WORDS = "Words"
"""The keyword of the text chunk."""
FOLDER = Path(__file__).parents[1] / "assets" / "pictures"


def image_of(view: View) -> Image.Image:
    """The view as the window shows it at its first size."""
    return Image.fromarray(picture_of(view, 1280, 800)[..., :3])


def save(view: View, name: str) -> None:
    """The view as a picture of few colours, which keeps the repository small."""
    picture = image_of(view)
    carried = PngInfo()
    carried.add_itxt(WORDS, words_of(view))
    FOLDER.mkdir(exist_ok=True)
    picture.quantize(200).save(FOLDER / f"{name}.png", optimize=True, pnginfo=carried)


def words_of(view: View) -> str:
    """The words of a view, a line each."""
    return "\n".join(text for text in texts_shown(view) if text)


def make_the_cross(pilot: Pilot) -> None:
    """The cross of the whole solve in hand, along a shortest line."""
    solve = SOLVE.of(pilot.session)
    if solve is None:
        raise ValueError("no whole solve is in hand")
    down = cross_down(solve)
    reading = pilot.session.advices.cross(CrossQuestion(down.position))
    if reading is None:
        raise ValueError("the cross has not been worked out yet")
    pilot.turn(format_moves(down.as_held(reading.lines[0])))


def with_history(solver: Solver) -> Pilot:
    """Progress of a member of the club after eight weeks."""
    with TemporaryDirectory() as name:
        folder, now = Path(name), datetime.fromtimestamp(EPOCH, UTC)
        with AttemptStore.open(folder, lambda: now) as store:
            fill(store, asker(solver), members=CLUB[2:])
        keeper = Recorder(folder, lambda: now, UTC)
        pilot = Pilot(solver, keeper=keeper)
        assert pilot.view
        pilot.settle()
        pilot.application.give(ChooseLearner(CLUB[2].name))
        pilot.press("open:PROGRESS")
        pilot.settle()
        keeper.close()
    return pilot


def views(solver: Solver) -> Iterator[tuple[str, View]]:
    """What the pictures show, each by the name of its file."""
    lesson = load_lesson("made-pair", LessonSetting(partial(answer, solver)))
    pilot = Pilot(solver, {lesson.name: lesson})
    asked = next(index for index, scene in enumerate(lesson.scenes) if isinstance(scene, Ask))
    pilot.press(f"lesson:{asked}:0:{lesson.name}")
    pilot.turn("R L")
    pilot.wait(5.0)
    yield "lesson", pilot.view
    pilot.press("open:CASE_BOOK")
    yield "case-book", pilot.view
    yield "progress", with_history(solver).view
    pilot.press("open:SOLVE")
    pilot.press("act:SCRAMBLE")
    pilot.settle()
    make_the_cross(pilot)
    pilot.wait(10.0)
    yield "solve", pilot.view


def main() -> None:
    """All pictures."""
    for name, view in views(Solver.open()):
        save(view, name)


if __name__ == "__main__":
    main()
