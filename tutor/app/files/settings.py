"""Settings in a TOML file that a person may write too: read with every fault named, and never lost.

A file that cannot be used is set aside under another name, and the usual settings are taken instead. In one
that can, only the values that have changed are written anew: its comments, its order and the link that leads
to it stay.
"""

from __future__ import annotations

import logging
import os
from codecs import BOM_UTF8
from collections.abc import Mapping, MutableMapping
from functools import partial
from pathlib import Path
from typing import Annotated, Any, Literal

import msgspec
from msgspec import Struct

from tutor.app.files import words
from tutor.atomic_file import patiently, write_whole
from tutor.cube.faces import Face
from tutor.cube.stickers import COLOUR_NAMES
from tutor.plain_file import read_plain
from tutor.progress.attempt import GUEST, LONGEST_NAME, check_learner
from tutor.quoting import quotable
from tutor.screens.table import SCREENS
from tutor.session.keymap import remapped
from tutor.session.settings import Settings, StepByStep, TurnButtons
from tutor.session.settings_options import PALETTES, THEMES
from tutor.ui.view import Look

FILE = "settings.toml"
LEAST_REST = 5
"""Minutes; anything less would be a reminder at every case."""
LARGEST = 64 * 1024
"""Bytes read at most."""
LONGEST_LINE = 2_000
"""Bytes of a line at most: a key of many parts takes memory by the square of their number."""

_UNUSABLE = (msgspec.MsgspecError, UnicodeDecodeError, ValueError, RecursionError)
"""What reading raises for a file that cannot be used."""
log = logging.getLogger(__name__)

ColourName = Literal["yellow", "white", "red", "orange", "green", "blue"]


class LookFile(msgspec.Struct, forbid_unknown_fields=True, frozen=True):
    """How things look."""

    theme: Literal["light", "dark"] = "light"
    palette: Literal["usual", "high-contrast", "colour-blind"] = "usual"
    text_scale: Annotated[float, msgspec.Meta(ge=1.0, le=2.0)] = 1.0
    mirrors: bool = True
    letters: bool = False
    arrangement: tuple[ColourName, ...] = ("yellow", "white", "red", "orange", "green", "blue")
    """The colours of the faces up, down, left, right, front and back, as the cube is first held."""


class SettingsFile(msgspec.Struct, forbid_unknown_fields=True, frozen=True):
    """The settings as written."""

    cross: ColourName = "white"
    speed: Annotated[float, msgspec.Meta(ge=0.1, le=3.0)] = 1.0
    step_by_step: StepByStep = StepByStep.IN_LESSONS
    """Where turns that are shown wait for the person."""
    reduced_motion: bool = False
    sound: bool = False
    read_aloud: bool = False
    rest_minutes: Annotated[int, msgspec.Meta(ge=0, le=240)] = 25
    """0 for never, else 5 or more."""
    learner: Annotated[str, msgspec.Meta(max_length=LONGEST_NAME)] = GUEST
    single_keys: bool = True
    turn_buttons: TurnButtons = TurnButtons.FIRST_LESSON
    look: LookFile = LookFile()
    keys: dict[str, str] = {}
    """A person's own keys: "what it does" = "the key", as on the key sheet; "" switches a key off."""


class Loaded(Struct, frozen=True):
    """Settings, and what there is to say about where they came from; empty when all is well.

    ``problem`` is the mistake alone, ``notice`` says with it what came of that.
    """

    settings: Settings
    notice: str = ""
    problem: str = ""


def load_settings(folder: Path) -> Loaded:
    """The settings kept in a folder; the usual ones when there are none or they cannot be used."""
    path = folder / FILE
    try:
        content = _read(path)
    except FileNotFoundError:
        return Loaded(Settings())
    except OSError as error:
        reason = error.strerror or words.UNREADABLE
        return Loaded(Settings(), words.unreadable_settings(path, reason), reason)
    try:
        return Loaded(_settings(msgspec.toml.decode(content, type=SettingsFile)))
    except _UNUSABLE as error:
        aside = _set_aside(path)
        problem = quotable(str(error), 300)
        notice = words.damaged_settings(problem, "" if aside is None else aside.name)
        return Loaded(Settings(), notice, problem)


class WindowSettings:
    """The file of one folder as one window sees it; another window may write the same file meanwhile."""

    def __init__(self, folder: Path, known: Settings) -> None:
        """``known`` is what the window began with."""
        self._folder = folder
        self._known = known

    def save(self, settings: Settings) -> None:
        """Save what has changed in this window beside what another has saved. Raises OSError."""
        save_settings(self._folder, settings, self._known)
        self._known = settings


def save_settings(folder: Path, settings: Settings, known: Settings | None = None) -> None:
    """Write what has changed into the file of the settings, whole or not at all.

    What is still as in ``known`` stays as the file has it. A file that has come to be unusable is set aside
    first. Raises OSError when the folder cannot be written.
    """
    path, file = folder / FILE, _written(settings)
    try:
        content = _read(path)
        there = msgspec.toml.decode(content, type=SettingsFile)
        _settings(there)
        content = _changed(content, file if known is None else _merged(there, _written(known), file))
    except FileNotFoundError:
        content = _changed(b"", file)
    except _UNUSABLE as error:
        log.warning("%s", words.settings_set_aside(path, str(error), _set_aside(path)))
        content = _changed(b"", file)
    write_whole(path, content)


