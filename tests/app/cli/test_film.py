"""``film`` as a teacher meets it: files read back with Pillow and PyAV."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import time
from pathlib import Path

import av
import numpy as np
import pytest
from PIL import Image

from tests.app.cli.pages import PageReader
from tutor.app.cli.command_line import main
from tutor.counting import figured
from tutor.cube.notation import parse_moves
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, parse_case
from tutor.publish.batch import alone_in
from tutor.publish.subject import case_subject

CASE = "corner-up-edge-left-front-up"
SMALL = ("--size", "320x240")
SHORT = (*SMALL, "--setup", "R U", "--show", "U'", "--pace", "real", "--rate", "5")
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


def in_seconds(moment: str) -> float:
    """The moment of a subtitle."""
    hours, minutes, rest = moment.split(":")
    return 3600 * int(hours) + 60 * int(minutes) + float(rest.replace(",", "."))


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
        assert not container.streams.audio
    # The captions are in the picture, so no player may show the file by itself.
    assert not (tmp_path / "l.srt").exists()
    text = (tmp_path / "captions-l.srt").read_text(encoding="utf-8")
    assert "Watch how you hide the corner, move the edge and bring the corner back." in text
    end = text.strip().split("\n\n")[-1].split("\n")[1].split(" --> ")[1]
    assert seconds - 60 < in_seconds(end) <= seconds


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
    # Each film can be opened on its own, and the page says which turns it shows.
    assert read.counts["a"] == 2 * 41
    assert all(files.count(name) == 2 for name in files)
    at = read.texts.index("Case 14: white right, edge behind, tops alike")
    assert read.texts[at + 1 : at + 4] == [
        "Corner on top at its slot, cross colour to the right",
        "Edge on top at the back, right colour up",
        "Slot FR",
    ]
    told = read.texts[at + 4 : read.texts.index(f"{parse_case('14').slug}-FR.gif")]
    assert set(told[::2]) <= {"Raise", "Part", "Join", "Insert"}
    cube = case_subject(parse_case("14"), Slot.FR).cube.after(parse_moves(" ".join(told[1::2])))
    assert cube.position.home_pairs == set(SLOTS)


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


def test_other_films_are_not_written_over(clips: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = refused(capsys, "--all", "--size", "160x120", "--theme", "dark", "--out", str(clips))
    assert (
        f"{clips / CASES[0].slug}-FR.gif and 40 other files already exist and are not the files you want"
        in said
    )


@pytest.fixture
def begun(clips: Path, tmp_path: Path) -> Path:
    """A folder in which the last dozen films are still to be made, and are not in its list either."""
    folder = shutil.copytree(clips, tmp_path / "begun")
    (folder / "index.html").unlink()
    listed = json.loads((folder / "films.json").read_text())
    for case in CASES[-12:]:
        del listed[f"{case.slug}-FR.gif"]
        (folder / f"{case.slug}-FR.gif").unlink()
    (folder / "films.json").write_text(json.dumps(listed))
    return folder


@pytest.mark.slow
def test_a_run_that_is_killed_goes_on_where_it_was(begun: Path) -> None:
    command = [sys.executable, "-m", "tutor", "film", *ALL, "--out", str(begun)]
    with subprocess.Popen(command, stderr=subprocess.DEVNULL) as first:
        while first.poll() is None and len(list(begun.glob("*.gif"))) < 30:
            time.sleep(0.01)
        first.kill()
    finished = {path: path.read_bytes() for path in begun.glob("*.gif")}
    assert 30 <= len(finished) < 41
    for path in finished:
        pictures(path, (160, 120))
    second = subprocess.run(command, capture_output=True, text=True, check=True)
    assert second.stdout.startswith(
        f"Made {figured(41 - len(finished), 'film')} and kept {len(finished)} that were finished. Open "
    )
    assert all(path.read_bytes() == content for path, content in finished.items())
    assert not list(begun.glob(".*.part"))


@pytest.mark.slow
def test_of_two_runs_into_one_folder_one_waits_for_the_other(begun: Path) -> None:
    command = [sys.executable, "-m", "tutor", "film", *ALL, "--out", str(begun)]

    def started() -> subprocess.Popen[str]:
        return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)

    with started() as one, started() as other:
        # Neither begins before both have come, however fast the machine is.
        with alone_in(begun, lambda: None):
            for run in one, other:
                assert run.stderr is not None
                assert run.stderr.readline() == (
                    f"Another run is making films in {begun}. This run starts when that one has finished.\n"
                )
        told = sorted(run.communicate()[0] for run in (one, other))
    assert (one.returncode, other.returncode) == (0, 0)
    assert told[0].startswith("Made 0 films and kept 41 that were finished. Open ")
    assert told[1].startswith("Made 12 films and kept 29 that were finished. Open ")
    assert not list(begun.glob(".*.part"))
    assert len(json.loads((begun / "films.json").read_text())) == 41


def test_a_run_that_is_stopped_says_what_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("tutor.app.cli.film_collection.make_in_workers", stopped)
    assert main(["film", *ALL, "--out", str(tmp_path / "clips")]) == 130
    told = f"You stopped it. 0 films in {tmp_path / 'clips'} stay; the same command makes the rest.\n"
    assert capsys.readouterr().err == told
    monkeypatch.setattr("tutor.app.cli.film.write_film", stopped)
    assert main(["film", CASE, *QUICK, "--out", str(tmp_path / "a.gif")]) == 130
    assert capsys.readouterr().err == f"You stopped it, so {tmp_path / 'a.gif'} was not written.\n"


def test_how_far_a_film_is_is_shown_on_a_terminal_only(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    film(tmp_path / "a.gif", *SHORT)
    assert capsys.readouterr().err == ""
    # What rich takes for a terminal (its documentation, "Terminal detection").
    monkeypatch.setenv("FORCE_COLOR", "1")
    film(tmp_path / "b.gif", *SHORT)
    shown = capsys.readouterr().err
    assert "Film" in shown
    assert "━" in shown


def test_a_view_may_begin_with_a_minus(tmp_path: Path) -> None:
    for name, view in (("a", ("--camera", "-32,28")), ("b", ("--camera=-32,28",)), ("c", ())):
        assert main(["picture", CASE, *SMALL, *view, "--out", str(tmp_path / f"{name}.png")]) == 0
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()
    assert (tmp_path / "a.png").read_bytes() != (tmp_path / "c.png").read_bytes()


@pytest.mark.parametrize(("shape", "size"), [("square", (1080, 1080)), ("upright", (1080, 1920))])
def test_a_film_has_the_shape_asked_for(shape: str, size: tuple[int, int], tmp_path: Path) -> None:
    film(tmp_path / "a.webp", *SHORT[2:], "--shape", shape)
    assert pictures(tmp_path / "a.webp", size) > 2


def test_captions_go_where_they_are_asked_for(tmp_path: Path) -> None:
    slow = (*SMALL, "--rate", "5", "--pace", "slow", "--speed", "3", "--setup", "R U R'", "--slot", "FR")
    for captions in ("burned", "file", "both", "none"):
        film(tmp_path / f"{captions}.gif", *slow, "--captions", captions)
    assert {path.name for path in tmp_path.iterdir()} == {
        "burned.gif", "file.gif", "both.gif", "none.gif", "file.srt", "captions-both.srt",
    }  # fmt: skip
    content = {name: (tmp_path / f"{name}.gif").read_bytes() for name in ("burned", "file", "both", "none")}
    assert content["burned"] == content["both"] != content["file"] == content["none"]
    assert (tmp_path / "file.srt").read_text() == (tmp_path / "captions-both.srt").read_text()


def test_without_a_caption_no_subtitles_are_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    film(tmp_path / "a.gif", *SHORT, "--captions", "file")
    assert capsys.readouterr().out == f"{tmp_path / 'a.gif'} is ready. It lasts 7 seconds.\n"
    assert [path.name for path in tmp_path.iterdir()] == ["a.gif"]


def test_title_and_note_are_of_ones_own(tmp_path: Path) -> None:
    film(tmp_path / "a.gif", *SHORT)
    film(tmp_path / "b.gif", *SHORT, "--title", "Evening club")
    film(tmp_path / "c.gif", *SHORT, "--note", "Try it three times.")
    assert len({path.read_bytes() for path in tmp_path.iterdir()}) == 3


# ------------------------------------------------------------------------------------------------ voices

OWN_LESSON = """
title = "A voice"
goal = "You can hear a lesson."

