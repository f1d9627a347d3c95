"""Films as files, read back with Pillow and PyAV (FFmpeg's libraries)."""

from __future__ import annotations

import sys
from pathlib import Path

import av
import numpy as np
import pytest
from PIL import Image

from tests.publish.conftest import INKS, plain_draw
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.publish.cinema import encode_film, write_film
from tutor.publish.encode_gif import encode_gif, shared_palette
from tutor.publish.extras import installing
from tutor.publish.files import PublishError
from tutor.publish.film import Film, FilmFrame, FilmPiece, Passage, film_of
from tutor.publish.lettering import Lettering
from tutor.publish.projector import Projector
from tutor.publish.subject import Shot, case_subject

PICTURES = (".gif", ".webp", ".png")
SIZE = (320, 240)
PASSAGE = Passage(case_subject(CASES[7], Slot.FL), (FilmPiece(parse_turns("R U2 R'"), None, "Up and down."),))


def short_film(rate: int = 25, size: tuple[int, int] = SIZE) -> Film:
    return film_of((PASSAGE,), Shot(size=size), rate=rate)


def projected(film: Film) -> list[Image.Image]:
    return [image.copy() for image, _ in Projector(film, plain_draw, Lettering.of(film, INKS)).images()]


def written(folder: Path, suffix: str, film: Film) -> Path:
    path = folder / f"film{suffix}"
    write_film(path, film, plain_draw, INKS)
    return path


def shown(path: Path) -> list[tuple[Image.Image, float]]:
    """Every picture in the file with the seconds it stays."""
    found = []
    with Image.open(path) as film:
        assert film.is_animated  # type: ignore[attr-defined]
        for number in range(film.n_frames):  # type: ignore[attr-defined]
            film.seek(number)
            image = film.convert("RGB")
            found.append((image, film.info["duration"] / 1000))
    return found


@pytest.mark.parametrize("suffix", PICTURES)
@pytest.mark.parametrize("rate", [25, 12])
def test_a_film_of_pictures_has_its_frames_size_and_length(suffix: str, rate: int, tmp_path: Path) -> None:
    film = short_film(rate)
    read = shown(written(tmp_path, suffix, film))
    assert len(read) == len(film.frames)
    assert {image.size for image, _ in read} == {SIZE}
    assert sum(lasting for _, lasting in read) == pytest.approx(film.seconds, abs=1 / rate)
    for (_, lasting), frame in zip(read, film.frames, strict=True):
        assert lasting == pytest.approx(frame.ticks / rate, abs=0.0101)


@pytest.mark.parametrize(("suffix", "off"), [(".png", 0.0), (".gif", 3.0), (".webp", 6.0)])
def test_every_picture_is_what_was_drawn(suffix: str, off: float, tmp_path: Path) -> None:
    film = short_film()
    for (image, _), drawn in zip(shown(written(tmp_path, suffix, film)), projected(film), strict=True):
        differs = np.abs(np.asarray(image).astype(int) - np.asarray(drawn).astype(int))
        assert differs.mean() <= off


def test_a_rare_colour_is_not_lost_in_the_ground() -> None:
    shades = np.linspace(200, 250, 400)[None, :, None].repeat(300, axis=0).repeat(3, axis=2)
    picture = shades.astype(np.uint8)
    picture[10:20, 10:20] = sticker = (43, 95, 168)
    image = Image.fromarray(picture)
    shown = np.asarray(
        image.quantize(palette=shared_palette([image]), dither=Image.Dither.NONE).convert("RGB")
    )
    assert np.abs(shown[15, 15].astype(int) - sticker).max() <= 8
    assert np.abs(shown.astype(int) - picture).max() <= 8


@pytest.mark.parametrize("suffix", PICTURES)
def test_the_same_film_gives_the_same_bytes(suffix: str, tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    first, second = (written(tmp_path / name, suffix, short_film()) for name in "ab")
    assert first.read_bytes() == second.read_bytes()


@pytest.mark.parametrize("suffix", [*PICTURES, ".mp4"])
def test_how_far_it_is_is_told_while_a_film_is_written(suffix: str, tmp_path: Path) -> None:
    told: list[float] = []
    film = short_film()
    encode_film(tmp_path / "film", suffix, film, plain_draw, INKS, told.append)
    assert told == [number / len(film.frames) for number in range(len(film.frames))]


@pytest.mark.parametrize("suffix", PICTURES)
def test_a_film_begins_again_at_its_end(suffix: str, tmp_path: Path) -> None:
    with Image.open(written(tmp_path, suffix, short_film())) as film:
        assert film.info["loop"] == 0


def test_a_video_has_its_frames_size_and_length(tmp_path: Path) -> None:
    film = short_film()
    with av.open(str(written(tmp_path, ".mp4", film))) as container:
        stream = container.streams.video[0]
        frames = [frame.to_ndarray(format="rgb24") for frame in container.decode(stream)]
        assert (stream.width, stream.height) == SIZE
        assert stream.average_rate == film.rate
        assert stream.duration is not None
        assert stream.time_base is not None
        assert float(stream.duration * stream.time_base) == pytest.approx(film.seconds, abs=1 / film.rate)
    assert len(frames) == film.ticks
    drawn = np.asarray(projected(film)[-1]).astype(int)
    assert np.abs(frames[-1].astype(int) - drawn).mean() < 8


def test_a_wait_longer_than_gif_allows_is_kept(tmp_path: Path) -> None:
    # A delay has 16 bits, in hundredths of a second (GIF89a, section 23).
    first, second = short_film().frames[0], short_film().frames[3]
    frames = (FilmFrame(first.stage, first.words, 25 * 700), FilmFrame(second.stage, second.words, 25))
    film = Film(frames, Shot(size=SIZE))
    path = tmp_path / "film.gif"
    encode_gif(path, Projector(film, plain_draw, Lettering.of(film, INKS)))
    assert sum(lasting for _, lasting in shown(path)) == pytest.approx(701)


@pytest.mark.parametrize("suffix", PICTURES)
def test_a_film_of_one_picture_is_written_too(suffix: str, tmp_path: Path) -> None:
    film = Film(short_film().frames[:1], Shot(size=SIZE))
    with Image.open(written(tmp_path, suffix, film)) as image:
        assert image.size == SIZE


def test_a_film_without_its_package_says_which(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "av", None)
    with pytest.raises(PublishError) as caught:
        written(tmp_path, ".mp4", short_film())
    assert str(caught.value) == (
        "an MP4 film needs the package av, which is not installed here; "
        f"{installing('film')} (about 105 MB), or end the name in .gif, .webp or .png"
    )
    assert not list(tmp_path.iterdir())


def test_sizes_that_cannot_be_are_refused(tmp_path: Path) -> None:
    with pytest.raises(PublishError, match="an even width and height"):
        written(tmp_path, ".mp4", short_film(size=(321, 240)))
    with pytest.raises(PublishError, match="has no room for the cube"):
        written(tmp_path, ".gif", short_film(size=(64, 64)))
    with pytest.raises(PublishError, match=r"end the name in \.gif, \.webp, \.png or \.mp4"):
        written(tmp_path, ".avi", short_film())


def test_nothing_is_left_when_drawing_fails(tmp_path: Path) -> None:
    def broken(*_: object) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
        raise RuntimeError("no picture")

    with pytest.raises(RuntimeError):
        write_film(tmp_path / "a.gif", short_film(), broken, INKS)
    assert not list(tmp_path.iterdir())
