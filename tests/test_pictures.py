"""The pictures of README.md show the program's present words."""

from __future__ import annotations

import re
from pathlib import Path

from PIL import Image

from tests.make_pictures import FOLDER, WORDS, views, words_of
from tutor.solver.search import Solver

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")


def test_each_picture_shows_the_present_words(solver: Solver) -> None:
    for name, view in views(solver):
        with Image.open(FOLDER / f"{name}.png") as picture:
            carried = picture.info.get(WORDS)
        assert carried == words_of(view), f"{name}.png is old: run python -m tests.make_pictures"


def test_readme_shows_each_picture_and_no_other() -> None:
    shown = set(re.findall(r"assets/pictures/([a-z-]+)\.png", README))
    assert shown == {path.stem for path in FOLDER.glob("*.png")}
