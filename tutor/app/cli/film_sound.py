"""The sound of films: recordings by the number of their scene, and sentences that the system speaks."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from contextlib import ExitStack
from pathlib import Path
from tempfile import TemporaryDirectory

from msgspec import Struct, field
from msgspec.structs import replace

from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import film as words
from tutor.publish.cinema import MP4
from tutor.publish.film import Film, Passage, Spoken, cues
from tutor.publish.sounds import recording
from tutor.publish.words import silent_film
from tutor.speech.speaking import speak_to_file, system_voice


class Voices(Struct, frozen=True):
    """The sound files that a lesson names, by the number of the scene, and the folder where they are."""

    names: Mapping[int, str] = field(default_factory=dict)
    folder: Path = field(default_factory=Path)


def check_sound(chosen: argparse.Namespace) -> None:
    """Raise RequestError or SpeechError when what is to be heard cannot be; a script is not heard."""
    if chosen.voice_folder is not None and not chosen.voice_folder.is_dir():
        raise RequestError(words.no_voice_folder(str(chosen.voice_folder)))
    if chosen.script or (not chosen.read_aloud and chosen.voice_folder is None):
        return
    if chosen.out.suffix.lower() != MP4:
        raise RequestError(silent_film(chosen.out.suffix, MP4))
    if chosen.read_aloud:
        system_voice()


def with_voices(
    chosen: argparse.Namespace, passages: tuple[Passage, ...], voices: Voices
) -> tuple[Passage, ...]:
    """The passages with their recordings, where the film has sound; a folder of recordings goes before."""
    scenes = frozenset(passage.scene for passage in passages)
    own = {} if chosen.voice_folder is None else _numbered(chosen.voice_folder, scenes)
    if chosen.script or chosen.out.suffix.lower() != MP4:
        return passages
    files = {number: voices.folder / name for number, name in voices.names.items()} | own
    return tuple(
        replace(passage, voice=recording(files[passage.scene])) if passage.scene in files else passage
        for passage in passages
    )


def _numbered(folder: Path, scenes: frozenset[int]) -> dict[int, Path]:
    """The files of a folder whose names are numbers of scenes, such as 3.ogg or 03.wav."""
    found: dict[int, Path] = {}
    for path in sorted(folder.iterdir()):
        if not (path.stem.isascii() and path.stem.isdigit()):
            continue
        number = int(path.stem)
        if number not in scenes:
            raise RequestError(words.no_such_scene(str(path), number, sorted(scenes)))
        if number in found:
            raise RequestError(words.two_recordings(str(path), found[number].name))
        found[number] = path
    if not found:
        raise RequestError(words.no_voices(str(folder)))
    return found


def read_aloud(plan: Film, stack: ExitStack) -> Spoken:
    """Every caption of a film as a recording, kept until ``stack`` is left. Raises SpeechError."""
    voice, folder = system_voice(), Path(stack.enter_context(TemporaryDirectory()))
    captions = dict.fromkeys(cue.caption for cue in cues(plan.frames))
    spoken = {}
    for number, caption in enumerate(captions):
        target = folder / f"{number}.wav"
        speak_to_file(caption.in_one_line, target, voice)
        spoken[caption] = recording(target)
    return spoken
