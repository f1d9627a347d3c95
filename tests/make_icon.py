"""Makes the program's icon: run ``python -m tests.make_icon`` after the cube's look has changed.

It shows the cube after R U R', a lifted pair, as ``pairwright picture`` draws it.
"""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image

from render.system.identity import ICON
from tutor.app.cli.command_line import main

SIDE = 256
DRAWN = "1024x1024"
SHADOW = 200
"""What is fainter than this belongs to the cube's shadow, which an icon does without."""


def cube_alone(picture: Image.Image) -> Image.Image:
    """The cube without its shadow, in the middle of a square."""
    picture.putalpha(picture.getchannel("A").point(lambda alpha: alpha if alpha > SHADOW else 0))
    cube = picture.crop(picture.getbbox())
    side = max(cube.size)
    square = Image.new("RGBA", (side, side))
    square.paste(cube, ((side - cube.width) // 2, (side - cube.height) // 2))
    return square.resize((SIDE, SIDE), Image.Resampling.LANCZOS)


def make() -> None:
    """Draw the icon and put it where the program looks for it."""
    with TemporaryDirectory() as folder:
        drawn = Path(folder) / "cube.png"
        kind = ["--transparent", "--no-mirrors", "--no-marks", "--size", DRAWN]
        main(["picture", "--setup", "R U R'", "--slot", "FR", *kind, "--out", str(drawn)])
        with Image.open(drawn) as picture:
            cube_alone(picture).save(ICON, optimize=True)


if __name__ == "__main__":
    make()