[[scene]]
kind = "tell"
case = "corner-front-edge-right-front-up"
slot = "FR"
text = "Look at the corner."
voice = "look.ogg"

[[scene]]
kind = "ask"
text = "Solve the pair."

[[scene]]
kind = "show"
from = "start"
text = "Watch."
turns = "route"

[[scene]]
kind = "recap"
text = "You heard it."
"""


def write_sine(path: Path, seconds: float) -> None:
    """A tone of 440 Hz."""
    moments = np.arange(round(seconds * 48_000)) / 48_000
    tone = (0.3 * np.sin(2 * np.pi * 440 * moments)).astype(np.float32)
    with av.open(str(path), "w") as container:
        stream = container.add_stream("libopus", rate=48_000, layout="mono")
        for begin in range(0, len(tone), 960):
            part = tone[begin : begin + 960][None]
            frame = av.AudioFrame.from_ndarray(part, format="flt", layout="mono")
            frame.sample_rate, frame.pts = 48_000, begin
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))


def heard(path: Path) -> tuple[float, list[tuple[float, float]]]:
    """Seconds of picture in a video, and the spans in which its sound is louder than a whisper."""
    with av.open(str(path)) as container:
        video = container.streams.video[0]
        assert video.duration is not None
        assert video.time_base is not None
        seconds = float(video.duration * video.time_base)
        (audio,) = container.streams.audio
        assert audio.codec_context.name == "aac"
        sound = np.concatenate([frame.to_ndarray()[0] for frame in container.decode(audio)])
    loud = [bool(np.abs(part).max() > 0.05) for part in np.array_split(sound, max(1, len(sound) // 4800))]
    edges = [n for n in range(1, len(loud)) if loud[n] != loud[n - 1]]
    ends = [0, *edges, len(loud)] if loud[0] else [*edges, len(loud)]
    spans = [(begin / 10, end / 10) for begin, end in zip(ends[::2], ends[1::2], strict=False) if loud[begin]]
    assert len(sound) / 48_000 == pytest.approx(seconds, abs=0.1)
    return seconds, spans


def test_a_scene_with_a_voice_lasts_as_long_as_its_voice(tmp_path: Path) -> None:
    (tmp_path / "own.toml").write_text(OWN_LESSON)
    write_sine(tmp_path / "look.ogg", 11.0)
    voices = tmp_path / "voices"
    voices.mkdir()
    write_sine(voices / "03.ogg", 55.0)
    command = ("--lesson", str(tmp_path / "own.toml"), *SMALL, "--rate", "5")
    film(tmp_path / "own.mp4", *command, "--voice-folder", str(voices))
    seconds, spans = heard(tmp_path / "own.mp4")
    lengths = [end - begin for begin, end in spans]
    # The two scenes follow on each other, so what is heard is the two voices without a gap.
    assert sum(lengths) == pytest.approx(11.0 + 55.0, abs=0.5)
    begin = spans[0][0]
    assert 1.5 < begin < 6.0
    cues = (tmp_path / "captions-own.srt").read_text().strip().split("\n\n")
    starts = {block.split("\n")[-1]: in_seconds(block.split("\n")[1].split(" --> ")[0]) for block in cues}
    assert starts["Look at the corner."] == pytest.approx(begin, abs=0.3)
    assert starts["Watch."] == pytest.approx(begin + 11.0, abs=0.3)
    assert seconds == pytest.approx(begin + 11.0 + 55.0 + 2.0, abs=0.3)


def test_a_script_to_speak_from_is_printed_or_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "own.toml").write_text(OWN_LESSON)
    assert main(["film", "--lesson", str(tmp_path / "own.toml"), "--script"]) == 0
    printed = capsys.readouterr().out
    headings = [line.split(",")[0] for line in printed.splitlines() if line.startswith("Scene")]
    assert headings == ["Scene 1", "Scene 3", "Scene 4"]
    assert "  Look at the corner.\n" in printed
    film(tmp_path / "a.txt", "--lesson", str(tmp_path / "own.toml"), "--script")
    assert (tmp_path / "a.txt").read_text() == printed


@pytest.fixture
def fake_speech(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A program in place of the system's speech: a tone of 0.1 s for each word, and a list of its words."""
    folder = tmp_path / "bin"
    folder.mkdir()
    program = folder / "espeak-ng"
    program.write_text(FAKE_SPEECH.format(python=sys.executable, said=str(tmp_path / "said.txt")))
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(folder))
    return tmp_path / "said.txt"


