"""Many films into a folder: kept, checked, gone on with."""

from __future__ import annotations

import errno
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event

import pytest
from msgspec.structs import replace
from PIL import Image

from tests.publish.conftest import COLOURS, INKS, plain_draw
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.method.steps import Step
from tutor.publish.batch import LIST, Clip, Folder, alone_in, make_clip, make_missing, poster
from tutor.publish.files import PublishError
from tutor.publish.film import FilmPace, FilmPiece, Passage, TitleCard
from tutor.publish.subject import Shot, case_subject


def clip(number: int) -> Clip:
    passage = Passage(case_subject(CASES[number], Slot.FR), (FilmPiece(parse_turns("R U")),))
    return Clip(f"{number}.gif", passage, Shot(size=(160, 120)), INKS, FilmPace.REAL, rate=5)


PATIENCE = 60.0
CLIPS = [clip(number) for number in range(3)]


def draw_clip(each: Clip, beside: Path) -> str:
    return make_clip(each, beside, plain_draw)


def made(path: Path, clips: list[Clip] = CLIPS, *, force: bool = False) -> list[str]:
    """Names of the clips that were made in a run."""
    with alone_in(path, nobody_waits), ThreadPoolExecutor(2) as workers:
        return sorted(
            each.name for each in make_missing(Folder(path, clips, force=force), draw_clip, workers)
        )


def nobody_waits() -> None:
    raise AssertionError("there is no other run")


def names(path: Path) -> set[str]:
    return {each.name for each in path.iterdir()}


def test_all_films_are_made_and_nothing_else_is_left(tmp_path: Path) -> None:
    assert made(tmp_path / "clips") == ["0.gif", "1.gif", "2.gif"]
    assert names(tmp_path / "clips") == {"0.gif", "1.gif", "2.gif", LIST}


def test_what_is_there_is_kept_and_what_is_missing_is_made(tmp_path: Path) -> None:
    made(tmp_path)
    kept = (tmp_path / "0.gif").stat().st_mtime_ns
    (tmp_path / "1.gif").unlink()
    assert made(tmp_path) == ["1.gif"]
    assert (tmp_path / "0.gif").stat().st_mtime_ns == kept
    assert made(tmp_path) == []


def test_a_run_that_was_killed_leaves_nothing_in_the_way(tmp_path: Path) -> None:
    with alone_in(tmp_path, nobody_waits):
        half = Folder(tmp_path, CLIPS).beside(CLIPS[1])
    half.write_bytes(b"half")
    (tmp_path / ".1.gif.42.part").write_bytes(b"of one that makes this film alone")
    assert made(tmp_path, CLIPS[2:]) == ["2.gif"]
    assert names(tmp_path) == {"2.gif", LIST, ".1.gif.42.part"}


def test_a_second_run_waits_for_the_first_and_keeps_what_that_made(tmp_path: Path) -> None:
    begun, waited = Event(), Event()

    def draw_slowly(each: Clip, beside: Path) -> str:
        digest = draw_clip(each, beside)
        begun.set()
        assert waited.wait(PATIENCE)
        assert beside.exists()
        return digest

    def first() -> list[Clip]:
        with alone_in(tmp_path, nobody_waits), ThreadPoolExecutor(1) as workers:
            return list(make_missing(Folder(tmp_path, CLIPS[:2]), draw_slowly, workers))

    with ThreadPoolExecutor(1) as beside:
        made_first = beside.submit(first)
        assert begun.wait(PATIENCE)
        with alone_in(tmp_path, waited.set):
            assert names(tmp_path) == {"0.gif", "1.gif", LIST}
            assert [clip.name for clip in Folder(tmp_path, CLIPS).missing] == ["2.gif"]
        assert {clip.name for clip in made_first.result(PATIENCE)} == {"0.gif", "1.gif"}


def test_a_run_that_is_stopped_while_it_waits_lets_go_of_the_folder(tmp_path: Path) -> None:
    def stop() -> None:
        raise KeyboardInterrupt

    before = len(list(Path("/proc/self/fd").iterdir()))
    with alone_in(tmp_path, nobody_waits):
        with pytest.raises(KeyboardInterrupt), alone_in(tmp_path, stop):
            pass
        # What it says to a reader who has gone is no fault of the folder.
        with pytest.raises(BrokenPipeError), alone_in(tmp_path, broken_pipe):
            pass
    assert len(list(Path("/proc/self/fd").iterdir())) == before


def broken_pipe() -> None:
    raise BrokenPipeError


