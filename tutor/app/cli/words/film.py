"""What ``film`` says: its help, its mistakes, and how it ended."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import figured
from tutor.publish.words import all_of, one_of
from tutor.quoting import visible

HELP = "make a moving picture of a case or lesson"
DESCRIPTION = (
    "Shows the turns slowly, step by step, and then at real speed. "
    "It needs no display. On a Mac, be logged in."
)


def epilog(kinds: Sequence[str]) -> str:
    """Examples, and what the end of the name means."""
    return f"""\
examples:
  pairwright film 14 --out case-14.gif
  pairwright film --setup "R U R' U'" --slot FR --show line --out line.mp4
  pairwright film corner-up-edge-left-front-up --show "U R U' R'" --out mine.webp
  pairwright film --lesson made-pair --out made-pair.mp4
  pairwright film --lesson made-pair --script
  pairwright film --lesson made-pair --voice-folder my-voice --shape upright --out spoken.mp4
  pairwright film 14 --read-aloud --note "Try it three times." --out spoken.mp4
  pairwright film --all --slots FR,FL --out clips

The end of the name chooses the format: {one_of(kinds)}. A .png is an animated PNG;
.mp4 needs the extra “film”, and only .mp4 has sound. The captions say what each turn is for and what it
changed. A slip is marked, and you see it only slowly. A scene with a voice lasts as long as its voice.
With --all you get a folder with the 41 cases and a page to see them. If you stop such a run, the next one
keeps the films that are finished and makes the rest."""


SHOW_HELP = "route (usual), line, or turns of your own"
LESSON_HELP = "all that a lesson shows: its name or its file"
ALL_HELP = "all 41 cases; --out names a folder then"
SLOTS_HELP = "with --all: the slots, with commas between them, usually FR"
FORMAT_HELP = "with --all: the kind of film, usually gif"
PACE_HELP = "both (usual): slowly, then at real speed; or one of the two"
SPEED_HELP = "of the turns, from 0.1 to 3; usually 1"
OUT_HELP = "where to write the film; with --script, the script"
CAPTIONS_HELP = "burned into the picture, in a file, both (usual for mp4), or none"
TITLE_HELP = "a title of your own"
NOTE_HELP = "a line of your own under the title"
SHAPE_HELP = "landscape (usual), square, or upright for a telephone"
VOICE_FOLDER_HELP = "your recordings, each with the number of its scene: 1.ogg, 2.wav"
READ_ALOUD_HELP = "let the system speak where there is no recording"
SCRIPT_HELP = "no film: print each sentence and its time, to speak from"


def usual_size(one: str, many: str) -> str:
    """The usual sizes of one film and of many."""
    return f"{one}, or {many} with --all"


def rate_help(usual: int) -> str:
    """Pictures a second."""
    return f"pictures a second, usually {usual}"


WRITE_ONE_SUBJECT = "write what to show, and only one thing: a case, --setup, --lesson or --all"
WRITE_OUT = "write where the film goes, for instance --out case.gif"
SIZE_OR_SHAPE = "--size and --shape both set the size; write one of them"
NOT_FOR_ALL = "--title, --script, --voice-folder and --read-aloud suit one film only; leave out --all"
CAPTIONS_FOR_ALL = "--all writes no subtitle files; write --captions burned or --captions none"
OWN_TURNS_FOR_ALL = "--all needs --show route or --show line; turns of your own suit one case only"


def no_rate(rate: int, least: int, most: int) -> str:
    """The pictures a second are too few or too many."""
    return f"--rate {rate} is not possible; write a number of pictures a second from {least} to {most}"


def no_speed(speed: float, least: float, most: float) -> str:
    """The speed is too slow or too fast."""
    return f"--speed {speed:g} is not possible; write a number from {least:g} to {most:g}"


def bad_turns(fault: str) -> str:
    """The turns to show are no notation; ``fault`` begins with the place."""
    return f"--show takes route, line or turns, and these turns have a mistake at {fault}"


def written(path: str, seconds: float) -> str:
    """The film is written."""
    return f"{visible(path)} is ready. It lasts {figured(round(seconds), 'second')}."


def subtitles_written(path: str) -> str:
    """The subtitles are written."""
    return f"{visible(path)} is ready, with the subtitles."


PROGRESS, PROGRESS_OF_ONE = "Films", "Film"


def script_written(path: str) -> str:
    """The script is written."""
    return f"{visible(path)} is ready, with each sentence and its time."


def no_voice_folder(path: str) -> str:
    """The folder of recordings is missing."""
    return f"there is no folder {visible(path)}; choose the one with your recordings"


def no_voices(path: str) -> str:
    """The folder has no recordings with numbers."""
    return f"{visible(path)} has no recordings; name each by the number of its scene, for instance 1.ogg"


def no_such_scene(path: str, number: int, scenes: Sequence[int]) -> str:
    """The number of a recording is that of no scene that is shown."""
    shown = ("scene " if len(scenes) == 1 else "scenes ") + all_of(list(map(str, scenes)))
    there = f"{visible(path)} is for scene {number}, and the film shows {shown}"
    return f"{there}; give the recording another number"


def two_recordings(path: str, other: str) -> str:
    """Two files have the number of one scene."""
    return f"{visible(path)} has the same number as {other}; keep one of them in the folder"


def stopped(path: str) -> str:
    """One film was stopped."""
    return f"You stopped it, so {visible(path)} was not written."


def all_stopped(kept: int, folder: str) -> str:
    """Many films were stopped."""
    return (
        f"You stopped it. {figured(kept, 'film')} in {visible(folder)} stay; the same command makes the rest."
    )


def waiting(folder: str) -> str:
    """Another run is in the same folder."""
    return f"Another run is making films in {visible(folder)}. This run starts when that one has finished."


def all_made(made: int, kept: int, page: str) -> str:
    """All films of a folder are there."""
    old = f" and kept {kept} that were finished" if kept else ""
    return f"Made {figured(made, 'film')}{old}. Open {visible(page)} to see them all."
