"""What ``film`` says: its help, its mistakes, and how it ended."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import figured
from tutor.publish.words import one_of

HELP = "make a moving picture of a case or lesson"
DESCRIPTION = "Shows the turns slowly, step by step, and then at real speed. It needs no display."


def epilog(kinds: Sequence[str]) -> str:
    """Examples, and what the end of the name means."""
    return f"""\
examples:
  pairwright film 14 --out case-14.gif
  pairwright film --setup "R U R' U'" --slot FR --show line --out line.mp4
  pairwright film corner-up-edge-left-front-up --show "U R U' R'" --out mine.webp
  pairwright film --lesson made-pair --out made-pair.mp4
  pairwright film --all --slots FR,FL --out clips

The end of the name chooses the format: {one_of(kinds)}. A .png is an animated PNG;
.mp4 needs the extra “film”. With --lesson the film shows the texts as captions, and an .srt file beside it
has them too. With --all you get a folder with the 41 cases and a page to see them. If you stop such a run,
the next one keeps the films that are finished and makes the rest."""


SHOW_HELP = "route (usual), line, or turns of your own"
LESSON_HELP = "all that a lesson shows: its name or its file"
ALL_HELP = "all 41 cases; --out names a folder then"
SLOTS_HELP = "with --all: the slots, with commas between them, usually FR"
FORMAT_HELP = "with --all: the kind of film, usually gif"
PACE_HELP = "both (usual): slowly, then at real speed; or one of the two"
SPEED_HELP = "of the turns, from 0.1 to 3; usually 1"
OUT_HELP = "where to write the film"


def usual_size(one: str, many: str) -> str:
    """The usual sizes of one film and of many."""
    return f"{one}, or {many} with --all"


def rate_help(usual: int) -> str:
    """Pictures a second."""
    return f"pictures a second, usually {usual}"


WRITE_ONE_SUBJECT = "write what to show, and only one thing: a case, --setup, --lesson or --all"
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
    return f"{path} is ready. It lasts {figured(round(seconds), 'second')}."


def subtitles_written(path: str) -> str:
    """The subtitles are written."""
    return f"{path} is ready, with the subtitles."


PROGRESS = "Films"


def waiting(folder: str) -> str:
    """Another run is in the same folder."""
    return f"Another run is making films in {folder}. This run starts when that one has finished."


def all_made(made: int, kept: int, page: str) -> str:
    """All films of a folder are there."""
    old = f" and kept {kept} that were finished" if kept else ""
    return f"Made {figured(made, 'film')}{old}. Open {page} to see them all."