def test_where_a_folder_cannot_be_locked_nobody_waits_and_nothing_is_cleared(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: int) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr("fcntl.flock", refuse)
    with alone_in(tmp_path, nobody_waits):
        living = Folder(tmp_path, CLIPS).beside(CLIPS[1]).with_name(".1.gif.42.films.part")
        living.write_bytes(b"half")
        assert made(tmp_path) == ["0.gif", "1.gif", "2.gif"]
    assert names(tmp_path) == {"0.gif", "1.gif", "2.gif", LIST, living.name}


def test_a_damaged_film_is_found_out_and_replaced_only_with_force(tmp_path: Path) -> None:
    made(tmp_path)
    (tmp_path / "2.gif").write_bytes((tmp_path / "2.gif").read_bytes()[:-9])
    with pytest.raises(PublishError, match=r"2\.gif already exists and is not the file you want"):
        made(tmp_path)
    assert made(tmp_path, force=True) == ["2.gif"]


@pytest.mark.parametrize(
    "other",
    [
        {"pace": FilmPace.SLOW},
        {"speed": 2.0},
        {"shot": Shot(size=(164, 120))},
        {"inks": replace(INKS, text=(1, 2, 3))},
        {"captions": False},
    ],
)
def test_films_that_would_look_otherwise_are_not_taken_for_the_same(
    other: dict[str, object], tmp_path: Path
) -> None:
    made(tmp_path)
    with pytest.raises(
        PublishError, match=r"0\.gif and 2 other files already exist and are not the files you want"
    ):
        made(tmp_path, [replace(each, **other) for each in CLIPS])  # type: ignore[arg-type]


def test_recipes_of_different_films_differ() -> None:
    turned = replace(CLIPS[0], passage=replace(CLIPS[0].passage, pieces=(FilmPiece(parse_turns("R U'")),)))
    named = replace(
        turned, passage=replace(turned.passage, pieces=(FilmPiece(parse_turns("R U'"), Step.JOIN),))
    )
    told = replace(
        named, passage=replace(named.passage, pieces=(replace(named.passage.pieces[0], slip=True),))
    )
    carded = replace(turned, passage=replace(turned.passage, first=TitleCard("A note")))
    assert len({each.recipe for each in (*CLIPS, turned, named, told, carded)}) == 7
    assert clip(0).recipe == CLIPS[0].recipe


def test_a_full_disk_ends_the_run_and_keeps_what_is_finished(tmp_path: Path) -> None:
    def full(each: Clip, beside: Path) -> str:
        if each.name == "1.gif":
            beside.write_bytes(b"half")
            raise PublishError("1.gif cannot be written: No space left on device")
        return draw_clip(each, beside)

    with ThreadPoolExecutor(1) as workers, pytest.raises(PublishError, match="No space left"):
        list(make_missing(Folder(tmp_path, CLIPS), full, workers))
    assert names(tmp_path) == {"0.gif", LIST}
    assert made(tmp_path) == ["1.gif", "2.gif"]


def test_a_clip_that_cannot_be_written_says_so(tmp_path: Path) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with pytest.raises(PublishError, match=r"the program cannot write .*0\.gif: No space left"):
        make_clip(CLIPS[0], tmp_path / ".0.gif.new.part", full)  # type: ignore[arg-type]
    assert not list(tmp_path.iterdir())


def test_a_folder_that_cannot_be_made_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(PublishError) as caught:
        made(tmp_path / "file")
    assert str(caught.value) == (
        f"{tmp_path / 'file'} is a file, and the films need a folder; choose another name"
    )
    with pytest.raises(PublishError, match="the program cannot write "):
        made(tmp_path / "file" / "clips")


def test_the_poster_of_an_mp4_is_its_first_picture_too(tmp_path: Path) -> None:
    mp4 = replace(CLIPS[0], name="0.mp4")
    draw_clip(mp4, tmp_path / mp4.name)
    (tmp_path / "poster.png").write_bytes(poster(tmp_path / mp4.name))
    with Image.open(tmp_path / "poster.png") as image:
        # The first field of the stand-in for the renderer, which the codec may change a little.
        seen = image.convert("RGB").getpixel((8, 8))
    wanted = COLOURS[CLIPS[0].passage.subject.cube.colours[0]]
    assert isinstance(seen, tuple)
    assert max(abs(int(a) - int(b)) for a, b in zip(seen, wanted, strict=True)) < 12


def test_the_poster_is_the_first_picture(tmp_path: Path) -> None:
    made(tmp_path)
    (tmp_path / "poster.png").write_bytes(poster(tmp_path / "0.gif"))
    with Image.open(tmp_path / "poster.png") as image, Image.open(tmp_path / "0.gif") as film:
        assert image.size == film.size