FAKE_SPEECH = """\
#!{python}
import sys, wave
text = sys.stdin.read()
open({said!r}, "a").write(text + "\\n")
with wave.open(sys.argv[sys.argv.index("-w") + 1], "wb") as sound:
    sound.setparams((1, 2, 22050, 0, "NONE", ""))
    sound.writeframes(b"\\x00\\x40\\x00\\xc0" * (1102 * len(text.split())))
"""


def test_the_system_speaks_the_sentences_with_turns_as_words(tmp_path: Path, fake_speech: Path) -> None:
    film(tmp_path / "a.mp4", "--setup", "R U R'", "--slot", "FR", *SMALL, "--rate", "5", "--read-aloud")
    said = fake_speech.read_text().splitlines()
    cues = (tmp_path / "captions-a.srt").read_text().strip().split("\n\n")
    assert len(said) == len({block.split("\n", 2)[2] for block in cues})
    assert "Insert: right layer." in said[1]
    assert not any(re.search(r"\b[UDLRFB]['2]?(?!\w)", sentence) for sentence in said)
    _, spans = heard(tmp_path / "a.mp4")
    starts = [in_seconds(block.split("\n")[1].split(" --> ")[0]) for block in cues]
    assert [begin for begin, _ in spans] == pytest.approx(starts, abs=0.25)


