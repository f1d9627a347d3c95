"""``picture`` as a teacher meets it, its files read back with Pillow."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from tutor.app.cli.command_line import main

CASE = "corner-up-edge-left-front-up"
SMALL = ("--size", "320x240")


def picture(path: Path, *arguments: str) -> Image.Image:
    assert main(["picture", *arguments, *SMALL, "--out", str(path)]) == 0
    with Image.open(path) as image:
        image.load()
    return image


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["picture", *arguments]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    return said.err


def pixels(image: Image.Image) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    return np.asarray(image)


def test_a_case_is_drawn_in_the_size_asked_for(tmp_path: Path) -> None:
    image = picture(tmp_path / "a.png", CASE)
    assert (image.format, image.mode, image.size) == ("PNG", "RGB", (320, 240))
    assert len(image.getcolors(320 * 240) or ()) > 100


def test_it_says_which_case_the_picture_shows(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    picture(tmp_path / "a.png", "14", "--slot", "FL", "--top", "U2", "--cross", "blue")
    assert capsys.readouterr().out.splitlines() == [
        f"{tmp_path / 'a.png'} is ready:",
        "Case 14: blue behind, edge left, tops alike",
        "Slot FL, with the top turned by U2",
    ]
    picture(tmp_path / "b.png", "--setup", "R U R'", "--slot", "FR")
    assert capsys.readouterr().out == f"{tmp_path / 'b.png'} is ready:\nAfter R U R'\n"
    picture(tmp_path / "c.png", "--setup", "")
    assert capsys.readouterr().out == f"{tmp_path / 'c.png'} is ready:\nThe solved cube\n"


def test_the_same_command_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("a.png", "b.png"):
        picture(tmp_path / name, CASE, "--slot", "BL", "--arrow")
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()


@pytest.mark.parametrize(
    "choice",
    [
        ("--no-mirrors",), ("--no-marks",), ("--letters",), ("--theme", "dark"),
        ("--palette", "colour-blind"), ("--camera=-32,20",), ("--slot", "FL"), ("--top", "U2"),
        ("--cross", "blue"), ("--arrow",),
    ],
)  # fmt: skip
def test_every_choice_is_seen(choice: tuple[str, ...], tmp_path: Path) -> None:
    plain, chosen = picture(tmp_path / "a.png", CASE), picture(tmp_path / "b.png", CASE, *choice)
    assert (pixels(plain) != pixels(chosen)).any(axis=2).mean() > 0.003


def test_behind_the_cube_there_can_be_nothing(tmp_path: Path) -> None:
    opaque = picture(tmp_path / "a.png", CASE, "--no-mirrors")
    clear = picture(tmp_path / "b.png", CASE, "--no-mirrors", "--transparent")
    assert clear.mode == "RGBA"
    alpha = pixels(clear)[..., 3]
    assert alpha[2, 2] == alpha[-3, 2] == 0
    assert alpha[120, 160] == 255
    cube = alpha == 255
    assert cube.mean() > 0.15
    # Where nothing shines through, the picture is the same as on the theme's ground.
    assert np.abs(pixels(clear)[cube][:, :3].astype(int) - pixels(opaque)[cube].astype(int)).max() <= 1


def test_a_setup_with_turns_of_the_whole_cube_is_drawn_as_held(tmp_path: Path) -> None:
    plain = picture(tmp_path / "a.png", "--setup", "", "--no-marks")
    turned = picture(tmp_path / "b.png", "--setup", "y", "--no-marks")
    there_and_back = picture(tmp_path / "c.png", "--setup", "y R U R' U R U' R' y' U2", "--no-marks")
    assert (pixels(plain) != pixels(turned)).any()
    assert (pixels(there_and_back) != pixels(plain)).any()
    assert (pixels(picture(tmp_path / "d.png", "--setup", "y y'", "--no-marks")) == pixels(plain)).all()


def test_a_file_that_is_there_is_kept_without_force(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "a.png"
    path.write_bytes(b"mine")
    assert "--force" in refused(capsys, CASE, *SMALL, "--out", str(path))
    assert path.read_bytes() == b"mine"
    picture(path, CASE, "--force")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (
            ("corner-up-edge-lft-front-up",),
            "there is no case “corner-up-edge-lft-front-up”; did you mean corner-up-edge-left-front-up",
        ),
        (("42",), "there is no case “42”; write a number from 1 to 41; “pairwright cases” lists all"),
        ((), "write what to show: either a case, for instance 14, or --setup with moves"),
        ((CASE, "--setup", "R"), "write what to show: either a case"),
        (("--setup", "R Q"), "column 3, “Q”"),
        (("--setup", "x"), "write x' at the end of the setup"),
        (
            ("--setup", "R", "--top", "U"),
            "--top works only with a case; write that turn at the end of the setup instead",
        ),
        ((CASE, "--slot", "UF"), "“UF” is not a slot; write FR, FL, BL or BR"),
        ((CASE, "--size", "big"), "“big” is not a size; write for instance 1280x720"),
        ((CASE, "--size", "9x9"), "with sides from 64 to 8192"),
        ((CASE, "--camera", "32"), "“32” is not a view; write two numbers, for instance 32,28"),
        ((CASE, "--camera", "0,90"), "the first from -180 to 180, the second from -60 to 60"),
        (
            ("--setup", "", "--slot", "FR", "--arrow"),
            "the pair is already solved, so no turn comes next; leave out --arrow",
        ),
        (("--setup", "R", "--arrow"), "name its slot"),
    ],
)
def test_what_is_wrong_is_said_in_one_sentence(
    arguments: tuple[str, ...], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said in refused(capsys, *arguments, "--out", str(tmp_path / "a.png"))
    assert not list(tmp_path.iterdir())


def test_a_picture_ends_in_png_and_has_a_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "“a.jpg” is not the name of a PNG picture; write for instance a.png" in refused(
        capsys, CASE, "--out", str(tmp_path / "a.jpg")
    )
    assert "there is no folder" in refused(capsys, CASE, "--out", str(tmp_path / "none" / "a.png"))
    assert "the program cannot write /proc/a.png: " in refused(capsys, CASE, *SMALL, "--out", "/proc/a.png")