def _merged(there: SettingsFile, known: SettingsFile, wanted: SettingsFile) -> SettingsFile:
    """What is there, with what is wanted otherwise than it was known."""
    plain = [_plain(each) for each in (there, known, wanted)]
    merged = {**_newer(*plain), "look": _newer(*(each["look"] for each in plain))}
    return msgspec.convert(merged, SettingsFile)


def _newer(there: dict[str, Any], known: dict[str, Any], wanted: dict[str, Any]) -> dict[str, Any]:
    return {name: there[name] if value == known[name] else value for name, value in wanted.items()}


def _changed(content: bytes, file: SettingsFile) -> bytes:
    """The text of a file with the values of another in it. Raises one of ``_UNUSABLE``."""
    # Needed once a setting is changed, and slow to import.
    import tomlkit

    try:
        document = tomlkit.parse(content)
        _change(document, _plain(file), _plain(SettingsFile()))
        changed = tomlkit.dumps(document).encode()
    except Exception as fault:
        # The library stumbles over some rare ways to write a table, with faults of many kinds.
        raise ValueError(words.cannot_change(str(fault))) from fault
    if msgspec.toml.decode(changed, type=SettingsFile) != file:
        raise ValueError(words.CANNOT_CHANGE)
    return changed


def _plain(file: SettingsFile) -> dict[str, Any]:
    """The values as a TOML file has them: lists for tuples."""
    plain: dict[str, Any] = msgspec.json.decode(msgspec.json.encode(file))
    return plain


def _change(table: MutableMapping[str, Any], wanted: Mapping[str, Any], usual: Mapping[str, Any]) -> None:
    """Give a table other values: one that is there already stays as it is written, a usual one stays away."""
    for name in [name for name in table if name not in wanted]:
        del table[name]
    for name, value in wanted.items():
        if value == table.get(name, usual.get(name)):
            continue
        if isinstance(value, dict):
            _change(table.setdefault(name, {}), value, usual[name])
        else:
            table[name] = value


def _read(path: Path) -> bytes:
    # Some editors put a byte order mark before the first letter, which TOML does not know.
    content = read_plain(path, LARGEST + 1).removeprefix(BOM_UTF8)
    if len(content) > LARGEST or max(map(len, content.splitlines()), default=0) > LONGEST_LINE:
        return b"too large = "  # not TOML either: told and set aside like any other damage
    return content


def _set_aside(path: Path) -> Path | None:
    """Rename an unusable file, not a link to it, to a free name beside it; None when that is not possible."""
    path = Path(os.path.realpath(path))
    for number in range(1, 1000):
        aside = path.with_suffix(f".damaged-{number}.toml")
        if not aside.exists():
            try:
                return patiently(partial(path.replace, aside))
            except OSError:
                return None
    return None


def _settings(file: SettingsFile) -> Settings:
    names = file.look.arrangement
    if sorted(names) != sorted(COLOUR_NAMES):
        raise ValueError(words.colours_not_once_each(COLOUR_NAMES, names))
    look = Look(
        arrangement=tuple(COLOUR_NAMES.index(name) for name in names),
        theme=file.look.theme,
        palette=file.look.palette,
        text_scale=file.look.text_scale,
        mirrors=file.look.mirrors,
        letters=file.look.letters,
    )
    if 0 < file.rest_minutes < LEAST_REST:
        raise ValueError(words.rest_too_short(LEAST_REST, file.rest_minutes))
    keys = tuple(file.keys.items())
    remapped(SCREENS, keys)
    return Settings(
        look=look,
        cross=Face(names.index(file.cross)),
        speed=file.speed,
        step_by_step=file.step_by_step,
        reduced_motion=file.reduced_motion,
        sound=file.sound,
        read_aloud=file.read_aloud,
        rest_minutes=file.rest_minutes,
        keys=keys,
        colour_names=names,
        single_keys=file.single_keys,
        turn_buttons=file.turn_buttons,
        learner=check_learner(file.learner),
    )


def _written(settings: Settings) -> SettingsFile:
    look = settings.look
    return msgspec.convert(
        {
            "cross": settings.colour_names[settings.cross],
            "speed": settings.speed,
            "step_by_step": settings.step_by_step,
            "reduced_motion": settings.reduced_motion,
            "sound": settings.sound,
            "read_aloud": settings.read_aloud,
            "rest_minutes": settings.rest_minutes,
            "keys": dict(settings.keys),
            "single_keys": settings.single_keys,
            "turn_buttons": settings.turn_buttons.value,
            "learner": settings.learner,
            "look": {
                "theme": look.theme if look.theme in THEMES else THEMES[0],
                "palette": look.palette if look.palette in PALETTES else PALETTES[0],
                "text_scale": look.text_scale,
                "mirrors": look.mirrors,
                "letters": look.letters,
                "arrangement": settings.colour_names,
            },
        },
        SettingsFile,
    )