def test_every_recording_belongs_to_one_scene(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "own.toml").write_text(OWN_LESSON)
    voices = tmp_path / "voices"
    lesson = ("--lesson", str(tmp_path / "own.toml"), "--script", "--voice-folder", str(voices))
    assert refused(capsys, *lesson).endswith(
        f": there is no folder {voices}; choose the one with your recordings\n"
    )
    voices.mkdir()
    (voices / "03.ogg").touch()
    (voices / "notes.txt").touch()
    assert main(["film", *lesson]) == 0
    capsys.readouterr()
    (voices / "3.txt").touch()
    assert refused(capsys, *lesson).endswith(
        f": {voices / '3.txt'} has the same number as 03.ogg; keep one of them in the folder\n"
    )
    (voices / "3.txt").rename(voices / "02.wav")
    assert refused(capsys, *lesson).endswith(
        f": {voices / '02.wav'} is for scene 2, and the film shows scenes 1, 3 and 4; "
        "give the recording another number\n"
    )


@pytest.mark.usefixtures("fake_speech")
def test_with_a_recording_of_every_scene_nothing_is_left_to_read_aloud(tmp_path: Path) -> None:
    write_sine(tmp_path / "1.ogg", 1.0)
    film(
        tmp_path / "a.mp4", "--setup", "R U R'", "--slot", "FR", "--show", "R'", *SMALL, "--rate", "5",
        "--voice-folder", str(tmp_path), "--read-aloud",
    )  # fmt: skip
    assert not (tmp_path / "said.txt").exists()


def test_what_cannot_be_heard_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    out = ("--out", str(tmp_path / "a.mp4"))
    assert "a .gif film has no sound; end the name in .mp4" in refused(
        capsys, CASE, "--read-aloud", "--out", str(tmp_path / "a.gif")
    )
    monkeypatch.setenv("PATH", str(tmp_path))
    assert refused(capsys, CASE, "--read-aloud", *out).endswith(
        "reading aloud needs espeak-ng, which is not installed here; type “sudo apt-get install espeak-ng”\n"
    )
    assert "has no recordings; name each by the number of its scene, for instance 1.ogg" in refused(
        capsys, CASE, "--voice-folder", str(tmp_path), *out
    )
    assert "there is no folder" in refused(capsys, CASE, "--voice-folder", str(tmp_path / "none"), *out)
    (tmp_path / "1.ogg").write_bytes(b"no sound at all")
    told = refused(capsys, CASE, "--voice-folder", str(tmp_path), *out)
    assert f"the sound file {tmp_path / '1.ogg'} cannot be read: " in told
    (tmp_path / "own.toml").write_text(OWN_LESSON.replace("look.ogg", "../look.ogg"))
    told = refused(capsys, "--lesson", str(tmp_path / "own.toml"), *out)
    assert "“../look.ogg” does not lie beside the script." in told


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "write what to show, and only one thing: a case, --setup, --lesson or --all"),
        ((CASE, "--shape", "square", "--size", "64x64"), "--size and --shape both set the size; write one"),
        (
            ("--all", "--title", "Mine"),
            "--title, --script, --voice-folder and --read-aloud suit one film only",
        ),
        (("--all", "--captions", "both"), "--all writes no subtitle files; write --captions burned or"),
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
    (tmp_path / "captions-b.srt").write_bytes(b"mine")
    assert "captions-b.srt already exists" in refused(capsys, CASE, "--out", str(tmp_path / "b.mp4"))
    (tmp_path / "b.srt").write_bytes(b"mine")
    there = refused(capsys, CASE, "--captions", "file", "--out", str(tmp_path / "b.gif"))
    assert "b.srt already exists" in there
    told = f"{tmp_path / 'a.gif'} is a file, and the films need a folder; choose another name"
    assert told in refused(capsys, "--all", "--out", str(tmp_path / "a.gif"))
