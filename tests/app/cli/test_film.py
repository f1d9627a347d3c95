"""``film`` as a teacher meets it: files read back with Pillow and PyAV."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

import av
import pytest
from PIL import Image

from tests.app.cli.pages import PageReader
from tutor.app.cli.command_line import main
from tutor.method.cases import CASES, parse_case

CASE = "corner-up-edge-left-front-up"
SMALL = ("--size", "320x240")
QUICK = (*SMALL, "--pace", "real", "--rate", "5")
ALL = ("--all", "--size", "160x120", "--show", "line", "--no-mirrors", "--pace", "real", "--rate", "5")


def film(path: Path, *arguments: str) -> None:
    assert main(["film", *arguments, "--out", str(path)]) == 0


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["film", *arguments]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    return said.err


def pictures(path: Path, size: tuple[int, int] = (320, 240)) -> int:
    with Image.open(path) as image:
        assert image.size == size
        return int(image.n_frames)  # type: ignore[attr-defined]


@pytest.mark.parametrize("suffix", [".gif", ".webp", ".png"])
def test_the_same_command_gives_the_same_film(suffix: str, tmp_path: Path) -> None:
    first, second = tmp_path / f"a{suffix}", tmp_path / f"b{suffix}"
    film(first, CASE, *QUICK)
    film(second, CASE, *QUICK)
    assert pictures(first) > 10
    assert first.read_bytes() == second.read_bytes()


def test_a_case_can_be_named_by_its_number(tmp_path: Path) -> None:
    film(tmp_path / "a.gif", CASE, *QUICK)
    film(tmp_path / "b.gif", str(parse_case(CASE).number), *QUICK)
    assert (tmp_path / "a.gif").read_bytes() == (tmp_path / "b.gif").read_bytes()


def test_given_turns_are_shown_from_a_setup(tmp_path: Path) -> None:
    film(tmp_path / "two.gif", "--setup", "R U", "--show", "U' R'", *QUICK)
    film(tmp_path / "four.gif", "--setup", "R U", "--show", "U' R' R U", *QUICK)
    film(tmp_path / "wide.gif", "--setup", "R U", "--show", "y Rw2", *QUICK)
    assert pictures(tmp_path / "two.gif") < pictures(tmp_path / "four.gif")
    assert pictures(tmp_path / "wide.gif") > 4


def test_the_line_is_no_longer_than_the_route(tmp_path: Path) -> None:
    # This case's route takes a Part and a Join apart; its line does not (see pairwright turns).
    case = "corner-right-edge-front-front-up"
    film(tmp_path / "route.gif", case, *QUICK)
    film(tmp_path / "line.gif", case, "--show", "line", *QUICK)
    assert pictures(tmp_path / "line.gif") <= pictures(tmp_path / "route.gif")


def test_a_lesson_becomes_a_video_with_subtitles(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    film(tmp_path / "l.mp4", "--lesson", "hide-the-corner", "--size", "160x120", "--rate", "5")
    with av.open(str(tmp_path / "l.mp4")) as container:
        stream = container.streams.video[0]
        assert stream.duration is not None
        assert stream.time_base is not None
        seconds = float(stream.duration * stream.time_base)
    text = (tmp_path / "l.srt").read_text(encoding="utf-8")
    assert "Watch how you hide the corner, move the edge and bring the corner back." in text
    end = text.strip().split("\n\n")[-1].split("\n")[1].split(" --> ")[1]
    hours, minutes, rest = end.split(":")
    shown = 3600 * int(hours) + 60 * int(minutes) + float(rest.replace(",", "."))
    assert shown == pytest.approx(seconds, abs=1 / 5)


@pytest.fixture(scope="module")
def clips(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("films") / "clips"
    film(folder, *ALL)
    return folder


def test_all_cases_are_filmed(clips: Path) -> None:
    assert {path.name for path in clips.iterdir()} == {
        "films.json", "index.html", *(f"{case.slug}-FR.gif" for case in CASES),
    }  # fmt: skip
    assert len(json.loads((clips / "films.json").read_text())) == 41


def test_the_index_shows_every_film_by_family(clips: Path) -> None:
    read = PageReader((clips / "index.html").read_text(encoding="utf-8"))
    assert read.open == []
    assert (read.counts["article"], read.counts["h2"]) == (41, 4)
    files = [address for address in read.addresses if not address.startswith("data:")]
    assert len(set(files)) == 41
    assert all((clips / name).is_file() for name in files)
    assert "Both in the slot" in read.texts
    at = read.texts.index("Case 14: white right, edge behind, tops alike")
    assert read.texts[at + 1 : at + 4] == [
        "Corner on top at its slot, cross colour to the right",
        "Edge on top at the back, right colour up",
        "Slot FR",
    ]


def test_a_second_run_keeps_what_is_there(clips: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lost = clips / f"{CASES[4].slug}-FR.gif"
    content = lost.read_bytes()
    lost.unlink()
    film(clips, *ALL)
    assert (
        capsys.readouterr().out
        == f"Made 1 film and kept 40 that were finished. Open {clips / 'index.html'} to see them all.\n"
    )
    assert lost.read_bytes() == content


@pytest.mark.slow
def test_a_run_that_is_killed_goes_on_where_it_was(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tutor", "film", *ALL, "--out", str(tmp_path)]
    with subprocess.Popen(command, stderr=subprocess.DEVNULL) as first:
        while first.poll() is None and len(list(tmp_path.glob("*.gif"))) < 5:
            time.sleep(0.05)
        first.kill()
    finished = {path: path.read_bytes() for path in tmp_path.glob("*.gif")}
    assert 5 <= len(finished) < 41
    for path in finished:
        pictures(path, (160, 120))
    second = subprocess.run(command, capture_output=True, text=True, check=True)
    assert second.stdout.startswith(
        f"Made {41 - len(finished)} films and kept {len(finished)} that were finished. Open "
    )
    assert all(path.read_bytes() == content for path, content in finished.items())
    assert not list(tmp_path.glob(".*.part"))


@pytest.mark.slow
def test_of_two_runs_into_one_folder_both_end_well(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tutor", "film", *ALL, "--out", str(tmp_path)]
    with subprocess.Popen(command, stderr=subprocess.DEVNULL) as first:
        while first.poll() is None and not list(tmp_path.glob(".*.part")):
            time.sleep(0.05)
        second = subprocess.run(command, capture_output=True, text=True, check=False)
    assert first.returncode == 0
    assert second.returncode == 0, second.stderr
    assert (
        f"Another run is making films in {tmp_path}. This run starts when that one has finished.\n"
        in second.stderr
    )
    assert second.stdout.startswith("Made 0 films and kept 41 that were finished. Open ")
    assert not list(tmp_path.glob(".*.part"))
    assert len(json.loads((tmp_path / "films.json").read_text())) == 41


def test_other_films_are_not_written_over(clips: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = refused(capsys, "--all", "--size", "160x120", "--theme", "dark", "--out", str(clips))
    assert (
        f"{clips / CASES[0].slug}-FR.gif and 40 other files already exist and are not the films you want"
        in said
    )


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "write what to show, and only one thing: a case, --setup, --lesson or --all"),
        ((CASE, "--all"), "write what to show, and only one thing"),
        (
            ("corner-up-edge-lft-front-up",),
            "there is no case “corner-up-edge-lft-front-up”; did you mean corner-up-edge-left-front-up",
        ),
        (
            (CASE, "--show", "rout"),
            "--show takes route, line or turns, and these turns have a mistake at column 1",
        ),
        ((CASE, "--show", "R Q"), "these turns have a mistake at column 3"),
        ((CASE, "--show", ""), "there are no turns to show; write some"),
        ((CASE, "--rate", "1"), "--rate 1 is not possible; write a number of pictures a second from 5 to 60"),
        ((CASE, "--speed", "9"), "--speed 9 is not possible; write a number from 0.1 to 3"),
        (("--setup", ""), "a route needs a pair"),
        (
            ("--setup", "", "--slot", "FR"),
            "the pair is already solved, so there is nothing to show; choose another slot or setup",
        ),
        (("--lesson", "no-such-lesson"), "There is no lesson of this name"),
        (("--lesson", "none.toml"), "cannot be read"),
        ((CASE, "--size", "64x64"), "a film of 64x64 has no room for the cube; choose a larger size"),
    ],
)
def test_what_is_wrong_is_said_in_one_sentence(
    arguments: tuple[str, ...], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said in refused(capsys, *arguments, "--out", str(tmp_path / "a.gif"))
    assert not list(tmp_path.iterdir())


def test_wrong_targets_are_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "“.avi” is not a kind of film; end the name in .gif, .webp, .png or .mp4" in refused(
        capsys, CASE, "--out", str(tmp_path / "a.avi")
    )
    assert "an even width and height, and 321x240 is odd; choose 322x240" in refused(
        capsys, CASE, "--size", "321x240", "--out", str(tmp_path / "a.mp4")
    )
    assert "the program cannot write /proc/a.gif: " in refused(capsys, CASE, *QUICK, "--out", "/proc/a.gif")
    (tmp_path / "a.gif").write_bytes(b"mine")
    assert "--force" in refused(capsys, CASE, "--out", str(tmp_path / "a.gif"))
    assert "“XX” is not a slot; write FR, FL, BL or BR" in refused(
        capsys, "--all", "--slots", "FR,XX", "--out", str(tmp_path / "b")
    )
    assert "--all needs --show route or --show line" in refused(
        capsys, "--all", "--show", "R", "--out", str(tmp_path / "b")
    )
    (tmp_path / "b.srt").write_bytes(b"mine")
    assert ".srt already exists" in refused(capsys, "--lesson", "made-pair", "--out", str(tmp_path / "b.gif"))
